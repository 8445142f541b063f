"""Where a lot goes: the place somebody names, or one of the spots the matcher offers."""

from collections.abc import Mapping
from math import hypot
from typing import TYPE_CHECKING

from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import site_in
from cuttings.commands.sites import as_lit
from cuttings.commands.taping import NOWHERE, Told, ask_position
from cuttings.commands.telling import known_lot
from cuttings.errors import Refused, Unfound
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Hold, Point, Site
from cuttings.placement.offer import offers
from cuttings.placement.room import Circle, held, radius, standing
from cuttings.placement.spots import Spot, parse_spot
from cuttings.placement.wanted import Setting, Wanted
from cuttings.plants.model import Plant
from cuttings.units import plan_words

if TYPE_CHECKING:
    from cuttings.placement.match import Placed, Plan

ELSEWHERE = "elsewhere"
MOST_OFFERED = 6
NEAR_M = 0.01
"""Positions closer than this are one position: nobody plants to the centimetre."""


@frozen
class Place:
    """A site, and the position on it where one is known; ``told`` says how a tape was understood."""

    site: Site
    at: Point | None = None
    told: Told = NOWHERE


def plants_growing(desk: Desk) -> Mapping[str, Plant]:
    """The catalogue's plant for each name that grows on a site, as far as it knows them."""
    catalogue = desk.catalogue
    names = {plant.plant for site in desk.book.sites.values() for plant in site.growing}
    found = {name: catalogue.find(name).plant for name in names}
    return {name: plant for name, plant in found.items() if plant is not None}


def setting_of(desk: Desk, overlap: float = 0.0) -> Setting:
    """What the matcher must know besides the lots and the sites to choose from."""
    return Setting(
        climate=desk.climate,
        units=desk.units,
        known=plants_growing(desk),
        garden=[as_lit(desk, site) for site in desk.book.sites.values()],
        overlap=overlap,
    )


def wanted_for(desk: Desk, lot: Lot, count: int = 1, group: int = 1) -> Wanted:
    """What the matcher must know of a lot. The mother's site is the one that the lot says it came from."""
    mother = f"{lot.mother} {lot.where}".casefold()
    site = next((name for name in desk.book.sites if name.casefold() in mother), "")
    return Wanted(lot.code, known_lot(desk, lot).plant, count, site, group)


def ranked(desk: Desk, lot: Lot, site: Site | None = None, *, count: int = 1, overlap: float = 0.0) -> "Plan":
    """The best free spots for stems of the lot on each site that suits it."""
    from cuttings.placement.match import rank

    setting = setting_of(desk, overlap)
    sites = [each for each in setting.garden if site is None or each.name == site.name]
    return rank(wanted_for(desk, lot, count), sites, desk.book.holds.values(), setting)


def spot_words(desk: Desk, placed: "Placed") -> str:
    """A place in words: ``fruit row, 3 ft along and 2 ft back``."""
    if placed.spot is None:
        return placed.site
    return f"{placed.site}, {plan_words((placed.spot.x, placed.spot.y), desk.units)}"


def read_spot(desk: Desk, text: str) -> Spot:
    """The spot of an id.

    Raises:
        Unfound: there is no such spot in this garden.
    """
    try:
        return parse_spot(text, desk.book.sites.values())
    except ValueError as error:
        raise Unfound(str(error)) from None


def ask_place(desk: Desk, interview: Interview, lot: Lot) -> Place:
    """The place: by spot, by site and position, or chosen from what the matcher offers."""
    if not desk.book.sites:
        raise Refused("There are no sites yet; 'cuttings sites add' describes the first one.")
    spot = interview.given(Question("spot", "", lambda text: read_spot(desk, text)))
    if spot is not None:
        return Place(desk.book.sites[spot.site], (spot.x, spot.y))
    if interview.asking:
        offered = _ask_spot(desk, interview, lot)
        if offered is not None:
            return offered
    named = Question(
        "site", "Which site?", site_in(desk.book), tuple(Choice(name) for name in desk.book.sites)
    )
    site = interview.ask(named)
    told = ask_position(desk, interview, site)
    return Place(site, told.at, told)


def _ask_spot(desk: Desk, interview: Interview, lot: Lot) -> Place | None:
    """One of the offered spots, the lot's own held ones first, or ``None`` for somewhere else."""
    own = [hold for hold in desk.book.holds.values() if hold.lot == lot.code]
    choices = [Choice(hold.spot, f"{hold.spot}, held for it") for hold in own]
    choices += [
        Choice(placed.spot.id, spot_words(desk, placed))
        for placed in ranked(desk, lot).plan[:MOST_OFFERED]
        if placed.spot is not None
    ]
    choices.append(Choice(ELSEWHERE, "somewhere else"))
    answer = interview.ask(Question("spot", "Where does it go?", str, tuple(choices)))
    if answer == ELSEWHERE:
        return None
    spot = read_spot(desk, answer)
    return Place(desk.book.sites[spot.site], (spot.x, spot.y))


def positions(desk: Desk, lot: Lot, place: Place, count: int) -> tuple[Point, ...]:
    """A position for each stem, the first as named and the others as near to it as there is room.

    What stands too close, and stems there is no room for, are warned of.
    """
    if place.at is None:
        return ()
    from cuttings.placement.match import more_positions

    width = radius(known_lot(desk, lot).plant)
    warn_of_spot(desk, lot, place)
    kept = held(place.site, (hold for hold in desk.book.holds.values() if hold.lot != lot.code))
    more = more_positions(place.site, place.at, width, kept, count - 1)
    if len(more) < count - 1:
        left = count - 1 - len(more)
        desk.warn(f"there is no room on {place.site.name} for {left} of them at full size; thin them later.")
    return (place.at, *more)


def warn_of_site(desk: Desk, lot: Lot, site: Site) -> None:
    """Say what speaks against a site so strongly that the matcher would not offer it."""
    setting = setting_of(desk)
    lit = next(each for each in setting.garden if each.name == site.name)
    for offer in offers(wanted_for(desk, lot), [lit], setting):
        for reason in offer.fit.refused:
            desk.warn(f"{site.name} does not suit it: {reason[:1].lower()}{reason[1:]}")


def warn_of_spot(desk: Desk, lot: Lot, place: Place) -> None:
    """Say which plants, and which spots held for others, a position is too close to at full size."""
    if place.at is None:
        return
    new = Circle(*place.at, radius(known_lot(desk, lot).plant))
    others = [
        hold for hold in desk.book.holds.values() if hold.site == place.site.name and hold.lot != lot.code
    ]
    for hold in others:
        if _overlap(new, Circle(hold.x, hold.y, hold.radius_m)):
            kept = (
                "this spot is"
                if _same_spot(place.at, hold)
                else f"it comes too close to {hold.spot}, which is"
            )
            desk.warn(f"{kept} held for {hold.lot}.")
    near = [circle for circle in standing(place.site) if _overlap(new, circle)]
    if near:
        many = "another plant" if len(near) == 1 else f"{len(near)} other plants"
        desk.warn(f"at full size it will grow into {many} on {place.site.name}.")


def _overlap(one: Circle, other: Circle) -> bool:
    return hypot(one.x - other.x, one.y - other.y) < one.radius_m + other.radius_m - NEAR_M


def spots_filled(book: Book, lot: str, place: Place) -> tuple[str, ...]:
    """The held spots that a planting makes good: those at its place, whoever they were held for."""
    return tuple(
        hold.spot
        for hold in book.holds.values()
        if hold.site == place.site.name
        and (_same_spot(place.at, hold) if place.at is not None else hold.lot == lot)
    )


def _same_spot(at: Point, hold: Hold) -> bool:
    return hypot(at[0] - hold.x, at[1] - hold.y) < NEAR_M
