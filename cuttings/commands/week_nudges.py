"""The nudges of some days as a command sees them: the rules' own, and what will crowd on the sites."""

from datetime import date

from cuttings.commands.desk import Desk
from cuttings.commands.week_crowds import crowdings
from cuttings.ledger.book import Book
from cuttings.nudges.model import Nudge
from cuttings.nudges.outlook import FAIR, Outlook
from cuttings.nudges.week import week


def nudges_on(desk: Desk, book: Book, first: date, last: date, outlook: Outlook = FAIR) -> list[Nudge]:
    """What is worth doing from one day to another, both included, as a book has it."""
    return week(book, desk.catalogue, desk.climate, first, last, outlook, crowdings(desk, book, first))
