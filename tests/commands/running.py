"""The program as a script sees it: words in; an exit code, a text and a document out."""

import io
import json
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from datetime import date
from pathlib import Path
from types import SimpleNamespace
from typing import Any
from unittest.mock import patch

from attrs import frozen

from cuttings.app import run
from cuttings.commands import desk
from cuttings.ledger.store import FILE

MAY = date(2026, 5, 2)
"""The day it is in these tests: a Saturday."""

UNWANTED = ("CUTTINGS_LEDGER", "CUTTINGS_WHO", "NO_COLOR", "FORCE_COLOR", "COLUMNS", "TERM")


@frozen
class Result:
    """What a command line came to."""

    code: int
    out: str
    err: str

    @property
    def document(self) -> dict[str, Any]:
        """Standard output as the one JSON document it must be."""
        document = json.loads(self.out)
        assert isinstance(document, dict)
        return document

    @property
    def lot(self) -> str:
        """The code of the lot in the answer."""
        code = self.document["lot"]
        assert isinstance(code, str)
        return code

    @property
    def stages(self) -> dict[str, int]:
        """The stages in the answer, without those that hold nothing."""
        return {stage: count for stage, count in self.document["stages"].items() if count}


def cuttings(
    *words: str,
    ledger: Path | None,
    today: date = MAY,
    encoding: str = "utf-8",
    env: Mapping[str, str] | None = None,
) -> Result:
    """Run a command line in this process, at no terminal, on a day of one's own."""
    out, err = _stream(encoding), _stream(encoding)
    named = [] if ledger is None else ["--ledger", str(ledger)]
    with (
        _environment(env or {}),
        patch.object(desk, "date", _day_that_is(today)),
        patch("sys.stdin", io.StringIO()),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        code = run([*named, *words])
    return Result(code, _text(out), _text(err))


def recorded(*words: str, ledger: Path, today: date = MAY) -> Result:
    """Run a command line that must succeed, with ``--json``."""
    result = cuttings(*words, "--json", ledger=ledger, today=today)
    assert result.code == 0, result.err
    return result


def spawned(*words: str, ledger: Path, env: Mapping[str, str] | None = None) -> Result:
    """Run a command line in a process of its own."""
    kept = {name: value for name, value in os.environ.items() if name not in UNWANTED}
    ended = subprocess.run(
        [sys.executable, "-m", "cuttings", "--ledger", str(ledger), *words],
        env={**kept, "PYTHONIOENCODING": "utf-8", **(env or {})},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    return Result(ended.returncode, ended.stdout, ended.stderr)


def demo_garden(folder: Path, today: date = MAY) -> Path:
    """The demo garden as it stands on a day, in a folder."""
    result = cuttings("demo", "--keep", str(folder), "--json", ledger=None, today=today)
    assert result.code == 0, result.err
    assert (folder / FILE).exists()
    return folder


@contextmanager
def _environment(wanted: Mapping[str, str]) -> Iterator[None]:
    with patch.dict(os.environ, wanted):
        for name in UNWANTED:
            if name not in wanted:
                os.environ.pop(name, None)
        yield


def _day_that_is(today: date) -> SimpleNamespace:
    return SimpleNamespace(today=lambda: today)


def _stream(encoding: str) -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="")


def _text(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()
