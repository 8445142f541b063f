"""The week's sheet, in cases a grower can read: what stands on it, what does not, and why."""

from datetime import date, timedelta
from typing import Any

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.places import Site
from cuttings.ledger.ticks import NudgeNever
from cuttings.nudges.knowledge import known
from cuttings.nudges.lots import also_due, next_for, nudges_for
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from cuttings.words import Cause, Cover, Method, Purpose, Stage, Units, Wood

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
CURRANT: dict[str, Any] = {"plant": "Ribes rubrum", "called": "red currant"}
ROSEMARY: dict[str, Any] = {"plant": "Salvia rosmarinus", "called": "rosemary"}
IRIS: dict[str, Any] = {"plant": "Iris sibirica", "called": "Siberian iris"}


def told() -> Story:
    return Story(date(2030, 1, 1))


def sheet(story: Story, first: date, climate: Climate = COLD) -> dict[str, Nudge]:
    """The nudges of the seven days from a date, by what they are for."""
    book = fold(story.entries()).as_of(first)
    assert not book.problems
    found = week(book, standard(), climate, first, first + timedelta(days=6))
    return {nudge.id: nudge for nudge in found}


def layers(story: Story, on: date = date(2026, 5, 20)) -> str:
    return story.begin(e.Layer, on, 3, method=Method.SIMPLE_LAYER, **CURRANT)


def softwood(story: Story, on: date = date(2026, 6, 10), heat_c: float | None = None) -> str:
    plant = {"plant": "Forsythia × intermedia", "called": "forsythia"}
    return story.strike(on, 10, Wood.SOFTWOOD, cover=Cover.BAG, heat_c=heat_c, **plant)


def potted_currants(story: Story, on: date) -> str:
    lot = story.begin(e.Find, on, 3, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.pot(on, lot, 3, "4in", 0.5, "holding bench")
    return lot


def potted_rosemary(story: Story, where: str = "holding bench") -> str:
    lot = story.strike(date(2026, 8, 1), 6, Wood.SEMI_RIPE, cover=Cover.BAG, **ROSEMARY)
    story.check(date(2026, 9, 20), lot, rooted=6, root_length_m=0.04)
    story.pot(date(2026, 9, 21), lot, 6, "4in", 0.5, where)
    return lot


def test_cuttings_under_cover_want_air_every_week_until_they_root() -> None:
    story = told()
    lot = softwood(story)
    assert "Air" in sheet(story, date(2026, 6, 13))[f"{lot}:air"].what
    story.check(date(2026, 7, 15), lot, rooted=10)
    assert f"{lot}:air" not in sheet(story, date(2026, 7, 18))


def test_nobody_is_sent_to_look_before_roots_can_be_there() -> None:
    story = told()
    lot = softwood(story)
    first = standard().plant("Forsythia × intermedia").way(Method.SOFTWOOD_CUTTING)
    assert first is not None
    assert first.rooting_days is not None
    due = date(2026, 6, 10) + timedelta(days=first.rooting_days[0])
    assert f"{lot}:check" not in sheet(story, due - timedelta(days=12))  # July soil is quicker than the book
    look = sheet(story, due)[f"{lot}:check"]
    assert "Look for roots" in look.what
    assert "Do not pull" in look.window.why


def test_a_look_that_found_nothing_puts_the_next_one_off() -> None:
    story = told()
    lot = softwood(story)
    story.check(date(2026, 7, 20), lot, not_yet=10)
    assert f"{lot}:check" not in sheet(story, date(2026, 7, 20))
    assert f"{lot}:check" in sheet(story, date(2026, 7, 27))


def test_a_lot_that_will_not_root_is_to_be_given_up() -> None:
    story = told()
    lot = softwood(story)
    rounds = [sheet(story, date(2026, 7, 1) + timedelta(weeks=n)).get(f"{lot}:check") for n in range(60)]
    hopeless = [
        number for number, nudge in enumerate(rounds) if nudge is not None and "Give up" in nudge.what
    ]
    assert 6 <= len(hopeless) <= 16  # in rounds, for half a year
    assert rounds[hopeless[-1] + 1 :] == [None] * (59 - hopeless[-1])


def test_divided_pieces_are_urgent() -> None:
    story = told()
    lot = story.begin(e.Divide, date(2026, 9, 5), 4, method=Method.CROWN_DIVISION, **IRIS)
    pot = sheet(story, date(2026, 9, 6))[f"{lot}:pot"]
    assert pot.window.closes <= date(2026, 9, 19)
    assert pot.loss.expected(date(2026, 9, 6), date(2026, 9, 12)) > 0
    late = sheet(story, date(2026, 9, 22))[f"{lot}:pot"]
    assert "Look after 26-001 Siberian iris: pot or plant it now" in late.what
    assert "It was to be done by 19 September" in late.window.why


def test_bulbs_are_no_bare_roots() -> None:
    story = told()
    lot = story.begin(
        e.Find, date(2026, 6, 20), 20, method=Method.BULB_OFFSET, plant="Tulipa", called="tulip"
    )
    bulbs = sheet(story, date(2026, 6, 20))[f"{lot}:bulbs"]
    assert "Replant the bulbs of 26-001 tulip" in bulbs.what
    assert "moist" not in bulbs.window.why
    assert bulbs.minutes <= 20


def test_a_look_comes_in_rounds_and_not_every_week() -> None:
    story = told()
    lot = layers(story)
    weeks_with_a_look = [
        first
        for first in (date(2026, 6, 1) + timedelta(weeks=n) for n in range(52))
        if f"{lot}:check" in sheet(story, first)
    ]
    assert 3 <= len(weeks_with_a_look) <= 14
    assert not [first for first in weeks_with_a_look if first.month in (12, 1, 2, 3)]


def test_what_is_past_hope_is_not_aired_any_more() -> None:
    story = told()
    lot = softwood(story)
    for first in (date(2026, 12, 5) + timedelta(weeks=n) for n in range(20)):
        assert f"{lot}:air" not in sheet(story, first)


def test_a_missed_winter_job_is_asked_after_for_a_while() -> None:
    story = told()
    lot = potted_rosemary(story)
    assert "under cover from now on" in sheet(story, date(2026, 10, 10))[f"{lot}:winter"].what
    assert f"{lot}:winter" not in sheet(story, date(2026, 11, 10))


def test_a_lot_split_off_keeps_its_beginning() -> None:
    story = told()
    lot = softwood(story)
    moves = (e.Move(count=4, source=Stage.WAITING),)
    story.tell(e.Split, date(2026, 6, 20), lot=lot, into="26-900", moves=moves)
    found = sheet(story, date(2026, 7, 25))
    whole, part = (found[f"{code}:check"].window for code in (lot, "26-900"))
    assert "4 to 6 weeks" in part.why
    assert part.opens - whole.opens <= timedelta(days=3)  # fewer stems bring news a little later


def test_roots_too_short_to_pot_are_looked_at_again_first() -> None:
    story = told()
    lot = softwood(story)
    story.check(date(2026, 7, 15), lot, rooted=4, root_length_m=0.01)
    assert f"{lot}:pot" not in sheet(story, date(2026, 7, 16))
    assert "Look at the roots" in sheet(story, date(2026, 7, 29))[f"{lot}:pot"].what


def test_a_hardy_plant_in_its_pot_is_planted_in_early_autumn_and_not_sunk_then() -> None:
    story = told()
    lot = potted_currants(story, date(2026, 6, 1))
    september = sheet(story, date(2026, 9, 12))
    assert "Plant" in september[f"{lot}:plant"].what
    assert f"{lot}:winter" not in september
    assert f"{lot}:harden" not in september


def test_a_hardy_plant_still_in_its_pot_is_sunk_before_the_ground_freezes() -> None:
    story = told()
    lot = potted_currants(story, date(2026, 9, 28))
    november = sheet(story, date(2026, 11, 21))
    assert "Sink" in november[f"{lot}:winter"].what
    assert f"{lot}:plant" not in november


def test_a_tender_plant_comes_in_before_frost() -> None:
    story = told()
    lot = potted_rosemary(story)
    indoors = sheet(story, date(2026, 9, 22))[f"{lot}:winter"]
    assert "indoors" in indoors.what
    assert indoors.window.closes <= date(2026, 9, 30)


def test_a_tender_plant_is_hardened_off_before_it_is_planted() -> None:
    story = told()
    lot = potted_rosemary(story)
    april = sheet(story, date(2027, 4, 10))
    assert f"{lot}:harden" not in april
    assert f"{lot}:plant" not in april
    late_may = sheet(story, date(2027, 5, 22))
    assert "Begin hardening off" in late_may[f"{lot}:harden"].what
    assert f"{lot}:plant" not in late_may


def test_hardening_goes_on_day_by_day_and_a_missed_day_repeats_its_step() -> None:
    story = told()
    lot = potted_rosemary(story)
    begin = date(2027, 5, 22)
    story.harden(begin, lot, 6, [begin, begin + timedelta(days=1)], None)
    story.tell(e.Harden, begin + timedelta(days=2), lot=lot, step="skip", reason="a cold wind")
    assert "day 3 of 14" in sheet(story, begin + timedelta(days=3))[f"{lot}:harden"].what


def test_what_is_hardened_off_waits_to_be_planted() -> None:
    story = told()
    lot = potted_rosemary(story)
    begin = date(2027, 5, 22)
    story.harden(begin, lot, 6, [begin + timedelta(days=n) for n in range(14)], date(2027, 6, 5))
    june = sheet(story, date(2027, 6, 5))
    assert "Plant" in june[f"{lot}:plant"].what
    assert f"{lot}:harden" not in june


def test_a_new_shrub_is_watered_often_for_twelve_weeks_then_weekly_and_not_in_winter() -> None:
    story = told()
    place = date(2026, 3, 1)
    story.tell(e.SiteFacts, place, site=Site(name="fruit row", area="kitchen side"))
    lot = potted_currants(story, date(2026, 4, 20))
    story.plant(date(2026, 5, 30), lot, Stage.POTTED, "fruit row", count=3, spread_m=1.2)
    assert "every day" in sheet(story, date(2026, 6, 1))[f"{lot}:water"].what
    assert "two or three days" in sheet(story, date(2026, 7, 4))[f"{lot}:water"].what
    assert "once a week" in sheet(story, date(2026, 9, 12))[f"{lot}:water"].what
    assert f"{lot}:water" not in sheet(story, date(2026, 12, 5))
    assert sheet(story, date(2026, 6, 1))[f"{lot}:water"].area == "kitchen side"


def test_nothing_is_said_of_stems_that_are_gone() -> None:
    story = told()
    lot = softwood(story)
    story.lose(date(2026, 7, 1), lot, 10, Stage.WAITING, Cause.ROT)
    assert not sheet(story, date(2026, 7, 4))


def test_a_mark_comes_up_when_its_time_has_come_with_its_place() -> None:
    story = told()
    facts = {"where": "gate strip", "tape": "A=3.20m B=4.75m", **CURRANT}
    mark = story.mark(date(2026, 3, 20), purpose=Purpose.TAKE_HARDWOOD, **facts)
    assert not sheet(story, date(2026, 7, 4))
    november = sheet(story, date(2026, 11, 14))[f"{mark}:take-hardwood"]
    assert "gate strip" in november.what
    assert "A=3.20m B=4.75m" in november.what


def test_a_mark_ticked_off_stays_quiet() -> None:
    story = told()
    mark = story.mark(date(2026, 3, 20), purpose=Purpose.TAKE_HARDWOOD, **CURRANT)
    story.tell(e.MarkDone, date(2026, 11, 10), code=mark)
    assert not sheet(story, date(2026, 11, 14))


def test_text_in_a_mark_is_never_read_as_a_pattern() -> None:
    story = told()
    story.mark(date(2026, 11, 1), purpose=Purpose.TAKE_HARDWOOD, where="bed {0} {} [red]", **CURRANT)
    (nudge,) = sheet(story, date(2026, 11, 14)).values()
    assert nudge.what == "Take hardwood of red currant at mark M26-001, bed {0} {} [red]"


def test_a_garden_without_frost_dates_is_asked_for_them() -> None:
    assert "garden:frost" in sheet(told(), date(2026, 6, 1), Climate(lat=42.9))
    assert "garden:frost" not in sheet(told(), date(2026, 6, 1))


def test_the_sheet_of_a_past_week_knows_nothing_of_what_came_later() -> None:
    story = told()
    lot = softwood(story)
    story.lose(date(2026, 7, 20), lot, 10, Stage.WAITING, Cause.ROT)
    assert f"{lot}:air" in sheet(story, date(2026, 7, 11))


def test_what_loses_most_by_waiting_comes_first() -> None:
    book = fold(quarry_bank(date(2026, 5, 9)))
    first, last = date(2026, 5, 9), date(2026, 5, 15)
    costs = [each.loss.expected(first, last) for each in week(book, standard(), COLD, first, last)]
    assert costs == sorted(costs, reverse=True)


def test_a_rooted_layer_is_never_overdue_it_lives_on_its_mother() -> None:
    story = told()
    lot = layers(story)
    story.check(date(2026, 10, 30), lot, rooted=3)
    for first in (date(2026, 11, 1) + timedelta(weeks=n) for n in range(100)):
        nudge = sheet(story, first).get(f"{lot}:pot")
        assert nudge is None or nudge.what.startswith("Cut 26-001 red currant from its mother")
        assert nudge is None or nudge.loss.plants == 0


def test_nobody_is_told_to_plant_into_frozen_ground() -> None:
    story = told()
    lot = story.begin(e.Divide, date(2026, 11, 1), 4, method=Method.CROWN_DIVISION, **IRIS)
    january = (
        sheet(story, date(2027, 1, 10)).get(f"{lot}:pot") or sheet(story, date(2027, 1, 24))[f"{lot}:pot"]
    )
    assert "plant it now" not in january.what
    assert "free of frost" in january.what


def test_bulbs_at_rest_are_not_watered() -> None:
    story = told()
    story.tell(e.SiteFacts, date(2026, 3, 1), site=Site(name="gate bed", area="gate strip"))
    lot = story.begin(e.Find, date(2026, 6, 1), 10, method=Method.BULB_OFFSET, plant="Galanthus nivalis")
    story.plant(date(2026, 6, 14), lot, Stage.ROOTED, "gate bed", count=10, spread_m=0.1)
    assert f"{lot}:water" not in sheet(story, date(2026, 6, 20))


def test_pots_are_watered_in_summer_only() -> None:
    story = told()
    lot = potted_currants(story, date(2026, 6, 1))
    assert f"{lot}:pots" in sheet(story, date(2026, 7, 18))
    assert f"{lot}:pots" not in sheet(story, date(2026, 12, 5))


def test_shade_counts_from_the_newest_pot() -> None:
    story = told()
    lot = potted_currants(story, date(2026, 3, 5))
    moves = (e.Move(count=3, source=Stage.POTTED, target=Stage.POTTED),)
    story.tell(e.Pot, date(2026, 5, 1), lot=lot, moves=moves, pot="5L", shade_days=10)
    assert f"{lot}:shade" in sheet(story, date(2026, 5, 9))


def test_a_job_whose_best_time_is_to_come_is_not_this_week_s() -> None:
    story = told()
    lot = potted_currants(story, date(2026, 5, 1))
    assert f"{lot}:plant" not in sheet(story, date(2026, 8, 1))
    assert f"{lot}:plant" in sheet(story, date(2026, 9, 5))


def hardening_since(story: Story, begun: date) -> str:
    lot = potted_rosemary(story)
    move = {"source": Stage.POTTED, "target": Stage.HARDENING}
    story.tell(e.Harden, begun, lot=lot, step="start", moves=(e.Move(count=6, **move),))
    return lot


def test_tender_plants_left_hardening_in_autumn_are_brought_in_and_not_put_out() -> None:
    story = told()
    lot = hardening_since(story, date(2026, 9, 25))
    december = sheet(story, date(2026, 12, 20))
    assert december[f"{lot}:harden"].what.startswith("Bring")
    assert "begins again in spring" in december[f"{lot}:harden"].what
    september = sheet(story, date(2026, 9, 26))
    assert september[f"{lot}:harden"].what.startswith("Bring")
    assert f"{lot}:winter" not in september  # it would be the same thing said twice


def test_hardening_in_its_season_goes_on() -> None:
    story = told()
    lot = hardening_since(story, date(2027, 5, 18))
    assert "day 1 of 14" in sheet(story, date(2027, 5, 18))[f"{lot}:harden"].what


def test_late_rooted_stems_are_potted_while_they_can_still_root_in() -> None:
    story = told()
    lot = story.strike(date(2026, 7, 1), 6, Wood.SOFTWOOD, cover=Cover.BAG, **CURRANT)
    story.check(date(2026, 9, 10), lot, rooted=6, root_length_m=0.04)
    found = sheet(story, date(2026, 9, 12))[f"{lot}:pot"]
    assert date(2026, 9, 17) <= found.window.closes <= date(2026, 10, 5)


def test_nobody_is_told_to_bring_in_what_was_potted_indoors() -> None:
    story = told()
    lot = potted_rosemary(story, "kitchen windowsill")
    assert f"{lot}:winter" not in sheet(story, date(2026, 9, 26))


def test_stems_that_lag_behind_others_of_their_lot_have_nudges_of_their_own() -> None:
    story = told()
    lot = potted_rosemary(story)
    story.tell(e.Harden, date(2027, 5, 18), lot=lot, step="start", moves=(moved(3, Stage.HARDENING),))
    may = sheet(story, date(2027, 5, 24))
    assert "day 1 of 14" in may[f"{lot}:harden"].what
    assert "Begin hardening off" in may[f"{lot}:harden-more"].what


def moved(count: int, target: Stage) -> e.Move:
    return e.Move(count=count, source=Stage.POTTED, target=target)


def potted_late(story: Story) -> str:
    lot = story.begin(e.Find, date(2026, 8, 20), 2, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.pot(date(2026, 8, 20), lot, 2, "4in", 0.5, "holding bench")
    return lot


def test_shrubs_planted_in_autumn_are_watered_until_the_ground_freezes() -> None:
    story = told()
    story.tell(e.SiteFacts, date(2026, 3, 1), site=Site(name="fruit row", area="kitchen side"))
    lot = potted_late(story)
    story.plant(date(2026, 9, 19), lot, Stage.POTTED, "fruit row", count=2, spread_m=1.2)
    assert "every day" in sheet(story, date(2026, 9, 21))[f"{lot}:water"].what
    assert "once a week" in sheet(story, date(2026, 10, 24))[f"{lot}:water"].what
    assert f"{lot}:water" not in sheet(story, date(2026, 12, 5))


def test_only_the_new_plants_of_a_lot_are_watered_where_they_stand() -> None:
    story = told()
    for name, area in (("fruit row", "kitchen side"), ("gate bed", "gate strip")):
        story.tell(e.SiteFacts, date(2023, 3, 1), site=Site(name=name, area=area))
    lot = story.begin(e.Find, date(2023, 4, 20), 6, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.pot(date(2023, 4, 20), lot, 6, "4in", 0.5, "holding bench")
    story.plant(date(2023, 9, 9), lot, Stage.POTTED, "fruit row", count=5, spread_m=1.2)
    story.plant(date(2026, 5, 23), lot, Stage.POTTED, "gate bed", count=1, spread_m=1.2)
    water = sheet(story, date(2026, 5, 30))[f"{lot}:water"]
    assert (water.stems, water.area) == (1, "gate strip")
    mulch = sheet(story, date(2026, 11, 21))[f"{lot}:mulch"]
    assert (mulch.stems, mulch.area) == (1, "gate strip")


def test_a_first_frost_in_december_is_still_winter_in_january() -> None:
    mild = Climate(lat=36.0, frost=frost_dates((2, 20), (12, 20)), zone="9a")
    story = told()
    lot = story.begin(e.Find, date(2026, 4, 20), 2, rooted=True, method=Method.SIMPLE_LAYER,
                      plant="Pelargonium", called="pelargonium")  # fmt: skip
    story.pot(date(2026, 4, 20), lot, 2, "4in", 0.5, "holding bench")
    for day in (date(2026, 12, 26), date(2027, 1, 4)):
        assert "under cover" in sheet(story, day, mild)[f"{lot}:winter"].what
    assert f"{lot}:winter" not in sheet(story, date(2027, 2, 1), mild)


def test_a_second_look_at_a_mark_comes_and_comes_round_again() -> None:
    story = told()
    mark = story.mark(date(2026, 5, 8), purpose=Purpose.WATCH, where="gate strip", **CURRANT)
    seen = [
        first
        for first in (date(2026, 5, 9) + timedelta(weeks=n) for n in range(24))
        if f"{mark}:watch" in sheet(story, first)
    ]
    assert seen[0] == date(2026, 5, 30)
    assert 6 <= len(seen) <= 16


def test_a_month_that_the_keeper_named_goes_before_the_rules() -> None:
    story = told()
    mark = story.mark(date(2026, 3, 8), purpose=Purpose.WATCH, when="in early July", **CURRANT)
    assert f"{mark}:watch" not in sheet(story, date(2026, 4, 11))
    assert "You said: in early July" in sheet(story, date(2026, 7, 4))[f"{mark}:watch"].window.why


def test_what_was_said_of_a_lot_holds_for_what_is_split_off() -> None:
    story = told()
    lot = softwood(story)
    story.tell(NudgeNever, date(2026, 6, 15), nudge=f"{lot}:air", what="Air it")
    moves = (e.Move(count=4, source=Stage.WAITING),)
    story.tell(e.Split, date(2026, 6, 20), lot=lot, into="26-900", moves=moves)
    assert "26-900:air" not in sheet(story, date(2026, 6, 27))


@pytest.mark.parametrize("rooted", [date(2026, 9, 10), date(2026, 10, 1), date(2026, 11, 10)])
def test_cuttings_that_root_too_late_to_fill_a_pot_are_left_till_spring(rooted: date) -> None:
    story = told()
    lot = softwood(story)
    story.check(rooted, lot, rooted=6)
    for first in (date(2026, 11, 21), date(2027, 1, 16)):
        assert f"{lot}:pot" not in sheet(story, first)
    (spring,) = {
        sheet(story, first)[f"{lot}:pot"].window.opens for first in (date(2027, 4, 10), date(2027, 4, 24))
    }
    assert date(2027, 3, 15) <= spring <= date(2027, 4, 10)
    about = known(fold(story.entries()).lots[lot], standard(), COLD, Units.US)
    (coming,) = [each for each in nudges_for(about, date(2026, 11, 21)) if each.id == f"{lot}:pot"]
    assert "pot it when growth begins" in coming.window.why
    assert "Now that growth begins" in sheet(story, date(2027, 4, 10))[f"{lot}:pot"].window.why


def test_cuttings_that_root_in_the_warm_are_potted_in_winter_too() -> None:
    story = told()
    lot = softwood(story, heat_c=22.0)
    story.check(date(2026, 11, 10), lot, rooted=6)
    assert f"{lot}:pot" in sheet(story, date(2026, 11, 21))


def test_a_lot_at_two_stages_tells_what_both_need_now() -> None:
    """Soft stems in pots are hardened off, and those that have rooted since want pots."""
    story = told()
    lot = softwood(story, date(2026, 4, 10), heat_c=22.0)
    story.check(date(2026, 5, 12), lot, rooted=5)
    story.pot(date(2026, 5, 12), lot, 5, "4in", 0.5, "kitchen windowsill")
    today = date(2026, 6, 10)
    story.check(today, lot, rooted=5)
    about = known(fold(story.entries()).lots[lot], standard(), COLD, Units.US)
    first = next_for(about, today)
    assert first is not None
    also = also_due(about, first, today)
    assert also is not None
    assert {first.task, also.task} == {"harden", "pot"}


def test_a_lot_at_one_stage_needs_one_thing() -> None:
    story = told()
    lot = softwood(story)
    about = known(fold(story.entries()).lots[lot], standard(), COLD, Units.US)
    first = next_for(about, date(2026, 7, 20))
    assert first is not None
    assert also_due(about, first, date(2026, 7, 20)) is None
