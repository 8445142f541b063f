"""Plant names: folded for comparison, and the nearest name to a misspelt one.

Cultivar names stand in single quotes and hybrids take a multiplication sign, as the *International
Code of Nomenclature for Cultivated Plants* has it; people type neither the same way twice.
"""

import re
import unicodedata
from collections.abc import Iterable

_QUOTE = r"['\u2018\u2019\"\u201c\u201d]"
_CULTIVAR = re.compile(rf"(?<![A-Za-z]){_QUOTE}.+?{_QUOTE}(?![A-Za-z])")
_HYBRID = re.compile(r"(^|\s)[x\u00d7]\s*(?=[A-Za-z])", re.IGNORECASE)
_RANKS = re.compile(r"\b(?:subsp|ssp|var|f|forma|cv|spp|sp)\b\.?", re.IGNORECASE)


def without_cultivar(name: str) -> str:
    """The name with any cultivar epithet in quotes taken off."""
    return " ".join(_CULTIVAR.sub(" ", name).split())


def cultivar_of(name: str) -> str:
    """The cultivar epithet in single quotes, as ``'Red Lake'``; empty if there is none."""
    match = _CULTIVAR.search(name)
    return f"'{match[0][1:-1].strip()}'" if match else ""


def genus_of(name: str) -> str:
    """The genus a botanical name begins with, capitalised; empty if there is none."""
    words = _HYBRID.sub(" ", without_cultivar(name)).split()
    return words[0].capitalize() if words else ""


def folded(name: str) -> str:
    """A name made comparable: no cultivar, accents, case, hybrid sign, rank word or plural."""
    bare = _RANKS.sub(" ", _HYBRID.sub(" ", without_cultivar(name)))
    letters = unicodedata.normalize("NFKD", bare)
    plain = "".join(c for c in letters if not unicodedata.combining(c)).casefold()
    words = re.sub(r"[^a-z0-9]+", " ", plain).split()
    return " ".join(_singular(word) for word in words)


_ES = ("ises", "uses", "sses", "xes", "ches", "shes")
"""Endings of plurals that lose two letters: irises, crocuses, grasses, boxes, peaches, bushes."""


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(_ES):
        return word[:-2]
    if len(word) > 4 and word.endswith("s") and not word.endswith(("ss", "us", "is", "os")):
        return word[:-1]
    return word


SURE_ENOUGH = 84.0
"""The similarity, out of 100, below which a name is not taken for a misspelling of another."""

TOO_CLOSE = 2.0
"""Names this near to the best one in similarity are candidates too; then the person must choose."""


def nearest(wanted: str, names: Iterable[str]) -> list[str]:
    """The known names a misspelt one most likely means, best first; empty if none is near."""
    from rapidfuzz import fuzz, process

    found = process.extract(wanted, list(names), scorer=fuzz.ratio, limit=4, score_cutoff=SURE_ENOUGH)
    return [name for name, score, _ in found if score >= found[0][1] - TOO_CLOSE]
