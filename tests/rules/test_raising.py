"""From roots to the ground: when a rooted stem may be planted, and how much room it takes until then."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Plant
from cuttings.plants.standard import standard
from cuttings.rules.bench_room import pot_room_m2, rooting_room_m2
from cuttings.rules.pots import parse_pot
from cuttings.rules.raising import FILL_POT_WEEKS, plantable, severed
from cuttings.rules.transplant import next_planting
from cuttings.words import Method, Units

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
SOUTH = Climate(lat=-38.0, frost=frost_dates((10, 20), (4, 25)), zone="8b")
CURRANT, ROSEMARY = standard().plant("Ribes rubrum"), standard().plant("Salvia rosmarinus")
METHODS = st.sampled_from(
    [Method.SOFTWOOD_CUTTING, Method.HARDWOOD_CUTTING, Method.SIMPLE_LAYER, Method.AIR_LAYER]
)


@settings(deadline=None, max_examples=120)
@given(
    st.sampled_from([COLD, SOUTH]),
    st.sampled_from([CURRANT, ROSEMARY]),
    METHODS,
    st.integers(0, 364),
    st.integers(0, 500),
    st.booleans(),
)
def test_it_is_planted_in_planting_time_and_never_sooner_for_rooting_later(
    climate: Climate, plant: Plant, method: Method, begun: int, later: int, under_cover: bool
) -> None:
    started = date(2026, 1, 1) + timedelta(days=begun)
    rooted = started + timedelta(days=later)

    def day(when: date) -> date:
        found = plantable(plant, method, climate, started, when, under_cover=under_cover)
        assert found is not None
        return found

    planted = day(rooted)
    assert planted >= rooted + timedelta(weeks=FILL_POT_WEEKS)
    window = next_planting(plant, climate, planted)
    assert window is not None
    assert window.holds(planted)
    assert day(rooted + timedelta(days=7)) >= planted


def test_what_grew_under_cover_is_hardened_off_first() -> None:
    rooted = date(2026, 6, 20)
    open_air = plantable(CURRANT, Method.SOFTWOOD_CUTTING, COLD, rooted, rooted, under_cover=False)
    covered = plantable(CURRANT, Method.SOFTWOOD_CUTTING, COLD, rooted, rooted, under_cover=True)
    assert open_air is not None
    assert covered is not None
    assert covered >= open_air


def test_hardy_pieces_go_straight_into_the_ground_and_tender_ones_wait_for_its_time() -> None:
    april = date(2026, 4, 15)
    assert plantable(CURRANT, Method.CROWN_DIVISION, COLD, april, april, under_cover=False) == april
    tender = plantable(ROSEMARY, Method.CROWN_DIVISION, COLD, april, april, under_cover=False)
    assert tender is not None
    assert tender > date(2026, 5, 15)


def test_a_layer_is_cut_from_its_mother_at_rest() -> None:
    may, rooted = date(2026, 5, 1), date(2026, 9, 1)
    cut = severed(Method.SIMPLE_LAYER, COLD, may, rooted)
    assert cut > date(2026, 9, 30)
    missed = severed(Method.SIMPLE_LAYER, COLD, may, date(2027, 8, 1))
    assert missed > date(2027, 9, 1)


@pytest.mark.parametrize("method", Method)
def test_twice_as_many_take_twice_the_room(method: Method) -> None:
    assert rooting_room_m2(method, 8) == pytest.approx(2 * rooting_room_m2(method, 4))
    assert (rooting_room_m2(method, 4) > 0.0) is method.is_cutting


def test_pots_stand_rim_to_rim() -> None:
    assert pot_room_m2(parse_pot("10cm", Units.METRIC), 9) == pytest.approx(0.09)
    assert pot_room_m2(parse_pot("2L", Units.METRIC), 2) > 0.0
