"""The drawer: what is owned is told, what is in use follows from the lots, and nothing is counted twice."""

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given, settings

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.containers import IN_POTS, Containers, Held, drawer
from cuttings.words import Cause, Stage
from tests.ledger.making import found, made, moved
from tests.ledger.strategies import POTS, candidates
from tests.ledger.test_properties import accepted

unhurried = settings(deadline=None, derandomize=True)


def bought(count: int, name: str = "4in", size: str = "4in", cells: int = 1) -> Containers:
    return made(Containers, name=name, size=size, cells=cells, change=count)


def potted(count: int, pot: str = "4in", source: Stage = Stage.ROOTED, lot: str = "26-001") -> e.Pot:
    return moved(e.Pot, count, source, Stage.POTTED, lot, pot=pot)


def held(*entries: e.Entry) -> dict[str, tuple[int, int, int]]:
    """Owned, in use and free of each kind, in the book of those entries, all of which must fit."""
    book = fold(entries)
    assert not book.problems
    return {each.kind.name: (each.owned, each.in_use, each.free) for each in standing(book)}


def standing(book: Book) -> Sequence[Held]:
    return drawer(book.containers, book.lots.values())


ROOTED = (found(count=10, stage=Stage.ROOTED),)


def test_pots_are_in_use_from_the_potting_to_the_planting_place() -> None:
    begun: tuple[e.Entry, ...] = (bought(6), *ROOTED, potted(5))
    assert held(*begun) == {"4in": (6, 5, 1)}
    begun = (*begun, moved(e.Harden, 4, Stage.POTTED, Stage.HARDENING, step="start"))
    begun = (*begun, moved(e.Ready, 3, Stage.HARDENING, Stage.READY))
    assert held(*begun) == {"4in": (6, 5, 1)}
    begun = (*begun, moved(e.Give, 2, Stage.READY, Stage.GIVEN))
    begun = (*begun, moved(e.Lose, 1, Stage.POTTED, Stage.LOST, cause=Cause.ROT))
    assert held(*begun) == {"4in": (6, 2, 4)}


def test_pots_that_go_with_their_plants_are_owned_no_more() -> None:
    begun = (bought(6), *ROOTED, potted(5))
    for kind, end in ((e.Give, Stage.GIVEN), (e.Sell, Stage.SOLD)):
        assert held(*begun, moved(kind, 2, Stage.POTTED, end, with_pots=True)) == {"4in": (4, 3, 1)}


def test_a_tray_stays_when_a_plug_goes_and_counts_by_its_cells() -> None:
    begun = (bought(2, "plugs", "72-cell tray", 72), *ROOTED, potted(8, "plugs"))
    assert held(*begun) == {"plugs": (144, 8, 136)}
    gone = moved(e.Give, 3, Stage.POTTED, Stage.GIVEN, with_pots=True)
    assert held(*begun, gone) == {"plugs": (144, 5, 139)}


def test_potting_on_brings_the_smaller_pots_back_the_first_potted_first() -> None:
    begun = (bought(6), bought(6, "#1", "#1"), *ROOTED, potted(2), potted(3, "#1"))
    assert held(*begun, potted(3, "#1", Stage.POTTED)) == {"4in": (6, 0, 6), "#1": (6, 5, 1)}


def test_a_size_fills_the_kinds_of_that_size_in_turn() -> None:
    begun = (bought(2, "black", "4in"), bought(3, "green", "4in"), *ROOTED)
    assert held(*begun, potted(4)) == {"black": (2, 2, 0), "green": (3, 2, 1)}
    assert held(*begun, potted(1, "GREEN"), potted(4)) == {"black": (2, 2, 0), "green": (3, 3, 0)}
    assert held(*begun, potted(9)) == {"black": (2, 2, 0), "green": (3, 7, -4)}


def test_a_part_that_was_split_off_takes_its_pots_along() -> None:
    begun: tuple[e.Entry, ...] = (bought(6), bought(6, "#1", "#1"), *ROOTED, potted(2), potted(4, "#1"))
    split = made(e.Split, lot="26-001", into="26-002", moves=(e.Move(count=3, source=Stage.POTTED),))
    again = made(e.Split, lot="26-002", into="26-003", moves=(e.Move(count=1, source=Stage.POTTED),))
    begun = (*begun, split, again)
    assert held(*begun) == {"4in": (6, 2, 4), "#1": (6, 4, 2)}
    lost = moved(e.Lose, 1, Stage.POTTED, Stage.LOST, "26-003", cause=Cause.ROT)
    assert held(*begun, lost) == {"4in": (6, 1, 5), "#1": (6, 4, 2)}
    rest = moved(e.Lose, 2, Stage.POTTED, Stage.LOST, "26-002", cause=Cause.ROT)
    assert held(*begun, rest) == {"4in": (6, 1, 5), "#1": (6, 3, 3)}


def test_taking_an_entry_back_puts_the_drawer_as_it_was() -> None:
    gone = moved(e.Give, 2, Stage.POTTED, Stage.GIVEN, with_pots=True)
    begun = (bought(6), *ROOTED, potted(5))
    assert held(*begun, gone, made(e.Reverse, target=gone.id)) == held(*begun)


def test_no_drawer_is_no_drawer() -> None:
    assert held(*ROOTED, potted(5)) == {}


@pytest.mark.parametrize(
    ("entries", "says"),
    [
        ([(0, {})], "say how many"),
        ([(-1, {})], "There is no 4in in the drawer"),
        ([(1, {"size": ""})], "There is no 4in in the drawer"),
        ([(1, {"cells": 0})], "at least one cell"),
        ([(3, {}), (-4, {})], "You own 3 of 4in, so 4 cannot leave"),
        ([(3, {}), (1, {"size": "9cm"})], "is of size 4in; give the others another name"),
    ],
)
def test_what_the_drawer_cannot_hold_is_refused(entries: list[tuple[int, dict[str, Any]]], says: str) -> None:
    usual: dict[str, Any] = {"name": "4in", "size": "4in"}
    made_of = [made(Containers, **{**usual, "change": count, **more}) for count, more in entries]
    book = Book().accept(made_of[:-1]) if made_of[:-1] else Book()
    with pytest.raises(Refused, match=says):
        book.accept(made_of[-1:])


def test_more_of_a_kind_need_not_tell_its_size_again() -> None:
    assert held(bought(3), made(Containers, name="4IN", change=2)) == {"4in": (5, 0, 5)}


@unhurried
@given(candidates())
def test_every_place_is_in_use_or_free_and_every_potted_stem_has_one(offered: list[e.Entry]) -> None:
    book = accepted(offered)
    missing = [bought(500, name, name) for name in POTS if name not in book.containers]
    full = fold([*book.entries, *missing])
    in_pots = sum(lot.at(stage) for lot in book.lots.values() for stage in IN_POTS)
    for each in (*standing(book), *standing(full)):
        assert each.owned == each.in_use + each.free
        assert min(each.in_use, each.pieces, each.owned) >= 0
    assert sum(each.in_use for each in standing(book)) <= in_pots
    assert sum(each.in_use for each in standing(full)) == in_pots
