"""Which way of making more of a plant suits a day, and what a rooted find most likely is."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.plants.model import Plant, Way
from cuttings.rules.advice import Advice
from cuttings.rules.months import month_stretches
from cuttings.words import Method, PlantType, either

EASIEST_FIRST = (
    Method.BULB_OFFSET,
    Method.OFFSET,
    Method.CROWN_DIVISION,
    Method.RHIZOME_DIVISION,
    Method.TUBER_DIVISION,
    Method.TIP_LAYER,
    Method.HARDWOOD_CUTTING,
    Method.SIMPLE_LAYER,
    Method.SERPENTINE_LAYER,
    Method.MOUND_LAYER,
    Method.BASAL_CUTTING,
    Method.SEMI_RIPE_CUTTING,
    Method.SOFTWOOD_CUTTING,
    Method.ROOT_CUTTING,
    Method.LEAF_CUTTING,
    Method.SEEDLING,
    Method.AIR_LAYER,
)
"""Pieces with roots first, then what needs least care; common practice."""

TIP_ROOTING = frozenset({"Rubus"})
"""Genera whose cane tips root where they touch the ground; common practice (eXtension says so of most
brambles: How can I propagate additional plants from my blackberry stand)."""

SUCKERING_RUBUS = frozenset({"Rubus idaeus"})
"""Red raspberries run underground instead; common practice."""

USUAL_FIND = {
    PlantType.TREE: Method.SEEDLING,
    PlantType.SHRUB: Method.SIMPLE_LAYER,
    PlantType.CLIMBER: Method.SIMPLE_LAYER,
    PlantType.SUBSHRUB: Method.SIMPLE_LAYER,
    PlantType.PERENNIAL: Method.CROWN_DIVISION,
    PlantType.GRASS: Method.CROWN_DIVISION,
    PlantType.FERN: Method.RHIZOME_DIVISION,
    PlantType.BULB: Method.BULB_OFFSET,
    PlantType.HERB: Method.CROWN_DIVISION,
    PlantType.TENDER_PERENNIAL: Method.CROWN_DIVISION,
}
"""What a rooted piece of each kind of plant most often is; common practice."""


def ways_now(plant: Plant, on: date, climate: Climate) -> tuple[Way, ...]:
    """The ways whose months hold the day, those that mostly take and need least care first."""
    return tuple(sorted((way for way in plant.ways if in_season(way, on, climate)), key=_rank))


def best_way(plant: Plant, on: date, climate: Climate) -> Advice[Way] | None:
    """The first of the ways that suit the day, or ``None`` where none does."""
    suited = ways_now(plant, on, climate)
    if not suited:
        return None
    way = suited[0]
    why = f"It is the season for it ({way.season})." if way.season else "It is the season for it."
    if way.method.starts_rooted:
        why += " A piece that has roots already is surest."
    sure = "" if way.take is None else f"Published take: {way.take[0]:.0%} to {way.take[1]:.0%}."
    return Advice(way, why, way.source_of("months"), sure)


def in_season(way: Way, on: date, climate: Climate) -> bool:
    """Whether a way's season holds a day; a way that names no months suits any day."""
    if not way.months:
        return True
    runs = (run for year in (on.year - 1, on.year) for run in month_stretches(way.months, climate, year))
    return any(first <= on <= last for first, last in runs)


def next_season(way: Way, on: date, climate: Climate) -> date | None:
    """The day itself in season, else the first day of the way's next run of months."""
    if in_season(way, on, climate):
        return on
    opens = (
        first for year in (on.year, on.year + 1) for first, _ in month_stretches(way.months, climate, year)
    )
    return min((first for first in opens if first >= on), default=None)


def _rank(way: Way) -> tuple[bool, float, int]:
    take = sum(way.take) / 2 if way.take is not None else UNKNOWN_TAKE
    return not way.method.starts_rooted, -take, EASIEST_FIRST.index(way.method)


UNKNOWN_TAKE = 0.6
"""The share taken to root where nobody published one, for ranking only; from memory."""


def likely_find_method(plant: Plant) -> Method:
    """What a rooted stem found in the garden most probably is, for a first guess at the prompt."""
    if plant.genus in TIP_ROOTING:
        return Method.OFFSET if plant.name in SUCKERING_RUBUS else Method.TIP_LAYER
    if plant.type is PlantType.TREE and any(way.method.is_layer for way in plant.ways):
        return next(way.method for way in plant.ways if way.method.is_layer)
    if plant.type in (PlantType.PERENNIAL, PlantType.HERB):
        divided = next((way.method for way in plant.ways if way.method.starts_rooted), None)
        return divided or USUAL_FIND[plant.type]
    return USUAL_FIND[plant.type]


def out_of_season(plant: Plant, method: Method, on: date, climate: Climate) -> str:
    """Why a day is a poor one for a method with a plant, in a sentence; empty where it is none."""
    way = plant.way(method)
    if way is None:
        usual = [way.method.spoken for way in plant.ways]
        return (
            f"{plant.name} is not usually increased by {method.spoken}; {either(usual)} is." if usual else ""
        )
    coming = next_season(way, on, climate)
    if coming is None or coming == on:
        return ""
    season = f" ({way.season})" if way.season and not climate.southern else ""
    return f"The season for {_a(method.spoken)} of {plant.name}{season} begins about {spoken(coming, on)}."


def _a(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"
