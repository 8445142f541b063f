"""The week's sheet on the screen, and as a document."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from cuttings.commands.desk import Desk
from cuttings.commands.telling import spoiled, window_document
from cuttings.dates import margin, spoken
from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import Item, Sheet, Stop, alike
from cuttings.show.page import Page
from cuttings.show.plain import listed

ANYWHERE = "Anywhere"
MOST_NAMED, BRIEFLY_NAMED = 12, 2
"""How many lots one job names on the sheet, and on the home screen; the rest are counted."""

LEAST_TOLD = 0.05
"""Plants; what waiting costs is told from here on."""

LONG_MINUTES = 90
"""More than this is a long day's work; from memory."""

Job = Sequence[Item]
"""What is the same work for the same reason, for one lot or several."""


def week_page(desk: Desk, sheet: Sheet) -> Page:
    """The sheet, one part of the garden after another; in each, what loses most by waiting comes first."""
    where = f"{desk.garden.name}, " if desk.garden else ""
    first, last = sheet.first, sheet.last
    page = Page().heading("This week", f"{where}{spoken(first, first)} to {spoken(last, first)}")
    pace = desk.climate.pace
    if pace is not None and first <= desk.on <= last:
        page.row("Season", pace.said)
    page.row("Time", _time(sheet), only_if=sheet.budget is not None and bool(sheet.stops or sheet.left))
    told: set[str] = set()
    for stop in sheet.stops:
        _add_stop(page, desk, sheet, stop, told)
    if not sheet.stops and not sheet.left:
        held = desk.book.lots or desk.book.marks
        page.row("", "Nothing needs doing." if held else "Nothing is in the ledger yet.")
    _add_left(page, desk, sheet)
    _add_not_yet(page, desk, sheet)
    if sheet.budget is None and sheet.minutes:
        page.gap()
        page.row("In all", _time(sheet))
    return page.next_steps(*_next(sheet))


def _time(sheet: Sheet) -> str:
    """How the minutes are used: ``about 84 of 90 minutes, in 2 parts of the garden``."""
    of = "" if sheet.budget is None else f" of {sheet.budget}"
    walked = [stop for stop in sheet.stops if stop.area]
    ways = ""
    if walked and sheet.walk:
        parts = "the way and setting up" if len(walked) == 1 else f"{len(walked)} ways and settings-up"
        ways = f", {sheet.walk * len(walked)} of them for {parts}"
    if not sheet.minutes:
        return f"Nothing fits into {sheet.budget} minutes."
    return f"About {sheet.minutes}{of} minutes{ways}."


def _add_stop(page: Page, desk: Desk, sheet: Sheet, stop: Stop, told: set[str]) -> None:
    page.heading(stop.area or ANYWHERE, f"{stop.minutes} minutes")
    if stop.tools:
        page.row("Take", f"{listed(stop.tools)}.")
    for job in alike(stop.items, lambda item: item.nudge):
        add_job(page, desk, job, sheet.first, sheet.last)
    cautions = dict.fromkeys(text for item in stop.items for text in item.nudge.cautions)
    page.warnings(text for text in cautions if text not in told)
    told.update(cautions)


def add_job(page: Page, desk: Desk, job: Job, first: date, last: date, *, brief: bool = False) -> None:
    """A job for one lot or several: its last good day or its first in the margin, and why under it."""
    nudge, window = job[0].nudge, job[0].nudge.window
    pressing = any(item.cost >= LEAST_TOLD for item in job)
    names = listed([item.nudge.name for item in job], BRIEFLY_NAMED if brief else MOST_NAMED)
    what = nudge.job.replace("{}", names, 1)
    stretch = f"Good from {spoken(window.opens, desk.on)} to {spoken(window.closes, desk.on)}."
    reasons = () if brief else (f"{window.why} {stretch}{spoiled(window)}", waiting_said(job, last))
    page.row(
        _when(job, first, desk.on, pressing=pressing),
        f"{'' if brief else numbers_said(job)}{what}. {_effort(job)}",
        *reasons,
        window.source if desk.why and not brief else "",
        tone="accent" if pressing else "",
    )


def numbers_said(job: Job) -> str:
    """The numbers that the lots of a job are ticked off by: ``3. ``, or ``3-5, 9. ``."""
    spans: list[list[int]] = []
    for number in sorted(item.number for item in job):
        if spans and spans[-1][-1] == number - 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    said = (f"{span[0]}-{span[-1]}" if len(span) > 1 else f"{span[0]}" for span in spans)
    return f"{', '.join(said)}. "


def _effort(job: Job) -> str:
    """The minutes of a job; of a long one how it is split, and how much of it is planned."""
    minutes = f"{sum(item.minutes for item in job)} min."
    if len(job) > 1 or len(job[0].sittings) == 1:
        return minutes
    item = job[0]
    count = item.taken or len(item.sittings)
    longest = max(each.minutes for each in item.sittings[:count])
    done = f"{item.parts} of {item.nudge.parts} now, " if item.planned and not item.whole else ""
    if count == 1:
        return f"{done}{minutes}"
    return f"{done}{minutes[:-1]} in {count} sittings of up to {longest}, with rests between."


def waiting_said(job: Job, last: date) -> str:
    """What it costs to leave a job until the sheet's last day is over, and how likely it is to go wrong."""
    cost = sum(item.cost for item in job)
    if cost < LEAST_TOLD:
        return ""
    plants = sum(item.nudge.loss.plants for item in job)
    chance = f"{100 * cost / plants:.0f} in 100" if plants else ""
    several = "s" if cost >= 1.05 else ""
    return (
        f"Left past {spoken(last, last)}, the odds are {chance} that {job[0].nudge.loss.by}: "
        f"about {cost:.1f} plant{several} lost."
    )


def _when(job: Job, first: date, today: date, *, pressing: bool) -> str:
    """The last good day of what is pressing, the first good day of what is still to come, or this week."""
    window = job[0].nudge.window
    if pressing:
        return f"by {margin(min(item.nudge.window.closes for item in job), today)}"
    return f"from {margin(window.best[0], today)}" if window.best[0] > first else "this week"


def _add_left(page: Page, desk: Desk, sheet: Sheet) -> None:
    """What the minutes are too few for, what it takes, and what it risks."""
    if not sheet.left:
        return
    risk = f"about {sheet.risk:.1f} plants at risk" if sheet.risk >= LEAST_TOLD else "nothing is lost by it"
    page.heading("Left for another day", risk)
    for job in alike(sheet.left, lambda item: item.nudge):
        names = listed([item.nudge.name for item in job], MOST_NAMED)
        at_risk = sum(item.risk for item in job)
        minutes = sum(sum(each.minutes for each in item.sittings[item.taken :]) for item in job)
        rest = "the rest: " if any(item.planned for item in job) else ""
        area = f", {job[0].nudge.area}" if job[0].nudge.area else ""
        page.row(
            f"by {margin(min(item.nudge.window.closes for item in job), desk.on)}",
            f"{numbers_said(job)}{rest}{job[0].nudge.job.replace('{}', names, 1)}{area}. {minutes} min.",
            f"It risks about {at_risk:.1f} plants." if at_risk >= LEAST_TOLD else "",
        )


def _add_not_yet(page: Page, desk: Desk, sheet: Sheet) -> None:
    """What is better left alone for now, and until when."""
    if not sheet.not_yet:
        return
    page.heading("Wait", "better left alone for now")
    for job in alike(sheet.not_yet, lambda item: item.nudge):
        names = listed([item.nudge.name for item in job], MOST_NAMED)
        window = job[0].nudge.window
        page.row(
            f"to {margin(window.closes, desk.on)}",
            f"{numbers_said(job)}{job[0].nudge.job.replace('{}', names, 1)}.",
            window.why,
            window.source if desk.why else "",
        )


def _next(sheet: Sheet) -> Iterable[str]:
    """How a job is written down, and how to fit the work into the time there is."""
    items = [item for stop in sheet.stops for item in stop.items]
    if items:
        number = next((item.number for item in items if item.nudge.task), items[0].number)
        yield f"'cuttings week --done {number}' writes it down; '--later {number} DATE' puts it off."
    if sheet.budget is None and sheet.minutes > LONG_MINUTES:
        yield "'cuttings week --minutes 60' picks what an hour saves most by."


def week_document(sheet: Sheet) -> dict[str, Any]:
    """The sheet as JSON: what loses most by waiting first, and last what is better left alone."""
    items = {item.number: item for stop in sheet.stops for item in stop.items}
    items |= {item.number: item for item in sheet.left}
    ordered = sorted(items.values(), key=lambda item: (-item.cost, item.nudge.window.closes, item.number))
    return {
        "from": sheet.first.isoformat(),
        "to": sheet.last.isoformat(),
        "minutes": sheet.minutes,
        "budget": sheet.budget,
        "walk": sheet.walk,
        "at_risk": round(sheet.risk, 3),
        "areas": [{"area": stop.area or None, "minutes": stop.minutes} for stop in sheet.stops],
        "nudges": [_item_document(item, sheet) for item in (*ordered, *sheet.not_yet)],
    }


def _item_document(item: Item, sheet: Sheet) -> dict[str, Any]:
    nudge = item.nudge
    whole = sum(each.minutes for each in item.sittings)
    return {
        "number": item.number,
        **nudge_document(nudge),
        "minutes": item.minutes if item.planned else whole,
        "whole_minutes": whole,
        "sittings": len(item.sittings),
        "planned_sittings": item.taken,
        "cost_of_waiting": round(item.cost, 3),
        "chance_of_loss": round(nudge.loss.chance(sheet.first, sheet.last), 3),
        "not_yet": nudge.not_yet,
        "planned": item.planned or nudge.not_yet,
    }


def nudge_document(nudge: Nudge) -> dict[str, Any]:
    """What is true of a nudge on any sheet, as JSON."""
    return {
        "id": nudge.id,
        "what": nudge.what,
        "lot": nudge.lot or None,
        "mark": nudge.mark or None,
        "site": nudge.site or None,
        "area": nudge.area or None,
        "stems": nudge.stems,
        "window": window_document(nudge.window),
        "minutes": nudge.minutes,
        "lost_by": nudge.loss.by or None,
        "why": nudge.window.why,
        "source": nudge.window.source,
        "tools": list(nudge.tools),
        "cautions": list(nudge.cautions),
    }
