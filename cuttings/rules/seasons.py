"""The year of one garden as the rules see it: frost, frozen ground, growing days and months.

Northern months are those of the catalogue; the southern hemisphere takes them six months later. A
garden that has not entered its frost dates gets those of an ordinary cold-winter garden, and every
sentence built on them says so.
"""

from calendar import monthrange
from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from functools import lru_cache

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.dates import MonthDay
from cuttings.plants.model import Plant
from cuttings.rules.advice import Window
from cuttings.words import PlantType

Stretch = tuple[date, date]
"""Two dates, the first not after the second; both are part of the stretch."""

GROUND_FREEZE_WEEKS = 8
"""Weeks from the average first frost of autumn until the ground stays frozen; from memory.

It puts an Iowa garden's frozen ground at the start of December, just after the mid to late November in
which autumn divisions are mulched there (Iowa State University Extension: Which perennials can be
divided in late summer?).
"""

WORKABLE_WEEKS = 4
"""Weeks before the average last frost by which the ground has thawed and can be dug.

Pots sunk for the winter are lifted "several weeks before the last frost" once the soil thaws (Iowa State
University Extension: How can I over-winter unplanted perennials); the four is from memory.
"""

ROOTS_AFTER_FROST_WEEKS = 4
"""Weeks for which roots go on growing in the ground after the average first frost: the soil cools later than
the air, and roots of temperate plants grow down to about 6 °C; the four is from memory."""

LEAF_FALL_WEEKS = 4
"""Weeks from the average first frost to bare wood; from memory."""

SAFE_RISK = 0.10
"""The chance of a later frost at which tender plants go out; common practice."""

USUAL_LAST_FROST: MonthDay = (5, 15)
USUAL_FIRST_FROST: MonthDay = (10, 1)
USUAL_SPREAD_DAYS = 15
"""Frost dates of an ordinary cold-winter garden, north, for gardens that gave none; from memory."""

NO_FROST_DATES = (
    "Your frost dates are not entered, so this goes by the month, as for an ordinary cold-winter garden."
)

SHORTEST_SEASON_DAYS = 30
"""A growing season shorter than this is not believed, and every day is counted instead; from memory."""

HARDY_TO_ZONE = 6
"""A garden whose zone is not known is taken for a zone 6 one, the warmer of the catalogue's two."""


@frozen
class Frosts:
    """The frost dates that bound one year's spring and autumn.

    ``last_spring`` and ``first_autumn`` are the even-odds dates; after ``safe_spring`` one spring in ten
    still brings a frost.
    """

    last_spring: date
    safe_spring: date
    first_autumn: date
    known: bool

    @property
    def workable(self) -> date:
        """The day the ground can be dug in spring."""
        return self.last_spring - timedelta(weeks=WORKABLE_WEEKS)

    @property
    def freeze(self) -> date:
        """The day the ground stays frozen, reckoned from the first frost."""
        return self.first_autumn + timedelta(weeks=GROUND_FREEZE_WEEKS)

    def said(self, why: str) -> str:
        """The sentence, with a second one where the frost dates are only assumed."""
        return why if self.known else f"{why} {NO_FROST_DATES}"


@lru_cache(maxsize=512)
def frosts(climate: Climate, year: int) -> Frosts:
    """The spring and the autumn of a calendar year.

    A northern autumn always follows its spring, even where the first frost comes after New Year; a
    southern year's autumn comes before its spring.
    """
    law = climate.frost
    if law is None:
        spring = _on(year, USUAL_LAST_FROST, climate)
        autumn = _on(year, USUAL_FIRST_FROST, climate)
        spread = timedelta(days=USUAL_SPREAD_DAYS)
        return Frosts(spring, spring + spread, autumn, known=False)
    spring = law.last_spring(year)
    turned = int(not climate.southern and law.first_autumn(year) <= spring)
    return Frosts(
        spring,
        law.last_spring(year, SAFE_RISK),
        law.first_autumn(year + turned),
        known=True,
    )


def _on(year: int, month_day: MonthDay, climate: Climate) -> date:
    month, day = month_day
    return date(year, climate.month_here(month), day)


def frozen_ground(climate: Climate, year: int) -> Stretch:
    """The stretch of frozen ground that begins with the autumn of a year."""
    freeze = frosts(climate, year).freeze
    thaw = frosts(climate, year if climate.southern else year + 1).workable
    return freeze, max(freeze, thaw)


@lru_cache(maxsize=512)
def summer(climate: Climate, year: int) -> Stretch:
    """From the average last frost of a year's spring to the first frost that follows it."""
    opens = frosts(climate, year).last_spring
    closes = frosts(climate, year + 1 if climate.southern else year).first_autumn
    return opens, max(opens, closes)


def in_summer(climate: Climate, on: date, *, after_weeks: float = 0, before_weeks: float = 0) -> bool:
    """Whether a day lies in the frost-free season, or so many weeks inside its two ends."""
    seasons = (summer(climate, year) for year in (on.year - 1, on.year))
    return any(opens + weeks(after_weeks) <= on <= closes - weeks(before_weeks) for opens, closes in seasons)


@lru_cache(maxsize=512)
def growing_season(climate: Climate, year: int) -> Stretch | None:
    """The stretch in which roots grow outdoors: from workable ground to some weeks after the first frost.

    ``None`` where the frost dates leave none.
    """
    last_frost, first_frost = summer(climate, year)
    opens, closes = last_frost - weeks(WORKABLE_WEEKS), first_frost + weeks(ROOTS_AFTER_FROST_WEEKS)
    return (opens, closes) if (first_frost - last_frost).days >= SHORTEST_SEASON_DAYS else None


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


def month_stretches(months: Iterable[int], climate: Climate, year: int) -> tuple[Stretch, ...]:
    """The unbroken runs of northern catalogue months that begin in a year, as dates of this garden.

    A run may pass New Year. Twelve months make one run from January to December.
    """
    here = {climate.month_here(month) for month in months}
    firsts = [1] if len(here) == 12 else [month for month in sorted(here) if (month - 2) % 12 + 1 not in here]
    stretches = []
    for first in firsts:
        length = 1
        while length < 12 and (first + length - 1) % 12 + 1 in here:
            length += 1
        over, last = divmod(first + length - 2, 12)
        end_year, end_month = year + over, last + 1
        stretches.append(
            (date(year, first, 1), date(end_year, end_month, monthrange(end_year, end_month)[1]))
        )
    return tuple(stretches)


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
