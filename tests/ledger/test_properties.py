"""What holds for every ledger, whatever is written into it: stems balance, entries come back whole."""

import json
import random
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.codec import from_document, to_document
from cuttings.ledger.ids import LETTERS, new_id
from cuttings.ledger.journal import from_line, to_line
from cuttings.ledger.kinds import KINDS
from cuttings.ledger.tally import tally
from tests.ledger.making import found
from tests.ledger.strategies import FIRST_DAY, TEXT, any_entry, candidates, numbered, whole

unhurried = settings(deadline=None, derandomize=True)
DOCUMENTS = st.dictionaries(
    TEXT.filter(bool),
    TEXT | st.none() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.lists(TEXT),
    min_size=1,
)
MOMENTS = st.datetimes(
    min_value=datetime(2020, 1, 1), max_value=datetime(2099, 12, 31), timezones=st.just(UTC)
)  # fmt: skip


def accepted(offered: Sequence[e.Entry]) -> Book:
    """The book of those entries that it accepts, each offered in turn."""
    book = Book()
    for entry in offered:
        try:
            book = book.accept([entry])
        except Refused:
            continue
    return book


def state(book: Book) -> tuple[Any, ...]:
    """What the entries amount to, without the entries."""
    lots = {code: (lot.stages, lot.started, lot.where, lot.entries) for code, lot in book.lots.items()}
    return lots, book.sites, book.marks, book.holds, book.areas, book.garden, book.containers, book.goals


def read_or_none(line: bytes) -> dict[str, Any] | None:
    """The document of a line, or nothing where the line is seen to be damaged."""
    try:
        return from_line(line)
    except ValueError:
        return None


def assert_every_stem_is_somewhere(book: Book) -> None:
    for lot in book.lots.values():
        assert min(lot.stages.values(), default=0) >= 0
        assert lot.started == sum(lot.stages.values())


@unhurried
@given(candidates())
def test_whatever_is_accepted_balances(offered: list[e.Entry]) -> None:
    book = Book()
    for entry in offered:
        try:
            book = book.accept([entry])
        except Refused:
            continue
        result = tally(book)
        assert result.balanced, result.broken
        assert result.started == sum(result.stages.values())
        assert_every_stem_is_somewhere(book)


@unhurried
@given(candidates())
def test_stems_are_neither_made_nor_lost_between_the_starts_and_the_stages(offered: list[e.Entry]) -> None:
    book = accepted(offered)
    taken_back: set[str] = set()
    for entry in sorted(book.entries, key=lambda entry: entry.id, reverse=True):
        if isinstance(entry, e.Reverse) and entry.id not in taken_back:
            taken_back.add(entry.target)
    begun = sum(x.stems for x in book.entries if isinstance(x, e.Start) and x.id not in taken_back)
    assert sum(tally(book).stages.values()) == begun


@unhurried
@given(candidates())
def test_entries_that_do_not_fit_are_named_and_the_rest_still_balances(offered: list[e.Entry]) -> None:
    book = fold(offered)
    assert_every_stem_is_somewhere(book)
    assert tally(book).broken == book.problems


@unhurried
@given(candidates(), st.randoms(use_true_random=False))
def test_the_order_in_which_entries_are_read_does_not_matter(
    offered: list[e.Entry], chance: random.Random
) -> None:
    shuffled = list(offered)
    chance.shuffle(shuffled)
    assert fold(shuffled) == fold(sorted(offered, key=lambda entry: entry.order))


@unhurried
@given(candidates())
def test_any_accepted_entry_can_be_taken_back_at_once(offered: list[e.Entry]) -> None:
    book = Book()
    for entry in offered:
        try:
            after = book.accept([entry])
        except Refused:
            continue
        reversal = e.Reverse(id=entry.id + "r", on=FIRST_DAY, target=entry.id)
        assert state(after.accept([reversal])) == state(book)
        book = after


@unhurried
@given(candidates())
def test_taking_a_reversal_back_restores_what_it_took(offered: list[e.Entry]) -> None:
    book = accepted(offered)
    newest = book.entries[-1]
    there = e.Reverse(id=numbered(1000), on=FIRST_DAY, target=newest.id)
    back = e.Reverse(id=numbered(1001), on=FIRST_DAY, target=there.id)
    assert state(fold([*book.entries, there, back])) == state(book)


def test_the_offered_entries_are_a_fair_mix() -> None:
    """Of each kind some are accepted and, of those that move stems, some are refused."""
    taken: set[str] = set()
    refused: set[str] = set()

    @settings(unhurried, max_examples=300)
    @given(candidates())
    def look(offered: list[e.Entry]) -> None:
        ids = {entry.id for entry in accepted(offered).entries}
        for entry in offered:
            (taken if entry.id in ids else refused).add(entry.kind)

    look()
    assert taken == KINDS.keys() - {"garden"}
    assert refused >= {"find", "check", "pot", "harden", "ready", "plant", "give", "sell", "lose", "split"}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_entry_comes_back_whole_from_its_document(kind: str) -> None:
    @unhurried
    @given(whole(KINDS[kind]))
    def comes_back(entry: e.Entry) -> None:
        assert from_document(json.loads(json.dumps(to_document(entry)))) == entry

    comes_back()


@unhurried
@given(any_entry())
def test_every_entry_comes_back_whole_from_one_line_of_the_file(entry: e.Entry) -> None:
    line = to_line(to_document(entry))
    assert line.endswith(b"\n")
    assert line.count(b"\n") == 1
    assert from_document(from_line(line[:-1])) == entry


@unhurried
@given(DOCUMENTS)
def test_every_document_comes_back_from_its_line(document: dict[str, Any]) -> None:
    assert from_line(to_line(document).removesuffix(b"\n")) == document


@unhurried
@given(any_entry(), st.data())
def test_any_changed_byte_of_a_line_is_noticed(entry: e.Entry, data: st.DataObject) -> None:
    line = bytearray(to_line(to_document(entry)).removesuffix(b"\n"))
    at = data.draw(st.integers(0, len(line) - len('00000000"}') - 1))
    line[at] ^= data.draw(st.integers(1, 255))
    assert read_or_none(bytes(line)) is None


def test_each_changed_bit_of_a_line_is_noticed() -> None:
    line = to_line(to_document(found())).removesuffix(b"\n")
    for at in range(len(line) - len('00000000"}')):
        for bit in range(8):
            changed = bytearray(line)
            changed[at] ^= 1 << bit
            assert read_or_none(bytes(changed)) is None


@unhurried
@given(any_entry(), st.data())
def test_a_changed_checksum_is_noticed_or_means_the_same(entry: e.Entry, data: st.DataObject) -> None:
    document = to_document(entry)
    line = bytearray(to_line(document).removesuffix(b"\n"))
    line[-data.draw(st.integers(1, len('00000000"}')))] ^= data.draw(st.integers(1, 255))
    assert read_or_none(bytes(line)) in (None, document)


@unhurried
@given(any_entry(), st.data())
def test_no_beginning_of_a_line_passes_for_a_whole_one(entry: e.Entry, data: st.DataObject) -> None:
    line = to_line(to_document(entry)).removesuffix(b"\n")
    assert read_or_none(line[: data.draw(st.integers(0, len(line) - 1))]) is None


@unhurried
@given(st.lists(MOMENTS, min_size=2, max_size=20))
def test_ids_rise_even_when_the_clock_is_set_back(moments: list[datetime]) -> None:
    ids = [""]
    for moment in moments:
        ids.append(new_id(moment, after=ids[-1]))
    assert ids == sorted(set(ids))


@unhurried
@given(st.lists(MOMENTS, min_size=2, max_size=20))
def test_ids_sort_by_the_moment_of_writing_across_ledgers(moments: list[datetime]) -> None:
    by_id = sorted(moments, key=new_id)
    milliseconds = [moment.replace(microsecond=moment.microsecond // 1000 * 1000) for moment in by_id]
    assert milliseconds == sorted(milliseconds)


def test_ids_of_one_millisecond_rise_and_are_all_different() -> None:
    moment = datetime(2026, 5, 1, 10, 22, 11, 123000, UTC)
    ids = [new_id(moment)]
    for _ in range(500):
        ids.append(new_id(moment, after=ids[-1]))
    assert ids == sorted(set(ids))
    assert all(an_id.startswith("20260501-102211123-") for an_id in ids)


def test_ids_are_written_in_utc_and_without_letters_to_misread() -> None:
    five_west = timezone(timedelta(hours=-5))
    stamp, _, tail = new_id(datetime(2026, 5, 1, 5, 22, 11, 123999, five_west)).rpartition("-")
    assert stamp == "20260501-102211123"
    assert len(tail) == 10
    assert set(tail) <= set(LETTERS) == set("0123456789abcdefghijklmnopqrstuvwxyz") - set("ilou")
