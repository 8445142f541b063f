"""Frost dates with odds, against published tables with more odds than the three that are entered.

University of Delaware, Research and Education Center Georgetown: Frost dates (after Moyer, ESSA and
University of Maryland, 1970), http://www.rec.udel.edu/misc/Frost%20dates.htm. For three thresholds the
table gives the dates with risks of 10, 33, 50, 67 and 90 %.
"""

from datetime import date

import pytest

from cuttings.climate.frost import FrostDates, frost_dates
from cuttings.dates import parse_month_day

SPRING = {
    32: {10: "05-10", 33: "04-30", 50: "04-25", 67: "04-20", 90: "04-10"},
    24: {10: "04-09", 33: "04-01", 50: "03-27", 67: "03-22", 90: "03-14"},
    16: {10: "03-13", 33: "03-03", 50: "02-25", 67: "02-19", 90: "02-09"},
}
AUTUMN = {
    32: {10: "10-02", 33: "10-11", 50: "10-16", 67: "10-21", 90: "10-30"},
    24: {10: "11-01", 33: "11-09", 50: "11-14", 67: "11-19", 90: "11-27"},
    16: {10: "11-28", 33: "12-06", 50: "12-10", 67: "12-14", 90: "12-22"},
}
"""By threshold in °F: the date after which, or by which, such a cold comes with that risk in percent."""


def entered(threshold: int) -> FrostDates:
    """What a keeper would enter: the three dates with risks of 10, 50 and 90 %."""
    spring, autumn = (
        (parse_month_day(table[10]), parse_month_day(table[50]), parse_month_day(table[90]))
        for table in (SPRING[threshold], AUTUMN[threshold])
    )
    frost = frost_dates(None, None, spring, autumn)
    assert frost is not None
    return frost


def dated(text: str) -> date:
    return date(2023, *parse_month_day(text))


@pytest.mark.parametrize("threshold", SPRING)
@pytest.mark.parametrize("risk", [10, 33, 50, 67, 90])
def test_three_dates_give_back_the_published_five_within_a_day(threshold: int, risk: int) -> None:
    frost = entered(threshold)
    last = frost.last_spring(2023, risk / 100)
    first = frost.first_autumn(2023, risk / 100)
    assert abs((last - dated(SPRING[threshold][risk])).days) <= 1
    assert abs((first - dated(AUTUMN[threshold][risk])).days) <= 1


@pytest.mark.parametrize("threshold", SPRING)
@pytest.mark.parametrize("risk", [10, 33, 50, 67, 90])
def test_a_published_date_has_the_published_risk(threshold: int, risk: int) -> None:
    """Dates are printed to the day, and a day is worth at most four in a hundred here."""
    frost = entered(threshold)
    later = frost.chance_of_later_frost(dated(SPRING[threshold][risk]))
    already = frost.chance_of_frost_already(dated(AUTUMN[threshold][risk]))
    assert later == pytest.approx(risk / 100, abs=0.045)
    assert already == pytest.approx(risk / 100, abs=0.045)
