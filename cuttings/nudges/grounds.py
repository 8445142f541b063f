"""What the places of the garden need: sites that crowd, spots held too long, labels, and pots to come."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import groupby

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Hold
from cuttings.nudges.grown import in_order, shown, touches
from cuttings.nudges.in_pots import IN_POTS
from cuttings.nudges.knowledge import Known, known
from cuttings.nudges.labelled import label_of, unlabelled
from cuttings.nudges.loss import takes
from cuttings.nudges.making import coming_round
from cuttings.nudges.model import Nudge
from cuttings.nudges.whereabouts import whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE, Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Window
from cuttings.rules.caution import BURIED_LINES, HEAVY_CLUMPS, POTTING_MIX
from cuttings.rules.marks import mark_window
from cuttings.rules.potting import recommend_mix, recommend_pot
from cuttings.rules.transplant import next_planting
from cuttings.rules.windows import next_potting
from cuttings.takes.learned import Learned
from cuttings.words import PLANTABLE, Purpose, Stage, Units, listed

YEARS_AHEAD = 2
"""Crowding is spoken of so many years before it comes, when moving is still easy; from memory."""

HELD_DAYS = 365
"""Days after which a held spot is asked about; from memory."""

HELD_EVERY = 91
LABEL_EVERY = 28
SAID_DAYS = 7
"""Days from round to round, and days that one is on the sheet; from memory."""

LABEL_DAYS = 84
"""Days after potting for which a missing label is asked after: three rounds; from memory."""

POTS_AHEAD_DAYS = 35
"""How far ahead pots are got ready, from the first of a month: to the beginning of the next; from memory."""

MOST_NAMED = 12
"""Lots that one job names; more are counted."""

LABEL_SOURCE = (
    f"Sunset (The Free Library): Plant labels that last?; that pencil outlasts ink is {COMMON_PRACTICE}"
)
"""In a summer's trial in Arizona sun and Seattle wet, writing held best on rough plastic, and best of all
pressed into soft aluminium; pencil was fair there, ballpoint poor."""

LABEL_WHY = (
    "Without a label nobody knows in a year what it is. Pencil on rough plastic or a paint marker outlasts "
    "ink in the sun."
)
POTS_WHY = "Roots dry while one looks for pots; with pots and mix at hand the move takes minutes."


@frozen(kw_only=True, eq=False, repr=False)
class Crowding:
    """What will crowd on a site: plain facts, handed in.

    ``plants`` are the names of what meets; ``year`` is when. ``remedy`` is the gentlest thing to do, a whole
    sentence, ``window`` when it is done, and ``digs`` whether it means digging.
    """

    site: str
    area: str
    plants: tuple[str, ...]
    year: int
    remedy: str
    window: Window
    digs: bool = True


def moving_time(plant: Plant, climate: Climate, on: date) -> Window:
    """When a plant is moved next: in planting time, and woody plants that drop their leaves at rest."""
    return mark_window(Purpose.MOVE, plant, on, climate)


def crowded(crowds: Iterable[Crowding], first: date, last: date) -> list[Nudge]:
    """One nudge a site for what crowds soonest there, as the time to do something about it begins."""
    soonest: dict[str, Crowding] = {}
    for each in sorted(crowds, key=lambda each: each.year):
        soonest.setdefault(each.site, each)
    return in_order(
        _crowd(each)
        for each in soonest.values()
        if each.year - first.year <= YEARS_AHEAD and shown(each.window, first, last)
    )


def _crowd(crowd: Crowding) -> Nudge:
    several = len(crowd.plants) > 1
    does = "grow into one another" if several else "outgrows its room"
    dug = (BURIED_LINES.text, HEAVY_CLUMPS.text) if crowd.digs else ()
    return Nudge(
        id=f"site:{crowd.site}:crowding",
        job=f"Make room on the {crowd.site}: {{}} {does} by {crowd.year}. {crowd.remedy}",
        name=listed(crowd.plants),
        window=crowd.window,
        site=crowd.site,
        area=crowd.area,
        minutes=30,
        tools=("spade", "sheet") if crowd.digs else ("secateurs", "saw"),
        cautions=dug,
        digs=crowd.digs,
    )


def grounds(
    book: Book,
    catalogue: Catalogue,
    climate: Climate,
    first: date,
    last: date,
    learned: Learned | None = None,
) -> list[Nudge]:
    """Held spots, labels and pots, in the days from ``first`` to ``last``; ``crowded`` is asked by itself."""
    rounds = (*held_spots(book, catalogue, climate, first), *labels(book, first))
    return in_order(
        [
            *(nudge for nudge in rounds if touches(nudge.window, first, last)),
            *(
                nudge
                for nudge in pots(book, catalogue, climate, first, learned)
                if nudge.window.opens <= last
            ),
        ]
    )


def held_spots(book: Book, catalogue: Catalogue, climate: Climate, today: date) -> Iterator[Nudge]:
    """Spots held for longer than a year; the ledger itself lets go those of a lot that is gone.

    While the lot's own planting time is open, it is that which is spoken of.
    """
    for hold in book.holds.values():
        lot, entry = book.lots.get(hold.lot), book.entry(hold.entry)
        if lot is None or entry is None or _plants_now(lot, catalogue, climate, today):
            continue
        asked = entry.on + timedelta(days=HELD_DAYS)
        if today >= asked:
            yield _hold(book, hold, lot, asked, f"Held since {spoken(entry.on, today)}.", today)


def _plants_now(lot: Lot, catalogue: Catalogue, climate: Climate, today: date) -> bool:
    if not any(lot.at(stage) for stage in PLANTABLE):
        return False
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    window = next_planting(plant, climate, today)
    return window is not None and window.holds(today)


def _hold(book: Book, hold: Hold, lot: Lot, asked: date, why: str, today: date) -> Nudge:
    reason = f"{why} What is held keeps everything else away."
    window = coming_round(
        asked, today, "let a spot go", reason, COMMON_PRACTICE, every=HELD_EVERY, lasts=SAID_DAYS
    )
    release = f"'cuttings spot --release {hold.spot}'"
    season = "when its season comes, or let the spot go"
    site = book.sites.get(hold.site)
    return Nudge(
        id=f"hold:{hold.spot}",
        job=f"Plant {{}} at its held spot on the {hold.site} {season}: {release}",
        name=_name(lot),
        window=window,
        task="spot",
        lot=lot.code,
        site=hold.site,
        area=site.area if site else "",
        minutes=2,
        every=HELD_EVERY,
    )


def labels(book: Book, today: date) -> Iterator[Nudge]:
    """One nudge an area for the pots that have no label, in rounds until they are no longer new."""
    potted = [lot for lot in unlabelled(book.lots.values()) if any(lot.at(stage) for stage in IN_POTS)]
    new = [lot for lot in potted if (today - _potted(lot)).days < LABEL_DAYS]

    where = whereabouts(book)

    def area(lot: Lot) -> str:
        return where.area_of(lot, Stage.POTTED)

    for place, found in groupby(sorted(new, key=area), key=area):
        lots = sorted(found, key=lambda lot: lot.code)
        says = " ".join(f"{label_of(lot).text}." for lot in lots[:MOST_NAMED])
        window = coming_round(
            min(_potted(lot) for lot in lots),
            today,
            "write labels",
            f"{LABEL_WHY} They say: {says}",
            LABEL_SOURCE,
            every=LABEL_EVERY,
            lasts=SAID_DAYS,
        )
        yield Nudge(
            id=f"area:{place}:labels",
            job="Write labels for {}",
            name=listed([_name(lot) for lot in lots], MOST_NAMED),
            window=window,
            task="labels",
            lots=tuple(lot.code for lot in lots),
            area=place,
            minutes=3 + len(lots),
            tools=("labels", "pencil"),
            every=LABEL_EVERY,
        )


def _potted(lot: Lot) -> date:
    return lot.reached(Stage.POTTED) or lot.started_on


def _name(lot: Lot) -> str:
    return f"{lot.code} {lot.plant_called}"


def pots(
    book: Book, catalogue: Catalogue, climate: Climate, today: date, learned: Learned | None = None
) -> Iterator[Nudge]:
    """The pots and the mix for what will have rooted soon, on the first of the coming month.

    Nothing is said of what cannot be potted before the season for it begins.
    """
    units = book.garden.units if book.garden else Units.US
    begun = today.day <= SAID_DAYS
    opens = today.replace(day=1) if begun else (today.replace(day=1) + timedelta(days=31)).replace(day=1)
    by = opens + timedelta(days=POTS_AHEAD_DAYS)
    sizes, mixes, lots = dict[str, int](), list[str](), list[Lot]()
    for lot in book.lots.values():
        if not lot.at(Stage.WAITING):
            continue
        about = known(lot, catalogue, climate, units, learned)
        wanted = 0 if about.plant.unwanted else _wanted(about, opens, by)
        if wanted:
            pot = recommend_pot(None, lot.method, about.plant, units).value.name
            sizes[pot] = sizes.get(pot, 0) + wanted
            mixes.append(recommend_mix(about.plant).value)
            lots.append(lot)
    if not lots:
        return
    of_each = listed([f"{number} pot{'s' * (number > 1)} ({size})" for size, number in sizes.items()])
    window = Window(
        what="have pots ready",
        opens=opens,
        best=(opens, opens + timedelta(days=SAID_DAYS - 1)),
        closes=opens + timedelta(days=SAID_DAYS - 1),
        why=f"{POTS_WHY} Mix: {listed(mixes)}.",
        source=COMMON_PRACTICE,
    )
    yield Nudge(
        id=f"garden:pots:{opens:%Y-%m}",
        job=f"Have {of_each} ready for {{}}, and mix",
        name=listed([_name(lot) for lot in lots], MOST_NAMED),
        window=window,
        area=_bench(book),
        minutes=10,
        tools=("pots", "potting mix", "labels"),
        cautions=(POTTING_MIX.text,),
    )


def _wanted(about: Known, opens: date, by: date) -> int:
    """How many pots a lot will want for the stems that are likely to root by a day."""
    season = next_potting(about.plant, about.climate, opens)
    rooting = about.forecast()
    if season is None or season.opens > by or rooting is None or not opens <= rooting.p50 <= by:
        return 0
    return round(about.lot.at(Stage.WAITING) * takes(about))


def _bench(book: Book) -> str:
    """The area where most pots stand; empty where none do."""
    where = whereabouts(book)
    places = [
        where.area_of(lot, Stage.POTTED)
        for lot in book.lots.values()
        if any(lot.at(stage) for stage in IN_POTS)
    ]
    outdoors = [place for place in places if place in book.areas]
    return max(sorted(set(outdoors)), key=outdoors.count, default="")
