"""What a plant's place means for its neighbours, and theirs for it."""

import math

import pytest
from attrs import evolve

from cuttings.placement.company import Companion, Regard, direction, regards
from cuttings.placement.match import rank
from cuttings.placement.wanted import Wanted
from cuttings.plants.model import Plant
from cuttings.words import Light, SeenFrom, Units
from tests.placement.beds import BED, CURRANT, HEUCHERA, grown, setting

TALL, LOW = evolve(CURRANT, height_m=(1.6, 2.0)), evolve(HEUCHERA, height_m=(0.3, 0.5))
SUNNY = evolve(LOW, light=(Light.FULL_SUN,))
NORTH, SOUTH = 42.9, -42.9
FACING_SOUTH = evolve(BED, facing=180.0)


def at(plant: Plant, x: float, y: float, radius_m: float = 0.4) -> Companion:
    name = "a tall one" if plant is TALL else "a low one"
    return Companion(name, x, y, radius_m, plant)


@pytest.mark.parametrize(
    ("new", "other", "said"),
    [
        (at(TALL, 2.0, 0.5), at(LOW, 2.1, 1.2), "It would stand in front of a low one and hide it."),
        (at(LOW, 2.0, 1.2), at(TALL, 2.1, 0.5), "a tall one in front of it would hide it."),
        (at(TALL, 2.0, 1.2), at(LOW, 2.1, 0.5), "It can be seen over a low one in front of it."),
    ],
)
def test_the_tall_hides_the_low_behind_it(new: Companion, other: Companion, said: str) -> None:
    assert regards(new, [other], BED, NORTH) == [Regard(said, "seen over" in said)]


def test_beside_each_other_and_seen_all_round_nobody_hides_anybody() -> None:
    assert not regards(at(TALL, 0.5, 0.5), [at(LOW, 2.1, 1.2)], BED, NORTH)
    around = evolve(BED, seen_from=SeenFrom.AROUND)
    assert not regards(at(TALL, 2.0, 0.5), [at(LOW, 2.1, 1.2)], around, NORTH)


def test_a_bank_lifts_what_stands_at_its_back() -> None:
    front, back = at(TALL, 2.0, 0.2), at(LOW, 2.0, 1.4)
    assert regards(front, [back], BED, NORTH)
    assert not regards(front, [back], evolve(BED, slope=120.0), NORTH)


def test_shade_falls_towards_the_pole() -> None:
    """The bed looks south: in the north noon shadows fall to its back, in the south to its front."""
    shading = Regard("It would shade a low one, which wants full sun.", False)
    front, back = at(TALL, 2.0, 0.4), at(SUNNY, 2.0, 1.3)
    assert shading in regards(front, [back], FACING_SOUTH, NORTH)
    assert shading not in regards(front, [back], FACING_SOUTH, SOUTH)
    behind, before = at(TALL, 2.0, 1.3), at(SUNNY, 2.0, 0.4)
    assert shading not in regards(behind, [before], FACING_SOUTH, NORTH)
    assert shading in regards(behind, [before], FACING_SOUTH, SOUTH)
    shaded = Regard("a tall one would shade it, and it wants full sun.", False)
    assert shaded in regards(back, [front], FACING_SOUTH, NORTH)


def test_only_a_lover_of_sun_minds_and_only_where_the_way_it_faces_is_known() -> None:
    said = [each.said for each in regards(at(TALL, 2.0, 0.4), [at(LOW, 2.0, 1.3)], FACING_SOUTH, NORTH)]
    assert not any("shade" in sentence for sentence in said)
    assert not any(
        "shade" in each.said for each in regards(at(TALL, 2.0, 0.4), [at(SUNNY, 2.0, 1.3)], BED, NORTH)
    )


@pytest.mark.parametrize(
    ("bearing", "facing", "way"),
    [
        (0, 180, (0, 1)),
        (180, 180, (0, -1)),
        (90, 180, (1, 0)),
        (0, 0, (0, -1)),
        (0, 90, (1, 0)),
        (0, 270, (-1, 0)),
    ],
)
def test_bearings_on_the_plan(bearing: float, facing: float, way: tuple[float, float]) -> None:
    """Seen from the south, north lies at the back; seen from the east, to the right."""
    assert direction(bearing, facing) == pytest.approx(way, abs=1e-9)


def test_a_spot_that_hides_nobody_is_offered_first() -> None:
    site = evolve(BED, depth_m=2.2, growing=grown((0.7, 1.7, 0.6)))
    known = {"Salvia": LOW}
    plan = rank(Wanted("26-001", evolve(TALL, spread_m=(0.6, 0.6))), [site], (), setting(Units.METRIC, known))
    spot = plan.plan[0].spot
    assert spot
    assert not any("hide" in reason for reason in plan.plan[0].against)
    assert math.dist((spot.x, spot.y), (0.7, 1.7)) >= 0.6 - 1e-9
