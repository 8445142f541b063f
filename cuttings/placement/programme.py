"""Plants shared out to beds by a mathematical programme of whole numbers, solved by HiGHS through SciPy.

Groups of plants are given to beds so that the total fit is as high as the proven limits of the beds allow
(``capacity``): no plan can be better than that. Whether a bed can be packed with its share is another matter
(``layout``).
"""

from collections.abc import Mapping, Sequence

import numpy as np
from attrs import define, field, frozen

from cuttings.placement.bed import Bed, Floats
from cuttings.placement.capacity import Capacity, Limit
from cuttings.placement.packing import Want
from cuttings.placement.solving import Rows
from cuttings.placement.wanted import Need, Stance

NEAR_ENOUGH = 1e-6

EXACT = 1e-4
"""How far short of the best the programme's own answer may fall, as a share of it."""

SECONDS = 3.0
"""How long one programme is worked on, so that whoever stops the search is soon heard."""

BROKEN = 1e-6
"""A share of a group below this is none."""


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


Shares = Mapping[tuple[int, int], float]
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
    pools: list[dict[Need, Floats]] = field(init=False)
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
        self.capacities, self.proven, self.columns = [], [], []
        for number, bed in enumerate(self.beds):
            needs = sorted({ask.need for ask in self.asks if ask.worth[number] > 0.0 and ask.count},
                           key=lambda need: (need.radius_m, need.height_m))  # fmt: skip
            needs = [need for need in needs if bed is None or len(self._pool(number, need))]
            capacity = Capacity(bed, needs) if bed is not None and needs else None
            self.capacities.append(capacity)
            self.proven.append(capacity.first() if capacity else [])
            for at, kind in enumerate(self.kinds):
                ask = self.asks[kind.ask]
                if ask.worth[number] > 0.0 and (bed is None or ask.need in needs):
                    self.columns.append((at, number))
                    self.most[at, number] = self._most(kind, number)

    def _pool(self, bed: int, need: Need) -> Floats:
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

    def share_out(
        self,
        limits: Sequence[Sequence[Limit]],
        fixed: Shares | None = None,
        free: Sequence[int] | None = None,
        *,
        whole: bool = True,
        exact: float = EXACT,
        seconds: float = SECONDS,
    ) -> tuple[Shares, float]:
        """Groups given to beds for the highest total worth, and what that total cannot pass.

        Args:
            limits: those that hold for each bed; with the proven ones alone the total is a bound.
            fixed: groups that stay where they are, on the beds that are not ``free``.
            whole: whether groups stay whole; broken ones are given out faster.
            exact: how far short of the best the answer may fall, as a share of it.
            seconds: after how long the best answer so far is taken.
        """
        columns = [column for column in self.columns if free is None or column[1] in free]
        if not columns:
            return {}, 0.0
        left = [kind.groups for kind in self.kinds]
        for (kind, _), groups in (fixed or {}).items():
            left[kind] -= round(groups)
        rows = Rows()
        by_kind: list[list[int]] = [[] for _ in self.kinds]
        by_bed: list[list[int]] = [[] for _ in self.beds]
        for number, (kind, bed) in enumerate(columns):
            by_kind[kind].append(number)
            by_bed[bed].append(number)
        for kind, mine in enumerate(by_kind):
            if mine:
                rows.add(((number, 1.0) for number in mine), left[kind])
        for bed, mine in enumerate(by_bed):
            for limit in limits[bed] if mine else ():
                rows.add(((number, self._takes(limit, columns[number][0])) for number in mine), limit.room)
        gain = np.array([self.worth(*column) for column in columns])
        upper = np.array([min(self.most[column], left[column[0]]) for column in columns])
        answer = rows.solve(gain, upper, whole=whole, exact=exact, seconds=seconds)
        if answer is None:
            return {}, float(gain @ upper)
        values, bound = answer
        given = zip(columns, values, strict=True)
        return {column: float(value) for column, value in given if value > BROKEN}, bound

    def worth(self, kind: int, bed: int) -> float:
        return self.kinds[kind].plants * self.asks[self.kinds[kind].ask].worth[bed]

    def _takes(self, limit: Limit, kind: int) -> float:
        return self.kinds[kind].plants * limit.takes.get(self.asks[self.kinds[kind].ask].need, 0.0)

    def _held(self, shares: Shares, bed: int) -> dict[Need, float]:
        held: dict[Need, float] = {}
        for (kind, there), groups in shares.items():
            if there == bed:
                need = self.asks[self.kinds[kind].ask].need
                held[need] = held.get(need, 0.0) + groups * self.kinds[kind].plants
        return held

    def tighten(self, shares: Shares) -> bool:
        """Add proven limits that the shares pass; whether there were any."""
        found = False
        for bed, capacity in enumerate(self.capacities):
            if capacity is not None:
                limits = capacity.broken_by(self._held(shares, bed))
                self.proven[bed] += limits
                found = found or bool(limits)
        return found

    def want(self, kind: int, bed: int) -> Want:
        ask = self.asks[self.kinds[kind].ask]
        return Want(kind, ask.need, self.kinds[kind].plants, ask.stances[bed], ask.worth[bed])
