"""Plant names folded for comparison: case, accents, plurals, hybrid signs and Latin gender forgiven.

Cultivar names stand in single quotes and hybrids take a multiplication sign, as the *International
Code of Nomenclature for Cultivated Plants* has it; people type neither the same way twice.
"""

import re
import unicodedata

_QUOTE = r"['\u2018\u2019\"\u201c\u201d]"
_CULTIVAR = re.compile(rf"(?<![A-Za-z]){_QUOTE}.+?{_QUOTE}(?![A-Za-z])")
_APOSTROPHE = re.compile(r"(?<=[A-Za-z])['\u2018\u2019](?=[A-Za-z])")
_ASIDE = re.compile(r"\([^()]*\)")
_HYBRID = re.compile(r"(^|\s)[x\u00d7]\s*(?=[A-Za-z])", re.IGNORECASE)
_RANKS = re.compile(r"\b(?:subsp|ssp|var|f|forma|cv|spp|sp)\b\.?", re.IGNORECASE)
_NOT_WORD = re.compile(r"[^a-z0-9]+")


def without_aside(name: str) -> str:
    """The name without what stands in brackets: ``Taxus baccata (English yew)``."""
    return " ".join(_ASIDE.sub(" ", name).split())


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


def folded(name: str, *, keep_cultivar: bool = False) -> str:
    """A name made comparable: no accents, case, hybrid sign, rank word or plural, and no cultivar unless it
    is kept."""
    bare = _APOSTROPHE.sub("", name if keep_cultivar else without_cultivar(name))
    bare = _RANKS.sub(" ", _HYBRID.sub(" ", bare))
    letters = unicodedata.normalize("NFKD", bare)
    plain = "".join(c for c in letters if not unicodedata.combining(c)).casefold()
    return " ".join(_singular(word) for word in _NOT_WORD.sub(" ", plain).split())


_ES = ("ises", "uses", "sses", "xes", "ches", "shes", "oes")
"""Endings of plurals that lose two letters: irises, crocuses, grasses, boxes, peaches, bushes, potatoes."""


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(_ES):
        return word[:-2]
    if len(word) > 4 and word.endswith("s") and not word.endswith(("ss", "us", "is", "os")):
        return word[:-1]
    return word


_GENDERED = ("rum", "iae", "us", "um", "is", "er", "ra", "ii", "ae", "os", "on", "a", "e", "i")
"""Endings by which forms of one Latin epithet differ (albus, alba, album; vulgaris, vulgare; niger, nigra;
wilsonii, wilsoni), the longest first; common practice."""

_LEAST_STEM = 3
"""Letters an epithet keeps when its ending is taken off."""


def without_gender(name: str) -> str:
    """A folded botanical name whose epithets have lost their endings: ``salvia officinal``."""
    genus, *epithets = name.split()
    return " ".join((genus, *(_stem(word) for word in epithets)))


def _stem(word: str) -> str:
    for ending in _GENDERED:
        if word.endswith(ending) and len(word) - len(ending) >= _LEAST_STEM:
            return word[: -len(ending)]
    return word
