"""Sites: the places a plant can go, listed and shown. What is done with them stands in modules of its own."""

from collections import Counter
from collections.abc import Mapping
from datetime import date
from importlib import import_module
from typing import Any

import click
from attrs import asdict

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.site_questions import ask_site, which_site
from cuttings.commands.site_view import Room, room_document, show_room, width_words
from cuttings.commands.sun_words import obstacle_sentence
from cuttings.commands.taping import found_by, measured_from, position_of, tape_document
from cuttings.dates import spoken
from cuttings.ledger.book import Book
from cuttings.ledger.places import Growing, Obstacle, Site
from cuttings.placement.light import site_light, with_sun
from cuttings.show.page import Page
from cuttings.units import plan_words, show_length
from cuttings.words import PathSide, SeenFrom, Units

SUBCOMMANDS: Mapping[str, str] = {
    "show": "sites",
    "add": "site_facts",
    "growing": "site_facts",
    "point": "site_points",
    "obstacle": "site_obstacles",
    "sun": "site_sun",
    "check": "site_sun",
    "thin": "site_room",
    "fill": "site_fill",
}
"""The module of each word after ``sites``; it is imported when the word is used."""


NOTED: Mapping[str, str] = {
    "walnut": "black walnut near",
    "children": "children play there",
    "salt": "salt comes there",
    "deer": "deer come there",
    "barrier": "a root barrier round it",
}
"""What is said of a site where it is so."""


class SiteTable(click.Group):
    """The words after ``sites``; nothing is imported until one is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(SUBCOMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in SUBCOMMANDS:
            return None
        module = import_module(f"cuttings.commands.{SUBCOMMANDS[cmd_name]}")
        command = getattr(module, cmd_name)
        assert isinstance(command, click.Command)
        return command


@click.group(
    cls=SiteTable, invoke_without_command=True, help="The places a plant can go: listed, shown, added."
)
@global_options
@click.pass_context
def sites(ctx: click.Context) -> None:
    if ctx.invoked_subcommand is None:
        listed()


@with_desk
def listed(desk: Desk) -> None:
    """All sites, by area."""
    page = Page().heading("Sites", desk.garden.name if desk.garden else "")
    sites = [as_lit(desk, site) for site in desk.book.sites.values()]
    areas = sorted({site.area for site in sites})
    for area in areas:
        page.heading(area)
        for site in sites:
            if site.area == area:
                page.row("", f"{site.name}: {site_sentence(site, desk.units)}", Room(desk, site).line())
    page.row("", "No sites yet.", only_if=not areas)
    page.next_steps(
        "'cuttings sites show NAME' shows one; 'cuttings sites add NAME' adds another."
        if areas
        else "'cuttings sites add' describes the first one."
    )
    desk.answer(page, {"sites": [whole_document(desk, site) for site in sites]})


@click.command(help="Show one site.")
@click.argument("name", required=False)
@global_options
@with_desk
def show(desk: Desk, **given: Any) -> None:
    site = as_lit(desk, ask_site(desk, desk.interview(given, [which_site(desk.book)])))
    page = Page().heading(site.name, site.area)
    page.row("", site_sentence(site, desk.units))
    if site.obstacles:
        page.gap()
    for number, each in enumerate(site.obstacles, 1):
        page.row(f"Shade {number}", f"{obstacle_sentence(each, desk.units)}.")
    room = Room(desk, site)
    if site.growing:
        page.gap()
    alike = Counter(
        (_growing_sentence(plant, room), found_by(site, plant, desk.units)) for plant in site.growing
    )
    for (sentence, found), count in alike.items():
        page.row("Grows", f"{sentence}." if count == 1 else f"{count} of {sentence}.", found)
    for hold in desk.book.holds.values():
        if hold.site == site.name:
            page.row("Held", f"{hold.spot} for {hold.lot}.", found_by(site, hold, desk.units))
    show_room(page, room)
    measured = measured_from(site, desk.units)
    if measured and (site.growing or site.points):
        page.row("Tape", *measured)
    page.next_steps(
        "'cuttings sites growing NAME PLANT --at X,Y' adds a plant that stands there.",
        "'cuttings sites fill NAME PLANT' says how many more would fill it." if room.widest_m else "",
    )
    desk.answer(page, whole_document(desk, site))


def as_lit(desk: Desk, site: Site) -> Site:
    """The site with its hours of sun reckoned, where only what stands round it is known."""
    garden = desk.garden
    return site if garden is None else with_sun(site, garden.lat, garden.lon, desk.climate)


def site_sentence(site: Site, units: Units) -> str:
    light = site_light(site)
    parts = [light.replace("-", " ") if light else "light not known"]
    if site.sun_hours is not None:
        parts[0] += f" ({site.sun_hours:g} hours)"
    if site.length_m and site.depth_m:
        parts.append(f"{show_length(site.length_m, units)} by {show_length(site.depth_m, units)}")
    elif site.corners:
        parts.append(f"{len(site.corners)} corners")
    else:
        parts.append("size not known")
    parts.append(f"{site.moisture} soil, {site.drainage} drainage")
    if site.ph is not None:
        parts.append(f"pH {site.ph:g}")
    if site.max_height_m is not None:
        parts.append(f"nothing over {show_length(site.max_height_m, units)}")
    if site.path_side is not PathSide.NONE:
        parts.append(f"a path at the {site.path_side}")
    if site.wall_side is not PathSide.NONE:
        parts.append(f"a wall at the {site.wall_side}")
    if site.seen_from is not SeenFrom.FRONT:
        parts.append("seen from front and back" if site.seen_from is SeenFrom.BOTH else "seen all round")
    if site.slope:
        parts.append(f"{'rises' if site.slope > 0 else 'falls'} {abs(site.slope):g} % to the back")
    for limit in site.limits:
        stretch = " to ".join(show_length(each, units) for each in (limit.from_m, limit.to_m))
        parts.append(f"nothing over {show_length(limit.height_m, units)} from {stretch} along")
    if site.water_m is not None:
        parts.append(f"water {show_length(site.water_m, units)} away")
    parts += [words for field, words in NOTED.items() if getattr(site, field)]
    return "; ".join(parts) + "."


def _growing_sentence(plant: Growing, room: Room) -> str:
    desk, at = room.desk, ""
    if plant.x is not None and plant.y is not None:
        at = f", {plan_words((plant.x, plant.y), desk.units)}"
    since = f", planted {spoken(plant.planted, desk.on)}" if plant.planted else ""
    return f"{plant.plant}{at}{width_words(room, plant)}{since}" + (
        f" (lot {plant.lot})" if plant.lot else ""
    )


def whole_document(desk: Desk, site: Site) -> dict[str, Any]:
    """A site with its room and what will crowd there."""
    return {**site_document(desk.book, site), **room_document(desk, site)}


def site_document(book: Book, site: Site) -> dict[str, Any]:
    light = site_light(site)
    return {
        **asdict(site, value_serializer=_written),
        "light": light.value if light else None,
        "obstacles": [obstacle_document(each) for each in site.obstacles],
        "growing": [
            {**asdict(each, value_serializer=_written), "tape": tape_document(site, position_of(each))}
            for each in site.growing
        ],
        "held": [
            {
                "spot": hold.spot,
                "lot": hold.lot,
                "x": hold.x,
                "y": hold.y,
                "tape": tape_document(site, (hold.x, hold.y)),
            }
            for hold in book.holds.values()
            if hold.site == site.name
        ],
    }


def obstacle_document(obstacle: Obstacle) -> dict[str, Any]:
    leaf = obstacle.leaf
    return {
        **asdict(obstacle, value_serializer=_written),
        "leaf": [f"{month:02d}-{day:02d}" for month, day in leaf] if leaf else None,
    }


def _written(owner: object, attribute: object, value: Any) -> Any:  # noqa: ARG001
    """A value as a document has it."""
    return value.isoformat() if isinstance(value, date) else value
