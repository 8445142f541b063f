"""The ledger's folder and file: what is recorded stays, what is damaged is named, nothing is rewritten."""

import json
import math
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from attrs import evolve

from cuttings.errors import Misused, Refused
from cuttings.ledger import codec, journal, store
from cuttings.ledger import entries as e
from cuttings.ledger.codec import Document
from cuttings.ledger.journal import TABLE, Journal, to_line
from cuttings.ledger.store import Ledger
from cuttings.words import Stage
from tests.ledger.making import found, made, moved

CODES = ("26-001", "26-002", "26-003")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Where a ledger may be, in a folder that is not there yet."""
    return tmp_path / "garden" / "ledger"


@pytest.fixture
def file(folder: Path) -> Path:
    """The file of a ledger that holds three lots, on lines 2 to 4."""
    for code in CODES:
        record(Ledger(folder), found(code))
    return folder / "ledger.jsonl"


def record(ledger: Ledger, *entries: e.Entry) -> None:
    ledger.record(lambda _book, _stamp: entries)


def lots_in(folder: Path) -> tuple[str, ...]:
    """The lots that a ledger opened afresh finds."""
    return tuple(Ledger(folder).book().lots)


def change_line(file: Path, number: int, old: bytes, new: bytes) -> None:
    lines = file.read_bytes().split(b"\n")
    assert old in lines[number - 1]
    lines[number - 1] = lines[number - 1].replace(old, new)
    file.write_bytes(b"\n".join(lines))


def backups(folder: Path, what: str) -> list[bytes]:
    return [path.read_bytes() for path in sorted((folder / "backups").glob(f"{what}-*"))]


# First use


def test_a_ledger_nobody_wrote_to_is_empty_and_makes_no_folder(folder: Path) -> None:
    ledger = Ledger(folder)
    assert not ledger.book().entries
    assert not ledger.damage
    assert not folder.exists()


def test_the_folder_is_made_with_the_first_entry(folder: Path) -> None:
    record(Ledger(folder), found())
    assert lots_in(folder) == ("26-001",)


def test_the_file_is_one_readable_document_a_line(folder: Path) -> None:
    record(Ledger(folder), evolve(found(), called="röte Ribes 🌱"), made(e.Note, lot="26-001", note="a\nb"))
    text = (folder / "ledger.jsonl").read_text(encoding="utf-8")
    header, find, note = (json.loads(line) for line in text.removesuffix("\n").split("\n"))
    assert (header["ledger"], header["schema"]) == ("cuttings", codec.SCHEMA)
    assert list(find)[:2] == ["on", "kind"]
    assert (find["on"], find["kind"], find["moves"]) == ("2026-05-01", "find", [[3, None, "waiting"]])
    assert note["note"] == "a\nb"
    assert "röte Ribes 🌱" in text
    assert text.endswith("\n")


def test_recording_returns_the_book_as_it_will_be_read(folder: Path) -> None:
    entry = found()
    book, entries = Ledger(folder).record(lambda _book, _stamp: [entry])
    assert entries == (entry,)
    assert book == Ledger(folder).book()


def test_several_entries_are_recorded_together(folder: Path) -> None:
    record(Ledger(folder), *(found(code) for code in CODES))
    assert lots_in(folder) == CODES


def test_recording_nothing_writes_nothing(folder: Path) -> None:
    record(Ledger(folder))
    assert not (folder / "ledger.jsonl").exists()


def test_ids_rise_past_the_newest_entry_even_one_from_the_future(folder: Path) -> None:
    ahead = evolve(found(), id="29990101-000000000-0000000000")
    record(Ledger(folder), ahead)
    _, entries = Ledger(folder).record(lambda _book, stamp: [evolve(found(c), id=stamp()) for c in CODES[1:]])
    ids = [ahead.id, *(entry.id for entry in entries)]
    assert ids == sorted(set(ids))


# What is refused leaves the file as it was


def test_an_entry_that_does_not_fit_is_not_written(file: Path) -> None:
    before = file.read_bytes()
    with pytest.raises(Refused, match="holds 3 waiting, so 9 cannot come out"):
        record(Ledger(file.parent), found("26-004"), moved(e.Give, 9, Stage.WAITING, Stage.GIVEN))
    assert file.read_bytes() == before


@pytest.mark.parametrize("price", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_none_is_not_written(file: Path, price: float) -> None:
    before = file.read_bytes()
    ledger = Ledger(file.parent)
    with pytest.raises(Misused, match="not JSON compliant"):
        record(ledger, found("26-004"), moved(e.Sell, 1, Stage.WAITING, Stage.SOLD, price=price))
    assert file.read_bytes() == before
    record(ledger, found("26-004"))
    assert lots_in(file.parent) == (*CODES, "26-004")


def test_a_change_of_mind_while_deciding_writes_nothing_and_frees_the_lock(file: Path) -> None:
    before = file.read_bytes()

    def think_better(_book: object, _stamp: object) -> list[e.Entry]:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        Ledger(file.parent).record(think_better)
    assert file.read_bytes() == before
    record(Ledger(file.parent, patience_s=0.1), found("26-004"))


def test_the_storage_adds_what_is_new(file: Path) -> None:
    storage = Journal(file)
    data = storage.read()
    assert data is not None
    storage.write({TABLE: {**data[TABLE], "5": codec.to_document(found("26-004"))}})
    assert lots_in(file.parent) == (*CODES, "26-004")


def test_the_storage_refuses_to_remove_a_document(file: Path) -> None:
    before, storage = file.read_bytes(), Journal(file)
    data = storage.read()
    assert data is not None
    del data[TABLE]["3"]
    with pytest.raises(ValueError, match="only grows"):
        storage.write(data)
    with pytest.raises(ValueError, match="only grows"):
        storage.write({})
    assert file.read_bytes() == before


def test_the_storage_refuses_to_change_a_document(file: Path) -> None:
    before, storage = file.read_bytes(), Journal(file)
    data = storage.read()
    assert data is not None
    data[TABLE]["3"] = {**data[TABLE]["3"], "plant": "Buxus"}
    with pytest.raises(ValueError, match="only grows"):
        storage.write(data)
    assert file.read_bytes() == before


# Two at once


def test_a_second_ledger_sees_what_the_first_recorded(folder: Path) -> None:
    one, two = Ledger(folder), Ledger(folder)
    for writer, reader, code in ((one, two, "26-001"), (two, one, "26-002"), (one, two, "26-003")):
        record(writer, found(code))
        assert code in reader.book().lots
    assert one.book() == two.book() == Ledger(folder).book()


_HOLD = """
import sys
from pathlib import Path
from cuttings.ledger.store import Ledger

def wait(book, stamp):
    print("holding", flush=True)
    sys.stdin.readline()
    return ()

Ledger(Path(sys.argv[1]), who="M.").record(wait)
"""


@contextmanager
def held_by_another(folder: Path) -> Iterator[int]:
    """Another process in the middle of recording; its number."""
    with subprocess.Popen(
        [sys.executable, "-c", _HOLD, str(folder)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "holding\n"
        yield other.pid
        other.communicate("\n", timeout=30)
    assert other.returncode == 0


def test_while_another_process_records_one_is_told_who_and_nothing_is_written(file: Path) -> None:
    before, ledger = file.read_bytes(), Ledger(file.parent, patience_s=0.2)
    with held_by_another(file.parent) as process:
        with pytest.raises(Refused, match=rf"Nothing was recorded: M\. \(process {process} on .* since"):
            record(ledger, found("26-004"))
        assert tuple(ledger.book().lots) == CODES  # reading waits for nobody
        assert file.read_bytes() == before
    record(ledger, found("26-004"))
    assert lots_in(file.parent) == (*CODES, "26-004")


def test_a_nameless_holder_is_still_told_of(file: Path) -> None:
    with held_by_another(file.parent):
        (file.parent / "ledger.holder").write_text("?", encoding="utf-8")
        with pytest.raises(Refused, match="another terminal is writing to this ledger; try again"):
            record(Ledger(file.parent, patience_s=0.2), found("26-004"))


def test_a_holder_note_left_by_a_crash_is_in_nobodys_way(file: Path) -> None:
    (file.parent / "ledger.holder").write_text('{"who": "R."}', encoding="utf-8")
    record(Ledger(file.parent, patience_s=0.2), found("26-004"))
    assert not (file.parent / "ledger.holder").exists()


# A file replaced under us


def test_a_file_put_back_from_a_copy_is_read_again(file: Path) -> None:
    ledger, copy = Ledger(file.parent), file.read_bytes()
    record(ledger, found("26-004"))
    fresh = file.with_suffix(".copy")
    fresh.write_bytes(copy)
    fresh.replace(file)
    assert tuple(ledger.book().lots) == CODES
    record(ledger, found("26-005"))
    assert lots_in(file.parent) == (*CODES, "26-005")


@pytest.mark.parametrize("in_place", [True, False])
def test_another_ledgers_longer_file_in_its_place_is_read_again(
    file: Path, tmp_path: Path, in_place: bool
) -> None:
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == CODES
    record(Ledger(tmp_path / "other"), *(found(f"25-{i:03d}") for i in range(1, 8)))
    other = tmp_path / "other" / "ledger.jsonl"
    if in_place:
        file.write_bytes(other.read_bytes())
    else:
        other.replace(file)
    assert ledger.book() == Ledger(file.parent).book()
    assert not ledger.damage
    record(ledger, found("26-009"))
    assert len(lots_in(file.parent)) == 8


def test_lines_that_moved_up_when_another_mended_are_read_again(file: Path) -> None:
    change_line(file, 3, b"red", b"rad")
    ledger, other = Ledger(file.parent), Ledger(file.parent)
    assert tuple(ledger.book().lots) == ("26-001", "26-003")
    other.mend()
    record(other, found("26-004"))
    record(other, found("26-005"))
    assert tuple(ledger.book().lots) == ("26-001", "26-003", "26-004", "26-005")


def test_a_file_taken_away_is_an_empty_ledger(file: Path) -> None:
    ledger = Ledger(file.parent)
    assert ledger.book().lots
    file.unlink()
    assert not ledger.book().lots
    record(ledger, found("26-009"))
    assert lots_in(file.parent) == ("26-009",)


# A torn last line


def last_line_at(file: Path) -> int:
    return file.read_bytes().rindex(b"\n", 0, -1) + 1


def test_wherever_the_last_line_is_torn_the_rest_is_there_and_recording_goes_on(
    file: Path, tmp_path: Path
) -> None:
    whole, start = file.read_bytes(), last_line_at(file)
    for cut in range(start, len(whole) - 1):  # a line that lacks only its newline is whole, see below
        folder = tmp_path / f"torn-{cut}"
        folder.mkdir()
        (folder / "ledger.jsonl").write_bytes(whole[:cut])
        ledger = Ledger(folder)
        assert tuple(ledger.book().lots) == CODES[:2]
        assert not ledger.damage
        record(ledger, found("26-009"))
        assert lots_in(folder) == (*CODES[:2], "26-009")
        assert not Ledger(folder).damage
        assert backups(folder, "torn-line") == ([whole[start:cut]] if cut > start else [])


def test_wherever_the_very_first_writing_is_torn_recording_begins_anew(tmp_path: Path) -> None:
    record(Ledger(tmp_path / "first"), found("26-001"))
    whole = (tmp_path / "first" / "ledger.jsonl").read_bytes()
    for cut in range(0, len(whole) - 1, 3):
        folder = tmp_path / f"torn-{cut}"
        folder.mkdir()
        (folder / "ledger.jsonl").write_bytes(whole[:cut])
        ledger = Ledger(folder)
        assert not ledger.book().lots
        record(ledger, found("26-009"))
        assert lots_in(folder) == ("26-009",)
        assert not Ledger(folder).damage
        header = json.loads((folder / "ledger.jsonl").read_bytes().split(b"\n")[0])
        assert header["ledger"] == "cuttings"


def test_a_last_line_without_its_newline_is_whole_and_recording_goes_on(file: Path) -> None:
    file.write_bytes(file.read_bytes().removesuffix(b"\n"))
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == CODES
    record(ledger, found("26-004"))
    record(ledger, found("26-005"))
    assert tuple(ledger.book().lots) == lots_in(file.parent) == (*CODES, "26-004", "26-005")
    assert not Ledger(file.parent).damage
    assert not backups(file.parent, "torn-line")


def test_a_line_read_while_another_writes_its_newline_is_read_once(file: Path) -> None:
    whole, start = file.read_bytes(), last_line_at(file)
    ledger = Ledger(file.parent)
    for cut in (start, start + 9, len(whole) - 1, len(whole)):
        file.write_bytes(whole[:cut])
        assert tuple(ledger.book().lots) == (CODES if cut >= len(whole) - 1 else CODES[:2])
        assert not ledger.damage


# Damage


@pytest.mark.parametrize("number", [2, 3, 4])
def test_a_damaged_line_is_named_and_the_others_are_read(file: Path, number: int) -> None:
    change_line(file, number, b"red", b"rad")
    ledger = Ledger(file.parent)
    kept = tuple(code for i, code in enumerate(CODES, 2) if i != number)
    assert tuple(ledger.book().lots) == kept
    (damage,) = ledger.damage
    assert damage.line == number
    assert damage.why == "it does not fit its checksum"
    assert "rad currant" in damage.text


def test_a_damaged_ledger_refuses_to_record_and_says_what_to_do(file: Path) -> None:
    change_line(file, 3, b"red", b"rad")
    before = file.read_bytes()
    with pytest.raises(Refused) as refusal:
        record(Ledger(file.parent), found("26-004"))
    assert refusal.value.sentence == (
        f"Nothing was recorded: line 3 of {file} is damaged; run 'cuttings tally --mend', "
        "which keeps a copy and sets the damage aside."
    )
    assert file.read_bytes() == before


def test_mending_keeps_a_copy_and_the_sound_lines(file: Path) -> None:
    change_line(file, 3, b"red", b"rad")
    before = file.read_bytes()
    ledger = Ledger(file.parent)
    assert [damage.line for damage in ledger.mend()] == [3]
    assert backups(file.parent, "ledger") == [before]
    assert not ledger.damage
    record(ledger, found("26-004"))
    assert tuple(ledger.book().lots) == lots_in(file.parent) == ("26-001", "26-003", "26-004")


def test_mending_a_sound_ledger_changes_nothing(file: Path) -> None:
    before = file.read_bytes()
    assert Ledger(file.parent).mend() == ()
    assert file.read_bytes() == before
    assert not (file.parent / "backups").exists()


def test_damage_put_right_by_hand_is_damage_no_more(file: Path) -> None:
    change_line(file, 3, b"red", b"rad")
    ledger = Ledger(file.parent)
    assert len(ledger.book().lots) == 2
    change_line(file, 3, b"rad", b"red")
    record(ledger, found("26-004"))
    assert tuple(ledger.book().lots) == (*CODES, "26-004")


def test_mending_does_not_set_aside_what_was_put_right_by_hand(file: Path) -> None:
    change_line(file, 3, b"red", b"rad")
    ledger = Ledger(file.parent)
    assert ledger.book().lots
    change_line(file, 3, b"rad", b"red")
    assert ledger.mend() == ()
    assert lots_in(file.parent) == CODES


@pytest.mark.parametrize(
    "rubbish", [b"\n", b"hello\n", b"\x00\xff\xfe\n", b'{"on":"2026-05-01"}\n', b"\x00" * 99]
)
def test_rubbish_after_the_last_line_harms_nothing(file: Path, rubbish: bytes) -> None:
    with file.open("ab") as end:
        end.write(rubbish)
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == CODES
    assert [damage.line for damage in ledger.damage] == ([5] if rubbish.endswith(b"\n") else [])
    ledger.mend()
    record(ledger, found("26-004"))
    assert lots_in(file.parent) == (*CODES, "26-004")
    assert not Ledger(file.parent).damage
    assert any(rubbish in kept for what in ("ledger", "torn-line") for kept in backups(file.parent, what))


def test_a_sound_line_that_is_no_entry_is_named_and_set_aside(file: Path) -> None:
    with file.open("ab") as end:
        end.write(to_line({"on": "2026-05-01", "kind": "dance", "id": "x"}))
        end.write(to_line({"on": "2026-05-01", "kind": "note", "id": "y", "lot": "26-001", "colour": "red"}))
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == CODES
    assert [damage.line for damage in ledger.damage] == [5, 6]
    assert "no kind of entry is called 'dance'" in ledger.damage[0].why
    with pytest.raises(Refused, match="line 5, 6 of"):
        record(ledger, found("26-004"))
    ledger.mend()
    record(ledger, found("26-004"))
    assert lots_in(file.parent) == (*CODES, "26-004")


def test_a_damaged_first_line_is_named_and_the_entries_are_read(file: Path) -> None:
    change_line(file, 1, b"cuttings", b"cuttingz")
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == CODES
    assert [damage.line for damage in ledger.damage] == [1]
    ledger.mend()
    record(ledger, found("26-004"))
    assert lots_in(file.parent) == (*CODES, "26-004")


def test_two_lines_run_together_are_damage_and_the_rest_is_read(file: Path) -> None:
    lines = file.read_bytes().split(b"\n")
    file.write_bytes(b"\n".join([lines[0], lines[1] + lines[2], *lines[3:]]))
    ledger = Ledger(file.parent)
    assert tuple(ledger.book().lots) == ("26-003",)
    assert [damage.line for damage in ledger.damage] == [2]


def test_every_flipped_bit_of_the_file_is_seen_or_means_the_same(file: Path) -> None:
    """Each entry that is read is one that was written, and none is missing without a word.

    But for the very last byte: a last line whose newline became something else looks like a torn one.
    """
    whole = file.read_bytes()
    written = {to_line(codec.to_document(entry)) for entry in Ledger(file.parent).book().entries}
    for at in range(len(whole)):
        changed = bytearray(whole)
        changed[at] ^= 1 << at % 8
        file.write_bytes(changed)
        ledger = Ledger(file.parent)
        read = {to_line(codec.to_document(entry)) for entry in ledger.book().entries}
        assert read <= written
        assert read == written or ledger.damage or at == len(whole) - 1


# Schema versions


def set_schema(monkeypatch: pytest.MonkeyPatch, version: int) -> None:
    for module in (codec, journal, store):
        monkeypatch.setattr(module, "SCHEMA", version)


def test_a_ledger_of_a_newer_program_is_left_alone_and_says_so(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = codec.SCHEMA
    set_schema(monkeypatch, now + 1)
    folder = file.parent / "newer"
    record(Ledger(folder), found())
    before = (folder / "ledger.jsonl").read_bytes()
    set_schema(monkeypatch, now)
    ledger = Ledger(folder)
    for _ in range(2):  # the second look must not be kinder than the first
        with pytest.raises(
            Refused, match=rf"newer version of this program \(schema {now + 1}; this one reads up to {now}"
        ):
            ledger.book()
        with pytest.raises(Refused, match="update the program"):
            record(ledger, found("26-002"))
        with pytest.raises(Refused, match="update the program"):
            ledger.mend()
    assert (folder / "ledger.jsonl").read_bytes() == before


@pytest.fixture
def upgrading(file: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A ledger of today's schema under a program two versions on, each step of which leaves a trace."""

    def noted(step: str) -> Callable[[Document], Document]:
        return lambda document: {**document, "note": document.get("note", "") + step}

    now = codec.SCHEMA
    set_schema(monkeypatch, now + 2)
    monkeypatch.setattr(codec, "UPGRADES", {now: noted("a"), now + 1: noted("b")})
    return file


def test_an_older_ledger_is_read_through_every_upgrade_and_not_touched(upgrading: Path) -> None:
    before = upgrading.read_bytes()
    book = Ledger(upgrading.parent).book()
    assert [entry.note for entry in book.entries if isinstance(entry, e.Find)] == ["ab"] * 3
    assert upgrading.read_bytes() == before


def test_an_older_ledger_is_rewritten_at_the_next_recording_and_a_copy_kept(upgrading: Path) -> None:
    before, ledger = upgrading.read_bytes(), Ledger(upgrading.parent)
    record(ledger, evolve(found("26-004"), note="new"))
    record(ledger, evolve(found("26-005"), note="new"))
    for book in (ledger.book(), Ledger(upgrading.parent).book()):
        notes = [entry.note for entry in book.entries if isinstance(entry, e.Find)]
        assert notes == ["ab", "ab", "ab", "new", "new"]
    assert json.loads(upgrading.read_bytes().split(b"\n")[0])["schema"] == codec.SCHEMA
    assert backups(upgrading.parent, "ledger") == [before]


def test_an_upgrade_cut_short_leaves_the_old_file(upgrading: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = upgrading.read_bytes()

    def fail(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail)
        with pytest.raises(Refused, match=r"Nothing was changed: .* \(No space left on device\); make room"):
            record(Ledger(upgrading.parent), found("26-004"))
    assert upgrading.read_bytes() == before
    assert not upgrading.with_suffix(".new").exists()
    record(Ledger(upgrading.parent), found("26-004"))
    assert lots_in(upgrading.parent) == (*CODES, "26-004")


def test_a_ledger_of_the_first_schema_is_read_as_it_is(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_schema(monkeypatch, 1)
    record(Ledger(folder), found(), made(e.Note, lot="26-001", note="written by the first version"))
    monkeypatch.undo()
    record(Ledger(folder), found("26-002"))
    assert lots_in(folder) == ("26-001", "26-002")
    assert json.loads((folder / "ledger.jsonl").read_bytes().split(b"\n")[0])["schema"] == codec.SCHEMA
    assert len(backups(folder, "ledger")) == 1


# What lies beside the ledger


def test_what_is_kept_beside_comes_back_and_what_it_replaces_goes_to_the_backups(folder: Path) -> None:
    ledger = Ledger(folder)
    assert ledger.beside("climate.days") is None
    ledger.keep_beside({"climate.days": b"first", "climate.json": b"{}"})
    ledger.keep_beside({"climate.days": b"second", "climate.json": b"{}"})
    assert ledger.beside("climate.days") == b"second"
    assert [path.read_bytes() for path in (folder / "backups").glob("climate-*.days")] == [b"first"]
    ledger.keep_beside({"climate.days": None})
    assert ledger.beside("climate.days") is None
    assert ledger.beside("climate.json") == b"{}"
    assert not list(folder.glob("*.new"))


def test_a_full_disk_leaves_what_was_kept_beside(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ledger = Ledger(folder)
    ledger.keep_beside({"climate.days": b"first"})

    def fail(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail)
        with pytest.raises(Refused, match=r"Nothing was kept: .* \(No space left on device\); make room"):
            ledger.keep_beside({"climate.days": b"second"})
    assert ledger.beside("climate.days") == b"first"


# A disk that fails


def test_an_entry_that_could_not_be_synced_was_not_recorded(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, ledger = file.read_bytes(), Ledger(file.parent)

    def fail(_handle: int) -> None:
        raise OSError(5, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail)
        with pytest.raises(Refused, match=r"Nothing was recorded: .* \(Input/output error\)"):
            record(ledger, found("26-004"))
    assert file.read_bytes() == before
    record(ledger, found("26-005"))
    assert lots_in(file.parent) == (*CODES, "26-005")


def test_an_entry_is_synced_before_it_counts_as_recorded(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    synced: list[int] = []
    real = os.fsync

    def watch(handle: int) -> None:
        real(handle)
        synced.append(os.fstat(handle).st_size)

    monkeypatch.setattr(os, "fsync", watch)
    record(Ledger(file.parent), found("26-004"))
    assert synced == [file.stat().st_size]
