"""The room on a site: what stands there and the positions that are free.

A plant is a circle of its mature size. Positions are whole centimetres, as a tape and a label have them.

It stands whole inside the outline where the empty site is wide enough for it. In a bed that is not, it may
reach over the edges by half its radius, as shrubs in borders do: its stem and roots are then still well
inside. It never reaches over an edge along a path, or one with a setback.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from attrs import frozen

from cuttings.ledger.places import Growing, Hold, Point, Site
from cuttings.placement.outline import Plot, plot
from cuttings.plants.model import Plant
from cuttings.words import PathSide

Position = Point

UNKNOWN_RADIUS_M = 0.3
"""The mature radius taken for a plant nobody knows the spread of; from memory, a middling perennial."""

REACH = 0.5
"""The share of its radius by which a plant may grow over the edge of a bed too narrow for it; from memory."""

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


def reach_over(site: Site, radius_m: float) -> float:
    """The share of its radius a plant may reach over the open edges of a site: 0 where it fits whole."""
    ground = plot(site)
    if ground is None:
        return 0.0
    columns, rows = _ticks(ground, radius_m, 0.0, STEP_M)
    whole = any(ground.room_at(x, y) >= radius_m - SLACK_M for y in rows for x in columns)
    return 0.0 if whole else REACH


def free_positions(
    site: Site, radius_m: float, occupied: Sequence[Circle], *, step_m: float = STEP_M
) -> list[Position]:
    """The positions on a site where a plant could stand, from the front and then from the left.

    Args:
        radius_m: its mature radius.
        occupied: ground taken besides what is written down as growing there: spots held, plants placed.
        step_m: how finely positions are tried.

    Returns:
        Centres in metres, clear of the path's setback and of every plant; the circle lies inside the outline
        but for what ``reach_over`` allows. None where the site's size is not known, or where the plants
        without a position may fill it.

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
    grown, reach = standing(site), reach_over(site, radius_m)
    columns, rows = _ticks(ground, radius_m, reach, step_m)
    for y in reversed(rows) if from_back else rows:
        before = len(occupied)
        beside = [each for each in (*grown, *occupied) if abs(each.y - y) < radius_m + each.radius_m]
        for x in columns:
            if not _clear(x, y, radius_m, beside) or not _clear(x, y, radius_m, occupied[before:]):
                continue
            if ground.room_at(x, y, reach) < radius_m - SLACK_M:
                continue
            if math.pi * radius_m**2 > _area_left(ground, site, grown, occupied):
                return
            yield x, y


def widest_free(site: Site, occupied: Sequence[Circle], *, step_m: float = STEP_M) -> float:
    """The radius in metres of about the largest plant that could still stand whole on a site; 0 if none."""
    ground = plot(site)
    if ground is None:
        return 0.0
    taken, widest = [*standing(site), *occupied], 0.0
    columns, rows = (
        _trial_ticks(low, high, step_m) for low, high in zip(ground.low, ground.high, strict=True)
    )
    for x, y in product(columns, rows):
        room = ground.room_at(x, y)
        for other in taken:
            if room <= widest:
                break
            room = min(room, math.hypot(x - other.x, y - other.y) - other.radius_m)
        widest = max(widest, room)
    by_area = math.sqrt(max(_area_left(ground, site, taken, ()), 0.0) / math.pi)
    return min(widest, by_area)


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


def _ticks(ground: Plot, radius_m: float, reach: float, step_m: float) -> tuple[list[float], list[float]]:
    """The columns and rows of positions to try inside the bounding box."""
    (left, front), (right, back) = ground.low, ground.high

    def inset(side: PathSide) -> float:
        return radius_m + ground.keep_free_m if side in ground.closed else radius_m * (1.0 - reach)

    columns = _run(left + inset(PathSide.LEFT), right - inset(PathSide.RIGHT), radius_m, step_m)
    rows = _run(front + inset(PathSide.FRONT), back - inset(PathSide.BACK), radius_m, step_m)
    return columns, rows


def _run(low_m: float, high_m: float, radius_m: float, step_m: float) -> list[float]:
    """Positions along one direction. The steps start afresh at every plant's width, and the widths are
    counted from the far end too, so that a row of one kind packs without gaps."""
    low, high = _up_to_cm(low_m), math.floor(high_m * 100 + 1e-6)
    width, step = max(2 * _up_to_cm(radius_m), 1), max(round(step_m * 100), 1)
    near = {at + offset for at in range(low, high + 1, width) for offset in range(0, width, step)}
    far = set(range(high, low - 1, -width))
    return [at / 100 for at in sorted(near | far) if at <= high]


def _trial_ticks(low_m: float, high_m: float, step_m: float) -> list[float]:
    count = min(max(math.ceil((high_m - low_m) / step_m), 2), MOST_TRIALS)
    count += count % 2  # an even number of steps has one at the middle, where the widest plant stands
    return [low_m + (high_m - low_m) * at / count for at in range(count + 1)]


def _up_to_cm(metres: float) -> int:
    return math.ceil(metres * 100 - 1e-6)
