"""What the layouts of station files have in common: readings as they stand in the file, with their days.

Days are ordinals as ``date.toordinal`` counts them.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from cuttings.words import Units

Days = NDArray[np.int64]
Numbers = NDArray[np.float64]

EARLIEST_YEAR: Final = 1700
LATEST_YEAR: Final = 2199
"""The years that a daily reading can be of; the oldest daily thermometer records begin in the 1700s."""

MISSING_WORDS: Final = frozenset({"", "M", "NA", "N/A", "NAN", "NULL", "-", "--"})
MISSING_NUMBERS: Final = frozenset({-9999.0, 9999.0, -999.9})
"""What stands in the open formats where there is no reading."""

TRACE_WORDS: Final = frozenset({"T", "TR", "TRACE"})
"""Rain too little to measure; it counts as none."""

_LISTED: Final = 8
"""Stations named in a sentence before the rest are only counted."""

FIRST_OF_1970: Final = 719_163
"""The ordinal from which numpy counts days."""

_ISO_DIGITS: Final = (0, 1, 2, 3, 5, 6, 8, 9)
_DASHES: Final = (4, 7)


@frozen(eq=False)
class Element:
    """Readings of one element: days and values, both of shape (n,), in the order of the file.

    Values are in the file's own units, NaN where there is none. A day may come more than once.
    """

    days: Days
    values: Numbers


@frozen(eq=False)
class Readings:
    """What a station file holds, before anything is made of it.

    ``in_tenths`` says that the layout itself means tenths of °C and of mm. ``flagged`` counts the values
    that were dropped because the weather service doubted them. ``told`` is what the headings say of the
    units.
    """

    layout: str
    station: str
    in_tenths: bool
    tmin: Element
    tmax: Element
    rain: Element
    flagged: int
    told: Units | None = None


def month_starts(years: Days, months: Days) -> Days:
    """The ordinals of the first days of months (a month of 13 is the next January)."""
    since = ((years - 1970) * 12 + months - 1).astype("datetime64[M]")
    return since.astype("datetime64[D]").astype(np.int64) + FIRST_OF_1970


def day_numbers(written: Sequence[str]) -> Days:
    """The ordinals of days written ``YYYY-MM-DD`` or ``YYYYMMDD``, all of them alike.

    Raises:
        ValueError: one of them is no such day; the sentence names it.
    """
    lengths = set(map(len, written))
    if not lengths <= {8} and not lengths <= {10}:
        written = [_bare(text) for text in written]
        lengths = set(map(len, written))
    if lengths <= {10}:
        bytes_ = _matrix(written, 10)
        digits = bytes_[:, _ISO_DIGITS]
        sound = (bytes_[:, _DASHES] == ord("-")).all(axis=1)
    elif lengths <= {8}:
        digits = _matrix(written, 8)
        sound = np.ones(len(written), dtype=bool)
    else:
        odd = next(text for text in written if len(text) not in (8, 10) or len(text) != len(written[0]))
        raise ValueError(_no_day(odd))
    sound &= ((digits >= ord("0")) & (digits <= ord("9"))).all(axis=1)
    figures = digits.astype(np.int64) - ord("0")
    years = figures[:, :4] @ np.array([1000, 100, 10, 1])
    months, in_month = figures[:, 4] * 10 + figures[:, 5], figures[:, 6] * 10 + figures[:, 7]
    sound &= (months >= 1) & (months <= 12) & (years >= EARLIEST_YEAR) & (years <= LATEST_YEAR)
    if sound.all():
        starts, nexts = month_starts(years, months), month_starts(years, months + 1)
        sound &= (in_month >= 1) & (in_month <= nexts - starts)
    if not sound.all():
        raise ValueError(_no_day(written[int(np.argmin(sound))]))
    return starts + in_month - 1


def _bare(text: str) -> str:
    """A day without the blanks round it or the hour after it."""
    text = text.strip()
    return text[:10] if text[10:11] in ("T", " ") else text


def _matrix(written: Sequence[str], width: int) -> NDArray[np.uint8]:
    text = "".join(written).encode("latin-1", "replace")
    return np.frombuffer(text, dtype=np.uint8).reshape(-1, width)


def _no_day(text: str) -> str:
    return (
        f"'{text.strip()}' stands where a day should; days are written YYYY-MM-DD or YYYYMMDD, all of them "
        f"the same way, from {EARLIEST_YEAR} to {LATEST_YEAR}."
    )


def numbers(written: Sequence[str], *, trace: bool = False) -> Numbers:
    """Numbers as they are written, NaN for those that stand for a missing one; shape (n,).

    With ``trace``, the words for a trace of rain are 0. Few different readings are ever written, so each
    is understood once.

    Raises:
        ValueError: one of them is no number; the sentence names it.
    """
    understood = {text: _number(text, trace) for text in set(written)}
    return np.fromiter(map(understood.__getitem__, written), np.float64, len(written))


def _number(text: str, trace: bool) -> float:
    word = text.strip().upper()
    if word in MISSING_WORDS:
        return np.nan
    if trace and word in TRACE_WORDS:
        return 0.0
    try:
        number = float(word)
    except ValueError:
        raise ValueError(
            f"'{text.strip()}' stands where a reading should; mend it, or leave it blank if there was none."
        ) from None
    return np.nan if number in MISSING_NUMBERS or not np.isfinite(number) else number


def no_row(begins: str) -> ValueError:
    """Of a line in the middle of a file that is none of its rows, by how it begins."""
    return ValueError(
        f"The line that begins with '{begins.strip()}' is no row of this file; take it out, or fetch the "
        "file again."
    )


def one_station(stations: Sequence[str]) -> str:
    """The one station of a file; empty where the file names none.

    Raises:
        ValueError: the file holds several; the sentence lists them.
    """
    if len(stations) > 1:
        more = f" and {len(stations) - _LISTED} more" if len(stations) > _LISTED else ""
        raise ValueError(
            f"The file holds {len(stations)} stations ({', '.join(stations[:_LISTED])}{more}); "
            "keep the lines of the one nearest to the garden in climate and height, and load that."
        )
    return stations[0].strip() if stations else ""
