"""What each field of a plant record may hold: for every field a check that says what is wrong, or nothing."""

import re
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

from cuttings.words import Drainage, Light, Method, Moisture, PlantType

LEVELS = ("genus", "species", "cultivar")
NAME = re.compile(
    r"(?:× ?)?[A-Z][a-zë-]+"
    r"(?: (?:× ?)?[a-z][a-zë-]+(?: (?:subsp\.|var\.|f\.) [a-z][a-zë-]+)*)?"
    r"(?: [A-Z][a-z]+ Group)?(?: '[^']+')?"
)
"""A botanical name with at most a group and a cultivar epithet (*International Code of Nomenclature for
Cultivated Plants*, 9th edition, 2016: single quotes round the epithet, a multiplication sign for hybrids)."""

Check = Callable[[Any], str]
"""Says what is wrong with a value, or nothing."""


def _text(value: Any) -> str:
    return "" if isinstance(value, str) else f"{value!r} is not a text"


def _sentence(value: Any) -> str:
    return "it is empty" if value == "" else _text(value)


def _flag(value: Any) -> str:
    return "" if isinstance(value, bool) else f"{value!r} is neither true nor false"


def _names(value: Any) -> str:
    if not isinstance(value, list) or not all(isinstance(name, str) and name.strip() for name in value):
        return f"{value!r} is not a list of names"
    return ""


def _number(low: float, high: float) -> Check:
    def check(value: Any) -> str:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return f"{value!r} is not a number"
        return "" if low <= value <= high else f"{value} is not between {low:g} and {high:g}"

    return check


def _span(low: float, high: float, *, whole: bool = False) -> Check:
    one = _number(low, high)

    def check(value: Any) -> str:
        if not isinstance(value, list) or len(value) != 2:
            return f"{value!r} is not a low and a high"
        wrong = one(value[0]) or one(value[1])
        if wrong:
            return wrong
        if whole and not all(isinstance(each, int) for each in value):
            return f"{value} are not whole numbers"
        return "" if value[0] <= value[1] else f"{value[0]} is above {value[1]}"

    return check


def _one_of(*words: str) -> Check:
    return lambda value: "" if value in words else f"{value!r} is not one of {', '.join(filter(None, words))}"


def _some_of(*words: Any) -> Check:
    def check(value: Any) -> str:
        if not isinstance(value, list) or not value:
            return f"{value!r} is not a list"
        strange = [each for each in value if each not in words]
        if strange:
            return f"{strange[0]!r} is not one of {', '.join(str(word) for word in words)}"
        return "" if len(set(value)) == len(value) else f"{value} says something twice"

    return check


def _months(value: Any) -> str:
    wrong = _some_of(*range(1, 13))(value)
    if wrong:
        return wrong
    runs = sum((later - month) % 12 != 1 for month, later in pairwise(value))
    return "" if runs <= 2 else f"{value} is not in the order of the year"


def _botanical(value: Any) -> str:
    if isinstance(value, str) and NAME.fullmatch(value):
        return ""
    return f"{value!r} is not written as botanical names are"


LOOKS: Mapping[str, Check] = {
    "leaves": _some_of("opposite", "alternate", "whorled", "basal"),
    "leaf": _some_of("simple", "lobed", "compound", "needle", "scale", "strap", "frond"),
    "stem": _one_of("round", "square", "winged"),
    "sap": _one_of("milky", "clear"),
    "petals": _some_of(*range(9)),
    "below": _some_of("crown", "taproot", "bulb", "corm", "tuber", "rhizome", "runner", "sucker", "woody"),
    "prickles": _flag,
    "smell": _text,
}

WAY: Mapping[str, Check] = {
    "method": _one_of(*Method),
    "difficulty": _one_of("easy", "moderate", "hard"),
    "kind": _sentence,
    "season": _sentence,
    "months": _months,
    "rooting_days": _span(7, 1100, whole=True),
    "reference_temp_c": _span(0, 35),
    "iba_ppm": _span(0, 30_000, whole=True),
    "length_m": _span(0.005, 2.5),
    "take": _span(0.0, 1.0),
    "prepare": _sentence,
    "medium": _sentence,
    "cover": _sentence,
    "rooted_when": _sentence,
    "sever": _sentence,
    "sever_months": _months,
    "source": _sentence,
    "sources": lambda _: "",
}

DIVISION: Mapping[str, Check] = {
    "season": _sentence,
    "months": _months,
    "every_years": _span(1, 60, whole=True),
    "pieces": _sentence,
    "per_piece": _span(1, 12, whole=True),
    "counted_in": _one_of("eyes", "fans", "shoots", "buds", "pips", "bulbs", "fronds", "rosettes", "crowns"),
    "replant": _sentence,
    "replant_depth_m": _span(0.0, 0.3),
    "resents": _flag,
    "source": _sentence,
    "sources": lambda _: "",
}

CAUTION: Mapping[str, Check] = {
    "kind": _one_of("poison", "irritant", "spines", "invasive", "law", "patent", "disease"),
    "parts": _some_of(
        "all", "sap", "leaves", "berries", "seeds", "bulbs", "roots", "bark", "flowers", "pollen", "hairs",
        "stems",
    ),
    "text": _sentence,
    "harms": _one_of("animals", ""),
    "source": _sentence,
}  # fmt: skip

DOUBLE: Mapping[str, Check] = {
    "name": _botanical,
    "common": _sentence,
    "tell": _sentence,
    "if_double": _sentence,
    "source": _sentence,
}

PLANT: Mapping[str, Check] = {
    "name": _botanical,
    "rank": _one_of(*LEVELS),
    "common": _names,
    "synonyms": _names,
    "type": _one_of(*PlantType),
    "zones": _span(1, 13, whole=True),
    "height_m": _span(0.01, 60.0),
    "spread_m": _span(0.01, 40.0),
    "spacing_m": _span(0.02, 15.0),
    "growth": _one_of("slow", "medium", "fast"),
    "light": _some_of(*Light),
    "moisture": _some_of(*Moisture),
    "drainage": _some_of(*Drainage),
    "ph": _span(3.0, 9.5),
    "evergreen": _flag,
    "bloom": lambda _: "",
    "juglone": _one_of("tolerant", "sensitive", ""),
    "deer": _one_of("seldom", "sometimes", "often", ""),
    "salt": _one_of("tolerant", "some", "sensitive", ""),
    "root_kill_c": _number(-30, 5),
    "root_harm_c": _number(-30, 5),
    "mix": _one_of("potting", "gritty", "acid"),
    "potting_depth": _sentence,
    "planting_depth": _sentence,
    "planting_depth_m": _span(0.0, 0.4),
    "runs": _flag,
    "unwanted": _flag,
    "looks": lambda _: "",
    "ways": lambda value: "" if isinstance(value, list) else f"{value!r} is not a list",
    "division": lambda _: "",
    "doubles": lambda _: "",
    "cautions": lambda _: "",
    "source": _sentence,
    "sources": lambda _: "",
}

BLOOM: Mapping[str, Check] = {"months": _months, "wood": _one_of("old", "new", "both", "")}
