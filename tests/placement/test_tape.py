"""Places by tape: solved, told back, how sure, and refused where no place can have such distances."""

import math
import random
from collections.abc import Iterator

import pytest
import shapely
from attrs import evolve
from hypothesis import assume, example, given
from hypothesis import strategies as st

from cuttings.ledger.places import FixedPoint, Point, Site
from cuttings.placement.points import best_pair, fixed_points, nearest_on, on_ground, tape_words
from cuttings.placement.tape import (
    POOR_M,
    READ_M,
    STEP_M,
    Fix,
    NoTriangle,
    Tape,
    distances,
    line_words,
    off_line,
    place,
    read_tape,
    tape_length,
    uncertainty_m,
    unsure_words,
    why_not,
)
from cuttings.units import plan_words
from cuttings.words import Side, Units

CASES = 10_000
BED = Site(name="gate bed", area="gate strip", length_m=6.0, depth_m=1.5)

numbers = st.floats(-30.0, 30.0, allow_nan=False)
points = st.tuples(numbers, numbers)


def nearer(fix: Fix, at: Point) -> float:
    """How far the nearer of two places by tape lies from where it should."""
    return min(math.dist(fix.left, at), math.dist(fix.right, at))


def cases(seed: int) -> Iterator[tuple[Point, Point, Point]]:
    """Two points at least half a metre apart, and a place, within 20 m of each other."""
    dice = random.Random(seed)
    made = 0
    while made < CASES:
        first, second, at = ((dice.uniform(0, 20), dice.uniform(0, 20)) for _ in range(3))
        if math.dist(first, second) >= 0.5:
            made += 1
            yield first, second, at


def test_ten_thousand_places_are_recovered() -> None:
    for first, second, at in cases(seed=5):
        fix = place(first, second, math.dist(first, at), math.dist(second, at))
        assert nearer(fix, at) < 1e-6
        side = Side.LEFT if off_line(first, second, at)[1] > 0 else Side.RIGHT
        assert math.dist(fix.on(side), at) < 1e-6


def test_ten_thousand_places_read_to_the_nearest_step_lie_as_near_as_is_said() -> None:
    for first, second, at in cases(seed=6):
        one, other = (round(math.dist(each, at) / STEP_M) * STEP_M for each in (first, second))
        fix = place(first, second, one, other)  # rounding is never taken for a wrong reading
        assert nearer(fix, at) <= 1.02 * fix.unsure_m


def test_places_are_where_two_circles_cross() -> None:
    """The circles are shapely's, as polygons of very many sides."""
    for first, second, at in list(cases(seed=7))[:300]:
        one, other = math.dist(first, at), math.dist(second, at)
        fix = place(first, second, one, other)
        if min(one, other) < 0.5 or fix.poor:
            continue
        rings = (
            shapely.Point(*c).buffer(r, quad_segs=4096).exterior for c, r in ((first, one), (second, other))
        )
        crossings = shapely.get_coordinates(shapely.intersection(*rings))
        assert len(crossings) == 2
        for crossing in crossings:
            assert nearer(fix, (float(crossing[0]), float(crossing[1]))) < 1e-4


@given(points, points, points)
def test_the_two_places_are_mirrored_with_equal_distances(first: Point, second: Point, at: Point) -> None:
    assume(math.dist(first, second) >= 0.5)
    one, other = math.dist(first, at), math.dist(second, at)
    fix = place(first, second, one, other)
    for each in (fix.left, fix.right):
        assert math.isclose(math.dist(first, each), one, abs_tol=1e-6)
        assert math.isclose(math.dist(second, each), other, abs_tol=1e-6)
    along, left = off_line(first, second, fix.left)
    assert left >= -1e-9
    assert math.dist((along, -left), off_line(first, second, fix.right)) < 1e-6


@example((14.0, 0.0), (-18.045717264401713, 0.0), (0.0, 0.0))  # the sum of the tapes rounds to the distance
@given(points, points, points)
def test_distances_bring_a_place_back(first: Point, second: Point, at: Point) -> None:
    assume(math.dist(first, second) >= 0.5)
    named = [FixedPoint(name=name, x=x, y=y) for name, (x, y) in (("A", first), ("B", second))]
    assert nearer(place(first, second, *distances(at, *named)), at) < 1e-5


@given(st.floats(2.0, 20.0), st.floats(0.1, 0.9), st.floats(0.0, 0.5))
def test_a_place_nearer_the_line_is_less_sure(apart: float, share: float, nearer_by: float) -> None:
    """Inside the circle over the two points, where the tapes cross at a right angle or flatter."""
    rim = apart * math.sqrt(share * (1 - share))
    along = share * apart

    def unsure(off: float) -> float:
        return uncertainty_m(apart, math.hypot(along, off), math.hypot(apart - along, off))

    assume(rim >= 0.6)
    assert unsure(nearer_by * rim) > unsure(rim)
    assert unsure(0.0) > POOR_M


@given(points, points, points)
def test_how_sure_a_place_is_stays_finite_and_is_never_less_than_a_reading(
    first: Point, second: Point, at: Point
) -> None:
    apart = math.dist(first, second)
    assume(apart >= 0.5)
    one, other = math.dist(first, at), math.dist(second, at)
    assert READ_M * 0.99 <= uncertainty_m(apart, one, other) < one + other + 1.0


@pytest.mark.parametrize(
    ("one", "other", "line"),
    [(2.0, 4.0, (2.0, 0.0)), (8.0, 2.0, (8.0, 0.0)), (1.0, 7.0, (-1.0, 0.0)), (0.0, 6.0, (0.0, 0.0))],
)
def test_tapes_that_only_touch_meet_on_the_line(one: float, other: float, line: Point) -> None:
    fix = place((0.0, 0.0), (6.0, 0.0), one, other)
    assert fix.on_line
    assert math.dist(fix.left, line) < 1e-6
    assert fix.poor or one == 0.0


@pytest.mark.parametrize(
    ("one", "other", "line"), [(2.0, 3.96, 2.02), (8.04, 2.0, 8.02), (1.0, 7.04, -1.02), (2.0, 3.95, 2.025)]
)
def test_tapes_that_miss_by_no_more_than_their_reading_meet_on_the_line(
    one: float, other: float, line: float
) -> None:
    fix = place((0.0, 0.0), (6.0, 0.0), one, other)
    assert fix.on_line
    assert 0.03 < fix.stretched_m < STEP_M + 1e-6
    assert math.dist(fix.left, (line, 0.0)) < 1e-6


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [
        (2.0, 3.9, "together they are 5.90 m long, and A and B stand 6.00 m apart, which is 0.10 m more"),
        (9.0, 2.0, "the tape from A is 1.00 m too long to meet the one from B"),
        (1.0, 12.0, "the tape from B is 5.00 m too long to meet the one from A"),
    ],
)
def test_tapes_that_cannot_meet_are_refused_with_the_reason(one: float, other: float, said: str) -> None:
    with pytest.raises(NoTriangle):
        place((0.0, 0.0), (6.0, 0.0), one, other)
    assert said in why_not(Tape("A", "B", one, other), 6.0, Units.METRIC)


def test_two_points_that_are_one_are_refused() -> None:
    with pytest.raises(NoTriangle):
        place((1.0, 1.0), (1.0, 1.05), 3.0, 3.0)
    assert "one place or nearly so" in why_not(Tape("A", "B", 3.0, 3.0), 0.05, Units.METRIC)


def test_ten_thousand_bad_triangles_are_refused() -> None:
    dice = random.Random(8)
    for _ in range(CASES):
        apart, one = dice.uniform(0.5, 20), dice.uniform(0, 20)
        over = dice.uniform(STEP_M + 0.001, 5)
        bad = [apart + one + over, one - apart - over, apart - one - over]
        for other in (each for each in bad if each >= 0):
            with pytest.raises(NoTriangle):
                place((0.0, 0.0), (apart, 0.0), one, other)


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("A=3.20m B=4.75m", ("A", 3.2), ("B", 4.75)),
        ("A=3.2m B = 4.75 m", ("A", 3.2), ("B", 4.75)),
        ("A=3,2 B=4", ("A", 3.2), ("B", 4.0)),
        ("A=10ft6in B=12ft", ("A", 3.2004), ("B", 3.6576)),
        ("A = 10' 6\" B=12'", ("A", 3.2004), ("B", 3.6576)),
        ("gate-post=3.2m, tap=4m", ("gate-post", 3.2), ("tap", 4.0)),
        ("A=320cm and B=4m", ("A", 3.2), ("B", 4.0)),
        ("A=3.2 + B=4", ("A", 3.2), ("B", 4.0)),
    ],
)
def test_a_tape_is_read_as_people_write_it(
    text: str, first: tuple[str, float], second: tuple[str, float]
) -> None:
    tape = read_tape(text, Units.METRIC)
    assert (tape.first, tape.second) == (first[0], second[0])
    assert (tape.first_m, tape.second_m) == pytest.approx((first[1], second[1]))


def test_bare_numbers_are_in_the_garden_s_units() -> None:
    tape = read_tape("A=10 B=12", Units.US)
    assert (tape.first_m, tape.second_m) == pytest.approx((3.048, 3.6576))


@pytest.mark.parametrize("text", ["", "A=3m", "A=3m A=4m", "A 3m B=4m", "A=3m B 4m", "A=1 B=2 C=3", "3m 4m"])
def test_what_is_no_tape_is_said_to_be_none(text: str) -> None:
    with pytest.raises(ValueError, match="is not two tape distances; write them like"):
        read_tape(text, Units.METRIC)


@pytest.mark.parametrize("text", ["A=near B=far", "A=-3m B=4m", "A=3 bananas B=4m"])
def test_a_tape_needs_lengths(text: str) -> None:
    with pytest.raises(ValueError, match="length"):
        read_tape(text, Units.METRIC)


def named(site: Site) -> dict[str, Point]:
    return {each.name: (each.x, each.y) for each in fixed_points(site)}


def test_a_site_has_its_front_corners_to_measure_from() -> None:
    assert named(BED) == {"A": (0.0, 0.0), "B": (6.0, 0.0)}
    assert named(evolve(BED, depth_m=None)) == named(BED)
    assert named(evolve(BED, length_m=None)) == {}
    plot = evolve(BED, corners=((0.5, 1.0), (3.0, 0.0), (5.0, 0.2), (4.0, 4.0)))
    assert named(plot) == {"A": (3.0, 0.0), "B": (5.0, 0.2)}
    level = evolve(BED, corners=((0.0, 0.0), (2.0, 0.0), (5.0, 0.0), (4.0, 4.0)))
    assert named(level) == {"A": (0.0, 0.0), "B": (5.0, 0.0)}


def test_a_point_told_takes_the_place_of_a_corner_of_its_name() -> None:
    moved = evolve(BED, points=(FixedPoint(name="a", x=-1.0, y=2.0), FixedPoint(name="tap", x=3.0, y=-2.0)))
    assert named(moved) == {"B": (6.0, 0.0), "a": (-1.0, 2.0), "tap": (3.0, -2.0)}


def test_a_position_is_told_back_from_the_front_corners_or_from_what_fixes_it_better() -> None:
    assert tape_words(BED, (1.97, 1.4), Units.METRIC) == "A 2.42 m, B 4.27 m"
    assert tape_words(BED, (1.97, 1.4), Units.US) == "A 7 ft 11 in, B 14 ft"
    tapped = evolve(BED, points=(FixedPoint(name="tap", x=3.0, y=-3.0),))
    pair = best_pair(tapped, (3.0, 0.2))
    assert pair is not None
    assert "tap" in {each.name for each in pair}
    assert "A " in tape_words(tapped, (1.97, 1.4), Units.METRIC)
    assert tape_words(evolve(BED, length_m=None), (1.0, 1.0), Units.METRIC) == ""


def test_the_side_is_told_back_where_the_other_place_lies_on_the_site_too() -> None:
    split = evolve(
        BED,
        depth_m=4.0,
        points=(FixedPoint(name="A", x=0.0, y=2.0), FixedPoint(name="B", x=6.0, y=2.0)),
    )
    assert tape_words(split, (3.0, 3.5), Units.METRIC).endswith(", left of the line from A to B")
    assert tape_words(split, (3.0, 0.5), Units.METRIC).endswith(", right of the line from A to B")


@given(points)
def test_what_lies_outside_is_put_on_the_edge(at: Point) -> None:
    for site in (BED, evolve(BED, depth_m=None)):
        if not on_ground(site, at):
            x, y = nearest_on(site, at)
            assert -1e-9 <= x <= 6.0 + 1e-9
            assert y >= -1e-9
            assert math.dist((x, y), at) <= math.dist((3.0, 0.0), at) + 1e-9


def test_places_in_words() -> None:
    assert tape_length(3.2, Units.METRIC) == "3.20 m"
    assert unsure_words(0.0354, Units.METRIC) == "within about 4 cm"
    assert unsure_words(0.0354, Units.US) == "within about 1.5 in"
    assert plan_words((1.85, 0.9), Units.METRIC) == "1.85 m along and 90 cm back"
    assert plan_words((-1.0, -0.5), Units.METRIC) == "1 m left of the left end and 50 cm before the front"
    assert line_words("A", "B", (2.1, 1.3), Units.METRIC) == (
        "2.1 m along the line from A to B and 1.3 m to its left"
    )
    assert line_words("A", "B", (2.1, -1.3), Units.METRIC).endswith("and 1.3 m to its right")
    assert line_words("A", "B", (2.1, 0.0), Units.METRIC) == "2.1 m along the line from A to B"
    assert line_words("A", "B", (-1.0, 0.5), Units.METRIC) == (
        "1 m back from A on the line from A to B drawn on and 50 cm to its left"
    )
