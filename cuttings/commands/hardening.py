"""Hardening off: the plan with a date on each of its days, what is logged of them, and the day it is done."""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial
from itertools import groupby
from typing import Any

import click
from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import filled, maybe
from cuttings.commands.questions import how_many, taken, which_lot
from cuttings.commands.telling import known_lot, lot_document, next_page
from cuttings.dates import margin, spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.from_pot_on import MOST_WAIT_DAYS, hardening_log
from cuttings.nudges.knowledge import Known
from cuttings.rules.advice import Advice
from cuttings.rules.hardening import (
    DatedDay,
    DayState,
    HardeningDay,
    HardeningPlan,
    needs_hardening,
    next_start,
    night_of,
    plan,
    progress,
    ready_on,
    schedule,
    steps_done,
)
from cuttings.rules.transplant import next_planting
from cuttings.show.page import Page
from cuttings.units import parse_temperature, show_temperature
from cuttings.words import Stage

Written = tuple[Book, e.LotEntry]

RUNS_SHOWN = 4
"""Runs of logged days that a page tells one by one; older ones share a row, so that it fits a screen."""


@frozen
class Course:
    """A lot's hardening off as it stands: its plan, its dated days, and how many steps count as done.

    ``begun`` is ``None`` where it has not begun; the days are then those it would have from ``first``.
    """

    steps: HardeningPlan
    needed: Advice[bool]
    begun: date | None
    first: Advice[date]
    days: tuple[DatedDay, ...]
    done: int

    @property
    def missed(self) -> int:
        return sum(day.state is DayState.MISSED for day in self.days)

    @property
    def logged(self) -> tuple[DatedDay, ...]:
        return tuple(day for day in self.days if day.state in (DayState.DONE, DayState.MISSED))

    @property
    def coming(self) -> tuple[DatedDay, ...]:
        return tuple(day for day in self.days if day.state in (DayState.NOW, DayState.TO_COME))


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
        desk.answer(_plan_page(desk, known), _plan_document(desk, known))


def _ask_step(desk: Desk, known: Known) -> str:
    """At a terminal, what to write down; elsewhere, and for somebody who only looks, nothing."""
    lot = known.lot
    if desk.asker is None or not (lot.at(Stage.HARDENING) or lot.at(Stage.POTTED)):
        return ""
    desk.show(_plan_page(desk, known))
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
    limit = show_temperature(_plan(known).night_min_c, desk.units)
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
    coming = _course(desk, known).coming
    if not coming or not coming[0].step.overnight:
        return None
    question = _night_question(desk, known)
    return question.parse(desk.asker.ask(question))


def _nights_out(desk: Desk, known: Known) -> bool:
    """Whether the day to be written down, or the last one that was, has its night outside."""
    course = _course(desk, known)
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
    sentence = f"{lot.code} {lot.plant_called}: {spoken_counts(after.stages)}{_so_far(desk, after)}."
    desk.recorded(sentence, entry, next_page(desk, after), **lot_document(after))


def _start(desk: Desk, interview: Interview, known: Known) -> Written:
    lot = known.lot
    count = _count(interview, lot, (Stage.POTTED,), "How many begin?")
    moves = taken(lot, count, (Stage.POTTED,), Stage.HARDENING)
    needed = _needs(desk, known)
    if not needed.value:
        desk.remark(f"{needed.why} Hardening it off does no harm.")
    if lot.at(Stage.HARDENING) and _course(desk, known).done:
        desk.warn(
            f"the {lot.at(Stage.HARDENING)} that are being hardened off begin again with them; "
            f"'cuttings split {lot.code}' keeps some apart."
        )
    _warn_if_untimely(desk, known)
    return desk.write(e.Harden, lot=lot.code, step="start", moves=moves)


def _warn_if_untimely(desk: Desk, known: Known) -> None:
    """Say so if it would be hardened off long before it may be planted: it would have to come in again."""
    ready = desk.on + timedelta(days=len(_plan(known).days))
    planting = next_planting(known.plant, known.climate, ready)
    if planting is not None and planting.opens - ready > timedelta(days=MOST_WAIT_DAYS):
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
    steps = _plan(known)
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
    needed = _needs(desk, known)
    steps = _plan(known)
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


def _needs(desk: Desk, known: Known) -> Advice[bool]:
    soft = known.soft(desk.on)
    return needs_hardening(known.plant, grown_under_cover=soft, on=desk.on, climate=desk.climate)


def _plan(known: Known) -> HardeningPlan:
    return plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)


def _course(desk: Desk, known: Known) -> Course:
    lot, steps = known.lot, _plan(known)
    needed = _needs(desk, known)
    if lot.at(Stage.HARDENING):
        begun, log = hardening_log(lot)
        first = Advice(begun, "", steps.source)
        days = schedule(steps, begun, log, desk.on)
        return Course(steps, needed, begun, first, days, steps_done(steps, log))
    if needed.value:
        first = next_start(known.plant, known.climate, desk.on)
    else:
        first = Advice(desk.on, "", steps.source)
    not_begun = first.value - timedelta(days=1)
    return Course(steps, needed, None, first, schedule(steps, first.value, (), not_begun), 0)


def _so_far(desk: Desk, lot: Lot) -> str:
    if not lot.at(Stage.HARDENING):
        return ""
    course = _course(desk, known_lot(desk, lot))
    missed = f", {course.missed} missed" if course.missed else ""
    text = f"; day {course.done} of {len(course.steps.days)} done{missed}"
    return f"{text}; ready on {spoken(ready_on(course.days), desk.on)}"


def _plan_page(desk: Desk, known: Known) -> Page:
    lot, course = known.lot, _course(desk, known)
    needed = course.needed
    page = Page().heading(f"Hardening off {lot.code}  {lot.plant_called}", spoken_counts(lot.stages))
    if not needed.value and course.begun is None:
        page.row("", "It needs none.", needed.why, needed.source if desk.why else "", tone="accent")
        return page.next_steps(f"'cuttings spot {lot.code}' says where it could go.")
    _limits(page, desk, course.steps)
    ready = spoken(ready_on(course.days), desk.on)
    count = len(course.steps.days)
    if course.begun is None:
        begins = f"Begun on {spoken(course.first.value, desk.on)}, it would be ready on {ready}."
        why = course.first.why if course.first.value > desk.on else ""
        page.row("", begins, why, course.first.source if desk.why and why else "")
    else:
        page.row("", f"{course.done} of {count} days done, {course.missed} missed; ready on {ready}.")
    page.gap()
    _tell_days(page, desk, course)
    if desk.asker is not None:
        return page
    if course.begun is None:
        return page.next_steps(f"'cuttings harden {lot.code} --start' begins it.")
    if not course.coming:
        return page.next_steps(f"'cuttings harden {lot.code} --finish' says that they are ready to plant.")
    return page.next_steps(
        f"'cuttings harden {lot.code} --day-done' ticks a day off.",
        "'--skip REASON' or '--night-low TEMP' tells of a day gone wrong.",
    )


def _limits(page: Page, desk: Desk, steps: HardeningPlan) -> None:
    """How long it takes, the temperatures it goes by, and how to water."""
    night, day_least = (show_temperature(c, desk.units) for c in (steps.night_min_c, steps.day_min_c))
    indoors = f"in at night below {night}, not out at all below {day_least} or in strong wind"
    limits = f"{len(steps.days)} days; {indoors}."
    colder = "A colder night out costs a day"
    if steps.chill_c is not None:
        colder += f", below {show_temperature(steps.chill_c, desk.units)} two"
    water = f"{steps.days[0].water.capitalize()}; then {steps.days[-1].water}."
    page.row("", limits, steps.why, f"{colder} (from memory).", water, steps.source if desk.why else "")


def _tell_days(page: Page, desk: Desk, course: Course) -> None:
    """The days in their order: those alike and next to one another share a row."""
    runs = [tuple(run) for _, run in groupby(course.days, key=_likeness)]
    logged = [run for run in runs if run[0] in course.logged]
    older = logged[:-RUNS_SHOWN]
    if older:
        early = [day for run in older for day in run]
        missed = sum(day.state is DayState.MISSED for day in early)
        page.row(_stretch(early, desk.on), f"{len(early) - missed} done, {missed} missed.")
    for run in runs[len(older) :]:
        first = run[0]
        now = first.state is DayState.NOW
        due = course.begun is not None and bool(course.coming) and first is course.coming[0]
        note = first.step.note if due else ""
        page.row(_stretch(run, desk.on), _told(run), note, tone="accent" if now else "")
    ready = ready_on(course.days)
    page.row(margin(ready, desk.on), "Ready to plant.")


def _likeness(day: DatedDay) -> tuple[object, ...]:
    """What neighbouring days must have in common to be told in one row."""
    step = day.step
    match day.state:
        case DayState.DONE:
            return (day.state,)
        case DayState.TO_COME:
            return (day.state, step.hours_out, step.shade, step.wind)
        case _:
            return (day.state, step.number, day.reason)


def _stretch(days: Sequence[DatedDay], today: date) -> str:
    """The margin of a run of days: ``12 May``, ``12-17 May``, ``30 May-2 Jun``."""
    first, last = days[0].on, days[-1].on
    if first == last:
        return margin(first, today)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day}-{margin(last, today)}"
    return f"{margin(first, today)}-{margin(last, today)}"


def _told(run: Sequence[DatedDay]) -> str:
    first, last = run[0], run[-1]
    step = first.step
    alone = step.number == last.step.number
    name = f"Day {step.number}" if alone else f"Days {step.number} to {last.step.number}"
    match first.state:
        case DayState.DONE:
            return f"{name} done."
        case DayState.MISSED:
            times = f" {len(run)} times" if len(run) > 1 else ""
            return f"{name} missed{times}{f': {first.reason}' if first.reason else ''}."
        case _:
            today = ", today" if first.state is DayState.NOW else ""
            return f"{name}{today}: {_hours(step)}, {step.shade}, {step.wind}."


def _hours(day: HardeningDay) -> str:
    return "out day and night" if day.overnight else f"{day.hours_out:g} hours out"


def _plan_document(desk: Desk, known: Known) -> dict[str, Any]:
    course = _course(desk, known)
    steps = course.steps
    return {
        **lot_document(known.lot),
        "needed": course.needed.value,
        "why": f"{course.needed.why} {steps.why}",
        "source": steps.source,
        "done": course.done,
        "missed": course.missed,
        "night_min_c": round(steps.night_min_c, 2),
        "day_min_c": round(steps.day_min_c, 2),
        "begun_on": course.begun.isoformat() if course.begun else None,
        "ready_on": ready_on(course.days).isoformat(),
        "days": [
            {
                "day": day.step.number,
                "date": day.on.isoformat(),
                "state": day.state.value,
                "reason": day.reason,
                "hours_out": day.step.hours_out,
                "shade": day.step.shade,
                "wind": day.step.wind,
                "water": day.step.water,
                "note": day.step.note,
            }
            for day in course.days
        ],
    }
