"""Going back one question at the terminal, and changing what was answered."""

from pathlib import Path

import pytest

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from tests.journeys.askings import COMMANDS, DAY, Asking, called, copied
from tests.journeys.terminal import Terminal

NOTHING_BEFORE = "There is no question before this one to go back to."
STOPPED = "Stopped; nothing was recorded, and the ledger is as it was."


def _press_back(terminal: Terminal, asking: Asking) -> None:
    """Wait for a question, and go back from it as one does from its kind."""
    terminal.asked(asking.prompt)
    if asking.kind == "text":
        terminal.answer(asking.prompt, "<")
    else:
        terminal.keys("<")


ALL = [name for name, command in COMMANDS.items() if len(command.askings) > 1]


@pytest.mark.parametrize("name", ALL)
def test_from_every_question_one_can_go_back_and_the_command_still_ends_as_it_should(
    name: str, garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    command = COMMANDS[name]
    with Terminal(*called(command), folder=tmp_path) as terminal:
        for earlier, asking in zip(command.askings, command.askings[1:], strict=False):
            earlier.reply(terminal)
            _press_back(terminal, asking)
            assert kept.read_bytes() == before
            earlier.reply(terminal)
        command.askings[-1].reply(terminal)
        for asking in command.after:
            asking.reply(terminal)
        assert terminal.finish() == 0
        assert command.recorded in terminal.flowing()
        assert NOTHING_BEFORE not in terminal.flowing()
    assert (kept.read_bytes() != before) is command.writes


@pytest.mark.parametrize("name", COMMANDS)
def test_at_the_first_question_there_is_nothing_before_it(name: str, garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    first = COMMANDS[name].askings[0]
    with Terminal(*called(COMMANDS[name]), folder=tmp_path) as terminal:
        _press_back(terminal, first)
        terminal.wait_for(NOTHING_BEFORE)
        first.reply(terminal)
        if len(COMMANDS[name].askings) > 1:
            terminal.asked(COMMANDS[name].askings[1].prompt)


def _last(kept: Path) -> e.Entry:
    """The entry written last."""
    return max(Ledger(kept.parent).book().entries, key=lambda entry: entry.id)


def test_two_questions_back_and_both_answers_changed(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("find", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "red currant")
        terminal.choose("How did it come about?", "tip layer")
        terminal.answer("How many stems?", "7")
        terminal.say("Have you seen roots on them?", "n")
        terminal.answer("Which is the mother plant?", "<")
        terminal.say("Have you seen roots on them?", "<")
        terminal.answer("How many stems?", "<")
        terminal.choose("How did it come about?", "mound layer")
        terminal.answer("How many stems?", "8")
        terminal.say("Have you seen roots on them?", "y")
        terminal.answer("Which is the mother plant?", "by the gate")
        terminal.answer("Where do they stand now?")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Find)
    assert (entry.stems, entry.method.value, entry.mother) == (8, "mound-layer", "by the gate")
    assert entry.moves[0].target == "rooted"


def test_a_name_can_be_taken_back_after_it_was_kept(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("find", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "blumph")
        terminal.say("Keep that name?", "y")
        terminal.asked("What kind of plant is it?")
        terminal.keys("<")
        terminal.say("Keep that name?", "<")
        terminal.answer("Which plant?", "box")
        terminal.choose("How did it come about?", "simple layer")
        for prompt in ("How many stems?", "Have you seen roots", "Which is the mother", "Where do they"):
            terminal.answer(prompt)
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Find)
    assert entry.plant == "Buxus sempervirens"


def test_the_key_of_questions_goes_back_too(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("find", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "?")
        terminal.choose("What is one leaf like?", "I cannot tell")
        terminal.asked("How do the leaves stand on the stem?")
        terminal.keys("<")
        terminal.asked("What is one leaf like?")
        terminal.keys("<")
        terminal.asked("Which plant?")


def test_ctrl_c_after_going_back_records_nothing(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("find", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "red currant")
        terminal.choose("How did it come about?", "tip layer")
        terminal.answer("How many stems?", "<")
        terminal.asked("How did it come about?")
        terminal.ctrl_c()
        assert terminal.finish() == 130
        assert terminal.flowing().endswith(STOPPED)
    assert kept.read_bytes() == before


def test_what_was_stopped_after_going_back_is_taken_up_at_the_home_screen(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.asked("What now?")
        terminal.keys("<")
        terminal.wait_for(NOTHING_BEFORE)
        terminal.choose("What now?", "Something has left")
        terminal.wait_for("I gave stems away")
        terminal.choose("What now?", "I gave stems away")
        terminal.choose("From which lot?", "box")
        terminal.answer("How many are given away?", "3")
        terminal.answer("To whom?", "<")
        terminal.answer("How many are given away?", "4")
        terminal.asked("To whom?")
        terminal.ctrl_c()
        terminal.say("Go on where you stopped?", "y")
        terminal.answer("To whom?", "<")
        terminal.answer("How many are given away?", "5")
        terminal.answer("To whom?", "a friend")
        terminal.answer("Anything to remember?")
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Give)
    assert (entry.stems, entry.to) == (5, "a friend")


def test_behind_what_is_recorded_nobody_goes_back(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    command = COMMANDS["sites add"]
    with Terminal(*called(command), folder=tmp_path) as terminal:
        for asking in command.askings:
            asking.reply(terminal)
        terminal.answer("What grows there already?", "<")
        terminal.corrected(NOTHING_BEFORE)
        terminal.answer("What grows there already?")
        assert terminal.finish() == 0
    sites = [entry for entry in Ledger(kept.parent).book().entries if isinstance(entry, e.SiteFacts)]
    assert [entry.site.name for entry in sites].count("plum bed") == 1


@pytest.mark.parametrize("env", [{}, {"TERM": "dumb"}])
def test_numbered_lines_go_back_too(env: dict[str, str], garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    plain = () if env else ("--plain",)
    with Terminal("find", *plain, "--on", DAY.isoformat(), folder=tmp_path, env=env) as terminal:
        terminal.wait_for_end("answer:")
        terminal.type("<\n")
        terminal.wait_for(NOTHING_BEFORE)
        terminal.wait_for_end("answer:")
        terminal.type("red currant\n")
        terminal.wait_for("(< goes back one question)")
        terminal.wait_for_end("number [1 simple layer]:")
        terminal.type("4\n")
        terminal.wait_for_end("answer [1]:")
        terminal.type("7\n")
        terminal.wait_for_end("y or n [no]:")
        terminal.type("<\n")
        terminal.wait_for_end("answer [1]:")
        terminal.type("<\n")
        terminal.wait_for_end("number [1 simple layer]:")
        terminal.type("1\n")
        terminal.wait_for_end("answer [1]:")
        terminal.type("6\n")
        terminal.wait_for_end("y or n [no]:")
        terminal.type("\n")
        for _ in range(3):
            terminal.wait_for_end("answer:")
            terminal.type("\n")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Find)
    assert (entry.stems, entry.method.value) == (6, "simple-layer")
