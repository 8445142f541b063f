from datetime import date, timedelta

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Bloom, Division, Plant, Way
from cuttings.rules.division import division_windows, next_division
from cuttings.rules.layering import pegging_window, sever_window
from cuttings.rules.seasons import frosts
from cuttings.words import Method, PlantType
from tests.rules.gardens import COLD, CURRANT, IRIS, SOUTHERN, UNKNOWN


def clump(*months: int, resents: bool = False) -> Plant:
    division = Division("early autumn", months, resents=resents)
    return Plant("Paeonia", PlantType.PERENNIAL, division=division)


def test_pegging_follows_the_plants_months_and_turns_in_the_south() -> None:
    way = Way(Method.SIMPLE_LAYER, months=(4, 5))
    assert pegging_window(way, COLD, 2026).opens == frosts(COLD, 2026).workable
    assert pegging_window(way, SOUTHERN, 2026).opens == date(2026, 9, 18)


def test_tips_are_buried_in_late_summer() -> None:
    assert pegging_window(Way(Method.TIP_LAYER), COLD, 2026).opens == date(2026, 8, 1)


def test_a_cutting_is_neither_pegged_nor_severed() -> None:
    with pytest.raises(ValueError, match="not pegged"):
        pegging_window(Way(Method.ROOT_CUTTING), COLD, 2026)
    with pytest.raises(ValueError, match="no mother"):
        sever_window(Method.ROOT_CUTTING, date(2026, 5, 1), COLD)


def test_a_layer_pegged_in_spring_is_cut_off_by_the_next_spring() -> None:
    found = sever_window(Method.SIMPLE_LAYER, date(2026, 5, 1), COLD)
    assert found.opens.year == 2026
    assert found.best[0].year == found.closes.year == 2027


def test_a_layer_pegged_in_autumn_needs_another_summer() -> None:
    assert sever_window(Method.SIMPLE_LAYER, date(2026, 9, 20), COLD).best[0].year == 2028


def test_a_tip_buried_in_august_is_ready_the_same_winter() -> None:
    assert sever_window(Method.TIP_LAYER, date(2026, 8, 15), COLD).opens < date(2026, 12, 1)


def test_an_air_layer_comes_off_before_frost() -> None:
    assert sever_window(Method.AIR_LAYER, date(2026, 5, 20), COLD).closes == date(2026, 9, 28)


def test_a_plant_that_is_not_divided_has_no_window() -> None:
    assert not division_windows(CURRANT, COLD, 2026)


def test_autumn_division_closes_four_weeks_before_the_ground_freezes() -> None:
    (found,) = division_windows(clump(9, 10, 11), COLD, 2026)
    assert found.closes == frosts(COLD, 2026).freeze - timedelta(weeks=4)
    assert found.best[1] == frosts(COLD, 2026).freeze - timedelta(weeks=6)
    assert "ground freezes" in found.why


def test_months_wholly_in_frozen_ground_are_left_out() -> None:
    assert division_windows(clump(1, 2), COLD, 2026) == ()


def test_early_spring_waits_for_the_thaw() -> None:
    (found,) = division_windows(clump(3, 4), COLD, 2026)
    assert found.opens == frosts(COLD, 2026).workable


def test_without_frost_dates_the_months_stand_alone() -> None:
    (found,) = division_windows(clump(10, 11), UNKNOWN, 2026)
    assert (found.opens, found.closes) == (date(2026, 10, 1), date(2026, 11, 30))
    assert "not entered" in found.why


def test_a_plant_that_resents_it_says_so() -> None:
    found = next(iter(division_windows(clump(9, resents=True), COLD, 2026)), None)
    assert found is not None
    assert "dislikes" in found.why


def test_the_next_division_may_be_next_year() -> None:
    found = next_division(IRIS, COLD, date(2026, 12, 1))
    assert found is not None
    assert found.opens.year == 2027


def test_the_southern_autumn_is_cut_short_by_its_own_frost() -> None:
    cold_south = Climate(-45.0, frost_dates((11, 10), (4, 5)), "5b")
    (found,) = division_windows(clump(9, 10, 11), cold_south, 2026)
    assert found.opens == date(2026, 3, 1)
    assert found.closes == frosts(cold_south, 2026).freeze - timedelta(weeks=4)
    assert found.closes.month == 5


def test_where_the_ground_never_freezes_the_autumn_months_stand_whole() -> None:
    (found,) = division_windows(clump(10, 11), SOUTHERN, 2026)
    assert found.opens.month == 4
    assert (found.closes - found.opens).days > 45
    assert "ground freezes" not in found.why


@pytest.mark.parametrize(("bloom", "season"), [(4, "autumn"), (9, "spring")])
def test_kinds_without_months_of_their_own_are_divided_opposite_their_bloom(bloom: int, season: str) -> None:
    usual = Division("spring or autumn", (4, 5, 8, 9))
    plant = Plant(
        "Aster", PlantType.PERENNIAL, division=usual, bloom=Bloom((bloom,)), levels={"division": "type"}
    )
    (found,) = division_windows(plant, COLD, 2026)
    assert (found.opens.month < 7) == (season == "spring")


def test_spring_division_is_best_while_shoots_are_short() -> None:
    (found,) = division_windows(clump(4, 5), COLD, 2026)
    assert found.opens < found.best[0] < found.best[1] < found.closes
    assert "5 to 10 cm" in found.why
