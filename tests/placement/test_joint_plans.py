"""Joint plans against every possible plan, against an independent checker, and against the rule of thumb."""

import math
from itertools import islice
from random import Random

import numpy as np
import pytest
from attrs import evolve

from cuttings.ledger.places import Site
from cuttings.placement.bed import Bed
from cuttings.placement.layout import search
from cuttings.placement.match import Joint, Plan
from cuttings.placement.outline import plot
from cuttings.placement.packing import NEIGHBOURLY
from cuttings.placement.programme import Ask
from cuttings.placement.wanted import Need, Stance, Wanted
from tests.placement.beds import BED, CURRANT, hold, setting
from tests.placement.checker import faults
from tests.placement.exhaustive import Box, Stem, best_total
from tests.placement.gardens import Garden, garden
from tests.placement.greedy import greedy_total

STEP = 0.25
SMALL_GARDENS, A_GO = 300, 50


def small_garden(seed: int) -> tuple[list[Stem], list[Box], list[Ask], list[Bed]]:
    """A few stems and one to three beds, told to the witness and to the matcher."""
    chance = Random(seed)
    beds = chance.choice((1, 2, 2, 3))
    boxes = [
        Box(
            chance.randrange(3, 9) * STEP,
            chance.randrange(2, 6) * STEP,
            tuple(
                (chance.uniform(0, 2), chance.uniform(0, 1), chance.choice((0.1, 0.2, 0.3)))
                for _ in range(chance.choice((0, 0, 1)))
            ),
        )
        for _ in range(beds)
    ]
    stems: list[Stem] = []
    asks = []
    for lot in range(chance.randrange(1, 5)):
        radius, count = chance.choice((0.2, 0.25, 0.3, 0.4, 0.5)), chance.choice((1, 1, 2))
        worth = tuple(chance.choice((0.0, 1.0, 0.9, 0.8, 0.72, 0.64)) for _ in range(beds))
        stems += [Stem(lot, radius, worth)] * count
        asks.append(Ask(Need(radius), count, worth, (Stance.FRONT,) * beds))
    grounds = []
    for box in boxes:
        ground = plot(Site(name="bed", area="a", length_m=box.length_m, depth_m=box.depth_m))
        assert ground is not None
        grounds.append(Bed(ground, np.array(box.taken).reshape(-1, 3), step_m=STEP))
    return stems, boxes, asks, grounds


@pytest.mark.parametrize("first", range(0, SMALL_GARDENS, A_GO))
def test_the_matcher_equals_exhaustive_search(first: int) -> None:
    for seed in range(first, first + A_GO):
        stems, boxes, asks, beds = small_garden(seed)
        *_, last = search(asks, beds, patience=0)
        best = best_total(stems, boxes, STEP)
        assert last.total == pytest.approx(best), seed
        assert last.bound == pytest.approx(best), seed


def planned(made: Garden, states: int, overlap: float = 0.0) -> tuple[Plan, list[str]]:
    """The plan after so many states, and what the checker finds wrong with it."""
    joint = Joint(made.lots, made.sites, [], made.setting)
    *_, last = islice(joint.states(), states)
    plan = joint.plan(last)
    plants = {wanted.lot: wanted.plant for wanted in made.lots}
    return plan, faults(plan, made.sites, plants, zone=5, overlap=overlap)


@pytest.mark.parametrize("seed", range(8))
def test_no_rule_is_broken_and_the_rule_of_thumb_is_beaten(seed: int) -> None:
    made = garden(seed, lots=16, plants=40, sites=5, roomy=0.7)
    plan, broken = planned(made, 60)
    assert not broken
    assert plan.total >= greedy_total(made) - 1e-9
    assert plan.total <= plan.bound + 1e-9


def test_a_garden_of_forty_lots_is_planned_at_once_without_a_fault() -> None:
    made = garden(1, lots=40, plants=120, sites=12)
    plan, broken = planned(made, 1)
    assert not broken
    assert plan.total > greedy_total(made)
    assert plan.gap < 0.1


def test_plants_may_grow_into_each_other_by_the_share_that_is_allowed() -> None:
    made = garden(3, lots=12, plants=40, sites=3, roomy=0.5)
    made = evolve(made, setting=evolve(made.setting, overlap=0.2))
    plan, broken = planned(made, 40, overlap=0.2)
    assert not broken
    tighter, _ = planned(garden(3, lots=12, plants=40, sites=3, roomy=0.5), 40)
    assert len(plan.plan) > len(tighter.plan)


@pytest.mark.parametrize("group", [3, 5])
def test_groups_stay_together(group: int) -> None:
    made = garden(5, lots=8, plants=40, sites=4)
    lots = [Wanted(each.lot, each.plant, each.count, "", group) for each in made.lots]
    joint = Joint(lots, made.sites, [], made.setting)
    *_, last = islice(joint.states(), 20)
    plan = joint.plan(last)
    assert not faults(plan, made.sites, {each.lot: each.plant for each in lots}, zone=5)
    for wanted in lots:
        by_site: dict[str, list[tuple[float, float]]] = {}
        for placed in plan.plan:
            if placed.lot == wanted.lot and placed.spot:
                by_site.setdefault(placed.site, []).append((placed.spot.x, placed.spot.y))
        reach = NEIGHBOURLY * 2 * wanted.need.radius_m + 1e-6
        rest = wanted.count % group
        for spots in by_site.values():
            clumps = clumped(spots, reach)
            assert all(clump >= min(group, rest or group) for clump in clumps)
            assert len(spots) % group in (0, rest)


def clumped(spots: list[tuple[float, float]], reach: float) -> list[int]:
    """How many plants each clump has whose plants stand within reach of one another."""
    left, sizes = list(spots), []
    while left:
        clump = [left.pop()]
        for at in clump:
            near = [other for other in left if math.dist(at, other) <= reach]
            clump += near
            left = [other for other in left if other not in near]
        sizes.append(len(clump))
    return sizes


def test_the_search_is_the_same_every_time() -> None:
    made = garden(7, lots=10, plants=20, sites=3)
    assert planned(made, 15) == planned(made, 15)


def test_a_held_spot_is_the_first_of_its_lot_and_counts_in_the_total() -> None:
    kept = hold(BED, "26-001", 2.0, 0.75, 0.6)
    joint = Joint([Wanted("26-001", CURRANT, 3)], [BED], [kept], setting())
    *_, last = joint.states()
    plan = joint.plan(last)
    assert plan.plan[0].spot
    assert plan.plan[0].spot.id == kept.spot
    assert plan.total == pytest.approx(sum(placed.score for placed in plan.plan))
