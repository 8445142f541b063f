"""What in a station's readings cannot be true, found without asking anybody.

First what no climate of the earth does, by which a whole file is told to be something else than it was taken
for: a part of the year that does not go with the rest, a year that does not go with the next, a day and a
night that lie too far apart or too near. Then single readings.

For these, three of the checks that the weather service makes itself, in its order: bounds, gap and
climatological outlier, and that the minimum does not stand above the maximum (NOAA National Climatic Data
Center: GHCN-Daily, Methods, Quality control,
http://www.ncdc.noaa.gov/oa/climate/ghcn-daily/index.php?name=quality; I. Durre and others: Comprehensive
automated quality assurance of daily surface observations, Journal of Applied Meteorology and Climatology,
2010).

Temperatures are tenths of °C, ``MISSING`` where there is none, one a day from ``first`` on.
"""

from datetime import date
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from cuttings.climate.readings import FIRST_OF_1970, Numbers
from cuttings.climate.series import MISSING

Tenths = NDArray[np.int16]
Mask = NDArray[np.bool_]

COLDEST: Final = -892
HOTTEST: Final = 567
"""The world's records in tenths of °C: Vostok 1983 and Death Valley 1913 (World Meteorological Organization:
World Weather and Climate Extremes Archive; the figures are from memory)."""

WETTEST: Final = 18_250
"""The world's record of rain in a day in tenths of mm: 1,825 mm on Réunion in 1966 (World Meteorological
Organization: World Weather and Climate Extremes Archive; the figures are from memory)."""

OUTLIER_SPREADS: Final = 6
"""Standard deviations from the middle of its fifteen days from which a reading is an outlier (the weather
service's climatological outlier check)."""

GAP: Final = 100
"""Tenths of °C by which an error stands apart from all other readings (the weather service's gap check, which
looks at calendar months; here it is the same fifteen days)."""

SPREAD_PER_DEVIATION: Final = 1.4826
"""The standard deviation of a normal law in median absolute deviations; a few errors do not move the latter,
where the weather service weighs them down."""

FEWEST: Final = 40
"""Readings in a window below which nothing can be said of it; from memory."""

APART: Final = 150
"""Tenths of °C by which the middle reading of half a month stands off what lies a month before and after it
in no climate; from memory. A round of the year with 60 °C between midsummer and midwinter bends by some 40;
the rest is chance. With fewer years than ``STEADY_YEARS`` chance counts for more, and the limit grows as the
root of what is wanting."""

STEADY_YEARS: Final = 5

STEP: Final = 110
"""Tenths of °C by which the warm half of one year stands off that of the next in no climate; from memory. In
ninety years at Clemson (GHCN-Daily, USC00381770) the widest such step is 34. Degrees Fahrenheit among
Celsius, or the other way round, make one of 180 or more."""

COLDEST_SUMMER: Final = -50
"""The middle night of the warmest half month, in tenths of °C: below it there is only an ice cap; from
memory."""

LEAST_SWING: Final = 25
WIDEST_SWING: Final = 280
"""Tenths of °C between the minimum and the maximum of the middle day: the least, on small islands, is some
30, the most, in high deserts, some 230; from memory."""

_SLOTS: Final = 365
_SLOT_DAYS: Final = 5
_WINDOWS: Final = _SLOTS // _SLOT_DAYS
_MONTH_DAYS: Final = np.array((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31))
_MONTH_STARTS: Final = np.cumsum(_MONTH_DAYS) - _MONTH_DAYS
_MONTH_OF: Final = np.repeat(np.arange(12), _MONTH_DAYS)
_HALF: Final = 15
_WARM_MONTHS: Final = 6


@frozen
class OddPart:
    """Part of a calendar month (0 to 11): its first half (0), its second (1) or all of it (``None``), whose
    middle reading stands so many tenths of °C off that of the months before and after."""

    month: int
    half: int | None
    off: float


@frozen
class Jump:
    """Two years that follow one another in a record, and how many tenths of °C the second is warmer."""

    before: int
    after: int
    by: float


def middle_swing(tmin: Tenths, tmax: Tenths) -> float | None:
    """The median of the days' maximum less minimum in tenths of °C; ``None`` where no day has both."""
    both = (tmin != MISSING) & (tmax != MISSING)
    return float(np.median(tmax[both].astype(np.int32) - tmin[both])) if both.any() else None


def odd_part(temperatures: Tenths, first: date) -> OddPart | None:
    """The part of the year that goes least with the rest of it, if it is one that no climate has.

    Over all years, the median of each half month is held against the mean of those a month before and a month
    after it. So is found what is wrong in the same weeks of most years, which ``gross_errors`` would take for
    the weather of those weeks.
    """
    calendar = _calendar(temperatures, first)
    limit = APART * max(1.0, STEADY_YEARS / len(calendar)) ** 0.5
    halves = _halves(calendar)
    off = halves - (np.roll(halves, 2) + np.roll(halves, -2)) / 2.0
    away = np.where(np.isnan(off), 0.0, np.abs(off))
    worst = int(np.argmax(away))
    if away[worst] < limit:
        return None
    other = off[worst ^ 1]
    alike = abs(other) >= limit and bool((other > 0) == (off[worst] > 0))
    return OddPart(worst // 2, None if alike else worst % 2, float(off[worst]))


def jump(temperatures: Tenths, first: date) -> Jump | None:
    """The widest step from the warm half of one year to that of the next, if no climate takes it.

    A year's warm half is told by the median, over the six warmest calendar months, of what they differ from
    their usual; so neither gaps nor a wrong month move it. Winters differ far more from one another and are
    not asked.
    """
    months = _middles(_calendar(temperatures, first))
    usual = _middles(months.T)
    warm = np.argsort(np.where(np.isnan(usual), -np.inf, usual))[-_WARM_MONTHS:]
    above = months[:, warm] - usual[warm]
    years = np.flatnonzero((~np.isnan(above)).sum(axis=1) >= _WARM_MONTHS / 2)
    if years.size < 2:
        return None
    steps = np.diff(_middles(above[years]))
    widest = int(np.argmax(np.abs(steps)))
    if abs(steps[widest]) < STEP:
        return None
    before, after = (int(first.year + years[widest + each]) for each in (0, 1))
    return Jump(before, after, float(steps[widest]))


def warmest_half_month(temperatures: Tenths, first: date) -> float:
    """The median of the half month where it is highest, in tenths of °C; NaN where too little is there."""
    halves = _halves(_calendar(temperatures, first))
    return float(np.nanmax(halves)) if not np.isnan(halves).all() else np.nan


def _calendar(temperatures: Tenths, first: date) -> Numbers:
    """The readings by year, month and day of the month, NaN where there is none; shape (years, 12, 31)."""
    year, slot = _places(temperatures.size, first)
    by_month = np.full((int(year[-1]) + 1, 12, 31), np.nan)
    month, day = _MONTH_OF[slot], slot - _MONTH_STARTS[_MONTH_OF[slot]]
    by_month[year, month, day] = np.where(temperatures == MISSING, np.nan, temperatures)
    return by_month


def _halves(calendar: Numbers) -> Numbers:
    """The medians of the half months from 1 January, NaN where they have too few readings; shape (24,)."""
    parts = (calendar[:, :, :_HALF], calendar[:, :, _HALF:])
    rows = [part.transpose(1, 0, 2).reshape(12, -1) for part in parts]
    middles = [np.where((~np.isnan(row)).sum(axis=1) < FEWEST, np.nan, _middles(row)) for row in rows]
    return np.stack(middles, axis=1).reshape(-1)


def _middles(values: Numbers) -> Numbers:
    """The medians along the last axis (of two the lower one), NaN where there is nothing."""
    ranked = np.sort(values, axis=-1)  # NaN comes last
    count = (~np.isnan(values)).sum(axis=-1, keepdims=True)
    middles: Numbers = np.take_along_axis(ranked, np.maximum(count - 1, 0) // 2, axis=-1)[..., 0]
    return middles


def beyond_records(temperatures: Tenths) -> Mask:
    """Readings colder or hotter than any taken on earth; shape (days,)."""
    beyond: Mask = (temperatures != MISSING) & ((temperatures < COLDEST) | (temperatures > HOTTEST))
    return beyond


def crossed(tmin: Tenths, tmax: Tenths) -> Mask:
    """Days on which the minimum stands above the maximum; shape (days,)."""
    turned: Mask = (tmin != MISSING) & (tmax != MISSING) & (tmin > tmax)
    return turned


def gross_errors(temperatures: Tenths, first: date) -> Mask:
    """Readings that are no weather of their time of year; shape (days,).

    The year is cut into 73 windows of five days, each seen with the five before and after it in every year.
    A reading is an error if it lies six robust standard deviations or more from its window's median, and
    also beyond a stretch of 10 °C or more, outward from the median, in which no reading of the window lies.
    A real record stands near the next coldest readings, however rare it is; an error stands alone. Limits:
    errors that fill such a stretch, or that are no further out than real weather, are not found.
    """
    year, slot = _places(temperatures.size, first)
    by_year = np.full((int(year[-1]) + 1, _SLOTS), MISSING, dtype=np.int16)
    by_year[year, slot] = temperatures
    fives = by_year.reshape(-1, _WINDOWS, _SLOT_DAYS).transpose(1, 0, 2).reshape(_WINDOWS, -1)
    window = np.concatenate((np.roll(fives, 1, axis=0), fives, np.roll(fives, -1, axis=0)), axis=1)
    low, high = _limits(np.sort(window, axis=1, kind="stable"))
    at = slot // _SLOT_DAYS
    errors: Mask = (temperatures != MISSING) & ((temperatures < low[at]) | (temperatures > high[at]))
    return errors


def _places(days: int, first: date) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Each day's year, counted from the first, and its place in a common year (29 February is the 28th)."""
    since = np.arange(days) + (first.toordinal() - FIRST_OF_1970)
    dates = since.astype("datetime64[D]")
    years = dates.astype("datetime64[Y]")
    place = since - years.astype("datetime64[D]").astype(np.int64)
    number = years.astype(np.int64) + 1970
    leap = (number % 4 == 0) & ((number % 100 != 0) | (number % 400 == 0))
    return number - number[0], place - (leap & (place >= 59))


def _limits(ranked: Tenths) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The coldest and hottest reading that each window lets pass; infinite where all pass.

    ``ranked`` has shape (windows, readings), each row sorted, the missing ones first.
    """
    rows, width = np.arange(ranked.shape[0]), ranked.shape[1]
    begin = np.argmax(ranked != MISSING, axis=1)
    count = np.where(ranked[:, -1] == MISSING, 0, width - begin)
    middle = np.minimum(begin + count // 2, width - 1)
    median = ranked[rows, middle]
    spread = _spread(ranked, begin, count, median)
    apart = np.diff(ranked.astype(np.int32), axis=1) >= GAP
    order = np.arange(width - 1)
    below = apart & (order >= begin[:, None]) & (order < middle[:, None])
    above = apart & (order >= middle[:, None])
    last_below, first_above = width - 2 - np.argmax(below[:, ::-1], axis=1), np.argmax(above, axis=1)
    enough = count >= FEWEST
    low = np.minimum(ranked[rows, last_below + 1], median - OUTLIER_SPREADS * spread)
    high = np.maximum(ranked[rows, first_above], median + OUTLIER_SPREADS * spread)
    return (
        np.where(enough & below.any(axis=1), low, -np.inf),
        np.where(enough & above.any(axis=1), high, np.inf),
    )


def _spread(
    ranked: Tenths, begin: NDArray[np.int64], count: NDArray[np.int64], median: Tenths
) -> NDArray[np.float64]:
    """A robust standard deviation of each window, from the median of the distances from its median."""
    width = ranked.shape[1]
    away = np.abs(np.where(ranked == MISSING, median[:, None], ranked) - median[:, None])
    away[np.arange(width) < begin[:, None]] = np.iinfo(np.int16).max
    nearest = np.sort(away, axis=1, kind="stable")
    middle = np.minimum(count // 2, width - 1)
    deviation: NDArray[np.float64] = nearest[np.arange(len(ranked)), middle].astype(np.float64)
    return deviation * SPREAD_PER_DEVIATION
