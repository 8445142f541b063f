"""Records as the data files have them, made into plants. Fields are named as in the files.

Written out field by field rather than derived from types: every command reads plants, and deriving costs
more than all the reading.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from cuttings.plants.files import Record
from cuttings.plants.model import Bloom, Caution, Division, Double, Looks, Plant, Way
from cuttings.words import Drainage, Light, Method, Moisture, PlantType


def _words(kind: Callable[[str], Any]) -> Callable[[Iterable[str]], tuple[Any, ...]]:
    return lambda values: tuple(kind(value) for value in values)


def _each(make: Callable[[Record], Any]) -> Callable[[Iterable[Record]], tuple[Any, ...]]:
    return lambda records: tuple(make(record) for record in records)


def _built(make: Callable[..., Any], how: Mapping[str, Callable[[Any], Any]], record: Record) -> Any:
    """The record's fields read one by one; one that is absent or null keeps its default.

    Raises:
        ValueError: a field is not known or cannot be read; the sentence names record and field.
    """
    fields = {}
    whose = record.get("name") or record.get("method") or "a record"
    for name, value in record.items():
        if value is None:
            continue
        try:
            fields[name] = how[name](value) if name in how else value
        except (TypeError, ValueError, KeyError, AttributeError) as error:
            raise ValueError(f"{whose}: {name} cannot be read: {error}") from None
    try:
        return make(**fields)
    except TypeError as error:
        raise ValueError(f"{whose}: {error}") from None


def way_of(record: Record) -> Way:
    """One way of increase."""
    way: Way = _built(Way, _WAY, record)
    return way


def plant_of(record: Record) -> Plant:
    """One plant, after inheritance.

    Raises:
        ValueError: a field is not known or cannot be read; the sentence names plant and field.
    """
    plant: Plant = _built(Plant, _PLANT, record)
    return plant


_WAY: Mapping[str, Callable[[Any], Any]] = {
    "method": Method,
    "months": tuple,
    "rooting_days": tuple,
    "reference_temp_c": tuple,
    "iba_ppm": tuple,
    "length_m": tuple,
    "take": tuple,
    "sever_months": tuple,
}
_DIVISION: Mapping[str, Callable[[Any], Any]] = {
    "months": tuple,
    "every_years": tuple,
    "per_piece": tuple,
    "replant_depth_m": tuple,
}
_LOOKS: Mapping[str, Callable[[Any], Any]] = {"leaves": tuple, "leaf": tuple, "petals": tuple, "below": tuple}
_CAUTION: Mapping[str, Callable[[Any], Any]] = {"parts": tuple}
_PLANT: Mapping[str, Callable[[Any], Any]] = {
    "type": PlantType,
    "common": tuple,
    "synonyms": tuple,
    "zones": tuple,
    "height_m": tuple,
    "spread_m": tuple,
    "spacing_m": tuple,
    "planting_depth_m": tuple,
    "light": _words(Light),
    "moisture": _words(Moisture),
    "drainage": _words(Drainage),
    "ph": tuple,
    "bloom": lambda record: _built(Bloom, {"months": tuple}, record),
    "ways": _each(way_of),
    "division": lambda record: _built(Division, _DIVISION, record),
    "looks": lambda record: _built(Looks, _LOOKS, record),
    "doubles": _each(lambda record: Double(**record)),
    "cautions": _each(lambda record: _built(Caution, _CAUTION, record)),
}
