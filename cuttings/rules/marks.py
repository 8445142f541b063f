"""When to come back to a mark in the ground: to lift, divide, layer, cut, move, or only look."""

import contextlib
from datetime import date, timedelta

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.climate.frost import FROST_F
from cuttings.dates import parse_month
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant, Way
from cuttings.rules.advice import Window
from cuttings.rules.division import next_division
from cuttings.rules.increase import likely_find_method
from cuttings.rules.layering import next_pegging
from cuttings.rules.months import month_stretches
from cuttings.rules.odds import chance_of_freeze_already, chance_of_frozen_ground, no_harm
from cuttings.rules.seasons import frosts, is_hardy, next_window, weeks, window
from cuttings.rules.taking import taken_at_rest
from cuttings.rules.transplant import WOODY, next_planting
from cuttings.rules.warmth import pace_said
from cuttings.words import Method, PlantType, Purpose

DAFFODIL = "Iowa State University Extension and Outreach (via KCII Radio): Tips for daffodil care, 2015"
"""Leaves last four to six weeks after the flowers; bulbs are moved once the leaves have died back, or in
October, https://www.kciiradio.com/2015/05/16/tips-for-daffodil-care"""

LEAVES_LAST_WEEKS = 6
"""Weeks from the end of flowering until bulb leaves have died down (the longer figure of ``DAFFODIL``)."""

LIFT_BEST_WEEKS = 4
LIFT_CLOSES_WEEKS = 12
"""Weeks after that in which lifting is best, and in which it is still in time; from memory."""

SNOWDROP = "Royal Botanic Garden Edinburgh: Botanics Stories, snowdrops in the green"
"""As the flowers fade is the time to lift, divide and replant at once,
https://stories.rbge.info/archives/32976"""

IN_THE_GREEN = frozenset({"Galanthus", "Leucojum", "Eranthis"})
"""Bulbs moved in leaf, just after flowering (``SNOWDROP``; the last two are common practice)."""

GREEN_WEEKS = (3, 5)
"""Weeks after flowering in which they move best, and at all; from memory."""

SPRING_BULB_MONTHS = (4, 5)
"""Northern flowering months of a bulb whose record names none."""

TUBER_LIFT_WEEKS = (1, 2, 4)
"""Weeks before the first frost when lifting tender tubers opens, and after it when it is best done and
closes: the tops are let blacken first; common practice."""

TENDER_LIFT_WEEKS = (5, 3, 1)
"""Weeks before the first frost when lifting other tender plants opens, is best from, and best to."""

SLEEPING_ROOTS = frozenset({Method.TUBER_DIVISION, Method.RHIZOME_DIVISION})
"""Ways that tell a tender plant sleeps as a root below ground."""

WATCH_AFTER_DAYS = (21, 28, 35, 56)
"""Days from the mark when a second look opens, is best from and to, and closes; from memory."""


LATE_WEEKS = 3
"""For so many weeks after its window has closed a mark is still asked after; from memory."""


def mark_window(purpose: Purpose, plant: Plant, marked_on: date, climate: Climate) -> Window:
    """The next window, open on the day of the mark or after it, for what the mark is there for."""
    if purpose is Purpose.WATCH:
        return _watch(plant, marked_on)
    found = {
        Purpose.LIFT: _lift,
        Purpose.DIVIDE: _divide,
        Purpose.LAYER: _layer,
        Purpose.TAKE_HARDWOOD: _take_hardwood,
        Purpose.MOVE: _move,
    }[purpose](plant, marked_on, climate)
    return found or _watch(plant, marked_on)


def come_back(
    purpose: Purpose, plant: Plant, marked_on: date, today: date, climate: Climate, said: str = ""
) -> Window:
    """The window on a day for what a mark is there for: the one that is open, has just closed, or comes next.

    The keeper's own word for a month goes before the rules. A second look comes round again until it was
    taken.

    Args:
        said: when to come back, in the keeper's words.
    """
    month = month_said(said)
    if month is not None:
        return _in_month(purpose, plant, month, max(marked_on, today), said)
    if purpose is Purpose.WATCH:
        rounds = max((today - marked_on).days // WATCH_AFTER_DAYS[-1], 0)
        return _watch(plant, marked_on + timedelta(days=rounds * WATCH_AFTER_DAYS[-1]))
    late = mark_window(purpose, plant, max(marked_on, today - weeks(LATE_WEEKS)), climate)
    if late.closes < today:
        return late
    return mark_window(purpose, plant, max(marked_on, today), climate)


def month_said(words: str) -> int | None:
    """The one month that words name, if they name one by its name."""
    found = set()
    for word in "".join(letter if letter.isalpha() else " " for letter in words).split():
        if len(word) >= 3:
            with contextlib.suppress(ValueError):
                found.add(parse_month(word))
    return found.pop() if len(found) == 1 else None


def _in_month(purpose: Purpose, plant: Plant, month: int, on: date, said: str) -> Window:
    """The month that the keeper named, this year's or the next to come."""
    year = on.year if on.month <= month else on.year + 1
    opens = date(year, month, 1)
    closes = (opens + timedelta(days=31)).replace(day=1) - timedelta(days=1)
    return Window(
        what=f"{purpose.replace('-', ' ')} {plant.name}",
        opens=opens,
        best=(opens, closes),
        closes=closes,
        why=f"You said: {said}.",
        source=COMMON_PRACTICE,
    )


def _watch(plant: Plant, on: date) -> Window:
    opens, first, last, closes = (on + timedelta(days=days) for days in WATCH_AFTER_DAYS)
    return Window(
        what=f"look at {plant.name} again",
        opens=opens,
        best=(first, last),
        closes=closes,
        why="About four weeks on, a change shows.",
        source=FROM_MEMORY,
    )


def _lift(plant: Plant, on: date, climate: Climate) -> Window | None:
    if plant.type is PlantType.BULB:
        return next_window(lambda year: _bulb_lifts(plant, climate, year), on)
    if not is_hardy(plant, climate):
        return next_window(lambda year: _tender_lifts(plant, climate, year), on)
    return _replanting("lift", plant, on, climate)


def _bulb_lifts(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    months = plant.bloom.months if plant.bloom is not None and plant.bloom.months else SPRING_BULB_MONTHS
    flowering = month_stretches(months, climate, year)
    rule = _in_the_green if plant.genus in IN_THE_GREEN else _died_down
    return tuple(
        evolve(rule(plant, faded, pace_said(climate, faded)), odds=no_harm(climate)) for _, faded in flowering
    )


def _in_the_green(plant: Plant, faded: date, pace: str) -> Window:
    best, closes = GREEN_WEEKS
    return Window(
        what=f"lift {plant.name} in leaf",
        opens=faded,
        best=(faded, faded + weeks(best)),
        closes=faded + weeks(closes),
        why=f"It moves best in leaf, just after flowering; replant at once and never let it dry.{pace}",
        source=SNOWDROP,
    )


def _died_down(plant: Plant, faded: date, pace: str) -> Window:
    opens = faded + weeks(LEAVES_LAST_WEEKS)
    return Window(
        what=f"lift {plant.name}",
        opens=opens,
        best=(opens, opens + weeks(LIFT_BEST_WEEKS)),
        closes=opens + weeks(LIFT_CLOSES_WEEKS),
        why=f"By then the leaves have died down and filled the bulb; green leaves mean wait.{pace}",
        source=DAFFODIL,
    )


def _tender_lifts(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    autumn = frosts(climate, year)
    frost = autumn.first_autumn
    if any(way.method in SLEEPING_ROOTS for way in plant.ways):
        before, best_to, after = TUBER_LIFT_WEEKS
        opens, best, closes = frost - weeks(before), (frost, frost + weeks(best_to)), frost + weeks(after)
        why = "Once frost has blackened the tops, and before it reaches the roots."
    else:
        before, best_from, best_end = TENDER_LIFT_WEEKS
        opens, best, closes = (
            frost - weeks(before),
            (frost - weeks(best_from), frost - weeks(best_end)),
            frost,
        )
        why = "Bring it in before the first frost; it will not stand one."
    before_frost = best[1] <= frost
    odds = (
        chance_of_freeze_already(climate, best[0], FROST_F)
        if before_frost
        else chance_of_frozen_ground(climate, best[0])
    )
    found = window(
        f"lift {plant.name}", opens, best, closes, why=autumn.said(why), source=COMMON_PRACTICE, odds=odds
    )
    return () if found is None else (found,)


def _divide(plant: Plant, on: date, climate: Climate) -> Window | None:
    return next_division(plant, climate, on) or _replanting("divide", plant, on, climate)


def _layer(plant: Plant, on: date, climate: Climate) -> Window | None:
    method = likely_find_method(plant)
    usual = Way(method if method.is_layer else Method.SIMPLE_LAYER)
    way = next((way for way in plant.ways if way.method.is_layer), usual)
    return next_pegging(way, climate, on)


def _take_hardwood(plant: Plant, on: date, climate: Climate) -> Window | None:
    return next_window(lambda year: taken_at_rest(plant, Method.HARDWOOD_CUTTING, climate, year), on)


def _move(plant: Plant, on: date, climate: Climate) -> Window | None:
    return _replanting("move", plant, on, climate)


def _replanting(word: str, plant: Plant, on: date, climate: Climate) -> Window | None:
    """The next planting window; leafless woody plants move as bare-rooted ones do, before the leaves open."""
    found = next_planting(plant, climate, on, from_pot=plant.evergreen or plant.type not in WOODY)
    return None if found is None else evolve(found, what=f"{word} {plant.name}")
