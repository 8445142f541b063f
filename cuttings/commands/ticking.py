"""Ticking a nudge off: it is done, it must wait, or it is never to come back."""

import re
from collections.abc import Sequence
from datetime import date
from functools import partial

import click
from attrs import evolve

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, globals_of
from cuttings.commands.numbering import find
from cuttings.commands.parsing import whole
from cuttings.commands.telling import lot_document, put_off_until
from cuttings.commands.week_nudges import Asked, nudges_on
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused, Unfound
from cuttings.ledger.folding import effective
from cuttings.ledger.ticks import Aside, NudgeDone, NudgeEntry, NudgeLater, NudgeNever
from cuttings.nudges.asides import SEASONS, STAGES, back_on, falls_on, holds, parse_later, too_late
from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import WEEK
from cuttings.show.page import Page

OF_A_LOT = ("check", "pot", "plant", "lose")
"""Tasks that are commands for one lot."""

STARTS = {"strike": "count", "layer": "count", "divide": "pieces", "find": "count"}
"""Tasks that begin a lot, and the option that says of how many stems."""

ASK_THEMSELVES = ("strike", "divide")
"""Those of them that ask how many where nobody said, and offer those that are left of a goal."""

LISTED = re.compile(r"\d+(-\d+)?(,\d+(-\d+)?)*")
MOST_NUMBERS = 1000

NO_MORE = Choice("none", "nothing more")
HOW = Question(
    "how",
    "What of it?",
    str,
    (
        Choice("done", "it is done"),
        Choice("later", "it must wait"),
        Choice("never", "never again"),
        Choice("nothing", "nothing, I only looked"),
    ),
)


def tick_off(
    desk: Desk,
    first: date | None,
    done: Sequence[str],
    later: tuple[str, str] | None,
    never: Sequence[str],
) -> None:
    """Tick nudges off by their numbers on the sheet shown last, or the one that began on ``first``, or by
    their ids. All of them are found, and looked at, before anything is written down.

    Raises:
        Misused: several are given with ``--json``, one is given twice, or a later time cannot be read.
        Refused: one is not there, or was ticked off already.
    """
    asked = {"later": [later[0]] if later else [], "never": never, "done": done}
    found = {verdict: _found(desk, texts, first) for verdict, texts in asked.items()}
    chosen = [nudge.id for nudges in found.values() for nudge in nudges]
    if desk.as_json and len(chosen) > 1:
        raise Misused("With --json, give one number at a time.")
    twice = next((each for each in chosen if chosen.count(each) > 1), None)
    if twice is not None:
        raise Misused(f"{twice} is named twice; say of each only one of done, later and never.")
    for verdict, nudges in found.items():
        for nudge in nudges:
            _refuse_unless_open(desk, nudge, verdict)
    for nudge in found["later"]:
        put_later(desk, nudge, later[1] if later else None)
    for nudge in found["never"]:
        put_away(desk, nudge)
    for nudge in found["done"]:
        mark_done(desk, nudge)


def _found(desk: Desk, texts: Sequence[str], first: date | None) -> list[Nudge]:
    """The nudges that are named, each once."""
    names = dict.fromkeys(name for text in texts for name in numbers_in(text))
    return list({nudge.id: nudge for nudge in (named(desk, name, first) for name in names)}.values())


def numbers_in(text: str) -> list[str]:
    """The numbers of a list such as ``3``, ``2-5`` or ``1,4-6``; any other text as it is."""
    if not LISTED.fullmatch(text.replace(" ", "")):
        return [text]
    found = []
    for part in text.replace(" ", "").split(","):
        first, _, last = part.partition("-")
        found += [str(number) for number in range(int(first), int(last or first) + 1)][:MOST_NUMBERS]
    return found


def _refuse_unless_open(desk: Desk, nudge: Nudge, verdict: str) -> None:
    """Raises:
    Refused: it was put away already, or done, or there is nothing in it to be done.
    """
    aside = _aside(desk, nudge)
    if verdict != "never":
        _refuse_if_done(desk, nudge, aside)
    if verdict == "done" and nudge.not_yet:
        raise Refused(f"'{nudge.what}' says to wait, so it cannot be done; --later or --never quiets it.")


def named(desk: Desk, text: str, first: date | None = None) -> Nudge:
    """The nudge that a number or an id stands for, as it is now; one that was put aside too.

    Raises:
        Refused: there is none, or it has had its day.
    """
    another_day = desk.on if first is None and desk.on != desk.today else None
    found = find(desk.ledger.folder, text, first, another_day)
    begin, end = found.days or (first or desk.on, first or desk.on)
    begin = max(begin, desk.on)
    book = evolve(desk.book.as_of(begin), put_aside={})
    nudges = nudges_on(desk, book, Asked(first=begin, last=max(end, begin + WEEK), outlook=found.outlook))
    nudge = next((nudge for nudge in nudges if nudge.id == found.id), None)
    if nudge is None:
        said = found.id if text.strip() == found.id else f"Number {text.strip()} ({found.id})"
        raise Refused(
            f"{said} asks for nothing from {spoken(begin, desk.today)} on: it is written down "
            "already, or its time is over; 'cuttings week' shows what is left."
        )
    return nudge


def command_for(nudge: Nudge, count: int | None = None) -> list[str]:
    """The command that writes a nudge down as done, word by word; empty for care that leaves no entry of its
    own. ``count`` is how many stems were started, where that is known."""
    match nudge.task:
        case "mark":
            return ["mark", "--done", nudge.mark]
        case "harden" if nudge.step:
            return ["harden", nudge.lot, f"--{nudge.step}"]
        case "garden":
            return ["garden", "--change"]
        case "labels":
            return ["labels", "--written", *nudge.lots]
        case task if task in OF_A_LOT:
            return [task, nudge.lot]
        case task if task in STARTS:
            return [task, *nudge.words, *(() if count is None else (f"--{STARTS[task]}", str(count)))]
        case _:
            return []


def mark_done(desk: Desk, nudge: Nudge) -> None:
    """Write down that it is done: by the command it belongs to, which asks for what it must know, or else as
    care given on the day.

    Raises:
        Refused: it was done or put away already, or the facts do not allow it.
        Misused: the command needs more than it was told, and nobody is there to ask.
    """
    aside = _aside(desk, nudge)
    _refuse_if_done(desk, nudge, aside)
    if command := command_for(nudge, _how_many(desk, nudge)):
        from cuttings.app import call

        if desk.asker is not None:
            desk.remark(f"To be written down: {nudge.what}.")
        call([*globals_of(click.get_current_context()), *command], desk.answers)
        back = "takes back one of them at a time" if len(nudge.lots) > 1 else "takes it back"
        desk.remark(f"Done: {nudge.what}. 'cuttings undo' {back}.")
        return
    opens = nudge.window.opens if nudge.window.opens > desk.on else None
    _, entry = desk.write(NudgeDone, nudge=nudge.id, what=nudge.what, lot=nudge.lot, opens=opens)
    _recorded(desk, nudge, entry, "Done", "takes it back")


def _how_many(desk: Desk, nudge: Nudge) -> int | None:
    """How many stems of a goal were started: as many as it asks for, unless somebody is there to ask;
    ``None`` where the command asks for it itself."""
    if desk.asker is None or nudge.task not in STARTS:
        return nudge.stems
    if nudge.task in ASK_THEMSELVES:
        return None
    how_many = Question("count", "How many did you start?", whole(), default=str(nudge.stems))
    return desk.interview({}, [how_many]).ask(how_many)


def put_later(desk: Desk, nudge: Nudge, when: str | None = None, interview: Interview | None = None) -> None:
    """Put it off until a day or a condition, which is asked for where it was not told.

    Raises:
        Refused: it was done or put away already, or the condition holds now.
        Misused: that is no later time, or nobody is there to ask for one.
    """
    _refuse_if_done(desk, nudge, _aside(desk, nudge))
    question = _until_when(desk, nudge)
    until = (interview or desk.interview({"later": when}, [question])).ask(question)
    day, condition = (None, until) if isinstance(until, str) else (until, "")
    falls = falls_on(condition, desk.on, desk.climate) if condition in SEASONS else day
    if falls is not None and (late := too_late(nudge, falls)):
        desk.warn(late)
    _, entry = desk.write(NudgeLater, nudge=nudge.id, what=nudge.what, until=day, condition=condition)
    about = f", about {spoken(falls, desk.on)}" if condition and falls else ""
    _recorded(desk, nudge, entry, f"Put off until {put_off_until(until)}{about}", "takes it back")


def put_away(desk: Desk, nudge: Nudge) -> None:
    """Put it away for good.

    Raises:
        Refused: it was put away already.
    """
    _aside(desk, nudge)
    _, entry = desk.write(NudgeNever, nudge=nudge.id, what=nudge.what)
    _recorded(desk, nudge, entry, "Never again", "brings it back")


def tick(desk: Desk, numbered: Sequence[tuple[int, Nudge]]) -> None:
    """Let a person choose nudges of a sheet by their numbers, one after another, and say what is to become of
    each.

    Raises:
        Misused: nobody is there to ask.
        Refused: nothing stands on the sheet.
    """
    if desk.asker is None:
        raise Misused("--tick asks at a terminal; elsewhere give --done N, --later N DATE or --never N.")
    if not numbered:
        raise Refused("Nothing stands on this sheet, so there is nothing to tick off.")
    left = dict(numbered)
    while left:
        offered = [Choice(str(number), f"{number}. {nudge.what}") for number, nudge in left.items()]
        which = Question("tick", "Which of them?", str, (*offered, NO_MORE), by_number=True)
        interview = Interview(given={}, required=[which, HOW], asker=desk.asker)
        chosen = interview.ask(which)
        if chosen == NO_MORE.value:
            return
        _tick_one(desk, interview, left.pop(int(chosen)))


def _tick_one(desk: Desk, interview: Interview, nudge: Nudge) -> None:
    how = interview.ask(HOW)
    if how == "later":
        put_later(desk, nudge, interview=interview)
    elif how == "never":
        put_away(desk, nudge)
    elif how == "done":
        _refuse_unless_open(desk, nudge, how)
        mark_done(desk, nudge)


def _until_when(desk: Desk, nudge: Nudge) -> Question[date | str]:
    return Question(
        "later",
        "Until when? (a day, friday, next week, +10d; or what must come first: last-frost, rooted ...)",
        partial(_read_later, desk, nudge),
        allowed="a day to come, or what must come first",
    )


def _read_later(desk: Desk, nudge: Nudge, text: str) -> date | str:
    until = parse_later(text, desk.on)
    if until in SEASONS and falls_on(str(until), desk.on, desk.climate) is None:
        raise Unfound(f"'{until}' never comes in this garden; write a day, or what must come first.")
    if isinstance(until, date) or until in SEASONS:
        return until
    if until in STAGES and not nudge.lot:
        raise Unfound(f"{nudge.name} is no lot, so it is never '{until}'; write a day, or last-frost.")
    if until in STAGES and holds(until, desk.on, nudge.lot, desk.book.as_of(desk.on)):
        raise Unfound(f"{nudge.lot} has stems that are {until} already; write what must still come first.")
    return until


def _aside(desk: Desk, nudge: Nudge) -> Aside:
    """What was said of a nudge until now.

    Raises:
        Refused: that it is never to come back.
    """
    aside = desk.book.put_aside.get(nudge.id, Aside())
    if aside.never:
        standing = [x for x in effective(desk.book.entries) if isinstance(x, NudgeNever)]
        entry = next(x.id for x in standing if x.nudge == nudge.id)
        raise Refused(f"'{nudge.what}' was put away for good; 'cuttings undo {entry}' brings it back.")
    return aside


def _refuse_if_done(desk: Desk, nudge: Nudge, aside: Aside) -> None:
    if aside.done is None:
        return
    back = back_on(nudge, evolve(aside, until=None, condition=""), desk.book, desk.climate)
    if back is None or back > desk.on:
        raise Refused(f"'{nudge.what}' was ticked off on {spoken(aside.done, desk.today)} already.")


def _recorded(desk: Desk, nudge: Nudge, entry: NudgeEntry, said: str, back: str) -> None:
    """Say what was written down, in the nudge's own words."""
    done = isinstance(entry, NudgeDone)
    until = entry.until if isinstance(entry, NudgeLater) else None
    desk.recorded(
        f"{said}: {nudge.what}.",
        entry,
        Page().next_steps(f"'cuttings undo' {back}."),
        nudge=nudge.id,
        **lot_document(desk.book.lots.get(nudge.lot), nudge.lot or None),
        done=entry.on.isoformat() if done else None,
        until=until.isoformat() if until else None,
        condition=(entry.condition or None) if isinstance(entry, NudgeLater) else None,
        never=isinstance(entry, NudgeNever),
    )
