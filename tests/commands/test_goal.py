"""Goal: the ways to so many of a plant by a day, what a place could hold, and the way that is kept."""

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import misused, numbers, refused, stretch
from tests.commands.running import MAY, cuttings, demo_garden, recorded

BY = ("--want", "5", "--by", "2027-10-15")


@pytest.fixture(scope="module")
def quarry(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("goal") / "demo")


def told(*words: str, ledger: Path, today: date = MAY) -> dict[str, Any]:
    result = cuttings("goal", *words, "--json", ledger=ledger, today=today)
    assert result.code == 0, result.err
    return result.document


def page(*words: str, ledger: Path) -> str:
    result = cuttings("goal", *words, ledger=ledger)
    assert result.code == 0, result.err
    assert max(len(line) for line in result.out.splitlines()) <= 80
    return " ".join(result.out.split())


def test_every_way_tells_how_many_when_and_how_sure(quarry: Path) -> None:
    document = told("red currant", *BY, ledger=quarry)
    assert (document["schema"], document["plant"], document["want"]) == (1, "Ribes rubrum", 5)
    starts = [way["start"] for way in document["ways"]]
    assert starts == sorted(starts)
    assert {way["method"] for way in document["ways"]} >= {"hardwood-cutting", "softwood-cutting"}
    for way in document["ways"]:
        stretch(way["opens"], way["start_by"])
        stretch(*way["ready"])
        assert way["start_by"] <= way["window"]["closes"]
        assert way["ready"][1] <= "2027-10-15"
        assert 0.9 <= way["certainty"] <= 1.0
        assert way["mother"] == "red currant on the fruit row"
        assert way["mother_young"] is False
        assert way["start"] >= way["losses"]["rooted"] >= way["losses"]["potted"] >= way["losses"]["alive"]
        numbers(way["alive"])
        assert way["bench_m2"] > 0.0
        assert way["pots"] <= way["start"]
        assert way["source"]
    assert "mound-layer" in {each["method"] for each in document["short"]}
    assert all(0.5 < each["certainty"] < 0.9 for each in document["short"])


def test_bottom_heat_makes_a_wish_of_late_autumn_come_true_by_spring(quarry: Path) -> None:
    """Bare wood on a warm base roots through the winter; outdoors it would not before the summer."""
    late, by = date(2026, 11, 26), ("--want", "5", "--by", "2027-05-01")
    document = told("red currant", *by, ledger=quarry, today=late)
    (way,) = document["ways"]
    assert (way["method"], way["bench"], way["heat_c"]) == ("hardwood-cutting", "warm", 20.0)
    assert way["start"] > 5
    assert way["ready"][1] <= "2027-05-01"
    result = cuttings("goal", "red currant", *by, ledger=quarry, today=late)
    said = " ".join(result.out.split())
    assert f"Strike {way['start']} with bottom heat from now" in said
    assert "keep the base at 68 °F (bottom heat) and the tops cool" in said


def test_what_roots_in_time_without_heat_is_offered_without(quarry: Path) -> None:
    ways = told("red currant", *BY, ledger=quarry)["ways"]
    assert {way["method"]: way["bench"] for way in ways}["hardwood-cutting"] == "open"
    assert all(way["heat_c"] is None for way in ways)


def test_a_way_with_heat_that_is_kept_is_struck_with_heat(tmp_path: Path) -> None:
    kept, late = demo_garden(tmp_path / "demo"), date(2026, 11, 26)
    words = ("--want", "5", "--by", "2027-05-01", "--keep", "hardwood-cutting")
    result = cuttings("goal", "red currant", *words, ledger=kept, today=late)
    assert "--wood hardwood --heat 20C' when you start." in " ".join(result.out.split())
    sheet = cuttings("week", "--json", ledger=kept, today=late).document["nudges"]
    (nudge,) = [each for each in sheet if each["id"].startswith("goal:")]
    assert "hardwood cuttings of red currant, with bottom heat: 5 wanted by 1 May 2027" in nudge["what"]
    assert cuttings("week", "--done", nudge["id"], ledger=kept, today=late).code == 0
    newest = cuttings("lots", "--json", ledger=kept, today=late).document["lots"][-1]["lot"]
    begun = cuttings("card", newest, "--json", ledger=kept, today=late).document["entries"][0]
    assert (begun["kind"], begun["heat_c"]) == ("strike", 20.0)


def test_less_certainty_asks_for_fewer(quarry: Path) -> None:
    def fewest(sure: str) -> int:
        return int(told("red currant", *BY, "--sure", sure, ledger=quarry)["ways"][0]["start"])

    assert fewest("50") < fewest("80") < fewest("95")


def test_the_page_says_it_in_sentences(quarry: Path) -> None:
    said = page("red currant", *BY, ledger=quarry)
    assert "5 by 15 October 2027, 90 times in 100; fewest to start first" in said
    assert re.search(r"Hardwood Strike 1\d between 25 October and \d+ March 2027", said)
    assert "root in time" in said
    assert re.search(r"\d+ live: \d+ to 1\d, nine times in ten", said)
    assert "times in 100." not in said
    assert "You hold 17 already on the way" in said
    assert "white pine blister rust" in said
    assert "'--keep hardwood-cutting' puts that way on the week's sheet" in said
    assert "Source" not in said
    why = page("red currant", *BY, "--why", ledger=quarry)
    assert "Source: University of Missouri" in why
    assert "come through potting" in why


def test_what_is_held_counts_only_when_it_is_asked_to(quarry: Path) -> None:
    alone = told("climbing hydrangea", *BY, ledger=quarry)
    both = told("climbing hydrangea", *BY, "--held", ledger=quarry)
    assert (alone["held"]["stems"], alone["held"]["counted"], both["held"]["counted"]) == (2, False, True)
    assert 0.0 < alone["held"]["alive"] < 2.0
    assert both["ways"][0]["start"] < alone["ways"][0]["start"]
    enough = told("red currant", *BY, "--held", ledger=quarry)
    assert enough["ways"] == []
    assert "they will do: at least 5 are alive by then" in page("red currant", *BY, "--held", ledger=quarry)
    late = ("--want", "2", "--by", "2027-10-15", "--held")
    assert told("box", *late, ledger=quarry, today=date(2026, 11, 26))["ways"] == []


def test_a_plant_that_the_garden_has_not_says_so(quarry: Path) -> None:
    document = told("English lavender", *BY, ledger=quarry)
    assert {way["mother"] for way in document["ways"]} == {None}
    assert "the material must come from elsewhere" in page("English lavender", *BY, ledger=quarry)


def test_pieces_are_divided_and_may_go_straight_into_the_ground(quarry: Path) -> None:
    document = told("heuchera", "--want", "5", "--by", "2026-10-15", ledger=quarry)
    first = document["ways"][0]
    assert (first["method"], first["losses"]["rooted"]) == ("crown-division", first["start"])
    assert first["mother_young"] is True
    said = page("heuchera", "--want", "5", "--by", "2026-10-15", ledger=quarry)
    assert "Divide into" in said
    assert "Straight into the ground, or" in said
    assert "It has stood for less than two years" in said


def test_a_day_too_soon_or_past_is_refused_with_the_first_that_would_do(quarry: Path) -> None:
    refused("goal", "box", "--want", "5", "--by", "2026-06-01", ledger=quarry,
            saying=["1 June is too soon.", "The soonest for 5 box is"])  # fmt: skip
    result = cuttings("goal", "box", "--want", "5", "--by", "2020-06-01", ledger=quarry)
    assert (result.code, result.out) == (1, "")
    soonest = result.err.rstrip().rpartition("--by ")[2].rstrip(".")
    assert told("box", "--want", "5", "--by", soonest, ledger=quarry)["ways"]
    before = date.fromordinal(date.fromisoformat(soonest).toordinal() - 1)
    early = cuttings("goal", "box", "--want", "5", "--by", before.isoformat(), "--json", ledger=quarry)
    assert early.code == 1 or not early.document["ways"]


def test_what_nobody_should_increase_is_refused(quarry: Path) -> None:
    refused("goal", "Reynoutria japonica", *BY, ledger=quarry, saying=["nobody makes more of it"])


def test_what_is_missing_or_cannot_be_read_is_misused(quarry: Path) -> None:
    misused("goal", ledger=quarry, saying=["PLANT", "--want (1 to 500)", "--by (a day to come"])
    misused("goal", "box", "--want", "5", "--by", "2027-10-15", "--sure", "100", ledger=quarry,
            saying=["--sure: 100 is too many"])  # fmt: skip
    misused("goal", "box", "--want", "501", "--by", "2027-10-15", ledger=quarry, saying=["501 is too many"])
    misused("goal", "box", "--want", "5", "--by", "soon", ledger=quarry, saying=["'soon' is not a date"])
    misused("goal", "box", "--want", "5", ledger=quarry, saying=["Missing: --by (a day to come"])
    misused("goal", "box", *BY, "--keep", "magic", ledger=quarry, saying=["--keep: 'magic' is none of"])
    result = cuttings("goal", "red currant", *BY, "--keep", "magic", ledger=quarry)
    offers = {way["method"] for way in told("red currant", *BY, ledger=quarry)["ways"]}
    assert set(result.err.rstrip(".\n").partition("none of: ")[2].split(", ")) == offers


@pytest.mark.parametrize("by", ["+150d", "29 september", "Sep 29", "29 sep 2026"])
def test_the_day_may_be_written_as_days_to_come_are(by: str, quarry: Path) -> None:
    assert told("red currant", "--want", "5", "--by", by, ledger=quarry)["by"] == "2026-09-29"


def test_a_way_is_kept_by_the_word_that_the_page_has_for_it(tmp_path: Path) -> None:
    ledger = demo_garden(tmp_path / "demo")
    told("red currant", *BY, "--keep", "Softwood", ledger=ledger)
    week = cuttings("week", "--from", "2026-06-02", "--json", ledger=ledger).document["nudges"]
    assert [each["what"] for each in week if "softwood cuttings of red currant: 5 wanted" in each["what"]]


def test_a_kept_way_stands_on_the_sheet_until_as_many_are_started(tmp_path: Path) -> None:
    ledger = demo_garden(tmp_path / "demo")
    document = told(
        "heuchera", "--want", "5", "--by", "2026-10-15", "--keep", "crown-division", ledger=ledger
    )
    assert document["kept"]
    start = document["ways"][0]["start"]
    week = cuttings("week", "--json", ledger=ledger).document
    wished = [each for each in week["nudges"] if each["id"].startswith("goal:")]
    assert [each["what"] for each in wished] == [
        f"Divide Heuchera into {start} pieces: 5 wanted by 15 October"
    ]
    done = recorded("week", "--done", wished[0]["id"], ledger=ledger)
    assert done.stages == {"rooted": start}
    week = cuttings("week", "--json", ledger=ledger).document
    assert not [each for each in week["nudges"] if each["id"].startswith("goal:")]
    recorded("undo", ledger=ledger)
    undone = recorded("undo", ledger=ledger)
    assert undone.document["schema"] == 1
    week = cuttings("week", "--json", ledger=ledger).document
    assert not [each for each in week["nudges"] if each["id"].startswith("goal:")]


def test_a_way_that_does_not_reach_the_goal_is_not_kept(quarry: Path) -> None:
    refused("goal", "red currant", *BY, "--keep", "mound-layer", ledger=quarry,
            saying=["Mound layer does not reach this goal", "--keep takes hardwood-cutting"])  # fmt: skip


def test_a_kept_way_stands_in_the_picture_of_the_season_and_in_the_calendar(tmp_path: Path) -> None:
    ledger = demo_garden(tmp_path / "demo")
    told("red currant", *BY, "--keep", "hardwood-cutting", ledger=ledger)
    season = cuttings("week", "--season", ledger=ledger).out
    assert "hardwood cutting" in season
    calendar = tmp_path / "week.ics"
    assert cuttings("week", "--from", "2026-10-24", "--ics", str(calendar), ledger=ledger).code == 0
    assert "hardwood cuttings of red currant" in calendar.read_text(encoding="utf-8").replace("\r\n ", "")


def test_an_empty_place_is_told_what_would_fit_and_how_it_is_made(quarry: Path) -> None:
    document = told("--site", "gate bed", ledger=quarry)
    assert document["site"] == "gate bed"
    scores = [way["score"] for way in document["ways"]]
    assert scores == sorted(scores, reverse=True)
    for way in document["ways"]:
        assert way["fits"] >= 1
        assert way["ready"][1] <= way["by"]
        assert way["want"] <= way["fits"]
        assert way["by"] > "2026-09-01"
    refused_there = {each["plant"] for each in document["refused"]}
    assert "Pulmonaria" in {name.split()[0] for name in refused_there}
    assert not refused_there & {way["plant"] for way in document["ways"]}
    said = page("--site", "gate bed", ledger=quarry)
    assert "room for" in said
    assert "Not there" in said


def test_no_more_are_planned_for_a_place_than_fit_there(quarry: Path) -> None:
    first = told("--site", "gate bed", ledger=quarry)["ways"][0]
    more = str(first["fits"] + 2)
    (way,) = told(first["plant"], "--site", "gate bed", "--want", more, ledger=quarry)["ways"]
    assert way["want"] == way["fits"] == first["fits"]
    said = page(first["plant"], "--site", "gate bed", "--want", more, ledger=quarry)
    assert f"Room for {first['fits']}, so {first['fits']} of the {more}:" in said


def test_what_is_in_care_is_told_of_first_and_counts_where_it_is_asked_to(quarry: Path) -> None:
    words = ("red currant", "--site", "fruit row", "--want", "2", "--by", "2027-10-15")
    (held,) = told(*words, ledger=quarry)["held"]
    assert (held["plant"], held["stems"], held["go_here"], held["counted"]) == ("Ribes rubrum", 17, 2, False)
    assert "2 could go here, fit to plant by 15 October 2027" in page(*words, ledger=quarry)
    counted = told(*words, "--held", ledger=quarry)
    assert (counted["ways"], counted["no_way"]) == ([], [])
    assert counted["held"][0]["counted"] is True
    said = page(*words, "--held", ledger=quarry)
    assert "You hold 17 already (" in said
    assert "; 2 go here, fit to plant by" in said
    assert "--held" not in said


def test_a_plant_that_is_only_in_care_may_give_material_from_there(tmp_path: Path) -> None:
    ledger = demo_garden(tmp_path / "demo")
    words = ("--wood", "softwood", "--count", "4")
    recorded("strike", "English lavender", *words, ledger=ledger)
    said = page("English lavender", *BY, ledger=ledger)
    assert "No English lavender stands in the ground, but 4 are in care and may give some." in said


def test_what_is_not_known_of_garden_or_site_is_said_once(tmp_path: Path) -> None:
    ledger = tmp_path / "bare"
    words = ("--name", "Low Acre", "--lat", "43", "--lon", "-75", "--units", "us", "--elevation", "100m")
    frosts = ("--last-frost", "05-15", "--first-frost", "09-30")
    assert cuttings("garden", *words, *frosts, ledger=ledger).code == 0
    size = ("--area", "front", "--light", "full-sun", "--length", "30ft", "--depth", "6ft")
    recorded("sites", "add", "long bed", *size, ledger=ledger)
    for plant in ("red currant", "English lavender", "box"):
        recorded("strike", plant, "--wood", "softwood", "--count", "4", ledger=ledger)
    lot = recorded("divide", "heuchera", "--pieces", "3", ledger=ledger).lot
    recorded("plant", lot, "--site", "long bed", "--count", "3", ledger=ledger)
    said = page("--site", "long bed", ledger=ledger)
    assert said.count("zone is not known") == 1
    assert said.count("3 plants here have no position") == 1
    assert "'cuttings garden --zone 5b' tells it" in said


def test_a_place_is_asked_about_one_plant(quarry: Path) -> None:
    document = told("red currant", "--site", "fruit row", "--want", "2", "--by", "2027-10-15", ledger=quarry)
    assert [(way["plant"], way["want"], way["by"]) for way in document["ways"]] == [
        ("Ribes rubrum", 2, "2027-10-15")
    ]


def test_a_garden_without_plants_has_nothing_to_put_on_a_site(ledger: Path) -> None:
    recorded("sites", "add", "new bed", "--area", "gate", ledger=ledger)
    refused("goal", "--site", "new bed", ledger=ledger, saying=["No plants are written down yet"])
