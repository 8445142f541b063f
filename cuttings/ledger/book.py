"""The book: lots, marks, sites, holds and goals, folded from entries.

The fold is pure and never fails. Entries are sorted by day and id, reversed ones are left out, and each
of the rest is applied; one that does not fit is left out too and named among the problems, so that one
bad entry never hides the others. New entries are accepted only if they bring no new problem.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from attrs import field, frozen

from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.containers import Kind
from cuttings.ledger.folding import LASTING, Folding, MarkState, Problem, effective, filled_spots
from cuttings.ledger.goals import Goal
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Garden, Hold, Site
from cuttings.ledger.ticks import Aside
from cuttings.words import Method


@frozen(kw_only=True)
class Book:
    """Everything the entries amount to. Mappings are in the order things began."""

    entries: tuple[e.Entry, ...] = ()
    garden: Garden | None = None
    areas: tuple[str, ...] = ()
    sites: Mapping[str, Site] = field(factory=dict)
    lots: Mapping[str, Lot] = field(factory=dict)
    marks: Mapping[str, MarkState] = field(factory=dict)
    holds: Mapping[str, Hold] = field(factory=dict)
    signs: tuple[e.SeasonSign, ...] = ()
    plant_facts: tuple[e.PlantFacts, ...] = ()
    put_aside: Mapping[str, Aside] = field(factory=dict)
    containers: Mapping[str, Kind] = field(factory=dict)
    goals: Mapping[tuple[str, Method], Goal] = field(factory=dict)
    problems: tuple[Problem, ...] = ()

    @property
    def last_id(self) -> str:
        return max((entry.id for entry in self.entries), default="")

    def entry(self, entry_id: str) -> e.Entry | None:
        return next((entry for entry in self.entries if entry.id == entry_id), None)

    def as_of(self, day: date) -> "Book":
        """The book as it stood on a day: without later entries, but with every mistake put right."""
        if not self.entries or self.entries[-1].on <= day:
            return self
        lasting = (e.Reverse, *LASTING)
        return fold(entry for entry in self.entries if entry.on <= day or isinstance(entry, lasting))

    def live_lots(self) -> tuple[Lot, ...]:
        """Lots that still hold stems in the keeper's care."""
        return tuple(lot for lot in self.lots.values() if lot.living)

    def open_marks(self) -> tuple[e.Mark, ...]:
        return tuple(state.mark for state in self.marks.values() if state.done is None)

    def next_code(self, on: date, prefix: str = "") -> str:
        """The next running code of a year: ``26-014`` for lots, ``M26-003`` with the prefix ``M``.

        A code is never used twice, not even one whose entry has been reversed.
        """
        year = f"{prefix}{on.year % 100:02d}-"
        used = [code[len(year) :] for code in self._codes() if code.startswith(year)]
        return f"{year}{max((int(number) for number in used if number.isdigit()), default=0) + 1:03d}"

    def _codes(self) -> Iterable[str]:
        for entry in self.entries:
            if isinstance(entry, e.Start):
                yield entry.lot
            elif isinstance(entry, e.Split):
                yield entry.into
            elif isinstance(entry, e.Mark):
                yield entry.code

    def accept(self, new: Sequence[e.Entry]) -> "Book":
        """The book with new entries.

        Raises:
            Refused: one of them, or an entry that stands already, would no longer fit.
        """
        after = fold((*self.entries, *new))
        known = {problem.entry for problem in self.problems}
        fresh = {entry.id for entry in new}
        for problem in after.problems:
            if problem.entry in known:
                continue
            if problem.entry in fresh:
                raise Refused(problem.sentence)
            hurt = after.entry(problem.entry)
            day = spoken(hurt.on) if hurt else "a later day"
            kind = hurt.kind if hurt else "later"
            raise Refused(f"The {kind} entry of {day} would no longer fit: {problem.sentence}")
        return after


def fold(entries: Iterable[e.Entry]) -> Book:
    """The book those entries make, in whatever order they are given."""
    everything = sorted(entries, key=lambda entry: entry.order)
    standing = effective(everything)
    folding = Folding(frozenset(entry.id for entry in everything), filled_spots(standing))
    # What the garden and its sites are like holds on every day, also for what is written down of the past.
    for entry in sorted(standing, key=lambda entry: not isinstance(entry, LASTING)):
        folding.apply(entry)
    return Book(
        entries=tuple(everything),
        garden=folding.garden,
        areas=tuple(folding.areas),
        sites=folding.sites,
        lots=folding.lots,
        marks=folding.marks,
        holds=folding.holds,
        signs=tuple(folding.signs),
        plant_facts=tuple(folding.plant_facts),
        put_aside=folding.put_aside,
        containers=folding.containers,
        goals=folding.goals,
        problems=tuple(folding.problems),
    )
