"""The best joint plan: plants shared out to beds by a mathematical programme, and packed there.

The programme (integers, solved by HiGHS through SciPy) gives groups of plants to beds so that the total fit
is as high as the limits of the beds allow (``capacity``): no plan can be better than that. Then each bed is
packed (``packing``). A bed that cannot be packed as the programme would have it gets a tighter limit: a
proven one where there is one, else one that only guides the search and never the bound. What is left over is
put where there is room, and parts of the plan are taken up and planned anew as long as there is time.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np
from attrs import define, field, frozen

from cuttings.placement.bed import Bed
from cuttings.placement.capacity import Capacity, Limit
from cuttings.placement.packing import Packing, Places, Want, first_by, pack
from cuttings.placement.wanted import Need, Stance

NEAR_ENOUGH = 1e-6

EXACT = 1e-4
"""How far short of the best the programme's own answer may fall, as a share of it."""


@frozen
class Ask:
    """Plants of one lot: how many, in groups of how many, and what each is worth on each bed, 0 where it may
    not stand. ``stances`` says for each bed where on it the plant belongs."""

    need: Need
    count: int
    worth: tuple[float, ...]
    stances: tuple[Stance, ...]
    group: int = 1


@frozen
class Kind:
    """Groups of one size of one lot."""

    ask: int
    plants: int
    groups: int


@frozen
class Put:
    """A plant of a lot at a place on a bed; ``at`` is ``None`` where the bed has not been measured."""

    ask: int
    bed: int
    at: tuple[float, float] | None


@frozen
class State:
    """How far the search has come: the best plan so far, and what no plan can pass."""

    puts: tuple[Put, ...]
    total: float
    bound: float

    @property
    def gap(self) -> float:
        """By what share of the bound the total falls short of it."""
        return max(self.bound - self.total, 0.0) / self.bound if self.bound > 0.0 else 0.0


Shares = dict[tuple[int, int], int]
"""Groups of a kind given to a bed: ``(kind, bed)`` to a number above 0."""


@define(eq=False)
class Programme:
    """Asks and beds, and what is known of the limits of each bed. A bed is ``None`` where nobody has
    measured it: it takes whatever comes."""

    asks: Sequence[Ask]
    beds: Sequence[Bed | None]
    kinds: list[Kind] = field(init=False)
    capacities: list[Capacity | None] = field(init=False)
    proven: list[list[Limit]] = field(init=False)
    guides: list[list[Limit]] = field(init=False)
    pools: list[dict[Need, Any]] = field(init=False)
    columns: list[tuple[int, int]] = field(init=False)
    most: dict[tuple[int, int], int] = field(factory=dict, init=False)

    def __attrs_post_init__(self) -> None:
        self.kinds = [
            Kind(number, plants, groups)
            for number, ask in enumerate(self.asks)
            for plants, groups in ((ask.group, ask.count // ask.group), (ask.count % ask.group, 1))
            if plants and groups
        ]
        self.pools = [{} for _ in self.beds]
        self.capacities, self.proven, self.guides, self.columns = [], [], [], []
        for number, bed in enumerate(self.beds):
            needs = sorted({ask.need for ask in self.asks if ask.worth[number] > 0.0 and ask.count},
                           key=lambda need: (need.radius_m, need.height_m))  # fmt: skip
            needs = [need for need in needs if bed is None or len(self._pool(number, need))]
            capacity = Capacity(bed, needs) if bed is not None and needs else None
            self.capacities.append(capacity)
            self.proven.append(capacity.first() if capacity else [])
            self.guides.append([])
            for at, kind in enumerate(self.kinds):
                ask = self.asks[kind.ask]
                if ask.worth[number] > 0.0 and (bed is None or ask.need in needs):
                    self.columns.append((at, number))
                    self.most[at, number] = self._most(kind, number)

    def _pool(self, bed: int, need: Need) -> Any:
        ground = self.beds[bed]
        assert ground is not None
        if need not in self.pools[bed]:
            self.pools[bed][need] = ground.first_contacts(need)
        return self.pools[bed][need]

    def _most(self, kind: Kind, bed: int) -> int:
        """How many groups of a kind a bed could take at most, had they it for themselves."""
        need = self.asks[kind.ask].need
        rooms = [limit.room / limit.takes[need] for limit in self.proven[bed] if limit.takes[need] > 0.0]
        plants = min(rooms, default=float("inf"))
        return int(min(plants / kind.plants + NEAR_ENOUGH, kind.groups))

    # the programme ---------------------------------------------------------------------------------------

    def share_out(
        self, guided: bool, fixed: Shares | None = None, free: Sequence[int] | None = None
    ) -> tuple[Shares, float]:
        """Groups given to beds for the highest total worth, and what that total cannot pass.

        Args:
            guided: whether the limits that only guide the search hold too.
            fixed: groups that stay where they are, on the beds that are not ``free``.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        columns = [column for column in self.columns if free is None or column[1] in free]
        if not columns:
            return {}, 0.0
        kept = fixed or {}
        left = [kind.groups for kind in self.kinds]
        for (kind, _), groups in kept.items():
            left[kind] -= groups
        worth = np.array([self._worth(*column) for column in columns])
        rows: list[int] = []
        cols: list[int] = []
        values: list[float] = []
        most: list[float] = []
        for kind in range(len(self.kinds)):
            mine = [at for at, column in enumerate(columns) if column[0] == kind]
            if mine:
                rows += [len(most)] * len(mine)
                cols += mine
                values += [1.0] * len(mine)
                most.append(float(left[kind]))
        by_bed: dict[int, list[int]] = {}
        for at, (_, bed) in enumerate(columns):
            by_bed.setdefault(bed, []).append(at)
        for bed, mine in by_bed.items():
            for limit in (*self.proven[bed], *(self.guides[bed] if guided else ())):
                rows += [len(most)] * len(mine)
                cols += mine
                values += [self._takes(limit, columns[at][0]) for at in mine]
                most.append(limit.room + 1e-9 * max(limit.room, 1.0))
        solved = milp(
            -worth,
            integrality=np.ones(len(columns)),
            bounds=Bounds(0, np.array([min(self.most[column], left[column[0]]) for column in columns])),
            constraints=LinearConstraint(
                csr_array((values, (rows, cols)), shape=(len(most), len(columns))), ub=np.array(most)
            ),
            options={"mip_rel_gap": EXACT, "time_limit": 5.0},
        )
        if solved.x is None:
            return {}, float(worth @ [self.kinds[kind].groups for kind, _ in columns])
        shares = {
            column: round(value) for column, value in zip(columns, solved.x, strict=True) if value > 0.5
        }
        bound = -solved.mip_dual_bound if solved.mip_dual_bound is not None else -solved.fun
        return shares, float(bound)

    def _worth(self, kind: int, bed: int) -> float:
        return self.kinds[kind].plants * self.asks[self.kinds[kind].ask].worth[bed]

    def _takes(self, limit: Limit, kind: int) -> float:
        return self.kinds[kind].plants * limit.takes.get(self.asks[self.kinds[kind].ask].need, 0.0)

    def _held(self, shares: Mapping[tuple[int, int], float], bed: int) -> dict[Need, float]:
        held: dict[Need, float] = {}
        for (kind, there), groups in shares.items():
            if there == bed:
                need = self.asks[self.kinds[kind].ask].need
                held[need] = held.get(need, 0.0) + groups * self.kinds[kind].plants
        return held

    # the bound -------------------------------------------------------------------------------------------

    def tighten(self, shares: Shares) -> bool:
        """Add proven limits that the shares pass; whether there were any."""
        found = False
        for bed, capacity in enumerate(self.capacities):
            if capacity is not None:
                limits = capacity.broken_by(self._held(shares, bed))
                self.proven[bed] += limits
                found = found or bool(limits)
        return found

    # the plan --------------------------------------------------------------------------------------------

    def wants(self, shares: Shares, bed: int) -> list[Want]:
        """What a bed is to hold by the shares, group by group."""
        return [self._want(kind, bed) for (kind, there), groups in sorted(shares.items()) if there == bed
                for _ in range(groups)]  # fmt: skip

    def _want(self, kind: int, bed: int) -> Want:
        ask = self.asks[self.kinds[kind].ask]
        return Want(kind, ask.need, self.kinds[kind].plants, ask.stances[bed], ask.worth[bed])

    def packed(self, shares: Shares, bed: int, tries: int) -> tuple[list[Want], Places]:
        """A bed packed with its shares: the wants, and the places of those that found room."""
        wants = self.wants(shares, bed)
        ground = self.beds[bed]
        if ground is None:
            return wants, {number: [] for number in range(len(wants))}
        return wants, pack(ground, wants, tries, self.pools[bed])


@define(eq=False)
class Layout:
    """A plan in the making: what stands on each bed."""

    programme: Programme
    stands: list[tuple[list[Want], Places]]

    def total(self) -> float:
        return sum(
            wants[number].worth * wants[number].plants for wants, places in self.stands for number in places
        )

    def shares(self) -> Shares:
        found: Shares = {}
        for bed, (wants, places) in enumerate(self.stands):
            for number in places:
                found[wants[number].mark, bed] = found.get((wants[number].mark, bed), 0) + 1
        return found

    def fill_up(self) -> None:
        """Put every group that is left where there is room for it, the worthiest first."""
        programme = self.programme
        left = [kind.groups for kind in programme.kinds]
        for (kind, _), groups in self.shares().items():
            left[kind] -= groups
        open_ones = [
            (programme._worth(kind, bed), kind, bed) for kind, bed in programme.columns if left[kind] > 0
        ]
        packings: dict[int, Packing] = {}
        for _, kind, bed in sorted(open_ones, key=lambda each: (-each[0], each[1], each[2])):
            ground = programme.beds[bed]
            while left[kind] > 0:
                wants, places = self.stands[bed]
                want = programme._want(kind, bed)
                if ground is None:
                    found: list[tuple[float, float]] | None = []
                else:
                    if bed not in packings:
                        packings[bed] = self._packing(bed)
                    found = packings[bed].place(want, first_by(want.stance, ground))
                if found is None:
                    break
                places[len(wants)] = found
                wants.append(want)
                left[kind] -= 1

    def _packing(self, bed: int) -> Packing:
        ground = self.programme.beds[bed]
        assert ground is not None
        wants, places = self.stands[bed]
        packing = Packing(ground, dict(self.programme.pools[bed]))
        packing.circles = [
            (*at, wants[number].need.radius_m) for number, group in places.items() for at in group
        ]
        return packing

    def puts(self) -> tuple[Put, ...]:
        programme = self.programme
        found = []
        for bed, (wants, places) in enumerate(self.stands):
            for number in sorted(places):
                kind = programme.kinds[wants[number].mark]
                spots: Sequence[tuple[float, float] | None] = places[number] or [None] * kind.plants
                found += [Put(kind.ask, bed, at) for at in spots]
        return tuple(sorted(found, key=lambda put: (put.ask, put.bed, put.at or (0.0, 0.0))))


def search(asks: Sequence[Ask], beds: Sequence[Bed | None], *, patience: int) -> Iterator[State]:
    """Better and better plans, and lower and lower bounds, until the best is proven or nothing is gained.

    Stop drawing when there is no more time: the last state stands.

    Args:
        patience: after how many parts of the plan, taken up in vain one after another, the search gives up.
    """
    programme = Programme(asks, beds)
    shares, bound = programme.share_out(False)
    best, stale = None, 0
    chance = np.random.default_rng(1)
    guided = shares
    while True:
        layout = _laid_out(programme, guided, 8)
        if best is None or layout.total() > best.total() + NEAR_ENOUGH:
            best = layout
        yield State(best.puts(), best.total(), max(bound, best.total()))
        if bound - best.total() <= NEAR_ENOUGH * max(bound, 1.0):
            return
        if programme.tighten(shares):
            shares, lower = programme.share_out(False)
            bound = min(bound, lower)
            guided = shares
            continue
        break
    while stale < patience:
        beds_open = [at for at, bed in enumerate(beds) if bed is not None]
        many = min(len(beds_open), int(chance.integers(2, 5)))
        picked = sorted(int(bed) for bed in chance.choice(beds_open, many, replace=False))
        trial = _taken_up(programme, best, picked, chance)
        if trial.total() > best.total() + NEAR_ENOUGH:
            best, stale = trial, 0
        else:
            stale += 1
        yield State(best.puts(), best.total(), max(bound, best.total()))
        if bound - best.total() <= NEAR_ENOUGH * max(bound, 1.0):
            return


def _laid_out(programme: Programme, shares: Shares, tries: int) -> Layout:
    layout = Layout(programme, [programme.packed(shares, bed, tries) for bed in range(len(programme.beds))])
    layout.fill_up()
    return layout


def _taken_up(programme: Programme, best: Layout, picked: list[int], chance: np.random.Generator) -> Layout:
    """The plan with some beds emptied and planned anew, with room to spare for what may not pack."""
    fixed = {column: groups for column, groups in best.shares().items() if column[1] not in picked}
    for bed in picked:
        shrink = chance.uniform(0.86, 1.0)
        programme.guides[bed] = [Limit(limit.takes, limit.room * shrink) for limit in programme.proven[bed]]
    shares, _ = programme.share_out(True, fixed, picked)
    stands = [
        programme.packed(shares, bed, 12) if bed in picked else (list(old[0]), dict(old[1]))
        for bed, old in enumerate(best.stands)
    ]
    layout = Layout(programme, stands)
    layout.fill_up()
    return layout
