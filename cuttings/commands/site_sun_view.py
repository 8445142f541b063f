"""The sun on a site as a page, as a document and as a drawing."""

from calendar import month_name
from datetime import date
from functools import partial
from typing import Any

from attrs import frozen

from cuttings.commands.sites import obstacle_document
from cuttings.commands.sun_words import (
    hours_shown,
    light_shown,
    limits_sentence,
    month_day_shown,
    obstacle_sentence,
    season_shown,
    spans_shown,
    told_wins,
)
from cuttings.dates import MonthDay, spoken
from cuttings.ledger.places import Obstacle, Site
from cuttings.placement.light import LIMITS, light_of_hours, site_light
from cuttings.placement.skyline import horizon, standing_on
from cuttings.placement.sun import (
    ORDINARY_YEAR,
    SunOfDay,
    YearOfSun,
    day_of_sun,
    monthly_means,
    path_of_sun,
    season_mean,
)
from cuttings.show.page import Page
from cuttings.show.skyline_chart import Sky, SunPath, indented, month_bars, sky_lines
from cuttings.show.skyline_svg import sky_svg
from cuttings.words import Light, Units

DAYS: tuple[tuple[str, MonthDay, str], ...] = (
    ("21 June", (6, 21), "*"),
    ("equinox", (3, 20), "+"),
    ("21 December", (12, 21), "o"),
)
"""The days whose way of the sun is drawn, with their letters."""

BARS_MEAN = "Hours of direct sun a day: = before noon, - after."
ASKED_DAY = "x"
STEPS_AN_HOUR = 30


@frozen
class Answer:
    """The sun on a site: its year, and one day of it where that was asked for."""

    site: Site
    lat: float
    lon: float
    season: tuple[MonthDay, MonthDay]
    year: YearOfSun
    on: date | None
    of_day: SunOfDay | None

    @property
    def season_hours(self) -> float:
        return round(season_mean(self.year.hours, self.season), 2)

    @property
    def halves(self) -> tuple[float, float]:
        """Hours before noon and after it, on the day or as the season's means."""
        if self.of_day is not None:
            return self.of_day.morning, self.of_day.afternoon
        return season_mean(self.year.morning, self.season), season_mean(self.year.afternoon, self.season)

    @property
    def light(self) -> Light:
        return light_of_hours(self.season_hours)

    @property
    def standing(self) -> tuple[Obstacle, ...]:
        """What makes the skyline: all of it in full leaf, or as it stands on the day."""
        return self.site.obstacles if self.on is None else standing_on(self.site.obstacles, self.on)


def sun_document(answer: Answer) -> dict[str, Any]:
    morning, afternoon = answer.halves
    told = site_light(answer.site)
    return {
        "site": answer.site.name,
        "latitude": answer.lat,
        "longitude": answer.lon,
        "horizon": [[round(azimuth, 4), round(top, 3)] for azimuth, top in horizon(answer.standing)],
        "monthly_hours": _rounded(monthly_means(answer.year.hours)),
        "monthly_morning_hours": _rounded(monthly_means(answer.year.morning)),
        "season": [f"{month:02d}-{day:02d}" for month, day in answer.season],
        "season_hours": answer.season_hours,
        "light": answer.light.value,
        "light_source": LIMITS.source,
        "told_light": told.value if told else None,
        "date": answer.on.isoformat() if answer.on else None,
        "date_hours": round(answer.of_day.hours, 2) if answer.of_day else None,
        "morning_hours": round(morning, 2),
        "afternoon_hours": round(afternoon, 2),
        "obstacles": [obstacle_document(each) for each in answer.site.obstacles],
    }


def _rounded(hours: tuple[float, ...]) -> list[float]:
    return [round(each, 2) for each in hours]


def sun_page(answer: Answer, units: Units, today: date) -> Page:
    site = answer.site
    page = Page().heading(f"Sun on {site.name}", site.area)
    year = answer.year
    before, after = (season_mean(half, answer.season) for half in (year.morning, year.afternoon))
    page.row(
        "Season",
        f"{hours_shown(answer.season_hours)} of direct sun a day {season_shown(answer.season)}: "
        f"{light_shown(answer.light)}; {hours_shown(before)} of it before noon, {hours_shown(after)} after.",
        limits_sentence(answer.light),
    )
    page.row("Told", told_wins(site), only_if=site_light(site) is not None)
    if not site.obstacles:
        page.row("", "Nothing is written down that stands round it, so this is the sun of open ground.")
    if answer.of_day is not None and answer.on is not None:
        page.row(spoken(answer.on, today), _day_sentence(answer.of_day))
    elif any(each.leaf for each in site.obstacles):
        page.row("", "Drawn in full leaf; the hours by month know when the leaves are off.")
    page.gap()
    sky = _sky(answer)
    page.drawing(partial(sky_lines, sky), *_sky_words(answer, units))
    page.gap()
    morning, whole = monthly_means(year.morning), monthly_means(year.hours)
    halves = [(early, both - early) for early, both in zip(morning, whole, strict=True)]
    named = zip(month_name[1:], whole, strict=True)
    said = ", ".join(f"{month} {hours:.1f}" for month, hours in named)
    page.drawing(partial(_bars, halves), f"Hours of direct sun a day by month: {said}.")
    return page


def _day_sentence(of_day: SunOfDay) -> str:
    if not of_day.spans:
        return "no direct sun at all."
    return (
        f"{hours_shown(of_day.hours)} of direct sun, {spans_shown(of_day.spans)}; "
        f"{hours_shown(of_day.morning)} before noon, {hours_shown(of_day.afternoon)} after (sun time: "
        "at 12 it stands highest)."
    )


def _bars(halves: list[tuple[float, float]], width: int) -> list[str]:
    return [*month_bars(halves, width), *indented(BARS_MEAN, width)]


def _drawn_days(answer: Answer) -> list[tuple[str, date, str]]:
    days = [(name, date(ORDINARY_YEAR, *day), mark) for name, day, mark in DAYS]
    if answer.on is not None:
        days.append((month_day_shown((answer.on.month, answer.on.day)), answer.on, ASKED_DAY))
    return days


def _sky(answer: Answer) -> Sky:
    paths = [
        SunPath(name, mark, path_of_sun(answer.lat, answer.lon, day, STEPS_AN_HOUR))
        for name, day, mark in _drawn_days(answer)
    ]
    solid = [each for each in answer.standing if each.density >= 1.0]
    return Sky(0.0 if answer.lat < 0 else 180.0, horizon(solid), horizon(answer.standing), paths)


def _sky_words(answer: Answer, units: Units) -> list[str]:
    """The skyline, and when the sun comes over it."""
    said = [f"Round it: {obstacle_sentence(each, units)}." for each in answer.standing]
    for name, day, _ in _drawn_days(answer):
        spans = day_of_sun(answer.lat, answer.lon, answer.site.obstacles, day).spans
        called = "At the equinox of March" if name == "equinox" else f"On {name}"
        said.append(f"{called} the sun shines {spans_shown(spans)}, by sun time.")
    return said


def sun_svg(answer: Answer, units: Units) -> str:
    """The skyline and the sun's ways as the text of an SVG file."""
    hours = hours_shown(answer.season_hours)
    title = f"Sun on {answer.site.name}: {hours} a day {season_shown(answer.season)}"
    return sky_svg(_sky(answer), title, " ".join(_sky_words(answer, units)))
