"""The built catalogue says what the data files say, and reads no more of them than it is asked for."""

import os
from pathlib import Path

import pytest

from cuttings.plants import standard as module
from cuttings.plants.standard import built, data_files, opened, standard

FILES = data_files()


def test_the_built_catalogue_holds_every_record_as_it_is_written() -> None:
    catalogue = opened(built(FILES))
    records = [record for data in FILES.values() for record in data.get("plants", ())]
    assert len(catalogue) == len(records)
    for record in records:
        plant = catalogue.plant(record["name"])
        assert (plant.name, plant.rank, list(plant.common)) == (
            record["name"],
            record["rank"],
            record.get("common", []),
        )
    keys = {key for data in FILES.values() for key in data["references"]}
    assert catalogue.references.keys() == keys


def test_a_plant_is_read_only_when_it_is_asked_for() -> None:
    """All lines but two are made unreadable; the plant is found and inherits from its genus all the same."""
    content = built(FILES)
    end = content.index(b"\n") + 1
    lines = content[end:].split(b"\n")
    kept = [
        line if b'"name":"Ribes rubrum"' in line or b'"name":"Ribes"' in line else b"x" * len(line)
        for line in lines
    ]
    catalogue = opened(content[:end] + b"\n".join(kept))
    found = catalogue.find("Ribes rubrum").plant
    assert found is not None
    assert (found.name, found.levels["deer"]) == ("Ribes rubrum", "genus")
    with pytest.raises(ValueError, match="Expecting value"):
        catalogue.plant("Iris sibirica")


def test_a_data_file_changed_since_the_build_is_read_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record, other = tmp_path / "some.json", tmp_path / "built"
    record.write_text("{}")
    other.write_text("")
    monkeypatch.setattr(module, "DATA", tmp_path)
    os.utime(other, (1_000, 1_000))
    assert not module._is_newest(other)
    os.utime(record, (900, 900))
    assert module._is_newest(other)
    other.unlink()
    assert not module._is_newest(other)


def test_the_programs_own_catalogue_is_that_of_the_files() -> None:
    assert [plant.name for plant in standard()] == [plant.name for plant in opened(built(FILES))]
