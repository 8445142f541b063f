"""The main job as command lines: one find followed from the day it is found to the day it is planted."""

from collections.abc import Sequence
from datetime import date

BEST_SPOT = "SPOT"
"""Stands for the spot that the matcher ranked best when it was asked."""


def first_day(year: int) -> date:
    """The day before which the demo garden's history ends when the script is played in a year."""
    return date(year, 4, 5)


def last_whole_season(today: date) -> int:
    """The newest year whose script lies wholly in the past."""
    return today.year if today >= date(today.year, 9, 14) else today.year - 1


def script(year: int, lot: str) -> Sequence[Sequence[str]]:
    """The command lines of one season, in order; ``lot`` is the code that the find will be given."""

    def on(month_day: str) -> tuple[str, str]:
        return "--on", f"{year}-{month_day}"

    return (
        ("find", "red currant", "--method", "simple-layer", "--count", "4", "--where", "gate strip",
         "--mother", "the old currant by the gate", *on("04-11")),
        ("check", lot, "--rooted", "3", "--not-yet", "1", "--root-length", "3in", *on("05-02")),
        ("pot", lot, "--count", "3", "--pot", "4in", "--where", "holding bench", *on("05-02")),
        ("week", *on("05-02")),
        ("lose", lot, "--count", "1", "--stage", "waiting", "--cause", "dried", *on("07-04")),
        ("harden", lot, *on("08-28")),
        ("harden", lot, "--finish", *on("09-05")),
        ("spot", lot, *on("09-05")),
        ("spot", lot, "--hold", BEST_SPOT, *on("09-05")),
        ("plant", lot, "--count", "1", "--spot", BEST_SPOT, *on("09-12")),
        ("plant", lot, "--count", "1", "--site", "fruit row", "--at", "9.5,1.4", *on("09-12")),
        ("give", lot, "--count", "1", "--to", "the plant swap", *on("09-13")),
        ("card", lot, *on("09-13")),
        ("takes", "--plant", "red currant", *on("09-13")),
        ("goal", "red currant", "--want", "5", "--by", f"{year + 1}-10-01", *on("09-13")),
        ("tally",),
    )  # fmt: skip
