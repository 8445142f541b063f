"""A bed drawn from above, to scale: its outline, what grows there at full size, spots held and offered.

In text, a circle of dots is a plant that grows there, one of small rings a spot that is held, and one of
stars a spot that is offered; each has its letter or number at its middle.
"""

import math
from collections.abc import Iterator, Sequence
from enum import Enum

from attrs import frozen

from cuttings.show.plain import wrapped

Point = tuple[float, float]

MOST_COLUMNS_A_METRE = 16.0
CELL_SHAPE = 2.0
"""A letter on a terminal is about twice as high as it is wide."""

UNITS = (1, 2, 5, 10, 20, 50)
"""How many units the bar of the scale may stand for."""

MOST_ROWS = 30
MARGIN = 3
"""Columns and rows round the outline."""


ARROWS = ("^", "/", ">", "\\", "v", "/", "<", "\\")
"""Arrows by eighths of a turn, clockwise from the back."""


class Growth(Enum):
    """What a circle on the plan stands for."""

    GROWN = "grows here"
    HELD = "held"
    OFFERED = "offered"


STROKES = {Growth.GROWN: ".", Growth.HELD: "o", Growth.OFFERED: "*"}


@frozen
class Ring:
    """A mature circle on the plan, in metres, with the sign at its middle and what it is in words."""

    x: float
    y: float
    radius_m: float
    growth: Growth
    sign: str
    words: str


@frozen
class BedPlan:
    """Everything on the plan of one bed.

    ``outline`` are its corners in metres from its front left. ``unit_m`` and ``unit`` are what lengths are
    told in. ``north`` is the direction of north on the plan, x to the right and y to the back, or ``None``
    where nobody has said which way the bed faces. ``notes`` are sentences about what lies along its sides.
    """

    name: str
    outline: Sequence[Point]
    rings: Sequence[Ring]
    unit_m: float
    unit: str
    north: Point | None = None
    notes: Sequence[str] = ()


@frozen
class Frame:
    """Where the points of a plan lie among the cells of a screen: the back of the bed on top."""

    left: float
    back: float
    columns_a_metre: float

    def cell(self, x: float, y: float) -> tuple[int, int]:
        row = (self.back - y) * self.columns_a_metre / CELL_SHAPE
        return MARGIN + round((x - self.left) * self.columns_a_metre), 1 + round(row)


def plan_lines(plan: BedPlan, width: int) -> list[str]:
    """The plan in so many columns: the drawing, its scale, and what each sign stands for."""
    frame, size = _frame(plan, width)
    cells = [[" "] * size[0] for _ in range(size[1])]
    _draw(cells, _ring_cells(plan, frame))
    _draw(cells, _outline_cells(plan, frame))
    _draw(cells, _sign_cells(plan, frame))
    lines = ["".join(row).rstrip() for row in cells]
    return [*lines, *_below(plan, frame, width)]


def _frame(plan: BedPlan, width: int) -> tuple[Frame, tuple[int, int]]:
    """The frame, and how many columns and rows of cells it takes."""
    xs, ys = [x for x, _ in plan.outline], [y for _, y in plan.outline]
    reach = [(ring.y - ring.radius_m, ring.y + ring.radius_m) for ring in plan.rings]
    front, back = min([min(ys), *(low for low, _ in reach)]), max([max(ys), *(high for _, high in reach)])
    long, deep = max(xs) - min(xs), back - front
    by_rows = CELL_SHAPE * MOST_ROWS / max(deep, 0.1)
    scale = max(min((width - 2 * MARGIN) / max(long, 0.1), MOST_COLUMNS_A_METRE, by_rows), 0.5)
    frame = Frame(min(xs), back, scale)
    right, bottom = frame.cell(max(xs), front)
    return frame, (max(right + MARGIN + 1, 8), bottom + 2)


Cells = Iterator[tuple[tuple[int, int], str]]


def _draw(cells: list[list[str]], marks: Cells) -> None:
    for (column, row), sign in marks:
        if 0 <= row < len(cells) and 0 <= column < len(cells[0]):
            cells[row][column] = sign


def _ring_cells(plan: BedPlan, frame: Frame) -> Cells:
    for ring in plan.rings:
        steps = max(int(2 * math.pi * ring.radius_m * frame.columns_a_metre * 2), 12)
        for step in range(steps):
            turn = 2 * math.pi * step / steps
            x, y = ring.x + ring.radius_m * math.cos(turn), ring.y + ring.radius_m * math.sin(turn)
            yield frame.cell(x, y), STROKES[ring.growth]


def _outline_cells(plan: BedPlan, frame: Frame) -> Cells:
    corners = list(plan.outline)
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        (column, row), (last_column, last_row) = frame.cell(*start), frame.cell(*end)
        across, down = last_column - column, last_row - row
        sign = (
            "-" if abs(across) > 2 * abs(down) else "|" if abs(down) > abs(across) else _slant(across, down)
        )
        for step in range(1, max(abs(across), abs(down))):
            part = step / max(abs(across), abs(down))
            yield (round(column + across * part), round(row + down * part)), sign
    for corner in corners:
        yield frame.cell(*corner), "+"


def _slant(across: int, down: int) -> str:
    return "\\" if (across > 0) == (down > 0) else "/"


def _sign_cells(plan: BedPlan, frame: Frame) -> Cells:
    for ring in plan.rings:
        column, row = frame.cell(ring.x, ring.y)
        for offset, letter in enumerate(ring.sign):
            yield (column + offset, row), letter


def _below(plan: BedPlan, frame: Frame, width: int) -> Iterator[str]:
    """What stands below the drawing: its scale, the way to the north, what lies along its sides, and what
    each sign stands for."""
    units = next((many for many in UNITS if many * plan.unit_m * frame.columns_a_metre >= 4), UNITS[-1])
    columns = max(round(units * plan.unit_m * frame.columns_a_metre), 2)
    yield f"{' ' * MARGIN}|{'-' * (columns - 1)}| {units} {plan.unit}"
    there = [growth for growth in Growth if any(ring.growth is growth for ring in plan.rings)]
    if there:
        yield f"{' ' * MARGIN}{', '.join(f'{STROKES[growth]} {growth.value}' for growth in there)}"
    north = [] if plan.north is None else [f"North is {_arrow(plan.north)}"]
    for note in (*north, *plan.notes):
        yield from (f"{' ' * MARGIN}{line}" for line in wrapped(note, width - MARGIN))
    for ring in plan.rings:
        first = f"{' ' * MARGIN}{STROKES[ring.growth]} {ring.sign:<2} "
        for number, line in enumerate(wrapped(ring.words, width - len(first))):
            yield f"{first if number == 0 else ' ' * len(first)}{line}"


def _arrow(north: Point) -> str:
    """The way to the north in words and as an arrow."""
    turn = round(math.degrees(math.atan2(north[0], north[1])) / 45.0) % 8
    words = ("at the back", "at the back right", "to the right", "at the front right", "at the front",
             "at the front left", "to the left", "at the back left")  # fmt: skip
    return f"{words[turn]}: {ARROWS[turn]}"


def plan_words(plan: BedPlan) -> list[str]:
    """The plan in sentences, for those who want no drawing."""
    return [f"{ring.words}: {ring.growth.value}." for ring in plan.rings] + list(plan.notes)
