"""Checking: has a lot rooted? What is seen becomes rooted, not yet, or failed."""

from typing import Any

import click

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import maybe, whole, yes_no
from cuttings.commands.questions import NOTE, which_lot
from cuttings.commands.rooting_view import rest_rows, rooting_document
from cuttings.commands.telling import known_lot, lot_document, next_page
from cuttings.errors import Refused, Unfound
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.rules.looking import BLACK_OR_SOFT, DO_NOT_PULL, Seen, Verdict, how_to_look, judge
from cuttings.rules.potting import ready_to_pot
from cuttings.show.page import Page, Row
from cuttings.units import in_units, parse_length
from cuttings.words import Stage

LONGEST_ROOT_M = 1.0
"""A longer root than this on a young plant is a slip of the unit; from memory."""


@click.command(help="Look whether a lot has rooted; what is seen becomes rooted, not yet, or failed.")
@click.argument("lot", required=False)
@click.option("--rooted", metavar="N", help="how many have rooted")
@click.option("--not-yet", metavar="N", help="how many have not yet (the rest, if left out)")
@click.option("--failed", metavar="N", help="how many have died")
@click.option("--root-length", metavar="LEN", help="the longest root")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def check(desk: Desk, **given: Any) -> None:
    which = which_lot(desk, "Which lot have you looked at?", Stage.WAITING)
    counted = any(given[name] is not None for name in ("rooted", "not_yet", "failed"))
    verdict = Question("rooted", "", whole(0), allowed="N, or --not-yet N, or --failed N")
    interview = desk.interview(given, [which] if counted else [which, verdict])
    lot = interview.ask(which)
    if not lot.at(Stage.WAITING):
        raise Refused(f"{lot.code} holds {spoken_counts(lot.stages)}; none of them is waiting to be checked.")
    seen = (
        _look(desk, interview, lot) if interview.asking else Seen(root_length_m=_root_length(desk, interview))
    )
    rooted, not_yet, failed = _counts(interview, lot, seen)
    note = interview.ask(NOTE)
    moves = tuple(
        e.Move(count=count, source=Stage.WAITING, target=target)
        for count, target in ((rooted, Stage.ROOTED), (failed, Stage.LOST))
        if count
    )

    book, entry = desk.write(
        e.Check,
        lot=lot.code,
        moves=moves,
        not_yet=not_yet,
        note=note,
        root_length_m=seen.root_length_m,
        seen=_signs(seen),
    )
    after = book.lots[lot.code]
    sentence = f"{lot.code} {lot.plant_called}: {spoken_counts(after.stages)}."
    coming = next_page(desk, after).parts
    said_below = any(
        DO_NOT_PULL in reason for row in coming if isinstance(row, Row) for reason in row.reasons
    )
    rooting = known_lot(desk, after).forecast() if after.at(Stage.WAITING) else None
    hope = rooting is None or desk.on < rooting.give_up
    warned = bool(not_yet and hope and not interview.asking and not said_below)
    page = Page().row("", "", DO_NOT_PULL, only_if=warned)
    ready = ready_to_pot(seen.root_length_m, lot.method, desk.units)
    page.row("", ready.why, only_if=bool(rooted and not ready.value and seen.root_length_m is not None))
    rest_rows(desk, page, after, rooting)
    page.parts.extend(coming)
    desk.recorded(sentence, entry, page, **lot_document(after), rooting=rooting_document(rooting))


_SIGNS = (
    ("new_growth", "Is there new growth?", "new growth"),
    ("resists_tug", "Do they hold when touched very gently?", "holds at a gentle tug"),
    ("roots_at_holes", "Are roots to be seen, at the holes or beside the stem?", "roots to be seen"),
    ("blackened", "Has any stem gone black or soft?", BLACK_OR_SOFT),
)


def _look(desk: Desk, interview: Interview, lot: Lot) -> Seen:
    """What a grower looks at, asked in the order one would look; then what it amounts to."""
    look = f"{how_to_look(lot.method)} {known_lot(desk, lot).way.rooted_when}".rstrip()
    interview.say(in_units(look, desk.units))
    answers = {
        name: interview.ask(Question(name, prompt, yes_no, default="no", yes_no=True))
        for name, prompt, _ in _SIGNS
    }
    length = _root_length(desk, interview) if answers["roots_at_holes"] else None
    seen = Seen(root_length_m=length, **answers)
    advice = judge(seen, lot.method)
    interview.say(f"That looks like: {advice.value.replace('-', ' ')}. {advice.why} {advice.sure}".rstrip())
    return seen


def _root_length(desk: Desk, interview: Interview) -> float | None:
    def read(text: str) -> float:
        length = parse_length(text, desk.units)
        if length > LONGEST_ROOT_M:
            raise ValueError(f"No young root is as long as '{text}'; check the unit.")
        return length

    return interview.ask(
        Question(
            "root-length", "How long is the longest root? (Enter if not measured)", maybe(read), default=""
        )
    )


def _signs(seen: Seen) -> tuple[str, ...]:
    return tuple(words for name, _, words in _SIGNS if getattr(seen, name))


def _counts(interview: Interview, lot: Lot, seen: Seen) -> tuple[int, int, int]:
    """How many rooted, not yet, and failed; what is not told of is still waiting."""
    waiting = lot.at(Stage.WAITING)
    verdict = judge(seen, lot.method).value
    likely = waiting if verdict is Verdict.ROOTED and interview.asking else 0
    rooted = interview.ask(_part("rooted", f"Of {waiting}, how many have rooted?", waiting, likely))
    left = max(waiting - rooted, 0)
    likely = left if verdict is Verdict.FAILED and interview.asking else 0
    failed = 0
    if left or not interview.asking:
        failed = interview.ask(_part("failed", f"Of the other {left}, how many have failed?", left, likely))
    given = interview.given(Question("not-yet", "", whole(0)))
    not_yet = max(left - failed, 0) if given is None else given
    if rooted + failed + not_yet > waiting:
        raise Refused(shortage(lot.code, lot.stages, rooted + failed + not_yet, Stage.WAITING))
    return rooted, not_yet, failed


def _part(name: str, prompt: str, most: int, default: int) -> Question[int]:
    def read(text: str) -> int:
        count = whole(0)(text)
        if count > most:
            left = "one is" if most == 1 else f"{most} are"
            raise Unfound(f"Only {left} left, so {count} cannot be.")
        return count

    return Question(name, prompt, read, default=str(default))
