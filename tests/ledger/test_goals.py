"""Goals: folded from entries, the newest of a kind holds, and taken back like any other."""

from datetime import date
from typing import Any

import pytest

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.codec import SCHEMA, from_document, to_document, upgraded
from cuttings.ledger.goals import Goal
from cuttings.words import Method
from tests.ledger.making import MAY, found, made

USUAL: dict[str, Any] = {
    "plant": "Ribes rubrum", "called": "red currant", "want": 5, "by": date(2027, 5, 1),
    "method": Method.HARDWOOD_CUTTING, "start": 9, "opens": date(2026, 10, 20), "start_by": date(2026, 12, 8),
    "mother": "red currant on the fruit row",
}  # fmt: skip


def goal(**more: Any) -> Goal:
    return made(Goal, **{**USUAL, **more})


def kept(*entries: e.Entry) -> list[Goal]:
    book = Book()
    for entry in entries:
        book = book.accept([entry])
    return list(book.goals.values())


def test_a_goal_stands_until_a_newer_one_of_the_same_plant_and_method() -> None:
    first, other = goal(), goal(method=Method.SIMPLE_LAYER)
    assert kept(first, other) == [first, other]
    newer = goal(want=8, start=14)
    assert kept(first, other, newer) == [newer, other]


def test_a_goal_that_was_taken_back_gives_way_to_the_one_before() -> None:
    first, newer = goal(), goal(want=8)
    assert kept(first, newer, made(e.Reverse, target=newer.id)) == [first]
    assert kept(first, made(e.Reverse, target=first.id)) == []


def test_a_goal_is_not_there_before_its_day() -> None:
    book = fold([found(), goal(on=date(2026, 6, 1))])
    assert not book.as_of(MAY).goals
    assert book.as_of(date(2026, 6, 1)).goals


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"want": 0}, "at least one plant"),
        ({"start": 0}, "at least one stem"),
        ({"sure": 100}, "1 to 99 percent"),
        ({"sure": 0}, "1 to 99 percent"),
        ({"opens": date(2027, 1, 1)}, "lies between"),
        ({"by": date(2026, 11, 1)}, "lies between"),
    ],
)
def test_what_makes_no_goal_is_refused(more: dict[str, Any], says: str) -> None:
    with pytest.raises(Refused, match=says):
        Book().accept([goal(**more)])


def test_the_file_tells_the_whole_of_it_and_older_lines_stand_as_they_are() -> None:
    entry = goal(sure=80, heat_c=20.0)
    document = to_document(entry)
    assert (document["kind"], document["method"], document["sure"]) == ("goal", "hardwood-cutting", 80)
    assert from_document(document) == entry
    older = to_document(found())
    assert upgraded(older, 6) == older
    assert SCHEMA >= 7
