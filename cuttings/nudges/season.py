"""The season's pace, from the signs in the ledger."""

from datetime import date

from cuttings.climate.climate import Climate, Pace
from cuttings.ledger.book import Book
from cuttings.ledger.entries import SeasonSign
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.understood import plant_for
from cuttings.rules.pace import Seen, pace_of


def seen(entry: SeasonSign, catalogue: Catalogue) -> Seen:
    """A sign with what is known of its plant."""
    plant = plant_for(catalogue, entry.plant, None, None) if entry.plant else None
    return Seen(entry.sign, entry.on, plant)


def pace_in(book: Book, catalogue: Catalogue, climate: Climate, today: date) -> Pace | None:
    """The pace of the spring a day belongs to; ``None`` where nothing was seen that tells."""
    return pace_of([seen(entry, catalogue) for entry in book.signs], climate, today)
