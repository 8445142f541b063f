"""The prompts on the screens people have: small ones, old ones, and ones read aloud."""

from pathlib import Path

import pytest

from cuttings.ledger.store import FILE, Ledger
from cuttings.words import Stage
from tests.journeys.askings import COMMANDS, DAY, called, copied
from tests.journeys.terminal import UP, Terminal
from tests.ledger.making import found

OLD = {"LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}


@pytest.mark.parametrize("surroundings", [OLD, {"PYTHONIOENCODING": "ascii"}], ids=["old", "ascii"])
@pytest.mark.parametrize(
    "name", ["pot", "strike", "harden", "plant", "spot", "garden", "climate seen", "climate load"]
)
def test_prompts_ask_in_ascii_where_the_screen_speaks_nothing_else(
    name: str, surroundings: dict[str, str], garden: Path, tmp_path: Path
) -> None:
    copied(garden, tmp_path)
    command = COMMANDS[name]
    with Terminal(*called(command), folder=tmp_path, env=surroundings) as terminal:
        for asking in command.askings:
            asking.reply(terminal)
        assert terminal.finish() == 0, terminal.screen_text()
        assert command.recorded in terminal.flowing()
        assert terminal.everything.isascii()


def test_the_home_screen_fits_a_small_terminal(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path, lines=24, columns=80) as terminal:
        terminal.asked("What now?")
        terminal.wait_for("Leave the ledger")
        assert terminal.screen_text().startswith("Quarry Bank   28 September 2025")
        assert "Water 24-004 box, 23-006 red currant and 4 more" in terminal.screen_text()
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0


def test_a_narrow_terminal_can_be_worked_at(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    command = COMMANDS["lose"]
    with Terminal(*called(command), folder=tmp_path, lines=24, columns=40) as terminal:
        for asking in command.askings:
            asking.reply(terminal)
        assert terminal.finish() == 0
        assert command.recorded in terminal.flowing()
    assert Ledger(kept.parent).book().lots["24-004"].at(Stage.LOST) == 5


def test_a_simple_terminal_is_asked_in_numbered_lines_without_any_codes(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("find", "--on", DAY.isoformat(), folder=tmp_path, env={"TERM": "dumb"}) as terminal:
        for prompt, answer in (
            ("do not know) answer:", "red currant"),
            ("number [1 simple layer]:", "3"),
            ("How many stems? answer [1]:", "4"),
            ("Have you seen roots on them? y or n [no]:", "maybe"),
            ("Answer y or n. y or n [no]:", "y"),
            ("Which is the mother plant? (Enter to skip) answer:", ""),
            ("Where do they stand now? (Enter to skip) answer:", "gate strip"),
            ("Anything to remember? (Enter to skip) answer:", ""),
        ):
            terminal.wait_for_end(prompt)
            terminal.type(f"{answer}\n")
        assert terminal.finish() == 0
        assert b"\x1b" not in terminal.everything
    lot = Ledger(kept.parent).book().lots["25-006"]
    assert (lot.method.value, lot.at(Stage.ROOTED), lot.where) == ("mound-layer", 4, "gate strip")


def test_a_list_longer_than_the_screen_reaches_its_last_line(tmp_path: Path) -> None:
    ledger = Ledger(tmp_path / "ledger")
    ledger.record(lambda _, __: [found(f"26-{number:03d}") for number in range(1, 61)])
    with Terminal("note", folder=tmp_path, lines=24, columns=80) as terminal:
        terminal.asked("Which lot?")
        assert "26-001" in terminal.pointed_at()
        terminal.keys(UP)
        terminal.wait_for("> 26-060")
        terminal.enter()
        terminal.answer("What is worth remembering?", "the last one")
        assert terminal.finish() == 0
    assert (tmp_path / "ledger" / FILE).exists()
    assert ledger.book().lots["26-060"].entries[-1].note == "the last one"
