"""Plants packed into a bed: tried in several orders and from several sides, the tightest contacts first."""

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np
from attrs import define, field, frozen

from cuttings.placement.bed import Bed, Floats
from cuttings.placement.wanted import Need, Stance

NEIGHBOURLY = 1.25
"""Plants of one group stand no further from their nearest than this many times the distance at which they
touch; from memory, near enough to be seen as one."""

GROUP_STARTS = 8
"""How many places are tried for the first of a group before the group is given up."""


Order = Callable[[Floats], Floats]
"""Puts a number to each position, the lowest for the one to be taken first."""


def first_by(stance: Stance, bed: Bed) -> Order:
    """The order in which positions suit a stance; along the length from the left, so that no room is lost."""
    match stance:
        case Stance.FRONT:
            return _along(np.array([0.01, 1.0]))
        case Stance.BACK:
            return _along(np.array([0.01, -1.0]))
        case Stance.MIDDLE:
            return lambda at: np.asarray(np.abs(at[:, 1] - bed.middle) + 0.01 * at[:, 0])


def _along(way: Floats) -> Order:
    return lambda at: np.asarray(at @ way)


@frozen
class Want:
    """Some plants of one kind that must stand together; one plant is a group of one.

    ``mark`` tells the caller whose they are, ``stance`` where they belong, ``worth`` what placing each of
    them is worth.
    """

    mark: int
    need: Need
    plants: int = 1
    stance: Stance = Stance.FRONT
    worth: float = 1.0

    @property
    def worth_of_ground(self) -> float:
        """What each square metre under it is worth."""
        return self.worth / self.need.radius_m**2


@define(eq=False)
class Packing:
    """A bed on its way to being full."""

    bed: Bed
    pools: dict[Need, Floats]
    """For each kind of plant the positions still worth trying, and below how many circles they have seen."""
    seen: dict[Need, int] = field(factory=dict)
    circles: list[tuple[float, float, float]] = field(factory=list)

    def candidates(self, need: Need) -> Floats:
        """The free positions for a plant, brought up to date with what has been placed."""
        pool = self.pools.get(need)
        if pool is None:
            pool = self.bed.first_contacts(need)
            self.pools[need] = pool
        seen = self.seen.get(need, 0)
        if seen < len(self.circles):
            all_circles = np.array(self.circles)
            pool = np.concatenate([pool, self.bed.more_contacts(need, all_circles[seen:], all_circles)])
            pool = pool[self.bed.clear(pool, need.radius_m, all_circles)] if len(pool) else pool
            self.pools[need], self.seen[need] = pool, len(self.circles)
        return pool

    def place(self, want: Want, by: Order) -> list[tuple[float, float]] | None:
        """Places for a group, the first in an order; ``None`` where there is no room."""
        pool = self.candidates(want.need)
        if not len(pool) or not self._ground_for(want):
            return None
        order = np.argsort(by(pool), kind="stable")
        if want.plants == 1:
            x, y = pool[order[0]]
            self.circles.append((float(x), float(y), want.need.radius_m))
            return [(float(x), float(y))]
        for start in order[:: max(len(order) // GROUP_STARTS, 1)]:
            group = self._group_from(want, pool[start])
            if group is not None:
                return group
        return None

    def _ground_for(self, want: Want) -> bool:
        """Whether plants without a place leave ground for it, wherever they may stand."""
        used = sum(radius**2 for _, _, radius in self.circles) + want.plants * want.need.radius_m**2
        return math.pi * used <= self.bed.free_m2

    def _group_from(self, want: Want, first: Floats) -> list[tuple[float, float]] | None:
        """A group that begins at one position; the bed is as it was where the group has no room."""
        need, before = want.need, len(self.circles)
        pools, seen = dict(self.pools), dict(self.seen)
        near = NEIGHBOURLY * float(self.bed.apart(need.radius_m, np.array([need.radius_m]))[0])
        group = [(float(first[0]), float(first[1]))]
        self.circles.append((*group[0], need.radius_m))
        while len(group) < want.plants:
            pool = self.candidates(need)
            away = np.hypot(
                pool[:, :1] - np.array([x for x, _ in group]), pool[:, 1:] - np.array([y for _, y in group])
            ) if len(pool) else np.empty((0, 1))  # fmt: skip
            close = np.flatnonzero(away.min(axis=1) <= near) if len(pool) else np.empty(0, dtype=int)
            if not len(close):
                del self.circles[before:]
                self.pools, self.seen = pools, seen
                return None
            best = close[np.argmin(away[close].sum(axis=1))]
            group.append((float(pool[best, 0]), float(pool[best, 1])))
            self.circles.append((*group[-1], need.radius_m))
        return group


Places = dict[int, list[tuple[float, float]]]
"""For the number of each want, where its plants stand."""


def pack(bed: Bed, wants: Sequence[Want], tries: int, pools: dict[Need, Floats] | None = None) -> Places:
    """Places for as many of the wants as can be found room for, worth most.

    Args:
        tries: how many orders and directions to try; the first sets the tall at the back and the low in
            front, the others only seek room.
        pools: first positions worked out before, shared between calls for the same bed.
    """
    first = {} if pools is None else pools
    for want in wants:
        if want.need not in first:
            first[want.need] = bed.first_contacts(want.need)
    best: Places = {}
    best_worth = -1.0
    for order, ways in _attempts(bed, wants, tries):
        packing = Packing(bed, dict(first))
        places: Places = {}
        for number in order:
            found = packing.place(wants[number], ways[number])
            if found is not None:
                places[number] = found
        worth = sum(wants[number].worth * wants[number].plants for number in places)
        if worth > best_worth + 1e-12:
            best, best_worth = places, worth
        if len(places) == len(wants):
            break
    return best


def _attempts(bed: Bed, wants: Sequence[Want], tries: int) -> Iterator[tuple[list[int], list[Order]]]:
    """Orders of the wants, each with the order in which positions are tried for every want."""
    chance = np.random.default_rng(len(wants))
    widest = sorted(range(len(wants)), key=lambda at: (-wants[at].need.radius_m, -wants[at].plants, at))
    dearest = sorted(widest, key=lambda at: -wants[at].worth_of_ground)
    for number in range(tries):
        if number < 2:
            yield (widest, dearest)[number], [first_by(want.stance, bed) for want in wants]
        elif number < 2 + len(_WAYS):
            order = dearest if number % 2 else widest
            yield order, [_along(np.array(_WAYS[number - 2]))] * len(wants)
        else:
            stretch = chance.uniform(0.6, 1.4, len(wants))
            sizes = [want.worth_of_ground if number % 2 else want.need.radius_m for want in wants]
            shaken = sorted(widest, key=lambda at: -sizes[at] * stretch[at])
            angle = chance.uniform(0.0, 2.0 * math.pi)
            yield shaken, [_along(np.array([math.cos(angle), math.sin(angle)]))] * len(wants)


_WAYS = ((1.0, 0.01), (1.0, -0.01), (-1.0, 0.02), (0.3, 1.0), (1.0, 0.6))
"""Directions in which positions are sought when the stances leave no room: along the bed, then askew."""
