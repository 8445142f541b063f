"""Beds with what grows there, what is held, and what is offered, as plans to be drawn."""

from collections.abc import Iterator, Sequence
from itertools import product
from string import ascii_lowercase

from cuttings.commands.desk import Desk
from cuttings.ledger.places import Point, Site
from cuttings.placement.company import direction
from cuttings.placement.outline import plot
from cuttings.placement.points import tape_words
from cuttings.placement.room import full_radius
from cuttings.show.bed_plan import BedPlan, Growth, Ring
from cuttings.units import METRES, plan_words, show_length
from cuttings.words import PathSide, SeenFrom, Units


def bed_plan(desk: Desk, site: Site, offered: Sequence[tuple[Point, float, str]]) -> BedPlan | None:
    """The plan of a site; ``None`` where its size is not known.

    Args:
        offered: for each spot its position, its radius and what would stand there, in their order.
    """
    if plot(site) is None:
        return None
    unit = "ft" if desk.units is Units.US else "m"
    return BedPlan(
        name=site.name,
        outline=site.outline,
        rings=[*_growing(desk, site), *_offered(desk, site, offered)],
        unit_m=METRES[unit],
        unit=unit,
        north=None if site.facing is None else direction(0.0, site.facing),
        notes=list(_notes(site, desk.units)),
    )


def _growing(desk: Desk, site: Site) -> Iterator[Ring]:
    signs = ("".join(letters) for size in (1, 2) for letters in product(ascii_lowercase, repeat=size))
    for each in site.growing:
        if each.x is not None and each.y is not None:
            words = f"{each.plant}, lot {each.lot}" if each.lot else each.plant
            yield Ring(each.x, each.y, full_radius(each), Growth.GROWN, next(signs), words)
    for hold in desk.book.holds.values():
        if hold.site == site.name:
            lot = desk.book.lots[hold.lot]
            words = f"held for {hold.lot} {lot.plant_called}"
            yield Ring(hold.x, hold.y, hold.radius_m, Growth.HELD, next(signs), words)


def _offered(desk: Desk, site: Site, offered: Sequence[tuple[Point, float, str]]) -> Iterator[Ring]:
    for number, (at, radius_m, what) in enumerate(offered, 1):
        tape = tape_words(site, at, desk.units)
        words = f"{what}, {plan_words(at, desk.units)}" + (f"; tape {tape}" if tape else "")
        yield Ring(*at, radius_m, Growth.OFFERED, str(number), words)


def _notes(site: Site, units: Units) -> Iterator[str]:
    if site.seen_from is not SeenFrom.FRONT:
        yield "It is seen from " + ("front and back." if site.seen_from is SeenFrom.BOTH else "all round.")
    if site.path_side is not PathSide.NONE:
        yield f"A path runs along the {site.path_side}{_kept(site.setback_m, units)}."
    elif site.setback_m:
        yield f"Room is kept along every edge{_kept(site.setback_m, units)}."
    if site.wall_side is not PathSide.NONE:
        yield f"A wall stands along the {site.wall_side}{_kept(site.wall_gap_m, units)}."
    for limit in site.limits:
        stretch = f"{show_length(limit.from_m, units)} to {show_length(limit.to_m, units)}"
        yield f"From {stretch} along, nothing over {show_length(limit.height_m, units)} may stand."


def _kept(room_m: float, units: Units) -> str:
    return f", {show_length(room_m, units)} of it kept free" if room_m else ""
