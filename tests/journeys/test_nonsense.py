"""Nonsense at the prompts: each says in a sentence what it wants, asks again, and takes the right answer."""

from pathlib import Path

import pytest

from cuttings.ledger.store import FILE, Ledger
from tests.journeys.askings import COMMANDS, ESCAPES, RUBBISH, Asking, called, copied
from tests.journeys.terminal import CTRL_U, Terminal


def _talk_nonsense(terminal: Terminal, asking: Asking) -> None:
    """Everything wrong that a prompt could be told, and what it says to each."""
    if asking.kind != "text":
        terminal.asked(asking.prompt)
        pointed = terminal.pointed_at()
        terminal.keys(*RUBBISH)
        assert terminal.pointed_at() == pointed
        return
    for typed, wants in asking.wrong:
        terminal.asked(asking.prompt)
        terminal.type(typed)
        terminal.enter()
        terminal.wait_for(wants)
        terminal.keys(CTRL_U)
    if asking.free:
        terminal.asked(asking.prompt)
        terminal.keys(CTRL_U)
        terminal.paste(ESCAPES)


@pytest.mark.parametrize("name", COMMANDS)
def test_nonsense_is_answered_in_a_sentence_and_the_right_answer_taken(
    name: str, garden: Path, tmp_path: Path
) -> None:
    command = COMMANDS[name]
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal(*called(command), folder=tmp_path) as terminal:
        for asking in command.askings:
            _talk_nonsense(terminal, asking)
            assert kept.read_bytes() == before, "an answer was recorded before the last question"
            asking.reply(terminal)
        if name == "sites add":
            terminal.answer("What grows there already?")
        assert terminal.finish() == 0, terminal.screen_text()
        assert command.recorded in terminal.flowing(), terminal.screen_text()
        assert "Recorded" in terminal.screen_text()
        assert b"title\x07" not in terminal.everything
        assert b"\x1b[31mred" not in terminal.everything
    book = Ledger(kept.parent).book()
    assert len(kept.read_bytes()) > len(before)
    assert book.entries[-1].on.isoformat() == "2025-09-28"
    assert kept.name == FILE
