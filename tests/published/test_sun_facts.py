"""The sun on a site, against a solar position library, a ray test of its own, and printed day lengths.

pvlib's positions are those of Reda and Andreas, *Solar Position Algorithm for Solar Radiation Applications*
(NREL, 2008), good to 0.0003 degrees: https://pvlib-python.readthedocs.io/en/stable/reference/generated/
pvlib.solarposition.spa_python.html. Its ``elevation`` is that of the middle of the sun, without refraction.
"""

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest
from numpy.typing import NDArray
from pvlib import solarposition

from cuttings.climate.daylength import day_length_hours
from cuttings.ledger.places import Obstacle
from cuttings.placement.sun import ORDINARY_YEAR, day_of_sun, sun_positions, year_of_sun
from cuttings.words import ObstacleKind

Numbers = NDArray[np.float64]

TENTH_OF_A_DEGREE = 0.1
MINUTES = 1.0 / 60.0
NEW_YEAR = date(ORDINARY_YEAR, 1, 1)


def moments(lon: float, first: date, days: int, per_day: int, part: float) -> pd.DatetimeIndex:
    """Moments of local mean days, each at a part of its share of the day."""
    midnight = pd.Timestamp(first.isoformat(), tz="UTC") - pd.Timedelta(hours=lon / 15.0)
    return midnight + pd.to_timedelta((np.arange(days * per_day) + part) * 24.0 / per_day, unit="h")


def seen(lat: float, lon: float, times: pd.DatetimeIndex) -> tuple[Numbers, Numbers]:
    """pvlib's azimuth and elevation in degrees."""
    found = solarposition.get_solarposition(times, lat, lon)
    return found["azimuth"].to_numpy(), found["elevation"].to_numpy()


@pytest.mark.parametrize("lat", [-90, -78, -66.6, -51, -34, -23.44, -8, 0, 12, 23.44, 42.9, 55, 66.6, 71, 90])
def test_the_sun_stands_where_pvlib_has_it(lat: float) -> None:
    """Every hour of every fourth day. Straight overhead any azimuth is within a tenth of a degree of the sky:
    within 1.2 degrees of there the way over the sky is compared, and everywhere else the azimuth itself."""
    worst_up = worst_round = 0.0
    for lon in (-76.1, 0.0, 151.2):
        for start in range(0, 365, 4):
            day = NEW_YEAR + timedelta(days=start)
            azimuth, elevation, _ = sun_positions(lat, lon, day, 1, 24)
            true_azimuth, true_elevation = seen(lat, lon, moments(lon, day, 1, 24, 0.5))
            apart = np.abs((azimuth[0] - true_azimuth + 180.0) % 360.0 - 180.0)
            across = apart * np.cos(np.radians(true_elevation))
            compared = np.where(true_elevation < 88.8, apart, across)
            worst_up = max(worst_up, float(np.abs(elevation[0] - true_elevation).max()))
            worst_round = max(worst_round, float(compared.max()))
    print(f"{lat:7.2f} deg: elevation within {worst_up:.4f}, azimuth within {worst_round:.4f} degrees")
    assert worst_up < TENTH_OF_A_DEGREE
    assert worst_round < TENTH_OF_A_DEGREE


SKY_LATITUDES = (-84.0, -72.5, -67.0, -54.8, -45.0, -33.9, -27.0, -15.0, -4.0, 0.5,
                 9.0, 18.0, 23.4, 35.0, 42.9, 51.5, 60.2, 66.0, 69.6, 81.0)  # fmt: skip
SKYLINES_EACH = 10
DAYS_EACH = 4


def random_obstacle(rng: np.random.Generator) -> Obstacle:
    """Anything from a low fence to a tower over the bed, on a slope or on a trunk, deciduous or not."""
    start = float(rng.uniform(0, 360))
    base, leaf = 0.0, None
    if rng.random() < 0.4:
        base = float(rng.uniform(0.2, 4.0))
    if rng.random() < 0.4:
        leaf = (int(rng.integers(3, 6)), int(rng.integers(1, 29))), (10, int(rng.integers(1, 31)))
        leaf = leaf if rng.random() < 0.7 else (leaf[1], leaf[0])
    return Obstacle(
        kind=ObstacleKind.BUILDING,
        start=start,
        end=(start + float(rng.uniform(3, 175))) % 360.0,
        distance_m=float(rng.uniform(0.8, 40.0)),
        height_m=float(rng.uniform(0.5, 18.0)),
        base_m=base,
        leaf=leaf,
        density=float(rng.uniform(0.2, 1.0)) if rng.random() < 0.3 else 1.0,
    )


def comes_through(obstacle: Obstacle, on: date, azimuth: Numbers, elevation: Numbers) -> Numbers:
    """The share of each ray from the middle of the site to the sun that passes an obstacle.

    In space: the face is an upright rectangle from the ground to its top, standing square to the line from
    the site to its middle; a ray is stopped if it meets the face's plane inside that rectangle.
    """
    if obstacle.leaf is not None and not leaves_are_on(obstacle.leaf, on):
        return np.ones_like(azimuth)
    width = (obstacle.end - obstacle.start) % 360.0
    towards = np.radians(obstacle.start + width / 2.0)
    normal = np.array([np.sin(towards), np.cos(towards), 0.0])  # east, north, up
    along = np.array([np.cos(towards), -np.sin(towards), 0.0])
    half_width = obstacle.distance_m * np.tan(np.radians(width / 2.0))
    az, el = np.radians(azimuth), np.radians(elevation)
    rays = np.stack([np.cos(el) * np.sin(az), np.cos(el) * np.cos(az), np.sin(el)], axis=-1)
    facing = rays @ normal
    with np.errstate(divide="ignore", invalid="ignore"):
        hits = rays * (obstacle.distance_m / facing)[..., None]
    stopped = (facing > 0.0) & (np.abs(hits @ along) <= half_width)
    stopped &= hits[..., 2] <= obstacle.base_m + obstacle.height_m
    return np.where(stopped, 1.0 - obstacle.density, 1.0)


def leaves_are_on(leaf: tuple[tuple[int, int], tuple[int, int]], on: date) -> bool:
    """Counts the days from the first in leaf forward to the last."""
    first, last = (date(2023, *each).timetuple().tm_yday for each in leaf)
    today = date(2023, on.month, on.day).timetuple().tm_yday
    return (today - first) % 365 <= (last - first) % 365


def rays_hours(obstacles: Sequence[Obstacle], on: date, azimuth: Numbers, elevation: Numbers) -> float:
    """Hours of direct sun on a day by rays at one-minute steps."""
    share = np.where(elevation > 0.0, 1.0, 0.0)
    for each in obstacles:
        share = share * comes_through(each, on, azimuth, elevation)
    return float(share.sum()) / 60.0


def test_direct_sun_is_that_of_rays_to_the_sun() -> None:
    """200 random skylines at 20 latitudes, at whole minutes of pvlib's sun, where the program takes the
    middle of each minute of its own. The margin is three minutes a day."""
    rng = np.random.default_rng(20260502)
    differences = []
    for lat in SKY_LATITUDES:
        lon = float(rng.uniform(-180, 180))
        days = [NEW_YEAR + timedelta(days=int(n)) for n in rng.choice(365, DAYS_EACH, replace=False)]
        times = [moments(lon, day, 1, 1440, 0.0) for day in days]
        azimuth, elevation = seen(lat, lon, times[0].append(times[1:]))
        sky = azimuth.reshape(DAYS_EACH, 1440), elevation.reshape(DAYS_EACH, 1440)
        for number in range(SKYLINES_EACH):
            obstacles = tuple(random_obstacle(rng) for _ in range(1 + number % 5))
            for each, day in enumerate(days):
                by_rays = rays_hours(obstacles, day, sky[0][each], sky[1][each])
                told = day_of_sun(lat, lon, obstacles, day)
                if number == each:
                    of_year = year_of_sun(lat, lon, obstacles).hours[day.timetuple().tm_yday - 1]
                    assert told.hours == pytest.approx(of_year, abs=1e-9)
                differences.append((abs(told.hours - by_rays) * 60.0, lat, day))
    minutes = sorted(each[0] for each in differences)
    print(f"{len(minutes)} days: worst {max(differences)[0]:.2f} min at {max(differences)[1]} deg on "
          f"{max(differences)[2]}, 99 in 100 within {minutes[int(len(minutes) * 0.99)]:.2f}, "
          f"half within {minutes[len(minutes) // 2]:.2f}")  # fmt: skip
    assert len(minutes) == 200 * DAYS_EACH
    assert max(minutes) <= 3.0


def test_open_ground_has_the_geometric_day_of_a_textbook() -> None:
    """Solar energy textbook example, 40° N, 15 June (without refraction: 14.83 h, 7.4 h each side of noon),
    https://www.briangwilliams.us/solar-energy/example-aiw.html"""
    sun = day_of_sun(40.0, 0.0, (), date(2026, 6, 15))
    assert sun.hours == pytest.approx(14.83, abs=1.5 * MINUTES)
    assert sun.morning == pytest.approx(7.4, abs=0.05)
    assert sun.afternoon == pytest.approx(7.4, abs=0.05)


@pytest.mark.parametrize(
    ("lat", "hours"),
    [
        (0, 12.1167), (25, 13.6833), (30, 14.0833), (35, 14.5167), (40, 15.0167), (41, 15.1333), (42, 15.25),
        (45, 15.6167), (47, 15.9), (50, 16.3667),
    ],
)  # fmt: skip
def test_open_ground_at_the_june_solstice(lat: float, hours: float) -> None:
    """Wolfram Community: Hours of daylight on the summer solstice (21 June 2019, 90° W, with refraction),
    https://community.wolfram.com/groups/-/m/t/1706977.

    Those days run from the upper edge of the sun seen through the air: 50 minutes of arc more at each end
    (US Naval Observatory, Almanac for Computers 1990, http://edwilliams.org/sunrise_sunset_example.htm). At
    the horizon the sun climbs at ``15 * sqrt(cos(lat)**2 - sin(declination)**2)`` degrees an hour, so the day
    of its middle is shorter by that much; the declination is 23.44° then. The curve of its way may be worth a
    minute at 50°."""
    climb = 15.0 * np.sqrt(np.cos(np.radians(lat)) ** 2 - np.sin(np.radians(23.44)) ** 2)
    refracted = 2 * (50.0 / 60.0) / climb
    sun = day_of_sun(lat, -90.0, (), date(2019, 6, 21))
    assert sun.hours == pytest.approx(hours - refracted, abs=2.5 * MINUTES)


@pytest.mark.parametrize("lat", [-78.0, -60.0, -33.9, 0.0, 25.0, 42.9, 60.0, 65.0, 71.0])
def test_open_ground_has_the_day_the_climate_tells(lat: float) -> None:
    """The day length that ``test_day_length_facts`` holds against printed tables, without refraction. It
    holds the declination for the day, worth two minutes where the sun meets the horizon at a slant; near the
    polar circles the day it first stays up is left out."""
    hours = year_of_sun(lat, 0.0).hours
    for number in range(0, 365, 5):
        length = day_length_hours(lat, NEW_YEAR + timedelta(days=number), with_refraction=False)
        if abs(lat) < 62 or length in (0.0, 24.0) or 2.0 < length < 22.0:
            assert hours[number] == pytest.approx(length, abs=3.5 * MINUTES)
