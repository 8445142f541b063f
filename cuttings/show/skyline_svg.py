"""The sky over a site as a drawing: the skyline, and the sun's ways over it in strokes of their own."""

from collections.abc import Iterator, Sequence
from math import ceil

from cuttings.show.skyline_chart import FULL_TURN, Horizon, Sky, SunPath, height_at
from cuttings.show.svg import (
    ACCENT,
    DASHED,
    DOTTED,
    HEAVY,
    LACE,
    LINE,
    QUIET,
    SOLID,
    THIN,
    Group,
    Point,
    Style,
    Svg,
)

WIDTH, HEIGHT = 960.0, 520.0
LEFT, RIGHT, TOP, BOTTOM = 56.0, 28.0, 52.0, 104.0
"""Room round the picture for its words."""

STROKES: Sequence[Style] = (HEAVY, DASHED, DOTTED, ACCENT)
"""The strokes of the sun's ways, in their order."""

SMALL, BIG = 12.0, 18.0
ALONG_STEP, UP_STEP = 15, 10


class _Frame:
    """Where the points of the sky lie on the paper."""

    def __init__(self, sky: Sky) -> None:
        self.sky = sky
        self.top = min(ceil(sky.top / UP_STEP) * UP_STEP, 90)

    def at_off(self, off: float, elevation: float) -> Point:
        along = (off + self.sky.half) / (2 * self.sky.half)
        up = min(elevation, self.top) / self.top
        return LEFT + along * (WIDTH - LEFT - RIGHT), HEIGHT - BOTTOM - up * (HEIGHT - TOP - BOTTOM)

    def at(self, azimuth: float, elevation: float) -> Point:
        return self.at_off(self.sky.off(azimuth), elevation)


def sky_svg(sky: Sky, title: str, description: str) -> str:
    """The drawing as the text of an SVG file."""
    drawing = Svg(WIDTH, HEIGHT, title=title, description=description)
    drawing.text((LEFT, 26), title, size=BIG)
    frame = _Frame(sky)
    _axes(drawing, frame)
    for style, words in reversed(list(_grounds(sky))):
        drawing.group(words).polygon(_outline(frame, sky.hides if style is SOLID else sky.dims), style)
    for path, stroke in zip(sky.paths, STROKES, strict=False):
        _path(drawing.group(path.name), frame, path, stroke)
    _legend(drawing, sky)
    return drawing.document()


def _axes(drawing: Svg, frame: _Frame) -> None:
    """Degrees up and along, and the points of the compass."""
    half = int(frame.sky.half)
    axes = drawing.group("axes")
    for level in range(0, frame.top + 1, UP_STEP):
        start, end = frame.at_off(-half, level), frame.at_off(half, level)
        axes.line(start, end, LINE if level == 0 else THIN)
        axes.text((start[0] - 8, start[1] + 4), f"{level}°", size=SMALL, anchor="end")
    for off in range(-half, half + 1, ALONG_STEP):
        x, y = frame.at_off(off, 0.0)
        axes.line((x, y), (x, y + 5), LINE)
        if off % (2 * ALONG_STEP) == 0:
            bearing = (frame.sky.noon + off) % FULL_TURN
            axes.text((x, y + 19), f"{bearing:.0f}°", size=SMALL, anchor="middle")
    for point, name in frame.sky.compass:
        middle = frame.at_off(point, 0.0)
        axes.text((middle[0], middle[1] + 38), name, size=SMALL + 3, anchor="middle")


def _outline(frame: _Frame, horizon: Horizon) -> list[Point]:
    """The skyline from the left edge of the picture to the right one, closed along the ground."""
    half = frame.sky.half
    within = [point for point in horizon if abs(frame.sky.off(point[0])) < half]
    # North ends the skyline and begins it; what is told of its left side comes first.
    within.sort(key=lambda point: (frame.sky.off(point[0]), point[0] == 0.0))
    inside = [(frame.sky.off(azimuth), height) for azimuth, height in within]
    left = (-half, height_at(horizon, frame.sky.noon - half))
    right = (half, height_at(horizon, frame.sky.noon + half - 1e-6))
    return [frame.at_off(*point) for point in ((-half, 0.0), left, *inside, right, (half, 0.0))]


def _path(group: Group, frame: _Frame, path: SunPath, stroke: Style) -> None:
    """The sun's way, drawn through where it is hidden too, with its hours as rings."""
    for stretch in _stretches(frame.sky, path):
        group.polyline([frame.at(azimuth, elevation) for _, azimuth, elevation in stretch], stroke)
    for hour, azimuth, elevation in path.points:
        if hour == int(hour):
            x, y = frame.at(azimuth, elevation)
            group.circle((x, y), 2.6, Style(stroke=stroke.stroke, fill="#ffffff"))
            if hour % 3 == 0:
                _hour(group, frame, (x, y), f"{hour:.0f}", under=stroke is ACCENT)


def _hour(group: Group, frame: _Frame, ring: Point, words: str, *, under: bool) -> None:
    """An hour beside its ring: outside the arch of the sun's way, or inside it for the day that was asked."""
    x, y = ring
    off = x - frame.at_off(0.0, 0.0)[0]
    side = 0.0 if abs(off) < 1.0 else 1.0 if (off > 0.0) is not under else -1.0
    anchor = "middle" if side == 0.0 else "start" if side > 0.0 else "end"
    group.text((x + 6 * side, y + (14 if under else -6)), words, size=SMALL, anchor=anchor)


def _stretches(sky: Sky, path: SunPath) -> Iterator[list[tuple[float, float, float]]]:
    """The way in pieces that do not leave the picture on one side to come back on the other."""
    piece: list[tuple[float, float, float]] = []
    for point in path.points:
        if piece and abs(sky.off(point[1]) - sky.off(piece[-1][1])) > FULL_TURN / 2:
            yield piece
            piece = []
        piece.append(point)
    if piece:
        yield piece


def _grounds(sky: Sky) -> Iterator[tuple[Style, str]]:
    """How what stands before the sky is drawn, as far as there is any."""
    if any(height > 0.0 for _, height in sky.hides):
        yield SOLID, "hides the sun"
    if list(sky.dims) != list(sky.hides):
        yield LACE, "lets some through"


def _legend(drawing: Svg, sky: Sky) -> None:
    legend = drawing.group("legend")
    x, y = LEFT, HEIGHT - 34.0
    for path, stroke in zip(sky.paths, STROKES, strict=False):
        legend.line((x, y - 4), (x + 44, y - 4), stroke)
        legend.text((x + 52, y), path.name, size=SMALL)
        x += 80 + 7 * len(path.name)
    x, y = LEFT, HEIGHT - 12.0
    for style, words in _grounds(sky):
        legend.rectangle((x, y - 11), 30, 13, style)
        legend.text((x + 38, y), words, size=SMALL)
        x += 66 + 7 * len(words)
    note = "Rings are hours of sun time; at 12 the sun stands highest."
    legend.text((x, y), note, size=SMALL, colour=QUIET)
