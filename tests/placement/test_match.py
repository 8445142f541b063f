"""Lots matched to spots."""

import math
from collections.abc import Sequence

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.ledger.places import Growing, Hold, Site
from cuttings.placement.match import Joint, Plan, rank
from cuttings.placement.wanted import Setting, Wanted
from cuttings.plants.model import Plant
from cuttings.words import Light, PathSide, PlantType, Units
from tests.placement.beds import BED, CURRANT, HEUCHERA, UNHEARD_OF, grown, hold, plants, setting, sites
from tests.placement.test_room import NEAR, stands_well

SHADY = evolve(BED, name="North wall", light=Light.SHADE)
HALF = evolve(BED, name="Gate strip", light=Light.PART_SHADE)


def joint(lots: Sequence[Wanted], sites: Sequence[Site], holds: Sequence[Hold], setting: Setting) -> Plan:
    """The joint plan that the search comes to when nobody stops it."""
    whole = Joint(lots, sites, holds, setting)
    *_, last = whole.states()
    return whole.plan(last)


def ranked(plant: Plant, *sites: Site, holds: tuple[Hold, ...] = (), units: Units = Units.US) -> Plan:
    return rank(Wanted("26-001", plant), sites, holds, setting(units))


def test_sites_come_best_first_and_the_refused_say_why() -> None:
    plan = ranked(CURRANT, SHADY, HALF, BED)
    assert [each.site for each in plan.plan] == ["Kitchen bed", "Gate strip"]
    assert [each.site for each in plan.refused] == ["North wall"]
    assert plan.refused[0].because == ("It needs full sun or part sun, and this site has shade.",)
    assert plan.total == plan.bound == plan.plan[0].score == 1.0
    assert plan.gap == 0.0


def test_the_tall_go_to_the_back_and_the_low_to_the_front() -> None:
    tall, low = (
        ranked(CURRANT, BED).plan[0].spot,
        ranked(evolve(CURRANT, height_m=(0.2, 0.4)), BED).plan[0].spot,
    )
    assert tall
    assert low
    assert (tall.id, tall.y) == ("kitchen-bed@0.60,0.90", 0.9)
    assert low.y == 0.6


def test_what_grows_there_decides_what_is_tall() -> None:
    site = evolve(BED, growing=(Growing(plant="Veronicastrum", x=3.5, y=0.5, spread_m=0.5),))
    taller = evolve(CURRANT, height_m=(1.6, 1.9))
    alone = rank(Wanted("26-001", CURRANT), [site], (), setting(Units.US))
    beside = rank(Wanted("26-001", CURRANT), [site], (), setting(known={"Veronicastrum": taller}))
    assert alone.plan[0].spot
    assert beside.plan[0].spot
    assert beside.plan[0].spot.y < alone.plan[0].spot.y


def test_of_equal_sites_the_smaller_is_filled_first() -> None:
    wide = evolve(BED, name="A wide bed", length_m=9.0)
    assert [each.site for each in ranked(CURRANT, wide, BED).plan] == ["Kitchen bed", "A wide bed"]


def test_a_full_site_is_refused_with_the_width_that_would_fit() -> None:
    full = evolve(BED, growing=grown((0.8, 0.75, 1.5), (2.3, 0.75, 1.5)))
    plan = ranked(CURRANT, full, units=Units.METRIC)
    assert plan.refused[0].because == ("There is no room left for a plant 1.2 m across.",)
    width = float(
        plan.refused[0].would_fit_if.removeprefix("if it were kept under ").removesuffix(" cm across")
    )
    smaller = evolve(CURRANT, spread_m=(width / 100, width / 100))
    assert ranked(smaller, full).plan


def test_a_full_site_it_would_not_like_anyway_has_no_single_cure() -> None:
    refused = ranked(CURRANT, evolve(SHADY, length_m=0.5)).refused[0]
    assert len(refused.because) == 2
    assert refused.would_fit_if == ""


def test_a_site_of_unknown_size_is_ranked_without_a_spot() -> None:
    vague = evolve(BED, name="Orchard edge", length_m=None)
    placed = ranked(CURRANT, vague, BED).plan
    assert [each.site for each in placed] == ["Kitchen bed", "Orchard edge"]
    assert placed[1].spot is None
    assert placed[1].against == ("Nobody has measured Orchard edge, so its room is not known.",)


def test_what_is_not_known_of_the_room_is_said() -> None:
    site = evolve(BED, growing=(Growing(plant="Salvia"), Growing(plant="Phlox", spread_m=0.3)))
    against = ranked(UNHEARD_OF, site).plan[0].against
    assert "2 plants here have no position: measure them to know the room that is left." in against
    assert "1 plant here has no width written down; 2 ft across is kept for each." in against
    assert "Nobody has said how wide it grows; room for 2 ft is kept." in against


def test_a_width_that_is_only_its_type_s_is_called_so() -> None:
    general = evolve(CURRANT, levels={"spread_m": "type"}, type=PlantType.TENDER_PERENNIAL)
    assert ranked(general, BED).plan[0].against == (
        "Nobody has said how wide it grows; 3 ft 11 in is a general figure for a tender perennial.",
    )


def test_a_held_spot_is_not_offered_again_even_to_its_own_lot() -> None:
    first = ranked(CURRANT, BED).plan[0].spot
    assert first
    again = ranked(CURRANT, BED, holds=(hold(BED, "26-001", first.x, first.y, 0.6),)).plan[0].spot
    assert again
    assert math.dist((first.x, first.y), (again.x, again.y)) >= 1.2 - NEAR


def test_with_no_sites_there_is_a_sentence() -> None:
    assert ranked(CURRANT).refused[0].because == ("No site has been described yet.",)
    assert joint([Wanted("26-001", CURRANT)], [], (), setting(Units.US)).refused[0].site == ""


def test_a_lot_keeps_the_spots_held_for_it() -> None:
    mine = hold(BED, "26-001", 2.0, 0.75, 0.6)
    plan = joint([Wanted("26-001", CURRANT, 2)], [BED], [mine], setting(Units.US))
    assert plan.plan[0].spot
    assert plan.plan[0].spot.id == mine.spot
    assert plan.plan[0].for_[0] == "This spot is held for it already."
    assert len(plan.plan) == 2
    assert plan.gap == 0.0


def test_a_hold_on_a_site_that_was_left_out_is_kept_too() -> None:
    plan = joint(
        [Wanted("26-001", CURRANT)], [SHADY], [hold(BED, "26-001", 2.0, 0.75, 0.6)], setting(Units.US)
    )
    assert [each.site for each in plan.plan] == ["Kitchen bed"]
    assert not plan.refused


def test_stems_left_over_are_refused_with_their_number() -> None:
    small = evolve(BED, length_m=2.5)
    plan = joint([Wanted("26-001", CURRANT, 4)], [small, SHADY], (), setting(Units.METRIC))
    assert len(plan.plan) == 2
    assert [each.because for each in plan.refused] == [
        ("There is no room left for 2 more plants, each 1.2 m across.",),
        ("It needs full sun or part sun, and this site has shade.",),
    ]
    assert (plan.total, plan.bound, plan.gap) == (2.0, 2.0, 0.0)  # it is proven that no third has room


def test_the_lot_with_fewest_places_chooses_first() -> None:
    one_place = evolve(BED, length_m=1.3)
    fussy = Wanted("26-002", evolve(CURRANT, light=(Light.FULL_SUN,)))
    easy = Wanted("26-001", evolve(CURRANT, light=tuple(Light)))
    plan = joint([easy, fussy], [one_place, SHADY], (), setting(Units.US))
    assert [(each.lot, each.site) for each in plan.plan] == [
        ("26-001", "North wall"),
        ("26-002", "Kitchen bed"),
    ]


def test_a_row_of_one_kind_packs_without_gaps() -> None:
    row = evolve(BED, length_m=2.82, depth_m=0.5)
    thin = evolve(HEUCHERA, light=(Light.FULL_SUN,), spread_m=(0.47, 0.47))
    assert len(joint([Wanted("26-001", thin, 9)], [row], (), setting(Units.US)).plan) == 5
    cm = evolve(thin, spread_m=(0.46, 0.46))
    assert len(joint([Wanted("26-001", cm, 9)], [evolve(row, length_m=2.76)], (), setting()).plan) == 6


gardens = st.lists(st.just(0), min_size=1, max_size=3).flatmap(
    lambda numbers: st.tuples(*(sites(f"Bed {at}") for at in range(len(numbers))))
)
wanteds = st.lists(st.tuples(plants(), st.integers(0, 3)), max_size=4).map(
    lambda rows: [Wanted(f"26-{at:03}", plant, count) for at, (plant, count) in enumerate(rows)]
)


@settings(deadline=None)
@given(wanteds, gardens)
def test_no_two_placed_plants_overlap_and_none_stands_outside(
    lots: list[Wanted], garden: tuple[Site, ...]
) -> None:
    plan = joint(lots, garden, (), setting(Units.METRIC))
    by_name = {site.name: site for site in garden}
    spots = [each.spot for each in plan.plan if each.spot]
    for at, spot in enumerate(spots):
        site = by_name[spot.site]
        assert stands_well(site, spot.x, spot.y, spot.radius_m)
        others = [(each.x, each.y, each.radius_m) for each in spots[:at] if each.site == spot.site]
        others += [
            (each.x, each.y, each.radius_m)
            for each in site.growing
            if each.x is not None and each.y is not None
        ]
        for x, y, radius_m in others:
            assert math.dist((spot.x, spot.y), (x, y)) >= spot.radius_m + radius_m - NEAR


@settings(deadline=None)
@given(wanteds, gardens, st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_nothing_is_placed_on_a_spot_held_for_another_lot(
    lots: list[Wanted], garden: tuple[Site, ...], x: float, y: float
) -> None:
    other = hold(garden[0], "25-999", x, y, 0.4)
    for placed in joint(lots, garden, [other], setting(Units.METRIC)).plan:
        if placed.spot and placed.site == other.site:
            apart = math.dist((x, y), (placed.spot.x, placed.spot.y))
            assert apart >= other.radius_m + placed.spot.radius_m - NEAR


@settings(deadline=None)
@given(wanteds, gardens)
def test_every_stem_is_placed_or_its_lot_refused_and_the_bound_holds(
    lots: list[Wanted], garden: tuple[Site, ...]
) -> None:
    plan = joint(lots, garden, (), setting(Units.METRIC))
    assert 0.0 <= plan.total <= plan.bound
    assert 0.0 <= plan.gap <= 1.0
    for lot in lots:
        placed = sum(each.lot == lot.lot for each in plan.plan)
        told = {each.site for each in plan.refused if each.lot == lot.lot}
        assert placed <= lot.count
        assert told == (set() if placed == lot.count else {site.name for site in garden})
    assert all(each.because for each in plan.refused)


@settings(deadline=None)
@given(wanteds, gardens, st.data())
def test_the_order_sites_are_listed_in_makes_no_difference(
    lots: list[Wanted], garden: tuple[Site, ...], data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(garden))
    assert joint(lots, garden, (), setting(Units.US)) == joint(lots, shuffled, (), setting(Units.US))


@settings(deadline=None)
@given(plants(), gardens)
def test_each_site_is_ranked_once_or_refused_once(plant: Plant, garden: tuple[Site, ...]) -> None:
    plan = ranked(plant, *garden)
    assert sorted([*(each.site for each in plan.plan), *(each.site for each in plan.refused)]) == sorted(
        site.name for site in garden
    )
    scores = [each.score for each in plan.plan]
    assert scores == sorted(scores, reverse=True)


def test_a_path_is_not_swallowed() -> None:
    by_path = evolve(BED, path_side=PathSide.FRONT, setback_m=0.25, depth_m=3.0)
    low = evolve(CURRANT, height_m=(0.2, 0.4))
    plan = joint([Wanted("26-001", low, 4)], [by_path], (), setting(Units.US))
    assert min(each.spot.y - each.spot.radius_m for each in plan.plan if each.spot) >= 0.25 - NEAR
