"""Ticking off at the command line: done, later and never, by number and by id."""

import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from cuttings.ledger.ticks import NudgeDone
from tests.commands.expecting import RECORDING, misused, refused
from tests.commands.running import MAY, cuttings, recorded

JULY = date(2026, 7, 4)
TICKED = {"stages", "schema", "entry", "nudge", "lot", "done", "until", "condition", "never"}


def sheet(ledger: Path, *words: str, today: date = MAY) -> Mapping[str, Mapping[str, Any]]:
    """The nudges of the sheet, by their ids."""
    nudges = recorded("week", *words, ledger=ledger, today=today).document["nudges"]
    return {nudge["id"]: nudge for nudge in nudges}


def number(ledger: Path, nudge: str, *words: str) -> str:
    return str(sheet(ledger, *words)[nudge]["number"])


def marked(ledger: Path) -> str:
    """A mark to come back to now."""
    told = recorded("mark", "lilac", "--for", "layer", "--where", "gate strip", ledger=ledger).document
    return f"{told['mark']}:layer"


def potted_rosemary(ledger: Path) -> str:
    """Six tender rosemaries in pots, to be hardened off in May."""
    lot = recorded("strike", "rosemary", "--wood", "semi-ripe", "--count", "6", "--cover", "bag", "--on",
                   "2025-08-01", ledger=ledger).lot  # fmt: skip
    recorded("check", lot, "--rooted", "6", "--on", "2025-09-20", ledger=ledger)
    recorded("pot", lot, "--pot", "4in", "--on", "2025-09-21", ledger=ledger)
    return lot


def any_care(ledger: Path) -> str:
    """The id of some care that leaves no entry of its own."""
    return next(nudge for nudge in sheet(ledger) if nudge.endswith((":air", ":feed", ":pots", ":shade")))


def test_the_sheet_shows_its_numbers_and_they_stay(demo: Path) -> None:
    before = sheet(demo)
    assert sorted(nudge["number"] for nudge in before.values()) == list(range(1, len(before) + 1))
    text = cuttings("week", "--plain", ledger=demo).out
    for nudge in before.values():
        if nudge["id"] == "25-004:air":
            assert f"{nudge['number']}. {nudge['what'][:20]}" in text
    cuttings("week", "--never", "1", ledger=demo)
    after = sheet(demo)
    assert len(after) == len(before) - 1
    assert all(before[nudge]["number"] == each["number"] for nudge, each in after.items())
    holding = sheet(demo, "--area", "holding bench")
    assert all(before[nudge]["number"] == each["number"] for nudge, each in holding.items())


def test_several_lots_of_one_job_stand_under_the_span_of_their_numbers(demo: Path) -> None:
    planting = sorted(
        nudge["number"]
        for nudge in sheet(demo).values()
        if nudge["id"].endswith(":plant") and nudge["area"] == "holding bench"
    )
    assert len(planting) > 2
    assert f"{planting[0]}-{planting[-1]}. Plant" in cuttings("week", "--plain", ledger=demo).out


def test_care_that_is_done_is_written_down_and_nags_no_more(demo: Path) -> None:
    care = any_care(demo)
    told = sheet(demo)[care]
    result = recorded("week", "--done", str(told["number"]), ledger=demo)
    assert result.document.keys() == TICKED
    assert result.stages
    assert result.document == {
        "schema": 1, "entry": result.document["entry"], "nudge": care, "lot": told["lot"],
        "stages": result.document["stages"], "done": "2026-05-02", "until": None, "condition": None,
        "never": False,
    }  # fmt: skip
    assert care not in sheet(demo)
    refused("week", "--done", care, ledger=demo, saying=["was ticked off on 2 May already", told["what"]])
    refused("week", "--later", care, "friday", ledger=demo, saying=["was ticked off on 2 May already"])
    recorded("undo", ledger=demo)
    assert care in sheet(demo)


def test_done_says_which_in_its_own_words_and_how_to_take_it_back(demo: Path) -> None:
    care = any_care(demo)
    told = sheet(demo)[care]
    out = cuttings("week", "--done", str(told["number"]), "--plain", ledger=demo).out
    assert out.splitlines()[0] == f"Recorded: Done: {told['what']}."
    assert "'cuttings undo' takes it back." in out
    assert f"done: {told['what']}" in cuttings("undo", "--plain", ledger=demo).out


def test_care_done_before_its_time_is_not_asked_for_when_its_time_comes(demo: Path) -> None:
    early = next(
        (nudge for nudge in sheet(demo, "--from", "2026-05-03", "--to", "2026-06-30").values()
         if nudge["window"]["opens"] > "2026-05-05" and nudge["id"].endswith((":feed", ":shade", ":winter"))),
        None,
    )  # fmt: skip
    if early is None:
        recorded("find", "red currant", "--method", "simple-layer", "--rooted", ledger=demo)
        lot = recorded("pot", "26-001", "--pot", "4in", "--shade-days", "7", ledger=demo).lot
        early = sheet(demo, "--from", "2026-05-03", "--to", "2026-06-30")[f"{lot}:shade"]
    recorded("week", "--done", early["id"], "--from", "2026-05-03", ledger=demo)
    assert early["id"] not in sheet(demo, "--on", early["window"]["opens"])


def test_a_recording_task_runs_its_own_command(demo: Path) -> None:
    nudge = marked(demo)
    result = recorded("week", "--done", number(demo, nudge), ledger=demo)
    assert result.document.keys() == RECORDING | {"mark"}
    assert result.err.startswith("Done: Layer lilac")
    assert "'cuttings undo' takes it back." in result.err
    assert nudge not in sheet(demo)


def test_a_task_that_must_know_more_says_what_and_writes_nothing(demo: Path) -> None:
    planting = next(nudge for nudge in sheet(demo) if nudge.endswith(":plant"))
    result = cuttings("week", "--done", number(demo, planting), ledger=demo)
    assert (result.code, result.out) == (2, "")
    assert result.err.startswith("Missing: --site")
    misused("week", "--done", planting, ledger=demo, saying=["--site"])
    misused("week", "--done", planting, "--json", ledger=demo, saying=["--site"])


@pytest.mark.parametrize(("done", "kind"), [(0, "start"), (1, "day-done"), (40, "finish")])
def test_hardening_off_goes_on_by_its_next_step(done: int, kind: str, ledger: Path) -> None:
    lot = potted_rosemary(ledger)
    day = date(2026, 5, 20)
    if done:
        recorded("harden", lot, "--start", "--on", "2026-05-20", ledger=ledger)
    while done > 1 and f"Finish hardening off {lot}" not in str(sheet(ledger, "--on", day.isoformat())):
        recorded("harden", lot, "--day-done", "--on", day.isoformat(), ledger=ledger)
        day = date.fromordinal(day.toordinal() + 1)
    words = ("--on", day.isoformat())
    result = recorded("week", "--done", number(ledger, f"{lot}:harden", *words), *words, ledger=ledger)
    assert result.document.keys() == RECORDING
    newest = Ledger(ledger).book().lots[lot].entries[-1]
    assert isinstance(newest, e.Ready if kind == "finish" else e.Harden)
    assert kind == "finish" or getattr(newest, "step", "") == kind


def test_later_waits_for_a_day_or_a_condition(demo: Path) -> None:
    care = any_care(demo)
    its = number(demo, care)
    result = recorded("week", "--later", its, "2026-05-20", ledger=demo)
    assert result.document.keys() == TICKED
    assert (result.document["until"], result.document["condition"]) == ("2026-05-20", None)
    assert care not in sheet(demo)
    waiting = recorded("week", "--later", its, "last frost", ledger=demo)
    assert (waiting.document["until"], waiting.document["condition"]) == (None, "last-frost")
    assert (waiting.document["done"], waiting.document["never"]) == (None, False)
    recorded("undo", ledger=demo)
    recorded("undo", ledger=demo)
    assert care in sheet(demo)


def test_later_says_until_when_and_about_when_that_is(demo: Path) -> None:
    care = any_care(demo)
    told = sheet(demo)[care]["what"]
    out = cuttings("week", "--later", care, "friday", "--plain", ledger=demo).out
    assert out.splitlines()[0] == f"Recorded: Put off until 8 May 2026: {told}."
    out = cuttings("week", "--later", care, "last-frost", "--plain", ledger=demo).out
    assert out.splitlines()[0].startswith("Recorded: Put off until last frost, about 1")
    assert f"put off until last frost: {told}" in cuttings("undo", "--plain", ledger=demo).out


def test_later_than_its_window_is_warned_of_and_written_down(demo: Path) -> None:
    nudge = next(nudge for nudge in sheet(demo) if nudge.endswith(":plant"))
    result = recorded("week", "--later", nudge, "2026-12-24", ledger=demo)
    assert result.err.startswith("Take care: its window closes on ")
    assert "by then it is too late" in result.err


@pytest.mark.parametrize(
    ("when", "saying"),
    [
        ("soonish", ["--later: 'soonish' is no time to come", "last-frost", "rooted"]),
        ("yesterday", ["--later: 'yesterday' is not later than 2 May"]),
        ("2026-05-02", ["is not later than 2 May"]),
    ],
)
def test_a_later_time_that_cannot_be_meant_is_misused(when: str, saying: list[str], demo: Path) -> None:
    misused("week", "--later", any_care(demo), when, ledger=demo, saying=saying)


def test_a_stage_that_cannot_be_waited_for_is_refused(demo: Path) -> None:
    planting = next(each for nudge, each in sheet(demo).items() if nudge.endswith(":plant"))
    stages = recorded("card", planting["lot"], ledger=demo).stages
    stage = next(stage for stage in ("potted", "ready", "rooted") if stages.get(stage))
    refused("week", "--later", planting["id"], stage, ledger=demo,
            saying=[f"{planting['lot']} has stems that are {stage} already"])  # fmt: skip
    refused("week", "--later", marked(demo), "rooted", ledger=demo, saying=["is no lot"])


def test_never_is_for_good_until_it_is_taken_back(demo: Path) -> None:
    care = any_care(demo)
    told = sheet(demo)[care]["what"]
    result = recorded("week", "--never", number(demo, care), ledger=demo)
    assert result.document.keys() == TICKED
    assert result.document["never"] is True
    assert care not in sheet(demo)
    for words in (("--never", care), ("--done", care), ("--later", care, "friday")):
        refused("week", *words, ledger=demo, saying=[told, "put away for good", result.document["entry"]])
    recorded("undo", result.document["entry"], ledger=demo)
    assert care in sheet(demo)


def test_what_must_wait_can_be_done_after_all(demo: Path) -> None:
    care = any_care(demo)
    recorded("week", "--later", care, "2026-05-20", ledger=demo)
    recorded("week", "--done", care, ledger=demo)
    assert care not in sheet(demo)
    assert Ledger(demo).book().put_aside[care].until is None


def test_several_are_ticked_off_at_once_or_none(demo: Path) -> None:
    layering = number(demo, marked(demo))
    care = number(demo, any_care(demo))
    refused("week", "--done", care, "--done", "99", ledger=demo, saying=["no number '99'"])
    both = ("--done", care, "--done", layering)
    misused("week", *both, "--json", ledger=demo, saying=["one number at a time"])
    result = cuttings("week", *both, "--done", care, ledger=demo)
    assert result.code == 0, result.err
    assert result.out.count("Recorded") == 2


def test_with_from_the_number_is_that_of_the_sheet_that_began_then(demo: Path) -> None:
    earlier = sheet(demo)
    sheet(demo, "--from", "2026-05-30")
    care = any_care(demo)
    sheet(demo, "--from", "2026-05-30")
    its = str(earlier[care]["number"])
    result = recorded("week", "--from", "2026-05-02", "--done", its, ledger=demo)
    assert result.document["nudge"] == care
    refused("week", "--from", "2026-06-06", "--done", "1", ledger=demo, saying=["begins on 6 June 2026"])


def test_a_number_that_asks_for_nothing_any_more_is_refused(demo: Path) -> None:
    nudge = marked(demo)
    its = number(demo, nudge)
    recorded("mark", "--done", nudge.partition(":")[0], ledger=demo)
    refused("week", "--done", its, ledger=demo, saying=[nudge, "written down already"])
    refused("week", "--done", "26-999:feed", ledger=demo, saying=["26-999:feed asks for nothing"])


def test_a_ledger_whose_sheet_was_never_shown_says_so(ledger: Path) -> None:
    refused("week", "--done", "1", ledger=ledger, saying=["No sheet has been shown yet", "cuttings week"])


def test_nobody_is_asked_where_there_is_no_terminal(demo: Path) -> None:
    misused("week", "--tick", ledger=demo, saying=["--done N", "--later N DATE", "--never N"])


def test_done_is_written_under_the_day_it_was_done(demo: Path) -> None:
    sheet(demo)
    care = "25-004:air"
    recorded("week", "--done", care, "--on", "2026-05-01", ledger=demo)
    entry = max(Ledger(demo).book().entries, key=lambda entry: entry.id)
    assert isinstance(entry, NudgeDone)
    assert entry.on == date(2026, 5, 1)
    assert json.loads((demo / "week.json").read_text())["sheets"]


def test_several_numbers_may_be_given_as_they_stand_on_the_sheet(demo: Path) -> None:
    found = sheet(demo, today=JULY)
    water = [str(each["number"]) for each in found.values() if each["id"].endswith(":pots")]
    assert len(water) > 2
    result = cuttings("week", "--done", ",".join(water), ledger=demo, today=JULY)
    assert result.code == 0, result.err
    assert not [each for each in sheet(demo, today=JULY) if each.endswith(":pots")]


def test_one_nudge_has_one_fate(demo: Path) -> None:
    care = any_care(demo)
    its = number(demo, care)
    before = Ledger(demo).book().entries
    misused("week", "--never", its, "--done", its, ledger=demo, saying=["is named twice"])
    misused("week", "--never", its, "--later", care, "friday", ledger=demo, saying=["is named twice"])
    assert Ledger(demo).book().entries == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--later", "1", "friday", "--pdf", "x.pdf"), "--pdf does not go with --later"),
        (("--season", "--rain", "1in"), "--rain does not go with --season"),
        (("--season", "--tick"), "--season does not go with --tick"),
        (("--done", "1", "--area", "north wall"), "--area does not go with --done"),
        (("--svg", "x.svg"), "--svg goes with --season"),
    ],
)
def test_no_option_is_passed_over_in_silence(words: tuple[str, ...], said: str, demo: Path) -> None:
    misused("week", *words, ledger=demo, saying=[said])


def test_a_page_and_a_drawing_take_the_place_of_nothing_else(demo: Path, tmp_path: Path) -> None:
    ledger = demo / "ledger.jsonl"
    kept = ledger.read_bytes()
    for words in (("--pdf", str(ledger)), ("--ics", str(ledger)), ("--season", "--svg", str(ledger))):
        refused("week", *words, ledger=demo, saying=["name another file"])
        assert ledger.read_bytes() == kept
    for name in ("a.pdf", "b.ics"):
        for _ in range(2):
            assert cuttings("week", f"--{name[2:]}", str(tmp_path / name), ledger=demo).code == 0
    refused("week", "--pdf", "", ledger=demo, saying=["cannot be written"])
    refused("week", "--pdf", "~nobody-of-that-name/x.pdf", ledger=demo, saying=["cannot be written"])


def test_the_home_screen_keeps_the_numbers_of_the_sheet_that_was_shown(demo: Path) -> None:
    september = sheet(demo, "--from", "2026-09-20", today=date(2026, 9, 20))
    cuttings(ledger=demo, today=date(2026, 9, 20))
    assert sheet(demo, "--from", "2026-09-20", today=date(2026, 9, 20)) == september


def test_an_area_with_a_calendar_keeps_the_forecast(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "week.ics"
    words = ("--low", "18F", "--area", "holding bench", "--ics", str(path))
    found = sheet(demo, *words)
    assert [each for each in found if each.endswith(":cold")]
    text = path.read_text(encoding="utf-8")
    assert "18 °F is forecast" in text.replace("\n ", "")


def test_what_says_to_wait_cannot_be_done(ledger: Path) -> None:
    lot = potted_rosemary(ledger)
    recorded("harden", lot, "--finish", "--on", "2026-05-02", ledger=ledger)
    hold = number(ledger, f"{lot}:hold", "--on", "2026-05-02")
    refused("week", "--done", hold, ledger=ledger, saying=["says to wait", "--later"])


def test_the_season_leaves_out_what_was_put_aside(demo: Path) -> None:
    def ahead() -> set[str]:
        document = cuttings("week", "--season", "--json", ledger=demo).document
        return {each["id"] for each in document["nudges"]}

    assert "25-003:plant" in ahead()
    cuttings("week", "--never", "25-003:plant", ledger=demo)
    assert "25-003:plant" not in ahead()
