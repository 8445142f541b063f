"""Day length, against printed figures and a solar position library.

Each check copies one published fact, restated, with its publisher, title and address.
"""

from datetime import date

import pandas as pd
import pytest
from pvlib import solarposition

from cuttings.climate.daylength import SUNRISE_ZENITH_DEGREES, day_length_hours

MINUTE = 1.0 / 60.0
LATITUDES = list(range(-60, 66, 5))


@pytest.mark.parametrize(
    ("lat", "hours"),
    [
        (0, 12.1167), (25, 13.6833), (30, 14.0833), (35, 14.5167), (40, 15.0167), (41, 15.1333), (42, 15.25),
        (45, 15.6167), (47, 15.9), (50, 16.3667), (60, 18.8667),
    ],
)  # fmt: skip
def test_the_day_of_the_june_solstice(lat: float, hours: float) -> None:
    """Wolfram Community: Hours of daylight on the summer solstice (21 June 2019, 90° W, with refraction),
    https://community.wolfram.com/groups/-/m/t/1706977. Sunrise and sunset are printed to the minute, which
    may add up to one, and the declination is held for the day here, worth less than half of one."""
    assert day_length_hours(lat, date(2019, 6, 21), lon=-90.0) == pytest.approx(hours, abs=1.5 * MINUTE)


def test_the_geometric_day_of_a_textbook() -> None:
    """Solar energy textbook example, 40° N, 15 June (without refraction: 14.83 h, 7.4 h each side of noon),
    https://www.briangwilliams.us/solar-energy/example-aiw.html"""
    hours = day_length_hours(40.0, date(2026, 6, 15), with_refraction=False)
    assert hours == pytest.approx(14.83, abs=0.005)
    assert hours / 2 == pytest.approx(7.4, abs=0.05)


def test_the_zenith_of_sunrise() -> None:
    """US Naval Observatory, Almanac for Computers 1990: Sunrise/Sunset Algorithm Example,
    http://edwilliams.org/sunrise_sunset_example.htm (90.8333°)"""
    assert pytest.approx(90.8333, abs=0.00005) == SUNRISE_ZENITH_DEGREES


@pytest.mark.parametrize("lat", LATITUDES)
def test_the_day_of_a_precise_solar_position(lat: int) -> None:
    """pvlib: solarposition.sun_rise_set_transit_spa (Reda and Andreas, NREL, the same zenith of 90.833°).

    Two minutes: the declination is a shorter series here, good to a hundredth of a degree, and held for the
    day, while there it is followed to sunrise and to sunset. Where the sun crosses the horizon at a slant, as
    in the summers of 60 and 65°, such a hundredth may be worth the better part of a minute. The largest
    difference on any day of the year was 0.4 minutes.
    """
    days = pd.date_range("2026-01-05", "2026-12-31", freq="10D", tz="UTC")
    times = solarposition.sun_rise_set_transit_spa(days, lat, 0.0)
    for day, sunrise, sunset in zip(days, times["sunrise"], times["sunset"], strict=True):
        precise = (sunset - sunrise).total_seconds() / 3600.0
        assert day_length_hours(lat, day.date()) == pytest.approx(precise, abs=2 * MINUTE)
