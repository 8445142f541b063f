"""Options that may stand before or after any command."""

import shutil
from pathlib import Path

import pytest

from tests.commands.expecting import LOOKING, begun
from tests.commands.running import cuttings


@pytest.mark.parametrize(
    "words",
    [
        ("find", "red currant", "--method", "tip-layer"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "5"),
        ("layer", "red currant", "--how", "simple"),
        ("divide", "Siberian iris", "--pieces", "3"),
        ("mark", "snowdrop", "--for", "lift"),
        ("check", "26-001", "--not-yet", "1"),
        ("pot", "26-001", "--pot", "4in"),
        ("harden", "26-001", "--start"),
        ("plant", "26-001", "--count", "1", "--site", "gate bed"),
        ("give", "26-001", "--count", "1"),
        ("sell", "26-001", "--count", "1"),
        ("lose", "26-001", "--count", "1", "--stage", "waiting", "--cause", "rot"),
        ("undo",),
        ("note", "26-001", "slow to start"),
        ("labels", "26-001", "--written"),
        ("sites", "add", "new bed", "--area", "gate strip", "--light", "shade"),
        ("sites", "growing", "gate bed", "red currant", "--at", "1,1"),
        ("garden", "--zone", "6a"),
        ("pots", "add", "4in", "--count", "5"),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_global_options_stand_before_or_after_a_recording_command(
    words: tuple[str, ...], ledger: Path, tmp_path: Path
) -> None:
    lot = begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    twin = Path(shutil.copytree(ledger, tmp_path / "twin"))
    options = ("--json", "--on", "2026-05-02", "--who", "M.", "--why", "--plain")
    before = cuttings(*options, *words, ledger=ledger)
    after = cuttings(*words, *options, "--ledger", str(twin), ledger=None)
    assert before.code == after.code == 0, before.err + after.err
    assert before.document.keys() == after.document.keys()
    assert before.document["schema"] == 1
    assert before.document.get("stages") == after.document.get("stages")
    for folder in (ledger, twin):
        line = (folder / "ledger.jsonl").read_text(encoding="utf-8").splitlines()[-1]
        assert '"who":"M."' in line
        assert '"on":"2026-05-02"' in line
    assert lot == "26-001"


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_global_options_stand_before_or_after_a_looking_command(words: tuple[str, ...], demo: Path) -> None:
    options = ("--json", "--on", "2026-05-02", "--who", "M.", "--why", "--plain")
    before = cuttings(*options, *words, ledger=demo)
    after = cuttings(*words, *options, "--ledger", str(demo), ledger=None)
    assert before.code == after.code == 0
    assert before.document == after.document
    assert before.document["schema"] == 1
    assert cuttings(*words, ledger=None, env={"CUTTINGS_LEDGER": str(demo)}).code == 0


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_looking_writes_nothing_and_says_nothing_on_stderr(words: tuple[str, ...], demo: Path) -> None:
    """But for the numbers of the week's sheet, which are kept once it was shown and then stay."""
    if words in (("week",), ()):
        cuttings(*words, ledger=demo)
    before = {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()}
    for options in ((), ("--plain",), ("--json",), ("--why",)):
        result = cuttings(*words, *options, ledger=demo)
        assert (result.code, result.err) == (0, "")
        assert result.out.strip()
    assert {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()} == before


def test_why_shows_sources_that_are_otherwise_left_out(demo: Path) -> None:
    plain, why = (cuttings("week", *more, ledger=demo).out for more in ((), ("--why",)))
    assert "common practice" not in plain
    assert "common practice" in why


def test_plain_is_one_thing_a_line_without_colour(demo: Path) -> None:
    out = cuttings("lots", "--plain", ledger=demo, env={"FORCE_COLOR": "1"}).out
    assert "\x1b" not in out
    assert sum(line.startswith(("24-", "25-", "26-")) for line in out.splitlines()) == len(
        cuttings("lots", "--json", ledger=demo).document["lots"]
    )
