"""Writes station files in every layout that is read, from readings in whole tenths. All invented."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from itertools import groupby

from attrs import frozen

from cuttings.demo.weather import daily_lines
from cuttings.words import Units

STATION = "XX000000001"
ELEMENTS = ("TMAX", "TMIN", "PRCP")


@frozen
class Day:
    """One day's readings in tenths of °C and of mm; ``None`` where there is none. ``quality`` holds the flags
    of the weather service by element."""

    on: date
    tmin: int | None
    tmax: int | None
    rain: int | None = None
    quality: Mapping[str, str] = {}

    def reading(self, element: str) -> int | None:
        return {"TMIN": self.tmin, "TMAX": self.tmax, "PRCP": self.rain}[element]


Days = Sequence[Day]


def quarry_bank_days(last_year: int = 2025, years: int = 30) -> list[Day]:
    """The invented garden's weather in tenths."""
    return list(_from_plain(daily_lines(last_year, years)))


def _from_plain(lines: Iterator[str]) -> Iterator[Day]:
    for line in lines:
        if line[0].isdigit():
            on, low, high, rain = line.split(",")
            yield Day(
                on=date.fromisoformat(on),
                tmin=round((int(low) - 32) / 0.18),
                tmax=round((int(high) - 32) / 0.18),
                rain=round(float(rain) * 254),
            )


def fixed_width(days: Days, station: str = STATION) -> bytes:
    """GHCN-Daily as fixed-width lines, with an element that nobody asked for among them."""
    lines = []
    for (year, month), group in groupby(days, key=lambda day: (day.on.year, day.on.month)):
        within = {day.on.day: day for day in group}
        for element in (*ELEMENTS, "SNWD"):
            fields = [_fixed(within.get(number), element) for number in range(1, 32)]
            lines.append(f"{station:11}{year}{month:02d}{element}{''.join(fields)}")
    return "".join(f"{line}\n" for line in lines).encode()


def _fixed(day: Day | None, element: str) -> str:
    reading = 0 if element == "SNWD" and day else day and day.reading(element)
    if day is None or reading is None:
        return "-9999   "
    return f"{reading:5d} {day.quality.get(element, ' ')}7"


def by_value(days: Days, station: str = STATION, *, headed: bool = False) -> bytes:
    """GHCN-Daily with one value a row."""
    rows = ["ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME"] if headed else []
    for element in ELEMENTS:
        for day in days:
            reading = day.reading(element)
            if reading is not None:
                flag = day.quality.get(element, "")
                rows.append(f"{station},{day.on:%Y%m%d},{element},{reading},,{flag},7,0700")
    return "".join(f"{row}\n" for row in rows).encode()


def with_attributes(days: Days, station: str = STATION) -> bytes:
    """GHCN-Daily with a column for each element, in tenths, each with its attributes."""
    names = ",".join(f'"{element}","{element}_ATTRIBUTES"' for element in ELEMENTS)
    rows = [f'"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME",{names}']
    place = '"42.9","-76.1","330.0","QUARRY BANK, XX"'
    for day in days:
        cells = []
        for element in ELEMENTS:
            reading, flag = day.reading(element), day.quality.get(element, "")
            cells.append(',""' if reading is None else f'"{reading:5d}",",{flag},7,0700"')
        rows.append(f'"{station}","{day.on}",{place},{",".join(cells)}')
    return "".join(f"{row}\n" for row in rows).encode()


def by_element(days: Days, station: str = STATION, units: Units = Units.METRIC) -> bytes:
    """A table with a column for each element, in °C and mm or in whole °F and inches."""
    rows = ['"STATION","NAME","DATE","PRCP","TMAX","TMIN"']
    for day in days:
        cells = ",".join(
            f'"{text}"'
            for text in (shown_rain(day.rain, units), shown(day.tmax, units), shown(day.tmin, units))
        )
        rows.append(f'"{station}","QUARRY BANK, XX","{day.on}",{cells}')
    return "".join(f"{row}\n" for row in rows).encode()


def plain(days: Days, units: Units = Units.METRIC, *, headed: bool = True) -> bytes:
    """Plain rows of day, minimum, maximum and rain."""
    rows = ["date,tmin,tmax,rain"] if headed else []
    for day in days:
        cells = shown(day.tmin, units), shown(day.tmax, units), shown_rain(day.rain, units)
        rows.append(f"{day.on},{','.join(cells)}")
    return "".join(f"{row}\n" for row in rows).encode()


def shown(tenths: int | None, units: Units) -> str:
    """A temperature as a file has it: °C with a fraction or whole °F."""
    if tenths is None:
        return ""
    return f"{tenths / 10:.1f}" if units is Units.METRIC else f"{round(tenths * 0.18 + 32)}"


def shown_rain(tenths: int | None, units: Units) -> str:
    """Rain as a file has it: mm or hundredths of an inch."""
    if tenths is None:
        return ""
    return f"{tenths / 10:.1f}" if units is Units.METRIC else f"{tenths / 254:.2f}"


LAYOUTS: Mapping[str, Callable[[Days], bytes]] = {
    "fixed width": fixed_width,
    "one value a row": by_value,
    "with attributes": with_attributes,
    "a column for each element": by_element,
    "plain rows": plain,
}
