"""Lots matched to spots: one lot over all sites, or many lots at once without getting in each other's way.

``joint`` is a plain rule: the lots with the fewest places choose first, the widest of them before the
others, and every stem takes the best place left. ``bound`` is what the total would be if every stem stood
where it would do best with the garden to itself; nothing can beat that, so ``gap`` says how far short of the
best the plan can be at most.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import islice
from math import hypot

from attrs import Factory, define, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Hold, Point, Site
from cuttings.placement.fit import Fit, with_verdict
from cuttings.placement.offer import Offer, Wanted, no_room, offers
from cuttings.placement.room import Circle, Position, free_positions, held
from cuttings.placement.spots import Spot
from cuttings.plants.model import Plant
from cuttings.words import Units

__all__ = ["Placed", "Plan", "RefusedSite", "Wanted", "joint", "more_positions", "rank"]

HELD = "This spot is held for it already."
NO_SITES = "No site has been described yet."


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


def rank(
    wanted: Wanted,
    sites: Sequence[Site],
    holds: Iterable[Hold],
    climate: Climate,
    units: Units,
    *,
    known: Mapping[str, Plant] | None = None,
) -> Plan:
    """The best free spot for one stem of a lot on each site that suits it, best first.

    Args:
        holds: spots kept already, for this lot or another; none of them is offered again.
        known: the catalogue's plant for each name that grows on a site, as far as it knows them.

    Returns:
        The places to choose from; ``total`` and ``bound`` are the score of the best.
    """
    kept, placed, refused = list(holds), [], []
    for offer in offers(wanted, sites, climate, units, known or {}):
        occupied = held(offer.site, kept)
        suits = _as_it_stands(offer, occupied, units)
        if suits.refused:
            refused.append(_refused(wanted, suits))
        else:
            placed.append(_placed(wanted, suits, next(offer.spots(occupied))))
    if not sites:
        refused.append(RefusedSite(wanted.lot, "", (NO_SITES,)))
    best = placed[0].score if placed else 0.0
    return Plan(tuple(placed), tuple(refused), best, best, 0.0)


@define
class _Search:
    """One lot on its way to its places; ``open`` are the offers with room for it had it the garden alone."""

    wanted: Wanted
    offers: list[Offer]
    open: list[Offer]
    own: list[Hold]
    placed: list[Placed] = Factory(list)

    @property
    def turn(self) -> tuple[int, float, str]:
        return len(self.open), -self.offers[0].radius_m if self.offers else 0.0, self.wanted.lot

    @property
    def left(self) -> int:
        return self.wanted.count - len(self.placed)

    @property
    def best_alone(self) -> float:
        return max([0.0, *(each.fit.score for each in self.open), *(each.score for each in self.placed)])

    def take_own(self) -> None:
        """Put stems on the spots that are held for the lot already."""
        fits = {offer.site.name: offer.fit for offer in self.offers}
        for hold in self.own[: self.wanted.count]:
            suits = fits.get(hold.site) or Fit(hold.site, 0.0)
            self.placed.append(
                Placed(
                    lot=self.wanted.lot,
                    site=hold.site,
                    spot=Spot(hold.spot, hold.site, hold.x, hold.y, hold.radius_m),
                    score=suits.score,
                    for_=(HELD, *suits.for_),
                    against=(*suits.refused, *suits.against),
                )
            )

    def take_best(self, taken: dict[str, list[Circle]]) -> None:
        """Put each stem that is left on the best spot there is, and mark the ground as taken."""
        for offer in self.open:
            occupied = taken[offer.site.name]
            for spot in islice(offer.spots(occupied), self.left):
                self.placed.append(_placed(self.wanted, offer.fit, spot))
                if spot is not None:
                    occupied.append(Circle(spot.x, spot.y, spot.radius_m))

    def refusals(self, taken: Mapping[str, Sequence[Circle]], units: Units) -> list[RefusedSite]:
        """Why stems are left without a place, site by site."""
        if not self.left:
            return []
        if not self.offers:
            return [RefusedSite(self.wanted.lot, "", (NO_SITES,))]
        return [
            _refused(self.wanted, _as_it_stands(offer, taken[offer.site.name], units, self.left))
            for offer in self.offers
        ]


def joint(
    wanteds: Sequence[Wanted],
    sites: Sequence[Site],
    holds: Iterable[Hold],
    climate: Climate,
    units: Units,
    *,
    known: Mapping[str, Plant] | None = None,
) -> Plan:
    """A spot for every stem of many lots, no two overlapping.

    Args:
        holds: spots kept already; those of a wanted lot are its first places.
        known: the catalogue's plant for each name that grows on a site, as far as it knows them.

    Returns:
        The places in the order of the lots; for a lot with stems left over, why each site takes no more.
    """
    kept = list(holds)
    taken = {site.name: held(site, kept) for site in sites}
    searches = [_search(wanted, offers(wanted, sites, climate, units, known or {}), taken, kept)
                for wanted in wanteds]  # fmt: skip
    for search in searches:
        search.take_own()
    for search in sorted(searches, key=lambda each: each.turn):
        search.take_best(taken)
    placed = tuple(each for search in searches for each in search.placed)
    total = sum(each.score for each in placed)
    bound = max(sum(search.best_alone * search.wanted.count for search in searches), total)
    return Plan(
        plan=placed,
        refused=tuple(each for search in searches for each in search.refusals(taken, units)),
        total=total,
        bound=bound,
        gap=(bound - total) / bound if bound else 0.0,
    )


def _search(
    wanted: Wanted, found: list[Offer], taken: Mapping[str, Sequence[Circle]], holds: Sequence[Hold]
) -> _Search:
    roomy = [offer for offer in found
             if offer.fit.allowed and any(True for _ in offer.spots(taken[offer.site.name]))]  # fmt: skip
    return _Search(wanted, found, roomy, [hold for hold in holds if hold.lot == wanted.lot])


def _as_it_stands(offer: Offer, occupied: Sequence[Circle], units: Units, left: int = 1) -> Fit:
    """The fit of an offer, refused where no place is left for it."""
    if _has_room(offer, occupied):
        return offer.fit
    return with_verdict(offer.fit, no_room(offer, occupied, units, left))


def _has_room(offer: Offer, occupied: Sequence[Circle]) -> bool:
    return any(True for _ in offer.spots(occupied))


def _placed(wanted: Wanted, suits: Fit, spot: Spot | None) -> Placed:
    return Placed(wanted.lot, suits.site, spot, suits.score, suits.for_, suits.against)


def _refused(wanted: Wanted, suits: Fit) -> RefusedSite:
    return RefusedSite(wanted.lot, suits.site, suits.refused, suits.would_fit_if)


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
    taken = [*occupied, Circle(*first, radius_m)]
    near = sorted(
        free_positions(site, radius_m, taken),
        key=lambda at: (round(hypot(at[0] - first[0], at[1] - first[1]), 6), at),
    )
    group: list[Position] = []
    for x, y in near:
        if len(group) == count:
            break
        if all(hypot(x - other[0], y - other[1]) >= 2 * radius_m - 1e-9 for other in group):
            group.append((x, y))
    return group
