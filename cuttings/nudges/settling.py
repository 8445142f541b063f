"""What a plant needs in its first year in its place: water, a mulch, and a look after the frost."""

import math
from collections.abc import Iterable
from datetime import date, timedelta

from attrs import frozen

from cuttings.dates import spoken
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between, stakes, week_by_week
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.rules.seasons import frosts, in_summer, is_hardy, weeks
from cuttings.rules.transplant import WOODY
from cuttings.units import show_length
from cuttings.words import Moisture, PlantType, Stage

WATER_WEEKS = 12
WATER_SOURCE = "University of Minnesota Extension: Watering newly planted trees and shrubs"
"""Daily for a fortnight, then every two or three days to the twelfth week (``WATER_SOURCE``)."""

AUTUMN_SOURCE = "University of Minnesota Extension: Fall is the Best Time to Plant Trees and Shrubs"
"""Trees and shrubs are watered every week until the ground freezes (``AUTUMN_SOURCE``)."""


@frozen(eq=False, repr=False)
class Spell:
    """A stretch after planting: up to which week it lasts, how often is watered then, and the share of plants
    that a week without water costs, from memory."""

    until_weeks: int
    how: str
    every_days: int
    dry_week_share: float
    why: str
    source: str


FEW_ROOTS = "it has few roots outside its old ball until its twelfth week."
SPELLS = (
    Spell(2, "every day", 1, 0.3, FEW_ROOTS, WATER_SOURCE),
    Spell(WATER_WEEKS, "every two or three days", 3, 0.1, FEW_ROOTS, WATER_SOURCE),
    Spell(104, "once a week", 7, 0.03, "it wants water until the ground freezes.", AUTUMN_SOURCE),
)

WEEKLY_NEED_MM = 25.4
NEED_SOURCE = "Angelica Nurseries: Water, Water, Water"
"""New plantings want an inch of rain a week or the same in water, and more on sand,
https://www.angelicanurseries.com/company/water-water-water/"""

HOLDS_WATER = {Moisture.DRY: 1.0, Moisture.MEDIUM: 0.7, Moisture.MOIST: 0.3, Moisture.WET: 0.0}
"""How much of the harm of a dry week reaches a new plant, by how wet its ground is; from memory."""

MULCH_SOURCE = "Iowa State University Extension: Which perennials can be divided in late summer?"
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
    freeze = _freezes_after(known, since)
    ends = freeze if known.plant.type in WOODY else min(since + weeks(WATER_WEEKS), freeze)
    if today > ends or not (in_summer(known.climate, today) or today > since + weeks(WATER_WEEKS)):
        return
    harm = max((HOLDS_WATER[site.moisture] for site in known.grown_on), default=HOLDS_WATER[Moisture.MEDIUM])
    if not harm:
        return
    spell = next(spell for spell in SPELLS if today <= since + weeks(spell.until_weeks))
    why = f"Planted {spoken(since, today)}, {spell.why}"
    rain = _rain_of_a_week(known, today)
    if rain is not None:
        wants, falls = (show_length(mm / 1000, known.units) for mm in (WEEKLY_NEED_MM, rain))
        why += f" It wants about {wants} a week; rain brings {falls} in an ordinary one."
    window = stretch(since, (today, today + days(6)), ends, "water", why, f"{spell.source}; {NEED_SOURCE}")
    share = spell.dry_week_share * harm * _dry_chance(rain)
    loss = stakes(known, (Stage.PLANTED,), 1.0, week_by_week(today, share), "it dries out before it roots")
    job = f"Water {{}} {spell.how} unless it rains"
    yield nudge(known, "water", job, window, Stage.PLANTED, loss=loss, every=spell.every_days)


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


def _freezes_after(known: Known, day: date) -> date:
    """The day on which the ground freezes after a day, or midwinter where it does not freeze."""
    autumns = (frosts(known.climate, year) for year in (day.year - 1, day.year, day.year + 1))
    return min(autumn.freeze for autumn in autumns if autumn.freeze > day)


def _mulch(known: Known, since: date) -> Iterable[Nudge]:
    """A mulch as the ground freezes, before the first winter in its place."""
    freeze = _freezes_after(known, since)
    if not frosts(known.climate, freeze.year).freezes:
        return
    opens, best, best_ends = (freeze - days(before) for before in MULCH_DAYS)
    closes = freeze + days(MULCH_LATE_DAYS)
    window = stretch(opens, (best, best_ends), closes, "mulch", MULCH_WHY, MULCH_SOURCE)
    late = between(best_ends, closes)
    loss = stakes(known, (Stage.PLANTED,), HEAVED_SHARE, late, "frost lifts it")
    yield nudge(known, "mulch", "Mulch {} for the first winter", window, Stage.PLANTED, loss=loss)


def _heave(known: Known, since: date) -> Iterable[Nudge]:
    """A look at the thaw after its first winter."""
    freeze = _freezes_after(known, since)
    if not frosts(known.climate, freeze.year).freezes:
        return
    spring = frosts(known.climate, freeze.year if known.climate.southern else freeze.year + 1)
    thaw = min(day for day in (spring.thaw, frosts(known.climate, freeze.year).thaw) if day > freeze)
    opens, closes = thaw, thaw + weeks(HEAVE_WEEKS)
    window = stretch(opens, (opens, opens + weeks(2)), closes, "heave", HEAVE_WHY, HEAVE_SOURCE)
    loss = stakes(known, (Stage.PLANTED,), HEAVED_SHARE, between(opens, closes), "its crown dries out")
    job = "See whether frost has lifted {}, and draw back the mulch once it grows"
    yield nudge(known, "heave", job, window, Stage.PLANTED, loss=loss)
