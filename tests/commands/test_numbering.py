"""The numbers on a sheet: they stay as they were shown, whatever becomes of the file that keeps them."""

import json
from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta
from pathlib import Path

import pytest

from cuttings.commands.numbering import FILE, MOST_SHEETS, Found, find, numbers_for
from cuttings.errors import Refused

FIRST, LAST = date(2026, 5, 2), date(2026, 5, 8)
WEEK = timedelta(days=7)


def kept(folder: Path) -> list[dict[str, object]]:
    document = json.loads((folder / FILE).read_text())
    assert document.keys() == {"sheets"}
    sheets: list[dict[str, object]] = document["sheets"]
    return sheets


def test_a_sheet_keeps_its_numbers_and_gives_new_ids_the_next(tmp_path: Path) -> None:
    assert numbers_for(tmp_path, FIRST, LAST, ["a:x", "b:x", "a:x"]) == {"a:x": 1, "b:x": 2}
    assert numbers_for(tmp_path, FIRST, LAST, ["c:x", "b:x"]) == {"a:x": 1, "b:x": 2, "c:x": 3}
    assert numbers_for(tmp_path, FIRST, LAST, []) == {"a:x": 1, "b:x": 2, "c:x": 3}
    assert kept(tmp_path) == [
        {
            "from": "2026-05-02",
            "to": "2026-05-08",
            "outlook": [None, None, None],
            "numbers": {"a:x": 1, "b:x": 2, "c:x": 3},
        }
    ]


def test_other_days_begin_at_one(tmp_path: Path) -> None:
    numbers_for(tmp_path, FIRST, LAST, ["a:x", "b:x"])
    assert numbers_for(tmp_path, FIRST + WEEK, LAST + WEEK, ["b:x"]) == {"b:x": 1}
    assert numbers_for(tmp_path, FIRST, LAST, ["b:x"])["b:x"] == 2


def test_a_longer_sheet_of_the_same_first_day_keeps_the_numbers(tmp_path: Path) -> None:
    numbers_for(tmp_path, FIRST, LAST + WEEK, ["c:x", "b:x"])
    assert numbers_for(tmp_path, FIRST, LAST, ["b:x", "a:x"]) == {"c:x": 1, "b:x": 2, "a:x": 3}
    assert find(tmp_path, "2", first=FIRST).id == "b:x"


def test_on_another_day_a_number_is_that_of_the_sheet_that_holds_it(tmp_path: Path) -> None:
    numbers_for(tmp_path, FIRST, LAST, ["a:x", "b:x"])
    numbers_for(tmp_path, FIRST + WEEK, LAST + WEEK, ["c:x"])
    assert find(tmp_path, "1").id == "c:x"
    assert find(tmp_path, "1", on=LAST).id == "a:x"
    with pytest.raises(Refused, match="has been shown yet"):
        find(tmp_path, "1", on=LAST + 2 * WEEK)


def test_a_number_is_that_of_the_sheet_shown_last_or_of_the_one_named(tmp_path: Path) -> None:
    numbers_for(tmp_path, FIRST, LAST, ["a:x", "b:x"])
    numbers_for(tmp_path, FIRST + WEEK, LAST + WEEK, ["b:x", "c:x"])
    assert find(tmp_path, "1") == Found("b:x", (FIRST + WEEK, LAST + WEEK))
    assert find(tmp_path, " 1 ", FIRST) == Found("a:x", (FIRST, LAST))
    numbers_for(tmp_path, FIRST, LAST, ["a:x"])
    assert find(tmp_path, "2") == Found("b:x", (FIRST, LAST))


def test_an_id_stands_for_itself(tmp_path: Path) -> None:
    assert find(tmp_path, "26-001:feed") == Found("26-001:feed")
    numbers_for(tmp_path, FIRST, LAST, ["26-001:feed"])
    assert find(tmp_path, "26-001:feed") == Found("26-001:feed", (FIRST, LAST))


def test_what_is_not_there_is_refused_with_what_is(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="No sheet has been shown yet; 'cuttings week' shows it"):
        find(tmp_path, "1")
    numbers_for(tmp_path, FIRST, LAST, ["a:x", "b:x"])
    for wrong in ("0", "3", "-1", "one", "", "1.0"):
        with pytest.raises(Refused, match=f"no number '{wrong}' on the sheet from 2 May 2026 to 8 May 2026;"):
            find(tmp_path, wrong)
    with pytest.raises(Refused, match=r"begins on 9 May 2026 .*'cuttings week --from 2026-05-09'"):
        find(tmp_path, "1", FIRST + WEEK)


def test_only_the_newest_sheets_are_remembered(tmp_path: Path) -> None:
    for number in range(MOST_SHEETS + 3):
        numbers_for(tmp_path, FIRST + number * WEEK, LAST + number * WEEK, ["a:x"])
    assert len(kept(tmp_path)) == MOST_SHEETS
    assert kept(tmp_path)[-1]["from"] == (FIRST + (MOST_SHEETS + 2) * WEEK).isoformat()
    with pytest.raises(Refused):
        find(tmp_path, "1", FIRST)


def test_a_folder_that_is_not_there_is_not_made(tmp_path: Path) -> None:
    nowhere = tmp_path / "ledger"
    assert numbers_for(nowhere, FIRST, LAST, ["a:x"]) == {"a:x": 1}
    assert not nowhere.exists()


def test_a_folder_that_cannot_be_written_to_is_no_hindrance(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "write_text", refuse)  # whoever runs the tests may be allowed to write anywhere
    assert numbers_for(tmp_path, FIRST, LAST, ["a:x"]) == {"a:x": 1}
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "damage",
    [b"", b"{", b"\xff\xfe", b"[]", b"null", b'{"sheets": 3}', b'{"sheets": [{}]}',
     b'{"sheets": [{"from": "soon"}]}',
     b'{"sheets": [{"from": "2026-05-02", "to": "2026-05-08", "numbers": [1]}]}'],
)  # fmt: skip
def test_a_damaged_file_is_begun_anew(damage: bytes, tmp_path: Path) -> None:
    (tmp_path / FILE).write_bytes(damage)
    assert numbers_for(tmp_path, FIRST, LAST, ["a:x"]) == {"a:x": 1}
    assert len(kept(tmp_path)) == 1


def test_many_terminals_at_once_leave_a_whole_file_and_nothing_else(tmp_path: Path) -> None:
    def show(number: int) -> None:
        days = number % 3 * WEEK
        numbers = numbers_for(tmp_path, FIRST + days, LAST + days, [f"{number}:x", "a:x"])
        assert sorted(numbers.values()) == list(range(1, len(numbers) + 1))

    with ThreadPoolExecutor(8) as terminals:
        list(terminals.map(show, range(200)))
    assert 1 <= len(kept(tmp_path)) <= MOST_SHEETS
    assert [path.name for path in tmp_path.iterdir()] == [FILE]
