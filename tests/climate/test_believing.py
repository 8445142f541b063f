"""Whole files that are not what they were taken for are refused in a sentence; real climates never are."""

import math
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import cache

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.climate.series import MISSING
from cuttings.climate.stationfile import read_station_file
from cuttings.words import Units
from tests.climate.places import PLACES
from tests.climate.station_files import (
    Day,
    Days,
    fixed_width,
    plain,
    quarry_bank_days,
    shown,
    with_attributes,
)


@cache
def many_years() -> tuple[Day, ...]:
    """The invented garden's weather from 1996 to 2025."""
    return tuple(quarry_bank_days())


def in_months(months: Sequence[int], tmin: int, days: Days) -> list[Day]:
    """The same days with that minimum in those months of every year."""
    return [evolve(day, tmin=tmin) if day.on.month in months else day for day in days]


def rows(days: Days, units: Callable[[date], Units]) -> bytes:
    """Plain rows whose temperatures are in the units of their day."""
    written = (f"{d.on},{shown(d.tmin, units(d.on))},{shown(d.tmax, units(d.on))}" for d in days)
    return "\n".join(("date,tmin,tmax", *written)).encode()


def kelvins(days: Days) -> bytes:
    """Plain rows of whole kelvins."""
    written = (
        f"{d.on},{round((d.tmin or 0) / 10 + 273.15)},{round((d.tmax or 0) / 10 + 273.15)}" for d in days
    )
    return "\n".join(("date,tmin,tmax", *written)).encode()


def refused(content: bytes, sentence: str, shown_in: Units | None = None) -> None:
    with pytest.raises(ValueError, match=sentence) as refusal:
        read_station_file(content, shown=shown_in)
    assert str(refusal.value).endswith("load the file again.")


# A part of the year that does not go with the rest


@pytest.mark.parametrize("years", [3, 4, 30])
def test_every_july_at_thirty_below_is_refused(years: int) -> None:
    content = plain(in_months([7], -300, many_years()[-round(365.25 * years) :]))
    refused(
        content,
        r"^In most years the minimum temperatures of July stand 4\d °C below what goes with",
    )


def test_half_a_month_is_named_as_such() -> None:
    days = [evolve(d, tmin=-300) if d.on.month == 7 and d.on.day > 15 else d for d in many_years()]
    refused(plain(days), r"^In most years the minimum temperatures of the second half of July stand")


@pytest.mark.parametrize("months", [[6, 7], [6, 7, 8], [5, 6, 7, 8]])
def test_a_whole_summer_at_thirty_below_is_refused(months: list[int]) -> None:
    refused(
        plain(in_months(months, -300, many_years())),
        r"^In most years the minimum temperatures of .*: these or their neighbours",
    )


def test_a_wrong_month_in_most_years_is_refused_and_in_few_is_left_out() -> None:
    most = [evolve(d, tmin=-300) if d.on.month == 7 and d.on.year % 3 else d for d in many_years()]
    refused(plain(most), "of July stand")
    few = [evolve(d, tmin=-300) if d.on.month == 7 and d.on.year % 6 == 0 else d for d in many_years()]
    series, report = read_station_file(plain(few))
    assert report.implausible == 5 * 31
    told = [d.tmin for d in few if d.tmin != -300]
    assert int((series.tmin != MISSING).sum()) == len(told)


def test_january_maxima_of_a_summer_are_refused() -> None:
    days = [evolve(d, tmax=350) if d.on.month == 1 else d for d in many_years()]
    refused(plain(days), r"^In most years the maximum temperatures of January stand 3\d °C above")


def test_it_is_told_in_the_units_asked_for() -> None:
    content = fixed_width(in_months([7], -300, many_years()))
    refused(content, r"^In most years the minimum temperatures of July stand 7\d °F below", Units.US)


# Years that do not go together


@pytest.mark.parametrize("changes", [date(1997, 1, 1), date(2004, 1, 1), date(2010, 7, 20), date(2025, 1, 1)])
@pytest.mark.parametrize("turned", [False, True])
def test_fahrenheit_and_celsius_in_one_column_are_refused(changes: date, turned: bool) -> None:
    before, after = (Units.METRIC, Units.US) if turned else (Units.US, Units.METRIC)
    content = rows(many_years(), lambda on: before if on < changes else after)
    refused(content, r"jump by \d+ °[CF] from (19|20)\d\d to (19|20)\d\d, .* the units change there")


def test_the_years_between_which_the_units_change_are_named() -> None:
    content = rows(many_years(), lambda on: Units.US if on.year < 2010 else Units.METRIC)
    refused(content, r"^The minimum temperatures jump by \d+ °F from 2009 to 2010,")


def test_one_year_in_other_units_is_refused() -> None:
    content = rows(many_years(), lambda on: Units.METRIC if on.year == 2008 else Units.US)
    refused(content, r"from 200[78] to 200[89],")


@pytest.mark.parametrize("name", [name for name in PLACES if name != "an arctic coast"])
def test_mixed_units_are_refused_wherever_there_are_gardens(name: str) -> None:
    content = rows(PLACES[name].days(1980, 1999), lambda on: Units.US if on.year < 1990 else Units.METRIC)
    refused(content, r"jump by|lie .* apart")


# Columns and scales that are not what they seem


@pytest.mark.parametrize("name", PLACES)
def test_kelvins_are_refused_and_named(name: str) -> None:
    refused(
        kelvins(PLACES[name].days(1990, 1994)), r"^The temperatures look like kelvins .* take 273\.15 off"
    )


def test_kelvins_with_a_fraction_are_refused_and_named() -> None:
    written = (f"{d.on},{(d.tmin or 0) / 10 + 273.15},{(d.tmax or 0) / 10 + 273.15}" for d in many_years())
    refused("\n".join(("date,tmin,tmax", *written)).encode(), r"^The temperatures look like kelvins")


def test_the_same_column_twice_is_refused() -> None:
    refused(plain([evolve(d, tmin=d.tmax) for d in many_years()]), r"^Minimum and maximum lie 0 °C apart")


def test_a_minimum_in_celsius_beside_a_maximum_in_fahrenheit_is_refused() -> None:
    written = (f"{d.on},{shown(d.tmin, Units.METRIC)},{shown(d.tmax, Units.US)}" for d in many_years())
    refused("\n".join(("date,tmin,tmax", *written)).encode(), r"^Minimum and maximum lie \d\d °F apart")


def test_a_place_with_winter_all_the_year_is_refused() -> None:
    ice = [evolve(d, tmin=(d.tmin or 0) - 300, tmax=(d.tmax or 0) - 300) for d in many_years()]
    refused(
        plain(ice), r"^Half the nights of even the warmest weeks are below -1\d °C, too cold for any garden"
    )


# What is real is read


@pytest.mark.parametrize("years", [(1980, 1982), (1980, 1999)])
@pytest.mark.parametrize("name", PLACES)
def test_no_real_climate_is_refused(name: str, years: tuple[int, int]) -> None:
    days = PLACES[name].days(*years)
    written: list[Callable[[Days], bytes]] = [plain, fixed_width, with_attributes]
    if name == "an arctic coast":  # a table of tenths from so cold a place is taken for °F; see ``scales``
        written.remove(with_attributes)
    for content in (each(days) for each in written):
        series, _ = read_station_file(content)
        assert (series.tmin == np.array([day.tmin for day in days])).mean() > 0.99


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(sorted(PLACES)), st.integers(0, 10_000), st.integers(3, 8))
def test_no_run_of_weather_is_refused(name: str, seed: int, years: int) -> None:
    days = PLACES[name].days(1990, 1989 + years, seed)
    series, report = read_station_file(plain(days))
    assert series.days == len(days)
    assert report.swapped == 0


def test_years_with_gaps_are_not_taken_for_other_years() -> None:
    """A year with nothing but its summer, and one with nothing but its winter, beside whole ones."""
    lacking = {
        2003: {1, 2, 3, 4, 10, 11, 12},
        2004: {5, 6, 7, 8, 9},
        2005: {1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12},
    }
    days = [day for day in many_years() if day.on.month not in lacking.get(day.on.year, ())]
    assert read_station_file(plain(days))[1].whole_years == 27


def test_kelvins_in_tenths_are_refused_in_a_sentence() -> None:
    lines = ["date,tmin,tmax"]
    for number in range(4 * 365):
        day = date(1990, 1, 1) + timedelta(days=number)
        lines.append(f"{day},{2731 + number % 200},{2831 + number % 200}")
    with pytest.raises(ValueError, match=r"check the units|kelvin"):
        read_station_file("\n".join(lines).encode())


def test_zeros_that_stand_for_no_reading_are_left_out_and_told_of() -> None:
    lines = ["date,tmin,tmax"]
    for number in range(12 * 365):
        day = date(1990, 1, 1) + timedelta(days=number)
        middle = 50 - 25 * math.cos(2 * math.pi * (number - 18) / 365.25)
        low, high = (0, 0) if day.day == 15 else (round(middle - 10), round(middle + 10))
        lines.append(f"{day},{low},{high}")
    series, report = read_station_file("\n".join(lines).encode())
    fifteenths = [(date(1990, 1, 1) + timedelta(days=n)).day == 15 for n in range(12 * 365)]
    assert report.missing == sum(fifteenths)
    assert (series.tmin[np.array(fifteenths)] == MISSING).all()
    assert any("0 for both temperatures" in remark for remark in report.remarks)


def test_a_still_winters_day_of_zeros_is_believed() -> None:
    lines = ["date,tmin,tmax"]
    for number in range(4 * 365):
        day = date(1990, 1, 1) + timedelta(days=number)
        middle = 9 - 12 * math.cos(2 * math.pi * (number - 18) / 365.25)
        low, high = (0, 0) if day == date(1991, 2, 20) else (round(middle - 5), round(middle + 5))
        lines.append(f"{day},{low},{high}")
    series, report = read_station_file("\n".join(lines).encode())
    assert report.missing == 0
    assert series.tmin[(date(1991, 2, 20) - series.first).days] == 0
