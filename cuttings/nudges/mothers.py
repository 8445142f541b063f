"""Plants of the garden whose prunings make cuttings, in the weeks when they are cut back anyway."""

from collections.abc import Iterator
from datetime import date, timedelta

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.nudges.grown import Grown, grown, in_order, shown
from cuttings.nudges.model import Nudge
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import FROM_MEMORY, Plant, Way
from cuttings.plants.names import cultivar_of
from cuttings.rules.advice import Window
from cuttings.rules.caution import SHARP_BLADES, Task, own_cautions
from cuttings.rules.increase import EASIEST_FIRST
from cuttings.rules.pruning import next_pruning
from cuttings.rules.taking import next_taking
from cuttings.units import show_span
from cuttings.words import Method, Units

ESTABLISHED_DAYS = 730
"""Days in the ground after which a plant is strong enough to be cut for wood; from memory."""

LEAST_DAYS = 7
"""An overlap of cutting back and taking shorter than this is chance; from memory."""

PRUNED = (Method.HARDWOOD_CUTTING, Method.SEMI_RIPE_CUTTING, Method.SOFTWOOD_CUTTING)
"""The cuttings that prunings give."""

MINUTES = 20
"""Minutes to sort out, trim and bundle the prunings of one plant; from memory."""

TOOLS = {
    Method.HARDWOOD_CUTTING: ("secateurs", "string", "labels", "pencil"),
    Method.SEMI_RIPE_CUTTING: ("secateurs", "damp bag", "labels", "pencil"),
    Method.SOFTWOOD_CUTTING: ("secateurs", "damp bag", "labels", "pencil"),
}
"""What to take along: bare wood keeps in a bundle, leaves wilt without a damp bag (common practice)."""


def prunings(book: Book, catalogue: Catalogue, climate: Climate, first: date, last: date) -> list[Nudge]:
    """One nudge a plant and site, in the days from ``first`` to ``last`` in which its best time begins.

    It is for plants that have stood long enough to be cut for wood, if they are cut back in weeks in which
    their prunings root by a way that their record knows to work. Nothing is said of what nobody should
    increase, nor of what the ledger has struck of them in the same weeks already.
    """
    units = book.garden.units if book.garden else Units.US
    return in_order(
        nudge
        for each in grown(book, catalogue)
        if each.since(first - timedelta(days=ESTABLISHED_DAYS)) and not _spreads(each.plant)
        for nudge in _for_one(each, book, catalogue, climate, units, first, last)
    )


def _spreads(plant: Plant) -> bool:
    return plant.unwanted or any(caution.kind == "invasive" for caution in plant.cautions)


def _for_one(
    each: Grown, book: Book, catalogue: Catalogue, climate: Climate, units: Units, first: date, last: date
) -> Iterator[Nudge]:
    found = cut_and_taken(each.plant, climate, first)
    if found is None:
        return
    way, window = found
    if not shown(window, first, last) or _struck(book, each.name, way.method, window, last):
        return
    kept = cultivar_of(each.name) and any(caution.kind == "patent" for caution in each.plant.cautions)
    kind = f"{way.method.spoken}s"
    keep = f"keep the prunings, they make {kind}"
    do_not = "root none of the prunings before you know that this variety may be increased"
    cautions = (*own_cautions(each.plant, Task.STRIKE), SHARP_BLADES)
    sources = dict.fromkeys(catalogue.reference(key) for key in window.source.split(" + "))
    yield Nudge(
        id=f"site:{each.site.name}:{each.name}:prunings",
        job=f"Cutting back {{}} on the {each.site.name}: {do_not if kept else keep}",
        name=f"the {each.called}" if each.called != each.name else each.name,
        window=Window(
            what=f"cut {each.name} back for {kind}",
            opens=window.opens,
            best=window.best,
            closes=window.closes,
            why=window.why if kept else f"{window.why} {how_to_take(way, units)}",
            source="; ".join(sources),
            odds=window.odds,
        ),
        site=each.site.name,
        area=each.site.area,
        minutes=MINUTES,
        tools=TOOLS[way.method],
        cautions=tuple(caution.text for caution in cautions),
    )


def cut_and_taken(plant: Plant, climate: Climate, on: date) -> tuple[Way, Window] | None:
    """The easiest way that cutting back gives wood for, with the weeks that both have in common; ``None``
    where they have none. The sources of the two are joined with `` + ``."""
    day = on
    for _ in range(2):
        pruning = next_pruning(plant, climate, day)
        if pruning is None:
            return None
        both = [(way, _in_common(plant, way, pruning, climate)) for way in _ways(plant)]
        for way, window in both:
            if window is not None and window.closes >= on:
                return way, window
        day = pruning.closes + timedelta(days=1)
    return None


def _ways(plant: Plant) -> list[Way]:
    """The ways by prunings of which its record has a rooting time or a share that rooted, and that are not
    hard, the one that needs least care first."""
    known = [
        way
        for way in plant.ways
        if way.method in PRUNED
        and way.difficulty != "hard"
        and (way.rooting_days is not None or way.take is not None)
    ]
    return sorted(known, key=lambda way: EASIEST_FIRST.index(way.method))


def _in_common(plant: Plant, way: Way, pruning: Window, climate: Climate) -> Window | None:
    taking = next_taking(plant, way, climate, pruning.opens)
    if taking is None:
        return None
    opens, closes = max(pruning.opens, taking.opens), min(pruning.closes, taking.closes)
    if (closes - opens).days + 1 < LEAST_DAYS:
        return None
    begins = min(max(pruning.best[0], taking.best[0], opens), closes)
    ends = min(max(min(pruning.best[1], taking.best[1]), begins), closes)
    return Window(
        what=taking.what,
        opens=opens,
        best=(begins, ends),
        closes=closes,
        why=f"{pruning.why} {taking.why}",
        source=f"{pruning.source} + {taking.source}",
        odds=taking.odds,
    )


def _struck(book: Book, name: str, method: Method, window: Window, by: date) -> bool:
    """Whether cuttings of it were struck this season already."""
    return any(
        lot.plant == name and lot.method is method and window.opens <= lot.started_on <= by
        for lot in book.lots.values()
    )


def how_to_take(way: Way, units: Units) -> str:
    """How long a piece is, and how it is made ready, in two sentences at the most."""
    length = f"Take pieces of {show_span(*way.length_m, units)}" if way.length_m else "Take healthy pieces"
    kind = f" ({way.kind})" if way.kind else ""
    prepare = f" {way.prepare.rstrip('.')}." if way.prepare else ""
    unsure = " Its rooting time is only remembered." if way.source_of("rooting_days") == FROM_MEMORY else ""
    return f"{length}{kind}.{prepare}{unsure}"
