"""The sun on a site: its hours and its skyline, and what would change if something came or went."""

from datetime import date
from typing import Any

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawings import write_drawing
from cuttings.commands.placing import plants_growing
from cuttings.commands.site_check_view import check_document, check_page
from cuttings.commands.site_obstacles import DETAILS, ask_obstacle, needed, obstacle_options
from cuttings.commands.site_questions import ask_site, which_site
from cuttings.commands.site_sun_view import Answer, sun_document, sun_page, sun_svg
from cuttings.dates import parse_date
from cuttings.errors import Misused, Refused
from cuttings.ledger.places import Garden
from cuttings.placement.shading import changed_by, costs
from cuttings.placement.sun import day_of_sun, light_season, year_of_sun


def _garden(desk: Desk) -> Garden:
    if desk.garden is None:
        raise Refused("The sun needs to know where the garden lies; 'cuttings garden' asks for it.")
    return desk.garden


@click.command(help="The hours of direct sun on a site, and its skyline.")
@click.argument("name", required=False)
@click.option("--date", "day", metavar="DATE", help="tell of one day too")
@click.option("--svg", metavar="FILE", help="write the skyline as a drawing")
@global_options
@with_desk
def sun(desk: Desk, day: str | None, svg: str | None, **given: Any) -> None:
    on = _day(day, desk.today)
    site = ask_site(desk, desk.interview(given, [which_site(desk.book)]))
    garden = _garden(desk)
    answer = Answer(
        site=site,
        lat=garden.lat,
        lon=garden.lon,
        season=light_season(garden.lat, desk.climate),
        year=year_of_sun(garden.lat, garden.lon, site.obstacles),
        on=on,
        of_day=None if on is None else day_of_sun(garden.lat, garden.lon, site.obstacles, on),
    )
    if svg is not None:
        write_drawing(svg, sun_svg(answer, desk.units))
    page = sun_page(answer, desk.units, desk.on)
    if svg is not None:
        page.gap()
    page.row("Drawn", f"{svg} holds the skyline as a drawing.", only_if=svg is not None)
    page.next_steps(
        f"'cuttings sites check \"{site.name}\"' says what each of them costs, or a new one would."
        if site.obstacles
        else f"'cuttings sites obstacle \"{site.name}\"' writes down what keeps the sun off."
    )
    desk.answer(page, sun_document(answer))


def _day(text: str | None, today: date) -> date | None:
    if text is None:
        return None
    try:
        return parse_date(text, today)
    except ValueError as error:
        raise Misused(f"--date: {error}") from None


@click.command(
    short_help="what each obstacle costs, or a new one would",
    help="What each obstacle costs a site in sun; with the options of an obstacle, what a new one would "
    "change.",
)
@click.argument("name", required=False)
@obstacle_options
@global_options
@with_desk
def check(desk: Desk, **given: Any) -> None:
    asks = any(given[name] is not None for name in DETAILS)
    required = [which_site(desk.book), *(needed(given, desk.units) if asks else ())]
    interview = desk.interview(given, required)
    site = ask_site(desk, interview)
    new = ask_obstacle(desk, interview, given) if asks else None
    garden = _garden(desk)
    found = costs(garden.lat, garden.lon, site.obstacles, desk.climate)
    change = None
    if new is not None:
        plants = [(each.plant, plants_growing(desk).get(each.plant)) for each in site.growing]
        known = {name: plant for name, plant in plants if plant is not None}
        change = changed_by(new, garden.lat, garden.lon, site.obstacles, desk.climate, known)
    desk.answer(check_page(desk, site, found, change), check_document(site, found, change))
