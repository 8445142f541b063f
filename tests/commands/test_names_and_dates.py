"""Names without case, ambiguous ones refused, dates as people speak."""

from datetime import date
from pathlib import Path

import pytest

from tests.commands.expecting import last_entry, misused, refused
from tests.commands.running import MAY, cuttings, recorded


def test_names_match_without_case(ledger: Path) -> None:
    lot = recorded("find", "RED CURRANT", "--method", "simple-layer", "--rooted", ledger=ledger).lot
    assert recorded("card", lot, ledger=ledger).document["plant"] == "Ribes rubrum"
    planted = recorded("plant", lot, "--site", "gate BED", ledger=ledger)
    assert planted.stages == {"planted": 1}
    assert cuttings("week", "--area", "GATE strip", "--json", ledger=ledger).code == 0
    assert len(cuttings("lots", "--plant", "Ribes RUBRUM", "--json", ledger=ledger).document["lots"]) == 1


def test_an_ambiguous_site_is_refused_with_the_candidates(ledger: Path) -> None:
    refused("sites", "show", "gate", ledger=ledger, saying=["Gate Bed", "gate corner"])


def test_an_ambiguous_area_is_refused_with_the_candidates(demo: Path) -> None:
    refused("week", "--area", "e", ledger=demo, saying=["gate strip", "kitchen side"])


def test_an_ambiguous_plant_is_refused_with_the_candidates(ledger: Path) -> None:
    words = ("find", "daisy", "--method", "crown-division")
    refused(*words, ledger=ledger, saying=["Leucanthemum × superbum", "give the full name"])
    refused("find", "grass", "--method", "crown-division", ledger=ledger, saying=["or one of "])


def test_an_ambiguous_lot_is_refused_with_the_candidates(ledger: Path) -> None:
    for _ in range(2):
        recorded("find", "red currant", "--method", "simple-layer", ledger=ledger)
    refused("card", "currant", ledger=ledger, saying=["26-001", "26-002"])


def test_what_is_not_there_is_refused(ledger: Path) -> None:
    refused("card", "26-099", ledger=ledger, saying=["26-099"])
    refused("sites", "show", "orchard", ledger=ledger, saying=["Gate Bed"])
    refused("plants", "zzyzx plonkweed", ledger=ledger, saying=["zzyzx plonkweed"])
    refused("undo", "nosuchentry", ledger=ledger, saying=["nosuchentry"])
    refused("week", "--area", "moon", ledger=ledger, saying=["gate strip"])


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-04-11", date(2026, 4, 11)),
        ("today", MAY),
        ("yesterday", date(2026, 5, 1)),
        ("friday", date(2026, 5, 1)),
        ("Monday", date(2026, 4, 27)),
        ("sunday", date(2026, 4, 26)),
        ("saturday", date(2026, 4, 25)),
    ],
)
def test_an_entry_is_dated_as_people_speak(typed: str, day: date, ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "simple-layer", "--on", typed, ledger=ledger).lot
    assert last_entry(ledger, lot)["on"] == day.isoformat()


@pytest.mark.parametrize("typed", ["tomorrowish", "2026-02-30", "05-12", ""])
def test_a_date_that_is_none_is_misuse(typed: str, ledger: Path) -> None:
    misused("find", "red currant", "--method", "simple-layer", "--on", typed, ledger=ledger, saying=["--on"])
