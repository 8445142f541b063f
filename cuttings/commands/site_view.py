"""How much room a site has, what grows there how wide, and what will crowd: in words and as a document."""

from collections.abc import Mapping
from datetime import date
from functools import cached_property
from typing import Any

from attrs import define

from cuttings.commands.crowd_words import crowd_words, known_on, remedy_words
from cuttings.commands.desk import Desk
from cuttings.ledger.places import Growing, Site
from cuttings.placement.cover import Cover, cover
from cuttings.placement.crowding import Crowd, Standing, crowding, kept_spot, remedy
from cuttings.placement.crowding import standing_plant as standing
from cuttings.placement.growth import full_grown_on, years_to_full
from cuttings.placement.room import held, widest_free
from cuttings.plants.model import Plant
from cuttings.show.page import Page
from cuttings.units import show_area, show_length
from cuttings.words import Units

MOST_CROWDS = 6
"""So many are told on a page; the document has them all."""

SHARES: Mapping[float, str] = {
    0.1: "a tenth free",
    0.25: "a quarter free",
    1 / 3: "a third free",
    0.5: "half free",
    2 / 3: "two thirds free",
    0.75: "three quarters free",
    0.9: "nine tenths free",
}
NEARLY = 0.03
"""A share as near as this to nothing or to all is called so."""


@define(slots=False)
class Room:
    """The room of one site on the desk's day."""

    desk: Desk
    site: Site

    @cached_property
    def known(self) -> Mapping[str, Plant]:
        return known_on(self.desk, self.site)

    @cached_property
    def cover(self) -> Cover | None:
        return cover(self.site, self.desk.book.holds.values())

    @cached_property
    def widest_m(self) -> float | None:
        """About how wide the widest plant may grow that still fits whole; ``None`` for a site of no size."""
        if self.cover is None:
            return None
        return 2 * widest_free(self.site, held(self.site, self.desk.book.holds.values()))

    @cached_property
    def spots(self) -> list[Standing]:
        book, found = self.desk.book, []
        for hold in book.holds.values():
            lot = book.lots.get(hold.lot)
            if hold.site == self.site.name and lot is not None:
                plant = self.desk.catalogue.find(lot.plant).plant
                found.append(kept_spot(hold, lot.plant, plant, self.desk.on))
        return found

    @cached_property
    def crowds(self) -> tuple[Crowd, ...]:
        return crowding(self.site, self.spots, self.desk.on, self.known)

    def width_now(self, plant: Growing) -> float:
        """How wide a plant is today, in metres."""
        return 2 * standing(plant, self.known.get(plant.plant)).radius_on(self.desk.on)

    def line(self) -> str:
        """The room in one line: ``two thirds free (6 of 9 m²); 1 spot held; crowding from 2029``."""
        parts = [_share_words(self.cover, self.desk.units)] if self.cover else []
        kept = len(self.spots)
        parts += [f"{kept} spot{'s' * (kept > 1)} held"] * bool(kept)
        if self.crowds:
            first = self.crowds[0]
            parts.append("crowded already" if first.now else f"crowding from {first.year}")
        return "; ".join(parts)


def _share_words(ground: Cover, units: Units) -> str:
    free, area = show_area(ground.free_m2, units).split(" ")[0], show_area(ground.area_m2, units)
    if ground.free_share < NEARLY:
        return f"full ({area})"
    if ground.free_share > 1.0 - NEARLY:
        return f"all free ({area})"
    nearest = min(SHARES, key=lambda share: abs(share - ground.free_share))
    return f"{SHARES[nearest]} ({free} of {area})"


def width_words(room: Room, plant: Growing) -> str:
    """How wide a plant is now and will be, as a part of a sentence; empty where nobody knows."""
    if not plant.spread_m:
        return ""
    units, known = room.desk.units, room.known.get(plant.plant)
    full, now = show_length(plant.spread_m, units), show_length(round(room.width_now(plant), 2), units)
    if plant.planted is None or now == full:
        return f", {full} across full grown"
    return f", about {now} across now, {full} full grown by {full_grown_on(known, plant.planted)}"


def show_room(page: Page, room: Room) -> None:
    """The rows that tell of a site's room and of what will crowd."""
    units, ground = room.desk.units, room.cover
    if ground is None:
        page.row("Room", "Its size is not known, so its room cannot be told.")
    else:
        taken = f"{show_area(ground.grown_m2, units)} under what grows there, full grown"
        kept = f", {show_area(ground.held_m2, units)} held" if ground.held_m2 else ""
        page.row("Room", f"{_share_words(ground, units)}; {taken}{kept}.", _fits(room))
    unsure = sum(each.x is None for each in room.site.growing)
    if unsure:
        several = "1 plant has" if unsure == 1 else f"{unsure} plants have"
        page.row("", f"{several} no position here, so nobody can say what they will grow into.")
    if not room.crowds:
        return
    page.heading("What will crowd", "an estimate, at full size and the usual pace")
    for crowd in room.crowds[:MOST_CROWDS]:
        when, pace = "now" if crowd.now else str(crowd.year), _pace(crowd) if room.desk.why else ""
        page.row(when, crowd_words(crowd, units), remedy_words(crowd, room.desk.on), pace)
    left = len(room.crowds) - MOST_CROWDS
    page.row("", f"And {left} more; --json lists them all.", only_if=left > 0)


def _fits(room: Room) -> str:
    if not room.widest_m or room.widest_m < 0.05:
        return "No further plant fits whole."
    wide = show_length(round(room.widest_m, 1) or round(room.widest_m, 2), room.desk.units)
    return f"The widest plant that still fits whole grows about {wide} across."


def _pace(crowd: Crowd) -> str:
    """How long each takes to grow up, and who says so."""
    both = [each for each in (crowd.plant, crowd.other) if each is not None]
    return "; ".join(dict.fromkeys(f"{each.name}: {_pace_of(each)}" for each in both))


def _pace_of(plant: Standing) -> str:
    if plant.planted is None:
        return "nobody has said when it was planted, so it counts as full grown"
    years = years_to_full(plant.known)
    return f"full grown in {years.years:g} years or so ({years.source})"


def room_document(desk: Desk, site: Site) -> dict[str, Any]:
    """The room of a site as documents have it; areas are ``None`` where its size is not known."""
    room = Room(desk, site)
    areas = ("area_m2", "free_m2", "held_m2", "grown_m2")
    return {
        **{area: round(getattr(room.cover, area), 2) if room.cover else None for area in areas},
        "widest_free_m": None if room.widest_m is None else round(room.widest_m, 2),
        "crowding": [_crowd_document(crowd, desk.on) for crowd in room.crowds],
    }


def _crowd_document(crowd: Crowd, today: date) -> dict[str, Any]:
    other = crowd.other
    which, way = remedy(crowd, today)
    return {
        "plant": crowd.plant.name,
        "at": list(crowd.plant.at) if crowd.plant.at else None,
        "against": crowd.against.value,
        "other": other.name if other else None,
        "other_at": list(other.at) if other and other.at else None,
        "spot": (other.held or None) if other else None,
        "year": crowd.year,
        "now": crowd.now,
        "overlap_m": round(crowd.overlap_m, 2),
        "do": way.value,
        "to": which.name,
    }
