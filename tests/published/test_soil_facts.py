"""The soil's wave, against worked examples and measured soils.

Each check copies one published fact, restated, with its publisher, title and address.
"""

import math

import pytest

from cuttings.climate.soil import (
    DAY_SECONDS,
    DIFFUSIVITY_M2_PER_DAY,
    daily_amplitude_c,
    damping_depth_m,
    soil_wave,
    warmer_than_air_c,
)
from cuttings.climate.wave import YEAR_DAYS, Wave

EXAMPLE_M2_PER_DAY = 0.50e-6 * DAY_SECONDS
"""Oklahoma State University: Rain or Shine, 13.4 Sub-Surface Soil Temperatures,
https://open.library.okstate.edu/rainorshine/chapter/13-4-sub-surface-soil-temperatures (0.50e-6 m²/s)"""


def test_the_daily_damping_depth_of_the_worked_example() -> None:
    """Rain or Shine, 13.4 (as above): 11.7 cm."""
    assert damping_depth_m(EXAMPLE_M2_PER_DAY, 1.0) == pytest.approx(0.117, abs=0.0005)


def test_the_amplitude_of_the_worked_example_at_ten_centimetres() -> None:
    """Rain or Shine, 13.4 (as above): 7 °C at the surface is 3 °C at 10 cm."""
    assert daily_amplitude_c(7.0, 0.10, EXAMPLE_M2_PER_DAY) == pytest.approx(3.0, abs=0.05)


def test_thirty_seven_percent_is_left_at_the_damping_depth() -> None:
    """Rain or Shine, 13.4 (as above)."""
    left = daily_amplitude_c(100.0, damping_depth_m(EXAMPLE_M2_PER_DAY, 1.0), EXAMPLE_M2_PER_DAY)
    assert left == pytest.approx(37.0, abs=0.5)


@pytest.mark.parametrize("depth", [0.05, 0.15, 0.5, 2.0])
@pytest.mark.parametrize("day", [1, 100, 200, 300])
def test_the_wave_is_the_published_formula(depth: float, day: int) -> None:
    """Rain or Shine, 13.4 (as above): mean + amplitude × exp(-z/d) × sin(wt + phase - z/d)."""
    air = Wave(9.0, 12.0, 205.0)
    d = math.sqrt(2.0 * 0.06 / (2.0 * math.pi / YEAR_DAYS))
    turned = 2.0 * math.pi / YEAR_DAYS * (day - air.peak_day) + math.pi / 2.0
    published = 9.0 + 12.0 * math.exp(-depth / d) * math.sin(turned - depth / d)
    assert soil_wave(air, depth, 0.06, warmer_by_c=0.0).at(day) == pytest.approx(published)


def test_the_frequency_of_a_day_is_two_pi_and_not_one() -> None:
    """Oklahoma State University, soil physics (Hillel 1982): Glossary,
    http://soilphysics.okstate.edu/toolkit/temperature/glossary.htm, prints 1 per day for the daily wave. With
    that the worked example's 11.7 cm would be 29 cm."""
    as_printed = math.sqrt(2.0 * EXAMPLE_M2_PER_DAY / 1.0)
    assert as_printed == pytest.approx(0.29, abs=0.005)
    right = math.sqrt(2.0 * EXAMPLE_M2_PER_DAY / (2.0 * math.pi))
    assert damping_depth_m(EXAMPLE_M2_PER_DAY, 1.0) == pytest.approx(right)


def test_the_diffusivity_lies_in_the_published_range() -> None:
    """Oklahoma State University, soil physics (Hillel 1982): Soil Temperature Exercises,
    http://soilphysics.okstate.edu/software/SoilTemperature/exercises.html (0.05 to 0.08 m²/day)"""
    assert 0.05 <= DIFFUSIVITY_M2_PER_DAY <= 0.08


def test_the_mean_is_the_same_at_every_depth() -> None:
    """Oklahoma State University, soil physics (Hillel 1982): Model Description,
    http://soilphysics.okstate.edu/toolkit/temperature/model.htm"""
    air = Wave(9.0, 12.0, 205.0)
    assert len({soil_wave(air, depth).mean_c for depth in (0.0, 0.1, 0.5, 2.0, 4.0)}) == 1


@pytest.mark.parametrize("air", [5.0, 8.0, 12.0, 16.0, 20.0])
def test_the_mean_of_the_soil_follows_the_measured_line(air: float) -> None:
    """D'Avello, Bathgate, Thompson: Modeling the thermic soil temperature regime boundary of the eastern
    United States, Soil Science Society of America Journal, 2021, https://doi.org/10.1002/saj2.20320
    (soil = 2.49 + 0.91 × air)"""
    assert air + warmer_than_air_c(air) == pytest.approx(2.49 + 0.91 * air)
