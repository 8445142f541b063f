"""What to write on the label."""

import re
import textwrap
from datetime import date

from cuttings.dates import spoken
from cuttings.words import Method

LABEL_WIDTH = 26
LABEL_LINES = 5
"""Letters on a line and lines on a small label of 25 by 67 mm; from memory."""

_HYBRID = re.compile(r"(?<!\S)[xX](?=\s)")
_QUOTE = r"['\"\u2018\u2019\u201c\u201d]"
_EPITHET = re.compile(rf"(?<![A-Za-z]){_QUOTE}(.+?){_QUOTE}(?![A-Za-z])")


def label_text(plant_name: str, lot_code: str, method: Method, on: date, mother: str) -> str:
    """The lines of a small label: the name, the lot, how and when it was made, and the mother plant.

    The name is written as the *International Code of Nomenclature for Cultivated Plants* has it: a cultivar
    epithet in single quotation marks, a hybrid with a multiplication sign. Control characters are left out.
    """
    name = textwrap.wrap(formal_name(plant_name), LABEL_WIDTH, max_lines=LABEL_LINES - 3, placeholder="…")
    lines = [*name, f"{_plain(lot_code)}  {method.spoken}", spoken(on)]
    if origin := _plain(mother):
        lines.append(f"from {origin}")
    return "\n".join(line if len(line) <= LABEL_WIDTH else line[: LABEL_WIDTH - 1] + "…" for line in lines)


def formal_name(name: str) -> str:
    """A plant's name with its hybrid sign and the quotation marks of its cultivar put right."""
    return _EPITHET.sub(r"'\1'", _HYBRID.sub("×", _plain(name)))


def _plain(text: str) -> str:
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
