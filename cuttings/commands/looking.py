"""Looking: lots, card, tally."""

from collections.abc import Sequence
from typing import Any

import click

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import of_plant, one_of
from cuttings.commands.questions import which_lot
from cuttings.commands.rooting_view import rooting_document, rooting_rows
from cuttings.commands.taping import standing_document, standing_rows
from cuttings.commands.telling import described, known_lot, lot_document, next_page, stems
from cuttings.dates import margin, spoken
from cuttings.errors import Refused
from cuttings.ledger.book import Book
from cuttings.ledger.codec import to_document
from cuttings.ledger.entries import Entry, Reverse
from cuttings.ledger.folding import effective
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import spoken_counts
from cuttings.ledger.tally import tally as count_all
from cuttings.nudges.labelled import unlabelled
from cuttings.nudges.lots import next_for
from cuttings.plants.understood import understand
from cuttings.show.page import Page
from cuttings.words import Stage


@click.command(help="The lots and where their stems stand.")
@click.option("--stage", metavar="STAGE", help="|".join(Stage))
@click.option("--place", metavar="TEXT", help="only those that stand there")
@click.option("--plant", metavar="TEXT", help="only those of that plant")
@click.option("--unlabelled", is_flag=True, help="only live lots without a label")
@global_options
@with_desk
def lots(desk: Desk, **given: Any) -> None:
    chosen = _chosen(desk, given)
    page = Page().heading("Lots", _where(desk))
    for heading, group in (("", [x for x in chosen if x.living]), ("No longer in your care", _ended(chosen))):
        if heading and group:
            page.heading(heading)
        for lot in group:
            where = f"; {lot.where}" if lot.where else ""
            page.row(
                lot.code, f"{lot.plant_called}, {lot.method.spoken}: {spoken_counts(lot.stages)}{where}."
            )
    if not chosen:
        page.row("", "No lots here." if desk.book.lots else "No lots yet.")
    page.next_steps(
        "'cuttings card LOT' shows one of them."
        if desk.book.lots
        else "'cuttings find PLANT' writes down the first one."
    )
    desk.answer(page, {"lots": [_summary(lot) for lot in chosen]})


def _ended(lots: list[Lot]) -> list[Lot]:
    return [lot for lot in lots if not lot.living]


def _places(desk: Desk, lot: Lot) -> list[str]:
    """Where a lot's stems are: the place it stands, and the sites and areas it was planted on."""
    planted = [
        site for site in desk.book.sites.values() if any(each.lot == lot.code for each in site.growing)
    ]
    return [lot.where, *(site.name for site in planted), *(site.area for site in planted)]


def _chosen(desk: Desk, given: dict[str, Any]) -> list[Lot]:
    stage = desk.interview(given, []).given(Question("stage", "", one_of(Stage)))
    found = sorted(desk.book.lots.values(), key=lambda lot: lot.code)
    if stage is not None:
        found = [lot for lot in found if lot.at(stage)]
    if given["place"]:
        found = [
            lot for lot in found if any(given["place"].casefold() in p.casefold() for p in _places(desk, lot))
        ]
    if given["plant"]:
        meant = understand(desk.catalogue, given["plant"])
        found = list(filter(of_plant(meant.name, given["plant"]), found))
    if given["unlabelled"]:
        found = unlabelled(found)
    return found


def _summary(lot: Lot) -> dict[str, Any]:
    return {
        "lot": lot.code,
        "plant": lot.plant,
        "called": lot.called,
        "method": lot.method.value,
        "started_on": lot.started_on.isoformat(),
        "started": lot.started,
        "stages": lot_document(lot)["stages"],
        "where": lot.where,
        "mother": lot.mother,
        "label": lot.label,
    }


def _where(desk: Desk) -> str:
    return desk.garden.name if desk.garden else ""


@click.command(help="Everything about one lot.")
@click.argument("lot", nargs=-1)
@click.option("--trail", is_flag=True, help="every entry with its id, reversed ones too")
@global_options
@with_desk
def card(desk: Desk, lot: Sequence[str], trail: bool) -> None:
    which = which_lot(desk, "Which lot?")
    found = desk.interview({"lot": " ".join(lot) or None}, [which]).ask(which)
    entries = _trail(desk.book, found.code) if trail else found.entries
    desk.answer(_card_page(desk, found, entries, ids=trail), _card_document(desk, found, entries))


def _trail(book: Book, code: str) -> tuple[Entry, ...]:
    own = {
        entry.id for entry in book.entries if code in (getattr(entry, "lot", ""), getattr(entry, "into", ""))
    }
    return tuple(
        entry
        for entry in book.entries
        if entry.id in own or (isinstance(entry, Reverse) and entry.target in own)
    )


def _card_page(desk: Desk, lot: Lot, trail: tuple[Entry, ...], *, ids: bool) -> Page:
    page = Page().heading(f"{lot.code}  {lot.plant_called}", lot.plant if lot.called else "")
    begun = f"{stems(lot.origin.stems, lot.method)} started {spoken(lot.started_on)}"
    if lot.origin.lot != lot.code:
        begun += f" as {lot.origin.lot}; {stems(lot.started, lot.method)} split off"
    elif lot.origin.stems != lot.started:
        begun += f", {lot.started} of them still in this lot"
    page.row("", f"{lot.method.spoken.capitalize()}, {begun}.")
    page.row("Now", f"{spoken_counts(lot.stages)}.", tone="accent")
    page.row("Stands", lot.where, only_if=bool(lot.where))
    for where in standing_rows(desk, lot):
        page.row(*where)
    page.row("Mother", lot.mother, only_if=bool(lot.mother))
    page.row("Label", lot.label.replace("\n", " / "), only_if=bool(lot.label))
    rooting_rows(desk, page, lot, known_lot(desk, lot).forecast())
    page.gap()
    standing = {entry.id for entry in effective(desk.book.entries)}
    for entry in trail:
        taken_back = "" if entry.id in standing else " (taken back)"
        note = getattr(entry, "note", "") if entry.kind != "note" else ""
        who = f" {entry.who}" if entry.who else ""
        page.row(
            margin(entry.on, desk.on),
            f"{_told(desk, entry)}{taken_back}.{who}",
            note,
            entry.id if ids else "",
        )
    page.parts.extend([None, *next_page(desk, lot).parts])
    return page


def _told(desk: Desk, entry: Entry) -> str:
    target = desk.book.entry(entry.target) if isinstance(entry, Reverse) else None
    return f"took back: {described(target, on_card=True)}" if target else described(entry, on_card=True)


def _card_document(desk: Desk, lot: Lot, trail: tuple[Entry, ...]) -> dict[str, Any]:
    knowledge = known_lot(desk, lot)
    rooting = knowledge.forecast() if lot.at(Stage.WAITING) else None
    nudge = next_for(knowledge, desk.on)
    return {
        **_summary(lot),
        "planted": standing_document(desk.book, lot),
        "entries": [to_document(entry) for entry in trail],
        "next": None
        if nudge is None
        else {
            "what": nudge.what,
            "from": nudge.window.opens.isoformat(),
            "to": nudge.window.closes.isoformat(),
            "why": nudge.window.why,
            "source": nudge.window.source,
        },
        "rooting": rooting_document(rooting),
    }


@click.command(help="Prove that every stem is accounted for.")
@click.option("--mend", is_flag=True, help="set damaged lines of the ledger file aside, keeping a copy")
@global_options
@with_desk
def tally(desk: Desk, mend: bool) -> None:
    mended = desk.ledger.mend() if mend else ()
    if mended:
        lines = ", ".join(str(damage.line) for damage in mended)
        desk.remark(
            f"Set aside line {lines}; the whole file as it was is kept in {desk.ledger.folder / 'backups'}."
        )
    book = desk.book
    result = count_all(book)
    damaged = [f"line {damage.line}: {damage.why}" for damage in desk.ledger.damage]
    page = Page().heading("Tally", _where(desk))
    page.row("Lots", f"{result.lots}, of {stems(result.started)} started")
    page.gap()
    page.rows((str(result.stages[stage]), stage.value) for stage in Stage)
    page.gap()
    for problem in result.broken:
        page.row("Broken", problem.sentence, f"entry {problem.entry}", tone="warning")
    for sentence in damaged:
        page.row("Damaged", sentence, tone="warning")
    balanced = result.balanced and not damaged
    page.row("So", "Every lot balances." if balanced else "The ledger does not balance.", tone="accent")
    desk.answer(
        page,
        {
            "balanced": balanced,
            "lots": result.lots,
            "started": result.started,
            "stages": {stage.value: count for stage, count in result.stages.items()},
            "broken": [
                *({"entry": p.entry, "lot": p.lot, "because": p.sentence} for p in result.broken),
                *({"entry": None, "lot": None, "because": sentence} for sentence in damaged),
            ],
        },
    )
    if not balanced:
        raise Refused(
            "The ledger does not balance; 'cuttings undo ENTRY' takes an entry named above back, and "
            "'cuttings tally --mend' sets damaged lines aside."
        )
