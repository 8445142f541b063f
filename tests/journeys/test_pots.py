"""The drawer of pots at a terminal: what it advises, what it asks, and how clean work is called to mind."""

from pathlib import Path

from cuttings.ledger import entries as e
from cuttings.ledger.containers import Containers, drawer
from cuttings.ledger.store import Ledger
from tests.journeys.askings import DAY, copied
from tests.journeys.terminal import Terminal

ON = ("--on", DAY.isoformat())


def _with_pots(garden: Path, folder: Path, *kinds: tuple[str, str, int]) -> Ledger:
    """The demo garden with some pots in its drawer."""
    ledger = Ledger(copied(garden, folder).parent)
    ledger.record(
        lambda _, stamp: [
            Containers(id=stamp(), on=DAY, name=name, size=size, change=count) for name, size, count in kinds
        ]
    )
    return ledger


def test_the_smallest_pot_of_ones_own_is_offered_and_enter_takes_it(garden: Path, tmp_path: Path) -> None:
    ledger = _with_pots(garden, tmp_path, ("tubs", "#2", 2), ("old cans", "17cm", 2))
    with Terminal("pot", *ON, folder=tmp_path) as terminal:
        terminal.choose("Which lot is to be potted?", "climbing hydrangea")
        terminal.answer("How many are potted?", "1")
        terminal.answer("How long is the longest root?")
        terminal.answer("How wide are the roots across?", "4.4in")
        terminal.answer("How much leaf is there")
        terminal.answer("What is the stem like?")
        terminal.asked("Which pot?")
        assert "The smallest of yours that is free and will do." in terminal.flowing()
        terminal.answer("Which pot?")
        for prompt in ("Which mix?", "How deep?", "How many days of shade?", "What does the label say?",
                       "Where do they stand?", "Anything to remember?"):  # fmt: skip
            terminal.answer(prompt)
        assert terminal.finish() == 0
        assert "1 stem of 24-001 climbing hydrangea in old cans" in terminal.flowing()
        assert "10 minutes in 1 part bleach to 9 of water" in terminal.flowing()
    book = Ledger(ledger.folder).book()
    in_use = {each.kind.name: each.in_use for each in drawer(book.containers, book.lots.values())}
    assert in_use["old cans"] == 1


def test_giving_asks_whether_the_pots_go_too_where_there_is_a_drawer(garden: Path, tmp_path: Path) -> None:
    ledger = _with_pots(garden, tmp_path, ("4in", "4in", 40))
    with Terminal("give", *ON, folder=tmp_path) as terminal:
        terminal.choose("From which lot?", "box")
        terminal.answer("How many are given away?", "2")
        terminal.answer("To whom?")
        terminal.say("Do their pots go with them?", "y")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
    newest = max(Ledger(ledger.folder).book().entries, key=lambda entry: entry.id)
    assert isinstance(newest, e.Give)
    assert newest.with_pots


def test_pots_are_taken_out_by_choosing_among_them(garden: Path, tmp_path: Path) -> None:
    ledger = _with_pots(garden, tmp_path, ("tubs", "#2", 2), ("old cans", "#1", 3))
    with Terminal("pots", "remove", *ON, folder=tmp_path) as terminal:
        terminal.choose("Which pots?", "old cans")
        terminal.asked("How many?")
        terminal.type("4")
        terminal.enter()
        terminal.corrected("so 4 cannot go")
        terminal.answer("How many?", "1")
        terminal.answer("Anything to remember?", "cracked")
        assert terminal.finish() == 0
        assert "1 fewer of old cans; 2 owned" in terminal.flowing()
    assert Ledger(ledger.folder).book().containers["old cans"].count == 2


def test_stopping_at_a_prompt_leaves_the_drawer_as_it_was(garden: Path, tmp_path: Path) -> None:
    ledger = _with_pots(garden, tmp_path, ("tubs", "#2", 2))
    with Terminal("pots", "remove", *ON, folder=tmp_path) as terminal:
        terminal.choose("Which pots?", "tubs")
        terminal.asked("How many?")
        terminal.ctrl_c()
        assert terminal.finish() == 130
    assert Ledger(ledger.folder).book().containers["tubs"].count == 2
