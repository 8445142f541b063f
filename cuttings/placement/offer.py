"""What each site has to offer one lot: how it fits, how much room a plant takes, and the spots in order."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import repeat

from attrs import field, frozen
from attrs.validators import ge

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Site
from cuttings.placement.fit import Fit, fit, with_verdict
from cuttings.placement.outline import plot
from cuttings.placement.reasons import FOR, NOT_SAID, REACHES_OVER, REFUSED, Verdict
from cuttings.placement.room import (
    UNKNOWN_RADIUS_M,
    Circle,
    each_free,
    radius,
    reach_over,
    unmeasured,
    widest_free,
)
from cuttings.placement.spots import Spot, spot_at
from cuttings.plants.model import Plant
from cuttings.units import METRES, show_length, show_span
from cuttings.words import Units

TALL_M = 0.9
"""A plant of this height goes to the back, a lower one to the front, where nothing is known of its
neighbours; from memory. That low plants stand before tall ones is common practice."""

LEAST_SHARE = 0.5
"""Nobody keeps a plant to less than about half the width it wants to grow to; from memory."""


@frozen
class Wanted:
    """Stems of one lot that need a place each."""

    lot: str
    plant: Plant
    count: int = field(default=1, validator=ge(0))
    mother_site: str = ""


@frozen
class Offer:
    """One site for one lot: its fit, the plant's mature radius, and from which side places are filled."""

    site: Site
    fit: Fit
    radius_m: float
    from_back: bool

    @property
    def preference(self) -> tuple[float, float, str]:
        """The order of offers: the best fit first, then the smaller site, so that wide ground stays free for
        wide plants, then by name."""
        ground = plot(self.site)
        return -self.fit.score, ground.area_m2 if ground else math.inf, self.site.name

    def spots(self, occupied: Sequence[Circle]) -> Iterator[Spot | None]:
        """The free spots, best first: the tall from the back and the low from the front, each row filled from
        the left so that no room is lost. ``None`` over and over where the size of the site is not known.

        ``occupied`` may grow while they are drawn.
        """
        if plot(self.site) is None:
            yield from repeat(None)
        for x, y in each_free(self.site, self.radius_m, occupied, from_back=self.from_back):
            yield spot_at(self.site, x, y, self.radius_m)


def offers(
    wanted: Wanted,
    sites: Iterable[Site],
    climate: Climate,
    units: Units,
    known: Mapping[str, Plant],
) -> list[Offer]:
    """What every site offers a lot, refused ones too, best first.

    Args:
        known: the catalogue's plant for each name that grows on a site, as far as it knows them.
    """
    found = []
    for site in sites:
        neighbours = [known[each.plant] for each in site.growing if each.plant in known]
        suits = fit(wanted.plant, site, climate, units, mother_site=wanted.mother_site, neighbours=neighbours)
        from_back = goes_to_back(wanted.plant, neighbours)
        for verdict in _of_its_place(wanted.plant, site, units, from_back):
            suits = with_verdict(suits, verdict)
        found.append(Offer(site, suits, radius(wanted.plant), from_back))
    return sorted(found, key=lambda offer: offer.preference)


def goes_to_back(plant: Plant, neighbours: Sequence[Plant] = ()) -> bool:
    """Whether a plant belongs behind the others: taller than the middle of them, or else than ``TALL_M``."""
    if plant.height_m is None:
        return False
    heights = sorted(sum(each.height_m) / 2 for each in neighbours if each.height_m)
    limit = heights[len(heights) // 2] if heights else TALL_M
    return sum(plant.height_m) / 2 >= limit


def no_room(offer: Offer, occupied: Sequence[Circle], units: Units, left: int = 1) -> Verdict:
    """The refusal of a site with no place left for a number of stems."""
    across = show_length(2 * offer.radius_m, units)
    many = f"{left} more plants, each {across} across" if left > 1 else f"a plant {across} across"
    unit = METRES["in"] if units is Units.US else METRES["cm"]
    free = math.floor(2 * widest_free(offer.site, occupied) / unit) * unit
    change = (
        f"if it were kept under {show_length(free, units)} across"
        if free >= LEAST_SHARE * 2 * offer.radius_m
        else ""
    )
    return Verdict(f"There is no room left for {many}.", REFUSED, change)


def _of_its_place(plant: Plant, site: Site, units: Units, from_back: bool) -> Iterator[Verdict]:
    yield from _of_height(plant, site, from_back, units)
    yield from _of_width(plant, units)
    yield from _of_reach(plant, site, units)
    yield from _of_room(site, units)


def _of_height(plant: Plant, site: Site, from_back: bool, units: Units) -> Iterator[Verdict]:
    if plant.height_m is None or plot(site) is None:
        return
    where = "back" if from_back else "forward"
    span = show_span(*plant.height_m, units)
    yield Verdict(f"At {span} tall it stands as far {where} as there is room.", FOR)


def _of_width(plant: Plant, units: Units) -> Iterator[Verdict]:
    across = show_length(2 * radius(plant), units)
    if plant.spread_m is None:
        yield Verdict(f"Nobody has said how wide it grows; room for {across} is kept.", NOT_SAID)
    elif plant.levels.get("spread_m") == "type":
        kind = plant.type.replace("-", " ")
        yield Verdict(
            f"Nobody has said how wide it grows; {across} is a general figure for a {kind}.", NOT_SAID
        )


def _of_reach(plant: Plant, site: Site, units: Units) -> Iterator[Verdict]:
    if over := reach_over(site, radius(plant)):
        edge = show_length(over * radius(plant), units)
        yield Verdict(f"The bed is narrow for it: it will grow up to {edge} over the edge.", REACHES_OVER)


def _of_room(site: Site, units: Units) -> Iterator[Verdict]:
    if plot(site) is None:
        yield Verdict(f"Nobody has measured {site.name}, so its room is not known.", NOT_SAID)
        return
    if hidden := len(unmeasured(site)):
        have = "1 plant here has" if hidden == 1 else f"{hidden} plants here have"
        them = "it" if hidden == 1 else "them"
        yield Verdict(f"{have} no position: measure {them} to know the room that is left.", NOT_SAID)
    if vague := len([each for each in site.growing if not each.spread_m]):
        have = "1 plant here has" if vague == 1 else f"{vague} plants here have"
        kept = show_length(2 * UNKNOWN_RADIUS_M, units)
        yield Verdict(f"{have} no width written down; {kept} across is kept for each.", NOT_SAID)
