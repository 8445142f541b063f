"""A patch of ground drawn from above in characters, to scale: where new plants stand, and what is taken.

A character is about twice as high as it is wide. The front, from which the patch is seen, lies at the bottom.
"""

from collections.abc import Callable, Sequence
from math import floor, hypot

from attrs import frozen

from cuttings.units import METRES, show_length
from cuttings.words import Units

FRONT = " front "
NEW, TAKEN, OUTSIDE = "*", ".", ":"

TALL = 2.0
"""How much higher than wide a character is."""

MOST_ROWS = 16
FEWEST_TO_A_SPACING = {False: 2, True: 3}
"""Columns from one plant to the next below which rows fall into one another, on the square and staggered."""

Place = tuple[float, float]


@frozen
class Patch:
    """What there is to draw, in metres from the front left corner of its box ``length_m`` by ``depth_m``.

    ``taken`` tells whether something stands on a place already, ``inside`` whether it belongs to the patch.
    """

    length_m: float
    depth_m: float
    spacing_m: float
    staggered: bool
    plants: Sequence[Place]
    taken: Callable[[float, float], bool]
    inside: Callable[[float, float], bool]


def circles_take(circles: Sequence[tuple[float, float, float]]) -> Callable[[float, float], bool]:
    """Whether a place lies in one of the circles ``(x, y, radius)``."""
    return lambda x, y: any(hypot(x - at, y - back) < radius for at, back, radius in circles)


def patch_lines(patch: Patch, units: Units, width: int) -> list[str]:
    """The drawing in lines of at most ``width`` columns, with its scale and what the signs mean.

    A patch too big to draw legibly is drawn as far as there is room, from the front left.
    """
    cell = _cell(patch, width - 4)
    columns = min(_cells(patch.length_m, cell), max(width - 4, 1))
    rows = min(_cells(patch.depth_m, cell * TALL), MOST_ROWS)
    ground = [[_ground(patch, column, row, cell) for column in range(columns)] for row in range(rows)]
    for x, y in patch.plants:
        column, row = floor(x / cell + 1e-6), floor(y / cell / TALL + 1e-6)
        column -= column == _cells(patch.length_m, cell)  # on the far edge
        row -= row == _cells(patch.depth_m, cell * TALL)
        if column < columns and row < rows:
            ground[row][column] = NEW
    rule = "-" * columns
    cut = columns * cell < patch.length_m - cell or rows * cell * TALL < patch.depth_m - 2 * cell
    return [
        f"  +{rule}+",
        *(f"  |{''.join(row)}|" for row in reversed(ground)),
        f"  +{FRONT.center(columns, '-') if columns > len(FRONT) else rule}+",
        *_scale(cell, columns, units),
        *_legend(ground, cut),
    ]


def _cell(patch: Patch, columns: int) -> float:
    """How many metres a column stands for: a whole part of the spacing, so that the pattern stays even."""
    least = max(patch.length_m / max(columns, 1), patch.depth_m / (MOST_ROWS * TALL), patch.spacing_m / 12)
    parts = max(floor(patch.spacing_m / least + 1e-6), FEWEST_TO_A_SPACING[patch.staggered])
    if not patch.staggered:
        parts -= parts % 2  # then the rows fall on whole lines, too
    return patch.spacing_m / parts


def _cells(metres: float, cell: float) -> int:
    return max(floor(metres / cell + 0.5), 1)


def _ground(patch: Patch, column: int, row: int, cell: float) -> str:
    x, y = (column + 0.5) * cell, (row + 0.5) * cell * TALL
    if not patch.inside(min(x, patch.length_m), min(y, patch.depth_m)):
        return OUTSIDE
    return TAKEN if patch.taken(x, y) else " "


def _scale(cell: float, columns: int, units: Units) -> list[str]:
    """A bar of a round length below the drawing."""
    unit = METRES["ft"] if units is Units.US else 1.0
    rounds = [unit * each for each in (10, 5, 2, 1, 0.5)]
    length = next((each for each in rounds if each / cell <= columns / 2), None)
    if length is None:
        return []
    return [f"   |{'-' * max(round(length / cell) - 2, 0)}| {show_length(length, units)}"]


def _legend(ground: Sequence[Sequence[str]], cut: bool) -> list[str]:
    signs = {NEW: "a new plant", TAKEN: "taken, full grown", OUTSIDE: "outside"}
    there = [f"{sign} {word}" for sign, word in signs.items() if any(sign in row for row in ground)]
    told = "; ".join(there) + ("; only a part is drawn" if cut else "")
    return [f"   {told}"] if told else []
