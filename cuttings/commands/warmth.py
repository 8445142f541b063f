"""The warmth of the year as a page and as a document: degree days by three methods, and the soil at any
depth."""

from calendar import month_abbr
from collections.abc import Callable
from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING, Any

from cuttings.climate.climate import Climate
from cuttings.climate.soil import SOIL_LIMITS, SOIL_SOURCE, daily_amplitude_c, soil_wave
from cuttings.commands.desk import Desk
from cuttings.dates import spoken
from cuttings.rules.degree_days import AVERAGE, MODIFIED, SINE, SOURCES, Sums
from cuttings.rules.warmth import GENERAL_SWING_C, count_begins
from cuttings.show.page import Page
from cuttings.units import (
    difference_shown,
    fahrenheit_to_celsius,
    show_length,
    show_temperature,
)

if TYPE_CHECKING:  # numpy is loaded only where a record is read
    pass

SAID = {
    SINE: "It counts the warm hours of cool days too.",
    AVERAGE: "Most published bloom figures are made this way, above 50 °F.",
    MODIFIED: "As for maize: nights count from 50 °F and days to 86 °F, whatever the base.",
}

THRESHOLDS_F = (32, 43, 50, 55, 60, 70)
"""Soil temperatures that gardeners ask for: frozen, roots growing, and the warmth that seeds and divisions
want."""


def heat_page(desk: Desk, climate: Climate, base_c: float, sums: Sums) -> Page:
    """The sums of warmth, each with what it is good for."""
    base = show_temperature(base_c, desk.units)
    begins, today = spoken(count_begins(climate, desk.on), desk.on), spoken(desk.on, desk.on)
    shown = partial(difference_shown, units=desk.units)
    page = Page().heading("Warmth", f"degree days above {base} since {begins}")
    for name, (until, year) in sums.items():
        page.row(
            "",
            f"By {name}: {shown(until):,.0f} by {today}, {shown(year):,.0f} in a year.",
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
        "from": count_begins(climate, on).isoformat(),
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
    either = difference_shown(swing, units)
    page.row(
        spoken(desk.on, desk.on),
        f"{show_temperature(now, units)} in the mean of the day, about {either:.0f} degrees more by late "
        "afternoon and less by morning.",
        SOIL_LIMITS,
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
