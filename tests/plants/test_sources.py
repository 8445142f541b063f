"""How well sourced the plant records are: counted here, kept in ``docs/sources.md``."""

import re
from collections import Counter
from pathlib import Path
from typing import Any

from cuttings.plants.catalogue import PLANT_FILES, read
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY

PAGE = Path(__file__).parents[2] / "docs" / "sources.md"
NAMES = {"name", "rank", "common", "synonyms", "type", "source", "sources", "method", "kind"}
FIGURES = {
    "zones", "height_m", "spread_m", "ph", "rooting_days", "reference_temp_c", "iba_ppm", "length_m", "take",
    "every_years", "root_kill_c", "root_harm_c",
}  # fmt: skip


def sourced(record: dict[str, Any]) -> list[tuple[str, str]]:
    """Every field of a record and of what it holds, with its source key; names are not facts."""
    found = []
    for field, value in record.items():
        if field in NAMES or value is None:
            continue
        if field in ("ways", "cautions"):
            found += [pair for each in value for pair in sourced(each)]
        elif field == "division":
            found += sourced(value)
        else:
            key = record.get("sources", {}).get(field, record.get("source", COMMON_PRACTICE))
            found.append((field, key))
    return found


def shares() -> dict[str, Counter[str]]:
    """For all facts and for the figures alone: how many are published, practice, or from memory."""
    counts: dict[str, Counter[str]] = {"all facts": Counter(), "figures": Counter()}
    for file in PLANT_FILES:
        for record in read(file)["plants"]:
            for field, key in sourced(record):
                kind = key if key in (COMMON_PRACTICE, FROM_MEMORY) else "published"
                counts["all facts"][kind] += 1
                counts["figures"][kind] += field in FIGURES
    return counts


def table() -> str:
    """The shares as they stand in the page."""
    lines = ["| | published | common practice | from memory |", "| --- | ---: | ---: | ---: |"]
    for name, counts in shares().items():
        total = sum(counts.values())
        cells = [
            f"{counts[kind]} ({counts[kind] / total:.0%})"
            for kind in ("published", COMMON_PRACTICE, FROM_MEMORY)
        ]
        lines.append(f"| {name} | {' | '.join(cells)} |")
    return "\n".join(lines)


def test_the_page_tells_the_shares_as_they_are() -> None:
    print(table())
    told = re.search(r"^\| \|.*(?:\n\|.*)+", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert told is not None
    assert told[0] == table(), "update the table in docs/sources.md"
