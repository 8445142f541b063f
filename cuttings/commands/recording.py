"""Beginnings: find, strike, layer, divide. Each writes one entry and makes one lot."""

from functools import partial
from typing import Any

import click
from attrs import evolve

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.guiding import (
    advised_cover,
    advised_dip,
    advised_heat,
    advised_medium,
    ask_pieces,
    guide_divide,
    guide_layer,
    guide_strike,
    way_of,
)
from cuttings.commands.identifying import look_twice
from cuttings.commands.naming import PLANT, Named, ask_plant
from cuttings.commands.parsing import choices, maybe, one_of, whole, words, yes_no
from cuttings.commands.photos import keep_photo
from cuttings.commands.questions import NOTE
from cuttings.commands.telling import tell_start
from cuttings.ledger import entries as e
from cuttings.nudges.goals import left_to_start
from cuttings.rules.caution import Task
from cuttings.rules.dipping import STRONGEST_PPM
from cuttings.rules.increase import likely_find_method
from cuttings.units import parse_temperature
from cuttings.words import Cover, DipForm, LayerHow, Method, Stage, Wood

METHOD = Question(
    "method", "How did it come about?", one_of(Method), tuple(Choice(m.value, m.spoken) for m in Method)
)
COUNT = Question("count", "How many stems?", whole(), default="1", allowed="a whole number from 1")
STRUCK = Question("count", "How many cuttings?", whole(), allowed="a whole number from 1")
PIECES = Question("pieces", "How many pieces?", whole(), allowed="a whole number from 1")
ROOTED = Question("rooted", "Have you seen roots on them?", yes_no, default="no", yes_no=True)
MOTHER = Question("mother", "Which is the mother plant? (Enter to skip)", words, default="")
WHERE = Question("where", "Where do they stand now? (Enter to skip)", words, default="")
WOOD = Question(
    "wood",
    "What wood is it?",
    one_of(Wood),
    choices(
        Wood,
        softwood="softwood: this year's, snaps when bent",
        semi_ripe="semi-ripe: this year's, firm at the base",
        hardwood="hardwood: a whole season old, dormant",
        basal="basal: new shoots from the crown",
        root="root: a length of root",
        leaf="leaf: a leaf with its stalk",
    ),
)
HOW = Question(
    "how",
    "How is it layered?",
    one_of(LayerHow),
    choices(
        LayerHow,
        simple="simple: one bend pegged down",
        tip="tip: the tip buried",
        mound="mound: earth heaped over the shoots",
        serpentine="serpentine: several bends of one long stem",
        air="air: wrapped above the ground",
    ),
)


def _dip(text: str) -> int | None:
    word = text.strip().casefold().removesuffix("ppm").strip()
    return None if word in ("none", "no", "0") else whole(1, STRONGEST_PPM)(word)


DIP = Question("dip", "Rooting hormone, in ppm (or none)?", _dip, default="none", allowed="PPM|none")
DIP_FORM = Question("dip-form", "Powder or liquid?", one_of(DipForm), choices(DipForm), default="powder")
MEDIUM = Question("medium", "What are they struck in?", words, default="")
COVER = Question("cover", "What covers them?", one_of(Cover), choices(Cover), default="none")


@click.command(help="Write down stems found rooted, or rooting.")
@click.argument("plant", required=False)
@click.option("--method", metavar="METHOD", help="|".join(Method))
@click.option("--count", metavar="N", help="how many stems (1)")
@click.option("--rooted", is_flag=True, help="roots have been seen")
@click.option("--mother", metavar="TEXT", help="the mother plant")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@click.option("--photo", metavar="FILE", help="a picture of the find; it is copied beside the ledger")
@global_options
@with_desk
def find(desk: Desk, **given: Any) -> None:
    interview = desk.interview(given, [PLANT, METHOD])
    method_given = interview.given(METHOD)
    named = ask_plant(desk, interview, method_given)
    method = interview.ask(_likely_first(named) if interview.asking else METHOD)
    found_before = any(lot.plant == named.name for lot in desk.book.lots.values())
    doubt = "" if found_before else look_twice(interview, named.plant, named.spoken)
    count = interview.ask(COUNT)
    rooted = method.starts_rooted or interview.ask(ROOTED)
    details = _details(interview, MOTHER, WHERE, NOTE)
    details["note"] = " ".join(filter(None, (details["note"], doubt)))
    photo = keep_photo(desk.ledger.folder, given["photo"])

    book, entry = desk.begin(
        e.Find, moves=_moves(count, rooted), method=method, photo=photo, **named.facts, **details
    )
    tell_start(desk, book.lots[entry.lot], entry, Task.FIND, doubles=not interview.asking)


def _likely_first(named: Named) -> Question[Method]:
    """The methods with the likeliest first, then those the plant is known for, then the others."""
    likely = likely_find_method(named.plant)
    order = dict.fromkeys((likely, *(way.method for way in named.plant.ways), *Method))
    choices = tuple(Choice(method.value, method.spoken) for method in order)
    return evolve(METHOD, choices=choices, default=likely.value)


@click.command(help="Write down cuttings put in to root.")
@click.argument("plant", required=False)
@click.option("--wood", metavar="WOOD", help="|".join(Wood))
@click.option("--count", metavar="N", help="how many cuttings")
@click.option("--dip", metavar="PPM|none", help="rooting hormone strength (none)")
@click.option("--dip-form", metavar="FORM", help="|".join(DipForm))
@click.option("--medium", metavar="TEXT", help="what they are struck in")
@click.option("--cover", metavar="COVER", help="|".join(Cover))
@click.option("--heat", metavar="TEMP", help="bottom heat, such as 70F or 21C")
@click.option("--mother", metavar="TEXT", help="the mother plant")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def strike(desk: Desk, **given: Any) -> None:
    interview = desk.interview(given, [PLANT, WOOD, STRUCK])
    wood_given = interview.given(WOOD)
    named = ask_plant(desk, interview, wood_given.method if wood_given else None)
    wood = interview.ask(WOOD)
    guide_strike(desk, interview, named, wood)
    count = interview.ask(_left_offered(desk, STRUCK, named, wood.method))
    way = way_of(desk, named, wood.method)
    asking = interview.asking
    dip = interview.ask(advised_dip(desk, way, DIP) if asking else DIP)
    dip_form = interview.ask(DIP_FORM) if dip else None
    medium = interview.ask(advised_medium(desk, way, MEDIUM) if asking else MEDIUM)
    usual = COVER.offering("bag" if wood.is_leafy else "none")
    cover = interview.ask(advised_cover(desk, way, wood, COVER) if asking else usual)
    _say_taken(desk, interview, dip_form, cover)
    heat = interview.ask(advised_heat(desk, way, _heat_question(desk)))
    details = _details(interview, MOTHER, WHERE, NOTE)

    book, entry = desk.begin(
        e.Strike,
        moves=_moves(count, rooted=False),
        method=wood.method,
        wood=wood,
        dip_ppm=dip,
        dip_form=dip_form,
        medium=medium,
        cover=cover,
        heat_c=heat,
        **named.facts,
        **details,
    )
    tell_start(desk, book.lots[entry.lot], entry, Task.STRIKE)


def _say_taken(desk: Desk, interview: Interview, form: DipForm | None, cover: Cover) -> None:
    """Where nobody was asked, what is written down without having been told."""
    if interview.asking:
        return
    if form is not None and interview.given(DIP_FORM) is None:
        desk.remark(f"The dip is taken to be a {form}; --dip-form says otherwise.")
    if cover is not Cover.NONE and interview.given(COVER) is None:
        desk.remark(f"They are taken to be under a {cover}; --cover says otherwise.")


@click.command(help="Write down stems pegged down or wrapped to root while still on their mother.")
@click.argument("plant", required=False)
@click.option("--how", metavar="HOW", help="|".join(LayerHow))
@click.option("--count", metavar="N", help="how many stems (1)")
@click.option("--mother", metavar="TEXT", help="the mother plant")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def layer(desk: Desk, **given: Any) -> None:
    interview = desk.interview(given, [PLANT, HOW])
    how_given = interview.given(HOW)
    named = ask_plant(desk, interview, how_given.method if how_given else None)
    method = interview.ask(HOW).method
    guide_layer(desk, interview, named, method)
    count = interview.ask(COUNT)
    details = _details(interview, MOTHER, WHERE, NOTE)

    book, entry = desk.begin(
        e.Layer, method=method, moves=_moves(count, rooted=False), **named.facts, **details
    )
    tell_start(desk, book.lots[entry.lot], entry, Task.LAYER)


@click.command(help="Write down the pieces of a clump.")
@click.argument("plant", required=False)
@click.option("--pieces", "--count", "pieces", metavar="N", help="how many pieces")
@click.option(
    "--method", metavar="METHOD", help="the kind of division, where it is not the plant's usual one"
)
@click.option("--mother", metavar="TEXT", help="the mother plant")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def divide(desk: Desk, **given: Any) -> None:
    interview = desk.interview(given, [PLANT, PIECES])
    named = ask_plant(desk, interview, Method.CROWN_DIVISION)
    usual = next((way.method for way in named.plant.ways if way.method.starts_rooted), Method.CROWN_DIVISION)
    method = interview.given(METHOD) or usual
    guide_divide(desk, interview, named, method)
    pieces = ask_pieces(desk, interview, named, _left_offered(desk, PIECES, named, method))
    details = _details(interview, MOTHER, WHERE, NOTE)

    book, entry = desk.begin(
        e.Divide, method=method, moves=_moves(pieces, rooted=True), **named.facts, **details
    )
    tell_start(desk, book.lots[entry.lot], entry, Task.DIVIDE)


def _left_offered(desk: Desk, question: Question[int], named: Named, method: Method) -> Question[int]:
    """The question for how many, with those that are left of a goal as its default."""
    left = left_to_start(desk.book, named.name, method, desk.on)
    return question.offering(str(left), "So many are left of your goal.") if left else question


def _heat_question(desk: Desk) -> Question[float | None]:
    read = maybe(partial(parse_temperature, units=desk.units))
    return Question("heat", "Bottom heat? (a temperature, or Enter for none)", read, default="")


def _details(interview: Interview, *questions: Question[str]) -> dict[str, Any]:
    return {question.name: interview.ask(question) for question in questions}


def _moves(count: int, rooted: bool) -> tuple[e.Move, ...]:
    return (e.Move(count=count, target=Stage.ROOTED if rooted else Stage.WAITING),)
