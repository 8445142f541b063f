"""The interview at the potting bench: every question has a recommended answer and its reason."""

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import click

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import free_pots, pot_in, warn_if_short
from cuttings.commands.parsing import maybe, whole, words
from cuttings.commands.questions import NOTE, how_many, taken, which_lot
from cuttings.commands.telling import cautions_said, known_lot, lot_document, next_page, say_clean, stems
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.knowledge import Known
from cuttings.nudges.labelled import label_of
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Advice
from cuttings.rules.aftercare import shade_days, trim
from cuttings.rules.caution import Task
from cuttings.rules.pots import Pot as PotSize
from cuttings.rules.pots import alike, several
from cuttings.rules.potting import ready_to_pot, recommend_depth, recommend_mix, recommend_pot
from cuttings.rules.seasons import is_hardy
from cuttings.show.page import Page
from cuttings.units import parse_length, show_length, show_volume
from cuttings.words import Stage, Units

T = TypeVar("T")

PENCIL = Advice("", "Pencil on a label outlasts ink.", COMMON_PRACTICE)

FEW_ROOTS_M = 0.05
"""A longest root under two inches is a small one for a top of any size; from memory."""


@click.command(help="Pot rooted stems, with advice at every question.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many (all that have rooted)")
@click.option(
    "--pot", metavar="POT", help="4in, 9cm square, #1, SP4, 2L, 72-cell tray or a name from 'cuttings pots'"
)
@click.option("--mix", metavar="TEXT", help="what they are potted in")
@click.option("--depth", metavar="LEN", help="how deep they are set")
@click.option("--spread", metavar="LEN", help="how wide the roots are across")
@click.option("--shade", metavar="DAYS", help="days of shade")
@click.option("--label", metavar="TEXT", help="what the label says")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@click.option("--again", is_flag=True, help="pot on stems that are in pots already")
@global_options
@with_desk
def pot(desk: Desk, again: bool, **given: Any) -> None:
    stage = Stage.POTTED if again else Stage.ROOTED
    which = which_lot(desk, "Which lot is to be potted?", stage)
    size = Question("pot", "Which pot?", pot_in(desk.book, desk.units), allowed="4in, 9cm, #1, SP4, 2L")
    interview = desk.interview(given, [which, size])
    lot = interview.ask(which)
    interview.given(size)  # a pot that is none is told of before anything else
    if not lot.at(stage):
        hint = " With --again the potted ones are potted on." if lot.at(Stage.POTTED) else ""
        raise Refused(f"{shortage(lot.code, lot.stages, 1, stage)}{hint}")
    known = known_lot(desk, lot)
    _say_first(desk, interview, known)
    count = interview.ask(how_many(lot, (stage,), "How many are potted?", lot.at(stage)))
    facts, advised = _ask_details(desk, interview, known, size, count)
    book, entry = desk.write(
        e.Pot, lot=lot.code, moves=taken(lot, count, (stage,), Stage.POTTED), advised=advised, **facts
    )
    warn_if_short(desk, book, entry)
    _tell(desk, book.lots[lot.code], entry, count)


def _say_first(desk: Desk, interview: Interview, known: Known) -> None:
    """Is it ready at all, and what to cut; said before the hands are in the mix."""
    length = known.lot.root_length_m
    ready = ready_to_pot(length, known.lot.method, desk.units)
    if interview.asking:
        interview.say(ready.why)
        cut = trim(known.lot.method, length is not None and length < FEW_ROOTS_M)
        interview.say(f"{cut.value} {cut.why}")
    elif not ready.value and length is not None:
        desk.warn(ready.why)


def _ask_details(
    desk: Desk, interview: Interview, known: Known, size: Question[Any], count: int
) -> tuple[dict[str, Any], Mapping[str, str]]:
    """The facts of the entry, and what was advised wherever the keeper chose otherwise.

    Where nobody is asked, only what was given is written down: advice is not a fact.
    """
    lot, plant, units = known.lot, known.plant, desk.units

    def length(text: str) -> float:
        return parse_length(text, units)

    def told(
        name: str, prompt: str, parse: Callable[[str], T], reason: Advice[Any], default: str
    ) -> T | None:
        question = Question(name, prompt, parse, default=default, why=_because(reason))
        return interview.ask(question) if interview.asking else interview.given(question)

    prompt = "How wide are the roots across? (Enter if not measured)"
    spread = interview.ask(Question("spread", prompt, maybe(length), default=""))
    own = free_pots(desk.book, count)
    pots = recommend_pot(spread or _ball_in_pot(desk, known), lot.method, plant, units, own)
    chosen = interview.ask(size.offering(pots.value.name, _because(pots)) if interview.asking else size)
    mixes = recommend_mix(plant)
    mix = told("mix", "Which mix?", words, mixes, mixes.value)
    depths = recommend_depth(plant, lot.method)
    usual = show_length(depths.value, units).replace(" ", "") if depths.value is not None else ""
    depth = told("depth", "How deep? (a length, or Enter for as advised)", maybe(length), depths, usual)
    shades = shade_days(lot.method, desk.on, desk.climate, is_hardy(plant, desk.climate))
    shade = told("shade", "How many days of shade?", whole(0, 90), shades, str(shades.value))
    label = told("label", "What does the label say?", words, PENCIL, label_of(lot).text)
    where = interview.ask(Question("where", "Where do they stand? (Enter to skip)", words, default=lot.where))
    note = interview.ask(NOTE)
    facts = {
        "pot": chosen.name, "pot_volume_l": chosen.volume_l, "mix": mix or "", "depth_m": depth, "note": note,
        "root_spread_m": spread, "where": where, "shade_days": shade, "label": label or "",
    }  # fmt: skip
    advised = {}
    if not alike(pots.value, chosen):
        advised["pot"] = _pot_words(pots.value, units)
    if mix not in (None, mixes.value):
        advised["mix"] = mixes.value
    if shade not in (None, shades.value):
        advised["shade days"] = str(shades.value)
    return facts, advised


def _ball_in_pot(desk: Desk, known: Known) -> float | None:
    """How wide the roots of a stem are that fill the pot it stands in, in metres."""
    pot = known.lot.latest(e.Pot)
    if pot is None or not known.lot.at(Stage.POTTED) or known.lot.at(Stage.ROOTED):
        return None
    try:
        return pot_in(desk.book, desk.units)(pot.pot).diameter_m
    except ValueError:
        return None


def _pot_words(pot: PotSize, units: Units) -> str:
    """A pot by name, with its width where the name does not tell it."""
    if pot.diameter_m is None or pot.name[0].isdigit():
        return pot.name
    width, volume = show_length(pot.diameter_m, units), show_volume(pot.volume_l, units)
    return f"{pot.name}, about {width} across and {volume} of mix"


def _because(advice: Advice[Any]) -> str:
    return f"{advice.why} {advice.sure}".strip()


def _tell(desk: Desk, lot: Lot, entry: e.Pot, count: int) -> None:
    mix = f" of {entry.mix} mix" if entry.mix else ""
    what = f"{stems(count)} of {lot.code} {lot.plant_called}"
    sentence = f"{what} in {several(entry.pot)}{mix}; {spoken_counts(lot.stages)}."
    page = Page().row(
        "Now", f"Water in, and shade for {entry.shade_days} days.", only_if=bool(entry.shade_days)
    )
    page.row("Now", "Water in.", only_if=not entry.shade_days)
    for name, was in entry.advised.items():
        page.row("", f"The advice was: {name} {was}.")
    page.parts.extend(next_page(desk, lot).parts)
    page.warnings(cautions_said(desk, lot, entry, Task.POT))
    say_clean(desk, page, entry)
    desk.recorded(sentence, entry, page, **lot_document(lot))
