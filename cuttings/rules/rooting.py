"""When a lot is likely to have rooted, when to look at it, and when to give it up.

A published range, such as four to six weeks, is read as the time by which one stem in ten and nine in
ten of those that root at all have done so, with the logarithm of the time following a normal law; that
reading is this program's own, from memory of how such times spread.
"""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache
from math import exp, log

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import Way
from cuttings.rules.seasons import frosts, growing_days_after, growing_season, out_of_winter
from cuttings.words import Method

GIVE_UP_TIMES = 1.5
"""How many times the long end of the range to wait before giving up, and never less than one look more;
from memory."""

LOOK_AGAIN_DAYS = {
    Method.SOFTWOOD_CUTTING: 7,
    Method.BASAL_CUTTING: 7,
    Method.SEMI_RIPE_CUTTING: 14,
    Method.LEAF_CUTTING: 14,
    Method.ROOT_CUTTING: 14,
    Method.SEEDLING: 14,
    Method.HARDWOOD_CUTTING: 28,
    Method.TIP_LAYER: 28,
    Method.AIR_LAYER: 28,
    Method.SIMPLE_LAYER: 42,
    Method.SERPENTINE_LAYER: 42,
    Method.MOUND_LAYER: 42,
}
"""Days from one look to the next; every look disturbs new roots. From memory."""

LOOK_AGAIN_OTHERWISE = 14

HOW_SURE = (
    "An estimate: we read the published range as holding eight in ten of the stems that root at all. "
    "Warmth, wood and weather move it."
)


@frozen
class Forecast:
    """When a lot roots: by ``p10`` one in ten of the stems that root have done so, by ``p90`` nine in
    ten. ``next_look`` is the first sensible day to look, ``give_up`` the last."""

    p10: date
    p50: date
    p90: date
    next_look: date
    give_up: date
    why: str
    source: str
    sure: str


@lru_cache(maxsize=4096)
def forecast(
    way: Way,
    started: date,
    climate: Climate,
    *,
    heated: bool = False,
    under_cover: bool = False,
    looked: tuple[date, ...] = (),
    source_name: str,
) -> Forecast | None:
    """When a lot started on a day will have rooted, from the published range of its way of increase.

    Material that is neither heated nor under cover makes no roots while the soil is cold, so only the days
    from workable ground to some weeks after the first frost are counted. A range longer than that season
    already takes in a winter: then every day is counted and a date that falls in the cold is put off until
    the season begins. Without frost dates those of an ordinary cold-winter garden are taken.

    Args:
        way: the way of increase; its ``rooting_days`` are days from the start.
        looked: the days the lot has been looked at already.
        source_name: the source of the range, spelled out.

    Returns:
        The forecast with ``p10 <= p50 <= p90 <= give_up`` and ``p10 <= next_look <= give_up``, or ``None``
        where no rooting time is known.
    """
    if way.rooting_days is None:
        return None
    low, high = sorted(max(1, days) for days in way.rooting_days)
    outdoors = not (heated or under_cover)
    calendar = _Calendar.of(climate, started, high, outdoors=outdoors)
    p10, p50, p90 = (calendar.after(days) for days in (low, _median(low, high), high))
    one_more_look = p90 + timedelta(days=LOOK_AGAIN_DAYS.get(way.method, LOOK_AGAIN_OTHERWISE))
    give_up = max(calendar.after(round(high * GIVE_UP_TIMES)), one_more_look)
    return Forecast(
        p10=p10,
        p50=p50,
        p90=p90,
        next_look=_next_look(way.method, p10, give_up, looked, calendar),
        give_up=give_up,
        why=f"Roots are said to take {_span(low, high)}. {calendar.why}",
        source=source_name,
        sure=HOW_SURE,
    )


def _median(low: int, high: int) -> int:
    return round(exp((log(low) + log(high)) / 2))


def _span(low: int, high: int) -> str:
    unit, size = ("weeks", 7) if low >= 14 else ("days", 1)
    first, last = round(low / size), round(high / size)
    return f"{first} {unit}" if first == last else f"{first} to {last} {unit}"


@frozen
class _Calendar:
    """The way days are counted for one lot."""

    climate: Climate
    started: date
    skips_winter: bool
    waits_for_spring: bool
    why: str

    @classmethod
    def of(cls, climate: Climate, started: date, high: int, *, outdoors: bool) -> "_Calendar":
        season = growing_season(climate, started.year)
        if not outdoors:
            why = "It is warm or under cover, so every day counts."
            return cls(climate, started, skips_winter=False, waits_for_spring=False, why=why)
        if season is None:
            why = "Your frost dates leave no summer, so every day is counted, winter too."
            return cls(climate, started, skips_winter=False, waits_for_spring=False, why=why)
        said = frosts(climate, started.year).said
        if high > (season[1] - season[0]).days:
            why = said("That can take in a winter, so a date in the cold is put off until the soil warms.")
            return cls(climate, started, skips_winter=False, waits_for_spring=True, why=why)
        why = said("Outdoors, only days are counted on which the soil is warm enough for roots to grow.")
        return cls(climate, started, skips_winter=True, waits_for_spring=True, why=why)

    def after(self, days: int) -> date:
        if self.skips_winter:
            return growing_days_after(self.climate, self.started, days)
        return self.settled(self.started + timedelta(days=days))

    def settled(self, day: date) -> date:
        return out_of_winter(self.climate, day) if self.waits_for_spring else day


def _next_look(
    method: Method, first: date, give_up: date, looked: Sequence[date], calendar: _Calendar
) -> date:
    """The first look when roots may be there; later ones a fixed time apart, the last on the last day."""
    if not looked:
        return first
    again = max(looked) + timedelta(days=LOOK_AGAIN_DAYS.get(method, LOOK_AGAIN_OTHERWISE))
    day = calendar.settled(max(first, again))
    return min(day, give_up)
