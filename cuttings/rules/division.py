"""When to lift and divide a clump."""

from datetime import date

from cuttings.climate.climate import Climate
from cuttings.plants.model import Division, Plant
from cuttings.rules.advice import Window
from cuttings.rules.seasons import (
    NO_FROST_DATES,
    Stretch,
    frosts,
    frozen_ground,
    month_stretches,
    next_window,
    weeks,
)

FREEZE_SOURCE = (
    "University of Minnesota Extension Master Gardener (via WCTrib): "
    "Divide perennials when plant is not flowering, 2023"
)

BEST_BEFORE_FREEZE_WEEKS = 6
LAST_BEFORE_FREEZE_WEEKS = 4
"""Autumn divisions want four to six weeks in the ground before it freezes (``FREEZE_SOURCE``)."""

RESENTS = "It dislikes being divided and may sulk for a year or two: leave it, or take a piece from the edge."


def division_windows(plant: Plant, climate: Climate, year: int) -> tuple[Window, ...]:
    """The windows for dividing a plant that begin in a year; none where it is not divided.

    They are the plant's months, less the weeks in which a division could not root before the ground
    freezes and those in which the ground is frozen. Without frost dates they are the months alone.
    The source is the plant's own, or that of the autumn limit where frost closes the window.
    """
    division = plant.division
    if division is None:
        return ()
    stretches = month_stretches(division.months, climate, year)
    open_ground = (part for stretch in stretches for part in _unfrozen(stretch, climate))
    return tuple(_window(plant, division, climate, part) for part in open_ground)


def next_division(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The window open on a day, or the next to open."""
    return next_window(lambda year: division_windows(plant, climate, year), on)


def _unfrozen(stretch: Stretch, climate: Climate) -> tuple[Stretch, ...]:
    """What is left of a stretch outside the weeks too near to, or in, frozen ground."""
    parts = [stretch]
    if climate.frost is None:
        return (stretch,)
    for year in range(stretch[0].year - 1, stretch[1].year + 2):
        last, thaw = _closed_ground(climate, year)
        parts = [left for part in parts for left in _without(part, last, thaw)]
    return tuple(parts)


def _closed_ground(climate: Climate, year: int) -> Stretch:
    """The last day for an autumn division and the first day of thawed ground; nothing is done between."""
    freeze, thaw = frozen_ground(climate, year)
    last = freeze - weeks(LAST_BEFORE_FREEZE_WEEKS)
    return last, max(last, thaw)


def _without(part: Stretch, last: date, thaw: date) -> list[Stretch]:
    before = (part[0], min(part[1], last))
    after = (max(part[0], thaw), part[1])
    if thaw <= last or part[1] <= last or part[0] >= thaw:
        return [part]
    return [each for each in (before, after) if each[0] <= each[1]]


def _window(plant: Plant, division: Division, climate: Climate, part: Stretch) -> Window:
    opens, closes = part
    middle = opens + (closes - opens) / 2
    shut_by_frost = any(
        frosts(climate, year).freeze - weeks(LAST_BEFORE_FREEZE_WEEKS) == closes
        for year in range(closes.year - 1, closes.year + 1)
    )
    season = division.season or "this season"
    why = f"{season[0].upper()}{season[1:]} suits it."
    source = division.source_of("months")
    best_ends = middle
    if shut_by_frost and climate.frost is not None:
        best_ends = closes - weeks(BEST_BEFORE_FREEZE_WEEKS - LAST_BEFORE_FREEZE_WEEKS)
        why += " It closes four weeks before the ground freezes, so the pieces can root."
        source = FREEZE_SOURCE
    if climate.frost is None:
        why += f" {NO_FROST_DATES}"
    if division.resents:
        why += f" {RESENTS}"
    return Window(
        what=f"divide {plant.name}",
        opens=opens,
        best=(opens, max(opens, best_ends)),
        closes=closes,
        why=why,
        source=source,
    )
