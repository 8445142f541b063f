"""Which lot a pot without a label could be."""

from collections.abc import Callable
from typing import Any, TypeVar

import click
from attrs import evolve

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import POT_FORMS, pot_in
from cuttings.commands.identifying import CANNOT_TELL, asked_of
from cuttings.commands.looks import look_options, looks_in
from cuttings.commands.parsing import maybe, one_of, words
from cuttings.errors import Misused, Refused
from cuttings.ledger.book import Book
from cuttings.nudges.candidates import Candidate, Clues, candidates
from cuttings.plants.key import QUESTIONS
from cuttings.show.page import Page
from cuttings.words import LIVING, Stage

T = TypeVar("T")

NEVER_SURE = (
    "This leaves out what the ledger rules out, and no more: a pot may have been moved, or be none of these. "
    "Keep it apart until its leaves or roots tell, and let nobody eat of it before."
)


LOOKED_AT = ("grows", "leaf", "leaves", "stem")
"""The questions of the key that a young plant in its pot answers at any season."""


@click.command(help="Which lot a pot without a label could be, by what can be seen: likeliest first.")
@click.option("--where", metavar="TEXT", help="where it stands")
@click.option("--stage", metavar="STAGE", help="|".join(LIVING))
@click.option("--pot", metavar="POT", help=f"the pot it is in: {POT_FORMS}")
@look_options
@global_options
@with_desk
def which(desk: Desk, **given: Any) -> None:
    def read(option: str, parse: Callable[[str], T]) -> T | None:
        try:
            return parse(given[option]) if given[option] else None
        except ValueError as error:
            raise Misused(f"--{option}: {error}") from None

    stage = read("stage", one_of(Stage))
    if stage is not None and stage not in LIVING:
        raise Misused(f"--stage: stems that are {stage} stand in no pot; it is one of {', '.join(LIVING)}.")
    book = desk.book.as_of(desk.on)
    living = len(book.live_lots())
    if not living:
        raise Refused("No lot holds stems that are alive; 'cuttings lots' shows where they went.")
    if desk.asker is not None and not any(given.values()):
        clues = _asked(desk, book)
    else:
        clues = Clues(
            where=(given["where"] or "").strip(),
            stage=stage,
            pot=read("pot", pot_in(desk.book, desk.units)),
            looks=looks_in(given),
        )
    found = candidates(book, desk.catalogue, clues, desk.on, desk.units)
    desk.answer(
        _page(found, living),
        {"candidates": [_document(each) for each in found], "ruled_out": living - len(found)},
    )


def _asked(desk: Desk, book: Book) -> Clues:
    """What a person sees of the pot, asked for as long as more than one lot is left."""
    where = Question("where", "Where does it stand? (Enter to skip)", words, default="")
    pot = Question("pot", "Which pot is it in? (Enter to skip)", maybe(pot_in(book, desk.units)), default="")
    interview = desk.interview({}, [where])
    clues = Clues(where=interview.ask(where), pot=interview.ask(pot))
    for each in QUESTIONS:
        left = len(candidates(book, desk.catalogue, clues, desk.on, desk.units))
        if each.name not in LOOKED_AT or left < 2:
            continue
        answer = interview.ask(asked_of(each, each.answers))
        if answer != CANNOT_TELL:
            clues = evolve(clues, looks={**clues.looks, each.name: answer})
    return clues


def _page(found: list[Candidate], living: int) -> Page:
    page = Page().heading("Which could it be?", f"{len(found)} of {living} lots")
    for each in found:
        unsure = f"Not known: {'; '.join(each.unsure)}." if each.unsure else ""
        page.row(each.lot.code, f"{each.lot.plant_called}: {'; '.join(each.because)}.", unsure)
    page.row(
        "", "Nothing in the ledger fits all of that; leave out what you are least sure of.", only_if=not found
    )
    page.warnings([NEVER_SURE] if found else [])
    page.next_steps(
        "'cuttings card LOT' tells more of one; 'cuttings labels LOT' what its label says." if found else ""
    )
    return page


def _document(each: Candidate) -> dict[str, Any]:
    lot = each.lot
    return {
        "lot": lot.code,
        "plant": lot.plant,
        "called": lot.called,
        "stems": each.stems,
        "where": lot.where,
        "label": lot.label,
        "because": list(each.because),
        "unsure": list(each.unsure),
    }
