"""The catalogue: records read from the data files, inherited, and found by name.

A plant's record says only what is known of it. What it leaves out comes from its genus's record, then
from its type's general rules, then from the general figures of each method; nearest wins, and the
plant says which level each borrowed value came from.
"""

from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any, cast

from attrs import frozen

from cuttings.plants.files import Record
from cuttings.plants.finding import Names
from cuttings.plants.model import UNPUBLISHED, Plant, Reference, Way
from cuttings.plants.names import cultivar_of, genus_of, without_aside, without_cultivar
from cuttings.plants.own import OWN_SOURCE
from cuttings.plants.reading import plant_of, way_of
from cuttings.words import Method, PlantType


def _more_cautions(own: list[Record], above: list[Record]) -> list[Record]:
    """A plant's cautions and those of the level above whose kind it does not speak of itself. A keeper's own
    word takes none away."""
    kinds = {caution["kind"] for caution in own if not caution["source"].startswith(OWN_SOURCE)}
    return [*own, *(caution for caution in above if caution["kind"] not in kinds)]


def _without_what_runs_wild(genus: Record) -> Record:
    """A genus's record as its species have it: which of them are invasive is each one's own affair."""
    cautions = genus.get("cautions", ())
    return {**genus, "cautions": [caution for caution in cautions if caution["kind"] != "invasive"]}


GATHERED: Mapping[str, Callable[[Any, Any], Any]] = {
    "looks": lambda own, above: {**above, **own},
    "cautions": _more_cautions,
}
"""Fields to which every level adds what the nearer ones leave out."""

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
    """Plant records with their general rules, looked up by any name.

    ``records`` may be read as they are asked for; nothing here goes through them all but ``__iter__``. The
    names and references are made when they are first needed: a lot of the ledger has its plant's own name.
    """

    def __init__(
        self,
        records: Mapping[str, Record],
        types: Mapping[str, Record],
        methods: Mapping[str, Record],
        names: Callable[[], Names],
        references: Callable[[], Mapping[str, Record]],
    ) -> None:
        self._records = records
        self._types = types
        self._methods = methods
        self._make_names = names
        self._references = references
        self._structured: dict[str, Plant] = {}
        self._found: dict[str, Match] = {}

    def with_own(self, own: Iterable[Record]) -> "Catalogue":
        """The catalogue as its keeper has it: records added, and values that win over ours, the last first.

        A record under a name that is known already holds only what is different.
        """
        mine: dict[str, Record] = {}
        records = ChainMap(mine, cast("dict[str, Record]", self._records))
        for record in own:
            name = record["name"]
            mine[name] = amended(records[name], record) if name in records else record

        def names() -> Names:
            found = self._names
            for record in mine.values():
                found = found.and_of(record)
            return found

        return Catalogue(records, self._types, self._methods, names, self._references)

    @cached_property
    def _names(self) -> Names:
        return self._make_names()

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
        names = (name for name in self._records if name != genus and genus_of(name) == genus)
        return tuple(name for name in names if not cultivar_of(name))

    def general(self, plant_type: PlantType, name: str) -> Plant:
        """A plant nobody has entered, with nothing but its type's general rules."""
        return self._inherit({"name": name, "rank": "type", "type": plant_type.value})

    def way(self, method: Method) -> Way:
        """The general figures of a method, for any plant."""
        return way_of({"method": method.value, **self._methods[method.value]})

    @cached_property
    def references(self) -> Mapping[str, Reference]:
        """The published sources by their keys."""
        return {key: Reference(**fields) for key, fields in self._references().items()}

    def reference(self, key: str) -> str:
        """A source key spelled out; what is no key, such as the two unpublished ones, stands as it is."""
        return key if key in UNPUBLISHED else str(self.references.get(key, key))

    def find(self, asked: str) -> Match:
        """The plant a person means, with spelling, case, hybrid signs and cultivar names forgiven."""
        if asked not in self._found:
            self._found[asked] = self._find(asked)
        return self._found[asked]

    def _find(self, asked: str) -> Match:
        if asked in self._records:
            return Match(asked, self.plant(asked), "exact", asked)
        how, owners = self._names.find(asked)
        if not owners and (plain := without_aside(asked)) != asked:
            how, owners = self._names.find(plain)
        if not owners:
            return self._by_genus(asked)
        if len(owners) > 1:
            return Match(asked, None, "ambiguous", candidates=tuple(owners))
        ((name, word),) = owners.items()
        return Match(asked, self.plant(name), how, word)

    def _by_genus(self, asked: str) -> Match:
        genus = genus_of(asked)
        record = self._records.get(genus)
        if record is None:
            return Match(asked, None, "unknown")
        return Match(asked, self.plant(genus), "genus", genus)

    def _inherit(self, record: Record) -> Plant:
        own = dict(record)
        levels: dict[str, str] = dict(own.get("levels", {}))
        sources = dict(own.get("sources", {}))
        for level, parent in self._parents(own):
            for name, value in parent.items():
                if name in GATHERED and name in own:
                    own[name] = GATHERED[name](own[name], value)
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

    def _parents(self, record: Record) -> Iterator[tuple[str, Record]]:
        """The records above one, nearest first: the species of a cultivar, the genus, the type."""
        name = record["name"]
        for above in dict.fromkeys((without_cultivar(name), genus_of(name))):
            parent = self._records.get(above)
            if parent is not None and above != name:
                yield parent["rank"], _without_what_runs_wild(parent) if parent["rank"] == "genus" else parent
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


def amended(record: Record, changes: Record) -> Record:
    """A record with its keeper's changes; ways of increase are changed one by one, by method."""
    after = {**record, **changes}
    ours, theirs = record.get("ways", ()), changes.get("ways", ())
    if theirs:
        ways = {way["method"]: way for way in ours}
        for way in theirs:
            before = ways.get(way["method"], {})
            ways[way["method"]] = {
                **before,
                **way,
                "sources": {**before.get("sources", {}), **way["sources"]},
            }
        after["ways"] = list(ways.values())
    if "cautions" in changes:
        after["cautions"] = [*changes["cautions"], *record.get("cautions", ())]
    for name in ("sources", "levels", "looks", "bloom"):
        if record.get(name) or changes.get(name):
            after[name] = {**(record.get(name) or {}), **(changes.get(name) or {})}
    after["source"], after["rank"] = record["source"], record["rank"]
    return after
