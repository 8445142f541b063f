"""Every record of the catalogue is sound: it structures, and its figures and sources make sense."""

from collections.abc import Iterator
from itertools import chain

import pytest

from cuttings.plants.catalogue import PLANT_FILES, known_fields, read, standard
from cuttings.plants.model import UNPUBLISHED, Plant, Way
from cuttings.plants.names import folded
from cuttings.plants.reading import Record
from cuttings.words import Method

HEIGHTS_M = (0.02, 40.0)
KINDS = {"poison", "irritant", "spines", "invasive", "law", "patent", "disease"}
RECORDS = {record["name"]: record for part in PLANT_FILES for record in read(part)["plants"]}
REFERENCES = frozenset(
    chain.from_iterable(read(part)["references"] for part in (*PLANT_FILES, "types.json", "methods.json"))
)


def ranges(plant: Plant) -> Iterator[tuple[str, tuple[float, float]]]:
    """Every low and high of a plant, with the field it stands in."""
    for name in ("zones", "height_m", "spread_m", "ph"):
        if (value := getattr(plant, name)) is not None:
            yield name, value
    if plant.division is not None and plant.division.every_years is not None:
        yield "division every_years", plant.division.every_years
    for way in plant.ways:
        yield from way_ranges(way)


def way_ranges(way: Way) -> Iterator[tuple[str, tuple[float, float]]]:
    for name in ("rooting_days", "reference_temp_c", "iba_ppm", "length_m", "take"):
        if (value := getattr(way, name)) is not None:
            yield f"{way.method.value} {name}", value


def months(plant: Plant) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Every list of months of a plant, with the field it stands in."""
    if plant.bloom is not None:
        yield "bloom", plant.bloom.months
    if plant.division is not None:
        yield "division", plant.division.months
    for way in plant.ways:
        yield way.method.value, way.months


def source_keys(part: object) -> Iterator[str]:
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


@pytest.fixture(params=list(RECORDS), scope="module")
def plant(request: pytest.FixtureRequest) -> Plant:
    """One plant after another, structured and inherited."""
    found: Plant = standard().plant(request.param)
    return found


def test_the_catalogue_holds_every_record_once() -> None:
    written = [record["name"] for part in PLANT_FILES for record in read(part)["plants"]]
    twice = {name for name in written if written.count(name) > 1}
    assert not twice, f"entered more than once: {sorted(twice)}"


def test_no_name_leads_to_two_plants() -> None:
    owners: dict[str, str] = {}
    for name, record in RECORDS.items():
        for word in (name, *record.get("common", ()), *record.get("synonyms", ())):
            other = owners.setdefault(folded(word), name)
            assert other == name, f"{name}: '{word}' is also a name of {other}"


def test_a_record_has_only_known_fields(plant: Plant) -> None:
    strange = set(RECORDS[plant.name]) - known_fields()
    assert not strange, f"{plant.name}: unknown fields {sorted(strange)}"


def test_every_source_can_be_spelled_out(plant: Plant) -> None:
    for key in source_keys(RECORDS[plant.name]):
        assert key in UNPUBLISHED or key in REFERENCES, f"{plant.name}: source '{key}' is in no references"
    for way in plant.ways:
        for name, key in way.sources.items():
            assert key in UNPUBLISHED or key in REFERENCES, f"{plant.name} {way.method.value} {name}: '{key}'"


def test_sources_name_only_fields_the_record_has(plant: Plant) -> None:
    record: Record = RECORDS[plant.name]
    idle = set(record.get("sources", {})) - set(record)
    assert not idle, f"{plant.name}: sources for absent fields {sorted(idle)}"
    for way in record.get("ways", ()):
        idle = set(way.get("sources", {})) - set(way)
        assert not idle, f"{plant.name} {way['method']}: sources for absent fields {sorted(idle)}"


def test_ranges_run_from_low_to_high(plant: Plant) -> None:
    for name, (low, high) in ranges(plant):
        assert low <= high, f"{plant.name} {name}: {low} is above {high}"


def test_zones_and_sizes_are_possible(plant: Plant) -> None:
    assert plant.zones is not None, f"{plant.name} zones: missing"
    assert plant.zones[0] >= 1, f"{plant.name} zones: {plant.zones}"
    assert plant.zones[1] <= 13, f"{plant.name} zones: {plant.zones}"
    for name, size in (("height_m", plant.height_m), ("spread_m", plant.spread_m)):
        assert size is not None, f"{plant.name} {name}: missing"
        assert size[0] >= HEIGHTS_M[0], f"{plant.name} {name}: {size}"
        assert size[1] <= HEIGHTS_M[1], f"{plant.name} {name}: {size}"
    if plant.ph is not None:
        assert plant.ph[0] >= 3.0, f"{plant.name} ph: {plant.ph}"
        assert plant.ph[1] <= 9.5, f"{plant.name} ph: {plant.ph}"


def test_months_are_months(plant: Plant) -> None:
    for name, value in months(plant):
        assert all(1 <= month <= 12 for month in value), f"{plant.name} {name}: months {value}"
        assert len(set(value)) == len(value), f"{plant.name} {name}: a month twice in {value}"


def test_a_method_appears_once(plant: Plant) -> None:
    methods = [way.method.value for way in plant.ways]
    assert methods, f"{plant.name} ways: none"
    assert len(set(methods)) == len(methods), f"{plant.name} ways: {methods}"


def test_every_way_says_when_and_how_long(plant: Plant) -> None:
    for way in plant.ways:
        where = f"{plant.name} {way.method.value}"
        assert way.months, f"{where} months: none"
        assert way.season, f"{where} season: empty"
        assert way.rooting_days is not None, f"{where} rooting_days: missing"
        assert way.rooting_days[0] >= 7, f"{where} rooting_days: {way.rooting_days}"
        assert way.rooting_days[1] <= 1100, f"{where} rooting_days: {way.rooting_days}"
        assert way.take is None or (way.take[0] >= 0.0 and way.take[1] <= 1.0), f"{where} take: {way.take}"
        assert way.iba_ppm is None or way.method.is_cutting or way.method.is_layer, (
            f"{where} iba_ppm: {way.iba_ppm}"
        )


def test_choices_are_of_the_words_allowed(plant: Plant) -> None:
    assert plant.rank in {"genus", "species", "cultivar"}, f"{plant.name} rank: {plant.rank}"
    assert plant.growth in {"slow", "medium", "fast", ""}, f"{plant.name} growth: {plant.growth}"
    assert plant.juglone in {"tolerant", "sensitive", ""}, f"{plant.name} juglone: {plant.juglone}"
    assert plant.deer in {"seldom", "sometimes", "often", ""}, f"{plant.name} deer: {plant.deer}"
    assert plant.mix in {"potting", "gritty", "acid", ""}, f"{plant.name} mix: {plant.mix}"
    assert plant.bloom is None or plant.bloom.wood in {"old", "new", ""}, f"{plant.name} bloom wood"
    assert plant.light, f"{plant.name} light: none"
    for caution in plant.cautions:
        assert caution.kind in KINDS, f"{plant.name} cautions: {caution.kind}"
        assert caution.text, f"{plant.name} cautions: an empty {caution.kind}"


@pytest.mark.parametrize("method", list(Method), ids=lambda method: method.value)
def test_every_method_has_general_figures(method: Method) -> None:
    way = standard().way(method)
    assert way.season, f"{method.value} season: empty"
    assert way.months, f"{method.value} months: none"
    assert all(1 <= month <= 12 for month in way.months), f"{method.value} months: {way.months}"
    assert way.rooting_days is not None, f"{method.value} rooting_days: missing"
    for name in ("prepare", "medium", "cover", "rooted_when"):
        assert getattr(way, name), f"{method.value} {name}: empty"
    if method.is_cutting:
        assert way.length_m is not None, f"{method.value} length_m: missing"
    for name, (low, high) in way_ranges(way):
        assert low <= high, f"{name}: {low} is above {high}"
    for name, key in way.sources.items():
        assert key in UNPUBLISHED or key in REFERENCES, f"{method.value} {name}: '{key}'"
