"""The climate command: what it shows, what it reads, and how a sign of the season moves the windows."""

import gzip
import json
import re
import shutil
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from cuttings.commands.desk import DAYS_FILE, NORMALS_FILE
from tests.commands.expecting import misused, refused
from tests.commands.running import Result, cuttings, recorded

RECORD = Path(__file__).parents[2] / "fixtures" / "quarry-bank" / "daily.csv"
THRESHOLDS = ["36", "32", "28", "24", "20", "16"]
TENTHS = ["10", "20", "30", "40", "50", "60", "70", "80", "90"]
DOCUMENT = {
    "schema", "freeze", "season_days", "share_of_years", "sampling_days", "years", "period", "station",
    "zone", "mean_annual_min_c", "source", "risk", "last_frost", "safe_spring", "first_frost", "soil",
    "degree_days_c", "day_length_hours", "windows", "pace",
}  # fmt: skip
REPORT = {
    "schema", "station", "layout", "units", "days", "first", "last", "whole_years", "flagged", "missing",
    "implausible", "swapped", "duplicated", "gaps", "remarks", "years", "period",
}  # fmt: skip
WIDTHS = (40, 61, 80, 120, 200)
EARLY = ("climate", "seen", "soil-workable", "--on", "2026-04-02")
"""A sign nine days before its usual day in the demo garden."""


def climate(*words: str, ledger: Path) -> dict[str, Any]:
    return recorded("climate", *words, ledger=ledger).document


def page(*words: str, ledger: Path, **more: Any) -> Result:
    result = cuttings("climate", *words, ledger=ledger, **more)
    assert result.code == 0, result.err
    return result


def flowing(text: str) -> str:
    return " ".join(text.split())


def garden(folder: Path, *words: str, lat: str = "42.9", units: str = "metric") -> Path:
    """An invented garden with just these facts."""
    recorded("garden", "--name", "Low Terrace", "--lat", lat, "--lon", "10", "--elevation", "50m", "--units",
             units, *words, ledger=folder)  # fmt: skip
    return folder


def written(folder: Path, text: str, name: str = "days.csv") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def days_of(years: Sequence[int], without: str = "") -> str:
    """The fixture's days of some years, but for those that begin like ``without``."""
    lines = RECORD.read_text(encoding="utf-8").splitlines()
    kept = [
        line
        for line in lines
        if line[:4].isdecimal() and int(line[:4]) in years and not (without and line.startswith(without))
    ]
    return "\n".join(["date,tmin,tmax,rain", *kept, ""])


# What it shows


def test_the_document_has_every_threshold_with_every_chance(demo: Path) -> None:
    document = climate(ledger=demo)
    assert document.keys() == DOCUMENT
    assert document["freeze"].keys() == {"spring", "autumn"}
    for side in document["freeze"].values():
        assert list(side) == THRESHOLDS
        assert all(list(dates) == TENTHS for dates in side.values())
        assert all(re.fullmatch(r"\d\d-\d\d", day) for dates in side.values() for day in dates.values())
    assert list(document["season_days"]) == THRESHOLDS
    assert (document["years"], document["period"], document["zone"]) == (30, [1996, 2025], "5b")
    assert document["mean_annual_min_c"] < -20
    assert document["risk"] == 0.1
    assert document["pace"] is None


def test_odds_run_one_way_through_the_year_and_through_the_cold(demo: Path) -> None:
    document = climate(ledger=demo)
    spring, autumn = document["freeze"]["spring"], document["freeze"]["autumn"]
    for threshold in THRESHOLDS:
        assert all(a >= b for a, b in pairwise(spring[threshold].values()))
        assert all(a <= b for a, b in pairwise(autumn[threshold].values()))
        assert all(a >= b for a, b in pairwise(document["season_days"][threshold].values()))
    for tenth in TENTHS:
        assert all(spring[a][tenth] >= spring[b][tenth] for a, b in pairwise(THRESHOLDS))
        assert all(autumn[a][tenth] <= autumn[b][tenth] for a, b in pairwise(THRESHOLDS))


def test_the_dates_of_this_year_are_those_of_the_odds(demo: Path) -> None:
    document = climate(ledger=demo)
    freeze = document["freeze"]
    assert document["last_frost"] == f"2026-{freeze['spring']['32']['50']}"
    assert document["safe_spring"] == f"2026-{freeze['spring']['32']['10']}"
    assert document["first_frost"] == f"2026-{freeze['autumn']['32']['50']}"


def test_windows_have_an_opening_a_best_stretch_a_close_and_a_reason(demo: Path) -> None:
    windows = climate(ledger=demo)["windows"]
    assert {each["what"] for each in windows} >= {"plant in spring", "tender plants out", "take hardwood"}
    for each in windows:
        first, last = each["best"]
        assert each["opens"] <= first <= last <= each["closes"]
        assert each["why"].endswith(".")
        assert each["source"]
    tender = next(each for each in windows if each["what"] == "tender plants out")
    assert tender["opens"] == climate(ledger=demo)["safe_spring"]


def test_typed_dates_come_back_and_the_record_s_keys_are_empty(ledger: Path) -> None:
    document = climate(ledger=ledger)
    assert document.keys() == DOCUMENT
    spring, autumn = (document["freeze"][side]["32"] for side in ("spring", "autumn"))
    assert [spring[tenth] for tenth in ("10", "50", "90")] == ["05-28", "05-15", "05-02"]
    assert [autumn[tenth] for tenth in ("10", "50", "90")] == ["09-18", "09-30", "10-12"]
    assert (document["years"], document["period"], document["station"]) == (0, None, None)
    assert document["mean_annual_min_c"] is None
    assert document["source"] == "your 10, 50 and 90 % frost dates"


def test_what_is_never_that_sure_is_null_and_a_dash(tmp_path: Path) -> None:
    mild = garden(
        tmp_path, "--zone", "8b", "--last-frost", "04-05", "--first-frost", "11-10", lat="43", units="us"
    )
    for side in climate(ledger=mild)["freeze"].values():
        sure = [side["16"][tenth] for tenth in TENTHS]
        assert sure[-1] is None
        known = [day is not None for day in sure]
        assert known == sorted(known, reverse=True)
    assert re.search(r"^16 F .* -$", page(ledger=mild).out, re.MULTILINE)
    assert "(90 %)" not in next(
        line for line in page("--plain", ledger=mild).out.splitlines() if line.startswith("16 °F still")
    )


def test_a_place_without_hard_frost_says_never_in_words(tmp_path: Path) -> None:
    warm = garden(
        tmp_path, "--zone", "10b", "--last-frost", "01-20", "--first-frost", "12-28", lat="28", units="us"
    )
    assert "16 °F already come by: never so surely." in page("--plain", ledger=warm).out
    document = climate(ledger=warm)
    assert set(document["freeze"]["spring"]["16"].values()) == {None}
    assert document["soil"]["freezes"] is None
    assert document["soil"]["workable"] <= document["windows"][0]["closes"]


def test_without_frost_dates_it_says_that_it_is_from_memory_and_how_to_do_better(tmp_path: Path) -> None:
    document = climate(ledger=garden(tmp_path))
    for side in ("spring", "autumn"):
        for odds in document["freeze"][side].values():
            assert set(odds.values()) == {None}
    assert set(document["freeze"]["spring"]) == {"36", "32", "28", "24", "20", "16"}
    assert document["source"].endswith("from memory")
    said = flowing(page(ledger=tmp_path).out)
    assert "ordinary cold-winter garden, from memory" in said
    assert "'cuttings climate load FILE'" in said
    assert "'cuttings garden --change'" in said
    assert "years of 100" not in said
    assert "frost, tenths" not in said
    assert "Last cold" not in said


def test_without_a_garden_it_shows_an_ordinary_one_and_asks_for_yours(tmp_path: Path) -> None:
    said = flowing(page(ledger=tmp_path / "new").out)
    assert "Next 'cuttings garden' describes the garden" in said
    assert recorded("climate", ledger=tmp_path / "new").document["zone"] is None
    assert not (tmp_path / "new").exists()


def test_a_southern_spring_comes_in_the_second_half_of_the_year(tmp_path: Path) -> None:
    south = garden(tmp_path, "--zone", "7a", "--last-frost", "10-20", "--first-frost", "04-25", lat="-43")
    document = climate(ledger=south)
    assert document["freeze"]["spring"]["32"]["50"] == "10-20"
    assert document["freeze"]["autumn"]["32"]["50"] == "04-25"
    assert document["safe_spring"] > document["last_frost"] == "2026-10-20"
    assert document["first_frost"] == "2026-04-25"
    spring = next(each for each in document["windows"] if each["what"] == "plant in spring")
    assert "2026-07" < spring["opens"] < spring["closes"] < "2027-01"
    odds = next(line for line in page(ledger=south).out.splitlines() if line.startswith("frost, tenths"))
    assert odds[19:23].strip() == odds[-4:].strip("0123456789") == ""  # nothing in January


def test_it_tells_when_frost_is_over_and_when_it_is_back(demo: Path) -> None:
    said = flowing(page(ledger=demo).out)
    assert "Frost is as likely as not over by 15 May, and back by 1 October." in said
    assert "Tender plants wait until 27 May: frost comes later in 10 years of 100." in said
    assert "Zone 5b; the coldest night of a year is -12 °F in the mean." in said
    assert "Roots in a pot are less hardy" in said
    assert "Next 'cuttings climate seen'" in said


def test_it_tells_that_the_record_s_zone_is_not_the_one_that_was_typed(demo: Path) -> None:
    recorded("garden", "--zone", "6b", ledger=demo)
    assert "You told zone 6b; the record says 5b, and that is used." in flowing(page(ledger=demo).out)
    assert climate(ledger=demo)["zone"] == "5b"


def test_temperatures_are_in_the_units_of_the_garden(metric: Path, ledger: Path) -> None:
    assert "°F" not in page(ledger=metric).out.replace("than 32 °F", "")
    assert re.search(r"^-2\.2 C ", page(ledger=metric).out, re.MULTILINE)
    assert "°C" not in page(ledger=ledger).out


def test_sources_are_told_when_asked_for(demo: Path) -> None:
    for source in ("NOAA: Freeze/Frost Data", "Plant Hardiness Zone Map", "Oklahoma State University"):
        assert source not in flowing(page(ledger=demo).out)
        assert source in flowing(page("--why", ledger=demo).out)


def test_it_writes_nothing(demo: Path) -> None:
    before = {path.name: path.read_bytes() for path in demo.iterdir() if path.is_file()}
    page("--period", "2000,2010", "--risk", "5", ledger=demo)
    assert {path.name: path.read_bytes() for path in demo.iterdir() if path.is_file()} == before


# Other years, another risk


def test_a_period_is_looked_at_and_not_kept(demo: Path) -> None:
    ten = climate("--period", "2001,2010", ledger=demo)
    assert (ten["years"], ten["period"]) == (10, [2001, 2010])
    assert "10 winters of daily readings, 2001 to 2010" in flowing(
        page("--period", "2001,2010", ledger=demo).out
    )
    whole = climate(ledger=demo)
    assert (whole["years"], whole["period"]) == (30, [1996, 2025])
    assert ten["sampling_days"]["32"]["spring"] > whole["sampling_days"]["32"]["spring"]


def test_a_smaller_risk_waits_longer_and_is_not_kept(demo: Path) -> None:
    safe = [climate("--risk", risk, ledger=demo)["safe_spring"] for risk in ("2", "5%", "0.1", "30", "50")]
    assert safe == sorted(safe, reverse=True)
    assert len(set(safe)) == len(safe)
    assert safe[2] == climate(ledger=demo)["safe_spring"]
    said = flowing(page("--risk", "5%", ledger=demo).out)
    assert "frost comes later in 5 years of 100. 'cuttings garden --risk 5' keeps that risk." in said
    assert "keeps that risk" not in page(ledger=demo).out


def test_a_risk_that_the_garden_keeps_holds_from_then_on(demo: Path) -> None:
    wanted = climate("--risk", "5", ledger=demo)["safe_spring"]
    recorded("garden", "--risk", "5", ledger=demo)
    document = climate(ledger=demo)
    assert (document["risk"], document["safe_spring"]) == (0.05, wanted)


@pytest.mark.parametrize("years", ["2010,2000", "2000", "a,b", "2000,2010,2015", "2000 2010", "0,99999", ""])
def test_what_is_no_period_is_misused(years: str, demo: Path) -> None:
    misused("climate", "--period", years, ledger=demo, saying=["--period", "1991,2020"])
    misused("climate", "load", str(RECORD), "--period", years, ledger=demo, saying=["--period"])


@pytest.mark.parametrize(("years", "held"), [("2000,2001", 2), ("1950,1960", 0)])
def test_too_few_years_are_refused_with_what_there_is(years: str, held: int, demo: Path) -> None:
    said = [f"Only {held} whole winters", "from 1996 to 2025"]
    refused("climate", "--period", years, ledger=demo, saying=said)
    refused("climate", "load", str(RECORD), "--period", years, ledger=demo, saying=said)


def test_a_period_needs_a_record(ledger: Path) -> None:
    refused("climate", "--period", "1991,2020", ledger=ledger, saying=["'cuttings climate load FILE'"])


@pytest.mark.parametrize("risk", ["200", "0", "-5", "51", "ten", "nan", "inf", ""])
def test_what_is_no_risk_is_misused(risk: str, demo: Path) -> None:
    misused("climate", "--risk", risk, ledger=demo, saying=["--risk", "from 1 to 50"])


@pytest.mark.parametrize("option", [("--risk", "5"), ("--period", "1991,2020")])
def test_options_of_the_look_are_not_taken_for_those_of_a_step(option: tuple[str, str], demo: Path) -> None:
    misused("climate", *option, "load", str(RECORD), ledger=demo, saying=[option[0]])
    misused("climate", *option, "seen", "last-snow", ledger=demo, saying=[option[0]])


def test_a_step_there_is_not_is_misused(demo: Path) -> None:
    misused("climate", "frobnicate", ledger=demo, saying=["frobnicate", "cuttings climate --help"])


# Reading a record


def test_a_record_is_read_reported_and_used(ledger: Path) -> None:
    typed = climate(ledger=ledger)
    report = recorded("climate", "load", str(RECORD), ledger=ledger).document
    assert report.keys() == REPORT
    assert (report["first"], report["last"]) == ("1996-01-01", "2025-12-31")
    assert (report["days"], report["whole_years"], report["years"]) == (10958, 30, 30)
    assert [report[key] for key in ("flagged", "missing", "implausible", "swapped", "duplicated")] == [0] * 5
    assert (report["station"], report["gaps"], report["period"]) == (None, [], [1996, 2025])
    assert report["units"] == "°F and inches"
    assert "read in °F" in report["remarks"][0]
    document = climate(ledger=ledger)
    assert document["years"] == 30
    assert document["freeze"] != typed["freeze"]
    assert document["source"].startswith("30 winters of daily readings")


def test_the_file_is_not_needed_again(ledger: Path, tmp_path: Path) -> None:
    copy = Path(shutil.copy(RECORD, tmp_path / "station.csv"))
    recorded("climate", "load", str(copy), ledger=ledger)
    whole, ten = climate(ledger=ledger), climate("--period", "2001,2010", ledger=ledger)
    copy.unlink()
    assert climate(ledger=ledger) == whole
    assert climate("--period", "2001,2010", ledger=ledger) == ten
    assert (ledger / DAYS_FILE).stat().st_size < RECORD.stat().st_size / 4


def test_loading_says_what_was_kept_and_what_comes_next(ledger: Path) -> None:
    said = flowing(page("load", str(RECORD), ledger=ledger).out)
    assert said.startswith("Kept 30 whole years, 1996 to 2025, from plain rows")
    assert "the odds rest on 30 winters, 1996 to 2025." in said
    assert "The file itself is not needed again." in said
    assert said.endswith("Next 'cuttings climate' shows the odds of cold and the year's windows.")


def test_loading_other_years_keeps_them(ledger: Path) -> None:
    report = recorded("climate", "load", str(RECORD), "--period", "2001,2020", ledger=ledger).document
    assert (report["years"], report["period"]) == (20, [2001, 2020])
    assert climate(ledger=ledger)["period"] == [2001, 2020]
    assert climate("--period", "1996,2025", ledger=ledger)["years"] == 30


def test_gaps_and_what_was_left_out_are_counted_and_named(ledger: Path, tmp_path: Path) -> None:
    text = days_of(range(2001, 2006), without="2003-06")
    text = text.replace("2004-07-04,", "2004-07-04,99,20,0\n2004-07-05,")
    text += "2005-12-31,20,30,0\n"
    report = recorded("climate", "load", written(tmp_path, text), ledger=ledger).document
    assert report["gaps"] == [["2003-06-01", "2003-06-30"]]
    assert report["missing"] == 31
    assert report["swapped"] + report["implausible"] == 1
    assert report["duplicated"] == 2  # 5 July and the last day
    said = " ".join(report["remarks"])
    assert "1 June 2003 to 30 June 2003" in said
    assert "4 whole years give only rough odds" in said


def test_a_table_names_its_station_and_its_doubtful_values(ledger: Path, tmp_path: Path) -> None:
    rows = [line.split(",") for line in days_of(range(2001, 2006)).splitlines()[1:]]
    lines = ["STATION,DATE,TMIN,TMIN_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES"]
    for number, (day, low, high, _) in enumerate(rows):
        tenths = [str(round((int(value) - 32) / 1.8 * 10)) for value in (low, high)]
        flags = ",G,7" if number == 40 else ",,7"
        lines.append(f'XX000001,{day},{tenths[0]},"{flags}",{tenths[1]},",,7"')
    report = recorded("climate", "load", written(tmp_path, "\n".join(lines)), ledger=ledger).document
    assert (report["station"], report["flagged"]) == ("XX000001", 1)
    assert report["units"] == "tenths of °C and of mm"
    assert climate(ledger=ledger)["station"] == "XX000001"
    assert "XX000001" in page(ledger=ledger).out


def test_units_that_the_file_does_not_say_may_be_told(ledger: Path) -> None:
    before = recorded("climate", "load", str(RECORD), "--file-units", "us", ledger=ledger).document
    assert before["remarks"] == []
    refused("climate", "load", str(RECORD), "--file-units", "metric", ledger=ledger,
            saying=["daily.csv", "cannot be °C", "--file-units us"])  # fmt: skip
    misused("climate", "load", str(RECORD), "--file-units", "kelvin", ledger=ledger, saying=["us, metric"])
    assert climate(ledger=ledger)["years"] == 30


def test_a_compressed_record_and_a_dropped_path_are_read(ledger: Path, tmp_path: Path) -> None:
    packed = tmp_path / "my record.csv.gz"
    packed.write_bytes(gzip.compress(RECORD.read_bytes()))
    assert recorded("climate", "load", f"'{packed}'", ledger=ledger).document["years"] == 30


UNUSABLE: Mapping[str, tuple[bytes, str]] = {
    "an empty file": (b"", "empty"),
    "a picture": (bytes(range(256)) * 20, "not a text"),
    "a letter": (b"Dear gardener,\nit was cold.\n", "no column"),
    "no maximum": (b"date,tmin\n2001-01-01,3\n2001-01-02,3\n", "no column for tmax"),
    "only a heading": (b"date,tmin,tmax\n", ""),
    "one day": (b"date,tmin,tmax\n2001-01-01,3,9\n", "too few"),
    "one year": (days_of([2001]).encode(), "too few"),
    "half an archive": (gzip.compress(b"date,tmin,tmax\n" * 99)[:40], ""),
}


@pytest.mark.parametrize("name", UNUSABLE)
def test_a_file_that_cannot_be_used_is_refused_and_what_was_kept_stays(
    name: str, demo: Path, tmp_path: Path
) -> None:
    content, says = UNUSABLE[name]
    path = tmp_path / "given.csv"
    path.write_bytes(content)
    before = climate(ledger=demo)
    refused("climate", "load", str(path), ledger=demo, saying=["given.csv: ", says])
    assert climate(ledger=demo) == before


@pytest.mark.parametrize(
    ("given", "says"),
    [("nowhere.csv", "No such file"), (".", "is a folder"), ("", "cannot be left empty"), ("x" * 400, "")],
)
def test_what_is_no_file_is_misused(
    given: str, says: str, ledger: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    misused("climate", "load", given, ledger=ledger, saying=["FILE: ", says])


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="the system has no endless device")
def test_a_file_without_an_end_is_not_read(ledger: Path) -> None:
    misused("climate", "load", "/dev/zero", ledger=ledger, saying=["no file on a disk"])


def test_without_a_file_and_a_terminal_it_says_what_is_missing(ledger: Path) -> None:
    misused("climate", "load", ledger=ledger, saying=["Missing: FILE (a weather station's daily record)."])


def test_a_record_needs_a_garden_to_belong_to(tmp_path: Path) -> None:
    refused("climate", "load", str(RECORD), ledger=tmp_path / "new", saying=["'cuttings garden'"])
    assert not (tmp_path / "new").exists()


def test_a_folder_that_cannot_be_written_to_keeps_what_it_had(demo: Path) -> None:
    (demo / f"{NORMALS_FILE}.new").mkdir()
    (demo / f"{DAYS_FILE}.new").mkdir()
    before = climate(ledger=demo)
    more = ("--period", "2001,2010")
    refused("climate", "load", str(RECORD), *more, ledger=demo, saying=["Nothing was kept", str(demo)])
    assert climate(ledger=demo) == before


def test_forgetting_goes_back_to_typed_dates_and_keeps_a_copy(ledger: Path) -> None:
    typed = climate(ledger=ledger)
    recorded("climate", "load", str(RECORD), ledger=ledger)
    assert recorded("climate", "forget", ledger=ledger).document == {"schema": 1, "station": None}
    assert climate(ledger=ledger) == typed
    assert len(list((ledger / "backups").iterdir())) == 2
    refused("climate", "forget", ledger=ledger, saying=["No record is loaded"])


@pytest.mark.parametrize("damage", ["{", "[]", "{}", "null", '{"layout": 99}', ""])
def test_a_damaged_record_is_told_of_and_the_typed_dates_hold(damage: str, demo: Path) -> None:
    (demo / NORMALS_FILE).write_text(damage, encoding="utf-8")
    for words in (("climate",), ("week",), ("card", "24-003")):
        result = cuttings(*words, "--json", ledger=demo)
        assert result.code == 0
        assert json.loads(result.out)["schema"] == 1
        assert result.err.count("\n") == 1
        assert (
            f"The climate in {demo / NORMALS_FILE} cannot be read; load the station file again." in result.err
        )
    assert cuttings("climate", "--json", ledger=demo).document["years"] == 0
    recorded("climate", "load", str(RECORD), ledger=demo)
    assert climate(ledger=demo)["years"] == 30


@pytest.mark.parametrize("left", [0, 2, 15_000])
def test_damaged_days_are_told_of_where_they_are_needed(left: int, demo: Path) -> None:
    days = demo / DAYS_FILE
    days.write_bytes(days.read_bytes()[:left])
    assert climate(ledger=demo)["years"] == 30
    refused(
        "climate", "--period", "2001,2010", ledger=demo, saying=["damaged", "load the station file again"]
    )


# Signs of the season


def windows(ledger: Path) -> dict[str, Any]:
    nudges = recorded("week", ledger=ledger).document["nudges"]
    return {nudge["id"]: nudge for nudge in nudges}


def test_a_sign_moves_the_windows_of_growth_and_says_so_everywhere(demo: Path) -> None:
    week_before = windows(demo)["25-003:plant"]
    card_before = recorded("card", "25-003", ledger=demo).document["next"]
    told = recorded(*EARLY, ledger=demo).document
    assert told.keys() == {"schema", "entry", "sign", "plant", "usual", "pace_days"}
    assert (told["sign"], told["plant"], told["pace_days"]) == ("soil-workable", None, 9)
    ahead = "The season is about 9 days ahead"
    week_after = windows(demo)["25-003:plant"]
    assert week_after["window"]["opens"] == "2026-04-02" < week_before["window"]["opens"] == told["usual"]
    assert ahead in week_after["why"]
    assert ahead not in week_before["why"]
    card_after = recorded("card", "25-003", ledger=demo).document["next"]
    assert card_after["from"] < card_before["from"]
    assert ahead in card_after["why"]
    for words in (("week",), ("card", "25-003"), ("climate",)):
        assert ahead in flowing(cuttings(*words, ledger=demo).out)


def test_a_late_sign_moves_them_the_other_way(demo: Path) -> None:
    told = recorded("climate", "seen", "soil-workable", "--on", "2026-04-21", ledger=demo).document
    assert told["pace_days"] == -10
    document = climate(ledger=demo)
    assert document["soil"]["workable"] == "2026-04-21"
    assert document["pace"]["days"] == -10
    assert document["pace"]["degree_days_c"] < 0
    assert "10 days behind" in document["pace"]["why"]


def test_frost_dates_are_not_moved_by_a_sign(demo: Path) -> None:
    before = climate(ledger=demo)
    recorded(*EARLY, ledger=demo)
    after = climate(ledger=demo)
    for key in ("freeze", "season_days", "last_frost", "safe_spring", "first_frost"):
        assert after[key] == before[key]
    assert after["soil"]["workable"] < before["soil"]["workable"]
    tender = [
        next(each for each in document["windows"] if each["what"] == "tender plants out")["opens"]
        for document in (before, after)
    ]
    assert tender[0] == tender[1]


def test_a_sign_taken_back_leaves_everything_as_it_was(demo: Path) -> None:
    before = climate(ledger=demo), windows(demo)
    entry = recorded(*EARLY, ledger=demo).document["entry"]
    recorded("undo", entry, ledger=demo)
    assert (climate(ledger=demo), windows(demo)) == before


def test_a_sign_of_another_spring_says_nothing_of_this_one(demo: Path) -> None:
    before = climate(ledger=demo)
    recorded("climate", "seen", "soil-workable", "--on", "2025-03-20", ledger=demo)
    assert climate(ledger=demo) == before


def test_two_earlier_years_of_one_s_own_are_what_is_usual(demo: Path) -> None:
    for day in ("2024-04-20", "2025-04-24"):
        recorded("climate", "seen", "soil-workable", "--on", day, ledger=demo)
    told = recorded("climate", "seen", "soil-workable", "--on", "2026-04-22", ledger=demo).document
    assert "2026-04-21" <= told["usual"] <= "2026-04-23"
    assert abs(told["pace_days"]) <= 1


@pytest.mark.parametrize(
    ("words", "sign", "plant"),
    [
        (("last-snow", "--on", "2026-03-28"), "last-snow", None),
        (("Soil Workable",), "soil-workable", None),
        (("first_bloom", "forsythia"), "first-bloom", "Forsythia × intermedia"),
        (("first-bloom", "red curant", "--on", "2026-04-20"), "first-bloom", "Ribes rubrum"),
    ],
)
def test_every_sign_is_written_down_with_what_is_usual(
    words: tuple[str, ...], sign: str, plant: str | None, demo: Path
) -> None:
    told = recorded("climate", "seen", *words, ledger=demo).document
    assert (told["sign"], told["plant"]) == (sign, plant)
    assert told["usual"].startswith("2026-0")


def test_a_misspelt_plant_is_told_of(demo: Path) -> None:
    result = cuttings("climate", "seen", "first-bloom", "red curant", "--on", "2026-04-20", ledger=demo)
    assert result.code == 0
    assert "'red curant' was taken for red currant" in result.err
    assert "Recorded the first bloom of red currant, 20 April." in flowing(result.out)


def test_a_plant_nobody_has_entered_is_kept_and_moves_nothing(demo: Path) -> None:
    before = climate(ledger=demo)
    result = cuttings("climate", "seen", "first-bloom", "blumph", ledger=demo)
    assert result.code == 0
    assert "Nothing tells when that is usual here" in flowing(result.out)
    told = recorded("climate", "seen", "first-bloom", "blumph", ledger=demo).document
    assert (told["plant"], told["usual"], told["pace_days"]) == ("blumph", None, None)
    assert climate(ledger=demo) == before


def test_a_sign_says_what_is_usual_and_its_source_when_asked_for(demo: Path) -> None:
    words = ("climate", "seen", "first-bloom", "forsythia")
    said = flowing(cuttings(*words, ledger=demo).out)
    assert "Usual about " in said
    assert "degree days above 50 °F" in said
    assert "Ohio State University Extension" not in said
    assert "Ohio State University Extension" in flowing(cuttings(*words, "--why", ledger=demo).out)


@pytest.mark.parametrize("day", ["2026-11-20", "2026-08-01", "2025-12-28"])
def test_a_sign_far_from_its_spring_is_refused(day: str, demo: Path) -> None:
    refused("climate", "seen", "soil-workable", "--on", day, ledger=demo,
            saying=["The soil workable is usual about", "--on gives the day"])  # fmt: skip


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Missing: SIGN (last-snow|soil-workable|first-bloom)."),
        (("rain",), "SIGN: 'rain' is none of: last-snow, soil-workable, first-bloom."),
        (("first-bloom",), "Missing: PLANT (a common or botanical name)."),
        (("first-bloom", "  "), "PLANT: This cannot be left empty."),
        (("soil-workable", "box"), "Only first-bloom goes with a plant"),
        (("soil-workable", "--on", "someday"), "--on: 'someday' is not a date"),
    ],
)
def test_a_sign_that_cannot_be_read_is_misused(words: tuple[str, ...], says: str, demo: Path) -> None:
    misused("climate", "seen", *words, ledger=demo, saying=[says])


def test_a_note_is_kept_with_a_sign(demo: Path) -> None:
    recorded(
        "climate", "seen", "last-snow", "--on", "2026-03-28", "--note", "but for the north wall", ledger=demo
    )
    last = json.loads((demo / "ledger.jsonl").read_text(encoding="utf-8").splitlines()[-1])
    assert last["note"] == "but for the north wall"
    assert last["on"] == "2026-03-28"


# Any terminal


LOOKS = [("climate",), ("climate", "--why"), ("climate", "--period", "2001,2010", "--risk", "5")]


@pytest.mark.parametrize("words", LOOKS, ids=" ".join)
@pytest.mark.parametrize("encoding", ["utf-8", "ascii"])
def test_every_width_holds(words: tuple[str, ...], encoding: str, demo: Path) -> None:
    recorded(*EARLY, ledger=demo)
    for width in WIDTHS:
        out = cuttings(*words, ledger=demo, env={"COLUMNS": str(width)}).out
        assert max(map(len, out.splitlines())) <= min(width, 100)
        twin = cuttings(*words, ledger=demo, env={"COLUMNS": str(width)}, encoding=encoding)
        assert twin.code == 0
        drawn = twin.out[twin.out.index("Last cold") : twin.out.index("Next ")]
        assert max(map(len, drawn.splitlines())) <= min(width, 100)


def test_tables_and_pictures_are_the_same_on_a_screen_that_speaks_only_ascii(demo: Path) -> None:
    spoken = [page(ledger=demo, encoding=name).out for name in ("utf-8", "ascii")]
    assert spoken[1].isascii()
    drawn = [out[out.index("Last cold") : out.index("Next ")] for out in spoken]
    assert drawn[0] == drawn[1]
    texts = [cuttings("climate", "--json", ledger=demo, encoding=name) for name in ("utf-8", "ascii")]
    assert texts[1].out.isascii()
    assert texts[0].document == texts[1].document


def test_plain_lines_say_what_the_tables_and_the_picture_show(demo: Path) -> None:
    lines = page("--plain", ledger=demo).out.splitlines()
    assert lines[0] == "Climate. Quarry Bank"
    assert not any(re.search(r"::|==|--[^a-z]|\.\.\.| {2}", line) for line in lines)
    assert all(line.endswith(".") for line in lines[1:])
    tables = [line for line in lines if "°F still to come after: " in line or "°F already come by: " in line]
    assert len(tables) == 2 * len(THRESHOLDS)
    assert "32 °F still to come after: 27 May (10 %), 23 May (20 %)" in "\n".join(tables)
    assert all(f"({tenth} %)" in line for line in tables for tenth in TENTHS)
    for what in ("plant in spring: ", "tender plants out: 27 May 2026 to ", "take hardwood: "):
        assert any(line.startswith(what) for line in lines)


def test_the_picture_stands_under_its_months_and_is_explained(demo: Path) -> None:
    lines = page(ledger=demo).out.splitlines()
    head = next(number for number, line in enumerate(lines) if line.split()[:2] == ["Jan", "Feb"])
    drawn = lines[head:]
    names = [line[:18].strip() for line in drawn]
    for name in ("frost, tenths", "ground frozen", "plant in spring", "autumn, shrubs", "take hardwood"):
        assert name in names
    text = flowing("\n".join(drawn))
    assert "nights: = five in ten are colder, : eight in ten lie within, . freezing" in text
    may = lines[head].index("May")
    tender = next(line for line in drawn if line.startswith("tender plants out"))
    assert tender[:may].strip() == "tender plants out"
    assert set(tender[may:].strip()) == {"-", "="}


def test_a_pipe_gets_no_escape_codes_and_colour_may_be_forced_or_refused(demo: Path) -> None:
    assert "\x1b" not in page(ledger=demo).out
    assert "\x1b" in page(ledger=demo, env={"FORCE_COLOR": "1"}).out
    assert "\x1b[3" not in page(ledger=demo, env={"FORCE_COLOR": "1", "NO_COLOR": "1"}).out


def test_what_was_typed_is_never_obeyed_by_the_terminal(ledger: Path, tmp_path: Path) -> None:
    recorded("garden", "--name", "Quarry \x1b[31m[red]Bank", ledger=ledger)
    assert "\x1b" not in page(ledger=ledger).out
    assert "[red]Bank" in page(ledger=ledger).out
    file = written(tmp_path, "date,tmin\n", "odd\x1b[31m.csv")
    result = cuttings("climate", "load", file, ledger=ledger)
    assert result.code == 1
    assert "\x1b" not in result.err
    sign = cuttings("climate", "seen", "first-bloom", "blu\x1b[31mmph", ledger=ledger)
    assert "\x1b" not in sign.out + sign.err
