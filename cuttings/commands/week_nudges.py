"""The nudges of some days as a command sees them: the rules' own, and what will crowd on the sites."""

from collections.abc import Iterable
from datetime import date

from cuttings.commands.desk import Desk
from cuttings.ledger.book import Book
from cuttings.nudges.grounds import Crowding
from cuttings.nudges.model import Nudge
from cuttings.nudges.outlook import FAIR, Outlook
from cuttings.nudges.week import week


def nudges_on(desk: Desk, book: Book, first: date, last: date, outlook: Outlook = FAIR) -> list[Nudge]:
    """What is worth doing from one day to another, both included, as a book has it."""
    crowds: Iterable[Crowding] = ()
    if any(each.x is not None for site in book.sites.values() for each in site.growing):
        from cuttings.commands.week_crowds import crowdings  # only where something has its place on a plan

        crowds = crowdings(desk, book, first)
    return week(book, desk.catalogue, desk.climate, first, last, outlook, crowds)
