"""A site's ground as arrays: where a plant may stand, and the positions at which it touches what is there.

A dense planting has every plant touching two others, or an edge and another: such contacts, rounded to the
step of the plan, are the only positions worth trying, and there are few of them.
"""

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np
import numpy.typing as npt
from attrs import define

from cuttings.ledger.places import HeightLimit
from cuttings.placement.outline import Plot
from cuttings.placement.room import CENTIMETRE, REACH, SLACK_M, Circle
from cuttings.placement.wanted import Need

Floats = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

MOST_NODES = 4_000
"""With no more nodes than this in its box, a bed's plan is searched node by node, without contacts."""

COARSE_M = 0.1
"""How finely a bed is looked over where it need only be about right: a hand's breadth."""

MOST_STEPS = 100
"""Of a long bed no more than twice so many steps are looked over."""


@define(slots=False, eq=False)
class Bed:
    """The ground of one site.

    ``taken`` are circles that stay where they are, ``(n, 3)`` with x, y and radius in metres. ``overlap`` is
    the share of the narrower plant's width that may lie within its neighbour's. ``hidden_m2`` is the ground
    of plants that grow somewhere on it, nobody has said where. A bed seen ``all_round`` has its tall plants
    along its middle line.
    """

    plot: Plot
    taken: Floats
    limits: Sequence[HeightLimit] = ()
    step_m: float = CENTIMETRE
    overlap: float = 0.0
    hidden_m2: float = 0.0
    all_round: bool = False

    @cached_property
    def _starts(self) -> Floats:
        return np.array([edge.start for edge in self.plot.edges])

    @cached_property
    def _ends(self) -> Floats:
        return np.array([edge.end for edge in self.plot.edges])

    @cached_property
    def _kept(self) -> Floats:
        """The room kept along each edge, NaN along an open one."""
        free = (edge.keep_free_m for edge in self.plot.edges)
        return np.array([math.nan if room is None else room for room in free])

    @cached_property
    def by_node(self) -> bool:
        """Whether the nodes of the plan are few enough to try them all."""
        (left, front), (right, back) = self.plot.low, self.plot.high
        return (right - left) * (back - front) / self.step_m**2 <= MOST_NODES

    def reach(self, radius_m: float) -> float:
        """The share of its radius by which a plant may grow over open edges: 0 where it fits whole."""
        if radius_m not in self._reaches:
            self._reaches[radius_m] = 0.0 if len(self._whole(radius_m)) else REACH
        return self._reaches[radius_m]

    @cached_property
    def _reaches(self) -> dict[float, float]:
        return {}

    def _whole(self, radius_m: float) -> Floats:
        """Some position where a plant would stand whole inside, were nothing there; empty if none."""
        edges_need = self._from_edges(radius_m, 0.0)
        corners = self._rounded(_crossings(self._lines(edges_need)))
        trials = corners if len(corners) and self.within(corners, radius_m, 0.0).any() else self._coarse()
        return trials[self.within(trials, radius_m, 0.0)][:1]

    def _coarse(self) -> Floats:
        """A net of positions over the box, a hand's breadth or a step apart."""
        step = max(COARSE_M, self.step_m)
        (left, front), (right, back) = self.plot.low, self.plot.high
        return _net(
            np.arange(math.ceil(left / step), math.floor(right / step) + 1) * step,
            np.arange(math.ceil(front / step), math.floor(back / step) + 1) * step,
        )

    @property
    def free_m2(self) -> float:
        """The ground left, counted by area alone; without end unless plants without a place hide some of
        it."""
        if not self.hidden_m2:
            return math.inf
        return self.plot.area_m2 - self.hidden_m2 - math.pi * float(np.square(self.taken[:, 2]).sum())

    def widest(self) -> float:
        """The radius in metres of about the largest plant that could still stand whole; 0 if none."""
        columns, rows = (_evenly(low, high) for low, high in zip(self.plot.low, self.plot.high, strict=True))
        at = _net(columns, rows)
        at = at[self._inside(at)]
        if not len(at):
            return 0.0
        room = (self._from_outline(at) - np.nan_to_num(self._kept)).min(axis=1)
        if len(self.taken):
            gaps = np.hypot(at[:, :1] - self.taken[:, 0], at[:, 1:] - self.taken[:, 1]) - self.taken[:, 2]
            room = np.minimum(room, gaps.min(axis=1))
        by_area = math.sqrt(max(self.free_m2, 0.0) / math.pi)
        return min(max(float(room.max()), 0.0), by_area)

    def nodes(self) -> Floats:
        """Every position of the plan within the bounding box, row by row, ``(n, 2)``."""
        (left, front), (right, back) = self.plot.low, self.plot.high
        return _net(self._ticks(left, right), self._ticks(front, back))

    def _ticks(self, low: float, high: float) -> Floats:
        first, last = math.ceil(low / self.step_m - 1e-6), math.floor(high / self.step_m + 1e-6)
        ticks: Floats = np.round(np.arange(first, last + 1) * self.step_m, 6)
        return ticks

    def _from_edges(self, radius_m: float, reach: float) -> Floats:
        """How far a plant's middle must be from each edge."""
        return np.where(np.isnan(self._kept), radius_m * (1.0 - reach), radius_m + np.nan_to_num(self._kept))

    def _from_outline(self, at: Floats) -> Floats:
        """How far each position is from each edge, ``(positions, edges)``."""
        x, y = at[:, :1], at[:, 1:]
        (ax, ay), (bx, by) = self._starts.T, self._ends.T
        dx, dy = bx - ax, by - ay
        along = np.clip(((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy), 0.0, 1.0)
        return np.asarray(np.hypot(x - ax - along * dx, y - ay - along * dy))

    def _inside(self, at: Floats) -> Flags:
        """Which positions lie inside the outline, by counting the edges to one side of each."""
        x, y = at[:, :1], at[:, 1:]
        (ax, ay), (bx, by) = self._starts.T, self._ends.T
        with np.errstate(divide="ignore", invalid="ignore"):
            crosses = ((ay > y) != (by > y)) & (x < (bx - ax) * (y - ay) / (by - ay) + ax)
        return np.asarray(crosses.sum(axis=1) % 2 == 1)

    def within(self, at: Floats, radius_m: float, reach: float) -> Flags:
        """Which positions lie inside, far enough from every edge."""
        far = self._from_outline(at) >= self._from_edges(radius_m, reach) - SLACK_M
        return self._inside(at) & far.all(axis=1)

    def allowed(self, at: Floats, need: Need) -> Flags:
        """Which positions suit a plant for the sake of edges, height limits and what stays there."""
        fine = self.within(at, need.radius_m, self.reach(need.radius_m))
        for limit in self.limits:
            if need.height_m > limit.height_m:
                beside = (at[:, 0] + need.radius_m <= limit.from_m + SLACK_M) | (
                    at[:, 0] - need.radius_m >= limit.to_m - SLACK_M
                )
                fine &= beside
        return fine & self.clear(at, need.radius_m, self.taken)

    def apart(self, radius_m: float, others: Floats) -> Floats:
        """How far a plant's middle must be from those of others."""
        return radius_m + others - 2.0 * self.overlap * np.minimum(radius_m, others)

    def clear(self, at: Floats, radius_m: float, circles: Floats) -> Flags:
        """Which positions are clear of circles."""
        if not len(circles):
            return np.ones(len(at), dtype=bool)
        least = self.apart(radius_m, circles[:, 2]) - SLACK_M
        gaps = np.square(at[:, :1] - circles[:, 0]) + np.square(at[:, 1:] - circles[:, 1])
        return np.asarray((gaps >= np.square(least)).all(axis=1))

    def first_contacts(self, need: Need) -> Floats:
        """The positions to try for a plant before others have been placed."""
        if self.by_node:
            nodes = self.nodes()
            return nodes[self.allowed(nodes, need)]
        lines = self._guides(need)
        rings = self._rings(need.radius_m, self.taken)
        found = [_crossings(lines), _touching_lines(lines, rings), _touching_both(rings, rings)]
        stops = [each for limit in self.limits for each in (limit.from_m, limit.to_m)]
        found += [_beside(lines, x + way * need.radius_m) for x in stops for way in (-1, 1)]
        return self._tried(np.concatenate(found), need)

    def more_contacts(self, need: Need, new: Floats, others: Floats) -> Floats:
        """The positions to try besides when circles have been placed: those that touch one of them."""
        if self.by_node:
            return np.empty((0, 2))
        lines = self._guides(need)
        fresh = self._rings(need.radius_m, new)
        rings = self._rings(need.radius_m, np.concatenate([self.taken, others]))
        return self._tried(
            np.concatenate([_touching_lines(lines, fresh), _touching_both(fresh, rings)]), need
        )

    def _tried(self, at: Floats, need: Need) -> Floats:
        near = self._rounded(at)
        return near[self.allowed(near, need)] if len(near) else near

    def _rounded(self, at: Floats) -> Floats:
        """The four positions of the plan round each position."""
        if not len(at):
            return at
        (left, front), (right, back) = self.plot.low, self.plot.high
        at = at[(at[:, 0] > left) & (at[:, 0] < right) & (at[:, 1] > front) & (at[:, 1] < back)]
        low = np.floor(at / self.step_m + 1e-6)
        round_it = [low + np.array(by) for by in ((0, 0), (0, 1), (1, 0), (1, 1))]
        rounded: Floats = np.round(np.concatenate(round_it) * self.step_m, 6)
        return rounded

    def _guides(self, need: Need) -> Floats:
        """The lines on which a plant's middle lies when it keeps to an edge, or to the middle of a bed that
        is seen all round."""
        if need not in self._guided:
            lines = self._lines(self._from_edges(need.radius_m, self.reach(need.radius_m)))
            middle = [[0.0, 1.0, self.middle]] if self.all_round else np.empty((0, 3))
            self._guided[need] = np.concatenate([lines, middle])
        return self._guided[need]

    @cached_property
    def _guided(self) -> dict[Need, Floats]:
        return {}

    @property
    def middle(self) -> float:
        """How far back its middle line lies."""
        return (self.plot.low[1] + self.plot.high[1]) / 2.0

    def _lines(self, away: Floats) -> Floats:
        """The edges moved inwards, ``(n, 3)``: a and b of the unit normal and c in a x + b y = c."""
        way = self._ends - self._starts
        normal = np.column_stack([-way[:, 1], way[:, 0]]) / np.hypot(way[:, 0], way[:, 1])[:, None]
        return np.column_stack([normal, (normal * self._starts).sum(axis=1) + away])

    def _rings(self, radius_m: float, circles: Floats) -> Floats:
        """The circles on which a plant's middle lies when it touches others."""
        return np.column_stack([circles[:, :2], self.apart(radius_m, circles[:, 2])])


def circles_array(circles: Sequence[Circle]) -> Floats:
    """Circles as an array, ``(n, 3)``."""
    return np.array([(each.x, each.y, each.radius_m) for each in circles], dtype=float).reshape(-1, 3)


def _evenly(low: float, high: float) -> Floats:
    """Places from low to high, a hand's breadth apart or less, one of them in the middle."""
    steps = 2 * min(math.ceil((high - low) / COARSE_M / 2), MOST_STEPS)
    return np.asarray(np.linspace(low, high, max(steps, 2) + 1))


def _net(columns: npt.ArrayLike, rows: npt.ArrayLike) -> Floats:
    x, y = np.meshgrid(columns, rows)
    return np.column_stack([x.ravel(), y.ravel()])


def _crossings(lines: Floats) -> Floats:
    """Where lines cross each other."""
    one, other = (lines[at] for at in np.triu_indices(len(lines), 1))
    turn = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    kept = np.abs(turn) > 1e-9
    one, other, turn = one[kept], other[kept], turn[kept]
    x = (one[:, 2] * other[:, 1] - one[:, 1] * other[:, 2]) / turn
    y = (one[:, 0] * other[:, 2] - one[:, 2] * other[:, 0]) / turn
    return np.column_stack([x, y])


def _touching_lines(lines: Floats, rings: Floats) -> Floats:
    """Where lines meet circles."""
    a, b, c = (lines[:, None, at] for at in range(3))
    x, y, radius = (rings[None, :, at] for at in range(3))
    off = a * x + b * y - c
    half = np.sqrt(np.maximum(radius**2 - off**2, 0.0))
    meets = np.abs(off) <= radius
    foot_x, foot_y = x - a * off, y - b * off
    ends = [
        np.stack([foot_x - way * half * b, foot_y + way * half * a], axis=-1)[meets] for way in (-1.0, 1.0)
    ]
    return np.concatenate(ends)


def _touching_both(rings: Floats, others: Floats) -> Floats:
    """Where circles of one kind meet those of another."""
    x, y, radius = (rings[:, None, at] for at in range(3))
    u, v, other = (others[None, :, at] for at in range(3))
    dx, dy = u - x, v - y
    square = dx**2 + dy**2
    apart = square > 1e-12
    square = np.where(apart, square, 1.0)
    along = (square + radius**2 - other**2) / (2.0 * square)
    rest = radius**2 / square - along**2
    meets = apart & (rest >= 0.0)
    half = np.sqrt(np.where(meets, rest, 0.0))
    ends = [
        np.stack([x + along * dx - way * half * dy, y + along * dy + way * half * dx], axis=-1)[meets]
        for way in (-1.0, 1.0)
    ]
    return np.concatenate(ends)


def _beside(lines: Floats, x: float) -> Floats:
    """Where lines meet an upright one."""
    kept = lines[np.abs(lines[:, 1]) > 1e-9]
    return np.column_stack([np.full(len(kept), x), (kept[:, 2] - kept[:, 0] * x) / kept[:, 1]])
