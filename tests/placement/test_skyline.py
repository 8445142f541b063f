"""The skyline of what stands round a site."""

import math
from datetime import date

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.ledger.places import Obstacle
from cuttings.placement.skyline import (
    ends_of_width,
    horizon,
    in_leaf,
    obstacle_between,
    skyline,
    standing_on,
    tops,
)
from cuttings.words import ObstacleKind
from tests.placement.obstacles import TREE, WALL, obstacles


def top(obstacle: Obstacle, azimuth: float) -> float:
    return float(tops(obstacle, np.array([azimuth]))[0])


def test_a_face_is_as_high_as_its_height_and_base_over_its_distance() -> None:
    wall = obstacle_between(ObstacleKind.WALL, 150, 210, distance_m=4.0, height_m=3.0, base_m=1.0)
    assert top(wall, 180.0) == pytest.approx(45.0)
    assert top(wall, 150.0) == pytest.approx(math.degrees(math.atan(math.cos(math.radians(30.0)))))
    assert top(wall, 149.9) == 0.0
    assert top(wall, 210.1) == 0.0


def test_a_width_is_seen_from_its_distance() -> None:
    wall = obstacle_between(ObstacleKind.WALL, *ends_of_width(10.0, 8.0, 4.0), distance_m=4.0, height_m=2.0)
    assert (wall.start, wall.end) == pytest.approx((325.0, 55.0))
    assert wall.bearing == pytest.approx(10.0)


def test_a_face_may_stand_across_north() -> None:
    wall = obstacle_between(ObstacleKind.FENCE, 350, 20, distance_m=2.0, height_m=2.0)
    assert top(wall, 5.0) == top(wall, 365.0) == pytest.approx(45.0)
    assert top(wall, 180.0) == 0.0


@pytest.mark.parametrize(
    ("facts", "says"),
    [
        ({"start": 90.0, "end": 270.0}, "Clockwise from 90 to 270 is 180 degrees"),
        ({"start": 200.0, "end": 120.0}, "turn the bearings round"),
        ({"start": 10.0, "end": 10.0}, "the same"),
        ({"start": 0.0, "end": 360.0}, "the same"),
        ({"start": float("nan")}, "a number of degrees"),
        ({"distance_m": 0.0}, "The distance must be more than nothing"),
        ({"height_m": -1.0}, "The height must be more than nothing"),
        ({"height_m": float("inf")}, "The height must be more than nothing"),
        ({"base_m": -0.5}, "below the site"),
        ({"density": 1.2}, "from 0 to 1"),
        ({"density": float("nan")}, "from 0 to 1"),
    ],
)
def test_what_cannot_stand_is_refused(facts: dict[str, float], says: str) -> None:
    usual = {"start": 100.0, "end": 140.0, "distance_m": 3.0, "height_m": 2.0}
    with pytest.raises(ValueError, match=says):
        obstacle_between(ObstacleKind.WALL, **{**usual, **facts})  # type: ignore[arg-type]


@pytest.mark.parametrize(("width", "distance"), [(0.0, 2.0), (4.0, 0.0), (1e9, 1e-9)])
def test_a_width_that_no_face_has_is_refused(width: float, distance: float) -> None:
    def wall() -> Obstacle:
        ends = ends_of_width(180.0, width, distance)
        return obstacle_between(ObstacleKind.WALL, *ends, distance_m=distance, height_m=2.0)

    with pytest.raises(ValueError, match=r"more than nothing|takes up less than 180|are the same"):
        wall()


@pytest.mark.parametrize(
    ("leaf", "day", "there"),
    [
        (((5, 10), (10, 20)), date(2026, 5, 10), True),
        (((5, 10), (10, 20)), date(2026, 10, 20), True),
        (((5, 10), (10, 20)), date(2026, 5, 9), False),
        (((5, 10), (10, 20)), date(2026, 10, 21), False),
        (((11, 1), (4, 15)), date(2026, 12, 31), True),
        (((11, 1), (4, 15)), date(2026, 4, 15), True),
        (((11, 1), (4, 15)), date(2026, 7, 1), False),
        (((2, 29), (10, 20)), date(2026, 3, 1), True),
        (((2, 29), (10, 20)), date(2028, 2, 29), True),
        (None, date(2026, 1, 1), True),
    ],
)
def test_leaves_are_on_from_the_first_day_to_the_last(
    leaf: tuple[tuple[int, int], tuple[int, int]] | None, day: date, there: bool
) -> None:
    assert in_leaf(evolve(TREE, leaf=leaf), day) is there
    assert bool(standing_on([evolve(TREE, leaf=leaf)], day)) is there


def test_of_several_the_highest_makes_the_skyline() -> None:
    azimuths = np.arange(0.0, 360.0)
    both = skyline([WALL, TREE], azimuths)
    assert both.tolist() == np.maximum(tops(WALL, azimuths), tops(TREE, azimuths)).tolist()


def test_open_ground_has_a_flat_horizon() -> None:
    assert horizon([]) == [(float(azimuth), 0.0) for azimuth in range(361)]


def test_what_lets_all_the_sun_through_is_no_skyline() -> None:
    assert horizon([evolve(WALL, density=0.0)]) == horizon([])


def test_an_edge_stands_twice_with_both_its_sides() -> None:
    wall = obstacle_between(ObstacleKind.WALL, 150.5, 210, distance_m=2.0, height_m=2.0)
    points = horizon([wall])
    left = [height for azimuth, height in points if azimuth == 150.5]
    right = [height for azimuth, height in points if azimuth == 210.0]
    assert left == pytest.approx([0.0, top(wall, 150.5)], abs=1e-4)
    assert right == pytest.approx([top(wall, 210.0), 0.0], abs=1e-4)


def test_an_edge_at_north_has_a_side_at_either_end() -> None:
    points = horizon([obstacle_between(ObstacleKind.WALL, 0, 40, distance_m=2.0, height_m=2.0)])
    assert points[0][1] > 40.0
    assert points[-1] == (360.0, 0.0)


@given(st.lists(obstacles(), max_size=4), st.floats(0, 359.999))
def test_a_line_from_point_to_point_is_the_skyline(those: list[Obstacle], azimuth: float) -> None:
    points = horizon(those)
    azimuths = [point[0] for point in points]
    assert azimuths == sorted(azimuths)
    assert (azimuths[0], azimuths[-1]) == (0.0, 360.0)
    edges = {edge % 360.0 for each in those for edge in (each.start, each.end)}
    if all(abs(azimuth - edge) > 1e-3 for edge in edges):
        drawn = np.interp(azimuth, azimuths, [point[1] for point in points])
        assert drawn == pytest.approx(float(skyline(those, np.array([azimuth]))[0]), abs=0.5)
