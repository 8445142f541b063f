"""Sites described, and what grows on them written down."""

from contextlib import suppress
from typing import Any

import click
from attrs import asdict

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.naming import PLANT, ask_plant
from cuttings.commands.parsing import choices, filled, maybe, number, one_of, words, yes_no
from cuttings.commands.site_questions import (
    ask_site,
    at_question,
    corners,
    height_limits,
    length_question,
    which_site,
)
from cuttings.commands.sites import as_lit, site_sentence, whole_document
from cuttings.commands.taping import Told, ask_position, only_one_of
from cuttings.dates import parse_date
from cuttings.errors import Cancelled, Misused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.places import Site
from cuttings.placement.light import LIMITS, site_light
from cuttings.show.page import Page
from cuttings.words import Drainage, Light, Moisture, PathSide, SeenFrom, Units

NAME = Question("name", "What is the site called?", filled, argument=True, allowed="a name")
NOT_KNOWN = "not-known"


def _light(text: str) -> Light | str:
    """A class of light, or the word for none: what stands round the site then says how bright it is."""
    return NOT_KNOWN if "-".join(text.casefold().split()) == NOT_KNOWN else one_of(Light)(text)


LIGHT = Question(
    "light",
    "How much light does it get?",
    _light,
    (*choices(
        Light,
        full_sun=f"full sun: {LIMITS.full_sun_h:g} hours or more of direct sun in summer",
        part_sun=f"part sun: {LIMITS.part_sun_h:g} to {LIMITS.full_sun_h:g} hours",
        part_shade=f"part shade: {LIMITS.part_shade_h:g} to {LIMITS.part_sun_h:g} hours",
        shade=f"shade: less than {LIMITS.part_shade_h:g} hours",
    ), Choice(NOT_KNOWN, "I do not know: let what stands round it tell")),
)  # fmt: skip
SUN_HOURS = Question("sun-hours", "Hours of direct sun?", number(0, 24, "a number of hours"))
MOISTURE = Question(
    "moisture", "How wet is it in a normal summer?", one_of(Moisture), choices(Moisture), default="medium"
)
DRAINAGE = Question(
    "drainage", "How does water leave it?", one_of(Drainage), choices(Drainage), default="good"
)
PH = Question("ph", "Soil pH? (Enter if not known)", maybe(number(2, 11, "a pH")), default="")
PATH = Question(
    "path-side",
    "A path along which side, as you look at it?",
    one_of(PathSide),
    choices(PathSide),
    default="none",
)
WALNUT = Question("walnut", "Is a black walnut near (its roots poison many plants)?", yes_no, default="no",
                  yes_no=True)  # fmt: skip
CHILDREN = Question("children", "Do children play there?", yes_no, default="no", yes_no=True)
SALT = Question("salt", "Does road salt or salt wind come there?", yes_no, default="no", yes_no=True)
DEER = Question("deer", "Do deer come there?", yes_no, default="no", yes_no=True)
WALL = Question(
    "wall-side",
    "A wall or fence along which side?",
    one_of(PathSide),
    choices(PathSide),
    default="none",
)


@click.command(help="Describe a place a plant can go, or describe it anew.")
@click.argument("name", required=False)
@click.option("--area", metavar="TEXT", help="the part of the garden; a new one is made")
@click.option("--light", metavar="LIGHT", help="|".join([*Light, NOT_KNOWN]))
@click.option("--sun-hours", metavar="H", help="hours of direct sun a day in the growing season")
@click.option("--length", metavar="LEN")
@click.option("--depth", metavar="LEN")
@click.option("--corners", metavar='"x,y x,y ..."', help="corners in metres from the front left")
@click.option("--facing", metavar="BEARING", help="degrees clockwise from true north")
@click.option("--moisture", metavar="MOISTURE", help="|".join(Moisture))
@click.option("--drainage", metavar="DRAINAGE", help="|".join(Drainage))
@click.option("--ph", metavar="N")
@click.option("--max-height", metavar="LEN", help="the tallest a plant may grow there")
@click.option("--path-side", metavar="SIDE", help="|".join(PathSide))
@click.option("--setback", metavar="LEN", help="room to leave along the path")
@click.option("--wall-side", metavar="SIDE", help="a wall or fence there: " + "|".join(PathSide))
@click.option("--wall-gap", metavar="LEN", help="room to leave along the wall, for its footing and eaves")
@click.option("--seen-from", metavar="SIDE", help="|".join(SeenFrom))
@click.option("--slope", metavar="PERCENT", help="its rise from front to back; below 0 where it falls")
@click.option(
    "--limit",
    metavar='"FROM TO HEIGHT"',
    multiple=True,
    help="a stretch along it with a height limit, as under a window; may be repeated",
)
@click.option("--water", metavar="LEN", help="how far the nearest tap or butt is")
@click.option("--walnut", is_flag=True, help="a black walnut is near")
@click.option("--children", is_flag=True, help="children play there")
@click.option("--salt", is_flag=True, help="road salt or salt wind comes there")
@click.option("--deer", is_flag=True, help="deer come there")
@click.option("--barrier", is_flag=True, help="a root barrier holds what runs")
@global_options
@with_desk
def add(desk: Desk, **given: Any) -> None:
    if given["light"] and given["sun_hours"]:
        raise Misused("Give either --light or --sun-hours.")
    if given["corners"] and (given["length"] or given["depth"]):
        raise Misused("Give either --corners, or --length and --depth.")
    given["limit"] = "; ".join(given["limit"]) or None
    before = _known_site(desk.book, given["name"])
    told = f"So far: {', '.join(desk.book.areas)}." if desk.book.areas else ""
    area = Question("area", "In which part of the garden?", filled, why=told, allowed="a name")
    interview = desk.interview(given, [NAME] if before else [NAME, area])
    name = _known_name(desk.book.sites, interview.ask(NAME))
    before = before or _known_site(desk.book, name)
    if before is not None:
        interview.say(f"{before.name} is described already; Enter keeps what stands in brackets.")
    facts = {"name": name, **_ask_site_facts(desk, interview, area, before)}

    _, entry = desk.write(e.SiteFacts, site=Site(**facts))
    site = as_lit(desk, desk.book.sites[facts["name"]])
    if interview.asking:
        with suppress(Cancelled):  # the site is recorded; stopping here only ends the list
            _ask_growing(desk, interview, site)
        site = as_lit(desk, desk.book.sites[facts["name"]])
    steps = Page().next_steps("'cuttings spot LOT' asks where a lot could go.")
    desk.recorded(
        f"{site.name}: {site_sentence(site, desk.units)}", entry, steps, **whole_document(desk, site)
    )


def _ask_site_facts(
    desk: Desk, interview: Interview, area: Question[str], before: Site | None
) -> dict[str, Any]:
    """The facts of a site; of one described already, what is not told anew stays as it was."""
    units = desk.units
    old = asdict(before, recurse=False) if before else {}

    def told(field: str, question: Question[Any], unit: str = "m") -> Any:
        """The answer; for a known site the old fact is offered, and holds where nobody is asked."""
        if not old:
            return interview.ask(question)
        if not interview.asking:
            answer = interview.given(question)
            return old[field] if answer is None else answer
        return interview.ask(question.offering(_typed(old[field], unit)))

    facts: dict[str, Any] = {"area": _known_name(desk.book.areas, told("area", area))}
    facts.update(_ask_light(interview, before))
    facts["corners"] = interview.given(Question("corners", "", corners(units))) or old.get("corners", ())
    facts["facing"] = interview.given(Question("facing", "", number(0, 360, "a bearing")))
    if facts["facing"] is None:
        facts["facing"] = old.get("facing")
    for field, option, prompt in _SIZES:
        if not facts["corners"]:
            facts[field] = told(field, length_question(option, prompt, units, 0.05))
    facts["moisture"], facts["drainage"] = told("moisture", MOISTURE), told("drainage", DRAINAGE)
    facts["ph"] = told("ph", PH, unit="")
    facts["max_height_m"] = told("max_height_m", length_question("max-height", "A height limit", units, 0.05))
    facts["path_side"] = told("path_side", PATH)
    setback = length_question("setback", "Room to leave along the path", units)
    asks = facts["path_side"] is not PathSide.NONE
    facts["setback_m"] = (told("setback_m", setback) if asks else interview.given(setback)) or 0.0
    facts["wall_side"] = told("wall_side", WALL)
    for field, question in (("walnut", WALNUT), ("children", CHILDREN), ("salt", SALT), ("deer", DEER)):
        facts[field] = told(field, question)
    return {**facts, **_given_facts(interview, old, units)}


def _given_facts(interview: Interview, old: dict[str, Any], units: Units) -> dict[str, Any]:
    """The facts that nobody is asked for: as an option tells them, or as they were."""
    told = {
        "wall_gap_m": interview.given(length_question("wall-gap", "", units)),
        "seen_from": interview.given(Question("seen-from", "", one_of(SeenFrom))),
        "slope": interview.given(Question("slope", "", number(-200, 200, "a slope in percent"))),
        "water_m": interview.given(length_question("water", "", units)),
        "barrier": interview.given(Question("barrier", "", yes_no)),
        "limits": interview.given(Question("limit", "", height_limits(units))),
    }
    kept = {field: old[field] for field in told if field in old}
    return kept | {field: fact for field, fact in told.items() if fact is not None}


_SIZES = (("length_m", "length", "How long is it"), ("depth_m", "depth", "How deep is it, front to back"))


def _ask_light(interview: Interview, before: Site | None) -> dict[str, Any]:
    """The light as a class or as hours of sun, whichever was told last."""
    hours, light = interview.given(SUN_HOURS), interview.given(LIGHT)
    if hours is None and light is None and interview.asking:
        usual = site_light(before) if before else None
        light = interview.ask(LIGHT.offering(usual or NOT_KNOWN) if before else LIGHT)
    if hours is None and light is None and before is not None:
        return {"light": before.light, "sun_hours": before.sun_hours}
    told = isinstance(light, Light) and hours is None
    return {"light": light if told else None, "sun_hours": hours}


def _typed(fact: Any, unit: str) -> str:
    """A fact as one would type it, to be offered again; a number with its unit."""
    if fact is None:
        return ""
    if isinstance(fact, bool):
        return "yes" if fact else "no"
    return f"{fact:g}{unit}" if isinstance(fact, float) else str(fact)


def _known_site(book: Book, name: str | None) -> Site | None:
    return book.sites.get(_known_name(book.sites, name)) if name else None


def _known_name(known: Any, name: str) -> str:
    """The name as it is already written somewhere, where it differs only in case."""
    return next((old for old in known if old.casefold() == name.casefold()), name)


def _ask_growing(desk: Desk, interview: Interview, site: Site) -> None:
    prompt = "What grows there already? (a plant; Enter when there is no more)"
    while name := interview.ask(Question("growing", prompt, words, default="")):
        asked = Interview({"plant": name}, [PLANT, at_question(desk.units)], interview.asker)
        _, told = _record_growing(desk, asked, site)
        for sentence in told.sentences:
            interview.say(sentence)


@click.command(help="Write down a plant that grows on a site already.")
@click.argument("name", required=False)
@click.argument("plant", required=False)
@click.option("--at", metavar="X,Y", help="position in metres from the front left corner")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="or its tape distances from two points of the site")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@click.option("--spread", metavar="LEN", help="its full-grown width, where it differs from the catalogue's")
@click.option("--planted", metavar="DATE")
@global_options
@with_desk
def growing(desk: Desk, **given: Any) -> None:
    only_one_of(given)
    at = [] if given["tape"] else [at_question(desk.units)]
    interview = desk.interview(given, [which_site(desk.book), PLANT, *at])
    site = ask_site(desk, interview)
    entry, told = _record_growing(desk, interview, site)
    site = as_lit(desk, desk.book.sites[site.name])
    desk.recorded(
        f"{site.growing[-1].plant} grows on {site.name}.",
        entry,
        told.page,
        by_tape=told.document,
        **whole_document(desk, site),
    )


def _record_growing(desk: Desk, interview: Interview, site: Site) -> tuple[e.Entry, Told]:
    named = ask_plant(desk, interview)
    told = ask_position(desk, interview, site)
    usual = sum(named.plant.spread_m) / 2 if named.plant.spread_m else None
    width = length_question("spread", f"How wide will {named.spoken} grow", desk.units, 0.01)
    spread = interview.ask(width) or usual
    planted = interview.given(Question("planted", "", lambda text: parse_date(text, desk.today)))

    _, entry = desk.write(
        e.GrowingHere, site=site.name, plant=named.name, at=told.at, spread_m=spread, planted=planted
    )
    return entry, told
