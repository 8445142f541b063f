"""Stopping in the middle: the ledger stays as it was, and what was typed is not lost without asking."""

from pathlib import Path

import pytest

from cuttings.ledger.store import FILE, Ledger
from tests.journeys.askings import COMMANDS, DAY, RUBBISH, called, copied
from tests.journeys.terminal import CTRL_C, CTRL_D, Terminal

STOPPED = "Stopped; nothing was recorded, and the ledger is as it was."
INTERRUPTED = 130


def _prompts(*kinds: str) -> list[tuple[str, int]]:
    return [
        (name, number)
        for name, command in COMMANDS.items()
        for number, asking in enumerate(command.askings)
        if asking.kind in kinds
    ]


def _stops(name: str, number: int, key: str, garden: Path, folder: Path) -> None:
    kept = copied(garden, folder)
    before = kept.read_bytes()
    command = COMMANDS[name]
    with Terminal(*called(command), folder=folder) as terminal:
        for asking in command.askings[:number]:
            asking.reply(terminal)
        terminal.asked(command.askings[number].prompt)
        terminal.keys(key)
        assert terminal.finish() == INTERRUPTED
        assert terminal.flowing().count(STOPPED) == 1, terminal.screen_text()
        assert terminal.flowing().endswith(STOPPED)
    assert kept.read_bytes() == before


@pytest.mark.parametrize(("name", "number"), _prompts("text", "list", "yes"))
def test_ctrl_c_at_any_prompt_leaves_the_ledger_as_it_was(
    name: str, number: int, garden: Path, tmp_path: Path
) -> None:
    _stops(name, number, CTRL_C, garden, tmp_path)


@pytest.mark.parametrize("name", ["find", "note", "garden", "sites growing", "climate load", "tonight"])
def test_ctrl_d_at_a_typed_prompt_stops_as_ctrl_c_does(name: str, garden: Path, tmp_path: Path) -> None:
    first = next(n for n, asking in enumerate(COMMANDS[name].askings) if asking.kind == "text")
    _stops(name, first, CTRL_D, garden, tmp_path)


def test_ctrl_d_in_a_list_is_ignored_like_any_other_strange_key(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("card", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.asked("Which lot?")
        terminal.keys(CTRL_D, *RUBBISH)
        terminal.choose("Which lot?", "rosemary")
        assert terminal.finish() == 0
        assert "25-004" in terminal.screen_text()


def test_ctrl_c_in_a_ledger_that_does_not_exist_yet_makes_none(tmp_path: Path) -> None:
    with Terminal("find", folder=tmp_path) as terminal:
        terminal.asked("Which plant?")
        terminal.ctrl_c()
        assert terminal.finish() == INTERRUPTED
        assert STOPPED in terminal.flowing()
    assert not (tmp_path / "ledger" / FILE).exists()


@pytest.mark.parametrize("key", [CTRL_C, CTRL_D])
def test_plain_lines_are_stopped_in_the_same_way(key: str, garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("find", "--plain", folder=tmp_path) as terminal:
        terminal.wait_for_end("answer:")
        terminal.type("red currant\n")
        terminal.wait_for_end("number [1 simple layer]:")
        # The lines are read by the C library, which can miss a signal between the prompt and the reading.
        terminal.press_until_it_ends(key)
        assert terminal.finish() == INTERRUPTED
        assert STOPPED in terminal.flowing()
    assert kept.read_bytes() == before


def test_stopping_after_a_site_is_written_down_only_ends_the_list_of_what_grows_there(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    command = COMMANDS["sites add"]
    with Terminal(*called(command), folder=tmp_path) as terminal:
        for asking in command.askings:
            asking.reply(terminal)
        terminal.asked("What grows there already?")
        terminal.ctrl_c()
        assert terminal.finish() == 0
        assert STOPPED not in terminal.flowing()
        assert "Recorded plum bed" in terminal.flowing()
    assert "plum bed" in Ledger(kept.parent).book().sites


def _begin_a_find(terminal: Terminal) -> None:
    terminal.choose("What now?", "I found something")
    terminal.answer("Which plant?", "red currant")
    terminal.choose("How did it come about?", "tip layer")
    terminal.answer("How many stems?", "7")
    terminal.say("Have you seen roots on them?", "n")
    terminal.asked("Which is the mother plant?")
    terminal.ctrl_c()
    terminal.wait_for(STOPPED)


def test_a_find_stopped_at_the_home_screen_can_be_taken_up_where_it_was(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        _begin_a_find(terminal)
        terminal.say("Go on where you stopped?", "y")
        terminal.answer("Which is the mother plant?", "the old currant by the gate")
        terminal.asked("Where do they stand now?")
        terminal.ctrl_c()
        terminal.say("Go on where you stopped?")
        terminal.answer("Where do they stand now?", "gate strip")
        terminal.answer("Anything to remember?")
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0
    lot = list(Ledger(kept.parent).book().lots.values())[-1]
    assert (lot.code, lot.started, lot.method.value) == ("25-006", 7, "tip-layer")
    assert (lot.mother, lot.where) == ("the old currant by the gate", "gate strip")


@pytest.mark.parametrize("key", ["n", CTRL_C])
def test_a_find_let_go_at_the_home_screen_leaves_nothing(key: str, garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        _begin_a_find(terminal)
        terminal.say("Go on where you stopped?", key)
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0
    assert kept.read_bytes() == before


def test_ctrl_c_at_the_home_screen_closes_the_ledger_and_says_so(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("What now?", "Look something up")
        terminal.asked("What now?")
        terminal.wait_for("Look a plant up")
        terminal.ctrl_c()
        terminal.wait_for("Leave the ledger")
        terminal.asked("What now?")
        terminal.ctrl_c()
        assert terminal.finish() == INTERRUPTED
        assert "The ledger is closed; all that was recorded is kept." in terminal.flowing()


def test_what_is_refused_at_the_home_screen_is_told_once_and_not_asked_again(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("What now?", "Put something right")
        terminal.wait_for("Describe a site")
        terminal.choose("What now?", "Take the last entry back")
        terminal.say("Take back", "n")
        terminal.wait_for("Nothing was taken back.")
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0
        assert terminal.everything.count(b"Nothing was taken back.") == 1
    assert kept.read_bytes() == before
