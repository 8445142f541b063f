"""The week's sheet: which days, which part of the garden, how many minutes, and where it goes."""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from typing import TypeVar

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawings import write_drawing
from cuttings.commands.numbering import numbers_for
from cuttings.commands.parsing import whole
from cuttings.commands.week_nudges import nudges_on
from cuttings.commands.week_view import week_document, week_page
from cuttings.dates import parse_date
from cuttings.errors import Misused, Refused
from cuttings.nudges.outlook import FAIR, Outlook
from cuttings.nudges.sheet import Sheet
from cuttings.nudges.sheet_making import reading_order, sheet_of
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
@click.option("--done", metavar="N", multiple=True, help="number N is done (may be repeated)")
@click.option("--later", metavar="N DATE", nargs=2, help="number N must wait until a day, or last-frost ...")
@click.option("--never", metavar="N", multiple=True, help="number N is not to come back (may be repeated)")
@click.option("--tick", "ticking", is_flag=True, help="choose from the sheet what is done or must wait")
@click.option("--pdf", metavar="FILE", help="the sheet on one page to print")
@click.option("--ics", metavar="FILE", help="a calendar for a phone; written again, it brings it up to date")
@click.option("--season", is_flag=True, help="the months ahead as a time line, instead of the week")
@click.option("--svg", metavar="FILE", help="with --season, the time line as a drawing")
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
    done: Sequence[str],
    later: tuple[str, str] | None,
    never: Sequence[str],
    ticking: bool,
    pdf: str | None,
    ics: str | None,
    season: bool,
    svg: str | None,
) -> None:
    begin, end = days_of(desk, first, last)
    if done or later or never:
        from cuttings.commands.ticking import tick_off

        tick_off(desk, begin if first else None, done, later, never)
        return
    if season:
        if pdf is not None or minutes is not None:
            raise Misused("--season takes no --pdf and no --minutes; leave them out, or leave out --season.")
        show_season(desk, begin, end if last else None, area, ics, svg)
        return
    if svg is not None:
        raise Misused("--svg goes with --season.")
    sheet = sheet_for(
        desk,
        begin,
        end,
        area=area,
        outlook=_outlook(desk, low, high, rain),
        budget=_read("--minutes", minutes, whole(1, MOST_MINUTES)),
        walk=_read("--walk", walk, whole(0, 240)),
    )
    if pdf is not None or ics is not None:
        _write_files(desk, sheet, area, pdf, ics)
    if ticking:
        _tick(desk, sheet)
    else:
        desk.answer(week_page(desk, sheet), week_document(sheet))


def _tick(desk: Desk, sheet: Sheet) -> None:
    """Show the sheet, and let a person choose from it."""
    from cuttings.commands.ticking import tick

    if desk.asker is not None:
        desk.show(week_page(desk, sheet))
    items = {item.number: item.nudge for stop in sheet.stops for item in stop.items}
    items |= {item.number: item.nudge for item in (*sheet.left, *sheet.not_yet)}
    tick(desk, sorted(items.items()))


def _write_files(desk: Desk, sheet: Sheet, area: str | None, pdf: str | None, ics: str | None) -> None:
    """The sheet on paper, and as a calendar, which always holds the whole garden: what an area leaves out is
    not over."""
    from cuttings.commands.week_files import print_sheet, write_week

    if pdf is not None:
        print_sheet(desk, sheet, pdf)
        desk.remark(f"The sheet is in {pdf}.")
    if ics is not None:
        whole_garden = sheet if area is None else sheet_for(desk, sheet.first, sheet.last)
        write_week(desk, whole_garden, ics)
        desk.remark(f"The calendar is in {ics}.")


def show_season(
    desk: Desk, begin: date, end: date | None, area: str | None, ics: str | None, svg: str | None
) -> None:
    """The months ahead as a time line: on the screen, as a drawing, as a calendar."""
    from cuttings.commands.season_view import season_days, season_document, season_page, season_svg
    from cuttings.commands.week_files import write_season
    from cuttings.nudges.ahead import season as season_of

    drawn_from, usual_end = season_days(begin)
    last = end or usual_end
    everything = season_of(desk.book.as_of(begin), desk.catalogue, desk.climate, begin, last)
    nudges = everything
    if area is not None:
        wanted = _area(desk, area).casefold()
        nudges = [nudge for nudge in everything if nudge.area.casefold() == wanted]
    first, garden = begin if end else drawn_from, desk.garden.name if desk.garden else ""
    if ics is not None:
        write_season(desk, everything, ics)
        desk.remark(f"The calendar is in {ics}.")
    if svg is not None:
        write_drawing(svg, season_svg(nudges, first, last, desk.on, garden))
        desk.remark(f"The drawing is in {svg}.")
    desk.answer(season_page(nudges, first, last, desk.on, garden), season_document(nudges, begin, last))


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
    nudges = nudges_on(desk, desk.book.as_of(first), first, last, outlook)
    costs = {nudge.id: nudge.loss.expected(first, last) for nudge in nudges}
    ordered = reading_order([(nudge, costs[nudge.id]) for nudge in nudges])
    numbers = numbers_for(desk.ledger.folder, first, last, (nudge.id for nudge in ordered), outlook)
    numbered = [(nudge, numbers[nudge.id], costs[nudge.id]) for nudge in ordered]
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
