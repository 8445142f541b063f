"""The room on a site: what stands there, the positions that are free, and how many plants fill a patch.

A plant is a circle of its mature size. Positions are whole centimetres, as a tape and a label have them.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import product

from attrs import frozen

from cuttings.ledger.places import Growing, Hold, Point, Site
from cuttings.placement.outline import Plot, plot
from cuttings.plants.model import Plant

Position = Point

UNKNOWN_RADIUS_M = 0.3
"""The mature radius taken for a plant nobody knows the spread of; from memory, a middling perennial."""

STEP_M = 0.1
"""How finely positions are tried: a hand's breadth, nearer than anyone plants by eye."""

MOST_TRIALS = 24
"""The most steps a side tried for the widest free place, which need only be about right."""

SLACK_M = 1e-9
"""Plants that just touch do not overlap, whatever the last bit of a number says."""


@frozen
class Circle:
    """Ground taken up by one mature plant."""

    x: float
    y: float
    radius_m: float


def radius(plant: Plant) -> float:
    """The mature radius of a plant in metres: half the middle of its range of spread.

    The middle, because the low end crowds half the plants and the high end leaves bare ground round most
    (common practice). ``UNKNOWN_RADIUS_M`` where nobody has said how wide it grows.
    """
    return UNKNOWN_RADIUS_M if plant.spread_m is None else sum(plant.spread_m) / 4


def standing(site: Site) -> list[Circle]:
    """The mature circles of what grows at a known position on a site."""
    return [
        Circle(each.x, each.y, _radius_of(each))
        for each in site.growing
        if each.x is not None and each.y is not None
    ]


def unmeasured(site: Site) -> list[Growing]:
    """The plants that grow somewhere on a site, nobody has said where."""
    return [each for each in site.growing if each.x is None or each.y is None]


def held(site: Site, holds: Iterable[Hold]) -> list[Circle]:
    """The circles kept for other plants on a site."""
    return [Circle(each.x, each.y, each.radius_m) for each in holds if each.site == site.name]


def _radius_of(growing: Growing) -> float:
    return growing.radius_m or UNKNOWN_RADIUS_M


def free_positions(
    site: Site, radius_m: float, occupied: Sequence[Circle], *, step_m: float = STEP_M
) -> list[Position]:
    """The positions on a site where a plant could stand, from the front and then from the left.

    Args:
        radius_m: its mature radius.
        occupied: ground taken besides what is written down as growing there: spots held, plants placed.
        step_m: how finely positions are tried.

    Returns:
        Centres in metres, whose circle lies inside the outline, clear of the path's setback and of every
        plant. None where the site's size is not known, or where the plants without a position may fill it.

    Raises:
        ValueError: the radius or the step is not above 0.
    """
    return list(each_free(site, radius_m, occupied, step_m=step_m))


def each_free(
    site: Site,
    radius_m: float,
    occupied: Sequence[Circle],
    *,
    step_m: float = STEP_M,
    from_back: bool = False,
) -> Iterator[Position]:
    """The free positions one after another, row by row from the front, or from the back.

    ``occupied`` may grow while they are drawn: each is free of whatever stands there by then.
    """
    if not (radius_m > 0.0 and step_m > 0.0):
        raise ValueError("A plant needs a radius and a step above 0.")
    ground = plot(site)
    if ground is None:
        return
    grown = standing(site)
    columns, rows = _ticks(ground, site, radius_m, step_m)
    for y in reversed(rows) if from_back else rows:
        before = len(occupied)
        in_reach = [
            each for each in (*grown, *occupied) if abs(each.y - y) < radius_m + each.radius_m - SLACK_M
        ]
        for x in columns:
            if not _clear(x, y, radius_m, in_reach) or not _clear(x, y, radius_m, occupied[before:]):
                continue
            if ground.room_at(x, y) < radius_m - SLACK_M:
                continue
            if math.pi * radius_m**2 > _area_left(ground, site, grown, occupied):
                return
            yield x, y


def widest_free(site: Site, occupied: Sequence[Circle], *, step_m: float = STEP_M) -> float:
    """The radius in metres of about the largest plant there is room for; 0 where there is none."""
    ground = plot(site)
    if ground is None:
        return 0.0
    taken = [*standing(site), *occupied]
    columns, rows = (
        _trial_ticks(low, high, step_m) for low, high in zip(ground.low, ground.high, strict=True)
    )
    widest = 0.0
    for x, y in product(columns, rows):
        widest = max(widest, _room_among(taken, ground, x, y, widest))
    by_area = math.sqrt(max(_area_left(ground, site, taken, ()), 0.0) / math.pi)
    return min(widest, by_area)


def _room_among(taken: Iterable[Circle], ground: Plot, x: float, y: float, enough: float) -> float:
    """The radius of the largest plant that could stand at a point; 0 when it is no more than enough."""
    room = ground.room_at(x, y)
    for other in taken:
        if room <= enough:
            return 0.0
        room = min(room, math.hypot(x - other.x, y - other.y) - other.radius_m)
    return room


def _clear(x: float, y: float, radius_m: float, taken: Iterable[Circle]) -> bool:
    for other in taken:
        apart = radius_m + other.radius_m - SLACK_M
        dx, dy = x - other.x, y - other.y
        if dx * dx + dy * dy < apart * apart:
            return False
    return True


def _area_left(ground: Plot, site: Site, grown: Sequence[Circle], occupied: Sequence[Circle]) -> float:
    """The ground left in square metres; only counted where plants without a position hide some of it."""
    hidden = unmeasured(site)
    if not hidden:
        return math.inf
    radii = [*(_radius_of(each) for each in hidden), *(each.radius_m for each in (*grown, *occupied))]
    return ground.area_m2 - math.pi * sum(each**2 for each in radii)


def _ticks(ground: Plot, site: Site, radius_m: float, step_m: float) -> tuple[list[float], list[float]]:
    """The columns and rows of positions to try, inside the bounding box by the plant's radius."""
    (left, front), (right, back) = ground.low, ground.high
    keep = {side: site.setback_m for side in ("front", "back", "left", "right")
            if site.path_side in (side, "none")}  # fmt: skip
    columns = _run(left + radius_m + keep.get("left", 0.0), right - radius_m - keep.get("right", 0.0),
                   radius_m, step_m)  # fmt: skip
    rows = _run(front + radius_m + keep.get("front", 0.0), back - radius_m - keep.get("back", 0.0),
                radius_m, step_m)  # fmt: skip
    return columns, rows


def _run(low_m: float, high_m: float, radius_m: float, step_m: float) -> list[float]:
    """Positions along one direction. The steps start afresh at every plant's width, and the widths are
    counted from the far end too, so that a row of one kind packs without gaps."""
    low, high = _up_to_cm(low_m), math.floor(high_m * 100 + 1e-6)
    width, step = 2 * _up_to_cm(radius_m), max(round(step_m * 100), 1)
    near = {at + offset for at in range(low, high + 1, width) for offset in range(0, width, step)}
    far = set(range(high, low - 1, -width))
    return [at / 100 for at in sorted(near | far) if at <= high]


def _trial_ticks(low_m: float, high_m: float, step_m: float) -> list[float]:
    count = min(max(math.ceil((high_m - low_m) / step_m), 2), MOST_TRIALS)
    count += count % 2  # an even number of steps has one at the middle, where the widest plant stands
    return [low_m + (high_m - low_m) * at / count for at in range(count + 1)]


def _up_to_cm(metres: float) -> int:
    return math.ceil(metres * 100 - 1e-6)


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
    row_share = ROW_SPACING if pattern is Pattern.TRIANGLE else 1.0
    if edge is PatchEdge.BY_AREA:
        return _whole(length_m * depth_m / (spacing_m**2 * row_share))
    inset = spacing_m if edge is PatchEdge.HALF_IN else 0.0
    rows = _along(depth_m - inset, spacing_m * row_share)
    full = _along(length_m - inset, spacing_m)
    if pattern is Pattern.SQUARE:
        return rows * full
    between = _along(length_m - inset - spacing_m / 2, spacing_m)
    return math.ceil(rows / 2) * full + rows // 2 * between


def _along(metres: float, spacing_m: float) -> int:
    """Plants in a row with one at its start; none where the row is shorter than nothing."""
    return max(_whole(metres / spacing_m) + 1, 0)


def _whole(number: float) -> int:
    """The whole part; 1.2 m in steps of 0.3 m are four, though floating point makes a hair less."""
    return math.floor(number + 1e-9)
