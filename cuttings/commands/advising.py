"""The week's sheet."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.telling import spoiled, window_document
from cuttings.dates import margin, parse_date, spoken
from cuttings.errors import Misused, Refused
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import week as nudges_of
from cuttings.rules.advice import Window
from cuttings.show.page import Page
from cuttings.show.plain import listed

ELSEWHERE = "Anywhere"
MOST_NAMED, BRIEFLY_NAMED = 12, 2
"""How many lots one job names on the sheet, and on the home screen; the rest are counted."""


@click.command(help="What is worth doing in the next seven days, and why.")
@click.option("--from", "first", metavar="DATE", help="the first day (--on, or today)")
@click.option("--to", "last", metavar="DATE", help="the last day (six days after the first)")
@click.option("--area", metavar="AREA", help="only that part of the garden")
@global_options
@with_desk
def week(desk: Desk, first: str | None, last: str | None, area: str | None) -> None:
    begin = _day(desk, "--from", first) or desk.on
    end = _day(desk, "--to", last) or begin + timedelta(days=6)
    if end < begin:
        raise Misused(f"--to: {end.isoformat()} lies before {begin.isoformat()}.")
    nudges = nudges_of(desk.book.as_of(begin), desk.catalogue, desk.climate, begin, end)
    if area is not None:
        wanted = _area(desk, area).casefold()
        nudges = [nudge for nudge in nudges if nudge.area.casefold() == wanted]
    desk.answer(week_page(desk, nudges, begin, end), _document(nudges, begin, end))


def _day(desk: Desk, option: str, text: str | None) -> date | None:
    try:
        return parse_date(text, desk.today) if text else None
    except ValueError as error:
        raise Misused(f"{option}: {error}") from None


def _area(desk: Desk, text: str) -> str:
    found = [area for area in desk.book.areas if text.casefold() in area.casefold()]
    exact = [area for area in found if area.casefold() == text.casefold()]
    if len(exact or found) == 1:
        return (exact or found)[0]
    named = ", ".join(found or desk.book.areas) or "none yet"
    raise Refused(f"'{text}' is not one area of this garden; areas: {named}.")


def week_page(desk: Desk, nudges: list[Nudge], begin: date, end: date) -> Page:
    """The sheet, grouped by area; in each, what loses most by waiting comes first."""
    where = f"{desk.garden.name}, " if desk.garden else ""
    page = Page().heading("This week", f"{where}{spoken(begin, begin)} to {spoken(end, begin)}")
    pace = desk.climate.pace
    if pace is not None and begin <= desk.on <= end:
        page.row("Season", pace.said)
    for area, jobs in by_area(nudges).items():
        page.heading(area or ELSEWHERE)
        for job in jobs:
            add_job(page, desk, job, begin, end)
    if not nudges:
        page.row(
            "",
            "Nothing needs doing." if desk.book.lots or desk.book.marks else "Nothing is in the ledger yet.",
        )
    minutes = sum(nudge.minutes for nudge in nudges)
    page.gap()
    page.row("In all", f"about {minutes} minutes.", only_if=bool(minutes))
    page.next_steps(_tick(next((nudge for nudge in nudges if nudge.task), None)))
    return page


def _tick(nudge: Nudge | None) -> str:
    """How the most pressing job that the ledger hears of is written down once it is done."""
    if nudge is None or nudge.task == "garden":
        return ""
    command = f"mark --done {nudge.mark}" if nudge.mark else f"{nudge.task} {nudge.lot}"
    return f"'cuttings {command}' writes down what was done for {nudge.name}."


def jobs_of(nudges: Sequence[Nudge]) -> list[list[Nudge]]:
    """What is the same work for the same reason stands together, in the order of the most pressing of it."""
    jobs: dict[tuple[str, str], list[Nudge]] = {}
    for nudge in nudges:
        jobs.setdefault((nudge.job, nudge.window.why), []).append(nudge)
    return list(jobs.values())


def by_area(nudges: Sequence[Nudge]) -> dict[str, list[list[Nudge]]]:
    """The jobs of each area; areas in the order of their most pressing nudge."""
    areas: dict[str, list[Nudge]] = {}
    for nudge in nudges:
        areas.setdefault(nudge.area, []).append(nudge)
    return {area: jobs_of(found) for area, found in areas.items()}


def add_job(
    page: Page, desk: Desk, job: Sequence[Nudge], begin: date, end: date, *, brief: bool = False
) -> None:
    """A job for one lot or several: its last good day or its first in the margin, and why under it."""
    first, window = job[0], job[0].window
    pressing = first.loss.expected(begin, end) > 0
    day = _when(window, begin, desk.on, pressing=pressing)
    names = [nudge.name for nudge in job]
    what = first.job.replace("{}", listed(names, BRIEFLY_NAMED if brief else MOST_NAMED), 1)
    stretch = f"Good from {spoken(window.opens, desk.on)} to {spoken(window.closes, desk.on)}."
    page.row(
        day,
        f"{what}. {sum(nudge.minutes for nudge in job)} min.",
        "" if brief else f"{window.why} {stretch}{spoiled(window)}",
        window.source if desk.why and not brief else "",
        tone="accent" if pressing else "",
    )


def _when(window: Window, begin: date, today: date, *, pressing: bool) -> str:
    """The last good day of what is pressing, the first good day of what is still to come, or this week."""
    if pressing:
        return f"by {margin(window.closes, today)}"
    return f"from {margin(window.best[0], today)}" if window.best[0] > begin else "this week"


def _document(nudges: list[Nudge], begin: date, end: date) -> dict[str, Any]:
    return {
        "from": begin.isoformat(),
        "to": end.isoformat(),
        "minutes": sum(nudge.minutes for nudge in nudges),
        "nudges": [
            {
                "id": nudge.id,
                "what": nudge.what,
                "lot": nudge.lot or None,
                "mark": nudge.mark or None,
                "area": nudge.area or None,
                "window": window_document(nudge.window),
                "minutes": nudge.minutes,
                "cost_of_waiting": round(nudge.loss.expected(begin, end), 3),
                "why": nudge.window.why,
                "source": nudge.window.source,
                "planned": True,
            }
            for nudge in nudges
        ],
    }
