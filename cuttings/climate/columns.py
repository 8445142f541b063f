"""Station files with columns: one value a row, or one day a row.

The first kind is that of GHCN-Daily by year and by station: station, day, element, value in tenths, and the
flags of measurement, quality and source (NOAA National Centers for Environmental Information: readme-by_year,
https://www.ncei.noaa.gov/pub/data/ghcn/daily/by_year/readme-by_year.txt). The second has a column for each
element, whose attributes, if there are any, hold the same flags with commas between them (the same:
GHCN-Daily documentation, https://www.ncei.noaa.gov/pub/data/cdo/documentation/GHCND_documentation.pdf).
"""

import csv
import re
from collections.abc import Callable, Mapping, Sequence
from itertools import compress, repeat, zip_longest
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from cuttings.climate.readings import Element, Readings, day_numbers, no_row, numbers, one_station
from cuttings.climate.scales import AS_KELVINS_HEADED
from cuttings.words import Units

BY_VALUE: Final = "GHCN-Daily, one value a row"
BY_ELEMENT: Final = "one day a row, a column for each element"
PLAIN: Final = "plain rows of day, minimum and maximum"

Column = Sequence[str]


def _spelt(*words: str) -> frozenset[str]:
    """A word alone, and before or behind what says that it is of a temperature."""
    what = ("temp", "temperature", "airtemp", "airtemperature")
    return frozenset(
        {
            *words,
            *(f"{word}{of}" for word in words for of in what),
            *(f"{of}{word}" for word in words for of in what),
        }
    )


NAMES: Final[Mapping[str, frozenset[str]]] = {
    "day": frozenset({"date", "day"}),
    "tmin": frozenset({"tmin", "tn", "low", "tminc", "tminf"}) | _spelt("min", "minimum"),
    "tmax": frozenset({"tmax", "tx", "high", "tmaxc", "tmaxf"}) | _spelt("max", "maximum"),
    "rain": frozenset({"rain", "prcp", "precip", "precipitation", "rainfall", "rainmm", "rainin"}),
    "station": frozenset({"station", "stationid"}),
    "tmin flags": frozenset({"tminattributes"}),
    "tmax flags": frozenset({"tmaxattributes"}),
    "rain flags": frozenset({"prcpattributes"}),
}
"""What a heading may be called, written small and without anything but letters."""

_WITH_UNIT: Final = frozenset({"tminc", "tminf", "tmaxc", "tmaxf"})

UNNAMED: Final = ("day", "tmin", "tmax", "rain")
"""The order of columns that have no headings."""

_ELEMENTS: Final = ("TMIN", "TMAX", "PRCP")
_DAY: Final = re.compile(r"\s*\d{4}-?\d{2}-?\d{2}\b")
_ELEMENT: Final = re.compile(r"[A-Z]{2}[A-Z0-9]{2}$")
_UNIT: Final = re.compile(
    r"(?:\s+in)?(?:[\s_.,/(\[°º-]+(?:deg(?:rees?)?[\s._]*)?|deg(?:rees?)?[\s._]+)"
    r"(c|celsius|centigrade|f|fahrenheit|k|kelvins?)\b[\s.)\]]*$"
)
"""The unit of a temperature behind the name of its column, and what stands between."""

_NOT_A_LETTER: Final = re.compile(r"[(\[°].*|[^a-z]")
"""What is not looked at in a heading: whatever stands in brackets, and all marks."""

WHAT_IS_READ: Final = (
    "It has to be a daily file of the GHCN (fixed width or with commas), a table with columns for DATE, TMIN "
    "and TMAX, or plain rows of date, tmin, tmax and, if you like, rain."
)


@frozen(eq=False)
class _Table:
    """Columns by what they hold, the number of rows, and what the headings say of the units."""

    columns: Mapping[str, Column]
    rows: int
    told: Units | None

    def element(self, name: str) -> tuple[NDArray[np.float64], int]:
        """One element's values, and how many were dropped for their quality flag."""
        if name not in self.columns:
            return np.full(self.rows, np.nan), 0
        values = numbers(self.columns[name], trace=name == "rain")
        flags = self.columns.get(f"{name} flags")
        if flags is None:
            return values, 0
        doubted = _marked(flags, lambda text: _quality(text) != "") & ~np.isnan(values)
        values[doubted] = np.nan
        return values, int(doubted.sum())


def read_columns(text: str) -> Readings:
    """The minima, maxima and rain of a file with columns, whatever its separator.

    Lines that begin with ``#`` before the first row are remarks. With semicolons or tabs between columns,
    a comma within a number is a decimal one.

    Raises:
        ValueError: the columns cannot be made out, a day or a reading cannot be read, or the file holds
            several stations; the sentence says what to do.
    """
    rows = _rows(text)
    if _is_by_value(rows):
        return _by_value(rows)
    return _by_day(_table(rows))


def _rows(text: str) -> list[list[str]]:
    lines = text.splitlines()
    start = next((at for at, line in enumerate(lines) if line.strip() and not line.startswith("#")), None)
    if start is None:
        raise ValueError(f"The file is empty. {WHAT_IS_READ}")
    separator = next((mark for mark in "\t;" if mark in lines[start]), ",")
    if separator != ",":
        lines = [line.replace(",", ".") for line in lines]
    try:
        rows = [row for row in csv.reader(lines[start:], delimiter=separator) if any(row)]
    except csv.Error as error:
        raise ValueError(f"The file cannot be read as rows ({error}). {WHAT_IS_READ}") from None
    if not rows:
        raise ValueError(f"The file is empty. {WHAT_IS_READ}")
    return rows


def _turned(rows: Sequence[Sequence[str]]) -> list[Column]:
    """Columns in place of rows; a row cut short is filled up with blanks."""
    if len(set(map(len, rows))) > 1:
        return list(zip_longest(*rows, fillvalue=""))
    return list(zip(*rows, strict=True))


def _is_by_value(rows: Sequence[Sequence[str]]) -> bool:
    """Whether rows are station, day, element, value and so on, with or without headings."""
    first = rows[0]
    if len(first) < 4:
        return False
    headed = first[2].strip().casefold() == "element"
    return headed or (_DAY.match(first[1]) is not None and _ELEMENT.match(first[2]) is not None)


def _by_value(rows: Sequence[Sequence[str]]) -> Readings:
    if not _DAY.match(rows[0][1]):
        rows = rows[1:]
    if not rows:
        raise ValueError(f"The file has headings and no rows. {WHAT_IS_READ}")
    columns = _turned(rows)
    station = _station(columns[0], columns[1])
    which = {name: number for number, name in enumerate(_ELEMENTS)}
    element = np.fromiter(map(which.get, columns[2], repeat(-1)), np.int8, len(rows))
    wanted = element >= 0
    if not wanted.all():
        columns = [tuple(compress(column, wanted.tolist())) for column in columns]
        element = element[wanted]
    days, values = day_numbers(columns[1]), numbers(columns[3])
    doubted = ~np.isnan(values)
    doubted &= _marked(columns[5], lambda text: text.strip() != "") if len(columns) > 5 else False
    told = [(element == number) & ~doubted for number in range(len(_ELEMENTS))]
    tmin, tmax, rain = (Element(days[own], values[own]) for own in told)
    return Readings(BY_VALUE, station, True, tmin, tmax, rain, int(doubted.sum()))


def _station(names: Column, days: Column) -> str:
    """The one station of the rows.

    Raises:
        ValueError: there are several, or a line is no row.
    """
    stations = sorted({name.strip() for name in set(names)} - {""})
    if len(stations) > 1:
        for name, day in zip(names, days, strict=True):
            if not _DAY.match(day):
                raise no_row(name or day)
    return one_station(stations)


def _marked(written: Column, is_marked: Callable[[str], bool]) -> NDArray[np.bool_]:
    """Which of the texts are marked; few different ones are ever written."""
    known = {text: is_marked(text) for text in set(written)}
    return np.fromiter(map(known.__getitem__, written), np.bool_, len(written))


def _quality(attributes: str) -> str:
    """The quality flag among a value's attributes: measurement, quality, source and perhaps the hour."""
    parts = re.split("[,.]", attributes)
    return parts[1].strip() if len(parts) > 1 else ""


def _table(rows: Sequence[Sequence[str]]) -> _Table:
    """The columns of a file with one day a row.

    Raises:
        ValueError: there is no day, minimum or maximum among them.
    """
    headings, told = [_heading(each) for each in rows[0]], None
    if _DAY.match(rows[0][0]) and 3 <= len(rows[0]) <= len(UNNAMED):
        where = {name: at for at, name in enumerate(UNNAMED[: len(rows[0])])}
    else:
        named = [name for name, _ in headings]
        where = {what: named.index(name) for what, names in NAMES.items() for name in named if name in names}
        told = _told({headings[where[name]][1] for name in ("tmin", "tmax") if name in where})
        rows = rows[1:]
    lacking = [name for name in ("day", "tmin", "tmax") if name not in where]
    if lacking or not rows:
        what = f"no column for {' or '.join(lacking)}" if lacking else "headings and no rows"
        raise ValueError(f"The file has {what}. {WHAT_IS_READ}")
    columns = _turned(rows)
    blank = ("",) * len(rows)
    held = {name: columns[at] if at < len(columns) else blank for name, at in where.items()}
    return _Table(held, len(rows), told)


def _heading(text: str) -> tuple[str, str]:
    """The bare name in a heading, and the first letter of the unit behind it; empty where there is none."""
    text = text.casefold()
    unit = _UNIT.search(text)
    name = _NOT_A_LETTER.sub("", text[: unit.start()] if unit else text)
    if unit is None and name in _WITH_UNIT:
        return name, name[-1]
    return name, unit[1][0] if unit else ""


def _told(letters: set[str]) -> Units | None:
    """The units that the headings of minimum and maximum say.

    Raises:
        ValueError: they say different ones, or kelvins.
    """
    letters = letters - {""}
    if "k" in letters:
        raise ValueError(AS_KELVINS_HEADED)
    if len(letters) > 1:
        raise ValueError(
            "The headings say °F for one of minimum and maximum and °C for the other; bring both into one "
            "unit and load the file again."
        )
    return {"c": Units.METRIC, "f": Units.US}.get("".join(letters))


def _by_day(table: _Table) -> Readings:
    named, written = table.columns.get("station", ()), table.columns["day"]
    station = _station(named, written) if named else ""
    days = day_numbers(written)
    (tmin, first), (tmax, second), (rain, third) = map(table.element, ("tmin", "tmax", "rain"))
    from_a_service = not table.columns.keys().isdisjoint(("station", "tmin flags", "tmax flags"))
    return Readings(
        layout=BY_ELEMENT if from_a_service else PLAIN,
        station=station,
        in_tenths=False,
        tmin=Element(days, tmin),
        tmax=Element(days, tmax),
        rain=Element(days, rain),
        flagged=first + second + third,
        told=table.told,
    )
