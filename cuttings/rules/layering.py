"""When to peg a layer down, and when to cut the rooted layer from its mother."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.climate.frost import FROST_F
from cuttings.plants.model import COMMON_PRACTICE, Way
from cuttings.rules.advice import Window
from cuttings.rules.growth import growing_days_after
from cuttings.rules.months import month_stretches
from cuttings.rules.odds import (
    chance_of_closed_ground,
    chance_of_freeze_already,
    chance_of_hard_freeze,
    no_harm,
    past_hard_freezes,
)
from cuttings.rules.seasons import frosts, in_open_ground, next_window, surely_open, weeks
from cuttings.rules.warmth import pace_said
from cuttings.words import Method

FLORIDA = (
    "University of Florida Agricultural Extension Service: Propagation of Ornamental Plants by Layering, 1955"
)
"""Outdoor layers are best made in spring and summer and are usually rooted before dormancy,
http://ufdc.ufl.edu/UF00084279/00001"""

ARKANSAS = "University of Arkansas Cooperative Extension: Reference Desk: Layering"
"""A layered sucker is cut off and moved the next spring,
https://www.uaex.edu/yard-garden/in-the-garden/reference-desk/propagating/layering.aspx"""

BRAMBLES = "eXtension: How can I propagate additional plants from my blackberry stand"
"""Bury tips in mid to late summer; move the new plants in autumn or early the next spring,
https://articles.extension.org/pages/34924/how-can-i-propagate-additional-plants-from-my-blackberry-stand"""

OREGON = "Oregon State Extension (via Walden Effect): Propagating Clonal Rootstocks, 1957"
"""Mounded shoots are cut the following spring, about a year on,
https://www.waldeneffect.org/blog/Stooling_an_apple_rootstock/"""

USUAL_MONTHS = {
    Method.SIMPLE_LAYER: (4, 5, 6),
    Method.SERPENTINE_LAYER: (4, 5, 6),
    Method.MOUND_LAYER: (5, 6),
    Method.TIP_LAYER: (8, 9),
    Method.AIR_LAYER: (5, 6),
}
"""Northern months for pegging where a plant's record names none (``FLORIDA``, ``BRAMBLES``)."""

ROOTING_SEASON_DAYS = {Method.TIP_LAYER: 30, Method.AIR_LAYER: 60}
ROOTING_SEASON_OTHERWISE = 90
"""Growing days a layer needs behind it before it may be cut off; from memory."""

AT_REST_WEEKS = 3
"""Weeks from the first frost until a layer is at rest and may be cut off; from memory."""

SPRING_BEST_WEEKS = (6, 1)
SPRING_CLOSES_WEEKS = 1
"""Weeks before the last frost between which spring cutting is best, and weeks after it when it closes."""

SEVER_SOURCE = {Method.TIP_LAYER: BRAMBLES, Method.MOUND_LAYER: OREGON, Method.AIR_LAYER: COMMON_PRACTICE}


def pegging_window(way: Way, climate: Climate, year: int) -> Window:
    """When to peg a layer in a year: the first run of the way's months, the first half of it best.

    Raises:
        ValueError: the way is no layer.
    """
    if not way.method.is_layer:
        raise ValueError(f"A {way.method.spoken} is not pegged down.")
    months = way.months or USUAL_MONTHS[way.method]
    stretch = month_stretches(months, climate, year)[0]
    in_air = way.method is Method.AIR_LAYER
    opens, closes = stretch if in_air else in_open_ground(climate, stretch)
    best = past_hard_freezes(climate, opens) if in_air else surely_open(climate, opens)
    best = min(best, closes)
    source = way.source_of("months") if way.months else _usual_source(way.method)
    return Window(
        what=f"wrap an {way.method.spoken}" if in_air else f"peg a {way.method.spoken}",
        opens=opens,
        best=(best, max(best, opens + (closes - opens) / 2)),
        closes=closes,
        why=_pegging_why(way.method) + pace_said(climate, opens),
        source=source,
        odds=chance_of_hard_freeze(climate, best) if in_air else chance_of_closed_ground(climate, best),
    )


def next_pegging(way: Way, climate: Climate, on: date) -> Window | None:
    """The pegging window open on a day, or the next to open."""
    return next_window(lambda year: (pegging_window(way, climate, year),), on)


def _usual_source(method: Method) -> str:
    return BRAMBLES if method is Method.TIP_LAYER else FLORIDA


def _pegging_why(method: Method) -> str:
    if method is Method.TIP_LAYER:
        return "The cane tips arch to the ground now, and still have weeks of warm soil to root in."
    return "Pegged early, it has the whole warm season to root in."


def sever_window(method: Method, started: date, climate: Climate) -> Window:
    """When to cut a layer started on a day from its mother, if it has rooted.

    It opens once the layer has had its growing days and gone to rest, and is best in the spring after.
    An air layer, whose roots hang in the cold, comes off before the first frost after it has rooted.

    Raises:
        ValueError: the method is no layer.
    """
    if not method.is_layer:
        raise ValueError(f"A {method.spoken} has no mother to be cut from.")
    ready = growing_days_after(climate, started, ROOTING_SEASON_DAYS.get(method, ROOTING_SEASON_OTHERWISE))
    first_frost = _first_frost_after(ready, climate)
    if method is Method.AIR_LAYER:
        return _before_frost(ready, first_frost, climate)
    opens = first_frost + weeks(AT_REST_WEEKS)
    last_frost = _last_frost_after(first_frost, climate)
    early, late = SPRING_BEST_WEEKS
    closes = max(last_frost + weeks(SPRING_CLOSES_WEEKS), opens)
    first = min(max(last_frost - weeks(early), opens), closes)
    return Window(
        what=f"cut the {method.spoken} from its mother",
        opens=opens,
        best=(first, min(max(last_frost - weeks(late), first), closes)),
        closes=closes,
        why=frosts(climate, ready.year).said(
            "By then it has had a warm season; if you see roots, cut it at rest, best in early spring."
        ),
        source=SEVER_SOURCE.get(method, ARKANSAS),
        odds=no_harm(climate),
    )


def _before_frost(ready: date, first_frost: date, climate: Climate) -> Window:
    closes = max(first_frost, ready)
    said = frosts(climate, ready.year).said
    return Window(
        what="cut the air layer from its mother",
        opens=ready,
        best=(ready, ready + (closes - ready) / 2),
        closes=closes,
        why=said("Cut it below the roots once they fill the wrap, and before frost reaches them."),
        source=COMMON_PRACTICE,
        odds=chance_of_freeze_already(climate, ready, FROST_F),
    )


def _first_frost_after(day: date, climate: Climate) -> date:
    autumns = (frosts(climate, year).first_autumn for year in range(day.year - 1, day.year + 3))
    return min((autumn for autumn in autumns if autumn >= day), default=day)


def _last_frost_after(day: date, climate: Climate) -> date:
    springs = (frosts(climate, year).last_spring for year in range(day.year - 1, day.year + 3))
    return min((spring for spring in springs if spring >= day), default=day)
