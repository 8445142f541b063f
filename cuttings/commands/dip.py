"""Dip: how strong a rooting hormone, and how much stock and water or talc make it. It records nothing."""

from typing import Any

import click
from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.dip_view import (
    Answer,
    Told,
    document_of,
    no_hormone_page,
    page_of,
)
from cuttings.commands.naming import ask_plant
from cuttings.commands.parsing import choices, one_of, yes_no
from cuttings.commands.recording import WOOD
from cuttings.errors import Misused, Unfound
from cuttings.rules.dipping import (
    NOTHING,
    CannotBeMade,
    Dilution,
    advise_dip,
    check_strength,
    dilute,
    doubts,
    mixing,
    treatment,
)
from cuttings.rules.strengths import EXAMPLES, Parts, parse_strength, parse_wanted
from cuttings.units import parse_mass, parse_volume
from cuttings.words import DipForm, Units, Wood

FORM = Question(
    "form",
    "Is the hormone a liquid or a powder?",
    one_of(DipForm),
    choices(DipForm, liquid="liquid: thinned with water", powder="powder: thinned with talc"),
    default="liquid",
)
SOAK = Question(
    "soak",
    "Are they to stand in it for hours?",
    yes_no,
    default="no",
    why="A dip of seconds is the usual way.",
    yes_no=True,
)
ORIGIN = Question(
    "strength-from",
    "How strong is it to be?",
    str,
    (
        Choice("plant", "as advised for a plant"),
        Choice("wood", "as advised for a kind of wood"),
        Choice("own", "I know how strong"),
    ),
    default="plant",
)
ENOUGH = {
    DipForm.LIQUID: {Units.US: "4floz", Units.METRIC: "100mL"},
    DipForm.POWDER: {Units.US: "1oz", Units.METRIC: "25g"},
}
"""What serves one session at the bench; common practice."""


@frozen
class Wanted:
    """A strength that the stock can give; ``parts`` where it was said so."""

    ppm: float
    parts: Parts | None = None


@click.command(help="How strong a rooting hormone, and what to mix for it. Nothing is recorded.")
@click.argument("plant", required=False)
@click.option("--stock", metavar="STRENGTH", help="the stock's strength: 10000ppm, 1%, 10g/L; powder 8g/kg")
@click.option("--want", metavar="STRENGTH", help="the strength wanted, or '1 part stock to 9 parts water'")
@click.option("--make", metavar="AMOUNT", help="how much to make: 250mL or 8floz; powder 50g or 2oz")
@click.option("--wood", metavar="WOOD", help=f"{'|'.join(Wood)}, for the strength advised")
@click.option("--form", metavar="FORM", help=f"{'|'.join(DipForm)} (liquid)")
@click.option("--soak", is_flag=True, help="a weak solution that they stand in for hours")
@global_options
@with_desk
def dip(desk: Desk, **given: Any) -> None:
    said = DipForm.POWDER if str(given["form"]).strip().casefold() == "powder" else DipForm.LIQUID
    wants = [] if given["wood"] else [_want(said, 0.0, soak=False)]
    interview = desk.interview(given, [_stock(said), *wants, _make(desk, said, 0.0, 0.0)])
    form = interview.ask(FORM)
    if form is DipForm.POWDER and given["soak"]:
        raise Misused("--soak is for a liquid; a powder is only touched with the base.")
    soak = form is DipForm.LIQUID and interview.ask(SOAK)
    told = _told(desk, interview, given, soak=soak)
    if told.advice is not None and told.advice.value == NOTHING and not given["want"]:
        desk.answer(no_hormone_page(desk, told), document_of(desk, form, told))
        return
    stock_ppm = interview.ask(_stock(form))
    wanted = interview.ask(_offered(_want(form, stock_ppm, soak=soak), told))
    if wanted is None:
        desk.answer(no_hormone_page(desk, told), document_of(desk, form, told))
        return
    mix = interview.ask(_make(desk, form, stock_ppm, wanted.ppm))
    answer = Answer(
        told=told,
        mix=mix,
        parts=wanted.parts,
        mixing=mixing(form, soak=soak),
        treatment=treatment(form, wanted.ppm, soak=soak),
        doubts=doubts(mix, told.advised, told.wood, soak=soak),
    )
    desk.answer(page_of(desk, answer), document_of(desk, form, told, answer))


def _stock(form: DipForm) -> Question[float]:
    what = "stock" if form is DipForm.LIQUID else "powder you have"
    return Question(
        "stock",
        f"How strong is the {what}, by its label?",
        lambda text: parse_strength(text, form),
        allowed=EXAMPLES[form],
    )


def _want(form: DipForm, stock_ppm: float, *, soak: bool) -> Question[Wanted | None]:
    """The strength wanted; one that this stock cannot give is asked again."""

    def read(text: str) -> Wanted | None:
        wanted = parse_wanted(text, form)
        if wanted is None:
            return None
        parts = wanted if isinstance(wanted, Parts) else None
        ppm = wanted.strength_ppm(stock_ppm) if isinstance(wanted, Parts) else wanted
        try:
            check_strength(form, stock_ppm, ppm)
            treatment(form, ppm, soak=soak)
        except CannotBeMade as error:
            raise Unfound(str(error)) from None
        return Wanted(ppm, parts)

    return Question(
        "want",
        "How strong is the dip to be? (or none)",
        read,
        allowed="2000ppm, or --wood for the strength advised",
    )


def _offered(question: Question[Wanted | None], told: Told) -> Question[Wanted | None]:
    if told.advice is None:
        return question
    return question.offering(f"{told.advice.value.ppm}ppm", f"{told.advice.why} The label comes first.")


def _make(desk: Desk, form: DipForm, stock_ppm: float, strength_ppm: float) -> Question[Dilution]:
    """How much to make; what cannot be measured, or is too much, is asked again."""

    def read(text: str) -> Dilution:
        made = parse_volume(text, desk.units) * 1000 if liquid else parse_mass(text, desk.units)
        try:
            return dilute(form, stock_ppm, strength_ppm, made)
        except CannotBeMade as error:
            raise Unfound(str(error)) from None

    liquid = form is DipForm.LIQUID
    question = Question(
        "make",
        "How much is to be made?",
        read,
        allowed="250mL or 8floz" if liquid else "50g or 2oz",
    )
    if desk.asker is None:
        return question
    return question.offering(
        ENOUGH[form][desk.units], "Enough for one session; make it fresh, for what is thinned does not keep."
    )


def _told(desk: Desk, interview: Interview, given: dict[str, Any], *, soak: bool) -> Told:
    """The plant and the wood, where they were given or are asked for, and the strength advised for them."""
    origin = _origin(interview, given)
    wood_given = interview.given(WOOD)
    method = wood_given.method if wood_given else None
    named = ask_plant(desk, interview, method) if given["plant"] or origin == "plant" else None
    wood = interview.ask(WOOD) if wood_given or origin != "own" else None
    if wood is None:
        return Told(named)
    own = named.plant.way(wood.method) if named else None
    called = named.spoken if named else ""
    general = desk.catalogue.way(wood.method)
    return Told(named, wood, advise_dip(wood, general, own, called=called, soak=soak))


def _origin(interview: Interview, given: dict[str, Any]) -> str:
    """Where the strength is to come from."""
    if not interview.asking or given["want"]:
        return "own"
    if given["plant"]:
        return "plant"
    return "wood" if given["wood"] else interview.ask(ORIGIN)
