"""The season ahead: what has a window of its own, open yet or not, and nothing that comes round each week."""

from datetime import date, timedelta
from typing import Any

import pytest
from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.nudges.ahead import season
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from cuttings.words import Cover, Stage, Wood

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
CARE = ("air", "clean", "look-in", "pots", "vent", "water")
"""What is done again every few days."""


def demo(on: date) -> Book:
    return fold(quarry_bank(on)).as_of(on)


@pytest.mark.parametrize("month", range(1, 13))
def test_the_season_holds_the_weeks_work_and_what_is_still_to_open_but_no_care(month: int) -> None:
    first = date(2026, month, 10)
    last = first + timedelta(days=240)
    book = demo(first)
    ahead = {nudge.id: nudge for nudge in season(book, standard(), COLD, first, last)}
    assert all(each.window.opens <= last and each.window.closes >= first for each in ahead.values())
    assert any(each.window.opens > first for each in ahead.values())
    assert not {code.rpartition(":")[2] for code in ahead} & set(CARE)
    sheet = week(book, standard(), COLD, first, first + timedelta(days=6))
    work = {n.id for n in sheet if (n.lot or n.mark) and not n.every and not n.not_yet}
    assert work <= set(ahead)


def test_what_opens_first_comes_first() -> None:
    first = date(2026, 5, 2)
    found = season(demo(first), standard(), COLD, first, date(2026, 12, 31))
    assert [each.window.opens for each in found] == sorted(each.window.opens for each in found)


def test_a_single_day_is_a_season_too() -> None:
    first = date(2026, 5, 16)
    found = season(demo(first), standard(), COLD, first, first)
    assert found
    assert all(each.window.opens <= first <= each.window.closes for each in found)


def test_a_job_whose_best_begins_on_the_very_day_is_no_care() -> None:
    story = Story(date(2030, 1, 1))
    lot = story.strike(
        date(2026, 6, 10),
        10,
        Wood.SOFTWOOD,
        cover=Cover.BAG,
        plant="Forsythia × intermedia",
        called="forsythia",
    )
    story.check(date(2026, 7, 15), lot, rooted=10, root_length_m=0.04)
    story.pot(date(2026, 7, 16), lot, 10, "4in", 0.5, "holding bench")
    book = fold(story.entries())
    assert book.lots[lot].at(Stage.POTTED) == 10
    early, late = date(2026, 7, 17), date(2026, 12, 31)
    shade = next(
        n for n in season(book.as_of(early), standard(), COLD, early, late) if n.id == f"{lot}:shade"
    )
    on_it = shade.window.best[0]
    again = season(book.as_of(on_it), standard(), COLD, on_it, late)
    assert shade.id in {nudge.id for nudge in again}


def test_the_frost_dates_are_asked_for_where_they_are_not_known() -> None:
    first = date(2026, 5, 2)
    found = season(demo(first), standard(), Climate(lat=42.9, zone="5b"), first, date(2026, 12, 31))
    assert "garden:frost" in {nudge.id for nudge in found}


def test_a_mark_is_seen_long_before_its_window_opens() -> None:
    story = Story(date(2030, 1, 1))
    story.tell(
        e.Mark,
        date(2026, 5, 1),
        code="M26-001",
        plant="Ribes rubrum",
        purpose="take-hardwood",
        where="gate strip",
    )
    book = fold(story.entries()).as_of(date(2026, 6, 1))
    (mark,) = season(book, standard(), COLD, date(2026, 6, 1), date(2027, 1, 31))
    assert mark.mark
    assert mark.window.opens > date(2026, 9, 1)


@pytest.mark.parametrize("of_no_season", [{"every": 7}, {"not_yet": True}])
def test_what_comes_round_again_or_waits_for_its_day_is_left_out(
    of_no_season: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    first, last = date(2026, 5, 2), date(2026, 12, 31)
    one, *others = season(demo(first), standard(), COLD, first, last)
    told = [evolve(one, **of_no_season), *others]
    monkeypatch.setattr("cuttings.nudges.ahead.all_nudges", lambda *_: told)
    assert season(demo(first), standard(), COLD, first, last) == others
