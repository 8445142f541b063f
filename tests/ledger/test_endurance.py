"""What has been called recorded stays recorded: through kills, a full disk, locked doors and a crowd."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from cuttings.ledger.store import Ledger
from cuttings.ledger.tally import tally
from tests.ledger.child import record_one

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="these processes are forked")
ROOT = Path(__file__).parents[2]


def child(job: str, folder: Path, *numbers: int) -> dict[str, Any]:
    """What another process says of its work in a ledger folder. It must not fail."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.ledger.child", job, str(folder), *map(str, numbers)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert not done.stderr
    answer = json.loads(done.stdout)
    assert isinstance(answer, dict)
    return answer


def ids_in(folder: Path) -> list[str]:
    """The ids in a ledger opened afresh, which must be whole and balanced."""
    ledger = Ledger(folder)
    book = ledger.book()
    assert not ledger.damage
    assert tally(book).balanced
    ids = [entry.id for entry in book.entries]
    assert ids == sorted(set(ids))
    assert len(book.lots) == len(ids)
    return ids


def split_answers(lines: list[str]) -> tuple[list[str], list[str]]:
    """The ids called recorded, and the sentences of refusals."""
    refusals = [line.removeprefix("refused: ") for line in lines if line.startswith("refused: ")]
    return [line for line in lines if not line.startswith("refused: ")], refusals


def assert_one_clear_sentence(refusal: str) -> None:
    assert refusal.startswith("Nothing was ")
    assert refusal.endswith(".")
    assert "\n" not in refusal
    assert "Traceback" not in refusal
    assert "Error" not in refusal


# Killed


@pytest.mark.parametrize("batch", range(5))
def test_nothing_acknowledged_is_lost_to_a_kill(tmp_path: Path, batch: int) -> None:
    acknowledged = child("kill", tmp_path, 20, batch, 0)["acknowledged"]
    assert len(acknowledged) >= 20
    assert set(acknowledged) <= set(ids_in(tmp_path))


@pytest.mark.parametrize("batch", range(5))
def test_nothing_acknowledged_is_lost_to_a_kill_in_the_middle_of_a_line(tmp_path: Path, batch: int) -> None:
    acknowledged = child("kill", tmp_path, 20, batch, 9)["acknowledged"]
    assert len(acknowledged) >= 20
    assert set(acknowledged) <= set(ids_in(tmp_path))
    assert list((tmp_path / "backups").glob("torn-line-*")), "no kill tore a line, so this showed nothing"


# A full disk


def test_a_disk_that_fills_loses_nothing_and_says_so(tmp_path: Path) -> None:
    first = tmp_path / "sizes"
    child("together", first, 1, 2)
    header, one, two = (len(line) for line in (first / "ledger.jsonl").read_bytes().splitlines(keepends=True))
    whole = header + one + two
    edges = {1, header - 1, header, header + 1, header + one, whole}
    answers = child("fill", tmp_path, *sorted({*edges, *range(0, whole + one, 23)}))
    for limit, answer in answers.items():
        folder = tmp_path / limit
        assert answer["exit"] == 0
        recorded, refusals = split_answers(answer["told"])
        assert len(recorded) == max(0, (int(limit) - header) // one)
        assert len(refusals) == 2
        for refusal in refusals:
            assert_one_clear_sentence(refusal)
            assert "cannot be written to (File too large); make room" in refusal
        assert ids_in(folder) == recorded
        after = record_one(Ledger(folder)).id
        assert ids_in(folder) == [*recorded, after]


# Locked doors


@pytest.fixture
def locked(tmp_path: Path) -> Iterator[Path]:
    """A ledger folder with two lots, made writable again in the end."""
    folder = tmp_path / "ledger"
    child("together", folder, 1, 2)
    yield folder
    folder.chmod(0o700)
    for path in folder.iterdir():
        path.chmod(0o600)


def refusal_in(answer: str) -> str:
    """The sentence of what was refused."""
    assert answer.startswith("refused: ")
    sentence = answer.removeprefix("refused: ")
    assert_one_clear_sentence(sentence)
    return sentence


@pytest.mark.parametrize("before_a_lock", [True, False])
def test_a_read_only_folder_is_refused_in_a_sentence_and_still_read(
    locked: Path, before_a_lock: bool
) -> None:
    file, lock = locked / "ledger.jsonl", locked / "ledger.lock"
    lock.touch()
    if before_a_lock:  # as in a copy of the file alone
        lock.unlink()
    before = file.read_bytes()
    file.chmod(0o400)
    locked.chmod(0o500)
    answer = child("try", locked)
    assert answer["lots"] == answer["after"] == ["26-001", "26-002"]
    sentence = refusal_in(answer["recorded"])
    assert "cannot be written to (Permission denied)" in sentence
    assert "give write permission" in sentence
    assert file.read_bytes() == before


def test_a_folder_that_cannot_be_made_is_refused_in_a_sentence(tmp_path: Path) -> None:
    above = tmp_path / "above"
    above.mkdir()
    above.chmod(0o500)
    answer = child("try", above / "ledger")
    above.chmod(0o700)
    assert "Permission denied" in refusal_in(answer["recorded"])
    assert answer["lots"] == []
    assert not list(above.iterdir())


def test_a_ledger_file_without_write_permission_is_refused_in_a_sentence(locked: Path) -> None:
    file = locked / "ledger.jsonl"
    before = file.read_bytes()
    file.chmod(0o400)
    answer = child("try", locked)
    assert f"{file} cannot be written to (Permission denied)" in refusal_in(answer["recorded"])
    assert answer["lots"] == answer["after"] == ["26-001", "26-002"]
    assert file.read_bytes() == before
    file.chmod(0o600)
    child("together", locked, 1, 1)
    assert len(ids_in(locked)) == 3


def test_a_torn_line_in_a_read_only_folder_is_left_where_it_is(locked: Path) -> None:
    file = locked / "ledger.jsonl"
    torn = file.read_bytes()[:-9]
    file.write_bytes(torn)
    locked.chmod(0o500)
    answer = child("try", locked)
    refusal_in(answer["recorded"])
    assert answer["lots"] == answer["after"] == ["26-001"]
    assert file.read_bytes() == torn


def test_a_damaged_ledger_in_a_read_only_folder_cannot_be_mended_and_says_so(locked: Path) -> None:
    file = locked / "ledger.jsonl"
    damaged = file.read_bytes().replace(b"rubrum", b"rubrun", 1)
    file.write_bytes(damaged)
    (locked / "ledger.lock").touch()
    locked.chmod(0o500)
    answer = child("try", locked)
    assert "Permission denied" in refusal_in(answer["mended"])
    assert answer["lots"] == answer["after"] == ["26-002"]
    assert file.read_bytes() == damaged


def test_a_ledger_that_may_not_be_read_is_refused_and_never_taken_for_an_empty_one(locked: Path) -> None:
    file = locked / "ledger.jsonl"
    before = file.read_bytes()
    file.chmod(0o000)
    answer = child("try", locked)
    for what in ("lots", "recorded", "mended", "after"):
        assert answer[what] == f"refused: The ledger {file} cannot be read (Permission denied)."
    assert file.read_bytes() == before


# A crowd


def test_two_processes_at_once_record_every_entry_under_a_code_of_its_own(tmp_path: Path) -> None:
    answer = child("together", tmp_path, 2, 200)
    recorded, refusals = split_answers(answer["told"])
    assert (refusals, answer["exits"]) == ([], [0, 0])
    ids = ids_in(tmp_path)
    assert len(ids) == 400
    assert sorted(recorded) == ids
    book = Ledger(tmp_path).book()
    assert sorted(book.lots) == [f"26-{number:03d}" for number in range(1, 401)]
    assert tally(book).started == 800
