"""Plants set out on a pattern: none too near another, an edge or what grows there."""

import math
from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.ledger.places import Point, Site
from cuttings.placement.filling import drift, fill_free, odd_number
from cuttings.placement.outline import plot
from cuttings.placement.spacing import PatchEdge, Pattern, spacing_count, spacing_positions
from cuttings.words import PathSide
from tests.placement.beds import BED, grown, hold, sites
from tests.placement.test_room import lies_within

patterns = st.sampled_from(list(Pattern))
NEAR = 1e-3
spacings = st.integers(20, 120).map(lambda cm: cm / 100)


def closest(positions: tuple[Point, ...]) -> float:
    return min((math.dist(one, other) for one, other in combinations(positions, 2)), default=math.inf)


@settings(deadline=None, max_examples=50)
@given(sites(), spacings, patterns)
def test_plants_in_the_free_ground_keep_their_distance(site: Site, spacing: float, pattern: Pattern) -> None:
    positions = fill_free(site, [], spacing, pattern)
    for x, y in positions[:: len(positions) // 30 + 1]:
        assert lies_within(site, x, y, spacing / 2 - NEAR)
        for other in site.growing:
            assert other.x is not None
            assert other.y is not None
            assert math.dist((x, y), (other.x, other.y)) >= spacing / 2 + other.radius_m - NEAR
    assert closest(positions[:200]) >= spacing - NEAR


@settings(deadline=None, max_examples=50)
@given(st.integers(30, 500), st.integers(30, 300), spacings, patterns)
def test_an_empty_bed_holds_what_is_counted_half_a_spacing_in(
    length: int, depth: int, spacing: float, pattern: Pattern
) -> None:
    site = evolve(BED, length_m=length / 100, depth_m=depth / 100)
    counted = spacing_count(length / 100, depth / 100, spacing, pattern, PatchEdge.HALF_IN)
    assert len(fill_free(site, [], spacing, pattern)) >= counted


@given(
    st.integers(30, 500), st.integers(30, 300), spacings, patterns,
    st.sampled_from([PatchEdge.ON, PatchEdge.HALF_IN]),
)  # fmt: skip
def test_as_many_positions_as_are_counted_all_in_the_patch(
    length: int, depth: int, spacing: float, pattern: Pattern, edge: PatchEdge
) -> None:
    size = length / 100, depth / 100
    positions = spacing_positions(*size, spacing, pattern, edge)
    assert len(positions) == spacing_count(*size, spacing, pattern, edge)
    inset = spacing / 2 if edge is PatchEdge.HALF_IN else 0.0
    assert all(inset - NEAR <= x <= size[0] - inset + NEAR for x, _ in positions)
    assert all(inset - NEAR <= y <= size[1] - inset + NEAR for _, y in positions)
    assert closest(positions[:200]) >= spacing - NEAR


def test_a_patch_counted_by_its_area_has_no_positions() -> None:
    with pytest.raises(ValueError, match="edge"):
        spacing_positions(1.0, 1.0, 0.3, Pattern.SQUARE, PatchEdge.BY_AREA)


def test_held_spots_and_the_room_along_a_path_stay_free() -> None:
    site = evolve(BED, path_side=PathSide.FRONT, setback_m=0.3, growing=grown((1.0, 0.9, 1.0)))
    kept = hold(site, "26-001", 3.0, 0.75, 0.5)
    positions = fill_free(site, [kept], 0.3, Pattern.TRIANGLE)
    assert positions
    assert min(y for _, y in positions) >= 0.45 - NEAR
    assert all(math.dist(at, (3.0, 0.75)) >= 0.65 - NEAR for at in positions)
    assert len(positions) < len(fill_free(site, [], 0.3, Pattern.TRIANGLE))


def test_no_room_no_plants() -> None:
    assert not fill_free(evolve(BED, depth_m=0.2), [], 0.3, Pattern.SQUARE)
    assert not fill_free(evolve(BED, length_m=None), [], 0.3, Pattern.SQUARE)


@pytest.mark.parametrize("spacing", [0.0, -1.0, 0.002])
def test_a_spacing_nobody_means_is_refused(spacing: float) -> None:
    with pytest.raises(ValueError, match="spacing"):
        fill_free(BED, [], spacing, Pattern.SQUARE)


@settings(deadline=None)
@given(st.integers(100, 900), st.integers(50, 500), spacings)
def test_a_drift_is_odd_long_and_part_of_the_pattern(length: int, depth: int, spacing: float) -> None:
    size = length / 100, depth / 100
    positions = spacing_positions(*size, spacing, Pattern.TRIANGLE, PatchEdge.HALF_IN)
    chosen = drift(positions, spacing)
    assert set(chosen) <= set(positions)
    assert len(chosen) % 2 == (1 if positions else 0)
    if len(chosen) > 8:
        wide, deep = (max(each) - min(each) for each in zip(*chosen, strict=True))
        assert max(wide, deep) > 1.5 * min(wide, deep)


def test_a_drift_lies_along_the_longer_side() -> None:
    tall = spacing_positions(2.0, 9.0, 0.3, Pattern.TRIANGLE, PatchEdge.HALF_IN)
    wide, deep = (max(each) - min(each) for each in zip(*drift(tall, 0.3), strict=True))
    assert deep > 3 * wide


def test_plants_parted_by_others_are_no_drift() -> None:
    crossed = evolve(BED, growing=grown((1.5, 0.75, 1.5)))
    positions = fill_free(crossed, [], 0.3, Pattern.TRIANGLE)
    chosen = drift(positions, 0.3)
    assert min(x for x, _ in positions) < 0.6
    assert len(chosen) > 5
    assert min(x for x, _ in chosen) > 1.5


def test_no_plants_make_no_drift() -> None:
    assert drift((), 0.3) == ()


@pytest.mark.parametrize(("count", "odd"), [(0, 0), (1, 1), (2, 1), (3, 3), (8, 7), (52, 51)])
def test_the_odd_number_is_not_above_the_count(count: int, odd: int) -> None:
    assert odd_number(count) == odd


def test_the_plots_of_these_tests_have_a_size() -> None:
    assert plot(BED) is not None
