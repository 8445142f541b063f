"""Station files as a weather service gives them out, made into a series and a report of what was found."""

import calendar
import zlib
from datetime import date
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from cuttings.climate.columns import WHAT_IS_READ, read_columns
from cuttings.climate.fixed_width import looks_fixed_width, read_fixed_width
from cuttings.climate.quality import (
    COLDEST_SUMMER,
    LEAST_SWING,
    WETTEST,
    WIDEST_SWING,
    OddPart,
    Tenths,
    beyond_records,
    crossed,
    gross_errors,
    jump,
    middle_swing,
    odd_part,
    warmest_half_month,
)
from cuttings.climate.readings import FIRST_OF_1970, Element, Readings
from cuttings.climate.scales import AS_KELVINS, RAIN_TENTHS, Scale, in_tenths, looks_like_kelvins, scale_of
from cuttings.climate.series import MISSING, Series
from cuttings.climate.station_report import Doubt, Findings, Report, counted, dated, gaps, whole_years
from cuttings.climate.wave import YEAR_DAYS
from cuttings.dates import spoken
from cuttings.units import difference_shown, show_temperature
from cuttings.words import Units

FEWEST_YEARS: Final = 3
"""Whole years below which no odds can be told; from memory."""

MOST_CROSSED: Final = 0.05
"""The share of days with the minimum above the maximum from which the file itself is misread; from
memory."""

WETTEST_YEAR_MM: Final = 12_000.0
"""More than falls in the year at any station on earth; from memory."""

MOST_BYTES: Final = 300_000_000
"""A packed file may unpack to this many bytes; the longest station record in the world is far smaller."""

_BEYOND_ALL: Final = 1_000.0
"""A number that is no temperature in any scale, tenths included."""


MOST_STILL_ZEROS: Final = 0.003
"""The share of days on which the lowest and the highest may both be exactly 0 in earnest, about one a year;
beyond it a 0 stands for no reading. From memory."""

NEVER_MET: Final = (
    "None of its temperatures has ever been met on earth; check the units, and that the columns are the "
    "day's minimum and maximum, and load the file again."
)


def read_station_file(
    content: bytes, units: Units | None = None, shown: Units | None = None
) -> tuple[Series, Report]:
    """A station's series from the bytes of its file, packed with gzip or not, and what was found in it.

    The layout is seen from the content: GHCN-Daily in fixed width, one value a row, or with a column for each
    element; or plain rows of day, minimum and maximum. ``units`` is what the person says the file is in;
    without it the headings tell, or else the data (``scales`` has the rule and its limits). ``shown`` are the
    units for what is said of it; without them it is told in the file's own.

    Raises:
        ValueError: the file cannot be read or believed; the sentence says what to do.
    """
    readings = _readings(_unpacked(content))
    table = _Table.of(readings)
    _enough(~np.isnan(table.tmin), table.first)
    scale = _scale(readings, table, units)
    guessed = units is None and readings.told is None and not readings.in_tenths
    return _checked(readings, table, scale, guessed=guessed, shown=shown or scale.units)


def _unpacked(content: bytes) -> bytes:
    if not content.startswith(b"\x1f\x8b"):
        return content
    try:
        unpacking = zlib.decompressobj(wbits=31)
        plain = unpacking.decompress(content, MOST_BYTES)
    except zlib.error:
        raise ValueError("The packed file is damaged; fetch it again.") from None
    if not unpacking.eof:
        raise ValueError("The packed file is cut short, or far too large; fetch it again.")
    return plain


def _readings(content: bytes) -> Readings:
    content = content.lstrip()
    if looks_fixed_width(content):
        return read_fixed_width(content)
    if b"\0" in content:
        raise ValueError(f"The file is not a text. {WHAT_IS_READ}")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("latin-1")
    return read_columns(text)


@frozen(eq=False)
class _Table:
    """Readings laid out one a day from ``first`` on, in the file's own numbers, NaN where there is none."""

    first: date
    tmin: NDArray[np.float64]
    tmax: NDArray[np.float64]
    rain: NDArray[np.float64]
    duplicated: int
    blank: int

    @classmethod
    def of(cls, readings: Readings) -> "_Table":
        """The days from the first to the last with a temperature.

        Raises:
            ValueError: there is no minimum, or no maximum.
        """
        told = [each.days[~np.isnan(each.values)] for each in (readings.tmin, readings.tmax)]
        for days, what in zip(told, ("minimum", "maximum"), strict=True):
            if not days.size:
                raise ValueError(f"The file holds no {what} temperatures. {WHAT_IS_READ}")
        first, last = min(days.min() for days in told), max(days.max() for days in told)
        span = int(last - first) + 1
        tmin, tmin_often = _laid(readings.tmin, int(first), span)
        tmax, tmax_often = _laid(readings.tmax, int(first), span)
        rain, rain_often = _laid(readings.rain, int(first), span)
        repeated = int((tmin_often | tmax_often | rain_often).sum())
        blank = (tmin == 0.0) & (tmax == 0.0)
        if blank.sum() <= MOST_STILL_ZEROS * span:
            blank[:] = False
        tmin[blank] = tmax[blank] = np.nan
        return cls(date.fromordinal(int(first)), tmin, tmax, rain, repeated, int(blank.sum()))

    @property
    def months(self) -> NDArray[np.int64]:
        """Each day's month, 0 to 11; shape (days,)."""
        since = np.arange(self.tmin.size) + (self.first.toordinal() - FIRST_OF_1970)
        return since.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % 12

    def warmest_month(self) -> float:
        """The mean maximum of the warmest calendar month.

        Raises:
            ValueError: none of them is a temperature in any scale.
        """
        there = np.abs(self.tmax) < _BEYOND_ALL
        if not there.any():
            raise ValueError(NEVER_MET)
        months = self.months[there]
        sums, counts = np.bincount(months, self.tmax[there], 12), np.bincount(months, minlength=12)
        return float(np.max(sums[counts > 0] / counts[counts > 0]))


def _laid(element: Element, first: int, span: int) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Values by day, and the days that come more than once; of those the last one counts."""
    at = element.days - first
    inside = (at >= 0) & (at < span)
    at = at[inside]
    values = np.full(span, np.nan)
    values[at] = element.values[inside]
    return values, np.bincount(at, minlength=span) > 1


def _scale(readings: Readings, table: _Table, units: Units | None) -> Scale:
    if readings.in_tenths:
        if units is Units.US:
            raise ValueError(
                f"A file of this layout ({readings.layout}) is always in tenths of °C; load it without "
                "--file-units."
            )
        return Scale.TENTHS
    whole = not any((each % 1 > 0).any() for each in (table.tmin, table.tmax))
    told = units or readings.told
    return scale_of(table.warmest_month(), whole=whole, told=told, headed=units is None)


def _checked(
    readings: Readings, table: _Table, scale: Scale, *, guessed: bool, shown: Units
) -> tuple[Series, Report]:
    """The series without what cannot be true, and the report of it."""
    first = table.first
    tmin, tmax = (_whole(in_tenths(each, scale)) for each in (table.tmin, table.tmax))
    as_read = tmin.copy(), tmax.copy()
    doubts = _dropped(tmin, beyond_records(tmin), "minimum", first)
    doubts += _dropped(tmax, beyond_records(tmax), "maximum", first)
    if (tmin == MISSING).all() or (tmax == MISSING).all():
        raise ValueError(NEVER_MET)
    turned = _turned(tmin, tmax)
    _refuse_other_columns(*as_read, table.warmest_month(), scale, shown)
    _refuse_no_climate(*as_read, first, shown)
    tmin[turned] = tmax[turned] = MISSING
    doubts += _dropped(tmin, gross_errors(tmin, first), "minimum", first)
    doubts += _dropped(tmax, gross_errors(tmax, first), "maximum", first)
    rain, wrong_rain, rain_m = _rain(table.rain * RAIN_TENTHS[scale])
    series = Series(readings.station, first, tmin, tmax, rain)
    there = tmin != MISSING
    found = Findings(
        scale=scale,
        guessed=guessed,
        units=shown,
        warmest=(warmest := table.warmest_month()),
        warmest_c=float(in_tenths(np.array([warmest]), scale)[0]) / 10.0,
        whole_years=_enough(there, first),
        days=series.days,
        missing=int((~there).sum()),
        flagged=readings.flagged,
        doubts=doubts,
        wrong_rain=wrong_rain,
        rain_m=rain_m,
        swapped=int(turned.sum()),
        duplicated=table.duplicated,
        gaps=gaps(there, first),
        blank=table.blank,
    )
    return series, Report.of(readings.layout, series.station, first, found)


def _enough(there: NDArray[np.bool_], first: date) -> int:
    """The whole years of a record with a minimum on those days.

    Raises:
        ValueError: there are too few of them.
    """
    years = whole_years(there, first)
    if years < FEWEST_YEARS:
        last = dated(first, there.size - 1)
        raise ValueError(
            f"The file holds {counted(years, 'whole year')} of minimum temperatures ({spoken(first)} to "
            f"{spoken(last)}), too few to tell any odds from; load one with {FEWEST_YEARS} at the very "
            "least, and better thirty."
        )
    return years


def _whole(tenths: NDArray[np.float64]) -> NDArray[np.int16]:
    """Readings as they are kept. What is far beyond any is kept just as far beyond the world's records."""
    bounded = np.clip(tenths, -30_000, 30_000)
    return np.where(np.isnan(bounded), MISSING, bounded).astype(np.int16)


def _dropped(tenths: NDArray[np.int16], wrong: NDArray[np.bool_], what: str, first: date) -> list[Doubt]:
    """Takes wrong readings out of the array; what they were."""
    doubts = [
        Doubt(dated(first, day), what, float(tenths[day]) / 10.0) for day in np.flatnonzero(wrong).tolist()
    ]
    tenths[wrong] = MISSING
    return doubts


def _turned(tmin: NDArray[np.int16], tmax: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Days with the minimum above the maximum.

    Raises:
        ValueError: there are so many that the columns or the units must be wrong.
    """
    turned = crossed(tmin, tmax)
    both = ((tmin != MISSING) & (tmax != MISSING)).sum()
    if turned.sum() > MOST_CROSSED * both:
        raise ValueError(
            f"The minimum stands above the maximum on {turned.sum()} of {both} days: the columns are not "
            "what they were taken for, or are not in the same units; check them and load the file again."
        )
    return turned


def _refuse_other_columns(tmin: Tenths, tmax: Tenths, warmest: float, scale: Scale, shown: Units) -> None:
    """Two columns that are no minimum and maximum in that scale.

    Raises:
        ValueError: they lie too near to one another, or too far apart.
    """
    swing = middle_swing(tmin, tmax)
    if swing is None or LEAST_SWING <= swing <= WIDEST_SWING:
        return
    if swing < LEAST_SWING and scale is Scale.TENTHS and looks_like_kelvins(warmest):
        raise ValueError(AS_KELVINS.format(warmest))
    raise ValueError(
        f"Minimum and maximum lie {_apart(swing, shown)} apart on the middle day, which is so nowhere: they "
        "are not a day's lowest and highest, or are not in the same units; check the columns and load the "
        "file again."
    )


def _refuse_no_climate(tmin: Tenths, tmax: Tenths, first: date, shown: Units) -> None:
    """Years that do not go together, or a round of the year that no place has.

    Raises:
        ValueError: there are such; of several the one that explains most is told.
    """
    for values, what in ((tmin, "minimum"), (tmax, "maximum")):
        step = jump(values, first)
        if step is not None:
            raise ValueError(
                f"The {what} temperatures jump by {_apart(step.by, shown)} from {step.before} to "
                f"{step.after}, which no climate does: the units change there, or another station begins; "
                "bring all years into the same units, or leave out one kind, and load the file again."
            )
    for values, what in ((tmin, "minimum"), (tmax, "maximum")):
        odd = odd_part(values, first)
        if odd is not None:
            side = "above" if odd.off > 0 else "below"
            raise ValueError(
                f"In most years the {what} temperatures of {_spoken_part(odd)} stand "
                f"{_apart(odd.off, shown)} {side} what goes with the months around, which no climate does: "
                "these or their neighbours are wrong; mend them or leave them blank, and load the file again."
            )
    warmest = warmest_half_month(tmin, first)
    if warmest < COLDEST_SUMMER:
        raise ValueError(
            f"Half the nights of even the warmest weeks are below {show_temperature(warmest / 10.0, shown)}, "
            "too cold for any garden; check the units and the column of the minima, and load the file again."
        )


def _apart(tenths: float, units: Units) -> str:
    """A difference of temperatures, without its sign."""
    unit = "°F" if units is Units.US else "°C"
    return f"{difference_shown(abs(tenths) / 10.0, units):.0f} {unit}"


def _spoken_part(odd: OddPart) -> str:
    month = calendar.month_name[odd.month + 1]
    return month if odd.half is None else f"the {('first', 'second')[odd.half]} half of {month}"


def _rain(tenths: NDArray[np.float64]) -> tuple[NDArray[np.int16], int, float | None]:
    """The rain and how many readings of it cannot be true; or none, and the metres a year it would be."""
    there = ~np.isnan(tenths)
    if not there.any():
        return _whole(tenths), 0, None
    yearly_mm = float(np.clip(tenths[there], 0, WETTEST).mean()) / 10.0 * YEAR_DAYS
    if yearly_mm > WETTEST_YEAR_MM:
        return _whole(np.full(tenths.size, np.nan)), 0, yearly_mm / 1000.0
    wrong = there & ((tenths < 0) | (tenths > WETTEST))
    return _whole(np.where(wrong, np.nan, np.rint(tenths))), int(wrong.sum()), None
