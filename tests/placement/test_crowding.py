"""What will grow into what, and when. The walk below shares no code with what it checks."""

import math
from datetime import date, timedelta

import pytest
from attrs import evolve
from hypothesis import assume, given
from hypothesis import strategies as st

from cuttings.ledger.places import Growing, HeightLimit, Site
from cuttings.placement.crowding import Against, Crowd, Remedy, crowding, kept_spot, remedy
from cuttings.placement.growth import START_SHARE, YEARS_TO_FULL
from cuttings.plants.model import Division, Plant
from cuttings.words import PathSide, PlantType
from tests.placement.beds import BED, CURRANT, HEUCHERA, hold

TODAY = date(2026, 5, 2)
CLUMP = evolve(HEUCHERA, division=Division("early spring", (4,)))
TREE = Plant("Malus domestica", PlantType.TREE, height_m=(4.0, 6.0), spread_m=(4.0, 6.0))
KNOWN = {"Ribes rubrum": CURRANT, "Heuchera sanguinea": CLUMP, "Malus domestica": TREE}


def found(site: Site) -> tuple[Crowd, ...]:
    return crowding(site, [], TODAY, KNOWN)


def currant(x: float, y: float, planted: date | None = None) -> Growing:
    return Growing(plant="Ribes rubrum", x=x, y=y, spread_m=1.2, planted=planted)


def clump(x: float, y: float, planted: date | None = None) -> Growing:
    return Growing(plant="Heuchera sanguinea", x=x, y=y, spread_m=0.4, planted=planted)


def walked(one: Growing, other: Growing, apart: float) -> int:
    """The first year from this one at whose end the two touch, found by looking at every one."""

    def width(plant: Growing, day: date) -> float:
        assert plant.spread_m is not None
        if plant.planted is None:
            return plant.spread_m
        kind = KNOWN[plant.plant].type
        years = max((day - plant.planted).days, 0) / 365.25 / YEARS_TO_FULL[kind]["medium"].years
        return plant.spread_m * min(START_SHARE + (1 - START_SHARE) * years, 1.0)

    for year in range(TODAY.year, TODAY.year + 60):
        day = date(year, 12, 31)
        if width(one, day) / 2 + width(other, day) / 2 >= apart:
            return year
    raise AssertionError("they never meet")


when = st.none() | st.integers(-4000, 0).map(lambda days: TODAY + timedelta(days=days))


@given(when, when, st.integers(0, 79))
def test_the_year_they_meet_is_the_one_found_by_walking_through_the_years(
    one_planted: date | None, other_planted: date | None, cm: int
) -> None:
    one, other = currant(1.0, 0.75, one_planted), clump(1.0 + cm / 100, 0.75, other_planted)
    overlap = 0.8 - cm / 100
    assume(overlap > 0.011)
    (crowd,) = found(evolve(BED, growing=(one, other)))
    assert crowd.against is Against.PLANT
    assert crowd.overlap_m == pytest.approx(overlap)
    assert crowd.year == walked(one, other, math.dist((1.0, 0.75), (1.0 + cm / 100, 0.75)))
    assert not crowd.now or crowd.year == TODAY.year


@given(when, when)
def test_plants_that_only_touch_do_not_crowd(one: date | None, other: date | None) -> None:
    assert not found(evolve(BED, growing=(currant(1.0, 0.75, one), clump(1.8, 0.75, other))))


def test_the_soonest_come_first_and_those_that_touch_already_before_the_others_of_the_year() -> None:
    young = date(2026, 4, 1)
    site = evolve(
        BED,
        growing=(currant(1.0, 0.6, young), currant(1.9, 0.6, young), currant(3.0, 0.6), clump(3.4, 0.6)),
    )
    crowds = found(site)
    assert [each.now for each in crowds] == [True, False, False]
    assert [each.year for each in crowds] == sorted(each.year for each in crowds)
    assert crowds[0].other is not None
    assert {crowds[0].plant.name, crowds[0].other.name} == {"Ribes rubrum", "Heuchera sanguinea"}


def test_two_of_a_kind_at_their_own_spacing_are_meant_to_close_up() -> None:
    spaced = {"Ribes rubrum": evolve(CURRANT, spacing_m=(0.9, 1.2))}
    apart = evolve(BED, growing=(currant(1.0, 0.75), currant(1.9, 0.75)))
    assert not crowding(apart, [], TODAY, spaced)
    assert crowding(evolve(BED, growing=(currant(1.0, 0.75), currant(1.8, 0.75))), [], TODAY, spaced)


def test_a_plant_crowds_a_held_spot_as_if_it_were_planted_today() -> None:
    site = evolve(BED, growing=(currant(1.0, 0.75),))
    spot = kept_spot(hold(site, "26-001", 1.7, 0.75, 0.2), "Heuchera sanguinea", CLUMP, TODAY)
    (crowd,) = crowding(site, [spot], TODAY, KNOWN)
    assert crowd.against is Against.HELD
    assert (crowd.year, crowd.now) == (2027, False)  # half of its 0.2 m after 1.1 of its 3 years
    assert remedy(crowd, TODAY) == (spot, Remedy.MOVE)


def test_a_plant_without_a_position_meets_nobody() -> None:
    site = evolve(BED, growing=(currant(1.0, 0.75), Growing(plant="Ribes rubrum", spread_m=3.0)))
    assert not found(site)


def test_a_plant_reaches_over_the_path_by_then() -> None:
    by_path = evolve(BED, path_side=PathSide.FRONT, setback_m=0.1)
    (crowd,) = found(evolve(by_path, growing=(currant(1.0, 0.5, date(2026, 4, 1)),)))
    assert (crowd.against, crowd.now) == (Against.PATH, False)
    assert crowd.overlap_m == pytest.approx(0.2)
    assert not found(evolve(by_path, growing=(currant(1.0, 0.7),)))
    assert not found(evolve(by_path, path_side=PathSide.BACK, growing=(currant(1.0, 0.5),)))
    (edge,) = found(evolve(by_path, path_side=PathSide.NONE, growing=(currant(1.0, 0.5),)))
    assert (edge.against, edge.now) == (Against.EDGE, True)


def test_a_plant_grows_past_the_height_that_its_ground_allows() -> None:
    window = HeightLimit(from_m=2.0, to_m=3.0, height_m=0.8)
    site = evolve(BED, limits=(window,))
    assert not found(evolve(site, growing=(currant(1.0, 0.75),)))
    (crowd,) = found(evolve(site, growing=(currant(1.5, 0.75),)))
    assert crowd.against is Against.HEIGHT
    assert crowd.overlap_m == pytest.approx(1.2 - 0.8)
    (lower,) = found(evolve(site, max_height_m=0.5, growing=(currant(2.5, 0.75),)))
    assert lower.overlap_m == pytest.approx(1.2 - 0.5)


@pytest.mark.parametrize(
    ("growing", "name", "way"),
    [
        ((currant(1.0, 0.75), clump(1.5, 0.75)), "Heuchera sanguinea", Remedy.DIVIDE),
        ((currant(1.0, 0.75), currant(1.5, 0.75)), "Ribes rubrum", Remedy.CUT_BACK),
        ((currant(1.0, 0.75), currant(1.5, 0.75, date(2025, 5, 1))), "Ribes rubrum", Remedy.MOVE),
        (
            (
                Growing(plant="Malus domestica", x=0.0, y=0.0, spread_m=5.0),
                Growing(plant="Malus domestica", x=2.0, y=0.0, spread_m=5.0),
            ),
            "Malus domestica",
            Remedy.THIN,
        ),
        (
            (currant(1.0, 0.75), Growing(plant="Planta ignota", x=1.5, y=0.75, spread_m=1.0)),
            "Planta ignota",
            Remedy.MOVE,
        ),
    ],
)
def test_what_to_do_follows_from_what_the_plants_are(
    growing: tuple[Growing, ...], name: str, way: Remedy
) -> None:
    (crowd,) = found(evolve(BED, growing=growing))
    which, what = remedy(crowd, TODAY)
    assert (which.name, what) == (name, way)


def test_dividing_makes_nothing_lower() -> None:
    (crowd,) = found(evolve(BED, max_height_m=0.1, growing=(clump(1.0, 0.75),)))
    assert remedy(crowd, TODAY)[1] is Remedy.MOVE
