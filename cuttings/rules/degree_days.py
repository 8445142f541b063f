"""Degree days of a garden's year by each method in use: measured where there is a record, else estimated."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING

from cuttings.climate.climate import Climate
from cuttings.climate.heat import (
    accumulated,
    degree_days_86_50,
    degree_days_average,
    degree_days_sine,
    normal_degree_days,
)
from cuttings.rules.warmth import GENERAL_DAY_SPREAD_C, GENERAL_SWING_C, count_begins, from_new_year
from cuttings.units import celsius_to_fahrenheit, fahrenheit_difference

if TYPE_CHECKING:  # numpy is loaded only where a record is read
    from cuttings.climate.series import Series

SINE, AVERAGE, MODIFIED = "single sine", "daily average", "modified 86/50"

SOURCES = {
    SINE: "Baskerville and Emin, Ecology, 1969",
    AVERAGE: "McMaster and Wilhelm, Agricultural and Forest Meteorology 87, 1997, method 1",
    MODIFIED: "Iowa State University, Agronomy 541: Growing degree day rules",
}

FEWEST_DAYS = 330
"""Days of a year that must have been read for it to count; the rest are taken to be like them. From
memory."""

Sums = Mapping[str, tuple[float, float]]
"""By method: degree days [°C days] until the day, and in a whole year."""


def degree_days(climate: Climate, on: date, base_c: float, series: "Series | None") -> Sums:
    """Degree days from New Year (1 July in the south) to a day, and in a year, by each method [°C days].

    From a record they are means over the years that the odds rest on; without one they are what the
    estimated round of the year gives, which has no modified sum.
    """
    first = count_begins(climate, on)
    days = (on - first).days + 1
    if series is None or climate.normals is None:
        wave = from_new_year(climate)
        swings = ((SINE, GENERAL_SWING_C), (AVERAGE, 0.0))
        sums = {name: normal_degree_days(wave, swing, base_c, GENERAL_DAY_SPREAD_C) for name, swing in swings}
        return {name: (total[min(days, 365)], total[365]) for name, total in sums.items()}
    years = range(climate.normals.first_year, climate.normals.last_year + 1)
    of_years = [list(_days(series, first.replace(year=year))) for year in years]
    methods: dict[str, Callable[[float, float], float]] = {
        SINE: lambda low, high: degree_days_sine(low, high, base_c),
        AVERAGE: lambda low, high: degree_days_average(low, high, base_c),
        MODIFIED: _modified,
    }
    return {name: _mean_sums(of_years, method, days) for name, method in methods.items()}


def _modified(low_c: float, high_c: float) -> float:
    sum_f = degree_days_86_50(celsius_to_fahrenheit(low_c), celsius_to_fahrenheit(high_c))
    return fahrenheit_difference(sum_f)


def _days(series: "Series", first: date) -> Iterable[tuple[float, float]]:
    """The lowest and highest of each day of a year from its first day on, as far as they were read."""
    from cuttings.climate.series import MISSING

    start = (first - series.first).days
    for day in range(max(start, 0), min(start + 365, series.days)):
        low, high = int(series.tmin[day]), int(series.tmax[day])
        if MISSING not in (low, high):
            yield low / 10.0, high / 10.0


def _mean_sums(
    years: Iterable[list[tuple[float, float]]], method: Callable[[float, float], float], days: int
) -> tuple[float, float]:
    whole = [accumulated(year, method) for year in years if len(year) >= FEWEST_DAYS]
    if not whole:
        return 0.0, 0.0
    until = (sums[min(round(days * len(sums) / 365), len(sums)) - 1] for sums in whole)
    totals = (sums[-1] * 365 / len(sums) for sums in whole)
    return sum(until) / len(whole), sum(totals) / len(whole)
