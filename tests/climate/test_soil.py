"""The soil's wave: flatter and later with depth, and warmer in the mean than the air."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.soil import (
    DIFFUSIVITY_M2_PER_DAY,
    daily_amplitude_c,
    damping_depth_m,
    soil_wave,
    warmer_than_air_c,
)
from cuttings.climate.wave import YEAR_DAYS, Wave, round_the_year

AIRS = st.builds(Wave, st.floats(-5.0, 28.0), st.floats(0.5, 20.0), st.floats(1.0, 366.0))
DEPTHS = st.floats(0.0, 3.0)
DIFFUSIVITIES = st.floats(0.02, 0.1)
QUARRY_BANK = Wave(7.5, 14.0, 203.0)


@given(AIRS, DEPTHS, DEPTHS, DIFFUSIVITIES)
def test_deeper_soil_swings_less_and_later(air: Wave, one: float, other: float, diffusivity: float) -> None:
    shallow, deep = (soil_wave(air, depth, diffusivity) for depth in sorted((one, other)))
    assert deep.amplitude_c <= shallow.amplitude_c <= air.amplitude_c
    assert round_the_year(deep.peak_day - shallow.peak_day) >= -1e-9
    assert deep.mean_c == shallow.mean_c


@given(AIRS)
def test_the_surface_swings_with_the_air(air: Wave) -> None:
    surface = soil_wave(air, 0.0, warmer_by_c=0.0)
    assert surface == air


@given(AIRS, DIFFUSIVITIES)
def test_at_the_damping_depth_one_part_in_e_is_left_a_radian_late(air: Wave, diffusivity: float) -> None:
    soil = soil_wave(air, damping_depth_m(diffusivity), diffusivity)
    assert soil.amplitude_c == pytest.approx(air.amplitude_c / math.e)
    assert round_the_year(soil.peak_day - air.peak_day) == pytest.approx(YEAR_DAYS / (2 * math.pi))


@given(st.floats(0.05, 3.0), st.floats(1.0, 366.0), DIFFUSIVITIES)
def test_warmth_moves_through_the_soil_as_heat_does(depth: float, day: float, diffusivity: float) -> None:
    """The law of conduction: change in a day is diffusivity times the bend of the profile, by differences.

    Steps of a centimetre and a tenth of a day leave errors of a few in ten thousand.
    """
    step_m, step_days = 0.01, 0.1
    above, here, below = (
        soil_wave(QUARRY_BANK, each, diffusivity) for each in (depth - step_m, depth, depth + step_m)
    )
    change = (here.at(day + step_days) - here.at(day - step_days)) / (2 * step_days)
    bend = (above.at(day) - 2 * here.at(day) + below.at(day)) / step_m**2
    fastest = 2 * math.pi / YEAR_DAYS * here.amplitude_c
    assert change == pytest.approx(diffusivity * bend, abs=2e-3 * fastest)


def test_near_the_surface_the_choice_of_diffusivity_matters_little() -> None:
    slow, fast = (soil_wave(QUARRY_BANK, 0.15, diffusivity) for diffusivity in (0.028, 0.08))
    assert slow.amplitude_c / QUARRY_BANK.amplitude_c == pytest.approx(0.92, abs=0.005)
    assert fast.amplitude_c / QUARRY_BANK.amplitude_c == pytest.approx(0.95, abs=0.005)
    assert slow.peak_day - QUARRY_BANK.peak_day == pytest.approx(5, abs=0.5)
    assert fast.peak_day - QUARRY_BANK.peak_day == pytest.approx(3, abs=0.5)


def test_the_mean_is_warmer_by_the_rule_unless_it_is_told() -> None:
    assert soil_wave(QUARRY_BANK, 0.15).mean_c == pytest.approx(7.5 + warmer_than_air_c(7.5))
    assert soil_wave(QUARRY_BANK, 0.15, warmer_by_c=1.0).mean_c == pytest.approx(8.5)


@given(st.floats(-5.0, 20.0), st.floats(-5.0, 20.0))
def test_the_colder_the_place_the_more_its_soil_is_warmer_than_the_air(one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    assert warmer_than_air_c(cold) >= warmer_than_air_c(warm) > 0.0
    assert cold + warmer_than_air_c(cold) <= warm + warmer_than_air_c(warm)


def test_the_day_sinks_far_less_deep_than_the_year() -> None:
    year, day = damping_depth_m(DIFFUSIVITY_M2_PER_DAY), damping_depth_m(DIFFUSIVITY_M2_PER_DAY, 1.0)
    assert year / day == pytest.approx(math.sqrt(YEAR_DAYS))
    assert daily_amplitude_c(8.0, day) == pytest.approx(8.0 / math.e)
    assert daily_amplitude_c(8.0, 0.0) == 8.0
    assert daily_amplitude_c(8.0, 0.5) < 0.2


@pytest.mark.parametrize(
    ("diffusivity", "period"), [(0.0, 365.0), (-0.05, 365.0), (0.05, 0.0), (math.nan, 1.0)]
)
def test_a_soil_that_carries_no_warmth_is_refused(diffusivity: float, period: float) -> None:
    with pytest.raises(ValueError, match="more than nothing"):
        damping_depth_m(diffusivity, period)


@pytest.mark.parametrize("depth", [-0.01, math.nan])
def test_a_depth_above_the_ground_is_refused(depth: float) -> None:
    with pytest.raises(ValueError, match="above the ground"):
        soil_wave(QUARRY_BANK, depth)
    with pytest.raises(ValueError, match="above the ground"):
        daily_amplitude_c(8.0, depth)
