"""Lots put together by what they share, as entries tell of them."""

from datetime import date
from typing import Any

import pytest

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.places import Garden
from cuttings.plants.standard import standard
from cuttings.takes.cases import By, Case, case_of
from cuttings.takes.groups import Group, grouped, left_out
from cuttings.takes.learned import Learned
from cuttings.words import Cause, Cover, DipForm, Method, Stage, Units, Wood
from tests.nudges.gardens import COLD

BOX: dict[str, Any] = {"plant": "Buxus sempervirens", "called": "box"}
ROSEMARY: dict[str, Any] = {"plant": "Salvia rosmarinus", "called": "rosemary"}
BEGAN, SEEN, TODAY = date(2025, 8, 9), date(2025, 11, 2), date(2026, 5, 2)


def bench() -> Story:
    story = Story(date(2040, 1, 1))
    story.tell(
        e.GardenFacts,
        date(2024, 3, 1),
        garden=Garden(name="Quarry Bank", lat=42.9, lon=-76.1, units=Units.US),
    )
    return story


def struck(story: Story, count: int = 10, on: date = BEGAN, **fields: Any) -> str:
    return story.strike(on, count, Wood.SEMI_RIPE, **{**BOX, **fields})


def cases(story: Story, today: date = TODAY) -> dict[str, Case]:
    book = fold(story.entries())
    assert not book.problems, book.problems
    learned = Learned(book.lots.values(), standard(), COLD)
    return {lot.code: case_of(lot, learned, COLD, today) for lot in book.lots.values()}


def groups(story: Story, *by: By) -> dict[tuple[object, ...], Group]:
    return {
        tuple(fact.value for fact in group.key.values()): group
        for group in grouped(cases(story).values(), by)
    }


def test_a_struck_lot_tells_all_of_how_it_was_begun() -> None:
    story = bench()
    lot = struck(
        story, dip_ppm=3000, dip_form=DipForm.POWDER, medium="Gritty  Mix", cover=Cover.FRAME, where="Bench"
    )
    facts = cases(story)[lot].facts
    assert {by: (fact.value, fact.said) for by, fact in facts.items()} == {
        By.PLANT: ("Buxus sempervirens", "box"),
        By.METHOD: ("semi-ripe-cutting", "semi-ripe cutting"),
        By.WOOD: ("semi-ripe", "semi-ripe"),
        By.MONTH: (8, "August"),
        By.DIP: ("3000 ppm powder", "3000 ppm powder"),
        By.MEDIUM: ("gritty mix", "Gritty Mix"),
        By.COVER: ("frame", "frame"),
        By.PLACE: ("bench", "Bench"),
        By.YEAR: (2025, "2025"),
    }


def test_what_does_not_apply_or_was_not_written_down_is_missing() -> None:
    story = bench()
    bare = struck(story)
    layer = story.begin(e.Layer, BEGAN, 3, method=Method.TIP_LAYER, where="bench", **BOX)
    find = story.begin(e.Find, BEGAN, 3, method=Method.ROOT_CUTTING, **BOX)
    found = cases(story)
    assert set(By) - set(found[bare].facts) == {By.MEDIUM, By.PLACE}
    assert set(By) - set(found[layer].facts) == {By.WOOD, By.DIP, By.MEDIUM, By.COVER}
    assert set(By) - set(found[find].facts) == {By.MONTH, By.DIP, By.MEDIUM, By.COVER, By.PLACE}
    assert found[bare].facts[By.DIP].value == "none"
    assert left_out(found.values(), [By.DIP]) == {By.DIP: 2}
    assert left_out(found.values(), [By.MONTH, By.DIP]) == {By.MONTH: 1, By.DIP: 1}
    assert left_out(found.values(), [By.PLANT]) == {}


def test_keys_come_in_the_order_of_months_strengths_and_the_alphabet() -> None:
    story = bench()
    for month, ppm in ((11, 8000), (2, None), (9, 500)):
        struck(story, on=date(2025, month, 5), dip_ppm=ppm)
    assert [key for (key,) in groups(story, By.MONTH)] == [2, 9, 11]
    assert [key for (key,) in groups(story, By.DIP)] == ["none", "500 ppm", "8000 ppm"]
    assert list(groups(story, By.MONTH, By.DIP)) == [(2, "none"), (9, "500 ppm"), (11, "8000 ppm")]


def test_stems_count_where_they_ended_and_those_gone_before_anybody_knew_for_nothing() -> None:
    story = bench()
    lot = struck(story, 12)
    story.move(e.Give, date(2025, 9, 1), lot, 2, Stage.WAITING, Stage.GIVEN)
    story.check(SEEN, lot, rooted=6, failed=1, not_yet=3)
    story.lose(date(2025, 12, 1), lot, 3, Stage.WAITING, Cause.ROT)
    (rooting,) = [group.rooting for group in groups(story, By.PLANT).values()]
    assert rooting is not None
    assert (rooting.started, rooting.rooted, rooting.failed, rooting.waiting, rooting.gone) == (
        12,
        6,
        4,
        0,
        2,
    )
    assert rooting.share.stems == 10


def test_those_that_still_wait_count_only_as_far_as_their_time_was_over_at_the_last_look() -> None:
    def counted(*looks: date) -> float:
        story = bench()
        lot = struck(story, 10)
        for look in looks:
            story.check(look, lot, not_yet=10)
        return cases(story)[lot].counts.did_not

    never, soon, late = counted(), counted(date(2025, 8, 20)), counted(date(2025, 8, 20), date(2026, 7, 1))
    assert never == 0.0
    assert 0.0 < soon < 2.0 < late < 10.0


def test_a_look_that_finds_nothing_lowers_what_to_count_on() -> None:
    def mean(*looks: date) -> float:
        story = bench()
        lot = struck(story, 10)
        for look in looks:
            story.check(look, lot, not_yet=10)
        rooting = groups(story, By.PLANT)[("Buxus sempervirens",)].rooting
        assert rooting is not None
        return rooting.share.mean

    assert mean() == pytest.approx(0.8, abs=1e-3)
    assert mean(date(2026, 7, 1)) < mean(date(2025, 10, 1)) < mean()


def test_a_lot_and_what_was_split_off_it_are_one_lot() -> None:
    story = bench()
    lot = struck(story, 12)
    story.tell(
        e.Split, date(2025, 9, 1), lot=lot, into="25-900", moves=(e.Move(count=5, source=Stage.WAITING),)
    )
    story.check(SEEN, lot, rooted=7)
    story.check(SEEN, "25-900", failed=5)
    (rooting,) = [group.rooting for group in groups(story, By.PLANT).values()]
    assert rooting is not None
    assert (rooting.lots, rooting.rooted, rooting.failed) == (1, 7, 5)
    assert (rooting.share.lots, rooting.share.stems) == (1, 12)


def test_divisions_say_nothing_of_rooting_but_all_of_what_comes_after() -> None:
    story = bench()
    lot = story.begin(e.Divide, BEGAN, 6, method=Method.CROWN_DIVISION, **BOX)
    assert groups(story, By.PLANT) == {}
    story.pot(BEGAN, lot, 6, "4in", 0.5, "bench")
    story.lose(date(2025, 9, 1), lot, 1, Stage.POTTED, Cause.DRIED)
    group = groups(story, By.PLANT)[("Buxus sempervirens",)]
    assert (group.rooting, group.a_year_on) == (None, None)
    assert group.potted is not None
    assert (group.potted.step.came, group.potted.step.lived, group.potted.step.died) == (6, 5, 1)
    assert group.potted.share is not None
    assert 0.7 < group.potted.share.mean < 0.9


def test_stems_that_are_all_undecided_have_no_share_yet() -> None:
    story = bench()
    lot = story.begin(e.Divide, date(2026, 4, 20), 6, method=Method.CROWN_DIVISION, **BOX)
    story.pot(date(2026, 4, 20), lot, 6, "4in", 0.5, "bench")
    potted = groups(story, By.PLANT)[("Buxus sempervirens",)].potted
    assert potted is not None
    assert (potted.step.undecided, potted.share) == (6, None)


def test_a_mixed_group_starts_from_the_figures_of_its_lots_weighed_by_stems() -> None:
    story = bench()
    struck(story, 30)
    struck(story, 10, **ROSEMARY)
    alone = [group.rooting for group in groups(story, By.PLANT).values()]
    (both,) = [group.rooting for group in groups(story, By.METHOD).values()]
    assert both is not None
    box, rosemary = (each.share.figure for each in alone if each is not None)
    assert rosemary.published
    assert not box.published
    assert both.share.figure.mean == pytest.approx((3 * box.mean + rosemary.mean) / 4)
    assert both.share.figure.stems == pytest.approx((3 * box.stems + rosemary.stems) / 4)
    assert both.sources == {box.source: False, rosemary.source: True}
    assert not both.share.figure.published


def test_stems_that_had_rooted_count_where_they_went_when_their_lot_was_split() -> None:
    story = bench()
    lot = struck(story)
    story.check(SEEN, lot, rooted=6, failed=1)
    story.tell(e.Split, SEEN, lot=lot, into="25-900", moves=(e.Move(count=4, source=Stage.ROOTED),))
    story.tell(e.Split, SEEN, lot=lot, into="25-901", moves=(e.Move(count=2, source=Stage.WAITING),))
    story.tell(e.Rename, SEEN, lot="25-900", **ROSEMARY)
    found = cases(story)
    counts = {code: (case.told.rooted, case.told.failed, case.told.waiting) for code, case in found.items()}
    assert counts == {lot: (2, 1, 1), "25-900": (4, 0, 0), "25-901": (0, 0, 2)}
    assert all(case.told.started == case.stems for case in found.values())
