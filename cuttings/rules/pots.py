"""Pots: trade classes, round pots by diameter, and volumes.

A trade class is nominal: a "one gallon" nursery pot, ``#1``, holds about 2.8 L, while a US gallon is
3.785 L. Litres and metres throughout.
"""

import math
import re

from attrs import frozen

from cuttings.plants.model import FROM_MEMORY
from cuttings.units import METRES, parse_volume
from cuttings.words import Units

CLASS_SOURCE = "Bookcliff Gardens: A Note About Pot Sizes"
"""Measured fills of trade containers, https://bookcliffgardens.com/index.php/about-us/plant-catalog/item/currant-red-lake"""

MEASURED_CLASS_L = {
    "#1": 2.8,
    "#2": 6.0,
    "#3": 9.0,
    "#5": 14.9,
    "#6": 19.0,
    "#7": 24.6,
    "#15": 54.9,
    "#25": 104.5,
}
"""Litres, from ``CLASS_SOURCE``."""

REMEMBERED_CLASS_L = {"SP1": 0.12, "SP2": 0.23, "SP3": 0.4, "SP4": 0.9, "SP5": 1.9, "#10": 39.0, "#20": 79.0}
"""Litres of the classes that table leaves out; from memory."""

CLASS_DIAMETER_M = {
    "SP3": 0.09,
    "SP4": 0.115,
    "SP5": 0.14,
    "#1": 0.165,
    "#2": 0.215,
    "#3": 0.255,
    "#5": 0.30,
    "#7": 0.35,
    "#10": 0.42,
    "#15": 0.45,
}
"""Width across the top in metres; from memory."""

BASE_TO_TOP = 0.75
HEIGHT_TO_TOP = 0.95
FILLED = 0.9
"""A round pot: base width and height as shares of its top width, and the share of it filled with mix,
since a finger's breadth is left for watering; from memory."""

SMALLEST_M, LARGEST_M = 0.02, 1.5
SMALLEST_L, LARGEST_L = 0.01, 1000.0

TRADE_GALLON = "A nursery's 'one gallon' pot is the trade class #1 and holds only about 2.8 L."

ACCEPTS = "write a trade class (#1, SP4), a width across the top (4in, 9cm) or a volume (2L, 1gal)"

_CLASS = re.compile(r"#?\s*sp\s*(\d)$|#\s*(\d{1,2})$", re.IGNORECASE)
_WIDTH = re.compile(r"(\d+(?:[.,]\d+)?)\s*(in|inch|inches|\"|″|cm|mm)?$", re.IGNORECASE)
_TRADE = re.compile(r"(\d{1,2})\s*trade\s*gal(?:lons?)?$", re.IGNORECASE)


@frozen
class Pot:
    """A pot by its name: the mix it takes in litres, its width across the top in metres where known."""

    name: str
    volume_l: float
    diameter_m: float | None = None
    sure: str = ""


def classes() -> tuple[Pot, ...]:
    """Every trade class, smallest first."""
    litres = MEASURED_CLASS_L | REMEMBERED_CLASS_L
    return tuple(_class_pot(name) for name in sorted(litres, key=litres.__getitem__))


def _class_pot(name: str) -> Pot:
    measured = name in MEASURED_CLASS_L
    litres = MEASURED_CLASS_L[name] if measured else REMEMBERED_CLASS_L[name]
    return Pot(name, litres, CLASS_DIAMETER_M.get(name), CLASS_SOURCE if measured else FROM_MEMORY)


def round_pot(diameter_m: float, name: str = "") -> Pot:
    """A round pot of a width across the top; the mix it takes is that of a filled truncated cone."""
    base, height = BASE_TO_TOP * diameter_m, HEIGHT_TO_TOP * diameter_m
    brimful_m3 = math.pi * height / 12 * (diameter_m**2 + diameter_m * base + base**2)
    name = name or f"{round(diameter_m * 100, 1):g}cm"
    return Pot(name, round(brimful_m3 * 1000 * FILLED, 3), diameter_m, f"from its width, {FROM_MEMORY}")


def parse_pot(text: str, units: Units) -> Pot:
    """Read a trade class (``#1``, ``SP4``), a width (``4in``, ``9cm``) or a volume (``2L``, ``1gal``).

    A bare number is a width, in inches (US) or centimetres. A gallon is a true US gallon; ``1 trade gal``
    is the trade class.

    Raises:
        ValueError: the text is no pot, or no pot is that small or that large.
    """
    word = " ".join(text.split())
    if match := _CLASS.match(word):
        return _known_class(text, f"SP{match[1]}" if match[1] else f"#{int(match[2])}")
    if match := _TRADE.match(word):
        return _known_class(text, f"#{int(match[1])}")
    if match := _WIDTH.match(word):
        return _by_width(text, float(match[1].replace(",", ".")), (match[2] or "").casefold(), units)
    return _by_volume(text, word, units)


def _known_class(text: str, name: str) -> Pot:
    if name not in MEASURED_CLASS_L and name not in REMEMBERED_CLASS_L:
        known = ", ".join(pot.name for pot in classes())
        raise ValueError(f"'{text}' is not a trade class this program knows; it knows {known}.")
    return _class_pot(name)


def _by_width(text: str, number: float, unit: str, units: Units) -> Pot:
    unit = {"": "in" if units is Units.US else "cm", '"': "in", "″": "in"}.get(unit, unit)
    unit = "in" if unit.startswith("inch") else unit
    diameter_m = number * METRES[unit]
    if not SMALLEST_M <= diameter_m <= LARGEST_M:
        raise ValueError(f"No pot is as wide as '{text}'; {ACCEPTS}.")
    return round_pot(diameter_m, f"{number:g}{unit}")


def _by_volume(text: str, word: str, units: Units) -> Pot:
    try:
        litres = parse_volume(word, units)
    except ValueError:
        raise ValueError(f"'{text}' is not a pot; {ACCEPTS}.") from None
    if not SMALLEST_L <= litres <= LARGEST_L:
        raise ValueError(f"No pot holds as much or as little as '{text}'; {ACCEPTS}.")
    return Pot(word.replace(" ", ""), litres, None, TRADE_GALLON if "gal" in word.casefold() else "")


ALIKE = 0.35
"""Two pots whose volumes differ by less than this share are the same step; from memory."""


def alike(one: Pot, other: Pot) -> bool:
    """Whether two pots are the same size for a plant's purposes."""
    return abs(one.volume_l - other.volume_l) <= ALIKE * max(one.volume_l, other.volume_l)
