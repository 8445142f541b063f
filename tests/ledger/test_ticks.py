"""Nudges put aside, and what a lot is worth: folded from entries, and taken back like any other."""

from datetime import date
from typing import Any

import pytest

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.ticks import Aside, NudgeDone, NudgeLater, NudgeNever
from cuttings.words import Stage
from tests.ledger.making import MAY, found, made

FEED = "26-001:feed"
JUNE = date(2026, 6, 1)


def aside(*entries: e.Entry) -> Aside:
    book = Book()
    for entry in entries:
        book = book.accept([entry])
    return book.put_aside[FEED]


def test_done_tells_the_day_and_whose_window_it_covers() -> None:
    assert aside(made(NudgeDone, nudge=FEED)) == Aside(done=MAY, opened=MAY)
    early = made(NudgeDone, nudge=FEED, opens=date(2026, 5, 4))
    assert aside(early) == Aside(done=MAY, opened=date(2026, 5, 4))
    assert aside(made(NudgeDone, nudge=FEED, on=JUNE, opens=MAY)).opened == JUNE


def test_the_newest_word_of_later_holds() -> None:
    first = made(NudgeLater, nudge=FEED, until=JUNE)
    second = made(NudgeLater, nudge=FEED, condition="last-frost", on=date(2026, 5, 9))
    assert aside(first) == Aside(until=JUNE, since=MAY)
    assert aside(first, second) == Aside(condition="last-frost", since=date(2026, 5, 9))
    assert aside(second, first) == Aside(condition="last-frost", since=date(2026, 5, 9))


def test_done_after_later_ends_the_waiting_and_later_after_done_keeps_the_day() -> None:
    later = made(NudgeLater, nudge=FEED, until=JUNE)
    done = made(NudgeDone, nudge=FEED)
    again = made(NudgeLater, nudge=FEED, until=JUNE)
    assert aside(later, done) == Aside(done=MAY, opened=MAY)
    assert aside(later, done, again) == Aside(done=MAY, opened=MAY, until=JUNE, since=MAY)


def test_never_outlasts_what_comes_after_it() -> None:
    never = made(NudgeNever, nudge=FEED)
    assert aside(never, made(NudgeDone, nudge=FEED)).never
    assert aside(never, made(NudgeLater, nudge=FEED, until=JUNE)).never


@pytest.mark.parametrize("told", [{}, {"until": JUNE, "condition": "rooted"}])
def test_later_needs_one_day_or_one_condition(told: dict[str, Any]) -> None:
    with pytest.raises(Refused, match="until one day, or until one condition"):
        Book().accept([made(NudgeLater, nudge=FEED, **told)])


def test_a_taken_back_entry_leaves_the_nudge_as_it_was() -> None:
    later = made(NudgeLater, nudge=FEED, until=JUNE)
    never = made(NudgeNever, nudge=FEED)
    book = fold([later, never, made(e.Reverse, target=never.id)])
    assert book.put_aside == {FEED: Aside(until=JUNE, since=MAY)}
    assert fold([*book.entries, made(e.Reverse, target=later.id)]).put_aside == {}


def test_the_book_of_an_earlier_day_knows_nothing_of_it() -> None:
    book = fold([found(on=date(2026, 4, 1)), made(NudgeDone, nudge=FEED)])
    assert FEED not in book.as_of(date(2026, 4, 30)).put_aside
    assert FEED in book.as_of(MAY).put_aside


def test_a_lot_is_worth_what_its_newest_telling_note_says() -> None:
    begun = found(stage=Stage.ROOTED)
    assert fold([begun]).lots["26-001"].worth == 1.0
    five, none = made(e.Note, lot="26-001", worth=5.0), made(e.Note, lot="26-001", note="north end")
    half = made(e.Note, lot="26-001", worth=0.5)
    assert fold([begun, five, none]).lots["26-001"].worth == 5.0
    assert fold([begun, five, none, half]).lots["26-001"].worth == 0.5
    split = made(e.Split, lot="26-001", into="26-002", moves=(e.Move(count=1, source=Stage.ROOTED),))
    assert fold([begun, five, split]).lots["26-002"].worth == 5.0


@pytest.mark.parametrize("worth", [0.0, -1.0, 1000.5, float("nan")])
def test_a_worth_of_nothing_or_beyond_measure_is_refused(worth: float) -> None:
    book = fold([found()])
    with pytest.raises(Refused, match="more than 0 and at most 1000"):
        book.accept([made(e.Note, lot="26-001", worth=worth)])
    assert book.accept([made(e.Note, lot="26-001", worth=1000.0)]).lots["26-001"].worth == 1000.0
