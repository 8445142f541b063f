"""The fixed points of a site, to measure from by tape: named, moved and listed."""

import re
from typing import Any

import click

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.site_questions import ask_site, which_site
from cuttings.commands.taping import (
    Solved,
    Told,
    only_one_of,
    solved_on,
    tape_question,
    told_by_side,
)
from cuttings.errors import Misused
from cuttings.ledger import entries as e
from cuttings.ledger.places import FixedPoint, Point, Site
from cuttings.placement.points import fixed_points, point_named
from cuttings.show.page import Page
from cuttings.units import parse_length, plan_words
from cuttings.words import Units

_NAME = re.compile(r"[\w-]+")
WHERE = "Where is it, as x,y from the front left? (or A=3.2m B=4.75m)"


@click.command(help="Name a fixed point to measure from (a post, a tap, a corner), or list a site's points.")
@click.argument("name", required=False)
@click.argument("point", metavar="[POINT]", required=False)
@click.option("--at", metavar="X,Y", help="metres from the front left corner; below 0 outside the site")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="its distances from two points known already")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@global_options
@with_desk
def point(desk: Desk, **given: Any) -> None:
    only_one_of(given)
    if not given["point"]:
        if given["at"] or given["tape"]:
            raise Misused("Give the point a name, such as: cuttings sites point 'gate bed' tap --at 2,-1.")
        _listed(desk, ask_site(desk, desk.interview(given, [which_site(desk.book)])))
        return
    asked = () if given["tape"] else (_at_question(None, desk.units),)
    interview = desk.interview(given, (which_site(desk.book), *asked))
    site = ask_site(desk, interview)
    named = interview.ask(Question("point", "", _point_name, argument=True))
    before = point_named(site, named)
    by_tape = interview.given(tape_question(lambda text: solved_on(site, text, desk.units)))
    where = by_tape or interview.ask(_at_question(site, desk.units))
    told = (
        told_by_side(desk, interview, where, lambda at: plan_words(at, desk.units))
        if isinstance(where, Solved)
        else Told(where)
    )
    assert told.at is not None
    made = FixedPoint(name=before.name if before else named, x=told.at[0], y=told.at[1])
    book, entry = desk.write(e.PointHere, site=site.name, point=made)
    verb = "now stands" if before else "stands"
    page = told.page.next_steps(f'A tape may start there from now on: --tape "{made.name}=3.20m B=4.75m".')
    desk.recorded(
        f"{made.name} {verb} {plan_words(told.at, desk.units)} on the plan of {site.name}.",
        entry,
        page,
        by_tape=told.document,
        **_document(book.sites[site.name]),
    )


def _at_question(site: Site | None, units: Units) -> Question[Point | Solved]:
    """Where a point stands; by tape only where the site is known."""

    def read(text: str) -> Point | Solved:
        if "=" in text and site is not None:
            return solved_on(site, text, units)
        return _anywhere(text, units)

    return Question("at", WHERE, read, allowed="X,Y in metres, or --tape")


def _anywhere(text: str, units: Units) -> Point:
    """A position that may lie outside the site, to the left of its front left corner or before its front."""
    x, comma, y = text.replace("−", "-").partition(",")
    if not comma:
        raise ValueError(f"'{text}' is not a position; write it as x,y such as 1.2,-0.5 (metres).")
    return _signed(x, units), _signed(y, units)


def _signed(text: str, units: Units) -> float:
    number = text.strip()
    size = number.removeprefix("-")
    metres = parse_length(size, Units.METRIC if size[-1:].isdigit() else units)
    return -metres if number.startswith("-") else metres


def _point_name(text: str) -> str:
    if not _NAME.fullmatch(text.strip()):
        one = "-".join(re.findall(_NAME, text)) or "tap"
        raise ValueError(
            f"'{text}' cannot stand before a distance; a point's name is one word, such as {one}."
        )
    return text.strip()


def _listed(desk: Desk, site: Site) -> None:
    page = Page().heading(f"Points of {site.name}", "to measure from by tape")
    told = {each.name for each in site.points}
    for each in fixed_points(site):
        known = "" if each.name in told else "A corner of its front, known without being told."
        page.row(each.name, f"{plan_words((each.x, each.y), desk.units)}.", known)
    page.row("", "None, for its size is not known.", only_if=not fixed_points(site))
    page.next_steps("'cuttings sites point NAME POINT --at X,Y' names another: a post, a tap, a corner.")
    desk.answer(page, _document(site))


def _document(site: Site) -> dict[str, Any]:
    told = {each.name for each in site.points}
    return {
        "site": site.name,
        "points": [
            {"name": each.name, "x": each.x, "y": each.y, "told": each.name in told}
            for each in fixed_points(site)
        ],
    }
