"""Prunings that make cuttings: which are kept, which are not, and when it is said."""

from datetime import date

import pytest

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.nudges.model import NO_LOSS, Nudge
from cuttings.nudges.mothers import cut_and_taken, prunings
from cuttings.plants.standard import standard
from cuttings.words import Method, Stage, Wood
from tests.nudges.gardens import COLD, book_of, garden, grows, week_from, weeks_of

CURRANT = "site:fruit row:Ribes rubrum:prunings"


def said(story: Story, first: date, weeks: int = 1) -> dict[str, Nudge]:
    """What a year's sheets, or one, say of prunings."""
    found = {}
    for begins, ends in weeks_of(first, weeks):
        for nudge in prunings(book_of(story, begins), standard(), COLD, begins, ends):
            found[nudge.id] = nudge
    return found


def test_what_is_cut_off_the_currant_at_rest_makes_hardwood_cuttings() -> None:
    story = garden()
    grows(story, "fruit row", "Ribes rubrum")
    nudge = said(story, date(2026, 11, 7))[CURRANT]
    assert (
        nudge.what
        == "Cutting back the red currant on the fruit row: keep the prunings, they make hardwood cuttings"
    )
    assert (nudge.site, nudge.area) == ("fruit row", "kitchen side")
    assert "One-year wood with at least three buds" in nudge.window.why
    assert "Penn State" in nudge.window.source
    assert "Missouri" in nudge.window.source
    assert "secateurs" in nudge.tools
    assert any("blister rust" in caution for caution in nudge.cautions)
    assert (nudge.task, nudge.loss, nudge.every, nudge.not_yet) == ("", NO_LOSS, 0, False)


def test_a_row_of_currants_is_spoken_of_once() -> None:
    story = garden()
    grows(story, "fruit row", *["Ribes rubrum"] * 5)
    begins, ends = week_from(date(2026, 11, 7))
    assert len(prunings(book_of(story, begins), standard(), COLD, begins, ends)) == 1


def test_it_is_said_as_its_best_time_begins_and_not_all_winter() -> None:
    story = garden()
    grows(story, "fruit row", "Ribes rubrum")
    sheets = [first for first, _ in weeks_of(date(2026, 7, 4), 52) if CURRANT in said(story, first)]
    assert 1 <= len(sheets) <= 2
    assert {first.month for first in sheets} == {11}


def test_what_blooms_on_old_wood_gives_softwood_after_its_flowers() -> None:
    story = garden()
    grows(story, "gate bed", "Jasminum nudiflorum")
    found = said(story, date(2026, 1, 3), 52)
    (nudge,) = found.values()
    assert "softwood cuttings" in nudge.what
    assert nudge.window.opens.month in (5, 6)


@pytest.mark.parametrize(
    ("plant", "why"),
    [
        ("Cornus sericea", "it runs wild in places"),
        ("Buddleja davidii", "it runs wild in places"),
        ("Buxus sempervirens", "nobody told on which wood it blooms"),
        ("Hydrangea anomala subsp. petiolaris", "it is hard to root, and five days are chance"),
        ("Iris sibirica", "it is no woody plant"),
        ("Rubus occidentalis", "no cutting of bare wood is on its record"),
    ],
)
def test_of_these_nothing_is_said(plant: str, why: str) -> None:
    story = garden()
    grows(story, "gate bed", plant)
    assert not said(story, date(2026, 1, 3), 52), why


def test_a_named_variety_that_may_be_patented_gets_the_caution_instead() -> None:
    story = garden()
    grows(story, "gate bed", "Hydrangea paniculata 'Quarry White'", "Philadelphus coronarius")
    found = said(story, date(2026, 1, 3), 52)
    named = found["site:gate bed:Hydrangea paniculata 'Quarry White':prunings"]
    assert "root none of the prunings before you know" in named.what
    assert any("patented" in caution for caution in named.cautions)
    assert "Take pieces" not in named.window.why


def test_a_plant_that_is_young_in_its_place_is_left_to_grow() -> None:
    story = garden()
    on = date(2025, 9, 14)
    lot = story.begin(
        e.Find, date(2025, 5, 1), 1, rooted=True, method=Method.SIMPLE_LAYER, plant="Ribes rubrum"
    )
    story.plant(on, lot, Stage.ROOTED, "fruit row", (2.0, 1.0), spread_m=1.4)
    assert CURRANT not in said(story, date(2026, 11, 7))
    assert CURRANT in said(story, date(2027, 11, 6))


def test_what_was_struck_this_season_is_not_asked_for_again() -> None:
    story = garden()
    grows(story, "fruit row", "Ribes rubrum")
    story.strike(date(2026, 11, 5), 12, Wood.HARDWOOD, plant="Ribes rubrum")
    assert CURRANT not in said(story, date(2026, 11, 7))
    assert CURRANT in said(story, date(2027, 11, 6))


def test_the_weeks_are_those_of_both_jobs() -> None:
    found = cut_and_taken(standard().plant("Ribes rubrum"), COLD, date(2026, 7, 1))
    assert found is not None
    way, window = found
    assert way.method is Method.HARDWOOD_CUTTING
    assert window.opens <= window.best[0] <= window.best[1] <= window.closes
    assert (window.opens.month, window.closes.month) == (10, 4)
