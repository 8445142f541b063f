"""Made-up ledgers of two years whose truth is not the handbook's, to see what the first year is worth in the
second."""

import math
import random
from collections.abc import Sequence
from datetime import date
from functools import cache

from attrs import frozen

from cuttings.ledger.lots import Lot
from cuttings.plants.model import Way
from cuttings.rules.rooting import RootingClock
from cuttings.takes.curve import Curve
from cuttings.takes.evidence import begun_on, bench_of
from cuttings.takes.learned import Learned
from cuttings.takes.rooting import Looks, posterior
from cuttings.words import Method
from tests.rules.gardens import COLD
from tests.takes.lots import Look, lot_of

LEDGERS = 100
LOTS_A_WAY = 4
FIRST_YEAR, SECOND_YEAR = date(2025, 6, 1), date(2026, 6, 1)
WAYS = tuple(
    (f"Plant {number}", Way(Method.SOFTWOOD_CUTTING, rooting_days=days))
    for number, days in enumerate(((14, 28), (21, 42), (28, 42), (28, 84), (42, 90), (60, 120)))
)
GARDEN_TRUTH_SD, WAY_TRUTH_SD, LOT_TRUTH_SD = 0.2, 0.25, 0.12
"""How much later than published a garden, a way and a lot truly are, in logarithms of days: further off than
the program expects."""


@frozen
class Value:
    """The mean error of the second year's forecasts, in days: by the handbook alone, and by the first year
    too."""

    handbook: float
    learned: float


class _Ledger(Learned):
    """What the lots of one ledger have taught; each plant has one way."""

    def __init__(self, lots: Sequence[Lot]) -> None:
        super().__init__(lots, None, COLD)  # type: ignore[arg-type]

    def way_of(self, lot: Lot) -> Way:
        return dict(WAYS)[lot.plant]


@cache
def value() -> Value:
    """The errors over all ledgers."""
    by_handbook, by_ledger = [], []
    for number in range(LEDGERS):
        chance = random.Random(number)
        garden = chance.gauss(0.0, GARDEN_TRUTH_SD)
        truths = {name: garden + chance.gauss(0.0, WAY_TRUTH_SD) for name, _ in WAYS}
        first = [
            _grown(chance, name, way, truths[name], f"25-{each:03d}")
            for name, way in WAYS
            for each in range(LOTS_A_WAY)
        ]
        for name, way in WAYS:
            truth = math.exp(_curve(way).centre + truths[name] + chance.gauss(0.0, LOT_TRUTH_SD))
            lot = lot_of(way, started=SECOND_YEAR, plant=name, code="26-001")
            by_handbook.append(abs(_forecast(lot, way, _Ledger([lot])) - truth))
            by_ledger.append(abs(_forecast(lot, way, _Ledger([*first, lot])) - truth))
    return Value(sum(by_handbook) / len(by_handbook), sum(by_ledger) / len(by_ledger))


def _curve(way: Way) -> Curve:
    assert way.rooting_days is not None
    return Curve.of_range(*way.rooting_days)


def _forecast(lot: Lot, way: Way, learned: Learned) -> float:
    """The days by which half of a lot that nobody has looked at has rooted."""
    clock = RootingClock.of(way, begun_on(lot, way), COLD, bench_of(lot))
    assert clock is not None
    return posterior(learned.prior(lot, way, clock)[0], Looks(waiting=8)).half_by(0.5)


def _grown(chance: random.Random, plant: str, way: Way, later: float, code: str) -> Lot:
    """A lot of the first year, looked at three times; what has not rooted by the last look has died."""
    published = _curve(way)
    truth = Curve(published.centre + later + chance.gauss(0.0, LOT_TRUTH_SD), published.spread)
    stems, share = chance.randint(6, 15), chance.betavariate(2.4, 1.6)
    times = [truth.day(chance.random() or 0.5) if chance.random() < share else math.inf for _ in range(stems)]
    days = [round(published.day(0.1)), round(published.day(0.5)), round(truth.day(0.9)) + 7]
    looks, before = list[Look](), 0
    for on in sorted(set(days)):
        looks.append(Look(on, rooted=sum(before < time <= on for time in times)))
        before = on
    looks[-1] = Look(looks[-1].days, looks[-1].rooted, failed=sum(time > before for time in times))
    return lot_of(way, looks, started=FIRST_YEAR, stems=stems, plant=plant, code=code)
