"""The JSON shape of one plant, and the sources of everything in it."""

from collections.abc import Iterator
from typing import Any

from attrs import asdict

from cuttings.commands.desk import Desk
from cuttings.commands.telling import double_document, window_document
from cuttings.plants.model import Division, Plant, Way
from cuttings.rules.windows import windows_of


def document(desk: Desk, name: str, plant: Plant) -> dict[str, Any]:
    """The JSON shape of one plant."""
    reference = desk.catalogue.reference
    return {
        "name": name,
        "matched": plant.name,
        "level": plant.level,
        "common": list(plant.common),
        "synonyms": list(plant.synonyms),
        "type": plant.type.value,
        "zones": _listed(plant.zones),
        "height_m": _listed(plant.height_m),
        "spread_m": _listed(plant.spread_m),
        "spacing_m": _listed(plant.spacing_m),
        "growth": plant.growth,
        "light": [each.value for each in plant.light],
        "moisture": [each.value for each in plant.moisture],
        "drainage": [each.value for each in plant.drainage],
        "ph": _listed(plant.ph),
        "evergreen": plant.evergreen,
        "bloom": {"months": list(plant.bloom.months), "wood": plant.bloom.wood} if plant.bloom else None,
        "juglone": plant.juglone,
        "deer": plant.deer,
        "salt": plant.salt,
        "root_kill_c": plant.root_kill_c,
        "root_harm_c": plant.root_harm_c,
        "mix": plant.mix,
        "potting_depth": plant.potting_depth,
        "planting_depth": plant.planting_depth,
        "planting_depth_m": _listed(plant.planting_depth_m),
        "runs": plant.runs,
        "unwanted": plant.unwanted,
        "looks": asdict(plant.looks) if plant.looks else None,
        "methods": [_way_document(desk, way) for way in plant.ways],
        "division": _division_document(desk, plant.division),
        "windows": [
            {"what": each.what, **window_document(each), "why": each.why, "source": reference(each.source)}
            for each in windows_of(plant, desk.climate, desk.on)
        ],
        "doubles": [double_document(each, reference(each.source)) for each in plant.doubles],
        "cautions": [
            {
                "kind": caution.kind,
                "parts": list(caution.parts),
                "text": caution.text,
                "harms": caution.harms,
                "source": reference(caution.source),
            }
            for caution in plant.cautions
        ],
        "levels": dict(plant.levels),
        "sources": sorted({reference(key) for key in source_keys(plant)}),
    }  # fmt: skip


def _way_document(desk: Desk, way: Way) -> dict[str, Any]:
    return {
        "method": way.method.value,
        "difficulty": way.difficulty,
        "kind": way.kind,
        "season": way.season,
        "months": list(way.months),
        "rooting_days": _listed(way.rooting_days),
        "reference_temp_c": _listed(way.reference_temp_c),
        "iba_ppm": _listed(way.iba_ppm),
        "length_m": _listed(way.length_m),
        "take": _listed(way.take),
        "prepare": way.prepare,
        "medium": way.medium,
        "cover": way.cover,
        "rooted_when": way.rooted_when,
        "sever": way.sever,
        "sever_months": list(way.sever_months),
        "source": desk.catalogue.reference(way.source),
    }


def _division_document(desk: Desk, division: Division | None) -> dict[str, Any] | None:
    if division is None:
        return None
    return {
        "season": division.season,
        "months": list(division.months),
        "every_years": _listed(division.every_years),
        "pieces": division.pieces,
        "per_piece": _listed(division.per_piece),
        "counted_in": division.counted_in,
        "replant": division.replant,
        "replant_depth_m": _listed(division.replant_depth_m),
        "resents": division.resents,
        "source": desk.catalogue.reference(division.source),
    }


def _listed(value: tuple[Any, ...] | None) -> list[Any] | None:
    return None if value is None else list(value)


def source_keys(plant: Plant) -> Iterator[str]:
    """The sources of everything on the sheet, by their keys."""
    yield plant.source
    yield from plant.sources.values()
    for way in plant.ways:
        yield way.source
        yield from way.sources.values()
    if plant.division:
        yield plant.division.source
        yield from plant.division.sources.values()
    yield from (caution.source for caution in plant.cautions)
    yield from (double.source for double in plant.doubles)
