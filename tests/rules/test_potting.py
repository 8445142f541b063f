from datetime import date
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Division, Plant
from cuttings.rules.aftercare import (
    Leaf,
    Stem,
    back_to_light,
    first_feed_days,
    hold_up,
    shade_days,
    trim,
    where_to_stand,
)
from cuttings.rules.pots import parse_pot, round_pot
from cuttings.rules.potting import (
    LADDER,
    next_pot,
    ready_to_pot,
    ready_to_pot_on,
    recommend_depth,
    recommend_mix,
    recommend_pot,
    season_to_pot,
)
from cuttings.words import Method, PlantType, Units
from tests.rules.gardens import COLD, CURRANT, DAFFODIL, IRIS, LAVENDER, SOUTHERN, climates, days, plants

CUTTING = Method.SOFTWOOD_CUTTING


def test_an_inch_of_root_is_enough_and_less_is_not() -> None:
    assert ready_to_pot(0.0254, CUTTING).value
    assert not ready_to_pot(0.02, CUTTING).value
    assert "0.8 in" in ready_to_pot(0.02, CUTTING).why
    assert "2 cm" in ready_to_pot(0.02, CUTTING, Units.METRIC).why


def test_unmeasured_roots_are_to_be_looked_at_first() -> None:
    assert not ready_to_pot(None, CUTTING).value
    assert ready_to_pot(None, Method.CROWN_DIVISION).value


def test_the_pot_leaves_a_finger_all_round() -> None:
    assert recommend_pot(0.04, CUTTING, CURRANT, Units.METRIC).value.name == "9cm"
    assert recommend_pot(0.041, CUTTING, CURRANT, Units.METRIC).value.name == "11cm"
    assert recommend_pot(0.11, Method.SIMPLE_LAYER, CURRANT, Units.US).value.name == "#1"


def test_an_unmeasured_root_ball_is_guessed_and_said_to_be() -> None:
    assert "Nobody measured" in recommend_pot(None, CUTTING, CURRANT).sure
    assert recommend_pot(0.05, CUTTING, CURRANT).sure == ""


def test_the_largest_pot_is_given_when_none_is_large_enough() -> None:
    assert recommend_pot(0.9, Method.CROWN_DIVISION, IRIS, Units.METRIC).value.name == "35cm"


@given(st.none() | st.floats(0.0, 0.29), st.sampled_from(Method), plants, st.sampled_from(Units))
def test_a_recommended_pot_holds_the_roots(
    spread: float | None, method: Method, plant: Plant, units: Units
) -> None:
    pot = recommend_pot(spread, method, plant, units).value
    assert pot.diameter_m is not None
    assert pot.diameter_m > (spread or 0.0)


def test_mixes_follow_the_plant() -> None:
    assert recommend_mix(CURRANT, striking=True).value == "striking"
    assert recommend_mix(CURRANT).value == "potting"
    assert recommend_mix(LAVENDER).value == "gritty"
    assert recommend_mix(Plant("Vaccinium corymbosum", PlantType.SHRUB)).value == "acid"
    assert recommend_mix(Plant("Acer", PlantType.TREE, ph=(4.5, 5.5))).value == "acid"
    assert recommend_mix(Plant("Acer", PlantType.TREE, mix="gritty")).value == "gritty"


def test_depth_is_a_figure_where_one_is_published_and_a_sentence_otherwise() -> None:
    charted = evolve(DAFFODIL, planting_depth_m=(0.15, 0.2))
    assert recommend_depth(charted, Method.BULB_OFFSET).value == pytest.approx(0.175)
    assert recommend_depth(Plant("Scilla", PlantType.BULB), Method.BULB_OFFSET).value is None
    assert "As deep as it stood" in recommend_depth(IRIS, Method.CROWN_DIVISION).why
    assert "As deep" not in recommend_depth(CURRANT, CUTTING).why


def test_in_a_pot_the_words_for_pots_go_before_those_for_the_ground() -> None:
    layer = evolve(CURRANT, potting_depth="as deep as it rooted", planting_depth="a little deeper")
    assert recommend_depth(layer, Method.SIMPLE_LAYER).why == "As deep as it rooted."
    figure = Division("autumn", (9,), replant="eyes just under the surface", replant_depth_m=(0.02, 0.04))
    general = evolve(
        IRIS, division=figure, potting_depth="crown level with the mix", levels={"potting_depth": "type"}
    )
    advice = recommend_depth(general, Method.CROWN_DIVISION)
    assert advice.value == pytest.approx(0.03)
    assert advice.why == "Eyes just under the surface."
    own = evolve(general, potting_depth="eyes up", levels={})
    assert recommend_depth(own, Method.CROWN_DIVISION).why == "Eyes up."


@given(st.floats(0.05, 0.4), st.floats(0.01, 0.3))
def test_half_the_mix_of_a_pot_stays_below_a_bulb(width_m: float, depth_m: float) -> None:
    charted = evolve(DAFFODIL, planting_depth_m=(depth_m, depth_m))
    pot = round_pot(width_m)
    advised = recommend_depth(charted, Method.BULB_OFFSET, pot).value
    assert advised is not None
    assert pot.mix_depth_m is not None
    assert advised <= pot.mix_depth_m / 2 + 1e-9
    assert advised <= depth_m


@pytest.mark.parametrize(("now", "next_up"), [("3in", "4in"), ("4in", "5in"), ("SP4", "6in"), ("#1", "#2")])
def test_potting_on_goes_up_one_size(now: str, next_up: str) -> None:
    assert next_pot(parse_pot(now, Units.US), Units.US).value.name == next_up


@pytest.mark.parametrize("units", list(Units))
def test_every_pot_of_the_ladder_leads_to_the_next_and_the_largest_to_itself(units: Units) -> None:
    for smaller, larger in pairwise(LADDER[units]):
        assert next_pot(parse_pot(smaller, units), units).value.name == larger
    largest = LADDER[units][-1]
    assert next_pot(parse_pot(largest, units), units).value.name == largest


def test_a_plant_is_potted_on_when_its_roots_fill_the_pot_and_winter_is_far() -> None:
    may, september, january = date(2026, 5, 20), date(2026, 9, 20), date(2026, 1, 10)
    assert ready_to_pot_on(True, may, COLD, hardy=True).value
    assert not ready_to_pot_on(False, may, COLD, hardy=True).value
    assert not ready_to_pot_on(True, september, COLD, hardy=True).value
    assert not ready_to_pot_on(True, january, COLD, hardy=True).value
    assert ready_to_pot_on(True, september, COLD, hardy=False).value
    assert ready_to_pot_on(True, january, SOUTHERN, hardy=True).value


def test_layers_cut_too_early_and_cuttings_in_winter_are_told_to_wait() -> None:
    pegged, july, december = date(2026, 5, 10), date(2026, 7, 1), date(2026, 12, 1)
    assert "early to cut" in season_to_pot(Method.SIMPLE_LAYER, pegged, july, COLD, warm=False)
    assert season_to_pot(Method.SIMPLE_LAYER, None, july, COLD, warm=False) == ""
    assert "no roots now" in season_to_pot(CUTTING, None, december, COLD, warm=False)
    assert season_to_pot(CUTTING, None, december, COLD, warm=True) == ""
    assert season_to_pot(CUTTING, None, july, COLD, warm=False) == ""


def test_it_goes_back_into_the_light_by_degrees_and_stands_where_that_suits() -> None:
    assert (
        back_to_light(date(2026, 5, 20), 7)
        == "Back into the light from 27 May, an hour or two more each day."
    )
    assert back_to_light(date(2026, 5, 20), 0) == ""
    kinds = [where_to_stand(shaded, hardy).value for shaded, hardy in ((7, True), (0, True), (0, False))]
    assert kinds == ["shade", "shelter", "light"]


def test_a_layer_with_few_roots_loses_its_stub_and_a_third_of_its_top() -> None:
    advice = trim(Method.SIMPLE_LAYER, Leaf.MUCH)
    assert "Cut off the old stem" in advice.value
    assert "third" in advice.value
    assert "third" not in trim(Method.SIMPLE_LAYER, Leaf.EVEN).value


def test_shade_is_longest_in_high_summer_and_needless_at_rest() -> None:
    july, may, december = date(2026, 7, 20), date(2026, 5, 20), date(2026, 12, 1)
    assert shade_days(CUTTING, july, COLD, hardy=True).value == 14
    assert shade_days(CUTTING, may, COLD, hardy=True).value == 10
    assert shade_days(CUTTING, december, COLD, hardy=True).value == 0
    assert shade_days(CUTTING, december, COLD, hardy=False).value == 10
    assert shade_days(CUTTING, december, SOUTHERN, hardy=True).value == 14


def test_feeding_waits_four_weeks_and_never_starts_in_autumn() -> None:
    assert first_feed_days(date(2026, 6, 1), COLD).value == 28
    autumn = first_feed_days(date(2026, 9, 1), COLD)
    assert autumn.value == (date(2027, 5, 14) - date(2026, 9, 1)).days
    assert "spring" in autumn.why


@given(st.sampled_from(Method), days, climates(), st.booleans())
def test_shade_and_feed_are_reasonable_numbers_of_days(
    method: Method, on: date, climate: Climate, hardy: bool
) -> None:
    assert 0 <= shade_days(method, on, climate, hardy).value <= 14
    assert 28 <= first_feed_days(on, climate).value <= 800


def test_tops_are_shortened_for_small_roots_and_for_divisions() -> None:
    assert "third" in trim(CUTTING, Leaf.MUCH).value
    assert "4 to 6 inches" in trim(Method.CROWN_DIVISION, Leaf.EVEN).value
    assert "Cut nothing now" in trim(CUTTING, Leaf.EVEN).value
    assert "hardly a leaf" in trim(CUTTING, Leaf.LITTLE).why
    assert "Leave the leaves" in trim(Method.BULB_OFFSET, Leaf.MUCH).value


def test_a_soft_stem_is_uncovered_slowly_a_thin_one_held_and_a_firm_one_left_alone() -> None:
    assert "a little more each day" in hold_up(Stem.SOFT).value
    assert "cane" in hold_up(Stem.THIN).value
    assert not hold_up(Stem.FIRM).value
