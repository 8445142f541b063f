from datetime import date

import pytest

from cuttings.plants.model import Plant, Way
from cuttings.rules.increase import EASIEST_FIRST, best_way, likely_find_method, next_season, ways_now
from cuttings.words import Method, PlantType
from tests.rules.gardens import BOX, BRAMBLE, COLD, CURRANT, DAFFODIL, IRIS, SOUTHERN


def test_only_ways_in_season_are_offered() -> None:
    assert [way.method for way in ways_now(CURRANT, date(2026, 4, 10), COLD)] == [Method.SIMPLE_LAYER]
    assert ways_now(CURRANT, date(2026, 8, 10), COLD) == ()
    assert best_way(CURRANT, date(2026, 8, 10), COLD) is None


def test_seasons_turn_in_the_south() -> None:
    advice = best_way(CURRANT, date(2026, 6, 10), SOUTHERN)
    assert advice is not None
    assert advice.value.method is Method.HARDWOOD_CUTTING


def test_pieces_with_roots_come_first_then_what_mostly_takes() -> None:
    mixed = Plant(
        "Aster",
        PlantType.PERENNIAL,
        ways=(
            Way(Method.SOFTWOOD_CUTTING, take=(0.9, 1.0)),
            Way(Method.BASAL_CUTTING, take=(0.3, 0.4)),
            Way(Method.CROWN_DIVISION),
        ),
    )
    assert [way.method for way in ways_now(mixed, date(2026, 4, 1), COLD)] == [
        Method.CROWN_DIVISION,
        Method.SOFTWOOD_CUTTING,
        Method.BASAL_CUTTING,
    ]


def test_the_next_season_is_today_or_the_start_of_a_run() -> None:
    layer = Way(Method.SIMPLE_LAYER, months=(4, 5))
    assert next_season(layer, date(2026, 4, 10), COLD) == date(2026, 4, 10)
    assert next_season(layer, date(2026, 6, 10), COLD) == date(2027, 4, 1)


@pytest.mark.parametrize(
    ("plant", "method"),
    [
        (BRAMBLE, Method.TIP_LAYER),
        (Plant("Rubus idaeus", PlantType.SHRUB), Method.OFFSET),
        (BOX, Method.SIMPLE_LAYER),
        (DAFFODIL, Method.BULB_OFFSET),
        (IRIS, Method.CROWN_DIVISION),
        (Plant("Acer", PlantType.TREE), Method.SEEDLING),
        (
            Plant("Iris germanica", PlantType.PERENNIAL, ways=(Way(Method.RHIZOME_DIVISION),)),
            Method.RHIZOME_DIVISION,
        ),
    ],
)
def test_a_rooted_find_is_what_such_plants_mostly_make(plant: Plant, method: Method) -> None:
    assert likely_find_method(plant) is method


@pytest.mark.parametrize("kind", PlantType)
def test_every_kind_of_plant_has_a_likely_find(kind: PlantType) -> None:
    assert likely_find_method(Plant("Unknown", kind)) in Method


def test_every_method_has_its_place_in_the_ranking() -> None:
    assert set(EASIEST_FIRST) == set(Method)
