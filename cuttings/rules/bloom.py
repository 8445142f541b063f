"""When a plant flowers in this garden: as the keeper saw it, by degree days, or by the catalogue's months."""

from datetime import date, timedelta

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.months import month_stretches
from cuttings.rules.seasons import Stretch
from cuttings.rules.warmth import bloom_warmth, count_begins, paced
from cuttings.units import fahrenheit_difference

OHIO = "Ohio State University Extension: Secrest Arboretum: Just Before Spring, 2020"
"""First bloom (one flower in twenty open) in degree days above 50 °F from 1 January,
https://bygl.osu.edu/node/1452."""

CLARK = "Ohio State University Extension Clark County: Plant Development and Growing Degree Days"
LILAC = "Growing degree day maps (figures of UMass, UW and Penn State, by way of a garden column)"
SERVICEBERRY = "Growing Degree Days explained (UMass figures, by way of a garden column)"

FIRST_BLOOM_F: dict[str, tuple[float, str]] = {
    "Cornus mas": (40.0, OHIO),
    "Acer rubrum": (44.0, OHIO),
    "Forsythia": (86.0, OHIO),
    "Amelanchier": (75.0, SERVICEBERRY),
    "Pyrus calleryana": (142.0, CLARK),
    "Syringa vulgaris": (238.0, LILAC),
}
"""Degree days (°F) above 50 °F from 1 January to first bloom, by plant or genus. Two Ohio pages differ by
five on border forsythia, and years differ from one another by about 15 %."""

INTO_THE_MONTH_DAYS = 10
"""Where only months of bloom are known, the first flower is looked for so long after they begin; from
memory."""

A_MONTH_OF_BLOOM_DAYS = 21
"""How long flowers last from the first one, for each month that the catalogue names; from memory."""


@frozen
class FirstBloom:
    """The day of a year's first flower; ``published`` where degree days tell it, not the month alone."""

    on: date
    published: bool
    why: str
    source: str


def first_bloom(plant: Plant, climate: Climate, year: int) -> FirstBloom | None:
    """When a plant's first flower is to be expected in a year, at the normal pace; ``None`` where nothing
    tells."""
    figure = FIRST_BLOOM_F.get(plant.name) or FIRST_BLOOM_F.get(plant.genus)
    if figure is not None:
        wanted, source = figure
        day = _day_of_bloom_warmth(climate, year, fahrenheit_difference(wanted))
        begins = "1 July" if climate.southern else "New Year"
        why = f"at {wanted:.0f} degree days above 50 °F since {begins}"
        return None if day is None else FirstBloom(day, True, why, source)
    if plant.bloom is None or not plant.bloom.months:
        return None
    opens = month_stretches(plant.bloom.months, climate, year)[0][0]
    on = opens + timedelta(days=INTO_THE_MONTH_DAYS)
    return FirstBloom(on, False, "early in its months of bloom, roughly", plant.source_of("bloom"))


def _day_of_bloom_warmth(climate: Climate, year: int, degree_days_c: float) -> date | None:
    """The day by which so many degree days above 10 °C are to be expected since New Year (1 July in the
    south)."""
    day = next((number for number, total in enumerate(bloom_warmth(climate)) if total >= degree_days_c), None)
    begins = count_begins(climate, date(year, 7, 1))
    return None if day is None else begins + timedelta(days=max(day, 1) - 1)


def bloom_stretches(plant: Plant, climate: Climate, year: int) -> tuple[Stretch, ...]:
    """When a plant flowers in a year, each run of its months by itself, at the season's own pace.

    The first run begins with the flower that the keeper saw, or when degree days bring it; else it is the
    months.
    """
    if plant.bloom is None or not plant.bloom.months:
        return ()
    runs = month_stretches(plant.bloom.months, climate, year)
    seen = None if climate.pace is None else climate.pace.first_bloom(plant.name, year)
    expected = first_bloom(plant, climate, year)
    if seen is None and (expected is None or not expected.published):
        return runs
    opens = seen or paced(climate, expected.on if expected is not None else runs[0][0])
    months = max(round(((runs[0][1] - runs[0][0]).days + 1) / 30), 1)
    return ((opens, opens + timedelta(days=A_MONTH_OF_BLOOM_DAYS * months)), *runs[1:])
