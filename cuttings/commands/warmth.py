"""The warmth of the year as a page and as a document: degree days by three methods, and the soil at any
depth."""

from calendar import month_abbr
from collections.abc import Callable, Iterable, Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from cuttings.climate.climate import Climate
from cuttings.climate.heat import (
    accumulated,
    degree_days_86_50,
    degree_days_average,
    degree_days_sine,
    normal_degree_days,
)
from cuttings.climate.soil import daily_amplitude_c, soil_wave
from cuttings.commands.desk import Desk
from cuttings.dates import spoken
from cuttings.rules.warmth import GENERAL_DAY_SPREAD_C, GENERAL_SWING_C
from cuttings.show.page import Page
from cuttings.units import celsius_to_fahrenheit, fahrenheit_to_celsius, show_length, show_temperature
from cuttings.words import Units

if TYPE_CHECKING:  # numpy is loaded only where a record is read
    from cuttings.climate.series import Series

SINE, AVERAGE, MODIFIED = "single sine", "daily average", "modified 86/50"

SOURCES = {
    SINE: "Baskerville and Emin, Ecology, 1969",
    AVERAGE: "McMaster and Wilhelm, Agricultural and Forest Meteorology 87, 1997, method 1",
    MODIFIED: "Iowa State University, Agronomy 541: Growing degree day rules",
}

SAID = {
    SINE: "It counts the warm hours of cool days too.",
    AVERAGE: "Most published bloom figures are made this way, above 50 °F.",
    MODIFIED: "As for maize: nights count from 50 °F and days to 86 °F, whatever the base.",
}

THRESHOLDS_F = (32, 43, 50, 55, 60, 70)
"""Soil temperatures that gardeners ask for: frozen, roots growing, and the warmth that seeds and divisions
want."""

SOIL_SOURCE = "Oklahoma State University: Rain or Shine, 13.4 Sub-Surface Soil Temperatures"

Sums = Mapping[str, tuple[float, float]]
"""By method: degree days [°C days] until the day, and in a whole year."""


def degree_days(climate: Climate, on: date, base_c: float, series: "Series | None") -> Sums:
    """Degree days from New Year (1 July in the south) to a day, and in a year, by each method [°C days].

    From a record they are means over the years that the odds rest on; without one they are what the
    estimated round of the year gives, which has no modified sum.
    """
    first = _begins(climate, on)
    days = (on - first).days + 1
    if series is None or climate.normals is None:
        turn = (first - date(first.year, 1, 1)).days
        wave = type(climate.air)(climate.air.mean_c, climate.air.amplitude_c, climate.air.peak_day - turn)
        swings = ((SINE, GENERAL_SWING_C), (AVERAGE, 0.0))
        sums = {name: normal_degree_days(wave, swing, base_c, GENERAL_DAY_SPREAD_C) for name, swing in swings}
        return {name: (total[min(days, 365)], total[365]) for name, total in sums.items()}
    years = range(climate.normals.first_year, climate.normals.last_year + 1)
    of_years = [list(_days(series, first.replace(year=year))) for year in years]
    methods: dict[str, Callable[[float, float], float]] = {
        SINE: lambda low, high: degree_days_sine(low, high, base_c),
        AVERAGE: lambda low, high: degree_days_average(low, high, base_c),
        MODIFIED: lambda low, high: (
            degree_days_86_50(celsius_to_fahrenheit(low), celsius_to_fahrenheit(high)) / 1.8
        ),
    }
    return {name: _mean_sums(of_years, method, days) for name, method in methods.items()}


def _modified(low_c: float, high_c: float) -> float:
    return degree_days_86_50(celsius_to_fahrenheit(low_c), celsius_to_fahrenheit(high_c)) / 1.8


def _begins(climate: Climate, on: date) -> date:
    if not climate.southern:
        return date(on.year, 1, 1)
    return date(on.year if on.month >= 7 else on.year - 1, 7, 1)


def _days(series: "Series", first: date) -> Iterable[tuple[float, float]]:
    """The lowest and highest of each day of a year from its first day on, as far as they were read."""
    from cuttings.climate.series import MISSING

    start = (first - series.first).days
    for day in range(max(start, 0), min(start + 365, series.days)):
        low, high = int(series.tmin[day]), int(series.tmax[day])
        if MISSING not in (low, high):
            yield low / 10.0, high / 10.0


FEWEST_DAYS = 330
"""Days of a year that must have been read for it to count; the rest are taken to be like them. From
memory."""


def _mean_sums(
    years: Iterable[list[tuple[float, float]]], method: Callable[[float, float], float], days: int
) -> tuple[float, float]:
    whole = [accumulated(year, method) for year in years if len(year) >= FEWEST_DAYS]
    if not whole:
        return 0.0, 0.0
    until = (sums[min(round(days * len(sums) / 365), len(sums)) - 1] for sums in whole)
    totals = (sums[-1] * 365 / len(sums) for sums in whole)
    return sum(until) / len(whole), sum(totals) / len(whole)


def heat_page(desk: Desk, climate: Climate, base_c: float, sums: Sums) -> Page:
    """The sums of warmth, each with what it is good for."""
    base = show_temperature(base_c, desk.units)
    factor = 1.8 if desk.units is Units.US else 1.0
    begins, today = spoken(_begins(climate, desk.on), desk.on), spoken(desk.on, desk.on)
    page = Page().heading("Warmth", f"degree days above {base} since {begins}")
    for name, (until, year) in sums.items():
        page.row(
            "",
            f"By {name}: {until * factor:,.0f} by {today}, {year * factor:,.0f} in a year.",
            SAID[name],
            SOURCES[name] if desk.why else "",
        )
    if climate.normals is None:
        page.row("", "These are estimates from your frost dates, and may be a week or two off in spring.")
    page.row("", "A figure from a list is only good with the method and the base it was made by.")
    return page.next_steps("'--base 45F' counts from another temperature, '--on DATE' to another day.")


def heat_document(climate: Climate, on: date, base_c: float, sums: Sums) -> dict[str, Any]:
    return {
        "base_c": round(base_c, 2),
        "from": _begins(climate, on).isoformat(),
        "to": on.isoformat(),
        "measured": climate.normals is not None,
        "degree_days_c": [
            {"method": name, "until": round(until, 1), "year": round(year, 1), "source": SOURCES[name]}
            for name, (until, year) in sums.items()
        ],
    }


def soil_page(desk: Desk, climate: Climate, depth_m: float) -> Page:
    """The soil at a depth: on the day, by months, and when it passes what matters."""
    units = desk.units
    wave = soil_wave(climate.air, depth_m)
    now = wave.at(desk.on.timetuple().tm_yday)
    swing = _swing_c(climate, depth_m)
    page = Page().heading("Soil", f"at {show_length(depth_m, units)}")
    either = swing * (1.8 if units is Units.US else 1.0)
    page.row(
        spoken(desk.on, desk.on),
        f"{show_temperature(now, units)} in the mean of the day, about {either:.0f} degrees more by late "
        "afternoon and less by morning.",
        "A damped wave from the air's round; snow and mulch keep it warmer, wet and shade later.",
        SOIL_SOURCE if desk.why else "",
    )
    for threshold in THRESHOLDS_F:
        level = fahrenheit_to_celsius(threshold)
        rises, falls = wave.rises_through(level), wave.falls_through(level)
        if rises is not None and falls is not None:
            up, down = climate.spring_day(desk.on.year, rises), climate.autumn_day(desk.on.year, falls)
            warming, cooling = spoken(up, desk.on), spoken(down, desk.on)
            passed = f"is passed on {warming} as it warms, and on {cooling} as it cools."
            page.row(show_temperature(level, units), passed)
    page.gap()
    months = (
        f"{month_abbr[month]} {show_temperature(_of_month(wave.at, month), units)}" for month in range(1, 13)
    )
    page.row("By month", ", ".join(months) + ".")
    return page.next_steps("'--depth 6in' tells of another depth.")


def _swing_c(climate: Climate, depth_m: float) -> float:
    swing = GENERAL_SWING_C if climate.normals is None else max(climate.normals.swing_c, 0.0)
    return daily_amplitude_c(swing / 2, depth_m)


def _of_month(at: Callable[[float], float], month: int) -> float:
    first = date(2023, month, 1)
    days = ((first + timedelta(days=31)).replace(day=1) - first).days
    begins = first.timetuple().tm_yday
    return sum(at(begins + day) for day in range(days)) / days


def soil_document(climate: Climate, on: date, depth_m: float) -> dict[str, Any]:
    wave = soil_wave(climate.air, depth_m)
    passed = {}
    for threshold in THRESHOLDS_F:
        rises, falls = (
            cross(fahrenheit_to_celsius(threshold)) for cross in (wave.rises_through, wave.falls_through)
        )
        passed[str(threshold)] = {
            "rises": None if rises is None else climate.spring_day(on.year, rises).isoformat(),
            "falls": None if falls is None else climate.autumn_day(on.year, falls).isoformat(),
        }
    return {
        "depth_m": round(depth_m, 4),
        "on": on.isoformat(),
        "mean_c": round(wave.at(on.timetuple().tm_yday), 2),
        "daily_swing_c": round(_swing_c(climate, depth_m), 2),
        "monthly_c": [round(_of_month(wave.at, month), 2) for month in range(1, 13)],
        "passes_f": passed,
        "source": SOIL_SOURCE,
    }
