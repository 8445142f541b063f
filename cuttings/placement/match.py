"""Lots matched to spots: one lot over all sites, or many lots at once without getting in each other's way.

A score is the fit of a plant and a site. Where on the site a plant stands is settled by room first, then by
what its neighbours would say of it (``company``): that decides between positions, never between sites.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from math import dist

import numpy as np
from attrs import define, field, frozen

from cuttings.ledger.places import Hold, Point, Site
from cuttings.placement.bed import Bed, Floats
from cuttings.placement.company import Companion, Regard, growing_on, regards
from cuttings.placement.fit import Fit
from cuttings.placement.layout import search
from cuttings.placement.offer import Offer, no_room, offers
from cuttings.placement.packing import Order, Packing, Want, first_by
from cuttings.placement.programme import Ask, Put, State
from cuttings.placement.room import Circle, Position, bed_of, held
from cuttings.placement.spots import Spot, spot_at
from cuttings.placement.wanted import Need, Setting, Stance, Wanted

HELD = "This spot is held for it already."
NO_SITES = "No site has been described yet."

ROUNDS_A_BED, MOST_ROUNDS = 20, 400

LOOKED_OVER = 120
"""How many positions on a site are looked over for what the neighbours would say."""


@frozen
class Placed:
    """A place for one stem of a lot; ``spot`` is ``None`` where the size of the site is not known."""

    lot: str
    site: str
    spot: Spot | None
    score: float
    for_: tuple[str, ...] = ()
    against: tuple[str, ...] = ()


@frozen
class RefusedSite:
    """A site that will not take a lot, or no more of it, and why. ``site`` is empty where there is none."""

    lot: str
    site: str
    because: tuple[str, ...]
    would_fit_if: str = ""


@frozen
class Plan:
    """Places found and refused. ``gap`` is the share of ``bound`` that ``total`` falls short of it."""

    plan: tuple[Placed, ...]
    refused: tuple[RefusedSite, ...]
    total: float
    bound: float
    gap: float


def rank(wanted: Wanted, sites: Sequence[Site], holds: Iterable[Hold], setting: Setting) -> Plan:
    """The best free spots for a lot on each site that suits it, the best site first.

    Args:
        holds: spots kept already, for this lot or another; none of them is offered again.

    Returns:
        The places to choose from, on each site as many as there are stems wanted; ``total`` and ``bound`` are
        the score of the best.
    """
    kept, placed, refused = list(holds), [], []
    for offer in offers(wanted, sites, setting):
        occupied = held(offer.site, kept)
        bed = bed_of(offer.site, occupied, overlap=setting.overlap)
        if bed is not None and not _has_room(bed, wanted):
            refused.append(_refused(wanted, offer.refused(no_room(offer, bed.widest()))))
        elif not offer.fit.allowed:
            refused.append(_refused(wanted, offer.fit))
        else:
            placed += [_placed(offer, None, [])] if bed is None else _best_spots(offer, bed)
    if not sites:
        refused.append(RefusedSite(wanted.lot, "", (NO_SITES,)))
    best = placed[0].score if placed else 0.0
    return Plan(tuple(placed), tuple(refused), best, best, 0.0)


def _has_room(bed: Bed, wanted: Wanted) -> bool:
    return Packing(bed, {}).place(Want(0, wanted.need), first_by(Stance.FRONT, bed)) is not None


def _best_spots(offer: Offer, bed: Bed) -> list[Placed]:
    """As many spots on one site as are wanted, each clear of the others, the best for its neighbours
    first."""
    wanted, site = offer.wanted, offer.site
    there = growing_on(site, offer.setting.known)
    packing, found = Packing(bed, {}), []
    for _ in range(wanted.count):
        want = Want(0, wanted.need, stance=offer.stance)
        at = packing.place(want, _kindly(offer, bed, there))
        if at is None:
            break
        spot = spot_at(site, *at[0], wanted.need.radius_m)
        found.append(_placed(offer, spot, there))
    return found


def _kindly(offer: Offer, bed: Bed, there: Sequence[Companion]) -> Order:
    """Positions in the order of a plant's stance, those that do its neighbours harm after the others."""
    by_stance = first_by(offer.stance, bed)

    def order(at: Floats) -> Floats:
        keys = by_stance(at)
        first = np.argsort(keys, kind="stable")
        ranks = np.empty(len(at))
        ranks[first] = np.arange(len(at))
        for number in first[:LOOKED_OVER]:
            harm = sum(not each.good for each in _regards(offer, (at[number, 0], at[number, 1]), there))
            ranks[number] += harm * len(at)
        ranks[first[LOOKED_OVER:]] += len(at)
        return ranks

    return order if there else by_stance


def _companion(offer: Offer, at: Point) -> Companion:
    wanted = offer.wanted
    return Companion(wanted.plant.name, at[0], at[1], wanted.need.radius_m, wanted.plant)


def _regards(offer: Offer, at: Point, there: Sequence[Companion]) -> list[Regard]:
    return regards(_companion(offer, at), there, offer.site, offer.setting.climate.lat)


def _placed(offer: Offer, spot: Spot | None, there: Sequence[Companion]) -> Placed:
    found = _regards(offer, (spot.x, spot.y), there) if spot else []
    suits = offer.fit
    return Placed(
        lot=offer.wanted.lot,
        site=suits.site,
        spot=spot,
        score=suits.score,
        for_=(*suits.for_, *_once(each.said for each in found if each.good)),
        against=(*suits.against, *_once(each.said for each in found if not each.good)),
    )


def _once(sentences: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(sentences))


def _refused(wanted: Wanted, suits: Fit) -> RefusedSite:
    return RefusedSite(wanted.lot, suits.site, suits.refused, suits.would_fit_if)


@define(slots=False, eq=False)
class Joint:
    """A spot for every stem of many lots, no two overlapping more than is allowed.

    ``states`` draws better and better plans and lower and lower bounds, and ``plan`` tells any of them in
    full. Lots and sites may come in any order. Spots that are held for a wanted lot are its first places.
    """

    wanteds: Sequence[Wanted]
    sites: Sequence[Site]
    holds: Sequence[Hold]
    setting: Setting
    _lots: list[Wanted] = field(init=False)
    _sites: list[Site] = field(init=False)

    def __attrs_post_init__(self) -> None:
        self._lots = sorted(self.wanteds, key=lambda wanted: wanted.lot)
        self._sites = sorted(self.sites, key=lambda site: site.name)

    def states(self) -> Iterator[State]:
        """The search, state by state; stop drawing when there is no more time."""
        asks = [self._ask(number) for number in range(len(self._lots))]
        yield from search(asks, self._beds, patience=self._patience)

    @property
    def _patience(self) -> int:
        """How many parts of the plan are taken up in vain before the search gives up: every bed in turn, with
        several others, and no more of a large garden than there is time for."""
        return min(ROUNDS_A_BED * sum(bed is not None for bed in self._beds), MOST_ROUNDS)

    @cached_property
    def _offers(self) -> list[dict[str, Offer]]:
        return [
            {offer.site.name: offer for offer in offers(wanted, self._sites, self.setting)}
            for wanted in self._lots
        ]

    @cached_property
    def _own(self) -> list[list[Hold]]:
        """The spots held for each lot, as many as it has stems."""
        return [
            [hold for hold in self.holds if hold.lot == wanted.lot][: wanted.count] for wanted in self._lots
        ]

    @cached_property
    def _beds(self) -> list[Bed | None]:
        return [self._bed(site) for site in self._sites]

    def _bed(self, site: Site, more: Sequence[Circle] = ()) -> Bed | None:
        occupied = [*held(site, self.holds), *more]
        return bed_of(site, occupied, overlap=self.setting.overlap)

    def _ask(self, number: int) -> Ask:
        wanted, found = self._lots[number], self._offers[number]
        return Ask(
            need=wanted.need,
            count=wanted.count - len(self._own[number]),
            worth=tuple(found[site.name].fit.score for site in self._sites),
            stances=tuple(found[site.name].stance for site in self._sites),
            group=wanted.group,
        )

    @cached_property
    def _held(self) -> list[list[Placed]]:
        """The places on spots that are held already, lot by lot."""
        return [
            [self._on_hold(wanted, hold, self._offers[number].get(hold.site)) for hold in self._own[number]]
            for number, wanted in enumerate(self._lots)
        ]

    def _on_hold(self, wanted: Wanted, hold: Hold, offer: Offer | None) -> Placed:
        suits = offer.fit if offer else Fit(hold.site, 0.0)
        spot = Spot(hold.spot, hold.site, hold.x, hold.y, hold.radius_m)
        against = (*suits.refused, *suits.against)
        return Placed(wanted.lot, hold.site, spot, suits.score, (HELD, *suits.for_), against)

    def plan(self, state: State) -> Plan:
        """A state told in full: the places in the order of the lots as they were given, and for a lot with
        stems left over why each site takes no more."""
        fixed = sum(placed.score for mine in self._held for placed in mine)
        puts = {number: [put for put in state.puts if put.ask == number] for number in range(len(self._lots))}
        told = {
            wanted.lot: self._told(number, puts[number], state) for number, wanted in enumerate(self._lots)
        }
        left = {
            wanted.lot: self._left_over(number, wanted.count - len(told[wanted.lot]), state)
            for number, wanted in enumerate(self._lots)
        }
        total, bound = state.total + fixed, state.bound + fixed
        return Plan(
            plan=tuple(placed for wanted in self.wanteds for placed in told[wanted.lot]),
            refused=tuple(refused for wanted in self.wanteds for refused in left[wanted.lot]),
            total=total,
            bound=bound,
            gap=max(bound - total, 0.0) / bound if bound else 0.0,
        )

    def _told(self, number: int, puts: Sequence[Put], state: State) -> list[Placed]:
        found = list(self._held[number])
        for put in puts:
            site = self._sites[put.bed]
            offer = self._offers[number][site.name]
            spot = spot_at(site, *put.at, offer.wanted.need.radius_m) if put.at else None
            there = [each for each in self._company(site, state) if not spot or (each.x, each.y) != put.at]
            found.append(_placed(offer, spot, there))
        return sorted(found, key=lambda placed: -placed.score)

    def _company(self, site: Site, state: State) -> list[Companion]:
        """What grows on a site, and what the plan puts there."""
        number = self._sites.index(site)
        new = [
            _companion(self._offers[put.ask][site.name], put.at)
            for put in state.puts
            if put.bed == number and put.at is not None
        ]
        return [*growing_on(site, self.setting.known), *new]

    def _left_over(self, number: int, left: int, state: State) -> list[RefusedSite]:
        """Why stems are left without a place, site by site."""
        wanted = self._lots[number]
        if left <= 0:
            return []
        if not self._sites:
            return [RefusedSite(wanted.lot, "", (NO_SITES,))]
        found = []
        for offer in sorted(self._offers[number].values(), key=lambda offer: offer.preference):
            bed = self._filled(offer.site, state)
            full = bed is not None and not _has_room(bed, wanted)
            lone = offer.fit.allowed and not full  # there is room for one of them, though not for a group
            if bed is not None and (full or lone):
                found.append(_refused(wanted, offer.refused(no_room(offer, bed.widest(), left))))
            else:
                found.append(_refused(wanted, offer.fit))
        return found

    def _filled(self, site: Site, state: State) -> Bed | None:
        number = self._sites.index(site)
        placed = [
            Circle(*put.at, self._lots[put.ask].need.radius_m)
            for put in state.puts
            if put.bed == number and put.at is not None
        ]
        return self._bed(site, placed)


def more_positions(
    site: Site, first: Point, radius_m: float, occupied: Sequence[Circle], count: int
) -> list[Position]:
    """The free positions nearest to a first one on the same site, for planting a group.

    Args:
        first: the position of the first plant, in metres; ground taken from then on.
        occupied: ground taken besides what is written down as growing there.
        count: how many more are wanted.

    Returns:
        At most that many, the nearest first, none overlapping; fewer where the room runs out.
    """
    bed = bed_of(site, [*occupied, Circle(*first, radius_m)])
    if bed is None:
        return []
    middle = np.array(first)
    packing, want = Packing(bed, {}), Want(0, Need(radius_m))
    group: list[Position] = []
    for _ in range(count):
        at = packing.place(want, lambda pool: np.round(np.hypot(*(pool - middle).T), 6))
        if at is None:
            break
        group += at
    return sorted(group, key=lambda place: (round(dist(place, first), 6), place))
