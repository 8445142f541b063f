"""The week's sheet and the season as files: a printed page, and a calendar for a phone."""

import shlex
from collections.abc import Iterable
from datetime import datetime

from cuttings.commands.desk import Desk
from cuttings.commands.drawings import read_before, write_page, write_whole
from cuttings.exchange.calendar import calendar_of
from cuttings.exchange.events import Event, of_season, of_week
from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import Sheet
from cuttings.words import Units


def print_sheet(desk: Desk, sheet: Sheet, path: str) -> None:
    """The sheet on one page of paper.

    Raises:
        Refused: the file cannot be written.
    """
    from cuttings.exchange.paper import page_of  # it loads a typeface

    name = desk.garden.name if desk.garden else ""
    write_page(path, page_of(sheet, garden=name, today=desk.today, us=desk.units is Units.US))
    desk.remark(f"The sheet is in {path}.")


def write_week(desk: Desk, sheet: Sheet, path: str) -> None:
    """The sheet as a calendar, in place of the one that stands in the file.

    Raises:
        Refused: the file holds something else, or cannot be written.
    """
    _write(desk, of_week(sheet, _ticked_by), path)


def write_season(desk: Desk, nudges: Iterable[Nudge], path: str) -> None:
    """The windows of a season as a calendar, in place of the one that stands in the file.

    Raises:
        Refused: the file holds something else, or cannot be written.
    """
    _write(desk, of_season(nudges, desk.on, _ticked_by), path)


def _write(desk: Desk, events: Iterable[Event], path: str) -> None:
    entries = desk.book.entries
    calendar = calendar_of(
        events,
        ledger=min((entry.id for entry in entries), default=""),
        garden=desk.garden.name if desk.garden else "",
        now=datetime.now().astimezone(),
        entries=len(entries),
        before=read_before(path),
    )
    write_whole(path, calendar)
    desk.remark(f"The calendar is in {path}.")


def _ticked_by(nudge: Nudge) -> str:
    """The command that ticks a nudge off whichever sheet was shown last."""
    return "" if nudge.task == "garden" else f"cuttings week --done {shlex.quote(nudge.id)}"
