"""Two tapes against what surveyors publish, and against plain geometry."""

import math

import pytest

from cuttings.placement.tape import POOR_M, READ_M, place, uncertainty_m

FEET = 0.3048
ORIGIN = (0.0, 0.0)


def test_a_surveyor_s_worked_example() -> None:
    """How far a building's corner stands from a boundary: two points of it 25 ft apart, tapes of 14.750 ft
    and 17.500 ft, and 10.125 ft as the answer.

    power.one: Point to Line Distance Calculator (surveying, law of cosines),
    https://power.one/t/bd8063b6f0331f15835f/point-to-line-distance-calculator
    """
    fix = place(ORIGIN, (25.0 * FEET, 0.0), 14.750 * FEET, 17.500 * FEET)
    assert fix.left[1] / FEET == pytest.approx(10.125, abs=0.0005)


@pytest.mark.parametrize(
    ("apart", "one", "other", "at"),
    [
        (5.0, 3.0, 4.0, (1.8, 2.4)),
        (13.0, 5.0, 12.0, (25 / 13, 60 / 13)),
        (4.0, 3.0, 5.0, (0.0, 3.0)),
        (14.0, 13.0, 15.0, (5.0, 12.0)),
    ],
)
def test_triangles_of_whole_sides(apart: float, one: float, other: float, at: tuple[float, float]) -> None:
    """Plain geometry: the triangles 3-4-5 and 5-12-13, and 13-14-15, which is two of them side by side."""
    fix = place(ORIGIN, (apart, 0.0), one, other)
    assert fix.left == pytest.approx(at)
    assert fix.right == pytest.approx((at[0], -at[1]))


def crossing_at(degrees: float, reach: float = 5.0) -> float:
    """How unsure a place is that lies equally far from both points and whose tapes cross at an angle."""
    return uncertainty_m(2 * reach * math.sin(math.radians(degrees) / 2), reach, reach)


def test_tapes_that_cross_at_30_to_120_degrees_fix_a_place() -> None:
    """Nautical Archaeology Society (Wiley-Blackwell): Underwater Archaeology, The NAS Guide to Principles and
    Practice, 2nd edition (2009), page 121: between 30 and 120 degrees; https://issuhub.com/view/index/4800?pageIndex=167

    Flatter angles than 120 degrees are called poor here only when they are as unsure as 30 degrees is.
    """
    assert all(crossing_at(degrees) <= POOR_M for degrees in range(31, 121))
    assert all(crossing_at(degrees) > POOR_M for degrees in (5, 10, 20, 28, 155, 170))


def test_tapes_that_cross_at_a_right_angle_fix_a_place_best() -> None:
    """Maritime Archaeology: A Technical Handbook, 2nd edition, page 102, figure 4.7: a fix is strong
    where the lines cross at right angles; http://online.flipbuilder.com/xrrt/bmlb/files/basic-html/page123.html
    """
    best = min(range(10, 171, 5), key=crossing_at)
    assert best == 90
    assert crossing_at(90) == pytest.approx(math.sqrt(2) * READ_M, rel=0.02)
