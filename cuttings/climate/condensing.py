"""From a station's days to its normals. Only loading a file, or asking for other years, comes here.

Freeze dates follow the recipe of the published normals (NOAA, *Freeze/Frost Data*, Climatography of the
United States No. 20, 1971-2000): minima in whole °F, at or below the threshold, winter by winter, and then
the mean and the standard deviation of the dates with the share of winters that have one.
"""

import calendar
from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from cuttings.climate.climate import MIDSUMMER, TROPICS_DEG
from cuttings.climate.frost import FROST_F, GENERAL_SPREAD_DAYS, THRESHOLDS_F, Freezes, Law
from cuttings.climate.normals import BLOOM_BASE_C, GROWTH_BASE_C, PARTS, Normals, OtherHemisphere
from cuttings.climate.series import MISSING, Series
from cuttings.climate.wave import YEAR_DAYS, Wave, round_the_year

NORMAL_YEARS = 30
"""The years of a normal (World Meteorological Organization: Guidelines on the Calculation of Climate Normals,
2017)."""

FEWEST_WINTERS = 3
"""With fewer there is no saying how much one differs from another."""

MISSING_ALLOWED = 5
"""Days without a minimum, in the part of a winter where the date might have been, with which the winter still
counts; from memory."""

COLD_HALF_WIDTH_DAYS = 60
"""A winter's coldest night is believed if the days within so many of the coldest are nearly all there."""

COLD_MISSING_ALLOWED = 12
"""How many of those 121 days may be missing; a tenth, from memory."""

ACROSS_DAYS = 110.0
"""A record that is warmest further than this from midsummer was kept beyond the equator; from memory. The sea
puts the warmest days off by two months, the rains bring them on by three."""

LEAST_AMPLITUDE_C = 2.0
"""With less there is no telling when the year is warmest; from memory."""


Numbers = NDArray[np.float64]


class TooFewYears(ValueError):
    """There are not enough whole winters to tell any odds."""


def condense(series: Series, lat: float, period: tuple[int, int] | None = None) -> Normals:
    """The normals of a series over calendar years, both ends included; without a period the newest thirty.

    Args:
        lat: latitude in degrees, south negative; it says when winter is.

    Raises:
        TooFewYears: fewer than three winters of the period can be used; the message is a sentence.
        OtherHemisphere: its summer is the garden's winter; so is this one.
    """
    first_year, last_year = period or newest_years(series)
    days = _Days(series, first_year, last_year)
    southern = lat < 0
    levels = tuple(_freezes(days, threshold, southern=southern) for threshold in THRESHOLDS_F)
    winters = next(level.spring.years for level in levels if level.threshold_f == FROST_F)
    if winters < FEWEST_WINTERS:
        raise TooFewYears(
            f"Only {winters} whole winters lie between {first_year} and {last_year}; no odds can be told "
            f"from fewer than {FEWEST_WINTERS}. The record runs from {series.first.year} to "
            f"{series.last.year}."
        )
    mean = days.wave(days.mean)
    _refuse_other_hemisphere(mean, lat)
    return Normals(
        station=series.station,
        first_year=first_year,
        last_year=last_year,
        winters=winters,
        freezes=levels,
        mean=mean,
        lowest=days.wave(days.tmin),
        highest=days.wave(days.tmax),
        spread_c=days.spread(days.mean, mean),
        coldest_c=_mean_coldest(days, mean, southern=southern),
        band_c=days.band(),
        growth=days.by_part(_sine_degree_days(days.tmin, days.tmax, GROWTH_BASE_C)),
        bloom=days.by_part(np.maximum(days.mean - BLOOM_BASE_C, 0.0)),
        rain_mm=days.rainfall(),
        southern=southern,
    )


def _refuse_other_hemisphere(mean: Wave, lat: float) -> None:
    away = abs(round_the_year(mean.peak_day - MIDSUMMER[lat < 0]))
    if abs(lat) <= TROPICS_DEG or mean.amplitude_c < LEAST_AMPLITUDE_C or away <= ACROSS_DAYS:
        return
    warmest = date(2001, 1, 1) + timedelta(days=int(mean.peak_day) - 1)
    side = "south" if lat < 0 else "north"
    raise OtherHemisphere(
        f"The record is warmest in {calendar.month_name[warmest.month]}, so it comes from the other side of "
        f"the equator; the garden lies at {abs(lat):.0f}° {side}. Check the sign of the latitude ('cuttings "
        "garden --lat') or the file."
    )


def newest_years(series: Series) -> tuple[int, int]:
    """The newest thirty whole calendar years of a series, or as many as it has."""
    last = series.last.year if (series.last.month, series.last.day) == (12, 31) else series.last.year - 1
    first = series.first.year if (series.first.month, series.first.day) == (1, 1) else series.first.year + 1
    return max(first, last - NORMAL_YEARS + 1), max(last, first)


class _Days:
    """A series as arrays of °C and mm with gaps as NaN, and the calendar years asked for."""

    def __init__(self, series: Series, first_year: int, last_year: int) -> None:
        self.series = series
        self.years = range(first_year, last_year + 1)
        self.tmin, self.tmax, self.rain = (
            _tenths(values) for values in (series.tmin, series.tmax, series.rain)
        )
        self.whole_f = np.rint(self.tmin * 1.8 + 32.0)  # 28 °F is stored as -2.2 °C, which is 28.04 °F
        self.mean = (self.tmin + self.tmax) / 2.0
        dates = np.datetime64(series.first, "D") + np.arange(len(self.tmin))
        year = dates.astype("datetime64[Y]")
        self.month = dates.astype("datetime64[M]").astype(int) % 12
        self.day = (dates - year.astype("datetime64[D]")).astype(int) + 1
        self.inside = (year.astype(int) + 1970 >= first_year) & (year.astype(int) + 1970 <= last_year)

    def winter(self, begins: date, ends: date, values: Numbers) -> Numbers:
        """The values of a stretch, its last day included, with NaN beyond the series."""
        start, stop = ((day - self.series.first).days for day in (begins, ends))
        found = np.full(stop - start + 1, np.nan)
        low, high = max(start, 0), min(stop + 1, len(values))
        if low < high:
            found[low - start : high - start] = values[low:high]
        return found

    def wave(self, values: Numbers) -> Wave:
        """The first harmonic nearest to the days of the period, by least squares."""
        use = self.inside & ~np.isnan(values)
        angle = 2 * np.pi * self.day[use] / YEAR_DAYS
        columns = np.column_stack((np.ones(len(angle)), np.cos(angle), np.sin(angle)))
        (mean, cosine, sine), *_ = np.linalg.lstsq(columns, values[use], rcond=None)
        peak = float(np.arctan2(sine, cosine)) / (2 * np.pi) * YEAR_DAYS
        return Wave(float(mean), float(np.hypot(cosine, sine)), peak)

    def spread(self, values: Numbers, wave: Wave) -> float:
        use = self.inside & ~np.isnan(values)
        angle = 2 * np.pi * (self.day[use] - wave.peak_day) / YEAR_DAYS
        return float(np.std(values[use] - wave.mean_c - wave.amplitude_c * np.cos(angle)))

    def band(self) -> tuple[tuple[float, float, float], ...]:
        """The 10, 50 and 90 % points of each month's minima."""
        use = self.inside & ~np.isnan(self.tmin)
        months = (self.tmin[use & (self.month == month)] for month in range(12))
        points = (np.percentile(month, (10, 50, 90)) if len(month) else np.zeros(3) for month in months)
        return tuple((float(low), float(middle), float(high)) for low, middle, high in points)

    def by_part(self, values: Numbers) -> tuple[float, ...]:
        """What each twenty-fourth of the year brings, from the mean of its days."""
        part = ((self.day - 1) / YEAR_DAYS * PARTS).astype(int)
        use = self.inside & ~np.isnan(values)
        days = (values[use & (part == number)] for number in range(PARTS))
        return tuple(float(each.mean()) * YEAR_DAYS / PARTS if len(each) else 0.0 for each in days)

    def rainfall(self) -> tuple[float, ...]:
        """The mean fall of each month, from the mean of its days; empty where it is hardly measured."""
        use = self.inside & ~np.isnan(self.rain)
        if use.sum() < self.inside.sum() / 2:
            return ()
        lengths = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
        days = [self.rain[use & (self.month == month)] for month in range(12)]
        if not all(len(month) for month in days):
            return ()
        return tuple(float(month.mean()) * length for month, length in zip(days, lengths, strict=True))


def _sine_degree_days(tmin: Numbers, tmax: Numbers, base: float) -> Numbers:
    """``heat.degree_days_sine`` for many days at once.

    There are two, held together by a test: that one is used where numpy must not be loaded.
    """
    over, half = (tmin + tmax) / 2.0 - base, np.maximum(tmax - tmin, 1e-9) / 2.0
    angle = np.arcsin(np.clip(-over / half, -1.0, 1.0))
    return np.asarray((over * (np.pi / 2.0 - angle) + half * np.cos(angle)) / np.pi)


def _tenths(values: NDArray[np.int16]) -> Numbers:
    found = values.astype(np.float64) / 10.0
    found[values == MISSING] = np.nan
    return found


def _winter_of_spring(year: int, *, southern: bool) -> tuple[date, date]:
    return (
        (date(year, 2, 1), date(year + 1, 1, 31)) if southern else (date(year - 1, 8, 1), date(year, 7, 31))
    )


def _winter_of_autumn(year: int, *, southern: bool) -> tuple[date, date]:
    return _winter_of_spring(year if southern else year + 1, southern=southern)


def _freezes(days: _Days, threshold_f: int, *, southern: bool) -> Freezes:
    springs = [_winter_of_spring(year, southern=southern) for year in days.years]
    autumns = [_winter_of_autumn(year, southern=southern) for year in days.years]
    last = _dates(days, springs, threshold_f, last=True)
    first = _dates(days, autumns, threshold_f, last=False)
    if southern:  # the summer that begins in one calendar year ends in the next
        summers = _lengths(last[:-1], first[1:] + _year_lengths(days.years[:-1]))
    else:
        summers = _lengths(last, first)
    return Freezes(threshold_f, _law(last), _law(first), _law(summers))


def _lengths(last: Numbers, first: Numbers) -> Numbers:
    """Days from the last freeze to the first; infinity where a freeze is wanting at either end."""
    endless = np.isinf(last) | np.isinf(first)
    unjudged = np.isnan(last) | np.isnan(first)
    with np.errstate(invalid="ignore"):
        return np.where(unjudged, np.nan, np.where(endless, np.inf, first - last))


def _year_lengths(years: Sequence[int]) -> Numbers:
    return np.array([(date(year + 1, 1, 1) - date(year, 1, 1)).days for year in years], dtype=float)


def _dates(days: _Days, winters: Sequence[tuple[date, date]], threshold_f: int, *, last: bool) -> Numbers:
    """The day of the year of each winter's last or first freeze.

    Days are counted from the 1 January of the calendar year the winter is asked for. A winter without a
    freeze has infinity, one that cannot be judged NaN: too many days are missing on which the date might
    have been, seen from the other winters. Nor is a winter judged into which the record does not reach as far
    as some other winter's date lies: it would count in years that are early (or, where the record begins in
    it, late) and not in others.
    """
    minima = [days.winter(begins, ends, days.whole_f) for begins, ends in winters]
    cold = [np.flatnonzero(winter <= threshold_f) for winter in minima]
    ever = np.concatenate([*cold, np.array([], dtype=np.intp)])
    if not len(ever):
        return np.array(
            [np.inf if np.isnan(winter).sum() <= MISSING_ALLOWED else np.nan for winter in minima]
        )
    earliest, latest = int(ever.min()), int(ever.max())
    reached = _reached(days.series, winters, cold, last=last)
    found = np.empty(len(minima))
    for number, (winter, freezing) in enumerate(zip(minima, cold, strict=True)):
        if last:
            doubtful = winter[(freezing[-1] if len(freezing) else earliest) : latest + 1]
        else:
            doubtful = winter[earliest : (freezing[0] if len(freezing) else latest) + 1]
        if not reached[number] or np.isnan(doubtful).sum() > MISSING_ALLOWED:
            found[number] = np.nan
        elif not len(freezing):
            found[number] = np.inf
        else:
            begins = winters[number][0]
            newyear = date(days.years[number], 1, 1)
            found[number] = (begins - newyear).days + 1 + freezing[-1 if last else 0]
    return found


def _reached(
    series: Series, winters: Sequence[tuple[date, date]], cold: Sequence[NDArray[np.intp]], *, last: bool
) -> list[bool]:
    """Whether the record holds each winter whole, or reaches as far into it as the date of any whole one.

    ``cold`` holds the days of each winter with a freeze. A last freeze is looked for from the end, a first
    one from the beginning; so the record must begin early enough for the one, and end late enough for the
    other.
    """
    whole = [series.first <= begins and ends <= series.last for begins, ends in winters]
    dates = [
        int(freezing[-1 if last else 0])
        for freezing, is_whole in zip(cold, whole, strict=True)
        if is_whole and len(freezing)
    ]
    if not dates:
        return whole
    if last:
        return [series.first <= begins + timedelta(days=min(dates)) for begins, _ in winters]
    return [begins + timedelta(days=max(dates)) <= series.last for begins, _ in winters]


def _law(found: Numbers) -> Law:
    judged = found[~np.isnan(found)]
    freezing = judged[np.isfinite(judged)]
    if not len(freezing):
        return Law(1.0, GENERAL_SPREAD_DAYS, 0.0, len(judged))
    sd = float(np.std(freezing, ddof=1)) if len(freezing) > 1 else GENERAL_SPREAD_DAYS
    return Law(float(freezing.mean()), sd, len(freezing) / len(judged), len(judged))


def _mean_coldest(days: _Days, mean: Wave, *, southern: bool) -> float | None:
    """The mean of the winters' lowest minima, over winters whose cold part is nearly whole."""
    coldest = []
    for year in days.years:
        begins, ends = _winter_of_spring(year, southern=southern)
        winter = days.winter(begins, ends, days.tmin)
        deepest = round((mean.trough_day - begins.timetuple().tm_yday) % YEAR_DAYS)
        near = winter[max(deepest - COLD_HALF_WIDTH_DAYS, 0) : deepest + COLD_HALF_WIDTH_DAYS + 1]
        if np.isnan(near).sum() <= COLD_MISSING_ALLOWED:
            coldest.append(float(np.nanmin(winter)))
    return sum(coldest) / len(coldest) if coldest else None
