"""When roots grow and when summer is too hard for them: the growing year between two winters."""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache

from cuttings.climate.climate import Climate
from cuttings.climate.wave import YEAR_DAYS, round_the_year
from cuttings.rules.seasons import ROOTS_GROW_C, Stretch

HEAT_C = 30.0
"""A mean daily maximum from which new roots cannot keep up: plants suffer on days above 30 °C (86 °F), the
days that the American Horticultural Society's heat zones count."""

DRY_MM_PER_C = 2.0
"""A month is dry if its rain in millimetres is less than twice its mean temperature in °C (Bagnouls and
Gaussen, 1953; the rule of the climate diagrams of Walter and Lieth; from memory)."""

SHORTEST_HARD_SUMMER_DAYS = 14
"""Less heat or drought than this is not worth waiting for; from memory."""

SHORTEST_SEASON_DAYS = 30
"""A growing season shorter than this is not believed, and every day is counted instead; from memory."""


@lru_cache(maxsize=512)
def hard_summer(climate: Climate, year: int) -> Stretch | None:
    """The heat and drought of the summer that begins in a year, as far as a station's record tells; else
    ``None``."""
    normals = climate.normals
    if normals is None:
        return None
    trying = [day for day in range(1, 366) if normals.highest.at(day) >= HEAT_C]
    if normals.rain_mm:
        dry = [
            normals.rain_mm[month - 1] < DRY_MM_PER_C * normals.mean.at(_middle_of(month))
            for month in range(1, 13)
        ]
        trying += [
            day for day in range(1, 366) if dry[(date(2023, 1, 1) + timedelta(days=day - 1)).month - 1]
        ]
    # Only what lies round midsummer: a dry winter does not hurt what is at rest.
    near = sorted({round(round_the_year(day - climate.air.peak_day)) for day in trying})
    first, last = _longest_run([days for days in near if abs(days) <= YEAR_DAYS / 4])
    if last - first < SHORTEST_HARD_SUMMER_DAYS:
        return None
    peak = climate.autumn_day(year + 1 if climate.southern else year, climate.air.peak_day)
    return peak + timedelta(days=first), peak + timedelta(days=last)


def _longest_run(days: Sequence[int]) -> tuple[int, int]:
    """The first and last of the longest unbroken run of days; a day or two between do not break it."""
    best = run = (0, 0)
    for number, day in enumerate(days):
        run = (run[0] if number and day - days[number - 1] <= 3 else day, day)
        best = max(best, run, key=lambda each: each[1] - each[0])
    return best


def _middle_of(month: int) -> int:
    return date(2023, month, 15).timetuple().tm_yday


@lru_cache(maxsize=512)
def growing_season(climate: Climate, year: int) -> Stretch | None:
    """The stretch in which roots grow outdoors: while the soil at root depth is above ``ROOTS_GROW_C``.

    ``None`` where it hardly ever is; the whole year, from midwinter on, where it always is.
    """
    rises, falls = climate.soil.rises_through(ROOTS_GROW_C), climate.soil.falls_through(ROOTS_GROW_C)
    after = year + 1 if climate.southern else year
    if rises is None or falls is None:
        if climate.soil.mean_c <= ROOTS_GROW_C:
            return None
        opens = climate.spring_day(year, climate.soil.trough_day)
        return opens, climate.spring_day(year + 1, climate.soil.trough_day) - timedelta(days=1)
    opens, closes = climate.spring_day(year, rises), climate.autumn_day(after, falls)
    return (opens, closes) if (closes - opens).days >= SHORTEST_SEASON_DAYS else None


def growing_days_after(climate: Climate, start: date, days: int) -> date:
    """The day that lies so many growing days after a start; every day counts where there is no summer."""
    if growing_season(climate, start.year) is None:
        return start + timedelta(days=days)
    day = start
    for year in range(start.year - 1, start.year + 2 + days // SHORTEST_SEASON_DAYS):
        season = growing_season(climate, year)
        if season is None or season[1] < day:
            continue
        first = max(day, season[0])
        room = (season[1] - first).days
        if days <= room:
            return first + timedelta(days=days)
        days -= room + 1
        day = season[1] + timedelta(days=1)
    return day + timedelta(days=days)


def out_of_winter(climate: Climate, day: date) -> date:
    """The day itself in the growing season, otherwise the day the next season begins."""
    return growing_days_after(climate, day, 0)
