"""How many plants at one spacing fill a patch, and where in it they stand."""

import math
from collections.abc import Iterator
from enum import StrEnum

from attrs import frozen


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
    if edge is PatchEdge.BY_AREA:
        return _whole(length_m * depth_m / (spacing_m * row_spacing(spacing_m, pattern)))
    return sum(row.plants for row in _rows(length_m, depth_m, spacing_m, pattern, edge))


def spacing_positions(
    length_m: float, depth_m: float, spacing_m: float, pattern: Pattern, edge: PatchEdge
) -> tuple[tuple[float, float], ...]:
    """Where the plants counted by ``spacing_count`` stand, in metres from the front left corner of the
    rectangle, row by row from the front.

    Raises:
        ValueError: a measure is not above 0, or the patch is only counted by its area.
    """
    if edge is PatchEdge.BY_AREA or not (length_m > 0.0 and depth_m > 0.0 and spacing_m > 0.0):
        raise ValueError("Plants stand on the edge of a patch or half a spacing in, at measures above 0.")
    return tuple(
        (row.start_m + number * spacing_m, row.back_m)
        for row in _rows(length_m, depth_m, spacing_m, pattern, edge)
        for number in range(row.plants)
    )


def row_spacing(spacing_m: float, pattern: Pattern) -> float:
    """The distance between the rows of a pattern, in the unit of the spacing."""
    return spacing_m * (ROW_SPACING if pattern is Pattern.TRIANGLE else 1.0)


@frozen
class _Row:
    """So many plants, the first of them ``start_m`` along and all of them ``back_m`` back."""

    start_m: float
    back_m: float
    plants: int


def _rows(
    length_m: float, depth_m: float, spacing_m: float, pattern: Pattern, edge: PatchEdge
) -> Iterator[_Row]:
    """The rows of a patch, every second one of a triangle half a spacing along."""
    inset = spacing_m / 2 if edge is PatchEdge.HALF_IN else 0.0
    between = row_spacing(spacing_m, pattern)
    for number in range(_along(depth_m - 2 * inset, between)):
        shift = spacing_m / 2 if pattern is Pattern.TRIANGLE and number % 2 else 0.0
        plants = _along(length_m - 2 * inset - shift, spacing_m)
        yield _Row(inset + shift, inset + number * between, plants)


def _along(metres: float, spacing_m: float) -> int:
    """Plants in a row with one at its start; none where the row is shorter than nothing."""
    return max(_whole(metres / spacing_m) + 1, 0)


def _whole(number: float) -> int:
    """The whole part; 1.2 m in steps of 0.3 m are four, though floating point makes a hair less."""
    return math.floor(number + 1e-9)
