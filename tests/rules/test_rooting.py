from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Way
from cuttings.rules.growth import SHORTEST_SEASON_DAYS
from cuttings.rules.rooting import LOOK_AGAIN_DAYS, SEASON_SOIL_C, Bench, Forecast, forecast, thermal_clock
from cuttings.words import Method
from tests.rules.gardens import COLD, SOUTHERN, UNKNOWN, climates, days, even_normals


def made(way: Way, started: date, climate: Climate, **options: Any) -> Forecast:
    found = forecast(way, started, climate, source_name="a handbook", **options)
    assert found is not None
    return found


SOFTWOOD = Way(Method.SOFTWOOD_CUTTING, rooting_days=(28, 42))
LAYER = Way(Method.SIMPLE_LAYER, rooting_days=(60, 120))
SLOW_LAYER = Way(Method.SIMPLE_LAYER, rooting_days=(180, 365))


def test_without_a_published_time_there_is_no_forecast() -> None:
    assert forecast(Way(Method.SIMPLE_LAYER), date(2026, 5, 1), COLD, source_name="") is None


def test_the_published_range_dates_the_early_and_the_late() -> None:
    found = made(SOFTWOOD, date(2026, 6, 1), COLD, bench=Bench.WARM)
    assert (found.p10, found.p90) == (date(2026, 6, 29), date(2026, 7, 13))
    assert found.p50 == date(2026, 6, 1) + timedelta(days=34)
    assert found.give_up == date(2026, 6, 1) + timedelta(days=63)
    assert found.source == "a handbook"
    assert "4 to 6 weeks" in found.why


def test_a_layer_outdoors_sleeps_through_the_winter() -> None:
    # The soil of that garden is above 6 °C from 6 April to 10 November.
    found = made(LAYER, date(2026, 9, 20), COLD)
    assert date(2027, 4, 6) < found.p10 < found.p50 < found.p90 < date(2027, 9, 1)
    assert "by the warmth of the soil" in found.why


def test_a_cutting_in_the_warm_does_not_wait_for_spring() -> None:
    assert made(SOFTWOOD, date(2026, 12, 1), COLD, bench=Bench.WARM).p10 == date(2026, 12, 29)


def test_a_range_that_takes_in_a_winter_is_turned_into_warmth() -> None:
    found = made(SLOW_LAYER, date(2026, 6, 1), COLD)
    assert date(2027, 4, 6) < found.p10 < found.p50 < found.p90 < date(2027, 8, 1)
    assert "takes in a winter" in found.why


def test_a_long_range_holds_in_the_garden_it_is_told_of() -> None:
    """Begun in its month in an ordinary cold garden, the quick ones root in the days that were published."""
    way = Way(Method.SIMPLE_LAYER, rooting_days=(147, 364), months=(4,))
    found = made(way, date(2026, 4, 15), UNKNOWN)
    assert abs((found.p10 - date(2026, 4, 15)).days - 147) <= 3
    assert abs((found.p90 - date(2026, 4, 15)).days - 364) <= 45


def test_the_same_layer_roots_sooner_where_summers_are_longer() -> None:
    way = Way(Method.SIMPLE_LAYER, rooting_days=(147, 364), months=(4,))
    mild = Climate(35.0, frost_dates((4, 1), (11, 5)), "8a")
    assert made(way, date(2026, 4, 15), mild).p50 < made(way, date(2026, 4, 15), COLD).p50


def test_the_southern_winter_is_in_the_middle_of_the_year() -> None:
    found = made(LAYER, date(2026, 6, 1), SOUTHERN)
    assert date(2026, 8, 1) < found.p10 < found.p50 < date(2026, 11, 1)


def test_without_frost_dates_the_season_is_that_of_an_ordinary_cold_garden_and_it_says_so() -> None:
    found = made(LAYER, date(2026, 12, 1), UNKNOWN)
    assert date(2027, 5, 10) < found.p10 < date(2027, 6, 20)
    assert "not entered" in found.why


def test_the_first_look_is_not_before_roots_are_likely() -> None:
    assert made(SOFTWOOD, date(2026, 6, 1), COLD, bench=Bench.WARM).next_look == date(2026, 6, 29)


def test_an_early_look_does_not_bring_the_next_one_forward() -> None:
    found = made(SOFTWOOD, date(2026, 6, 1), COLD, bench=Bench.WARM, looked=(date(2026, 6, 3),))
    assert found.next_look == date(2026, 6, 29)


@pytest.mark.parametrize(
    ("method", "gap"),
    [(Method.SOFTWOOD_CUTTING, 7), (Method.HARDWOOD_CUTTING, 28), (Method.SIMPLE_LAYER, 42)],
)
def test_later_looks_are_spaced_by_method(method: Method, gap: int) -> None:
    way = Way(method, rooting_days=(20, 100))
    last = date(2026, 6, 25)
    found = made(way, date(2026, 6, 1), COLD, bench=Bench.WARM, looked=(date(2026, 6, 22), last))
    assert found.next_look == last + timedelta(days=gap)


def test_the_last_look_falls_on_the_day_to_give_up() -> None:
    found = made(SOFTWOOD, date(2026, 6, 1), COLD, bench=Bench.WARM, looked=(date(2026, 8, 1),))
    assert found.next_look == found.give_up == date(2026, 8, 3)


def test_looks_are_a_week_to_six_weeks_apart() -> None:
    assert set(LOOK_AGAIN_DAYS.values()) <= set(range(7, 43))


@given(
    st.sampled_from(Method),
    st.tuples(st.integers(0, 700), st.integers(0, 700)),
    days,
    climates(),
    st.sampled_from(Bench),
    st.lists(st.integers(0, 900), max_size=3),
)
def test_forecasts_are_in_order(
    method: Method,
    rooting_days: tuple[int, int],
    started: date,
    climate: Climate,
    bench: Bench,
    looks: list[int],
) -> None:
    looked = [started + timedelta(days=each) for each in looks]
    found = made(Way(method, rooting_days=rooting_days), started, climate, bench=bench, looked=tuple(looked))
    assert started <= found.p10 <= found.p50 <= found.p90 <= found.give_up
    assert found.p10 <= found.next_look <= found.give_up
    assert not looked or found.next_look > max(looked) or found.next_look in (found.p10, found.give_up)


def test_hardwood_struck_in_autumn_roots_through_the_next_summer() -> None:
    found = made(Way(Method.HARDWOOD_CUTTING, rooting_days=(56, 150)), date(2025, 11, 9), COLD)
    assert date(2026, 6, 1) < found.p10 < found.p50 < found.p90 < date(2026, 10, 1)
    assert found.give_up > date(2026, 9, 1)


def test_a_look_after_the_last_day_asks_for_no_other() -> None:
    found = made(SOFTWOOD, date(2026, 6, 1), COLD, bench=Bench.WARM, looked=(date(2026, 9, 1),))
    assert found.next_look == found.give_up


def test_a_frame_is_ahead_of_the_open_ground_and_behind_a_heated_tray() -> None:
    way = Way(Method.SEMI_RIPE_CUTTING, rooting_days=(42, 84), reference_temp_c=(20.0, 22.0))
    warm, frame, outside = (made(way, date(2026, 5, 1), COLD, bench=bench).p50 for bench in Bench)
    assert warm < frame < outside


def test_soil_at_the_reference_temperature_takes_the_range_as_it_is() -> None:
    even = Climate(45.0, frost_dates((5, 1), (10, 1)), normals=even_normals(SEASON_SOIL_C))
    assert even.soil.at(1) == pytest.approx(SEASON_SOIL_C)
    found = made(LAYER, date(2026, 3, 1), even)
    assert (found.p10, found.p90) == (
        date(2026, 3, 1) + timedelta(days=60),
        date(2026, 3, 1) + timedelta(days=120),
    )


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


@given(st.tuples(st.integers(100, 700), st.integers(100, 700)), days, climates())
def test_nothing_is_waited_for_longer_than_a_year_past_its_time(
    rooting_days: tuple[int, int], started: date, climate: Climate
) -> None:
    found = made(Way(Method.SIMPLE_LAYER, rooting_days=rooting_days), started, climate)
    assert found.give_up - found.p90 <= timedelta(days=366)
