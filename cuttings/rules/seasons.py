"""The year of one garden as the rules see it: frost, frozen ground, hard summers and growing days.

Every date comes from the garden's climate: frost dates with odds, and the year's round of the soil at root
depth. A garden that has not entered its frost dates gets those of an ordinary cold-winter garden, and every
sentence built on them says so.
"""

import math
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import lru_cache

from attrs import frozen

from cuttings.climate.climate import USUAL_FIRST_FROST_DAY, USUAL_LAST_FROST_DAY, Climate
from cuttings.climate.frost import GENERAL_SPREAD_DAYS
from cuttings.climate.wave import YEAR_DAYS, round_the_year
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

DEEP_FREEZE_F = 16
"""A freeze that harms even hardy plants newly moved, in bud and with few roots; from memory. (24 °F is
severe for plants in full growth in the freeze classes of the National Weather Service.)"""

GROUND_FREEZE_WEEKS = 8
"""Weeks from the even-odds first frost by which the ground is taken to freeze at the latest, where it does;
from memory. The surface freezes before the roots' depth does, and a round of the year guessed from frost
dates may be late: an Iowa garden's autumn divisions are mulched in mid to late November (Iowa State
University Extension: Which perennials can be divided in late summer?), seven weeks after its first
frost."""

LEAF_FALL_WEEKS = 2
"""Weeks from the even-odds date of a hard freeze to bare wood; from memory."""

HEAT_C = 30.0
"""A mean daily maximum from which new roots cannot keep up: plants suffer on days above 30 °C (86 °F), the
days that the American Horticultural Society's heat zones count."""

DRY_MM_PER_C = 2.0
"""A month is dry if its rain in millimetres is less than twice its mean temperature in °C (Bagnouls and
Gaussen, 1953; the rule of the climate diagrams of Walter and Lieth; from memory)."""

SHORTEST_HARD_SUMMER_DAYS = 14
"""Less heat or drought than this is not worth waiting for; from memory."""

LEAF_FALL_BEFORE_MIDWINTER_WEEKS = 6
"""Weeks before midwinter in which leaves come down where no hard freeze takes them; from memory."""

SHORTEST_SEASON_DAYS = 30
"""A growing season shorter than this is not believed, and every day is counted instead; from memory."""

LEAST_OPEN_WEEKS = 4
"""Weeks that such a stretch lasts at the least; from memory."""

WORKABLE_SPREAD_DAYS = 12.0
"""Standard deviation of the day on which the ground can be dug, from year to year: that of the day on which
frost was out of the ground at Maplewood, Minnesota, 2001 to 2016 (see ``tests/published``)."""

SURELY_OPEN_DAYS = 10
"""Days after that day from which it is dug in most years; from memory."""

SELDOM = 0.2
"""The chance of a hard freeze at which soft shoots are called safe enough for the best stretch; from
memory."""

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


@lru_cache(maxsize=512)
def hard_summer(climate: Climate, year: int) -> Stretch | None:
    """The heat and drought of the summer that begins in a year, as far as a station's record tells; else
    ``None``."""
    normals = climate.normals
    if normals is None:
        return None
    trying = [day for day in range(1, 366) if normals.highest.at(day) >= HEAT_C]
    if normals.rain_mm:
        dry = [
            normals.rain_mm[month - 1] < DRY_MM_PER_C * normals.mean.at(_middle_of(month))
            for month in range(1, 13)
        ]
        trying += [
            day for day in range(1, 366) if dry[(date(2023, 1, 1) + timedelta(days=day - 1)).month - 1]
        ]
    # Only what lies round midsummer: a dry winter does not hurt what is at rest.
    near = sorted({round(round_the_year(day - climate.air.peak_day)) for day in trying})
    first, last = _longest_run([days for days in near if abs(days) <= YEAR_DAYS / 4])
    if last - first < SHORTEST_HARD_SUMMER_DAYS:
        return None
    peak = climate.autumn_day(year + 1 if climate.southern else year, climate.air.peak_day)
    return peak + timedelta(days=first), peak + timedelta(days=last)


def _longest_run(days: Sequence[int]) -> tuple[int, int]:
    """The first and last of the longest unbroken run of days; a day or two between do not break it."""
    best = run = (0, 0)
    for number, day in enumerate(days):
        run = (run[0] if number and day - days[number - 1] <= 3 else day, day)
        best = max(best, run, key=lambda each: each[1] - each[0])
    return best


def _middle_of(month: int) -> int:
    return date(2023, month, 15).timetuple().tm_yday


@lru_cache(maxsize=512)
def growing_season(climate: Climate, year: int) -> Stretch | None:
    """The stretch in which roots grow outdoors: while the soil at root depth is above ``ROOTS_GROW_C``.

    ``None`` where it hardly ever is; the whole year, from midwinter on, where it always is.
    """
    rises, falls = climate.soil.rises_through(ROOTS_GROW_C), climate.soil.falls_through(ROOTS_GROW_C)
    after = year + 1 if climate.southern else year
    if rises is None or falls is None:
        if climate.soil.mean_c <= ROOTS_GROW_C:
            return None
        opens = climate.spring_day(year, climate.soil.trough_day)
        return opens, climate.spring_day(year + 1, climate.soil.trough_day) - timedelta(days=1)
    opens, closes = climate.spring_day(year, rises), climate.autumn_day(after, falls)
    return (opens, closes) if (closes - opens).days >= SHORTEST_SEASON_DAYS else None


def growing_days_after(climate: Climate, start: date, days: int) -> date:
    """The day that lies so many growing days after a start; every day counts where there is no summer."""
    if growing_season(climate, start.year) is None:
        return start + timedelta(days=days)
    day = start
    for year in range(start.year - 1, start.year + 2 + days // SHORTEST_SEASON_DAYS):
        season = growing_season(climate, year)
        if season is None or season[1] < day:
            continue
        first = max(day, season[0])
        room = (season[1] - first).days
        if days <= room:
            return first + timedelta(days=days)
        days -= room + 1
        day = season[1] + timedelta(days=1)
    return day + timedelta(days=days)


def out_of_winter(climate: Climate, day: date) -> date:
    """The day itself in the growing season, otherwise the day the next season begins."""
    return growing_days_after(climate, day, 0)


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


def weeks(number: float) -> timedelta:
    return timedelta(days=round(7 * number))


def is_hardy(plant: Plant, climate: Climate) -> bool:
    """Whether a plant stands this garden's winter, by its zones where they are known, else by its type."""
    if plant.type is PlantType.TENDER_PERENNIAL:
        return False
    return plant.zones is None or plant.zones[0] <= (climate.zone_number or HARDY_TO_ZONE)
