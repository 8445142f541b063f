"""Gardens and plants the rule tests are tried on; all invented."""

from datetime import date

from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Bloom, Division, Plant, Way
from cuttings.rules.advice import Window
from cuttings.words import Drainage, Method, PlantType

COLD = Climate(42.9, frost_dates((5, 14), (9, 28)), "5b")
SOUTHERN = Climate(-43.5, frost_dates((10, 20), (4, 25)), "8b")
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


@st.composite
def climates(draw: st.DrawFn) -> Climate:
    """Any garden from -60 to 65 degrees, with any frost dates at all, sensible or not, or none."""
    lat = draw(st.floats(-60, 65))
    frost = frost_dates(draw(month_days), draw(month_days)) if draw(st.booleans()) else None
    return Climate(lat, frost, draw(st.sampled_from(("", "3", "5b", "9a"))))


def in_order(window: Window) -> bool:
    first, last = window.best
    return window.opens <= first <= last <= window.closes
