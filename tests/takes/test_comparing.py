"""Which of two groups of lots roots better: against draws by numpy, and in what is plain without."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.takes.cases import By, Case
from cuttings.takes.comparing import (
    LEAST_LOTS,
    LEAST_STEMS,
    PER_UNIT,
    SURE_ENOUGH,
    Comparison,
    Side,
    Verdict,
    chance_better,
    compare,
    comparisons,
    difference_of,
)
from cuttings.takes.groups import counts_of, grouped, start_of
from cuttings.takes.shares import FINE, LOTS_DIFFER, Counts, Figure, learned
from tests.takes.trials import case, fact

DRAWS = 400_000
POINTS = 2_000


def side(dip: str, *cases: Case) -> Side:
    return Side({By.DIP: fact(dip)}, cases)


def dipped(code: str, rooted: int, failed: int, **facts: Any) -> Case:
    return case(code, rooted, failed, dip="3000 ppm", **facts)


def bare(code: str, rooted: int, failed: int, **facts: Any) -> Case:
    return case(code, rooted, failed, dip="none", **facts)


def drawn(cases: Sequence[Case], rng: np.random.Generator) -> np.ndarray:
    """Shares drawn from the posterior of some lots, reckoned on an even grid of the mean."""
    figure = start_of(cases)
    means = (np.arange(POINTS) + 0.5) / POINTS
    start = (figure.mean * figure.stems - 1) * np.log(means)
    start += ((1 - figure.mean) * figure.stems - 1) * np.log1p(-means)
    weights = np.zeros(POINTS)
    lgamma = np.vectorize(math.lgamma)
    for alike, held in LOTS_DIFFER:
        a, b = means * (1 / alike - 1), (1 - means) * (1 / alike - 1)
        law = np.zeros(POINTS)
        for each in counts_of(cases):
            came, not_ = each.came_through, each.did_not
            law += lgamma(a + came) - lgamma(a) + lgamma(b + not_) - lgamma(b)
            law += math.lgamma(1 / alike - 1) - math.lgamma(1 / alike - 1 + came + not_)
        weights += held * np.exp(start + law)
    width = 1.0 / POINTS
    return rng.choice(means, DRAWS, p=weights / weights.sum()) + rng.uniform(-width / 2, width / 2, DRAWS)


STRATA = {
    "one stratum": [([dipped("a", 7, 3), dipped("b", 8, 2)], [bare("c", 4, 6), bare("d", 6, 4)])],
    "far apart": [([dipped("a", 20, 1), dipped("b", 18, 3)], [bare("c", 3, 17), bare("d", 5, 15)])],
    "one lot a side": [([dipped("a", 3, 1)], [bare("c", 1, 4)])],
    "two strata": [
        ([dipped("a", 7, 3)], [bare("c", 4, 6), bare("d", 6, 4)]),
        ([dipped("e", 12, 20, plant="rosemary")], [bare("f", 9, 1, plant="rosemary")]),
    ],
    "three strata": [
        ([dipped("a", 2, 3)], [bare("c", 4, 6)]),
        ([dipped("e", 30, 2, plant="rosemary")], [bare("f", 9, 1, plant="rosemary")]),
        ([dipped("g", 3, 3, method="leaf-cutting")], [bare("h", 1, 5, method="leaf-cutting")]),
    ],
}


@pytest.mark.parametrize("name", STRATA)
def test_the_law_of_the_difference_is_that_of_many_draws(name: str) -> None:
    strata = [(tuple(ones), tuple(others)) for ones, others in STRATA[name]]
    rng = np.random.default_rng(20260502)
    total, weights = np.zeros(DRAWS), 0.0
    for ones, others in strata:
        stems = [
            sum(each.counts.came_through + each.counts.did_not for each in cases) for cases in (ones, others)
        ]
        weight = stems[0] * stems[1] / sum(stems)
        total += weight * (drawn(ones, rng) - drawn(others, rng))
        weights += weight
    total /= weights
    law = difference_of(strata)
    assert sum(weight for _, weight in law) == pytest.approx(1.0)
    at = np.array([difference for difference, _ in law])
    assert np.diff(at) == pytest.approx(1 / PER_UNIT)
    ours = compare(
        side("3000 ppm", *(c for s in strata for c in s[0])),
        side("none", *(c for s in strata for c in s[1])),
        By.DIP,
    )
    sign = 1.0 if ours.better.cases[0].facts[By.DIP].value == "3000 ppm" else -1.0
    total *= sign
    assert ours.probability == pytest.approx((total > 0).mean(), abs=3e-3)
    assert ours.difference == pytest.approx(total.mean(), abs=2e-3)
    assert ours.interval == pytest.approx(tuple(np.quantile(total, [0.05, 0.95])), abs=5e-3)


lots = st.lists(st.tuples(st.integers(0, 15), st.integers(0, 15)).filter(any), min_size=1, max_size=4)


@settings(max_examples=30, deadline=None)
@given(lots, lots)
def test_it_makes_no_difference_which_of_two_is_named_first(
    ones: list[tuple[int, int]], others: list[tuple[int, int]]
) -> None:
    first = side("3000 ppm", *(dipped(f"a{n}", *each) for n, each in enumerate(ones)))
    second = side("none", *(bare(f"b{n}", *each) for n, each in enumerate(others)))
    one, other = compare(first, second, By.DIP), compare(second, first, By.DIP)
    assert one.probability == pytest.approx(other.probability)
    assert one.difference == pytest.approx(other.difference, abs=1e-9)
    assert one.interval == pytest.approx(other.interval, abs=1e-9)
    assert one.verdict is other.verdict
    assert one.probability is not None
    assert one.interval is not None
    assert 0.5 - 1e-9 <= one.probability <= 1.0 + 1e-9
    assert one.interval[0] <= (one.difference or 0.0) <= one.interval[1]


@settings(max_examples=30, deadline=None)
@given(lots)
def test_equal_counts_leave_it_open(counted: list[tuple[int, int]]) -> None:
    first = side("3000 ppm", *(dipped(f"a{n}", *each) for n, each in enumerate(counted)))
    second = side("none", *(bare(f"b{n}", *each) for n, each in enumerate(counted)))
    found = compare(first, second, By.DIP)
    assert found.probability == pytest.approx(0.5, abs=1e-6)
    assert found.difference == pytest.approx(0.0, abs=1e-6)
    assert found.verdict in (Verdict.CANNOT_TELL, Verdict.TOO_FEW)


def test_one_group_is_called_better_only_when_it_is_sure_enough() -> None:
    clear = compare(
        side("3000 ppm", dipped("a", 18, 2), dipped("b", 19, 1)),
        side("none", bare("c", 6, 14), bare("d", 8, 12)),
        By.DIP,
    )
    assert clear.verdict is Verdict.BETTER
    assert (clear.probability or 0) >= SURE_ENOUGH
    assert clear.better.key[By.DIP].value == "3000 ppm"
    close = compare(
        side("none", bare("c", 6, 4), bare("d", 7, 3)),
        side("3000 ppm", dipped("a", 7, 3), dipped("b", 7, 3)),
        By.DIP,
    )
    assert close.verdict is Verdict.CANNOT_TELL
    assert 0.5 < (close.probability or 0) < SURE_ENOUGH
    assert close.better.key[By.DIP].value == "3000 ppm"


@pytest.mark.parametrize(
    ("ones", "others"),
    [
        ([(15, 0)], [(1, 9), (1, 9)]),
        ([(4, 0), (5, 0)], [(1, 9), (1, 9)]),
        ([(10, 0), (10, 0)], [(0, 9)]),
        ([(10, 0), (10, 0)], [(0, 4), (0, 5)]),
    ],
)
def test_too_few_lots_or_stems_are_said_to_be_too_few(
    ones: list[tuple[int, int]], others: list[tuple[int, int]]
) -> None:
    assert (LEAST_LOTS, LEAST_STEMS) == (2, 10)
    first = side("3000 ppm", *(dipped(f"a{n}", *each) for n, each in enumerate(ones)))
    second = side("none", *(bare(f"b{n}", *each) for n, each in enumerate(others)))
    found = compare(first, second, By.DIP)
    assert found.verdict is Verdict.TOO_FEW
    assert (found.probability or 0) > 0.9


def test_parts_of_one_lot_are_one_lot() -> None:
    parts = [case("a", 8, 2, dip="x"), case("b", 9, 1, begun_as="a", dip="x")]
    found = compare(side("x", *parts), side("none", bare("c", 3, 7), bare("d", 4, 6)), By.DIP)
    assert found.verdict is Verdict.TOO_FEW
    assert (found.better.lots, found.better.decided) == (1, 20)


def test_lots_without_a_plant_and_method_in_common_are_too_unlike() -> None:
    first = side("3000 ppm", dipped("a", 9, 1), dipped("b", 9, 1))
    for facts in ({"plant": "rosemary"}, {"method": "leaf-cutting"}):
        second = side("none", bare("c", 2, 8, **facts), bare("d", 2, 8, **facts))
        found = compare(first, second, By.DIP)
        assert found.verdict is Verdict.TOO_UNLIKE
        told = (found.probability, found.difference, found.interval, found.log_odds_ratio, found.log_odds_se)
        assert told == (None,) * 5


def test_only_lots_that_match_are_compared_and_the_others_are_counted() -> None:
    first = side("3000 ppm", dipped("a", 9, 1), dipped("b", 9, 1), dipped("x", 0, 40, plant="rosemary"))
    second = side(
        "none", bare("c", 2, 8), bare("d", 2, 8), bare("y", 0, 0), bare("z", 7, 0, method="leaf-cutting")
    )
    found = compare(first, second, By.DIP)
    assert found.verdict is Verdict.BETTER
    assert [each.code for each in found.better.cases] == ["a", "b"]
    assert [each.code for each in found.worse.cases] == ["c", "d"]
    assert found.unmatched == 2


def test_a_dip_that_only_went_to_the_willing_plant_is_no_better_for_it() -> None:
    """Most dipped lots are of an easy plant, and most others of a hard one: bare shares would mislead."""
    easy, hard = {"plant": "easy"}, {"plant": "hard"}
    first = side("3000 ppm", *(dipped(f"a{n}", 9, 1, **easy) for n in range(4)), dipped("b", 1, 9, **hard))
    second = side("none", bare("c", 9, 1, **easy), *(bare(f"d{n}", 1, 9, **hard) for n in range(4)))
    found = compare(first, second, By.DIP)
    assert first.rooted / first.decided - second.rooted / second.decided > 0.4
    assert found.verdict is Verdict.CANNOT_TELL
    assert found.difference == pytest.approx(0.0, abs=0.1)


def test_the_odds_ratio_is_of_the_bare_counts() -> None:
    without = side("none", bare("c", 9, 11))
    found = compare(side("3000 ppm", dipped("a", 10, 5), dipped("b", 4, 1)), without, By.DIP)
    assert found.log_odds_ratio == pytest.approx(math.log((14 / 6) / (9 / 11)))
    assert found.log_odds_se == pytest.approx(math.sqrt(1 / 14 + 1 / 6 + 1 / 9 + 1 / 11))
    empty = compare(side("3000 ppm", dipped("a", 10, 0)), without, By.DIP)
    assert empty.log_odds_ratio is empty.log_odds_se is None


def test_what_else_the_lots_differ_in_is_named() -> None:
    first = side(
        "3000 ppm", dipped("a", 9, 1, year=2024, place="bench"), dipped("b", 9, 1, year=2025, place="sill")
    )
    second = side("none", bare("c", 2, 8, year=2024, place="frame"), bare("d", 2, 8, year=2023))
    assert compare(first, second, By.DIP).also == (By.PLACE,)


def keys(found: Comparison) -> tuple[By, tuple[object, ...], tuple[object, ...]]:
    one, other = (tuple(fact.value for fact in side.key.values()) for side in (found.better, found.worse))
    return found.by, one, other


def test_the_best_group_is_set_against_each_other_one_and_any_dip_against_none() -> None:
    cases = [
        *(case(f"a{n}", 9, 1, dip="3000 ppm") for n in range(2)),
        *(case(f"b{n}", 5, 5, dip="8000 ppm") for n in range(2)),
        *(case(f"c{n}", 2, 8, dip="none") for n in range(2)),
    ]
    found = comparisons(grouped(cases, [By.DIP]))
    assert {keys(each) for each in found} == {
        (By.DIP, ("any",), ("none",)),
        (By.DIP, ("3000 ppm",), ("none",)),
        (By.DIP, ("3000 ppm",), ("8000 ppm",)),
    }
    order = [(list(Verdict).index(each.verdict), -(each.probability or 0)) for each in found]
    assert order == sorted(order)


def test_in_a_table_of_two_things_those_are_compared_that_differ_in_one() -> None:
    cases = [
        case(f"{place}{month}{n}", 5 + 2 * month - (place == "sill"), 5, place=place, month=month)
        for place in ("sill", "bench")
        for month in (1, 2)
        for n in range(2)
    ]
    found = comparisons(grouped(cases, [By.MONTH, By.PLACE]))
    assert {keys(each) for each in found} == {
        (By.MONTH, (2, "sill"), (1, "sill")),
        (By.MONTH, (2, "bench"), (1, "bench")),
        (By.PLACE, (1, "bench"), (1, "sill")),
        (By.PLACE, (2, "bench"), (2, "sill")),
    }


def test_plants_are_compared_only_where_nothing_else_tells_the_groups_apart() -> None:
    cases = [case(f"{plant}{n}", 5, 5, plant=plant) for plant in ("box", "rosemary") for n in range(2)]
    assert len(comparisons(grouped(cases, [By.PLANT]))) == 1
    assert comparisons(grouped(cases, [By.PLANT, By.METHOD])) == ()


def test_methods_and_woods_are_compared_within_the_plant_alone() -> None:
    cases = [
        *(case(f"a{n}", 9, 1, method="leaf-cutting", wood="leaf") for n in range(2)),
        *(case(f"b{n}", 2, 8, method="root-cutting", wood="root") for n in range(2)),
    ]
    for by in (By.METHOD, By.WOOD):
        (found,) = comparisons(grouped(cases, [by]))
        assert found.verdict is Verdict.BETTER


def test_a_group_that_only_came_with_roots_is_compared_with_nothing() -> None:
    cases = [case("a", 9, 1, dip="x"), case("b", 0, 0, dip="none")]
    assert comparisons(grouped(cases, [By.DIP])) == ()
    assert comparisons(()) == ()


def test_what_is_published_of_its_lots_is_where_each_side_starts() -> None:
    low, high = Figure(0.2, 12.0, "a table", True), Figure(0.8, 12.0, "a table", True)
    mixed = [case("a", 1, 1, figure=low), case("b", 3, 3, figure=high)]
    start = start_of(mixed)
    assert start.mean == pytest.approx(0.65)
    assert start.stems == pytest.approx(12.0)
    assert learned(start, counts_of(mixed), FINE).mean < 0.65


@given(rooted=st.lists(st.integers(0, 10), min_size=2, max_size=2))
def test_the_chances_that_either_of_two_shares_is_greater_come_to_one(rooted: list[int]) -> None:
    one, other = (learned(Figure(0.5, 5.0, "usual"), [Counts(each, 10 - each)] * 3) for each in rooted)
    chance = chance_better(one, other)
    assert chance + chance_better(other, one) == pytest.approx(1.0)
    assert (chance > 0.5) is (rooted[0] > rooted[1]) or rooted[0] == rooted[1]
