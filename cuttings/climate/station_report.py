"""What a station file was found to hold, in figures and in sentences."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from cuttings.climate.scales import Scale
from cuttings.dates import spoken
from cuttings.units import show_temperature
from cuttings.words import Units

GAP_DAYS: Final = 28
"""A stretch this long without a minimum is told by its dates; so long is the shortest month."""

WHOLE_YEAR_LACKS: Final = 28
"""A calendar year that lacks this many minima or more is not whole; from memory."""

ROUGH_YEARS: Final = 10
"""Whole years below which odds are rough; from memory. Published freeze tables rest on thirty years."""

COLD_FOR_A_GARDEN_C: Final = 10.0
"""A warmest month's mean maximum below which nothing is gardened; trees stop growing where even the warmest
month's mean is that low (common practice)."""

_NAMED: Final = 4
"""Gaps and errors named in a sentence before the rest are only counted."""


@frozen
class Doubt:
    """One temperature that cannot be true."""

    on: date
    what: str
    degrees_c: float

    def said(self, units: Units) -> str:
        return f"a {self.what} of {show_temperature(self.degrees_c, units)} on {spoken(self.on)}"


@frozen
class Findings:
    """What the sentences are made of: the scale, and whether it had to be guessed; the units to speak in;
    the mean maximum of the warmest month as it stands in the file and in °C; what ``Report`` counts; and
    the days on which 0 stands for both temperatures."""

    scale: Scale
    guessed: bool
    units: Units
    warmest: float
    warmest_c: float
    whole_years: int
    days: int
    missing: int
    flagged: int
    doubts: Sequence[Doubt]
    wrong_rain: int
    rain_m: float | None
    swapped: int
    duplicated: int
    gaps: Sequence[tuple[date, date]]
    blank: int


@frozen
class Report:
    """What a station file was found to hold.

    ``days`` is the length of the series; ``missing`` the days of it without a minimum, for whatever reason;
    ``flagged`` the values the weather service doubted, ``implausible`` those that cannot be true and
    ``swapped`` the days with the minimum above the maximum, all dropped; ``duplicated`` the days that stood
    there more than once, of which the last one counts. ``gaps`` are stretches of 28 days or more without a
    minimum, both ends included. ``whole_years`` are calendar years. ``remarks`` says it all in sentences.
    """

    layout: str
    station: str
    units: str
    days: int
    first: date
    last: date
    whole_years: int
    flagged: int
    missing: int
    implausible: int
    swapped: int
    duplicated: int
    gaps: tuple[tuple[date, date], ...]
    remarks: tuple[str, ...]

    @classmethod
    def of(cls, layout: str, station: str, first: date, found: Findings) -> "Report":
        """The report of what was found."""
        return cls(
            layout=layout,
            station=station,
            units=found.scale.value,
            days=found.days,
            first=first,
            last=dated(first, found.days - 1),
            whole_years=found.whole_years,
            flagged=found.flagged,
            missing=found.missing,
            implausible=len(found.doubts) + found.wrong_rain,
            swapped=found.swapped,
            duplicated=found.duplicated,
            gaps=tuple(found.gaps),
            remarks=remarks(found),
        )


def remarks(found: Findings) -> tuple[str, ...]:
    """Everything a person should know of the file, a sentence each, the most general first.

    ``rain_m`` is what the rain would come to in a year if that is more than falls anywhere.
    """
    return (
        *_on_scale(found),
        *_on_dropped(found),
        *_on_rain(found),
        *_on_missing(found),
        *_on_years(found.whole_years),
        *_on_cold(found),
    )


def whole_years(there: NDArray[np.bool_], first: date) -> int:
    """Calendar years that lack fewer than ``WHOLE_YEAR_LACKS`` minima."""
    last = first + timedelta(days=there.size - 1)
    told = np.concatenate(([0], np.cumsum(there)))
    starts = [(date(year, 1, 1) - first).days for year in range(first.year, last.year + 2)]
    edges = np.clip(starts, 0, there.size)
    lacking = np.diff(starts) - np.diff(told[edges])
    return int((lacking < WHOLE_YEAR_LACKS).sum())


def gaps(there: NDArray[np.bool_], first: date) -> tuple[tuple[date, date], ...]:
    """Stretches of ``GAP_DAYS`` days or more without a reading, both ends included."""
    around = np.concatenate(([-1], np.flatnonzero(there), [there.size]))
    wide = np.flatnonzero(np.diff(around) > GAP_DAYS)
    ends = zip(around[wide].tolist(), around[wide + 1].tolist(), strict=True)
    return tuple((dated(first, before + 1), dated(first, after - 1)) for before, after in ends)


def dated(first: date, day: int) -> date:
    return first + timedelta(days=day)


def counted(number: int, one: str) -> str:
    return f"{number:,} {one}" if number == 1 else f"{number:,} {one}s"


def _listed(said: Sequence[str]) -> str:
    more = [f"{len(said) - _NAMED} more"] if len(said) > _NAMED else []
    *others, last = [*said[:_NAMED], *more] or [""]
    return f"{', '.join(others)} and {last}" if others else last


def _on_scale(found: Findings) -> Iterator[str]:
    if found.guessed:
        yield (
            f"The file does not say its units; it was read in {found.scale.value}, for the warmest month's "
            f"mean maximum is {found.warmest:.0f}."
        )


def _on_dropped(found: Findings) -> Iterator[str]:
    if found.flagged:
        yield f"Left out: {counted(found.flagged, 'value')} that the weather service had doubts about."
    if found.doubts:
        in_order = sorted(found.doubts, key=lambda doubt: doubt.on)
        yield f"Left out, for it cannot be true: {_listed([doubt.said(found.units) for doubt in in_order])}."
    if found.swapped:
        yield f"Left out: {counted(found.swapped, 'day')} with the minimum above the maximum."
    if found.duplicated:
        yield f"{counted(found.duplicated, 'day')} stood there more than once; the last one counts."


def _on_rain(found: Findings) -> Iterator[str]:
    if found.rain_m is not None:
        yield f"Its rain would come to {found.rain_m:.0f} m a year, so its unit is another; it was left out."
    if found.wrong_rain:
        yield f"Left out: {counted(found.wrong_rain, 'reading')} of rain that cannot be true."


def _on_missing(found: Findings) -> Iterator[str]:
    if found.blank:
        yield f"{counted(found.blank, 'day')} with 0 for both temperatures were taken to have no reading."
    if found.missing:
        begin = f"{found.missing:,} of {counted(found.days, 'day')} have no minimum temperature"
        stretches = _listed([f"{spoken(begin)} to {spoken(end)}" for begin, end in found.gaps])
        yield f"{begin}, all of {stretches} among them." if found.gaps else f"{begin}."


def _on_years(years: int) -> Iterator[str]:
    if years < ROUGH_YEARS:
        yield f"{counted(years, 'whole year')} give only rough odds; thirty would be good."


def _on_cold(found: Findings) -> Iterator[str]:
    if found.warmest_c < COLD_FOR_A_GARDEN_C:
        yield (
            f"Its warmest month has a mean maximum of only {show_temperature(found.warmest_c, found.units)}, "
            "too cold for any garden; check the units of the file."
        )
