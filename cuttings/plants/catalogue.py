"""The catalogue: records read from the data files, inherited, and found by name.

A plant's record says only what is known of it. What it leaves out comes from its genus's record, then
from its type's general rules, then from the general figures of each method; nearest wins, and the
plant says which level each borrowed value came from.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path

from attrs import fields_dict, frozen

from cuttings.plants.model import Plant, Reference, Way
from cuttings.plants.names import folded, genus_of, nearest
from cuttings.plants.reading import Record, plant_of, way_of
from cuttings.words import Method, PlantType

DATA = Path(__file__).parent / "data"
PLANT_FILES = ("woody.json", "herbaceous.json", "bulbs-and-tender.json")

NOT_INHERITED = {"name", "rank", "common", "synonyms", "source", "sources", "levels"}


@frozen
class Match:
    """What a name led to.

    ``how`` is ``exact``, ``part`` (of a longer name), ``spelling`` (a near miss was forgiven), ``genus``,
    ``ambiguous`` or ``unknown``; the last two have no plant. ``word`` is the catalogue's name that was meant;
    ``candidates`` are the plants an ambiguous one might mean.
    """

    asked: str
    plant: Plant | None
    how: str
    word: str = ""
    candidates: tuple[str, ...] = ()


class Catalogue:
    """Plant records with their general rules, looked up by any name."""

    def __init__(
        self,
        records: Iterable[Record],
        types: Mapping[str, Record],
        methods: Mapping[str, Record],
        references: Mapping[str, Reference],
    ) -> None:
        self._records = {record["name"]: record for record in records}
        self._types = types
        self._methods = methods
        self.references = references
        self._names = self._index_names()
        self._structured: dict[str, Plant] = {}
        self._found: dict[str, Match] = {}

    def _index_names(self) -> dict[str, dict[str, str]]:
        """For each folded name, the plants that bear it and the word as it is written there."""
        names: dict[str, dict[str, str]] = {}
        for name, record in self._records.items():
            for word in (name, *record.get("common", ()), *record.get("synonyms", ())):
                names.setdefault(folded(word), {}).setdefault(name, word)
        return names

    def __iter__(self) -> Iterator[Plant]:
        return (self.plant(name) for name in self._records)

    def __len__(self) -> int:
        return len(self._records)

    def plant(self, name: str) -> Plant:
        """The plant of that exact record name, inherited.

        Raises:
            KeyError: no record has that name.
        """
        if name not in self._structured:
            self._structured[name] = self._inherit(self._records[name])
        return self._structured[name]

    def species_of(self, genus: str) -> tuple[str, ...]:
        """The species of a genus that have records of their own."""
        return tuple(name for name in self._records if name != genus and genus_of(name) == genus)

    def general(self, plant_type: PlantType, name: str) -> Plant:
        """A plant nobody has entered, with nothing but its type's general rules."""
        return self._inherit({"name": name, "rank": "type", "type": plant_type.value})

    def way(self, method: Method) -> Way:
        """The general figures of a method, for any plant."""
        return way_of({"method": method.value, **self._methods[method.value]})

    def reference(self, key: str) -> str:
        """A source key spelled out; what is no key, such as the two unpublished ones, stands as it is."""
        return str(self.references.get(key, key))

    def find(self, asked: str) -> Match:
        """The plant a person means, with spelling, case, hybrid signs and cultivar names forgiven."""
        if asked not in self._found:
            self._found[asked] = self._find(asked)
        return self._found[asked]

    def _find(self, asked: str) -> Match:
        wanted = folded(asked)
        if not wanted:
            return Match(asked, None, "unknown")
        owners, how = self._names.get(wanted, {}), "exact"
        if not owners:
            how, owners = "part", self._with_words(wanted)
        if not owners:
            how = "spelling"
            for name in nearest(wanted, self._names):
                owners = {**self._names[name], **owners}
        if not owners:
            return self._by_genus(asked)
        if len(owners) > 1:
            return Match(asked, None, "ambiguous", candidates=tuple(owners))
        ((name, word),) = owners.items()
        return Match(asked, self.plant(name), how, word)

    def _with_words(self, wanted: str) -> dict[str, str]:
        """The plants one of whose names has all the wanted words in it, and that name."""
        words = set(wanted.split())
        found: dict[str, str] = {}
        for name, owners in self._names.items():
            if words < set(name.split()):
                for owner, word in owners.items():
                    found.setdefault(owner, word)
        return found

    def _by_genus(self, asked: str) -> Match:
        genus = genus_of(asked)
        record = self._records.get(genus)
        if record is None:
            return Match(asked, None, "unknown")
        return Match(asked, self.plant(genus), "genus", genus)

    def _inherit(self, record: Record) -> Plant:
        own = dict(record)
        levels: dict[str, str] = {}
        sources = dict(own.get("sources", {}))
        for level, parent in self._parents(own):
            for name, value in parent.items():
                if name in NOT_INHERITED or name in own:
                    continue
                own[name] = value
                levels[name] = level
                source = parent.get("sources", {}).get(name, parent.get("source"))
                if source is not None:
                    sources[name] = source
        own["ways"] = [self._way_with_defaults(way) for way in own.get("ways", ())]
        own["sources"], own["levels"] = sources, levels
        return plant_of(own)

    def _parents(self, record: Record) -> Iterable[tuple[str, Record]]:
        genus = self._records.get(genus_of(record["name"]))
        if genus is not None and genus["name"] != record["name"]:
            yield "genus", genus
        yield "type", self._types[record["type"]]

    def _way_with_defaults(self, way: Record) -> Record:
        """A plant's way of increase, with the method's general figures where it gives none."""
        general = self._methods[way["method"]]
        merged = dict(way)
        sources = dict(way.get("sources", {}))
        for name, value in general.items():
            if name in ("source", "sources") or name in way:
                continue
            merged[name] = value
            sources[name] = general.get("sources", {}).get(name, general["source"])
        merged["sources"] = sources
        return merged


def read(name: str) -> Record:
    """One data file of the package, as it stands."""
    data: Record = json.loads((DATA / name).read_bytes())
    return data


@cache
def standard() -> Catalogue:
    """The catalogue that comes with the program."""
    parts = [read(name) for name in PLANT_FILES]
    types, methods = read("types.json"), read("methods.json")
    references: Record = {}
    for part in (*parts, types, methods):
        references.update(part["references"])
    return Catalogue(
        records=[record for part in parts for record in part["plants"]],
        types=types["types"],
        methods=methods["methods"],
        references={key: Reference(**fields) for key, fields in references.items()},
    )


def known_fields() -> frozenset[str]:
    """The field names a record may have."""
    return frozenset(fields_dict(Plant)) - {"levels"}
