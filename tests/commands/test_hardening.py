"""Hardening off at the command line: the dated plan, its days, its nights, and a screen that holds it."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from cuttings.ledger.store import Ledger
from cuttings.words import Stage
from tests.commands.expecting import RECORDING, last_entry, misused, refused
from tests.commands.running import cuttings, recorded
from tests.journeys.terminal import Terminal

BEGUN = date(2026, 5, 20)


def day(number: int) -> str:
    """The so-manyeth day from the beginning on."""
    return (BEGUN + timedelta(days=number)).isoformat()


def harden(lot: str, *words: str, ledger: Path, on: int = 0) -> Mapping[str, Any]:
    return recorded("harden", lot, *words, "--on", day(on), ledger=ledger).document


def soft_rosemary(ledger: Path) -> str:
    """Six tender rosemaries, rooted in a bag and potted."""
    lot = recorded("strike", "rosemary", "--wood", "semi-ripe", "--count", "6", "--cover", "bag", "--on",
                   "2025-08-01", ledger=ledger).lot  # fmt: skip
    recorded("check", lot, "--rooted", "6", "--on", "2025-09-20", ledger=ledger)
    recorded("pot", lot, "--pot", "4in", "--on", "2025-09-21", ledger=ledger)
    return lot


def hardening(ledger: Path, days_done: int = 0) -> str:
    """The same, being hardened off, with so many days of it done."""
    lot = soft_rosemary(ledger)
    harden(lot, "--start", ledger=ledger)
    for number in range(days_done):
        harden(lot, "--day-done", ledger=ledger, on=number)
    return lot


def states(document: Mapping[str, Any]) -> Sequence[tuple[int, str, str]]:
    return [(each["day"], each["date"], each["state"]) for each in document["days"]]


def test_a_plan_that_has_not_begun_is_dated_from_the_first_day_it_may_begin(ledger: Path) -> None:
    document = harden(soft_rosemary(ledger), ledger=ledger, on=-80)
    assert document["begun_on"] is None
    assert document["days"][0]["date"] == "2026-05-14"  # a fortnight before one frost in ten is left
    assert document["ready_on"] == "2026-05-28"
    assert {each["state"] for each in document["days"]} == {"to-come"}


def test_each_day_has_its_date_its_state_and_how_to_treat_the_plants(ledger: Path) -> None:
    document = harden(hardening(ledger, 2), ledger=ledger, on=2)
    assert states(document)[:4] == [
        (1, day(0), "done"), (2, day(1), "done"), (3, day(2), "now"), (4, day(3), "to-come"),
    ]  # fmt: skip
    assert document["begun_on"] == day(0)
    assert document["ready_on"] == day(14)
    assert {(each["wind"], each["water"]) for each in document["days"][1:3]} == {
        ("sheltered", "a little less often, never to wilting")
    }


def test_a_missed_day_moves_the_rest_and_keeps_its_reason(ledger: Path) -> None:
    lot = hardening(ledger, 3)
    assert harden(lot, "--skip", "a cold wind", ledger=ledger, on=3).keys() == RECORDING
    document = harden(lot, ledger=ledger, on=4)
    assert states(document)[3:5] == [(4, day(3), "missed"), (4, day(4), "now")]
    assert document["days"][3]["reason"] == "a cold wind"
    assert (document["done"], document["missed"], document["ready_on"]) == (3, 1, day(15))


def test_a_night_too_cold_to_be_out_in_repeats_its_day(ledger: Path) -> None:
    lot = hardening(ledger, 9)
    result = cuttings("harden", lot, "--day-done", "--night-low", "47F", "--on", day(9), ledger=ledger)
    assert result.code == 0
    assert "Take care: The night was too cold to be out, so day 10 is done again." in result.err
    entry = last_entry(ledger, lot)
    assert (entry["step"], entry["reason"]) == ("skip", "a night of 47 °F")
    assert entry["night_low_c"] == pytest.approx(25 / 3)
    document = harden(lot, ledger=ledger, on=10)
    assert (document["done"], document["missed"], document["ready_on"]) == (9, 1, day(15))


def test_a_night_that_chills_tender_plants_goes_back_a_day_and_says_where_that_comes_from(
    metric: Path,
) -> None:
    lot = hardening(metric, 9)
    result = cuttings("harden", lot, "--night-low", "3", "--on", day(9), ledger=metric)
    assert "harms tender plants" in result.err
    assert "from memory" in result.err
    assert last_entry(metric, lot)["reason"] == "a night of 3 °C"
    document = harden(lot, ledger=metric, on=10)
    assert (document["done"], document["ready_on"]) == (8, day(16))


def test_a_night_told_the_morning_after_takes_back_the_day_ticked_off(ledger: Path) -> None:
    lot = hardening(ledger, 10)
    harden(lot, "--night-low", "47F", ledger=ledger, on=9)
    document = harden(lot, ledger=ledger, on=10)
    assert states(document)[9:11] == [(10, day(9), "missed"), (10, day(10), "now")]
    harden(lot, "--night-low", "55F", ledger=ledger, on=8)
    assert harden(lot, ledger=ledger, on=10) == document


def test_a_mild_night_by_itself_records_the_day(ledger: Path) -> None:
    lot = hardening(ledger, 9)
    harden(lot, "--night-low", "52F", ledger=ledger, on=9)
    assert last_entry(ledger, lot)["step"] == "day-done"
    assert harden(lot, ledger=ledger, on=10)["done"] == 10


def test_a_cold_night_under_cover_counts_only_against_a_day_not_done(ledger: Path) -> None:
    lot = hardening(ledger, 1)
    harden(lot, "--day-done", "--night-low", "28F", ledger=ledger, on=1)
    assert harden(lot, ledger=ledger, on=2)["done"] == 2
    harden(lot, "--night-low", "28F", ledger=ledger, on=2)
    document = harden(lot, ledger=ledger, on=3)
    assert (document["done"], document["missed"], document["ready_on"]) == (2, 1, day(15))
    assert document["days"][2]["reason"] == "a night of 28 °F"


def test_nights_are_told_in_their_place_and_in_words_that_can_be_read(ledger: Path) -> None:
    lot = hardening(ledger)
    for step in (("--start",), ("--finish",), ("--skip", "wind")):
        misused("harden", lot, *step, "--night-low", "28F", ledger=ledger, saying=["--night-low"])
    misused("harden", lot, "--night-low", "frosty", ledger=ledger, saying=["--night-low", "28F"])
    refused("harden", lot, "--day-done", "--on", day(-1), ledger=ledger, saying=["20 May 2026"])
    refused("harden", soft_rosemary(ledger), "--night-low", "28F", ledger=ledger, saying=["--start"])


def test_beginning_with_more_of_a_lot_says_that_all_begin_again(ledger: Path) -> None:
    lot = soft_rosemary(ledger)
    harden(lot, "--start", "--count", "4", ledger=ledger)
    harden(lot, "--day-done", ledger=ledger)
    result = cuttings("harden", lot, "--start", "--on", day(1), ledger=ledger)
    assert "Take care: the 4 that are being hardened off begin again with them" in result.err
    assert "cuttings split" in result.err
    document = harden(lot, ledger=ledger, on=1)
    assert (document["done"], document["begun_on"]) == (0, day(1))


def test_part_of_a_lot_may_finish_while_the_rest_goes_on(ledger: Path) -> None:
    lot = hardening(ledger, 2)
    recorded("harden", lot, "--finish", "--count", "2", "--on", day(2), ledger=ledger)
    document = harden(lot, ledger=ledger, on=2)
    assert (document["stages"]["ready"], document["stages"]["hardening"], document["done"]) == (2, 4, 2)


def test_the_sheet_of_the_week_follows_the_dated_plan(ledger: Path) -> None:
    lot = hardening(ledger, 9)
    harden(lot, "--night-low", "40F", ledger=ledger, on=9)
    nudges = recorded("week", "--on", day(10), ledger=ledger).document["nudges"]
    (nudge,) = [each for each in nudges if each["id"] == f"{lot}:harden"]
    assert "day 9 of 14: day and night out" in nudge["what"]
    assert nudge["window"]["best"] == [day(10), day(15)]


def page(lot: str, *words: str, ledger: Path, on: int) -> list[str]:
    result = cuttings("harden", lot, *words, "--on", day(on), ledger=ledger, env={"COLUMNS": "80"})
    assert result.code == 0
    return result.out.splitlines()


@pytest.mark.parametrize("days_done", [0, 3, 7, 9, 14])
def test_a_fortnight_of_days_fits_a_small_screen(days_done: int, ledger: Path) -> None:
    lot = hardening(ledger, days_done)
    assert len(page(lot, ledger=ledger, on=days_done)) <= 24


def test_a_plan_with_many_missed_days_still_fits_a_small_screen(ledger: Path) -> None:
    lot = hardening(ledger)
    for number in range(10):
        step = ("--skip", "rain all day") if number % 2 else ("--day-done",)
        harden(lot, *step, ledger=ledger, on=number)
    lines = page(lot, ledger=ledger, on=10)
    assert len(lines) <= 24
    assert any("missed: rain all day." in line for line in lines)


def test_the_page_tells_each_day_beside_its_date(ledger: Path) -> None:
    lot = hardening(ledger, 3)
    harden(lot, "--skip", "a cold wind", ledger=ledger, on=3)
    said = "\n".join(page(lot, ledger=ledger, on=4))
    for words in (
        "20-22 May     Days 1 to 3 done.",
        "23 May        Day 4 missed: a cold wind.",
        "24 May        Day 4, today: 5 hours out, early sun, then shade, light breeze.",
        "29 May-3 Jun  Days 9 to 14: out day and night, the light of its new place, open.",
        "4 Jun         Ready to plant.",
        "3 of 14 days done, 1 missed; ready on 4 June.",
        "in at night below 50 °F, not out at all below 45 °F",
        "Water it first; then a little less often, never to wilting.",
    ):
        assert words in said


def test_stock_at_rest_that_stood_outside_is_told_that_it_needs_none(ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "simple-layer", "--rooted", "--on", "2025-10-20",
                   ledger=ledger).lot  # fmt: skip
    recorded("pot", lot, "--pot", "4in", "--on", "2025-10-20", ledger=ledger)
    result = cuttings("harden", lot, "--on", "2026-03-20", ledger=ledger)
    assert "It needs none." in result.out
    assert "at rest" in result.out
    assert not recorded("harden", lot, "--on", "2026-03-20", ledger=ledger).document["needed"]


def test_at_a_terminal_the_night_is_asked_after_only_where_it_was_spent_outside(
    ledger: Path, tmp_path: Path
) -> None:
    lot = hardening(ledger, 7)
    with Terminal("harden", lot, "--on", day(7), folder=tmp_path) as terminal:
        terminal.choose("What is to be written down?", "a day of it is done")
        terminal.answer("How cold was the night?")
        assert terminal.finish() == 0
    with Terminal("harden", lot, "--on", day(8), folder=tmp_path) as terminal:
        terminal.choose("What is to be written down?", "a night was too cold")
        terminal.answer("How cold did it get?", "48F")
        assert terminal.finish() == 0
        assert "day 8 of 14 done, 1 missed" in terminal.flowing()
    assert Ledger(ledger).book().lots[lot].at(Stage.HARDENING) == 6


def test_at_a_terminal_a_day_that_ends_indoors_takes_no_more_than_one_choice(
    ledger: Path, tmp_path: Path
) -> None:
    lot = hardening(ledger, 2)
    with Terminal("harden", lot, "--on", day(2), folder=tmp_path) as terminal:
        terminal.choose("What is to be written down?", "a day of it is done")
        assert terminal.finish() == 0
        assert "day 3 of 14 done" in terminal.flowing()


def test_hardening_off_that_ends_long_before_planting_is_warned_of(ledger: Path) -> None:
    result = cuttings("harden", soft_rosemary(ledger), "--start", "--on", "2025-10-01", ledger=ledger)
    assert result.code == 0
    assert "it would have to come in again" in result.err
    assert "next good time to plant it opens about 2" in result.err


def test_hardening_off_in_time_is_not(ledger: Path) -> None:
    result = cuttings("harden", soft_rosemary(ledger), "--start", "--on", day(0), ledger=ledger)
    assert "come in again" not in result.err
