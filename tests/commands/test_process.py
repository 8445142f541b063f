"""The program as a process: codes, streams, environment, help."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from unittest.mock import patch

import pytest

from cuttings.commands import desk
from tests.commands.expecting import RECORDING, last_entry, misused
from tests.commands.running import MAY, Result, cuttings, recorded, spawned


def test_a_process_ends_with_the_same_codes_and_keeps_its_streams_apart(ledger: Path) -> None:
    done = spawned("find", "red currant", "--method", "tip-layer", "--json", ledger=ledger)
    assert (done.code, done.err) == (0, "")
    assert done.document.keys() == RECORDING
    no = spawned("pot", done.lot, "--pot", "4in", "--json", ledger=ledger)
    assert (no.code, no.out) == (1, "")
    wrong = spawned("pot", "--json", ledger=ledger)
    assert (wrong.code, wrong.out) == (2, "")
    for result in (no, wrong):
        assert result.err.count("\n") == 1
        assert "Traceback" not in result.err


def test_the_environment_names_ledger_and_keeper(ledger: Path) -> None:
    words = ("find", "red currant", "--method", "tip-layer", "--json")
    env = {"CUTTINGS_LEDGER": str(ledger), "CUTTINGS_WHO": "R."}
    lot = cuttings(*words, ledger=None, env=env).lot
    assert last_entry(ledger, lot)["who"] == "R."


def test_bytes_that_are_no_text_are_misuse(ledger: Path) -> None:
    misused("find", "caf\udcff", "--method", "tip-layer", ledger=ledger, saying=["no text"])
    misused("find", "red currant", "--method", "tip-layer", "--note", "\udcff", ledger=ledger)


def test_a_person_who_stops_at_a_prompt_leaves_the_ledger_as_it_was(ledger: Path) -> None:
    before = (ledger / "ledger.jsonl").read_bytes()
    with patch.object(desk, "at_terminal", return_value=True):
        result = cuttings("find", "--plain", ledger=ledger)
    assert result.code == 130
    assert "nothing was recorded" in result.err
    assert (ledger / "ledger.jsonl").read_bytes() == before


def test_help_and_version_end_well(tmp_path: Path) -> None:
    for words in (("--help",), ("find", "--help"), ("sites", "add", "--help"), ("--version",)):
        assert cuttings(*words, ledger=tmp_path).code == 0


def _all_commands() -> Callable[[], list[str]]:
    from cuttings.app import COMMANDS

    return lambda: list(COMMANDS)


@pytest.mark.parametrize("command", _all_commands()())
def test_every_command_explains_itself(command: str, tmp_path: Path) -> None:
    result: Result = cuttings(command, "--help", ledger=tmp_path)
    assert result.code == 0
    for option in ("--ledger", "--json", "--on", "--who", "--why", "--plain"):
        assert option in result.out


def test_a_day_still_to_come_is_recorded_with_a_warning(ledger: Path) -> None:
    tomorrow = (MAY + timedelta(days=1)).isoformat()
    result = recorded("find", "red currant", "--method", "tip-layer", "--on", tomorrow, ledger=ledger)
    assert "still to come" in result.err
