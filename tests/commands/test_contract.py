"""What scripts and other programs may rely on: every option, answer and refusal, as published."""

import os
import random
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from rich.cells import cell_len

from cuttings.commands import desk
from cuttings.words import Cause, Drainage, LayerHow, Light, Method, Moisture, PathSide, Purpose, Stage, Wood
from tests.commands.running import MAY, Result, cuttings, demo_garden, recorded, spawned

GARDEN = ("garden", "--name", "Quarry Bank", "--lat", "42.9", "--lon", "-76.1", "--zone", "5b",
          "--last-frost-odds", "05-28,05-15,05-02", "--first-frost-odds", "09-18,09-30,10-12",
          "--area", "gate strip", "--area", "holding bench")  # fmt: skip
RECORDING = {"schema", "entry", "lot", "stages"}


def _made(folder: Path, units: str) -> Path:
    recorded(*GARDEN, "--elevation", "330m", "--units", units, ledger=folder)
    recorded("sites", "add", "Gate Bed", "--area", "gate strip", "--light", "full-sun",
             "--length", "6m", "--depth", "1.5m", ledger=folder)  # fmt: skip
    recorded("sites", "add", "gate corner", "--area", "gate strip", "--light", "part-sun", ledger=folder)
    return folder


@pytest.fixture(scope="module")
def us_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _made(tmp_path_factory.mktemp("us") / "ledger", "us")


@pytest.fixture(scope="module")
def metric_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _made(tmp_path_factory.mktemp("metric") / "ledger", "metric")


@pytest.fixture(scope="module")
def kept_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("demo") / "quarry-bank")


@pytest.fixture
def ledger(us_garden: Path, tmp_path: Path) -> Path:
    """A garden in US units with two sites and no lots."""
    return Path(shutil.copytree(us_garden, tmp_path / "ledger"))


@pytest.fixture
def metric(metric_garden: Path, tmp_path: Path) -> Path:
    """The same garden in metric units."""
    return Path(shutil.copytree(metric_garden, tmp_path / "metric"))


@pytest.fixture
def demo(kept_demo: Path, tmp_path: Path) -> Path:
    """The demo garden on the second of May."""
    return Path(shutil.copytree(kept_demo, tmp_path / "demo"))


def begun(ledger: Path, *stages: tuple[str, int]) -> str:
    """A red currant lot that holds so many stems at each of the stages waiting, rooted, potted and on."""
    wanted = dict(stages)
    past = {"rooted": 1, "potted": 2, "hardening": 3, "ready": 4}
    lot = recorded("find", "red currant", "--method", "simple-layer", "--count", str(sum(wanted.values())),
                   ledger=ledger).lot  # fmt: skip

    def through(least: int) -> str:
        return str(sum(count for stage, count in wanted.items() if past.get(stage, 0) >= least))

    steps: list[tuple[int, tuple[str, ...]]] = [
        (1, ("check", lot, "--rooted", through(1))),
        (2, ("pot", lot, "--count", through(2), "--pot", "4in")),
        (3, ("harden", lot, "--start", "--count", through(3))),
        (4, ("harden", lot, "--finish", "--count", through(4))),
    ]
    for least, words in steps:
        if through(least) != "0":
            recorded(*words, ledger=ledger)
    assert standing(ledger, lot) == wanted
    return lot


def standing(ledger: Path, lot: str) -> dict[str, int]:
    return recorded("card", lot, ledger=ledger).stages


def last_entry(ledger: Path, lot: str) -> dict[str, Any]:
    entry = recorded("card", lot, "--trail", ledger=ledger).document["entries"][-1]
    assert isinstance(entry, dict)
    return entry


def refused(*words: str, ledger: Path, saying: Sequence[str] = ()) -> None:
    """The facts do not allow it: exit 1, one sentence on stderr, nothing on stdout, nothing written."""
    _fails(1, *words, ledger=ledger, saying=saying)


def misused(*words: str, ledger: Path, saying: Sequence[str] = ()) -> None:
    """It cannot be read, or too little was given: exit 2, and nothing written."""
    _fails(2, *words, ledger=ledger, saying=saying)


def _fails(code: int, *words: str, ledger: Path, saying: Sequence[str]) -> None:
    file = ledger / "ledger.jsonl"
    before = file.read_bytes() if file.exists() else b""
    result = cuttings(*words, ledger=ledger)
    assert (result.code, result.out) == (code, ""), result
    assert result.err.rstrip().endswith((".", "?"))
    assert "Traceback" not in result.err
    for word in saying:
        assert word in result.err
    assert (file.read_bytes() if file.exists() else b"") == before


def stretch(low: object, high: object) -> None:
    assert date.fromisoformat(str(low)) <= date.fromisoformat(str(high))


def numbers(pair: object) -> None:
    assert pair is None or (isinstance(pair, list) and len(pair) == 2 and pair[0] <= pair[1])


# Setting up


def test_a_garden_is_described_with_every_option(tmp_path: Path) -> None:
    result = recorded("garden", "--name", "Quarry Bank", "--lat", "42.9", "--lon", "-76.1",
                      "--elevation", "330m", "--units", "us", "--zone", "5b", "--last-frost", "05-15",
                      "--first-frost", "09-30", "--last-frost-odds", "05-28,05-15,05-02",
                      "--first-frost-odds", "09-18,09-30,10-12", "--area", "gate strip",
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


# Names and dates


def test_names_match_without_case(ledger: Path) -> None:
    lot = recorded("find", "RED CURRANT", "--method", "simple-layer", "--rooted", ledger=ledger).lot
    assert recorded("card", lot, ledger=ledger).document["plant"] == "Ribes rubrum"
    planted = recorded("plant", lot, "--site", "gate BED", ledger=ledger)
    assert planted.stages == {"planted": 1}
    assert cuttings("week", "--area", "GATE strip", "--json", ledger=ledger).code == 0
    assert (
        len(cuttings("lots", "--all", "--plant", "Ribes RUBRUM", "--json", ledger=ledger).document["lots"])
        == 1
    )


def test_an_ambiguous_site_is_refused_with_the_candidates(ledger: Path) -> None:
    refused("sites", "show", "gate", ledger=ledger, saying=["Gate Bed", "gate corner"])


def test_an_ambiguous_area_is_refused_with_the_candidates(demo: Path) -> None:
    refused("week", "--area", "e", ledger=demo, saying=["gate strip", "kitchen side"])


def test_an_ambiguous_plant_is_refused_with_the_candidates(ledger: Path) -> None:
    words = ("find", "llium", "--method", "bulb-offset")
    refused(*words, ledger=ledger, saying=["Lilium", "Allium"])


def test_an_ambiguous_lot_is_refused_with_the_candidates(ledger: Path) -> None:
    for _ in range(2):
        recorded("find", "red currant", "--method", "simple-layer", ledger=ledger)
    refused("card", "currant", ledger=ledger, saying=["26-001", "26-002"])


def test_what_is_not_there_is_refused(ledger: Path) -> None:
    refused("card", "26-099", ledger=ledger, saying=["26-099"])
    refused("sites", "show", "orchard", ledger=ledger, saying=["Gate Bed"])
    refused("plants", "zzyzx plonkweed", ledger=ledger, saying=["zzyzx plonkweed"])
    refused("undo", "nosuchentry", ledger=ledger, saying=["nosuchentry"])
    refused("week", "--area", "moon", ledger=ledger, saying=["gate strip"])


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-04-11", date(2026, 4, 11)),
        ("today", MAY),
        ("yesterday", date(2026, 5, 1)),
        ("friday", date(2026, 5, 1)),
        ("Monday", date(2026, 4, 27)),
        ("sunday", date(2026, 4, 26)),
        ("saturday", date(2026, 4, 25)),
    ],
)
def test_an_entry_is_dated_as_people_speak(typed: str, day: date, ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "simple-layer", "--on", typed, ledger=ledger).lot
    assert last_entry(ledger, lot)["on"] == day.isoformat()


@pytest.mark.parametrize("typed", ["tomorrowish", "2026-02-30", "05-12", ""])
def test_a_date_that_is_none_is_misuse(typed: str, ledger: Path) -> None:
    misused("find", "red currant", "--method", "simple-layer", "--on", typed, ledger=ledger, saying=["--on"])


# Global options, before and after the command


@pytest.mark.parametrize(
    "words",
    [
        ("find", "red currant", "--method", "tip-layer"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "5"),
        ("layer", "red currant", "--how", "simple"),
        ("divide", "Siberian iris", "--pieces", "3"),
        ("mark", "snowdrop", "--for", "lift"),
        ("check", "26-001", "--not-yet", "1"),
        ("pot", "26-001", "--pot", "4in"),
        ("harden", "26-001", "--start"),
        ("plant", "26-001", "--count", "1", "--site", "gate bed"),
        ("give", "26-001", "--count", "1"),
        ("sell", "26-001", "--count", "1"),
        ("lose", "26-001", "--count", "1", "--stage", "waiting", "--cause", "rot"),
        ("undo",),
        ("note", "26-001", "slow to start"),
        ("sites", "add", "new bed", "--area", "gate strip", "--light", "shade"),
        ("sites", "growing", "gate bed", "red currant", "--at", "1,1"),
        ("garden", "--zone", "6a"),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_global_options_stand_before_or_after_a_recording_command(
    words: tuple[str, ...], ledger: Path, tmp_path: Path
) -> None:
    lot = begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    twin = Path(shutil.copytree(ledger, tmp_path / "twin"))
    options = ("--json", "--on", "2026-05-02", "--who", "M.", "--why", "--plain")
    before = cuttings(*options, *words, ledger=ledger)
    after = cuttings(*words, *options, "--ledger", str(twin), ledger=None)
    assert before.code == after.code == 0, before.err + after.err
    assert before.document.keys() == after.document.keys()
    assert before.document["schema"] == 1
    assert before.document.get("stages") == after.document.get("stages")
    for folder in (ledger, twin):
        line = (folder / "ledger.jsonl").read_text(encoding="utf-8").splitlines()[-1]
        assert '"who":"M."' in line
        assert '"on":"2026-05-02"' in line
    assert lot == "26-001"


LOOKING: Sequence[tuple[str, ...]] = [
    ("lots",),
    ("card", "26-001"),
    ("tally",),
    ("week",),
    ("spot", "25-002"),
    ("plants", "red currant"),
    ("plants",),
    ("sites",),
    ("sites", "show", "fruit row"),
    ("garden",),
    ("harden", "25-004"),
    ("mark", "--list"),
    (),
]


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_global_options_stand_before_or_after_a_looking_command(words: tuple[str, ...], demo: Path) -> None:
    options = ("--json", "--on", "2026-05-02", "--who", "M.", "--why", "--plain")
    before = cuttings(*options, *words, ledger=demo)
    after = cuttings(*words, *options, "--ledger", str(demo), ledger=None)
    assert before.code == after.code == 0
    assert before.document == after.document
    assert before.document["schema"] == 1
    assert cuttings(*words, ledger=None, env={"CUTTINGS_LEDGER": str(demo)}).code == 0


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_looking_writes_nothing_and_says_nothing_on_stderr(words: tuple[str, ...], demo: Path) -> None:
    before = {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()}
    for options in ((), ("--plain",), ("--json",), ("--why",)):
        result = cuttings(*words, *options, ledger=demo)
        assert (result.code, result.err) == (0, "")
        assert result.out.strip()
    assert {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()} == before


def test_why_shows_sources_that_are_otherwise_left_out(demo: Path) -> None:
    plain, why = (cuttings("week", *more, ledger=demo).out for more in ((), ("--why",)))
    assert "common practice" not in plain
    assert "common practice" in why


def test_plain_is_one_thing_a_line_without_colour(demo: Path) -> None:
    out = cuttings("lots", "--plain", ledger=demo, env={"FORCE_COLOR": "1"}).out
    assert "\x1b" not in out
    assert sum(line.startswith(("24-", "25-", "26-")) for line in out.splitlines()) == len(
        cuttings("lots", "--json", ledger=demo).document["lots"]
    )


# Recording


@pytest.mark.parametrize("method", list(Method))
def test_a_find_waits_unless_it_came_with_roots_of_its_own(method: Method, ledger: Path) -> None:
    result = recorded("find", "red currant", "--method", method.value, "--count", "3", ledger=ledger)
    came_rooted = method.value.endswith(("-division", "offset"))
    assert result.document.keys() == RECORDING
    assert result.stages == {"rooted" if came_rooted else "waiting": 3}
    assert recorded("card", result.lot, ledger=ledger).document["method"] == method.value


def test_a_find_seen_with_roots_stands_as_rooted(ledger: Path) -> None:
    result = recorded("find", "red currant", "--method", "simple-layer", "--rooted", ledger=ledger)
    assert result.stages == {"rooted": 1}


def test_a_find_keeps_every_detail(ledger: Path, tmp_path: Path) -> None:
    photo = tmp_path / "find.JPG"
    photo.write_bytes(b"a picture")
    lot = recorded("find", "red currant", "--method", "simple-layer", "--count", "4", "--rooted", "--mother",
                   "the old currant by the gate", "--where", "gate strip", "--note", "under the leaves",
                   "--photo", str(photo), ledger=ledger).lot  # fmt: skip
    entry = last_entry(ledger, lot)
    assert entry["kind"] == "find"
    assert (entry["mother"], entry["where"]) == ("the old currant by the gate", "gate strip")
    assert entry["note"] == "under the leaves"
    assert (ledger / entry["photo"]).read_bytes() == b"a picture"


@pytest.mark.parametrize("wood", list(Wood))
def test_cuttings_of_every_wood_wait(wood: Wood, ledger: Path) -> None:
    result = recorded("strike", "red currant", "--wood", wood.value, "--count", "5", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 5}


@pytest.mark.parametrize(
    ("dip", "form", "cover"),
    [
        ("3000", "powder", "bag"),
        ("none", "liquid", "none"),
        ("1000", "liquid", "frame"),
        ("500", "powder", "mist"),
    ],
)
def test_a_strike_keeps_every_detail(dip: str, form: str, cover: str, ledger: Path) -> None:
    lot = recorded("strike", "red currant", "--wood", "softwood", "--count", "5", "--dip", dip, "--dip-form",
                   form, "--medium", "half perlite", "--cover", cover, "--heat", "70F", "--where",
                   "kitchen windowsill", ledger=ledger).lot  # fmt: skip
    entry = last_entry(ledger, lot)
    assert entry.get("dip_ppm") == (None if dip == "none" else int(dip))
    assert entry.get("dip_form") == (None if dip == "none" else form)
    assert entry["medium"] == "half perlite"
    assert entry.get("cover", "none") == cover
    assert entry["heat_c"] == pytest.approx((70 - 32) / 1.8)


@pytest.mark.parametrize(
    ("typed", "in_f", "in_c"), [("70F", 21.111, 21.111), ("21C", 21, 21), ("-2C", -2, -2), ("28", -2.222, 28)]
)
def test_temperatures_are_read_in_either_system(
    typed: str, in_f: float, in_c: float, ledger: Path, metric: Path
) -> None:
    for folder, celsius in ((ledger, in_f), (metric, in_c)):
        words = ("strike", "red currant", "--wood", "root", "--count", "1", "--heat", typed)
        lot = recorded(*words, ledger=folder).lot
        assert last_entry(folder, lot)["heat_c"] == pytest.approx(celsius, abs=0.001)


@pytest.mark.parametrize("how", list(LayerHow))
def test_layers_of_every_kind_wait(how: LayerHow, ledger: Path) -> None:
    result = recorded("layer", "red currant", "--how", how.value, "--count", "2", "--mother", "by the gate",
                      "--where", "gate strip", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 2}
    assert recorded("layer", "red currant", "--how", how.value, ledger=ledger).stages == {"waiting": 1}


def test_the_pieces_of_a_clump_start_rooted(ledger: Path) -> None:
    result = recorded("divide", "Siberian iris", "--pieces", "5", "--mother", "the wet bank clump",
                      "--where", "holding bench", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"rooted": 5}


@pytest.mark.parametrize("purpose", list(Purpose))
def test_a_mark_is_made_for_every_purpose(purpose: Purpose, ledger: Path, tmp_path: Path) -> None:
    photo = tmp_path / "mark.png"
    photo.write_bytes(b"a picture")
    words = ("mark", "snowdrop", "--for", purpose.value, "--when", "when the leaves are yellow", "--tape",
             "A=3.20m B=4.75m", "--photo", str(photo))  # fmt: skip
    document = recorded(*words, ledger=ledger).document
    assert document.keys() >= RECORDING
    listed = cuttings("mark", "--list", "--json", ledger=ledger).document["marks"]
    assert [(mark["for"], mark["tape"]) for mark in listed] == [(purpose.value, "A=3.20m B=4.75m")]


def test_a_tape_that_names_one_point_twice_or_no_length_is_misuse(ledger: Path) -> None:
    for tape in ("A=3.20m", "A=3.20m A=4.75m", "A=near B=far"):
        misused("mark", "snowdrop", "--for", "lift", "--tape", tape, ledger=ledger, saying=["--tape"])


def test_a_check_moves_waiting_stems(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 6))
    result = recorded("check", lot, "--rooted", "3", "--not-yet", "2", "--failed", "1", "--root-length",
                      "10cm", "--note", "white tips", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 2, "rooted": 3, "lost": 1}
    entry = last_entry(ledger, lot)
    assert (entry["note"], entry["root_length_m"]) == ("white tips", pytest.approx(0.1))


@pytest.mark.parametrize(
    ("words", "stages"),
    [
        (("--rooted", "2"), {"waiting": 2, "rooted": 2}),
        (("--failed", "4"), {"lost": 4}),
        (("--not-yet", "4"), {"waiting": 4}),
        (("--not-yet", "1"), {"waiting": 4}),
        (("--rooted", "4"), {"rooted": 4}),
        (("--rooted", "0", "--failed", "0"), {"waiting": 4}),
    ],
)
def test_what_a_check_does_not_tell_of_still_waits(
    words: tuple[str, ...], stages: Mapping[str, int], ledger: Path
) -> None:
    lot = begun(ledger, ("waiting", 4))
    assert recorded("check", lot, *words, ledger=ledger).stages == stages


def test_a_check_that_tells_nothing_is_misuse(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    misused("check", lot, ledger=ledger, saying=["--rooted", "--not-yet", "--failed"])
    misused("check", ledger=ledger, saying=["LOT"])


def test_potting_takes_rooted_stems(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 1), ("rooted", 3))
    result = recorded("pot", lot, "--count", "2", "--pot", "4in", "--mix", "potting", "--depth", "2in",
                      "--where", "holding bench", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 1, "rooted": 1, "potted": 2}
    entry = last_entry(ledger, lot)
    assert (entry["pot"], entry["mix"], entry["where"]) == ("4in", "potting", "holding bench")
    assert entry["depth_m"] == pytest.approx(0.0508)
    assert recorded("pot", lot, "--pot", "9cm", ledger=ledger).stages == {"waiting": 1, "potted": 3}


@pytest.mark.parametrize(
    ("pot", "litres"),
    [("#1", 2.8), ("SP4", 0.9), ("4in", None), ("9cm", None), ("2L", 2.0), ("3gal", 11.356), ("500mL", 0.5)],
)
def test_a_pot_is_named_as_growers_name_it(pot: str, litres: float | None, ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    recorded("pot", lot, "--pot", pot, ledger=ledger)
    volume = last_entry(ledger, lot)["pot_volume_l"]
    assert volume > 0
    assert litres is None or volume == pytest.approx(litres, abs=0.001)


def test_a_bare_pot_is_as_wide_as_the_garden_counts(ledger: Path, metric: Path) -> None:
    volumes = []
    for folder, bare, said in ((ledger, "4", "4in"), (metric, "9", "9cm")):
        lot = begun(folder, ("rooted", 2))
        recorded("pot", lot, "--count", "1", "--pot", bare, ledger=folder)
        volumes.append(last_entry(folder, lot)["pot_volume_l"])
        recorded("pot", lot, "--count", "1", "--pot", said, ledger=folder)
        volumes.append(last_entry(folder, lot)["pot_volume_l"])
    assert volumes[0] == volumes[1]
    assert volumes[2] == volumes[3]


def test_a_pot_that_is_none_is_misuse(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    for pot in ("bucketful", "#4", "-4in", "0"):
        misused("pot", lot, "--pot", pot, ledger=ledger, saying=["--pot"])


def test_hardening_off_is_begun_ticked_off_skipped_and_finished(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    for words, stages in (
        (("--start",), {"hardening": 3}),
        (("--day-done",), {"hardening": 3}),
        (("--skip", "too windy"), {"hardening": 3}),
        (("--finish",), {"ready": 3}),
    ):
        result = recorded("harden", lot, *words, ledger=ledger)
        assert result.document.keys() == RECORDING
        assert result.stages == stages


def test_only_one_step_of_hardening_off_is_written_at_a_time(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    misused("harden", lot, "--start", "--finish", ledger=ledger, saying=["--start"])
    refused("harden", lot, "--day-done", ledger=ledger, saying=["3 potted"])


@pytest.mark.parametrize("stage", ["rooted", "potted", "hardening", "ready"])
def test_planting_is_allowed_from_every_stage_with_roots(stage: str, ledger: Path) -> None:
    lot = begun(ledger, (stage, 2))
    result = recorded("plant", lot, "--count", "1", "--site", "Gate Bed", "--at", "1.2,0.7", ledger=ledger)
    assert result.document.keys() >= RECORDING
    assert result.stages == {stage: 1, "planted": 1}


def test_a_step_skipped_against_advice_is_warned_of_and_recorded(ledger: Path) -> None:
    rooted = begun(ledger, ("rooted", 1))
    assert "Pot " in recorded("card", rooted, ledger=ledger).document["next"]["what"]
    result = recorded("plant", rooted, "--site", "Gate Bed", ledger=ledger)
    assert result.stages == {"planted": 1}
    assert "Take care: It has not been potted" in result.err
    soft = recorded(
        "strike", "rosemary", "--wood", "softwood", "--count", "2", "--cover", "bag", ledger=ledger
    ).lot
    recorded("check", soft, "--rooted", "2", ledger=ledger)
    recorded("pot", soft, "--pot", "4in", "--where", "windowsill", ledger=ledger)
    result = recorded("plant", soft, "--count", "1", "--site", "Gate Bed", ledger=ledger)
    assert result.stages == {"potted": 1, "planted": 1}
    assert "Take care: It has not been hardened off" in result.err
    result = recorded("harden", soft, "--finish", ledger=ledger)
    assert result.stages == {"ready": 1, "planted": 1}
    assert "days of hardening off were not done" in result.err


def test_what_needs_no_step_more_is_planted_without_a_word(ledger: Path) -> None:
    lot = recorded("divide", "Siberian iris", "--pieces", "1", ledger=ledger).lot
    assert recorded("plant", lot, "--site", "Gate Bed", ledger=ledger).err == ""


def test_waiting_stems_are_not_planted_or_potted(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 3))
    refused("plant", lot, "--site", "Gate Bed", ledger=ledger, saying=["3 waiting"])
    refused("pot", lot, "--pot", "4in", ledger=ledger, saying=["3 waiting"])
    refused("harden", lot, "--start", ledger=ledger, saying=["3 waiting"])


def test_a_spot_that_was_offered_is_planted(demo: Path) -> None:
    offered = cuttings("spot", "24-006", "--json", ledger=demo).document["plan"][0]
    result = recorded("plant", "24-006", "--count", "1", "--spot", offered["spot"], ledger=demo)
    assert result.document["site"] == offered["site"]
    assert result.document["at"] == [[offered["x"], offered["y"]]]


def test_a_planting_names_a_spot_or_a_site(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    misused("plant", lot, ledger=ledger, saying=["--site", "--spot"])
    misused(
        "plant", lot, "--site", "Gate Bed", "--spot", "gate-bed@1.00,1.00", ledger=ledger, saying=["--spot"]
    )
    refused("plant", lot, "--site", "Gate Bed", "--at", "9,9", ledger=ledger, saying=["outside"])
    refused("plant", lot, "--spot", "gate-bed@9.00,9.00", ledger=ledger, saying=["outside"])
    refused("plant", lot, "--spot", "no-such@1.00,1.00", ledger=ledger, saying=["no-such"])


def test_stems_are_given_sold_and_lost(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2), ("rooted", 2), ("potted", 4))
    gone: dict[str, int] = {}
    for words, end in (
        (("give", lot, "--count", "1", "--to", "the plant swap"), "given"),
        (("sell", lot, "--count", "2", "--price", "3.50"), "sold"),
        (("sell", lot, "--count", "1"), "sold"),
        (("lose", lot, "--count", "1", "--stage", "rooted", "--cause", "eaten"), "lost"),
    ):
        result = recorded(*words, ledger=ledger)
        gone[end] = gone.get(end, 0) + int(words[3])
        assert result.document.keys() == RECORDING
        assert {stage: result.stages.get(stage, 0) for stage in gone} == gone
    assert standing(ledger, lot) == {"waiting": 2, "rooted": 1, "given": 1, "sold": 3, "lost": 1}


@pytest.mark.parametrize("cause", list(Cause))
def test_stems_are_lost_of_every_cause(cause: Cause, ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2))
    words = ("lose", lot, "--count", "1", "--stage", "waiting", "--cause", cause.value)
    assert recorded(*words, ledger=ledger).stages == {"waiting": 1, "lost": 1}
    assert last_entry(ledger, lot).get("cause", "unknown") == cause.value


@pytest.mark.parametrize("stage", ["waiting", "rooted", "potted", "hardening", "ready"])
def test_stems_are_lost_from_every_living_stage(stage: str, ledger: Path) -> None:
    lot = begun(ledger, (stage, 2))
    words = ("lose", lot, "--count", "2", "--stage", stage, "--cause", "frost")
    assert recorded(*words, ledger=ledger).stages == {"lost": 2}


@pytest.mark.parametrize("stage", ["given", "sold", "lost"])
def test_what_has_left_cannot_be_lost(stage: str, ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 3))
    recorded("give", lot, "--count", "1", ledger=ledger)
    recorded("sell", lot, "--count", "1", ledger=ledger)
    recorded("lose", lot, "--count", "1", "--stage", "rooted", "--cause", "rot", ledger=ledger)
    refused("lose", lot, "--count", "1", "--stage", stage, "--cause", "rot", ledger=ledger)


@pytest.mark.parametrize(
    "words",
    [
        ("check", "26-001", "--rooted", "9"),
        ("check", "26-001", "--rooted", "1", "--failed", "2"),
        ("check", "26-001", "--rooted", "1", "--not-yet", "2"),
        ("check", "26-001", "--not-yet", "3"),
        ("pot", "26-001", "--count", "9", "--pot", "4in"),
        ("harden", "26-001", "--start", "--count", "9"),
        ("plant", "26-001", "--count", "9", "--site", "Gate Bed"),
        ("give", "26-001", "--count", "9"),
        ("sell", "26-001", "--count", "9"),
        ("lose", "26-001", "--count", "9", "--stage", "waiting", "--cause", "rot"),
        ("lose", "26-001", "--count", "1", "--stage", "ready", "--cause", "rot"),
    ],
    ids=" ".join,
)
def test_a_count_the_lot_does_not_hold_is_refused(words: tuple[str, ...], ledger: Path) -> None:
    begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    refused(*words, ledger=ledger, saying=["26-001" if words[0] != "check" else ""])


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("find",), ["PLANT", "--method", "simple-layer"]),
        (("strike",), ["PLANT", "--wood", "softwood|semi-ripe", "--count"]),
        (("layer",), ["PLANT", "--how", "simple|tip|mound|serpentine|air"]),
        (("divide",), ["PLANT", "--pieces"]),
        (("mark",), ["PLANT", "--for", "lift|divide|layer|take-hardwood|move|watch"]),
        (("check",), ["LOT", "--rooted", "--not-yet", "--failed"]),
        (("pot",), ["LOT", "--pot"]),
        (("harden",), ["LOT"]),
        (("plant",), ["LOT", "--site", "--spot"]),
        (("give",), ["LOT", "--count"]),
        (("sell",), ["LOT", "--count"]),
        (("lose",), ["LOT", "--count", "--stage", "--cause", "rot|dried|frost|eaten|weak|unknown"]),
        (("note",), ["LOT", "TEXT"]),
        (("card",), ["LOT"]),
        (("spot",), ["LOT"]),
        (("sites", "growing"), ["NAME", "PLANT", "--at"]),
        (("sites", "show"), ["NAME"]),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_a_missing_detail_is_misuse_that_names_every_one(
    words: tuple[str, ...], named: list[str], ledger: Path
) -> None:
    misused(*words, ledger=ledger, saying=named)
    assert cuttings(*words, ledger=ledger).err.count("\n") == 1


@pytest.mark.parametrize(
    "words",
    [
        ("nosuchcommand",),
        ("find", "red currant", "--method", "grafting"),
        ("find", "red currant", "--method", "tip-layer", "--count", "0"),
        ("find", "red currant", "--method", "tip-layer", "--count", "-1"),
        ("find", "red currant", "--method", "tip-layer", "--count", "1.5"),
        ("find", "red currant", "--method", "tip-layer", "--photo", "no/such/picture.jpg"),
        ("find", "red currant", "--method", "tip-layer", "--nonsense"),
        ("strike", "red currant", "--wood", "driftwood", "--count", "1"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--dip", "strong"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--cover", "blanket"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--heat", "900F"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--heat", "warm"),
        ("layer", "red currant", "--how", "sideways"),
        ("divide", "Siberian iris", "--pieces", "0"),
        ("mark", "snowdrop", "--for", "fun"),
        ("check", "26-001", "--rooted", "some"),
        ("pot", "26-001", "--pot", "4in", "--depth", "deep"),
        ("give", "26-001", "--count", "none"),
        ("sell", "26-001", "--count", "1", "--price", "-1"),
        ("lose", "26-001", "--count", "1", "--stage", "asleep", "--cause", "rot"),
        ("lose", "26-001", "--count", "1", "--stage", "waiting", "--cause", "boredom"),
        ("lots", "--stage", "asleep"),
        ("plants", "--light", "candle"),
        ("plants", "--zone", "14"),
        ("plants", "--hardwood-in", "13"),
        ("plants", "--hardwood-in", "0"),
        ("plants", "--hardwood-in", "smarch"),
        ("week", "--from", "someday"),
        ("week", "--from", "2026-05-02", "--to", "2026-05-01"),
    ],
    ids=" ".join,
)
def test_what_cannot_be_read_is_misuse(words: tuple[str, ...], ledger: Path) -> None:
    begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    misused(*words, ledger=ledger)


def test_the_last_entry_or_a_named_one_is_taken_back(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    first = recorded("check", lot, "--rooted", "1", ledger=ledger).document["entry"]
    recorded("check", lot, "--rooted", "2", ledger=ledger)
    result = recorded("undo", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert (result.lot, result.stages) == (lot, {"waiting": 3, "rooted": 1})
    assert recorded("undo", first, ledger=ledger).stages == {"waiting": 4}
    refused("undo", first, ledger=ledger, saying=[first])


def test_a_lot_that_is_taken_back_whole_holds_nothing(ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "tip-layer", ledger=ledger).lot
    result = recorded("undo", ledger=ledger)
    assert (result.lot, result.stages) == (lot, {})
    assert cuttings("tally", "--json", ledger=ledger).document["started"] == 0


def test_nothing_is_taken_back_from_an_empty_ledger(tmp_path: Path) -> None:
    refused("undo", ledger=tmp_path)


def test_a_note_moves_nothing(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    result = recorded("note", lot, "slow to start", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 4}


def test_an_entry_before_its_lot_began_is_refused(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    refused("check", lot, "--rooted", "1", "--on", "2026-05-01", ledger=ledger, saying=[lot])


def test_each_recording_says_one_sentence_that_begins_with_recorded(ledger: Path) -> None:
    out = cuttings("find", "red currant", "--method", "tip-layer", "--plain", ledger=ledger).out
    assert out.splitlines()[0].startswith("Recorded: 26-001: 1 stem of red currant")


def test_lots_are_coded_by_year_and_running_number(ledger: Path) -> None:
    codes = [
        recorded("find", "red currant", "--method", "tip-layer", "--on", day, ledger=ledger).lot
        for day in ("2026-05-01", "2025-09-01", "2026-05-02")
    ]
    assert codes == ["26-001", "25-001", "26-002"]


@pytest.mark.parametrize("seed", range(4))
def test_stems_are_conserved_whatever_is_asked(seed: int, ledger: Path) -> None:
    chance = random.Random(seed)
    started = 0
    lots: list[str] = []
    for step in range(30):
        lot = chance.choice(lots) if lots else ""
        n = str(chance.randint(1, 5))
        words = chance.choice(_asks(lot, n, chance)) if lots and step % 6 else None
        if words is None:
            result = recorded("find", "red currant", "--method", "tip-layer", "--count", n, ledger=ledger)
            started += int(n)
            lots.append(result.lot)
        else:
            result = cuttings(*words, "--json", ledger=ledger)
            assert result.code in (0, 1), result
        if result.code == 0 and result.document["lot"]:
            card = recorded("card", result.lot, ledger=ledger).document
            assert sum(card["stages"].values()) == card["started"]
    tally = cuttings("tally", "--json", ledger=ledger)
    assert tally.code == 0
    assert tally.document["started"] == sum(tally.document["stages"].values()) == started


def _asks(lot: str, n: str, chance: random.Random) -> list[tuple[str, ...]]:
    stage = chance.choice(["waiting", "rooted", "potted", "hardening", "ready", "planted"])
    return [
        ("check", lot, "--rooted", n),
        ("check", lot, "--failed", "1"),
        ("pot", lot, "--count", n, "--pot", "4in"),
        ("harden", lot, "--start"),
        ("harden", lot, "--finish"),
        ("plant", lot, "--count", n, "--site", "Gate Bed"),
        ("give", lot, "--count", n),
        ("sell", lot, "--count", n),
        ("lose", lot, "--count", n, "--stage", stage, "--cause", "unknown"),
        ("note", lot, "seen"),
    ]


# Looking


def test_lots_are_chosen_by_stage_place_plant_and_label(demo: Path) -> None:
    def codes(*words: str) -> set[str]:
        return {lot["lot"] for lot in cuttings("lots", *words, "--json", ledger=demo).document["lots"]}

    live = codes()
    assert live < codes("--all")
    for stage in Stage:
        chosen = cuttings("lots", "--stage", stage.value, "--json", ledger=demo).document["lots"]
        assert all(lot["stages"][stage] for lot in chosen)
    assert codes("--stage", "waiting") < live
    assert codes("--place", "Holding Bench") < live
    assert codes("--plant", "red currant") == codes("--plant", "Ribes rubrum") < live
    unlabelled = cuttings("lots", "--unlabelled", "--json", ledger=demo).document["lots"]
    assert unlabelled
    assert all(not lot["label"] for lot in unlabelled)


def test_a_card_tells_everything_about_a_lot(demo: Path) -> None:
    for lot in cuttings("lots", "--all", "--json", ledger=demo).document["lots"]:
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
            assert rooting.keys() == {"p10", "p50", "p90", "next_look", "give_up"}
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
    assert document["lots"] == len(cuttings("lots", "--all", "--json", ledger=demo).document["lots"])


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
    assert document.keys() == {"schema", "from", "to", "minutes", "nudges"}
    assert (document["from"], document["to"]) == ("2026-05-02", "2026-05-08")
    assert isinstance(document["minutes"], int)
    assert document["nudges"]
    for nudge in document["nudges"]:
        assert nudge.keys() >= {"id", "what", "lot", "area", "window", "minutes", "cost_of_waiting", "why",
                                "source", "planned"}  # fmt: skip
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


def test_every_plant_has_a_sheet_of_one_shape(ledger: Path) -> None:
    listed = cuttings("plants", "--json", ledger=ledger).document["plants"]
    assert len(listed) > 50
    for plant in listed:
        document = cuttings("plants", plant["name"], "--json", ledger=ledger).document
        assert document.keys() >= {"schema", "name", "matched", "level", "zones", "height_m", "spread_m",
                                   "light", "methods", "division", "cautions", "sources"}  # fmt: skip
        assert document["matched"] == document["name"] == plant["name"]
        for key in ("zones", "height_m", "spread_m"):
            numbers(document[key])
        assert set(document["light"]) <= set(Light)
        for way in document["methods"]:
            assert way.keys() >= {"method", "season", "months", "rooting_days", "reference_temp_c", "iba_ppm",
                                  "length_m", "source"}  # fmt: skip
            assert way["method"] in list(Method)
            assert set(way["months"]) <= set(range(1, 13))
            for key in ("rooting_days", "iba_ppm", "length_m"):
                numbers(way[key])
            assert way["source"]
        division = document["division"]
        if division is not None:
            assert division.keys() >= {"season", "every_years", "pieces", "resents", "source"}
            assert isinstance(division["resents"], bool)
            numbers(division["every_years"])
        assert document["sources"]


def test_plants_are_chosen_by_light_zone_and_month(ledger: Path) -> None:
    def names(*words: str) -> set[str]:
        return {p["name"] for p in cuttings("plants", *words, "--json", ledger=ledger).document["plants"]}

    known = names()
    assert names("--light", "shade") < known
    assert names("--zone", "5b") < known
    in_november = names("--hardwood-in", "11")
    assert "Ribes rubrum" in in_november
    assert in_november < known
    assert names("--hardwood-in", "november") == names("--hardwood-in", "Nov") == in_november
    assert names("--hardwood-in", "11", "--zone", "5") <= in_november & names("--zone", "5b")


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


# The program as a process


def test_a_process_ends_with_the_same_codes_and_keeps_its_streams_apart(ledger: Path) -> None:
    done = spawned("find", "red currant", "--method", "tip-layer", "--json", ledger=ledger)
    assert (done.code, done.err) == (0, "")
    assert done.document.keys() == RECORDING
    no = spawned("pot", done.lot, "--pot", "4in", "--json", ledger=ledger)
    assert (no.code, no.out) == (1, "")
    wrong = spawned("pot", "--json", ledger=ledger)
    assert (wrong.code, wrong.out) == (2, "")
    for result in (no, wrong):
        assert result.err.count("\n") == 1
        assert "Traceback" not in result.err


def test_the_environment_names_ledger_and_keeper(ledger: Path) -> None:
    words = ("find", "red currant", "--method", "tip-layer", "--json")
    env = {"CUTTINGS_LEDGER": str(ledger), "CUTTINGS_WHO": "R."}
    lot = cuttings(*words, ledger=None, env=env).lot
    assert last_entry(ledger, lot)["who"] == "R."


def test_bytes_that_are_no_text_are_misuse(ledger: Path) -> None:
    misused("find", "caf\udcff", "--method", "tip-layer", ledger=ledger, saying=["no text"])
    misused("find", "red currant", "--method", "tip-layer", "--note", "\udcff", ledger=ledger)


def test_a_person_who_stops_at_a_prompt_leaves_the_ledger_as_it_was(ledger: Path) -> None:
    before = (ledger / "ledger.jsonl").read_bytes()
    with patch.object(desk, "at_terminal", return_value=True):
        result = cuttings("find", "--plain", ledger=ledger)
    assert result.code == 130
    assert "nothing was recorded" in result.err
    assert (ledger / "ledger.jsonl").read_bytes() == before


def test_help_and_version_end_well(tmp_path: Path) -> None:
    for words in (("--help",), ("find", "--help"), ("sites", "add", "--help"), ("--version",)):
        assert cuttings(*words, ledger=tmp_path).code == 0


def _all_commands() -> Callable[[], list[str]]:
    from cuttings.app import COMMANDS

    return lambda: list(COMMANDS)


@pytest.mark.parametrize("command", _all_commands()())
def test_every_command_explains_itself(command: str, tmp_path: Path) -> None:
    result: Result = cuttings(command, "--help", ledger=tmp_path)
    assert result.code == 0
    for option in ("--ledger", "--json", "--on", "--who", "--why", "--plain"):
        assert option in result.out


def test_a_day_still_to_come_is_recorded_with_a_warning(ledger: Path) -> None:
    tomorrow = (MAY + timedelta(days=1)).isoformat()
    result = recorded("find", "red currant", "--method", "tip-layer", "--on", tomorrow, ledger=ledger)
    assert "still to come" in result.err


# Whatever the terminal, and whatever was typed


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_every_screen_fits_every_width(words: tuple[str, ...], demo: Path) -> None:
    for width in (40, 61, 80, 200):
        out = cuttings(*words, ledger=demo, env={"COLUMNS": str(width)}).out
        assert max(map(cell_len, out.splitlines())) <= width


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_every_answer_has_an_ascii_twin(words: tuple[str, ...], demo: Path) -> None:
    recorded("find", "rosemary 'Été' ×", "--method", "tip-layer", "--where", "紅 corner", ledger=demo)
    for more in ((), ("--plain",), ("--why",), ("--json",)):
        result = cuttings(*words, *more, ledger=demo, encoding="ascii")
        assert result.code == 0
        assert result.out.isascii()


def test_a_document_is_the_same_whatever_the_terminal_speaks(demo: Path) -> None:
    recorded("find", "rosemary 'Été'", "--method", "tip-layer", "--where", "紅 corner", ledger=demo)
    spoken = [cuttings("lots", "--json", ledger=demo, encoding=name).document for name in ("utf-8", "ascii")]
    assert spoken[0] == spoken[1]
    assert "紅 corner" in {lot["where"] for lot in spoken[0]["lots"]}


def test_what_was_typed_is_never_markup_or_an_escape_code(ledger: Path) -> None:
    typed = "[bold red]Ribes[/] \x1b[31m\x07\u202egone \r\nnext"
    words = (
        "find",
        "red currant",
        "--method",
        "tip-layer",
        "--where",
        typed,
        "--mother",
        typed,
        "--note",
        typed,
    )
    first = cuttings(*words, ledger=ledger)
    lot = cuttings("lots", "--json", ledger=ledger).document["lots"][0]["lot"]
    recorded("note", lot, typed, ledger=ledger)
    shown = [first] + [
        cuttings(*look, *more, ledger=ledger)
        for look in (
            ("lots",),
            ("card", lot),
            ("card", lot, "--trail"),
            ("week",),
            ("lots", "--place", typed),
        )
        for more in ((), ("--plain",))
    ]
    shown += [cuttings("card", typed, ledger=ledger), cuttings("sites", "show", typed, ledger=ledger)]
    for result in shown:
        assert not any(sign in result.out + result.err for sign in "\x1b\x07\u202e\r")
    assert "[bold red]Ribes[/]" in shown[2].out.replace("\n", " ")
    assert cuttings("card", lot, "--json", ledger=ledger).document["where"] == typed.strip()


def test_a_plant_that_died_in_its_place_makes_room(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 2))
    recorded("plant", lot, "--count", "1", "--site", "Gate Bed", "--at", "1,1", ledger=ledger)
    assert len(cuttings("sites", "show", "Gate Bed", "--json", ledger=ledger).document["growing"]) == 1
    words = ("lose", lot, "--count", "1", "--stage", "planted", "--cause", "frost")
    assert recorded(*words, ledger=ledger).stages == {"rooted": 1, "lost": 1}
    assert cuttings("sites", "show", "Gate Bed", "--json", ledger=ledger).document["growing"] == []


def test_an_entry_may_be_taken_back_by_the_end_of_its_id(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2))
    entry = recorded("check", lot, "--rooted", "1", ledger=ledger).document["entry"]
    assert recorded("undo", entry[-6:].upper(), ledger=ledger).stages == {"waiting": 2}
    refused("undo", "2026", ledger=ledger)


def test_an_entry_that_others_rest_on_is_not_taken_back(ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "tip-layer", "--count", "2", ledger=ledger)
    recorded("check", lot.lot, "--rooted", "2", ledger=ledger)
    refused("undo", lot.document["entry"], ledger=ledger)


def test_a_site_described_anew_keeps_its_name_and_what_grows_there(ledger: Path) -> None:
    recorded("sites", "growing", "gate bed", "red currant", "--at", "1,1", ledger=ledger)
    again = ("sites", "add", "GATE BED", "--area", "Gate Strip", "--light", "shade")
    document = recorded(*again, ledger=ledger).document
    assert (document["name"], document["area"], document["light"]) == ("Gate Bed", "gate strip", "shade")
    assert len(document["growing"]) == 1
    assert len(cuttings("sites", "--json", ledger=ledger).document["sites"]) == 2


def _started(words: Sequence[str], ledger: Path, **streams: Any) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "cuttings", "--ledger", str(ledger), *words]
    return subprocess.Popen(command, stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, **streams)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no full device")
@pytest.mark.parametrize("more", [(), ("--json",), ("--plain",)], ids=" ".join)
def test_an_answer_that_cannot_be_shown_is_told_of_in_a_sentence(more: tuple[str, ...], ledger: Path) -> None:
    words = ("find", "red currant", "--method", "tip-layer", *more)
    with Path("/dev/full").open("w") as full, _started(words, ledger, stdout=full) as process:
        _, err = process.communicate(timeout=60)
    assert process.returncode == 1
    assert err.startswith("The answer could not be shown")
    assert err.count("\n") == 1
    assert len(cuttings("lots", "--json", ledger=ledger).document["lots"]) == 1


@pytest.mark.parametrize("more", [(), ("--json",), ("--plain",)], ids=" ".join)
def test_a_reader_that_has_gone_is_no_trouble(more: tuple[str, ...], demo: Path) -> None:
    with _started(("plants", *more), demo, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == ""
    assert process.returncode == 0


@pytest.mark.skipif(os.name == "nt", reason="needs a shell that can close a stream")
def test_closed_streams_never_reach_the_ledger(ledger: Path) -> None:
    command = shlex.join([sys.executable, "-m", "cuttings", "--ledger", str(ledger), "find", "red currant",
                          "--method", "tip-layer"])  # fmt: skip
    done = subprocess.run(["/bin/sh", "-c", f"{command} <&- >&- 2>&-"], timeout=60, check=False)
    assert done.returncode == 0
    tally = cuttings("tally", "--json", ledger=ledger).document
    assert (tally["balanced"], tally["lots"]) == (True, 1)


def test_a_ledger_that_is_no_folder_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("not a ledger", encoding="utf-8")
    for words in (("lots",), ("week",), ("find", "red currant", "--method", "tip-layer")):
        result = cuttings(*words, ledger=file)
        assert (result.code, result.out) == (1, "")
        assert str(file) in result.err
    assert file.read_text(encoding="utf-8") == "not a ledger"
