"""What is left alone, until when, and that it never speaks against what is to be done."""

from datetime import date, timedelta

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.ledger.book import fold
from cuttings.nudges.grounds import grounds
from cuttings.nudges.grown import touches
from cuttings.nudges.model import Nudge
from cuttings.nudges.mothers import cut_and_taken, prunings
from cuttings.nudges.restraint import in_leaf, late_growth, restraint, uncut
from cuttings.plants.model import Plant
from cuttings.plants.standard import standard
from cuttings.rules.advice import Window
from cuttings.rules.marks import mark_window
from cuttings.rules.pruning import pruning_windows
from cuttings.rules.transplant import WOODY
from cuttings.words import PlantType, Purpose
from tests.nudges.gardens import COLD, book_of, garden, grows, weeks_of

FORSYTHIA = "Forsythia × intermedia"
WEEK = timedelta(days=6)


def said(story: Story, first: date) -> dict[str, Nudge]:
    found = restraint(book_of(story, first), standard(), COLD, first, first + WEEK)
    return {nudge.id: nudge for nudge in found}


def test_forsythia_is_not_cut_with_the_others_in_late_winter() -> None:
    story = garden()
    grows(story, "gate bed", FORSYTHIA)
    nudge = said(story, date(2026, 2, 14))["area:gate strip:old-wood"]
    assert nudge.what == "Do not cut back the forsythia yet"
    assert (nudge.not_yet, nudge.minutes, nudge.area) == (True, 0, "gate strip")
    (pruning,) = pruning_windows(standard().plant(FORSYTHIA), COLD, 2026)
    assert nudge.window.closes == pruning.opens - timedelta(days=1)
    assert not said(story, pruning.opens)


def test_alike_plants_of_an_area_share_a_sentence() -> None:
    story = garden()
    grows(story, "gate bed", FORSYTHIA, "Jasminum nudiflorum", FORSYTHIA)
    grows(story, "fruit row", "Philadelphus coronarius")
    found = said(story, date(2026, 2, 14))
    assert found["area:gate strip:old-wood"].what == "Do not cut back the forsythia and winter jasmine yet"
    assert len(found) == 2
    first, second = (uncut(standard().plant(name), COLD, date(2026, 2, 14))
                     for name in (FORSYTHIA, "Jasminum nudiflorum"))  # fmt: skip
    assert first is not None
    assert second is not None
    assert found["area:gate strip:old-wood"].window.closes == min(first.closes, second.closes)


@pytest.mark.parametrize("plant", ["Ribes rubrum", "Rubus idaeus", "Buddleja davidii", "Iris sibirica"])
def test_what_is_cut_in_late_winter_or_never_is_not_forbidden(plant: str) -> None:
    story = garden()
    grows(story, "gate bed", plant)
    days = [first for first, _ in weeks_of(date(2026, 1, 3), 26) if said(story, first)]
    assert not days


def test_the_leaves_of_daffodils_are_left_until_they_have_died_down() -> None:
    story = garden()
    grows(story, "gate bed", "Narcissus")
    sheets = [first for first, _ in weeks_of(date(2026, 1, 3), 52) if said(story, first)]
    assert 5 <= len(sheets) <= 8
    nudge = said(story, sheets[0])["area:gate strip:leaves"]
    assert "until they have yellowed" in nudge.what
    lift = mark_window(Purpose.LIFT, standard().plant("Narcissus"), sheets[0], COLD)
    assert nudge.window.closes == lift.opens - timedelta(days=1)


def test_snowdrops_may_be_lifted_in_leaf_before_their_leaves_are_spoken_of() -> None:
    snowdrop = standard().plant("Galanthus nivalis")
    wait = in_leaf(snowdrop, COLD, date(2026, 1, 1))
    lift = mark_window(Purpose.LIFT, snowdrop, date(2026, 1, 1), COLD)
    assert wait is not None
    assert wait.opens == lift.closes + timedelta(days=1)


def test_late_growth_is_spoken_of_once_for_the_whole_garden() -> None:
    story = garden()
    grows(story, "gate bed", FORSYTHIA, "Buxus sempervirens")
    grows(story, "fruit row", "Buxus sempervirens")
    found = [nudge for nudge in said(story, date(2026, 8, 15)).values() if "feed" in nudge.what]
    assert [nudge.id for nudge in found] == ["garden:late-growth"]
    assert "experts123" in found[0].window.source
    assert "garden:late-growth" not in said(story, date(2026, 7, 4))
    assert "garden:late-growth" not in said(story, date(2026, 11, 14))


def test_a_garden_without_shrubs_hears_nothing_of_late_growth() -> None:
    story = garden()
    grows(story, "gate bed", "Iris sibirica")
    assert not said(story, date(2026, 8, 15))


def test_a_herb_that_is_cut_for_the_kitchen_is_not_forbidden() -> None:
    story = garden()
    grows(story, "herb corner", "Salvia rosmarinus")
    assert not said(story, date(2026, 2, 14))


def _apart(wait: Window | None, *doing: Window | None) -> bool:
    return wait is None or not any(each and touches(wait, each.opens, each.closes) for each in doing)


def _all_prunings(plant: Plant, climate: Climate) -> list[Window]:
    return [each for year in range(2024, 2030) for each in pruning_windows(plant, climate, year)]


CLIMATES = {
    "cold winters": COLD,
    "no frost dates": Climate(lat=42.9),
    "mild winters": Climate(lat=51.0, frost=frost_dates((4, 10), (11, 10)), zone="8b"),
    "hardly any frost": Climate(lat=30.0, frost=frost_dates((2, 10), (12, 20)), zone="9b"),
    "southern": Climate(lat=-43.5, frost=frost_dates((10, 20), (4, 20)), zone="8b"),
}


@pytest.mark.parametrize("where", CLIMATES)
def test_no_plant_of_the_catalogue_is_to_be_cut_and_left_uncut_at_once(where: str) -> None:
    climate = CLIMATES[where]
    for plant in (each for each in standard() if each.type in WOODY):
        doing = _all_prunings(plant, climate)
        for month in range(1, 13, 2):
            on = date(2026, month, 15)
            wait, found = uncut(plant, climate, on), cut_and_taken(plant, climate, on)
            assert _apart(wait, *doing, found[1] if found else None), plant.name
            assert _apart(late_growth([plant], climate, on), *doing), plant.name


def test_no_bulb_is_to_be_lifted_and_left_at_once() -> None:
    for plant in (each for each in standard() if each.type is PlantType.BULB and not each.unwanted):
        lifts = [mark_window(Purpose.LIFT, plant, date(2025, 1, 1) + timedelta(days=30 * n), COLD)
                 for n in range(36)]  # fmt: skip
        for month in range(1, 13):
            assert _apart(in_leaf(plant, COLD, date(2026, month, 15)), *lifts), plant.name


def test_two_years_of_the_demo_garden_never_contradict_themselves() -> None:
    whole = fold(quarry_bank(date(2026, 12, 31)))
    for first, last in weeks_of(date(2025, 1, 4), 104):
        book = whole.as_of(first)
        doing = prunings(book, standard(), COLD, first, last)
        waiting = restraint(book, standard(), COLD, first, last)
        found = [*doing, *waiting, *grounds(book, standard(), COLD, first, last)]
        assert all(touches(nudge.window, first, last) for nudge in found)
        assert len({nudge.id for nudge in found}) == len(found)
        assert all(nudge.not_yet and nudge.minutes == 0 for nudge in waiting)
        assert not any(nudge.not_yet for nudge in found if nudge not in waiting)
        grow = {each.plant for site in book.sites.values() for each in site.growing}
        for name in grow:
            plant = standard().find(name).plant
            assert plant is not None
            assert sum(f":{name}:prunings" in nudge.id for nudge in found) <= len(book.sites)
            cut = [each for each in doing if f":{name}:" in each.id]
            wait = uncut(plant, COLD, first)
            assert not any(wait and touches(wait, each.window.opens, each.window.closes) for each in cut)
        whats = [nudge.what for nudge in found]
        assert len(set(whats)) == len(whats)
