"""The mother plants of the garden: what grows on its sites that more could be made of."""

from collections.abc import Iterator
from datetime import date, timedelta

from attrs import frozen

from cuttings.ledger.book import Book
from cuttings.nudges.grown import Grown, grown
from cuttings.nudges.mothers import ESTABLISHED_DAYS
from cuttings.plants.catalogue import Catalogue


@frozen
class Mother:
    """The plants of one kind on one site. ``young`` tells that none of them has stood long enough to be cut
    for wood."""

    site: str
    called: str
    count: int
    young: bool

    @property
    def spoken(self) -> str:
        """``red currant on the fruit row``."""
        return f"{self.called} on the {self.site}"


def mother_plants(book: Book, catalogue: Catalogue, name: str, on: date) -> tuple[Mother, ...]:
    """The plants of a name, or cultivars of it, that grow on the sites, the established ones first."""
    since = on - timedelta(days=ESTABLISHED_DAYS)
    found = [
        Mother(each.site.name, each.called, len(each.plants), not each.since(since))
        for each in _of_name(book, catalogue, name)
    ]
    return tuple(sorted(found, key=lambda mother: (mother.young, -mother.count)))


def _of_name(book: Book, catalogue: Catalogue, name: str) -> Iterator[Grown]:
    for each in grown(book, catalogue):
        if each.name == name or each.name.startswith(f"{name} '"):
            yield each
