"""What grows on the sites, a plant and a site at a time: the garden's own plants, not its stems in care."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from attrs import frozen

from cuttings.ledger.book import Book
from cuttings.ledger.places import Growing, Site
from cuttings.nudges.model import Nudge
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Window

SHOWN_DAYS = 7
"""For so many days from the beginning of its best stretch a thing to do but once is put on the sheet; from
memory."""


@frozen(eq=False, repr=False)
class Grown:
    """One kind of plant on one site: all of its plants there."""

    site: Site
    name: str
    called: str
    plant: Plant
    plants: tuple[Growing, ...]

    def since(self, day: date) -> bool:
        """Whether any of them has stood there since a day; one that nobody has dated is older than the
        ledger."""
        return any(each.planted is None or each.planted <= day for each in self.plants)


def grown(book: Book, catalogue: Catalogue) -> Iterator[Grown]:
    """Every kind of plant that grows on a site, each once a site."""
    called = {lot.plant: lot.called for lot in book.lots.values() if lot.called}
    types = {lot.plant: lot.plant_type for lot in book.lots.values()}
    for site in book.sites.values():
        for name in dict.fromkeys(each.plant for each in site.growing):
            plant = plant_for(catalogue, name, types.get(name), None)
            word = called.get(name) or (plant.common[0] if plant.name == name and plant.common else name)
            plants = tuple(each for each in site.growing if each.plant == name)
            yield Grown(site, name, word, plant, plants)


def touches(window: Window, first: date, last: date) -> bool:
    """Whether a window is open on one of the days from ``first`` to ``last``."""
    return window.opens <= last and window.closes >= first


def shown(window: Window, first: date, last: date) -> bool:
    """Whether the days from ``first`` to ``last`` touch the beginning of its best stretch."""
    ends = min(window.best[0] + timedelta(days=SHOWN_DAYS - 1), window.closes)
    return window.best[0] <= last and ends >= first


def in_order(nudges: Iterable[Nudge]) -> list[Nudge]:
    """Those that close first before the others."""
    return sorted(nudges, key=lambda nudge: (nudge.window.closes, nudge.id))
