"""A place found again by tape: its distances from two fixed points, and back. All in metres.

Two tapes cross at two places, mirrored in the line through the points: one to its left and one to its right,
as one walks from the first point to the second.
"""

import math
import re

from attrs import frozen

from cuttings.ledger.places import FixedPoint, Point
from cuttings.units import parse_length, show_length
from cuttings.words import Side, Units

STEP_M = 0.05
READ_M = STEP_M / 2
"""A tape over rough ground is read to the nearest 5 cm, so it may be half of that out (common practice)."""

LEAST_CUT_DEG = 30.0
"""The least angle at which two tapes should cross: Nautical Archaeology Society (Wiley-Blackwell): Underwater
Archaeology, The NAS Guide to Principles and Practice, 2nd edition (2009), page 121,
https://issuhub.com/view/index/4800?pageIndex=167 . (It asks for no more than 120 degrees too; a flat angle is
judged here by the error that comes of it, which at 120 is half of that at 30.)"""

POOR_M = READ_M / math.sin(math.radians(LEAST_CUT_DEG / 2))
"""How unsure a place is whose tapes cross at the least angle; one that is less sure is poorly fixed."""

APART_M = 0.10
"""Points nearer together than this fix nothing that can be read off a tape."""

WANTED = "write them like A=3.20m B=4.75m"
_TAPE = re.compile(r"([\w-]+)\s*=\s*(\S.*?)(?=\s+[\w-]+\s*=|$)")
_BETWEEN = re.compile(r"(?:\s+(?:and|\+|&)|[,;+&])\s*$", re.IGNORECASE)
"""What people write between the two distances."""


@frozen
class Tape:
    """The distances of a place from two named points."""

    first: str
    second: str
    first_m: float
    second_m: float

    @property
    def line(self) -> str:
        return f"the line from {self.first} to {self.second}"


@frozen
class Fix:
    """Where two tapes cross, to the left and to the right of the line from the first point to the second.

    ``left`` and ``right`` are one place where it lies on the line. ``stretched_m`` is by how much the tapes
    had to give for them to meet at all. ``unsure_m`` is how far the place may be out.
    """

    left: Point
    right: Point
    stretched_m: float
    unsure_m: float

    @property
    def on_line(self) -> bool:
        return self.left == self.right

    @property
    def poor(self) -> bool:
        return self.unsure_m > POOR_M

    def on(self, side: Side) -> Point:
        return self.left if side is Side.LEFT else self.right


class NoTriangle(ValueError):
    """Two distances that no place has from the points."""


def read_tape(text: str, units: Units) -> Tape:
    """Read two distances such as ``A=3.20m B=4.75m``; bare numbers are in the garden's units.

    Raises:
        ValueError: there are not two, both are from one point, or one is no length.
    """
    found = _TAPE.findall(text.strip())
    if len(found) != 2 or found[0][0].casefold() == found[1][0].casefold():
        raise ValueError(f"'{text}' is not two tape distances; {WANTED}.")
    (first, one), (second, other) = found
    first_m, second_m = (parse_length(_BETWEEN.sub("", each), units) for each in (one, other))
    return Tape(first, second, first_m, second_m)


def place(first: Point, second: Point, first_m: float, second_m: float) -> Fix:
    """The two places at these distances from two points.

    Tapes that miss each other by no more than their reading explains (5 cm for the two of them) meet on the
    line.

    Raises:
        NoTriangle: the points are one, or the distances do not meet. ``str()`` of it tells by how much, in
            metres; ``why_not`` tells it to a person.
    """
    apart = math.dist(first, second)
    missing = shortfall(apart, first_m, second_m)
    if apart < APART_M or missing > 2 * READ_M + 1e-9:
        raise NoTriangle(f"{first_m:.3f} m and {second_m:.3f} m from points {apart:.3f} m apart do not meet")
    along, off = _along_and_off(apart, first_m, second_m)
    return Fix(
        left=beside(first, second, along, off),
        right=beside(first, second, along, -off),
        stretched_m=max(missing, 0.0),
        unsure_m=uncertainty_m(apart, first_m, second_m),
    )


def shortfall(apart: float, first_m: float, second_m: float) -> float:
    """By how much two tapes miss each other; 0 or less where they meet."""
    return max(apart - first_m - second_m, abs(first_m - second_m) - apart)


def why_not(tape: Tape, apart: float, units: Units) -> str:
    """Why two distances are impossible, in a sentence with what to look at again."""

    def said(metres: float) -> str:
        return tape_length(metres, units)

    stand = f"{tape.first} and {tape.second} stand {said(apart)} apart"
    if apart < APART_M:
        return f"{stand}, which is one place or nearly so; measure from two points well apart."
    both = tape.first_m + tape.second_m
    if both < apart:
        return (
            f"The tapes do not meet: together they are {said(both)} long, and {stand}, which is "
            f"{said(apart - both)} more. Measure again."
        )
    longer, shorter = (tape.first, tape.second) if tape.first_m > tape.second_m else (tape.second, tape.first)
    over = said(abs(tape.first_m - tape.second_m) - apart)
    return (
        f"The tapes do not meet: {stand}, and the tape from {longer} is {over} too long to meet the one from "
        f"{shorter}. Measure again."
    )


def uncertainty_m(apart: float, first_m: float, second_m: float, error_m: float = READ_M) -> float:
    """How far a place may be out when each tape may be out by ``error_m``.

    It is the largest displacement over the corners of that box of errors. A corner where the tapes would not
    meet is put on the line, so that it stays finite there.
    """
    here = _along_and_off(apart, first_m, second_m)
    corners = [(one, other) for one in (-error_m, error_m) for other in (-error_m, error_m)]
    return max(
        math.dist(here, _along_and_off(apart, max(first_m + one, 0.0), max(second_m + other, 0.0)))
        for one, other in corners
    )


def _along_and_off(apart: float, first_m: float, second_m: float) -> Point:
    """How far along the line from the first point, and how far off it; on it where the tapes do not meet,
    each giving half of what is missing."""
    missing = shortfall(apart, first_m, second_m)
    if missing > 0:
        if missing == apart - first_m - second_m:  # not apart > first + second, which may round otherwise
            return first_m + missing / 2, 0.0
        if first_m > second_m:
            return first_m - missing / 2, 0.0
        return -(first_m + missing / 2), 0.0
    along = (first_m**2 - second_m**2 + apart**2) / (2 * apart)
    return along, math.sqrt(max(first_m**2 - along**2, 0.0))


def beside(first: Point, second: Point, along: float, off: float) -> Point:
    """A place given by its way along a line and off to its left, on the plan the line is drawn on."""
    apart = math.dist(first, second)
    ux, uy = (second[0] - first[0]) / apart, (second[1] - first[1]) / apart
    return first[0] + along * ux - off * uy, first[1] + along * uy + off * ux


def off_line(first: Point, second: Point, at: Point) -> Point:
    """How far along a line from its first point a place lies, and how far to its left (below 0: right)."""
    apart = math.dist(first, second)
    ux, uy = (second[0] - first[0]) / apart, (second[1] - first[1]) / apart
    dx, dy = at[0] - first[0], at[1] - first[1]
    return dx * ux + dy * uy, dy * ux - dx * uy


def distances(at: Point, *points: FixedPoint) -> tuple[float, ...]:
    """The tape distances of a place from fixed points."""
    return tuple(math.dist(at, (point.x, point.y)) for point in points)


def tape_length(metres: float, units: Units) -> str:
    """A length as it is read off a tape: to the centimetre, or the whole inch."""
    if units is Units.METRIC:
        return f"{metres:.2f} m"
    return show_length(round(metres / 0.0254) * 0.0254, units)


def unsure_words(unsure_m: float, units: Units) -> str:
    """How sure a place is: ``within about 4 cm``, never less than it is."""
    step = 0.01 if units is Units.METRIC else 0.0127
    return f"within about {show_length(math.ceil(unsure_m / step - 1e-9) * step, units)}"


def line_words(first: str, second: str, at: Point, units: Units) -> str:
    """A place beside the line between two points on no plan; ``at`` is the way along it and to its left."""
    along, left = at
    line = f"the line from {first} to {second}"
    way = show_length(abs(along), units)
    start = f"{way} along {line}" if along >= 0 else f"{way} back from {first} on {line} drawn on"
    if round(abs(left), 2) == 0:
        return start
    return f"{start} and {show_length(abs(left), units)} to its {Side.LEFT if left > 0 else Side.RIGHT}"
