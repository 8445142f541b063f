"""Ranges side by side on one scale, in letters: what to count on, and how far it may be from that."""

from collections.abc import Sequence

from attrs import frozen
from rich.cells import cell_len

from cuttings.show.plain import wrapped

WIDEST_PICTURE = 80
LEAST_SCALE = 21
MARKS = (0, 25, 50, 75, 100)
"""Numbers written over the scale."""


@frozen
class Span:
    """A share with the range it lies in, all 0 to 1."""

    name: str
    low: float
    middle: float
    high: float


def draw_ranges(spans: Sequence[Span], width: int) -> list[str]:
    """The scale from 0 to 100 with a line for each range: ``-`` from end to end, ``o`` in its middle.

    Dots go on with the scale where no range covers them.
    """
    width = min(width, WIDEST_PICTURE)
    names = max(min(max(cell_len(span.name) for span in spans), width // 3), 1)
    scale = max(width - names - 3, LEAST_SCALE)
    lines = [" " * (names + 1) + _scale(scale)]
    for span in spans:
        first, *rest = wrapped(span.name, names)
        lines.append(f"{first}{' ' * (names + 1 - cell_len(first))}{_bar(span, scale)}")
        lines += rest
    return lines


def _scale(width: int) -> str:
    line = [" "] * width
    for mark in MARKS:
        said = str(mark)
        at = min(max(_column(mark / 100, width) - len(said) // 2, 0), width - len(said))
        line[at : at + len(said)] = said
    return "".join(line).rstrip()


def _bar(span: Span, width: int) -> str:
    low, middle, high = (_column(share, width) for share in (span.low, span.middle, span.high))
    grid = {_column(mark / 100, width) for mark in MARKS}
    line = ["-" if low <= at <= high else "." if at in grid else " " for at in range(width)]
    line[middle] = "o"
    return "".join(line).rstrip()


def _column(share: float, width: int) -> int:
    return round(share * (width - 1))
