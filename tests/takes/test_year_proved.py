"""What the keeper's own lots have proved, told where some of a year's were begun the worse way."""

import random
from typing import Any

import pytest

from cuttings.demo.story import Story
from cuttings.takes.year_lessons import OWN_LOTS, Lesson
from cuttings.words import Cover, Wood
from tests.takes.gardens import BOX, a_garden, day, told

LOTS = 3
ALIKE = 0.1
"""How alike the stems of a made-up lot are beyond chance."""


def lessons(story: Story, year: int = 2026) -> dict[str, Lesson]:
    return {lesson.key: lesson for lesson in told(story, year).lessons}


def strike(story: Story, year: int, rooted: int, lots: int = LOTS, **facts: Any) -> None:
    """Some lots of ten semi-ripe box cuttings that all came to the same."""
    for number in range(lots):
        lot = story.strike(day(f"{year}-08-{number + 1:02d}"), 10, Wood.SEMI_RIPE, **BOX, **facts)
        story.check(day(f"{year}-10-10"), lot, rooted=rooted, failed=10 - rooted)


def dipped_and_bare(dipped: int, bare: int) -> Story:
    """Lots with a dip and without in one year, and without in the next."""
    story = a_garden()
    strike(story, 2025, dipped, dip_ppm=3000)
    strike(story, 2025, bare)
    strike(story, 2026, bare)
    return story


def test_what_is_proved_is_told_with_its_counts_and_chances() -> None:
    found = lessons(dipped_and_bare(9, 1))
    lesson = found["proved"]
    assert lesson.text.startswith("Dip box: with a dip of 3000 ppm 27 of 30 rooted, without a dip 6 of 60; ")
    assert "chances in 100 that it helps. 27 stems failed the other way (26-001 box, " in lesson.text
    assert (lesson.stems, len(lesson.lots)) == (27, LOTS)
    assert "in 100, nine times in ten between" in lesson.why
    assert lesson.source == OWN_LOTS
    assert "took-badly" not in found


def test_a_kind_that_took_badly_of_which_nothing_is_proved_is_told_still() -> None:
    story = a_garden()
    strike(story, 2026, 0, lots=6)
    assert {"took-badly", "proved"} & lessons(story).keys() == {"took-badly"}


def test_what_else_differed_is_said() -> None:
    assert "may be what did it" not in lessons(dipped_and_bare(9, 1))["proved"].why
    story = a_garden()
    strike(story, 2026, 9, dip_ppm=3000, medium="sand")
    strike(story, 2026, 1, medium="grit")
    assert "They differ in medium too, which may be what did it." in lessons(story)["proved"].why


@pytest.mark.parametrize(
    ("better", "worse", "advice"),
    [
        ({}, {"dip_ppm": 3000}, "Strike box without a dip: "),
        ({"dip_ppm": 1000}, {"dip_ppm": 8000}, "Dip box in 1000 ppm: "),
        ({"cover": Cover.MIST}, {"cover": Cover.BAG}, "Strike box under mist: "),
        ({"medium": "sand"}, {"medium": "peat"}, "Strike box in sand: "),
        ({"where": "cold frame"}, {"where": "holding bench"}, "Begin box at cold frame: "),
    ],
)
def test_the_advice_is_the_better_way(better: dict[str, Any], worse: dict[str, Any], advice: str) -> None:
    story = a_garden()
    strike(story, 2026, 9, **better)
    strike(story, 2026, 1, **worse)
    lesson = lessons(story)["proved"]
    assert lesson.text.startswith(advice)
    assert "27 of 30 rooted" in lesson.text
    assert lesson.stems == 27


@pytest.mark.parametrize(("wood", "month"), [(Wood.SOFTWOOD, "08"), (Wood.SEMI_RIPE, "06")])
def test_another_wood_or_month_can_be_the_better_way(wood: Wood, month: str) -> None:
    story = a_garden()
    for number in range(LOTS):
        lot = story.strike(day(f"2026-{month}-0{number + 1}"), 10, wood, **BOX)
        story.check(day("2026-10-10"), lot, rooted=9, failed=1)
    strike(story, 2026, 1)
    text = lessons(story)["proved"].text
    assert text.startswith("Take softwood of box: " if wood is Wood.SOFTWOOD else "Begin box in June: ")


def test_nothing_is_proved_where_the_better_way_was_taken_or_too_little_is_known() -> None:
    story = dipped_and_bare(9, 1)
    strike(story, 2024, 4, lots=1, dip_ppm=3000)
    assert "proved" not in lessons(story, 2024)
    assert "proved" not in lessons(dipped_and_bare(5, 5))
    few = a_garden()
    strike(few, 2026, 10, lots=1, dip_ppm=3000)
    strike(few, 2026, 0, lots=1)
    assert "proved" not in lessons(few)


def a_trial(seed: int, dip_helps: float) -> Story:
    """Twelve lots begun every which way, of which a dip alone may make a difference."""
    chance, story = random.Random(seed), a_garden()
    whole = 1.0 / ALIKE - 1.0
    for year in (2025, 2026):
        for number in range(6):
            dip_ppm = chance.choice([None, 3000])
            lot = story.strike(
                day(f"{year}-0{chance.randint(5, 8)}-0{number + 1}"), 12, Wood.SOFTWOOD, dip_ppm=dip_ppm,
                cover=chance.choice([Cover.BAG, Cover.FRAME]), medium=chance.choice(["sand", "peat"]),
                where=chance.choice(["cold frame", "sill"]), **BOX,
            )  # fmt: skip
            mean = 0.6 + dip_helps * (0.5 if dip_ppm else -0.5)
            share = chance.betavariate(mean * whole, (1.0 - mean) * whole)
            rooted = sum(chance.random() < share for _ in range(12))
            story.check(day(f"{year}-10-10"), lot, rooted=rooted, failed=12 - rooted)
    return story


def test_luck_is_seldom_taken_for_proof_and_a_great_help_is_mostly_seen() -> None:
    by_luck = ["proved" in lessons(a_trial(seed, 0.0)) for seed in range(40)]
    assert sum(by_luck) <= 6
    found = [lessons(a_trial(seed, 0.5)).get("proved") for seed in range(20)]
    assert sum(lesson is not None and lesson.text.startswith("Dip box: ") for lesson in found) >= 14


def test_it_is_said_of_how_many_pairs_it_is_the_surest() -> None:
    story = dipped_and_bare(9, 1)
    assert "surest of" not in lessons(story)["proved"].why
    for number in range(2):
        lot = story.strike(day(f"2026-07-0{number + 1}"), 10, Wood.SEMI_RIPE, **BOX)
        story.check(day("2026-10-10"), lot, rooted=1, failed=9)
    assert "It is the surest of 2 pairs compared." in lessons(story)["proved"].why
