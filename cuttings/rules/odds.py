"""The chances that frost, a hard freeze or closed ground spoil what is done on a day, 0 to 1."""

import math
from datetime import date

from cuttings.climate.climate import Climate
from cuttings.climate.frost import GENERAL_SPREAD_DAYS
from cuttings.climate.wave import YEAR_DAYS
from cuttings.rules.seasons import HARD_FREEZE_F, frosts
from cuttings.rules.warmth import since_midwinter

DEEP_FREEZE_F = 16
"""A freeze that harms even hardy plants newly moved, in bud and with few roots; from memory. (24 °F is
severe for plants in full growth in the freeze classes of the National Weather Service.)"""

WORKABLE_SPREAD_DAYS = 12.0
"""Standard deviation of the day on which the ground can be dug, from year to year: that of the day on which
frost was out of the ground at Maplewood, Minnesota, 2001 to 2016 (see ``tests/published``)."""

SELDOM = 0.2
"""The chance of a hard freeze at which soft shoots are called safe enough for the best stretch; from
memory."""


def chance_of_frozen_ground(climate: Climate, on: date) -> float:
    """The chance, 0 to 1, that the autumn's frozen ground begins before a day.

    The date is taken to vary from year to year as much as that of the first deep freeze does.
    """
    sd = GENERAL_SPREAD_DAYS if climate.frost is None else max(climate.frost.at(DEEP_FREEZE_F).autumn.sd, 1.0)
    autumns = (frosts(climate, year) for year in (on.year - 1, on.year))
    nearest = min(
        (each for each in autumns if each.freezes), key=lambda a: abs((a.freeze - on).days), default=None
    )
    if nearest is None:
        return 0.0
    return math.erfc((nearest.freeze - on).days / (sd * math.sqrt(2.0))) / 2.0


def chance_of_closed_ground(climate: Climate, on: date) -> float | None:
    """The chance, 0 to 1, that the ground cannot be dug yet on a day of spring; ``None`` if frost is not
    known."""
    if climate.frost is None:
        return None
    year, _ = since_midwinter(climate, on)
    late = (frosts(climate, year).workable - on).days
    return 1.0 - math.erfc(late / (WORKABLE_SPREAD_DAYS * math.sqrt(2.0))) / 2.0


def chance_of_hard_freeze(climate: Climate, on: date) -> float | None:
    """The chance, 0 to 1, that a hard freeze still comes after a day of spring, or has come by one of
    autumn: what soft growth does not stand. ``None`` if frost is not known."""
    spring = since_midwinter(climate, on)[1] < YEAR_DAYS / 2
    ask = chance_of_later_freeze if spring else chance_of_freeze_already
    return ask(climate, on, HARD_FREEZE_F)


def no_harm(climate: Climate) -> float | None:
    """The chance that cold spoils what it cannot spoil: none; ``None`` if frost is not known."""
    return None if climate.frost is None else 0.0


def past_hard_freezes(climate: Climate, day: date) -> date:
    """A day of spring, or the one after which a hard freeze seldom comes, whichever is later."""
    year, since = since_midwinter(climate, day)
    if climate.frost is None or since > YEAR_DAYS / 2:
        return day
    last = climate.frost.last_spring(year, SELDOM, HARD_FREEZE_F)
    return day if last is None else max(day, last)


def chance_of_later_freeze(climate: Climate, on: date, threshold_f: int) -> float | None:
    """The chance, 0 to 1, that such a freeze still comes in spring after a day; ``None`` if frost is not
    known."""
    return None if climate.frost is None else climate.frost.chance_of_later_frost(on, threshold_f)


def chance_of_freeze_already(climate: Climate, on: date, threshold_f: int) -> float | None:
    """The chance, 0 to 1, that autumn's first such freeze comes by a day; ``None`` if frost is not known."""
    return None if climate.frost is None else climate.frost.chance_of_frost_already(on, threshold_f)
