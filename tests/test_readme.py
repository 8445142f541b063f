"""The README's session is what the program really says."""

import contextlib
import io
import re
import shlex
from datetime import date
from pathlib import Path

import pytest
from freezegun import freeze_time

from cuttings.app import run
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.ledger.store import Ledger

README = Path(__file__).parents[1] / "README.md"


def session() -> list[tuple[str, str]]:
    """Each command of the README's session with the answer printed under it."""
    text = README.read_text(encoding="utf-8")
    block = re.search(r"^```console\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    assert block is not None
    parts = re.split(r"^\$ cuttings (.*)\n", block[1], flags=re.MULTILINE)[1:]
    return list(zip(parts[::2], parts[1::2], strict=True))


@freeze_time("2026-09-20")
def test_the_session_in_the_readme_is_real(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CUTTINGS_LEDGER", str(tmp_path))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    Ledger(tmp_path).record(lambda _, __: quarry_bank(date(2026, 4, 5)))
    told = session()
    assert len(told) >= 5
    for line, answer in told:
        out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
        with contextlib.redirect_stdout(out):
            assert run(shlex.split(line)) == 0
        out.flush()
        said = out.buffer.getvalue().decode()
        assert said.strip() == answer.strip(), line
