"""What became of stems after they had rooted."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.places import Garden, Site
from cuttings.takes.outcomes import POTTING_DAYS, Step, a_year_on, through_potting, till_planted
from cuttings.words import Cause, Method, Stage, Units

FIRST = date(2024, 4, 1)
BOX: dict[str, Any] = {"plant": "Buxus sempervirens", "called": "box"}


def after(days: int) -> date:
    return FIRST + timedelta(days=days)


class Bench:
    """One lot of so many rooted stems, and what is done to it; days are counted from its start."""

    def __init__(self, count: int) -> None:
        self.story = Story(date(2040, 1, 1))
        garden = Garden(name="Quarry Bank", lat=42.9, lon=-76.1, units=Units.US)
        self.story.tell(e.GardenFacts, FIRST, garden=garden)
        self.story.tell(e.SiteFacts, FIRST, site=Site(name="gate bed", area="gate strip"))
        self.lot = self.story.begin(e.Divide, FIRST, count, method=Method.CROWN_DIVISION, **BOX)

    def pot(self, day: int, count: int, lot: str = "") -> "Bench":
        self.story.pot(after(day), lot or self.lot, count, "4in", 0.5, "bench")
        return self

    def die(self, day: int, count: int, stage: Stage = Stage.POTTED, lot: str = "") -> "Bench":
        self.story.lose(after(day), lot or self.lot, count, stage, Cause.ROT)
        return self

    def plant(self, day: int, count: int, stage: Stage = Stage.POTTED, lot: str = "") -> "Bench":
        self.story.plant(after(day), lot or self.lot, stage, "gate bed", count=count, spread_m=0.5)
        return self

    def give(self, day: int, count: int) -> "Bench":
        self.story.move(e.Give, after(day), self.lot, count, Stage.POTTED, Stage.GIVEN)
        return self

    def split(self, day: int, count: int, stage: Stage, into: str) -> "Bench":
        moves = (e.Move(count=count, source=stage),)
        self.story.tell(e.Split, after(day), lot=self.lot, into=into, moves=moves)
        return self

    def book(self, day: int) -> Book:
        found = fold(self.story.entries()).as_of(after(day))
        assert not found.problems, found.problems
        return found

    def potting(self, day: int, lot: str = "") -> tuple[int, int, int]:
        return counts(through_potting(self.book(day).lots[lot or self.lot], after(day)))

    def year(self, day: int, lot: str = "") -> tuple[int, int, int]:
        return counts(a_year_on(self.book(day).lots[lot or self.lot], after(day)))


def counts(step: Step) -> tuple[int, int, int]:
    return step.lived, step.died, step.undecided


@pytest.mark.parametrize(
    ("day", "wanted"), [(0, (0, 0, 0)), (10, (0, 0, 6)), (69, (0, 0, 6)), (70, (6, 0, 0)), (400, (6, 0, 0))]
)
def test_a_potted_stem_has_come_through_after_two_months(day: int, wanted: tuple[int, int, int]) -> None:
    assert POTTING_DAYS == 60
    assert Bench(8).pot(10, 6).potting(day) == wanted


@pytest.mark.parametrize(
    ("died", "wanted"), [(20, (4, 2, 0)), (59, (4, 2, 0)), (60, (6, 0, 0)), (90, (6, 0, 0))]
)
def test_a_death_counts_against_potting_only_in_those_months(died: int, wanted: tuple[int, int, int]) -> None:
    assert Bench(6).pot(0, 6).die(died, 2).potting(200) == wanted


def test_those_given_away_or_planted_before_they_are_over_came_through() -> None:
    bench = Bench(6).pot(0, 6).give(20, 2).plant(30, 1)
    assert bench.potting(31) == (3, 0, 3)
    assert bench.die(40, 1).potting(41) == (3, 1, 2)


def test_those_that_die_are_the_newest_and_those_that_go_on_the_oldest() -> None:
    bench = Bench(6).pot(0, 3).pot(50, 3).die(65, 2)
    assert bench.potting(66) == (3, 2, 1)
    assert bench.plant(70, 3).potting(71) == (3, 2, 1)


def test_settled_stems_that_die_in_their_pots_count_against_what_comes_after() -> None:
    bench = Bench(6).pot(0, 6).die(100, 1).plant(120, 3)
    assert counts(till_planted(bench.book(130).lots[bench.lot], after(130))) == (3, 1, 2)


@pytest.mark.parametrize("day", [10, 374])
def test_within_its_first_year_a_planted_stem_is_undecided(day: int) -> None:
    assert Bench(5).plant(10, 5, Stage.ROOTED).year(day) == (0, 0, 5)


def test_a_year_on_those_count_that_did_not_die_within_it() -> None:
    bench = Bench(5).plant(10, 5, Stage.ROOTED).die(200, 2, Stage.PLANTED).die(500, 1, Stage.PLANTED)
    assert bench.year(300) == (0, 2, 3)
    assert bench.year(375) == (3, 2, 0)
    assert bench.year(900) == (3, 2, 0)


def test_stems_split_off_count_in_the_new_lot_alone_from_the_day_they_were_potted() -> None:
    bench = Bench(6).pot(0, 6).split(50, 4, Stage.POTTED, "24-900").die(55, 1, lot="24-900")
    assert bench.potting(58) == (0, 0, 2)
    assert bench.potting(58, "24-900") == (0, 1, 3)
    assert bench.potting(60) == (2, 0, 0)
    assert bench.potting(60, "24-900") == (3, 1, 0)


def test_a_split_of_a_split_keeps_its_days_too_and_what_was_lost_before_stays_behind() -> None:
    bench = Bench(9).pot(0, 6).die(5, 1).split(10, 4, Stage.POTTED, "24-900").pot(20, 3)
    moves = (e.Move(count=2, source=Stage.POTTED),)
    bench.story.tell(e.Split, after(30), lot="24-900", into="24-901", moves=moves)
    assert bench.potting(61) == (1, 1, 3)
    assert bench.potting(61, "24-900") == (2, 0, 0)
    assert bench.potting(61, "24-901") == (2, 0, 0)


def test_rooted_stems_split_off_are_potted_in_the_new_lot() -> None:
    bench = Bench(6).split(5, 4, Stage.ROOTED, "24-900").pot(10, 4, "24-900").pot(12, 2)
    assert bench.potting(80) == (2, 0, 0)
    assert bench.potting(80, "24-900") == (4, 0, 0)


@st.composite
def stories(draw: st.DrawFn) -> tuple[Bench, int]:
    """Any story of one lot and what was split off it, up to some day."""
    stems = draw(st.integers(1, 12))
    bench = Bench(stems)
    held = {bench.lot: {Stage.ROOTED: stems, Stage.POTTED: 0, Stage.PLANTED: 0}}
    day = 0
    for number in range(draw(st.integers(0, 12))):
        day += draw(st.integers(0, 120))
        lot = draw(st.sampled_from(sorted(held)))
        at = held[lot]
        full = [stage for stage in at if at[stage]]
        if not full:
            continue
        stage = draw(st.sampled_from(full))
        count = draw(st.integers(1, at[stage]))
        what = draw(st.sampled_from(("pot", "die", "plant", "split")))
        if what == "pot" and stage is Stage.ROOTED:
            bench.pot(day, count, lot)
            at[Stage.POTTED] += count
        elif what == "plant" and stage is not Stage.PLANTED:
            bench.plant(day, count, stage, lot)
            at[Stage.PLANTED] += count
        elif what == "split" and stage is not Stage.PLANTED:
            into = f"24-9{number:02d}"
            moves = (e.Move(count=count, source=stage),)
            bench.story.tell(e.Split, after(day), lot=lot, into=into, moves=moves)
            held[into] = {Stage.ROOTED: 0, Stage.POTTED: 0, Stage.PLANTED: 0, stage: count}
        elif what == "die":
            bench.die(day, count, stage, lot)
        else:
            continue
        at[stage] -= count
    return bench, day + draw(st.integers(0, 500))


@given(stories())
def test_every_stem_that_came_lived_died_or_is_undecided_and_counts_once(told: tuple[Bench, int]) -> None:
    bench, day = told
    book = bench.book(day)
    potted = planted = 0
    for lot in book.lots.values():
        for step in (f(lot, after(day)) for f in (through_potting, till_planted, a_year_on)):
            assert min(step.lived, step.died, step.undecided, step.came) >= 0
            assert step.came == step.lived + step.died + step.undecided
        potted += through_potting(lot, after(day)).came
        planted += a_year_on(lot, after(day)).came
    moves = [move for entry in book.entries if isinstance(entry, e.Pot | e.Plant) for move in entry.moves]
    assert potted == sum(move.count for move in moves if move.target is Stage.POTTED)
    assert planted == sum(move.count for move in moves if move.target is Stage.PLANTED)
