"""Which days count for roots: the published range turned into the days of a lot's own warmth."""

from datetime import date, timedelta

import pytest
from attrs import frozen
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Way
from cuttings.rules.growth import SHORTEST_SEASON_DAYS
from cuttings.rules.rooting import LOOK_AGAIN_DAYS, SEASON_SOIL_C, Bench, RootingClock, thermal_clock
from cuttings.words import Method
from tests.rules.gardens import COLD, SOUTHERN, UNKNOWN, climates, days, even_normals

SOFTWOOD = Way(Method.SOFTWOOD_CUTTING, rooting_days=(28, 42))
LAYER = Way(Method.SIMPLE_LAYER, rooting_days=(60, 120))
SLOW_LAYER = Way(Method.SIMPLE_LAYER, rooting_days=(180, 365))


@frozen
class Span:
    """The days on which the published range begins and ends for a lot, and why."""

    first: date
    last: date
    why: str


def span(way: Way, started: date, climate: Climate, bench: Bench = Bench.OPEN) -> Span:
    clock = RootingClock.of(way, started, climate, bench)
    assert clock is not None
    return Span(clock.after(clock.low), clock.after(clock.high), clock.why)


def test_without_a_published_time_there_is_no_clock() -> None:
    assert RootingClock.of(Way(Method.SIMPLE_LAYER), date(2026, 5, 1), COLD, Bench.OPEN) is None


def test_on_a_warm_bench_the_range_holds_as_it_is() -> None:
    found = span(SOFTWOOD, date(2026, 6, 1), COLD, Bench.WARM)
    assert (found.first, found.last) == (date(2026, 6, 29), date(2026, 7, 13))
    assert "4 to 6 weeks" in found.why


def test_a_layer_outdoors_sleeps_through_the_winter() -> None:
    # The soil of that garden is above 6 °C from 6 April to 10 November.
    found = span(LAYER, date(2026, 9, 20), COLD)
    assert date(2027, 4, 6) < found.first < found.last < date(2027, 9, 1)
    assert "by the warmth of the soil" in found.why


def test_a_cutting_in_the_warm_does_not_wait_for_spring() -> None:
    assert span(SOFTWOOD, date(2026, 12, 1), COLD, Bench.WARM).first == date(2026, 12, 29)


def test_a_range_that_takes_in_a_winter_is_turned_into_warmth() -> None:
    found = span(SLOW_LAYER, date(2026, 6, 1), COLD)
    assert date(2027, 4, 6) < found.first < found.last < date(2027, 8, 1)
    assert "takes in a winter" in found.why


def test_a_long_range_holds_in_the_garden_it_is_told_of() -> None:
    """Begun in its month in an ordinary cold garden, the quick ones root in the days that were published."""
    way = Way(Method.SIMPLE_LAYER, rooting_days=(147, 364), months=(4,))
    found = span(way, date(2026, 4, 15), UNKNOWN)
    assert abs((found.first - date(2026, 4, 15)).days - 147) <= 3
    assert abs((found.last - date(2026, 4, 15)).days - 364) <= 45


def test_the_same_layer_roots_sooner_where_summers_are_longer() -> None:
    way = Way(Method.SIMPLE_LAYER, rooting_days=(147, 364), months=(4,))
    mild = Climate(35.0, frost_dates((4, 1), (11, 5)), "8a")
    assert span(way, date(2026, 4, 15), mild).last < span(way, date(2026, 4, 15), COLD).last


def test_the_southern_winter_is_in_the_middle_of_the_year() -> None:
    found = span(LAYER, date(2026, 6, 1), SOUTHERN)
    assert date(2026, 8, 1) < found.first < found.last < date(2026, 12, 1)


def test_without_frost_dates_the_season_is_that_of_an_ordinary_cold_garden_and_it_says_so() -> None:
    found = span(LAYER, date(2026, 12, 1), UNKNOWN)
    assert date(2027, 5, 10) < found.first < date(2027, 6, 20)
    assert "not entered" in found.why


def test_looks_are_a_week_to_six_weeks_apart() -> None:
    assert set(LOOK_AGAIN_DAYS.values()) <= set(range(7, 43))


def test_hardwood_struck_in_autumn_roots_through_the_next_summer() -> None:
    found = span(Way(Method.HARDWOOD_CUTTING, rooting_days=(56, 150)), date(2025, 11, 9), COLD)
    assert date(2026, 6, 1) < found.first < found.last < date(2026, 10, 1)


def test_a_frame_is_ahead_of_the_open_ground_and_behind_a_heated_tray() -> None:
    way = Way(Method.SEMI_RIPE_CUTTING, rooting_days=(42, 84), reference_temp_c=(20.0, 22.0))
    warm, frame, outside = (span(way, date(2026, 5, 1), COLD, bench).first for bench in Bench)
    assert warm < frame < outside


def test_soil_at_the_reference_temperature_takes_the_range_as_it_is() -> None:
    even = Climate(45.0, frost_dates((5, 1), (10, 1)), normals=even_normals(SEASON_SOIL_C))
    assert even.soil.at(1) == pytest.approx(SEASON_SOIL_C)
    found = span(LAYER, date(2026, 3, 1), even)
    assert (found.first, found.last) == (
        date(2026, 3, 1) + timedelta(days=60),
        date(2026, 3, 1) + timedelta(days=120),
    )


@given(
    st.sampled_from(Method),
    st.tuples(st.integers(0, 700), st.integers(0, 700)),
    days,
    climates(),
    st.sampled_from(Bench),
    st.integers(0, 900),
)
def test_as_many_days_have_passed_on_the_day_that_they_lead_to(
    method: Method, rooting_days: tuple[int, int], started: date, climate: Climate, bench: Bench, later: int
) -> None:
    clock = RootingClock.of(Way(method, rooting_days=rooting_days), started, climate, bench)
    assert clock is not None
    passed = clock.passed(started + timedelta(days=later))
    assert passed >= 0.0
    assert clock.after(passed) >= started
    assert clock.passed(clock.after(passed)) == pytest.approx(passed, abs=2.0)


def test_what_has_passed_by_the_end_of_a_season_has_passed_then_and_not_in_the_new_year() -> None:
    clock = RootingClock.of(LAYER, date(2026, 6, 1), COLD, Bench.OPEN)
    assert clock is not None
    for year in (2026, 2027):
        assert clock.after(clock.passed(date(year, 12, 1))) < date(year, 12, 1)


@given(climates(), days, st.floats(0, 400), st.floats(0, 400))
def test_more_warmth_is_never_had_sooner(climate: Climate, start: date, few: float, more: float) -> None:
    few, more = sorted((few, more))
    clock = thermal_clock(climate, SEASON_SOIL_C)
    assert start <= clock.after(start, few) <= clock.after(start, more)


@given(climates(), days, st.floats(10, 24), st.floats(0, 6))
def test_a_warmer_place_is_never_later(
    climate: Climate, start: date, reference: float, warmer: float
) -> None:
    outside, frame = thermal_clock(climate, reference), thermal_clock(climate, reference, warmer)
    if outside.sums[-1] >= SHORTEST_SEASON_DAYS:
        assert frame.after(start, 40) <= outside.after(start, 40)
