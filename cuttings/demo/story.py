"""A story told in entries: what is written is what a keeper would have recorded, day by day.

A story is told up to a last day; whatever lies after it is left untold, so that the garden looks as it
would have looked then.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

from attrs import evolve

from cuttings.ledger import entries as e
from cuttings.ledger.ids import new_id
from cuttings.ledger.places import Point
from cuttings.words import Cause, Stage, Wood


class Story:
    """Collects the entries of one garden."""

    def __init__(self, last_day: date) -> None:
        self.last_day = last_day
        self._told: list[e.Entry] = []
        self._codes: dict[tuple[int, str], int] = {}

    def tell(self, kind: type[e.Entry], on: date, **fields: Any) -> None:
        """One entry, unless it lies after the last day."""
        if on > self.last_day:
            return
        self._told.append(kind(id="", on=on, **{"who": "R.", **fields}))

    def entries(self) -> list[e.Entry]:
        """Everything told, by day, with the ids that writing it down at noon each day would have given."""
        entries: list[e.Entry] = []
        last = ""
        for entry in sorted(self._told, key=lambda entry: entry.on):
            noon = datetime(entry.on.year, entry.on.month, entry.on.day, 12, tzinfo=UTC)
            last = new_id(noon, after=last)
            entries.append(evolve(entry, id=last))
        return entries

    def begin(self, kind: type[e.Start], on: date, count: int, *, rooted: bool = False, **fields: Any) -> str:
        """A new lot; returns its code."""
        code = self._next(on, "")
        stage = Stage.ROOTED if rooted or fields["method"].starts_rooted else Stage.WAITING
        self.tell(kind, on, lot=code, moves=(e.Move(count=count, target=stage),), **fields)
        return code

    def strike(self, on: date, count: int, wood: Wood, **fields: Any) -> str:
        """Cuttings put in."""
        return self.begin(e.Strike, on, count, wood=wood, method=wood.method, **fields)

    def mark(self, on: date, **fields: Any) -> str:
        """A mark; returns its code."""
        code = self._next(on, "M")
        self.tell(e.Mark, on, code=code, **fields)
        return code

    def check(
        self, on: date, lot: str, rooted: int = 0, failed: int = 0, not_yet: int = 0, **fields: Any
    ) -> None:
        """A look at waiting stems."""
        moves = [
            e.Move(count=count, source=Stage.WAITING, target=target)
            for count, target in ((rooted, Stage.ROOTED), (failed, Stage.LOST))
            if count
        ]
        self.tell(e.Check, on, lot=lot, moves=tuple(moves), not_yet=not_yet, **fields)

    def pot(
        self, on: date, lot: str, count: int, pot: str, volume_l: float, where: str, **fields: Any
    ) -> None:
        """Rooted stems into pots."""
        facts = {"pot": pot, "pot_volume_l": volume_l, "where": where, "mix": "potting", "shade_days": 7}
        self.move(e.Pot, on, lot, count, Stage.ROOTED, Stage.POTTED, **{**facts, **fields})

    def harden(self, first: date, lot: str, count: int, days: Sequence[date], done: date | None) -> None:
        """Hardening off begun, its days, and the day it was finished."""
        self.move(e.Harden, first, lot, count, Stage.POTTED, Stage.HARDENING, step="start")
        for day in days:
            self.tell(e.Harden, day, lot=lot, step="day-done")
        if done is not None:
            self.move(e.Ready, done, lot, count, Stage.HARDENING, Stage.READY)

    def plant(
        self, on: date, lot: str, source: Stage, site: str, *at: Point, spread_m: float, count: int = 0
    ) -> None:
        """Stems planted, at known positions or anywhere on a site."""
        self.move(
            e.Plant, on, lot, count or len(at), source, Stage.PLANTED, site=site, at=at, spread_m=spread_m
        )

    def lose(self, on: date, lot: str, count: int, source: Stage, cause: Cause, **fields: Any) -> None:
        """Stems that died."""
        self.move(e.Lose, on, lot, count, source, Stage.LOST, cause=cause, **fields)

    def move(
        self,
        kind: type[e.LotEntry],
        on: date,
        lot: str,
        count: int,
        source: Stage,
        target: Stage,
        **fields: Any,
    ) -> None:
        """Any other entry that moves stems."""
        self.tell(kind, on, lot=lot, moves=(e.Move(count=count, source=source, target=target),), **fields)

    def _next(self, on: date, prefix: str) -> str:
        number = self._codes[on.year, prefix] = self._codes.get((on.year, prefix), 0) + 1
        return f"{prefix}{on.year % 100:02d}-{number:03d}"
