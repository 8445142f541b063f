"""Saying what was recorded and what comes next, in the same words for every command."""

from datetime import date
from typing import Any

from cuttings.commands.desk import Desk
from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.containers import Containers
from cuttings.ledger.goals import Goal
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import spoken_counts
from cuttings.ledger.ticks import NudgeDone, NudgeEntry, NudgeLater
from cuttings.nudges.knowledge import Known, known
from cuttings.nudges.lots import also_due, next_for
from cuttings.plants.model import Double
from cuttings.rules.advice import Advice, Window
from cuttings.rules.caution import HORMONE, Task, general_cautions, own_cautions
from cuttings.rules.cleaning import REMINDER, REMINDER_SOURCE
from cuttings.show.page import Page
from cuttings.words import Method, Stage


def known_lot(desk: Desk, lot: Lot) -> Known:
    """The lot with the rules that hold for it in this garden."""
    return known(lot, desk.catalogue, desk.climate, desk.units, desk.learned)


def lot_document(lot: Lot | None, code: str | None = None) -> dict[str, Any]:
    """The part of an answer that every recording command shares."""
    if lot is None:
        return {"lot": code, "stages": {}}
    return {"lot": lot.code, "stages": {stage.value: lot.at(stage) for stage in Stage}}


def window_document(window: Window) -> dict[str, Any]:
    """When a window opens, is at its best and closes, with its odds."""
    return {
        "opens": window.opens.isoformat(),
        "best": [day.isoformat() for day in window.best],
        "closes": window.closes.isoformat(),
        "odds": window.odds,
    }


def spoiled(window: Window) -> str:
    """In how many years the weather spoils a job, as a sentence after a blank; empty where it hardly ever
    does."""
    return f" {window.spoiled}" if window.spoiled else ""


def stems(count: int, method: Method | None = None) -> str:
    """``1 stem``, ``3 cuttings``, ``4 pieces``: counted in the method's own word."""
    word = counting_word(method)
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def counting_word(method: Method | None) -> str:
    match method:
        case Method.BULB_OFFSET:
            return "bulb"
        case Method.SEEDLING:
            return "seedling"
        case Method() if method.is_cutting:
            return "cutting"
        case Method() if method.value.endswith("division"):
            return "piece"
        case _:
            return "stem"


def described(entry: e.Entry, *, on_card: bool = False) -> str:
    """An entry in a few words; on the card of its own lot the lot goes without saying."""
    of = "" if on_card or not isinstance(entry, e.LotEntry) else f" of {entry.lot}"
    match entry:
        case e.Start():
            return f"{entry.kind}: {stems(entry.stems, entry.method)} of {entry.called or entry.plant}"
        case e.Check():
            rooted = sum(move.count for move in entry.moves if move.target == "rooted")
            failed = entry.stems - rooted
            return f"check{of}: {rooted} rooted, {failed} failed, {entry.not_yet} not yet"
        case e.Pot():
            return f"pot {stems(entry.stems)}{of} in {entry.pot}"
        case e.Harden():
            step = {"start": "begun", "day-done": "a day done"}.get(
                entry.step, f"a day missed: {entry.reason}"
            )
            return f"hardening{of}: {step}"
        case e.Ready():
            return f"{stems(entry.stems)}{of} hardened off and ready"
        case e.Plant():
            return f"plant {stems(entry.stems)}{of} on {entry.site}"
        case e.Give():
            return f"give {stems(entry.stems)}{of}" + (f" to {entry.to}" if entry.to else "")
        case e.Sell():
            return f"sell {stems(entry.stems)}{of}"
        case e.Lose():
            return f"lose {stems(entry.stems)}{of}: {entry.cause}"
        case e.Split():
            return f"split {stems(entry.stems)}{of} into {entry.into}"
        case e.Note():
            worth = "" if entry.worth is None else f"one counts for {entry.worth:g}"
            return f"note{of}: {', '.join(part for part in (entry.note, worth) if part)}"
        case e.Rename():
            return f"name{of}: {entry.called or entry.plant}"
        case e.Labelled():
            return f"label{of}: {entry.text}"
        case e.Mark():
            return f"mark {entry.code}: {entry.called or entry.plant}, to {entry.purpose.replace('-', ' ')}"
        case e.MarkDone():
            return f"mark {entry.code} done"
        case e.SiteFacts():
            return f"site {entry.site.name}"
        case e.GrowingHere():
            return f"{entry.plant} growing on {entry.site}"
        case e.HoldSpot() | e.ReleaseSpot():
            return f"{entry.kind} the spot {entry.spot}"
        case e.PlantFacts():
            return f"facts of {entry.plant}"
        case e.GardenFacts():
            return f"garden {entry.garden.name}"
        case NudgeDone():
            return f"done: {entry.what}"
        case NudgeLater():
            return f"put off until {put_off_until(entry.until or entry.condition)}: {entry.what}"
        case NudgeEntry():
            return f"never again: {entry.what}"
        case Containers():
            what = entry.name if entry.size in ("", entry.name) else f"{entry.name} ({entry.size})"
            return f"drawer: {abs(entry.change)} {'more' if entry.change > 0 else 'fewer'} of {what}"
        case Goal():
            return f"goal: {entry.want} of {entry.spoken} by {spoken(entry.by)}"
        case e.Reverse():
            return "took an entry back"
        case _:
            return entry.kind


def because(desk: Desk, advice: Advice[Any]) -> str:
    """The reason for a recommendation and how sure it is; with ``--why`` its source too."""
    source = f"Source: {desk.catalogue.reference(advice.source)}." if desk.why else ""
    return " ".join(filter(None, (advice.why, advice.sure, source)))


def put_off_until(until: date | str) -> str:
    """A day, or a condition (a stage, or what happens in the garden), after the word ``until``."""
    return until.replace("-", " ") if isinstance(until, str) else spoken(until)


def tell_start(desk: Desk, lot: Lot, entry: e.Start, task: Task, *, doubles: bool = False) -> None:
    """What was begun, what can hurt, with ``doubles`` what it might be instead, and what comes next."""
    where = f", {lot.where}" if lot.where else ""
    sentence = (
        f"{lot.code}: {stems(lot.started, lot.method)} of {lot.plant_called}, {lot.method.spoken}{where}; "
        f"{spoken_counts(lot.stages)}."
    )
    page = next_page(desk, lot)
    page.warnings(cautions_said(desk, lot, entry, task))
    say_clean(desk, page, entry)
    document = lot_document(lot)
    look_alikes = known_lot(desk, lot).plant.doubles if doubles else ()
    for each in look_alikes:
        page.row("Look twice", warning_of(each, lot.plant_called), each.if_double, tone="warning")
        told = double_document(each, desk.catalogue.reference(each.source))
        document.setdefault("look_twice", []).append(told)
    desk.recorded(sentence, entry, page, **document)


def warning_of(double: Double, spoken: str) -> str:
    """What tells a double from the plant, in plain sentences."""
    return (
        f"{double.common[:1].upper()}{double.common[1:]} ({double.name}) is taken for {spoken}. {double.tell}"
    )


def double_document(double: Double, source: str) -> dict[str, Any]:
    """A double as JSON."""
    return {
        "name": double.name,
        "common": double.common,
        "tell": double.tell,
        "if_double": double.if_double,
        "source": source,
    }


def cautions_said(desk: Desk, lot: Lot, entry: e.Entry, task: Task) -> list[str]:
    """The plant's own cautions, and the general ones of a task at a keeper's first entry of the day."""
    own = own_cautions(known_lot(desk, lot).plant, task)
    again = any(type(x) is type(entry) and _same_bench(x, entry) for x in desk.book.entries)
    general = () if again else general_cautions(task)
    if isinstance(entry, e.Strike) and entry.dip_ppm is None:
        general = tuple(caution for caution in general if caution is not HORMONE)
    return [caution.text for caution in (*own, *general)]


def _same_bench(earlier: e.Entry, entry: e.Entry) -> bool:
    """Whether an entry was written before another, by the same keeper and of the same day."""
    return earlier.on == entry.on and earlier.who == entry.who and earlier.id < entry.id


def say_clean(desk: Desk, page: Page, entry: e.Entry) -> None:
    """At a terminal, how to work cleanly: once a day, at its first job with a blade or a pot."""
    bench = (e.Strike, e.Divide, e.Pot)
    again = any(isinstance(x, bench) and _same_bench(x, entry) for x in desk.book.entries)
    if desk.asker is not None and isinstance(entry, bench) and not again:
        page.row("Clean", REMINDER, "'cuttings pots clean' tells more.", REMINDER_SOURCE if desk.why else "")


def next_page(desk: Desk, lot: Lot) -> Page:
    """What a lot needs next, as the end of a page."""
    page, knowledge = Page(), known_lot(desk, lot)
    nudge = next_for(knowledge, desk.on)
    if nudge is not None:
        window = nudge.window
        page.row(
            "Next", f"{nudge.what}, {_stretch(desk, window)}.", window.why, window.source if desk.why else ""
        )
        also = also_due(knowledge, nudge, desk.on)
        if also is not None:
            page.row("", f"{also.what}, {_stretch(desk, also.window)}.")
    return page


def _stretch(desk: Desk, window: Window) -> str:
    return f"from {spoken(window.opens, desk.on)} to {spoken(window.closes, desk.on)}"
