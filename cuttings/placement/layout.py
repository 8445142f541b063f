"""The best joint plan: beds packed with what the programme gives them, and parts of the plan taken up anew.

A bed that cannot be packed as the programme would have it tells whether there is a proven limit that forbids
it; if so the programme is solved again, and the bound comes down. What is left over is put where there is
room. Then, as long as there is time, a few beds at a time are emptied and planned anew, with a little less
room than the limits allow. A small garden is besides planned position by position (``netted``).
"""

from collections.abc import Iterator, Sequence

import numpy as np
from attrs import define

from cuttings.placement.bed import Bed
from cuttings.placement.capacity import Limit
from cuttings.placement.netted import best_on, nets
from cuttings.placement.packing import Packing, Places, Want, first_by, pack
from cuttings.placement.programme import NEAR_ENOUGH, Ask, Programme, Put, Shares, State

FIRST_TRIES, LATER_TRIES = 8, 12
"""In how many orders a bed is packed, at first and when it is taken up again."""

LEAST_ROOM = 0.86
"""The least share of its room with which a bed is planned anew; below, packing is no longer the trouble."""

MOST_SOLVED = 12
"""How often the programme is solved for the bound; each time it comes down less."""

LITTLE = 2e-4
"""The share by which the bound must come down for the programme to be solved once more."""

ROUGHLY, BRIEFLY = 2e-3, 0.5
"""How exactly, as a share, and for how many seconds a part of the plan is given out anew."""

TAKEN_UP = (2, 3, 4)
"""How many beds are emptied at a time."""


@define(eq=False)
class Layout:
    """A plan in the making: for each bed what it is to hold, and the places of what found room."""

    programme: Programme
    stands: list[tuple[list[Want], Places]]

    def total(self) -> float:
        return sum(
            wants[number].worth * wants[number].plants for wants, places in self.stands for number in places
        )

    def shares(self) -> dict[tuple[int, int], int]:
        found: dict[tuple[int, int], int] = {}
        for bed, (wants, places) in enumerate(self.stands):
            for number in places:
                found[wants[number].mark, bed] = found.get((wants[number].mark, bed), 0) + 1
        return found

    def fill_up(self, dear_ground: bool = True) -> None:
        """Put every group that is left on the best bed that has room for it, first those that are worth most
        for the ground they take; or else in the order of the lots."""
        programme = self.programme
        left = [kind.groups for kind in programme.kinds]
        for (kind, _), groups in self.shares().items():
            left[kind] -= groups
        still = [(kind, bed, programme.want(kind, bed)) for kind, bed in programme.columns if left[kind]]
        packings: dict[int, Packing] = {}
        for kind, bed, _ in sorted(
            still, key=lambda each: (-each[2].worth_of_ground * dear_ground, each[0], -each[2].worth, each[1])
        ):
            while left[kind] and self._place(kind, bed, packings):
                left[kind] -= 1

    def _place(self, kind: int, bed: int, packings: dict[int, Packing]) -> bool:
        """Place one group of a kind on a bed, if there is room."""
        ground = self.programme.beds[bed]
        wants, places = self.stands[bed]
        want = self.programme.want(kind, bed)
        found: list[tuple[float, float]] | None = []
        if ground is not None:
            if bed not in packings:
                packings[bed] = self._packing(ground, bed)
            found = packings[bed].place(want, first_by(want.stance, ground))
        if found is None:
            return False
        places[len(wants)] = found
        wants.append(want)
        return True

    def _packing(self, ground: Bed, bed: int) -> Packing:
        wants, places = self.stands[bed]
        packing = Packing(ground, dict(self.programme.pools[bed]))
        packing.circles = [
            (*at, wants[number].need.radius_m) for number, group in places.items() for at in group
        ]
        return packing

    def puts(self) -> tuple[Put, ...]:
        """Every plant that has a place."""
        found = []
        for bed, (wants, places) in enumerate(self.stands):
            for number in sorted(places):
                kind = self.programme.kinds[wants[number].mark]
                spots: Sequence[tuple[float, float] | None] = places[number] or [None] * kind.plants
                found += [Put(kind.ask, bed, at) for at in spots]
        return tuple(sorted(found, key=lambda put: (put.ask, put.bed, put.at or (0.0, 0.0))))


@define(eq=False)
class Search:
    """The best plan so far, and what no plan can pass."""

    programme: Programme
    best: Layout
    bound: float

    @property
    def state(self) -> State:
        return State(self.best.puts(), self.best.total(), max(self.bound, self.best.total()))

    @property
    def proven(self) -> bool:
        return self.bound - self.best.total() <= NEAR_ENOUGH * max(self.bound, 1.0)

    def offer(self, layout: Layout) -> bool:
        """Take a plan if it is better than the best; whether it was."""
        if layout.total() <= self.best.total() + NEAR_ENOUGH:
            return False
        self.best = layout
        return True


def search(asks: Sequence[Ask], beds: Sequence[Bed | None], *, patience: int) -> Iterator[State]:
    """Better and better plans, and lower and lower bounds, until the best is proven or nothing is gained.

    Stop drawing when there is no more time: the last state stands.

    Args:
        patience: after how many parts of the plan, taken up in vain one after another, the search gives up.
    """
    programme = Programme(asks, beds)
    found = Search(programme, _empty(programme), float("inf"))
    for dear_ground in (True, False):
        filled = _empty(programme)
        filled.fill_up(dear_ground)
        found.offer(filled)
    for step in (_by_limits(found), _on_a_net(found), _by_parts(found, patience)):
        for _ in step:
            yield found.state
            if found.proven:
                return


def _empty(programme: Programme) -> Layout:
    return Layout(programme, [([], {}) for _ in programme.beds])


def _by_limits(found: Search) -> Iterator[None]:
    """The programme solved, packed, and solved again with each limit that its answer passes."""
    programme = found.programme
    for _ in range(MOST_SOLVED):
        shares, bound = programme.share_out(programme.proven, whole=False)
        found.bound = min(found.bound, bound)
        yield
        if not programme.tighten(shares):
            break
    for _ in range(MOST_SOLVED):
        before = found.bound
        shares, bound = programme.share_out(programme.proven)
        found.bound = min(found.bound, bound)
        found.offer(_laid_out(programme, shares))
        yield
        if before - found.bound < LITTLE * before or not programme.tighten(shares):
            return


def _laid_out(programme: Programme, shares: Shares) -> Layout:
    layout = Layout(
        programme, [_packed(programme, shares, bed, FIRST_TRIES) for bed in range(len(programme.beds))]
    )
    layout.fill_up()
    return layout


def _packed(programme: Programme, shares: Shares, bed: int, tries: int) -> tuple[list[Want], Places]:
    """A bed packed with its shares: the wants, and the places of those that found room."""
    wants = [programme.want(kind, bed) for (kind, there), groups in sorted(shares.items()) if there == bed
             for _ in range(round(groups))]  # fmt: skip
    ground = programme.beds[bed]
    if ground is None:
        return wants, {number: [] for number in range(len(wants))}
    return wants, pack(ground, wants, tries, programme.pools[bed])


def _on_a_net(found: Search) -> Iterator[None]:
    """A small garden planned position by position; on the plan's own net that is the best there is."""
    programme = found.programme
    asks, beds = programme.asks, programme.beds
    if any(ask.group > 1 for ask in asks):
        return
    needs = [ask.need for ask in asks]
    laid = nets(beds, needs, len(asks))
    if laid is None:
        return
    answer = best_on(laid, needs, [ask.count for ask in asks], [ask.worth for ask in asks])
    if answer is None:
        return
    puts, bound = answer
    stands: list[tuple[list[Want], Places]] = [([], {}) for _ in beds]
    kinds = {kind.ask: number for number, kind in enumerate(programme.kinds)}
    for lot, bed, at in puts:
        wants, places = stands[bed]
        places[len(wants)] = [at]
        wants.append(programme.want(kinds[lot], bed))
    layout = Layout(programme, stands)
    layout.fill_up()
    found.offer(layout)
    if all(net.bed.step_m == bed.step_m for net, bed in zip(laid, beds, strict=True) if bed is not None):
        found.bound = min(found.bound, bound)
    yield


def _by_parts(found: Search, patience: int) -> Iterator[None]:
    """A few beds at a time emptied and planned anew, chosen by a seeded chance."""
    chance, stale = np.random.default_rng(1), 0
    measured = [number for number, bed in enumerate(found.programme.beds) if bed is not None]
    while stale < patience:
        many = min(len(measured), int(chance.choice(TAKEN_UP)))
        picked = sorted(int(bed) for bed in chance.choice(measured, many, replace=False))
        stale = 0 if found.offer(_taken_up(found, picked, chance)) else stale + 1
        yield


def _taken_up(found: Search, picked: Sequence[int], chance: np.random.Generator) -> Layout:
    """The best plan with some beds emptied and planned anew, with less room than the limits allow."""
    programme, best = found.programme, found.best
    fixed = {column: groups for column, groups in best.shares().items() if column[1] not in picked}
    limits: list[list[Limit]] = [[] for _ in programme.beds]
    for bed in picked:
        share = chance.uniform(LEAST_ROOM, 1.0)
        limits[bed] = [Limit(limit.takes, limit.room * share) for limit in programme.proven[bed]]
    shares, _ = programme.share_out(limits, fixed, picked, exact=ROUGHLY, seconds=BRIEFLY)
    stands = [
        _packed(programme, shares, bed, LATER_TRIES) if bed in picked else (list(old[0]), dict(old[1]))
        for bed, old in enumerate(best.stands)
    ]
    layout = Layout(programme, stands)
    layout.fill_up()
    return layout
