from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.rules.seasons import (
    NO_FROST_DATES,
    frosts,
    growing_days_after,
    growing_season,
    in_summer,
    is_hardy,
    month_stretches,
    out_of_winter,
    window,
)
from tests.rules.gardens import BOX, COLD, DAHLIA, ROSEMARY, SOUTHERN, UNKNOWN, UNKNOWN_SOUTH, climates, days


def test_months_shift_by_six_in_the_south() -> None:
    assert month_stretches((4, 5), COLD, 2026) == ((date(2026, 4, 1), date(2026, 5, 31)),)
    assert month_stretches((4, 5), SOUTHERN, 2026) == ((date(2026, 10, 1), date(2026, 11, 30)),)


def test_a_run_of_months_may_pass_new_year() -> None:
    assert month_stretches((11, 12, 1, 2), COLD, 2027) == ((date(2027, 11, 1), date(2028, 2, 29)),)


def test_broken_months_make_several_runs() -> None:
    assert [first.month for first, _ in month_stretches((3, 9, 10), COLD, 2026)] == [3, 9]


def test_all_months_make_one_year() -> None:
    assert month_stretches(range(1, 13), COLD, 2026) == ((date(2026, 1, 1), date(2026, 12, 31)),)


@given(climates(), st.sets(st.integers(1, 12), min_size=1), st.integers(2000, 2100))
def test_month_runs_hold_every_month_once(climate: Climate, months: set[int], year: int) -> None:
    held = [
        (first + timedelta(days=offset)).month
        for first, last in month_stretches(months, climate, year)
        for offset in range((last - first).days + 1)
        if (first + timedelta(days=offset)).day == 1
    ]
    assert sorted(held) == sorted(climate.month_here(month) for month in months)


def test_an_unknown_garden_says_so_and_is_turned_round_in_the_south() -> None:
    assert not frosts(UNKNOWN, 2026).known
    assert NO_FROST_DATES in frosts(UNKNOWN, 2026).said("Why.")
    assert frosts(UNKNOWN_SOUTH, 2026).last_spring.month == 11
    assert NO_FROST_DATES not in frosts(COLD, 2026).said("Why.")


def test_a_first_frost_after_new_year_follows_its_spring() -> None:
    mild = Climate(34.0, frost_dates((2, 20), (1, 5)))
    assert frosts(mild, 2026).first_autumn.year == 2027


def test_summer_is_between_the_frosts_in_both_hemispheres() -> None:
    assert in_summer(COLD, date(2026, 7, 1))
    assert not in_summer(COLD, date(2026, 1, 1))
    assert in_summer(SOUTHERN, date(2026, 1, 1))
    assert not in_summer(SOUTHERN, date(2026, 7, 1))


def test_growing_days_stop_for_the_winter() -> None:
    start = date(2026, 10, 16)
    assert growing_days_after(COLD, start, 10) == date(2026, 10, 26)
    assert growing_days_after(COLD, start, 11) == date(2027, 4, 16)


def test_where_frost_is_unknown_the_usual_season_grows() -> None:
    assert growing_days_after(UNKNOWN, date(2026, 12, 1), 31) == date(2027, 4, 17) + timedelta(days=31)


def test_winter_waits_for_workable_ground() -> None:
    assert out_of_winter(COLD, date(2026, 12, 25)) == date(2027, 4, 16)
    assert out_of_winter(COLD, date(2026, 6, 1)) == date(2026, 6, 1)


def test_a_summer_too_short_to_believe_is_not_used() -> None:
    assert growing_season(Climate(60.0, frost_dates((7, 1), (7, 20))), 2026) is None


@given(climates(), days, st.integers(0, 900), st.integers(0, 900))
def test_growing_days_never_go_backwards(climate: Climate, start: date, few: int, more: int) -> None:
    few, more = sorted((few, more))
    assert start <= growing_days_after(climate, start, few) <= growing_days_after(climate, start, more)


def test_hardiness_goes_by_zone_then_by_type() -> None:
    assert is_hardy(BOX, COLD)
    assert not is_hardy(ROSEMARY, COLD)
    assert is_hardy(ROSEMARY, SOUTHERN)
    assert not is_hardy(DAHLIA, SOUTHERN)
    assert not is_hardy(ROSEMARY, UNKNOWN)


@pytest.mark.parametrize("offset", [-30, -1])
def test_a_window_that_closes_before_it_opens_is_none(offset: int) -> None:
    day = date(2026, 5, 1)
    assert window("w", day, (day, day), day + timedelta(days=offset), why="", source="") is None
