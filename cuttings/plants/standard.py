"""The catalogue that comes with the program, in a form that is quick to open.

Every command reads plants, and reading all the data files for the two or three plants it needs would take
longer than all the rest. So a build writes them into one file, a JSON document a line: first an index
(where each plant's line begins and ends, the general rules), then the plants, then every name they are
known by, then the references. A command reads the index and the lines it needs. In a checkout, where the
data files may have been changed since, the catalogue is made from them again unless the built file is newer.
"""

import json
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from cuttings.plants.catalogue import Catalogue
from cuttings.plants.files import DATA, GENERAL_FILES, PLANT_FILES, Record, read
from cuttings.plants.finding import Names, names_of

BUILT = DATA / "catalogue.jsonl"

Place = tuple[int, int]
"""Where a line begins and ends, in bytes after the index."""


class _Lines(Mapping[str, Record]):
    """Plants by name, each read from its line when it is first asked for."""

    def __init__(self, body: memoryview, places: Mapping[str, Place]) -> None:
        self._body = body
        self._places = places
        self._read: dict[str, Record] = {}

    def __getitem__(self, name: str) -> Record:
        if name not in self._read:
            first, last = self._places[name]
            self._read[name] = json.loads(bytes(self._body[first:last]))
        return self._read[name]

    def __contains__(self, name: object) -> bool:
        return name in self._places

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)


def built(files: Mapping[str, Record]) -> bytes:
    """The data files, by their names, as the one file that is quick to open."""
    records = [record for name in PLANT_FILES for record in files[name]["plants"]]
    references: Record = {}
    for data in files.values():
        references.update(data["references"])
    names = names_of(records)
    body = bytearray()
    index = {
        "types": files["types.json"]["types"],
        "methods": files["methods.json"]["methods"],
        "plants": {record["name"]: _put(body, record) for record in records},
        "names": _put(body, {"whole": names.whole, "stems": names.stems}),
        "references": _put(body, references),
    }
    return _line(index) + bytes(body)


def opened(content: bytes) -> Catalogue:
    """The catalogue such a file holds."""
    end = content.index(b"\n")
    index = json.loads(content[:end])
    body = memoryview(content)[end + 1 :]

    def line(name: str) -> Any:
        first, last = index[name]
        return json.loads(bytes(body[first:last]))

    return Catalogue(
        _Lines(body, index["plants"]),
        index["types"],
        index["methods"],
        names=lambda: Names(**line("names")),
        references=lambda: line("references"),
    )


@cache
def standard() -> Catalogue:
    """The catalogue that comes with the program."""
    if _is_newest(BUILT):
        return opened(BUILT.read_bytes())
    return opened(built(data_files()))


def data_files() -> dict[str, Record]:
    """The package's data files, by their names."""
    return {name: read(name) for name in (*PLANT_FILES, *GENERAL_FILES)}


def _is_newest(path: Path) -> bool:
    """Whether the file is there, and no data file was changed after it (an installed package has none)."""
    if not path.exists():
        return False
    made = path.stat().st_mtime
    return all(each.stat().st_mtime <= made for each in DATA.glob("*.json"))


def _put(body: bytearray, document: Record) -> Place:
    first = len(body)
    body += _line(document)
    return first, len(body) - 1


def _line(document: object) -> bytes:
    return json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"
