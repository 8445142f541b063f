"""The year's round as a sine: where it stands, when it crosses a level, and how it is fitted."""

import math
from statistics import fmean

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from cuttings.climate.wave import YEAR_DAYS, Wave, in_year, round_the_year
from tests.climate.fitting import fitted

MONTHS = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DAYS = st.floats(1.0, 366.0)
WAVES = st.builds(Wave, st.floats(-10.0, 30.0), st.floats(0.5, 25.0), DAYS)
SHARES = st.floats(-0.99, 0.99)


def monthly_means(wave: Wave, points: int = 2_000) -> list[float]:
    """Means over the months by summing many moments of each."""
    means, start = [], 0.5
    for days in MONTHS:
        means.append(fmean(wave.at(start + (k + 0.5) * days / points) for k in range(points)))
        start += days
    return means


def distance(one: float, other: float) -> float:
    """Days between two days of the year, the shorter way round."""
    return abs(round_the_year(one - other))


@given(WAVES)
def test_it_is_warmest_at_the_peak_and_coldest_half_a_year_away(wave: Wave) -> None:
    assert wave.at(wave.peak_day) == pytest.approx(wave.mean_c + wave.amplitude_c)
    assert wave.at(wave.trough_day) == pytest.approx(wave.mean_c - wave.amplitude_c)
    assert distance(wave.peak_day, wave.trough_day) == pytest.approx(YEAR_DAYS / 2)


@given(WAVES, DAYS)
def test_it_stays_within_its_amplitude_and_comes_round_each_year(wave: Wave, day: float) -> None:
    assert abs(wave.at(day) - wave.mean_c) <= wave.amplitude_c * (1 + 1e-12)
    assert wave.at(day + YEAR_DAYS) == pytest.approx(wave.at(day), abs=1e-9)


@given(WAVES, SHARES)
def test_it_stands_at_the_level_it_crosses_warming_on_one_side_and_cooling_on_the_other(
    wave: Wave, share: float
) -> None:
    level = wave.mean_c + share * wave.amplitude_c
    rises, falls = wave.rises_through(level), wave.falls_through(level)
    assert rises is not None
    assert falls is not None
    for day in (rises, falls):
        assert 1.0 <= day < 1.0 + YEAR_DAYS
        assert wave.at(day) == pytest.approx(level, abs=1e-9)
    assert wave.at(rises - 0.01) < wave.at(rises + 0.01)
    assert wave.at(falls - 0.01) > wave.at(falls + 0.01)


@given(WAVES, SHARES, SHARES)
def test_a_higher_level_is_crossed_later_in_spring_and_earlier_in_autumn(
    wave: Wave, one: float, other: float
) -> None:
    low, high = (wave.mean_c + share * wave.amplitude_c for share in sorted((one, other)))
    risen = [wave.rises_through(level) for level in (low, high)]
    fallen = [wave.falls_through(level) for level in (high, low)]
    assert None not in risen
    assert None not in fallen
    since_trough = [(day - wave.trough_day) % YEAR_DAYS for day in risen if day is not None]
    since_peak = [(day - wave.peak_day) % YEAR_DAYS for day in fallen if day is not None]
    assert since_trough == sorted(since_trough)
    assert since_peak == sorted(since_peak)


@given(WAVES, st.floats(1.001, 5.0), st.sampled_from([-1, 1]))
def test_a_level_out_of_reach_is_never_crossed(wave: Wave, times: float, side: int) -> None:
    level = wave.mean_c + side * times * wave.amplitude_c
    assert wave.rises_through(level) is None
    assert wave.falls_through(level) is None


def test_to_touch_a_level_is_not_to_cross_it() -> None:
    wave = Wave(8.0, 12.0, 203.0)
    assert wave.rises_through(20.0) is None
    assert wave.falls_through(-4.0) is None
    assert Wave(8.0, 0.0, 203.0).rises_through(8.0) is None


def test_the_mean_is_crossed_a_quarter_of_a_year_from_the_peak() -> None:
    wave = Wave(8.0, 12.0, 203.0)
    assert wave.rises_through(8.0) == pytest.approx(203.0 - YEAR_DAYS / 4)
    assert wave.falls_through(8.0) == pytest.approx(203.0 + YEAR_DAYS / 4)


def test_in_the_south_it_warms_late_in_the_year() -> None:
    wave = Wave(12.0, 7.0, 20.0)
    assert wave.rises_through(12.0) == pytest.approx(20.0 - YEAR_DAYS / 4 + YEAR_DAYS)
    assert wave.falls_through(12.0) == pytest.approx(20.0 + YEAR_DAYS / 4)


@given(st.floats(-2_000.0, 2_000.0))
def test_a_day_is_taken_round_the_year(day: float) -> None:
    inside = in_year(day)
    assert 1.0 <= inside < 1.0 + YEAR_DAYS
    turns = (day - inside) / YEAR_DAYS
    assert turns == pytest.approx(round(turns), abs=1e-9)
    assert Wave(8.0, 12.0, day).peak_day == inside


def test_a_hair_before_new_year_is_not_a_day_too_many() -> None:
    assert in_year(math.nextafter(1.0, 0.0)) == 1.0


@given(st.floats(-2_000.0, 2_000.0))
def test_days_are_counted_the_nearer_way_round(days: float) -> None:
    nearer = round_the_year(days)
    assert abs(nearer) <= YEAR_DAYS / 2 + 1e-9
    turns = (days - nearer) / YEAR_DAYS
    assert turns == pytest.approx(round(turns), abs=1e-9)


@pytest.mark.parametrize(
    ("mean", "amplitude"), [(8.0, -0.1), (math.nan, 5.0), (8.0, math.nan), (math.inf, 5.0), (8.0, math.inf)]
)
def test_what_is_no_wave_is_refused(mean: float, amplitude: float) -> None:
    with pytest.raises(ValueError, match="a mean, and an amplitude"):
        Wave(mean, amplitude, 203.0)


@pytest.mark.parametrize("day", [math.nan, math.inf])
def test_a_peak_on_no_day_is_refused(day: float) -> None:
    with pytest.raises(ValueError, match="must be a day of the year"):
        Wave(8.0, 12.0, day)


@pytest.mark.parametrize("wave", [Wave(8.0, 14.0, 203.0), Wave(12.0, 7.0, 20.0), Wave(26.0, 0.5, 300.0)])
def test_a_wave_comes_back_from_the_means_of_its_months(wave: Wave) -> None:
    """The means are sums over moments, which leave an error of a ten-millionth."""
    again = fitted(monthly_means(wave))
    assert again.mean_c == pytest.approx(wave.mean_c, abs=1e-5)
    assert again.amplitude_c == pytest.approx(wave.amplitude_c, abs=1e-5)
    assert distance(again.peak_day, wave.peak_day) < 1e-4


def test_the_means_of_months_are_about_a_hundredth_flatter_than_their_wave() -> None:
    wave = Wave(0.0, 1.0, 16.0)
    assert monthly_means(wave)[0] == pytest.approx(1.0 - 0.012, abs=0.001)


@given(
    st.lists(st.floats(-30.0, 40.0), min_size=12, max_size=12),
    st.tuples(st.floats(-1.0, 1.0), st.floats(-1.0, 1.0), st.floats(-20.0, 20.0)),
)
def test_no_other_wave_is_nearer_to_the_months(
    months: list[float], shift: tuple[float, float, float]
) -> None:
    best = fitted(months)
    assume(best.amplitude_c + shift[1] >= 0.0)
    other = Wave(best.mean_c + shift[0], best.amplitude_c + shift[1], best.peak_day + shift[2])

    def missed(wave: Wave) -> float:
        means = monthly_means(wave, points=40)
        return math.fsum((mean - month) ** 2 for mean, month in zip(means, months, strict=True))

    assert missed(best) <= missed(other) + 0.05


def test_an_even_year_is_a_wave_without_height() -> None:
    even = fitted([8.0] * 12)
    assert even.mean_c == pytest.approx(8.0)
    assert even.amplitude_c == pytest.approx(0.0, abs=1e-9)
