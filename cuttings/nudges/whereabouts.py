"""In which part of the garden each lot is worked on, and where a spot is held for it."""

from collections.abc import Mapping, Sequence

from attrs import field, frozen

from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Site
from cuttings.words import Stage


@frozen(eq=False, repr=False)
class Whereabouts:
    """The areas and sites of a garden, and for each lot the sites on which its plants grow and those on which
    a spot is held for it."""

    areas: Sequence[str]
    sites: Mapping[str, Site]
    planted: Mapping[str, tuple[Site, ...]]
    held: Mapping[str, tuple[str, ...]]
    _named: dict[str, str] = field(factory=dict, eq=False, repr=False)

    def sites_of(self, lot: Lot) -> tuple[Site, ...]:
        """The sites on which a lot's plants grow."""
        return self.planted.get(lot.code, ())

    def area_of(self, lot: Lot, stage: Stage) -> str:
        """The area of a lot's planted stems, or the one that the keeper's words for their place tell of; the
        words themselves where they name no area."""
        if stage is Stage.PLANTED:
            sites = self.sites_of(lot)
            return sites[0].area if sites else self._worked(lot.where)
        return self._worked(lot.where_stand(stage))

    def _worked(self, words: str) -> str:
        """The area that words for a place name, or the words themselves: one works there without walking."""
        return self.area_named(words) or words

    def area_named(self, words: str) -> str:
        """The area that words for a place name, or that of the site that they name; empty if neither."""
        found = self._named.get(words)
        if found is None:
            found = self._named[words] = self._look_up(words)
        return found

    def _look_up(self, words: str) -> str:
        where = words.casefold()
        site = next((site for name, site in self.sites.items() if name.casefold() == where), None)
        if site is not None:
            return site.area
        for area in self.areas:
            if where and (area.casefold() in where or where in area.casefold()):
                return area
        site = next((site for name, site in self.sites.items() if name.casefold() in where), None)
        return "" if site is None else site.area


NOWHERE = Whereabouts((), {}, {}, {})


def whereabouts(book: Book) -> Whereabouts:
    """Those of a book."""
    planted: dict[str, tuple[Site, ...]] = {}
    for site in book.sites.values():
        for code in dict.fromkeys(each.lot for each in site.growing if each.lot):
            planted[code] = (*planted.get(code, ()), site)
    held: dict[str, tuple[str, ...]] = {}
    for hold in book.holds.values():
        held[hold.lot] = tuple(dict.fromkeys((*held.get(hold.lot, ()), hold.site)))
    return Whereabouts(book.areas, book.sites, planted, held)
