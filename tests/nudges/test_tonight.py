"""Tonight's list, in cases a grower can read: what is on it, in what order, and what is left alone."""

from datetime import date
from typing import Any

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.places import Site
from cuttings.nudges.tonight import Exposed, Night, tonight
from cuttings.plants.standard import standard
from cuttings.units import fahrenheit_to_celsius
from cuttings.words import Cause, Cover, Method, Stage, Wood

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
CURRANT: dict[str, Any] = {"plant": "Ribes rubrum", "called": "red currant"}
ROSEMARY: dict[str, Any] = {"plant": "Salvia rosmarinus", "called": "rosemary"}
IRIS: dict[str, Any] = {"plant": "Iris sibirica", "called": "Siberian iris"}
DAHLIA: dict[str, Any] = {"plant": "Dahlia", "called": "dahlia"}

MAY = date(2026, 5, 10)


def told() -> Story:
    return Story(date(2030, 1, 1))


def night_of(story: Story, low_f: float, on: date = MAY) -> Night:
    book = fold(story.entries()).as_of(on)
    assert not book.problems
    return tonight(book, standard(), COLD, on, fahrenheit_to_celsius(low_f))


def only(found: tuple[Exposed, ...]) -> Exposed:
    (each,) = found
    return each


def potted(story: Story, count: int, where: str, plant: dict[str, Any]) -> str:
    lot = story.begin(e.Find, date(2026, 4, 11), count, rooted=True, method=Method.SIMPLE_LAYER, **plant)
    story.pot(date(2026, 4, 11), lot, count, "4in", 0.5, where)
    return lot


def site(story: Story, *growing: str) -> None:
    story.tell(e.SiteFacts, date(2026, 3, 1), site=Site(name="herb corner", area="kitchen side"))
    for plant in growing:
        story.tell(e.GrowingHere, date(2026, 3, 1), site="herb corner", plant=plant)


def stems_told(night: Night) -> int:
    return sum(each.group.count for each in (*night.act, *night.beyond, *night.safe))


def stems_held(book: Book) -> int:
    from_lots = sum(lot.living for lot in book.lots.values())
    return from_lots + sum(len(place.growing) for place in book.sites.values())


@pytest.mark.parametrize("low_f", [60, 33, 25, 5, -20])
@pytest.mark.parametrize("on", [date(2026, 1, 15), date(2026, 5, 2), date(2026, 8, 12), date(2026, 10, 15)])
def test_every_stem_of_the_demo_garden_is_told_of_once(low_f: float, on: date) -> None:
    book = fold(quarry_bank(on))
    night = tonight(book, standard(), COLD, on, fahrenheit_to_celsius(low_f))
    assert stems_told(night) == stems_held(book)


@pytest.mark.parametrize("on", [date(2026, 1, 15), date(2026, 5, 2), date(2026, 10, 15)])
def test_what_is_at_risk_stays_at_risk_as_the_low_falls(on: date) -> None:
    book = fold(quarry_bank(on))
    before: set[tuple[str, str, Stage]] = set()
    for low_f in range(60, -31, -3):
        night = tonight(book, standard(), COLD, on, fahrenheit_to_celsius(low_f))
        now = {(x.group.name, x.group.where, x.group.stages[0]) for x in (*night.act, *night.beyond)}
        assert before <= now
        before = now
    assert before


def test_a_mild_night_endangers_nothing() -> None:
    story = told()
    potted(story, 3, "holding bench", CURRANT)
    night = night_of(story, 50)
    assert [*night.act, *night.beyond, *night.before, *night.cautions] == []
    assert only(night.safe).verdict.remedy.do == "Leave alone: {}"


def test_most_stems_saved_come_first_and_then_the_least_work() -> None:
    story = told()
    few = potted(story, 2, "holding bench", CURRANT)
    many = potted(story, 9, "holding bench", CURRANT)
    night = night_of(story, 27)
    assert [each.group.lot for each in night.act] == [many, few]
    saves = [(-round(each.saves, 2), each.minutes) for each in night.act]
    assert saves == sorted(saves)


def test_layers_and_open_ground_hardwood_rest_safely_in_the_ground() -> None:
    story = told()
    story.begin(e.Layer, date(2025, 6, 1), 3, method=Method.SIMPLE_LAYER, **CURRANT)
    story.strike(date(2025, 11, 10), 15, Wood.HARDWOOD, medium="sand trench", **CURRANT)
    night = night_of(story, -10, date(2026, 1, 20))
    assert not night.act
    assert sum(each.group.count for each in night.safe) == 18


def test_in_growth_a_layer_may_lose_soft_shoots_and_cuttings_without_roots_may_die() -> None:
    story = told()
    layer = story.begin(e.Layer, date(2025, 6, 1), 3, method=Method.SIMPLE_LAYER, **CURRANT)
    cuttings = story.strike(date(2025, 11, 10), 15, Wood.HARDWOOD, medium="sand trench", **CURRANT)
    first, last = night_of(story, 26).act
    assert (first.group.lot, last.group.lot) == (cuttings, layer)
    assert first.verdict.chance > 0
    assert last.verdict.spared
    assert last.what.startswith("Cover if you can")


def test_divided_pieces_waiting_for_soil_are_brought_in() -> None:
    story = told()
    lot = story.begin(e.Divide, date(2026, 5, 8), 4, method=Method.CROWN_DIVISION, **IRIS)
    found = only(night_of(story, 30).act)
    assert (found.group.lot, found.group.count) == (lot, 4)
    assert found.what.startswith("Bring in, cool")


def test_cuttings_are_judged_by_their_cover() -> None:
    def saved(cover: Cover, low_f: float, heat_c: float | None = None) -> Exposed:
        story = told()
        story.strike(date(2026, 4, 20), 10, Wood.SOFTWOOD, cover=cover, heat_c=heat_c, **CURRANT)
        night = night_of(story, low_f)
        return only((*night.act, *night.safe))

    chances = [saved(cover, 28).verdict.chance for cover in (Cover.NONE, Cover.BAG, Cover.FRAME)]
    assert chances == sorted(chances, reverse=True)
    assert saved(Cover.FRAME, 30).what.startswith("Close the frame over")
    assert not saved(Cover.BAG, 20, heat_c=20.0).verdict.at_risk


def test_the_keepers_words_for_a_place_tell_its_shelter_and_are_repeated() -> None:
    def stands(where: str) -> Exposed:
        story = told()
        potted(story, 3, where, ROSEMARY)
        night = night_of(story, 26)
        return only((*night.act, *night.safe))

    indoors = stands("kitchen windowsill")
    assert not indoors.verdict.at_risk
    assert "You wrote 'kitchen windowsill'" in indoors.verdict.why
    framed = stands("the cold frame")
    assert framed.what.startswith("Close the frame")
    assert "You wrote 'the cold frame'" in framed.verdict.why
    for where in ("holding bench", "outside the cellar", "by the greenhouse", "frameless bed", ""):
        assert stands(where).what.startswith("Bring indoors"), where


def test_cuttings_do_not_move_with_those_of_their_lot_that_were_potted() -> None:
    story = told()
    lot = story.strike(date(2026, 4, 1), 6, Wood.BASAL, cover=Cover.BAG, **DAHLIA)
    story.check(date(2026, 4, 28), lot, rooted=3)
    story.pot(date(2026, 4, 28), lot, 3, "4in", 0.5, "kitchen windowsill")
    night = night_of(story, 28)
    assert (only(night.act).group.stages, only(night.act).group.where) == ((Stage.WAITING,), "")
    assert only(night.safe).group.stages == (Stage.POTTED,)


def test_pots_sunk_in_the_ground_are_as_safe_as_plants_in_it() -> None:
    story = told()
    potted(story, 3, "sunk in the fruit row", CURRANT)
    found = only(night_of(story, -10, date(2027, 1, 20)).safe)
    assert "sunk in the ground" in found.verdict.why


def test_a_lot_being_hardened_off_comes_in_below_its_night_limit() -> None:
    story = told()
    lot = story.strike(date(2025, 8, 1), 6, Wood.SEMI_RIPE, cover=Cover.BAG, **ROSEMARY)
    story.check(date(2025, 9, 20), lot, rooted=6)
    story.pot(date(2025, 9, 21), lot, 6, "4in", 0.5, "holding bench")
    story.harden(date(2026, 5, 5), lot, 6, [], None)
    found = only(night_of(story, 45).act)
    assert found.what == f"Bring indoors for the night: {lot} rosemary"
    assert "50 °F or more" in found.verdict.why
    assert found.saves == 0
    assert not night_of(story, 52).act


def test_tender_plants_on_a_site_are_told_of_without_a_lot() -> None:
    story = told()
    site(story, "Dahlia", "Ribes rubrum")
    night = night_of(story, 31)
    found = only(night.act)
    assert (found.group.lot, found.group.where, found.group.count) == ("", "herb corner", 1)
    assert found.what.startswith("Cover")
    assert only(night.safe).group.plant == "Ribes rubrum"


def test_a_planted_lot_is_watched_while_it_is_new() -> None:
    story = told()
    site(story)
    lot = potted(story, 3, "holding bench", CURRANT)
    story.plant(date(2026, 5, 1), lot, Stage.POTTED, "herb corner", count=3, spread_m=1.0)
    found = only(night_of(story, 26, date(2026, 5, 10)).act)
    assert (found.group.lot, found.group.count, found.group.stages) == (lot, 3, (Stage.PLANTED,))
    later = only(night_of(story, 26, date(2026, 6, 10)).act)
    assert later.verdict.spared
    assert later.saves == 0


def test_the_dead_and_the_departed_are_not_told_of() -> None:
    story = told()
    lot = potted(story, 3, "holding bench", CURRANT)
    story.lose(date(2026, 5, 1), lot, 1, Stage.POTTED, Cause.DRIED)
    story.move(e.Give, date(2026, 5, 2), lot, 1, Stage.POTTED, Stage.GIVEN)
    assert only(night_of(story, 25).act).group.count == 1


def test_what_only_loses_soft_growth_comes_after_everything_that_can_die() -> None:
    story = told()
    site(story, "Ribes rubrum", "Dahlia", "Iris sibirica")
    potted(story, 3, "holding bench", CURRANT)
    night = night_of(story, 27)
    assert [each.verdict.spared for each in night.act] == [False, False, True, True]


def test_stems_potted_from_under_a_cover_are_soft_until_they_have_stood_outside() -> None:
    def kept(on: date, where: str = "holding bench") -> Exposed:
        story = told()
        lot = story.strike(date(2025, 7, 1), 6, Wood.SOFTWOOD, cover=Cover.BAG, **CURRANT)
        story.check(date(2025, 9, 20), lot, rooted=6)
        story.pot(date(2025, 12, 1), lot, 6, "4in", 0.5, where)
        night = night_of(story, 25, on)
        return only((*night.act, *night.safe))

    assert kept(date(2026, 1, 10)).verdict.at_risk
    assert "soft from where it was raised" in kept(date(2026, 1, 10)).verdict.why
    assert not kept(date(2026, 2, 10)).verdict.at_risk
    assert "indoors" in kept(date(2026, 2, 10), "the kitchen windowsill").verdict.why


def test_ready_stems_are_hardened_off_and_not_soft() -> None:
    def chilled(finished: bool) -> bool:
        story = told()
        lot = story.strike(date(2026, 3, 1), 6, Wood.BASAL, cover=Cover.BAG, heat_c=20.0, **DAHLIA)
        story.check(date(2026, 3, 28), lot, rooted=6)
        story.pot(date(2026, 3, 29), lot, 6, "4in", 0.5, "holding bench")
        if finished:
            story.harden(date(2026, 4, 15), lot, 6, [], date(2026, 5, 1))
        return bool(night_of(story, 42).act)

    assert chilled(finished=False)
    assert not chilled(finished=True)


def test_tender_stems_under_heat_are_to_be_looked_after_below_45_f() -> None:
    story = told()
    story.strike(date(2026, 4, 20), 6, Wood.BASAL, cover=Cover.BAG, heat_c=20.0, **DAHLIA)
    assert (
        only(night_of(story, 44).act).what == "See that the heat is on, and shut the cover over 26-001 dahlia"
    )
    assert not night_of(story, 46).act


def test_water_is_asked_for_while_the_soil_is_not_yet_frozen() -> None:
    story = told()
    potted(story, 3, "holding bench", CURRANT)
    assert night_of(story, 27).before
    assert not night_of(story, -10, date(2027, 1, 20)).before


def test_nobody_is_told_to_water_against_a_night_that_will_not_freeze() -> None:
    story = told()
    story.strike(date(2026, 4, 20), 6, Wood.BASAL, cover=Cover.BAG, heat_c=20.0, **DAHLIA)
    assert night_of(story, 40).act
    assert not night_of(story, 40).before
    assert night_of(story, 36).before
