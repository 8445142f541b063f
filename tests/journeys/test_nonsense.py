"""Nonsense at the prompts: each says in a sentence what it wants, asks again, and takes the right answer."""

from pathlib import Path

import pytest

from cuttings.ledger.store import FILE, Ledger
from cuttings.words import Stage
from tests.journeys.askings import COMMANDS, DAY, ESCAPES, RUBBISH, Asking, called, copied
from tests.journeys.terminal import CTRL_C, CTRL_U, UP, Terminal
from tests.ledger.making import found


def _talk_nonsense(terminal: Terminal, asking: Asking) -> None:
    """Everything wrong that a prompt could be told, and what it says to each."""
    if asking.kind != "text":
        terminal.asked(asking.prompt)
        terminal.keys(*RUBBISH)
        return
    for typed, wants in asking.wrong:
        terminal.asked(asking.prompt)
        terminal.type(typed)
        terminal.enter()
        terminal.corrected(wants)
    if asking.free:
        terminal.asked(asking.prompt)
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
        for asking in command.after:
            asking.reply(terminal)
        assert terminal.finish() == 0, terminal.screen_text()
        assert command.recorded in terminal.flowing(), terminal.screen_text()
        assert ("Recorded" in terminal.screen_text()) is command.writes
        assert b"title\x07" not in terminal.everything
        assert b"\x1b[31mred" not in terminal.everything
    if not command.writes:
        assert kept.read_bytes() == before
        return
    book = Ledger(kept.parent).book()
    assert len(kept.read_bytes()) > len(before)
    assert max(book.entries, key=lambda entry: entry.id).on == command.on
    assert kept.name == FILE


def test_a_wrong_answer_is_explained_in_full_on_a_usual_screen_and_can_be_brought_back(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("mark", "box", "--on", DAY.isoformat(), folder=tmp_path, lines=24, columns=80) as terminal:
        terminal.choose("What is to be done there?", "keep an eye on it")
        terminal.answer("When, if you know better than the rules?")
        terminal.answer("Where is it?")
        terminal.answer("Tape from two fixed points", "A=3.20m, corner of the shed B=4.75m")
        terminal.corrected("has no length unit this program knows; use in, ft, yd, mm, cm or m.")
        terminal.keys(UP)
        terminal.wait_for_end("A=3.20m, corner of the shed B=4.75m")
        terminal.keys(CTRL_U)
        terminal.answer("Tape from two fixed points", "A=3.20m B=4.75")
        terminal.choose("On which site's plan are A and B?", "on no plan")
        terminal.answer("How far from A to B")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
    assert Ledger(kept.parent).book().open_marks()[-1].tape == "A=3.20m B=4.75"


@pytest.mark.parametrize(
    ("words", "before", "most"),
    [
        ("harden 24-002", (), 2),
        ("spot 24-003", (), 13),
        ("plant", ("24-003", "1"), 7),
        ("", (), 12),
    ],
)
def test_a_plain_list_takes_only_what_it_offers(
    words: str, before: tuple[str, ...], most: int, garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    ledger = kept.read_bytes()
    with Terminal(*words.split(), "--plain", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        for answer in before:
            terminal.wait_for_end(":")
            terminal.type(f"{answer}\n")
            terminal.wait_for(f": {answer}")
        for rubbish in ("zz", "99", "0", "²", "-1"):
            terminal.wait_for_end(":")
            terminal.type(f"{rubbish}\n")
            terminal.wait_for(f": {rubbish} Answer with a number from 1 to {most}.")
        terminal.wait_for_end(":")
        terminal.press_until_it_ends(CTRL_C)
        assert terminal.finish() == 130
    assert kept.read_bytes() == ledger


def test_describing_the_garden_anew_with_enter_at_every_prompt_changes_nothing(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    before = Ledger(kept.parent).book()
    with Terminal("garden", "--change", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        for asking in COMMANDS["garden"].askings:
            terminal.asked(asking.prompt.replace("in metres?", "in feet?"))
            terminal.enter()
        assert terminal.finish() == 0
    after = Ledger(kept.parent).book()
    assert after.garden == before.garden
    assert after.areas == before.areas


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("check", "No lot holds stems that are waiting"),
        ("harden", "No lot holds stems that are hardening or potted"),
        ("pot --again", "No lot holds stems that are potted"),
        ("pots remove", "There are no pots in the drawer"),
    ],
)
def test_nothing_is_asked_where_there_is_nothing_to_choose_from(
    words: str, says: str, tmp_path: Path
) -> None:
    Ledger(tmp_path / "ledger").record(lambda _, __: [found(stage=Stage.ROOTED)])
    with Terminal(*words.split(), folder=tmp_path) as terminal:
        assert terminal.finish() == 1
        assert says in terminal.flowing()


@pytest.mark.parametrize(
    "words", ["check", "pot", "harden", "plant", "give", "lose", "split", "note", "card"]
)
def test_an_empty_ledger_says_how_to_begin(words: str, tmp_path: Path) -> None:
    with Terminal(words, folder=tmp_path) as terminal:
        assert terminal.finish() == 1
        assert "There are no lots yet; begin with 'cuttings find'" in terminal.flowing()
