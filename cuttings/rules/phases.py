"""Where the plants of a garden stand in the year: bare wood, and short new shoots."""

from cuttings.climate.climate import Climate
from cuttings.rules.seasons import LEAF_FALL_WEEKS, Stretch, frosts, weeks
from cuttings.rules.warmth import day_of_warmth

BUDS_MOVE_DEGREE_DAYS = 30.0
SHOOTS_DEGREE_DAYS = (60.0, 150.0)
"""Degree days above 5 °C since midwinter at which the buds of hardy shrubs move, and between which the
shoots of perennials are 5 to 10 cm tall; from memory."""


COOLEST_WEEKS = 3
"""Weeks before and after midwinter in which plants are nearest to rest where frost is rare; from memory."""


def dormancy(climate: Climate, year: int) -> Stretch:
    """Bare wood: from the leaf fall of a year's autumn to the day the buds move in the spring after it."""
    opens = frosts(climate, year).hard_freeze + weeks(LEAF_FALL_WEEKS)
    moved = day_of_warmth(climate, year if climate.southern else year + 1, BUDS_MOVE_DEGREE_DAYS)
    spring = frosts(climate, year if climate.southern else year + 1)
    if spring.frostless:  # the coolest weeks stand for a winter
        middle = spring.last_spring
        return middle - weeks(COOLEST_WEEKS), max(middle + weeks(COOLEST_WEEKS), moved or middle)
    return opens, max(opens, moved or spring.last_spring)


def short_shoots(climate: Climate, year: int) -> Stretch | None:
    """While the shoots of hardy perennials are 5 to 10 cm tall, in a year's spring; ``None`` where it is
    never warm enough to tell."""
    first, last = (day_of_warmth(climate, year, degree_days) for degree_days in SHOOTS_DEGREE_DAYS)
    return None if first is None or last is None else (first, last)
