"""The command that looks at one night: its document, its page, and what it asks."""

from datetime import date
from pathlib import Path

import pytest

from tests.commands.expecting import begun, misused, standing
from tests.commands.running import cuttings, demo_garden, recorded

ACT = {"lot", "stems", "where", "do", "why", "order", "plant", "at", "source", "chance", "saves", "minutes",
       "at_risk_below_c"}  # fmt: skip


def test_the_document_names_what_to_save_in_order(demo: Path) -> None:
    document = recorded("tonight", "--low", "27F", ledger=demo).document
    assert document.keys() == {"schema", "on", "low_c", "act", "beyond", "safe", "before", "cautions"}
    assert document["low_c"] == pytest.approx(-2.78)
    assert [each["order"] for each in document["act"]] == list(range(1, len(document["act"]) + 1))
    assert all(each.keys() == ACT for each in document["act"])
    assert all(each.keys() == ACT - {"order"} for each in (*document["safe"], *document["beyond"]))
    saves = [each["saves"] for each in document["act"]]
    assert saves == sorted(saves, reverse=True)
    assert saves[0] > 0
    assert all(each["saves"] <= each["stems"] for each in document["act"])
    assert any(each["lot"] is None for each in document["act"])


def test_a_mild_night_says_plainly_that_nothing_is_at_risk(demo: Path) -> None:
    result = cuttings("tonight", "--low", "55F", ledger=demo)
    assert result.code == 0
    assert "Nothing is at risk tonight." in result.out
    assert "The first to suffer would be" in " ".join(result.out.split())
    assert "Take care" not in result.out
    assert recorded("tonight", "--low", "55F", ledger=demo).document["act"] == []


def test_a_cold_night_is_numbered_with_reasons_and_a_next_step(demo: Path) -> None:
    text = cuttings("tonight", "--low", "27F", ledger=demo).out
    assert "a low of 27 °F" in text
    assert "\n1  " in text
    assert "Losses begin" in text
    assert "carbon monoxide" in text
    assert "--cause frost" in text
    assert max(len(line) for line in text.splitlines()) <= 80


def test_a_night_with_one_thing_to_do_fits_the_screen(ledger: Path) -> None:
    begun(ledger, ("potted", 3))
    assert len(cuttings("tonight", "--low", "27F", ledger=ledger).out.splitlines()) <= 24


def test_sources_are_told_when_asked_for(demo: Path) -> None:
    assert "Extension" not in cuttings("tonight", "--low", "27F", ledger=demo).out
    assert "Extension" in cuttings("tonight", "--low", "27F", "--why", ledger=demo).out


def test_limits_are_in_the_units_of_the_garden(metric: Path) -> None:
    begun(metric, ("potted", 3))
    text = cuttings("tonight", "--low", "-3", ledger=metric).out
    assert "a low of -3 °C" in text
    assert "°F" not in text


@pytest.mark.parametrize("low", ["28", "28F", "-2.2C", "−2,2 °C"])
def test_a_low_is_read_in_any_spelling(ledger: Path, low: str) -> None:
    begun(ledger, ("potted", 3))
    found = recorded("tonight", "--low", low, ledger=ledger).document
    assert found["low_c"] == pytest.approx(-2.2, abs=0.03)


@pytest.mark.parametrize("low", ["cold", "28K", "400F", "nan"])
def test_what_is_no_temperature_is_misused(ledger: Path, low: str) -> None:
    misused("tonight", "--low", low, ledger=ledger, saying=["--low"])


def test_without_the_low_and_a_terminal_it_says_what_is_missing(ledger: Path) -> None:
    misused("tonight", ledger=ledger, saying=["--low", "29F or -2C"])


def test_an_empty_ledger_has_nothing_at_risk(tmp_path: Path) -> None:
    result = cuttings("tonight", "--low", "-20F", ledger=tmp_path / "new")
    assert result.code == 0
    assert "nothing alive" in result.out


def test_it_looks_at_the_ledger_as_it_stood_that_day(demo: Path) -> None:
    january = recorded("tonight", "--low", "0F", "--on", "2026-01-15", ledger=demo).document
    assert january["on"] == "2026-01-15"
    assert {each["lot"] for each in january["act"]} >= {"25-004", "25-003"}
    assert not any(str(each["lot"]).startswith("26-") for each in (*january["act"], *january["safe"]))


def test_plain_lines_say_one_thing_each(demo: Path) -> None:
    lines = cuttings("tonight", "--low", "27F", "--plain", ledger=demo).out.splitlines()
    assert lines[0].startswith("Tonight. Quarry Bank")
    assert lines[1].startswith("First: ")
    assert lines[2].startswith("1: ")
    assert lines[-1].startswith("Next: ")


def test_it_writes_nothing(demo: Path) -> None:
    file = demo / "ledger.jsonl"
    before = file.read_bytes()
    cuttings("tonight", "--low", "10F", ledger=demo)
    assert file.read_bytes() == before


def test_the_keepers_words_are_never_obeyed_by_the_terminal(ledger: Path) -> None:
    recorded("strike", "rosemary", "--wood", "semi-ripe", "--count", "4", "--where", "sill\x1b[31m {} [red]",
             ledger=ledger)  # fmt: skip
    text = cuttings("tonight", "--low", "20F", ledger=ledger).out
    assert "\x1b" not in text
    assert "{} [red]" in text


def test_autumn_in_the_demo_garden_takes_the_words_windowsill_for_indoors(tmp_path: Path) -> None:
    october = date(2026, 10, 15)
    garden = demo_garden(tmp_path / "qb", october)
    text = cuttings("tonight", "--low", "27F", ledger=garden, today=october).out
    assert "You wrote 'kitchen windowsill'" in text


def test_a_lot_at_two_stages_is_named_once_in_a_job(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 2), ("ready", 3))
    assert standing(ledger, lot) == {"potted": 2, "ready": 3}
    recorded("strike", "dahlia", "--wood", "basal", "--cover", "bag", "--count", "9", ledger=ledger)
    recorded("check", "26-002", "--rooted", "5", ledger=ledger)
    text = " ".join(cuttings("tonight", "--low", "30F", ledger=ledger).out.split())
    assert f"{lot} red currant (5)" in text
    assert text.casefold().count("26-002 dahlia (") == 1


def test_a_lot_at_two_stages_is_named_once_in_a_job_of_the_week(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 2), ("ready", 3))
    text = " ".join(
        cuttings("week", "--from", "2026-07-04", ledger=ledger, today=date(2026, 7, 4)).out.split()
    )
    assert f"Water {lot} red currant whenever" in text


def test_what_would_live_anyway_is_told_after_the_rest_and_a_few_are_named(demo: Path) -> None:
    text = cuttings("tonight", "--low", "27F", ledger=demo).out
    assert text.index("\n1  ") < text.index("If time") < text.index("Safe")
    spared = text[text.index("If time") : text.index("Safe")]
    assert "more." in spared
    assert "24 °F" in " ".join(spared.split())


def test_a_night_that_only_takes_soft_growth_says_that_nothing_should_die(ledger: Path) -> None:
    recorded("layer", "red currant", "--how", "simple", "--count", "3", ledger=ledger)
    text = cuttings("tonight", "--low", "27F", ledger=ledger).out
    assert "Nothing should die of it." in text
    assert "Cover if you can: 26-001 red currant." in text
    assert "--cause frost" not in text
    assert len(text.splitlines()) <= 24


@pytest.mark.parametrize("on", ["2026-04-15", "2026-10-15"])
def test_a_chance_of_loss_is_called_small_only_where_it_is(ledger: Path, on: str) -> None:
    long_ago = ("--on", "2026-03-01")
    recorded("sites", "add", "herb corner", "--area", "kitchen side", "--light", "full-sun", *long_ago,
             ledger=ledger)  # fmt: skip
    recorded("sites", "growing", "herb corner", "rosemary", "--at", "1,1", *long_ago, ledger=ledger)
    text = " ".join(cuttings("tonight", "--low", "20F", "--on", on, ledger=ledger,
                             today=date(2026, 12, 1)).out.split())  # fmt: skip
    assert "The chance of loss is small" not in text
    assert "sprout again" not in text.replace("seldom sprouts again", "")
    assert "The chance of loss falls from" in text or "Saves it" in text
