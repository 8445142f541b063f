"""How a lot's hardening off is shown: the plan's days with their dates, and what is logged of them."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import groupby
from typing import Any

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.commands.telling import known_lot, lot_document
from cuttings.dates import margin, spoken
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import spoken_counts
from cuttings.nudges.hardening_off import hardening_log
from cuttings.nudges.knowledge import Known
from cuttings.rules.advice import Advice
from cuttings.rules.hardening import (
    DatedDay,
    DayState,
    HardeningDay,
    HardeningPlan,
    needs_hardening,
    next_start,
    plan,
    ready_on,
    schedule,
    steps_done,
)
from cuttings.show.page import Page
from cuttings.units import show_temperature
from cuttings.words import Stage

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


def needs(desk: Desk, known: Known) -> Advice[bool]:
    soft = known.soft(desk.on)
    return needs_hardening(known.plant, grown_under_cover=soft, on=desk.on, climate=desk.climate)


def plan_of(known: Known) -> HardeningPlan:
    return plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)


def course_of(desk: Desk, known: Known) -> Course:
    lot, steps = known.lot, plan_of(known)
    needed = needs(desk, known)
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


def so_far(desk: Desk, lot: Lot) -> str:
    if not lot.at(Stage.HARDENING):
        return ""
    course = course_of(desk, known_lot(desk, lot))
    missed = f", {course.missed} missed" if course.missed else ""
    text = f"; day {course.done} of {len(course.steps.days)} done{missed}"
    return f"{text}; ready on {spoken(ready_on(course.days), desk.on)}"


def plan_page(desk: Desk, known: Known) -> Page:
    lot, course = known.lot, course_of(desk, known)
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


def plan_document(desk: Desk, known: Known) -> dict[str, Any]:
    course = course_of(desk, known)
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
