"""What is known of plants: sheets, wishes, one's own plants and corrections, a second look at a find."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from cuttings.plants.checking import DISPOSAL, INVASIVE
from cuttings.plants.standard import standard
from cuttings.words import Light, Method
from tests.commands.expecting import last_entry, refused
from tests.commands.running import MAY, Result, cuttings, recorded

NOVEMBER = date(2026, 11, 20)

pytestmark = pytest.mark.usefixtures("ledger")


def sheet(name: str, ledger: Path, *words: str) -> dict[str, Any]:
    result = cuttings("plants", name, "--json", *words, ledger=ledger)
    assert result.code == 0, result.err
    return result.document


def listed(*words: str, ledger: Path, today: date = MAY) -> set[str]:
    """The names of the plants that fit the wishes."""
    result = cuttings("plants", *words, "--json", ledger=ledger, today=today)
    assert result.code == 0, result.err
    return {plant["name"] for plant in result.document["plants"]}


def span(value: Any) -> None:
    """A low and a high, or nothing."""
    if value is not None:
        low, high = value
        assert low <= high


def test_every_plant_has_a_sheet_of_one_shape(ledger: Path) -> None:
    names = sorted(listed(ledger=ledger))
    assert len(names) == len(standard())
    for name in names[::9]:
        document = sheet(name, ledger)
        assert document["matched"] == document["name"] == name
        for key in ("zones", "height_m", "spread_m", "spacing_m", "ph", "planting_depth_m"):
            span(document[key])
        assert set(document["light"]) <= set(Light)
        for way in document["methods"]:
            assert way["method"] in list(Method)
            assert set(way["months"]) <= set(range(1, 13))
            for key in ("rooting_days", "iba_ppm", "length_m", "take", "reference_temp_c"):
                span(way[key])
            assert way["source"]
        if (division := document["division"]) is not None:
            assert isinstance(division["resents"], bool)
            span(division["every_years"])
        assert document["sources"]


def test_plants_are_chosen_by_light_zone_and_month(ledger: Path) -> None:
    known = listed(ledger=ledger)
    assert listed("--light", "shade", ledger=ledger) < known
    assert listed("--zone", "5b", ledger=ledger) < known
    in_november = listed("--hardwood-in", "11", ledger=ledger)
    assert "Ribes rubrum" in in_november < known
    for said in ("november", "Nov"):
        assert listed("--hardwood-in", said, ledger=ledger) == in_november
    hardy = listed("--hardwood-in", "11", "--zone", "5", ledger=ledger)
    assert hardy == in_november & listed("--zone", "5b", ledger=ledger)


def test_the_questions_a_gardener_asks_of_the_catalogue_are_answered(ledger: Path) -> None:
    """Common practice: currants and willows as hardwood in November; barrenwort stands dry shade; hostas
    and yarrows are divided as they wake, and peonies are not."""
    november = listed("--by", "hardwood-cutting", "--when", "november", ledger=ledger)
    assert november == listed("--hardwood-in", "november", ledger=ledger)
    assert {"Ribes rubrum", "Salix", "Cornus sericea"} <= november
    assert "Epimedium" in listed("--light", "shade", "--moisture", "dry", "--zone", "5", ledger=ledger)
    now = listed("--by", "division", "--when", "now", ledger=ledger, today=date(2026, 5, 2))
    assert {"Hosta", "Achillea millefolium"} <= now
    assert "Paeonia lactiflora" not in now


def test_an_invasive_plant_is_never_offered_without_a_word(ledger: Path) -> None:
    lines = cuttings("plants", "--type", "climber", ledger=ledger).out.splitlines()
    (japanese,) = (line for line in lines if "Lonicera japonica" in line)
    (native,) = (line for line in lines if "Lonicera sempervirens" in line)
    assert "invasive in some places" in japanese
    assert "invasive" not in native


def test_wishes_that_ask_how_say_how(ledger: Path) -> None:
    result = cuttings("plants", "--by", "layer", "--easy", ledger=ledger)
    assert "simple layer" in result.out
    assert "softwood" not in result.out
    document = cuttings("plants", "--by", "layer", "--json", ledger=ledger).document
    assert all(set(each["methods"]) <= {m.value for m in Method if m.is_layer} for each in document["plants"])


def test_a_name_and_wishes_look_among_the_plants_of_that_name(ledger: Path) -> None:
    found = listed("viburnum", "--evergreen", ledger=ledger)
    assert found
    assert all("Viburnum" in name for name in found)


def test_what_can_be_seen_on_it_narrows_the_plants(ledger: Path) -> None:
    minty = listed("--leaves", "opposite", "--stem", "square", "--smell", "mint", ledger=ledger)
    assert "Mentha" in minty
    assert "Rosa rugosa" not in minty


@pytest.mark.parametrize(
    ("words", "saying"),
    [
        (("--light", "candle"), "--light"),
        (("--zone", "14"), "--zone"),
        (("--by", "magic"), "--by"),
        (("--when", "smarch"), "--when"),
        (("--petals", "9"), "--petals"),
        (("--deer", "maybe"), "--deer"),
        (("--salt", "maybe"), "--salt"),
        (("--hardwood-in", "nov", "--by", "layer"), "either"),
    ],
)
def test_a_wish_that_cannot_be_read_is_misuse(words: tuple[str, ...], saying: str, ledger: Path) -> None:
    result = cuttings("plants", *words, ledger=ledger)
    assert (result.code, result.out) == (2, "")
    assert saying in result.err


def test_the_sheet_says_ease_needs_dangers_and_with_why_every_source(ledger: Path) -> None:
    said = cuttings("plants", "Aconitum", ledger=ledger).out
    for heading in (
        "To make more of it, easiest first",
        "What it needs",
        "When, in this garden",
        "To watch for",
    ):
        assert heading in said
    assert "Harmful: " in said
    why = cuttings("plants", "Ribes rubrum", "--why", ledger=ledger).out
    assert "Sources" in why
    assert "https://" in why
    assert "common practice" in why


def test_the_easiest_way_stands_first_on_the_sheet(ledger: Path) -> None:
    ranks = ["easy", "moderate", "hard"]
    lines = cuttings("plants", "Acer palmatum", "--plain", ledger=ledger).out.splitlines()
    told = [rank for line in lines for rank in ranks if f"; {rank};" in line or f"; {rank}." in line]
    assert told == sorted(told, key=ranks.index)
    assert len(set(told)) > 1


def test_a_value_says_from_which_level_it_came(ledger: Path) -> None:
    document = sheet("Juniperus horizontalis 'Wiltonii'", ledger)
    assert document["level"] == "cultivar"
    assert {"species", "genus", "type"} & set(document["levels"].values())
    assert "what holds for the" in cuttings("plants", "Wiltonii", ledger=ledger).out


def test_every_invasive_plant_says_so_in_the_same_words_and_how_to_be_rid_of_it() -> None:
    invasive = [c for plant in standard() for c in plant.cautions if c.kind == "invasive"]
    assert len(invasive) > 20
    for caution in invasive:
        assert INVASIVE in caution.text
        assert DISPOSAL.search(caution.text)


def amended(*words: str, ledger: Path) -> Result:
    return recorded("plants", "amend", *words, ledger=ledger)


def test_an_amendment_wins_is_told_apart_and_can_be_taken_back(ledger: Path) -> None:
    before = sheet("red currant", ledger)
    amended("red currant", "--zones", "4-6", "--height", "3-4ft", "--on", "2026-05-01", ledger=ledger)
    after = sheet("red currant", ledger)
    assert (after["zones"], after["height_m"]) == ([4, 6], [pytest.approx(0.9144), pytest.approx(1.2192)])
    assert after["spread_m"] == before["spread_m"]
    assert after["levels"]["zones"] == "own record"
    assert "your own record of 2026-05-01" in after["sources"]
    assert "your own record" in cuttings("plants", "red currant", ledger=ledger).out
    recorded("undo", ledger=ledger)
    assert sheet("red currant", ledger) == before


def test_how_it_stands_salt_is_shown_wished_for_and_amended(ledger: Path) -> None:
    assert sheet("rugosa rose", ledger)["salt"] == "tolerant"
    assert "stands road salt and salt wind" in cuttings("plants", "rugosa rose", ledger=ledger).out
    assert "Rosa rugosa" in listed("--salt", "tolerant", ledger=ledger)
    assert "Rosa rugosa" not in listed("--salt", "sensitive", ledger=ledger)
    amended("rugosa rose", "--salt", "some", ledger=ledger)
    assert (sheet("rugosa rose", ledger)["salt"], sheet("rugosa rose", ledger)["levels"]["salt"]) == (
        "some",
        "own record",
    )
    assert "Rosa rugosa" in listed("--salt", "some", ledger=ledger)


def test_an_amendment_of_a_way_changes_that_way_alone(ledger: Path) -> None:
    before = sheet("red currant", ledger)["methods"]
    words = ("--method", "hardwood-cutting", "--take", "80-95%", "--rooting-days", "100-160")
    amended("red currant", *words, ledger=ledger)
    after = sheet("red currant", ledger)["methods"]
    assert [way["method"] for way in after] == [way["method"] for way in before]
    way = next(way for way in after if way["method"] == "hardwood-cutting")
    assert (way["take"], way["rooting_days"]) == ([0.8, 0.95], [100, 160])
    assert [w for w in after if w is not way] == [w for w in before if w["method"] != "hardwood-cutting"]


def test_an_amendment_holds_for_the_advice_too(ledger: Path) -> None:
    """Roots are looked for when the keeper's own figures say so."""
    lot = recorded("strike", "red currant", "--wood", "hardwood", "--count", "5", ledger=ledger).lot
    before = recorded("card", lot, ledger=ledger).document["rooting"]
    amended("red currant", "--method", "hardwood-cutting", "--rooting-days", "300-400", ledger=ledger)
    after = recorded("card", lot, ledger=ledger).document["rooting"]
    assert after["p50"] > before["p50"]


def test_a_cultivar_of_ones_own_gets_a_record_of_its_own(ledger: Path) -> None:
    amended("Ribes rubrum 'Old Gate'", "--height", "5-6ft", ledger=ledger)
    document = sheet("Ribes rubrum 'Old Gate'", ledger)
    assert (document["name"], document["level"]) == ("Ribes rubrum 'Old Gate'", "cultivar")
    assert document["height_m"][0] > sheet("Ribes rubrum", ledger)["height_m"][0]
    assert document["zones"] == sheet("Ribes rubrum", ledger)["zones"]


def test_a_plant_of_ones_own_is_added_found_and_recorded(ledger: Path) -> None:
    recorded("plants", "add", "Nihil nemo", "--type", "shrub", "--common", "gate bush, nobody",
             "--zones", "4-7", "--light", "full-sun,part-sun", "--method", "hardwood-cutting",
             "--months", "11-2", ledger=ledger)  # fmt: skip
    document = sheet("gate bushes", ledger)
    assert (document["name"], document["zones"]) == ("Nihil nemo", [4, 7])
    assert document["methods"][0]["months"] == [11, 12, 1, 2]
    assert "Nihil nemo" in listed("--hardwood-in", "nov", ledger=ledger)
    lot = recorded("find", "gate bush", "--method", "simple-layer", ledger=ledger).lot
    assert last_entry(ledger, lot)["plant"] == "Nihil nemo"


def test_what_is_known_is_not_added_and_what_is_not_known_is_not_amended(ledger: Path) -> None:
    refused("plants", "add", "Ribes rubrum", "--type", "shrub", ledger=ledger, saying=["amend"])
    refused("plants", "amend", "zzyzx plonkweed", "--zones", "4", ledger=ledger, saying=["plants add"])


@pytest.mark.parametrize(
    ("words", "saying"),
    [
        (("amend", "red currant"), "--zones"),
        (("amend", "red currant", "--zones", "9-4"), "zones: 9 is above 4"),
        (("amend", "red currant", "--zones", "four"), "--zones"),
        (("amend", "red currant", "--light", "candle"), "--light"),
        (("amend", "red currant", "--salt", "maybe"), "--salt"),
        (("amend", "red currant", "--months", "11"), "--method"),
        (("amend", "red currant", "--method", "magic"), "--method"),
        (("amend", "red currant", "--height", "3kg"), "--height"),
        (("add", "Nihil nemo"), "--type"),
        (("add",), "NAME"),
    ],
)
def test_a_fact_that_will_not_do_is_misuse(words: tuple[str, ...], saying: str, ledger: Path) -> None:
    result = cuttings("plants", *words, ledger=ledger)
    assert (result.code, result.out) == (2, "")
    assert saying in result.err


def test_a_find_with_an_unwanted_double_is_to_be_looked_at_twice(ledger: Path) -> None:
    result = cuttings("find", "Virginia creeper", "--method", "simple-layer", ledger=ledger)
    assert "Look twice" in result.out
    assert "Poison ivy (Toxicodendron radicans) is taken for" in result.out
    document = recorded("find", "Virginia creeper", "--method", "simple-layer", ledger=ledger).document
    (double,) = document["look_twice"]
    assert double.keys() == {"name", "common", "tell", "if_double", "source"}
    assert (
        "look_twice" not in recorded("find", "red currant", "--method", "tip-layer", ledger=ledger).document
    )


def test_a_lot_gets_its_right_name_when_somebody_knows(ledger: Path) -> None:
    lot = recorded("find", "unknown shrub", "--method", "seedling", ledger=ledger).lot
    recorded("note", lot, "it flowered", "--plant", "lilac", ledger=ledger)
    card = recorded("card", lot, ledger=ledger).document
    assert card["plant"] == "Syringa vulgaris"
    recorded("undo", ledger=ledger)
    assert recorded("card", lot, ledger=ledger).document["plant"] == "unknown shrub"


def test_the_key_needs_a_terminal_and_says_what_to_do_without(ledger: Path) -> None:
    result = cuttings("find", "?", "--method", "seedling", ledger=ledger)
    assert (result.code, result.out) == (2, "")
    assert "cuttings plants --leaves" in result.err


def test_a_plant_nobody_should_keep_is_never_advised_to_be_kept(ledger: Path) -> None:
    """Common practice, and the law in many places: knotweed is not lifted, potted or planted."""
    document = sheet("Japanese knotweed", ledger)
    assert (document["unwanted"], document["methods"], document["windows"]) == (True, [], [])
    assert (
        "Not to be increased, kept or planted" in cuttings("plants", "Japanese knotweed", ledger=ledger).out
    )
    lot = recorded("find", "Japanese knotweed", "--method", "offset", ledger=ledger).lot
    card = recorded("card", lot, ledger=ledger).document
    assert card["next"]["what"].startswith("Do away with")
    assert INVASIVE in card["next"]["why"]
    (nudge,) = (n for n in recorded("week", ledger=ledger).document["nudges"] if n["lot"] == lot)
    assert nudge["what"].startswith("Do away with")
    site = ("--area", "gate strip", "--light", "full-sun", "--length", "5m", "--depth", "2m")
    recorded("sites", "add", "gate bed", *site, ledger=ledger)
    plan = recorded("spot", lot, ledger=ledger).document
    assert not plan["plan"]
    assert "Nobody should plant it" in plan["refused"][0]["because"][0]
