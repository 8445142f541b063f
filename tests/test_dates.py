"""Dates as people type them."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.dates import (
    day_ahead,
    day_of_year,
    margin,
    parse_date,
    parse_month,
    parse_month_day,
    spoken,
    spoken_span,
)

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DAYS = st.dates(date(1900, 1, 1), date(2199, 12, 31))
SATURDAY = date(2026, 5, 2)


@given(DAYS, DAYS)
def test_an_iso_date_is_read_as_it_is_written(day: date, today: date) -> None:
    assert parse_date(day.isoformat(), today) == day
    assert parse_date(f"  {day.year:04d}-{day.month}-{day.day} ", today) == day


@given(st.sampled_from(WEEKDAYS), DAYS, st.integers(3, 9), st.booleans())
def test_a_weekdays_name_is_the_last_one_past(name: str, today: date, letters: int, loud: bool) -> None:
    typed = name[:letters].upper() if loud else name[:letters]
    day = parse_date(typed, today)
    assert WEEKDAYS[day.weekday()] == name
    assert timedelta(days=1) <= today - day <= timedelta(days=7)


def test_todays_own_weekday_is_a_week_ago() -> None:
    assert parse_date("saturday", SATURDAY) == date(2026, 4, 25)


@given(DAYS)
def test_today_and_yesterday(today: date) -> None:
    assert parse_date("Today", today) == today
    assert parse_date(" YESTERDAY ", today) == today - timedelta(days=1)


@pytest.mark.parametrize(
    "typed",
    ["", "mo", "tomorrow", "05-12", "2026-13-01", "2026-02-29", "26-05-12", "12.5.2026", "2026-05-12T10:00"],
)
def test_what_is_no_date_says_how_to_write_one(typed: str) -> None:
    with pytest.raises(ValueError, match="write it like 2026-05-02"):
        parse_date(typed, SATURDAY)


@given(st.dates(date(2024, 1, 1), date(2024, 12, 31)))
def test_a_month_and_day_is_read_as_it_is_written(day: date) -> None:
    assert parse_month_day(f"{day:%m-%d}") == (day.month, day.day)


@pytest.mark.parametrize("typed", ["13-01", "02-30", "00-10", "05", "05/12", "2026-05-12", "may-12", ""])
def test_what_is_no_month_and_day_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="write it like 05-12"):
        parse_month_day(typed)


@given(st.integers(1, 12))
def test_a_month_is_read_by_number_or_name(number: int) -> None:
    name = f"{date(2023, number, 1):%B}"
    for typed in (str(number), f"{number:02d}", name, name.upper(), name[:3].lower()):
        assert parse_month(typed) == number


@pytest.mark.parametrize("typed", ["0", "13", "-1", "1.5", "ma", "ju", "smarch", ""])
def test_what_is_no_month_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="is not a month"):
        parse_month(typed)


@given(st.dates(date(2023, 1, 1), date(2023, 12, 31)))
def test_the_day_of_a_common_year_counts_from_one(day: date) -> None:
    assert day_of_year((day.month, day.day)) == (day - date(2022, 12, 31)).days


def test_the_leap_day_counts_as_the_day_before() -> None:
    assert day_of_year((2, 29)) == day_of_year((2, 28)) == 59


def test_a_date_is_spoken_with_its_year_unless_that_is_this_one() -> None:
    assert spoken(date(2026, 5, 12), SATURDAY) == "12 May"
    assert spoken(date(2025, 5, 12), SATURDAY) == "12 May 2025"
    assert spoken(date(2026, 5, 12)) == "12 May 2026"
    assert margin(date(2026, 5, 2), SATURDAY) == "2 May"
    assert margin(date(2025, 5, 12), SATURDAY) == "12 May 25"


@pytest.mark.parametrize("typed", ["9999-12-31", "0001-01-01", "1899-12-31", "2200-01-01"])
def test_a_year_nobody_can_mean_is_turned_away(typed: str) -> None:
    with pytest.raises(ValueError, match="a year lies between 1900 and 2199"):
        parse_date(typed, SATURDAY)


def test_a_span_of_one_day_is_a_day() -> None:
    assert spoken_span(SATURDAY, SATURDAY, SATURDAY) == "on 2 May"
    assert spoken_span(SATURDAY, date(2027, 1, 3), SATURDAY) == "from 2 May to 3 January 2027"


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("15 September", date(2026, 9, 15)),
        ("sep 15", date(2026, 9, 15)),
        ("1. may", date(2027, 5, 1)),
        ("3 may 2026", date(2026, 5, 3)),
        ("29 feb", date(2028, 2, 29)),
        ("may 2, 2020", date(2020, 5, 2)),
        ("31 april", None),
        ("5 blue", None),
        ("september", None),
    ],
)
def test_a_day_of_the_year_is_the_coming_one(text: str, day: date | None) -> None:
    assert day_ahead(text, date(2026, 5, 2)) == day


@given(st.integers(1, 900), DAYS)
def test_a_day_to_come_is_found_by_its_name(more: int, today: date) -> None:
    day = today + timedelta(days=min(more, 365))
    if day.year <= 2199 and (day.month, day.day) != (today.month, today.day):
        assert day_ahead(f"{day:%d %B}", today) == day
    assert day_ahead(f"+{more}d", today) == today + timedelta(days=more)
