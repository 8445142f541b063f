"""Ground taken and free, against a geometry library."""

import math

import pytest
from attrs import evolve
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import Point as Dot
from shapely import Polygon, union_all

from cuttings.ledger.places import Growing, Site
from cuttings.placement.cover import cover, covered_m2
from cuttings.placement.outline import plot
from cuttings.placement.room import UNKNOWN_RADIUS_M, Circle
from tests.placement.beds import BED, grown, hold, sites

FINE = 256
"""Corners to a quarter of the witness's circles."""

circles = st.lists(
    st.builds(
        Circle,
        st.integers(-100, 600).map(lambda cm: cm / 100),
        st.integers(-100, 400).map(lambda cm: cm / 100),
        st.integers(5, 200).map(lambda cm: cm / 100),
    ),
    max_size=8,
)


def witnessed(site: Site, taken: list[Circle]) -> float:
    dots = [Dot(each.x, each.y).buffer(each.radius_m, quad_segs=FINE) for each in taken]
    return float(union_all(dots).intersection(Polygon(site.outline)).area)


@settings(deadline=None, max_examples=150)
@given(sites(), circles)
@example(evolve(BED, corners=((0, 0), (5, 0), (5, 1.2), (2, 1.2), (2, 3), (0, 3))), [Circle(2.26, 1.1, 1.37)])
def test_the_ground_under_circles_is_what_a_geometry_library_says(site: Site, taken: list[Circle]) -> None:
    ground = plot(site)
    assert ground is not None
    assert covered_m2(ground, taken) == pytest.approx(witnessed(site, taken), rel=0.002, abs=0.002)


@settings(deadline=None)
@given(sites(), circles)
def test_free_and_held_and_grown_add_up_to_the_whole(site: Site, taken: list[Circle]) -> None:
    holds = [hold(site, "26-001", each.x, each.y, each.radius_m) for each in taken]
    ground = cover(site, holds)
    assert ground is not None
    assert min(ground.free_m2, ground.held_m2, ground.grown_m2) >= -1e-9
    assert ground.free_m2 + ground.held_m2 + ground.grown_m2 == pytest.approx(ground.area_m2)
    assert ground.area_m2 == pytest.approx(Polygon(site.outline).area)


def test_a_spot_under_a_plant_takes_no_ground_twice() -> None:
    site = evolve(BED, growing=grown((2.0, 0.75, 1.0)))
    ground = cover(site, [hold(site, "26-001", 2.0, 0.75, 0.5)])
    assert ground is not None
    assert ground.grown_m2 == pytest.approx(math.pi / 4, rel=0.001)
    assert ground.held_m2 == pytest.approx(0.0, abs=1e-9)


def test_spots_on_another_site_take_nothing_here() -> None:
    ground = cover(BED, [hold(evolve(BED, name="Elsewhere"), "26-001", 2.0, 0.75, 0.5)])
    assert ground is not None
    assert ground.free_m2 == ground.area_m2 == 6.0


def test_plants_without_a_position_take_their_circle_as_far_as_there_is_ground() -> None:
    one = evolve(BED, growing=(Growing(plant="Salvia", spread_m=1.0), Growing(plant="Phlox")))
    ground = cover(one, [])
    assert ground is not None
    assert ground.grown_m2 == pytest.approx(math.pi * (0.25 + UNKNOWN_RADIUS_M**2))
    full = cover(evolve(BED, growing=(Growing(plant="Salvia", spread_m=9.0),)), [])
    assert full is not None
    assert full.free_m2 == 0.0
    assert full.grown_m2 == full.area_m2


def test_a_site_of_no_size_has_no_ground_to_count() -> None:
    assert cover(evolve(BED, length_m=None), []) is None
