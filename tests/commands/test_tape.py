"""Positions by tape on the command line: told, refused, and given back."""

from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import begun, misused, refused
from tests.commands.running import cuttings, recorded

BED = "Gate Bed"
GROWING = ("sites", "growing", BED, "box", "--spread", "1m")
MARK = ("mark", "snowdrop", "--for", "lift")


def shown(*words: str, ledger: Path) -> str:
    """What is said without ``--json``, as running text."""
    result = cuttings(*words, ledger=ledger)
    assert result.code == 0, result.err
    return " ".join(result.out.split())


def planted(ledger: Path) -> dict[str, Any]:
    site = cuttings("sites", "show", BED, "--json", ledger=ledger).document
    plant = site["growing"][-1]
    assert isinstance(plant, dict)
    return plant


def marks(ledger: Path) -> list[dict[str, Any]]:
    found = cuttings("mark", "--list", "--json", ledger=ledger).document["marks"]
    assert isinstance(found, list)
    return found


def test_a_plant_is_placed_by_tape_on_the_side_that_lies_on_the_site(metric: Path) -> None:
    said = shown(*GROWING, "--tape", "A=2.05m B=4.20m", ledger=metric)
    assert "By tape 1.88 m along and 82 cm back, to the left of the line from A to B" in said
    assert "B; within about 9 cm." in said
    assert "only that one lies on Gate Bed" in said
    plant = planted(metric)
    assert (plant["x"], plant["y"]) == (1.88, 0.82)
    assert [each["from"] for each in plant["tape"]] == ["A", "B"]
    assert [each["distance_m"] for each in plant["tape"]] == pytest.approx([2.05, 4.2], abs=0.01)
    assert "By tape: A 2.05 m, B 4.20 m." in shown("sites", "show", BED, ledger=metric)


def test_feet_and_inches_are_read_and_told_back(ledger: Path) -> None:
    recorded(*GROWING, "--tape", "A=6ft9in B=13ft 9in", ledger=ledger)
    assert "By tape: A 6 ft 9 in, B 13 ft 9 in." in shown("sites", "show", BED, ledger=ledger)


@pytest.mark.parametrize(
    ("tape", "saying"),
    [
        ("A=1m B=2m", "together they are 3.00 m long, and A and B stand 6.00 m apart, which is 3.00 m more"),
        ("A=9m B=2m", "the tape from A is 1.00 m too long to meet the one from B"),
        ("A=5m B=5m", "The tapes cross 2.5 m outside Gate Bed; measure again."),
        ("A=2m C=5m", "Gate Bed has no point C to measure from (it has A, B)"),
    ],
)
def test_a_tape_that_leads_nowhere_is_refused(tape: str, saying: str, metric: Path) -> None:
    refused(*GROWING, "--tape", tape, ledger=metric, saying=[saying])
    refused(*GROWING, "--at", tape, ledger=metric, saying=[saying])


def test_the_wrong_side_is_refused(metric: Path) -> None:
    refused(*GROWING, "--tape", "A=2.05m B=4.20m", "--side", "right", ledger=metric, saying=["other side?"])


def test_a_tape_that_cannot_be_read_is_misuse(metric: Path) -> None:
    misused(*GROWING, "--tape", "A 2m B 5m", ledger=metric, saying=["--tape", "write them like A=3.20m"])
    misused(*GROWING, "--tape", "A=2m B=5m", "--at", "1,1", ledger=metric, saying=["either --at or --tape"])
    misused(*GROWING, "--at", "1,1", "--side", "left", ledger=metric, saying=["--side goes with --tape"])
    misused(*GROWING, "--tape", "A=2.05m B=4.2m", "--side", "up", ledger=metric, saying=["left, right"])


def test_tapes_that_nearly_meet_are_put_on_the_line_and_said_to_fix_it_poorly(metric: Path) -> None:
    result = recorded(*GROWING, "--tape", "A=2m B=3.96m", ledger=metric)
    assert result.document["by_tape"]["side"] is None
    assert result.document["by_tape"]["poorly_fixed"]
    assert planted(metric)["y"] == 0.0
    said = shown(*GROWING, "--tape", "A=2m B=3.96m", ledger=metric)
    assert "The tapes miss each other by 4 cm; read to the nearest 5 cm they meet, on the line." in said
    assert "so it is poorly fixed: measure from a point further off to the side" in said


def test_a_place_a_little_outside_is_put_on_the_edge(metric: Path) -> None:
    said = shown(*GROWING, "--tape", "A=3.36m B=3.36m", ledger=metric)
    assert "By the tape it lies 1 cm outside; it is put on the edge." in said
    assert (planted(metric)["x"], planted(metric)["y"]) == (3.0, 1.5)


def test_a_lot_is_planted_by_tape_and_found_on_its_card(metric: Path) -> None:
    lot = begun(metric, ("ready", 1))
    result = recorded("plant", lot, "--site", BED, "--tape", "A=3.10m B=3.15m", ledger=metric)
    assert result.document["at"] == [[2.97, 0.87]]
    assert result.document["by_tape"]["side"] == "left"
    card = recorded("card", lot, ledger=metric).document["planted"]
    assert [(each["site"], each["x"], each["y"]) for each in card] == [(BED, 2.97, 0.87)]
    assert "Planted Gate Bed, 2.97 m along and 87 cm back. By tape: A 3.09 m, B 3.15 m." in shown(
        "card", lot, ledger=metric
    )


def test_a_spot_is_held_by_tape(metric: Path) -> None:
    lot = begun(metric, ("ready", 1))
    result = recorded("spot", lot, "--hold", BED, "--tape", "A=3.10m B=3.15m", ledger=metric)
    assert result.document["spot"] == "gate-bed@2.97,0.87"
    assert result.document["by_tape"]["within_m"] == pytest.approx(0.094, abs=0.001)
    held = cuttings("sites", "show", BED, "--json", ledger=metric).document["held"]
    assert [each["from"] for each in held[0]["tape"]] == ["A", "B"]
    assert "Held gate-bed@2.97,0.87, 2.97 m along" in shown("card", lot, ledger=metric)
    misused("spot", lot, "--tape", "A=3m B=4m", ledger=metric, saying=["--hold"])
    misused("spot", lot, "--hold", "gate-bed@1.00,1.00", "--tape", "A=3m B=4m", ledger=metric)
    misused("spot", lot, "--side", "left", ledger=metric, saying=["--tape"])


def test_points_are_named_moved_and_listed(metric: Path) -> None:
    corners = cuttings("sites", "point", BED, "--json", ledger=metric).document["points"]
    told = [(each["name"], each["x"], each["told"]) for each in corners]
    assert told == [("A", 0.0, False), ("B", 6.0, False)]
    recorded("sites", "point", BED, "tap", "--at=-1,-0.5", ledger=metric)
    moved = recorded("sites", "point", BED, "TAP", "--at", "2,-1", ledger=metric).document["points"]
    assert [(each["name"], each["x"], each["y"]) for each in moved[2:]] == [("tap", 2.0, -1.0)]
    words = ("sites", "point", BED, "post", "--tape", "A=3m tap=2m")
    misused(*words, ledger=metric, saying=["--side (left|right)", "from A to tap"])
    post = recorded(*words, "--side", "right", ledger=metric).document
    assert post["by_tape"]["side"] == "right"
    assert (post["points"][-1]["x"], post["points"][-1]["y"]) == (1.11, -2.79)
    listed = shown("sites", "point", BED, ledger=metric)
    assert "tap 2 m along and 1 m before the front." in listed
    assert "post 1.11 m" in listed
    recorded(*GROWING, "--tape", "post=4m B=5m", ledger=metric)
    undone = recorded("undo", post["entry"], ledger=metric)
    assert undone.code == 0
    assert "post 1.11 m" not in shown("sites", "point", BED, ledger=metric)


def test_a_point_needs_a_name_that_can_stand_before_a_distance(metric: Path) -> None:
    misused("sites", "point", BED, "gate post", "--at", "2,2", ledger=metric, saying=["such as gate-post"])
    misused("sites", "point", BED, "--at", "2,2", ledger=metric, saying=["Give the point a name"])
    misused("sites", "point", BED, "tap", ledger=metric, saying=["--at"])
    misused("sites", "point", BED, "tap", "--at", "2", ledger=metric, saying=["x,y such as 1.2,-0.5"])


def test_both_places_on_the_site_need_the_side(metric: Path) -> None:
    for name, at in (("A", "0,0.75"), ("B", "6,0.75")):
        recorded("sites", "point", BED, name, "--at", at, ledger=metric)
    tape = (*GROWING, "--tape", "A=3.05m B=3.05m")
    misused(*tape, ledger=metric, saying=["Both lie on Gate Bed", "--side (left|right)"])
    recorded(*tape, "--side", "right", ledger=metric)
    assert planted(metric)["y"] == 0.2
    assert "right of the line from A to B" in shown("sites", "show", BED, ledger=metric)


def test_a_mark_s_tape_alone_is_kept_as_it_was_typed(metric: Path) -> None:
    document = recorded(*MARK, "--tape", "A=3.20m B = 4.75 m", ledger=metric).document
    assert document["tape"] == "A=3.20m B = 4.75 m"
    assert [document[key] for key in ("site", "at", "apart_m", "side", "within_m", "poorly_fixed")] == [
        None
    ] * 6
    assert "Tape: A=3.20m B = 4.75 m" in shown("mark", "--list", ledger=metric)


def test_a_mark_is_placed_on_a_site(metric: Path) -> None:
    said = shown(*MARK, "--site", "gate bed", "--tape", "A=2.05m B=4.20m", ledger=metric)
    assert "1.88 m along and 82 cm back, to the left of the line from A to B; within about 9 cm" in said
    assert marks(metric)[0]["at"] == [1.88, 0.82]
    assert marks(metric)[0]["site"] == BED
    listed = shown("mark", "--list", ledger=metric)
    assert "Tape: A=2.05m B=4.20m. It lies 1.88 m along and 82 cm back on Gate Bed, to the left" in listed
    assert "moved" not in listed
    recorded("sites", "point", BED, "B", "--at", "5,0", ledger=metric)
    assert "A point has moved since: today it is A 2.05 m, B 3.23 m." in shown(
        "mark", "--list", ledger=metric
    )


def test_a_mark_may_lie_beside_a_site(metric: Path) -> None:
    words = (*MARK, "--site", BED, "--tape", "A=5m B=5m")
    misused(*words, ledger=metric, saying=["Neither lies on Gate Bed"])
    assert recorded(*words, "--side", "right", ledger=metric).document["at"] == [3.0, -4.0]
    refused(*MARK, "--site", BED, "--tape", "A=1m B=1m", ledger=metric, saying=["do not meet"])
    refused(
        *MARK, "--site", "gate corner", "--tape", "A=1m B=1m", ledger=metric, saying=["length is not known"]
    )


def test_a_mark_is_placed_between_two_trees_on_no_plan(metric: Path) -> None:
    words = (*MARK, "--tape", "oak=3m elm=4m", "--apart", "5m")
    misused(*words, ledger=metric, saying=["--side (left|right)", "from oak to elm"])
    said = shown(*words, "--side", "left", ledger=metric)
    assert "1.8 m along the line from oak to elm and 2.4 m to its left; within about 4 cm." in said
    mark = marks(metric)[0]
    assert (mark["site"], mark["apart_m"], mark["side"], mark["at"]) == (None, 5.0, "left", [1.8, 2.4])
    assert mark["within_m"] == pytest.approx(0.035, abs=0.001)
    assert "It lies 1.8 m along the line from oak to elm" in shown("mark", "--list", ledger=metric)
    on_line = recorded(*MARK, "--tape", "oak=3m elm=2m", "--apart", "5m", ledger=metric).document
    assert (on_line["side"], on_line["at"], on_line["poorly_fixed"]) == (None, [3.0, 0.0], True)
    assert "poorly fixed" in shown("mark", "--list", ledger=metric)


def test_what_says_where_the_points_are_goes_with_a_tape(metric: Path) -> None:
    for words in (("--site", BED), ("--apart", "5m"), ("--side", "left")):
        misused(*MARK, *words, ledger=metric, saying=["go with --tape"])
    tape = ("--tape", "A=3m B=4m")
    misused(*MARK, *tape, "--side", "left", ledger=metric, saying=["--side goes with --site or --apart"])
    misused(*MARK, *tape, "--site", BED, "--apart", "5m", ledger=metric, saying=["either --site, or --apart"])
    misused(*MARK, *tape, "--apart", "far", ledger=metric, saying=["--apart", "is not a length"])
    refused(*MARK, *tape, "--apart", "5cm", ledger=metric, saying=["one place or nearly so"])
