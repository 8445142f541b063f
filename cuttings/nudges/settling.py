"""What a plant needs in its first year in its place: water, a mulch, and a look after the frost."""

import math
from collections.abc import Iterable
from datetime import date, timedelta

from attrs import frozen

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.places import Site
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between, plants_from, week_by_week
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Chance, Loss, Nudge
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


@frozen(eq=False, repr=False)
class New:
    """A lot's plants of one season: how many still stand, since when the newest do, and on which sites."""

    stems: int
    since: date
    sites: tuple[Site, ...]

    @property
    def area(self) -> str | None:
        """The part of the garden in which they stand; ``None`` where no site is known."""
        return self.sites[0].area if self.sites else None

    def stakes(self, known: Known, late: Chance, by: str, share: float = 1.0) -> Loss:
        """What is lost of them if they are left, a share of the plants that they are."""
        plants = plants_from(known, Stage.PLANTED, self.stems)
        return Loss(plants=plants * share, late=late, by=by)


def planted(known: Known, today: date) -> Iterable[Nudge]:
    """Water in the first season, a mulch before its first winter, a look at the end of it."""
    if known.plant.type is PlantType.BULB:
        return  # water in summer rots a resting bulb, and frost does not lift what lies deep
    growing = _planted_since(known, today, _last_freeze(known, today))
    if growing is not None:
        yield from _water(known, growing, today)
    if not is_hardy(known.plant, known.climate):
        return
    for freeze in (_last_freeze(known, today), _freezes_after(known, today)):
        before = _planted_since(known, freeze, _last_freeze(known, freeze - days(1)))
        if before is not None and frosts(known.climate, freeze.year).freezes:
            yield from _mulch(known, before, freeze)
            yield from _heave(known, before, freeze)


def _planted_since(known: Known, until: date, after: date) -> New | None:
    """The plants that were planted after a day and not after another, and still stand; ``None`` if none do.
    Of a lot that has lost some, the last planted are taken to be the last that stand."""
    left = known.lot.at(Stage.PLANTED)
    stems, since, names = 0, None, list[str]()
    for entry in sorted(known.lot.of_kind(e.Plant), key=lambda entry: entry.order, reverse=True):
        standing = min(entry.stems, left)
        left -= standing
        if standing and after < entry.on <= until:
            stems, since = stems + standing, since or entry.on
            names.append(entry.site)
    sites = tuple(site for site in known.grown_on if site.name in names)
    return None if since is None else New(stems, since, sites)


def _water(known: Known, new: New, today: date) -> Iterable[Nudge]:
    woody, age = known.plant.type in WOODY, today - new.since
    warm = in_summer(known.climate, today)
    if not woody and (age > weeks(WATER_WEEKS) or not warm):
        return
    harm = max((HOLDS_WATER[site.moisture] for site in new.sites), default=HOLDS_WATER[Moisture.MEDIUM])
    if not harm:
        return
    spell = next(spell for spell in SPELLS if age <= weeks(spell.until_weeks)) if warm else SPELLS[-1]
    freeze = _freezes_after(known, today)
    ends = freeze if woody else min(new.since + weeks(WATER_WEEKS), freeze)
    why = f"Planted {spoken(new.since, today)}, {spell.why}"
    rain = _rain_of_a_week(known, today)
    if rain is not None:
        wants, falls = (show_length(mm / 1000, known.units) for mm in (WEEKLY_NEED_MM, rain))
        why += f" It wants {wants} of water a week; in an ordinary one {falls} of rain falls."
    source = f"{spell.source}; {NEED_SOURCE}"
    window = stretch(new.since, (today, today + days(6)), ends, "water", why, source)
    dry = week_by_week(today, spell.dry_week_share * harm * _dry_chance(rain))
    yield nudge(
        known,
        "water",
        f"Water {{}} {spell.how} unless it rains",
        window,
        Stage.PLANTED,
        loss=new.stakes(known, dry, "it dries out before it roots"),
        every=spell.every_days,
        stems=new.stems,
        area=new.area,
    )


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
    return min(freeze for freeze in _freezes(known, day) if freeze > day)


def _last_freeze(known: Known, day: date) -> date:
    """The last such day that is not after a day."""
    return max(freeze for freeze in _freezes(known, day) if freeze <= day)


def _freezes(known: Known, day: date) -> Iterable[date]:
    return (frosts(known.climate, day.year + turn).freeze for turn in (-2, -1, 0, 1))


def _mulch(known: Known, new: New, freeze: date) -> Iterable[Nudge]:
    """A mulch as the ground freezes, before the first winter in its place."""
    opens, best, best_ends = (freeze - days(before) for before in MULCH_DAYS)
    closes = freeze + days(MULCH_LATE_DAYS)
    window = stretch(opens, (best, best_ends), closes, "mulch", MULCH_WHY, MULCH_SOURCE)
    loss = new.stakes(known, between(best_ends, closes), "frost lifts it", HEAVED_SHARE)
    job = "Mulch {} for the first winter"
    yield nudge(known, "mulch", job, window, Stage.PLANTED, loss=loss, stems=new.stems, area=new.area)


def _heave(known: Known, new: New, freeze: date) -> Iterable[Nudge]:
    """A look at the thaw after its first winter."""
    thaws = (frosts(known.climate, freeze.year + turn).thaw for turn in (0, 1))
    opens = min(day for day in thaws if day > freeze)
    closes = opens + weeks(HEAVE_WEEKS)
    window = stretch(opens, (opens, opens + weeks(2)), closes, "heave", HEAVE_WHY, HEAVE_SOURCE)
    loss = new.stakes(known, between(opens, closes), "its crown dries out", HEAVED_SHARE)
    job = "See whether frost has lifted {}, and draw back the mulch once it grows"
    yield nudge(known, "heave", job, window, Stage.PLANTED, loss=loss, stems=new.stems, area=new.area)
