"""The year of one garden as the rules see it: its frosts, its frozen ground, and the windows they bound.

Every date comes from the garden's climate: frost dates with odds, and the year's round of the soil at root
depth. A garden that has not entered its frost dates gets those of an ordinary cold-winter garden, and every
sentence built on them says so.
"""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import lru_cache

from attrs import frozen

from cuttings.climate.climate import USUAL_FIRST_FROST_DAY, USUAL_LAST_FROST_DAY, Climate
from cuttings.plants.model import Plant
from cuttings.rules.advice import Window
from cuttings.rules.warmth import paced, since_midwinter
from cuttings.words import PlantType

Stretch = tuple[date, date]
"""Two dates, the first not after the second; both are part of the stretch."""

ROOTS_GROW_C = 6.0
"""Soil temperature from which roots of temperate plants grow noticeably, °C.

Alvarez-Uria and Körner, Functional Ecology, 2007, and others, as cited by *Soil temperature and root growth*
(Arboriculture review). Ground this warm has thawed and drained, so it is also the first day to dig.
"""

WARM_SOIL_C = 12.8
"""55 °F six inches deep, down to which trees and shrubs are planted in autumn (University of Minnesota
Extension: Fall is the Best Time to Plant Trees and Shrubs)."""

HARD_FREEZE_F = 28
"""A hard freeze ends the leaves (National Weather Service, Jackson: First Frost/Freeze/Hard Freeze Dates)."""

GROUND_FREEZE_WEEKS = 8
"""Weeks from the even-odds first frost by which the ground is taken to freeze at the latest, where it does;
from memory. The surface freezes before the roots' depth does, and a round of the year guessed from frost
dates may be late: an Iowa garden's autumn divisions are mulched in mid to late November (Iowa State
University Extension: Which perennials can be divided in late summer?), seven weeks after its first
frost."""

LEAF_FALL_WEEKS = 2
"""Weeks from the even-odds date of a hard freeze to bare wood; from memory."""

LEAF_FALL_BEFORE_MIDWINTER_WEEKS = 6
"""Weeks before midwinter in which leaves come down where no hard freeze takes them; from memory."""

LEAST_OPEN_WEEKS = 4
"""Weeks that such a stretch lasts at the least; from memory."""

SURELY_OPEN_DAYS = 10
"""Days after that day from which it is dug in most years; from memory."""

NO_FROST_DATES = (
    "Your frost dates are not entered, so this goes by the month, as for an ordinary cold-winter garden."
)

USUAL_SPREAD_DAYS = 15
"""Days from the even-odds date to the safe one in the ordinary garden; from memory."""

HARDY_TO_ZONE = 6
"""A garden whose zone is not known is taken for a zone 6 one, the warmer of the catalogue's two."""


@frozen
class Frosts:
    """The dates that bound one year's spring and autumn.

    ``last_spring`` and ``first_autumn`` are the even-odds dates; after ``safe_spring`` frost still comes
    with no more than the chance the keeper accepts. ``thaw`` is the day the ground has thawed at root depth
    in spring, ``workable`` that on which it can be dug, ``freeze`` the day it freezes. Where it does not
    freeze (``freezes`` is false) that is midwinter, and where frost comes in fewer than half of the years
    (``frostless``) midwinter bounds the year on both sides.
    """

    last_spring: date
    safe_spring: date
    first_autumn: date
    hard_freeze: date
    thaw: date
    workable: date
    freeze: date
    freezes: bool
    frostless: bool
    known: bool

    def said(self, why: str) -> str:
        """The sentence, with a second one where the frost dates are only assumed."""
        return why if self.known else f"{why} {NO_FROST_DATES}"


@lru_cache(maxsize=512)
def frosts(climate: Climate, year: int) -> Frosts:
    """The spring and the autumn of a calendar year.

    A northern autumn always follows its spring, even where the first frost comes after New Year; a
    southern year's autumn comes before its spring.
    """
    midwinter = climate.spring_day(year, climate.air.trough_day)
    spring, safe, autumn, hard = _frost_days(climate, year) or _without_frost(climate, year, midwinter)
    frostless = climate.frost is not None and climate.frost.at().spring.share <= 0.5
    rises = climate.soil.rises_through(ROOTS_GROW_C)
    warms = midwinter if climate.soil.mean_c > ROOTS_GROW_C else spring
    if rises is not None:
        warms = climate.spring_day(year, rises)
    falls = climate.soil.falls_through(0.0)
    freeze = climate.autumn_day(year, climate.soil.trough_day if falls is None else falls)
    if falls is not None:
        freeze = min(freeze, autumn + weeks(GROUND_FREEZE_WEEKS))
    thaws = climate.soil.rises_through(0.0)
    return Frosts(
        last_spring=spring,
        safe_spring=safe,
        first_autumn=autumn,
        hard_freeze=max(hard, autumn),
        thaw=midwinter if thaws is None else min(climate.spring_day(year, thaws), warms),
        workable=_workable(climate, year, warms if frostless else min(warms, spring)),
        freeze=max(freeze, autumn),
        freezes=falls is not None,
        frostless=frostless,
        known=climate.frost is not None,
    )


def _workable(climate: Climate, year: int, usual: date) -> date:
    """The day the ground can be dug: as the keeper found it, or the usual one at the season's pace."""
    pace = climate.pace
    if pace is not None and pace.year == year and pace.workable is not None:
        return pace.workable
    return paced(climate, usual)


def _frost_days(climate: Climate, year: int) -> tuple[date, date, date, date] | None:
    """Last frost, safe date, first frost and first hard freeze; ``None`` where frost is not the rule."""
    law = climate.frost
    if law is None:
        spring = _usual(USUAL_LAST_FROST_DAY, year, climate)
        autumn = _usual(USUAL_FIRST_FROST_DAY, year, climate)
        return spring, spring + timedelta(days=USUAL_SPREAD_DAYS), autumn, autumn + weeks(LEAF_FALL_WEEKS)
    spring_or_none, first = law.last_spring(year), law.first_autumn(year)
    if spring_or_none is None or first is None:
        return None
    spring = spring_or_none
    turned = int(not climate.southern and first <= spring)
    autumn = law.first_autumn(year + turned) or first
    hard = law.first_autumn(year + turned, 0.5, HARD_FREEZE_F)
    safe = law.last_spring(year, climate.risk) or spring
    midwinter = climate.autumn_day(year + turned, climate.air.trough_day)
    return spring, safe, autumn, hard or midwinter - weeks(LEAF_FALL_BEFORE_MIDWINTER_WEEKS)


def _without_frost(climate: Climate, year: int, midwinter: date) -> tuple[date, date, date, date]:
    """The same where fewer than half of the winters bring frost: the year runs from midwinter to
    midwinter."""
    law = climate.frost
    safe = law.last_spring(year, climate.risk) if law is not None else None
    next_winter = climate.spring_day(year if climate.southern else year + 1, climate.air.trough_day)
    end = next_winter - timedelta(days=1)
    return midwinter, max(safe or midwinter, midwinter), end, end


def _usual(day_of_year: float, year: int, climate: Climate) -> date:
    northern = date(2023, 1, 1) + timedelta(days=day_of_year - 1)
    return date(year, climate.month_here(northern.month), northern.day)


def frozen_ground(climate: Climate, year: int) -> Stretch | None:
    """The stretch of frozen ground that begins with the autumn of a year; ``None`` where it does not
    freeze."""
    autumn = frosts(climate, year)
    if not autumn.freezes:
        return None
    thaw = frosts(climate, year if climate.southern else year + 1).thaw
    return autumn.freeze, max(autumn.freeze, thaw)


def in_open_ground(climate: Climate, stretch: Stretch) -> Stretch:
    """A stretch of spring with the days left out on which the ground cannot be dug yet. One that lies
    wholly before them begins when it can, and lasts some weeks."""
    opens, closes = stretch
    for year in (opens.year - 1, opens.year, opens.year + 1):
        autumn = frosts(climate, year)
        digs = frosts(climate, year if climate.southern else year + 1).workable
        if autumn.freezes and autumn.freeze <= opens < digs:
            return digs, max(closes, digs + weeks(LEAST_OPEN_WEEKS))
    return stretch


def surely_open(climate: Climate, day: date) -> date:
    """A day of spring, or one some days after the ground can usually be dug, when it can in most years."""
    year, _ = since_midwinter(climate, day)
    digs = frosts(climate, year).workable
    surely = digs + timedelta(days=SURELY_OPEN_DAYS)
    return surely if digs <= day < surely else day


@lru_cache(maxsize=512)
def summer(climate: Climate, year: int) -> Stretch:
    """From the even-odds last frost of a year's spring to the first frost that follows it."""
    opens = frosts(climate, year).last_spring
    closes = frosts(climate, year + 1 if climate.southern else year).first_autumn
    return opens, max(opens, closes)


def in_summer(climate: Climate, on: date, *, after_weeks: float = 0, before_weeks: float = 0) -> bool:
    """Whether a day lies in the frost-free season, or so many weeks inside its two ends."""
    seasons = (summer(climate, year) for year in (on.year - 1, on.year))
    return any(opens + weeks(after_weeks) <= on <= closes - weeks(before_weeks) for opens, closes in seasons)


def window(
    what: str, opens: date, best: Stretch, closes: date, *, why: str, source: str, odds: float | None = None
) -> Window | None:
    """A window with its best stretch kept inside it; ``None`` where it would close before it opens."""
    if closes < opens:
        return None
    first = min(max(best[0], opens), closes)
    last = min(max(best[1], first), closes)
    best = first, last
    return Window(what=what, opens=opens, best=best, closes=closes, why=why, source=source, odds=odds)


def next_window(yearly: Callable[[int], Sequence[Window]], on: date) -> Window | None:
    """The earliest window still open on a day or opening after it, from the windows of each year."""
    coming = [each for year in range(on.year - 1, on.year + 3) for each in yearly(year) if each.closes >= on]
    return min(coming, key=lambda each: (each.opens, each.closes), default=None)


@lru_cache(maxsize=512)
def weeks(number: float) -> timedelta:
    return timedelta(days=round(7 * number))


def is_hardy(plant: Plant, climate: Climate) -> bool:
    """Whether a plant stands this garden's winter, by its zones where they are known, else by its type."""
    if plant.type is PlantType.TENDER_PERENNIAL:
        return False
    return plant.zones is None or plant.zones[0] <= (climate.zone_number or HARDY_TO_ZONE)
