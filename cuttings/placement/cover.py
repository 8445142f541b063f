"""How much ground of a site is taken and how much is free, each square metre counted once.

The plan is cut by many parallel lines. Along each line the stretches inside the outline and inside the
circles are exact; each line stands for the strip of ground on both sides of it.
"""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from attrs import frozen

from cuttings.ledger.places import Hold, Site
from cuttings.placement.outline import Plot, plot
from cuttings.placement.room import Circle, full_radius, held, standing, unmeasured

LINE_M = 0.01
"""How far apart the lines are at most, unless there were more than ``MOST_LINES`` of them."""

FEWEST_LINES, MOST_LINES = 200, 1500

Stretch = tuple[float, float]


@frozen
class Cover:
    """The ground of a site in square metres. ``free`` and ``held`` and ``grown`` add up to ``area``; ground
    that a plant will grow over counts as grown, though a spot is held there too."""

    area_m2: float
    grown_m2: float
    held_m2: float

    @property
    def free_m2(self) -> float:
        return max(self.area_m2 - self.grown_m2 - self.held_m2, 0.0)

    @property
    def free_share(self) -> float:
        return self.free_m2 / self.area_m2


def cover(site: Site, holds: Iterable[Hold]) -> Cover | None:
    """The ground of a site that full-grown plants take, that is held besides, and that is free.

    Plants without a position take their whole circle, as far as there is ground for it. ``None`` where the
    site's size is not known.
    """
    ground = plot(site)
    if ground is None:
        return None
    grown = standing(site)
    by_plants = covered_m2(ground, grown)
    by_both = max(covered_m2(ground, [*grown, *held(site, holds)]), by_plants)
    hidden = sum(math.pi * full_radius(each) ** 2 for each in unmeasured(site))
    hidden = min(hidden, max(ground.area_m2 - by_both, 0.0))
    return Cover(ground.area_m2, by_plants + hidden, by_both - by_plants)


def covered_m2(ground: Plot, circles: Sequence[Circle]) -> float:
    """The ground inside an outline that lies under at least one circle, in square metres."""
    if not circles:
        return 0.0
    low = max(min(each.y - each.radius_m for each in circles), ground.low[1])
    high = min(max(each.y + each.radius_m for each in circles), ground.high[1])
    if high <= low:
        return 0.0
    lines = min(max(math.ceil((high - low) / LINE_M), FEWEST_LINES), MOST_LINES)
    # A bed may be suddenly narrower at a corner, so no strip between two lines reaches over one.
    corners = (edge.start[1] for edge in ground.edges)
    breaks = sorted({low, high, *(y for y in corners if low < y < high)})
    strips = (
        _strip(ground, circles, start, end, max(round(lines * (end - start) / (high - low)), 1))
        for start, end in pairwise(breaks)
    )
    return min(math.fsum(strips), ground.area_m2)


def _strip(ground: Plot, circles: Sequence[Circle], low: float, high: float, lines: int) -> float:
    """The covered ground between two heights, by so many lines across it."""
    apart = (high - low) / lines
    middles = (low + (line + 0.5) * apart for line in range(lines))
    return apart * math.fsum(_covered_along(ground, circles, y) for y in middles)


def _covered_along(ground: Plot, circles: Sequence[Circle], y: float) -> float:
    chords = _joined(_chords(circles, y))
    return sum(
        max(min(end, stop) - max(start, begin), 0.0)
        for start, end in _inside(ground, y)
        for begin, stop in chords
    )


def _inside(ground: Plot, y: float) -> list[Stretch]:
    """The stretches of a line that lie inside the outline: from each odd crossing to the next."""
    crossings = sorted(
        (bx - ax) * (y - ay) / (by - ay) + ax
        for (ax, ay), (bx, by) in ((edge.start, edge.end) for edge in ground.edges)
        if (ay > y) != (by > y)
    )
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def _chords(circles: Iterable[Circle], y: float) -> list[Stretch]:
    found = []
    for each in circles:
        square = each.radius_m**2 - (y - each.y) ** 2
        if square > 0.0:
            half = math.sqrt(square)
            found.append((each.x - half, each.x + half))
    return found


def _joined(stretches: Iterable[Stretch]) -> list[Stretch]:
    """The same stretches, with those that overlap made one."""
    joined: list[Stretch] = []
    for start, end in sorted(stretches):
        if joined and start <= joined[-1][1]:
            joined[-1] = joined[-1][0], max(joined[-1][1], end)
        else:
            joined.append((start, end))
    return joined
