"""The invented garden's weather: the same every time, and what its keepers say of their climate."""

from calendar import isleap
from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path
from statistics import NormalDist, fmean, stdev

import pytest
from attrs import frozen
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.dates import day_of_year
from cuttings.demo.weather import HEADINGS, INVENTED, daily_lines

FIXTURE = Path(__file__).parents[2] / "fixtures" / "quarry-bank" / "daily.csv"
FREEZING_F = 32


@frozen
class Day:
    """A day in whole °F and inches."""

    on: date
    low: int
    high: int
    rain: float


def days_of(lines: Sequence[str]) -> list[Day]:
    return [
        Day(date.fromisoformat(on), int(low), int(high), float(rain))
        for on, low, high, rain in (line.split(",") for line in lines[2:])
    ]


@cache
def thirty_years() -> list[Day]:
    return days_of(list(daily_lines(2025)))


def celsius(degrees_f: float) -> float:
    return (degrees_f - 32) / 1.8


def test_the_fixture_is_what_the_model_gives() -> None:
    assert FIXTURE.read_text(encoding="utf-8").splitlines() == list(daily_lines(2025))


def test_it_says_that_it_is_invented() -> None:
    first, second, *_ = daily_lines(2025)
    assert first == INVENTED
    assert "invented" in first
    assert second == HEADINGS


@settings(max_examples=10, deadline=None)
@given(st.integers(1950, 2150), st.integers(1, 4))
def test_every_day_of_so_many_years_comes_once(last_year: int, years: int) -> None:
    days = days_of(list(daily_lines(last_year, years)))
    assert days[0].on == date(last_year - years + 1, 1, 1)
    assert days[-1].on == date(last_year, 12, 31)
    assert all(after.on - day.on == timedelta(days=1) for day, after in pairwise(days))
    assert all(day.low < day.high and day.rain >= 0 for day in days)


def test_fewer_years_are_the_last_of_more() -> None:
    assert list(daily_lines(2025, 3))[2:] == list(daily_lines(2025, 30))[-(365 + 366 + 365) :]


def test_every_last_year_has_the_same_story() -> None:
    assert not isleap(2025)
    assert not isleap(2026)
    own, next_year = (list(daily_lines(year, 1))[2:] for year in (2025, 2026))
    assert [line[4:] for line in own] == [line[4:] for line in next_year]


def law(dates: Sequence[date]) -> NormalDist:
    """A normal law of dates as days of the year."""
    numbers = [day.timetuple().tm_yday for day in dates]
    return NormalDist(fmean(numbers), stdev(numbers))


def freezes(year: int, first: tuple[int, int], last: tuple[int, int]) -> list[date]:
    begin, end = date(year, *first), date(year, *last)
    return [day.on for day in thirty_years() if begin <= day.on <= end and day.low <= FREEZING_F]


def test_the_last_frost_comes_about_when_its_keepers_say() -> None:
    spring = law([freezes(year, (1, 1), (7, 31))[-1] for year in range(1996, 2026)])
    for chance, said in ((0.9, (5, 28)), (0.5, (5, 15)), (0.1, (5, 2))):
        assert spring.inv_cdf(chance) == pytest.approx(day_of_year(said), abs=2)


def test_the_first_frost_comes_about_when_its_keepers_say() -> None:
    autumn = law([freezes(year, (8, 1), (12, 31))[0] for year in range(1996, 2026)])
    for chance, said in ((0.1, (9, 18)), (0.5, (9, 30)), (0.9, (10, 12))):
        assert autumn.inv_cdf(chance) == pytest.approx(day_of_year(said), abs=2)


def test_its_winters_are_those_of_zone_5b() -> None:
    coldest = [min(day.low for day in thirty_years() if day.on.year == year) for year in range(1996, 2026)]
    assert celsius(fmean(coldest)) == pytest.approx(-24.5, abs=0.5)
    assert -15 <= fmean(coldest) < -10


@pytest.mark.parametrize(("month", "mean_c"), [(1, -6.5), (7, 20.0)])
def test_its_months_are_as_warm_as_they_should_be(month: int, mean_c: float) -> None:
    means = [(day.low + day.high) / 2 for day in thirty_years() if day.on.month == month]
    assert celsius(fmean(means)) == pytest.approx(mean_c, abs=0.5)


def test_a_metre_of_rain_falls_fairly_evenly() -> None:
    monthly = [
        25.4 * sum(day.rain for day in thirty_years() if day.on.month == month) / 30 for month in range(1, 13)
    ]
    assert sum(monthly) == pytest.approx(1000, abs=50)
    assert max(monthly) < 1.5 * min(monthly)
