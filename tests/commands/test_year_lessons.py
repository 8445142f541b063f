"""The year's lessons from what was typed, command by command."""

from pathlib import Path
from typing import Any

from tests.commands.running import recorded


def lessons(ledger: Path, year: int, on: str) -> dict[str, Any]:
    document = recorded("takes", "--year", str(year), "--on", on, ledger=ledger).document
    return {each["about"]: each for each in document["year"]["otherwise"]}


def raised(ledger: Path, plant: str, wood: str, struck: str, rooted: str) -> str:
    """The code of a lot of ten that stood in a cold frame and all rooted."""
    lot = recorded("strike", plant, "--wood", wood, "--count", "10", "--cover", "frame",
                   "--where", "cold frame", "--on", struck, ledger=ledger).lot  # fmt: skip
    assert lot is not None
    recorded("check", lot, "--rooted", "10", "--on", rooted, ledger=ledger)
    return lot


def test_what_was_planted_straight_out_of_a_frame_and_died_is_told(ledger: Path) -> None:
    lot = raised(ledger, "lavender", "softwood", "2025-06-10", "2025-07-10")
    recorded("pot", lot, "--pot", "4in", "--count", "10", "--where", "cold frame", "--on", "2025-07-11",
             ledger=ledger)  # fmt: skip
    recorded("plant", lot, "--site", "Gate Bed", "--count", "6", "--on", "2025-08-01", ledger=ledger)
    assert "not-hardened" not in lessons(ledger, 2025, "2025-08-10")
    recorded("lose", lot, "--count", "4", "--stage", "planted", "--cause", "dried", "--on", "2025-08-15",
             ledger=ledger)  # fmt: skip
    lesson = lessons(ledger, 2025, "2025-09-30")["not-hardened"]
    assert (lesson["stems"], lesson["lots"]) == (4, [lot])
    assert lesson["what"].startswith("4 of 6 planted straight out of shelter died within six weeks")


def test_what_was_potted_at_the_end_of_october_and_died_in_winter_is_told(ledger: Path) -> None:
    lot = raised(ledger, "box", "semi-ripe", "2025-07-20", "2025-09-10")
    recorded("pot", lot, "--pot", "4in", "--count", "10", "--where", "bench", "--on", "2025-10-28",
             ledger=ledger)  # fmt: skip
    assert "potted-late" not in lessons(ledger, 2025, "2026-01-10")
    recorded("lose", lot, "--count", "5", "--stage", "potted", "--cause", "frost", "--on", "2026-02-15",
             ledger=ledger)  # fmt: skip
    lesson = lessons(ledger, 2025, "2026-05-01")["potted-late"]
    assert (lesson["stems"], lesson["lots"]) == (5, [lot])
    assert "died in their pots after they were potted on 28 October 2025: pot by " in lesson["what"]
