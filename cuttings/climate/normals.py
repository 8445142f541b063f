"""What is kept of a station's years for everyday use: one small record instead of ten thousand days.

It holds all that the rules ask of a climate, so that no command but ``climate`` reads the daily series.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from attrs import frozen

from cuttings.climate.frost import Freezes, Law
from cuttings.climate.wave import Wave

LAYOUT = 1
"""The version of the document. A record of another version is reckoned anew from the daily series."""

TwelveMonths = tuple[float, ...]


@frozen(cache_hash=True)
class Normals:
    """The normals of one station over a run of calendar years. Temperatures are °C, rain mm.

    Attributes:
        first_year, last_year: the calendar years whose springs and autumns are in it.
        winters: how many winters could be used for the frost dates.
        freezes: the last and first freezes at each threshold, warmest first.
        mean, lowest, highest: the waves of the daily mean, minimum and maximum.
        spread_c: standard deviation of single days' means about their wave.
        coldest_c: mean annual extreme minimum; ``None`` where no winter is whole enough.
        band_c: for each month the daily minima that one, five and nine nights in ten stay below.
        rain_mm: mean fall of each month; empty where the station measures none.
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
    rain_mm: TwelveMonths = ()

    @property
    def swing_c(self) -> float:
        """The mean daily swing, from minimum to maximum [°C]."""
        return self.highest.mean_c - self.lowest.mean_c


def to_document(normals: Normals) -> dict[str, Any]:
    """The record as a JSON-ready document. Written out, for it is read at the start of every command."""
    return {
        "layout": LAYOUT,
        "station": normals.station,
        "years": [normals.first_year, normals.last_year],
        "winters": normals.winters,
        "freezes": {
            str(level.threshold_f): [_law_out(law) for law in (level.spring, level.autumn, level.length)]
            for level in normals.freezes
        },
        "waves": [_wave_out(wave) for wave in (normals.mean, normals.lowest, normals.highest)],
        "spread_c": round(normals.spread_c, 4),
        "coldest_c": None if normals.coldest_c is None else round(normals.coldest_c, 4),
        "band_c": [[round(value, 2) for value in month] for month in normals.band_c],
        "rain_mm": [round(value, 2) for value in normals.rain_mm],
    }


def from_document(document: Mapping[str, Any]) -> Normals:
    """The record that a document holds.

    Raises:
        ValueError: it is not such a document, or is of another version.
    """
    try:
        if document["layout"] != LAYOUT:
            raise ValueError(f"normals of layout {document['layout']!r} are not read by this version")
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
            rain_mm=tuple(document["rain_mm"]),
        )
    except (KeyError, TypeError, IndexError) as error:
        raise ValueError(f"these are no normals ({error!r})") from error


def _law_out(law: Law) -> Sequence[float]:
    return [round(law.mean, 4), round(law.sd, 4), round(law.share, 6), law.years]


def _wave_out(wave: Wave) -> Sequence[float]:
    return [round(wave.mean_c, 4), round(wave.amplitude_c, 4), round(wave.peak_day, 3)]
