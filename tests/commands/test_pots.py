"""The drawer of pots at the command line: put in, taken out, used by `pot`, and how pots are cleaned."""

from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from cuttings.commands import desk
from cuttings.ledger.containers import Containers
from cuttings.ledger.store import Ledger
from tests.commands.expecting import begun, last_entry, misused, refused
from tests.commands.running import MAY, cuttings, recorded


def added(ledger: Path, name: str, count: int, *more: str) -> dict[str, Any]:
    return recorded("pots", "add", name, "--count", str(count), *more, ledger=ledger).document


def drawer(ledger: Path) -> dict[str, tuple[int, int, int]]:
    """Owned, in use and free, by name."""
    kinds = recorded("pots", ledger=ledger).document["pots"]
    return {each["name"]: (each["owned"], each["in_use"], each["free"]) for each in kinds}


def test_an_empty_drawer_says_how_it_is_filled(ledger: Path) -> None:
    assert recorded("pots", ledger=ledger).document["pots"] == []
    shown = cuttings("pots", ledger=ledger).out
    assert "Nobody has written down" in shown
    assert "pots add" in shown


def test_pots_are_put_in_by_a_size_or_by_a_name_of_ones_own(ledger: Path) -> None:
    document = added(ledger, "4 in", 5)
    assert (document["name"], document["size"], document["owned"], document["free"]) == ("4in", "4in", 5, 5)
    document = added(ledger, "plugs", 2, "--size", "72 cells")
    assert (document["size"], document["cells"], document["pieces"]) == ("72-cell tray", 72, 2)
    added(ledger, "PLUGS", 1)
    added(ledger, "4in", 3, "--size", "4in")
    assert drawer(ledger) == {"4in": (8, 0, 8), "plugs": (216, 0, 216)}


def test_what_the_drawer_cannot_hold_is_refused_or_misused(ledger: Path) -> None:
    misused("pots", "add", "plugs", "--count", "3", ledger=ledger, saying=["Missing: --size"])
    misused("pots", "add", "4in", "--size", "9cm", "--count", "1", ledger=ledger, saying=["a size itself"])
    misused("pots", "add", "plugs", "--size", "bucket", "--count", "3", ledger=ledger, saying=["bucket"])
    misused("pots", "add", "4in", "--count", "0", ledger=ledger, saying=["too few"])
    refused("pots", "remove", "4in", "--count", "1", ledger=ledger, saying=["none yet"])
    added(ledger, "squares", 3, "--size", "9cm square")
    refused("pots", "add", "squares", "--size", "2L", "--count", "1", ledger=ledger, saying=["another name"])
    refused("pots", "remove", "4in", "--count", "1", ledger=ledger, saying=["Pots there: squares."])
    refused("pots", "remove", "squares", "--count", "4", ledger=ledger, saying=["You own 3", "4 cannot go"])


def test_pots_are_taken_out_and_put_back_by_undo(ledger: Path) -> None:
    added(ledger, "4in", 8)
    document = recorded("pots", "remove", "4in", "--count", "3", "--note", "cracked", ledger=ledger).document
    assert (document["owned"], document["free"]) == (5, 5)
    recorded("undo", ledger=ledger)
    assert drawer(ledger) == {"4in": (8, 0, 8)}


def test_a_kind_that_is_all_gone_is_listed_no_more_and_may_come_back(ledger: Path) -> None:
    added(ledger, "tubs", 2, "--size", "#1")
    recorded("pots", "remove", "tubs", "--count", "2", ledger=ledger)
    assert drawer(ledger) == {}
    refused("pots", "remove", "tubs", "--count", "1", ledger=ledger, saying=["You own 0 of tubs"])
    added(ledger, "tubs", 3)
    assert drawer(ledger) == {"tubs": (3, 0, 3)}


def test_a_size_that_another_program_wrote_is_listed_all_the_same(ledger: Path) -> None:
    Ledger(ledger).record(
        lambda _, stamp: [Containers(id=stamp(), on=MAY, name="urns", size="one urn", change=2)]
    )
    assert drawer(ledger) == {"urns": (2, 0, 2)}
    assert "one urn" in cuttings("pots", ledger=ledger).out
    lot = begun(ledger, ("rooted", 3))
    assert recorded("pot", lot, "--count", "1", "--pot", "urns", ledger=ledger).stages["potted"] == 1


def test_what_is_potted_is_in_use_until_it_leaves(ledger: Path) -> None:
    added(ledger, "4in", 8)
    lot = begun(ledger, ("rooted", 2), ("potted", 5), ("ready", 1))
    assert drawer(ledger) == {"4in": (8, 6, 2)}
    recorded("plant", lot, "--count", "1", "--site", "gate bed", ledger=ledger)
    recorded("lose", lot, "--count", "1", "--stage", "potted", "--cause", "rot", ledger=ledger)
    recorded("give", lot, "--count", "1", ledger=ledger)
    assert drawer(ledger) == {"4in": (8, 3, 5)}
    recorded("sell", lot, "--count", "2", "--with-pots", ledger=ledger)
    assert last_entry(ledger, lot)["with_pots"] is True
    assert drawer(ledger) == {"4in": (6, 1, 5)}


def test_a_name_from_the_drawer_is_a_pot(ledger: Path) -> None:
    added(ledger, "plugs", 1, "--size", "72-cell tray")
    lot = begun(ledger, ("rooted", 5))
    result = recorded("pot", lot, "--count", "3", "--pot", "Plugs", ledger=ledger)
    assert "free" not in result.err
    entry = last_entry(ledger, lot)
    assert (entry["pot"], entry["pot_volume_l"]) == ("plugs", 0.042)
    assert drawer(ledger) == {"plugs": (72, 3, 69)}
    shown = cuttings("pot", lot, "--count", "2", "--pot", "plugs", ledger=ledger).out
    assert "in plugs;" in shown


def test_too_few_pots_are_warned_of_and_never_refused(ledger: Path) -> None:
    added(ledger, "4in", 5)
    lot = begun(ledger, ("rooted", 12))
    assert "free" not in recorded("pot", lot, "--count", "2", "--pot", "4in", ledger=ledger).err
    result = recorded("pot", lot, "--count", "6", "--pot", "4in", ledger=ledger)
    assert "only 3 of your 4in pots are free for these 6." in result.err
    assert result.stages == {"rooted": 4, "potted": 8}
    result = recorded("pot", lot, "--count", "1", "--pot", "4in", ledger=ledger)
    assert "none of your 4in pots are free" in result.err
    assert "free" not in recorded("pot", lot, "--count", "1", "--pot", "9cm", ledger=ledger).err
    shown = cuttings("pots", ledger=ledger).out
    assert "5 owned, 9 in use, 0 free" in shown
    assert "Take care" in shown
    assert "4 more pots are in use than you own" in shown


def test_advice_is_the_smallest_of_ones_own_that_is_free(ledger: Path) -> None:
    added(ledger, "old cans", 4, "--size", "#2")
    added(ledger, "tubs", 2, "--size", "#1")
    lot = begun(ledger, ("rooted", 9))
    pot = ("pot", lot, "--pot", "4in", "--spread", "4.4in")
    recorded(*pot, "--count", "2", ledger=ledger)
    assert "tubs" in last_entry(ledger, lot)["advised"]["pot"]
    recorded(*pot, "--count", "4", ledger=ledger)
    assert "old cans" in last_entry(ledger, lot)["advised"]["pot"]


def test_a_pot_smaller_than_its_class_says_so(ledger: Path) -> None:
    added(ledger, "#3", 1)
    added(ledger, "#1", 1)
    shown = cuttings("pots", ledger=ledger).out
    assert shown.count("the nursery standard has") == 1


def test_cleaning_tells_the_sums_in_both_units_and_what_never_to_mix(ledger: Path, metric: Path) -> None:
    shown = cuttings("pots", "clean", "--make", "10L", ledger=metric).out
    assert "For 10 L (2.6 gal): 1 L (1.1 qt) of household bleach" in " ".join(shown.split())
    assert "Never mix bleach" in shown
    assert "74 to 85 °C" in shown
    assert "Iowa State" not in shown
    assert "Iowa State" in cuttings("pots", "clean", "--why", ledger=metric).out
    assert "165 to 185 °F" in cuttings("pots", "clean", ledger=ledger).out
    soak = recorded("pots", "clean", "--make", "10L", "--bleach", "8.25", ledger=ledger).document["soak"]
    assert (soak["make_l"], soak["bleach_percent"]) == (10, 8.25)
    assert soak["bleach_l"] == pytest.approx(10 * 0.525 / 8.25, abs=0.001)
    assert soak["bleach_l"] + soak["water_l"] == pytest.approx(10, abs=0.001)


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [("--make", "plenty", "not a volume"), ("--make", "0L", "more than nothing"), ("--bleach", "90", "lies"),
     ("--bleach", "strong", "strong")],
)  # fmt: skip
def test_a_soak_that_cannot_be_is_misused(option: str, value: str, says: str, ledger: Path) -> None:
    misused("pots", "clean", option, value, ledger=ledger, saying=[option, says])


def test_clean_work_is_called_to_mind_once_a_day_and_only_at_a_terminal(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 6))
    pot = ("pot", lot, "--count", "1", "--pot", "4in")
    assert "bleach" not in cuttings(*pot, "--on", "2026-05-02", ledger=ledger).out
    with patch.object(desk, "at_terminal", return_value=True):
        first = cuttings(*pot, "--on", "2026-05-03", ledger=ledger).out
        strike = ("strike", "rosemary", "--wood", "softwood", "--count", "4")
        later = [
            cuttings(*words, "--on", "2026-05-03", ledger=ledger).out
            for words in (pot, strike, ("divide", "heuchera", "--pieces", "3"))
        ]
        next_day = cuttings(*strike, "--on", "2026-05-04", ledger=ledger).out
        as_json = cuttings(*pot, "--on", "2026-05-05", "--json", ledger=ledger).out
    assert "10 minutes in 1 part bleach to 9 of" in " ".join(first.split())
    assert not any("bleach" in each for each in later)
    assert "bleach" in next_day
    assert "bleach" not in as_json


def test_an_entry_of_the_drawer_is_told_in_words(ledger: Path) -> None:
    added(ledger, "squares", 3, "--size", "9cm square")
    result = cuttings("undo", ledger=ledger)
    assert result.code == 0
    assert "drawer: 3 more of squares (9cm square)" in " ".join(result.out.split())
