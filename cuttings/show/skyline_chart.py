"""The sky over a site in letters: its skyline with the sun's ways over it, and its hours of sun by month.

Azimuth runs along and elevation up, and the side on which the sun stands at noon is in the middle. ``:`` is
what hides the sun, ``.`` what lets some of it through; the sun's ways are drawn where it shines, in a letter
of their own with the hours on them.
"""

from bisect import bisect_right
from calendar import month_abbr
from collections.abc import Sequence
from math import ceil

from attrs import field, frozen

from cuttings.show.plain import wrapped

Horizon = Sequence[tuple[float, float]]
"""A skyline as points ``(azimuth, elevation)`` in degrees, azimuths rising from 0 to 360."""

COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
FULL_TURN = 360.0

ROWS = 9
MARGIN = 3
"""Columns left of the picture for degrees."""

WIDEST_SKY = 92
LEAST_HALF_DEG, STEP_HALF_DEG, FULL_HALF_DEG = 75.0, 15.0, 180.0
LEAST_TOP_DEG, AIR_DEG = 15.0, 5.0

SHOWN_HOURS = (6, 9, 12, 15, 18)
HIDES, LETS_THROUGH, LOW = ":", ".", "_"


@frozen
class SunPath:
    """The sun's way on a day: points of hour (sun time), azimuth and elevation, and the letter it has."""

    name: str
    mark: str
    points: Sequence[tuple[float, float, float]]


@frozen
class Sky:
    """What there is to draw. ``hides`` is the skyline of what lets no sun through, ``dims`` that of all that
    keeps any off. ``noon`` is the azimuth in the middle, 180 or 0."""

    noon: float
    hides: Horizon
    dims: Horizon
    paths: Sequence[SunPath]
    half: float = field(init=False)
    top: float = field(init=False)

    @half.default
    def _half(self) -> float:
        """Degrees to either side of the middle: as far as the sun ever gets."""
        furthest = max((abs(self.off(point[1])) for path in self.paths for point in path.points), default=0.0)
        return min(max(ceil(furthest / STEP_HALF_DEG) * STEP_HALF_DEG, LEAST_HALF_DEG), FULL_HALF_DEG)

    @top.default
    def _top(self) -> float:
        """Degrees up that are drawn: as high as the sun ever gets."""
        highest = max((point[2] for path in self.paths for point in path.points), default=0.0)
        return max(highest + AIR_DEG, LEAST_TOP_DEG)

    def off(self, azimuth: float) -> float:
        """Degrees to the right of the middle, -180 to 180."""
        return (azimuth - self.noon + FULL_TURN / 2) % FULL_TURN - FULL_TURN / 2

    @property
    def compass(self) -> Sequence[tuple[float, str]]:
        """The points of the compass in the picture, from left to right, by degrees off the middle."""
        points = [(self.off(45.0 * number), name) for number, name in enumerate(COMPASS)]
        points += [(180.0, name) for off, name in points if off == -180.0]
        return sorted(each for each in points if abs(each[0]) <= self.half)


def height_at(horizon: Horizon, azimuth: float) -> float:
    """The height of a skyline [degrees] towards an azimuth; on an edge that of its right side."""
    azimuth %= FULL_TURN
    after = bisect_right(horizon, azimuth, key=lambda point: point[0])
    if after == 0 or after == len(horizon):
        return horizon[-1 if after else 0][1] if horizon else 0.0
    (low, from_height), (high, to_height) = horizon[after - 1], horizon[after]
    return from_height + (to_height - from_height) * (azimuth - low) / (high - low)


def sky_lines(sky: Sky, width: int) -> list[str]:
    """The picture for so many columns, with its axis and what its letters mean."""
    columns = min(width, WIDEST_SKY) - MARGIN - 1
    cells = [[_ground(sky, column, row, columns) for column in range(columns)] for row in range(ROWS)]
    for path in sky.paths:
        _draw_path(sky, path, cells, columns)
    for path in sky.paths:
        _write_hours(sky, path, cells, columns)
    lines = [f"{_degrees(sky, row):>{MARGIN}} {''.join(cells[row]).rstrip()}".rstrip() for row in _from_top()]
    return [*lines, " " * (MARGIN + 1) + "-" * columns, *_compass_lines(sky, columns), *_legend(sky, width)]


def _from_top() -> range:
    return range(ROWS - 1, -1, -1)


def _ground(sky: Sky, column: int, row: int, columns: int) -> str:
    """What stands in a cell: its sky, or what is before it."""
    step = sky.top / ROWS
    within = [sky.noon - sky.half + (column + part) * 2 * sky.half / columns for part in _PARTS]
    for horizon, letter in ((sky.hides, HIDES), (sky.dims, LETS_THROUGH)):
        share = max(height_at(horizon, azimuth) for azimuth in within) / step - row
        if share >= 0.5:
            return letter
        if share >= 0.1 and letter is HIDES:
            return LOW
    return " "


_PARTS = (0.1, 0.3, 0.5, 0.7, 0.9)
"""Where in a column the skyline is looked up, so that nothing thin falls through."""


def _cell(sky: Sky, azimuth: float, elevation: float, columns: int) -> tuple[int, int]:
    """The column and the row of a point of the sky."""
    column = int((sky.off(azimuth) + sky.half) / (2 * sky.half) * columns)
    return min(max(column, 0), columns - 1), min(int(elevation / sky.top * ROWS), ROWS - 1)


def _draw_path(sky: Sky, path: SunPath, cells: list[list[str]], columns: int) -> None:
    for _, azimuth, elevation in path.points:
        if elevation > height_at(sky.hides, azimuth):
            column, row = _cell(sky, azimuth, elevation, columns)
            cells[row][column] = path.mark


def _write_hours(sky: Sky, path: SunPath, cells: list[list[str]], columns: int) -> None:
    """The hours over the path, where the sun shines then."""
    for hour, azimuth, elevation in path.points:
        if hour in SHOWN_HOURS and elevation > height_at(sky.hides, azimuth):
            text = f"{hour:.0f}"
            column, row = _cell(sky, azimuth, elevation, columns)
            begins = min(max(column - len(text) // 2, 0), columns - len(text))
            cells[row][begins : begins + len(text)] = text


def _degrees(sky: Sky, row: int) -> str:
    """The multiple of the scale's step that lies in a row, if one does."""
    step = sky.top / ROWS
    scale = 20 if sky.top > 45.0 else 10
    level = ceil(row * step / scale) * scale
    return str(level) if level < (row + 1) * step else ""


def _compass_lines(sky: Sky, columns: int) -> list[str]:
    """The points of the compass under the axis, with their degrees where there is room."""
    each = 45.0 / (2 * sky.half) * columns
    line = [" "] * (columns + 8)
    for off, name in sky.compass:
        text = f"{name} {(sky.noon + off) % FULL_TURN:.0f}" if each >= 9 else name
        middle = int((off + sky.half) / (2 * sky.half) * columns)
        begins = min(max(middle - len(text) // 2, 0), columns - len(text))
        line[begins : begins + len(text)] = text
    return [" " * (MARGIN + 1) + "".join(line).rstrip()]


def _legend(sky: Sky, width: int) -> list[str]:
    said = [f"{path.mark} {path.name}" for path in sky.paths]
    said += [f"{HIDES} hidden"] * any(height > 0.0 for _, height in sky.hides)
    said += [f"{LETS_THROUGH} dimmed"] * (list(sky.dims) != list(sky.hides))
    return indented("   ".join(each.replace(" ", _HELD) for each in said), width)


_HELD = "\N{NO-BREAK SPACE}"
"""Holds a letter of the legend and its meaning together until the line is broken."""


def indented(words: str, width: int) -> list[str]:
    """Words under a picture, broken to the width."""
    indent = " " * (MARGIN + 1)
    return [indent + line.replace(_HELD, " ").strip() for line in wrapped(words, width - len(indent))]


BAR_COLUMNS_FROM = 64
"""Columns from which the months stand in two columns of six."""

MONTH_LABEL, MONTH_VALUE = 4, 5
WIDEST_BARS = 92
BEFORE_NOON, AFTER_NOON = "=", "-"


def month_bars(months: Sequence[tuple[float, float]], width: int) -> list[str]:
    """Hours of sun by month, before noon and after it, as bars; in two columns where there is room."""
    width = min(width, WIDEST_BARS)
    beside = 2 if width >= BAR_COLUMNS_FROM else 1
    room = (width - 2 * (beside - 1)) // beside
    most = max(max(sum(both) for both in months), 1.0)
    bars = [_month_bar(number, both, room, most) for number, both in enumerate(months, 1)]
    if beside == 1:
        return [bar.rstrip() for bar in bars]
    return [f"{left:<{room}}  {right}".rstrip() for left, right in zip(bars[:6], bars[6:], strict=True)]


def _month_bar(number: int, both: tuple[float, float], room: int, most: float) -> str:
    longest = room - MONTH_LABEL - MONTH_VALUE - 1
    whole = round(sum(both) / most * longest)
    before = min(round(both[0] / most * longest), whole)
    bar = BEFORE_NOON * before + AFTER_NOON * (whole - before)
    return f"{month_abbr[number]:<{MONTH_LABEL}}{bar} {sum(both):.1f}"
