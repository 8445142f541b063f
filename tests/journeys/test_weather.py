"""The weather at the prompts: a station's record, a sign of spring, tonight's cold, a cold night out."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from cuttings.words import Sign
from tests.commands.running import recorded
from tests.journeys.askings import APRIL, DAY, RECORD, copied
from tests.journeys.terminal import CTRL_C, Terminal

BEGUN = date(2026, 5, 14)


def _back_home(terminal: Terminal) -> str:
    """Read the answer, then leave by the menu; returns the screen before."""
    terminal.wait_for_end("(any key to go on)")
    said = terminal.flowing()
    terminal.keys(" ")
    terminal.choose("What now?", "Leave the ledger")
    assert terminal.finish() == 0
    return said


def test_tonight_s_cold_is_asked_after_from_the_home_screen(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("What now?", "Look something up")
        terminal.wait_for("Look a plant up")
        terminal.choose("What now?", "Will tonight's cold do harm?")
        terminal.answer("How low does the forecast go tonight?", "27")
        assert "Tonight Quarry Bank, 28 September, a low of 27 °F" in _back_home(terminal)
    assert kept.read_bytes() == before


def test_the_climate_is_shown_from_the_home_screen(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path, lines=80) as terminal:
        terminal.choose("What now?", "Look something up")
        terminal.wait_for("Look a plant up")
        terminal.choose("What now?", "Show the climate")
        said = _back_home(terminal)
    assert "Frost is as likely as not over by 15 May, and back by 30 September." in said
    assert "tender plants out" in said


def test_a_sign_of_spring_is_written_down_from_the_home_screen(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("--on", APRIL.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("What now?", "I started or saw something")
        terminal.wait_for("I struck cuttings")
        terminal.choose("What now?", "I saw a sign of spring")
        terminal.choose("What have you seen?", "the soil can be dug")
        terminal.answer("Anything to remember?", "the gate strip first")
        said = _back_home(terminal)
    assert "Recorded the soil workable, 20 April. Usual about " in said
    sign = Ledger(kept.parent).book().signs[-1]
    assert (sign.sign, sign.on, sign.note) == (Sign.SOIL_WORKABLE, APRIL, "the gate strip first")


def test_a_sign_stopped_at_the_home_screen_is_taken_up_where_it_was(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("--on", APRIL.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("What now?", "I started or saw something")
        terminal.wait_for("I struck cuttings")
        terminal.choose("What now?", "I saw a sign of spring")
        terminal.choose("What have you seen?", "the first flower of a plant")
        terminal.answer("Which plant?", "red currant")
        terminal.asked("Anything to remember?")
        terminal.ctrl_c()
        terminal.say("Go on where you stopped?", "y")
        terminal.answer("Anything to remember?")
        assert "Recorded the first bloom of red currant, 20 April." in _back_home(terminal)
    assert [sign.plant for sign in Ledger(kept.parent).book().signs] == ["Ribes rubrum"]


def test_a_plant_left_out_of_a_first_bloom_is_asked_for(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    words = ("climate", "seen", "first-bloom", "--on", APRIL.isoformat())
    with Terminal(*words, folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "red currant")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
    assert [sign.plant for sign in Ledger(kept.parent).book().signs] == ["Ribes rubrum"]


def test_a_record_is_read_from_the_home_screen_and_holds_from_then_on(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("--on", DAY.isoformat(), folder=tmp_path, lines=24, columns=80) as terminal:
        terminal.choose("What now?", "Put something right")
        terminal.wait_for("Describe a site")
        terminal.choose("What now?", "Read a weather station's record")
        terminal.answer("Which file holds the station's daily record?", str(RECORD))
        assert "Kept 30 whole years, 1996 to 2025" in _back_home(terminal)
    with Terminal("climate", folder=tmp_path, lines=80) as terminal:
        assert terminal.finish() == 0
        assert "From 30 winters of daily readings, 1996 to 2025" in terminal.flowing()


def test_ctrl_c_at_the_file_keeps_the_record_that_was_there(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    normals = kept.with_name("climate.json")
    normals.write_text("{}", encoding="utf-8")
    with Terminal("climate", "load", folder=tmp_path) as terminal:
        terminal.asked("Which file holds the station's daily record?")
        terminal.keys(CTRL_C)
        assert terminal.finish() == 130
    assert normals.read_text(encoding="utf-8") == "{}"


def _hardening(folder: Path, days_done: int) -> Ledger:
    """Six tender rosemaries, rooted in a bag, potted, and hardened off for so many days."""
    ledger = folder / "ledger"
    struck = ("strike", "rosemary", "--wood", "semi-ripe", "--count", "6", "--cover", "bag")
    lot = recorded(*struck, "--on", "2025-08-01", ledger=ledger).lot
    recorded("check", lot, "--rooted", "6", "--on", "2025-09-20", ledger=ledger)
    recorded("pot", lot, "--pot", "4in", "--on", "2025-09-21", ledger=ledger)
    recorded("harden", lot, "--start", "--on", BEGUN.isoformat(), ledger=ledger)
    for number in range(days_done):
        on = BEGUN + timedelta(days=number)
        recorded("harden", lot, "--day-done", "--on", on.isoformat(), ledger=ledger)
    return Ledger(ledger)


@pytest.mark.parametrize(("nights", "step"), [(("cold", "70K", "20F"), "skip"), (("",), "day-done")])
def test_a_night_is_asked_after_where_the_plants_were_out_in_it(
    nights: tuple[str, ...], step: str, tmp_path: Path
) -> None:
    ledger = _hardening(tmp_path, 9)
    on = BEGUN + timedelta(days=9)
    with Terminal("harden", "--on", on.isoformat(), folder=tmp_path) as terminal:
        terminal.choose("Which lot?")
        terminal.choose("What is to be written down?", "a day of it is done")
        for night in nights:
            terminal.answer("How cold was the night?", night)
        assert terminal.finish() == 0, terminal.screen_text()
    last = ledger.book().entries[-1]
    assert isinstance(last, e.Harden)
    assert last.step == step
    assert (last.night_low_c is None) == (nights == ("",))


@pytest.mark.parametrize("columns", [80, 120])
def test_the_climate_fits_the_screens_people_have(columns: int, garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    words = ("climate", "--on", DAY.isoformat())
    with Terminal(*words, folder=tmp_path, lines=80, columns=columns) as terminal:
        assert terminal.finish() == 0
        rows = [row.rstrip() for row in terminal.rows()]
    tables = [number for number, row in enumerate(rows) if row.startswith(("Last cold", "First cold"))]
    assert len(tables) == 2
    chances = rows[tables[0] + 1].split(" %")
    assert len(chances) - 1 == (5 if columns == 80 else 9)
    dates = rows[tables[0] + 3]
    assert dates.startswith("32 F ")
    assert len(dates) == len(rows[tables[0] + 1])
    assert max(len(row) for row in rows) <= columns


def test_the_climate_has_no_drawing_where_plain_lines_are_wanted(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("climate", "--plain", "--on", DAY.isoformat(), folder=tmp_path, lines=80) as terminal:
        assert terminal.finish() == 0
        assert b"\x1b[" not in terminal.everything
        assert "===" not in terminal.screen_text()
        assert "32 °F still to come after: 28 May (10 %)" in terminal.flowing()
