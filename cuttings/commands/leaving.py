"""Ends and partings: plant, give, sell, lose, split."""

from collections.abc import Sequence
from typing import Any

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import with_pots
from cuttings.commands.parsing import choices, filled, maybe, number, one_of, whole, words
from cuttings.commands.placing import Place, ask_place, positions, spots_filled, warn_of_site
from cuttings.commands.questions import NOTE, furthest, how_many, taken, which_lot
from cuttings.commands.taping import only_one_of
from cuttings.commands.telling import cautions_said, known_lot, lot_document, next_page, stems
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.knowledge import Known
from cuttings.placement.room import radius
from cuttings.rules.caution import Task
from cuttings.rules.hardening import needs_hardening
from cuttings.rules.transplant import advise_planting
from cuttings.show.page import Page
from cuttings.units import plan_words
from cuttings.words import LIVING, PLANTABLE, Cause, Stage

GIVING_ORDER = (*PLANTABLE, Stage.WAITING)
"""Stems are given and sold the furthest on first."""

MORTAL = (*LIVING, Stage.PLANTED)


@click.command(help="Plant stems on a site.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many (one at a spot, otherwise all at the furthest stage)")
@click.option("--spot", metavar="ID", help="a spot that 'cuttings spot' offered")
@click.option("--site", metavar="NAME", help="the site")
@click.option("--at", metavar="X,Y", help="the position on it, in metres")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="or its tape distances from two points of the site")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def plant(desk: Desk, **given: Any) -> None:
    if given["spot"] and (given["site"] or given["at"] or given["tape"]):
        raise Misused("Give either --spot, or --site with or without --at or --tape.")
    only_one_of(given)
    which = which_lot(desk, "Which lot is planted?", *PLANTABLE)
    site = Question("site", "Which site?", filled, allowed="a site's name, or --spot ID")
    interview = desk.interview(given, [which] if given["spot"] else [which, site])
    lot = interview.ask(which)
    if not furthest(lot):
        if lot.at(Stage.WAITING):
            raise Refused(shortage(lot.code, lot.stages, 1, Stage.ROOTED))
        raise Refused(f"{lot.code} holds {spoken_counts(lot.stages)}; nothing of it is left to plant.")
    usual = 1 if given["spot"] or given["at"] or given["tape"] else furthest(lot)
    count = interview.ask(how_many(lot, PLANTABLE, "How many are planted?", usual))
    place = ask_place(desk, interview, lot)
    known = known_lot(desk, lot)
    moves = taken(lot, count, PLANTABLE, Stage.PLANTED)
    _warn_of_planting(desk, known, moves)
    warn_of_site(desk, lot, place.site)
    at = positions(desk, lot, place, count)
    note = interview.ask(NOTE)
    book, entry = desk.write(
        e.Plant,
        lot=lot.code,
        moves=moves,
        site=place.site.name,
        at=at,
        spread_m=2 * radius(known.plant),
        spots=spots_filled(desk.book, lot.code, place),
        note=note,
    )
    _tell_planted(desk, book.lots[lot.code], entry, place)


def _warn_of_planting(desk: Desk, known: Known, moves: Sequence[e.Move]) -> None:
    """Advice against planting now, from each stage the stems come from; said once, and never a refusal."""
    soft = needs_hardening(
        known.plant, grown_under_cover=known.soft(desk.on), on=desk.on, climate=desk.climate
    ).value
    divided = known.lot.method.starts_rooted
    stages = [move.source for move in moves if move.source is not None]
    warnings = (
        warning
        for stage in stages
        for warning in advise_planting(known.plant, desk.climate, desk.on, stage, soft=soft, divided=divided)
    )
    for warning in dict.fromkeys(warnings):
        desk.warn(warning)


def _tell_planted(desk: Desk, lot: Lot, entry: e.Plant, place: Place) -> None:
    where = ", ".join(plan_words(at, desk.units) for at in entry.at[:3])
    more = " and so on" if len(entry.at) > 3 else ""
    at = f", {where}{more}" if where else ""
    page = Page([*place.told.page.parts, *next_page(desk, lot).parts])
    page.warnings(cautions_said(desk, lot, entry, Task.PLANT))
    desk.recorded(
        f"{stems(entry.stems)} of {lot.code} {lot.plant_called} on {place.site.name}{at}; "
        f"{lot.code} now stands at {spoken_counts(lot.stages)}.",
        entry,
        page,
        **lot_document(lot),
        site=place.site.name,
        at=[list(point) for point in entry.at],
        by_tape=place.told.document,
    )


@click.command(help="Give stems away.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many")
@click.option("--to", metavar="TEXT", help="who has them now")
@click.option("--with-pots", is_flag=True, help="the pots they stand in go with them, out of the drawer")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def give(desk: Desk, **given: Any) -> None:
    lot, count, interview = _ask_stems(desk, given, "How many are given away?")
    to = interview.ask(Question("to", "To whom? (Enter to skip)", words, default=""))
    moves = taken(lot, count, GIVING_ORDER, Stage.GIVEN)
    pots = with_pots(desk, interview, moves)
    note = interview.ask(NOTE)
    book, entry = desk.write(e.Give, lot=lot.code, moves=moves, to=to, with_pots=pots, note=note)
    _tell_left(desk, book.lots[lot.code], entry, f"given{f' to {to}' if to else ''}")


@click.command(help="Sell stems.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many")
@click.option("--price", metavar="N", help="the price of each, in your own money")
@click.option("--to", metavar="TEXT", help="who has them now")
@click.option("--with-pots", is_flag=True, help="the pots they stand in go with them, out of the drawer")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def sell(desk: Desk, **given: Any) -> None:
    lot, count, interview = _ask_stems(desk, given, "How many are sold?")
    price = interview.ask(
        Question("price", "The price of each? (Enter to skip)", maybe(number(0, 1e6, "a price")), default="")
    )
    to = interview.ask(Question("to", "To whom? (Enter to skip)", words, default=""))
    moves = taken(lot, count, GIVING_ORDER, Stage.SOLD)
    pots = with_pots(desk, interview, moves)
    note = interview.ask(NOTE)
    facts = {"price": price, "to": to, "with_pots": pots, "note": note}
    book, entry = desk.write(e.Sell, lot=lot.code, moves=moves, **facts)
    _tell_left(desk, book.lots[lot.code], entry, "sold")


def _ask_stems(desk: Desk, given: dict[str, Any], prompt: str) -> tuple[Lot, int, Interview]:
    which = which_lot(desk, "From which lot?", *LIVING)
    needed = Question("count", prompt, filled, allowed="a whole number from 1")
    interview = desk.interview(given, [which, needed])
    lot = interview.ask(which)
    return lot, interview.ask(how_many(lot, GIVING_ORDER, prompt, 0)), interview


def _tell_left(desk: Desk, lot: Lot, entry: e.LotEntry, how: str) -> None:
    page = next_page(desk, lot)
    if not isinstance(entry, e.Lose):
        page.warnings(cautions_said(desk, lot, entry, Task.GIVE))
    what = f"{stems(entry.stems)} of {lot.code} {lot.plant_called} {how}"
    sentence = f"{what}; it holds {spoken_counts(lot.stages)}."
    desk.recorded(sentence, entry, page, **lot_document(lot))


@click.command(help="Write down stems that died.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many")
@click.option("--stage", metavar="STAGE", help="|".join(MORTAL))
@click.option("--cause", metavar="CAUSE", help="|".join(Cause))
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def lose(desk: Desk, **given: Any) -> None:
    which = which_lot(desk, "Which lot has lost stems?", *MORTAL)
    stage = Question("stage", "At which stage did they die?", one_of(Stage), allowed="|".join(MORTAL))
    count = Question("count", "How many died?", filled, allowed="a whole number from 1")
    cause = Question("cause", "Of what?", one_of(Cause), choices(Cause), default="unknown")
    interview = desk.interview(given, [which, stage, count, cause])
    lot = interview.ask(which)
    held = tuple(Choice(each.value, f"{each}: {lot.at(each)}") for each in MORTAL if lot.at(each))
    at = interview.ask(Question("stage", stage.prompt, one_of(Stage), held, allowed=stage.allowed))
    dead = interview.ask(how_many(lot, (at,), count.prompt, 0))
    why = interview.ask(cause)
    note = interview.ask(NOTE)
    moves = (e.Move(count=dead, source=at, target=Stage.LOST),)
    book, entry = desk.write(e.Lose, lot=lot.code, moves=moves, cause=why, note=note)
    _tell_left(desk, book.lots[lot.code], entry, f"lost ({why})")


@click.command(help="Let part of a lot go on under a code of its own.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many")
@click.option("--stage", metavar="STAGE", help="the stage they stand at")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def split(desk: Desk, **given: Any) -> None:
    which = which_lot(desk, "Which lot is split?", *LIVING)
    count = Question("count", "How many go on by themselves?", filled, allowed="a whole number from 1")
    interview = desk.interview(given, [which, count])
    lot = interview.ask(which)
    held = tuple(Choice(each.value, f"{each}: {lot.at(each)}") for each in LIVING if lot.at(each))
    if not held:
        raise Refused(f"{lot.code} holds {spoken_counts(lot.stages)}; there is nothing left to split.")
    enough = interview.given(Question("count", count.prompt, whole())) or 1
    usual = next((each for each in GIVING_ORDER if lot.at(each) >= enough), Stage(held[0].value))
    stage = interview.ask(Question("stage", "From which stage?", one_of(Stage), held, default=usual.value))
    gone = interview.ask(how_many(lot, (stage,), count.prompt, 0))
    note = interview.ask(NOTE)
    moves = (e.Move(count=gone, source=stage),)
    book, entry = desk.begin(e.Split, code="into", lot=lot.code, moves=moves, note=note)
    new = book.lots[entry.into]
    go = "goes" if gone == 1 else "go"
    sentence = f"{stems(gone)} of {lot.code} {go} on as {new.code}; {lot.code} keeps "
    desk.recorded(
        f"{sentence}{spoken_counts(book.lots[lot.code].stages)}.",
        entry,
        next_page(desk, new),
        **lot_document(book.lots[lot.code]),
        into=new.code,
    )
