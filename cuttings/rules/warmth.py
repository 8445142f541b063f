"""What spring's warmth brings, and when: moving buds, short shoots, and the season's own pace."""

from datetime import date, timedelta
from functools import lru_cache

from cuttings.climate.climate import Climate
from cuttings.climate.heat import normal_degree_days
from cuttings.climate.wave import YEAR_DAYS, Wave
from cuttings.rules.seasons import LEAF_FALL_WEEKS, Stretch, frosts, weeks

BUDS_MOVE_DEGREE_DAYS = 30.0
SHOOTS_DEGREE_DAYS = (60.0, 150.0)
"""Degree days above 5 °C since midwinter at which the buds of hardy shrubs move, and between which the
shoots of perennials are 5 to 10 cm tall; from memory."""

GROWTH_BASE_C = 5.0
"""The base of those degree days, °C: the usual limit of a temperate growing season."""

GENERAL_SWING_C = 11.0
"""The swing of a day, from its lowest to its highest, where no record tells it, °C; from memory."""

GENERAL_DAY_SPREAD_C = 4.5
"""Standard deviation of single days' means about the year's wave, where no record tells it, °C; from
memory."""


@lru_cache(maxsize=64)
def _warmth(climate: Climate) -> tuple[float, ...]:
    """Degree days above ``GROWTH_BASE_C`` to be expected from midwinter to the end of each day after it."""
    normals = climate.normals
    swing = GENERAL_SWING_C if normals is None else normals.swing_c
    spread = GENERAL_DAY_SPREAD_C if normals is None else normals.spread_c
    from_midwinter = Wave(climate.air.mean_c, climate.air.amplitude_c, 1.0 + YEAR_DAYS / 2)
    return normal_degree_days(from_midwinter, max(swing, 0.0), GROWTH_BASE_C, spread)


def _since_midwinter(climate: Climate, day: date) -> tuple[int, int]:
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
    sums = _warmth(climate)
    if degree_days > sums[-1]:
        return None
    days = next(number for number, total in enumerate(sums) if total >= degree_days)
    return climate.spring_day(year, climate.air.trough_day) + timedelta(days=days)


PACE_HOLDS_DAYS = 230
"""Days from midwinter for which an early or late spring is still felt: until about the end of August."""


def paced(climate: Climate, day: date) -> date:
    """A day that growth brings, moved by what this year's spring is ahead or behind.

    The season is ahead by so many degree days; the later and warmer the day, the fewer days that is. It is
    never moved by more than the keeper saw.
    """
    pace = climate.pace
    if pace is None:
        return day
    year, since = _since_midwinter(climate, day)
    if year != pace.year or since > PACE_HOLDS_DAYS:
        return day
    sums = _warmth(climate)
    moved = _normal_day_of_warmth(climate, year, max(sums[since] - pace.ahead, 0.0))
    shift = (moved - day).days if moved is not None else 0
    return day + timedelta(days=min(max(shift, -abs(pace.days)), abs(pace.days)))


def dormancy(climate: Climate, year: int) -> Stretch:
    """Bare wood: from the leaf fall of a year's autumn to the day the buds move in the spring after it."""
    opens = frosts(climate, year).hard_freeze + weeks(LEAF_FALL_WEEKS)
    moved = day_of_warmth(climate, year if climate.southern else year + 1, BUDS_MOVE_DEGREE_DAYS)
    spring = frosts(climate, year if climate.southern else year + 1)
    return opens, max(opens, moved or spring.last_spring)


def short_shoots(climate: Climate, year: int) -> Stretch | None:
    """While the shoots of hardy perennials are 5 to 10 cm tall, in a year's spring; ``None`` where it is
    never warm enough to tell."""
    first, last = (day_of_warmth(climate, year, degree_days) for degree_days in SHOOTS_DEGREE_DAYS)
    return None if first is None or last is None else (first, last)
