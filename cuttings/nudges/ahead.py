"""The season ahead: what lots and marks need in a window of its own, whether or not it is open yet."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.nudges.asides import kept
from cuttings.nudges.grown import touches
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import all_nudges
from cuttings.plants.catalogue import Catalogue


def season(book: Book, catalogue: Catalogue, climate: Climate, first: date, last: date) -> list[Nudge]:
    """Nudges whose window touches the days from ``first`` to ``last``, both included, as they are seen from
    ``first``; those that open first come first.

    Care that comes round again, such as airing and watering, is left out, and so is what is better left
    alone.
    """
    found = [
        nudge
        for nudge in all_nudges(book, catalogue, climate, first)
        if not nudge.every and not nudge.not_yet and touches(nudge.window, first, last)
    ]
    found = kept(found, book, climate, first, last)
    return sorted(found, key=lambda nudge: (nudge.window.opens, nudge.window.closes, nudge.id))
