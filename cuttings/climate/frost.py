"""Frost dates with odds, from one average or from three dates of a published table.

Dates of the last and first frost are taken to follow a normal law, as the published freeze tables of
the national weather services do (NOAA, *Freeze/Frost Data*, Climatography of the United States No. 20,
1971-2000). Where the keeper knows only an average, the spread is a general one and is said to be.
"""

import math
from datetime import date, timedelta

from attrs import frozen

from cuttings.dates import MonthDay, day_of_year

GENERAL_SPREAD_DAYS = 12.0
"""Standard deviation assumed for a last or first frost known only by its average.

The last spring frost at eleven North Carolina stations has standard deviations of 8 to 17 days, twelve
in the middle (NC State University, frost tables by station; see ``tests/published``).
"""

Z90 = 1.2815515655446004
"""The standard normal quantile of 0.9. With the median it is all that most commands ask for, and stands here
so that they need not load ``statistics``."""


def _quantile(chance: float) -> float:
    """The standard normal quantile of a chance above 0 and below 1."""
    known = {0.1: -Z90, 0.5: 0.0, 0.9: Z90}.get(chance)
    if known is not None:
        return known
    from statistics import NormalDist

    return NormalDist().inv_cdf(chance)


def _share_below(value: float, mean: float, sd: float) -> float:
    """The share of a normal law below a value."""
    return math.erfc((mean - value) / (sd * math.sqrt(2.0))) / 2.0


@frozen(cache_hash=True)
class FrostDates:
    """The last frost of spring and the first of autumn at one garden.

    Means and standard deviations are days of a common year. In the southern hemisphere spring comes
    late in the year, so the spring mean is the larger number.
    """

    spring_mean: float
    spring_sd: float
    autumn_mean: float
    autumn_sd: float
    stated: str

    def last_spring(self, year: int, chance: float = 0.5) -> date:
        """The date after which a frost still comes with that chance (0 < chance < 1)."""
        return _dated(year, self.spring_mean - _quantile(chance) * self.spring_sd)

    def first_autumn(self, year: int, chance: float = 0.5) -> date:
        """The date by which the first frost has come with that chance (0 < chance < 1)."""
        return _dated(year, self.autumn_mean + _quantile(chance) * self.autumn_sd)

    def chance_of_later_frost(self, on: date) -> float:
        """The chance that spring frost is not yet over on a date, 0 to 1."""
        return 1.0 - _share_below(on.timetuple().tm_yday, self.spring_mean, self.spring_sd)

    def chance_of_frost_already(self, on: date) -> float:
        """The chance that autumn's first frost has come by a date, 0 to 1."""
        return _share_below(on.timetuple().tm_yday, self.autumn_mean, self.autumn_sd)


def _dated(year: int, day: float) -> date:
    return date(year, 1, 1) + timedelta(days=round(day) - 1)


def frost_dates(
    last: MonthDay | None,
    first: MonthDay | None,
    last_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None,
    first_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None,
) -> FrostDates | None:
    """Frost dates from averages, or from the dates with odds of 10, 50 and 90 % where they are given.

    ``None`` where spring's or autumn's are not known at all.
    """
    spring = _law(last, last_odds, later_first=True)
    autumn = _law(first, first_odds, later_first=False)
    if spring is None or autumn is None:
        return None
    stated = (
        "your 10, 50 and 90 % frost dates"
        if last_odds is not None and first_odds is not None
        else f"your average frost dates, with a general spread of {GENERAL_SPREAD_DAYS:.0f} days either way"
    )
    return FrostDates(*spring, *autumn, stated=stated)


def _law(
    average: MonthDay | None, odds: tuple[MonthDay, ...] | None, *, later_first: bool
) -> tuple[float, float] | None:
    """Mean and standard deviation, in days: from three quantiles if given, else from the average."""
    if odds is not None:
        days = [day_of_year(each) for each in odds]
        spread = (days[0] - days[2]) if later_first else (days[2] - days[0])
        return (days[1] + (days[0] + days[2]) / 2) / 2, spread / (2 * Z90)
    if average is not None:
        return float(day_of_year(average)), GENERAL_SPREAD_DAYS
    return None
