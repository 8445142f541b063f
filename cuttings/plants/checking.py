"""Whether the plant records are sound: every fault named by file, plant and field.

It looks at the records as they stand in the files, before anything is inherited, and at what a plant
has after. ``python -m cuttings.plants`` runs it, and so do every build and the tests.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from attrs import frozen

from cuttings.plants.fields import BLOOM, CAUTION, DIVISION, DOUBLE, LOOKS, PLANT, WAY, Check
from cuttings.plants.files import PLANT_FILES, Record
from cuttings.plants.model import UNPUBLISHED
from cuttings.plants.names import folded
from cuttings.plants.standard import built, opened
from cuttings.words import PlantType

INVASIVE = "listed in some states and countries: check your local list before you keep, share or compost it"
"""The words every caution of an invasive plant holds."""

DISPOSAL = re.compile(r"\bbag", re.IGNORECASE)
"""An invasive plant's caution says how to be rid of it; bagging is always part of that (common practice)."""

NEEDED = (
    "zones",
    "height_m",
    "spread_m",
    "spacing_m",
    "growth",
    "light",
    "moisture",
    "drainage",
    "looks",
    "mix",
    "potting_depth",
    "planting_depth",
    "ways",
)
"""What every plant has, of its own or from a level above."""

FLOWERLESS = frozenset({PlantType.FERN})
"""Types that never flower; every other plant says when it blooms unless its leaves are needles or scales."""


@frozen
class Fault:
    """Something wrong with the records."""

    file: str
    plant: str
    field: str
    what: str

    def __str__(self) -> str:
        return f"{self.file}: {self.plant}: {self.field}: {self.what}"


def _parts(record: Record) -> Iterator[tuple[str, Any, Mapping[str, Check], Sequence[str]]]:
    """The records inside a record: where they stand, what they hold, how it is checked, what they need."""
    if record.get("bloom") is not None:
        yield "bloom", record["bloom"], BLOOM, ("months",)
    if record.get("looks") is not None:
        yield "looks", record["looks"], LOOKS, ()
    if record.get("division") is not None:
        yield "division", record["division"], DIVISION, ("season", "months", "source")
    for way in record.get("ways") or ():
        yield f"ways, {way.get('method', '?')}", way, WAY, ("method", "source")
    for caution in record.get("cautions") or ():
        yield f"cautions, {caution.get('kind', '?')}", caution, CAUTION, ("kind", "text", "source")
    for double in record.get("doubles") or ():
        yield f"doubles, {double.get('name', '?')}", double, DOUBLE, tuple(DOUBLE)


def _of_fields(
    where: str, part: Any, checks: Mapping[str, Check], needed: Iterable[str]
) -> Iterator[tuple[str, str]]:
    prefix = f"{where}, " if where else ""
    if not isinstance(part, dict):
        yield where, f"{part!r} is not a record"
        return
    for name in needed:
        if name not in part:
            yield f"{prefix}{name}", "it is missing"
    for name, value in part.items():
        if name not in checks:
            yield f"{prefix}{name}", "no field is called that"
        elif value is not None:
            wrong = checks[name](value)
            if wrong:
                yield f"{prefix}{name}", wrong
    for name in part.get("sources") or {}:
        if name not in part:
            yield f"{prefix}sources, {name}", "it names the source of a field that is not there"


def of_record(record: Record) -> Iterator[tuple[str, str]]:
    """What is wrong with one plant's record: the field, and the fault in words."""
    yield from _of_fields("", record, PLANT, ("name", "rank", "type", "source"))
    for where, part, checks, needed in _parts(record):
        yield from _of_fields(where, part, checks, needed)
    methods = Counter(way.get("method") for way in record.get("ways") or ())
    for method, times in methods.items():
        if times > 1:
            yield "ways", f"{method} stands there {times} times"
    division = record.get("division") or {}
    if ("per_piece" in division) != ("counted_in" in division):
        yield "division", "per_piece and counted_in go together"
    for caution in record.get("cautions") or ():
        text = caution.get("text", "")
        if caution.get("kind") == "invasive" and not (INVASIVE in text and DISPOSAL.search(text)):
            yield "cautions, invasive", f"it must hold '{INVASIVE}', and say that it is bagged, not composted"


def source_keys(part: Any) -> Iterator[str]:
    """Every source key of a record, at whatever depth."""
    if isinstance(part, dict):
        for name, value in part.items():
            if name == "source":
                yield str(value)
            elif name == "sources":
                yield from (str(key) for key in value.values())
            elif name != "references":
                yield from source_keys(value)
    elif isinstance(part, list):
        for value in part:
            yield from source_keys(value)


def of_files(files: Mapping[str, Record]) -> list[Fault]:
    """Everything wrong with the data files, by their names."""
    faults: list[Fault] = []
    for file, data in files.items():
        faults += _of_references(file, data)
    faults += _of_shared_references(files)
    records = {name: data["plants"] for name, data in files.items() if name in PLANT_FILES}
    for file, plants in records.items():
        for record in plants:
            whose = str(record.get("name", "?"))
            faults += [Fault(file, whose, field, what) for field, what in of_record(record)]
    faults += _of_names(records)
    faults += _of_whole_plants(files, records)
    return faults


def _of_references(file: str, data: Record) -> Iterator[Fault]:
    used = set(source_keys(data)) - set(UNPUBLISHED)
    references = data.get("references", {})
    for key in sorted(used - set(references)):
        yield Fault(file, "references", key, "it is used and not spelled out")
    for key in sorted(set(references) - used):
        yield Fault(file, "references", key, "nothing uses it")
    for key, reference in references.items():
        if not (reference.get("publisher") and reference.get("title")):
            yield Fault(file, "references", key, "it needs a publisher and a title")


def _of_shared_references(files: Mapping[str, Record]) -> Iterator[Fault]:
    """Keys that two files spell out differently: the catalogue has one list of references."""
    first: dict[str, tuple[str, Record]] = {}
    for file, data in files.items():
        for key, reference in data.get("references", {}).items():
            other, spelled = first.setdefault(key, (file, reference))
            if spelled != reference:
                yield Fault(file, "references", key, f"{other} spells it out differently")


def _of_names(records: Mapping[str, Sequence[Record]]) -> Iterator[Fault]:
    owners: dict[str, str] = {}
    times = Counter(record.get("name", "?") for plants in records.values() for record in plants)
    for file, plants in records.items():
        for record in plants:
            name = str(record.get("name", "?"))
            if times[name] > 1:
                yield Fault(file, name, "name", f"{times[name]} records have it")
            for word in dict.fromkeys((name, *record.get("common", ()), *record.get("synonyms", ()))):
                other = owners.setdefault(folded(word, keep_cultivar=True), name)
                if other != name:
                    yield Fault(file, name, "name", f"'{word}' is also a name of {other}")
            parent = name.split(" '")[0]
            if record.get("rank") == "cultivar" and parent not in times:
                yield Fault(file, name, "rank", f"a cultivar needs a record of {parent}")


def _of_whole_plants(files: Mapping[str, Record], records: Mapping[str, Sequence[Record]]) -> Iterator[Fault]:
    """What a plant lacks when everything it inherits is counted."""
    catalogue = opened(built(files))
    for file, plants in records.items():
        for record in plants:
            try:
                plant = catalogue.plant(record["name"])
            except ValueError:  # said already, field by field
                continue
            if plant.name in {double.name for double in plant.doubles}:
                yield Fault(file, plant.name, "doubles", "it is its own double; say what doubles it has")
            if plant.unwanted and (plant.ways or not any(c.kind == "invasive" for c in plant.cautions)):
                yield Fault(
                    file,
                    plant.name,
                    "unwanted",
                    "such a plant has no ways, and a caution that it is invasive",
                )
            for name in NEEDED:
                if not getattr(plant, name) and not (name == "ways" and plant.unwanted):
                    yield Fault(file, plant.name, name, "it is missing here and in every level above")
            conifer = plant.looks is not None and {"needle", "scale"} & set(plant.looks.leaf)
            if plant.bloom is None and plant.type not in FLOWERLESS and not conifer:
                yield Fault(file, plant.name, "bloom", "it is missing here and in every level above")
            for way in plant.ways:
                for name in ("season", "months", "rooting_days", "prepare", "medium", "cover", "rooted_when"):
                    if not getattr(way, name):
                        yield Fault(file, plant.name, f"ways, {way.method}", f"{name} is missing")
                if not way.difficulty:
                    yield Fault(file, plant.name, f"ways, {way.method}", "difficulty is missing")
