"""What cold does to plants, against what is published; each check has its source beside it.

What a source says of plants, leaves or roots themselves is compared with their limits; what it says of
forecasts, with forecasts.
"""

from datetime import date

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Plant
from cuttings.plants.standard import standard
from cuttings.rules.cold import judge
from cuttings.rules.dangers import MIX_HOLDS_C
from cuttings.rules.hardiness import (
    HARM_TO_DEATH_C,
    SOFT_GROWTH,
    SOFT_SHOOTS,
    TENDER_SHOOTS,
    WINTER_ROOTS,
    Limits,
    hardened,
    root_limits,
)
from cuttings.rules.shelter import (
    BLANKET_FRAME,
    CLOSE_FRAME,
    CLOTH_C,
    FRAME_C,
    WRAPPED_C,
    Seat,
    Shelter,
    Standing,
    remedies,
)
from cuttings.units import celsius_to_fahrenheit, fahrenheit_to_celsius
from cuttings.words import PlantType, Units

NORTHERN = Climate(44.5, frost_dates((5, 10), (9, 30)), "5a")
"""An invented garden whose autumn begins at the end of September."""

PERENNIAL = Plant("Aster", PlantType.PERENNIAL, zones=(4, 8))
TENDER = Plant("Pelargonium", PlantType.TENDER_PERENNIAL)
JUNE, JANUARY = date(2026, 6, 1), date(2026, 1, 20)


def lost(limits: Limits, at_f: float) -> float:
    """The share lost of what meets a temperature itself, °F."""
    share = (limits.harm_c - fahrenheit_to_celsius(at_f)) / (limits.harm_c - limits.dead_c)
    return min(max(share, 0.0), 1.0)


def test_a_light_freeze_of_29_to_32_f_kills_tender_plants_only() -> None:
    """Old Farmer's Almanac (via WNAW): First frost of the season in Massachusetts,
    https://wnaw.com/first-frost-of-the-season-in-massachusetts-coming-real-soon/"""
    assert lost(TENDER_SHOOTS, 32) == pytest.approx(0)
    assert lost(TENDER_SHOOTS, 29) == pytest.approx(1)
    assert lost(SOFT_SHOOTS, 29) == pytest.approx(0)


def test_a_freeze_of_25_to_28_f_is_widely_destructive_and_24_f_harms_most_plants() -> None:
    """Old Farmer's Almanac (via WNAW): First frost of the season in Massachusetts,
    https://wnaw.com/first-frost-of-the-season-in-massachusetts-coming-real-soon/"""
    assert 0 < lost(SOFT_SHOOTS, 28) < lost(SOFT_SHOOTS, 25) < 1
    assert lost(SOFT_SHOOTS, 24) == pytest.approx(1)


@pytest.mark.parametrize(("low_f", "harmed"), [(32, False), (29, False), (28, True), (24, True)])
def test_plants_in_growth_are_harmed_by_moderate_freezes_and_not_by_light_ones(
    low_f: float, harmed: bool
) -> None:
    """Old Farmer's Almanac (via WNAW): First frost of the season in Massachusetts,
    https://wnaw.com/first-frost-of-the-season-in-massachusetts-coming-real-soon/: 29 to 32 F kills tender
    plants only, 25 to 28 F is widely destructive, 24 F and less harms most plants."""
    standing = Standing(plant=PERENNIAL, seat=Seat.GROUND)
    found = judge(standing, NORTHERN, JUNE, fahrenheit_to_celsius(low_f), Units.US)
    assert found.at_risk is harmed
    assert found.chance == 0
    assert celsius_to_fahrenheit(SOFT_GROWTH.dead_c) == pytest.approx(24)


@pytest.mark.parametrize(("low_f", "at_risk"), [(44, True), (46, False)])
@pytest.mark.parametrize("shelter", [Shelter.OPEN, Shelter.FRAME, Shelter.HEATED])
def test_tender_seedlings_are_not_to_meet_less_than_45_f(
    shelter: Shelter, low_f: float, at_risk: bool
) -> None:
    """UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants,
    https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants: tender seedlings are not
    exposed below 45 F; Hennepin County Master Gardeners (UMN): Start hardening off your vegetables now,
    https://hennepinmastergardeners.org/2014/05/start-hardening-off-your-vegetables-now/: warm crops suffer
    under 45 F."""
    standing = Standing(plant=TENDER, seat=Seat.POT, potted=True, soft=True, shelter=shelter)
    found = judge(standing, NORTHERN, JUNE, fahrenheit_to_celsius(low_f), Units.US)
    assert found.at_risk is at_risk


@pytest.mark.parametrize(("low_f", "at_risk"), [(-19, False), (-21, True)])
def test_a_zone_5_plant_is_at_risk_below_the_range_of_its_zone(low_f: float, at_risk: bool) -> None:
    """United States Department of Agriculture: Plant Hardiness Zone Map: zone 5 has mean annual extreme
    minima of -20 to -10 F."""
    plant = Plant("Buxus", PlantType.SHRUB, zones=(5, 8))
    standing = Standing(plant=plant, seat=Seat.GROUND)
    found = judge(standing, NORTHERN, JANUARY, fahrenheit_to_celsius(low_f), Units.US)
    assert found.at_risk is at_risk


@pytest.mark.parametrize(("low_f", "at_risk"), [(33, True), (36, True), (37, False)])
def test_tender_plants_are_at_risk_from_the_lows_of_a_frost_advisory(low_f: float, at_risk: bool) -> None:
    """Daryl Ritchison, meteorologist (National Weather Service criteria): Frost Season,
    http://darylritchison.com/frost-season/: an advisory for forecast lows of 33 to 36 F, read about 5 ft
    up."""
    standing = Standing(plant=TENDER, seat=Seat.GROUND)
    found = judge(standing, NORTHERN, JUNE, fahrenheit_to_celsius(low_f), Units.US)
    assert found.at_risk is at_risk


def test_the_same_potted_perennial_may_die_at_32_f_in_september_and_survive_7_f_in_january() -> None:
    """University of Vermont Extension (COH31): Herbaceous Perennials, Container Overwintering and Hardiness,
    http://pss.uvm.edu/ppp/pubs/coh31hardy.htm"""
    september = root_limits(PERENNIAL, hardened(NORTHERN, date(2026, 9, 15)))
    assert lost(september, 32) >= 0.5
    january = root_limits(PERENNIAL, hardened(NORTHERN, JANUARY))
    assert lost(january, 32) == 0
    assert lost(january, 8) < 1
    assert celsius_to_fahrenheit(january.dead_c) == pytest.approx(7, abs=0.5)


def test_plants_are_not_hardened_by_early_autumn_and_most_are_by_january() -> None:
    """University of Vermont Extension (COH31): Herbaceous Perennials, Container Overwintering and
    Hardiness, http://pss.uvm.edu/ppp/pubs/coh31hardy.htm: some are hardened enough by November, most fully
    by December or January."""
    assert hardened(NORTHERN, date(2026, 9, 25)) == 0
    assert 0.2 < hardened(NORTHERN, date(2026, 11, 15)) < 1
    assert hardened(NORTHERN, date(2027, 1, 25)) == 1


def test_15_of_23_potted_perennials_survive_8_c_below_freezing_in_february() -> None:
    """Journal of Environmental Horticulture (abstract): Controlled freezing of twenty-three container-grown
    herbaceous perennials (address at ``cuttings.rules.cold.FREEZING_STUDY``). Within one plant in 23."""
    survive = 1 - lost(WINTER_ROOTS, celsius_to_fahrenheit(-8))
    assert survive == pytest.approx(15 / 23, abs=1 / 23)


def test_the_weakest_potted_perennials_are_still_saleable_at_5_c_below_freezing() -> None:
    """The same abstract: Hebe and Verbena, saleable down to -5 C."""
    assert lost(WINTER_ROOTS, celsius_to_fahrenheit(-5)) == pytest.approx(0)


def test_plants_stop_being_saleable_3_to_6_c_before_they_die() -> None:
    """The same abstract."""
    assert 3 <= HARM_TO_DEATH_C <= 6


def test_roots_die_at_their_published_killing_temperature() -> None:
    """Journal of the American Rhododendron Society 37(4): Root Hardiness of Rhododendron and Azaleas,
    https://scholar.lib.vt.edu/ejournals/JARS/v37n4/v37n4-reid.htm: Exbury azalea roots at 17 F. A killing
    temperature is read as the one that kills half."""
    azalea = Plant("Rhododendron", PlantType.SHRUB, zones=(4, 8), root_kill_c=fahrenheit_to_celsius(17.0))
    assert lost(root_limits(azalea, 1.0), 17) == pytest.approx(0.5)


def test_plants_that_a_trial_froze_are_harmed_from_the_coldest_they_stayed_saleable_at() -> None:
    """Journal of Environmental Horticulture (abstract): Controlled freezing of twenty-three container-grown
    herbaceous perennials (address at ``cuttings.rules.hardiness.FREEZING_STUDY``): in February saleable down
    to -8 C, rosemary and Tiarella cordifolia; to -11 C, two phloxes; dead 3 to 6 C below that."""
    for name, saleable_c in {"Salvia rosmarinus": -8.0, "Tiarella cordifolia": -8.0, "Phlox": -11.0}.items():
        limits = root_limits(standard().plant(name), 1.0)
        assert limits.harm_c == pytest.approx(saleable_c)
        assert 3 <= limits.harm_c - limits.dead_c <= 6


def test_a_cold_frame_is_at_most_5_to_10_f_warmer_than_outdoors() -> None:
    """University of Missouri Extension G6965: Building and Using Hotbeds and Cold Frames,
    https://extension.missouri.edu./publications/g6965"""
    assert CLOSE_FRAME.warmer == FRAME_C
    assert [each * 1.8 for each in FRAME_C] == pytest.approx([5, 10])


@pytest.mark.parametrize(("low_c", "lid_alone"), [(-6.0, True), (-8.0, False)])
def test_a_frame_wants_extra_cover_below_about_7_c_of_frost(low_c: float, lid_alone: bool) -> None:
    """Toronto Master Gardeners: Covering cold frames,
    https://www.torontomastergardeners.ca/askagardener/covering-cold-frames/"""
    framed = Standing(plant=PERENNIAL, seat=Seat.POT, potted=True, shelter=Shelter.FRAME)
    offered = remedies(framed, NORTHERN, low_c)
    assert (CLOSE_FRAME in offered) is lid_alone
    assert BLANKET_FRAME in offered


def test_a_bedsheet_gives_2_to_5_f() -> None:
    """Angelina County extension agents (via KTRE): Tips on protecting plants during freezing weather, 2019,
    https://www.ktre.com/2019/11/27/east-texas-ag-news-tips-protecting-plants-during-freezing-weather/"""
    assert [each * 1.8 for each in CLOTH_C] == pytest.approx([2, 5])


def test_the_mix_of_covered_pots_is_4_to_7_c_warmer_than_the_air() -> None:
    """Journal of Environmental Horticulture 8(3): Overwintering Container-grown Herbaceous Perennials
    (abstract), https://meridian.allenpress.com/jeh/article/8/3/135/80473/Overwintering-Container-grown-Herbaceous"""
    assert all(4 <= MIX_HOLDS_C + each <= 7 for each in WRAPPED_C)
    assert MIX_HOLDS_C < 4


def test_the_mix_of_exposed_pots_can_reach_single_figures_f_and_kill_roots() -> None:
    """Iowa State University Extension: How can I over-winter unplanted perennials still in their
    containers,
    https://hortnews.extension.iastate.edu/faq/how-can-i-over-winter-unplanted-perennials-still-their-containers"""
    exposed = Standing(plant=PERENNIAL, seat=Seat.POT, potted=True)
    low_c = fahrenheit_to_celsius(9.0) - MIX_HOLDS_C
    assert judge(exposed, NORTHERN, JANUARY, low_c, Units.US).chance > 0.5
