"""Degree days and soil at the command line."""

from datetime import date
from pathlib import Path

import pytest

from cuttings.climate.heat import degree_days_86_50, degree_days_average
from cuttings.climate.soil import soil_wave
from cuttings.climate.wave import Wave
from cuttings.demo.weather import daily_lines
from tests.commands.expecting import misused
from tests.commands.running import MAY, cuttings, demo_garden, recorded


@pytest.fixture(scope="module")
def quarry_bank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("warmth") / "quarry-bank")


def sums(ledger: Path, *words: str) -> dict[str, tuple[float, float]]:
    document = cuttings("climate", "heat", *words, "--json", ledger=ledger).document
    return {each["method"]: (each["until"], each["year"]) for each in document["degree_days_c"]}


def by_hand(last_year: int, until: date) -> tuple[float, float]:
    """Mean sums to a day over the thirty years, by average above 50 °F and by 86/50, from the weather's own
    lines."""
    average = modified = 0.0
    for line in list(daily_lines(last_year))[2:]:
        day, low, high, _ = line.split(",")
        if day[5:] <= f"{until:%m-%d}":
            average += degree_days_average(float(low), float(high), 50.0) / 30
            modified += degree_days_86_50(float(low), float(high)) / 30
    return average, modified


def test_a_records_sums_are_the_means_of_its_years(quarry_bank: Path) -> None:
    average, modified = by_hand(MAY.year - 1, MAY)
    found = sums(quarry_bank)
    assert found["daily average"][0] * 1.8 == pytest.approx(average, rel=0.03)
    assert found["modified 86/50"][0] * 1.8 == pytest.approx(modified, rel=0.03)
    assert set(found) == {"single sine", "daily average", "modified 86/50"}


def test_a_lower_base_brings_more_and_only_the_modified_method_does_not_heed_it(quarry_bank: Path) -> None:
    fifty, forty = sums(quarry_bank), sums(quarry_bank, "--base", "40F")
    for method in ("single sine", "daily average"):
        assert forty[method][0] > fifty[method][0]
        assert forty[method][1] > fifty[method][1]
    assert forty["modified 86/50"] == fifty["modified 86/50"]


def test_the_single_sine_counts_what_the_average_misses(quarry_bank: Path) -> None:
    found = sums(quarry_bank)
    assert found["single sine"][0] > found["daily average"][0]


def test_without_a_record_the_sums_are_estimates_and_say_so(tmp_path: Path) -> None:
    place = (
        "--name",
        "South bank",
        "--lat",
        "-43.5",
        "--lon",
        "172",
        "--elevation",
        "20m",
        "--units",
        "metric",
    )
    recorded("garden", *place, "--last-frost", "10-20", "--first-frost", "04-25", ledger=tmp_path)
    document = cuttings("climate", "heat", "--json", ledger=tmp_path).document
    assert document["measured"] is False
    assert document["from"] == "2025-07-01"
    assert {each["method"] for each in document["degree_days_c"]} == {"single sine", "daily average"}
    shown = cuttings("climate", "heat", ledger=tmp_path)
    assert "estimates from your frost dates" in shown.out
    assert "since 1 July" in shown.out


def test_the_soil_lags_and_flattens_with_depth(quarry_bank: Path) -> None:
    shallow, deep = (
        cuttings("climate", "soil", "--depth", depth, "--json", ledger=quarry_bank).document
        for depth in ("5cm", "50cm")
    )
    assert max(deep["monthly_c"]) < max(shallow["monthly_c"])
    assert min(deep["monthly_c"]) > min(shallow["monthly_c"])
    assert deep["passes_f"]["50"]["rises"] > shallow["passes_f"]["50"]["rises"]
    assert deep["daily_swing_c"] < shallow["daily_swing_c"]


def test_the_soil_of_a_day_is_that_of_the_damped_wave(quarry_bank: Path) -> None:
    waves = cuttings("climate", "--json", ledger=quarry_bank).document["soil"]
    at_ten = Wave(waves["mean_c"], waves["amplitude_c"], waves["warmest_day"])
    told = cuttings("climate", "soil", "--depth", "10cm", "--json", ledger=quarry_bank).document
    assert told["mean_c"] == pytest.approx(at_ten.at(MAY.timetuple().tm_yday), abs=0.3)
    assert soil_wave(at_ten, 0.0, warmer_by_c=0.0).at(1) == pytest.approx(at_ten.at(1))


@pytest.mark.parametrize(
    ("words", "saying"),
    [
        (("heat", "--base", "warm"), "--base"),
        (("soil", "--depth", "deep"), "--depth"),
        (("soil", "--depth", "30ft"), "deeper than any root goes"),
    ],
)
def test_what_cannot_be_read_is_refused_in_a_sentence(
    words: tuple[str, ...], saying: str, quarry_bank: Path
) -> None:
    misused("climate", *words, ledger=quarry_bank, saying=[saying])


def test_a_record_that_is_gone_is_said(tmp_path: Path) -> None:
    ledger = demo_garden(tmp_path / "quarry-bank")
    (ledger / "climate.days").unlink()
    result = cuttings("climate", "heat", ledger=ledger)
    assert result.code == 1
    assert "climate load FILE" in result.err
