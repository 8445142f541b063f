"""Whether nine times in ten is nine times in ten: made-up lots whose truth is known, and what is told of
them.

Run it by hand to write the page anew: `python -m tests.takes.calibration > docs/calibration.md`.

The truth of each lot is drawn from what is thought before anybody looks (the shift of its rooting times, how
far they spread, the share that roots); its stems are drawn from that truth, and looked at on some days. The
truth half again as slow or fast as published is tried too, which what is thought beforehand holds for
unlikely.
"""

import math
import random
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

import numpy as np
from attrs import frozen
from scipy.stats import beta

from cuttings.takes.curve import Curve
from cuttings.takes.learned import GARDEN_SD, LOT_SD, WAY_SD
from cuttings.takes.rooting import SPREAD_SD, Looks, Posterior, Prior, posterior
from tests.takes.laws import share_laws
from tests.takes.two_years import value

LOTS = 1_000
SD = math.hypot(GARDEN_SD, WAY_SD, LOT_SD)
HALF_AGAIN = math.log(1.5)
RANGES = ((14, 28), (21, 42), (28, 42), (28, 84), (42, 90), (60, 120), (90, 180))
"""Published ranges, in days, as the catalogue has them."""


@frozen
class Regime:
    """How lots are looked at, and what is thought of the share that roots."""

    name: str
    looks: int
    takes: float
    fails: float


REGIMES = (
    Regime("few checks", 2, 2.4, 1.6),
    Regime("many checks", 10, 2.4, 1.6),
    Regime("half never root", 5, 6.0, 6.0),
)
TRUTHS = {"as published": None, "half again as slow": HALF_AGAIN, "half again as fast": -HALF_AGAIN}
"""The shift of the truth, in logarithms of days; drawn where there is none."""


TOLD_OF_RANGES = """\
# Is nine times in ten nine times in ten?

`python -m tests.takes.calibration` makes up 1,000 lots for each row, from seeds that stay the same: lots of 4
to 20 stems, with a range of rooting times as the catalogue has them, looked at on days chosen at random. Of
each the program tells the date by which half of those that root have done so, and the share that roots, each
with the two ends between which it lies nine times in ten. The table counts in how many of 100 lots the truth
lay between them.

The truth is drawn from what the program holds for likely before anybody looks. In the lower rows it is half
again as slow, or as fast, as published for every lot, which the program does not expect.

| looks | truth | date | share |
| --- | --- | ---: | ---: |"""

TOLD_OF_FORECASTS = """\
## Is the second year better than the first?

The same command makes up 100 ledgers of two years. In each, six ways of making more plants root sooner or
later than published, and so does the garden as a whole. Four lots of each way are looked at in the first
year; in the second year one more of each is begun, and its forecast is set against the day on which half of
it roots. The error is the number of days between the two, in the mean of all lots.

| forecast of the second year | mean error, days |
| --- | ---: |"""


@frozen
class Covered:
    """How often, 0 to 1, the truth lay in what is said nine times in ten: of the date, and of the share that
    roots."""

    date: float
    take: float


def lots(regime: Regime, shift: float | None) -> Iterator[tuple[Curve, float, Posterior]]:
    """Each lot's true curve and share, and what is told of it."""
    chance = random.Random(f"{regime.name} {shift}")
    for _ in range(LOTS):
        published = Curve.of_range(*chance.choice(RANGES))
        moved = chance.gauss(0.0, SD) if shift is None else shift
        spread = published.spread * math.exp(chance.gauss(0.0, SPREAD_SD))
        truth = Curve(published.centre + moved, spread)
        share = chance.betavariate(regime.takes, regime.fails)
        times = [
            truth.day(chance.random() or 0.5) if chance.random() < share else math.inf
            for _ in range(chance.randint(4, 20))
        ]
        first, last = published.day(0.1), published.day(0.9) * 1.4
        days = sorted(chance.uniform(first, last) for _ in range(regime.looks))
        prior = Prior(published, 0.0, SD, regime.takes, regime.fails)
        yield truth, share, posterior(prior, seen(times, days))


def seen(times: Sequence[float], days: Sequence[float]) -> Looks:
    """What looks on some days tell of stems that root at some times."""
    edges = [0.0, *days]
    counts = [(first, last, sum(first < time <= last for time in times)) for first, last in pairwise(edges)]
    rooted = tuple(each for each in counts if each[2])
    return Looks(rooted, waiting=sum(time > edges[-1] for time in times), last=edges[-1])


@cache
def covered(regime: Regime, shift: float | None) -> Covered:
    """How often the truth lay in what is said nine times in ten."""
    dates = takes = 0
    for truth, share, told in lots(regime, shift):
        dates += told.half_by(0.05) <= math.exp(truth.centre) <= told.half_by(0.95)
        takes += 0.05 <= part_below(told, share) <= 0.95
    return Covered(dates / LOTS, takes / LOTS)


def part_below(told: Posterior, share: float) -> float:
    """How much of what is thought of the share that roots lies below a share."""
    weights, takes, fails = (np.array(column) for column in zip(*share_laws(told), strict=True))
    return float(weights @ beta.cdf(share, takes, fails))


def value_rows() -> list[str]:
    """What the first year is worth in the second, as rows of the page."""
    found = value()
    return [
        f"| by the published range alone | {found.handbook:.1f} |",
        f"| by the first year's lots too | {found.learned:.1f} |",
        "",
        f"That is {found.learned / found.handbook * 100:.0f} in 100 of the error of the published range.",
    ]


def page() -> str:
    """The figures of all regimes as a page."""
    rows = [
        f"| {regime.name} | {name} | {found.date * 100:.1f} | {found.take * 100:.1f} |"
        for name, shift in TRUTHS.items()
        for regime in REGIMES
        for found in [covered(regime, shift)]
    ]
    return "\n".join((TOLD_OF_RANGES, *rows, "", TOLD_OF_FORECASTS, *value_rows(), ""))


if __name__ == "__main__":
    print(page(), end="")
