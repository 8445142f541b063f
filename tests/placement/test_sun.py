"""The hours of direct sun on a site."""

from datetime import date

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.ledger.places import Obstacle
from cuttings.placement.skyline import obstacle_between
from cuttings.placement.sun import (
    ORDINARY_YEAR,
    WHOLE_YEAR,
    day_of_sun,
    light_season,
    monthly_means,
    path_of_sun,
    season_mean,
    sun_positions,
    year_of_sun,
)
from cuttings.words import ObstacleKind
from tests.placement.obstacles import TREE, WALL, obstacles

LAT, LON = 42.9, -76.1
JUNE, DECEMBER = date(2026, 6, 21), date(2026, 12, 21)
BIG_WALL = evolve(WALL, start=100.0, end=260.0, distance_m=1.0, height_m=5.0)


def hours(*those: Obstacle, lat: float = LAT, on: date = JUNE) -> float:
    return day_of_sun(lat, LON, those, on).hours


@settings(deadline=None, max_examples=40)
@given(st.lists(obstacles(), max_size=3), obstacles(), st.sampled_from([JUNE, DECEMBER, date(2026, 10, 1)]))
def test_one_more_thing_never_brings_sun(those: list[Obstacle], more: Obstacle, on: date) -> None:
    assert hours(*those, more, on=on) <= hours(*those, on=on) + 1e-9


@settings(deadline=None, max_examples=25)
@given(st.lists(obstacles(), min_size=2, max_size=4))
def test_the_order_of_things_does_not_matter(those: list[Obstacle]) -> None:
    assert hours(*those) == pytest.approx(hours(*reversed(those)))


@settings(deadline=None, max_examples=25)
@given(obstacles(), st.floats(1.0, 3.0))
def test_a_higher_thing_costs_no_less(one: Obstacle, times: float) -> None:
    assert hours(evolve(one, height_m=one.height_m * times)) <= hours(one) + 1e-9


def test_a_share_of_the_sun_comes_through() -> None:
    open_ground, behind = hours(), hours(WALL, on=DECEMBER)
    lost = hours(on=DECEMBER) - behind
    assert hours(evolve(WALL, density=0.25), on=DECEMBER) == pytest.approx(behind + 0.75 * lost)
    assert hours(evolve(WALL, density=0.0)) == open_ground


def test_several_in_the_way_take_it_one_after_the_other() -> None:
    half = evolve(WALL, density=0.5)
    lost = hours(on=DECEMBER) - hours(WALL, on=DECEMBER)
    assert hours(on=DECEMBER) - hours(half, half, on=DECEMBER) == pytest.approx(0.75 * lost)


def test_a_bare_tree_costs_nothing() -> None:
    assert hours(TREE, on=date(2026, 5, 9)) == hours(on=date(2026, 5, 9))
    assert hours(TREE, on=date(2026, 5, 10)) < hours(on=date(2026, 5, 10)) - 1.0
    year, bare = year_of_sun(LAT, LON, (TREE,)).hours, year_of_sun(LAT, LON).hours
    differ = [number for number in range(365) if year[number] != bare[number]]
    assert differ == list(range(129, 293))


def test_what_stands_in_the_east_costs_the_morning() -> None:
    east = obstacle_between(ObstacleKind.BUILDING, 50, 120, distance_m=3.0, height_m=6.0)
    behind, free = day_of_sun(LAT, LON, (east,), JUNE), day_of_sun(LAT, LON, (), JUNE)
    assert behind.morning < free.morning - 2.0
    assert behind.afternoon == free.afternoon
    assert free.morning == pytest.approx(free.afternoon, abs=0.05)


@pytest.mark.parametrize("lat", [-89.9, -71.0, -66.0, 0.0, 66.0, 71.0, 89.9])
def test_the_polar_day_and_night(lat: float) -> None:
    """Beyond 66.56 degrees the middle of the sun stays up, and stays down."""
    summer, winter = (JUNE, DECEMBER) if lat > 0 else (DECEMBER, JUNE)
    if abs(lat) > 67.0:
        assert hours(lat=lat, on=summer) == pytest.approx(24.0)
        ((begins, ends),) = day_of_sun(lat, LON, (), summer).spans
        assert (begins, ends) == pytest.approx((0.0, 24.0), abs=0.5 / 60)
        assert hours(lat=lat, on=winter) == 0.0
        assert day_of_sun(lat, LON, (), winter).spans == ()
    else:
        assert 0.0 < hours(lat=lat, on=winter) <= hours(lat=lat, on=summer) < 24.0


def test_the_longitude_moves_the_day_and_hardly_its_length() -> None:
    for lon in (-180.0, -100.0, 0.0, 179.9):
        assert day_of_sun(LAT, lon, (), JUNE).hours == pytest.approx(hours(), abs=0.05)


def test_the_stretches_of_a_day_make_its_hours() -> None:
    sun = day_of_sun(LAT, LON, (BIG_WALL, TREE), JUNE)
    assert len(sun.spans) > 1
    assert sum(end - start for start, end in sun.spans) == pytest.approx(sun.hours, abs=0.02)


def test_the_sun_stands_highest_at_noon_of_sun_time() -> None:
    path = path_of_sun(LAT, LON, JUNE)
    noon = max(path, key=lambda point: point[2])
    assert noon[0] == 12.0
    assert noon[1] == pytest.approx(180.0, abs=1e-6)
    assert noon[2] == pytest.approx(90.0 - LAT + 23.44, abs=0.02)
    assert all(elevation > 0.0 for *_, elevation in path)


def test_months_and_seasons_are_means_of_days() -> None:
    days = [float(number) for number in range(365)]
    assert monthly_means(days)[0] == 15.0
    assert monthly_means(days)[1] == 31.0 + 13.5
    assert season_mean(days, ((1, 1), (1, 3))) == 1.0
    assert season_mean(days, ((12, 31), (1, 1))) == 182.0
    assert season_mean(days, WHOLE_YEAR) == 182.0


def test_no_latitude_is_beyond_the_poles() -> None:
    with pytest.raises(ValueError, match="between -90 and 90"):
        sun_positions(90.1, 0.0, JUNE, 1)


def test_the_season_runs_between_the_average_frosts() -> None:
    north = Climate(LAT, frost=frost_dates((5, 12), (10, 1), None, None))
    south = Climate(-LAT, frost=frost_dates((10, 20), (4, 15), None, None))
    assert light_season(LAT, north) == ((5, 12), (10, 1))
    assert light_season(-LAT, south) == ((10, 20), (4, 15))


def test_without_frost_dates_the_season_is_the_summer_half_year() -> None:
    assert light_season(LAT, Climate(LAT)) == ((4, 1), (9, 30))
    assert light_season(-LAT, Climate(-LAT)) == ((10, 1), (3, 31))


def test_an_ordinary_year_lies_between_two_leap_years() -> None:
    assert ORDINARY_YEAR % 4 == 2
    assert len(year_of_sun(LAT, LON).hours) == 365
