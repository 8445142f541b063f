"""The week's sheet."""

from datetime import date, timedelta
from itertools import groupby
from typing import Any

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.dates import margin, parse_date, spoken
from cuttings.errors import Misused, Refused
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import week as nudges_of
from cuttings.plants.catalogue import standard
from cuttings.show.page import Page

ELSEWHERE = "Anywhere"


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
    nudges = nudges_of(desk.book, standard(), desk.climate, begin, end)
    if area is not None:
        nudges = [nudge for nudge in nudges if nudge.area.casefold() == _area(desk, area).casefold()]
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
    for area, group in groupby(sorted(nudges, key=_area_order(nudges)), key=lambda nudge: nudge.area):
        page.heading(area or ELSEWHERE)
        for nudge in group:
            add_nudge(page, desk, nudge, end)
    if not nudges:
        page.row(
            "",
            "Nothing needs doing." if desk.book.lots or desk.book.marks else "Nothing is in the ledger yet.",
        )
    minutes = sum(nudge.minutes for nudge in nudges)
    page.gap()
    page.row("In all", f"about {minutes} minutes.", only_if=bool(minutes))
    task = next((nudge for nudge in nudges if nudge.lot and nudge.task), None)
    page.next_steps(
        f"'cuttings {task.task} {task.lot}' writes the first one down when it is done." if task else ""
    )
    return page


def _area_order(nudges: list[Nudge]) -> Any:
    """Areas in the order of their most pressing nudge; within one, the sheet's own order."""
    areas = list(dict.fromkeys(nudge.area for nudge in nudges))
    places = {nudge.id: place for place, nudge in enumerate(nudges)}
    return lambda nudge: (areas.index(nudge.area), places[nudge.id])


def add_nudge(page: Page, desk: Desk, nudge: Nudge, end: date) -> None:
    """One nudge: the last good day in the margin, what to do beside it, and why under it."""
    pressing = nudge.cost_of_waiting(end) > 0
    by = (
        f"by {margin(nudge.window.closes, desk.on).strip()}"
        if pressing
        else margin(nudge.window.best[0], desk.on)
    )
    window = f"Good from {spoken(nudge.window.opens, desk.on)} to {spoken(nudge.window.closes, desk.on)}."
    page.row(
        by,
        f"{nudge.what}. {nudge.minutes} min.",
        f"{nudge.window.why} {window}",
        nudge.window.source if desk.why else "",
        tone="accent" if pressing else "",
    )


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
                "window": {
                    "opens": nudge.window.opens.isoformat(),
                    "best": [day.isoformat() for day in nudge.window.best],
                    "closes": nudge.window.closes.isoformat(),
                    "odds": nudge.window.odds,
                },
                "minutes": nudge.minutes,
                "cost_of_waiting": round(nudge.cost_of_waiting(end), 3),
                "why": nudge.window.why,
                "source": nudge.window.source,
                "planned": True,
            }
            for nudge in nudges
        ],
    }
