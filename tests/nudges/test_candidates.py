"""Which lot a pot could be: clues that fit, that cannot be told, and that rule a lot out."""

from datetime import date
from typing import Any

import pytest

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.nudges.candidates import Candidate, Clues, candidates
from cuttings.plants.standard import standard
from cuttings.rules.pots import parse_pot
from cuttings.words import Method, Stage, Units
from tests.nudges.gardens import book_of, garden

MAY, TODAY = date(2026, 5, 20), date(2026, 6, 24)


def could_be(story: Story, **told: Any) -> list[Candidate]:
    return candidates(book_of(story, TODAY), standard(), Clues(**told), TODAY, Units.US)


def codes(story: Story, **told: Any) -> list[str]:
    return [each.lot.code for each in could_be(story, **told)]


def begun(story: Story, plant: str, count: int = 3, where: str = "", **more: Any) -> str:
    return story.begin(
        e.Find, MAY, count, rooted=True, method=Method.SIMPLE_LAYER, plant=plant, where=where, **more
    )


def bench(story: Story, plant: str, pot: str = "4in", litres: float = 0.5, label: str = "") -> str:
    lot = begun(story, plant)
    story.pot(MAY, lot, 3, pot, litres, "holding bench", label=label)
    return lot


def test_a_lot_that_stands_there_fits_one_that_stands_nowhere_may_and_others_do_not() -> None:
    story = garden()
    nowhere, elsewhere = begun(story, "Ribes rubrum"), begun(story, "Ribes rubrum", where="gate strip")
    there = bench(story, "Ribes rubrum")
    assert codes(story, where="holding bench") == [there, nowhere]
    first, second = could_be(story, where="the holding bench by the shed")
    assert (first.unsure, second.unsure) == ((), ("nobody wrote down where it stands",))
    assert codes(story, where="gate") == [elsewhere, nowhere]


def test_a_site_of_an_area_is_in_the_area() -> None:
    story = garden()
    area = book_of(story, TODAY).sites["fruit row"].area
    lot = begun(story, "Ribes rubrum", where=area)
    assert codes(story, where="fruit row") == [lot]


def test_the_stage_counts_only_the_stems_that_are_at_it() -> None:
    story = garden()
    lot = begun(story, "Ribes rubrum", count=5)
    story.pot(MAY, lot, 2, "4in", 0.5, "holding bench")
    (potted,) = could_be(story, stage=Stage.POTTED)
    (rooted,) = could_be(story, stage=Stage.ROOTED)
    assert (potted.stems, rooted.stems) == (2, 3)
    assert potted.because == ("2 potted", "potted 20 May, 5 weeks ago", "it has no label")
    assert rooted.because == ("3 rooted", "begun 20 May, 5 weeks ago", "it has no label")
    assert could_be(story, stage=Stage.READY) == []


@pytest.mark.parametrize(("asked", "fits"), [("4in", True), ("10cm", True), ("#1", False), ("9in", False)])
def test_a_pot_is_known_by_its_size_whatever_it_is_called(asked: str, fits: bool) -> None:
    story = garden()
    lot = bench(story, "Ribes rubrum")
    assert codes(story, pot=parse_pot(asked, Units.US)) == ([lot] if fits else [])


def test_what_is_still_rooting_may_stand_in_any_pot() -> None:
    story = garden()
    begun(story, "Ribes rubrum")
    (each,) = could_be(story, pot=parse_pot("4in", Units.US))
    assert each.unsure == ("nobody wrote down what it is rooting in",)


def test_a_lot_potted_twice_may_stand_in_either_pot() -> None:
    story = garden()
    lot = begun(story, "Ribes rubrum")
    story.pot(MAY, lot, 1, "4in", 0.5, "holding bench")
    story.pot(MAY, lot, 2, "#1", 2.8, "holding bench")
    for pot in ("4in", "#1"):
        assert codes(story, pot=parse_pot(pot, Units.US)) == [lot]
    assert codes(story, pot=parse_pot("#5", Units.US)) == []


def test_looks_rule_out_what_looks_otherwise_and_leave_what_nobody_entered() -> None:
    story = garden()
    currant, box, unknown = (
        bench(story, plant) for plant in ("Ribes rubrum", "Buxus sempervirens", "Nihil nemo")
    )
    assert codes(story, looks={"leaves": "opposite"}) == [box, unknown]
    assert codes(story, looks={"leaves": "alternate"}) == [currant, unknown]
    fits, may_be = could_be(story, looks={"leaves": "opposite"})
    assert "leaves: in pairs, one across from the other" in fits.because
    assert may_be.unsure == ("the plant records do not tell: leaves",)


def test_those_without_a_label_come_first_and_then_those_with_most_stems() -> None:
    story = garden()
    labelled, few = bench(story, "Ribes rubrum", label="currant"), begun(story, "Ribes rubrum", count=2)
    many = begun(story, "Ribes rubrum", count=9)
    assert codes(story) == [many, few, labelled]
    assert "it has no label" not in could_be(story)[-1].because


def test_what_is_gone_cannot_be_it() -> None:
    story = garden()
    lot = bench(story, "Ribes rubrum")
    story.tell(e.Give, MAY, lot=lot, moves=(e.Move(count=3, source=Stage.POTTED, target=Stage.GIVEN),))
    assert could_be(story) == []


@pytest.mark.parametrize(
    ("today", "ago"),
    [(0, "today"), (1, "a day ago"), (9, "9 days ago"), (35, "5 weeks ago"), (800, "2 years ago")],
)
def test_how_long_ago_is_said_in_the_unit_one_would_use(today: int, ago: str) -> None:
    story = garden()
    bench(story, "Ribes rubrum")
    on = date.fromordinal(MAY.toordinal() + today)
    (each,) = candidates(book_of(story, on), standard(), Clues(), on, Units.US)
    assert any(reason.endswith(ago) for reason in each.because)
