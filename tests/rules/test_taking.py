"""When material is taken, and every window of every plant in every garden."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant, Way
from cuttings.plants.standard import standard
from cuttings.rules.phases import dormancy, short_shoots
from cuttings.rules.seasons import frosts
from cuttings.rules.taking import next_taking, taking_windows
from cuttings.rules.windows import hardening_window, potting_window, windows_of
from cuttings.words import Method, PlantType
from tests.rules.gardens import (
    BOX,
    COLD,
    CURRANT,
    DAHLIA,
    IRIS,
    ROSEMARY,
    SNOWDROP,
    SOUTHERN,
    UNKNOWN,
    climates,
    days,
    in_order,
    years,
)

CATALOGUE = standard()
ANY_PLANT = st.sampled_from(tuple(CATALOGUE))


def test_hardwood_is_taken_from_leaf_fall_until_the_buds_move() -> None:
    (found,) = taking_windows(CURRANT, Way(Method.HARDWOOD_CUTTING), COLD, 2026)
    assert (found.opens, found.closes) == dormancy(COLD, 2026)
    assert found.what == "take hardwood cuttings of Ribes rubrum"


def test_an_evergreen_goes_by_its_months() -> None:
    (found,) = taking_windows(BOX, Way(Method.HARDWOOD_CUTTING, months=(10, 11)), COLD, 2026)
    assert found.opens == date(2026, 10, 1)


def test_basal_shoots_are_taken_while_they_are_short() -> None:
    (found,) = taking_windows(DAHLIA, Way(Method.BASAL_CUTTING, months=(4,)), COLD, 2026)
    assert (found.opens, found.closes) == short_shoots(COLD, 2026)


def test_the_side_rosettes_of_an_evergreen_go_by_their_months() -> None:
    heuchera = CATALOGUE.plant("Heuchera")
    (way,) = (way for way in heuchera.ways if way.method is Method.BASAL_CUTTING)
    (found,) = taking_windows(heuchera, way, UNKNOWN, 2026)
    assert (found.opens, found.closes) == (date(2026, 5, 1), date(2026, 6, 30))


def test_softwood_comes_before_semi_ripe_and_semi_ripe_before_hardwood() -> None:
    opens = []
    for method in (Method.SOFTWOOD_CUTTING, Method.SEMI_RIPE_CUTTING, Method.HARDWOOD_CUTTING):
        found = next_taking(CURRANT, Way(method), COLD, date(2026, 5, 1))
        assert found is not None
        opens.append(found.opens)
    assert opens == sorted(opens)


def test_nothing_is_pegged_or_dug_while_the_ground_is_closed() -> None:
    digs = frosts(COLD, 2026).workable
    for method in (Method.SIMPLE_LAYER, Method.SEEDLING, Method.OFFSET):
        for each in taking_windows(IRIS, Way(method, months=(2, 3)), COLD, 2026):
            assert each.opens == digs
            assert each.closes >= each.opens + timedelta(weeks=4)


def test_an_air_layer_does_not_wait_for_the_ground() -> None:
    (found,) = taking_windows(CURRANT, Way(Method.AIR_LAYER, months=(3,)), COLD, 2026)
    assert found.opens == date(2026, 3, 1)
    assert found.what == "wrap an air layer"


@given(ANY_PLANT, st.sampled_from((COLD, SOUTHERN)), days)
def test_every_window_has_its_odds_where_frost_is_known(plant: Plant, climate: Climate, on: date) -> None:
    assert all(each.odds is not None for each in windows_of(plant, climate, on))


def test_an_evergreens_hardwood_has_no_leaves_to_drop() -> None:
    (found,) = taking_windows(BOX, Way(Method.HARDWOOD_CUTTING, months=(10, 11)), COLD, 2026)
    assert "leaves are down" not in found.why


def test_bulbs_are_not_hardened_off() -> None:
    assert not any("harden" in each.what for each in windows_of(SNOWDROP, COLD, date(2026, 3, 1)))


@given(climates(), years)
def test_a_season_of_potting_is_shorter_than_a_year(climate: Climate, year: int) -> None:
    for each in potting_window(CURRANT, climate, year):
        assert each.closes - each.opens <= timedelta(weeks=40)


def test_a_garden_without_frost_dates_is_told_so() -> None:
    (found,) = taking_windows(CURRANT, Way(Method.HARDWOOD_CUTTING), UNKNOWN, 2026)
    assert "not entered" in found.why


@pytest.mark.parametrize("plant", [CURRANT, IRIS, ROSEMARY, DAHLIA])
def test_every_kind_of_plant_has_a_window_for_each_thing_done_with_it(plant: Plant) -> None:
    found = [each.what for each in windows_of(plant, COLD, date(2026, 3, 1))]
    assert len(found) == len(set(found))
    for word in ("pot rooted", "harden off", "plant"):
        assert any(word in what for what in found), word
    if plant.type is PlantType.TENDER_PERENNIAL:
        assert any(what.startswith("lift") for what in found)


@given(ANY_PLANT, climates(), days)
def test_no_window_of_any_plant_anywhere_closes_before_it_opens(
    plant: Plant, climate: Climate, on: date
) -> None:
    for each in windows_of(plant, climate, on):
        assert in_order(each)
        assert each.closes >= on
        assert each.why.endswith(".")
        assert each.source
        assert each.odds is None or 0 <= each.odds <= 1


@given(ANY_PLANT, st.sampled_from(Method), climates(), years)
def test_taking_windows_are_in_order(plant: Plant, method: Method, climate: Climate, year: int) -> None:
    way = plant.way(method) or Way(method)
    assert all(in_order(each) for each in taking_windows(plant, way, climate, year))


@given(ANY_PLANT, climates(), years)
def test_potting_and_hardening_windows_are_in_order(plant: Plant, climate: Climate, year: int) -> None:
    for found in (potting_window(plant, climate, year), hardening_window(plant, climate, year)):
        assert all(in_order(each) for each in found)
