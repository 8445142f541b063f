"""How much a bed can hold at most: limits that hold for every planting there is, found or not.

A limit gives every kind of plant a weight and the bed a room that the weights of its plants cannot pass.
Mature circles that do not overlap share no ground; so, whatever lengths and areas of the bed are counted and
however they are weighted, each plant uses up at least the least that it could cover from any place where it
may stand.
"""

import math
from collections.abc import Mapping, Sequence
from functools import cached_property

import numpy as np
from attrs import define, frozen

from cuttings.placement.bed import Bed, Flags, Floats
from cuttings.placement.wanted import Need
from cuttings.words import PathSide

LINES = 48
"""Across how many lines each way a bed is measured; more make tighter limits that take longer."""

FINE = 4
"""How many places of a plant's middle are weighed from one line to the next."""

SLACK = 1e-7


@frozen
class Limit:
    """What a bed can hold: for each kind of plant the room one plant takes, and the room there is."""

    takes: Mapping[Need, float]
    room: float

    def over(self, held: Mapping[Need, float]) -> float:
        """By how much so many plants of each kind would pass it, as a share of the room."""
        used = sum(self.takes[need] * number for need, number in held.items())
        return (used - self.room) / max(self.room, SLACK)


def densest(ratio: float) -> float:
    """The largest share of the plane that circles can cover whose radii differ by no more than a ratio.

    Florian's bound: that of a triangle of two of the narrowest and one of the widest touching. For equal ones
    it is pi / sqrt(12). A. Florian: Ausfüllung der Ebene durch Kreise, Rendiconti del Circolo Matematico di
    Palermo 9, 1960; from memory, checked against Thue's density for equal circles.

    Args:
        ratio: the narrowest radius over the widest, above 0 and at most 1.
    """
    covered = math.pi * ratio**2 + 2.0 * (1.0 - ratio**2) * math.asin(ratio / (1.0 + ratio))
    return covered / (2.0 * ratio * math.sqrt(2.0 * ratio + 1.0))


@define(slots=False, eq=False)
class Capacity:
    """The limits of one bed for the kinds of plant that might go there."""

    bed: Bed
    needs: Sequence[Need]

    def first(self) -> list[Limit]:
        """The limits worth having from the start: by area, for all kinds and for the wider of them."""
        found = [self._by_area(self.needs, 1.0)]
        if self._is_box and not any(self._over(need) for need in self.needs):
            widest = max(need.radius_m for need in self.needs)
            for least in sorted({need.radius_m for need in self.needs}):
                kept = [need for need in self.needs if need.radius_m >= least]
                found.append(self._by_area(kept, densest(least / widest)))
        return [limit for limit in found if any(limit.takes.values())]

    def broken_by(self, held: Mapping[Need, float]) -> list[Limit]:
        """Limits that so many plants of each kind would pass; none where they might all fit."""
        present = [need for need in self.needs if held.get(need, 0.0) > SLACK]
        if not present:
            return []
        found = (self._across(axis, held, present) for axis in (1, 0))
        return [limit for limit in found if limit is not None and limit.over(held) > 1e-6]

    @cached_property
    def _is_box(self) -> bool:
        """Whether the outline is a rectangle along the plan's axes, with which one could tile the plane."""
        (left, front), (right, back) = self.bed.plot.low, self.bed.plot.high
        return math.isclose(self.bed.plot.area_m2, (right - left) * (back - front), rel_tol=1e-9)

    @cached_property
    def _low(self) -> Sequence[float]:
        """Where the ground that plants may cover begins along each axis: in a box, behind the room kept
        free."""
        kept = [self._kept_along(side) for side in (PathSide.LEFT, PathSide.FRONT)]
        return [low + (room or 0.0) for low, room in zip(self.bed.plot.low, kept, strict=True)]

    @cached_property
    def _high(self) -> Sequence[float]:
        kept = [self._kept_along(side) for side in (PathSide.RIGHT, PathSide.BACK)]
        return [high - (room or 0.0) for high, room in zip(self.bed.plot.high, kept, strict=True)]

    def _kept_along(self, side: PathSide) -> float | None:
        """The room kept along a side of a box that no plant may reach over; ``None`` where one may."""
        return self.bed.plot.kept.get(side) if self._is_box else None

    def _open_ends(self, axis: int) -> int:
        """Over how many ends of the bed along an axis plants may reach."""
        sides = ((PathSide.LEFT, PathSide.RIGHT), (PathSide.FRONT, PathSide.BACK))[axis]
        return sum(self._kept_along(side) is None for side in sides)

    def _over(self, need: Need) -> float:
        """How far a plant may grow over an open edge, in metres."""
        return self.bed.reach(need.radius_m) * need.radius_m

    def _own(self, need: Need) -> float:
        """The radius of the ground that is a plant's alone, whatever share may overlap.

        Two plants stand r + R - 2 s min(r, R) apart or more, which is at least (1 - s)(r + R).
        """
        return need.radius_m * (1.0 - self.bed.overlap)

    @cached_property
    def _taken(self) -> Floats:
        """The ground that is certainly taken."""
        return np.asarray(self.bed.taken * np.array([1.0, 1.0, 1.0 - self.bed.overlap]))

    def _by_area(self, needs: Sequence[Need], density: float) -> Limit:
        whole = density < 1.0
        takes = dict.fromkeys(self.needs, 0.0)
        for need in needs:
            takes[need] = math.pi * self._own(need) ** 2
        return Limit(takes, self._free_area(whole, density))

    def _free_area(self, whole: bool, density: float) -> float:
        """The ground that plants share, with a strip as wide as they may reach over.

        With a density the circles that stay count as part of the packing, as far as they lie whole in the box
        and apart; else what they certainly cover is left out.
        """
        over = max(self._over(need) for need in self.needs)
        area = self._ground_m2 + math.pi * over**2
        area += over * sum(self._open_ends(axis) * self._extent(1 - axis) for axis in (0, 1))
        if whole:
            return density * area - sum(math.pi * r**2 for x, y, r in self._whole_and_apart)
        if not len(self._taken):
            return area
        step = 0.05
        columns, rows = (np.arange(self._low[axis], self._high[axis] - step, step) for axis in (0, 1))
        x, y = np.meshgrid(columns + step / 2, rows + step / 2)
        at = np.column_stack([x.ravel(), y.ravel()])
        inside = self.bed.within(at, step, 0.0)  # cells that lie whole inside the outline
        inner = self._taken - np.array([0.0, 0.0, step * 0.71])
        inner = inner[inner[:, 2] > 0.0]
        covered = ~self.bed.clear(at, 0.0, inner) & inside
        return area - float(covered.sum()) * step**2

    def _extent(self, axis: int) -> float:
        return self._high[axis] - self._low[axis]

    @property
    def _ground_m2(self) -> float:
        if self._is_box:
            return max(self._extent(0), 0.0) * max(self._extent(1), 0.0)
        return self.bed.plot.area_m2

    @cached_property
    def _whole_and_apart(self) -> list[tuple[float, float, float]]:
        (left, front), (right, back) = self._low, self._high
        kept: list[tuple[float, float, float]] = []
        for x, y, r in self._taken:
            inside = left <= x - r and x + r <= right and front <= y - r and y + r <= back
            if inside and all(math.hypot(x - u, y - v) >= r + s for u, v, s in kept):
                kept.append((float(x), float(y), float(r)))
        return kept

    def _across(self, axis: int, held: Mapping[Need, float], present: Sequence[Need]) -> Limit | None:
        """The limit by lines at right angles to an axis that plants would pass by most.

        A plant may reach over the ends of a line, which are then as much longer; kinds that would reach
        further than those that are present do not count.
        """
        from scipy.optimize import linprog

        chords = self._chords[axis]
        over = max(self._over(need) for need in present)
        free = self._free_lengths[axis] + self._open_ends(1 - axis) * over
        count, kinds = len(free), len(present)
        rows = []
        for number, need in enumerate(present):
            row = np.zeros((len(chords[need]), count + kinds))
            row[:, :count] = -chords[need]
            row[:, count + number] = 1.0
            rows.append(row)
        gain = np.array([held[need] for need in present])
        solved = linprog(
            np.concatenate([free, -gain]),
            A_ub=np.concatenate([*rows, np.concatenate([free, np.zeros(kinds)])[None, :]]),
            b_ub=np.concatenate([np.zeros(sum(map(len, rows))), [1.0]]),
            method="highs",
        )
        if not solved.success or solved.fun > -1e-6:
            return None
        weights = np.maximum(solved.x[:count], 0.0)
        takes = {
            need: float((chords[need] @ weights).min()) if self._over(need) <= over + SLACK else 0.0
            for need in self.needs
        }
        return Limit(takes, float(free @ weights))

    def _lines(self, axis: int) -> Floats:
        """Where lines across the bed at right angles to an axis stand."""
        low, high = self._low[axis], self._high[axis]
        return np.asarray(low + (high - low) / LINES * (np.arange(LINES) + 0.5))

    @cached_property
    def _free_lengths(self) -> list[Floats]:
        return [
            np.array([self._free_length(axis, float(line)) for line in self._lines(axis)]) for axis in (0, 1)
        ]

    @cached_property
    def _chords(self) -> list[dict[Need, Floats]]:
        """For each axis and kind the chord it cuts from each line, ``(places, lines)``, for every place its
        middle may have along the axis."""
        return [{need: self._chords_of(axis, need) for need in self.needs} for axis in (0, 1)]

    def _chords_of(self, axis: int, need: Need) -> Floats:
        bed, lines = self.bed, self._lines(axis)
        low, high = self._low[axis], self._high[axis]
        step = bed.step_m if bed.by_node else max(bed.step_m, (high - low) / LINES / FINE)
        sides = ((PathSide.LEFT, PathSide.RIGHT), (PathSide.FRONT, PathSide.BACK))[axis]
        near, far = (
            need.radius_m - (self._over(need) if self._kept_along(side) is None else 0.0) for side in sides
        )
        first = math.floor((low + near) / bed.step_m) * bed.step_m
        last = math.ceil((high - far) / bed.step_m) * bed.step_m
        middles = np.arange(first, max(last, first) + step, step)
        if axis == 0:
            middles = middles[self._low_enough(middles, need, step)]
        # A middle lies up to half a step from one that is weighed, so each chord is taken that much further
        # out.
        off = np.abs(lines[None, :] - middles[:, None]) + (0.0 if bed.by_node else step / 2)
        return np.asarray(2.0 * np.sqrt(np.maximum(self._own(need) ** 2 - off**2, 0.0)))

    def _low_enough(self, middles: Floats, need: Need, step: float) -> Flags:
        """Which places along the bed are not surely forbidden by a stretch with a height limit."""
        fine = np.ones(len(middles), dtype=bool)
        for limit in self.bed.limits:
            if need.height_m > limit.height_m:
                fine &= (middles + need.radius_m <= limit.from_m + step) | (
                    middles - need.radius_m >= limit.to_m - step
                )
        return fine if fine.any() else ~fine

    def _free_length(self, axis: int, at: float) -> float:
        """How much of a line is neither outside nor certainly taken."""
        spans = self._inside(axis, at)
        taken = [
            (max(low, middle - half), min(high, middle + half))
            for low, high in spans
            for off, middle, radius in ((c[axis] - at, c[1 - axis], c[2]) for c in self._taken)
            if (half := math.sqrt(max(radius**2 - off**2, 0.0))) > 0.0
        ]
        return sum(high - low for low, high in spans) - _covered(taken)

    def _inside(self, axis: int, at: float) -> list[tuple[float, float]]:
        """The stretches of a line within the outline, without the room kept free at its ends."""
        if self._is_box:
            return [(self._low[1 - axis], max(self._low[1 - axis], self._high[1 - axis]))]
        crossings = sorted(
            edge.start[1 - axis]
            + (edge.end[1 - axis] - edge.start[1 - axis])
            * (at - edge.start[axis])
            / (edge.end[axis] - edge.start[axis])
            for edge in self.bed.plot.edges
            if (edge.start[axis] > at) != (edge.end[axis] > at)
        )
        return list(zip(crossings[::2], crossings[1::2], strict=True))


def _covered(spans: Sequence[tuple[float, float]]) -> float:
    """The length that spans cover together."""
    total, reached = 0.0, -math.inf
    for low, high in sorted(spans):
        if high > max(low, reached):
            total += high - max(low, reached)
            reached = high
    return total
