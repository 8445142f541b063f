"""The data files of the catalogue, as they stand on disk."""

import json
from pathlib import Path
from typing import Any

Record = dict[str, Any]

DATA = Path(__file__).parent / "data"
PLANT_FILES = (
    "trees.json",
    "conifers.json",
    "deciduous-shrubs.json",
    "evergreen-shrubs.json",
    "warm-shrubs.json",
    "climbers.json",
    "soft-fruit.json",
    "perennials-a-to-d.json",
    "perennials-e-to-l.json",
    "perennials-m-to-z.json",
    "grasses-and-ferns.json",
    "herbs-and-groundcovers.json",
    "bulbs.json",
    "tender.json",
)
GENERAL_FILES = ("types.json", "methods.json")


def read(name: str) -> Record:
    """One data file of the package, as it stands."""
    data: Record = json.loads((DATA / name).read_bytes())
    return data
