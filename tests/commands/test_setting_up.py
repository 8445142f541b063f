"""Describing the garden and its sites, option by option."""

from pathlib import Path

import pytest

from cuttings.words import Drainage, Light, Moisture, PathSide
from tests.commands.conftest import GARDEN
from tests.commands.expecting import misused, refused
from tests.commands.running import cuttings, recorded


def test_a_garden_is_described_with_every_option(tmp_path: Path) -> None:
    result = recorded("garden", "--name", "Quarry Bank", "--lat", "42.9", "--lon", "-76.1",
                      "--elevation", "330m", "--units", "us", "--zone", "5b", "--last-frost", "05-15",
                      "--first-frost", "09-30", "--last-frost-odds", "05-28,05-15,05-02",
                      "--first-frost-odds", "09-18,09-30,10-12", "--risk", "5", "--area", "gate strip",
                      "--area", "kitchen side", ledger=tmp_path)  # fmt: skip
    assert result.document == {
        "schema": 1,
        "entry": result.document["entry"],
        "name": "Quarry Bank",
        "lat": 42.9,
        "lon": -76.1,
        "elevation_m": 330.0,
        "units": "us",
        "zone": "5b",
        "last_frost": "05-15",
        "first_frost": "09-30",
        "last_frost_odds": ["05-28", "05-15", "05-02"],
        "first_frost_odds": ["09-18", "09-30", "10-12"],
        "risk": 0.05,
        "areas": ["gate strip", "kitchen side"],
    }
    shown = cuttings("garden", "--json", ledger=tmp_path).document
    assert {**shown, "entry": result.document["entry"]} == result.document


def test_a_garden_needs_only_the_options_that_are_not_in_brackets(tmp_path: Path) -> None:
    document = recorded("garden", "--name", "Quarry Bank", "--lat", "42.9", "--lon", "-76.1",
                        "--elevation", "1000", "--units", "us", ledger=tmp_path).document  # fmt: skip
    assert document["zone"] is None
    assert document["last_frost"] is None


def test_a_garden_without_its_details_names_each_that_is_missing(tmp_path: Path) -> None:
    misused("garden", ledger=tmp_path,
            saying=["--name", "--lat", "--lon", "--elevation", "--units", "us|metric"])  # fmt: skip


def test_one_fact_of_a_garden_changes_and_the_others_stay(ledger: Path) -> None:
    before = cuttings("garden", "--json", ledger=ledger).document
    after = recorded("garden", "--zone", "6a", "--area", "wet corner", ledger=ledger).document
    changed = {"zone": "6a", "areas": [*before["areas"], "wet corner"], "entry": after["entry"]}
    assert after == {**before, **changed}


@pytest.mark.parametrize(
    ("typed", "units", "metres"),
    [
        ("330m", "us", 330.0),
        ("1000ft", "us", 304.8),
        ("1000", "us", 304.8),
        ("330", "metric", 330.0),
        ("1000ft", "metric", 304.8),
        ("12 in", "metric", 0.3048),
        ("0", "us", 0.0),
    ],
)
def test_a_height_above_the_sea_is_read_in_either_system(
    typed: str, units: str, metres: float, tmp_path: Path
) -> None:
    words = (*GARDEN, "--elevation", typed, "--units", units)
    assert recorded(*words, ledger=tmp_path).document["elevation_m"] == pytest.approx(metres)


@pytest.mark.parametrize(
    "wrong",
    [
        ("--lat", "91"),
        ("--lat", "nan"),
        ("--lon", "181"),
        ("--units", "imperial"),
        ("--zone", "14a"),
        ("--last-frost", "15-05"),
        ("--last-frost-odds", "05-28,05-15"),
        ("--last-frost-odds", "05-02,05-15,05-28"),
        ("--first-frost-odds", "10-12,09-30,09-18"),
        ("--elevation", "high"),
    ],
)
def test_a_garden_value_that_cannot_be_is_misuse(wrong: tuple[str, str], tmp_path: Path) -> None:
    misused(*GARDEN, "--elevation", "330m", "--units", "us", *wrong, ledger=tmp_path, saying=[wrong[0]])


SITE_KEYS = {
    "name", "area", "light", "sun_hours", "length_m", "depth_m", "corners", "facing", "moisture", "drainage",
    "ph", "max_height_m", "path_side", "setback_m", "walnut", "children", "growing",
}  # fmt: skip


def test_a_site_is_added_with_every_option(ledger: Path) -> None:
    document = recorded("sites", "add", "herb corner", "--area", "kitchen side", "--light", "full-sun",
                        "--length", "8ft", "--depth", "5ft", "--facing", "180", "--moisture", "dry",
                        "--drainage", "sharp", "--ph", "6.8", "--max-height", "4ft", "--path-side", "left",
                        "--setback", "6in", "--walnut", "--children", ledger=ledger).document  # fmt: skip
    assert document.keys() >= {"schema", "entry"} | SITE_KEYS
    wanted = {"area": "kitchen side", "light": "full-sun", "facing": 180.0, "moisture": "dry",
              "drainage": "sharp", "ph": 6.8, "path_side": "left", "walnut": True,
              "children": True}  # fmt: skip
    assert {key: document[key] for key in wanted} == wanted
    lengths = [document[key] for key in ("length_m", "depth_m", "max_height_m", "setback_m")]
    assert lengths == pytest.approx([8 * 0.3048, 5 * 0.3048, 4 * 0.3048, 0.1524])
    assert "kitchen side" in cuttings("garden", "--json", ledger=ledger).document["areas"]


@pytest.mark.parametrize(
    ("option", "value"),
    [("--light", each.value) for each in Light]
    + [("--moisture", each.value) for each in Moisture]
    + [("--drainage", each.value) for each in Drainage]
    + [("--path-side", each.value) for each in PathSide],
)
def test_a_site_takes_every_word_of_every_option(option: str, value: str, ledger: Path) -> None:
    light = [] if option == "--light" else ["--sun-hours", "5"]
    words = ("sites", "add", "new bed", "--area", "gate strip", *light, option, value)
    assert recorded(*words, ledger=ledger).document[option[2:].replace("-", "_")] == value


def test_hours_of_sun_stand_for_a_light_class(ledger: Path) -> None:
    words = ("sites", "add", "new bed", "--area", "gate strip", "--sun-hours", "4.5")
    document = recorded(*words, ledger=ledger).document
    assert (document["sun_hours"], document["light"]) == (4.5, "part-sun")


def test_a_site_is_given_either_a_light_class_or_hours(ledger: Path) -> None:
    misused("sites", "add", "new bed", "--area", "gate strip", "--light", "shade", "--sun-hours", "8",
            ledger=ledger, saying=["--light", "--sun-hours"])  # fmt: skip


def test_a_site_is_given_either_sides_or_corners(ledger: Path) -> None:
    misused("sites", "add", "new bed", "--area", "gate strip", "--light", "shade", "--length", "8ft",
            "--corners", "0,0 4,0 4,2", ledger=ledger, saying=["--corners", "--length"])  # fmt: skip


def test_corners_are_metres_whatever_the_garden_counts_in(ledger: Path) -> None:
    words = ("sites", "add", "odd bed", "--area", "gate strip", "--light", "shade")
    document = recorded(*words, "--corners", "0,0 4,0 4,2.5 0,1", ledger=ledger).document
    assert document["corners"] == [[0.0, 0.0], [4.0, 0.0], [4.0, 2.5], [0.0, 1.0]]


@pytest.mark.parametrize(
    ("typed", "in_feet", "in_metres"),
    [
        ("6", 1.8288, 6.0),
        ("6ft", 1.8288, 1.8288),
        ("1.2m", 1.2, 1.2),
        ("120cm", 1.2, 1.2),
        ("40in", 1.016, 1.016),
    ],
)
def test_lengths_are_read_in_either_system_and_bare_ones_in_the_gardens(
    typed: str, in_feet: float, in_metres: float, ledger: Path, metric: Path
) -> None:
    words = ("sites", "add", "new bed", "--area", "gate strip", "--light", "shade", "--length", typed)
    assert recorded(*words, ledger=ledger).document["length_m"] == pytest.approx(in_feet)
    assert recorded(*words, ledger=metric).document["length_m"] == pytest.approx(in_metres)


def test_a_site_without_its_details_names_each_that_is_missing(ledger: Path) -> None:
    misused("sites", "add", ledger=ledger, saying=["NAME", "--area"])


def test_how_bright_and_how_large_a_site_is_may_be_left_open(ledger: Path) -> None:
    document = recorded("sites", "add", "new bed", "--area", "gate strip", ledger=ledger).document
    assert [document[key] for key in ("light", "sun_hours", "length_m", "depth_m")] == [None] * 4
    assert document["corners"] == []


def test_what_grows_on_a_site_is_written_down(ledger: Path) -> None:
    words = ("sites", "growing", "gate bed", "red currant", "--at", "1.2,0.5", "--spread", "4ft",
             "--planted", "2020-04-12")  # fmt: skip
    document = recorded(*words, ledger=ledger).document
    assert len(document["growing"]) == 1
    grown = document["growing"][0]
    assert (grown["plant"], grown["x"], grown["y"], grown["planted"]) == (
        "Ribes rubrum",
        1.2,
        0.5,
        "2020-04-12",
    )
    assert grown["spread_m"] == pytest.approx(4 * 0.3048)


def test_sites_are_listed_and_shown(ledger: Path) -> None:
    listed = cuttings("sites", "--json", ledger=ledger).document
    assert [site["name"] for site in listed["sites"]] == ["Gate Bed", "gate corner"]
    shown = cuttings("sites", "show", "GATE BED", "--json", ledger=ledger).document
    assert shown == {"schema": 1, **listed["sites"][0]}
    assert shown.keys() >= SITE_KEYS


def test_a_site_described_again_keeps_what_is_not_told_anew(ledger: Path) -> None:
    words = (
        "--area",
        "gate strip",
        "--light",
        "full-sun",
        "--length",
        "6m",
        "--depth",
        "2m",
        "--ph",
        "6",
        "--walnut",
    )
    recorded("sites", "add", "bank", *words, "--path-side", "front", "--setback", "20cm", ledger=ledger)
    document = recorded("sites", "add", "BANK", "--light", "shade", ledger=ledger).document
    assert (document["name"], document["light"], document["ph"], document["walnut"]) == (
        "bank",
        "shade",
        6.0,
        True,
    )
    assert (document["length_m"], document["depth_m"], document["path_side"]) == (6.0, 2.0, "front")
    assert document["setback_m"] == pytest.approx(0.2)


def test_a_plant_cannot_stand_outside_its_site(ledger: Path) -> None:
    refused("sites", "growing", "gate bed", "red currant", "--at", "100,1", ledger=ledger, saying=["outside"])


def test_three_dates_may_stand_where_an_average_is_asked_for(tmp_path: Path) -> None:
    words = (
        "--name",
        "Quarry Bank",
        "--lat",
        "42.9",
        "--lon",
        "-76.1",
        "--elevation",
        "330m",
        "--units",
        "us",
    )
    frost = ("--last-frost", "05-28,05-15,05-02", "--first-frost", "09-30")
    document = recorded("garden", *words, *frost, ledger=tmp_path / "ledger").document
    assert (document["last_frost"], document["last_frost_odds"]) == (None, ["05-28", "05-15", "05-02"])
    assert (document["first_frost"], document["first_frost_odds"]) == ("09-30", None)


@pytest.mark.parametrize(
    ("lat", "last", "first"), [("-45", "05-10", "10-01"), ("42", "10-03", "05-05"), ("-43", "04-25", "10-20")]
)
def test_frost_dates_of_the_other_half_of_the_earth_are_refused(
    lat: str, last: str, first: str, tmp_path: Path
) -> None:
    place = ("--name", "Quarry Bank", "--lat", lat, "--lon", "0", "--elevation", "10m", "--units", "metric")
    result = cuttings("garden", *place, "--last-frost", last, "--first-frost", first, ledger=tmp_path)
    assert result.code == 1
    assert "check the sign of the latitude" in result.err
    fitting = "05-10" if lat == "42" else "10-20"
    assert cuttings("garden", *place, "--last-frost", fitting, ledger=tmp_path).code == 0
