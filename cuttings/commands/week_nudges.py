"""What stands on a sheet: the nudges of some days, their numbers, and what of them is planned."""

from collections.abc import Iterable, Sequence
from datetime import date

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.commands.numbering import numbers_for
from cuttings.errors import Refused
from cuttings.ledger.book import Book
from cuttings.nudges.grounds import Crowding
from cuttings.nudges.model import Nudge
from cuttings.nudges.outlook import FAIR, Outlook
from cuttings.nudges.sheet import Sheet
from cuttings.nudges.sheet_making import reading_order, sheet_of
from cuttings.nudges.week import week

WALK_MINUTES = 10
"""Minutes to go to a part of the garden, set up there and clear away, unless the keeper says; from memory."""


@frozen(kw_only=True)
class Asked:
    """What is asked of the week: the days, one part of the garden or all, the forecast, and the minutes there
    are."""

    first: date
    last: date
    area: str | None = None
    outlook: Outlook = FAIR
    budget: int | None = None
    walk: int = WALK_MINUTES


def nudges_on(desk: Desk, book: Book, asked: Asked) -> list[Nudge]:
    """What is worth doing in the days that are asked for, as a book has it, in the whole garden."""
    crowds: Iterable[Crowding] = ()
    if any(each.x is not None for site in book.sites.values() for each in site.growing):
        from cuttings.commands.week_crowds import crowdings  # only where something has its place on a plan

        crowds = crowdings(desk, book, asked.first)
    return week(book, desk.catalogue, desk.climate, asked.first, asked.last, asked.outlook, crowds)


def sheet_for(desk: Desk, asked: Asked, *, numbered: bool = True) -> tuple[Sheet, Sheet]:
    """The sheet of the whole garden with all that is due, and the one that was asked for.

    Unless it is ``numbered``, it is not remembered as a sheet that was shown.
    """
    nudges = nudges_on(desk, desk.book.as_of(asked.first), asked)
    costs = {nudge.id: nudge.loss.expected(asked.first, asked.last) for nudge in nudges}
    ordered = reading_order([(nudge, costs[nudge.id]) for nudge in nudges])
    numbers = {nudge.id: number for number, nudge in enumerate(ordered, start=1)}
    if numbered:
        numbers = numbers_for(desk.ledger.folder, asked.first, asked.last, numbers, asked.outlook)
    due = [(nudge, numbers[nudge.id], costs[nudge.id]) for nudge in ordered]
    whole_garden = sheet_of(due, asked.first, asked.last, None, asked.walk)
    if asked.area is None and asked.budget is None:
        return whole_garden, whole_garden
    kept = {nudge.id for nudge in in_area(desk, ordered, asked.area)}
    due = [each for each in due if each[0].id in kept]
    return whole_garden, sheet_of(due, asked.first, asked.last, asked.budget, asked.walk)


def in_area(desk: Desk, nudges: Sequence[Nudge], area: str | None) -> list[Nudge]:
    """The nudges of one part of the garden, or all of them where none was named.

    Raises:
        Refused: there is no such part, or there are several.
    """
    if area is None:
        return list(nudges)
    wanted = _area(dict.fromkeys((*desk.book.areas, *(nudge.area for nudge in nudges if nudge.area))), area)
    return [nudge for nudge in nudges if nudge.area.casefold() == wanted.casefold()]


def _area(areas: Iterable[str], text: str) -> str:
    known = list(areas)
    found = [area for area in known if text.casefold() in area.casefold()]
    exact = [area for area in found if area.casefold() == text.casefold()]
    if len(exact or found) == 1:
        return (exact or found)[0]
    named = ", ".join(found or known) or "none yet"
    raise Refused(f"'{text}' is not one area of this garden; areas: {named}.")
