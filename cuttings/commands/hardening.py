"""Hardening off: the plan, its days, and the day it is done."""

from typing import Any

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import filled
from cuttings.commands.questions import how_many, taken, which_lot
from cuttings.commands.telling import known_lot, lot_document, next_page
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.knowledge import Known
from cuttings.rules.advice import Advice
from cuttings.rules.hardening import HardeningDay, HardeningPlan, needs_hardening, plan, progress
from cuttings.show.page import Page
from cuttings.units import show_temperature
from cuttings.words import Stage

Written = tuple[Book, e.LotEntry]


@click.command(help="Harden a lot off: show its plan, begin, tick a day off, or finish.")
@click.argument("lot", required=False)
@click.option("--start", is_flag=True, help="begin")
@click.option("--day-done", is_flag=True, help="a day of the plan is done")
@click.option("--skip", metavar="REASON", help="a day was missed, and why")
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
    which = which_lot(desk, "Which lot?", Stage.HARDENING, Stage.POTTED)
    interview = desk.interview(given, [which])
    known = known_lot(desk, interview.ask(which))
    step = steps[0] if steps else _ask_step(desk, known)
    if step:
        _do(desk, interview, known, step, given["skip"])
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
            Choice("finish", "it is finished: they are ready to plant"),
        ]
    if lot.at(Stage.POTTED):
        offered.append(Choice("start", f"begin with the {lot.at(Stage.POTTED)} potted"))
    offered.append(Choice("look", "nothing, I only looked"))
    step = desk.asker.ask(Question("step", "What is to be written down?", str, tuple(offered)))
    return "" if step == "look" else step


def _do(desk: Desk, interview: Interview, known: Known, step: str, reason: str | None) -> None:
    lot = known.lot
    if step == "start":
        book, entry = _start(desk, interview, known)
    elif step == "finish":
        book, entry = _finish(desk, interview, known)
    else:
        book, entry = _day(desk, known, step, reason)
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
    return desk.write(e.Harden, lot=lot.code, step="start", moves=moves)


def _day(desk: Desk, known: Known, step: str, reason: str | None) -> Written:
    lot = known.lot
    if not lot.at(Stage.HARDENING):
        raise Refused(
            f"{lot.code} holds {spoken_counts(lot.stages)} and is not being hardened off; "
            f"'cuttings harden {lot.code} --start' begins it."
        )
    if any(entry.on == desk.on and entry.step != "start" for entry in lot.of_kind(e.Harden)):
        desk.warn(
            f"a day of {lot.code} was written down for {spoken(desk.on)} already; this counts as another."
        )
    if step == "skip" and not reason and desk.asker is not None:
        reason = desk.asker.ask(Question("skip", "Why was it missed?", filled))
    return desk.write(e.Harden, lot=lot.code, step=step, reason=reason or "")


def _finish(desk: Desk, interview: Interview, known: Known) -> Written:
    lot = known.lot
    stages = (Stage.HARDENING,) if lot.at(Stage.HARDENING) else (Stage.HARDENING, Stage.POTTED)
    count = _count(interview, lot, stages, "How many are ready?")
    moves = taken(lot, count, stages, Stage.READY)
    needed = _needs(desk, known)
    steps = _plan(known)
    left = progress(steps, lot.hardening_days[0]).left if lot.at(Stage.HARDENING) else len(steps.days)
    if needed.value and left:
        desk.warn(f"{left} of the {len(steps.days)} days of hardening off were not done. {needed.why}")
    return desk.write(e.Ready, lot=lot.code, moves=moves)


def _count(interview: Interview, lot: Lot, stages: tuple[Stage, ...], prompt: str) -> int:
    held = sum(lot.at(stage) for stage in stages)
    if not held:
        raise Refused(shortage(lot.code, lot.stages, 1, stages[0]))
    return interview.ask(how_many(lot, stages, prompt, held))


def _needs(desk: Desk, known: Known) -> Advice[bool]:
    return needs_hardening(known.plant, grown_under_cover=known.under_cover, on=desk.on, climate=desk.climate)


def _plan(known: Known) -> HardeningPlan:
    return plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)


def _so_far(desk: Desk, lot: Lot) -> str:
    if not lot.at(Stage.HARDENING):
        return ""
    steps = _plan(known_lot(desk, lot))
    done, missed = lot.hardening_days
    text = f"; day {min(done, len(steps.days))} of {len(steps.days)} done"
    return text + (f", {missed} missed" if missed else "")


def _hours(day: HardeningDay) -> str:
    return "out day and night" if day.hours_out >= 24 else f"{day.hours_out:g} hours out"


def _plan_page(desk: Desk, known: Known) -> Page:
    lot = known.lot
    steps, needed = _plan(known), _needs(desk, known)
    done, missed = lot.hardening_days
    page = Page().heading(f"Hardening off {lot.code}  {lot.plant_called}", spoken_counts(lot.stages))
    if not needed.value and not lot.at(Stage.HARDENING):
        page.row("", "It needs none.", needed.why, needed.source if desk.why else "", tone="accent")
        return page.next_steps(f"'cuttings spot {lot.code}' says where it could go.")
    night, day_least = (show_temperature(c, desk.units) for c in (steps.night_min_c, steps.day_min_c))
    limits = f"{len(steps.days)} days; in at night below {night}, not out at all below {day_least}."
    page.row("", limits, steps.why, steps.source if desk.why else "")
    page.row("", f"{done} days done, {missed} missed.", only_if=bool(lot.at(Stage.HARDENING)))
    page.gap()
    for day in steps.days:
        mark = "; done" if lot.at(Stage.HARDENING) and day.number <= done else ""
        now = bool(lot.at(Stage.HARDENING)) and day.number == done + 1
        text = f"{_hours(day)}, {day.shade}{mark}"
        page.row(f"Day {day.number}", text, day.note if now else "", tone="accent" if now else "")
    return page


def _plan_document(desk: Desk, known: Known) -> dict[str, Any]:
    steps, needed = _plan(known), _needs(desk, known)
    done, missed = known.lot.hardening_days
    return {
        **lot_document(known.lot),
        "needed": needed.value,
        "why": f"{needed.why} {steps.why}",
        "source": steps.source,
        "done": done,
        "missed": missed,
        "night_min_c": round(steps.night_min_c, 2),
        "day_min_c": round(steps.day_min_c, 2),
        "days": [
            {"day": day.number, "hours_out": day.hours_out, "shade": day.shade, "note": day.note}
            for day in steps.days
        ],
    }
