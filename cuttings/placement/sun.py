"""Where the sun stands, and for how long it shines on a site.

Positions come from astral's declination and equation of time, taken at each midnight and led in a straight
line from one to the next (which is good to a thousandth of a degree), and from the usual hour angle. They are
those of the centre of the disc, without refraction.

A day is the local mean solar day: from midnight to midnight by the longitude, whatever the clocks say. Where
hours of the day are told they are sun time: at 12 the sun stands in the meridian.
"""

import calendar
import math
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.dates import MonthDay
from cuttings.ledger.places import Obstacle
from cuttings.placement.skyline import in_leaf, tops
from cuttings.rules.growth import SHORTEST_SEASON_DAYS
from cuttings.rules.seasons import summer

if TYPE_CHECKING:  # numpy is loaded only where the sun is reckoned
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

ORDINARY_YEAR = 2026
"""The year that stands for all: it lies midway between two leap years, so the sun is nearest to its mean."""

MINUTES_A_DAY = 1440
HOURS_A_DAY = 24
DEGREES_AN_HOUR = 15.0

WHOLE_YEAR: tuple[MonthDay, MonthDay] = ((1, 1), (12, 31))
USUAL_SEASON: dict[bool, tuple[MonthDay, MonthDay]] = {False: ((4, 1), (9, 30)), True: ((10, 1), (3, 31))}
"""The growing season north and south of the equator where no freeze dates are known: its summer half year."""


@frozen(eq=False)
class SunUp:
    """The minutes with the sun above 0 degrees, in order. All arrays are of the same length.

    ``day`` counts the days from the first one; ``azimuth`` is in degrees clockwise from true north and
    ``elevation`` in degrees; ``hour_angle`` is -180 to 180 degrees, below 0 before noon.
    """

    first: date
    days: int
    day: "NDArray[np.int64]"
    azimuth: "Numbers"
    elevation: "Numbers"
    hour_angle: "Numbers"

    def dates(self) -> list[date]:
        return [self.first + timedelta(days=number) for number in range(self.days)]


@frozen
class YearOfSun:
    """The hours of direct sun on each day of ``ORDINARY_YEAR``, before and after solar noon."""

    morning: tuple[float, ...]
    afternoon: tuple[float, ...]

    @property
    def hours(self) -> tuple[float, ...]:
        return tuple(sum(both) for both in zip(self.morning, self.afternoon, strict=True))


@frozen
class SunOfDay:
    """One day's direct sun in hours; ``spans`` are its stretches from and to, in hours of sun time."""

    morning: float
    afternoon: float
    spans: tuple[tuple[float, float], ...]

    @property
    def hours(self) -> float:
        return self.morning + self.afternoon


def sun_positions(
    lat: float, lon: float, first: date, days: int, per_day: int = MINUTES_A_DAY
) -> tuple["Numbers", "Numbers", "Numbers"]:
    """The sun's azimuth, elevation and hour angle in degrees, each of shape ``(days, per_day)``.

    Args:
        lat: latitude [degrees], north positive.
        lon: longitude [degrees], east positive. It says when midnight is.
        per_day: moments of each day, evenly spread and in the middle of their shares: with 24 they are half
            past every hour of local mean time.

    Raises:
        ValueError: there is no such latitude.
    """
    import numpy as np

    if not -90.0 <= lat <= 90.0:
        raise ValueError("A latitude lies between -90 and 90 degrees.")
    part = (np.arange(per_day) + 0.5) / per_day
    knots = np.array([_of_midnight(first + timedelta(days=n), lon) for n in range(days + 1)])
    declination, equation = (knots[:-1, n, None] * (1 - part) + knots[1:, n, None] * part for n in (0, 1))
    turned = part * HOURS_A_DAY * DEGREES_AN_HOUR + equation / 4.0
    hour_angle = turned % 360.0 - 180.0
    azimuth, elevation = _seen(lat, declination, hour_angle)
    return azimuth, elevation, hour_angle


def _of_midnight(day: date, lon: float) -> tuple[float, float]:
    """Declination [degrees] and equation of time [minutes] at a day's local mean midnight."""
    from astral.julian import julianday, julianday_to_juliancentury
    from astral.sun import eq_of_time, sun_declination

    century = julianday_to_juliancentury(julianday(datetime(day.year, day.month, day.day)) - lon / 360.0)
    return sun_declination(century), eq_of_time(century)


def _seen(lat: float, declination: "Numbers", hour_angle: "Numbers") -> tuple["Numbers", "Numbers"]:
    """Azimuth and elevation by spherical trigonometry, in degrees throughout."""
    import numpy as np

    up, down = np.radians(declination), np.radians(hour_angle)
    sin_lat, cos_lat = math.sin(math.radians(lat)), math.cos(math.radians(lat))
    east = -np.cos(up) * np.sin(down)
    north = np.sin(up) * cos_lat - np.cos(up) * np.cos(down) * sin_lat
    zenith = np.sin(up) * sin_lat + np.cos(up) * np.cos(down) * cos_lat
    azimuth = np.degrees(np.arctan2(east, north)) % 360.0
    return azimuth, np.degrees(np.arctan2(zenith, np.hypot(east, north)))


@lru_cache(maxsize=8)
def sun_up(lat: float, lon: float, first: date, days: int) -> SunUp:
    """The minutes with the sun up on a number of days from a first one."""
    import numpy as np

    azimuth, elevation, hour_angle = sun_positions(lat, lon, first, days)
    up = elevation > 0.0
    return SunUp(first, days, np.nonzero(up)[0], azimuth[up], elevation[up], hour_angle[up])


def _share(sun: SunUp, obstacles: Sequence[Obstacle]) -> "Numbers":
    """The share of the sun that comes through in each of the minutes."""
    import numpy as np

    share = np.ones_like(sun.elevation)
    for each in obstacles:
        hidden = sun.elevation <= tops(each, sun.azimuth)
        if each.leaf is not None:
            hidden &= np.array([in_leaf(each, day) for day in sun.dates()])[sun.day]
        share[hidden] *= 1.0 - each.density
    return share


def _hours(sun: SunUp, obstacles: Sequence[Obstacle]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Hours of direct sun on each day, before noon and after it."""
    import numpy as np

    share = _share(sun, obstacles)
    before = sun.hour_angle < 0.0
    morning, afternoon = (
        np.bincount(sun.day, weights=share * half, minlength=sun.days) * HOURS_A_DAY / MINUTES_A_DAY
        for half in (before, ~before)
    )
    return tuple(morning.tolist()), tuple(afternoon.tolist())


@lru_cache(maxsize=256)
def year_of_sun(lat: float, lon: float, obstacles: tuple[Obstacle, ...] = ()) -> YearOfSun:
    """The hours of direct sun on every day of an ordinary year, behind what stands round a site.

    Args:
        lat: latitude [degrees], north positive.
        lon: longitude [degrees], east positive.

    Raises:
        ValueError: there is no such latitude.
    """
    days = 366 if calendar.isleap(ORDINARY_YEAR) else 365
    return YearOfSun(*_hours(sun_up(lat, lon, date(ORDINARY_YEAR, 1, 1), days), obstacles))


def day_of_sun(lat: float, lon: float, obstacles: Sequence[Obstacle], on: date) -> SunOfDay:
    """The direct sun of one day; see ``year_of_sun``."""
    import numpy as np

    sun = sun_up(lat, lon, on, 1)
    morning, afternoon = _hours(sun, obstacles)
    time = 12.0 + sun.hour_angle[_share(sun, obstacles) > 0.0] / DEGREES_AN_HOUR
    time.sort()  # a day of mean time may begin some minutes before sun time does
    minute = HOURS_A_DAY / MINUTES_A_DAY
    runs = np.split(time, np.nonzero(np.diff(time) > 1.5 * minute)[0] + 1) if time.size else []
    spans = tuple((_clock(run[0] - minute / 2), _clock(run[-1] + minute / 2)) for run in runs)
    return SunOfDay(morning[0], afternoon[0], spans)


def _clock(hour: float) -> float:
    return min(max(float(hour), 0.0), 24.0)


def path_of_sun(lat: float, lon: float, on: date, steps_an_hour: int = 4) -> list[tuple[float, float, float]]:
    """The sun's way over the sky on a day: hour of sun time, azimuth and elevation, above 0 degrees only.

    The declination is that of the day's noon.
    """
    import numpy as np

    hours = np.arange(HOURS_A_DAY * steps_an_hour + 1) / steps_an_hour
    declination = sum(_of_midnight(day, lon)[0] for day in (on, on + timedelta(days=1))) / 2
    azimuth, elevation = _seen(lat, np.full_like(hours, declination), (hours - 12.0) * DEGREES_AN_HOUR)
    points = zip(hours.tolist(), azimuth.tolist(), elevation.tolist(), strict=True)
    return [point for point in points if point[2] > 0.0]


def monthly_means(days: Sequence[float]) -> tuple[float, ...]:
    """The means of the twelve months, from a value for each day of ``ORDINARY_YEAR``."""
    means, begins = [], 0
    for month in range(1, 13):
        ends = begins + calendar.monthrange(ORDINARY_YEAR, month)[1]
        means.append(sum(days[begins:ends]) / (ends - begins))
        begins = ends
    return tuple(means)


def season_mean(days: Sequence[float], season: tuple[MonthDay, MonthDay]) -> float:
    """The mean over a season that may pass New Year, from a value for each day of ``ORDINARY_YEAR``."""
    first, last = (date(ORDINARY_YEAR, *end).timetuple().tm_yday - 1 for end in season)
    kept = days[first : last + 1] if first <= last else [*days[first:], *days[: last + 1]]
    return sum(kept) / len(kept)


def light_season(lat: float, climate: Climate) -> tuple[MonthDay, MonthDay]:
    """The first and last day of the growing season, over which the hours of sun are averaged.

    From the average last freeze to the average first one; the summer half year where they are not known,
    or lie so near to each other that they cannot be meant, and the whole year where frost is rare.
    """
    usual = USUAL_SEASON[lat < 0]
    if climate.frost is None:
        return usual
    opens, closes = summer(climate, ORDINARY_YEAR)
    days = (closes - opens).days
    if days < SHORTEST_SEASON_DAYS:
        return usual
    return WHOLE_YEAR if days >= 363 else ((opens.month, opens.day), (closes.month, closes.day))
