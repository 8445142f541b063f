"""When to take the material for each way of making more of a plant."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, Plant, Way
from cuttings.rules.advice import Window
from cuttings.rules.division import division_windows
from cuttings.rules.growth import growing_season
from cuttings.rules.layering import pegging_window
from cuttings.rules.months import month_stretches
from cuttings.rules.odds import chance_of_closed_ground, chance_of_hard_freeze, no_harm, past_hard_freezes
from cuttings.rules.phases import dormancy, short_shoots
from cuttings.rules.seasons import Stretch, frosts, in_open_ground, next_window, surely_open, weeks, window
from cuttings.rules.warmth import pace_said
from cuttings.words import Method

HARDWOOD_SOURCE = "University of Missouri Extension G6970: Home Propagation of Garden and Landscape Plants"
"""Hardwood cuttings in late autumn and early winter, after a hard frost."""

HARDWOOD_BEST_WEEKS = (2, 8)
"""Weeks after leaf fall in which wood is best taken, before deep cold; from memory."""

USUAL_MONTHS = {
    Method.SOFTWOOD_CUTTING: (5, 6, 7),
    Method.SEMI_RIPE_CUTTING: (7, 8, 9),
    Method.LEAF_CUTTING: (5, 6, 7, 8),
    Method.BASAL_CUTTING: (4, 5),
    Method.SEEDLING: (4, 5, 6),
    Method.OFFSET: (4, 5, 8, 9),
    Method.BULB_OFFSET: (6, 7, 8, 9),
}
"""Northern months for a way whose record names none; common practice."""

WHY = {
    Method.SOFTWOOD_CUTTING: "This year's shoots snap when bent, and root fast while they are soft.",
    Method.SEMI_RIPE_CUTTING: "This year's shoots have firmed at the base and are soft at the tip.",
    Method.HARDWOOD_CUTTING: "The leaves are down and the buds have not moved; take last summer's wood.",
    Method.BASAL_CUTTING: "The new shoots are short and sturdy, each with a heel of the old crown.",
    Method.ROOT_CUTTING: "At rest its roots are full of stored food.",
    Method.LEAF_CUTTING: "Full-grown leaves of this year have the strength to make a plant.",
    Method.SEEDLING: "Seedlings move well while they are small.",
    Method.OFFSET: "Offsets with roots of their own come away cleanly when growth begins or slows.",
    Method.BULB_OFFSET: "The leaves have died down and the bulbs are at rest.",
}
"""Why each is taken then; common practice."""

AT_REST = frozenset({Method.HARDWOOD_CUTTING, Method.ROOT_CUTTING})
"""Material taken while the plant is at rest."""

FROM_THE_GROUND = frozenset({Method.SEEDLING, Method.OFFSET, Method.BULB_OFFSET})
"""What is dug up, and waits for ground that can be."""


def taking_windows(plant: Plant, way: Way, climate: Climate, year: int) -> tuple[Window, ...]:
    """The windows for one way of making more of a plant that begin in a year.

    Leafless wood and roots are taken between leaf fall and moving buds, and basal shoots while they are
    short; clumps are divided and stems pegged by their own rules. The rest goes by the months of the way, or
    the usual ones, and so do the side rosettes of evergreens.
    """
    method = way.method
    if method.is_layer:
        return (pegging_window(way, climate, year),)
    if method.value.endswith("division"):
        return division_windows(plant, climate, year)
    if method in AT_REST and not plant.evergreen:
        return taken_at_rest(plant, method, climate, year)
    sprouts = method is Method.BASAL_CUTTING and not plant.evergreen
    shoots = short_shoots(climate, year) if sprouts else None
    stretches = (shoots,) if shoots else _by_month(way, climate, year)
    source = way.source_of("months") if way.months and not shoots else COMMON_PRACTICE
    if method in FROM_THE_GROUND:
        stretches = tuple(in_open_ground(climate, stretch) for stretch in stretches)
    return tuple(_plain(plant, method, stretch, climate, source) for stretch in stretches)


def next_taking(plant: Plant, way: Way, climate: Climate, on: date) -> Window | None:
    """The window open on a day, or the next to open."""
    return next_window(lambda year: taking_windows(plant, way, climate, year), on)


def _by_month(way: Way, climate: Climate, year: int) -> tuple[Stretch, ...]:
    months = way.months or USUAL_MONTHS.get(way.method)
    if months:
        return month_stretches(months, climate, year)
    season = growing_season(climate, year)
    return (season,) if season is not None else month_stretches((5, 6, 7, 8), climate, year)


def taken_at_rest(plant: Plant, method: Method, climate: Climate, year: int) -> tuple[Window, ...]:
    """The window for wood or roots at rest that opens in a year's autumn, whatever the plant."""
    autumn = frosts(climate, year)
    opens, closes = dormancy(climate, year)
    first, last = HARDWOOD_BEST_WEEKS
    found = window(
        what_to_take(plant, method),
        opens,
        (opens + weeks(first), opens + weeks(last)),
        closes,
        why=autumn.said(WHY[method] + pace_said(climate, closes)),
        source=HARDWOOD_SOURCE if method is Method.HARDWOOD_CUTTING else COMMON_PRACTICE,
        odds=no_harm(climate),
    )
    return () if found is None else (found,)


def _plain(plant: Plant, method: Method, stretch: Stretch, climate: Climate, source: str) -> Window:
    opens, closes = stretch
    best = min(_best_from(method, climate, opens), closes)
    return Window(
        what=what_to_take(plant, method),
        opens=opens,
        best=(best, max(best, opens + (closes - opens) / 2)),
        closes=closes,
        why=_why(plant, method) + pace_said(climate, opens),
        source=source,
        odds=_odds(method, climate, best),
    )


def _best_from(method: Method, climate: Climate, opens: date) -> date:
    """The first good day: once the ground is open in most years, or hard freezes seldom come to soft
    shoots."""
    if method in FROM_THE_GROUND:
        return surely_open(climate, opens)
    return opens if method in AT_REST else past_hard_freezes(climate, opens)


def _why(plant: Plant, method: Method) -> str:
    if method is Method.HARDWOOD_CUTTING and plant.evergreen:
        return "This year's wood has ripened and growth has stopped."
    return WHY.get(method, "It is the season for it.")


def _odds(method: Method, climate: Climate, on: date) -> float | None:
    """The chance that cold spoils it: soft shoots freeze, and what is dug waits for the ground."""
    if method in FROM_THE_GROUND:
        return chance_of_closed_ground(climate, on)
    if method in AT_REST:
        return no_harm(climate)
    return chance_of_hard_freeze(climate, on)


def what_to_take(plant: Plant, method: Method) -> str:
    """The job in words: ``take hardwood cuttings of Ribes rubrum``."""
    verb = "take" if method.is_cutting else "lift"
    return f"{verb} {method.spoken}s of {plant.name}"
