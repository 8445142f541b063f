"""Nudges put aside: what is done, must wait or is never to come back does not nag."""

import itertools
from datetime import date, timedelta
from typing import Any

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.ticks import NudgeDone, NudgeLater, NudgeNever
from cuttings.nudges.asides import CONDITIONS, SEASONS, STAGES, falls_on, kept, parse_later, too_late
from cuttings.nudges.model import Nudge
from cuttings.nudges.week import week
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.plants.standard import standard
from cuttings.rules.advice import Window
from cuttings.words import Method, Sign, Stage

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
MILD = Climate(lat=42.9, frost=frost_dates((3, 1), (11, 30)), zone="9b")
SATURDAY = date(2026, 5, 2)
LOT = "26-001"
FEED = f"{LOT}:feed"
_running = itertools.count(1)


def said(kind: type[Any], on: date, **fields: Any) -> Any:
    return kind(id=f"20260501-000000000-{next(_running):010d}", on=on, **fields)


def begun(on: date = date(2026, 4, 1)) -> e.Find:
    moves = (e.Move(count=3, target=Stage.WAITING),)
    found: e.Find = said(
        e.Find, on, lot=LOT, plant="Ribes rubrum", method=Method.SIMPLE_LAYER, moves=moves
    )  # fmt: skip
    return found


def rooted(on: date) -> e.Check:
    check: e.Check = said(
        e.Check, on, lot=LOT, moves=(e.Move(count=1, source=Stage.WAITING, target=Stage.ROOTED),)
    )  # fmt: skip
    return check


def feeding(opens: date, closes: date, every: int = 0) -> Nudge:
    window = Window(
        what="feed", opens=opens, best=(opens, closes), closes=closes, why="It is hungry.",
        source=COMMON_PRACTICE,
    )  # fmt: skip
    return Nudge(id=FEED, job="Feed {}", name=LOT, window=window, lot=LOT, every=every)


MAY_LONG = feeding(date(2026, 5, 1), date(2026, 5, 31))


def shown(nudge: Nudge, on: date, *entries: e.Entry, climate: Climate = COLD, days: int = 7) -> Nudge | None:
    """The nudge as it stands on the sheet of the days from one on; ``None`` if it does not."""
    book = fold(entries).as_of(on)
    assert not book.problems
    found = kept([nudge], book, climate, on, on + timedelta(days=days - 1))
    return found[0] if found else None


def test_what_nobody_put_aside_stays_as_it_is() -> None:
    assert shown(MAY_LONG, SATURDAY) == MAY_LONG
    other = said(NudgeNever, SATURDAY, nudge="26-002:feed")
    assert shown(MAY_LONG, SATURDAY, other) == MAY_LONG


def test_never_is_for_good_until_it_is_taken_back() -> None:
    never = said(NudgeNever, SATURDAY, nudge=FEED)
    assert shown(MAY_LONG, SATURDAY, never) is None
    next_year = feeding(date(2027, 5, 1), date(2027, 5, 31))
    assert shown(next_year, date(2027, 5, 1), never) is None
    back = said(e.Reverse, SATURDAY, target=never.id)
    assert shown(MAY_LONG, SATURDAY, never, back) == MAY_LONG


def test_done_lasts_as_long_as_the_window_that_was_open() -> None:
    done = said(NudgeDone, SATURDAY, nudge=FEED)
    for day in range(29):
        assert shown(MAY_LONG, SATURDAY + timedelta(days=day), done) is None
    next_year = feeding(date(2027, 5, 1), date(2027, 5, 31))
    assert shown(next_year, date(2027, 5, 1), done) == next_year


def test_done_before_its_window_opened_covers_that_window() -> None:
    soon = feeding(date(2026, 5, 6), date(2026, 5, 31))
    assert shown(soon, date(2026, 5, 6), said(NudgeDone, SATURDAY, nudge=FEED)) == soon
    early = said(NudgeDone, SATURDAY, nudge=FEED, opens=soon.window.opens)
    assert shown(soon, date(2026, 5, 6), early) is None


@pytest.mark.parametrize("every", [1, 3, 7, 21])
def test_care_that_comes_round_is_due_again_after_its_days(every: int) -> None:
    done = said(NudgeDone, SATURDAY, nudge=FEED)
    due = SATURDAY + timedelta(days=every)
    for number in range(28):
        day = SATURDAY + timedelta(days=number)
        nudge = feeding(day, day + timedelta(days=6), every)
        found = shown(nudge, day, done, days=1)
        assert (found is None) is (day < due)


def test_care_that_was_given_is_not_asked_for_before_it_is_due_again() -> None:
    nudge = feeding(SATURDAY, SATURDAY + timedelta(days=6), every=3)
    done = said(NudgeDone, SATURDAY, nudge=FEED)
    assert shown(nudge, SATURDAY, done) is None
    assert shown(nudge, date(2026, 5, 5), done) is not None


def test_later_waits_for_its_day() -> None:
    later = said(NudgeLater, SATURDAY, nudge=FEED, until=date(2026, 5, 14))
    assert shown(MAY_LONG, date(2026, 5, 7), later) is None
    found = shown(MAY_LONG, date(2026, 5, 8), later)
    assert found is not None
    assert found.window.best[0] == date(2026, 5, 14)
    assert shown(MAY_LONG, date(2026, 5, 14), later) == MAY_LONG


def test_what_was_put_off_past_its_window_stays_away_until_the_next() -> None:
    later = said(NudgeLater, SATURDAY, nudge=FEED, until=date(2026, 6, 2))
    assert shown(MAY_LONG, date(2026, 5, 29), later) is None
    june = feeding(date(2026, 6, 1), date(2026, 6, 30))
    assert shown(june, date(2026, 6, 2), later) == june


@pytest.mark.parametrize(
    ("condition", "low", "high"),
    [
        # The even-odds dates are those that the garden was told; the others follow them in the order of the
        # year (common practice): safe after the last frost, bare wood after a hard freeze.
        ("last-frost", date(2026, 5, 15), date(2026, 5, 15)),
        ("safe", date(2026, 5, 20), date(2026, 6, 20)),
        ("first-frost", date(2026, 9, 30), date(2026, 9, 30)),
        ("hard-freeze", date(2026, 9, 30), date(2026, 11, 15)),
        ("leaf-fall", date(2026, 10, 10), date(2026, 12, 1)),
        ("frozen-ground", date(2026, 11, 1), date(2027, 1, 15)),
        ("workable", date(2027, 3, 1), date(2027, 5, 15)),
    ],
)
def test_a_condition_of_the_year_holds_from_its_next_day_on(condition: str, low: date, high: date) -> None:
    later = said(NudgeLater, SATURDAY, nudge=FEED, condition=condition)
    day = falls_on(condition, SATURDAY, COLD)
    assert day is not None
    assert low <= day <= high
    always = feeding(SATURDAY, date(2027, 12, 31))
    assert shown(always, day - timedelta(days=1), later, days=1) is None
    assert shown(always, day, later, days=1) == always


@pytest.mark.parametrize("condition", SEASONS)
@pytest.mark.parametrize("climate", [COLD, Climate(lat=45.0), Climate(lat=-42.9, zone="9a")])
def test_a_condition_of_the_year_comes_within_about_a_year(condition: str, climate: Climate) -> None:
    for week_of_year in range(52):
        since = date(2026, 1, 1) + timedelta(weeks=week_of_year)
        day = falls_on(condition, since, climate)
        if day is not None:
            assert since < day <= since + timedelta(days=368)


def test_ground_that_never_freezes_hides_nothing_for_ever() -> None:
    assert falls_on("frozen-ground", SATURDAY, MILD) is None
    later = said(NudgeLater, SATURDAY, nudge=FEED, condition="frozen-ground")
    assert shown(MAY_LONG, SATURDAY, later, climate=MILD) == MAY_LONG


@pytest.mark.parametrize("sign", list(Sign))
def test_a_sign_is_waited_for_until_it_has_been_seen(sign: Sign) -> None:
    later = said(NudgeLater, SATURDAY, nudge=FEED, condition=sign.value)
    before = said(e.SeasonSign, date(2026, 4, 9), sign=sign)
    other = said(e.SeasonSign, date(2026, 5, 4), sign=next(each for each in Sign if each is not sign))
    seen = said(e.SeasonSign, date(2026, 5, 5), sign=sign)
    assert shown(MAY_LONG, date(2026, 5, 9), before, later, other) is None
    assert shown(MAY_LONG, date(2026, 5, 4), before, later, other, seen) is None
    assert shown(MAY_LONG, date(2026, 5, 5), before, later, other, seen) == MAY_LONG


def test_a_stage_is_waited_for_until_the_lot_has_stems_there() -> None:
    later = said(NudgeLater, SATURDAY, nudge=FEED, condition="rooted")
    assert shown(MAY_LONG, date(2026, 5, 9), begun(), later) is None
    assert shown(MAY_LONG, date(2026, 5, 9), begun(), later, rooted(date(2026, 5, 9))) == MAY_LONG
    assert shown(MAY_LONG, date(2026, 5, 9), later) is None  # a lot that is not there has no stems


def test_a_later_day_does_not_bring_back_what_was_done() -> None:
    done = said(NudgeDone, SATURDAY, nudge=FEED)
    later = said(NudgeLater, SATURDAY, nudge=FEED, until=date(2026, 5, 9))
    assert shown(MAY_LONG, date(2026, 5, 9), done, later) is None


def test_the_week_leaves_out_what_was_put_aside() -> None:
    book = fold([begun(date(2026, 4, 1)), rooted(SATURDAY)])
    last = SATURDAY + timedelta(days=6)
    all_of_it = week(book, standard(), COLD, SATURDAY, last)
    assert all_of_it
    for nudge in all_of_it:
        without = fold([*book.entries, said(NudgeNever, SATURDAY, nudge=nudge.id)])
        assert week(without, standard(), COLD, SATURDAY, last) == [n for n in all_of_it if n.id != nudge.id]


def test_too_late_is_said_only_of_a_day_after_the_window() -> None:
    assert too_late(MAY_LONG, date(2026, 5, 31)) == ""
    assert too_late(MAY_LONG, date(2026, 6, 1)) == "its window closes on 31 May; by then it is too late."


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-05-14", date(2026, 5, 14)),
        ("tomorrow", date(2026, 5, 3)),
        ("Saturday", date(2026, 5, 9)),
        ("sun", date(2026, 5, 3)),
        ("fri", date(2026, 5, 8)),
        ("next week", date(2026, 5, 4)),
        ("+10d", date(2026, 5, 12)),
        ("+ 10 days", date(2026, 5, 12)),
        ("2 weeks", date(2026, 5, 16)),
        ("in 3w", date(2026, 5, 23)),
        ("1 day", date(2026, 5, 3)),
    ],
)
def test_a_later_day_lies_ahead(text: str, day: date) -> None:
    assert parse_later(text, SATURDAY) == day


@pytest.mark.parametrize("number", range(14))
def test_a_weekday_is_the_coming_one(number: int) -> None:
    today = SATURDAY + timedelta(days=number)
    for name in ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"):
        day = parse_later(name, today)
        assert isinstance(day, date)
        assert (f"{day:%A}".casefold(), 1 <= (day - today).days <= 7) == (name, True)
    assert parse_later("next week", today) == parse_later("monday", today)


@pytest.mark.parametrize("condition", CONDITIONS)
def test_a_condition_may_be_written_as_one_says_it(condition: str) -> None:
    assert parse_later(condition, SATURDAY) == condition
    assert parse_later(f"  {condition.replace('-', ' ').title()} ", SATURDAY) == condition


@pytest.mark.parametrize("text", ["", "never", "lost", "soon", "+10x", "2026-13-01", "2026-05", "9999-01-01"])
def test_what_cannot_be_meant_is_answered_with_what_can(text: str) -> None:
    with pytest.raises(ValueError, match="is no time to come") as told:
        parse_later(text, SATURDAY)
    for word in ("2026-05-09", "tomorrow", "next week", *SEASONS, *STAGES, *Sign):
        assert word in str(told.value)


@pytest.mark.parametrize("text", ["today", "yesterday", "2026-05-02", "2025-05-14", "0 days"])
def test_a_day_that_does_not_lie_ahead_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not later than 2 May; write a day after it\."):
        parse_later(text, SATURDAY)
