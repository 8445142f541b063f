"""Line drawings as SVG: a few plain shapes over ``xml.etree``, which does the escaping.

Lengths are in the drawing's own units, ``x`` to the right and ``y`` down. A drawing carries its title and its
description for those who do not see it, needs nothing from elsewhere, and tells its lines apart by their
strokes, never by colour alone.
"""

from collections.abc import Iterable, Mapping
from xml.etree import ElementTree as ET

from attrs import frozen

from cuttings.show.plain import clean

NAMESPACE = "http://www.w3.org/2000/svg"
Point = tuple[float, float]

BLACK, QUIET, ACCENT_COLOUR, PAPER = "#000000", "#707070", "#1b7837", "#ffffff"
"""One accent beside black, grey and paper."""

FONT = "sans-serif"


@frozen
class Style:
    """How a line is drawn. ``dash`` holds the lengths of strokes and gaps, ``fill`` what is inside."""

    stroke: str = BLACK
    width: float = 1.0
    dash: tuple[float, ...] = ()
    fill: str = "none"
    opacity: float = 1.0

    def attributes(self) -> Mapping[str, str]:
        told = {"stroke": self.stroke, "stroke-width": _number(self.width), "fill": self.fill}
        if self.dash:
            told["stroke-dasharray"] = " ".join(map(_number, self.dash))
        if self.opacity < 1.0:
            told["fill-opacity"] = _number(self.opacity)
        return {**told, "stroke-linejoin": "round"}


LINE = Style()
HEAVY = Style(width=2.0)
THIN = Style(stroke=QUIET, width=0.5)
DASHED = Style(width=1.4, dash=(7.0, 4.0))
DOTTED = Style(width=1.6, dash=(1.6, 3.6))
ACCENT = Style(stroke=ACCENT_COLOUR, width=2.0)
SOLID = Style(fill="#d8d8d8")
LACE = Style(width=0.8, dash=(2.0, 2.0), fill="#ececec")


class Group:
    """Shapes that belong together. Every method returns the group, so that calls can be strung together."""

    def __init__(self, element: ET.Element) -> None:
        self._element = element

    def line(self, start: Point, end: Point, style: Style = LINE) -> "Group":
        ends = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
        return self._add("line", {name: _number(value) for name, value in ends.items()}, style)

    def polyline(self, points: Iterable[Point], style: Style = LINE) -> "Group":
        return self._add("polyline", {"points": _points(points)}, style)

    def polygon(self, points: Iterable[Point], style: Style = LINE) -> "Group":
        return self._add("polygon", {"points": _points(points)}, style)

    def circle(self, centre: Point, radius: float, style: Style = LINE) -> "Group":
        told = {"cx": _number(centre[0]), "cy": _number(centre[1]), "r": _number(radius)}
        return self._add("circle", told, style)

    def rectangle(self, corner: Point, width: float, height: float, style: Style = LINE) -> "Group":
        told = {"x": corner[0], "y": corner[1], "width": width, "height": height}
        return self._add("rect", {name: _number(value) for name, value in told.items()}, style)

    def text(
        self, at: Point, words: str, *, size: float = 12.0, anchor: str = "start", colour: str = BLACK
    ) -> "Group":
        """Words that begin at a point, or have their ``middle`` or ``end`` there."""
        told = {"x": _number(at[0]), "y": _number(at[1]), "font-size": _number(size), "fill": colour}
        written = ET.SubElement(self._element, "text", {**told, "text-anchor": anchor, "font-family": FONT})
        written.text = _writable(words)
        return self

    def group(self, name: str = "") -> "Group":
        """A group inside this one; its name is read out where the drawing is."""
        inside = Group(ET.SubElement(self._element, "g"))
        if name:
            ET.SubElement(inside._element, "title").text = _writable(name)
        return inside

    def _add(self, tag: str, attributes: Mapping[str, str], style: Style) -> "Group":
        ET.SubElement(self._element, tag, {**attributes, **style.attributes()})
        return self


class Svg(Group):
    """A whole drawing, on white paper."""

    def __init__(self, width: float, height: float, *, title: str, description: str) -> None:
        box = f"0 0 {_number(width)} {_number(height)}"
        super().__init__(
            ET.Element(
                "svg",
                {
                    "xmlns": NAMESPACE,
                    "viewBox": box,
                    "width": _number(width),
                    "height": _number(height),
                    "role": "img",
                },
            )
        )
        ET.SubElement(self._element, "title").text = _writable(title)
        ET.SubElement(self._element, "desc").text = _writable(description)
        self.rectangle((0, 0), width, height, Style(stroke="none", fill=PAPER))

    def document(self) -> str:
        """The drawing as the text of a file."""
        ET.indent(self._element)
        body = ET.tostring(self._element, encoding="unicode")
        return f'<?xml version="1.0" encoding="UTF-8"?>\n{body}\n'


def _number(value: float) -> str:
    """A number to a hundredth, without idle zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _writable(words: str) -> str:
    """Words without the characters that a file of this kind may not hold."""
    return "".join(letter for letter in clean(words) if not _forbidden(ord(letter)))


def _forbidden(code: int) -> bool:
    return 0xD800 <= code <= 0xDFFF or code in (0xFFFE, 0xFFFF)
