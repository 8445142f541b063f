"""What the command tests say again and again: begin a lot, look at it, expect a refusal."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from tests.commands.running import cuttings, recorded

RECORDING = {"schema", "entry", "lot", "stages"}

LOOKING: Sequence[tuple[str, ...]] = [
    ("lots",),
    ("card", "26-001"),
    ("tally",),
    ("week",),
    ("spot", "25-002"),
    ("plants", "red currant"),
    ("plants",),
    ("sites",),
    ("sites", "show", "fruit row"),
    ("garden",),
    ("harden", "25-004"),
    ("feed", "25-004", "--grade", "20-10-20", "--ppm", "150", "--water", "100gal", "--injector", "1:200"),
    ("mark", "--list"),
    ("mix", "--list"),
    ("mix", "potting", "--pots", "12", "--size", "4in"),
    ("dip", "--stock", "1%", "--want", "2000ppm", "--make", "250mL"),
    ("goal", "red currant", "--want", "5", "--by", "2027-09-01"),
    ("goal", "--site", "gate bed"),
    ("pots",),
    ("pots", "clean"),
    ("labels",),
    ("labels", "25-004"),
    ("which", "--where", "holding bench"),
    ("takes",),
    ("takes", "--by", "dip"),
    (),
]
"""Commands that only look, on the demo garden."""


def begun(ledger: Path, *stages: tuple[str, int]) -> str:
    """A red currant lot that holds so many stems at each of the stages waiting, rooted, potted and on."""
    wanted = dict(stages)
    past = {"rooted": 1, "potted": 2, "hardening": 3, "ready": 4}
    lot = recorded("find", "red currant", "--method", "simple-layer", "--count", str(sum(wanted.values())),
                   ledger=ledger).lot  # fmt: skip

    def through(least: int) -> str:
        return str(sum(count for stage, count in wanted.items() if past.get(stage, 0) >= least))

    steps: list[tuple[int, tuple[str, ...]]] = [
        (1, ("check", lot, "--rooted", through(1))),
        (2, ("pot", lot, "--count", through(2), "--pot", "4in")),
        (3, ("harden", lot, "--start", "--count", through(3))),
        (4, ("harden", lot, "--finish", "--count", through(4))),
    ]
    for least, words in steps:
        if through(least) != "0":
            recorded(*words, ledger=ledger)
    assert standing(ledger, lot) == wanted
    return lot


def standing(ledger: Path, lot: str) -> dict[str, int]:
    return recorded("card", lot, ledger=ledger).stages


def last_entry(ledger: Path, lot: str) -> dict[str, Any]:
    entry = recorded("card", lot, "--trail", ledger=ledger).document["entries"][-1]
    assert isinstance(entry, dict)
    return entry


def refused(*words: str, ledger: Path, saying: Sequence[str] = ()) -> None:
    """The facts do not allow it: exit 1, one sentence on stderr, nothing on stdout, nothing written."""
    _fails(1, *words, ledger=ledger, saying=saying)


def misused(*words: str, ledger: Path, saying: Sequence[str] = ()) -> None:
    """It cannot be read, or too little was given: exit 2, and nothing written."""
    _fails(2, *words, ledger=ledger, saying=saying)


def _fails(code: int, *words: str, ledger: Path, saying: Sequence[str]) -> None:
    file = ledger / "ledger.jsonl"
    before = file.read_bytes() if file.exists() else b""
    result = cuttings(*words, ledger=ledger)
    assert (result.code, result.out) == (code, ""), result
    assert result.err.rstrip().endswith((".", "?"))
    assert "Traceback" not in result.err
    for word in saying:
        assert word in result.err
    assert (file.read_bytes() if file.exists() else b"") == before


def stretch(low: object, high: object) -> None:
    assert date.fromisoformat(str(low)) <= date.fromisoformat(str(high))


def numbers(pair: object) -> None:
    assert pair is None or (isinstance(pair, list) and len(pair) == 2 and pair[0] <= pair[1])
