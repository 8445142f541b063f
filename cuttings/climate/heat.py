"""Growing degree days: how much warmth a day or a season brings above a base.

Three ways from the day's lowest and highest temperature, none the right one: a figure from a list is only
good with the way and the base it was made by. Temperatures are in any one scale, Celsius or Fahrenheit, the
base in the same; the result is in degree days of that scale (1 °C day is 1.8 °F days).
"""

import math
from collections.abc import Callable, Iterable
from itertools import accumulate

from cuttings.climate.wave import Wave

Method = Callable[[float, float], float]
"""Degree days of one day from its lowest and its highest temperature."""

CORN_BASE_F, CORN_CAP_F = 50.0, 86.0
"""The base and the cap of the modified method.

Iowa State University, Agronomy 541: Growing degree day rules,
http://agron-www.agron.iastate.edu/courses/Agron541/classes/541/lesson02b/2b.1.1.html.
"""

LONGEST_YEAR_DAYS = 366

_MIDPOINTS = 24
"""Points of half a day at which a day with a spread is summed. A sum round a smooth whole turn closes in
fast: more points change nothing a gardener could see (tested)."""

_LEAST_SPREAD_C = 0.01
"""A spread below this is none: no thermometer tells it, and a division by it may overflow."""


def degree_days_average(tmin: float, tmax: float, base: float) -> float:
    """Degree days of one day by the average: the mean of lowest and highest less the base, at least 0.

    Cool days whose afternoon rises above the base count for nothing, so in a cool spring it falls behind
    ``degree_days_sine``. This is method 1 of McMaster and Wilhelm, Growing degree-days: one equation, two
    interpretations, Agricultural and Forest Meteorology 87, 1997.

    Raises:
        ValueError: the lowest lies above the highest.
    """
    _check(tmin, tmax)
    return max(0.0, (tmin + tmax) / 2.0 - base)


def degree_days_86_50(tmin_f: float, tmax_f: float) -> float:
    """Degree days of one day by the modified method [°F days]: both ends are moved into 50 to 86 °F first.

    UW Extension Waushara County: Calculating Growing Degree Days,
    https://www.wausharaargus.com/latest-ag-news/calculating-growing-degree-days. At most 36 a day.

    Args:
        tmin_f: the day's lowest temperature [°F].
        tmax_f: the day's highest temperature [°F].

    Raises:
        ValueError: the lowest lies above the highest.
    """
    _check(tmin_f, tmax_f)
    low, high = (min(max(each, CORN_BASE_F), CORN_CAP_F) for each in (tmin_f, tmax_f))
    return (low + high) / 2.0 - CORN_BASE_F


def degree_days_sine(tmin: float, tmax: float, base: float, upper: float | None = None) -> float:
    """Degree days of one day by the single sine: the area between the base and a sine through both ends.

    Baskerville and Emin, Ecology, 1969. Above an upper threshold the day counts as if it stayed there: the
    horizontal cut-off of Zalom and others, 1983, and of the University of California Integrated Pest
    Management Program: Degree-days, http://ipm.ucanr.edu/WEATHER/ddconcepts.html.

    Args:
        tmin: the day's lowest temperature.
        tmax: the day's highest temperature.
        base: the temperature from which warmth counts.
        upper: the temperature from which more warmth no longer adds; ``None`` for none.

    Raises:
        ValueError: the lowest lies above the highest, or the upper threshold not above the base.
    """
    _check(tmin, tmax)
    if upper is None:
        return _sine_above(tmin, tmax, base)
    if not upper > base:
        raise ValueError("The upper threshold must lie above the base.")
    return max(0.0, _sine_above(tmin, tmax, base) - _sine_above(tmin, tmax, upper))


def accumulated(days: Iterable[tuple[float, float]], method: Method) -> tuple[float, ...]:
    """The running sum of degree days, one for each day of (lowest, highest), that day counted in.

    Raises:
        ValueError: on some day the lowest lies above the highest.
    """
    return tuple(accumulate(method(tmin, tmax) for tmin, tmax in days))


def normal_degree_days(
    mean_wave: Wave, swing_c: float, base_c: float, spread_c: float = 0.0
) -> tuple[float, ...]:
    """Degree days to be expected from 1 January to the end of each day of the year [°C days], by single sine.

    Item ``n`` is the sum to the end of day ``n`` of the year: item 0 is 0, item 366 is there for leap years.

    Degree days of mean temperatures are not means of degree days. Where the base cuts through the weather, a
    warm spell adds what a cold one cannot take away, so a year of even days has fewer than real years have in
    the mean, most of all in early spring. ``spread_c`` makes up for that: daily means are taken to lie about
    the wave by a normal law, the same all the year, and the swing to be the same every day.

    Args:
        mean_wave: the year's round of the daily mean temperature.
        swing_c: how far the day's highest lies above its lowest in the mean [°C], 0 or more.
        base_c: the temperature from which warmth counts [°C].
        spread_c: the standard deviation of daily means about the wave [°C], 0 or more.

    Raises:
        ValueError: swing or spread is below 0.
    """
    if not (swing_c >= 0.0 and spread_c >= 0.0):
        raise ValueError("The swing of a day and the spread of days cannot be below 0.")
    half = swing_c / 2.0
    means = (mean_wave.at(day) for day in range(1, LONGEST_YEAR_DAYS + 1))
    each = (_expected_above(mean - base_c, half, spread_c) for mean in means)
    return tuple(accumulate(each, initial=0.0))


def _check(tmin: float, tmax: float) -> None:
    if not tmin <= tmax:
        raise ValueError(f"The day's lowest ({tmin}) lies above its highest ({tmax}); are they swapped?")


def _sine_above(tmin: float, tmax: float, level: float) -> float:
    """The mean over a day of what a sine from lowest to highest has above a level."""
    over, half = (tmin + tmax) / 2.0 - level, (tmax - tmin) / 2.0
    if tmin >= level:
        return over
    if tmax <= level:
        return 0.0
    angle = math.asin(max(-1.0, min(1.0, -over / half)))
    return max(0.0, (over * (math.pi / 2.0 - angle) + half * math.cos(angle)) / math.pi)


def _expected_above(over: float, half: float, spread: float) -> float:
    """Single-sine degree days to be expected where the day's mean lies ``over`` the base, with a spread.

    Hour by hour the temperature then follows the same normal law about the sine; the day is their mean.
    """
    if spread < _LEAST_SPREAD_C:
        return _sine_above(over - half, over + half, 0.0)
    hours = (over + half * math.cos(math.pi * (k + 0.5) / _MIDPOINTS) for k in range(_MIDPOINTS))
    return math.fsum(_normal_above(hour / spread) for hour in hours) * spread / _MIDPOINTS


def _normal_above(z: float) -> float:
    """The mean of what a normal law of mean ``z`` and standard deviation 1 has above 0."""
    density = math.exp(-z * z / 2.0) / math.sqrt(2.0 * math.pi)
    return max(0.0, density + z * math.erfc(-z / math.sqrt(2.0)) / 2.0)
