"""A ledger that an earlier version wrote opens, balances and says the same."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from cuttings.demo.quarry_bank import quarry_bank
from cuttings.ledger.book import fold
from cuttings.ledger.store import FILE, Ledger
from cuttings.ledger.tally import tally

RECORDED = Path(__file__).parents[2] / "fixtures" / "quarry-bank" / FILE


@pytest.fixture
def ledger(tmp_path: Path) -> Ledger:
    shutil.copy(RECORDED, tmp_path / FILE)
    return Ledger(tmp_path)


def test_a_recorded_ledger_opens_without_damage_and_balances(ledger: Ledger) -> None:
    book = ledger.book()
    assert not ledger.damage
    assert not book.problems
    assert tally(book).balanced


def test_a_recorded_ledger_says_what_was_told(ledger: Ledger) -> None:
    recorded, told = ledger.book(), fold(quarry_bank(date(2026, 9, 30)))
    assert {code: lot.stages for code, lot in recorded.lots.items()} == {
        code: lot.stages for code, lot in told.lots.items()
    }
    assert recorded.garden == told.garden
    assert recorded.sites == told.sites
    assert recorded.marks.keys() == told.marks.keys()
