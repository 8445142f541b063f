"""Pictures of a year: a band of temperatures over the months, odds, and windows as bars.

All of it is line work in letters that every terminal has. A bar is ``-`` while its window is open and ``=``
while it is at its best; odds are tens of a percent, ``9`` for nine in ten and more.
"""

from calendar import month_abbr
from collections.abc import Sequence
from math import ceil, floor

from attrs import frozen

DAYS_DRAWN = 365
LABEL = 19
"""Columns for what stands before a line; a narrow terminal gives it less."""

MOST_A_MONTH, FEWEST_A_MONTH = 6, 2
"""Columns that a month may have."""

ROWS = 9
"""About how many lines the band of temperatures takes."""

STEPS = (1.0, 2.0, 5.0, 10.0, 20.0)
"""Degrees from one line of the band to the next, whichever first makes it low enough."""


@frozen
class Bar:
    """A window within the year: its name and, as days of the year, when it is open and when at its best. A
    stretch whose end lies before its beginning passes New Year."""

    name: str
    open: tuple[int, int]
    best: tuple[int, int]


@frozen
class Band:
    """For each month the temperatures that one, five and nine nights in ten stay below, in the garden's
    units, and where freezing lies on that scale. ``unit`` is a letter, ``F`` or ``C``."""

    months: Sequence[tuple[float, float, float]]
    freezing: float
    unit: str


def month_line(width: int) -> str:
    """The names of the months, each over its columns."""
    label, each = _room(width)
    return " " * label + "".join(month_abbr[month][: each - 1 or 1].ljust(each) for month in range(1, 13))


def band_lines(band: Band, width: int) -> list[str]:
    """The band of night minima: ``:`` from one night in ten to nine in ten, ``=`` the middle, ``.``
    freezing."""
    label, each = _room(width)
    low = min(band.freezing, *(month[0] for month in band.months))
    high = max(band.freezing, *(month[2] for month in band.months))
    step = next((step for step in STEPS if (high - low) / step < ROWS), STEPS[-1])
    columns = [_between(band.months, column / each) for column in range(12 * each)]
    lines = []
    for row in range(floor(high / step + 0.5), ceil(low / step - 0.5) - 1, -1):
        level = row * step
        cells = "".join(_cell(column, level, step, band.freezing) for column in columns)
        lines.append(f"{f'{level:.0f} {band.unit}':>{label - 2}}  {cells}".rstrip())
    return lines


def _between(months: Sequence[tuple[float, float, float]], month: float) -> tuple[float, ...]:
    """The band within the year, in a straight line from the middle of one month to that of the next."""
    before = int((month - 0.5) // 1) % 12
    part = (month - 0.5) % 1
    return tuple(
        low * (1 - part) + high * part
        for low, high in zip(months[before], months[(before + 1) % 12], strict=True)
    )


def _cell(column: Sequence[float], level: float, step: float, freezing: float) -> str:
    low, middle, high = column
    if abs(middle - level) <= step / 2:
        return "="
    if low - step / 2 <= level <= high + step / 2:
        return ":"
    return "." if abs(freezing - level) <= step / 2 else " "


def odds_line(name: str, chances: Sequence[float | None], width: int) -> str:
    """Odds through the year, one for each day, as tens of a percent; nothing where there are none."""
    label, each = _room(width)
    cells = []
    for column in range(12 * each):
        chance = chances[min(int((column + 0.5) / (12 * each) * len(chances)), len(chances) - 1)]
        cells.append(" " if chance is None or chance < 0.05 else f"{min(int(chance * 10 + 0.5), 9)}")
    return f"{name[: label - 1].ljust(label)}{''.join(cells)}".rstrip()


def bar_lines(bar: Bar, width: int) -> list[str]:
    """A window as a bar under the months, beside its name, or below it where there is no room."""
    label, each = _room(width)
    days = [1 + (column + 0.5) * DAYS_DRAWN / (12 * each) for column in range(12 * each)]
    half = DAYS_DRAWN / (24 * each)  # a column is drawn if any of its days belongs to the window
    cells = "".join(
        "=" if _holds(bar.best, day, half) else "-" if _holds(bar.open, day, half) else " " for day in days
    )
    if len(bar.name) < label:
        return [f"{bar.name.ljust(label)}{cells}".rstrip()]
    return [bar.name.rstrip(), f"{' ' * label}{cells}".rstrip()]


def _holds(stretch: tuple[int, int], day: float, half: float) -> bool:
    """Whether a stretch comes within so many days of a day."""
    first, last = stretch
    if first <= last:
        return first - half <= day <= last + half
    return day >= first - half or day <= last + half


def _room(width: int) -> tuple[int, int]:
    """The columns for the label and for each month."""
    each = min(max((width - LABEL) // 12, FEWEST_A_MONTH), MOST_A_MONTH)
    return max(min(LABEL, width - 12 * each), 8), each


def odds_table(
    margin: str, rows: Sequence[tuple[str, Sequence[str]]], columns: Sequence[str], width: int
) -> list[str]:
    """A table of dates by odds: as many of the columns as there is room for, the outer and the middle ones
    first."""
    label = 11
    cell = max(len(text) for _, texts in [("", columns), *rows] for text in texts) + 2
    fits = max((width - label) // cell, 1)
    kept = list(range(len(columns)))
    while len(kept) > fits:
        kept = _thinner(kept)
    lines = [margin.ljust(label) + "".join(columns[number].rjust(cell) for number in kept)]
    lines += [
        name.ljust(label) + "".join(texts[number].rjust(cell) for number in kept) for name, texts in rows
    ]
    return lines


def _thinner(kept: list[int]) -> list[int]:
    """Every second of the columns, with the first, the middle and the last among them."""
    if len(kept) > 5:
        return kept[::2]
    return (
        [kept[0], kept[len(kept) // 2], kept[-1]]
        if len(kept) > 3
        else kept[len(kept) // 2 : len(kept) // 2 + 1]
    )
