"""From days to normals: gaps, winters without a freeze, other hemispheres, other years."""

import json
from datetime import date, timedelta

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import climate_from
from cuttings.climate.condensing import TooFewYears, _sine_degree_days, condense, newest_years
from cuttings.climate.frost import Freezes
from cuttings.climate.heat import degree_days_average, degree_days_sine
from cuttings.climate.normals import (
    LAYOUT,
    Normals,
    OtherHemisphere,
    from_document,
    running_sums,
    to_bytes,
    to_document,
    years_of,
)
from cuttings.climate.series import MISSING, Series
from cuttings.climate.wave import Wave
from tests.climate.weather import Weather, series_of

COLD = Weather(3.0, 14.0)
MILD = Weather(15.0, 7.5)
NORTH, SOUTH = 43.0, -43.0


def made(weather: Weather = COLD, winters: int = 31, seed: int = 1) -> Series:
    return series_of(weather.winters(winters, np.random.default_rng(seed)))


def without(series: Series, first: date, last: date) -> Series:
    """The series with a gap, both ends included."""
    minima = series.tmin.copy()
    start = (first - series.first).days
    minima[start : start + (last - first).days + 1] = MISSING
    return evolve(series, tmin=minima)


def level(normals: Normals, threshold_f: int) -> Freezes:
    return next(each for each in normals.freezes if each.threshold_f == threshold_f)


def test_the_newest_thirty_whole_years_are_taken() -> None:
    series = made(winters=41)
    assert newest_years(series) == (2001, 2030)
    assert condense(series, NORTH).last_year == 2030


def test_every_winter_of_a_cold_place_has_every_freeze() -> None:
    normals = condense(made(), NORTH, (1991, 2020))
    assert normals.winters == 30
    assert all(each.spring.share == each.autumn.share == 1.0 for each in normals.freezes)
    means = [each.spring.mean for each in normals.freezes]
    assert means == sorted(means, reverse=True)
    assert [each.length.mean for each in normals.freezes] == sorted(
        each.length.mean for each in normals.freezes
    )


def test_a_mild_place_has_a_share_and_no_date_for_what_it_seldom_sees() -> None:
    normals = condense(made(MILD), NORTH, (1991, 2020))
    sixteen = level(normals, 16)
    assert 0 <= sixteen.spring.share < 0.5
    assert sixteen.spring.last_left(0.5) is None
    assert sixteen.length_days(0.3) is None


def test_a_place_without_frost_has_normals_all_the_same() -> None:
    normals = condense(made(Weather(27.0, 3.0)), NORTH, (1991, 2020))
    assert level(normals, 32).spring.share == 0.0
    climate = climate_from(normals, 25.0)
    assert climate.frost is not None
    assert climate.frost.last_spring(2026) is None
    assert climate.frost.chance_of_later_frost(date(2026, 1, 10)) == 0.0


def test_a_gap_where_the_last_freeze_may_have_been_leaves_that_winter_out() -> None:
    whole = condense(made(), NORTH, (1991, 2020))
    april = without(made(), date(2001, 4, 1), date(2001, 6, 10))
    gapped = condense(april, NORTH, (1991, 2020))
    assert level(gapped, 32).spring.years == 29
    assert level(gapped, 32).autumn == level(whole, 32).autumn


def test_a_gap_in_summer_costs_nothing() -> None:
    whole = condense(made(), NORTH, (1991, 2020))
    gapped = condense(without(made(), date(2001, 7, 5), date(2001, 7, 25)), NORTH, (1991, 2020))
    assert gapped.freezes == whole.freezes


def test_a_few_missing_nights_are_borne() -> None:
    gapped = condense(without(made(), date(2001, 5, 10), date(2001, 5, 13)), NORTH, (1991, 2020))
    assert level(gapped, 32).spring.years == 30


def test_a_gap_in_midwinter_keeps_that_winter_out_of_the_coldest_nights() -> None:
    series = made()
    start, end = ((date(year, 8, 1) - series.first).days for year in (2000, 2001))
    coldest = float(series.tmin[start:end].min()) / 10
    whole = condense(series, NORTH, (1991, 2020)).coldest_c
    gapped = condense(without(series, date(2000, 12, 1), date(2001, 2, 15)), NORTH, (1991, 2020)).coldest_c
    assert whole is not None
    assert gapped is not None
    assert gapped == pytest.approx((whole * 30 - coldest) / 29)


def test_the_same_weather_half_a_year_later_makes_the_same_southern_law() -> None:
    north = made()
    south = evolve(north, first=date(1991, 2, 1))
    here, a_year_before = (condense(north, NORTH, years) for years in ((1992, 2019), (1991, 2018)))
    there = condense(south, SOUTH, (1992, 2019))
    for threshold in (36, 32, 28):
        assert level(there, threshold).spring.sd == pytest.approx(level(here, threshold).spring.sd, abs=0.5)
        # A southern autumn opens the winter that its own year's spring ends.
        before = level(a_year_before, threshold).autumn
        assert level(there, threshold).autumn.sd == pytest.approx(before.sd, abs=0.5)
    assert 270 < level(there, 32).spring.mean < 330
    assert 60 < level(there, 32).autumn.mean < 130
    assert level(there, 32).length.mean == pytest.approx(level(here, 32).length.mean, abs=4)


# Winters that the record does not hold whole


def freezing_between(dates: list[tuple[date, date]], first: date, last: date) -> Series:
    """A record that freezes only on the first and the last day of each winter's pair; else mild, with its
    year's round."""
    days = (last - first).days + 1
    turn = 2 * np.pi * (np.arange(days) + first.timetuple().tm_yday - 201) / 365.25
    minima = np.rint(120 + 60 * np.cos(turn)).astype(np.int16)
    for each in (day for pair in dates for day in pair):
        if first <= each <= last:
            minima[(each - first).days] = -5
    return Series("a made-up place", first, minima, minima + 100, np.full(days, MISSING, dtype=np.int16))


LATE_FIRST = [(date(2000 + n, 12 if n % 2 else 11, 20), date(2001 + n, 3, 10)) for n in range(10)] + [
    (date(2011, 1, 15), date(2011, 3, 10))
]
"""First freezes in November, December and once in January; last ones in March."""


def test_an_autumn_that_the_record_leaves_early_is_not_judged_by_its_early_freeze() -> None:
    """In one winter of eleven the first freeze is in January, so a record that ends with the year holds the
    last autumn's if it is early, and not if it is late."""
    winters = [*LATE_FIRST, (date(2011, 11, 20), date(2012, 3, 10))]
    whole = freezing_between(winters, date(2000, 1, 1), date(2012, 7, 31))
    cut = freezing_between(winters, date(2000, 1, 1), date(2011, 12, 31))
    assert level(condense(whole, NORTH, (2000, 2011)), 32).autumn.years == 12
    assert level(condense(cut, NORTH, (2000, 2011)), 32).autumn.years == 11
    expected = condense(whole, NORTH, (2000, 2010))
    assert level(condense(cut, NORTH, (2000, 2011)), 32).autumn == level(expected, 32).autumn


def test_a_last_autumn_counts_where_every_other_one_has_frozen_by_then() -> None:
    winters = [(date(year, 11, 1 + year % 20), date(year + 1, 3, 10)) for year in range(2000, 2012)]
    cut = freezing_between(winters, date(2000, 1, 1), date(2011, 12, 31))
    assert level(condense(cut, NORTH, (2000, 2011)), 32).autumn.years == 12


def test_a_spring_before_which_the_record_begins_late_is_not_judged_by_its_late_freeze() -> None:
    """Once the last freeze was in December, before the New Year with which the record begins."""
    springs = [(date(2000 + n, 12, 1), date(2000 + n, 12, 15)) for n in (4,)]
    springs += [(date(1999 + n, 12, 1), date(2000 + n, 3, 1 + n)) for n in range(12) if n != 5]
    whole = freezing_between(springs, date(1999, 8, 1), date(2011, 12, 31))
    cut = freezing_between(springs, date(2000, 1, 1), date(2011, 12, 31))
    assert level(condense(whole, NORTH, (2000, 2011)), 32).spring.years == 12
    found = level(condense(cut, NORTH, (2000, 2011)), 32).spring
    assert found.years == 11
    assert found == level(condense(whole, NORTH, (2001, 2011)), 32).spring


# The half of the earth


@pytest.mark.parametrize(("lat", "side"), [(-34.2, "34° south"), (-16.0, "16° south")])
def test_a_record_from_across_the_equator_is_refused(lat: float, side: str) -> None:
    sentence = (
        rf"warmest in July, so it comes from the other side of the equator; the garden lies at {side}\."
    )
    with pytest.raises(OtherHemisphere, match=sentence) as refusal:
        condense(made(), lat, (1991, 2020))
    assert str(refusal.value).endswith(
        "Check the sign of the latitude ('cuttings garden --lat') or the file."
    )


def test_a_southern_record_is_refused_in_a_northern_garden() -> None:
    south = evolve(made(), first=date(1991, 2, 1))
    with pytest.raises(OtherHemisphere, match=r"warmest in January, .* lies at 43° north"):
        condense(south, NORTH, (1992, 2019))


@given(st.floats(15.1, 60), st.integers(-90, 90), st.booleans())
def test_a_year_that_is_warmest_within_three_months_of_midsummer_is_never_refused(
    lat: float, away: int, southern: bool
) -> None:
    """Before the rains, or after the sea has warmed."""
    series = made(MILD, winters=6)
    shifted = evolve(series, first=series.first + timedelta(days=away + (182 if southern else 0)))
    normals = condense(shifted, -lat if southern else lat, (1992, 1995))
    assert normals.southern == southern


def test_near_the_equator_and_without_a_summer_any_record_will_do() -> None:
    assert condense(made(), -14.0, (1991, 2020)).southern
    assert condense(made(Weather(24.0, 1.0)), -20.0, (1991, 2020)).southern


def test_the_half_of_the_earth_is_kept() -> None:
    for southern in (False, True):
        normals = evolve(condense(made(), NORTH), southern=southern)
        assert from_document(to_document(normals)).southern == southern


def test_too_few_winters_are_refused_in_a_sentence() -> None:
    with pytest.raises(
        TooFewYears, match=r"Only 2 whole winters .* fewer than 3\. The record runs from 1990"
    ):
        condense(made(winters=31), NORTH, (1991, 1992))


def test_the_waves_are_those_the_weather_was_made_with() -> None:
    normals = condense(made(winters=41), NORTH, (1991, 2030))
    assert normals.lowest.mean_c == pytest.approx(COLD.mean_c, abs=0.6)
    assert normals.lowest.amplitude_c == pytest.approx(COLD.amplitude_c, abs=0.6)
    assert normals.mean.peak_day == pytest.approx(201, abs=4)
    assert normals.swing_c == pytest.approx(11.0, abs=0.01)


def test_the_sums_of_warmth_are_means_of_each_days_degree_days() -> None:
    """Against one day at a time; degree days of mean temperatures would be far fewer in spring."""
    series = made()
    normals = condense(series, NORTH, (1991, 2020))
    growth = bloom = 0.0
    for year in range(1991, 2021):
        start = (date(year, 1, 1) - series.first).days
        for day in range(start, start + 120):
            low, high = int(series.tmin[day]) / 10, int(series.tmax[day]) / 10
            growth += degree_days_sine(low, high, 5.0) / 30
            bloom += degree_days_average(low, high, 10.0) / 30
    assert running_sums(normals.growth, 1.0)[120] == pytest.approx(growth, rel=0.03)
    assert running_sums(normals.bloom, 1.0)[120] == pytest.approx(bloom, rel=0.06)
    even = sum(max(normals.mean.at(day) - 10.0, 0.0) for day in range(1, 121))
    assert even < 0.8 * bloom


@given(st.floats(-40, 45), st.floats(0, 30), st.sampled_from([5.0, 10.0]))
def test_both_single_sines_agree(low: float, swing: float, base: float) -> None:
    many = _sine_degree_days(np.array([low]), np.array([low + swing]), base)
    assert many[0] == pytest.approx(degree_days_sine(low, low + swing, base), abs=1e-6)


def test_a_whole_years_warmth_does_not_depend_on_where_it_begins() -> None:
    normals = condense(made(), NORTH, (1991, 2020))
    from_new_year, from_july = (running_sums(normals.growth, begins)[365] for begins in (1.0, 182.0))
    assert from_new_year == pytest.approx(from_july, rel=0.005)


def test_rain_is_summed_by_the_month_and_left_out_where_hardly_measured() -> None:
    series = made()
    assert sum(condense(series, NORTH).rain_mm) == pytest.approx(2.7 * 365.25, rel=0.001)
    unmeasured = evolve(series, rain=np.full(series.days, MISSING, dtype=np.int16))
    assert condense(unmeasured, NORTH).rain_mm == ()


def test_the_record_comes_back_from_its_document() -> None:
    normals = condense(made(), NORTH)
    back = from_document(to_document(normals))
    assert to_document(back) == to_document(normals)
    assert back.winters == normals.winters
    assert back.mean.peak_day == pytest.approx(normals.mean.peak_day, abs=0.01)


@pytest.mark.parametrize(
    "change",
    [{"freezes": None}, {"coldest_c": "x"}, {"growth": []}, {"rain_mm": "x"}, {"winters": 9}],
)
def test_a_document_changed_by_hand_is_noticed(change: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="not as they were written"):
        from_document({**to_document(condense(made(), NORTH)), **change})


def test_the_years_of_a_record_of_any_version_are_known() -> None:
    normals = condense(made(), NORTH, (1991, 2020))
    for layout in (LAYOUT - 1, LAYOUT, LAYOUT + 1):
        assert years_of({**to_document(normals), "layout": layout}) == (1991, 2020)
    assert json.loads(to_bytes(normals)) == to_document(normals)
    spoils: list[object] = [
        {},
        [],
        None,
        {"layout": 1},
        {"layout": 1, "years": [2020, 1991]},
        {"years": [1, 2]},
    ]
    assert [years_of(spoiled) for spoiled in spoils] == [None] * len(spoils)


@pytest.mark.parametrize("spoiled", [{}, {"layout": 0}, {"layout": LAYOUT, "years": [1]}])
def test_a_document_that_is_none_is_refused(spoiled: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"normals|years|unpack"):
        from_document(spoiled)


def test_a_peak_far_from_midsummer_is_brought_back() -> None:
    normals = evolve(condense(made(), NORTH), mean=Wave(26.0, 1.0, 20.0))
    climate = climate_from(normals, 5.0)
    assert abs(climate.air.peak_day - 201) <= 80
    assert climate.spring_day(2026, climate.air.trough_day) < climate.autumn_day(2026, climate.air.peak_day)
    assert climate.spring_day(2027, climate.air.trough_day) - climate.spring_day(
        2026, climate.air.trough_day
    ) == timedelta(days=365)
