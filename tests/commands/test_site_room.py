"""Room on the sites: told, made by thinning, and filled."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import misused, refused
from tests.commands.running import cuttings, recorded


def shown(ledger: Path, site: str = "gate bed") -> dict[str, Any]:
    return recorded("sites", "show", site, ledger=ledger).document


def grows(ledger: Path, plant: str, at: str, spread: str, *more: str) -> None:
    recorded("sites", "growing", "gate bed", plant, "--at", at, "--spread", spread, *more, ledger=ledger)


def page(*words: str, ledger: Path) -> str:
    result = cuttings(*words, ledger=ledger, env={"COLUMNS": "100"})
    assert result.code == 0, result.err
    return " ".join(result.out.split())


def test_an_empty_site_is_all_free(metric: Path) -> None:
    site = shown(metric)
    assert (site["area_m2"], site["free_m2"], site["held_m2"], site["grown_m2"]) == (9.0, 9.0, 0.0, 0.0)
    assert site["widest_free_m"] == pytest.approx(1.5)
    assert site["crowding"] == []
    assert "all free (9 m²)" in page("sites", ledger=metric)


def test_a_site_of_no_size_says_so(metric: Path) -> None:
    site = shown(metric, "gate corner")
    assert (site["area_m2"], site["free_m2"], site["widest_free_m"]) == (None, None, None)
    assert "Its size is not known" in page("sites", "show", "gate corner", ledger=metric)


def test_free_and_held_and_grown_are_told_in_both_units(metric: Path, ledger: Path) -> None:
    for folder in (metric, ledger):
        recorded(
            "sites", "growing", "gate bed", "red currant", "--at", "1,0.75", "--spread", "1.2m", ledger=folder
        )
        lot = recorded("find", "heuchera", "--method", "crown-division", "--count", "1", ledger=folder).lot
        recorded("spot", lot, "--hold", "gate-bed@3.00,0.75", ledger=folder)
        site = shown(folder)
        assert site["grown_m2"] == pytest.approx(1.13, abs=0.01)
        assert site["held_m2"] > 0.1
        total = site["free_m2"] + site["held_m2"] + site["grown_m2"]
        assert total == pytest.approx(9.0, abs=0.02)
    assert "of 9 m²); 1 spot held" in page("sites", ledger=metric)
    assert "of 97 sq ft); 1 spot held" in page("sites", ledger=ledger)


def test_what_will_crowd_is_told_with_its_year_and_what_to_do(metric: Path) -> None:
    recorded(
        "sites", "growing", "gate bed", "red currant", "--at", "1,0.75", "--spread", "1.2m", ledger=metric
    )
    grows(metric, "siberian iris", "1.7,0.75", "0.6m", "--planted", "2026-04-20")
    (crowd,) = shown(metric)["crowding"]
    assert {crowd["plant"], crowd["other"]} == {"Ribes rubrum", "Iris sibirica"}
    assert (crowd["against"], crowd["now"], crowd["overlap_m"]) == ("plant", False, 0.2)
    assert (crowd["do"], crowd["to"]) == ("divide", "Iris sibirica")
    told = page("sites", "show", "gate bed", "--why", ledger=metric)
    assert f"{crowd['year']} Ribes rubrum" in told
    assert "Divide Iris sibirica" in told
    assert "nobody has said when it was planted" in told
    assert f"crowding from {crowd['year']}" in page("sites", ledger=metric)


def test_what_reaches_over_path_and_height_and_held_spots_is_told(metric: Path) -> None:
    recorded("sites", "add", "gate bed", "--path-side", "front", "--setback", "20cm", "--max-height", "1m",
             ledger=metric)  # fmt: skip
    lot = recorded("find", "heuchera", "--method", "crown-division", "--count", "1", ledger=metric).lot
    recorded("spot", lot, "--hold", "gate-bed@1.70,0.75", ledger=metric)
    grows(metric, "red currant", "1,0.75", "1.2m")
    crowds = shown(metric)["crowding"]
    assert {each["against"] for each in crowds} == {"path", "height", "held"}
    assert {each["spot"] for each in crowds} == {None, "gate-bed@1.70,0.75"}
    told = page("sites", "show", "gate bed", ledger=metric)
    assert "reaches into the room kept free along the path, in the end by 5 cm." in told
    assert "grows higher than anything may here" in told
    assert f"grows over gate-bed@1.70,0.75, held for {lot}" in told
    assert "'cuttings spot --release gate-bed@1.70,0.75'" in told
    assert "crowded already" in page("sites", ledger=metric)


def test_a_young_plant_is_told_with_its_width_now_and_full_grown(metric: Path) -> None:
    grows(metric, "red currant", "1,0.75", "1.2m", "--planted", "2025-05-02")
    assert "about 38 cm across now, 1.2 m full grown by 2032" in page(
        "sites", "show", "gate bed", ledger=metric
    )


def test_plants_that_nobody_measured_are_told_in_one_line(demo: Path) -> None:
    told = page("sites", "show", "walnut fringe", ledger=demo)
    assert told.count("Galanthus nivalis") == 1
    assert "16 of Galanthus nivalis" in told
    assert "16 plants have no position" in told


@pytest.fixture
def bed(metric: Path) -> Path:
    """A bed with a plant at a place, two of another kind, and one nobody measured."""
    for plant, *at in (
        ("winter jasmine", "--at", "0.9,0.9"),
        ("red currant", "--at", "2,0.7"),
        ("red currant", "--at", "4,0.7"),
        ("red currant", "--at", ""),
    ):
        recorded("sites", "growing", "gate bed", plant, *at, ledger=metric)
    return metric


def places(ledger: Path) -> list[tuple[str, float | None]]:
    return [(each["plant"], each["x"]) for each in shown(ledger)["growing"]]


@pytest.mark.parametrize(
    "words", [("winter jasmine",), ("jasmine",), ("JASMINUM",), ("--at", "0.9,0.9"), ("--at", "1,0.8")]
)
def test_a_plant_comes_off_the_plan_by_name_or_place(bed: Path, words: tuple[str, ...]) -> None:
    before = shown(bed)["free_m2"]
    answer = recorded("sites", "thin", "gate bed", *words, ledger=bed).document
    assert [each["plant"] for each in answer["growing"]] == ["Ribes rubrum"] * 3
    assert answer["free_m2"] > before
    cuttings("undo", ledger=bed)
    assert shown(bed)["free_m2"] == before


def test_of_several_the_one_that_is_named(bed: Path) -> None:
    refused(
        "sites", "thin", "gate bed", "red currant", ledger=bed, saying=("@2.00,0.70", "@4.00,0.70", "--at")
    )
    recorded("sites", "thin", "gate bed", "Ribes rubrum@4.00,0.70", ledger=bed)
    assert places(bed)[1:] == [("Ribes rubrum", 2.0), ("Ribes rubrum", None)]
    recorded("sites", "thin", "gate bed", "Ribes rubrum", ledger=bed)
    assert places(bed)[1:] == [("Ribes rubrum", 2.0)]


def test_what_does_not_grow_there_cannot_come_off(bed: Path) -> None:
    refused("sites", "thin", "gate bed", "forsythia", ledger=bed, saying=("Jasminum nudiflorum@0.90,0.90",))
    refused("sites", "thin", "gate bed", "red currant", "--at", "6,1", ledger=bed)
    refused("sites", "thin", "gate corner", "red currant", ledger=bed, saying=("nothing",))
    refused("sites", "thin", "nowhere", "red currant", ledger=bed, saying=("There is no site",))
    misused("sites", "thin", "gate bed", ledger=bed, saying=("PLANT",))
    misused("sites", "thin", "gate bed", "--at", "far", ledger=bed)


def test_a_plant_of_a_lot_is_ended_by_its_lot(demo: Path) -> None:
    refused("sites", "thin", "gate bed", "rosemary", "--at", "3,0.8", ledger=demo,
            saying=("24-004", "cuttings lose 24-004 --stage planted"))  # fmt: skip


def fill(ledger: Path, *words: str) -> dict[str, Any]:
    return recorded("sites", "fill", *words, ledger=ledger).document


@pytest.mark.parametrize(("pattern", "count"), [("square", 70), ("triangle", 68)])
def test_a_patch_of_4_by_1_2_m_at_30_cm_with_plants_on_its_edge(
    metric: Path, pattern: str, count: int
) -> None:
    told = fill(metric, "gate bed", "siberian iris", "--patch", "4mx1.2m", "--spacing", "30cm",
                "--pattern", pattern, "--edge", "on")  # fmt: skip
    assert told["count"] == len(told["positions"]) == count
    assert {"pattern": pattern, "edge": "on", "count": count} in told["counts"]
    assert told["odd"] == count - 1
    assert told["patch"] == {"length_m": 4.0, "depth_m": 1.2}


@pytest.mark.parametrize("patch", ["4x1.2", "4 m x 1.2 m", "4m × 120cm", "4m by 1.2m"])
def test_a_patch_may_be_written_in_several_ways(metric: Path, patch: str) -> None:
    told = fill(metric, "gate bed", "siberian iris", "--patch", patch)
    assert told["patch"] == {"length_m": 4.0, "depth_m": 1.2}


def test_the_free_ground_is_filled_round_what_grows_there(metric: Path) -> None:
    before = fill(metric, "gate bed", "heuchera")
    recorded(
        "sites", "growing", "gate bed", "red currant", "--at", "3,0.75", "--spread", "1.2m", ledger=metric
    )
    after = fill(metric, "gate bed", "heuchera")
    assert 0 < after["count"] < before["count"]
    assert before["pattern"] == "triangle"
    assert before["spacing_source"]


def test_a_drift_is_an_odd_number_of_the_pattern(metric: Path) -> None:
    whole = fill(metric, "gate bed", "heuchera")
    told = fill(metric, "gate bed", "heuchera", "--drift")
    assert told["drift"] is True
    assert told["count"] == told["odd"] < whole["count"]


def test_the_gardens_own_stems_are_counted(metric: Path) -> None:
    lot = recorded("find", "heuchera", "--method", "crown-division", "--count", "4", ledger=metric).lot
    recorded("find", "red currant", "--method", "simple-layer", "--count", "4", "--rooted", ledger=metric)
    told = fill(metric, "gate bed", "heuchera")
    assert told["own"] == [{"lot": lot, "stems": 4}]
    assert told["to_make"] == told["count"] - 4
    assert f"4 could be used (4 of {lot}); {told['to_make']} more" in page(
        "sites", "fill", "gate bed", "heuchera", ledger=metric
    )


def test_a_plant_nobody_knows_is_set_out_at_a_middling_width(metric: Path) -> None:
    result = cuttings("sites", "fill", "gate bed", "planta ignota", "--json", ledger=metric)
    assert result.document["spacing_m"] > 0.1
    assert result.document["count"] > 0


def test_what_cannot_be_filled_is_said(metric: Path) -> None:
    iris = ("sites", "fill", "gate bed", "siberian iris")
    refused(*iris, "--patch", "20mx2m", ledger=metric, saying=("6 m by 1.5 m",))
    refused("sites", "fill", "gate corner", "siberian iris", ledger=metric, saying=("--patch",))
    misused(*iris, "--patch", "4m", ledger=metric, saying=("4mx1.2m",))
    misused(*iris, "--patch", "4mx0m", ledger=metric)
    misused(*iris, "--spacing", "wide", ledger=metric)
    misused(*iris, "--spacing", "3mm", ledger=metric)
    misused(*iris, "--pattern", "round", ledger=metric, saying=("square, triangle",))
    misused(*iris, "--edge", "on", ledger=metric, saying=("--patch",))
    misused(*iris, "--patch", "4mx1m", "--edge", "by-area", ledger=metric)
    misused(*iris, "--drift", "--pattern", "square", ledger=metric)
    misused("sites", "fill", "gate bed", ledger=metric, saying=("PLANT",))


def test_no_room_is_an_answer(metric: Path) -> None:
    assert "no room for one" in page(
        "sites", "fill", "gate bed", "siberian iris", "--spacing", "3m", ledger=metric
    )


def test_a_patch_may_be_counted_on_a_site_of_no_size(metric: Path) -> None:
    assert fill(metric, "gate corner", "siberian iris", "--patch", "2mx1m")["count"] > 0


def test_the_drawing_is_left_out_of_the_plain_page(metric: Path) -> None:
    told = page("sites", "fill", "gate bed", "heuchera", "--plain", ledger=metric)
    assert "+--" not in told
    assert "back: " in told
    assert "+--" in page("sites", "fill", "gate bed", "heuchera", ledger=metric)


def test_on_tells_the_sites_as_they_will_be(metric: Path) -> None:
    grows(metric, "red currant", "1,0.75", "1.2m", "--planted", "2026-05-01")
    later = cuttings("sites", "show", "gate bed", "--on", "2040-05-01", ledger=metric, today=date(2026, 5, 2))
    assert "1.2 m across full grown" in " ".join(later.out.split())
