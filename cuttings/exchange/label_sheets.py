"""How labels lie on a sheet of paper: to be cut out of a plain one, or on one that is cut already.

Lengths are millimetres; x counts from the left edge of the sheet and y from its upper one.
"""

import re
from collections.abc import Iterator

from attrs import frozen

from cuttings.exchange.lettering import Format
from cuttings.units import METRES
from cuttings.words import Units

PAPER: dict[Format, tuple[float, float]] = {"A4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216 for A4; letter is 8.5 by 11 in (ANSI/ASME Y14.1)."""

BARE = 10.0
"""White round labels that are to be cut out. Home printers leave up to 6 mm bare, and the cutting marks stand
in the rest; from memory."""

SHORTEST, NARROWEST, LONGEST = 20.0, 10.0, 200.0
"""The least length and width of a label that anything can be read on, and the longest; from memory."""

SLACK = 0.01
"""What sizes written in inches and rounded may be over."""

ACCEPTS = "write its width and height like 25x67mm or 2.625x1in"

_SIZE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(mm|cm|in|\")?\s*[x×*]\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|in|\")?", re.I)


@frozen
class Size:
    """The width and height of a label."""

    width: float
    height: float

    def __str__(self) -> str:
        return f"{self.width:g}x{self.height:g}mm"


SMALL = Size(67.0, 25.0)
"""The label that is printed where no size is asked for."""


@frozen
class Place:
    """Where one label lies; ``page`` counts from 0."""

    page: int
    x: float
    y: float


@frozen(kw_only=True)
class Layout:
    """A sheet full of labels, all of one size and in rows: the first at ``left`` and ``top``, the next so far
    on. ``cut`` is whether they are still to be cut out, and so want marks."""

    paper: Format
    size: Size
    columns: int
    rows: int
    left: float
    top: float
    gap_x: float = 0.0
    gap_y: float = 0.0
    landscape: bool = False
    cut: bool = False

    @property
    def a_sheet(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows

    def places(self, count: int, skip: int = 0) -> Iterator[Place]:
        """Where so many labels lie, row by row, after so many that are gone from the first sheet."""
        for number in range(skip, skip + count):
            page, at = divmod(number, self.a_sheet)
            row, column = divmod(at, self.columns)
            yield Place(
                page,
                self.left + column * (self.size.width + self.gap_x),
                self.top + row * (self.size.height + self.gap_y),
            )


@frozen
class Grid:
    """Sheets of labels that are cut already: columns, rows, and the gaps between them."""

    paper: Format
    size: Size
    columns: int
    rows: int
    gap_x: float = 0.0
    gap_y: float = 0.0


def _inches(width: float, height: float, columns: int, rows: int, gap: float = 0.0) -> Grid:
    return Grid("letter", Size(width * 25.4, height * 25.4), columns, rows, gap * 25.4)


GRIDS = (
    Grid("A4", Size(38.1, 21.2), 5, 13, 2.54),
    Grid("A4", Size(48.5, 25.4), 4, 10),
    Grid("A4", Size(52.5, 29.7), 4, 10),
    Grid("A4", Size(63.5, 38.1), 3, 7, 2.54),
    Grid("A4", Size(70.0, 36.0), 3, 8),
    Grid("A4", Size(70.0, 37.0), 3, 8),
    Grid("A4", Size(99.1, 38.1), 2, 7, 2.54),
    Grid("A4", Size(99.1, 67.7), 2, 4, 2.54),
    Grid("A4", Size(105.0, 57.0), 2, 5),
    _inches(1.75, 0.5, 4, 20, 0.3),
    _inches(2.625, 1.0, 3, 10, 0.125),
    _inches(4.0, 1.0, 2, 10, 0.1875),
    _inches(4.0, 4 / 3, 2, 7, 0.1875),
    _inches(4.0, 2.0, 2, 5, 0.1875),
    _inches(4.0, 10 / 3, 2, 3, 0.1875),
)
"""Common sheets of labels, each in the middle of its paper; from memory."""


def parse_size(text: str, units: Units) -> Size:
    """Read the width and height of a label such as ``25x67mm`` or ``2.625 x 1 in``. Bare numbers are inches
    (US) or millimetres.

    Raises:
        ValueError: it is no size, or no label is as small or as large.
    """
    width, height = _pair(text, units, f"'{text}' is not the size of a label; {ACCEPTS}.")
    short, long = sorted((width, height))
    if short < NARROWEST or long < SHORTEST:
        raise ValueError(
            f"Nothing can be read on a label of {text}; the smallest is {NARROWEST:g} by {SHORTEST:g} mm."
        )
    if long > LONGEST:
        raise ValueError(f"No label is as large as {text}; up to {LONGEST:g} mm either way will do.")
    return Size(width, height)


def parse_gap(text: str, units: Units) -> tuple[float, float]:
    """Read two distances, across and down, such as ``2.5x0mm``.

    Raises:
        ValueError: it is none.
    """
    return _pair(text, units, f"'{text}' is not two distances; write them across and down like 2.5x0mm.")


def parse_grid(text: str) -> tuple[int, int]:
    """Read how many labels stand side by side and one below the other, such as ``3x7``.

    Raises:
        ValueError: it is no such number.
    """
    match = re.fullmatch(r"\s*(\d{1,2})\s*[x×*]\s*(\d{1,2})\s*", text, re.I)
    columns, rows = (int(match[1]), int(match[2])) if match else (0, 0)
    if not columns or not rows:
        raise ValueError(f"'{text}' is not columns and rows; write them like 3x7.")
    return columns, rows


def _pair(text: str, units: Units, wrong: str) -> tuple[float, float]:
    match = _SIZE.fullmatch(text.strip())
    if match is None:
        raise ValueError(wrong)
    last = match[4] or match[2] or ("in" if units is Units.US else "mm")
    first = match[2] or last
    across, down = (
        round(float(number.replace(",", ".")) * METRES[unit.casefold()] * 1000, 4)
        for number, unit in ((match[1], first), (match[3], last))
    )
    return across, down


def cut_out(size: Size, paper: Format) -> Layout:
    """As many labels as go on a plain sheet, close together, the long side across; the sheet is turned where
    it then takes more.

    Raises:
        ValueError: not even one does.
    """
    long = Size(max(size.width, size.height), min(size.width, size.height))
    upright, turned = (_packed(long, paper, landscape) for landscape in (False, True))
    best = max(upright, turned, key=lambda each: each.a_sheet)
    if not best.a_sheet:
        raise ValueError(f"A label of {size} does not go on {paper} paper.")
    return best


def _packed(size: Size, paper: Format, landscape: bool) -> Layout:
    width, height = PAPER[paper][::-1] if landscape else PAPER[paper]
    columns = int((width - 2 * BARE + SLACK) // size.width)
    rows = int((height - 2 * BARE + SLACK) // size.height)
    return Layout(
        paper=paper, size=size, columns=columns, rows=rows, left=(width - columns * size.width) / 2,
        top=(height - rows * size.height) / 2, landscape=landscape, cut=True,
    )  # fmt: skip


def on_grid(grid: Grid, margins: tuple[float, float] | None = None) -> Layout:
    """Labels on a sheet that is cut already, in the middle of the paper where no margins (left and top) are
    told.

    Raises:
        ValueError: they do not go on the paper.
    """
    width, height = PAPER[grid.paper]
    wide = grid.columns * grid.size.width + (grid.columns - 1) * grid.gap_x
    high = grid.rows * grid.size.height + (grid.rows - 1) * grid.gap_y
    left, top = margins or ((width - wide) / 2, (height - high) / 2)
    if min(left, top) < -SLACK or left + wide > width + SLACK or top + high > height + SLACK:
        raise ValueError(
            f"{grid.columns} by {grid.rows} labels of {grid.size} do not go on {grid.paper} paper; check the "
            "sizes, gaps and margins."
        )
    return Layout(
        paper=grid.paper, size=grid.size, columns=grid.columns, rows=grid.rows, left=max(left, 0.0),
        top=max(top, 0.0), gap_x=grid.gap_x, gap_y=grid.gap_y,
    )  # fmt: skip


def common_grid(size: Size, paper: Format) -> Grid | None:
    """The common sheet with labels of that size, on that paper if there is one; ``None`` where none has."""
    alike = [
        grid
        for grid in GRIDS
        if abs(grid.size.width - size.width) < 0.25 and abs(grid.size.height - size.height) < 0.25
    ]
    return min(alike, key=lambda grid: grid.paper != paper, default=None)
