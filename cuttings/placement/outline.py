"""The ground plan of a site: its edges, its area, and how much room they leave at a point. All in metres.

Along a path the setback is kept free, and along a wall the room for its footing and its eaves. Where no path
side is named, a setback is kept along every edge. The other edges are open: a plant may reach over them if it
must.
"""

import math
from collections.abc import Mapping, Sequence

from attrs import frozen

from cuttings.ledger.places import Point, Site
from cuttings.words import PathSide

TOWARDS: dict[PathSide, Point] = {
    PathSide.FRONT: (0.0, -1.0),
    PathSide.BACK: (0.0, 1.0),
    PathSide.LEFT: (-1.0, 0.0),
    PathSide.RIGHT: (1.0, 0.0),
}
"""The direction in which each side lies, seen from the viewing side."""

DIAGONAL = math.cos(math.radians(45.0)) - 1e-9
"""An edge belongs to a side when it faces no more than half a right angle away from it."""


@frozen
class Edge:
    """One straight edge of an outline, with the room to keep free along it; ``None`` if it is open."""

    start: Point
    end: Point
    keep_free_m: float | None = None

    def distance(self, x: float, y: float) -> float:
        """How far a point is from the nearest part of the edge."""
        (ax, ay), (bx, by) = self.start, self.end
        dx, dy = bx - ax, by - ay
        along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)
        along = 0.0 if along < 0.0 else min(along, 1.0)
        return math.hypot(x - ax - along * dx, y - ay - along * dy)


@frozen
class Plot:
    """A site's outline made ready for measuring; ``low`` and ``high`` are the corners of its bounding box,
    and ``kept`` the room kept free along each side that no plant may reach over."""

    edges: tuple[Edge, ...]
    low: Point
    high: Point
    area_m2: float
    kept: Mapping[PathSide, float]

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies inside the outline, by counting the edges to one side of it."""
        inside = False
        for edge in self.edges:
            (ax, ay), (bx, by) = edge.start, edge.end
            if (ay > y) != (by > y) and x < (bx - ax) * (y - ay) / (by - ay) + ax:
                inside = not inside
        return inside

    def room_at(self, x: float, y: float, reach: float = 0.0) -> float:
        """The radius of the largest plant that could stand at a point for the edges' sake.

        Below 0 where the point lies outside or in the room kept free.

        Args:
            reach: the share of its radius by which the plant may grow over an open edge.
        """
        if not self.holds(x, y):
            return -1.0
        return min(
            edge.distance(x, y) / (1.0 - reach)
            if edge.keep_free_m is None
            else edge.distance(x, y) - edge.keep_free_m
            for edge in self.edges
        )


def plot(site: Site) -> Plot | None:
    """The plot of a site, or ``None`` where its size is not known."""
    corners = _without_repeats(site.outline)
    area = _signed_area(corners)
    if len(corners) < 3 or area == 0.0:
        return None
    if area < 0.0:  # always walked with the ground on the left, so that every edge faces to its right
        corners = corners[::-1]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Plot(
        edges=_edges(corners, site),
        low=(min(xs), min(ys)),
        high=(max(xs), max(ys)),
        area_m2=abs(area),
        kept=_kept(site),
    )


def covers(site: Site, at: Point) -> bool:
    """Whether a position lies on a site or its edge; any does where the size is not known."""
    ground = plot(site)
    if ground is None:
        return True
    return ground.holds(*at) or min(edge.distance(*at) for edge in ground.edges) < 0.005


def _without_repeats(corners: Sequence[Point]) -> list[Point]:
    return [corner for at, corner in enumerate(corners) if corner != corners[at - 1]]


def _signed_area(corners: Sequence[Point]) -> float:
    """The area by the shoelace formula, above 0 when the corners run anticlockwise."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in _pairs(corners)) / 2


def _pairs(corners: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(corners, [*corners[1:], *corners[:1]], strict=True))


def _kept(site: Site) -> dict[PathSide, float]:
    """The room kept free along each closed side."""
    kept: dict[PathSide, float] = {}
    if site.path_side is not PathSide.NONE:
        kept[site.path_side] = site.setback_m
    elif site.setback_m > 0.0:
        kept = dict.fromkeys(TOWARDS, site.setback_m)
    if site.wall_side is not PathSide.NONE:
        kept[site.wall_side] = max(site.wall_gap_m, kept.get(site.wall_side, 0.0))
    return kept


def _edges(corners: Sequence[Point], site: Site) -> tuple[Edge, ...]:
    pairs, kept = _pairs(corners), _kept(site)
    if site.path_side is PathSide.NONE and site.setback_m > 0.0:
        free: list[float | None] = [site.setback_m] * len(pairs)  # every edge, whichever way it faces
    else:
        free = [None] * len(pairs)
    for side, room in kept.items():
        facing = [_facing(start, end, TOWARDS[side]) for start, end in pairs]
        enough = min(DIAGONAL, max(facing))  # some edge always runs along the path or the wall
        free = [
            max(room, before or 0.0) if faces >= enough else before
            for before, faces in zip(free, facing, strict=True)
        ]
    return tuple(Edge(start, end, room) for (start, end), room in zip(pairs, free, strict=True))


def _facing(start: Point, end: Point, towards: Point) -> float:
    """The cosine of the angle between an edge's outward side and a direction."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (dy * towards[0] - dx * towards[1]) / math.hypot(dx, dy)
