"""From the day a stem has roots to the day it may be planted: potted, grown on, hardened off, in planting
time."""

from collections.abc import Callable
from datetime import date, timedelta

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.hardening import next_start, time_to_harden
from cuttings.rules.layering import sever_window
from cuttings.rules.seasons import is_hardy, weeks
from cuttings.rules.transplant import next_planting
from cuttings.rules.windows import next_potting
from cuttings.words import Method

FILL_POT_WEEKS = 4
"""Weeks in the pot before the roots hold the ball together for the next move; from memory."""

YEAR = timedelta(days=365)


def plantable(
    plant: Plant, method: Method, climate: Climate, started: date, rooted: date, *, under_cover: bool
) -> date | None:
    """The first day on which a stem may be planted that was started on a day and has roots since another;
    ``None`` where the plant is never planted out.

    Divisions and offsets go straight into the ground. A layer is first cut from its mother in its season;
    then all are potted while they can fill the pot, and hardened off if they grew in closed air
    (``under_cover``).
    """
    if method.starts_rooted:
        return rooted if is_hardy(plant, climate) else in_planting_time(plant, climate, rooted)
    free = severed(method, climate, started, rooted) if method.is_layer else rooted
    season = next_potting(plant, climate, free)
    potted = free if season is None else max(free, season.opens)
    return plantable_from_pot(plant, climate, potted, under_cover=under_cover)


def plantable_from_pot(plant: Plant, climate: Climate, potted: date, *, under_cover: bool) -> date | None:
    """The first day on which a stem may be planted that was potted on a day; ``None`` where the plant is
    never planted out."""
    grown = potted + weeks(FILL_POT_WEEKS)
    if under_cover:
        grown = next_start(plant, climate, grown).value + time_to_harden(plant, climate)
    return in_planting_time(plant, climate, grown)


def severed(method: Method, climate: Climate, started: date, rooted: date) -> date:
    """The first day, from that on which a layer has rooted, on which it may be cut from its mother."""
    window = sever_window(method, started, climate)
    while window.closes < rooted:
        started += YEAR
        window = sever_window(method, started, climate)
    return max(window.opens, rooted)


def in_planting_time(plant: Plant, climate: Climate, day: date) -> date | None:
    """The day itself, or the first after it that lies in planting time; ``None`` where there is none."""
    window = next_planting(plant, climate, day)
    return None if window is None else max(day, window.opens)


def last_day(holds: Callable[[date], bool], first: date, last: date) -> date | None:
    """The last day of a stretch on which something holds that holds no more once it has stopped; ``None``
    where it does not on the first."""
    if first > last or not holds(first):
        return None
    while first < last:
        middle = first + (last - first + timedelta(days=1)) // 2
        first, last = (middle, last) if holds(middle) else (first, middle - timedelta(days=1))
    return first
