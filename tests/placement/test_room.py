"""Room on a site. The checker below shares no code with what it checks."""

import math

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.ledger.places import Growing, Point, Site
from cuttings.placement.match import more_positions
from cuttings.placement.room import (
    CENTIMETRE,
    UNKNOWN_RADIUS_M,
    Circle,
    bed_of,
    radius,
    reach_over,
    widest_free,
)
from cuttings.placement.spacing import PatchEdge, Pattern, spacing_count
from cuttings.words import PathSide
from tests.placement.beds import BED, CURRANT, UNHEARD_OF, free_positions, grown, radii, sites

NEAR = 1e-6


def winding(at: Point, corners: tuple[Point, ...]) -> float:
    """The angle the outline turns through as seen from a point: a whole turn from inside, else none."""
    turn = 0.0
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        one, other = math.atan2(ay - at[1], ax - at[0]), math.atan2(by - at[1], bx - at[0])
        turn += (other - one + math.pi) % (2 * math.pi) - math.pi
    return abs(turn)


def rim(x: float, y: float, radius_m: float) -> list[Point]:
    angles = [2 * math.pi * at / 48 for at in range(48)]
    return [(x + radius_m * math.cos(angle), y + radius_m * math.sin(angle)) for angle in angles]


def lies_within(site: Site, x: float, y: float, radius_m: float) -> bool:
    """Whether all of a circle (but for a hair) lies inside a site's outline."""
    return all(winding(point, site.outline) > math.pi for point in [(x, y), *rim(x, y, radius_m - 1e-4)])


def stands_well(site: Site, x: float, y: float, radius_m: float, step_m: float = CENTIMETRE) -> bool:
    """Whether a plant stands whole inside, or with all of half its width in a bed too narrow for it at any
    position of the plan."""
    bed = bed_of(site, step_m=step_m)
    assert bed
    return lies_within(site, x, y, radius_m / 2 if bed.reach(radius_m) else radius_m)


def keeps_off_the_path(site: Site, x: float, y: float, radius_m: float) -> bool:
    """For a rectangle: whether the circle stays the setback away from the side the path runs along."""
    assert site.length_m
    assert site.depth_m
    gaps = {"left": x, "right": site.length_m - x, "front": y, "back": site.depth_m - y}
    sides = [site.path_side]
    if site.path_side is PathSide.NONE:
        sides = [side for side in PathSide if side is not PathSide.NONE and site.setback_m]
    return all(gaps[side] - radius_m >= site.setback_m - NEAR for side in sides)


def overlapping(circles: list[Circle]) -> bool:
    return any(
        math.dist((one.x, one.y), (other.x, other.y)) < one.radius_m + other.radius_m - NEAR
        for at, one in enumerate(circles)
        for other in circles[:at]
    )


@settings(deadline=None)
@given(sites(), radii)
def test_every_free_position_is_inside_clear_of_the_path_and_of_the_others(
    site: Site, radius_m: float
) -> None:
    positions = free_positions(site, radius_m, ())
    for x, y in positions[:: len(positions) // 40 + 1]:
        assert stands_well(site, x, y, radius_m, step_m=0.1)
        assert site.corners or keeps_off_the_path(site, x, y, radius_m)
        for other in site.growing:
            assert other.x is not None
            assert other.y is not None
            assert math.dist((x, y), (other.x, other.y)) >= radius_m + other.radius_m - NEAR


@settings(deadline=None)
@given(sites(), radii, st.integers(0, 8))
def test_a_group_overlaps_nothing_and_the_nearest_come_first(site: Site, radius_m: float, count: int) -> None:
    first = next(iter(free_positions(site, radius_m, ())), None)
    if first is None:
        return
    group = more_positions(site, first, radius_m, (), count)
    circles = [Circle(x, y, radius_m) for x, y in (first, *group)]
    assert len(group) <= count
    assert not overlapping(circles)
    assert all(stands_well(site, x, y, radius_m) for x, y in group)
    away = [math.dist(first, each) for each in group]
    assert away == pytest.approx(sorted(away))


@settings(deadline=None)
@given(sites(), radii)
def test_more_plants_never_leave_more_room(site: Site, radius_m: float) -> None:
    before = set(free_positions(site, radius_m, ()))
    after = set(free_positions(site, radius_m, (Circle(0.5, 0.5, 0.3),)))
    assert after <= before
    assert widest_free(site, (Circle(0.5, 0.5, 0.3),)) <= widest_free(site, ())


@settings(deadline=None)
@given(sites())
def test_the_widest_free_place_has_room_for_such_a_plant(site: Site) -> None:
    widest = widest_free(site, ())
    if widest > 0.1:
        assert free_positions(site, widest - 0.1, (), step_m=0.02)


def test_a_plant_as_wide_as_the_bed_stands_whole_in_it() -> None:
    positions = free_positions(evolve(BED, depth_m=1.2), 0.6, ())
    assert positions[0] == (0.6, 0.6)
    assert {y for _, y in positions} == {0.6}


def test_in_a_bed_too_narrow_it_reaches_over_by_half_its_radius_but_never_over_the_path() -> None:
    narrow = evolve(BED, depth_m=0.8)
    assert reach_over(narrow, 0.4) == 0.0
    assert reach_over(narrow, 0.5) == 0.5
    rows = {y for _, y in free_positions(narrow, 0.5, (), step_m=0.05)}
    assert (min(rows), max(rows)) == (0.25, 0.55)
    by_path = evolve(narrow, path_side=PathSide.FRONT, setback_m=0.05)
    assert {y for _, y in free_positions(by_path, 0.5, (), step_m=0.05)} == {0.55}
    assert not free_positions(evolve(narrow, setback_m=0.05), 0.5, (), step_m=0.05)
    assert not free_positions(narrow, 0.81, ())


def test_a_path_takes_its_setback_from_its_own_side_only() -> None:
    front = free_positions(evolve(BED, path_side=PathSide.FRONT, setback_m=0.2), 0.3, ())
    assert min(y for _, y in front) == 0.5
    assert max(y for _, y in front) == 1.2
    no_path = free_positions(evolve(BED, setback_m=0.2), 0.3, ())
    assert min(y for _, y in no_path) == 0.5
    assert max(y for _, y in no_path) == 1.0
    assert min(x for x, _ in no_path) == 0.5


def test_a_slanting_edge_can_be_the_one_along_the_path() -> None:
    slant = evolve(
        BED, corners=((0.0, 1.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)), path_side=PathSide.FRONT, setback_m=0.5
    )
    for x, y in free_positions(slant, 0.3, ()):
        assert (4.0 * (y - 1.0) + x) / math.hypot(4.0, 1.0) >= 0.8 - NEAR
        assert x >= 0.3 - NEAR


def test_the_way_round_the_corners_are_named_makes_no_difference() -> None:
    corners = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))
    one = evolve(BED, corners=corners, path_side=PathSide.LEFT, setback_m=0.3)
    other = evolve(one, corners=corners[::-1])
    assert free_positions(one, 0.3, ()) == free_positions(other, 0.3, ())


def test_plants_nobody_has_measured_take_their_area() -> None:
    crowd = evolve(BED, growing=(Growing(plant="Salvia", spread_m=2.0), Growing(plant="Phlox", spread_m=1.9)))
    assert not free_positions(crowd, 0.3, ())
    assert free_positions(evolve(BED, growing=crowd.growing[:1]), 0.3, ())


def test_a_plant_without_a_width_still_takes_room() -> None:
    site = evolve(BED, growing=(Growing(plant="Salvia", x=2.0, y=0.7),))
    assert all(
        math.dist((2.0, 0.7), each) >= 0.3 + UNKNOWN_RADIUS_M - NEAR for each in free_positions(site, 0.3, ())
    )


def test_without_a_size_there_are_no_positions() -> None:
    assert not free_positions(evolve(BED, length_m=None), 0.3, ())
    assert not free_positions(evolve(BED, corners=((0, 0), (1, 1), (2, 2))), 0.1, ())
    assert widest_free(evolve(BED, length_m=None), ()) == 0.0


def test_the_mature_radius_is_half_the_middle_of_its_spread() -> None:
    assert radius(CURRANT) == pytest.approx(0.6)
    assert radius(UNHEARD_OF) == UNKNOWN_RADIUS_M


@pytest.mark.parametrize(
    ("pattern", "edge", "count"),
    [
        (Pattern.SQUARE, PatchEdge.ON, 70),
        (Pattern.TRIANGLE, PatchEdge.ON, 68),
        (Pattern.SQUARE, PatchEdge.HALF_IN, 52),
        (Pattern.SQUARE, PatchEdge.BY_AREA, 53),
    ],
)
def test_a_bed_of_4_by_1_2_m_at_30_cm(pattern: Pattern, edge: PatchEdge, count: int) -> None:
    """1.2 m in steps of 0.3 m are four steps and five rows, whatever floating point makes of it."""
    assert spacing_count(4.0, 1.2, 0.30, pattern, edge) == count


@given(st.integers(1, 40), st.integers(1, 40), st.integers(5, 100))
def test_whole_steps_are_never_lost(columns: int, rows: int, spacing_cm: int) -> None:
    spacing = spacing_cm / 100
    length, depth = columns * spacing, rows * spacing
    assert spacing_count(length, depth, spacing, edge=PatchEdge.HALF_IN) == columns * rows
    assert spacing_count(length, depth, spacing, edge=PatchEdge.ON) == (columns + 1) * (rows + 1)


def test_a_patch_smaller_than_a_plant_holds_one_on_its_edge_and_none_within() -> None:
    assert spacing_count(0.2, 0.2, 0.5, edge=PatchEdge.ON) == 1
    assert spacing_count(0.2, 0.2, 0.5, edge=PatchEdge.HALF_IN) == 0
    with pytest.raises(ValueError, match="above 0"):
        spacing_count(1.0, 1.0, 0.0)


def test_obstacles_are_kept_clear_of() -> None:
    site = evolve(BED, growing=grown((1.0, 0.75, 1.0)))
    assert (1.0, 0.75) not in free_positions(site, 0.3, ())
    assert (0.2, 0.2) in free_positions(site, 0.2, ())
