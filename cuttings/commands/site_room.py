"""Room made on a site: a plant that came from no lot taken off it."""

from typing import Any

import click

from cuttings.ask import Choice, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.site_questions import ask_site, at_question, which_site
from cuttings.commands.sites import whole_document
from cuttings.errors import Refused, Unfound
from cuttings.ledger import entries as e
from cuttings.ledger.places import Growing, Point, Site
from cuttings.show.page import Page
from cuttings.words import listed

NEAR_M = 0.25
"""A plant no further than this from a named position is the one that is meant: nobody measures nearer."""


@click.command(help="Take a plant that came from no lot off a site's plan.")
@click.argument("name", required=False)
@click.argument("plant", required=False)
@click.option("--at", metavar="X,Y", help="which of several, by its position")
@global_options
@with_desk
def thin(desk: Desk, **given: Any) -> None:
    at = desk.interview(given, []).given(at_question(desk.units))
    asked = [which_site(desk.book), _which(desk, None, None)]
    interview = desk.interview(given, asked if at is None else asked[:1])
    site = ask_site(desk, interview)
    plant = interview.ask(_which(desk, site, at))
    place = None if plant.x is None or plant.y is None else (plant.x, plant.y)
    _, entry = desk.write(e.Thinned, site=site.name, plant=plant.plant, at=place)
    site = desk.book.sites[site.name]
    steps = Page().next_steps(
        f"'cuttings divide \"{plant.plant}\"' or 'cuttings find \"{plant.plant}\"' if it becomes a new lot.",
        f"'cuttings sites growing NAME \"{plant.plant}\"' if it stands elsewhere now.",
    )
    desk.recorded(
        f"{_label(plant)} is off the plan of {site.name}.", entry, steps, **whole_document(desk, site)
    )


def _which(desk: Desk, site: Site | None, at: Point | None) -> Question[Any]:
    """The question for the plant; before the site is known it only says what is missing."""
    return Question(
        "plant",
        "Which plant comes off?",
        lambda text: _meant(desk, site, text, at) if site else text,
        tuple(Choice(_label(each)) for each in site.growing if not each.lot) if site else (),
        argument=True,
        default=None if at is None else "",
        allowed="a plant that grows there",
        nothing=f"Nothing that came from no lot grows on {site.name}." if site else "",
    )


def _label(plant: Growing) -> str:
    """A plant as it is picked from several: ``Salvia@1.20,0.45``, or its name where nobody measured."""
    return plant.plant if plant.x is None else f"{plant.plant}@{plant.x:.2f},{plant.y:.2f}"


def _meant(desk: Desk, site: Site, text: str, at: Point | None) -> Growing:
    """The one plant of a site that is meant by a name, a label or a position.

    Raises:
        Unfound: none is, or several are.
        Refused: it came from a lot, whose end has a command of its own.
    """
    found = [each for each in site.growing if _label(each) == text.strip()] or _named(desk, site, text)
    if at is not None:
        near = sorted((_distance(each, at), number) for number, each in enumerate(found))
        found = [found[number] for distance, number in near if distance <= NEAR_M][:1]
    if not found:
        there = listed([_label(each) for each in site.growing]) if site.growing else "nothing"
        raise Unfound(f"No such plant grows there on {site.name}. What grows on it: {there}.")
    own = [each for each in found if not each.lot]
    if not own:
        raise Refused(_of_a_lot(found[0], site))
    if len(set(own)) > 1:
        raise Unfound(f"That may be {' or '.join(_label(each) for each in own)}; say which with --at X,Y.")
    return own[0]


def _named(desk: Desk, site: Site, text: str) -> list[Growing]:
    """The plants of a site by a botanical or common name or a part of it; every one for an empty text."""
    wanted, find = text.strip().casefold(), desk.catalogue.find

    def called(plant: Growing) -> list[str]:
        known = find(plant.plant).plant
        return [plant.plant, *(known.common if known else ())]

    found = [each for each in site.growing if any(wanted in name.casefold() for name in called(each))]
    if found:
        return found
    meant = find(text).plant
    return [each for each in site.growing if meant is not None and each.plant == meant.name]


def _distance(plant: Growing, at: Point) -> float:
    if plant.x is None or plant.y is None:
        return float("inf")
    return float(((plant.x - at[0]) ** 2 + (plant.y - at[1]) ** 2) ** 0.5)


def _of_a_lot(plant: Growing, site: Site) -> str:
    return (
        f"{_label(plant)} on {site.name} came from lot {plant.lot}; "
        f"'cuttings lose {plant.lot} --stage planted --count 1 --cause unknown' records its end."
    )
