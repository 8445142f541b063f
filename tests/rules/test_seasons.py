import math
from datetime import date, timedelta

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate, Pace, climate_from
from cuttings.climate.frost import THRESHOLDS_F, Freezes, Law, frost_dates
from cuttings.climate.wave import Wave
from cuttings.rules.growth import growing_days_after, growing_season, hard_summer, out_of_winter
from cuttings.rules.months import month_stretches
from cuttings.rules.odds import chance_of_frozen_ground
from cuttings.rules.phases import dormancy, short_shoots
from cuttings.rules.seasons import NO_FROST_DATES, frosts, frozen_ground, in_summer, is_hardy, window
from cuttings.rules.warmth import day_of_warmth, paced
from tests.rules.gardens import (
    BOX,
    COLD,
    COLD_LEVELS,
    DAHLIA,
    ROSEMARY,
    SOUTHERN,
    UNKNOWN,
    UNKNOWN_SOUTH,
    climates,
    days,
    normals_of,
    years,
)


def test_months_shift_by_six_in_the_south() -> None:
    assert month_stretches((4, 5), COLD, 2026) == ((date(2026, 4, 1), date(2026, 5, 31)),)
    assert month_stretches((4, 5), UNKNOWN_SOUTH, 2026) == ((date(2026, 10, 1), date(2026, 11, 30)),)


def test_months_move_with_the_gardens_own_spring_and_autumn() -> None:
    """Last frost three weeks before the catalogue garden's and first frost a month after it; midsummer
    stays."""
    mild = Climate(38.0, frost_dates((4, 19), (11, 3)), "7b")
    ((opens, closes),) = month_stretches((5,), mild, 2026)
    assert date(2026, 4, 8) <= opens <= date(2026, 4, 14)
    assert closes < date(2026, 5, 31)
    ((opens, _),) = month_stretches((10,), mild, 2026)
    assert date(2026, 10, 28) <= opens <= date(2026, 11, 3)
    ((opens, _),) = month_stretches((7,), mild, 2026)
    assert abs((opens - date(2026, 7, 1)).days) <= 7


@given(climates(), st.integers(2000, 2100))
def test_months_keep_their_order_in_every_garden(climate: Climate, year: int) -> None:
    firsts = [month_stretches((month,), climate, year)[0] for month in range(1, 13)]
    assert all(first <= last for first, last in firsts)
    in_order = sorted(firsts, key=lambda run: run[0])
    if climate.southern:
        firsts = [*firsts[6:], *firsts[:6]]
    assert firsts == in_order


def test_a_run_of_months_may_pass_new_year() -> None:
    assert month_stretches((11, 12, 1, 2), COLD, 2027) == ((date(2027, 11, 1), date(2028, 2, 29)),)


def test_broken_months_make_several_runs() -> None:
    assert [first.month for first, _ in month_stretches((3, 9, 10), COLD, 2026)] == [3, 9]


def test_all_months_make_one_year() -> None:
    assert month_stretches(range(1, 13), COLD, 2026) == ((date(2026, 1, 1), date(2026, 12, 31)),)


@given(st.sampled_from((COLD, UNKNOWN, UNKNOWN_SOUTH)), st.sets(st.integers(1, 12), min_size=1), years)
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
    season, following = growing_season(COLD, 2026), growing_season(COLD, 2027)
    assert season is not None
    assert following is not None
    assert growing_days_after(COLD, season[1] - timedelta(days=10), 10) == season[1]
    assert growing_days_after(COLD, season[1] - timedelta(days=10), 11) == following[0]


def test_where_frost_is_unknown_the_usual_season_grows() -> None:
    season = growing_season(UNKNOWN, 2027)
    assert season is not None
    assert date(2027, 3, 25) < season[0] < date(2027, 4, 20)
    assert growing_days_after(UNKNOWN, date(2026, 12, 25), 31) == season[0] + timedelta(days=31)


def test_winter_waits_for_workable_ground() -> None:
    assert out_of_winter(COLD, date(2026, 12, 25)) == frosts(COLD, 2027).workable
    assert out_of_winter(COLD, date(2026, 6, 1)) == date(2026, 6, 1)


def test_soil_that_is_never_warm_has_no_growing_season() -> None:
    arctic = Climate(64.0, normals=normals_of(Wave(-9.0, 10.0, 201.0), ()))
    assert growing_season(arctic, 2026) is None
    assert growing_days_after(arctic, date(2026, 12, 1), 31) == date(2027, 1, 1)


def test_soil_that_is_never_cold_grows_all_the_year() -> None:
    warm = Climate(20.0, normals=normals_of(Wave(24.0, 4.0, 201.0), ()))
    assert growing_days_after(warm, date(2026, 12, 1), 31) == date(2027, 1, 1)
    assert frozen_ground(warm, 2026) is None
    assert chance_of_frozen_ground(warm, date(2026, 12, 1)) == 0.0


def test_a_place_without_frost_runs_from_midwinter_to_midwinter() -> None:
    none = Law(18.0, 12.0, 0.0, 30)
    levels = tuple(Freezes(threshold, none, none, none) for threshold in THRESHOLDS_F)
    mild = climate_from(normals_of(Wave(19.0, 6.0, 201.0), levels), 26.0)
    year = frosts(mild, 2026)
    assert year.frostless
    assert not year.freezes
    assert (year.last_spring.month, year.first_autumn) == (
        1,
        frosts(mild, 2027).last_spring - timedelta(days=1),
    )
    assert in_summer(mild, date(2026, 12, 24))
    opens, closes = dormancy(mild, 2026)
    assert closes - opens >= timedelta(weeks=6)


def test_frozen_ground_is_likelier_the_later_the_autumn() -> None:
    chances = [chance_of_frozen_ground(COLD, date(2026, 11, 1) + timedelta(days=n)) for n in range(0, 80, 5)]
    assert chances == sorted(chances)
    assert chance_of_frozen_ground(COLD, frosts(COLD, 2026).freeze) == pytest.approx(0.5)


def test_heat_and_drought_make_a_hard_summer_only_where_a_record_tells_of_them() -> None:
    assert hard_summer(COLD, 2026) is None
    rain = (80.0, 80, 70, 40, 20, 5, 2, 4, 20, 60, 90, 90)
    dry = climate_from(normals_of(Wave(16.0, 8.0, 201.0), COLD_LEVELS, rain), 38.0)
    found = hard_summer(dry, 2026)
    assert found is not None
    assert found[0] <= date(2026, 6, 1) < date(2026, 9, 1) <= found[1]
    wet = climate_from(normals_of(Wave(16.0, 8.0, 201.0), COLD_LEVELS, (100.0,) * 12), 38.0)
    assert hard_summer(wet, 2026) is None


def test_wood_is_bare_from_leaf_fall_until_the_buds_move() -> None:
    opens, closes = dormancy(COLD, 2026)
    assert opens == frosts(COLD, 2026).hard_freeze + timedelta(weeks=2)
    assert date(2027, 3, 10) < closes < date(2027, 5, 1)
    shoots = short_shoots(COLD, 2027)
    assert shoots is not None
    assert closes < shoots[0] < shoots[1] < date(2027, 6, 1)


AHEAD = Pace(2027, 40.0, 8, date(2027, 4, 10), "The season is 8 days ahead.")


def test_an_early_spring_moves_dates_most_while_it_is_cool() -> None:
    early = evolve(COLD, pace=AHEAD)
    moved = [
        (day - paced(early, day)).days for day in (date(2027, 4, 25), date(2027, 6, 1), date(2027, 7, 15))
    ]
    assert 8 >= moved[0] > moved[1] >= moved[2] >= 1
    assert paced(early, date(2027, 10, 10)) == date(2027, 10, 10)
    assert paced(early, date(2028, 4, 25)) == date(2028, 4, 25)


@given(climates(), days, st.floats(-200, 200), st.integers(0, 60), st.integers(-20, 60))
def test_no_date_moves_further_than_the_keeper_saw(
    climate: Climate, day: date, ahead: float, seen: int, lies: int
) -> None:
    since = day - timedelta(days=lies)
    pace = Pace(day.year, ahead, int(math.copysign(seen, ahead)), since, "")
    moved = paced(evolve(climate, pace=pace), day)
    assert abs((moved - day).days) <= seen
    assert (moved - day).days * ahead <= 0
    assert moved >= since or lies < 0


@given(climates(), st.floats(0, 800), st.floats(0, 800))
def test_more_warmth_takes_longer(climate: Climate, few: float, more: float) -> None:
    few, more = sorted((few, more))
    first, second = day_of_warmth(climate, 2027, few), day_of_warmth(climate, 2027, more)
    assert second is None or (first is not None and first <= second)


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
