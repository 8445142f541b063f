"""Lots made for the tests of what is learned: struck or pegged on a day, and looked at."""

from collections.abc import Sequence
from datetime import date, timedelta

from attrs import evolve, frozen

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.lots import Lot
from cuttings.plants.model import Way
from cuttings.rules.rooting import Bench
from cuttings.takes.learned import Learned
from cuttings.words import Cover, Wood

STARTED = date(2026, 6, 1)


@frozen
class Look:
    """What was seen so many days after the start."""

    days: int
    rooted: int = 0
    failed: int = 0


def lot_of(
    way: Way,
    looks: Sequence[Look] = (),
    *,
    started: date = STARTED,
    stems: int = 8,
    bench: Bench = Bench.WARM,
    plant: str = "Ribes rubrum",
    found: bool = False,
    code: str = "26-001",
) -> Lot:
    """One lot, looked at."""
    story = Story(date(2200, 1, 1))
    if found:
        begun = story.begin(e.Find, started, stems, method=way.method, plant=plant)
    elif way.method.is_cutting:
        heat = 20.0 if bench is Bench.WARM else None
        cover = Cover.FRAME if bench is Bench.FRAME else Cover.NONE
        wood = Wood(way.method.removesuffix("-cutting"))
        begun = story.strike(started, stems, wood, plant=plant, heat_c=heat, cover=cover)
    else:
        begun = story.begin(e.Layer, started, stems, method=way.method, plant=plant)
    for look in looks:
        on = started + timedelta(days=look.days)
        story.check(on, begun, rooted=look.rooted, failed=look.failed)
    book = fold(story.entries())
    assert not book.problems, book.problems
    lot = book.lots[begun]
    entries = tuple(evolve(entry, lot=code) for entry in lot.entries)
    origin = entries[0]
    assert isinstance(origin, e.Start)
    return evolve(lot, code=code, origin=origin, entries=entries)


class Known(Learned):
    """What lots of one way have taught; no catalogue is asked."""

    def __init__(self, way: Way, lots: Sequence[Lot], climate: object = None) -> None:
        super().__init__(lots, None, climate)  # type: ignore[arg-type]
        self._way = way

    def way_of(self, lot: Lot) -> Way:
        del lot
        return self._way
