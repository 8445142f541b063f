"""Every command that only looks, option by option."""

from datetime import date
from pathlib import Path

import pytest

from cuttings.words import Method, Stage
from tests.commands.expecting import begun, stretch
from tests.commands.running import cuttings, demo_garden, recorded


def test_lots_are_chosen_by_stage_place_plant_and_label(demo: Path) -> None:
    def codes(*words: str) -> set[str]:
        return {lot["lot"] for lot in cuttings("lots", *words, "--json", ledger=demo).document["lots"]}

    every = codes()
    stands = recorded("tally", ledger=demo).document
    assert len(every) == stands["lots"]
    for stage in Stage:
        chosen = cuttings("lots", "--stage", stage.value, "--json", ledger=demo).document["lots"]
        assert all(lot["stages"][stage] for lot in chosen)
    assert codes("--stage", "waiting") < every
    assert codes("--place", "Holding Bench") < every
    assert codes("--plant", "red currant") == codes("--plant", "Ribes rubrum") < every
    unlabelled = cuttings("lots", "--unlabelled", "--json", ledger=demo).document["lots"]
    assert unlabelled
    assert all(not lot["label"] for lot in unlabelled)


def test_a_card_tells_everything_about_a_lot(demo: Path) -> None:
    for lot in cuttings("lots", "--json", ledger=demo).document["lots"]:
        document = cuttings("card", lot["lot"], "--json", ledger=demo).document
        assert document.keys() >= {"schema", "lot", "plant", "method", "started", "stages", "entries", "next",
                                   "rooting"}  # fmt: skip
        assert document["method"] in list(Method)
        assert sum(document["stages"].values()) == document["started"]
        assert set(document["stages"]) <= set(Stage)
        assert document["entries"]
        ahead = document["next"]
        if ahead is not None:
            assert ahead.keys() >= {"what", "from", "to", "why"}
            stretch(ahead["from"], ahead["to"])
        rooting = document["rooting"]
        assert (rooting is None) == (not document["stages"].get("waiting"))
        if rooting is not None:
            assert rooting.keys() == {"p10", "p50", "p90", "next_look", "give_up", "likely", "yet",
            "look_why",
                                      "give_up_why"}  # fmt: skip
            stretch(*rooting["likely"])
            yet = [0, *rooting["yet"], document["stages"]["waiting"]]
            assert yet == sorted(yet)
            for low, high in (("p10", "p50"), ("p50", "p90"), ("p90", "give_up")):
                stretch(rooting[low], rooting[high])


def test_a_trail_shows_what_was_taken_back_too(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    taken_back = recorded("check", lot, "--rooted", "1", ledger=ledger).document["entry"]
    recorded("undo", ledger=ledger)
    for trail, present in (((), False), (("--trail",), True)):
        entries = cuttings("card", lot, *trail, "--json", ledger=ledger).document["entries"]
        assert (taken_back in {entry["id"] for entry in entries}) is present


def test_the_tally_counts_every_stage(demo: Path) -> None:
    document = cuttings("tally", "--json", ledger=demo).document
    assert document.keys() == {"schema", "balanced", "lots", "started", "stages", "broken"}
    assert document["balanced"] is True
    assert document["broken"] == []
    assert set(document["stages"]) == set(Stage)
    assert sum(document["stages"].values()) == document["started"]
    assert document["lots"] == len(cuttings("lots", "--json", ledger=demo).document["lots"])


def test_a_damaged_ledger_does_not_balance_until_it_is_mended(demo: Path) -> None:
    file = demo / "ledger.jsonl"
    lines = file.read_bytes().splitlines(keepends=True)
    lines[5] = lines[5].replace(b'"who"', b'"why"')
    file.write_bytes(b"".join(lines))
    result = cuttings("tally", "--json", ledger=demo)
    assert result.code == 1
    assert result.document["balanced"] is False
    assert result.document["broken"]
    assert cuttings("tally", "--mend", "--json", ledger=demo).document.keys() == result.document.keys()
    assert any((demo / "backups").iterdir())


def test_the_week_is_a_sheet_of_nudges(demo: Path) -> None:
    document = cuttings("week", "--json", ledger=demo).document
    assert document.keys() >= {"schema", "from", "to", "minutes", "nudges"}
    assert (document["from"], document["to"]) == ("2026-05-02", "2026-05-08")
    assert isinstance(document["minutes"], int)
    assert document["nudges"]
    for nudge in document["nudges"]:
        assert nudge.keys() >= {"number", "id", "what", "lot", "area", "window", "minutes", "cost_of_waiting",
                                "why", "source", "planned"}  # fmt: skip
        window = nudge["window"]
        assert window.keys() == {"opens", "best", "closes", "odds"}
        days = [window["opens"], *window["best"], window["closes"]]
        assert days == sorted(days)
        assert all(date.fromisoformat(day) for day in days)
        assert nudge["minutes"] > 0
        assert nudge["cost_of_waiting"] >= 0
        assert nudge["planned"] is True
        assert nudge["why"]
        assert nudge["source"]
    assert len({nudge["id"] for nudge in document["nudges"]}) == len(document["nudges"])


def test_the_week_may_be_any_days_and_one_area(demo: Path) -> None:
    days = ("--from", "2026-07-01", "--to", "2026-07-03")
    document = cuttings("week", *days, "--area", "holding bench", "--json", ledger=demo).document
    assert (document["from"], document["to"]) == ("2026-07-01", "2026-07-03")
    assert {nudge["area"] for nudge in document["nudges"]} == {"holding bench"}
    assert cuttings("week", "--from", "monday", "--json", ledger=demo).document["from"] == "2026-04-27"


PLACED = {"lot", "site", "x", "y", "radius", "score", "for", "against", "spot"}


@pytest.mark.parametrize(
    "words", [("24-006",), ("24-006", "25-002"), ("--all",), ("24-006", "--site", "Fruit Row")]
)
def test_spots_are_offered_with_reasons(words: tuple[str, ...], demo: Path) -> None:
    document = cuttings("spot", *words, "--json", ledger=demo).document
    assert document.keys() == {"schema", "plan", "refused", "total", "bound", "gap"}
    assert document["plan"]
    for placed in document["plan"]:
        assert placed.keys() == PLACED
        assert isinstance(placed["for"], list)
        assert isinstance(placed["against"], list)
        if placed["spot"] is not None:
            assert min(placed["x"], placed["y"], placed["radius"]) > 0
    for refusal in document["refused"]:
        assert refusal.keys() == {"lot", "site", "because", "would_fit_if"}
        assert refusal["because"]
    assert document["total"] <= document["bound"] + 1e-9
    assert 0 <= document["gap"] <= 1
    if "--site" in words:
        assert {placed["site"] for placed in document["plan"]} == {"fruit row"}


def test_the_demo_is_kept_where_it_is_told_to_and_never_over_another(tmp_path: Path) -> None:
    folder = demo_garden(tmp_path / "kept")
    result = cuttings("demo", "--keep", str(folder), "--json", ledger=None)
    assert (result.code, result.out) == (1, "")
    assert str(folder) in result.err


def test_the_demo_plays_the_main_job_without_a_terminal(tmp_path: Path) -> None:
    result = cuttings("demo", "--script", "--keep", str(tmp_path / "kept"), ledger=None)
    assert result.code == 0
    played = [line.split()[2] for line in result.out.splitlines() if line.startswith("$ cuttings ")]
    assert (played[0], played[-1]) == ("find", "tally")
    assert {"check", "pot", "week", "harden", "spot", "plant", "give", "card"} < set(played)
    assert cuttings("tally", "--json", ledger=tmp_path / "kept").document["balanced"]


def test_a_scripted_demo_answers_one_document_too(tmp_path: Path) -> None:
    result = cuttings("demo", "--script", "--keep", str(tmp_path / "kept"), "--json", ledger=None)
    assert result.code == 0
    assert result.document["ledger"] == str(tmp_path / "kept")
    assert cuttings("tally", "--json", ledger=tmp_path / "kept").document["balanced"]
