"""Normals beside a ledger that no longer fit: of another version, or for the other half of the earth."""

import json
from pathlib import Path
from typing import Any

import pytest

from cuttings.climate.normals import LAYOUT
from cuttings.commands.desk import DAYS_FILE, NORMALS_FILE
from tests.commands.running import cuttings, demo_garden, recorded

RECORD = Path(__file__).parents[2] / "fixtures" / "quarry-bank" / "daily.csv"


NORTHERN_FROST = ("--last-frost-odds", "05-28,05-15,05-02", "--first-frost-odds", "09-18,09-30,10-12")
SOUTHERN_FROST = ("--last-frost-odds", "11-28,11-15,11-02", "--first-frost-odds", "03-18,03-31,04-12")


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return demo_garden(tmp_path / "demo")


def kept(folder: Path) -> dict[str, Any]:
    document = json.loads((folder / NORMALS_FILE).read_text(encoding="utf-8"))
    assert isinstance(document, dict)
    return document


def made_old(folder: Path) -> None:
    """The normals as the first version kept them."""
    document = {**kept(folder), "layout": 1}
    del document["southern"]
    (folder / NORMALS_FILE).write_text(json.dumps(document), encoding="utf-8")


def test_normals_of_another_version_are_reckoned_anew_and_kept(demo: Path) -> None:
    before, fresh = recorded("climate", ledger=demo).document, kept(demo)
    made_old(demo)
    result = cuttings("climate", "--json", ledger=demo)
    assert (result.code, result.err) == (0, "")
    assert result.document == before
    assert kept(demo) == fresh
    assert fresh["layout"] == LAYOUT


def test_the_years_that_were_chosen_are_those_reckoned_anew(demo: Path) -> None:
    recorded("climate", "load", str(RECORD), "--period", "2001,2010", ledger=demo)
    made_old(demo)
    assert recorded("climate", ledger=demo).document["period"] == [2001, 2010]
    assert kept(demo)["years"] == [2001, 2010]


def test_where_nothing_can_be_kept_they_hold_all_the_same(demo: Path) -> None:
    before = recorded("climate", ledger=demo).document
    made_old(demo)
    (demo / f"{NORMALS_FILE}.new").mkdir()
    for _ in range(2):
        result = cuttings("climate", "--json", ledger=demo)
        assert (result.code, result.err) == (0, "")
        assert result.document == before
    assert kept(demo)["layout"] == 1


@pytest.mark.parametrize("left", [None, 0, 2_000])
def test_old_normals_whose_days_are_gone_or_damaged_cannot_be_read(left: int | None, demo: Path) -> None:
    made_old(demo)
    days = demo / DAYS_FILE
    if left is None:
        days.unlink()
    else:
        days.write_bytes(days.read_bytes()[:left])
    result = cuttings("week", "--json", ledger=demo)
    assert result.code == 0
    said = f"The climate in {demo / NORMALS_FILE} cannot be read; load the station file again."
    assert result.err.splitlines() == [said]


def test_a_garden_that_moves_across_the_equator_has_its_winters_counted_anew(demo: Path) -> None:
    """Near the equator, where a record may come from either side."""
    recorded("garden", "--lat", "5", ledger=demo)
    assert kept(demo)["southern"] is False
    recorded("garden", "--lat", "-5", ledger=demo)
    document = recorded("climate", ledger=demo).document
    assert kept(demo)["southern"] is True
    assert document["years"] in (29, 30)


def test_a_latitude_of_the_wrong_sign_is_told_of_and_the_typed_dates_hold(demo: Path) -> None:
    fresh = kept(demo)
    recorded("garden", "--lat", "-42.9", *SOUTHERN_FROST, ledger=demo)
    for words in (("climate",), ("week",)):
        result = cuttings(*words, "--json", ledger=demo)
        assert result.code == 0
        assert result.err.startswith("The record is warmest in July, so it comes from the other side")
        assert "Check the sign of the latitude ('cuttings garden --lat')" in result.err
        assert result.err.count("\n") == 1
    assert kept(demo) == fresh
    recorded("garden", "--lat", "42.9", *NORTHERN_FROST, ledger=demo)
    assert cuttings("climate", "--json", ledger=demo).err == ""


def test_a_record_from_across_the_equator_is_not_loaded(demo: Path) -> None:
    recorded("garden", "--lat", "-42.9", *SOUTHERN_FROST, ledger=demo)
    result = cuttings("climate", "load", str(RECORD), ledger=demo)
    assert result.code == 1
    assert "daily.csv: The record is warmest in July" in result.err
