"""Goals on the week's sheet: from the day their window opens until enough are started, or it is too late."""

from datetime import date
from typing import Any

import pytest

from cuttings.commands.ticking import command_for
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.goals import Goal
from cuttings.ledger.ticks import NudgeNever
from cuttings.nudges.ahead import season
from cuttings.nudges.goals import left_to_start, start_of
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from cuttings.words import Method, Stage, Wood
from tests.nudges.gardens import COLD, book_of, garden, week_from

WRITTEN, OPENS, LAST = date(2026, 5, 2), date(2026, 10, 20), date(2026, 12, 8)
BY = date(2027, 9, 1)
ID = "goal:Ribes rubrum:2027-09-01:hardwood-cutting"


def wish(story: Story, **more: Any) -> None:
    fields: dict[str, Any] = {
        "plant": "Ribes rubrum", "called": "red currant", "want": 5, "by": BY, "start": 9, "opens": OPENS,
        "start_by": LAST, "method": Method.HARDWOOD_CUTTING, "mother": "red currant on the fruit row",
    }  # fmt: skip
    story.tell(Goal, WRITTEN, **{**fields, **more})


def struck(
    story: Story, on: date, count: int, wood: Wood = Wood.HARDWOOD, plant: str = "Ribes rubrum"
) -> None:
    story.tell(
        e.Strike, on, lot=f"26-{on.month:02d}{on.day}", plant=plant, method=wood.method, wood=wood,
        moves=(e.Move(count=count, target=Stage.WAITING),),
    )  # fmt: skip


def said(story: Story, on: date) -> Nudge | None:
    first, last = week_from(on)
    found = week(book_of(story, on), standard(), COLD, first, last)
    return next((nudge for nudge in found if nudge.id.startswith("goal:")), None)


def test_it_is_said_while_its_window_is_open() -> None:
    story = garden()
    wish(story)
    assert said(story, date(2026, 10, 1)) is None
    nudge = said(story, OPENS)
    assert nudge is not None
    assert nudge.what == "Strike 9 hardwood cuttings of red currant: 5 wanted by 1 September 2027"
    assert (nudge.id, nudge.task, nudge.stems) == (ID, "strike", 9)
    assert (nudge.site, nudge.area) == ("fruit row", "kitchen side")
    assert "90 times in 100" in nudge.window.why
    assert (nudge.window.opens, nudge.window.closes) == (OPENS, LAST)
    assert any("blade" in caution for caution in nudge.cautions)
    assert said(story, LAST) is not None
    assert said(story, date(2026, 12, 9)) is None


def test_it_asks_for_what_is_still_to_be_started_and_then_no_more() -> None:
    story = garden()
    struck(story, date(2026, 4, 1), 20)
    wish(story)
    struck(story, date(2026, 6, 1), 20, Wood.SOFTWOOD)
    struck(story, date(2026, 10, 21), 20, plant="Ribes nigrum")
    struck(story, date(2026, 10, 22), 5)
    nudge = said(story, date(2026, 10, 25))
    assert nudge is not None
    assert nudge.what.startswith("Strike 4 more hardwood cuttings of red currant")
    assert "5 of 9 are started." in nudge.window.why
    struck(story, date(2026, 10, 26), 4)
    assert said(story, date(2026, 10, 27)) is None


def test_what_is_lost_by_waiting_are_the_plants_that_are_wanted() -> None:
    story = garden()
    wish(story)
    nudge = said(story, OPENS)
    assert nudge is not None
    assert nudge.loss.expected(OPENS, OPENS) == 0.0
    assert nudge.loss.expected(OPENS, LAST) == pytest.approx(4.5)


def test_it_stays_away_when_put_away_and_a_new_goal_brings_one_of_its_own() -> None:
    story = garden()
    wish(story)
    story.tell(NudgeNever, date(2026, 10, 20), nudge=ID)
    assert said(story, date(2026, 10, 21)) is None
    wish(story, by=date(2027, 10, 1))
    assert said(story, date(2026, 10, 22)) is not None


@pytest.mark.parametrize(
    ("method", "what", "command"),
    [
        (
            Method.HARDWOOD_CUTTING,
            "Strike 9 hardwood cuttings of red currant",
            ["strike", "red currant", "--wood", "hardwood", "--mother", "M", "--count", "9"],
        ),
        (
            Method.SEMI_RIPE_CUTTING,
            "Strike 9 semi-ripe cuttings of red currant",
            ["strike", "red currant", "--wood", "semi-ripe", "--mother", "M", "--count", "9"],
        ),
        (
            Method.TIP_LAYER,
            "Layer 9 stems of red currant, by tip layer",
            ["layer", "red currant", "--how", "tip", "--mother", "M", "--count", "9"],
        ),
        (
            Method.CROWN_DIVISION,
            "Divide red currant into 9 pieces",
            ["divide", "red currant", "--method", "crown-division", "--mother", "M", "--pieces", "9"],
        ),
        (
            Method.OFFSET,
            "Lift 9 offsets of red currant",
            ["find", "red currant", "--method", "offset", "--mother", "M", "--count", "9"],
        ),
    ],
)
def test_each_way_has_its_job_and_the_command_that_writes_it_down(
    method: Method, what: str, command: list[str]
) -> None:
    story = garden()
    wish(story, method=method, mother="M")
    nudge = said(story, OPENS)
    assert nudge is not None
    assert nudge.what.startswith(f"{what}: 5 wanted")
    assert nudge.task == start_of(method).task
    assert command_for(nudge, nudge.stems) == command


def test_it_stands_in_the_picture_of_the_season() -> None:
    story = garden()
    wish(story)
    ahead = season(book_of(story, WRITTEN), standard(), COLD, WRITTEN, date(2026, 12, 31))
    assert ID in {nudge.id for nudge in ahead}


def test_the_command_names_the_plant_as_the_keeper_does_where_that_means_the_same() -> None:
    story = garden()
    wish(story, called="grandmother's currant", mother="")
    nudge = said(story, OPENS)
    assert nudge is not None
    assert command_for(nudge)[1] == "Ribes rubrum"


def test_what_is_left_of_a_goal_is_told_until_it_is_past() -> None:
    story = garden()
    wish(story)
    struck(story, date(2026, 10, 22), 5)
    book = book_of(story, date(2026, 10, 25))
    name, method = "Ribes rubrum", Method.HARDWOOD_CUTTING
    assert left_to_start(book, name, method, LAST) == 4
    assert left_to_start(book, name, method, date(2026, 12, 9)) == 0
    assert left_to_start(book, name, Method.SOFTWOOD_CUTTING, LAST) == 0
