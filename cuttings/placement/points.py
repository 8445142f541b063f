"""The points of a site that stay where they are, and positions on it measured from them. All in metres."""

import math
from collections.abc import Sequence

from cuttings.ledger.places import FixedPoint, Point, Site
from cuttings.placement.outline import plot
from cuttings.placement.tape import (
    APART_M,
    POOR_M,
    READ_M,
    beside,
    distances,
    off_line,
    tape_length,
    uncertainty_m,
)
from cuttings.words import Side, Units

FRONT = ("A", "B")
"""The two points that every site has without being told: its front left and its front right corner."""


def fixed_points(site: Site) -> tuple[FixedPoint, ...]:
    """All points of a site to measure from: its front corners, and those that were told. One told of the same
    name takes a corner's place."""
    told = {point.name.casefold() for point in site.points}
    corners = (FixedPoint(name=name, x=x, y=y) for name, (x, y) in zip(FRONT, _front(site), strict=False))
    return (*(corner for corner in corners if corner.name.casefold() not in told), *site.points)


def _front(site: Site) -> Sequence[Point]:
    """The front left and the front right corner, where the plan tells them."""
    if site.corners:
        low = min(y for _, y in site.corners)
        foremost = [corner for corner in site.corners if corner[1] - low < 0.005]
        if len(foremost) == 1:
            foremost += sorted((c for c in site.corners if c not in foremost), key=lambda c: c[1])[:1]
        ends = min(foremost), max(foremost)
        return ends if ends[0] != ends[1] else ()
    return ((0.0, 0.0), (site.length_m, 0.0)) if site.length_m else ()


def point_named(site: Site, name: str) -> FixedPoint | None:
    return next((each for each in fixed_points(site) if each.name.casefold() == name.casefold()), None)


def best_pair(site: Site, at: Point) -> tuple[FixedPoint, FixedPoint] | None:
    """The two points to measure a place from: A and B, or the pair that does best where they do poorly."""
    points = fixed_points(site)
    pairs = [
        (one, other)
        for number, one in enumerate(points)
        for other in points[number + 1 :]
        if math.dist((one.x, one.y), (other.x, other.y)) >= APART_M
    ]
    front = next((pair for pair in pairs if [each.name.upper() for each in pair] == list(FRONT)), None)
    if front is not None and _unsure(at, *front) <= POOR_M:
        return front
    return min(pairs, key=lambda pair: _unsure(at, *pair), default=None)


def least_unsure_m(site: Site, at: Point) -> float:
    """How far a position may be out when it is found again by the tape that ``tape_words`` gives; infinite
    where the site has no two points."""
    pair = best_pair(site, at)
    return _unsure(at, *pair) if pair is not None else math.inf


def _unsure(at: Point, first: FixedPoint, second: FixedPoint) -> float:
    apart = math.dist((first.x, first.y), (second.x, second.y))
    return uncertainty_m(apart, *distances(at, first, second))


def tape_words(site: Site, at: Point, units: Units) -> str:
    """The tape that finds a position of a site again, such as ``A 3.20 m, B 4.75 m``.

    Empty where the site has no two points. The side is told where the other place at these distances lies on
    the site as well.
    """
    pair = best_pair(site, at)
    if pair is None:
        return ""
    first, second = pair
    one, other = distances(at, first, second)
    words = f"{first.name} {tape_length(one, units)}, {second.name} {tape_length(other, units)}"
    along, left = off_line((first.x, first.y), (second.x, second.y), at)
    mirrored = beside((first.x, first.y), (second.x, second.y), along, -left)
    if abs(left) < READ_M or not on_ground(site, mirrored):
        return words
    return f"{words}, {Side.LEFT if left > 0 else Side.RIGHT} of the line from {first.name} to {second.name}"


def on_ground(site: Site, at: Point) -> bool:
    """Whether a position lies on a site; all that is not before its front does where its depth is unknown."""
    ground = plot(site)
    if ground is None:
        return at[1] >= 0.0 and 0.0 <= at[0] <= (site.length_m or math.inf)
    return ground.holds(*at)


def off_ground_m(site: Site, at: Point) -> float:
    """How far outside a site a position lies; 0 on it."""
    return 0.0 if on_ground(site, at) else math.dist(at, nearest_on(site, at))


def nearest_on(site: Site, at: Point) -> Point:
    """The position on a site nearest to one outside it."""
    ground = plot(site)
    if ground is None:
        return min(max(at[0], 0.0), site.length_m or math.inf), max(at[1], 0.0)
    edge = min(ground.edges, key=lambda edge: edge.distance(*at))
    length = math.dist(edge.start, edge.end)
    along = min(max(off_line(edge.start, edge.end, at)[0], 0.0), length)
    return beside(edge.start, edge.end, along, 0.0)
