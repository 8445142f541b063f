"""Obstacles written down, the sun they leave, and what each of them costs."""

import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cuttings.placement.light import LIMITS
from tests.commands.running import Result, cuttings, recorded

BARN = ("--kind", "building", "--from", "150", "--to", "230", "--distance", "4m", "--height", "6m")
TREE = ("--kind", "tree", "--bearing", "100", "--width", "8m", "--distance", "5m", "--height", "7m",
        "--base", "2m", "--leaf", "05-10,10-20", "--density", "0.8", "--called", "the old pear")  # fmt: skip
DARK = ("--kind", "wall", "--from", "85", "--to", "255", "--distance", "1m", "--height", "9m")


def obstacle(*words: str, ledger: Path, site: str = "Gate Bed") -> Result:
    return recorded("sites", "obstacle", site, *words, ledger=ledger)


def sun(*words: str, ledger: Path, site: str = "Gate Bed") -> Result:
    return recorded("sites", "sun", site, *words, ledger=ledger)


def not_judged(ledger: Path) -> None:
    """Takes back the class of light that was told of the bed."""
    recorded("sites", "add", "Gate Bed", "--light", "not-known", ledger=ledger)


def test_an_obstacle_is_kept_and_takes_sun(metric: Path) -> None:
    document = obstacle(*TREE, ledger=metric).document
    (kept,) = document["obstacles"]
    assert (kept["kind"], kept["name"], kept["base_m"], kept["density"]) == ("tree", "the old pear", 2.0, 0.8)
    assert kept["leaf"] == ["05-10", "10-20"]
    assert kept["end"] - kept["start"] == pytest.approx(77.3196, abs=1e-3)
    assert document["season_hours"] < document["season_hours_before"]
    shown = cuttings("sites", "show", "gate bed", ledger=metric).out
    words = " ".join(shown.split())
    assert "Shade 1 the old pear (tree) to the east, from 61° to 139°, 5 m away and 7 m high" in words
    assert "its branches 2 m up, in leaf from 10 May to 20 October, keeping off 80 % of the sun." in words


@pytest.mark.parametrize(
    ("said", "middle"), [("SE", 135.0), ("south-south-west", 202.5), ("North", 0.0), ("north west", 315.0)]
)
def test_a_bearing_may_be_a_point_of_the_compass(said: str, middle: float, metric: Path) -> None:
    words = ("--kind", "fence", "--bearing", said, "--width", "4m", "--distance", "4m", "--height", "2m")
    (kept,) = obstacle(*words, ledger=metric).document["obstacles"]
    assert kept["start"] == pytest.approx((middle - 26.565) % 360.0, abs=0.001)


def test_the_sun_before_and_after_is_said(ledger: Path) -> None:
    said = " ".join(cuttings("sites", "obstacle", "gate bed", *BARN, ledger=ledger).out.split())
    assert "Recorded Gate Bed: a building to the south, from 150° to 230°, 13 ft 1 in away" in said
    assert "a day before" in said
    assert "You told full sun, and spots go by that" in said


def test_an_obstacle_that_is_gone_gives_its_sun_back(metric: Path) -> None:
    before = sun(ledger=metric).document["season_hours"]
    obstacle(*BARN, ledger=metric)
    obstacle(*TREE, ledger=metric)
    document = obstacle("--gone", "1", ledger=metric).document
    assert [each["kind"] for each in document["obstacles"]] == ["tree"]
    assert document["season_hours"] > document["season_hours_before"]
    assert obstacle("--gone", "1", ledger=metric).document["season_hours"] == before


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("--gone", "2"), 2, "--gone: 2 is too many; 1 is the most. 'cuttings sites show' numbers them."),
        (("--gone", "first"), 2, "'first' is not a whole number"),
        (("--gone", "1", "--kind", "wall"), 2, "Give --gone by itself"),
        ((*BARN, "--width", "3m"), 2, "Give either --from and --to, or --bearing and --width."),
        ((*BARN[:3], "230", "--to", "150", *BARN[6:]), 2, "turn the bearings round"),
        ((*BARN[:-1], "0m"), 2, "--height: '0m' must be more than nothing."),
        ((*BARN, "--density", "1.5"), 2, "--density: 1.5 will not do"),
        ((*BARN, "--leaf", "05-10"), 2, "--leaf: '05-10' is not two days"),
        ((*BARN, "--leaf", "05-10,13-01"), 2, "--leaf: '13-01' is not a month and day"),
        (("--kind", "wall", "--from", "10"), 2, "Missing: --to (degrees); --distance"),
        ((), 2, "Missing: --kind (wall|fence|building|hedge|tree); --bearing"),
    ],
)
def test_what_cannot_be_read_is_said(words: tuple[str, ...], code: int, says: str, ledger: Path) -> None:
    obstacle(*TREE, ledger=ledger)
    before = (ledger / "ledger.jsonl").read_bytes()
    result = cuttings("sites", "obstacle", "gate bed", *words, ledger=ledger)
    assert result.code == code
    assert says in result.err
    assert (ledger / "ledger.jsonl").read_bytes() == before


def test_nothing_can_be_gone_where_nothing_stands(ledger: Path) -> None:
    result = cuttings("sites", "obstacle", "gate bed", "--gone", "1", ledger=ledger)
    assert (result.code, result.err) == (1, "Nothing is written down that stands round Gate Bed.\n")


def test_the_sun_is_told_as_the_contract_says(metric: Path) -> None:
    obstacle(*BARN, ledger=metric)
    document = sun(ledger=metric).document
    assert (document["latitude"], document["longitude"]) == (42.9, -76.1)
    assert len(document["monthly_hours"]) == 12
    assert document["date_hours"] is None
    halves = document["morning_hours"] + document["afternoon_hours"]
    assert halves == pytest.approx(document["season_hours"], abs=0.02)
    assert document["light"] == "full-sun"
    assert document["season"] == ["05-15", "09-30"]
    assert document["light_source"] == LIMITS.source
    heights = dict(map(tuple, document["horizon"]))
    assert heights[190.0] == pytest.approx(56.31, abs=0.01)
    assert heights[100.0] == 0.0
    assert next(height for azimuth, height in document["horizon"] if azimuth == 150.0) == 0.0


def test_a_day_is_told_with_its_own_skyline(metric: Path) -> None:
    obstacle(*TREE, ledger=metric)
    bare, green = (sun("--date", day, ledger=metric).document for day in ("2026-05-09", "2026-05-10"))
    assert bare["date"] == "2026-05-09"
    assert bare["date_hours"] > green["date_hours"] + 1
    assert max(height for _, height in bare["horizon"]) == 0.0 < max(height for _, height in green["horizon"])
    assert green["morning_hours"] + green["afternoon_hours"] == pytest.approx(green["date_hours"], abs=0.02)
    assert green["morning_hours"] < bare["morning_hours"]
    assert bare["season_hours"] == green["season_hours"]


def test_a_site_nobody_has_judged_goes_by_what_stands_round_it(metric: Path) -> None:
    not_judged(metric)
    assert recorded("sites", "show", "gate bed", ledger=metric).document["light"] is None
    document = obstacle(*DARK, ledger=metric).document
    assert document["light"] == "part-sun"
    assert document["sun_hours"] == pytest.approx(document["season_hours"], abs=0.1)
    (listed, *_) = recorded("sites", ledger=metric).document["sites"]
    assert listed["light"] == "part-sun"
    assert "part sun (5.5 hours)" in cuttings("sites", "show", "gate bed", ledger=metric).out


def test_the_page_names_who_sets_the_limits(ledger: Path) -> None:
    obstacle(*BARN, ledger=ledger)
    page = " ".join(cuttings("sites", "sun", "gate bed", ledger=ledger).out.split())
    assert f"Full sun is 6 hours or more, by {LIMITS.source}." in page
    assert "* 21 June + equinox o 21 December : hidden" in page
    assert "Jan" in page


@pytest.mark.parametrize("columns", ["40", "80", "100", "200"])
def test_the_page_fits(columns: str, ledger: Path) -> None:
    obstacle(*TREE, ledger=ledger)
    for words in (("sun",), ("sun", "--date", "2026-12-01"), ("check",), ("show",)):
        line = ("sites", words[0], "gate bed", *words[1:])
        page = cuttings(*line, ledger=ledger, encoding="ascii", env={"COLUMNS": columns})
        assert page.code == 0
        # A degree sign is longer in ASCII than as it was laid out.
        assert all(len(each.replace(" deg ", "°")) <= int(columns) for each in page.out.splitlines())


def test_the_plain_page_says_what_the_drawing_shows(ledger: Path) -> None:
    obstacle(*BARN, ledger=ledger)
    said = cuttings("sites", "sun", "gate bed", "--plain", ledger=ledger).out
    assert (
        "Round it: a building to the south, from 150° to 230°, 13 ft 1 in away and 19 ft 8 in high." in said
    )
    assert "On 21 June the sun shines from 4:25 to 19:35, by sun time." in said
    assert "On 21 December the sun shines from 7:35 to 9:5" in said
    assert "Hours of direct sun a day by month: January" in said
    assert "::" not in said


def test_open_ground_says_that_nothing_is_known(ledger: Path) -> None:
    page = cuttings("sites", "sun", "gate bed", ledger=ledger).out
    assert "Nothing is written down that stands round it" in page


def test_a_day_without_sun_says_so(tmp_path: Path) -> None:
    recorded("garden", "--name", "North", "--lat", "70", "--lon", "20", "--elevation", "5m",
             "--units", "metric", ledger=tmp_path)  # fmt: skip
    recorded("sites", "add", "bed", "--area", "yard", ledger=tmp_path)
    assert sun("--date", "2026-12-21", ledger=tmp_path, site="bed").document["date_hours"] == 0.0
    assert (
        "no direct sun at all" in cuttings("sites", "sun", "bed", "--date", "2026-12-21", ledger=tmp_path).out
    )
    assert sun("--date", "2026-06-21", ledger=tmp_path, site="bed").document["date_hours"] == 24.0


def test_the_drawing_is_written(ledger: Path, tmp_path: Path) -> None:
    obstacle(*TREE, "--called", "<pear> & co", ledger=ledger)
    file = tmp_path / "sky.svg"
    assert sun("--svg", str(file), ledger=ledger).document["season_hours"] > 0
    root = ET.parse(file).getroot()
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    description = root.findtext("{http://www.w3.org/2000/svg}desc") or ""
    assert "<pear> & co (tree)" in description


def test_a_drawing_that_cannot_be_written_is_refused(ledger: Path, tmp_path: Path) -> None:
    result = cuttings("sites", "sun", "gate bed", "--svg", str(tmp_path / "no" / "sky.svg"), ledger=ledger)
    assert result.code == 1
    assert "cannot be written (No such file or directory); name another file." in result.err
    assert result.out == ""


@pytest.mark.parametrize("words", [("sun", "bed"), ("check", "bed")])
def test_the_sun_needs_to_know_where_the_garden_lies(words: tuple[str, str], tmp_path: Path) -> None:
    recorded("sites", "add", "bed", "--area", "yard", ledger=tmp_path)
    result = cuttings("sites", *words, ledger=tmp_path)
    assert (result.code, "'cuttings garden' asks for it" in result.err) == (1, True)
    document = obstacle(*BARN, ledger=tmp_path, site="bed").document
    assert document["season_hours"] is None
    assert "It is not reckoned yet" in cuttings("sites", "obstacle", "bed", *BARN, ledger=tmp_path).out


def test_a_date_that_is_none_is_misuse(ledger: Path) -> None:
    result = cuttings("sites", "sun", "gate bed", "--date", "someday", ledger=ledger)
    assert (result.code, result.err.startswith("--date: 'someday' is not a date")) == (2, True)


def test_check_tells_what_each_costs(metric: Path) -> None:
    obstacle(*DARK, ledger=metric)
    obstacle(*TREE, ledger=metric)
    document = recorded("sites", "check", "gate bed", ledger=metric).document
    wall, pear = document["obstacles"]
    assert document["change"] is None
    assert wall["without"]["light"] == "full-sun"
    assert wall["costs_hours"] == pytest.approx(
        wall["without"]["season_hours"] - document["season_hours"], abs=0.01
    )
    assert wall["in_leaf_all_year"] is None
    assert pear["in_leaf_all_year"]["season_hours"] <= document["season_hours"]
    assert pear["without"]["monthly_hours"][0] == document["monthly_hours"][0]
    page = " ".join(cuttings("sites", "check", "gate bed", ledger=metric).out.split())
    assert "Bare all year it would cost nothing" in page
    assert "licensed arborist" in page
    assert "buried" not in page


def test_check_tells_what_a_new_wall_would_change(metric: Path) -> None:
    recorded("sites", "growing", "gate bed", "red currant", "--at", "1,1", ledger=metric)
    recorded("sites", "growing", "gate bed", "rosemary", "--at", "3,1", ledger=metric)
    before = (metric / "ledger.jsonl").read_bytes()
    document = recorded("sites", "check", "gate bed", *DARK, ledger=metric).document
    change = document["change"]
    assert document["light"] == "full-sun"
    assert change["light"] == "part-sun"
    assert change["costs_hours"] == pytest.approx(document["season_hours"] - change["season_hours"], abs=0.01)
    assert min(change["monthly_costs_hours"]) >= 0.0
    assert [each["plant"] for each in change["no_longer_suited"]] == ["Salvia rosmarinus"]
    page = " ".join(cuttings("sites", "check", "gate bed", *DARK, ledger=metric).out.split())
    assert "From full sun it would become part sun." in page
    assert "Salvia rosmarinus likes full sun; in part sun it may flower less." in page
    assert "buried pipes and cables" in page
    assert (metric / "ledger.jsonl").read_bytes() == before


def test_check_asks_for_all_of_an_obstacle_or_none(ledger: Path) -> None:
    result = cuttings("sites", "check", "gate bed", "--kind", "wall", ledger=ledger)
    assert result.code == 2
    assert result.err.startswith(
        "Missing: --bearing (degrees from true north, or --from and --to); --width ("
    )
    assert result.err.count("; ") == 3


def test_a_line_of_json_is_one_document(ledger: Path) -> None:
    result = cuttings("sites", "sun", "gate bed", "--json", ledger=ledger)
    assert json.loads(result.out)["schema"] == 1
    assert result.err == ""
