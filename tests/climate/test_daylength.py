"""Day length: what geometry says of it at any latitude and date."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.daylength import day_length_hours

LATITUDES = st.floats(-90.0, 90.0)
DATES = st.dates(date(1950, 1, 1), date(2099, 12, 31))
JUNE, DECEMBER = date(2026, 6, 21), date(2026, 12, 21)


@given(LATITUDES, DATES, st.floats(-180.0, 180.0))
def test_a_day_has_between_no_hours_and_twenty_four(lat: float, on: date, lon: float) -> None:
    seen = day_length_hours(lat, on, lon=lon)
    bare = day_length_hours(lat, on, lon=lon, with_refraction=False)
    assert 0.0 <= bare <= seen <= 24.0


@given(LATITUDES, DATES)
def test_the_day_of_one_hemisphere_is_the_night_of_the_other(lat: float, on: date) -> None:
    north = day_length_hours(lat, on, with_refraction=False)
    south = day_length_hours(-lat, on, with_refraction=False)
    assert north + south == pytest.approx(24.0, abs=1e-6)


@given(LATITUDES, LATITUDES)
def test_in_june_the_day_grows_to_the_north_and_in_december_to_the_south(one: float, other: float) -> None:
    south, north = sorted((one, other))
    june, december = (
        [day_length_hours(lat, on, with_refraction=False) for lat in (south, north)]
        for on in (JUNE, DECEMBER)
    )
    assert june[0] <= june[1] + 1e-9
    assert december[0] >= december[1] - 1e-9


@pytest.mark.parametrize("lat", [66.6, 70.0, 90.0])
def test_near_the_pole_the_sun_stays_up_at_midsummer(lat: float) -> None:
    assert day_length_hours(lat, JUNE) == 24.0
    assert day_length_hours(-lat, DECEMBER) == 24.0


@pytest.mark.parametrize("lat", [67.5, 70.0, 90.0])
def test_near_the_pole_the_sun_stays_down_at_midwinter(lat: float) -> None:
    assert day_length_hours(lat, DECEMBER) == 0.0
    assert day_length_hours(-lat, JUNE) == 0.0


@given(DATES)
def test_on_the_equator_every_day_is_twelve_hours_and_what_the_air_and_the_width_of_the_sun_add(
    on: date,
) -> None:
    assert day_length_hours(0.0, on, with_refraction=False) == pytest.approx(12.0)
    assert day_length_hours(0.0, on) == pytest.approx(12.0 + 7.0 / 60.0, abs=0.5 / 60.0)


@pytest.mark.parametrize(("lat", "minutes"), [(45.0, 2.0), (65.0, 4.0)])
def test_longitude_matters_by_a_few_minutes_at_most(lat: float, minutes: float) -> None:
    for days in range(0, 365, 5):
        on = date(2026, 1, 1) + timedelta(days=days)
        lengths = [day_length_hours(lat, on, lon=lon) for lon in (-180.0, 0.0, 180.0)]
        assert abs(lengths[1] - lengths[0]) * 60 < minutes
        assert abs(lengths[1] - lengths[2]) * 60 < minutes


@pytest.mark.parametrize("lat", [90.1, -91.0, float("nan")])
def test_a_latitude_beyond_the_poles_is_refused(lat: float) -> None:
    with pytest.raises(ValueError, match="between -90 and 90"):
        day_length_hours(lat, JUNE)
