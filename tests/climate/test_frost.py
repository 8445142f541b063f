"""Frost dates: the law behind them, whatever the garden."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate, parse_zone
from cuttings.climate.frost import GENERAL_SPREAD_DAYS, FrostDates, frost_dates
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


@given(HEMISPHERES, YEARS, CHANCES, CHANCES)
def test_a_smaller_chance_of_frost_lies_later_in_spring_and_earlier_in_autumn(
    frost: FrostDates, year: int, one: float, other: float
) -> None:
    low, high = sorted((one, other))
    assert frost.last_spring(year, low) >= frost.last_spring(year, high)
    assert frost.first_autumn(year, low) <= frost.first_autumn(year, high)


@given(HEMISPHERES, st.dates(date(2026, 1, 1), date(2026, 12, 30)))
def test_the_risk_falls_through_spring_and_rises_through_autumn(frost: FrostDates, day: date) -> None:
    after = day + timedelta(days=1)
    assert 0 <= frost.chance_of_later_frost(after) <= frost.chance_of_later_frost(day) <= 1
    assert 0 <= frost.chance_of_frost_already(day) <= frost.chance_of_frost_already(after) <= 1


@given(HEMISPHERES, CHANCES)
def test_a_date_has_the_chance_it_was_asked_for(frost: FrostDates, chance: float) -> None:
    """Half a day of rounding is worth at most a few in a hundred in a law this narrow."""
    day = 0.4 / min(frost.spring_sd, frost.autumn_sd)
    assert frost.chance_of_later_frost(frost.last_spring(2026, chance)) == pytest.approx(chance, abs=day)
    assert frost.chance_of_frost_already(frost.first_autumn(2026, chance)) == pytest.approx(chance, abs=day)


def test_the_dates_entered_come_back() -> None:
    frost = law(*NORTH)
    for chance, spring, autumn in zip((0.1, 0.5, 0.9), *NORTH, strict=True):
        assert abs((frost.last_spring(2023, chance) - date(2023, *spring)).days) <= 1
        assert abs((frost.first_autumn(2023, chance) - date(2023, *autumn)).days) <= 1


def test_in_the_south_spring_comes_late_in_the_year() -> None:
    frost = law(*SOUTH)
    assert frost.first_autumn(2026) < frost.last_spring(2026)
    assert abs((frost.last_spring(2026) - date(2026, 10, 2)).days) <= 1
    assert abs((frost.first_autumn(2026) - date(2026, 5, 4)).days) <= 1


@given(st.dates(date(2023, 3, 1), date(2023, 6, 20)), st.dates(date(2023, 8, 20), date(2023, 11, 30)))
def test_an_average_gets_the_general_spread_and_says_so(spring: date, autumn: date) -> None:
    frost = frost_dates((spring.month, spring.day), (autumn.month, autumn.day))
    assert frost is not None
    assert frost.last_spring(2023) == spring
    assert frost.first_autumn(2023) == autumn
    assert frost.spring_sd == frost.autumn_sd == GENERAL_SPREAD_DAYS
    assert f"general spread of {GENERAL_SPREAD_DAYS:.0f} days" in frost.stated


def test_odds_are_believed_before_an_average() -> None:
    frost = frost_dates((4, 1), (11, 1), *NORTH)
    assert frost is not None
    assert frost.spring_mean == pytest.approx(day_of_year((5, 15)))
    assert frost.stated == "your 10, 50 and 90 % frost dates"


@pytest.mark.parametrize(("last", "first"), [(None, None), ((5, 15), None), (None, (9, 30))])
def test_without_both_seasons_there_are_no_frost_dates(last: MonthDay | None, first: MonthDay | None) -> None:
    assert frost_dates(last, first) is None


@pytest.mark.parametrize(("typed", "zone"), [("5b", "5b"), ("5B", "5b"), (" 6 ", "6"), ("13a", "13a")])
def test_a_zone_is_read_as_it_is_written(typed: str, zone: str) -> None:
    assert parse_zone(typed) == zone
    assert Climate(lat=42.9, zone=zone).zone_number == int(zone.rstrip("ab"))


@pytest.mark.parametrize("typed", ["", "0", "14", "5c", "b", "5bb", "zone 5"])
def test_what_is_no_zone_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="is not a hardiness zone"):
        parse_zone(typed)


def test_a_month_of_the_north_is_half_a_year_away_in_the_south() -> None:
    north, south = Climate(lat=42.9), Climate(lat=-42.9)
    assert [north.month_here(month) for month in range(1, 13)] == list(range(1, 13))
    assert [south.month_here(month) for month in (1, 6, 7, 12)] == [7, 12, 1, 6]
    assert sorted(south.month_here(month) for month in range(1, 13)) == list(range(1, 13))
    assert south.zone_number is None
