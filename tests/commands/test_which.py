"""Which lot a pot without a label could be, at the command line."""

from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import refused
from tests.commands.running import cuttings, recorded

LIVING = ("waiting", "rooted", "potted", "hardening", "ready")
KEYS = {"lot", "plant", "called", "stems", "where", "label", "because", "unsure"}


def asked(ledger: Path, *words: str) -> dict[str, dict[str, Any]]:
    document = recorded("which", *words, ledger=ledger).document
    assert document.keys() == {"schema", "candidates", "ruled_out"}
    for each in document["candidates"]:
        assert each.keys() == KEYS
        assert each["because"]
    lots = recorded("lots", ledger=ledger).document["lots"]
    living = [lot for lot in lots if any(lot["stages"][stage] for stage in LIVING)]
    assert len(document["candidates"]) + document["ruled_out"] == len(living)
    return {each["lot"]: each for each in document["candidates"]}


def test_with_nothing_told_every_living_lot_could_be_it_and_those_without_a_label_come_first(
    demo: Path,
) -> None:
    found = asked(demo)
    bare = [not each["label"] for each in found.values()]
    assert bare == sorted(bare, reverse=True)
    assert any(bare)
    assert not all(bare)


def test_place_stage_and_pot_leave_those_that_stand_there_so(demo: Path) -> None:
    everything = asked(demo)
    there = asked(demo, "--where", "holding bench")
    potted = asked(demo, "--where", "holding bench", "--stage", "potted")
    in_pots = asked(demo, "--where", "Holding Bench", "--stage", "potted", "--pot", "#1")
    assert set(in_pots) < set(potted) <= set(there) < set(everything)
    assert "24-006" in in_pots
    because = in_pots["24-006"]["because"]
    assert because[0] == "5 potted"
    assert "it stands: holding bench" in because
    assert "it was put into #1 pots" in because
    assert any(reason.startswith("potted 20 July 2025, 40 weeks ago") for reason in because)
    out = cuttings("which", "--stage", "potted", "--pot", "#1", ledger=demo).out
    assert "24-006" in out
    assert "let nobody eat of it" in " ".join(out.split())


@pytest.mark.parametrize(("seen", "fits"), [("lobed", True), ("needle", False)])
def test_what_can_be_seen_rules_out_plants_that_look_otherwise(seen: str, fits: bool, demo: Path) -> None:
    found = asked(demo, "--leaf", seen)
    assert ("24-006" in found) is fits
    if fits:
        assert "leaf: one blade, cut into lobes" in found["24-006"]["because"]


def test_when_nothing_fits_it_says_so(demo: Path) -> None:
    assert asked(demo, "--where", "holding bench", "--leaf", "frond", "--stage", "ready") == {}
    assert "Nothing in the ledger fits all of that" in cuttings("which", "--leaf", "frond", ledger=demo).out


def test_with_no_living_lot_there_is_nothing_it_could_be(ledger: Path) -> None:
    refused("which", ledger=ledger, saying=["No lot holds stems that are alive"])
