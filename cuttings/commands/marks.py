"""Marks: something in the ground to come back to."""

from typing import Any

import click

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.mark_places import ask_mark_place, mark_document, where_marked
from cuttings.commands.naming import PLANT, ask_plant
from cuttings.commands.parsing import choices, one_of, words
from cuttings.commands.photos import keep_photo
from cuttings.commands.questions import NOTE
from cuttings.dates import spoken, spoken_span
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.plants.model import Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.caution import Task, cautions
from cuttings.rules.marks import come_back
from cuttings.show.page import Page
from cuttings.words import Purpose

FOR = Question(
    "for",
    "What is to be done there?",
    one_of(Purpose),
    choices(
        Purpose,
        lift="lift it, once the leaves have died down",
        divide="divide it",
        layer="layer it",
        take_hardwood="take hardwood cuttings when it is dormant",
        move="move it",
        watch="keep an eye on it",
    ),
)
WHEN = Question("when", "When, if you know better than the rules? (Enter to skip)", words, default="")
WHERE = Question("where", "Where is it? (Enter to skip)", words, default="")


@click.command(help="Mark something in the ground to come back to, or tick a mark off.")
@click.argument("plant", required=False)
@click.option("--for", metavar="PURPOSE", help="|".join(Purpose))
@click.option("--when", metavar="TEXT", help="when to come back, in your own words")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="tape distances from two fixed points")
@click.option("--site", metavar="NAME", help="the site on whose plan these points are")
@click.option("--apart", metavar="LEN", help="how far apart the points are, where they are on no plan")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@click.option("--where", metavar="TEXT", help="where it is")
@click.option("--photo", metavar="FILE", help="a picture; it is copied beside the ledger")
@click.option("--note", metavar="TEXT", help="anything to remember")
@click.option("--done", metavar="MARK", help="tick a mark off, such as M26-003")
@click.option("--list", "listed", is_flag=True, help="list the open marks")
@global_options
@with_desk
def mark(desk: Desk, done: str | None, listed: bool, **given: Any) -> None:
    if listed:
        _list(desk)
    elif done is not None:
        _tick(desk, done, given["note"] or "")
    else:
        _make(desk, given)


def _make(desk: Desk, given: dict[str, Any]) -> None:
    interview = desk.interview(given, [PLANT, FOR])
    purpose_given = interview.given(FOR)
    named = ask_plant(desk, interview)
    purpose = purpose_given or interview.ask(FOR)
    when = interview.ask(WHEN)
    where = interview.ask(WHERE)
    place = ask_mark_place(desk, interview, given, where)
    note = interview.ask(NOTE)
    photo = keep_photo(desk.ledger.folder, given["photo"])
    _, entry = desk.begin(
        e.Mark,
        code="code",
        prefix="M",
        purpose=purpose,
        when=when,
        where=where,
        note=note,
        photo=photo,
        **place.facts,
        **named.facts,
    )
    window = come_back(purpose, named.plant, desk.on, desk.on, desk.climate, when)
    page = place.told.page
    if purpose is Purpose.LIFT and not place.tape:
        page.row(
            "", "Push in a stick or take two tape measurements: the leaves will be gone when you come back."
        )
    page.row("Next", f"{_stretch(desk, named.plant, entry)}.", window.why, window.source if desk.why else "")
    page.warnings(caution.text for caution in cautions(named.plant, Task.MARK))
    desk.recorded(
        f"{entry.code}: {_said(entry)}.",
        entry,
        page,
        mark=entry.code,
        lot=None,
        stages={},
        **mark_document(desk.book, entry, desk.units),
    )


def _said(entry: e.Mark) -> str:
    where = f", {entry.where}" if entry.where else ""
    return f"{entry.called or entry.plant}, to {entry.purpose.replace('-', ' ')}{where}"


def _stretch(desk: Desk, plant: Plant, entry: e.Mark) -> str:
    window = come_back(entry.purpose, plant, entry.on, desk.on, desk.climate, entry.when)
    best = f"best {spoken_span(*window.best, desk.on)}"
    return f"You said: {entry.when}. By the rules {best}" if entry.when else best[:1].upper() + best[1:]


def _tick(desk: Desk, code: str, note: str) -> None:
    known = {name.casefold(): state for name, state in desk.book.marks.items()}
    state = known.get(code.casefold())
    if state is None:
        raise Refused(f"There is no mark '{code}'; 'cuttings mark --list' lists them.")
    if state.done is not None:
        raise Refused(f"{state.mark.code} was ticked off on {spoken(state.done)}.")
    _, entry = desk.write(e.MarkDone, code=state.mark.code, note=note)
    steps = Page().next_steps("'cuttings find', 'divide' or 'strike' writes down the plants that came of it.")
    desk.recorded(f"{state.mark.code} is done.", entry, steps, mark=state.mark.code, lot=None, stages={})


def _list(desk: Desk) -> None:
    page = Page().heading("Marks", desk.garden.name if desk.garden else "")
    marks = desk.book.open_marks()
    for each in marks:
        plant = plant_for(desk.catalogue, each.plant, each.plant_type, None)
        page.row(
            each.code,
            f"{_said(each)}. {_stretch(desk, plant, each)}.",
            *where_marked(desk.book, each, desk.units),
        )
    page.row("", "No marks are open.", only_if=not marks)
    document = [
        {
            "mark": m.code,
            "plant": m.plant,
            "for": m.purpose.value,
            "when": m.when,
            "where": m.where,
            **mark_document(desk.book, m, desk.units),
        }
        for m in marks
    ]
    desk.answer(page, {"marks": document})
