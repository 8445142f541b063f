"""Hardening off: beginning it, ticking its days off, and the day it is done."""

from datetime import timedelta
from functools import partial
from typing import Any

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.hardening_view import course_of, needs, plan_document, plan_of, plan_page, so_far
from cuttings.commands.parsing import filled, maybe
from cuttings.commands.questions import how_many, taken, which_lot
from cuttings.commands.telling import known_lot, lot_document, next_page
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.hardening_off import hardening_log, waits_too_long
from cuttings.nudges.knowledge import Known
from cuttings.rules.hardening import (
    night_of,
    progress,
    steps_done,
)
from cuttings.rules.transplant import next_planting
from cuttings.units import parse_temperature, show_temperature
from cuttings.words import Stage

Written = tuple[Book, e.LotEntry]


@click.command(help="Harden a lot off: show its plan, begin, tick a day off, or finish.")
@click.argument("lot", required=False)
@click.option("--start", is_flag=True, help="begin")
@click.option("--day-done", is_flag=True, help="a day of the plan is done")
@click.option("--skip", metavar="REASON", help="a day was missed, and why")
@click.option("--night-low", metavar="TEMP", help="how cold the day's night was; with --day-done or alone")
@click.option("--finish", is_flag=True, help="hardened off: ready to plant")
@click.option("--count", metavar="N", help="how many stems begin or finish (all)")
@global_options
@with_desk
def harden(desk: Desk, start: bool, day_done: bool, finish: bool, **given: Any) -> None:
    flags = {"start": start, "day-done": day_done, "skip": given["skip"] is not None, "finish": finish}
    steps = [step for step, chosen in flags.items() if chosen]
    if flags["skip"] and not given["skip"].strip():
        raise Misused("--skip: say why the day was missed.")
    if len(steps) > 1:
        raise Misused("Give only one of --start, --day-done, --skip and --finish.")
    if given["night_low"] is not None and steps not in ([], ["day-done"]):
        raise Misused("--night-low goes with --day-done or by itself.")
    which = which_lot(desk, "Which lot?", Stage.HARDENING, Stage.POTTED)
    interview = desk.interview(given, [which])
    known = known_lot(desk, interview.ask(which))
    low_c = interview.given(_night_question(desk, known))
    step = steps[0] if steps else "night" if low_c is not None else ""
    if not step:
        step = _ask_step(desk, known)
        low_c = _ask_night(desk, known, step)
    if step:
        _do(desk, interview, known, step, given["skip"], low_c)
    else:
        desk.answer(plan_page(desk, known), plan_document(desk, known))


def _ask_step(desk: Desk, known: Known) -> str:
    """At a terminal, what to write down; elsewhere, and for somebody who only looks, nothing."""
    lot = known.lot
    if desk.asker is None or not (lot.at(Stage.HARDENING) or lot.at(Stage.POTTED)):
        return ""
    desk.show(plan_page(desk, known))
    offered = []
    if lot.at(Stage.HARDENING):
        offered += [
            Choice("day-done", "a day of it is done"),
            Choice("skip", "a day was missed"),
            *([Choice("night", "a night was too cold for them")] if _nights_out(desk, known) else []),
            Choice("finish", "it is finished: they are ready to plant"),
        ]
    if lot.at(Stage.POTTED):
        offered.append(Choice("start", f"begin with the {lot.at(Stage.POTTED)} potted"))
    offered.append(Choice("look", "nothing, I only looked"))
    step = desk.asker.ask(Question("step", "What is to be written down?", str, tuple(offered)))
    return "" if step == "look" else step


def _night_question(desk: Desk, known: Known) -> Question[float | None]:
    limit = show_temperature(plan_of(known).night_min_c, desk.units)
    return Question(
        "night-low",
        f"How cold was the night? (Enter if it kept above {limit})",
        maybe(partial(parse_temperature, units=desk.units)),
        default="",
    )


def _ask_night(desk: Desk, known: Known, step: str) -> float | None:
    """How cold the night was, asked only where the plants were to stay out in it."""
    if desk.asker is None or step not in ("day-done", "night"):
        return None
    if step == "night":
        read = partial(parse_temperature, units=desk.units)
        return read(desk.asker.ask(Question("night-low", "How cold did it get?", read)))
    coming = course_of(desk, known).coming
    if not coming or not coming[0].step.overnight:
        return None
    question = _night_question(desk, known)
    return question.parse(desk.asker.ask(question))


def _nights_out(desk: Desk, known: Known) -> bool:
    """Whether the day to be written down, or the last one that was, has its night outside."""
    course = course_of(desk, known)
    return any(day.step.overnight for day in (*course.logged[-1:], *course.coming[:1]))


def _do(
    desk: Desk, interview: Interview, known: Known, step: str, reason: str | None, low_c: float | None
) -> None:
    lot = known.lot
    if step == "start":
        book, entry = _start(desk, interview, known)
    elif step == "finish":
        book, entry = _finish(desk, interview, known)
    else:
        book, entry = _day(desk, known, step, reason, low_c)
    after = book.lots[lot.code]
    sentence = f"{lot.code} {lot.plant_called}: {spoken_counts(after.stages)}{so_far(desk, after)}."
    desk.recorded(sentence, entry, next_page(desk, after), **lot_document(after))


def _start(desk: Desk, interview: Interview, known: Known) -> Written:
    lot = known.lot
    count = _count(interview, lot, (Stage.POTTED,), "How many begin?")
    moves = taken(lot, count, (Stage.POTTED,), Stage.HARDENING)
    needed = needs(desk, known)
    if not needed.value:
        desk.remark(f"{needed.why} Hardening it off does no harm.")
    if lot.at(Stage.HARDENING) and course_of(desk, known).done:
        desk.warn(
            f"the {lot.at(Stage.HARDENING)} that are being hardened off begin again with them; "
            f"'cuttings split {lot.code}' keeps some apart."
        )
    _warn_if_untimely(desk, known)
    return desk.write(e.Harden, lot=lot.code, step="start", moves=moves)


def _warn_if_untimely(desk: Desk, known: Known) -> None:
    """Say so if it would be hardened off long before it may be planted: it would have to come in again."""
    ready = desk.on + timedelta(days=len(plan_of(known).days))
    planting = next_planting(known.plant, known.climate, ready)
    if planting is not None and waits_too_long(planting, ready):
        desk.warn(
            f"it would be ready on {spoken(ready, desk.on)}, and the next good time to plant it opens about "
            f"{spoken(planting.opens, desk.on)}; until then it would have to come in again."
        )


def _day(desk: Desk, known: Known, step: str, reason: str | None, low_c: float | None) -> Written:
    lot = known.lot
    if not lot.at(Stage.HARDENING):
        raise Refused(
            f"{lot.code} holds {spoken_counts(lot.stages)} and is not being hardened off; "
            f"'cuttings harden {lot.code} --start' begins it."
        )
    begun, log = hardening_log(lot)
    if desk.on < begun:
        raise Refused(f"{lot.code} began to be hardened off on {spoken(begun)}; no day before that counts.")
    same = [each for each in log if each.on == desk.on]
    if low_c is not None:
        step, reason = _night(desk, known, step, low_c, ticked=any(each.done for each in same))
    elif same:
        desk.warn(
            f"a day of {lot.code} was written down for {spoken(desk.on)} already; this counts as another."
        )
    if step == "skip" and not reason and desk.asker is not None:
        reason = desk.asker.ask(Question("skip", "Why was it missed?", filled))
    return desk.write(e.Harden, lot=lot.code, step=step, reason=reason or "", night_low_c=low_c)


def _night(desk: Desk, known: Known, step: str, low_c: float, *, ticked: bool) -> tuple[str, str]:
    """Whether a day with such a night was done or missed, with the reason; says what the night undoes."""
    steps = plan_of(known)
    verdict = night_of(steps, hardening_log(known.lot)[1], desk.on, low_c)
    reason = f"a night of {show_temperature(low_c, desk.units)}"
    if verdict.value:
        desk.warn(verdict.why)
        return "skip", reason
    if low_c >= steps.night_min_c:
        return "day-done", ""
    missed = step == "night" and not ticked
    again = " Its step is done again; '--day-done' with it says that the day was done." if missed else ""
    desk.remark(f"{verdict.why}{again}")
    return ("skip", reason) if missed else ("day-done", "")


def _finish(desk: Desk, interview: Interview, known: Known) -> Written:
    lot = known.lot
    stages = (Stage.HARDENING,) if lot.at(Stage.HARDENING) else (Stage.HARDENING, Stage.POTTED)
    count = _count(interview, lot, stages, "How many are ready?")
    moves = taken(lot, count, stages, Stage.READY)
    needed = needs(desk, known)
    steps = plan_of(known)
    done = steps_done(steps, hardening_log(lot)[1]) if lot.at(Stage.HARDENING) else 0
    left = progress(steps, done).left
    if needed.value and left:
        desk.warn(f"{left} of the {len(steps.days)} days of hardening off were not done. {needed.why}")
    return desk.write(e.Ready, lot=lot.code, moves=moves)


def _count(interview: Interview, lot: Lot, stages: tuple[Stage, ...], prompt: str) -> int:
    held = sum(lot.at(stage) for stage in stages)
    if not held:
        raise Refused(shortage(lot.code, lot.stages, 1, stages[0]))
    return interview.ask(how_many(lot, stages, prompt, held))
