"""What a plain `cuttings week` loads: the parts it needs, and nothing heavy."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.commands.running import demo_garden

LOOK = """
import json, sys
before = set(sys.modules)
from cuttings.app import run
code = run(sys.argv[1:])
loaded = {name.split(".")[0] for name in set(sys.modules) - before}
third = [name for name in loaded if "site-packages" in (getattr(sys.modules.get(name), "__file__", "") or "")]
sys.stderr.write(json.dumps({"code": code, "loaded": sorted(loaded), "third": sorted(third)}))
"""

NEVER = {"scipy", "numpy", "pandas", "questionary", "prompt_toolkit", "filelock", "rapidfuzz", "astral",
         "pygments", "markdown_it", "fpdf", "icalendar", "segno", "asyncio", "socket"}  # fmt: skip
"""Too heavy, or of no use, where nothing is asked, recorded or drawn."""

ALLOWED = {"attr", "attrs", "cattr", "cattrs", "click", "rich", "tinydb", "typing_extensions"}
"""The libraries that looking may load."""


def loaded_by(*words: str, ledger: Path) -> dict[str, Any]:
    ended = subprocess.run(
        [sys.executable, "-c", LOOK, "--ledger", str(ledger), *words],
        env={name: value for name, value in os.environ.items() if not name.startswith(("COV", "CUTTINGS"))},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=True,
    )
    report: dict[str, Any] = json.loads(ended.stderr)
    assert report["code"] == 0
    return report


@pytest.fixture(scope="module")
def ledger(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("imports") / "demo")


@pytest.mark.parametrize("words", [("week",), ("week", "--json"), ("lots",), ("card", "25-001"), ("tally",)])
def test_looking_loads_nothing_heavy(words: tuple[str, ...], ledger: Path) -> None:
    report = loaded_by(*words, "--on", "2026-05-02", ledger=ledger)
    assert not NEVER & set(report["loaded"])
    assert set(report["third"]) <= ALLOWED


def test_a_document_is_told_without_the_library_for_pages(ledger: Path) -> None:
    report = loaded_by("tally", "--json", ledger=ledger)
    assert "tinydb" in report["third"]
    assert "questionary" not in report["loaded"]
