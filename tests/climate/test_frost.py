"""Frost dates: the law behind them, whatever the garden."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import (
    GENERAL_SPREAD_DAYS,
    THRESHOLDS_F,
    Basis,
    Freezes,
    FrostDates,
    Law,
    frost_dates,
)
from cuttings.dates import MonthDay, day_of_year

CHANCES = st.floats(0.01, 0.99)
YEARS = st.integers(1990, 2060)
NORTH = ((5, 28), (5, 15), (5, 2)), ((9, 18), (9, 30), (10, 12))
SOUTH = ((10, 20), (10, 2), (9, 14)), ((4, 20), (5, 4), (5, 18))


def law(spring: tuple[MonthDay, ...], autumn: tuple[MonthDay, ...]) -> FrostDates:
    frost = frost_dates(None, None, _three(spring), _three(autumn))
    assert frost is not None
    return frost


def _three(days: tuple[MonthDay, ...]) -> tuple[MonthDay, MonthDay, MonthDay]:
    ten, fifty, ninety = days
    return ten, fifty, ninety


HEMISPHERES = st.sampled_from([law(*NORTH), law(*SOUTH)])


THRESHOLDS = st.sampled_from(THRESHOLDS_F)


def spring(frost: FrostDates, year: int, chance: float = 0.5) -> date:
    day = frost.last_spring(year, chance)
    assert day is not None
    return day


def autumn(frost: FrostDates, year: int, chance: float = 0.5) -> date:
    day = frost.first_autumn(year, chance)
    assert day is not None
    return day


@given(HEMISPHERES, YEARS, CHANCES, CHANCES)
def test_a_smaller_chance_of_frost_lies_later_in_spring_and_earlier_in_autumn(
    frost: FrostDates, year: int, one: float, other: float
) -> None:
    low, high = sorted((one, other))
    assert spring(frost, year, low) >= spring(frost, year, high)
    assert autumn(frost, year, low) <= autumn(frost, year, high)


@given(HEMISPHERES, st.dates(date(2026, 1, 1), date(2026, 12, 30)), THRESHOLDS)
def test_the_risk_falls_through_spring_and_rises_through_autumn(
    frost: FrostDates, day: date, threshold: int
) -> None:
    after = day + timedelta(days=1)
    if abs((day - spring(frost, 2026)).days) < 120:
        now, later = (frost.chance_of_later_frost(each, threshold) for each in (day, after))
        assert 0 <= later <= now <= 1
    if abs((day - autumn(frost, 2026)).days) < 120:
        now, later = (frost.chance_of_frost_already(each, threshold) for each in (day, after))
        assert 0 <= now <= later <= 1


LAWS = st.builds(Law, st.floats(20, 170), st.floats(1, 30), st.floats(0, 1), st.just(30))


@given(st.lists(LAWS, min_size=6, max_size=6), st.dates(date(2026, 1, 1), date(2026, 6, 30)))
def test_a_warmer_threshold_is_never_safer_whatever_the_laws(laws: list[Law], day: date) -> None:
    """Laws are fitted one by one and may cross in their tails; the chances told from them may not."""
    levels = (Freezes(t, law, law, law) for t, law in zip(THRESHOLDS_F, laws, strict=True))
    frost = FrostDates(tuple(levels), "laws drawn at random")
    spring_chances = [frost.chance_of_later_frost(day, threshold) for threshold in THRESHOLDS_F]
    autumn_chances = [frost.chance_of_frost_already(day, threshold) for threshold in THRESHOLDS_F]
    assert spring_chances == sorted(spring_chances, reverse=True)
    assert autumn_chances == sorted(autumn_chances, reverse=True)


@given(HEMISPHERES, CHANCES)
def test_a_date_has_the_chance_it_was_asked_for(frost: FrostDates, chance: float) -> None:
    """Half a day of rounding is worth at most a few in a hundred in a law this narrow."""
    freezes = frost.at()
    day = 0.4 / min(freezes.spring.sd, freezes.autumn.sd)
    assert frost.chance_of_later_frost(spring(frost, 2026, chance)) == pytest.approx(chance, abs=day)
    assert frost.chance_of_frost_already(autumn(frost, 2026, chance)) == pytest.approx(chance, abs=day)


@given(LAWS, CHANCES)
def test_a_cold_that_is_rarer_than_the_chance_has_no_date(law: Law, chance: float) -> None:
    for day in (law.last_left(chance), law.first_reached(chance)):
        assert (day is None) == (chance >= law.share)
    left = law.last_left(chance)
    if left is not None:
        assert law.above(left) == pytest.approx(chance, abs=1e-6)


@given(st.floats(0.2, 1), CHANCES, CHANCES)
def test_a_longer_season_is_less_likely(share: float, one: float, other: float) -> None:
    law = Law(150.0, 15.0, share, 30)
    few, many = sorted((one, other))
    longer, shorter = (Freezes(32, law, law, law).length_days(chance) for chance in (few, many))
    assert longer is None or (shorter is not None and shorter <= longer)


def test_winters_without_a_freeze_count_as_endless_seasons() -> None:
    law = Law(300.0, 20.0, 0.7, 30)
    freezes = Freezes(16, law, law, law)
    assert freezes.length_days(0.3) is None
    assert freezes.length_days(0.65) == 300


def test_the_sampling_error_grows_with_doubt() -> None:
    record = Law(130.0, 12.0, 1.0, 30)
    by_basis = [
        Freezes(32, record, record, record, basis).half_widths()[0] or 0.0
        for basis in (Basis.RECORD, Basis.TABLE, Basis.AVERAGE)
    ]
    assert by_basis == sorted(by_basis)
    # Student's t with 29 degrees of freedom: 1.699 (any table of the distribution) times 12 / sqrt(30).
    assert by_basis[0] == pytest.approx(1.699 * 12 / 30**0.5, abs=0.01)
    few = Law(130.0, 12.0, 1.0, 10)
    rare = Law(130.0, 12.0, 0.6, 30)
    for wider in (few, rare):
        half = Freezes(32, wider, wider, wider).half_widths()[0]
        assert half is not None
        assert half > by_basis[0]
    never = Law(130.0, 12.0, 0.4, 30)
    assert Freezes(32, never, never, never).half_widths() == (None, None)


def test_other_thresholds_follow_from_the_dates_that_were_typed() -> None:
    frost = frost_dates(None, None, *NORTH, coldest_c=-24.7)
    assert frost is not None
    dates = [frost.last_spring(2026, 0.5, threshold) for threshold in THRESHOLDS_F]
    assert dates == sorted((day for day in dates if day), reverse=True)
    assert frost.at(32).basis is Basis.TABLE
    assert frost.at(24).basis is Basis.OFFSET


def test_a_mild_zone_seldom_sees_deep_cold() -> None:
    frost = frost_dates((3, 1), (12, 1), coldest_c=-4.0)
    assert frost is not None
    assert frost.last_spring(2026, 0.5, 16) is None
    assert frost.last_spring(2026, 0.5, 28) is not None


def test_the_dates_entered_come_back() -> None:
    frost = law(*NORTH)
    for chance, last, first in zip((0.1, 0.5, 0.9), *NORTH, strict=True):
        assert abs((spring(frost, 2023, chance) - date(2023, *last)).days) <= 1
        assert abs((autumn(frost, 2023, chance) - date(2023, *first)).days) <= 1


def test_in_the_south_spring_comes_late_in_the_year() -> None:
    frost = law(*SOUTH)
    assert autumn(frost, 2026) < spring(frost, 2026)
    assert abs((spring(frost, 2026) - date(2026, 10, 2)).days) <= 1
    assert abs((autumn(frost, 2026) - date(2026, 5, 4)).days) <= 1


@given(st.dates(date(2023, 3, 1), date(2023, 6, 20)), st.dates(date(2023, 8, 20), date(2023, 11, 30)))
def test_an_average_gets_the_general_spread_and_says_so(last: date, first: date) -> None:
    frost = frost_dates((last.month, last.day), (first.month, first.day))
    assert frost is not None
    assert frost.last_spring(2023) == last
    assert frost.first_autumn(2023) == first
    assert frost.at().spring.sd == frost.at().autumn.sd == GENERAL_SPREAD_DAYS
    assert f"general spread of {GENERAL_SPREAD_DAYS:.0f} days" in frost.stated


def test_odds_are_believed_before_an_average() -> None:
    frost = frost_dates((4, 1), (11, 1), *NORTH)
    assert frost is not None
    assert frost.at().spring.mean == pytest.approx(day_of_year((5, 15)))
    assert frost.stated == "your 10, 50 and 90 % frost dates"


def test_without_any_dates_there_are_no_frost_dates() -> None:
    assert frost_dates(None, None) is None


def test_one_end_of_the_season_is_believed_and_the_other_reckoned_from_it() -> None:
    frost = frost_dates((6, 10), None)
    assert frost is not None
    assert frost.last_spring(2026) == date(2026, 6, 10)
    first = autumn(frost, 2026)
    assert date(2026, 8, 25) < first < date(2026, 9, 10)
    assert frost.stated == "your average last frost and a first frost reckoned from the other"
    back = frost_dates(None, (first.month, first.day))
    assert back is not None
    assert abs((spring(back, 2026) - date(2026, 6, 10)).days) <= 1
    assert back.at().spring.sd > frost.at().spring.sd


def test_one_end_in_the_south_is_reckoned_the_same_way() -> None:
    frost = frost_dates((11, 10), None)
    assert frost is not None
    assert abs((autumn(frost, 2026) - date(2026, 4, 2)).days) <= 1


def test_what_the_dates_rest_on_is_said_for_each_end() -> None:
    mixed = frost_dates((5, 15), None, None, NORTH[1])
    assert mixed is not None
    assert mixed.stated == "your average last frost and your 10, 50 and 90 % dates of the first frost"


SKEWED = ((5, 28), (5, 15), (5, 10)), ((9, 10), (9, 30), (10, 4))


def test_dates_that_lean_to_one_side_come_back_as_they_were_typed() -> None:
    frost = law(*SKEWED)
    for chance, last, first in zip((0.1, 0.5, 0.9), *SKEWED, strict=True):
        assert spring(frost, 2023, chance) == date(2023, *last)
        assert autumn(frost, 2023, chance) == date(2023, *first)
    assert frost.chance_of_later_frost(date(2023, 5, 28)) == pytest.approx(0.1, abs=1e-9)
    assert frost.chance_of_frost_already(date(2023, 9, 10)) == pytest.approx(0.1, abs=1e-9)


def test_odds_may_pass_new_year() -> None:
    frost = law(((2, 20), (1, 25), (12, 28)), ((11, 25), (12, 20), (1, 14)))
    assert abs((spring(frost, 2026, 0.9) - date(2025, 12, 28)).days) <= 1
    assert abs((autumn(frost, 2026, 0.9) - date(2027, 1, 14)).days) <= 1


def test_a_month_of_the_north_is_half_a_year_away_in_the_south() -> None:
    north, south = Climate(lat=42.9), Climate(lat=-42.9)
    assert [north.month_here(month) for month in range(1, 13)] == list(range(1, 13))
    assert [south.month_here(month) for month in (1, 6, 7, 12)] == [7, 12, 1, 6]
    assert sorted(south.month_here(month) for month in range(1, 13)) == list(range(1, 13))
    assert south.zone_number is None
