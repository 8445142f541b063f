"""The week's sheet: which days, which part of the garden, how many minutes, and where it goes."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import TypeVar

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import whole
from cuttings.commands.week_crowds import crowdings
from cuttings.commands.week_view import week_document, week_page
from cuttings.dates import parse_date
from cuttings.errors import Misused, Refused
from cuttings.nudges.sheet import Sheet
from cuttings.nudges.sheet_making import reading_order, sheet_of
from cuttings.nudges.weather import FAIR, Outlook
from cuttings.nudges.week import week as nudges_of
from cuttings.units import parse_length, parse_temperature

WALK_MINUTES = 10
"""Minutes to go to a part of the garden, set up there and clear away, unless the keeper says; from memory."""

MOST_MINUTES = 7 * 24 * 60
WEEK = timedelta(days=6)

T = TypeVar("T")


@click.command(help="What is worth doing in the next seven days, and why.")
@click.option("--minutes", metavar="N", help="how many minutes there are: what saves most in them")
@click.option("--walk", metavar="N", help=f"minutes to go to an area and set up there ({WALK_MINUTES})")
@click.option("--area", metavar="AREA", help="only that part of the garden")
@click.option("--from", "first", metavar="DATE", help="the first day (--on, or today)")
@click.option("--to", "last", metavar="DATE", help="the last day (six days after the first)")
@click.option("--low", metavar="TEMP", help="the coldest night of the forecast")
@click.option("--high", metavar="TEMP", help="the hottest day of the forecast")
@click.option("--rain", metavar="LEN", help="all the rain of the forecast, such as 1in or 25mm")
@global_options
@with_desk
def week(
    desk: Desk,
    minutes: str | None,
    walk: str | None,
    area: str | None,
    first: str | None,
    last: str | None,
    low: str | None,
    high: str | None,
    rain: str | None,
) -> None:
    begin, end = days_of(desk, first, last)
    sheet = sheet_for(
        desk,
        begin,
        end,
        area=area,
        outlook=_outlook(desk, low, high, rain),
        budget=_read("--minutes", minutes, whole(1, MOST_MINUTES)),
        walk=_read("--walk", walk, whole(0, 240)),
    )
    desk.answer(week_page(desk, sheet), week_document(sheet))


def sheet_for(
    desk: Desk,
    first: date,
    last: date,
    *,
    area: str | None = None,
    outlook: Outlook = FAIR,
    budget: int | None = None,
    walk: int | None = None,
) -> Sheet:
    """The sheet of some days as the ledger stood on the first of them."""
    book = desk.book.as_of(first)
    crowds = crowdings(desk, book, first)
    nudges = nudges_of(book, desk.catalogue, desk.climate, first, last, outlook, crowds)
    costs = {nudge.id: nudge.loss.expected(first, last) for nudge in nudges}
    ordered = reading_order([(nudge, costs[nudge.id]) for nudge in nudges])
    numbered = [(nudge, number, costs[nudge.id]) for number, nudge in enumerate(ordered, start=1)]
    if area is not None:
        wanted = _area(desk, area).casefold()
        numbered = [each for each in numbered if each[0].area.casefold() == wanted]
    return sheet_of(numbered, first, last, budget, WALK_MINUTES if walk is None else walk)


def days_of(desk: Desk, first: str | None, last: str | None) -> tuple[date, date]:
    """The first and the last day that are asked for.

    Raises:
        Misused: one is no date, or they are the wrong way round.
    """
    begin = _read("--from", first, lambda text: parse_date(text, desk.today)) or desk.on
    end = _read("--to", last, lambda text: parse_date(text, desk.today)) or begin + WEEK
    if end < begin:
        raise Misused(f"--to: {end.isoformat()} lies before {begin.isoformat()}.")
    return begin, end


def _outlook(desk: Desk, low: str | None, high: str | None, rain: str | None) -> Outlook:
    """What the forecast says, as far as it was told."""
    low_c, high_c = (
        _read(option, text, lambda text: parse_temperature(text, desk.units))
        for option, text in (("--low", low), ("--high", high))
    )
    fall_m = _read("--rain", rain, lambda text: parse_length(text, desk.units))
    if low_c is not None and high_c is not None and low_c > high_c:
        raise Misused("--low lies above --high; the coldest night cannot be warmer than the hottest day.")
    return Outlook(low_c, high_c, None if fall_m is None else fall_m * 1000)


def _read(option: str, text: str | None, parse: Callable[[str], T]) -> T | None:
    try:
        return None if text is None else parse(text)
    except ValueError as error:
        raise Misused(f"{option}: {error}") from None


def _area(desk: Desk, text: str) -> str:
    found = [area for area in desk.book.areas if text.casefold() in area.casefold()]
    exact = [area for area in found if area.casefold() == text.casefold()]
    if len(exact or found) == 1:
        return (exact or found)[0]
    named = ", ".join(found or desk.book.areas) or "none yet"
    raise Refused(f"'{text}' is not one area of this garden; areas: {named}.")
