"""Degree days: three ways of counting a day, and the sum to be expected in a normal year."""

import math
from statistics import NormalDist, fmean

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from cuttings.climate.heat import (
    accumulated,
    degree_days_86_50,
    degree_days_average,
    degree_days_sine,
    normal_degree_days,
)
from cuttings.climate.wave import Wave
from cuttings.units import celsius_to_fahrenheit

TEMPERATURES = st.floats(-40.0, 50.0)
PAIRS = st.tuples(TEMPERATURES, TEMPERATURES).map(lambda pair: (min(pair), max(pair)))
BASES = st.floats(0.0, 15.0)
QUARRY_BANK = Wave(7.5, 14.0, 203.0)
SWING_C, BASE_C = 11.0, 10.0


def summed_sine(tmin: float, tmax: float, base: float, upper: float = math.inf) -> float:
    """The same area by adding up many moments of a day."""
    mean, half, points = (tmin + tmax) / 2, (tmax - tmin) / 2, 4_000
    moments = (mean + half * math.sin(2 * math.pi * (k + 0.5) / points) for k in range(points))
    return fmean(min(max(moment - base, 0.0), upper - base) for moment in moments)


def one_day(mean: float, swing: float, base: float, spread: float) -> float:
    """What one day is expected to bring, asked of a year in which all days are alike."""
    return normal_degree_days(Wave(mean, 0.0, 200.0), swing, base, spread)[1]


@given(PAIRS, BASES)
def test_the_single_sine_is_the_area_above_the_base(pair: tuple[float, float], base: float) -> None:
    """Four thousand moments leave an error of some thousandth of a degree day at most."""
    assert degree_days_sine(*pair, base) == pytest.approx(summed_sine(*pair, base), abs=1e-3)


@given(PAIRS, BASES, st.floats(0.5, 30.0))
def test_an_upper_threshold_cuts_the_area_off_level(
    pair: tuple[float, float], base: float, more: float
) -> None:
    capped = degree_days_sine(*pair, base, base + more)
    assert capped == pytest.approx(summed_sine(*pair, base, base + more), abs=1e-3)
    assert 0.0 <= capped <= more + 1e-9
    assert capped <= degree_days_sine(*pair, base) + 1e-9


@given(PAIRS, BASES)
def test_the_sine_never_counts_less_than_the_average_and_never_less_than_nothing(
    pair: tuple[float, float], base: float
) -> None:
    average = degree_days_average(*pair, base)
    assert 0.0 <= average <= degree_days_sine(*pair, base) + 1e-9


@given(PAIRS, BASES)
def test_the_ways_agree_where_the_whole_day_lies_above_the_base_or_below(
    pair: tuple[float, float], base: float
) -> None:
    tmin, tmax = pair
    above = (base + tmin + 40.0, base + tmax + 40.0)
    assert degree_days_sine(*above, base) == pytest.approx(degree_days_average(*above, base))
    below = (base + tmin - 51.0, base + tmax - 51.0)
    assert degree_days_sine(*below, base) == degree_days_average(*below, base) == 0.0


@given(PAIRS, st.floats(0.0, 10.0), st.floats(0.0, 10.0), BASES, st.floats(0.0, 5.0))
def test_a_warmer_day_or_a_lower_base_never_counts_less(
    pair: tuple[float, float], at_night: float, by_day: float, base: float, lower: float
) -> None:
    tmin, tmax = pair
    night = min(tmin + at_night, tmax + by_day)
    for way in (degree_days_sine, degree_days_average):
        assert way(night, tmax + by_day, base) >= way(tmin, tmax, base) - 1e-9
        assert way(tmin, tmax, base - lower) >= way(tmin, tmax, base) - 1e-9
    assert degree_days_86_50(night, tmax + by_day) >= degree_days_86_50(tmin, tmax)


@given(PAIRS, BASES)
def test_a_celsius_day_is_one_and_eight_tenths_fahrenheit_days(
    pair: tuple[float, float], base: float
) -> None:
    tmin, tmax, base_f = (celsius_to_fahrenheit(each) for each in (*pair, base))
    for way in (degree_days_sine, degree_days_average):
        assert way(tmin, tmax, base_f) == pytest.approx(1.8 * way(*pair, base), abs=1e-6)


@given(PAIRS)
def test_the_modified_way_counts_nothing_below_fifty_and_thirty_six_at_most(
    pair: tuple[float, float],
) -> None:
    assert 0.0 <= degree_days_86_50(pair[0] + 60.0, pair[1] + 60.0) <= 36.0
    assert degree_days_86_50(pair[0], min(pair[1], 50.0) if pair[0] <= 50.0 else 50.0) == 0.0


@pytest.mark.parametrize("way", [degree_days_86_50, lambda low, high: degree_days_sine(low, high, 10.0),
                                 lambda low, high: degree_days_average(low, high, 10.0)])  # fmt: skip
def test_a_lowest_above_the_highest_is_refused(way: object) -> None:
    assert callable(way)
    with pytest.raises(ValueError, match="are they swapped"):
        way(12.0, 11.9)
    with pytest.raises(ValueError, match="are they swapped"):
        way(math.nan, 11.9)


@pytest.mark.parametrize("upper", [10.0, 9.0, math.nan])
def test_an_upper_threshold_must_lie_above_the_base(upper: float) -> None:
    with pytest.raises(ValueError, match="above the base"):
        degree_days_sine(5.0, 20.0, 10.0, upper)


@given(st.lists(PAIRS, max_size=40))
def test_the_running_sum_never_falls_and_ends_at_the_sum_of_its_days(
    days: list[tuple[float, float]],
) -> None:
    sums = accumulated(days, lambda low, high: degree_days_sine(low, high, BASE_C))
    assert len(sums) == len(days)
    assert list(sums) == sorted(sums)
    total = math.fsum(degree_days_sine(low, high, BASE_C) for low, high in days)
    assert (sums[-1] if sums else 0.0) == pytest.approx(total)


def test_a_normal_year_without_spread_is_the_sum_of_its_sines() -> None:
    sums = normal_degree_days(QUARRY_BANK, SWING_C, BASE_C)
    pairs = [(QUARRY_BANK.at(day) - SWING_C / 2, QUARRY_BANK.at(day) + SWING_C / 2) for day in range(1, 367)]
    assert sums[0] == 0.0
    assert sums[1:] == pytest.approx(
        accumulated(pairs, lambda low, high: degree_days_sine(low, high, BASE_C))
    )


@settings(max_examples=40, deadline=None)  # each example sums two whole years
@example(mean=10.0, swing=1.0, one=1.0, other=5e-324)
@given(
    mean=st.floats(-10.0, 30.0),
    swing=st.floats(0.0, 20.0),
    one=st.floats(0.0, 6.0),
    other=st.floats(0.0, 6.0),
)
def test_more_spread_never_brings_fewer_degree_days(
    mean: float, swing: float, one: float, other: float
) -> None:
    """Where the spread is a small part of the swing, the sum round the day is good to a hundredth."""
    less, more = sorted((one, other))
    assert one_day(mean, swing, BASE_C, less) <= one_day(mean, swing, BASE_C, more) + 0.01


@pytest.mark.parametrize("mean", [-5.0, 2.0, 8.0, 10.0, 14.0, 25.0])
@pytest.mark.parametrize("spread", [0.5, 2.0, 4.5])
@pytest.mark.parametrize("swing", [0.0, 6.0, 14.0])
def test_a_day_with_a_spread_brings_the_mean_of_all_the_days_it_may_be(
    mean: float, spread: float, swing: float
) -> None:
    """Against the mean of 20,000 days set evenly through the normal law, good to a few thousandths."""
    law, days = NormalDist(mean, spread), 20_000
    drawn = (law.inv_cdf((k + 0.5) / days) for k in range(days))
    expected = fmean(degree_days_sine(each - swing / 2, each + swing / 2, BASE_C) for each in drawn)
    assert one_day(mean, swing, BASE_C, spread) == pytest.approx(expected, abs=0.003)


@pytest.mark.parametrize(("mean", "spread"), [(10.0, 3.0), (8.0, 3.0), (14.0, 2.0)])
def test_without_a_swing_the_expectation_is_that_of_a_normal_law_above_a_level(
    mean: float, spread: float
) -> None:
    """E max(0, X) = m F(m / s) + s f(m / s): the textbook form, here with the standard library's law."""
    z = (mean - BASE_C) / spread
    expected = spread * (NormalDist().pdf(z) + z * NormalDist().cdf(z))
    assert one_day(mean, 0.0, BASE_C, spread) == pytest.approx(expected)


def test_degree_days_of_mean_temperatures_fall_short_of_means_of_degree_days_most_in_spring() -> None:
    even = normal_degree_days(QUARRY_BANK, SWING_C, BASE_C)
    real = normal_degree_days(QUARRY_BANK, SWING_C, BASE_C, spread_c=4.0)
    end_of_march, end_of_june, year = 90, 181, 365
    assert all(less <= more for less, more in zip(even, real, strict=True))
    assert real[end_of_march] > 2 * even[end_of_march]
    assert real[end_of_june] < 1.15 * even[end_of_june]
    assert real[year] < 1.1 * even[year]


def test_a_year_too_cold_for_growth_has_no_degree_days_and_one_above_the_base_has_them_all() -> None:
    assert normal_degree_days(Wave(-20.0, 5.0, 200.0), 8.0, BASE_C)[366] == 0.0
    assert normal_degree_days(Wave(26.0, 1.0, 200.0), 8.0, BASE_C)[365] == pytest.approx(365 * 16.0, rel=1e-4)


@pytest.mark.parametrize(("swing", "spread"), [(-1.0, 0.0), (10.0, -1.0), (math.nan, 0.0)])
def test_a_swing_or_spread_below_nothing_is_refused(swing: float, spread: float) -> None:
    with pytest.raises(ValueError, match="cannot be below 0"):
        normal_degree_days(QUARRY_BANK, swing, BASE_C, spread)
