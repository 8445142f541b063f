"""What the ledger holds about the rooting of one lot: how warm it stood, and what each look at it told."""

from datetime import date, timedelta

from attrs import frozen

from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.plants.model import Way
from cuttings.rules.places import Place, place_of
from cuttings.rules.rooting import Bench, RootingClock
from cuttings.takes.rooting import Looks
from cuttings.words import Cover, Stage, Wood

ROOTED_UNDER_COVER = frozenset(wood.method for wood in Wood if wood.is_leafy)
"""Leafy cuttings are rooted in closed air; a find of one is taken for such (common practice)."""

LEAST_GAP_DAYS = 0.5
"""A stem rooted at some time before the look that found it: half a day at the least."""


@frozen
class Tally:
    """What became of the stems of a lot that waited for roots: ``rooted``, ``failed``, still ``waiting``, or
    gone to others before anybody knew."""

    rooted: int
    failed: int
    waiting: int
    gone: int

    @property
    def started(self) -> int:
        return self.rooted + self.failed + self.waiting + self.gone


def closed_air(lot: Lot) -> bool:
    """Whether the lot was rooted in closed or heated air. Bottom heat under leafless wood warms its base
    alone: the tops are kept cool (common practice)."""
    origin = lot.origin
    if isinstance(origin, e.Strike):
        return origin.cover is not Cover.NONE or (origin.heat_c is not None and origin.wood.is_leafy)
    return lot.method in ROOTED_UNDER_COVER


def bench_of(lot: Lot) -> Bench:
    """What keeps its roots warm; air that is closed but not heated is a little warmer than the soil."""
    place = Place.OPEN if lot.method.is_layer else place_of(lot.origin.where)
    heated = isinstance(lot.origin, e.Strike) and lot.origin.heat_c is not None
    if heated or place is Place.INDOORS:
        return Bench.WARM
    return Bench.FRAME if closed_air(lot) or place is Place.FRAME else Bench.OPEN


def is_found(lot: Lot) -> bool:
    """Whether its stems were found part-way, so that nobody knows when they began to root."""
    return isinstance(lot.origin, e.Find)


def begun_on(lot: Lot, way: Way) -> date:
    """The day its stems began to root. Those found part-way are taken to be as far on as the quickest would
    be."""
    quickest = min(way.rooting_days) if way.rooting_days and is_found(lot) else 0
    return lot.started_on - timedelta(days=quickest)


def tally_of(lot: Lot) -> Tally:
    """What became of the stems that waited, by the lot's own entries; those that had rooted before they were
    split off have rooted in the lot that they were split into."""
    rooted, failed, gone = brought_along(lot, Stage.WAITING), 0, 0
    for entry in lot.entries:
        if entry.lot != lot.code or isinstance(entry, e.Split):
            continue
        for move in entry.moves:
            if move.source is Stage.WAITING:
                rooted += move.count * (move.target is Stage.ROOTED)
                failed += move.count * (move.target is Stage.LOST)
                gone += move.count * (move.target in (Stage.GIVEN, Stage.SOLD))
    return Tally(rooted, failed, lot.at(Stage.WAITING), gone)


def brought_along(lot: Lot, beyond: Stage) -> int:
    """How many stems that had gone beyond the stage they all began at came into a lot as it was split off,
    less those that went on from it into another."""
    if any(move.target is not beyond for move in lot.origin.moves):
        return 0
    found = 0
    for split in lot.of_kind(e.Split):
        count = sum(move.count for move in split.moves if move.source is not beyond)
        found += count * ((split.into == lot.code) - (split.lot == lot.code))
    return found


def looked_on(lot: Lot) -> tuple[date, ...]:
    """The days on which the lot was looked at, or left in peace from: finding stems disturbs them too."""
    checks = tuple(check.on for check in lot.of_kind(e.Check))
    return (lot.started_on, *checks) if is_found(lot) else checks


def looks_of(lot: Lot, clock: RootingClock) -> Looks:
    """What the looks at a lot told, in the days of its clock. Nobody looks for roots on the day of a find:
    those seen at the first look after it may have been there already."""
    rooted: list[tuple[float, float, int]] = []
    days = [0.0]
    for check in lot.of_kind(e.Check):
        days.append(max(clock.passed(check.on), days[-1]))
        count = sum(move.count for move in check.moves if move.target is Stage.ROOTED)
        if count and check.lot == lot.code:
            seen = max(days[-1], LEAST_GAP_DAYS)
            rooted.append((min(days[-2], seen - LEAST_GAP_DAYS), seen, count))
    told = tally_of(lot)
    return Looks(rooted=tuple(rooted), waiting=told.waiting, failed=told.failed, last=days[-1])
