"""What in a station's readings cannot be true, found without asking anybody.

Three of the checks that the weather service makes itself, in its order: bounds, gap and climatological
outlier, and that the minimum does not stand above the maximum (NOAA National Climatic Data Center:
GHCN-Daily, Methods, Quality control, http://www.ncdc.noaa.gov/oa/climate/ghcn-daily/index.php?name=quality;
I. Durre and others: Comprehensive automated quality assurance of daily surface observations, Journal of
Applied Meteorology and Climatology, 2010).

Temperatures are tenths of °C, ``MISSING`` where there is none, one a day from ``first`` on.
"""

from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from cuttings.climate.readings import FIRST_OF_1970
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

_SLOTS: Final = 365
_SLOT_DAYS: Final = 5
_WINDOWS: Final = _SLOTS // _SLOT_DAYS


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
