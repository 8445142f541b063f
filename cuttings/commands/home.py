"""The home screen: what needs attention, then the things one can do."""

import contextlib
from collections.abc import Mapping, Sequence

import click

from cuttings.ask import Choice, Question
from cuttings.commands.desk import Desk, desk_of, globals_of
from cuttings.commands.parsing import yes_no
from cuttings.commands.terminal import say_error
from cuttings.commands.week_nudges import Asked, sheet_for
from cuttings.commands.week_view import add_job
from cuttings.dates import spoken
from cuttings.errors import Cancelled, CuttingsError
from cuttings.ledger.stages import spoken_counts
from cuttings.nudges.sheet import WEEK, alike
from cuttings.show.page import Page
from cuttings.words import LIVING, Stage

MOST_SHOWN = 3

WORDS: Mapping[str, str] = {
    "find": "I found something rooted, or rooting",
    "check": "I looked whether a lot has rooted",
    "pot": "I am potting",
    "harden": "I am hardening off",
    "plant": "I planted something",
    "week": "What is worth doing this week?",
    "week --tick": "Something on the week's sheet is done, or must wait",
    "tonight": "Will tonight's cold do harm?",
    "spot": "Where could a lot go?",
    "goal": "I want so many of a plant by a day",
    "start": "I started or saw something: cuttings, layers, a first flower ...",
    "left": "Something has left: given, sold, died, split off ...",
    "look": "Look something up, or work it out: a spot, a mix, what takes ...",
    "bench": "For the bench: a mix, a dip, a feed, pots, labels ...",
    "right": "Put something right: take back, add a note, describe a site ...",
    "mix": "Work out a mix for so many pots",
    "dip": "Work out a dip of rooting hormone",
    "feed": "Work out a feed",
    "pots": "Show the pots I own",
    "pots add": "Put pots into the drawer",
    "pots clean": "How pots and blades are cleaned",
    "labels": "Show what to write on labels",
    "which": "Find out which lot a pot without a label is",
    "strike": "I struck cuttings",
    "layer": "I layered stems",
    "divide": "I divided a clump",
    "mark": "Mark something to come back to",
    "mark --list": "Show the marks",
    "climate seen": "I saw a sign of spring: the last snow gone, a first flower",
    "give": "I gave stems away",
    "sell": "I sold stems",
    "lose": "Stems have died",
    "split": "Let part of a lot go its own way",
    "lots": "Show the lots",
    "takes --ask": "What takes: how my lots have done, and the account of a year",
    "card": "Show one lot",
    "plants --ask": "Look a plant up",
    "plants add": "Write down a plant of my own",
    "plants amend": "Correct what is known of a plant",
    "sites": "Show the sites",
    "garden": "Show the garden",
    "climate": "Show the climate: frost, soil and the year's windows",
    "climate load": "Read a weather station's record, for dates with odds",
    "tally": "Count every stem",
    "demo": "Look round an invented garden",
    "undo": "Take the last entry back",
    "note": "Add a note to a lot",
    "sites add": "Describe a site",
    "sites growing": "Write down what grows on a site",
    "garden --change": "Describe the garden anew",
    "leave": "Leave the ledger",
    "back": "Back",
}
HOME = (
    "find", "check", "pot", "harden", "plant", "week", "week --tick", "start", "left", "look", "right",
    "leave",
)  # fmt: skip
SHELVES: Mapping[str, tuple[str, ...]] = {
    "start": ("strike", "layer", "divide", "mark", "climate seen", "back"),
    "left": ("give", "sell", "lose", "split", "back"),
    "look": (
        "tonight",
        "bench",
        "spot",
        "goal",
        "lots",
        "card",
        "takes --ask",
        "mark --list",
        "plants --ask",
        "sites",
        "garden",
        "climate",
        "tally",
        "demo",
        "back",
    ),
    "bench": ("mix", "dip", "feed", "pots", "pots add", "pots clean", "labels", "which", "back"),
    "right": (
        "undo",
        "note",
        "plants add",
        "plants amend",
        "sites add",
        "sites growing",
        "garden --change",
        "climate load",
        "back",
    ),
}
"""What is asked for often stands on the home screen; the rest one step behind it, by what has happened."""

LEAVE, BACK = "leave", "back"


def home(ctx: click.Context) -> None:
    """Show what needs attention; at a terminal, then offer every command until the person leaves."""
    ctx.obj = None  # every choice begins anew; there is nothing before it to go back to
    desk = desk_of(ctx)
    if desk.asker is None:
        _show(desk)
        return
    if desk.garden is None:
        _welcome(desk, ctx)
    while True:
        desk = desk_of(ctx)
        _show(desk)
        chosen = _choose(desk, HOME)
        while chosen in SHELVES:
            chosen = _choose(desk, SHELVES[chosen], leave=BACK)
        if chosen == LEAVE:
            return
        if chosen != BACK:
            _run(ctx, desk, chosen)
            _pause(desk)


def _choose(desk: Desk, offered: tuple[str, ...], leave: str = LEAVE) -> str:
    assert desk.asker is not None
    question = Question("do", "What now?", str, tuple(Choice(name, WORDS[name]) for name in offered))
    try:
        return desk.asker.ask(question)
    except Cancelled:
        if leave == LEAVE:
            raise Cancelled("The ledger is closed; all that was recorded is kept.") from None
        return leave


def _pause(desk: Desk) -> None:
    """Let the answer be read before the home screen pushes it up."""
    assert desk.asker is not None
    with contextlib.suppress(Cancelled):
        desk.asker.pause()


def _run(ctx: click.Context, desk: Desk, chosen: str) -> None:
    """Run a command as if it had been typed, and come back whatever it said.

    Somebody who stops in the middle is asked before the answers typed so far are let go.
    """
    from cuttings.app import call_going_back, tell

    answers: Sequence[tuple[str, str]] = ()
    while True:
        try:
            call_going_back([*globals_of(ctx), *chosen.split()], answers)
        except Cancelled as stop:
            say_error(stop.sentence)
            if not stop.answers or not _go_on(desk):
                return
            answers = stop.answers
        except (CuttingsError, click.ClickException) as error:
            tell(error)
            return
        else:
            return


def _go_on(desk: Desk) -> bool:
    assert desk.asker is not None
    prompt = "Go on where you stopped? (no lets go of what you typed)"
    question = Question("go-on", prompt, yes_no, default="yes", yes_no=True)
    try:
        return yes_no(desk.asker.ask(question))
    except Cancelled:
        return False


def _welcome(desk: Desk, ctx: click.Context) -> None:
    page = Page().heading("A new ledger", str(desk.ledger.folder))
    page.row(
        "", "First the garden: where it lies and when frost comes. Every date that follows rests on that."
    )
    desk.show(page)
    _run(ctx, desk, "garden")


def _show(desk: Desk) -> None:
    book = desk.book.as_of(desk.on)
    name = desk.garden.name if desk.garden else "No garden yet"
    page = Page().heading(name, spoken(desk.on))
    sheet, _ = sheet_for(desk, Asked(first=desk.on, last=desk.on + WEEK), numbered=False)
    page.gap()
    items = sorted(
        (item for stop in sheet.stops for item in stop.items), key=lambda item: (-item.cost, item.number)
    )
    jobs = alike(items)
    for job in jobs[:MOST_SHOWN]:
        add_job(page, desk, job, sheet.first, sheet.last, brief=True)
    more = len(jobs) - MOST_SHOWN
    page.row("", f"and {more} more jobs this week; 'week' shows them all", only_if=more > 0)
    quiet = (
        "Nothing needs doing this week." if book.lots else "No lots yet; the first find begins the ledger."
    )
    page.row("", quiet, only_if=not items)
    no_places = "No sites yet; describe the places a plant can go, so that spots can be found."
    page.row("", no_places, only_if=not book.sites)
    totals: dict[Stage, int] = {}
    for lot in book.live_lots():
        for stage in LIVING:
            totals[stage] = totals.get(stage, 0) + lot.at(stage)
    page.gap()
    live = len(book.live_lots())
    page.row("Held", f"{live} lot{'s' * (live != 1)}: {spoken_counts(totals)}.", only_if=bool(live))
    desk.answer(
        page,
        {
            "garden": desk.garden.name if desk.garden else None,
            "on": desk.on.isoformat(),
            "nudges": [item.nudge.what for item in items],
            "lots": live,
        },
    )
