"""What to write on the label."""

import re
import textwrap
from datetime import date

from attrs import frozen

from cuttings.dates import spoken
from cuttings.words import Method

LABEL_WIDTH = 26
LABEL_LINES = 5
"""Letters on a line and lines on a small label of 25 by 67 mm; from memory."""

_HYBRID = re.compile(r"(?<!\S)[xX](?=\s)")
_QUOTE = r"['\"\u2018\u2019\u201c\u201d]"
_EPITHET = re.compile(rf"(?<![A-Za-z]){_QUOTE}(.+?){_QUOTE}(?![A-Za-z])")
_RANKS = {"subspecies": "subsp.", "subsp": "subsp.", "ssp": "subsp.", "varietas": "var.", "var": "var.",
          "forma": "f.", "f": "f."}  # fmt: skip
_RANK = re.compile(rf"(?<=[a-z]\s)({'|'.join(_RANKS)})\b\.?(?=\s[a-z])")
_BOUND = re.compile(r"(subsp\.|var\.|f\.|×) ")
"""What stays on one line with the word after it, where there is room."""
_FIXED = "\u00a0"


@frozen
class Label:
    """What a label tells: the lot, its plant's name written as it should be, how and when it was made, and
    the mother plant where it is known."""

    lot: str
    name: str
    method: Method
    on: date
    mother: str = ""

    @property
    def code_and_name(self) -> str:
        """The lot and its plant in one line, as a scanner reads it."""
        return f"{self.lot} {self.name}"

    @property
    def day(self) -> str:
        return spoken(self.on)

    @property
    def origin(self) -> str:
        """Where it comes from, in words; empty where nobody knows."""
        return f"from {self.mother}" if self.mother else ""

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines to write on a small label by hand, none longer than ``LABEL_WIDTH`` letters.

        The name takes what lines the others leave, as whole as it fits there, and the mother what is left
        after that.
        """
        made = _cut(f"{self.lot}  {self.method.spoken}"), self.day
        name = _name_lines(self.name, LABEL_LINES - len(made) - bool(self.mother))
        left = LABEL_LINES - len(made) - len(name)
        origin = textwrap.wrap(self.origin, LABEL_WIDTH, max_lines=left, placeholder="…") if left else []
        return (*name, *made, *origin)

    @property
    def text(self) -> str:
        """All that it tells in one line, as the ledger keeps it."""
        told = self.name, f"{self.lot} {self.method.spoken}", self.day, self.origin
        return " / ".join(part for part in told if part)


def label(plant_name: str, lot_code: str, method: Method, on: date, mother: str) -> Label:
    """The label of a lot. Control characters are left out."""
    return Label(_plain(lot_code), formal_name(plant_name), method, on, _plain(mother))


def formal_name(name: str) -> str:
    """A plant's name as the *International Code of Nomenclature for Cultivated Plants* writes it: a cultivar
    epithet in single quotation marks, a hybrid with a multiplication sign; ranks below the species as subsp.,
    var. and f."""
    signed = _HYBRID.sub("×", _plain(name))
    return _EPITHET.sub(r"'\1'", _RANK.sub(lambda rank: _RANKS[rank[1]], signed))


def name_forms(name: str) -> tuple[str, ...]:
    """A formal name as a label with less and less room has it, the whole name first.

    The genus is written out once and is an initial after that. A cultivar is then named by its genus and its
    epithet alone, which the Code allows since an epithet is given only once in a genus.
    """
    words = name.split()
    until = 2 if words[:1] == ["×"] else 1
    genus = " ".join(words[:until])
    initials = [f"{word[0]}." if word == words[until - 1] else word for word in words[until:]]
    epithets = [match[0] for match in _EPITHET.finditer(name)]
    shorter = [" ".join([genus, *initials]), *([" ".join([genus, *epithets])] if epithets else [])]
    return tuple(dict.fromkeys((name, *shorter)))


def parts_of(name: str) -> tuple[str, ...]:
    """The parts of a name between which a line may end: a rank or a hybrid sign stays with what follows."""
    return tuple(part.replace(_FIXED, " ") for part in _bound(name).split(" "))


def _bound(name: str) -> str:
    return _BOUND.sub(rf"\1{_FIXED}", name)


def _name_lines(name: str, most: int) -> list[str]:
    forms = name_forms(name)
    for form in forms:
        for text in (_bound(form), form):
            lines = textwrap.wrap(text, LABEL_WIDTH, break_long_words=False, break_on_hyphens=False)
            if len(lines) <= most and all(len(line) <= LABEL_WIDTH for line in lines):
                return [line.replace(_FIXED, " ") for line in lines]
    return textwrap.wrap(forms[-1], LABEL_WIDTH, max_lines=most, placeholder="…")


def _cut(line: str) -> str:
    return line if len(line) <= LABEL_WIDTH else line[: LABEL_WIDTH - 1] + "…"


def _plain(text: str) -> str:
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
