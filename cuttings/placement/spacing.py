"""How many plants at one spacing fill a patch."""

import math
from enum import StrEnum


class Pattern(StrEnum):
    """How the plants of a patch stand to each other: in line, or each row between those of the last."""

    SQUARE = "square"
    TRIANGLE = "triangle"


class PatchEdge(StrEnum):
    """Where the outermost plants of a patch stand: on its edge, half a spacing in, or not asked, the patch
    being counted by its area alone as growers' tables have it."""

    ON = "on"
    HALF_IN = "half-in"
    BY_AREA = "by-area"


ROW_SPACING = math.sqrt(3) / 2
"""The distance between the rows of a triangle pattern, as a share of the spacing: plain geometry."""


def spacing_count(
    length_m: float,
    depth_m: float,
    spacing_m: float,
    pattern: Pattern = Pattern.SQUARE,
    edge: PatchEdge = PatchEdge.HALF_IN,
) -> int:
    """How many plants at one spacing fill a rectangle, in rows along its length.

    Raises:
        ValueError: a measure is not above 0.
    """
    if not (length_m > 0.0 and depth_m > 0.0 and spacing_m > 0.0):
        raise ValueError("A patch needs a length, a depth and a spacing above 0.")
    row_share = ROW_SPACING if pattern is Pattern.TRIANGLE else 1.0
    if edge is PatchEdge.BY_AREA:
        return _whole(length_m * depth_m / (spacing_m**2 * row_share))
    inset = spacing_m if edge is PatchEdge.HALF_IN else 0.0
    rows = _along(depth_m - inset, spacing_m * row_share)
    full = _along(length_m - inset, spacing_m)
    if pattern is Pattern.SQUARE:
        return rows * full
    between = _along(length_m - inset - spacing_m / 2, spacing_m)
    return math.ceil(rows / 2) * full + rows // 2 * between


def _along(metres: float, spacing_m: float) -> int:
    """Plants in a row with one at its start; none where the row is shorter than nothing."""
    return max(_whole(metres / spacing_m) + 1, 0)


def _whole(number: float) -> int:
    """The whole part; 1.2 m in steps of 0.3 m are four, though floating point makes a hair less."""
    return math.floor(number + 1e-9)
