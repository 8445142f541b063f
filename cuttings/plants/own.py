"""Plants and corrections of the keeper's own: they win over the catalogue's values, and say so."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from cuttings.plants.files import Record
from cuttings.plants.names import cultivar_of, without_cultivar

OWN_LEVEL = "own record"
"""The level of a value that the keeper gave."""

OWN_SOURCE = "your own record"
"""What the source of such a value begins with."""


def own_source(on: date) -> str:
    """The source of a value the keeper gave on a day."""
    return f"{OWN_SOURCE} of {on.isoformat()}"


def own_record(plant: str, facts: Mapping[str, Any], on: date) -> Record:
    """The keeper's facts of a plant as a plant record, each with its level and its source."""
    source = own_source(on)
    record: Record = {
        "name": plant,
        "rank": rank_of(plant),
        **facts,
        "source": source,
        "sources": dict.fromkeys(facts, source),
        "levels": dict.fromkeys(facts, OWN_LEVEL),
    }
    if "ways" in facts:
        record["ways"] = [_sourced(way, source) for way in facts["ways"]]
    for name in ("division", "cautions"):
        if facts.get(name):
            part = facts[name]
            record[name] = (
                {**part, "source": source}
                if isinstance(part, dict)
                else [{**each, "source": source} for each in part]
            )
    return record


def _sourced(way: Mapping[str, Any], source: str) -> Record:
    given = [name for name in way if name != "method"]
    return {**way, "source": source, "sources": dict.fromkeys(given, source)}


def rank_of(name: str) -> str:
    """The rank a botanical name is written at: ``genus``, ``species`` or ``cultivar``."""
    if cultivar_of(name):
        return "cultivar"
    return "species" if " " in without_cultivar(name).removeprefix("× ") else "genus"
