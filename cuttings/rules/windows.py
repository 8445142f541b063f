"""Every window of one plant in one place: what to take, divide, lift, pot, harden and plant out, and when."""

from collections.abc import Iterator
from datetime import date, timedelta
from functools import lru_cache

from cuttings.climate.climate import Climate
from cuttings.climate.frost import FROST_F
from cuttings.plants.model import COMMON_PRACTICE, Plant
from cuttings.rules.advice import Window
from cuttings.rules.hardening import earliest_start, time_to_harden
from cuttings.rules.marks import mark_window
from cuttings.rules.odds import chance_of_later_freeze, no_harm
from cuttings.rules.pruning import next_pruning
from cuttings.rules.seasons import HARD_FREEZE_F, frosts, is_hardy, next_window, weeks, window
from cuttings.rules.taking import next_taking
from cuttings.rules.transplant import next_planting
from cuttings.rules.warmth import pace_said
from cuttings.words import PlantType, Purpose

POTTING_SOURCE = "UMass Extension: Overwintering Container-Grown Ornamentals"
"""Perennials are potted by late September or early October in zones 5 and 6,
https://ag.umass.edu/landscape/fact-sheets/overwintering-container-grown-ornamentals"""

POT_BEFORE_FREEZE_WEEKS = 9
"""Weeks before the ground freezes by which that is, in such a garden."""

POT_BEFORE_WORKABLE_WEEKS = 2
"""Weeks before the ground can be dug from which potted roots grow on, under shelter; from memory."""


LONGEST_POTTING_WEEKS = 40
"""Weeks that a season of potting lasts at the most, where the ground never freezes; from memory."""


def windows_of(plant: Plant, climate: Climate, on: date) -> tuple[Window, ...]:
    """The next window of every kind for a plant, open on a day or opening after it, in the order they
    open."""
    if plant.unwanted:
        return ()
    found: dict[str, Window] = {}
    for each in _all(plant, climate, on):
        found.setdefault(each.what, each)
    return tuple(sorted(found.values(), key=lambda each: (max(each.opens, on), each.closes, each.what)))


def _all(plant: Plant, climate: Climate, on: date) -> Iterator[Window]:
    for way in plant.ways:
        taking = next_taking(plant, way, climate, on)
        if taking is not None:
            yield taking
    if plant.type is PlantType.BULB or not is_hardy(plant, climate):
        yield mark_window(Purpose.LIFT, plant, on, climate)
    singly = [next_pruning, next_potting]
    if plant.type is not PlantType.BULB:  # a bulb at rest has no leaves to harden
        singly.append(next_hardening)
    for each in (rule(plant, climate, on) for rule in singly):
        if each is not None:
            yield each
    planting = next_planting(plant, climate, on)
    if planting is not None:
        yield planting
        following = next_planting(plant, climate, planting.closes + timedelta(days=1))
        if following is not None:
            yield following


@lru_cache(maxsize=1024)
def potting_window(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    """When rooted stems are best potted, from a year's spring on: while there is time to fill the pot with
    roots."""
    spring = frosts(climate, year)
    autumn = frosts(climate, year + 1 if climate.southern else year)
    opens = spring.workable - weeks(POT_BEFORE_WORKABLE_WEEKS)
    closes = autumn.freeze - weeks(POT_BEFORE_FREEZE_WEEKS if autumn.freezes else 0)
    closes = min(closes, opens + weeks(LONGEST_POTTING_WEEKS))
    found = window(
        f"pot rooted {plant.name}",
        opens,
        (spring.workable, spring.last_spring + weeks(8)),
        closes,
        why=spring.said("Potted while roots grow, it fills its pot before winter.")
        + pace_said(climate, spring.workable),
        source=POTTING_SOURCE,
        odds=no_harm(climate),
    )
    return () if found is None else (found,)


def next_potting(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The potting window open on a day, or the next to open."""
    return next_window(lambda year: potting_window(plant, climate, year), on)


def hardening_window(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    """When to begin hardening off what grew under cover, in a year's spring."""
    start = earliest_start(plant, climate, year)
    steps = time_to_harden(plant, climate)
    planting = next_planting(plant, climate, start.value)
    last = start.value if planting is None else max(start.value, planting.closes - steps)
    best = start.value, start.value + timedelta(days=14)
    out = best[0] + steps
    threshold = HARD_FREEZE_F if is_hardy(plant, climate) else FROST_F
    found = window(
        f"begin to harden off {plant.name}",
        start.value,
        best,
        last,
        why=start.why,
        source=COMMON_PRACTICE,
        odds=chance_of_later_freeze(climate, out, threshold),
    )
    return () if found is None else (found,)


def next_hardening(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The hardening window open on a day, or the next to open."""
    return next_window(lambda year: hardening_window(plant, climate, year), on)
