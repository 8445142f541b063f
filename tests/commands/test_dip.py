"""Dip: what to mix, in both systems of units, for a liquid, a soak and a powder; and what is refused."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from tests.commands.expecting import misused, refused
from tests.commands.running import cuttings

MIX = ("--stock", "10000ppm", "--want", "2000ppm", "--make", "250mL")


def told(*words: str, ledger: Path) -> Mapping[str, Any]:
    result = cuttings("dip", *words, "--json", ledger=ledger)
    assert (result.code, result.err) == (0, "")
    return result.document


def page(*words: str, ledger: Path) -> str:
    result = cuttings("dip", *words, ledger=ledger)
    assert (result.code, result.err) == (0, "")
    return " ".join(result.out.split())


def test_a_stock_thinned_with_water(ledger: Path) -> None:
    document = told(*MIX, ledger=ledger)
    assert document["schema"] == 1
    assert (document["stock_ml"], document["diluent_ml"], document["strength_ppm"]) == (50.0, 200.0, 2000.0)
    assert (document["total_ml"], document["active_mg"], document["dip_seconds"]) == (250.0, 500.0, [1, 5])
    assert (document["form"], document["stock_g"], document["plant"]) == ("liquid", None, None)
    assert document["doubts"] == []
    assert any("gloves" in each and "eyes" in each and "label" in each for each in document["cautions"])


@pytest.mark.parametrize("stock", ["10000ppm", "10,000 ppm", "1%", "1 % w/v", "10g/L", "10000 mg/L", "10000"])
@pytest.mark.parametrize("want", ["2000ppm", "0.2%", "2 g/L", "1 part stock to 4 parts water"])
def test_the_same_mix_in_every_unit(stock: str, want: str, ledger: Path) -> None:
    document = told("--stock", stock, "--want", want, "--make", "0.25L", ledger=ledger)
    assert (document["stock_ml"], document["diluent_ml"]) == (50.0, 200.0)


def test_a_powder_is_mixed_by_weight(ledger: Path) -> None:
    document = told("--form", "powder", "--stock", "0.8%", "--want", "3g/kg", "--make", "40g", ledger=ledger)
    assert (document["stock_g"], document["diluent_g"], document["strength_ppm"]) == (15.0, 25.0, 3000.0)
    assert (document["stock_ml"], document["diluent_ml"], document["dip_seconds"]) == (None, None, None)
    said = page("--form", "powder", "--stock", "0.8%", "--want", "3000ppm", "--make", "40g", ledger=ledger)
    assert "15 g (0.529 oz) of stock at 8000 ppm (0.8 % w/w, 8 g/kg)." in said
    assert "25 g (0.882 oz) of talc" in said
    assert "do not breathe the dust" in said


def test_the_strength_of_a_plants_wood_is_advised(ledger: Path) -> None:
    document = told("Taxus baccata", "--wood", "hardwood", "--stock", "1%", "--make", "100mL", ledger=ledger)
    low, high = document["advised_ppm"]
    assert low <= document["strength_ppm"] <= high
    assert document["wood"] == "hardwood"
    assert document["plant"] == "Taxus baccata"
    assert document["why"]
    assert document["source"]


def test_the_strength_of_a_wood_is_advised_without_a_plant(ledger: Path) -> None:
    document = told("--wood", "softwood", "--stock", "1%", "--make", "100mL", ledger=ledger)
    assert document["advised_ppm"] == [1000, 3000]
    assert document["strength_ppm"] == 1000.0
    said = page("--wood", "softwood", "--stock", "1%", "--make", "100mL", "--why", ledger=ledger)
    assert "softwood cuttings of most plants" in said
    assert "from memory" in said


def test_a_soak_is_weak_and_takes_hours(ledger: Path) -> None:
    document = told("--wood", "softwood", "--soak", "--stock", "1%", "--make", "1L", ledger=ledger)
    assert 20 <= document["strength_ppm"] <= 200
    assert (document["soak_hours"], document["dip_seconds"]) == ([4, 12], None)
    said = page("--wood", "softwood", "--soak", "--stock", "1%", "--make", "1L", ledger=ledger)
    assert "made with water" in said


def test_no_hormone_where_it_is_of_no_use(ledger: Path) -> None:
    words = ("siberian iris", "--wood", "root", "--stock", "1%", "--make", "1L")
    document = told(*words, ledger=ledger)
    assert (document["strength_ppm"], document["stock_ml"], document["diluent_ml"]) == (0.0, 0.0, 0.0)
    assert "none: nothing is to be mixed." in page(*words, ledger=ledger)
    assert "none: nothing is to be mixed." in page(*MIX[:2], "--want", "none", *MIX[4:], ledger=ledger)
    anyway = told(*words, "--want", "500ppm", ledger=ledger)
    assert anyway["strength_ppm"] == 500.0
    assert "No hormone is advised" in anyway["doubts"][0]


def test_amounts_are_said_in_millilitres_and_in_the_gardens_units(ledger: Path, metric: Path) -> None:
    us, si = (page(*MIX, ledger=each) for each in (ledger, metric))
    assert "50 mL (1.7 fl oz) of stock at 10000 ppm (1 % w/v, 10 g/L)." in us
    assert "200 mL (6.8 fl oz) of water, for 250 mL (8.5 fl oz) in all." in us
    assert "50 mL of stock at 10000 ppm (1 % w/v, 10 g/L)." in si
    assert "200 mL of water, for 250 mL in all." in si
    assert "for 2000 mL (2 L) in all" in page(*MIX[:4], "--make", "2", ledger=metric)
    assert "the lowest 1 cm" in si
    assert "the lowest 0.5 in" in us


def test_what_is_less_than_a_spoonful_is_for_a_syringe(ledger: Path) -> None:
    said = page("--stock", "1%", "--want", "1000ppm", "--make", "2floz", ledger=ledger)
    assert "5.91 mL of stock" in said
    assert "53.2 mL (1.8 fl oz) of water, for 59.1 mL (2 fl oz) in all." in said


def test_parts_are_explained(ledger: Path) -> None:
    words = ("--stock", "1%", "--want", "1 part stock to 10 parts water", "--make", "110mL")
    assert told(*words, ledger=ledger)["stock_ml"] == 10.0
    said = page(*words, ledger=ledger)
    assert "909.1 ppm" in said
    assert "1 to 10 by parts is 1 in 11 of the whole." in said


def test_a_stock_of_the_strength_wanted_is_used_as_it_is(ledger: Path) -> None:
    said = page("--stock", "0.3%", "--want", "3000ppm", "--make", "50mL", ledger=ledger)
    assert "as it is: nothing is added." in said


def test_leftovers_cautions_and_the_next_step_are_told(ledger: Path) -> None:
    said = page("rosemary", "--wood", "softwood", *MIX, ledger=ledger)
    for word in ("never goes back", "local rules", "gloves", "eyes", "label", "never touch food", "bottle"):
        assert word in said
    assert "'cuttings strike rosemary --wood softwood --dip 2000 --dip-form liquid'" in said
    two = page("siberian iris", "--wood", "basal", *MIX, ledger=ledger)
    assert 'strike "Siberian iris" --wood basal' in two


def test_the_plants_own_dangers_are_told(ledger: Path) -> None:
    assert any("sap" in each for each in told("fig", *MIX, ledger=ledger)["cautions"])


def test_a_dip_stronger_than_growers_use_is_doubted(ledger: Path) -> None:
    document = told("rosemary", "--wood", "softwood", "--stock", "2%", "--want", "8000ppm", "--make", "100mL",
                    ledger=ledger)  # fmt: skip
    assert any("stronger than growers use" in each for each in document["doubts"])
    assert any("read the label's strength" in each for each in document["doubts"])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--stock", "1000ppm", "--want", "2000ppm", "--make", "1L"), "thinning only weakens it"),
        (("--stock", "100%", "--want", "5%", "--make", "1L"), "stronger than any plant"),
        (("--stock", "1%", "--want", "20ppm", "--make", "10mL"), "less than can be measured"),
        (("--stock", "1%", "--want", "2000ppm", "--make", "250"), "more than a bench uses"),
        (("--stock", "1%", "--want", "2000ppm", "--make", "1L", "--soak"), "no strength to soak in"),
        (
            ("--form", "powder", "--stock", "0.8%", "--want", "1%", "--make", "50g"),
            "thinning only weakens it",
        ),
    ],
)
def test_what_cannot_be_made_is_refused(words: tuple[str, ...], says: str, ledger: Path) -> None:
    refused("dip", *words, ledger=ledger, saying=[says])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Missing: --stock (10000ppm, 1% or 10g/L); --want (2000ppm, or --wood for the strength "
             "advised); --make (250mL or 8floz)."),
        (("rosemary",), "--want (2000ppm, or --wood"),
        (("--form", "powder", "--want", "0.3%"),
         "Missing: --stock (8000ppm, 0.8% or 8g/kg); --make (50g or 2oz)."),
        (("--stock", "strong", *MIX[2:]), "--stock: 'strong' is not a strength"),
        (("--stock", "10.000ppm", *MIX[2:]), "--stock: '10.000ppm' could be read two ways"),
        ((*MIX[:2], "--want", "1:10", *MIX[4:]), "--want: '1:10' is understood in two ways"),
        ((*MIX[:2], "--want", "0ppm", *MIX[4:]), "--want: A strength must be more than nothing"),
        ((*MIX[:4], "--make", "-1L"), "--make: A volume must be more than nothing"),
        ((*MIX[:4], "--make", "50g"), "--make: '50g' has no volume unit"),
        ((*MIX, "--form", "powder", "--soak"), "--soak is for a liquid"),
        ((*MIX, "--form", "gel"), "--form: 'gel' is none of: powder, liquid"),
        ((*MIX, "--wood", "driftwood"), "--wood: 'driftwood' is none of"),
        ((*MIX, "--form", "powder"), "--make: '250mL' has no weight unit"),
    ],
)  # fmt: skip
def test_misuse_is_told_in_one_line(words: tuple[str, ...], says: str, ledger: Path) -> None:
    misused("dip", *words, ledger=ledger, saying=[says])


def test_nothing_is_recorded(ledger: Path, tmp_path: Path) -> None:
    before = (ledger / "ledger.jsonl").read_bytes()
    assert cuttings("dip", "rosemary", *MIX, ledger=ledger).code == 0
    assert (ledger / "ledger.jsonl").read_bytes() == before
    assert cuttings("dip", *MIX, ledger=tmp_path / "none").code == 0
    assert not (tmp_path / "none").exists()
