"""Ticking a sheet off at a terminal: by its numbers, from the home screen, and stopping in the middle."""

import re
from pathlib import Path

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from tests.journeys.askings import DAY, copied
from tests.journeys.terminal import Terminal

LOOK = "Look for roots on 25-005 black raspberry"
ON = ("--on", DAY.isoformat())


def _number(folder: Path) -> str:
    """The number before the look at the black raspberry, as the screen shows it."""
    with Terminal("week", *ON, folder=folder, lines=100) as terminal:
        assert terminal.finish() == 0
        shown = re.search(rf"(\d+)\. {LOOK}", terminal.flowing())
    assert shown is not None
    return shown[1]


def test_a_number_that_is_done_leads_into_the_look_and_names_the_job_first(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("week", "--done", _number(tmp_path), *ON, folder=tmp_path) as terminal:
        terminal.asked("Is there new growth?")
        assert f"To be written down: {LOOK}." in terminal.flowing()
        for prompt, key in (
            ("Is there new", "y"),
            ("Do they hold", "y"),
            ("Are roots", "n"),
            ("Has any", "n"),
        ):
            terminal.say(prompt, key)
        terminal.answer("Of 5, how many have rooted?", "0")
        terminal.answer("Of the other 5, how many have failed?", "0")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
        assert f"Done: {LOOK}. 'cuttings undo' takes it back." in terminal.flowing()
    newest = max(Ledger(kept.parent).book().entries, key=lambda entry: entry.id)
    assert isinstance(newest, e.Check)
    assert (newest.lot, newest.not_yet, newest.on) == ("25-005", 5, DAY)


def test_a_look_stopped_in_the_middle_can_be_taken_up_from_the_home_screen(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal(*ON, folder=tmp_path) as terminal:
        terminal.choose("What now?", "Something on the week's sheet")
        terminal.choose("Which of them?", LOOK)
        terminal.choose("What of it?", "it is done")
        terminal.say("Is there new growth?", "y")
        terminal.say("Do they hold when touched very gently?", "y")
        terminal.asked("Are roots to be seen")
        terminal.ctrl_c()
        terminal.say("Go on where you stopped?", "y")
        terminal.say("Are roots to be seen", "y")
        terminal.asked("Has any stem gone black or soft?")
        assert kept.read_bytes() == before
        terminal.ctrl_c()
        terminal.say("Go on where you stopped?", "n")
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0
    assert kept.read_bytes() == before


def test_what_was_put_off_leaves_the_home_screen_and_comes_back_with_undo(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    planting = "Plant 24-004 box out"
    with Terminal(*ON, folder=tmp_path) as terminal:
        terminal.wait_for(f"{planting}; 'cuttings spot' says where")
        terminal.choose("What now?", "Something on the week's sheet")
        terminal.choose("Which of them?", planting)
        terminal.choose("What of it?", "it must wait")
        terminal.answer("Until when?", "2026-12-24")
        terminal.wait_for("by then it is too late.")
        terminal.wait_for("Put off until 24 December 2026")
        terminal.choose("Which of them?", "nothing more")
        terminal.wait_for_end("(any key to go on)")
        terminal.keys(" ")
        terminal.asked("What now?")
        terminal.ctrl_c()
        terminal.finish()
    assert "24-004:plant" in Ledger(kept.parent).book().put_aside
    with Terminal("week", *ON, folder=tmp_path, lines=100) as terminal:
        assert terminal.finish() == 0
        assert planting not in terminal.flowing()
    with Terminal("undo", *ON, folder=tmp_path) as terminal:
        terminal.say("Take back 'put off until 24 December 2026: Plant 24-004", "y")
        assert terminal.finish() == 0
    assert not Ledger(kept.parent).book().put_aside


def test_a_goal_that_is_done_offers_how_many_are_left_of_it(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    aim = ("--want", "2", "--by", "+700d", "--sure", "60", "--keep", "hardwood")
    with Terminal("goal", "red currant", *aim, *ON, folder=tmp_path) as terminal:
        assert terminal.finish() == 0
    goal = next(iter(Ledger(kept.parent).book().goals.values()))
    on = ("--on", goal.opens.isoformat())
    nudge = f"goal:{goal.plant}:{goal.by.isoformat()}:{goal.method.value}"
    with Terminal("week", "--done", nudge, *on, folder=tmp_path) as terminal:
        terminal.asked("How many cuttings?")
        assert "So many are left of your goal." in terminal.flowing()
        terminal.answer("How many cuttings?")
        terminal.asked("Rooting hormone, in ppm")
        terminal.ctrl_c()
