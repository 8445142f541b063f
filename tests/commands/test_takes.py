"""What takes, at the command line."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import misused, refused
from tests.commands.running import cuttings, recorded

DOCUMENT = {"schema", "by", "groups", "comparison", "left_out"}
GROUP = {
    "key", "said", "lots", "started", "rooted", "failed", "waiting", "gone", "mean", "interval", "level",
    "starts_from", "small", "came_with_roots", "potted", "a_year_on",
}  # fmt: skip
COMPARISON = {
    "by", "better", "worse", "better_counts", "worse_counts", "probability", "difference", "interval",
    "level", "log_odds_ratio", "log_odds_se", "verdict", "also_differ", "unmatched", "says",
}  # fmt: skip
BYS = ("plant", "method", "wood", "month", "dip", "medium", "cover", "place", "year")


def told(ledger: Path, *words: str) -> dict[str, Any]:
    document = recorded("takes", *words, ledger=ledger).document
    assert document.keys() - {"year"} == DOCUMENT
    assert ("year" in document) is ("--year" in words and "--by" not in words)
    for group in document["groups"]:
        assert group.keys() == GROUP
        assert list(group["key"]) == document["by"]
        assert group["started"] == group["rooted"] + group["failed"] + group["waiting"] + group["gone"]
        if group["came_with_roots"]:
            assert group["rooted"] == group["started"] > 0
            assert group["interval"] == [group["mean"]] * 2 == [1.0, 1.0]
        else:
            assert group["interval"][0] < group["mean"] < group["interval"][1]
        for survival in (group["potted"], group["a_year_on"]):
            if survival is not None:
                assert survival["came"] == survival["lived"] + survival["died"] + survival["undecided"] > 0
    comparison = document["comparison"]
    if comparison is not None:
        for each in (comparison, *comparison["others"]):
            assert each.keys() - {"others"} == COMPARISON
            assert (each["probability"] is None) is (each["verdict"] == "too-unlike")
    return document


def group_of(document: dict[str, Any], **key: Any) -> dict[str, Any]:
    (found,) = (group for group in document["groups"] if group["key"] == key)
    assert isinstance(found, dict)
    return found


def page(ledger: Path, *words: str) -> str:
    result = cuttings("takes", *words, "--plain", ledger=ledger)
    assert (result.code, result.err) == (0, "")
    return result.out


def trial(
    ledger: Path, lots: int, dip: str, rooted: int, failed: int, plant: str = "box", **more: str
) -> None:
    """Lots of semi-ripe cuttings, dipped or not, that all came to the same."""
    options = [word for name, value in more.items() for word in (f"--{name}", value)]
    for _ in range(lots):
        lot = recorded("strike", plant, "--wood", "semi-ripe", "--count", str(rooted + failed), "--dip", dip,
                       *options, "--on", "2025-08-10", ledger=ledger).lot  # fmt: skip
        recorded(
            "check",
            lot,
            "--rooted",
            str(rooted),
            "--failed",
            str(failed),
            "--on",
            "2025-11-10",
            ledger=ledger,
        )


def test_the_demo_is_told_by_plant_and_method(demo: Path) -> None:
    document = told(demo)
    assert document["by"] == ["plant", "method"]
    rosemary = group_of(document, plant="Salvia rosmarinus", method="semi-ripe-cutting")
    assert (rosemary["lots"], rosemary["started"], rosemary["rooted"]) == (1, 12, 7)
    assert rosemary["starts_from"]["published"] is True
    assert rosemary["starts_from"]["mean"] < rosemary["mean"] < 7 / 12
    assert rosemary["small"] is True
    assert rosemary["potted"] | {"mean": 0, "interval": 0} == {
        "lots": 1, "came": 7, "lived": 7, "died": 0, "undecided": 0, "mean": 0, "interval": 0,
    }  # fmt: skip
    snowdrop = group_of(document, plant="Galanthus nivalis", method="bulb-offset")
    assert (snowdrop["lots"], snowdrop["started"], snowdrop["a_year_on"]["lived"]) == (1, 16, 16)


def test_the_page_tells_every_share_with_its_count(demo: Path) -> None:
    out = page(demo)
    document = told(demo)
    rosemary = group_of(document, plant="Salvia rosmarinus", method="semi-ripe-cutting")
    mean, low, high = (round(share * 100) for share in (rosemary["mean"], *rosemary["interval"]))
    count_on = f"Count on about {mean} of 100, nine times in ten between {low} and {high};"
    stems = rosemary["starts_from"]["stems"]
    weighs = "weighs like two lots of ten" if stems >= 7.5 else "weighs like one lot of ten"
    start = f"starts from the published 48 ({weighs})."
    assert f"7 of 12 rooted; 1 lot. {count_on} {start} One lot only: little to go by." in out
    assert "box, semi-ripe cutting: 15 of 20 rooted, 3 failed and 2 still wait; 1 lot." in out
    year = group_of(document, plant="Galanthus nivalis", method="bulb-offset")["a_year_on"]
    mean, low, high = (round(share * 100) for share in (year["mean"], *year["interval"]))
    lived = f"16 of 16 lived a year (count on {mean} of 100, {low} to {high})"
    assert f"1 lot that came with roots. Planted: {lived}." in out
    assert "%" not in out


def test_one_plant_is_told_by_method_and_the_shares_are_drawn(demo: Path) -> None:
    assert told(demo, "--plant", "currant")["by"] == ["method"]
    out = cuttings("takes", "--plant", "currant", ledger=demo).out
    assert "o is what to count on" in out
    assert len([line for line in out.splitlines() if "---" in line and "o" in line]) == 2
    assert "o is what to count on" not in cuttings("takes", ledger=demo).out


@pytest.mark.parametrize("by", BYS)
def test_lots_are_told_apart_by_anything(by: str, demo: Path) -> None:
    document = told(demo, "--by", by)
    lots = recorded("lots", ledger=demo).document["lots"]
    kinds = [recorded("card", lot["lot"], ledger=demo).document["entries"][0]["kind"] for lot in lots]
    wanted = {
        "wood": sum(not lot["method"].endswith("-cutting") for lot in lots),
        "month": kinds.count("find"),
        **dict.fromkeys(("dip", "medium", "cover"), len(lots) - kinds.count("strike")),
    }
    assert document["groups"]
    assert sum(each["lots"] for each in document["left_out"]) == wanted.get(by, 0)


def test_several_are_told_together_however_they_are_given(demo: Path) -> None:
    crossed = told(demo, "--by", "month,place")
    assert crossed["by"] == ["month", "place"]
    assert told(demo, "--by", "month", "--by", "place", "--by", "month") == crossed
    assert group_of(crossed, month=11, place="kitchen side")["rooted"] == 11


def test_a_year_leaves_only_what_was_begun_in_it(demo: Path) -> None:
    document = told(demo, "--year", "2024")
    assert sum(group["started"] for group in document["groups"]) == document["year"]["started"] == 55
    assert sum(x["started"] for x in document["groups"] if not x["came_with_roots"]) == 34
    table = told(demo, "--year", "2024", "--by", "plant,method")
    assert table["groups"] == document["groups"]
    assert told(demo, "--year", "2019")["groups"] == []
    assert "No lots begun in 2019 yet" in page(demo, "--year", "2019", "--by", "method")


@pytest.mark.parametrize("option", ["--markdown", "--svg", "--price"])
def test_what_belongs_to_the_account_of_a_year_is_misused_without_it(option: str, demo: Path) -> None:
    for words in (("takes",), ("takes", "--year", "2024", "--by", "method")):
        misused(*words, option, "5", ledger=demo, saying=[f"{option} belongs to the account of a year"])


def test_with_a_dip_or_without(ledger: Path) -> None:
    trial(ledger, 3, "3000", 9, 1)
    trial(ledger, 3, "none", 3, 7)
    each = told(ledger, "--by", "dip")["comparison"]
    assert (each["verdict"], each["others"]) == ("better", [])
    assert (each["better"], each["worse"]) == ({"dip": "3000 ppm powder"}, {"dip": "none"})
    assert each["better_counts"] == {"lots": 3, "rooted": 27, "failed": 3, "waiting": 0}
    assert 0.9 < each["probability"] <= 1.0
    assert 0.2 < each["interval"][0] < each["difference"] < each["interval"][1] < 0.9
    said = "With a dip of 3000 ppm powder (27 of 30, 3 lots) more root than without a dip (9 of 30, 3 lots)."
    assert each["says"].startswith(said)
    assert said in page(ledger, "--by", "dip")
    assert "At least 99 chances in 100, by" in each["says"]


def test_those_that_still_wait_are_told_of_beside_the_share(ledger: Path) -> None:
    trial(ledger, 2, "3000", 9, 1)
    for _ in range(2):
        lot = recorded("strike", "box", "--wood", "semi-ripe", "--count", "10", "--dip", "none",
                       "--on", "2025-08-10", ledger=ledger).lot  # fmt: skip
        recorded(
            "check",
            lot,
            "--rooted",
            "4",
            "--failed",
            "2",
            "--not-yet",
            "4",
            "--on",
            "2026-04-30",
            ledger=ledger,
        )
    each = told(ledger, "--by", "dip")["comparison"]
    assert "than without a dip (8 of 20, 8 still waiting, 2 lots)" in each["says"]
    assert each["difference"] > 0.25


def test_only_groups_that_mix_plants_or_methods_are_said_to(ledger: Path) -> None:
    trial(ledger, 2, "3000", 9, 1)
    trial(ledger, 2, "none", 3, 7)
    assert "mix plants" not in page(ledger, "--by", "dip")
    trial(ledger, 1, "none", 3, 7, plant="rosemary")
    assert "mix plants" in page(ledger, "--by", "dip")


def test_equal_lots_leave_it_open(ledger: Path) -> None:
    trial(ledger, 2, "3000", 6, 4)
    trial(ledger, 2, "none", 6, 4)
    each = told(ledger, "--by", "dip")["comparison"]
    assert each["verdict"] == "cannot-tell"
    assert "no telling. 5 chances in 10 for the first, by 0 in 100, nine times in ten between" in each["says"]
    assert "fewer and" in each["says"]


def test_few_lots_are_said_to_be_too_few(ledger: Path) -> None:
    trial(ledger, 1, "3000", 9, 1)
    trial(ledger, 3, "none", 3, 7)
    each = told(ledger, "--by", "dip")["comparison"]
    assert each["verdict"] == "too-few"
    assert "(9 of 10, 1 lot)" in each["says"]
    assert "too few to tell; each side takes 2 lots and 10 known stems" in each["says"]


def test_counts_far_from_what_to_count_on_have_a_word_why(ledger: Path) -> None:
    trial(ledger, 2, "none", 0, 20)
    assert "Yours alone come to 0: two lots only, and lots differ." in page(ledger)
    assert "Yours alone" not in page(ledger, "--by", "year,place")
    trial(ledger, 4, "none", 10, 10, plant="lavender")
    assert page(ledger, "--plant", "lavender").count("Yours alone") == 0


def test_the_usual_is_weighed_in_lots(ledger: Path) -> None:
    trial(ledger, 2, "none", 5, 5)
    assert "starts from the usual 80 (weighs like one lot of ten)." in page(ledger)


def test_pairs_without_a_line_are_counted_as_what_they_are(ledger: Path) -> None:
    trial(ledger, 2, "3000", 9, 1)
    trial(ledger, 2, "none", 1, 9)
    trial(ledger, 2, "8000", 9, 1, plant="rosemary")
    out = page(ledger, "--by", "dip")
    assert "1 other pair tells no more." in out
    assert "--json" not in out


def test_asking_is_for_a_terminal_and_stands_alone(ledger: Path) -> None:
    misused("takes", "--ask", ledger=ledger, saying=["--by (plant|method|", "--plant NAME", "--year YEAR"])
    misused("takes", "--ask", "--by", "dip", ledger=ledger, saying=["--ask", "without other options"])


def test_another_plant_is_too_unlike(ledger: Path) -> None:
    trial(ledger, 3, "3000", 9, 1)
    trial(ledger, 3, "none", 3, 7, plant="rosemary")
    each = told(ledger, "--by", "dip")["comparison"]
    assert each["verdict"] == "too-unlike"
    assert "no plant by one method was tried both ways" in each["says"]
    assert told(ledger, "--by", "plant")["comparison"]["verdict"] == "better"


def test_what_else_differs_is_said_and_any_dip_is_set_against_none(ledger: Path) -> None:
    trial(ledger, 2, "3000", 8, 2, medium="sand")
    trial(ledger, 2, "8000", 7, 3, medium="sand")
    trial(ledger, 2, "none", 4, 6, medium="grit")
    document = told(ledger, "--by", "dip")
    every = [document["comparison"], *document["comparison"]["others"]]
    assert len(every) == 3
    (anyhow,) = (each for each in every if each["better"] == {"dip": "any"})
    assert anyhow["also_differ"] == ["medium"]
    assert "They differ in medium too, which may be what did it." in anyhow["says"]
    assert anyhow["says"].startswith("With any dip (30 of 40, 4 lots)")


def test_an_empty_ledger_tells_what_would_fill_it(ledger: Path) -> None:
    document = told(ledger)
    assert (document["groups"], document["comparison"]) == ([], None)
    out = page(ledger)
    assert "No lots yet. It fills by itself" in out
    assert "'cuttings strike PLANT'" in out


def test_lots_that_nobody_has_looked_at_leave_the_figure_as_it_is(ledger: Path) -> None:
    recorded("strike", "box", "--wood", "semi-ripe", "--count", "5", ledger=ledger)
    (group,) = told(ledger)["groups"]
    assert (group["waiting"], group["mean"]) == (5, pytest.approx(group["starts_from"]["mean"], abs=1e-3))
    assert "0 of 5 rooted, 5 still wait; 1 lot. Nothing is known of these yet; the usual 80 of 100" in page(
        ledger
    )


def test_a_thing_that_no_lot_tells_of_is_said_so(demo: Path) -> None:
    document = told(demo, "--plant", "heuchera", "--by", "dip")
    assert document["groups"] == []
    assert document["left_out"] == [
        {"by": "dip", "lots": 1, "why": "1 lot: only cuttings that were struck are dipped."}
    ]
    assert "None of the lots here tells of that." in page(demo, "--plant", "heuchera", "--by", "dip")


def test_a_day_in_the_past_knows_nothing_of_what_came_later(demo: Path) -> None:
    result = cuttings("takes", "--plant", "rosemary", "--json", "--on", "2024-09-10", ledger=demo)
    (group,) = result.document["groups"]
    assert (group["rooted"], group["failed"], group["waiting"], group["potted"]) == (0, 2, 10, None)


def test_why_names_the_sources(demo: Path) -> None:
    out = page(demo, "--plant", "rosemary", "--why")
    assert "Source: Flower and Ornamental Plants" in out
    assert "Potting starts from 90 in 100, the year after planting from 85; both from memory." in out


def test_what_cannot_be_meant_is_refused(demo: Path) -> None:
    misused("takes", "--by", "colour", ledger=demo, saying=["--by", "'colour' is none of", *BYS])
    misused("takes", "--by", "dip,", ledger=demo, saying=["--by"])
    misused("takes", "--year", "last", ledger=demo, saying=["--year", "'last' is not a whole number"])
    misused("takes", "--year", "24", ledger=demo, saying=["--year"])
    refused("takes", "--plant", "nonsense", ledger=demo, saying=["no lot of 'nonsense'"])


def test_a_plant_that_is_known_but_not_held_is_no_error(demo: Path) -> None:
    assert told(demo, "--plant", "holly")["groups"] == []
    assert "No lots of holly yet." in page(demo, "--plant", "holly")


def test_nothing_is_recorded_and_nothing_heavy_is_loaded(demo: Path) -> None:
    from tests.test_imports import NEVER, loaded_by

    before = (demo / "ledger.jsonl").read_bytes()
    report = loaded_by("takes", "--by", "method", "--on", date(2026, 5, 2).isoformat(), ledger=demo)
    assert not NEVER & set(report["loaded"])
    assert (demo / "ledger.jsonl").read_bytes() == before


def test_what_was_seen_later_teaches_nothing_on_an_earlier_day(ledger: Path) -> None:
    begun = recorded("strike", "box", "--wood", "semi-ripe", "--count", "10", "--on", "2025-08-01",
                     ledger=ledger).lot  # fmt: skip
    asked = ("card", begun, "--json", "--on", "2025-08-02")
    before = cuttings(*asked, ledger=ledger).document["rooting"]
    for _ in range(3):
        late = recorded("strike", "box", "--wood", "semi-ripe", "--count", "10", "--on", "2025-08-01",
                        ledger=ledger).lot  # fmt: skip
        recorded("check", late, "--rooted", "0", "--not-yet", "10", "--on", "2026-04-01", ledger=ledger)
        recorded("check", late, "--rooted", "9", "--failed", "1", "--on", "2026-05-01", ledger=ledger)
    assert cuttings(*asked, ledger=ledger).document["rooting"] == before
    now = cuttings("card", begun, "--json", ledger=ledger).document["rooting"]
    assert now["p50"] > before["p50"]


def test_no_comparison_is_called_certain(ledger: Path) -> None:
    trial(ledger, 8, "3000", 50, 0)
    trial(ledger, 8, "none", 0, 50)
    each = told(ledger, "--by", "dip")["comparison"]
    assert each["probability"] > 0.999
    assert "At least 99 chances in 100" in each["says"]
