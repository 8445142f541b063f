"""Type, genus, species, cultivar: the nearest value wins, and the plant says where it came from."""

from datetime import date
from typing import Any

from cuttings.plants.catalogue import Catalogue
from cuttings.plants.finding import names_of
from cuttings.plants.own import OWN_LEVEL, own_record
from cuttings.plants.understood import plant_for, understand
from cuttings.words import Light, Method, PlantType

MEMORY = "from memory"


def record(name: str, rank: str, **fields: Any) -> dict[str, Any]:
    return {"name": name, "rank": rank, "type": "shrub", "common": [], "source": MEMORY, **fields}


RECORDS = [
    record(
        "Primus", "genus", zones=[3, 9], light=["shade"], salt="sensitive",
        looks={"leaves": ["opposite"], "sap": "milky"},
        cautions=[{"kind": "invasive", "text": "Some of them run wild.", "source": "book"},
                  {"kind": "poison", "text": "Do not eat it.", "source": "book"},
                  {"kind": "spines", "text": "Wear gloves.", "source": MEMORY}],
        sources={"zones": "book", "salt": "book"},
    ),
    record("Primus albus", "species", zones=[4, 8], height_m=[1, 2], looks={"sap": "clear"},
           bloom={"months": [4], "wood": "old"},
           cautions=[{"kind": "spines", "text": "Sharp as needles.", "source": MEMORY}]),
    record("Primus albus 'Minor'", "cultivar", common=["small primus"], height_m=[0.3, 0.5]),
]  # fmt: skip
TYPES = {
    "shrub": {
        "mix": "acid",
        "light": ["full-sun"],
        "ways": [{"method": "simple-layer"}],
        "source": "practice",
    }
}
METHODS = {"simple-layer": {"months": [4], "rooting_days": [90, 300], "source": "handbook"}}
REFERENCES = {"book": {"publisher": "A press", "title": "A book", "year": "1999"}}
CATALOGUE = Catalogue(
    {each["name"]: each for each in RECORDS}, TYPES, METHODS, lambda: names_of(RECORDS), lambda: REFERENCES
)


def test_the_nearest_value_wins_and_its_level_and_source_are_told() -> None:
    plant = CATALOGUE.plant("Primus albus 'Minor'")
    assert (plant.height_m, plant.levels.get("height_m")) == ((0.3, 0.5), None)
    assert (plant.zones, plant.levels["zones"]) == ((4, 8), "species")
    assert (plant.light, plant.levels["light"]) == ((Light.SHADE,), "genus")
    assert (plant.mix, plant.levels["mix"], plant.source_of("mix")) == ("acid", "type", "practice")
    assert plant.source_of("zones") == MEMORY
    assert CATALOGUE.plant("Primus").source_of("zones") == "book"
    way = plant.way(Method.SIMPLE_LAYER)
    assert way is not None
    assert (way.rooting_days, way.source_of("rooting_days")) == ((90, 300), "handbook")


def test_what_is_said_of_a_genus_and_salt_holds_for_its_plants_until_one_says_otherwise() -> None:
    plant = CATALOGUE.plant("Primus albus 'Minor'")
    assert (plant.salt, plant.levels["salt"], plant.source_of("salt")) == ("sensitive", "genus", "book")
    mine = CATALOGUE.with_own([own_record("Primus albus", {"salt": "some"}, date(2026, 5, 1))])
    assert (mine.plant("Primus albus").salt, mine.plant("Primus albus").levels["salt"]) == ("some", OWN_LEVEL)
    assert mine.plant("Primus albus 'Minor'").salt == "some"
    assert mine.plant("Primus").salt == "sensitive"
    assert CATALOGUE.general(PlantType.SHRUB, "Nihil nemo").salt == "", "nobody has said"


def test_looks_are_inherited_part_by_part_and_cautions_kind_by_kind() -> None:
    plant = CATALOGUE.plant("Primus albus")
    assert plant.looks is not None
    assert (plant.looks.leaves, plant.looks.sap) == (("opposite",), "clear")
    assert [(c.kind, c.text) for c in plant.cautions] == [
        ("spines", "Sharp as needles."),
        ("poison", "Do not eat it."),
    ]


def test_which_species_run_wild_is_each_ones_own_affair() -> None:
    assert "invasive" in {caution.kind for caution in CATALOGUE.plant("Primus").cautions}
    assert "invasive" not in {caution.kind for caution in CATALOGUE.plant("Primus albus").cautions}
    unlisted = understand(CATALOGUE, "Primus ruber").plant
    assert unlisted is not None
    assert "invasive" in {caution.kind for caution in unlisted.cautions}, (
        "the careful side for what is not entered"
    )


def test_a_cultivar_with_a_record_is_found_and_any_other_is_its_species() -> None:
    assert understand(CATALOGUE, "Primus albus 'Minor'").name == "Primus albus 'Minor'"
    assert understand(CATALOGUE, "primus albus minor").name == "Primus albus 'Minor'"
    assert understand(CATALOGUE, "small primus").name == "Primus albus 'Minor'"
    other = understand(CATALOGUE, "Primus albus 'Major'")
    assert (other.name, other.plant) == ("Primus albus 'Major'", CATALOGUE.plant("Primus albus"))


def test_what_is_not_there_gets_its_genus_then_its_type_and_says_so() -> None:
    unlisted = understand(CATALOGUE, "Primus ruber")
    assert unlisted.plant == CATALOGUE.plant("Primus")
    assert "in general applies" in unlisted.remark
    stranger = plant_for(CATALOGUE, "Nihil nemo", PlantType.SHRUB, None)
    assert (stranger.level, stranger.mix, stranger.levels["mix"]) == ("type", "acid", "type")


def test_ones_own_facts_win_and_say_that_they_are_ones_own() -> None:
    mine = CATALOGUE.with_own(
        [
            own_record("Primus albus", {"zones": [5, 7]}, date(2026, 5, 1)),
            own_record("Primus albus", {"zones": [5, 9], "mix": "gritty"}, date(2026, 6, 1)),
        ]
    )
    plant = mine.plant("Primus albus")
    assert (plant.zones, plant.levels["zones"]) == ((5, 9), OWN_LEVEL)
    assert "2026-06-01" in plant.source_of("zones")
    assert (plant.height_m, plant.levels.get("height_m")) == ((1, 2), None)
    assert mine.plant("Primus albus 'Minor'").zones == (5, 9), "what is corrected is inherited too"
    assert CATALOGUE.plant("Primus albus").zones == (4, 8), "the catalogue itself is as it was"


def test_ones_own_word_takes_no_caution_away() -> None:
    mine = {"cautions": [{"kind": "poison", "text": "My dog was ill."}], "bloom": {"months": [5]}}
    plant = CATALOGUE.with_own([own_record("Primus albus", mine, date(2026, 5, 1))]).plant("Primus albus")
    assert {c.text for c in plant.cautions} == {"My dog was ill.", "Sharp as needles.", "Do not eat it."}
    assert plant.bloom is not None
    assert (plant.bloom.months, plant.bloom.wood) == ((5,), "old")


def test_a_way_of_ones_own_is_amended_or_added_by_its_method() -> None:
    facts = {"ways": [{"method": "simple-layer", "months": [5]}]}
    first = CATALOGUE.with_own([own_record("Primus", facts, date(2026, 5, 1))])
    more = {
        "ways": [
            {"method": "simple-layer", "rooting_days": [100, 200]},
            {"method": "simple-layer", "take": [0.5, 0.9]},
        ]
    }
    way = (
        first.with_own([own_record("Primus", more, date(2026, 6, 1))])
        .plant("Primus")
        .way(Method.SIMPLE_LAYER)
    )
    assert way is not None
    assert (way.months, way.rooting_days, way.take) == ((5,), (100, 200), (0.5, 0.9))
    assert "2026-05-01" in way.source_of("months")
    assert "2026-06-01" in way.source_of("take")


def test_a_plant_of_ones_own_is_found_by_all_its_names() -> None:
    added = own_record(
        "Aunt's rose", {"type": "shrub", "common": ["the red one"], "zones": [4, 8]}, date(2026, 5, 1)
    )
    mine = CATALOGUE.with_own([added])
    found = understand(mine, "aunts rose")
    assert found.plant is not None
    assert (found.plant.name, found.plant.zones, found.plant.mix) == ("Aunt's rose", (4, 8), "acid")
    assert mine.find("the red one").plant == found.plant
    assert len(mine) == len(CATALOGUE) + 1
