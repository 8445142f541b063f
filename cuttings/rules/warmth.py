"""Spring's warmth in degree days, and the dates that growth brings, at the pace of the year.

Degree days are counted from midwinter above 5 °C, as are to be expected from the garden's own round of
temperature.
"""

from datetime import date, timedelta
from functools import lru_cache

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.climate.heat import normal_degree_days
from cuttings.climate.normals import BLOOM_BASE_C, GROWTH_BASE_C, running_sums
from cuttings.climate.wave import YEAR_DAYS, Wave

GENERAL_SWING_C = 11.0
"""The swing of a day, from its lowest to its highest, where no record tells it, °C; from memory."""

GENERAL_DAY_SPREAD_C = 4.5
"""Standard deviation of single days' means about the year's wave, where no record tells it, °C; from
memory."""


PACE_HOLDS_DAYS = 230
"""Days from midwinter for which an early or late spring is still felt: until about the end of August."""


@lru_cache(maxsize=64)
def warmth(climate: Climate) -> tuple[float, ...]:
    """Degree days above ``GROWTH_BASE_C`` to be expected from midwinter to the end of each day after it."""
    if climate.normals is not None:
        return running_sums(climate.normals.growth, climate.air.trough_day)
    from_midwinter = Wave(climate.air.mean_c, climate.air.amplitude_c, 1.0 + YEAR_DAYS / 2)
    return normal_degree_days(from_midwinter, GENERAL_SWING_C, GROWTH_BASE_C, GENERAL_DAY_SPREAD_C)


@lru_cache(maxsize=64)
def bloom_warmth(climate: Climate) -> tuple[float, ...]:
    """Degree days above 10 °C, by the daily average, to be expected from New Year to the end of each day;
    from 1 July in the south. Without a record they come from the round of temperature, and are a week or
    two late."""
    if climate.normals is not None:
        return running_sums(climate.normals.bloom, 182.0 if climate.southern else 1.0)
    return normal_degree_days(from_new_year(climate), 0.0, BLOOM_BASE_C, GENERAL_DAY_SPREAD_C)


def count_begins(climate: Climate, on: date) -> date:
    """The day from which degree days are counted to a day: New Year, or 1 July in the south."""
    if not climate.southern:
        return date(on.year, 1, 1)
    return date(on.year if on.month >= 7 else on.year - 1, 7, 1)


def from_new_year(climate: Climate) -> Wave:
    """The air's round with New Year as its first day, or 1 July in the south."""
    turned = 181.0 if climate.southern else 0.0
    return evolve(climate.air, peak_day=climate.air.peak_day - turned)


def since_midwinter(climate: Climate, day: date) -> tuple[int, int]:
    """The calendar year of the spring a day belongs to, and the days since that year's midwinter."""
    for year in (day.year + 1, day.year, day.year - 1):
        midwinter = climate.spring_day(year, climate.air.trough_day)
        if midwinter <= day:
            return year, (day - midwinter).days
    raise AssertionError("midwinter comes every year")


def day_of_warmth(climate: Climate, year: int, degree_days: float) -> date | None:
    """The day of a year's spring by which so many degree days above 5 °C are to be expected, at the
    season's own pace where the keeper has told of it; ``None`` where a year never has so many."""
    day = _normal_day_of_warmth(climate, year, degree_days)
    return None if day is None else paced(climate, day)


def _normal_day_of_warmth(climate: Climate, year: int, degree_days: float) -> date | None:
    sums = warmth(climate)
    if degree_days > sums[-1]:
        return None
    days = next(number for number, total in enumerate(sums) if total >= degree_days)
    return climate.spring_day(year, climate.air.trough_day) + timedelta(days=max(days, 1) - 1)


def paced(climate: Climate, day: date) -> date:
    """A day that growth brings, moved by what this year's spring is ahead or behind.

    The season is ahead by so many degree days; the later and warmer the day, the fewer days that is. What
    lies before the sign has happened and stays, nothing is brought forward past the day it was seen, and no
    date is moved by more than the keeper saw.
    """
    pace = climate.pace
    if pace is None or day < pace.since:
        return day
    year, since = since_midwinter(climate, day)
    if year != pace.year or since > PACE_HOLDS_DAYS:
        return day
    moved = _normal_day_of_warmth(climate, year, max(warmth(climate)[since + 1] - pace.ahead, 0.0))
    shift = (moved - day).days if moved is not None else 0
    shift = min(max(shift, -abs(pace.days)), abs(pace.days))
    return max(day + timedelta(days=shift), pace.since)


def pace_said(climate: Climate, day: date) -> str:
    """The sentence about an early or late season, with a blank before it, where a day was moved by it or is
    that of a sign; else empty."""
    pace = climate.pace
    if pace is None or pace.days == 0:
        return ""
    return f" {pace.said}" if paced(climate, day) != day or day in (pace.since, pace.workable) else ""


def degree_days_between(climate: Climate, first: date, second: date) -> float:
    """Degree days to be expected from one day of a year's spring to another; below 0 if the second is
    earlier."""
    sums = warmth(climate)
    day_one, day_two = (
        min(max(since_midwinter(climate, day)[1], 0), len(sums) - 1) for day in (first, second)
    )
    return sums[day_two] - sums[day_one]
