"""Freeze dates with odds, against published tables with more odds than the three that are entered.

The tables, each with its source, stand in ``tests/published/freeze_tables.py``.
"""

from collections.abc import Mapping
from datetime import date, timedelta
from statistics import mean, median

import pytest

from cuttings.climate.frost import GENERAL_SPREAD_DAYS, OFFSETS_DAYS, FrostDates, frost_dates
from cuttings.dates import MonthDay, parse_month_day
from tests.published.freeze_tables import NINE, TABLES, FreezeTable

KNOWN = {10, 50, 90}
ENTERABLE_SPRING = [table for table in TABLES if table.spring.keys() >= KNOWN]
ENTERABLE_AUTUMN = [table for table in TABLES if table.autumn.keys() >= KNOWN]

SOME_AUTUMN = ((9, 18), (9, 30), (10, 12))
SOME_SPRING = ((5, 28), (5, 15), (5, 2))

SELDOM_THAT_COLD = {("Milton Freewater", 20)}
"""A row that three dates do not give back: at 16 °F the page has no 90 % date, so some winters lack such a
cold, and at 20 °F too three dates cannot tell how many. It is checked to be off by no more than two
days."""


def name(table: FreezeTable) -> str:
    return f"{table.station} {table.threshold_f}"


def three(dates: Mapping[int, str]) -> tuple[MonthDay, MonthDay, MonthDay]:
    return parse_month_day(dates[10]), parse_month_day(dates[50]), parse_month_day(dates[90])


def entered(
    spring: tuple[MonthDay, MonthDay, MonthDay], autumn: tuple[MonthDay, MonthDay, MonthDay]
) -> FrostDates:
    """What a keeper would enter: the dates with risks of 10, 50 and 90 %."""
    frost = frost_dates(None, None, spring, autumn)
    assert frost is not None
    return frost


def apart(found: date | None, printed: str) -> int:
    """Days between a date and a printed month and day, the nearer way round the year."""
    assert found is not None
    whole = (found - date(found.year, *parse_month_day(printed))).days
    return abs((whole + 182) % 365 - 182)


def allowed(table: FreezeTable) -> int:
    return (
        2 if any(table.station.startswith(s) and table.threshold_f == t for s, t in SELDOM_THAT_COLD) else 1
    )


@pytest.mark.parametrize("table", ENTERABLE_SPRING, ids=name)
def test_three_dates_give_back_a_stations_published_spring_within_a_day(table: FreezeTable) -> None:
    frost = entered(three(table.spring), SOME_AUTUMN)
    for chance, printed in table.spring.items():
        assert apart(frost.last_spring(2023, chance / 100), printed) <= allowed(table)


@pytest.mark.parametrize("table", ENTERABLE_AUTUMN, ids=name)
def test_three_dates_give_back_a_stations_published_autumn_within_a_day(table: FreezeTable) -> None:
    frost = entered(SOME_SPRING, three(table.autumn))
    for chance, printed in table.autumn.items():
        assert apart(frost.first_autumn(2023, chance / 100), printed) <= allowed(table)


@pytest.mark.parametrize("side", ["spring", "autumn"])
def test_at_least_ten_stations_have_all_nine_dates(side: str) -> None:
    full = {table.station for table in TABLES if set(getattr(table, side)) == set(NINE)}
    assert len(full) >= 10


@pytest.mark.parametrize("table", [t for t in ENTERABLE_SPRING if t.threshold_f == 32], ids=name)
def test_a_published_date_has_the_published_risk(table: FreezeTable) -> None:
    """Dates are printed to the day; a day is worth at most four in a hundred here, and rounding half of it
    more."""
    frost = entered(three(table.spring), SOME_AUTUMN)
    for chance, printed in table.spring.items():
        day = date(2023, *parse_month_day(printed))
        assert frost.chance_of_later_frost(day) == pytest.approx(chance / 100, abs=0.06)


def middle(dates: Mapping[int, str]) -> date:
    day = date(2023, *parse_month_day(dates[50]))
    return day - timedelta(days=365) if day.month > 7 else day


@pytest.mark.parametrize("threshold", [36, 28, 24, 20, 16])
def test_other_thresholds_lie_about_as_far_off_as_the_tables_say(threshold: int) -> None:
    """Over the stations whose tables have both: the mean within a day, for the offsets are those means."""
    by_key = {(table.station, table.threshold_f): table for table in TABLES}
    stations = {table.station for table in TABLES}
    for side, offset in zip(("spring", "autumn"), OFFSETS_DAYS[threshold], strict=True):
        found = []
        for station in stations:
            here, frost = (by_key.get((station, degrees)) for degrees in (threshold, 32))
            if here and frost and 50 in getattr(here, side) and 50 in getattr(frost, side):
                pair = (getattr(here, side), getattr(frost, side))
                days = [date(2023, *parse_month_day(dates[50])).timetuple().tm_yday for dates in pair]
                found.append((days[0] - days[1] + 182) % 365 - 182)
        assert len(found) >= 10
        assert mean(found) == pytest.approx(offset, abs=1)


def test_the_general_spread_is_that_of_a_published_table() -> None:
    """NC State Extension: Average Last Spring Frost for Selected NC Counties, by way of
    https://ncwxhappens.com/2020/03/26/average-last-spring-frost-for-selected-nc-counties: standard deviations
    at eleven stations, 8 to 17 days."""
    published = (11, 15, 17, 11, 12, 12, 11, 15, 9, 8, 13)
    assert min(published) <= GENERAL_SPREAD_DAYS <= max(published)
    assert median(published) == GENERAL_SPREAD_DAYS
