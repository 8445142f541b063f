"""The drawing of a patch: to scale, in any width, with an ASCII twin."""

from itertools import pairwise

import pytest

from cuttings.placement.spacing import PatchEdge, Pattern, spacing_positions
from cuttings.show.patch import NEW, OUTSIDE, TAKEN, Patch, circles_take, patch_lines
from cuttings.show.plain import ascii_twin
from cuttings.words import Units


def anywhere(x: float, y: float) -> bool:  # noqa: ARG001
    return True


def patch(
    length: float, depth: float, spacing: float, pattern: Pattern, edge: PatchEdge = PatchEdge.HALF_IN
) -> Patch:
    plants = spacing_positions(length, depth, spacing, pattern, edge)
    staggered = pattern is Pattern.TRIANGLE
    return Patch(length, depth, spacing, staggered, plants, circles_take([]), anywhere)


@pytest.mark.parametrize("width", [40, 60, 80, 120, 200])
@pytest.mark.parametrize("pattern", Pattern)
@pytest.mark.parametrize(
    ("length", "depth", "spacing"), [(4.0, 1.2, 0.3), (30.0, 2.0, 0.3), (1.0, 8.0, 0.5), (0.2, 0.2, 0.5)]
)
def test_it_fits_the_page(width: int, pattern: Pattern, length: float, depth: float, spacing: float) -> None:
    lines = patch_lines(patch(length, depth, spacing, pattern, PatchEdge.ON), Units.METRIC, width)
    assert max(len(line) for line in lines if "drawn" not in line) <= width
    assert len(lines) <= 21
    assert NEW in "".join(lines)
    assert " front " in "".join(lines) or len(lines[0]) < 12
    assert all(line.isascii() for line in map(ascii_twin, lines))


@pytest.mark.parametrize("pattern", Pattern)
@pytest.mark.parametrize("edge", [PatchEdge.ON, PatchEdge.HALF_IN])
def test_every_plant_of_a_patch_that_fits_is_drawn(pattern: Pattern, edge: PatchEdge) -> None:
    whole = patch(4.0, 1.2, 0.3, pattern, edge)
    lines = patch_lines(whole, Units.METRIC, 80)
    assert "only a part" not in lines[-1]
    assert sum(line.count(NEW) for line in lines[:-1]) == len(whole.plants)


def test_rows_of_a_triangle_are_drawn_between_those_of_the_last() -> None:
    lines = patch_lines(patch(3.0, 1.0, 0.5, Pattern.TRIANGLE), Units.METRIC, 80)
    rows = [[at for at, sign in enumerate(line) if sign == NEW] for line in lines[:-1] if NEW in line]
    apart = rows[0][1] - rows[0][0]
    assert abs(abs(rows[1][0] - rows[0][0]) - apart / 2) <= 1
    assert {b - a for row in rows for a, b in pairwise(row)} == {apart}


def test_the_front_is_at_the_bottom_and_taken_ground_is_dotted() -> None:
    one = Patch(4.0, 2.0, 0.5, False, [(0.25, 0.25)], circles_take([(3.0, 1.5, 0.4)]), lambda x, _: x < 3.5)
    lines = patch_lines(one, Units.METRIC, 80)
    drawn = [line for line in lines if line.startswith("  |")]
    back, front = drawn[: len(drawn) // 2], drawn[len(drawn) // 2 :]
    assert NEW in "".join(front)
    assert NEW not in "".join(back)
    assert TAKEN in "".join(back)
    assert TAKEN not in drawn[-1]
    assert all(line.rstrip("|").endswith(OUTSIDE) for line in drawn)


def test_what_is_too_big_says_that_only_a_part_is_drawn() -> None:
    assert "only a part is drawn" in patch_lines(patch(30.0, 2.0, 0.3, Pattern.SQUARE), Units.US, 80)[-1]


def test_the_bar_is_as_long_as_it_says() -> None:
    lines = patch_lines(patch(4.0, 1.2, 0.3, Pattern.SQUARE), Units.METRIC, 80)
    (bar,) = [line for line in lines if line.endswith(" m")]
    drawn = bar.strip().split(" ")[0]
    columns = len(lines[0].strip()) - 2
    assert len(drawn) == pytest.approx(columns / 4.0 * float(bar.split()[-2]), abs=1.5)
