"""When a shrub may be cut back without costing its flowers, and when its prunings are to be had."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.advice import Window
from cuttings.rules.bloom import bloom_stretches
from cuttings.rules.odds import no_harm
from cuttings.rules.phases import dormancy
from cuttings.rules.seasons import frosts, next_window, weeks, window
from cuttings.rules.transplant import WOODY
from cuttings.rules.warmth import pace_said

SOURCE = "experts123.com (after extension text): Right time to prune"
"""Spring bloomers within two weeks of flowering; summer and autumn bloomers in late winter or early spring;
none in late summer and early autumn, when soft growth would follow,
https://experts123.com/q/when-is-the-right-time-to-prune-spring-summer-and-fall-flowering-shrubs.html"""

FRUIT_SOURCE = (
    "Penn State Extension: Gooseberries and Currants: Pruning; "
    "Iowa State University Extension (via Boone News Republican): Pruning raspberry plants in spring, 2015; "
    "Which? Gardening: How to prune gooseberries, white currants and red currants"
)
"""Currants and gooseberries are pruned at rest: in March or early April before growth resumes, or from
November to February; raspberries in March or early April,
http://extension.psu.edu/plants/gardening/fphg/gooseberries-currants/pruning"""

PRUNED_FOR_FRUIT = frozenset(
    {"Ribes nigrum", "Ribes rubrum", "Ribes uva-crispa", "Rubus", "Rubus allegheniensis", "Rubus fruticosus"}
    | {"Rubus idaeus", "Rubus occidentalis", "Rubus phoenicolasius", "Rubus × loganobaccus"}
    | {"Vaccinium angustifolium", "Vaccinium corymbosum", "Vaccinium virgatum"}
    | {"Malus", "Malus domestica", "Pyrus", "Pyrus communis"}
)
"""Plants grown for fruit and pruned at rest, though they flower on old wood: currants, gooseberries and
brambles by ``FRUIT_SOURCE``; blueberries, apples and pears are common practice."""

AFTER_BLOOM_WEEKS = (2, 6)
"""Weeks after bloom until which cutting is best (``SOURCE``), and until which next year's buds are not yet
made (from memory)."""

BEFORE_BUDS_WEEKS = (8, 6)
"""Weeks before the buds move when cutting of shrubs that bloom on new wood begins, and from when it is
best, past the worst of winter; from memory."""

RIPENS_WEEKS = 8
"""Weeks before the first frost after which nothing is cut back, for soft growth would follow and freeze; from
memory."""

BLOOMS_TOO_LATE = (
    "It blooms on last year's wood and too late in the summer to be cut after it: take the spent heads and "
    "dead wood only, before the buds move."
)
OLD_WOOD = "It blooms on last year's wood, so it is cut after the flowers and not before."
FOR_FRUIT = "It is pruned for its fruit, at rest: the old wood out, the young wood thinned and shortened."
NEW_WOOD = (
    "It blooms on this year's wood, so it is cut before the buds move; the prunings make hardwood cuttings."
)


def pruning_windows(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    """The windows for cutting a woody plant back that open in a year; none where nobody told on which wood it
    blooms.

    What blooms on old wood is cut after the flowers, if there is summer left for the growth that follows;
    what is grown for its fruit is cut at rest.
    """
    if plant.name in PRUNED_FOR_FRUIT:
        return _at_rest(plant, climate, year)
    if plant.bloom is None or plant.type not in WOODY or not plant.bloom.months:
        return ()
    if plant.bloom.wood == "new":
        return _before_buds(plant, climate, year, NEW_WOOD)
    if plant.bloom.wood != "old":
        return ()
    flowering = bloom_stretches(plant, climate, year)
    found = [_after_bloom(plant, climate, faded) for _, faded in flowering]
    kept = tuple(each for each in found if each is not None)
    return kept or _before_buds(plant, climate, year, BLOOMS_TOO_LATE)


def next_pruning(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The window open on a day, or the next to open."""
    return next_window(lambda year: pruning_windows(plant, climate, year), on)


def _after_bloom(plant: Plant, climate: Climate, faded: date) -> Window | None:
    best, closes = AFTER_BLOOM_WEEKS
    years = (faded.year - 1, faded.year, faded.year + 1)
    first_frosts = (frosts(climate, year).first_autumn for year in years)
    autumn = min((each for each in first_frosts if each >= faded), default=faded)
    return window(
        f"cut back {plant.name} after bloom",
        faded,
        (faded, faded + weeks(best)),
        min(faded + weeks(closes), autumn - weeks(RIPENS_WEEKS)),
        why=OLD_WOOD + pace_said(climate, faded),
        source=SOURCE,
        odds=no_harm(climate),
    )


def _at_rest(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    opens, moved = dormancy(climate, year)
    found = window(
        f"prune {plant.name} at rest",
        opens,
        (opens + weeks(2), moved - weeks(1)),
        moved,
        why=FOR_FRUIT + pace_said(climate, moved),
        source=FRUIT_SOURCE,
        odds=no_harm(climate),
    )
    return () if found is None else (found,)


def _before_buds(plant: Plant, climate: Climate, year: int, why: str) -> tuple[Window, ...]:
    _, moved = dormancy(climate, year if climate.southern else year - 1)
    opens, best = (moved - weeks(before) for before in BEFORE_BUDS_WEEKS)
    found = window(
        f"cut back {plant.name} before the buds move",
        opens,
        (best, moved - weeks(1)),
        moved,
        why=why + pace_said(climate, moved),
        source=SOURCE,
        odds=no_harm(climate),
    )
    return () if found is None else (found,)
