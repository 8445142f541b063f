"""What is kept of a station's years for everyday use: one small record instead of ten thousand days.

It holds all that the rules ask of a climate, so that no command but ``climate`` reads the daily series.
"""

import json
from binascii import crc32
from collections.abc import Mapping, Sequence
from typing import Any

from attrs import frozen

from cuttings.climate.frost import Freezes, Law
from cuttings.climate.heat import LONGEST_YEAR_DAYS
from cuttings.climate.wave import YEAR_DAYS, Wave

LAYOUT = 2
"""The version of the document. ``Desk.normals`` reckons a record of another version anew from the days that
are kept with it, over the same years."""

TwelveMonths = tuple[float, ...]

PARTS = 24
"""Into how many equal parts the year is cut for its warmth: half months, near enough."""

GROWTH_BASE_C, BLOOM_BASE_C = 5.0, 10.0
"""The bases of the two sums: the usual limit of growth, and the 50 °F of published bloom figures."""


def running_sums(parts: Sequence[float], begins: float) -> tuple[float, ...]:
    """What has come together by the end of each day, from a day of the year on; item 0 is 0, item 366 a year.

    Args:
        parts: what each twenty-fourth of the year brings, from 1 January.
        begins: the day of the year from which it is counted.
    """
    sums = [0.0]
    for day in range(LONGEST_YEAR_DAYS):
        part = int((begins - 1.0 + day) % YEAR_DAYS / YEAR_DAYS * PARTS)
        sums.append(sums[-1] + parts[part] * PARTS / YEAR_DAYS)
    return tuple(sums)


class OtherHemisphere(ValueError):
    """The record was kept on the other side of the equator than the garden lies."""


@frozen(cache_hash=True)
class Normals:
    """The normals of one station over a run of calendar years. Temperatures are °C, rain mm.

    Attributes:
        first_year, last_year: the calendar years whose springs and autumns are in it. winters: how many
        winters could be used for the frost dates. freezes: the last and first freezes at each threshold,
        warmest first. mean, lowest, highest: the waves of the daily mean, minimum and maximum. spread_c:
        standard deviation of single days' means about their wave. coldest_c: mean annual extreme minimum;
        ``None`` where no winter is whole enough. band_c: for each month the daily minima that one, five and
        nine nights in ten stay below. growth: degree days above 5 °C of each twenty-fourth of the year from
        1 January, by single sine. bloom: the same above 10 °C, by the average of the day's lowest and
        highest, as bloom figures are given. rain_mm: mean fall of each month; empty where the station
        measures none. southern: whether winters were taken to be those of the southern half of the earth.
    """

    station: str
    first_year: int
    last_year: int
    winters: int
    freezes: tuple[Freezes, ...]
    mean: Wave
    lowest: Wave
    highest: Wave
    spread_c: float
    coldest_c: float | None
    band_c: tuple[tuple[float, float, float], ...]
    growth: tuple[float, ...]
    bloom: tuple[float, ...]
    rain_mm: TwelveMonths = ()
    southern: bool = False

    @property
    def swing_c(self) -> float:
        """The mean daily swing, from minimum to maximum [°C]."""
        return self.highest.mean_c - self.lowest.mean_c


def to_document(normals: Normals) -> dict[str, Any]:
    """The record as a JSON-ready document. Written out, for it is read at the start of every command."""
    document: dict[str, Any] = {
        "layout": LAYOUT,
        "station": normals.station,
        "years": [normals.first_year, normals.last_year],
        "southern": normals.southern,
        "winters": normals.winters,
        "freezes": {
            str(level.threshold_f): [_law_out(law) for law in (level.spring, level.autumn, level.length)]
            for level in normals.freezes
        },
        "waves": [_wave_out(wave) for wave in (normals.mean, normals.lowest, normals.highest)],
        "spread_c": round(normals.spread_c, 4),
        "coldest_c": None if normals.coldest_c is None else round(normals.coldest_c, 4),
        "band_c": [[round(value, 2) for value in month] for month in normals.band_c],
        "growth": [round(value, 2) for value in normals.growth],
        "bloom": [round(value, 2) for value in normals.bloom],
        "rain_mm": [round(value, 2) for value in normals.rain_mm],
    }
    return {**document, "sum": _checksum(document)}


def _checksum(document: Mapping[str, Any]) -> str:
    """The CRC-32 of a document as it stands without it: a value changed by chance or by hand is noticed."""
    plain = {name: value for name, value in document.items() if name != "sum"}
    return f"{crc32(json.dumps(plain, sort_keys=True).encode()):08x}"


def to_bytes(normals: Normals) -> bytes:
    """The document as it is kept."""
    return json.dumps(to_document(normals), ensure_ascii=False).encode()


def from_document(document: Mapping[str, Any]) -> Normals:
    """The record that a document holds.

    Raises:
        ValueError: it is not such a document, or is of another version.
    """
    try:
        if document["layout"] != LAYOUT:
            raise ValueError(f"normals of layout {document['layout']!r} are not read by this version")
        if document["sum"] != _checksum(document):
            raise ValueError("the normals are not as they were written")
        first_year, last_year = document["years"]
        mean, lowest, highest = (Wave(*values) for values in document["waves"])
        return Normals(
            station=document["station"],
            first_year=first_year,
            last_year=last_year,
            winters=document["winters"],
            freezes=tuple(
                Freezes(int(threshold), Law(*spring), Law(*autumn), Law(*length))
                for threshold, (spring, autumn, length) in document["freezes"].items()
            ),
            mean=mean,
            lowest=lowest,
            highest=highest,
            spread_c=document["spread_c"],
            coldest_c=document["coldest_c"],
            band_c=tuple((month[0], month[1], month[2]) for month in document["band_c"]),
            growth=tuple(document["growth"]),
            bloom=tuple(document["bloom"]),
            rain_mm=tuple(document["rain_mm"]),
            southern=bool(document["southern"]),
        )
    except (KeyError, TypeError, IndexError) as error:
        raise ValueError(f"these are no normals ({error!r})") from error


def years_of(document: object) -> tuple[int, int] | None:
    """The years of a record of any version; ``None`` where it is no such document."""
    match document:
        case {"layout": int(), "years": [int(first), int(last)]} if first <= last:
            return first, last
    return None


def _law_out(law: Law) -> Sequence[float]:
    return [round(law.mean, 4), round(law.sd, 4), round(law.share, 6), law.years]


def _wave_out(wave: Wave) -> Sequence[float]:
    return [round(wave.mean_c, 4), round(wave.amplitude_c, 4), round(wave.peak_day, 3)]
