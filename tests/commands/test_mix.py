"""Mixing at the command line: litres, scoops and bags, and what is refused."""

import re
from pathlib import Path

import pytest

from cuttings.rules.mixes import RECIPES
from cuttings.rules.pots import parse_pot
from cuttings.units import LITRES
from cuttings.words import Units
from tests.commands.expecting import misused, refused
from tests.commands.running import Result, cuttings


def mixed(*words: str, ledger: Path) -> Result:
    result = cuttings("mix", *words, "--json", ledger=ledger)
    assert (result.code, result.err) == (0, "")
    return result


@pytest.mark.parametrize("recipe", RECIPES)
@pytest.mark.parametrize(
    ("size", "litres"), [("#1", 2.8), ("SP4", 0.9), ("2L", 2.0), ("1gal", LITRES["gal"])]
)
def test_the_litres_of_the_parts_are_those_of_the_pots(
    recipe: str, size: str, litres: float, ledger: Path
) -> None:
    document = mixed(recipe, "--pots", "12", "--size", size, ledger=ledger).document
    assert document["schema"] == 1
    assert document["total_l"] == pytest.approx(12 * litres, abs=0.001)
    assert sum(part["litres"] for part in document["parts"]) == pytest.approx(document["total_l"])
    assert document["loose_l"] == pytest.approx(document["total_l"] * 1.16, rel=0.001)
    assert [part["ingredient"] for part in document["parts"]] == [
        part.material.name for part in RECIPES[recipe].parts
    ]


def test_pots_by_width(ledger: Path, metric: Path) -> None:
    for folder, size, units in (
        (ledger, "4in", Units.US),
        (metric, "9cm", Units.METRIC),
        (metric, "9", Units.METRIC),
    ):
        document = mixed("potting", "--pots", "10", "--size", size, ledger=folder).document
        assert document["total_l"] == pytest.approx(10 * parse_pot(size, units).volume_l)


def test_a_volume_is_what_comes_of_it(ledger: Path) -> None:
    document = mixed("gritty", "--volume", "30L", ledger=ledger).document
    assert document["total_l"] == 30.0
    assert [part["litres"] for part in document["parts"]] == [10.0, 10.0, 10.0]
    assert (document["pots"], document["pot"], document["pot_l"]) == (None, None, None)
    assert document["loose_l"] == 33.0
    assert document["allowed"]["settling"] == document["allowed"]["spilling"] == 0


@pytest.mark.parametrize(
    ("typed", "litres"), [("2cuft", 56.634), ("2 cu ft", 56.634), ("10gal", 37.854), ("8qt", 7.571)]
)
def test_a_volume_in_american_measures(typed: str, litres: float, ledger: Path) -> None:
    assert mixed("acid", "--volume", typed, ledger=ledger).document["total_l"] == litres


def test_the_page_is_in_the_gardens_own_measures(ledger: Path, metric: Path) -> None:
    words = ("mix", "potting", "--pots", "40", "--size", "#1")
    us, si = (cuttings(*words, ledger=folder).out for folder in (ledger, metric))
    assert "cu ft" in us
    assert "gal" in us
    assert not re.search(r"\d ?m?L\b", us)
    assert "112 L for 40 #1 pots, 2.8 L each" in si
    assert "gal" not in si
    assert "10 L bucket" in si


def test_dust_and_legionella_are_told_of_with_how_to_wet_it_and_the_ph(ledger: Path) -> None:
    for recipe in RECIPES:
        shown = " ".join(cuttings("mix", recipe, "--volume", "10L", ledger=ledger).out.split())
        assert "Legionella" in shown
        assert "away from your face" in shown
        assert "gloves, and wash your hands" in shown
        assert "a squeezed handful" in shown
        assert "pH" in shown
    assert "Perlite" in cuttings("mix", "striking", "--volume", "10L", ledger=ledger).out


def test_without_peat_first_and_with_it_where_asked_for(ledger: Path) -> None:
    without = mixed("potting", "--volume", "10L", ledger=ledger).document
    peat = mixed("potting", "--volume", "10L", "--peat", ledger=ledger).document
    assert (without["with_peat"], peat["with_peat"]) == (False, True)
    ways = [[part["ingredient"] for part in document["parts"]] for document in (without, peat)]
    assert "peat" not in ways[0]
    assert "peat" in ways[1]
    assert [part["ingredient"] for part in without["other_version"]] == ways[1]
    assert [part["ingredient"] for part in peat["other_version"]] == ways[0]
    assert "limestone" in cuttings("mix", "potting", "--volume", "10L", "--peat", ledger=ledger).out


def test_bags_are_counted_and_what_is_left_over(ledger: Path) -> None:
    words = ("potting", "--pots", "60", "--size", "2L", "--bags", "coir 9L, perlite 100L, compost 20L")
    coir, compost, loam, perlite = mixed(*words, ledger=ledger).document["parts"]
    assert coir["loose_l"] == pytest.approx(60 * 1.16)
    assert coir["bags"] == [{"litres": 9.0, "count": 8}]
    assert coir["left_l"] == pytest.approx(72 - 69.6)
    assert compost["bags"] == [{"litres": 20.0, "count": 2}]
    assert perlite["bags"] == [{"litres": 100.0, "count": 1}]
    assert (loam["bags"], loam["left_l"]) == ([], None)
    shown = " ".join(cuttings("mix", *words, ledger=ledger).out.split())
    assert "coir: 8 bags of 2.4 gal" in shown
    assert "No bag is named for loam." in shown


def test_a_pressed_block_is_soaked_first(metric: Path) -> None:
    words = ("mix", "striking", "--volume", "20L", "--bags", "coir 650g")
    shown = " ".join(cuttings(*words, ledger=metric).out.split())
    assert "coir: 2 pressed blocks of 650 g" in shown
    assert "Soak it in 5.8 L of water" in shown or "Soak it in 5.9 L of water" in shown


def test_for_a_lot_it_takes_the_advice_of_the_potting_bench(demo: Path) -> None:
    document = mixed("--for", "25-004", ledger=demo).document
    assert (document["lot"], document["advised"], document["recipe"]) == ("25-004", "potting", "potting")
    assert document["pots"] is not None
    assert document["total_l"] == pytest.approx(document["pots"] * document["pot_l"], abs=0.001)
    other = mixed("gritty", "--for", "25-004", "--pots", "3", "--size", "SP4", ledger=demo).document
    assert (other["recipe"], other["advised"], other["pots"], other["pot"]) == ("gritty", "potting", 3, "SP4")
    shown = " ".join(cuttings("mix", "gritty", "--for", "25-004", ledger=demo).out.split())
    assert "The advice for it is potting" in shown


def test_the_list_names_every_recipe_with_its_purpose(ledger: Path) -> None:
    shown = " ".join(cuttings("mix", "--list", ledger=ledger).out.split())
    document = mixed("--list", ledger=ledger).document
    assert [each["recipe"] for each in document["recipes"]] == list(RECIPES)
    for name, recipe in RECIPES.items():
        assert name in shown
        assert recipe.purpose in shown


def test_nothing_is_written_down(demo: Path) -> None:
    before = {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()}
    mixed("potting", "--pots", "3", "--size", "4in", ledger=demo)
    assert {file: file.read_bytes() for file in demo.rglob("*") if file.is_file()} == before


def test_no_ledger_is_needed_and_none_is_made(tmp_path: Path) -> None:
    mixed("striking", "--volume", "2L", ledger=tmp_path / "none")
    assert not (tmp_path / "none").exists()


def test_the_sources_are_shown_where_they_are_asked_for(ledger: Path) -> None:
    words = ("mix", "striking", "--pots", "3", "--size", "#1")
    assert "from memory" not in cuttings(*words, ledger=ledger).out
    shown = " ".join(cuttings(*words, "--why", ledger=ledger).out.split())
    assert "Penn State Extension" in shown
    assert "from memory" in shown
    assert "Bookcliff Gardens" in shown


def test_a_true_gallon_is_told_from_a_trade_gallon(ledger: Path) -> None:
    shown = " ".join(cuttings("mix", "potting", "--pots", "3", "--size", "1gal", ledger=ledger).out.split())
    assert "trade class #1" in shown


@pytest.mark.parametrize(
    ("words", "saying"),
    [
        (("mud", "--volume", "9L"), ("RECIPE", "'mud'", *RECIPES)),
        ((), ("RECIPE", "--pots", "--size", "--volume")),
        (("acid",), ("--pots", "--size")),
        (("acid", "--pots", "3"), ("--size",)),
        (("acid", "--size", "#1"), ("--pots",)),
        (("acid", "--pots", "0", "--size", "#1"), ("--pots",)),
        (("acid", "--pots", "3", "--size", "bucket"), ("--size",)),
        (("acid", "--pots", "3", "--size", "#1", "--volume", "9L"), ("--volume", "--pots")),
        (("acid", "--volume", "-3L"), ("--volume",)),
        (("acid", "--volume", "1mL"), ("cannot be reckoned",)),
        (("acid", "--volume", "9L", "--bags", "perlite 9L"), ("--bags", "no perlite in this mix")),
        (("--for", "25-001", "--size", "bucket"), ("--size",)),
    ],
)
def test_what_cannot_be_read_is_told_in_a_sentence(
    words: tuple[str, ...], saying: tuple[str, ...], demo: Path
) -> None:
    misused("mix", *words, ledger=demo, saying=saying)


def test_a_lot_that_is_not_there_is_refused(demo: Path) -> None:
    refused("mix", "--for", "99-999", ledger=demo, saying=("99-999",))
