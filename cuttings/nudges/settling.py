"""What a plant needs in its first year in its place: water, a mulch, and a look after the frost."""

import math
from collections.abc import Iterable
from datetime import date, timedelta

from cuttings.dates import spoken
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between, stakes, week_by_week
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.rules.seasons import frosts, in_summer, is_hardy, weeks
from cuttings.words import Moisture, PlantType, Stage

WATER_WEEKS = 12
WATER_SOURCE = "University of Minnesota Extension: Watering newly planted trees and shrubs"
"""Daily for a fortnight, then every two or three days to the twelfth week (``WATER_SOURCE``)."""

WEEKLY_NEED_MM = 25.4
NEED_SOURCE = "Angelica Nurseries: Water, Water, Water"
"""New plantings want an inch of rain a week or the same in water, and more on sand,
https://www.angelicanurseries.com/company/water-water-water/"""

HOLDS_WATER = {Moisture.DRY: 1.0, Moisture.MEDIUM: 0.7, Moisture.MOIST: 0.3, Moisture.WET: 0.0}
"""How much of the harm of a dry week reaches a new plant, by how wet its ground is; from memory."""

DRY_WEEK_SHARE = {True: 0.3, False: 0.1}
"""The share of new plants that a week without water costs, in the first fortnight and after it; from
memory."""

MULCH_SOURCE = "Iowa State University Extension: fall divisions are mulched in mid to late November"
MULCH_DAYS = (16, 16, 1)
"""Days before the ground usually freezes when the mulch goes on, from 15 to 30 November in Iowa
(``MULCH_SOURCE``), and those for which it is still worth doing after that, from memory."""

MULCH_LATE_DAYS = 21
MULCH_WHY = (
    "A few inches of straw or needles, laid as the ground freezes and off the crown, keep it evenly cold: "
    "frost that comes and goes lifts new plants out."
)

HEAVE_SOURCE = "Iowa State University Extension: Frost Heaving Perennials"
HEAVE_WHY = (
    "Freezing and thawing lifts what has few roots; out of the soil, crown and roots dry. "
    "Press it back gently."
)
HEAVED_SHARE = 0.1
"""The share of plants of the last season that frost lifts and that are lost if nobody sees it; from memory.
No published share was found."""

HEAVE_WEEKS = 5
"""Weeks from the thaw for which it is looked for; from memory."""


def planted(known: Known, today: date) -> Iterable[Nudge]:
    """Water in the first season, a mulch before its first winter, a look at the end of it."""
    since = known.lot.reached(Stage.PLANTED)
    if since is None or known.plant.type is PlantType.BULB:
        return  # water in summer rots a resting bulb, and frost does not lift what lies deep
    yield from _water(known, since, today)
    if is_hardy(known.plant, known.climate):
        yield from _mulch(known, since)
        yield from _heave(known, since)


def _water(known: Known, since: date, today: date) -> Iterable[Nudge]:
    if today > since + weeks(WATER_WEEKS) or not in_summer(known.climate, today):
        return
    harm = max((HOLDS_WATER[site.moisture] for site in known.grown_on), default=HOLDS_WATER[Moisture.MEDIUM])
    if not harm:
        return
    fresh = today <= since + weeks(2)
    how = "every day" if fresh else "every two or three days"
    why = f"Planted {spoken(since, today)}, it has few roots outside its old ball until its twelfth week."
    rain = _rain_of_a_week(known, today)
    if rain is not None:
        why += f" It wants an inch (25 mm) a week; rain brings {rain:.0f} mm in an ordinary one."
    ends = min([since + weeks(WATER_WEEKS), *_freezes_after(known, since)])
    window = stretch(since, (today, today + days(6)), ends, "water", why, f"{WATER_SOURCE}; {NEED_SOURCE}")
    share = DRY_WEEK_SHARE[fresh] * harm * _dry_chance(rain)
    loss = stakes(known, (Stage.PLANTED,), 1.0, week_by_week(today, share), "it dries out before it roots")
    job = f"Water {{}} {how} unless it rains"
    yield nudge(known, "water", job, window, Stage.PLANTED, loss=loss, every=1 if fresh else 3)


def _rain_of_a_week(known: Known, today: date) -> float | None:
    """What falls in an ordinary week of the month, in mm; ``None`` where no record tells."""
    normals = known.climate.normals
    if normals is None or not normals.rain_mm:
        return None
    following = (today.replace(day=1) + timedelta(days=32)).replace(day=1)
    return normals.rain_mm[today.month - 1] * 7 / (following - today.replace(day=1)).days


def _dry_chance(rain_mm: float | None) -> float:
    """The chance that a week brings less than it needs: the falls of single weeks are taken to follow an
    exponential law about their mean, and where nothing is known every second week to be dry; from memory."""
    if rain_mm is None:
        return 0.5
    return 1.0 - math.exp(-WEEKLY_NEED_MM / max(rain_mm, 0.1))


def _freezes_after(known: Known, day: date) -> list[date]:
    """The days on which the ground freezes after a day, where it does; watering ends there."""
    autumns = (frosts(known.climate, year) for year in (day.year, day.year + 1))
    return [autumn.freeze for autumn in autumns if autumn.freezes and autumn.freeze > day]


def _mulch(known: Known, since: date) -> Iterable[Nudge]:
    """A mulch as the ground freezes, before the first winter in its place."""
    freeze = next(iter(sorted(_freezes_after(known, since))), None)
    if freeze is None:
        return
    opens, best, best_ends = (freeze - days(before) for before in MULCH_DAYS)
    closes = freeze + days(MULCH_LATE_DAYS)
    window = stretch(opens, (best, best_ends), closes, "mulch", MULCH_WHY, MULCH_SOURCE)
    late = between(best_ends, closes)
    loss = stakes(known, (Stage.PLANTED,), HEAVED_SHARE, late, "frost lifts it")
    yield nudge(known, "mulch", "Mulch {} for the first winter", window, Stage.PLANTED, loss=loss)


def _heave(known: Known, since: date) -> Iterable[Nudge]:
    """A look at the thaw after its first winter."""
    freeze = next(iter(sorted(_freezes_after(known, since))), None)
    if freeze is None:
        return
    spring = frosts(known.climate, freeze.year if known.climate.southern else freeze.year + 1)
    thaw = min(day for day in (spring.thaw, frosts(known.climate, freeze.year).thaw) if day > freeze)
    opens, closes = thaw, thaw + weeks(HEAVE_WEEKS)
    window = stretch(opens, (opens, opens + weeks(2)), closes, "heave", HEAVE_WHY, HEAVE_SOURCE)
    loss = stakes(known, (Stage.PLANTED,), HEAVED_SHARE, between(opens, closes), "its crown dries out")
    job = "See whether frost has lifted {}, and draw back the mulch once it grows"
    yield nudge(known, "heave", job, window, Stage.PLANTED, loss=loss)
