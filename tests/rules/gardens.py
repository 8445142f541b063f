"""Gardens and plants the rule tests are tried on; all invented."""

from datetime import date

from hypothesis import strategies as st

from cuttings.climate.climate import Climate, climate_from
from cuttings.climate.frost import THRESHOLDS_F, Freezes, Law, frost_dates
from cuttings.climate.normals import BLOOM_BASE_C, GROWTH_BASE_C, PARTS, Normals
from cuttings.climate.soil import WARMER_AT_0_C, WARMER_PER_C
from cuttings.climate.wave import Wave
from cuttings.plants.model import Bloom, Division, Plant, Way
from cuttings.rules.advice import Window
from cuttings.words import Drainage, Method, PlantType

COLD = Climate(42.9, frost_dates((5, 14), (9, 28)), "5b")
SOUTHERN = Climate(-43.5, frost_dates((10, 20), (4, 25)), "8b")
COLD_LEVELS = () if COLD.frost is None else COLD.frost.levels
UNKNOWN = Climate(42.9)
UNKNOWN_SOUTH = Climate(-43.5)

CURRANT = Plant(
    "Ribes rubrum",
    PlantType.SHRUB,
    zones=(3, 7),
    ways=(
        Way(Method.HARDWOOD_CUTTING, months=(11, 12, 1, 2), rooting_days=(60, 120)),
        Way(Method.SIMPLE_LAYER, months=(4, 5), rooting_days=(90, 180)),
    ),
)
BOX = Plant("Buxus sempervirens", PlantType.SHRUB, zones=(5, 8), evergreen=True)
IRIS = Plant(
    "Iris sibirica",
    PlantType.PERENNIAL,
    zones=(3, 8),
    division=Division("early spring or early autumn", (4, 9, 10), source="an almanac"),
)
ROSEMARY = Plant("Salvia rosmarinus", PlantType.SUBSHRUB, zones=(8, 10), evergreen=True)
DAHLIA = Plant("Dahlia", PlantType.TENDER_PERENNIAL, ways=(Way(Method.TUBER_DIVISION),))
SNOWDROP = Plant("Galanthus nivalis", PlantType.BULB, zones=(3, 7), bloom=Bloom((2, 3)))
DAFFODIL = Plant("Narcissus", PlantType.BULB, zones=(3, 8), bloom=Bloom((4,)))
BRAMBLE = Plant("Rubus occidentalis", PlantType.SHRUB, zones=(4, 8))
LAVENDER = Plant("Lavandula", PlantType.SUBSHRUB, drainage=(Drainage.SHARP,))

PLANTS = (CURRANT, BOX, IRIS, ROSEMARY, DAHLIA, SNOWDROP, DAFFODIL, BRAMBLE, LAVENDER)

days = st.dates(date(2000, 1, 1), date(2100, 12, 31))
years = st.integers(2000, 2100)
plants = st.sampled_from(PLANTS)
month_days = st.dates(date(2023, 1, 1), date(2023, 12, 31)).map(lambda day: (day.month, day.day))


def even_normals(soil_c: float) -> Normals:
    """A place whose soil is as warm as that at root depth all the year; no garden has it."""
    air = (soil_c - WARMER_AT_0_C) / (1.0 + WARMER_PER_C)
    return normals_of(Wave(air, 0.0, 201.0), ())


def normals_of(mean: Wave, freezes: tuple[Freezes, ...], rain_mm: tuple[float, ...] = ()) -> Normals:
    """Normals with that mean wave, a swing of ten degrees, and those freezes."""
    lowest, highest = (Wave(mean.mean_c + half, mean.amplitude_c, mean.peak_day) for half in (-5.0, 5.0))
    band = ((mean.mean_c - 10.0, mean.mean_c - 5.0, mean.mean_c),) * 12
    growth, bloom = (
        tuple(max(mean.at(8 + 15.2 * part) - base, 0.0) * 365.25 / PARTS for part in range(PARTS))
        for base in (GROWTH_BASE_C, BLOOM_BASE_C)
    )
    return Normals(
        "a station", 1991, 2020, 30, freezes, mean, lowest, highest, 4.0, mean.mean_c - 30.0, band, growth,
        bloom, rain_mm,
    )  # fmt: skip


@st.composite
def climates(draw: st.DrawFn) -> Climate:
    """Any garden from -60 to 65 degrees: with any frost dates at all, sensible or not, or none; or with a
    record, which may be that of a place without frost."""
    lat = draw(st.floats(-60, 65))
    if draw(st.booleans()):
        return draw(measured(lat))
    frost = frost_dates(draw(month_days), draw(month_days)) if draw(st.booleans()) else None
    return Climate(lat, frost, draw(st.sampled_from(("", "3", "5b", "9a"))))


@st.composite
def measured(draw: st.DrawFn, lat: float) -> Climate:
    """A garden that goes by a station: any wave, any laws that follow from one another, any share of
    winters."""
    turn = 182.6 if lat < 0 else 0.0
    mean = Wave(draw(st.floats(-12, 28)), draw(st.floats(0, 25)), 201 + turn + draw(st.floats(-60, 60)))
    spring, autumn = draw(st.floats(20, 180)) + turn, draw(st.floats(205, 380)) + turn
    share, sd, step = draw(st.floats(0, 1)), draw(st.floats(3, 25)), draw(st.floats(5, 18))
    levels = []
    for threshold in THRESHOLDS_F:
        steps = (32 - threshold) / 4 * step
        last, first = Law(spring - steps, sd, share, 30), Law(autumn + steps - 2 * turn, sd, share, 30)
        levels.append(Freezes(threshold, last, first, Law(autumn - spring + 2 * steps, sd, share, 30)))
        share = share if threshold > 32 else share * draw(st.floats(0.3, 1))
    rain = tuple(draw(st.lists(st.floats(0, 150), min_size=12, max_size=12))) if draw(st.booleans()) else ()
    return climate_from(normals_of(mean, tuple(levels), rain), lat, draw(st.sampled_from((0.02, 0.1, 0.3))))


def in_order(window: Window) -> bool:
    first, last = window.best
    return window.opens <= first <= last <= window.closes
