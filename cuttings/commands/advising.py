"""The week's sheet: which days, which part of the garden, how many minutes, and where it goes."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, TypeVar

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import whole
from cuttings.commands.week_nudges import WALK_MINUTES, Asked, in_area, sheet_for
from cuttings.commands.week_view import week_document, week_page
from cuttings.dates import parse_date
from cuttings.errors import Misused
from cuttings.nudges.outlook import Outlook
from cuttings.nudges.sheet import WEEK, Sheet
from cuttings.units import parse_length, parse_temperature

MOST_MINUTES = 7 * 24 * 60

DAYS = frozenset({"first", "last"})
WORK = frozenset({"minutes", "walk", "area", "low", "high", "rain"})
TOGETHER: Mapping[str, frozenset[str]] = {
    "done": frozenset({"first", "never", "later"}),
    "never": frozenset({"first", "done", "later"}),
    "later": frozenset({"first", "done", "never"}),
    "tick": DAYS | WORK,
    "season": DAYS | {"area", "ics", "svg"},
}
"""What may stand beside an option that turns the command to something else than showing a sheet."""

OPTION = {"first": "from", "last": "to"}
"""Options that go by another name inside."""

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
@click.option("--done", metavar="N", multiple=True, help="number N is done (also 2-5, or several times)")
@click.option("--later", metavar="N DATE", nargs=2, help="number N must wait until a day, or last-frost ...")
@click.option("--never", metavar="N", multiple=True, help="number N is not to come back")
@click.option("--tick", is_flag=True, help="choose from the sheet what is done or must wait")
@click.option("--pdf", metavar="FILE", help="the sheet on one page to print")
@click.option("--ics", metavar="FILE", help="a calendar for a phone; written again, it brings it up to date")
@click.option("--season", is_flag=True, help="the months ahead as a time line, instead of the week")
@click.option("--svg", metavar="FILE", help="with --season, the time line as a drawing")
@global_options
@with_desk
def week(desk: Desk, **given: Any) -> None:
    _refuse_strangers(given)
    first, last = _days(desk, given["first"], given["last"])
    if given["done"] or given["later"] or given["never"]:
        from cuttings.commands.ticking import tick_off

        tick_off(desk, first if given["first"] else None, given["done"], given["later"], given["never"])
    elif given["season"]:
        _show_season(desk, first, last if given["last"] else None, given)
    else:
        _show_week(desk, _asked(desk, first, last, given), given)


def _refuse_strangers(given: Mapping[str, Any]) -> None:
    """Options that would be passed over in silence are told of.

    Raises:
        Misused: two of them do not go together.
    """
    chosen = {name for name, value in given.items() if value not in (None, False, ())}
    for leader, friends in TOGETHER.items():
        strangers = sorted(chosen - friends - {leader}) if leader in chosen else []
        if strangers:
            stranger = OPTION.get(strangers[0], strangers[0])
            raise Misused(f"--{stranger} does not go with --{leader}; leave one of them out.")
    if "svg" in chosen and "season" not in chosen:
        raise Misused("--svg goes with --season.")


def _asked(desk: Desk, first: date, last: date, given: Mapping[str, Any]) -> Asked:
    walk = _read("--walk", given["walk"], whole(0, 240))
    return Asked(
        first=first,
        last=last,
        area=given["area"],
        outlook=_outlook(desk, given["low"], given["high"], given["rain"]),
        budget=_read("--minutes", given["minutes"], whole(1, MOST_MINUTES)),
        walk=WALK_MINUTES if walk is None else walk,
    )


def _show_week(desk: Desk, asked: Asked, given: Mapping[str, Any]) -> None:
    whole_garden, sheet = sheet_for(desk, asked)
    if given["pdf"] is not None or given["ics"] is not None:
        from cuttings.commands.week_files import print_sheet, write_week

        if given["pdf"] is not None:
            print_sheet(desk, sheet, given["pdf"])
        if given["ics"] is not None:  # what an area leaves out is not over
            write_week(desk, whole_garden, given["ics"])
    if given["tick"]:
        _tick(desk, sheet)
    else:
        desk.answer(week_page(desk, sheet), week_document(sheet))


def _tick(desk: Desk, sheet: Sheet) -> None:
    """Show the sheet, and let a person choose from it."""
    from cuttings.commands.ticking import tick

    if desk.asker is not None:
        desk.show(week_page(desk, sheet))
    tick(desk, sorted(((item.number, item.nudge) for item in sheet.items), key=lambda each: each[0]))


def _show_season(desk: Desk, begin: date, end: date | None, given: Mapping[str, Any]) -> None:
    """The months ahead as a time line: on the screen, as a drawing, as a calendar."""
    from cuttings.commands.drawings import write_drawing
    from cuttings.commands.season_view import season_days, season_document, season_page, season_svg
    from cuttings.commands.week_files import write_season
    from cuttings.nudges.ahead import season as season_of

    drawn_from, usual_end = season_days(begin)
    first, last = (begin, end) if end else (drawn_from, usual_end)
    everything = season_of(desk.book.as_of(begin), desk.catalogue, desk.climate, begin, last)
    nudges = in_area(desk, everything, given["area"])
    garden = desk.garden.name if desk.garden else ""
    if given["ics"] is not None:
        write_season(desk, everything, given["ics"])
    if given["svg"] is not None:
        write_drawing(given["svg"], season_svg(nudges, first, last, desk.on, garden))
        desk.remark(f"The drawing is in {given['svg']}.")
    desk.answer(season_page(nudges, first, last, desk.on, garden), season_document(nudges, begin, last))


def _days(desk: Desk, first: str | None, last: str | None) -> tuple[date, date]:
    """The first and the last day that are asked for.

    Raises:
        Misused: one is no date, or they are the wrong way round.
    """
    begin = _read("--from", first, lambda text: parse_date(text, desk.on)) or desk.on
    end = _read("--to", last, lambda text: parse_date(text, desk.on)) or begin + WEEK
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
