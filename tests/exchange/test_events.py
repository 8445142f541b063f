"""Which days a nudge takes in a calendar, and what is told of it."""

from datetime import date, timedelta

import pytest
from attrs import evolve

from cuttings.exchange.events import described, of_season, of_week
from cuttings.nudges.loss import between
from cuttings.nudges.model import NO_LOSS, Loss
from tests.exchange.making import SATURDAY, after, command, item, nudge, planned, sheet, window


@pytest.mark.parametrize(
    ("opens", "best", "closes", "days"),
    [
        (-10, (-3, 12), 40, (0, 12)),  # the best stretch has begun
        (-10, (2, 12), 40, (2, 12)),  # it begins within the week
        (-10, (-8, -1), 40, (0, 40)),  # it is over
        (-10, (-8, 0), 40, (0, 0)),  # this is its last day
        (3, (9, 12), 40, (3, 40)),  # it begins after the sheet is over, which is not to be waited for
    ],
)
def test_an_event_of_the_week_lies_on_the_good_days_that_are_left(
    opens: int, best: tuple[int, int], closes: int, days: tuple[int, int]
) -> None:
    (event,) = planned(nudge(window(opens, best, closes)))
    assert (event.first, event.last) == (after(days[0]), after(days[1]))


def test_one_that_comes_back_every_week_stays_in_its_week() -> None:
    airing = nudge(window(-10, (-3, 60), 90), id="26-001:air", every=7)
    (this,) = planned(airing)
    (next_,) = planned(airing, first=after(7))
    assert (this.first, this.last) == (SATURDAY, after(6))
    assert (this.turn, next_.turn) == ("2026-W12", "2026-W13")


def test_the_turn_of_any_other_is_the_year_in_which_its_window_opens() -> None:
    dormant = window(-120, (-100, 5), 10)
    assert dormant.opens.year == 2025
    (this,), (next_,) = planned(nudge(dormant)), planned(nudge(dormant), first=after(7))
    assert this.turn == next_.turn == "2025"


def test_what_is_left_is_told_once_and_as_not_planned() -> None:
    half, out = nudge(id="a"), nudge(id="b")
    week = sheet(item(half), left=(item(out, taken=0), item(half)))
    told = [(event.nudge.id, event.planned) for event in of_week(week, command)]
    assert told == [("a", True), ("b", False)]


def test_what_is_better_left_alone_is_not_told() -> None:
    alone = nudge(not_yet=True)
    assert of_season([alone], SATURDAY, command) == ()
    assert of_week(evolve(sheet(), not_yet=(item(alone, taken=0),)), command) == ()


def test_a_season_takes_the_best_stretch_of_what_has_not_closed() -> None:
    shut, late, on, ahead = (
        window(-90, (-80, -70), -1),
        window(-60, (-50, -2), 3),
        window(-5, (-2, 9), 20),
        window(30, (40, 60), 90),
    )
    nudges = [nudge(each, id=f"{number}") for number, each in enumerate((ahead, on, late, shut))]
    events = of_season(nudges, SATURDAY, command)
    assert [(each.nudge.id, each.first, each.last) for each in events] == [
        ("2", SATURDAY, after(3)),
        ("1", SATURDAY, after(9)),
        ("0", after(40), after(60)),
    ]


def test_two_windows_of_one_nudge_in_a_year_have_turns_of_their_own() -> None:
    spring, autumn = window(-5, (-2, 9), 20), window(150, (160, 170), 190)
    events = of_season([nudge(autumn), nudge(spring)], SATURDAY, command)
    assert [(each.first, each.turn) for each in events] == [(SATURDAY, "2026"), (after(160), "2026.2")]


def test_the_week_and_the_season_call_a_nudge_by_the_same_turn() -> None:
    (week,), (season,) = planned(nudge()), of_season([nudge()], SATURDAY, command)
    assert (week.turn, week.first, week.last) == (season.turn, season.first, season.last)


def test_a_season_tells_what_never_doing_it_would_cost() -> None:
    (event,) = of_season([nudge()], SATURDAY, command)
    assert event.cost == pytest.approx(3.0)
    assert "Expected to be lost if it is left until 30 April is over, about 3 plants." in described(event)


def test_all_is_told() -> None:
    whole = nudge(
        (its_window := window(-10, (-3, 12), 300, odds=0.12)),
        tools=("knife", "9 cm pots"),
        cautions=("Keep the dust of dry mix down.",),
        loss=Loss(plants=3.0, late=between(SATURDAY, its_window.closes), by="roots that circle"),
        every=14,
    )
    (event,) = planned(whole)
    assert described(event).splitlines() == [
        "The roots hold the mix.",
        "Good from 11 March to 15 January 2027, at its best from 18 March to 2 April.",
        "Done on its first best day, cold spoils it in 12 years of 100.",
        "Expected to be lost if it is left until 27 March is over, about 0.4 of a plant; "
        "until 15 January 2027 is over, about 3 plants (roots that circle).",
        "Due again every 14 days.",
        "About 18 min.",
        "Take knife, 9 cm pots.",
        "Keep the dust of dry mix down.",
        "'cuttings pot 26-001' writes it down once it is done.",
        "Source: common practice",
    ]


def test_what_is_lost_later_is_told_though_this_week_costs_nothing() -> None:
    (event,) = of_week(sheet(item(nudge(), cost=0.0)), command)
    assert event.at_stake == pytest.approx(3.0)
    assert "Expected to be lost if it is left until 30 April is over, about 3 plants." in described(event)


def test_nothing_is_told_of_what_is_not_known_or_costs_nothing() -> None:
    plain = nudge(window(0, (0, 6), 6), task="", loss=NO_LOSS)
    (event,) = of_week(sheet(item(plain, cost=0.0)), command)
    assert described(event).splitlines() == [
        "The roots hold the mix.",
        "Good from 21 March to 27 March.",
        "About 18 min.",
        "Source: common practice",
    ]


def test_what_did_not_fit_says_so() -> None:
    (event,) = of_week(sheet(left=(item(nudge(), taken=0),)), command)
    assert "It did not fit into the minutes of this week's sheet." in described(event)


def test_the_days_of_a_season_never_run_backwards() -> None:
    for day in range(-20, 60):
        today = SATURDAY + timedelta(days=day)
        for event in of_season([nudge()], today, command):
            assert today <= event.first <= event.last <= date(2026, 4, 30)
