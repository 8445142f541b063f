"""The account of one year: what was started, what became of it, where it went, and what to do otherwise.

It is of the lots begun in that year, as they stand on a day, and of what happened in that year to older ones.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from datetime import date

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.plants.catalogue import Catalogue
from cuttings.takes.cases import Case
from cuttings.takes.learned import way_for
from cuttings.takes.year_kinds import Kind, kinds_of
from cuttings.takes.year_lessons import Lesson, Season, lessons_of
from cuttings.takes.year_moves import Fates, Moved, counted, fates_of, moves_in
from cuttings.takes.year_proved import proved_of
from cuttings.takes.year_worth import Prices, Worth, worth_of
from cuttings.words import Method, Stage


@frozen
class Begun:
    """So many lots and stems started."""

    lots: int
    stems: int

    @classmethod
    def of(cls, lots: Iterable[Lot]) -> "Begun":
        """Parts split off a lot were started with it."""
        lots = tuple(lots)
        return cls(len({lot.origin.id for lot in lots}), sum(lot.started for lot in lots))


@frozen(kw_only=True)
class Starts:
    """What was started in a year, by method with most stems first, and in each of its twelve months."""

    whole: Begun
    methods: tuple[tuple[Method, Begun], ...]
    months: tuple[Begun, ...]

    @classmethod
    def of(cls, lots: Sequence[Lot]) -> "Starts":
        stems = counted((lot.method, lot.started) for lot in lots)
        return cls(
            whole=Begun.of(lots),
            methods=tuple(
                (method, Begun.of(lot for lot in lots if lot.method is method)) for method in stems
            ),
            months=tuple(
                Begun.of(lot for lot in lots if lot.started_on.month == month) for month in range(1, 13)
            ),
        )


@frozen(kw_only=True)
class Before:
    """What was started in the year before, and how much of it by the same day of that year."""

    year: int
    starts: Starts
    by_now: Begun


@frozen(kw_only=True)
class Older:
    """What happened in the year to lots begun before it."""

    lots: int
    rooted: int
    potted: int
    planted: int
    given: int
    sold: int
    lost: int


@frozen(kw_only=True)
class Placed:
    """Stems of one plant planted on a site in the year; ``standing`` of them are there still."""

    plant: str
    called: str
    planted: int
    standing: int


@frozen(kw_only=True)
class Filled:
    """A site that was planted in the year."""

    site: str
    area: str
    placed: tuple[Placed, ...]

    @property
    def planted(self) -> int:
        return sum(each.planted for each in self.placed)


@frozen(kw_only=True)
class Passed:
    """Stems of one plant that were given or sold on one day; ``to`` is empty where the ledger does not say
    to whom."""

    on: date
    lot: str
    plant: str
    called: str
    count: int
    to: str
    price: float | None = None


@frozen(kw_only=True)
class Account:
    """A year's account. ``before`` is ``None`` where the ledger has nothing of the year before; ``years``
    are those in which anything happened to a lot."""

    year: int
    today: date
    years: tuple[int, ...]
    starts: Starts
    before: Before | None
    fates: Fates
    kinds: tuple[Kind, ...]
    older: Older
    filled: tuple[Filled, ...]
    given: tuple[Passed, ...]
    sold: tuple[Passed, ...]
    lessons: tuple[Lesson, ...]
    worth: Worth | None

    @property
    def is_empty(self) -> bool:
        """Whether nothing was started, and nothing happened to what had been."""
        return not self.starts.whole.lots and not self.older.lots

    @property
    def is_over(self) -> bool:
        return self.today.year > self.year


def account(
    book: Book,
    catalogue: Catalogue,
    climate: Climate,
    today: date,
    year: int,
    *,
    give_up: Callable[[Lot], date | None],
    case_of: Callable[[Lot], Case],
    prices: Prices | None = None,
    only: Callable[[Lot], bool] | None = None,
) -> Account:
    """The account of a year from the book as it stood on a day.

    Args:
        book: the book of ``today``, without later entries.
        give_up: the day from which a lot that waits is past hope, where that is known.
        case_of: a lot as a trial, as it stood on that day.
        prices: what the keeper says that stems are worth.
        only: which lots to reckon with; all of them where it is not given.
    """
    lots = [lot for lot in book.lots.values() if only is None or only(lot)]
    begun = [lot for lot in lots if lot.started_on.year == year]
    moves = moves_in(year, lots)
    moved = {each.lot.code for each in moves}
    old = [each for each in moves if each.lot.started_on.year < year]
    kinds = kinds_of(begun, lambda lot: way_for(lot, catalogue))
    season = Season(
        year=year,
        today=today,
        begun=begun,
        cared_for=[lot for lot in lots if _in_care(lot, year, today, moved)],
        kinds=kinds,
        moves=moves,
        catalogue=catalogue,
        climate=climate,
        give_up=give_up,
        proved=proved_of(kinds, lots, begun, case_of),
    )
    return Account(
        year=year,
        today=today,
        years=tuple(sorted({entry.on.year for lot in lots for entry in lot.entries})),
        starts=Starts.of(begun),
        before=_before(lots, year, today),
        fates=fates_of(begun),
        kinds=kinds,
        older=_older(old),
        filled=_filled(book, moves, year),
        given=_passed(moves, Stage.GIVEN),
        sold=_passed(moves, Stage.SOLD),
        lessons=lessons_of(season),
        worth=worth_of(moves, prices or Prices()),
    )


def _in_care(lot: Lot, year: int, today: date, moved: set[str]) -> bool:
    """Whether a lot was begun in the year, or begun before and cared for in it."""
    if lot.started_on.year >= year:
        return lot.started_on.year == year
    return lot.code in moved or (today.year == year and lot.living > 0)


def _before(lots: Sequence[Lot], year: int, today: date) -> Before | None:
    earlier = [lot for lot in lots if lot.started_on.year == year - 1]
    if not earlier:
        return None
    by_now = [
        lot
        for lot in earlier
        if today.year > year or (lot.started_on.month, lot.started_on.day) <= (today.month, today.day)
    ]
    return Before(year=year - 1, starts=Starts.of(earlier), by_now=Begun.of(by_now))


def _older(moves: Sequence[Moved]) -> Older:
    came = Counter[Stage]()
    for each in moves:
        if each.source is not each.target:
            came[each.target] += each.count
    return Older(
        lots=len({each.lot.code for each in moves}),
        rooted=came[Stage.ROOTED],
        potted=came[Stage.POTTED],
        planted=came[Stage.PLANTED],
        given=came[Stage.GIVEN],
        sold=came[Stage.SOLD],
        lost=came[Stage.LOST],
    )


def _filled(book: Book, moves: Iterable[Moved], year: int) -> tuple[Filled, ...]:
    """What was planted on each site, the fullest first; what stands there still is what the site's plan
    holds."""
    sites: dict[str, dict[str, list[Moved]]] = {}
    for each in moves:
        if isinstance(each.entry, e.Plant):
            sites.setdefault(each.entry.site, {}).setdefault(each.lot.plant, []).append(each)
    found = []
    for name, plants in sites.items():
        site = book.sites[name]
        placed = tuple(
            Placed(
                plant=plant,
                called=planted[-1].lot.plant_called,
                planted=sum(each.count for each in planted),
                standing=sum(
                    grows.planted is not None and grows.planted.year == year
                    for grows in site.growing
                    if grows.lot in {each.lot.code for each in planted}
                ),
            )
            for plant, planted in plants.items()
        )
        found.append(Filled(site=name, area=site.area, placed=placed))
    return tuple(sorted(found, key=lambda filled: -filled.planted))


def _passed(moves: Iterable[Moved], target: Stage) -> tuple[Passed, ...]:
    return tuple(
        Passed(
            on=each.on,
            lot=each.lot.code,
            plant=each.lot.plant,
            called=each.lot.plant_called,
            count=each.count,
            to=each.entry.to if isinstance(each.entry, e.Give | e.Sell) else "",
            price=each.entry.price if isinstance(each.entry, e.Sell) else None,
        )
        for each in moves
        if each.target is target
    )
