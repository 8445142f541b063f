"""A label written: folded from its entry, told by the file, and taken back like any other."""

import pytest

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.codec import SCHEMA, from_document, to_document, upgraded
from cuttings.ledger.tally import tally
from cuttings.words import Stage
from tests.ledger.making import found, made, moved

TEXT = "Ribes rubrum / 26-001 simple layer / 1 May 2026"


def labelled(text: str = TEXT, lot: str = "26-001") -> e.Labelled:
    return made(e.Labelled, lot=lot, text=text)


def label_of(*entries: e.Entry, lot: str = "26-001") -> str:
    book = Book()
    for entry in entries:
        book = book.accept([entry])
    assert tally(book).balanced
    return book.lots[lot].label


def test_a_lot_has_the_label_that_was_written_last() -> None:
    begun = found(count=3, stage=Stage.ROOTED)
    rooted = labelled("by hand")
    potted = moved(e.Pot, 2, Stage.ROOTED, Stage.POTTED, pot="4in", label="at the bench")
    bare = moved(e.Pot, 1, Stage.ROOTED, Stage.POTTED, pot="4in")
    assert label_of(begun) == ""
    assert label_of(begun, rooted) == "by hand"
    assert label_of(begun, rooted, potted) == "at the bench"
    assert label_of(begun, rooted, potted, bare) == "at the bench"
    assert label_of(begun, rooted, potted, bare, labelled()) == TEXT


def test_a_label_moves_no_stems() -> None:
    begun = found()
    assert fold([begun, labelled()]).lots["26-001"].stages == fold([begun]).lots["26-001"].stages
    with pytest.raises(Refused):
        label_of(begun, moved(e.Labelled, 1, Stage.WAITING, Stage.ROOTED, text=TEXT))


def test_a_label_taken_back_leaves_the_one_before_it() -> None:
    begun, first, second = found(), labelled("the first"), labelled("the second")
    undone = made(e.Reverse, target=second.id)
    assert label_of(begun, first, second, undone) == "the first"
    assert label_of(begun, first, second, undone, made(e.Reverse, target=first.id)) == ""


def test_a_lot_split_off_has_no_label_until_one_bears_its_own_code() -> None:
    begun = (found(count=3), labelled(), moved(e.Split, 1, Stage.WAITING, None, into="26-002"))
    assert label_of(*begun) == TEXT
    assert label_of(*begun, lot="26-002") == ""
    assert label_of(*begun, labelled("its own", lot="26-002"), lot="26-002") == "its own"


@pytest.mark.parametrize("text", ["", "  \n"])
def test_a_label_that_says_nothing_is_refused(text: str) -> None:
    with pytest.raises(Refused, match="a label says something"):
        label_of(found(), labelled(text))


def test_a_label_of_a_lot_that_is_not_there_is_refused() -> None:
    with pytest.raises(Refused, match="There is no lot 26-009"):
        label_of(found(), labelled(lot="26-009"))


def test_the_file_tells_what_it_says_and_older_lines_stand_as_they_are() -> None:
    entry = labelled()
    document = to_document(entry)
    assert document == {
        "on": "2026-05-01", "kind": "labelled", "id": entry.id, "lot": "26-001", "text": TEXT,
    }  # fmt: skip
    assert from_document(document) == entry
    older = to_document(found())
    assert upgraded(older, SCHEMA - 1) == older
