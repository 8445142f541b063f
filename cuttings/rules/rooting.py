"""How a published rooting time holds for one lot: which days count for its roots.

A published range, such as four to six weeks, is read as the time by which one stem in ten and nine in
ten of those that root at all have done so; that reading is this program's own, from memory of how such times
spread. ``cuttings.takes`` makes a forecast of it, and learns from what is seen.

Where nothing keeps the roots warm the range is turned into warmth: a day counts by how warm the soil of
this garden is on it, against the temperature the range was given for (thermal time, a plain straight line
between a base and a reference; the line is this program's own choice, common in crop science).
"""

from bisect import bisect_left
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache
from itertools import accumulate

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import Way
from cuttings.rules.growth import SHORTEST_SEASON_DAYS, growing_season, out_of_winter
from cuttings.rules.seasons import ROOTS_GROW_C, frosts
from cuttings.units import celsius_to_fahrenheit
from cuttings.words import Method


class Bench(StrEnum):
    """What keeps the roots of a lot warm while it waits."""

    WARM = "warm"
    """A heated tray, or closed air in a room: the published range as it is."""

    FRAME = "frame"
    """An unheated frame: the soil of the garden, a little warmer."""

    OPEN = "open"
    """The open ground, or still on the mother."""


FRAME_WARMER_C = 2.8
"""How much warmer than outdoors an unheated frame is: 5 °F, the lower figure of University of Missouri
Extension G6965: Building and Using Hotbeds and Cold Frames ("5 to 10 degrees at most")."""

SEASON_SOIL_C = 15.0
"""The soil temperature that a range is taken to hold for where it names a season and no temperature; from
memory. It is also that above which roots of many species do best (Soil temperature and root growth,
Arboriculture review)."""

USUAL_GARDEN = Climate(42.0)
USUAL_START = date(2023, 5, 1)
USUAL_SEASON_DAYS = 180
"""A range longer than the growing season takes in a winter, and is told in days of the calendar. It is
taken for those of the ordinary cold-winter garden, from the month in which the way is usually begun (May
where none is named), and turned into the warmth that they bring there; from memory."""

BOTTOM_HEAT_C = 20.0
"""How warm a heated bench keeps the base of cuttings where their record does not say; from memory."""

LONGEST_WAIT_DAYS = 366
"""Days after nine in ten should have rooted for which a lot is waited for at the most; from memory."""

NO_FASTER_ABOVE_C = 25.0
"""Soil warmer than this makes roots no faster; from there on they dry and harden (the same review)."""

ROUNDING_DAYS = 1e-6
"""Days of thermal time that are none."""

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


def look_again(method: Method) -> timedelta:
    """How long a lot is left in peace from one look to the next."""
    return timedelta(days=LOOK_AGAIN_DAYS.get(method, LOOK_AGAIN_OTHERWISE))


def _span(low: int, high: int) -> str:
    unit, size = ("weeks", 7) if low >= 14 else ("days", 1)
    first, last = round(low / size), round(high / size)
    return f"{first} {unit}" if first == last else f"{first} to {last} {unit}"


@frozen
class RootingClock:
    """How days count for the roots of one lot: by warmth where there is a clock, else one by one.

    ``low`` and ``high`` are the ends of the published range in the days that count.
    """

    climate: Climate
    started: date
    clock: "ThermalClock | None"
    low: float
    high: float
    why: str

    @classmethod
    @lru_cache(maxsize=4096)
    def of(cls, way: Way, started: date, climate: Climate, bench: Bench) -> "RootingClock | None":
        """The clock of a lot started on a day; ``None`` where no rooting time is known for its way.

        On a warm bench the range holds as it is. In a frame or in the open it is thermal time, so nothing
        happens while the soil is cold. A range longer than a growing season takes in a winter: its days are
        first turned into the warmth they bring in an ordinary cold-winter garden. Without frost dates those
        of such a garden are taken here too.
        """
        if way.rooting_days is None:
            return None
        low, high = sorted(max(1, days) for days in way.rooting_days)
        said_to_take = f"Roots are said to take {_span(low, high)}."
        if bench is Bench.WARM:
            why = f"{said_to_take} It is warm, so every day counts."
            return cls(climate, started, None, low, high, why)
        season = growing_season(climate, started.year)
        if season is None:
            why = f"{said_to_take} Your soil is hardly ever warm, so every day is counted, winter too."
            return cls(climate, started, None, low, high, why)
        said = frosts(climate, started.year).said
        where = "Under cover without heat" if bench is Bench.FRAME else "Outdoors"
        reference = SEASON_SOIL_C if way.reference_temp_c is None else sum(way.reference_temp_c) / 2
        clock = thermal_clock(climate, reference, FRAME_WARMER_C if bench is Bench.FRAME else 0.0)
        why = (
            f"{where} a day counts by the warmth of the soil: in full at {_both(reference)}, not at all "
            f"below {_both(ROOTS_GROW_C)}."
        )
        if way.reference_temp_c is None and high > USUAL_SEASON_DAYS:
            usual, begun = thermal_clock(USUAL_GARDEN, reference), _usual_start(way)
            early, late = (max(usual.between(begun, begun + timedelta(days=d)), 1.0) for d in (low, high))
            why = f"{said_to_take} That takes in a winter. {said(why)}"
            return cls(climate, started, clock, early, late, why)
        return cls(climate, started, clock, low, high, f"{said_to_take} {said(why)}")

    def after(self, days: float) -> date:
        """The day that lies so many of the clock's days after the start."""
        if self.clock is None:
            return self.started + timedelta(days=round(days))
        return self.clock.after(self.started, days)

    def passed(self, day: date) -> float:
        """The clock's days that have passed between the start and a day."""
        if self.clock is None or not self.clock.runs:
            return float(max((day - self.started).days, 0))
        return max(self.clock.between(self.started, day), 0.0)

    def settled(self, day: date) -> date:
        """The day itself, or where the soil is cold then the first on which it is not."""
        return day if self.clock is None else out_of_winter(self.climate, day)


def _usual_start(way: Way) -> date:
    """The middle of the first month in which the way is usually begun, in a common year."""
    return date(USUAL_START.year, way.months[0], 15) if way.months else USUAL_START


def _both(degrees_c: float) -> str:
    return f"{degrees_c:.0f} °C ({celsius_to_fahrenheit(degrees_c):.0f} °F)"


@frozen
class ThermalClock:
    """Thermal time of one garden's soil through an average year.

    ``sums`` holds, for each day of the year, the days at the reference temperature that the soil's warmth has
    been worth since 1 January; item 0 is 0.
    """

    sums: tuple[float, ...]

    @property
    def runs(self) -> bool:
        """Whether a year is warm enough for it to count by warmth at all."""
        return self.sums[-1] >= SHORTEST_SEASON_DAYS

    def between(self, start: date, end: date) -> float:
        """The days at the reference temperature that a stretch is worth."""
        years = end.year - start.year
        first, last = (self.sums[day.timetuple().tm_yday] for day in (start, end))
        return years * self.sums[-1] + last - first

    def after(self, start: date, days: float) -> date:
        """The day by which so many days at the reference temperature have passed since a start."""
        whole_year = self.sums[-1]
        if not self.runs:
            return start + timedelta(days=round(days))
        wanted = days + self.sums[start.timetuple().tm_yday]
        years, rest = divmod(
            max(wanted - ROUNDING_DAYS, 0.0), whole_year
        )  # the day itself, not one of winter
        day = bisect_left(self.sums, rest)
        return max(date(start.year + int(years), 1, 1) + timedelta(days=max(day, 1) - 1), start)


@lru_cache(maxsize=256)
def thermal_clock(climate: Climate, reference_c: float, warmer_c: float = 0.0) -> ThermalClock:
    """How fast roots are made through the year, against a reference temperature of the soil [°C].

    The rate is 0 at ``ROOTS_GROW_C`` and below, 1 at the reference, and rises in a straight line to
    ``NO_FASTER_ABOVE_C`` or the reference, whichever is warmer.

    Args:
        warmer_c: how much warmer the place is than the garden's soil [°C].
    """
    span = max(reference_c - ROOTS_GROW_C, 1.0)
    ceiling = max(NO_FASTER_ABOVE_C, reference_c)
    warmth = (min(climate.soil.at(day) + warmer_c, ceiling) for day in range(1, 367))
    return ThermalClock(tuple(accumulate((max(0.0, c - ROOTS_GROW_C) / span for c in warmth), initial=0.0)))
