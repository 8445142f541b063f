"""A lot, and what its own entries say of it."""

from collections.abc import Mapping
from datetime import date
from typing import TypeVar

from attrs import frozen

from cuttings.ledger import entries as e
from cuttings.words import LIVING, Method, PlantType, Stage

K = TypeVar("K", bound=e.LotEntry)


@frozen(kw_only=True)
class Lot:
    """Stems started together from one mother plant by one method on one day.

    ``origin`` is the entry that began them. A lot split off another has the other's origin, and its
    ``entries`` begin with what happened to its stems before the split.
    """

    code: str
    plant: str
    called: str
    method: Method
    started_on: date
    started: int
    stages: Mapping[Stage, int]
    plant_type: PlantType | None = None
    mother: str = ""
    where: str = ""
    origin: e.Start
    entries: tuple[e.LotEntry, ...] = ()

    def after(self, entry: e.LotEntry, stages: Mapping[Stage, int], where: str) -> "Lot":
        """The lot after one more entry. Written out, because every entry of a ledger passes through here."""
        return Lot(
            code=self.code,
            plant=self.plant,
            called=self.called,
            method=self.method,
            started_on=self.started_on,
            started=self.started,
            stages=stages,
            plant_type=self.plant_type,
            mother=self.mother,
            where=where,
            origin=self.origin,
            entries=(*self.entries, entry),
        )

    def at(self, stage: Stage) -> int:
        """How many stems stand at a stage."""
        return self.stages.get(stage, 0)

    @property
    def living(self) -> int:
        """Stems still in the keeper's care."""
        return sum(self.at(stage) for stage in LIVING)

    @property
    def plant_called(self) -> str:
        """The name its keeper uses, or the botanical one."""
        return self.called or self.plant

    def of_kind(self, kind: type[K]) -> tuple[K, ...]:
        """Its entries of one kind, oldest first."""
        return tuple(entry for entry in self.entries if isinstance(entry, kind))

    def latest(self, kind: type[K]) -> K | None:
        """Its newest entry of one kind."""
        found = self.of_kind(kind)
        return found[-1] if found else None

    def reached(self, stage: Stage) -> date | None:
        """The last day on which stems came to a stage from another."""
        days = [
            entry.on
            for entry in self.entries
            for move in entry.moves
            if move.target is stage and move.source is not stage
        ]
        return days[-1] if days else None

    def where_stand(self, stage: Stage) -> str:
        """The keeper's words for where stems of a stage stand: potted ones where they were last potted to,
        the others where they began."""
        if stage in (Stage.WAITING, Stage.ROOTED):
            return self.origin.where
        return next((pot.where for pot in reversed(self.of_kind(e.Pot)) if pot.where), self.where)

    @property
    def root_length_m(self) -> float | None:
        """The longest root seen at the newest look, or potting, that measured one."""
        return None if self.roots_measured is None else self.roots_measured.root_length_m

    @property
    def roots_measured(self) -> e.Check | e.Pot | None:
        """The newest look, or potting, that measured the longest root."""
        looks: list[e.Check | e.Pot] = [*self.of_kind(e.Check), *self.of_kind(e.Pot)]
        measured = [entry for entry in looks if entry.root_length_m is not None]
        return max(measured, key=lambda entry: entry.order, default=None)

    @property
    def worth(self) -> float:
        """What one of its plants counts against an ordinary one, as its newest note that tells it says."""
        told = [note.worth for note in self.of_kind(e.Note) if note.worth is not None]
        return told[-1] if told else 1.0

    @property
    def label(self) -> str:
        """The text of its newest label; empty where it has none. What was written before the lot was split
        off bears another lot's code, and is none of its own."""
        for entry in reversed(self.entries):
            if entry.lot == self.code and (text := _label(entry)):
                return text
        return ""


def _label(entry: e.LotEntry) -> str:
    match entry:
        case e.Pot():
            return entry.label
        case e.Labelled():
            return entry.text
        case _:
            return ""
