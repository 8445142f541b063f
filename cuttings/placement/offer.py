"""What each site has to offer one lot: how it fits, how much room a plant takes, and where on it one
belongs."""

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

from attrs import define

from cuttings.ledger.places import Site
from cuttings.placement.fit import Fit, judged, verdicts
from cuttings.placement.outline import plot
from cuttings.placement.room import UNKNOWN_RADIUS_M, radius, reach_over, unmeasured
from cuttings.placement.verdict import FOR, NOT_SAID, REFUSED, Question, Verdict
from cuttings.placement.wanted import Setting, Stance, Wanted
from cuttings.plants.model import Plant
from cuttings.units import METRES, show_length, show_span
from cuttings.words import SeenFrom, Units

TALL_M = 0.9
"""A plant of this height goes to the back, a lower one to the front, where nothing is known of its
neighbours; from memory. That low plants stand before tall ones is common practice."""

LEAST_SHARE = 0.5
"""Nobody keeps a plant to less than about half the width it wants to grow to; from memory."""

REACHES_OVER = 0.8


@define(slots=False, eq=False)
class Offer:
    """One site for one lot: every verdict, and where on the site the plant belongs by its height."""

    wanted: Wanted
    site: Site
    setting: Setting
    verdicts: tuple[Verdict, ...]
    stance: Stance

    @cached_property
    def fit(self) -> Fit:
        return judged(self.site.name, self.verdicts)

    @cached_property
    def preference(self) -> tuple[float, float, str]:
        """The order of offers: the best fit first, then the smaller site, so that wide ground stays free for
        wide plants, then by name."""
        ground = plot(self.site)
        return -self.fit.score, ground.area_m2 if ground else math.inf, self.site.name

    def refused(self, *more: Verdict) -> Fit:
        """The fit with further refusals."""
        return judged(self.site.name, (*self.verdicts, *more))


def offers(wanted: Wanted, sites: Iterable[Site], setting: Setting) -> list[Offer]:
    """What every site offers a lot, refused ones too, best first."""
    found = []
    for site in sites:
        neighbours = setting.growing_on(site)
        asked = Question(
            wanted.plant, site, setting.climate, setting.units, wanted.mother_site, neighbours,
            setting.growing_about(site),
        )  # fmt: skip
        stance = stance_of(wanted.plant, site, neighbours)
        place = _of_its_place(wanted.plant, site, setting.units, stance)
        found.append(Offer(wanted, site, setting, (*verdicts(asked), *place), stance))
    return sorted(found, key=lambda offer: offer.preference)


def stance_of(plant: Plant, site: Site, neighbours: Sequence[Plant] = ()) -> Stance:
    """Where a plant belongs: behind the others if it is taller than the middle of them, or else than
    ``TALL_M``; on a bed that is seen all round, in its middle."""
    if plant.height_m is None:
        return Stance.FRONT
    heights = sorted(sum(each.height_m) / 2 for each in neighbours if each.height_m)
    limit = heights[len(heights) // 2] if heights else TALL_M
    if sum(plant.height_m) / 2 < limit:
        return Stance.FRONT
    return Stance.BACK if site.seen_from is SeenFrom.FRONT else Stance.MIDDLE


def no_room(offer: Offer, free_radius_m: float, left: int = 1) -> Verdict:
    """The refusal of a site with no place left for a number of stems.

    Args:
        free_radius_m: the radius of about the largest plant that could still stand there.
    """
    units, wide = offer.setting.units, 2 * offer.wanted.need.radius_m
    across = show_length(wide, units)
    many = f"{left} more plants, each {across} across" if left > 1 else f"a plant {across} across"
    unit = METRES["in"] if units is Units.US else METRES["cm"]
    free = math.floor(2 * free_radius_m / unit) * unit
    change = f"if it were kept under {show_length(free, units)} across" if free >= LEAST_SHARE * wide else ""
    return Verdict(f"There is no room left for {many}.", REFUSED, change)


def _of_its_place(plant: Plant, site: Site, units: Units, stance: Stance) -> Iterator[Verdict]:
    yield from _of_height(plant, site, stance, units)
    yield from _of_width(plant, units)
    yield from _of_reach(plant, site, units)
    yield from of_room(site, units)


def _of_height(plant: Plant, site: Site, stance: Stance, units: Units) -> Iterator[Verdict]:
    if plant.height_m is None or plot(site) is None:
        return
    where = {
        Stance.BACK: "as far back as there is room",
        Stance.FRONT: "as far forward as there is room",
        Stance.MIDDLE: "near the middle line, seen from all sides",
    }[stance]
    yield Verdict(f"At {show_span(*plant.height_m, units)} tall it stands {where}.", FOR)
    yield from _of_limits(plant.height_m, site, units)


def _of_limits(tall: tuple[float, float], site: Site, units: Units) -> Iterator[Verdict]:
    """What is said of the stretches with a height limit of their own."""
    for limit in site.limits:
        if tall[0] > limit.height_m:
            stretch = f"{show_length(limit.from_m, units)} to {show_length(limit.to_m, units)} along"
            most = show_length(limit.height_m, units)
            yield Verdict(
                f"It keeps clear of the stretch {stretch}, where nothing over {most} may stand.", FOR
            )


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


def of_room(site: Site, units: Units) -> Iterator[Verdict]:
    """What is not known of the room on a site, whatever is to stand there."""
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
