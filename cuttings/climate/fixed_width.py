"""The fixed-width layout of GHCN-Daily: one line a station, month and element.

NOAA National Centers for Environmental Information: GHCN-Daily readme, section III (format of the data
files), https://www.ncei.noaa.gov/pub/data/ghcn/daily/readme.txt. Columns: station 1-11, year 12-15, month
16-17, element 18-21, then for each of 31 days a value of five characters and its flags of measurement,
quality and source. Values are tenths of °C and of mm; -9999 is missing.
"""

import re
from typing import Final

import numpy as np
from numpy.typing import NDArray

from cuttings.climate.readings import (
    EARLIEST_YEAR,
    LATEST_YEAR,
    Days,
    Element,
    Readings,
    month_starts,
    no_row,
    one_station,
)

SPOKEN: Final = "GHCN-Daily, fixed width"
_WIDTH: Final = 21 + 31 * 8
_LINE: Final = re.compile(rb"[A-Z0-9_-]{11}\d{6}[A-Z0-9]{4}[ \d-]{4}\d")
_HEAD: Final = re.compile(rb".{11}\d{6}[A-Z0-9]{4}")
_QUALITY: Final = 6  # within a day's eight characters
_NOTHING: Final = -9999


def looks_fixed_width(content: bytes) -> bool:
    """Whether a file begins with such a line."""
    return _LINE.match(content) is not None


def read_fixed_width(content: bytes) -> Readings:
    """The minima, maxima and rain of such a file. Other elements are passed over.

    Raises:
        ValueError: the file holds several stations, or a line is damaged.
    """
    lines = [line for line in content.split(b"\n") if line.strip()]
    stations = {line[:11] for line in lines}
    stray = next((line for line in lines if not _HEAD.match(line)), None) if len(stations) > 1 else None
    if stray is not None:
        raise no_row(stray[:21].decode("latin-1"))
    months = {name: [x for x in lines if x[17:21] == name] for name in (b"TMIN", b"TMAX", b"PRCP")}
    elements, flagged = {}, 0
    for name, own in months.items():
        elements[name], dropped = _element(own)
        flagged += dropped
    return Readings(
        layout=SPOKEN,
        station=one_station(sorted(station.decode("latin-1") for station in stations)),
        in_tenths=True,
        tmin=elements[b"TMIN"],
        tmax=elements[b"TMAX"],
        rain=elements[b"PRCP"],
        flagged=flagged,
    )


def _element(lines: list[bytes]) -> tuple[Element, int]:
    """One element's readings, and how many were dropped for their quality flag."""
    table = np.frombuffer(b"".join(line[:_WIDTH].ljust(_WIDTH) for line in lines), dtype=np.uint8)
    table = table.reshape(-1, _WIDTH)
    by_day = table[:, 21:].reshape(-1, 31, 8)
    numbers, sound = _numbers(by_day[:, :, :5])
    when, sound_date = _numbers(table[:, 11:17])
    years, months = np.divmod(when, 100)
    sound_date &= (months >= 1) & (months <= 12) & (years >= EARLIEST_YEAR) & (years <= LATEST_YEAR)
    whole = sound.all(axis=1) & sound_date
    if not whole.all():
        odd = lines[int(np.argmin(whole))]
        raise ValueError(
            f"The line that begins with '{odd[:21].decode('latin-1')}' is damaged; fetch the file again."
        )
    starts = month_starts(years, months)
    lengths = month_starts(years, months + 1) - starts
    told = (numbers != _NOTHING) & (np.arange(31) < lengths[:, None]) & (by_day[:, :, 4] != ord(" "))
    doubted = told & (by_day[:, :, _QUALITY] != ord(" "))
    told &= ~doubted
    days = starts[:, None] + np.arange(31)
    return Element(days[told], numbers[told].astype(np.float64)), int(doubted.sum())


def _numbers(text: NDArray[np.uint8]) -> tuple[Days, NDArray[np.bool_]]:
    """Whole numbers set to the right in the last axis, and whether each is one (blank counts as 0)."""
    digit = (text >= ord("0")) & (text <= ord("9"))
    total = np.zeros(text.shape[:-1], dtype=np.int64)
    for place in range(text.shape[-1]):
        total = total * 10 + np.where(digit[..., place], text[..., place] - ord("0"), 0)
    minus = text == ord("-")
    sound = (digit | minus | (text == ord(" "))).all(axis=-1) & (minus.sum(axis=-1) <= 1)
    return np.where(minus.any(axis=-1), -total, total), sound
