"""Whatever the terminal speaks, and whatever was typed."""

import os
import shlex
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from rich.cells import cell_len

from tests.commands.expecting import LOOKING, begun, refused
from tests.commands.running import cuttings, recorded


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_every_screen_fits_every_width(words: tuple[str, ...], demo: Path) -> None:
    for width in (40, 61, 80, 200):
        out = cuttings(*words, ledger=demo, env={"COLUMNS": str(width)}).out
        assert max(map(cell_len, out.splitlines())) <= width


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_every_answer_has_an_ascii_twin(words: tuple[str, ...], demo: Path) -> None:
    recorded("find", "rosemary 'Été' ×", "--method", "tip-layer", "--where", "紅 corner", ledger=demo)
    for more in ((), ("--plain",), ("--why",), ("--json",)):
        result = cuttings(*words, *more, ledger=demo, encoding="ascii")
        assert result.code == 0
        assert result.out.isascii()


def test_a_document_is_the_same_whatever_the_terminal_speaks(demo: Path) -> None:
    recorded("find", "rosemary 'Été'", "--method", "tip-layer", "--where", "紅 corner", ledger=demo)
    spoken = [cuttings("lots", "--json", ledger=demo, encoding=name).document for name in ("utf-8", "ascii")]
    assert spoken[0] == spoken[1]
    assert "紅 corner" in {lot["where"] for lot in spoken[0]["lots"]}


def test_what_was_typed_is_never_markup_or_an_escape_code(ledger: Path) -> None:
    typed = "[bold red]Ribes[/] \x1b[31m\x07\u202egone \r\nnext"
    words = (
        "find",
        "red currant",
        "--method",
        "tip-layer",
        "--where",
        typed,
        "--mother",
        typed,
        "--note",
        typed,
    )
    first = cuttings(*words, ledger=ledger)
    lot = cuttings("lots", "--json", ledger=ledger).document["lots"][0]["lot"]
    recorded("note", lot, typed, ledger=ledger)
    shown = [first] + [
        cuttings(*look, *more, ledger=ledger)
        for look in (
            ("lots",),
            ("card", lot),
            ("card", lot, "--trail"),
            ("week",),
            ("lots", "--place", typed),
        )
        for more in ((), ("--plain",))
    ]
    shown += [cuttings("card", typed, ledger=ledger), cuttings("sites", "show", typed, ledger=ledger)]
    for result in shown:
        assert not any(sign in result.out + result.err for sign in "\x1b\x07\u202e\r")
    assert "[bold red]Ribes[/]" in shown[2].out.replace("\n", " ")
    assert cuttings("card", lot, "--json", ledger=ledger).document["where"] == typed.strip()


def test_a_plant_that_died_in_its_place_makes_room(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 2))
    recorded("plant", lot, "--count", "1", "--site", "Gate Bed", "--at", "1,1", ledger=ledger)
    assert len(cuttings("sites", "show", "Gate Bed", "--json", ledger=ledger).document["growing"]) == 1
    words = ("lose", lot, "--count", "1", "--stage", "planted", "--cause", "frost")
    assert recorded(*words, ledger=ledger).stages == {"rooted": 1, "lost": 1}
    assert cuttings("sites", "show", "Gate Bed", "--json", ledger=ledger).document["growing"] == []


def test_an_entry_may_be_taken_back_by_the_end_of_its_id(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2))
    entry = recorded("check", lot, "--rooted", "1", ledger=ledger).document["entry"]
    assert recorded("undo", entry[-6:].upper(), ledger=ledger).stages == {"waiting": 2}
    refused("undo", "2026", ledger=ledger)


def test_an_entry_that_others_rest_on_is_not_taken_back(ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "tip-layer", "--count", "2", ledger=ledger)
    recorded("check", lot.lot, "--rooted", "2", ledger=ledger)
    refused("undo", lot.document["entry"], ledger=ledger)


def test_a_site_described_anew_keeps_its_name_and_what_grows_there(ledger: Path) -> None:
    recorded("sites", "growing", "gate bed", "red currant", "--at", "1,1", ledger=ledger)
    again = ("sites", "add", "GATE BED", "--area", "Gate Strip", "--light", "shade")
    document = recorded(*again, ledger=ledger).document
    assert (document["name"], document["area"], document["light"]) == ("Gate Bed", "gate strip", "shade")
    assert len(document["growing"]) == 1
    assert len(cuttings("sites", "--json", ledger=ledger).document["sites"]) == 2


def _started(words: Sequence[str], ledger: Path, **streams: Any) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "cuttings", "--ledger", str(ledger), *words]
    return subprocess.Popen(command, stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, **streams)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no full device")
@pytest.mark.parametrize("more", [(), ("--json",), ("--plain",)], ids=" ".join)
def test_an_answer_that_cannot_be_shown_is_told_of_in_a_sentence(more: tuple[str, ...], ledger: Path) -> None:
    words = ("find", "red currant", "--method", "tip-layer", *more)
    with Path("/dev/full").open("w") as full, _started(words, ledger, stdout=full) as process:
        _, err = process.communicate(timeout=60)
    assert process.returncode == 1
    assert err.startswith("The answer could not be shown")
    assert err.count("\n") == 1
    assert len(cuttings("lots", "--json", ledger=ledger).document["lots"]) == 1


@pytest.mark.parametrize("more", [(), ("--json",), ("--plain",)], ids=" ".join)
def test_a_reader_that_has_gone_is_no_trouble(more: tuple[str, ...], demo: Path) -> None:
    with _started(("plants", *more), demo, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == ""
    assert process.returncode == 0


@pytest.mark.skipif(os.name == "nt", reason="needs a shell that can close a stream")
def test_closed_streams_never_reach_the_ledger(ledger: Path) -> None:
    command = shlex.join([sys.executable, "-m", "cuttings", "--ledger", str(ledger), "find", "red currant",
                          "--method", "tip-layer"])  # fmt: skip
    done = subprocess.run(["/bin/sh", "-c", f"{command} <&- >&- 2>&-"], timeout=60, check=False)
    assert done.returncode == 0
    tally = cuttings("tally", "--json", ledger=ledger).document
    assert (tally["balanced"], tally["lots"]) == (True, 1)


def test_a_ledger_that_is_no_folder_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("not a ledger", encoding="utf-8")
    for words in (("lots",), ("week",), ("find", "red currant", "--method", "tip-layer")):
        result = cuttings(*words, ledger=file)
        assert (result.code, result.out) == (1, "")
        assert str(file) in result.err
    assert file.read_text(encoding="utf-8") == "not a ledger"
