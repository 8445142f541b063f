"""How well sourced the plant records are: counted here, kept in ``docs/sources.md``."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, UNPUBLISHED
from cuttings.plants.standard import data_files

PAGE = Path(__file__).parents[2] / "docs" / "sources.md"
NAMES = {"name", "rank", "common", "synonyms", "type", "source", "sources", "method", "kind", "counted_in"}
HELD = ("ways", "cautions", "doubles")
FIGURES = {
    "zones", "height_m", "spread_m", "spacing_m", "ph", "planting_depth_m", "root_kill_c", "root_harm_c",
    "rooting_days", "reference_temp_c", "iba_ppm", "length_m", "take", "every_years", "per_piece",
    "replant_depth_m",
}  # fmt: skip
RECORDS = [record for data in data_files().values() for record in data.get("plants", ())]


def sourced(record: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Every field of a record and of what it holds, with its source key; names are not facts."""
    for field, value in record.items():
        if field in NAMES or value is None:
            continue
        if field in HELD:
            for each in value:
                yield from sourced(each)
        elif field == "division":
            yield from sourced(value)
        else:
            yield field, record.get("sources", {}).get(field, record["source"])


def kind(key: str) -> str:
    return key if key in UNPUBLISHED else "published"


def shares() -> dict[str, Counter[str]]:
    """For all facts, the figures alone, and whole records: how many are published, practice or from memory.

    A record counts as published if one of its facts is.
    """
    counts: dict[str, Counter[str]] = {"all facts": Counter(), "figures": Counter(), "records": Counter()}
    for record in RECORDS:
        kinds = Counter(kind(key) for _, key in sourced(record))
        counts["all facts"] += kinds
        counts["figures"] += Counter(kind(key) for field, key in sourced(record) if field in FIGURES)
        best = next(each for each in ("published", COMMON_PRACTICE, FROM_MEMORY) if kinds[each])
        counts["records"][best] += 1
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


def published_ways() -> Counter[str]:
    """For each method, how many plants have a way whose own record cites something published."""
    return Counter(
        way["method"]
        for record in RECORDS
        for way in record.get("ways", ())
        if any(kind(key) == "published" for key in (way["source"], *way.get("sources", {}).values()))
    )


def test_the_page_tells_the_shares_as_they_are() -> None:
    print(table())
    told = re.search(r"^\| \|.*(?:\n\|.*)+", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert told is not None
    assert told[0] == table(), "update the table in docs/sources.md"


def test_each_of_the_ten_commonest_methods_has_five_plants_with_a_published_source() -> None:
    commonest = Counter(way["method"] for record in RECORDS for way in record.get("ways", ())).most_common(10)
    counts = published_ways()
    print({method: f"{counts[method]} of {plants}" for method, plants in commonest})
    for method, _ in commonest:
        assert counts[method] >= 5, f"{method}: {counts[method]}"
