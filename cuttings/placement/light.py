"""Light classes and the hours of direct sun behind them.

Growers' tables agree that six hours make full sun and differ below it: some part the classes at four and
two hours, others at three, and some call all from four to six hours part shade when the sun is the
morning's. The limits are therefore a setting with a source, and a garden may use another.
"""

import math
from collections.abc import Iterable
from enum import StrEnum
from typing import TypeVar

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Obstacle, Site
from cuttings.placement.sun import YearOfSun, light_season, season_mean, year_of_sun
from cuttings.words import Light

HOURS_IN_A_DAY = 24.0

Word = TypeVar("Word", bound=StrEnum)


@frozen
class LightLimits:
    """The fewest hours of direct sun a day, through the growing season, of each class above shade."""

    full_sun_h: float
    part_sun_h: float
    part_shade_h: float
    source: str


LIMITS = LightLimits(
    full_sun_h=6.0,
    part_sun_h=4.0,
    part_shade_h=2.0,
    source="Beatrice Daily Sun (garden column): Right plant, right place",
)
"""Part sun 4 to 6 hours, part shade 2 to 4, shade under 2; full sun is what lies above,
https://beatricedailysun.com/opinion/columnists/right-plant-right-place/article_83328130-a3e3-50d8-8b68-83df03ee442c.html
The 4 to 6 hours of part sun are also in the Old Farmer's Almanac (Shade garden and plant shade
definitions), and at least 2 hours for partial shade in Colorado State University Extension (Defining full
sun, light shade, partial shade, full shade and deep shade)."""


def least_hours(light: Light, limits: LightLimits = LIMITS) -> float:
    """The fewest hours of direct sun a day that still make a class; the limit belongs to it."""
    return {
        Light.FULL_SUN: limits.full_sun_h,
        Light.PART_SUN: limits.part_sun_h,
        Light.PART_SHADE: limits.part_shade_h,
        Light.SHADE: 0.0,
    }[light]


def light_of_hours(hours: float, limits: LightLimits = LIMITS) -> Light:
    """The class that a number of hours of direct sun a day makes.

    Raises:
        ValueError: a day has no such number of hours.
    """
    if not (math.isfinite(hours) and 0.0 <= hours <= HOURS_IN_A_DAY):
        raise ValueError(f"A day has 0 to 24 hours of sun, not {hours:g}.")
    return next(light for light in Light if hours >= least_hours(light, limits))


def site_light(site: Site) -> Light | None:
    """How bright a site is: by its hours of sun where they are known, else as its keeper says."""
    return site.light if site.sun_hours is None else light_of_hours(site.sun_hours)


def season_hours(lat: float, lon: float, obstacles: tuple[Obstacle, ...], climate: Climate) -> float:
    """The hours of direct sun a day through the growing season, to a hundredth of an hour."""
    return mean_hours(year_of_sun(lat, lon, obstacles), lat, climate)


def mean_hours(year: YearOfSun, lat: float, climate: Climate) -> float:
    """The same of a year that is reckoned already."""
    return round(season_mean(year.hours, light_season(lat, climate)), 2)


def with_sun(site: Site, lat: float, lon: float, climate: Climate) -> Site:
    """The site with its hours of sun reckoned from what stands round it, where neither hours nor a class was
    told and something is known to stand there; else the site as it is.

    The hours are cut to a tenth, never rounded up, so that they stay in their class.
    """
    if site.light is not None or site.sun_hours is not None or not site.obstacles:
        return site
    hours = season_hours(lat, lon, site.obstacles, climate)
    return evolve(site, sun_hours=math.floor(hours * 10 + 1e-9) / 10)


def reckoned_light(site: Site, lat: float, lon: float, climate: Climate) -> Light | None:
    """How bright a site is: as was told, or else as what stands round it lets the sun through."""
    return site_light(with_sun(site, lat, lon, climate))


def steps_away(liked: Iterable[Word], here: Word) -> int:
    """How many classes lie between a place and the nearest class a plant likes, 0 if it likes that one.

    Classes are counted in the order their words are listed in, for light from sunny to shady: above 0 the
    place is too far down the list, below 0 too far up.

    Raises:
        ValueError: no class is liked.
    """
    scale = list(type(here))
    return min(
        (scale.index(here) - scale.index(each) for each in liked), key=lambda steps: (abs(steps), steps)
    )
