"""Soil and planting dates of real places against what their weather services and extensions publish.

Monthly mean air temperatures, °F: University of Wisconsin, Department of Atmospheric and Oceanic Sciences:
Minnesota temperature normals, https://aos.wisc.edu/~hopkins/climate/stations/coop/mn-81-t.txt. First frost
dates stand in for those nobody printed and no check leans on them.
"""

from datetime import date, timedelta
from statistics import median

import pytest

from cuttings.climate.climate import Climate, climate_from
from cuttings.climate.frost import frost_dates
from cuttings.climate.soil import soil_wave
from cuttings.plants.model import Bloom, Division, Plant
from cuttings.rules.bloom import bloom_stretches
from cuttings.rules.division import division_windows
from cuttings.rules.pruning import pruning_windows
from cuttings.rules.seasons import frosts
from cuttings.rules.transplant import planting_windows
from cuttings.rules.windows import potting_window
from cuttings.words import PlantType
from tests.climate.fitting import fitted
from tests.rules.gardens import normals_of

ALBERT_LEA_F = (11.8, 17.0, 30.0, 44.9, 58.1, 68.1, 72.5, 69.6, 60.2, 48.6, 32.8, 16.8)
AGASSIZ_REFUGE_F = (3.1, 9.2, 23.3, 41.1, 55.1, 63.7, 68.4, 65.7, 55.5, 44.4, 26.1, 9.6)

SIX_INCHES_M = 6 * 0.0254

FROST_IN = ("11-22", "12-21", "11-13", "12-02", "11-24", "11-30", "11-29", "11-23", "11-10", "12-04", "11-23",
            "12-01", "11-24", "11-23", "11-28", "12-19")  # fmt: skip
FROST_OUT = ("04-04", "04-12", "04-11", "03-28", "04-10", "04-02", "04-09", "04-18", "04-07", "03-16",
             "04-02", "03-16", "04-18", "04-12", "04-04", "03-09")  # fmt: skip
"""When frost went into the ground under sod, 2000 to 2015, and was out of it, 2001 to 2016: Minnesota
Department of Natural Resources, Maplewood near St. Paul,
https://www-dev.dnr.state.mn.us/climate/journal/1801_frost.html."""


def place(monthly_f: tuple[float, ...], lat: float) -> Climate:
    frost = frost_dates((5, 1), (10, 1), coldest_c=-29.0)
    assert frost is not None
    wave = fitted([(degrees - 32) / 1.8 for degrees in monthly_f])
    return climate_from(normals_of(wave, frost.levels), lat)


SOUTHERN_MINNESOTA = place(ALBERT_LEA_F, 43.6)
NORTHERN_MINNESOTA = place(AGASSIZ_REFUGE_F, 48.3)
SHRUB = Plant("Viburnum", PlantType.SHRUB, zones=(3, 8))


def middle(dates: tuple[str, ...]) -> int:
    return round(median(date(2023, int(d[:2]), int(d[3:])).timetuple().tm_yday for d in dates))


def day_of(found: date) -> int:
    return found.timetuple().tm_yday


def test_the_ground_freezes_within_a_week_of_the_median_of_sixteen_winters() -> None:
    """Albert Lea lies some 150 km south of Maplewood, and the frost was measured nearer the surface."""
    assert abs(day_of(frosts(SOUTHERN_MINNESOTA, 2026).freeze) - middle(FROST_IN)) <= 7


def test_the_ground_can_be_dug_in_the_fortnight_after_frost_is_out_of_it() -> None:
    assert 0 <= day_of(frosts(SOUTHERN_MINNESOTA, 2026).workable) - middle(FROST_OUT) <= 14


def test_northern_soil_cools_to_50_f_in_the_first_week_of_october() -> None:
    """Seeley, University of Minnesota Extension (by way of 7-Mile Creek: Real-time soil temperature
    monitoring sites), six inches deep: the first week of October in the north."""
    air = fitted([(degrees - 32) / 1.8 for degrees in AGASSIZ_REFUGE_F])
    falls = soil_wave(air, SIX_INCHES_M).falls_through(10.0)
    assert falls is not None
    assert day_of(date(2023, 10, 1)) <= falls <= day_of(date(2023, 10, 8))


def test_southern_soil_cools_to_50_f_up_to_a_fortnight_before_the_published_week() -> None:
    """The same page gives the fourth week of October in the south of the state. The plain wave is 5 to 12
    days early: autumn sun on bare ground, and a year that is no sine. It errs on the careful side."""
    air = fitted([(degrees - 32) / 1.8 for degrees in ALBERT_LEA_F])
    falls = soil_wave(air, SIX_INCHES_M).falls_through(10.0)
    assert falls is not None
    assert 4 <= day_of(date(2023, 10, 22)) - falls <= 12


def test_minnesota_plants_deciduous_trees_well_into_october() -> None:
    """Star Tribune (Minnesota DNR forestry): Fall is prime time to plant trees in Minnesota: well into
    October."""
    autumn = planting_windows(SHRUB, SOUTHERN_MINNESOTA, 2026)[-1]
    assert date(2026, 10, 15) <= autumn.closes <= date(2026, 10, 31)


def test_perennials_are_potted_by_late_september_or_early_october_in_zones_5_and_6() -> None:
    """UMass Extension: Overwintering Container-Grown Ornamentals,
    https://ag.umass.edu/landscape/fact-sheets/overwintering-container-grown-ornamentals"""
    garden = Climate(42.4, frost_dates((5, 9), (10, 2)), "5b")
    (found,) = potting_window(SHRUB, garden, 2026)
    assert date(2026, 9, 20) <= found.closes <= date(2026, 10, 10)


@pytest.mark.parametrize(("bloom", "autumn"), [((4, 5), True), ((9, 10), False)])
def test_spring_bloomers_are_divided_in_autumn_and_autumn_bloomers_in_spring(
    bloom: tuple[int, ...], autumn: bool
) -> None:
    """Chicago Botanic Garden: Dividing perennials."""
    usual = Division("spring or autumn", (4, 5, 8, 9))
    plant = Plant(
        "Aster", PlantType.PERENNIAL, division=usual, bloom=Bloom(bloom), levels={"division": "type"}
    )
    found = division_windows(plant, SOUTHERN_MINNESOTA, 2026)
    assert found
    assert all((each.opens.month >= 7) == autumn for each in found)


RIGHT_TIME = """experts123.com (after extension text): Right time to prune,
https://experts123.com/q/when-is-the-right-time-to-prune-spring-summer-and-fall-flowering-shrubs.html"""


def test_spring_bloomers_are_cut_within_two_weeks_of_bloom() -> None:
    """As ``RIGHT_TIME`` has it for shrubs that bloom from early spring to early June."""
    for name in ("Syringa vulgaris", "Forsythia", "Spiraea thunbergii"):
        shrub = Plant(name, PlantType.SHRUB, bloom=Bloom((5,), "old"))
        (found,) = pruning_windows(shrub, SOUTHERN_MINNESOTA, 2026)
        assert found.best[1] - found.best[0] == timedelta(weeks=2)
        assert found.opens == bloom_stretches(shrub, SOUTHERN_MINNESOTA, 2026)[0][1]


def test_summer_bloomers_are_cut_in_late_winter_or_early_spring() -> None:
    """As ``RIGHT_TIME`` has it for butterfly bush, rose of Sharon and their like."""
    hibiscus = Plant("Hibiscus", PlantType.SHRUB, bloom=Bloom((8, 9), "new"))
    (found,) = pruning_windows(hibiscus, SOUTHERN_MINNESOTA, 2026)
    assert date(2026, 2, 1) <= found.opens < found.best[0]
    assert found.closes <= date(2026, 4, 30)


def test_currants_gooseberries_and_raspberries_are_pruned_at_rest() -> None:
    """Penn State Extension: Gooseberries and Currants: Pruning (dormant, in March or early April before
    growth resumes); Iowa State University Extension: Pruning raspberry plants in spring, 2015 (March or early
    April); Which? Gardening: How to prune gooseberries, white currants and red currants (November to
    February)."""
    for name in ("Ribes rubrum", "Ribes uva-crispa", "Rubus idaeus", "Rubus occidentalis"):
        bush = Plant(name, PlantType.SHRUB, bloom=Bloom((5,), "old"))
        (found,) = pruning_windows(bush, SOUTHERN_MINNESOTA, 2025)
        assert found.best[0] <= date(2025, 11, 30)
        assert date(2026, 3, 1) <= found.best[1] < found.closes <= date(2026, 4, 30)


@pytest.mark.parametrize("wood", ["old", "new"])
@pytest.mark.parametrize("months", [(5, 6), (6, 7), (7, 8), (9,)])
def test_nothing_is_cut_back_in_late_summer_or_early_autumn(wood: str, months: tuple[int, ...]) -> None:
    """As ``RIGHT_TIME`` has it: soft growth would follow. Old wood that blooms late is cut in spring."""
    shrub = Plant("Hydrangea", PlantType.SHRUB, bloom=Bloom(months, wood))
    found = pruning_windows(shrub, SOUTHERN_MINNESOTA, 2026)
    assert found
    assert all(each.closes < date(2026, 8, 10) for each in found)


def test_northern_ground_freezes_before_southern_ground_and_thaws_after_it() -> None:
    north, south = frosts(NORTHERN_MINNESOTA, 2026), frosts(SOUTHERN_MINNESOTA, 2026)
    assert north.freeze < south.freeze
    assert north.workable > south.workable
