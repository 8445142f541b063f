"""The week's sheet: every nudge that touches its days, what loses most by waiting first."""

from collections.abc import Iterable
from datetime import date

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.nudges.asides import kept
from cuttings.nudges.goals import wished
from cuttings.nudges.grounds import Crowding, crowded, grounds
from cuttings.nudges.knowledge import known
from cuttings.nudges.lots import nudges_for
from cuttings.nudges.marked import marked
from cuttings.nudges.model import WORTH_SAYING, Nudge
from cuttings.nudges.mothers import prunings
from cuttings.nudges.outlook import FAIR, Outlook
from cuttings.nudges.restraint import restraint
from cuttings.nudges.whereabouts import whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Window
from cuttings.takes.learned import Learned
from cuttings.words import Stage, Units


def week(
    book: Book,
    catalogue: Catalogue,
    climate: Climate,
    first: date,
    last: date,
    outlook: Outlook = FAIR,
    crowds: Iterable[Crowding] = (),
) -> list[Nudge]:
    """Nudges whose window touches the days from ``first`` to ``last``, both included, and whose best time
    has begun by then or that lose plants by waiting, without those put aside.

    The ones that lose most by waiting until after ``last`` come first, then those that close soonest.
    ``outlook`` is what the forecast says for these days, ``crowds`` what will crowd on the sites.
    """
    learned = Learned(book.lots.values(), catalogue, climate)
    due = [
        nudge
        for nudge in all_nudges(book, catalogue, climate, first, learned)
        if nudge.window.opens <= last
        and (nudge.window.best[0] <= last or nudge.loss.expected(first, last) >= WORTH_SAYING)
    ]
    place = (book, catalogue, climate, first, last)
    due += [*prunings(*place), *restraint(*place), *grounds(*place, learned), *crowded(crowds, first, last)]
    found = kept(due, book, climate, first, last)
    if outlook != FAIR:
        from cuttings.nudges.weather import under  # what a cold night endangers takes time to load

        found = kept(under(found, *place, outlook, learned), book, climate, first, last)
    return sorted(found, key=lambda nudge: (-nudge.loss.expected(first, last), nudge.window.closes, nudge.id))


def all_nudges(
    book: Book, catalogue: Catalogue, climate: Climate, today: date, learned: Learned | None = None
) -> Iterable[Nudge]:
    """Everything that is due on a day or comes after it, each with its whole window. ``learned`` is what the
    book's lots have taught, if that is known already."""
    learned = learned or Learned(book.lots.values(), catalogue, climate)
    units = book.garden.units if book.garden else Units.US
    if climate.frost is None:
        yield _tell_frost(today)
    where = whereabouts(book)
    for lot in book.lots.values():
        if lot.living or lot.at(Stage.PLANTED):
            yield from nudges_for(known(lot, catalogue, climate, units, learned, where), today)
    for mark in book.open_marks():
        yield marked(mark, catalogue, climate, where, today, units)
    yield from wished(book, catalogue, where, today)


def _tell_frost(today: date) -> Nudge:
    window = Window(
        what="tell the frost dates",
        opens=today,
        best=(today, today),
        closes=today,
        why="Without your frost dates, every date here is that of an ordinary cold-winter garden.",
        source=COMMON_PRACTICE,
    )
    return Nudge(
        id="garden:frost",
        job="Tell {}: 'cuttings garden --last-frost MM-DD --first-frost MM-DD'",
        name="the frost dates",
        window=window,
        task="garden",
        minutes=2,
    )
