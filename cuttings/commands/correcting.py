"""Putting things right: undo and note."""

from typing import Any

import click

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.naming import PLANT, ask_plant
from cuttings.commands.parsing import filled, number, words, yes_no
from cuttings.commands.questions import which_lot
from cuttings.commands.telling import described, lot_document, next_page
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.folding import effective
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import spoken_counts

TEXT = Question("text", "What is worth remembering?", filled, argument=True)
WORTH = Question("worth", "What does one plant of it count?", number(0.001, e.MOST_WORTH, "what one counts"))


@click.command(help="Take an entry back: the last one written, or the one named.")
@click.argument("entry", required=False)
@click.option("--note", metavar="TEXT", help="why it is taken back")
@global_options
@with_desk
def undo(desk: Desk, entry: str | None, note: str | None) -> None:
    target = _target(desk.book, entry)
    if desk.asker is not None and entry is None:
        question = Question(
            "sure",
            f"Take back '{described(target)}' of {spoken(target.on)}?",
            yes_no,
            default="yes",
            yes_no=True,
        )
        if not question.parse(desk.asker.ask(question)):
            raise Refused("Nothing was taken back.")

    book, reversal = desk.write(e.Reverse, target=target.id, note=note or "")
    lot = book.lots.get(target.lot) if isinstance(target, e.LotEntry) else None
    stands = f"; {lot.code} now holds {spoken_counts(lot.stages)}" if lot else ""
    sentence = f"The entry '{described(target)}' of {spoken(target.on)} has been taken back{stands}."
    desk.recorded(sentence, reversal, **lot_document(lot, code=getattr(target, "lot", None) or None))


def _target(book: Book, asked: str | None) -> e.Entry:
    """The entry to take back: the newest that is not itself a reversal, or the one whose id ends so."""
    standing = effective(book.entries)
    if asked is None:
        candidates = sorted((x for x in standing if not isinstance(x, e.Reverse)), key=lambda x: x.id)
        if not candidates:
            raise Refused("There is nothing to take back; the ledger has no entries yet.")
        return candidates[-1]
    found = [entry for entry in book.entries if entry.id == asked or entry.id.endswith(asked.casefold())]
    if len(found) != 1:
        many = "several entries end" if found else "no entry ends"
        raise Refused(f"In this ledger {many} in '{asked}'; 'cuttings card LOT --trail' shows the ids.")
    if found[0] not in standing:
        raise Refused(f"The entry {found[0].id} has been taken back already.")
    return found[0]


@click.command(help="Add a note to a lot, or say what it has turned out to be.")
@click.argument("lot", required=False)
@click.argument("text", required=False)
@click.option("--plant", metavar="NAME", help="the plant it has turned out to be")
@click.option("--worth", metavar="N", help="what one of its plants counts against an ordinary one (1)")
@global_options
@with_desk
def note(desk: Desk, **given: Any) -> None:
    which = which_lot(desk, "Which lot?")
    if given["worth"] is not None and given["plant"]:
        raise Misused("Give only one of --plant and --worth.")
    if given["worth"] is not None:
        _value(desk, desk.interview(given, [which]), which, words(given["text"] or ""))
        return
    if given["plant"]:
        _rename(desk, desk.interview(given, [which, PLANT]), which)
        return
    interview = desk.interview(given, [which, TEXT])
    lot, said = interview.ask(which), interview.ask(TEXT)

    book, entry = desk.write(e.Note, lot=lot.code, note=said)
    desk.recorded(f"{lot.code} has a note: {said}", entry, **lot_document(book.lots[lot.code]))


def _value(desk: Desk, interview: Interview, which: Question[Lot], said: str) -> None:
    """Say what one plant of a lot counts against an ordinary one, with a note or without."""
    worth = interview.ask(WORTH)
    lot = interview.ask(which)
    book, entry = desk.write(e.Note, lot=lot.code, note=said, worth=worth)
    sentence = f"One plant of {lot.code} {lot.plant_called} counts for {worth:g} ordinary ones."
    desk.recorded(sentence, entry, **lot_document(book.lots[lot.code]), worth=worth)


def _rename(desk: Desk, interview: Interview, which: Question[Lot]) -> None:
    """Give a lot the name of what it has turned out to be; its entries stay as they were written."""
    lot = interview.ask(which)
    named = ask_plant(desk, interview, lot.method)
    said = interview.given(TEXT) or ""
    book, entry = desk.write(e.Rename, lot=lot.code, note=said, **named.facts)
    sentence = f"{lot.code} is {named.spoken} ({named.name}); it went by {lot.plant_called} until now."
    desk.recorded(sentence, entry, next_page(desk, book.lots[lot.code]), **lot_document(book.lots[lot.code]))
