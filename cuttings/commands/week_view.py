"""The week's sheet on the screen, and as a document."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from cuttings.commands.desk import Desk
from cuttings.commands.telling import spoiled, window_document
from cuttings.dates import margin, spoken
from cuttings.nudges.model import WORTH_SAYING, Nudge
from cuttings.nudges.sheet import ANYWHERE, WEEK, Item, Sheet, Stop, alike
from cuttings.show.page import Page
from cuttings.words import listed, plants_said, time_said

MOST_NAMED, BRIEFLY_NAMED = 12, 2
"""How many lots one job names on the sheet, and on the home screen; the rest are counted."""

LONG_MINUTES = 90
"""More than this is a long day's work; from memory."""

Job = Sequence[Item]
"""What is the same work for the same reason, for one lot or several."""


def week_page(desk: Desk, sheet: Sheet) -> Page:
    """The sheet, one part of the garden after another; in each, what loses most by waiting comes first."""
    where = f"{desk.garden.name}, " if desk.garden else ""
    first, last = sheet.first, sheet.last
    days = spoken(first) if first == last else f"{spoken(first, last)} to {spoken(last)}"
    page = Page().heading("This week" if last == first + WEEK else "These days", f"{where}{days}")
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
        alone = f"; the way and setting up alone take {sheet.walk}" if sheet.walk else ""
        return f"Nothing fits into {sheet.budget} min{alone}."
    hours = f" ({time_said(sheet.minutes)})" if sheet.minutes > 120 else ""
    return f"About {sheet.minutes}{of} minutes{hours}{ways}. Care that is due every few days counts once."


def _add_stop(page: Page, desk: Desk, sheet: Sheet, stop: Stop, told: set[str]) -> None:
    page.heading(stop.area or ANYWHERE, time_said(stop.minutes))
    if stop.tools:
        page.row("Take", f"{listed(stop.tools)}.")
    for job in alike(stop.items):
        add_job(page, desk, job, sheet.first, sheet.last)
    cautions = dict.fromkeys(text for item in stop.items for text in item.nudge.cautions)
    page.warnings(text for text in cautions if text not in told)
    told.update(cautions)


def add_job(page: Page, desk: Desk, job: Job, first: date, last: date, *, brief: bool = False) -> None:
    """A job for one lot or several: its last good day or its first in the margin, and why under it."""
    nudge, window = job[0].nudge, job[0].nudge.window
    pressing = sum(item.cost for item in job) >= WORTH_SAYING
    what = nudge.job.replace("{}", _names(desk, job, brief=brief), 1)
    reasons = (
        () if brief else (f"{window.why} {_stretch(job, desk.on)}{spoiled(window)}", waiting_said(job, last))
    )
    page.row(
        _when(job, first, desk.on, pressing=pressing),
        f"{'' if brief else numbers_said(job)}{what}. {_effort(job)}",
        *reasons,
        window.source if desk.why and not brief else "",
        tone="accent" if pressing else "",
    )


def _names(desk: Desk, job: Job, *, brief: bool = False) -> str:
    """The names of a job's lots; of very many the first, and how many more, but in the plain form all."""
    most = BRIEFLY_NAMED if brief else None if desk.plain else MOST_NAMED
    return listed([item.nudge.name for item in job], most)


def _stretch(job: Job, today: date) -> str:
    """The days that are good for all the lots of a job, or for the first where they have none in common."""
    opens = max(item.nudge.window.opens for item in job)
    closes = min(item.nudge.window.closes for item in job)
    if opens > closes:
        opens, closes = job[0].nudge.window.opens, job[0].nudge.window.closes
    return "" if job[0].nudge.when else f"Good from {spoken(opens, today)} to {spoken(closes, today)}."


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
    """The minutes of a job with its rests, how a long one is split, and what is planned of one that does not
    fit whole."""
    rests = any(len(item.sittings) > 1 for item in job)
    minutes = time_said(sum(item.minutes for item in job))
    each_time = " each time" if 0 < job[0].nudge.every < 7 else ""
    if not rests:
        return f"{minutes}{each_time}."
    told = f"{minutes} with rests."
    if len(job) == 1:
        item = job[0]
        sittings = item.sittings[: item.taken] or item.sittings
        if len(sittings) > 1:
            longest = max(sitting.minutes for sitting in sittings)
            told = f"{minutes} in {len(sittings)} sittings of up to {longest}, with rests."
    partly = [item for item in job if item.planned and not item.whole]
    return " ".join(
        (told, *(f"Of {item.nudge.name}: {item.parts} of {item.nudge.parts} now." for item in partly))
    )


def waiting_said(job: Job, last: date) -> str:
    """What it costs to leave a job until the sheet's last day is over, and how likely it is to go wrong."""
    cost = sum(item.cost for item in job)
    if cost < WORTH_SAYING:
        return ""
    plants = sum(item.nudge.loss.plants for item in job)
    chance = f"{100 * cost / plants:.0f} in 100" if plants else ""
    left = "Left undone" if job[0].nudge.when == "cold day" else f"Left past {spoken(last, last)}"
    return f"{left}, the odds are {chance} that {job[0].nudge.loss.by}: it costs {plants_said(cost)}."


def _when(job: Job, first: date, today: date, *, pressing: bool) -> str:
    """The last good day of what is pressing, the first good day of what is still to come, or this week."""
    nudge, window = job[0].nudge, job[0].nudge.window
    if nudge.when:
        return nudge.when
    if nudge.every:
        return "this week"
    if pressing:
        return f"by {margin(min(item.nudge.window.closes for item in job), today)}"
    return f"from {margin(window.best[0], today)}" if window.best[0] > first else "this week"


def _add_left(page: Page, desk: Desk, sheet: Sheet) -> None:
    """What the minutes are too few for, what it takes, and what it risks."""
    if not sheet.left:
        return
    risks = f"it risks {plants_said(sheet.risk)}" if sheet.risk >= WORTH_SAYING else "nothing is lost by it"
    page.heading("Left for another day", risks)
    for job in alike(sheet.left):
        names = _names(desk, job)
        at_risk = sum(item.risk for item in job)
        minutes = time_said(sum(item.minutes_left for item in job))
        rest = "the rest: " if any(item.planned for item in job) else ""
        area = f", {job[0].nudge.area}" if job[0].nudge.area else ""
        page.row(
            _when(job, sheet.first, desk.on, pressing=at_risk >= WORTH_SAYING),
            f"{numbers_said(job)}{rest}{job[0].nudge.job.replace('{}', names, 1)}{area}. {minutes}.",
            f"It risks {plants_said(at_risk)}." if at_risk >= WORTH_SAYING else "",
        )


def _add_not_yet(page: Page, desk: Desk, sheet: Sheet) -> None:
    """What is better left alone for now, and until when."""
    if not sheet.not_yet:
        return
    page.heading("Wait", "better left alone for now")
    for job in alike(sheet.not_yet):
        names = _names(desk, job)
        window = job[0].nudge.window
        page.row(
            f"to {margin(min(item.nudge.window.closes for item in job), desk.on)}",
            f"{numbers_said(job)}{job[0].nudge.job.replace('{}', names, 1)}.",
            window.why,
            window.source if desk.why else "",
        )


def _next(sheet: Sheet) -> Iterable[str]:
    """How jobs are written down, and how to fit the work into the time there is."""
    items = [item for stop in sheet.stops for item in stop.items]
    if not items:
        return
    if all(item.nudge.task == "garden" for item in items):
        yield "'cuttings garden' asks for the frost dates; 'cuttings find' writes down a first find."
        return
    number = next((item.number for item in items if not item.nudge.task), None)
    care = f" '--done {number}' writes number {number} down at once." if number is not None else ""
    yield f"'cuttings week --tick' asks what is done and what must wait.{care}"
    if sheet.budget is None and sheet.minutes > LONG_MINUTES:
        yield "'cuttings week --minutes 60' picks what an hour saves most by."


def week_document(sheet: Sheet) -> dict[str, Any]:
    """The sheet as JSON: what loses most by waiting first, and last what is better left alone."""
    due = [item for item in sheet.items if not item.nudge.not_yet]
    ordered = sorted(due, key=lambda item: (-item.cost, item.nudge.window.closes, item.number))
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
