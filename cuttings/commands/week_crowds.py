"""What will crowd on the sites, as the week's sheet wants it told."""

from collections.abc import Iterator
from datetime import date

from cuttings.commands.crowd_words import known_on, remedy_words
from cuttings.commands.desk import Desk
from cuttings.ledger.book import Book
from cuttings.nudges.grounds import Crowding, moving_time
from cuttings.placement.crowding import Crowd, Remedy, crowding, remedy
from cuttings.rules.advice import Window
from cuttings.rules.pruning import next_pruning


def crowdings(desk: Desk, book: Book, today: date) -> Iterator[Crowding]:
    """What grows into what, and what is done about it when; held spots are told of on their site."""
    for site in book.sites.values():
        for crowd in crowding(site, [], today, known_on(desk, site)):
            window = _when(desk, crowd, today)
            if window is not None:
                both = (each.name for each in (crowd.plant, crowd.other) if each is not None)
                yield Crowding(
                    site=site.name,
                    area=site.area,
                    plants=tuple(dict.fromkeys(both)),
                    year=crowd.year,
                    remedy=remedy_words(crowd, today).rstrip("."),
                    window=window,
                    digs=remedy(crowd, today)[1] in (Remedy.DIVIDE, Remedy.MOVE),
                )


def _when(desk: Desk, crowd: Crowd, today: date) -> Window | None:
    """When the plant that gives way is cut back or moved; ``None`` where nobody knows the plant."""
    which, way = remedy(crowd, today)
    if which.known is None:
        return None
    pruning = next_pruning(which.known, desk.climate, today) if way is Remedy.CUT_BACK else None
    return pruning or moving_time(which.known, desk.climate, today)
