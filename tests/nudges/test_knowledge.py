"""What is known of a lot: whether it grew under cover, is still soft, and how warm its roots stand."""

from datetime import date, timedelta
from typing import Any

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.nudges.knowledge import SETTLED_DAYS, Known, known
from cuttings.plants.standard import standard
from cuttings.rules.hardening import needs_hardening
from cuttings.rules.rooting import Bench
from cuttings.words import Cover, Method, Stage, Units, Wood

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
CURRANT: dict[str, Any] = {"plant": "Ribes rubrum", "called": "red currant"}
ROSEMARY: dict[str, Any] = {"plant": "Salvia rosmarinus", "called": "rosemary"}
DAHLIA: dict[str, Any] = {"plant": "Dahlia", "called": "dahlia"}

STRUCK, POTTED = date(2026, 6, 10), date(2026, 8, 1)


def told() -> Story:
    return Story(date(2030, 1, 1))


def about(story: Story, lot: str) -> Known:
    book = fold(story.entries())
    assert not book.problems
    return known(book.lots[lot], standard(), COLD, Units.US)


def struck(wood: Wood = Wood.SOFTWOOD, **facts: Any) -> Known:
    story = told()
    return about(story, story.strike(STRUCK, 10, wood, **{**CURRANT, **facts}))


def potted(where: str, *again: tuple[date, str], **facts: Any) -> Known:
    """Currants rooted under a bag, potted to a place, and later to others."""
    story = told()
    lot = story.strike(STRUCK, 6, Wood.SOFTWOOD, **{"cover": Cover.BAG, **CURRANT, **facts})
    story.check(POTTED, lot, rooted=6)
    story.pot(POTTED, lot, 6, "4in", 0.5, where)
    for on, place in again:
        story.move(e.Pot, on, lot, 6, Stage.POTTED, Stage.POTTED, pot="1L", where=place)
    return about(story, lot)


def when_rooted(lot: Known) -> date:
    found = lot.forecast()
    assert found is not None
    return found.p50


def test_pieces_divided_and_potted_on_a_windowsill_grew_under_cover() -> None:
    story = told()
    lot = story.begin(
        e.Divide,
        date(2026, 3, 20),
        4,
        method=Method.TUBER_DIVISION,
        where="on the kitchen windowsill",
        **DAHLIA,
    )
    story.pot(date(2026, 3, 21), lot, 4, "4in", 0.5, "")
    dahlia = about(story, lot)
    assert dahlia.under_cover
    advice = needs_hardening(
        dahlia.plant, grown_under_cover=dahlia.under_cover, on=date(2026, 5, 20), climate=COLD
    )
    assert advice.value
    assert "stood outside" not in advice.why


def test_a_layer_roots_on_its_mother_whatever_its_place_is_called() -> None:
    story = told()
    lot = story.begin(e.Layer, STRUCK, 3, method=Method.SIMPLE_LAYER, where="conservatory bed", **CURRANT)
    assert not about(story, lot).under_cover


def test_pots_that_came_indoors_grew_under_cover_and_pots_outside_did_not() -> None:
    assert not potted("holding bench", cover=Cover.NONE).under_cover
    assert potted("the cellar", cover=Cover.NONE).under_cover


@pytest.mark.parametrize(("days", "soft"), [(0, True), (SETTLED_DAYS - 1, True), (SETTLED_DAYS, False)])
def test_a_hardy_plant_is_soft_until_it_has_stood_outside_for_a_while(days: int, soft: bool) -> None:
    assert potted("holding bench").soft(POTTED + timedelta(days=days)) is soft


def test_a_plant_that_never_grew_under_cover_is_not_soft() -> None:
    assert not potted("holding bench", cover=Cover.NONE).soft(POTTED)


def test_a_plant_indoors_does_not_settle_and_counts_from_the_day_it_came_out() -> None:
    year_on = POTTED + timedelta(days=365)
    assert potted("kitchen windowsill").soft(year_on)
    out = potted("kitchen windowsill", (year_on, "holding bench"))
    assert out.soft(year_on + timedelta(days=SETTLED_DAYS - 1))
    assert not out.soft(year_on + timedelta(days=SETTLED_DAYS))


def test_a_tender_plant_stays_soft_till_it_is_hardened_off() -> None:
    assert potted("holding bench", **ROSEMARY).soft(POTTED + timedelta(days=2 * SETTLED_DAYS))


def test_an_unheated_bag_is_a_little_warmer_than_the_soil_and_heat_or_a_room_is_warm() -> None:
    heated = struck(cover=Cover.BAG, heat_c=22.0)
    assert when_rooted(heated) == when_rooted(struck(where="kitchen windowsill"))
    bag, frame, mist, frame_told = (
        when_rooted(struck(**facts))
        for facts in (
            {"cover": Cover.BAG},
            {"cover": Cover.FRAME},
            {"cover": Cover.MIST},
            {"where": "the cold frame"},
        )
    )
    assert bag == frame == mist == frame_told < when_rooted(struck())


def test_softwood_under_an_unheated_bag_waits_out_a_cold_spring() -> None:
    story = told()
    lots = [
        story.strike(date(2026, 3, 25), 10, Wood.SOFTWOOD, cover=Cover.BAG, heat_c=heat, **CURRANT)
        for heat in (None, 22.0)
    ]
    unheated, heated = (when_rooted(about(story, lot)) for lot in lots)
    assert unheated > heated + timedelta(days=14)


def test_found_cuttings_in_leaf_go_by_the_warmth_of_the_soil() -> None:
    story = told()
    lot = story.begin(e.Find, date(2026, 4, 1), 3, method=Method.SOFTWOOD_CUTTING, **CURRANT)
    found = about(story, lot).forecast()
    assert found is not None
    assert "warmth of the soil" in found.why


def test_what_stands_in_a_frame_stays_soft() -> None:
    long_after = POTTED + timedelta(days=2 * SETTLED_DAYS)
    assert potted("frame").soft(long_after)
    assert not potted("holding bench").soft(long_after)
    moved = potted("frame", (POTTED + timedelta(days=30), "holding bench"))
    assert moved.soft(POTTED + timedelta(days=30 + SETTLED_DAYS - 1))
    assert not moved.soft(POTTED + timedelta(days=30 + SETTLED_DAYS + 1))


def test_bottom_heat_under_bare_wood_leaves_its_tops_in_the_open() -> None:
    """Its roots stand warm, and what grows of it is not soft."""
    bare, leafy = (struck(wood, heat_c=20.0) for wood in (Wood.HARDWOOD, Wood.SOFTWOOD))
    assert bare.bench is leafy.bench is Bench.WARM
    assert not bare.under_cover
    assert leafy.under_cover
