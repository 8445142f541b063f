"""The plant records are sound, there are enough of them, and a fault in one is named where it stands."""

import copy
import json
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import fields_dict

from cuttings.plants.checking import of_files, of_record
from cuttings.plants.fields import BLOOM, CAUTION, DIVISION, DOUBLE, LOOKS, PLANT, WAY
from cuttings.plants.files import PLANT_FILES, Record
from cuttings.plants.model import UNPUBLISHED, Plant
from cuttings.plants.standard import data_files, standard
from cuttings.words import Method, PlantType

FILES = data_files()
PAGE = Path(__file__).parents[2] / "docs" / "plant-records.md"


def test_no_record_has_a_fault() -> None:
    assert not of_files(FILES), "\n".join(map(str, of_files(FILES)))


def test_there_are_three_hundred_species_and_genera_of_every_type() -> None:
    plants = [plant for plant in standard() if plant.rank != "cultivar"]
    types = Counter(plant.type for plant in plants)
    print(len(plants), dict(types))
    assert len(plants) >= 300
    assert types.keys() == set(PlantType)


def test_the_fields_that_are_checked_are_those_a_plant_has() -> None:
    assert PLANT.keys() == fields_dict(Plant).keys() - {"levels"}


@pytest.mark.parametrize("method", list(Method), ids=lambda method: method.value)
def test_every_method_has_general_figures(method: Method) -> None:
    way = standard().way(method)
    assert way.months
    assert way.rooting_days is not None
    for name in ("difficulty", "season", "prepare", "medium", "cover", "rooted_when"):
        assert getattr(way, name), f"{method.value} {name}: empty"


def test_salt_is_never_said_without_a_published_source() -> None:
    said = [
        (record["name"], record.get("sources", {}).get("salt", record["source"]))
        for data in FILES.values()
        for record in data.get("plants", ())
        if record.get("salt")
    ]
    print(len(said))
    assert len(said) >= 120
    assert not [name for name, key in said if key in UNPUBLISHED]


def changed(change: Callable[[Record], Any]) -> dict[str, Record]:
    """The files with one of them changed."""
    files: dict[str, Record] = copy.deepcopy(FILES)
    change(files["soft-fruit.json"])
    return files


def currant(data: Record) -> Record:
    return next(record for record in data["plants"] if record["name"] == "Ribes rubrum")


def set_to(**fields: Any) -> Callable[[Record], Any]:
    return lambda data: currant(data).update(fields)


def way_set_to(**fields: Any) -> Callable[[Record], Any]:
    return lambda data: currant(data)["ways"][0].update(fields)


def with_plant(name: str, rank: str, **fields: Any) -> Callable[[Record], Any]:
    record = {"name": name, "rank": rank, "type": "shrub", "source": "from memory", **fields}
    return lambda data: data["plants"].append(record)


def with_reference(**fields: str) -> Callable[[Record], Any]:
    return lambda data: data["references"].update(idle=fields)


def with_caution(**fields: str) -> Callable[[Record], Any]:
    return lambda data: currant(data)["cautions"].append({**fields, "source": "from memory"})


SECOND_WAY = {"method": "hardwood-cutting", "source": "from memory"}


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (set_to(zones=[7, 3]), "soft-fruit.json: Ribes rubrum: zones: 7 is above 3"),
        (set_to(zones=[3.5, 7]), "zones: [3.5, 7] are not whole numbers"),
        (set_to(height_m=[1, 300]), "height_m: 300 is not between 0.01 and"),
        (set_to(light=["bright"]), "light: 'bright' is not one of full-sun"),
        (set_to(hight_m=[1, 2]), "hight_m: no field is called that"),
        (set_to(salt="a little"), "salt: 'a little' is not one of tolerant, some, sensitive"),
        (set_to(source="nobody"), "references: nobody: it is used and not spelled out"),
        (set_to(name="ribes rubrum"), "name: 'ribes rubrum' is not written as botanical"),
        (set_to(bloom={"months": [4], "wood": "dead"}), "bloom, wood: 'dead' is not one of"),
        (lambda data: currant(data).pop("type"), "Ribes rubrum: type: it is missing"),
        (
            lambda data: currant(data)["sources"].update(deer="from memory"),
            "sources, deer: it names the source",
        ),
        (lambda data: currant(data)["common"].append("gooseberry"), "'gooseberry' is also a name of Ribes"),
        (
            lambda data: currant(data)["ways"].append(SECOND_WAY),
            "ways: hardwood-cutting stands there 2 times",
        ),
        (way_set_to(months=[11, 2, 5, 8]), "months: [11, 2, 5, 8] is not in the order"),
        (way_set_to(months=[13]), "ways, hardwood-cutting, months: 13 is not one of"),
        (way_set_to(rooting_days=[2, 9]), "rooting_days: 2 is not between 7 and 1100"),
        (with_reference(publisher="P", title="T"), "idle: nothing uses it"),
        (
            lambda data: data["references"].update({"rutgers-deer": {"publisher": "P", "title": "T"}}),
            "soft-fruit.json: references: rutgers-deer: conifers.json spells it out differently",
        ),
        (with_reference(title="T"), "idle: it needs a publisher and a title"),
        (with_caution(kind="invasive", text="It runs."), "cautions, invasive: it must hold 'listed in some"),
        (with_plant("Ribes nigrum", "species"), "soft-fruit.json: Ribes nigrum: name: 2 records have it"),
        (with_plant("Ribes nihil 'Nemo'", "cultivar"), "rank: a cultivar needs a record of Ribes nihil"),
        (
            with_plant("Nihil nemo", "species"),
            "Nihil nemo: zones: it is missing here and in every level above",
        ),
    ],
)
def test_a_fault_names_file_plant_and_field(change: Callable[[Record], Any], fault: str) -> None:
    faults = [str(each) for each in of_files(changed(change))]
    assert any(fault in each for each in faults), "\n".join(faults)


def test_every_file_ends_with_its_references() -> None:
    for name in PLANT_FILES:
        assert list(FILES[name]) == ["plants", "references"], name
        assert list(FILES[name]["references"]) == sorted(FILES[name]["references"]), name


def test_the_page_of_the_format_shows_a_sound_record_and_names_every_field() -> None:
    page = PAGE.read_text(encoding="utf-8")
    example = json.loads(page.split("```json\n")[1].split("\n```")[0])
    assert not list(of_record(example))
    fields = {*PLANT, *WAY, *DIVISION, *LOOKS, *CAUTION, *DOUBLE, *BLOOM}
    unsaid = [field for field in fields if not re.search(rf"\b{field}\b", page)]
    assert not unsaid
