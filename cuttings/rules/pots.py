"""Pots: trade classes, round, square and deep pots by their measures, cell trays, and volumes.

A trade class is nominal: a "one gallon" nursery pot, ``#1``, holds about 2.8 L, while a US gallon is
3.785 L. Litres and metres throughout.
"""

import re

from attrs import frozen

from cuttings.plants.model import FROM_MEMORY
from cuttings.rules.pot_shapes import (
    FEWEST_CELLS,
    FILLED,
    MOST_CELLS,
    ROUND_HEIGHT,
    ROUND_SOURCE,
    SQUARE_HEIGHT,
    cell_litres,
    deep_litres,
    round_litres,
    square_litres,
)
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

LIMITS_SOURCE = "Ozarks Outdoor Solutions: Plant Pot Sizes"
"""The limits that the American Standard for Nursery Stock (ANSI Z60.1) sets, as this page tells them,
https://ozarksoutdoorsolutions.com/services/plant-pot-sizes-2"""

PUBLISHED_LIMITS_CU_IN = {"#1": (152, 251), "#2": (320, 474), "#3": (628, 742), "#5": (785, 1242)}
"""The least and the most a class may hold, in cubic inches, from ``LIMITS_SOURCE``."""

REMEMBERED_LIMITS_CU_IN = {
    "SP1": (6.5, 8),
    "SP2": (13, 15),
    "SP3": (20, 30),
    "SP4": (51, 63),
    "SP5": (93, 136),
    "#7": (1337, 1790),
    "#10": (2080, 2646),
    "#15": (2768, 3696),
    "#20": (4520, 5152),
    "#25": (5775, 6861),
}
"""The same standard's limits of the classes that page leaves out; from memory."""

LITRES_IN_CU_IN = 0.016387064
"""Exact, from the inch."""

CLASS_DIAMETER_M = {
    "SP3": 0.09,
    "SP4": 0.115,
    "SP5": 0.14,
    "#1": 0.165,
    "#2": 0.215,
    "#3": 0.26,
    "#5": 0.305,
    "#7": 0.355,
    "#10": 0.42,
    "#15": 0.45,
    "#25": 0.585,
}
"""Width across the top in metres. Those from #1 on, but for #10, are a grower's list of one maker's cans
(Dave's Garden: Is there such a thing as a "Horticultural gallon"?,
https://davesgarden.com/community/forums/t/1290516/); the others are from memory."""

SMALLEST_M, LARGEST_M = 0.02, 1.5
SMALLEST_L, LARGEST_L = 0.01, 1000.0

TRADE_GALLON = "A nursery's 'one gallon' pot is the trade class #1 and holds only about 2.8 L."

ACCEPTS = (
    "write a trade class (#1, SP4), a width across the top (4in, 9cm), a square (9cm square), "
    "a deep pot (deep 5x18cm), a tray (72-cell tray) or a volume (2L, 1gal)"
)

_CLASS = re.compile(r"#?\s*sp\s*(\d)$|#\s*(\d{1,2})$", re.IGNORECASE)
_UNIT = r"(in|inch|inches|\"|″|cm|mm)"
_WIDTH = re.compile(rf"(\d+(?:[.,]\d+)?)\s*{_UNIT}?$", re.IGNORECASE)
_DEEP = re.compile(
    rf"deep\s*(\d+(?:[.,]\d+)?)\s*{_UNIT}?\s*[x×]\s*(\d+(?:[.,]\d+)?)\s*{_UNIT}?$", re.IGNORECASE
)
_SQUARE_BEFORE = re.compile(r"sq(?:uare)?\s*(?=\d)", re.IGNORECASE)
_SQUARE_AFTER = re.compile(r"\s*sq(?:uare)?$", re.IGNORECASE)
_CELLS = re.compile(r"(\d{1,4})[\s-]*cells?(?:\s+trays?)?$", re.IGNORECASE)
_TRADE = re.compile(r"(\d{1,2})\s*trade\s*gal(?:lons?)?$", re.IGNORECASE)


@frozen
class Pot:
    """A pot by its name: the mix it takes in litres, its width across the top and its depth in metres where
    known. Of a tray of ``cells`` all that is one cell's, for a stem has one to itself."""

    name: str
    volume_l: float
    diameter_m: float | None = None
    sure: str = ""
    depth_m: float | None = None
    cells: int = 1

    @property
    def mix_depth_m(self) -> float | None:
        """How deep the mix in it is, where its depth is known."""
        return None if self.depth_m is None else self.depth_m * FILLED


def several(name: str) -> str:
    """Several pots of a name in words; a name that stands for several already is left alone."""
    if name.casefold().endswith(("pot", "tray", "can", "tub")):
        return f"{name}s"
    return name if name[-1:].casefold() == "s" else f"{name} pots"


def counted(count: int, name: str) -> str:
    """The pots so many stems stand in, in words: a 9cm pot, 9cm pots; an own name in the plural stays so."""
    one, many = single(name), several(name)
    return many if count != 1 or one == many else f"{'an' if one[:1] in 'aeiouAEIOU8' else 'a'} {one}"


def single(name: str) -> str:
    """One pot of a name in words, without its article; a name that stands for several is left alone."""
    return name if name.casefold().endswith(("pot", "tray", "can", "tub", "s")) else f"{name} pot"


def classes() -> tuple[Pot, ...]:
    """Every trade class, smallest first."""
    litres = MEASURED_CLASS_L | REMEMBERED_CLASS_L
    return tuple(_class_pot(name) for name in sorted(litres, key=litres.__getitem__))


def _class_pot(name: str) -> Pot:
    measured = name in MEASURED_CLASS_L
    litres = MEASURED_CLASS_L[name] if measured else REMEMBERED_CLASS_L[name]
    width_m = CLASS_DIAMETER_M.get(name)
    depth_m = None if width_m is None else width_m * ROUND_HEIGHT
    return Pot(name, litres, width_m, CLASS_SOURCE if measured else FROM_MEMORY, depth_m)


def class_limits_l(name: str) -> tuple[tuple[float, float], str] | None:
    """The least and the most litres that the nursery standard lets a class hold, and where that stands."""
    published = PUBLISHED_LIMITS_CU_IN.get(name)
    limits = published or REMEMBERED_LIMITS_CU_IN.get(name)
    if limits is None:
        return None
    low, high = (round(each * LITRES_IN_CU_IN, 3) for each in limits)
    return (low, high), LIMITS_SOURCE if published else FROM_MEMORY


def round_pot(diameter_m: float, name: str = "") -> Pot:
    """A round pot of a width across the top; the mix it takes is that of a filled truncated cone."""
    name = name or f"{round(diameter_m * 100, 1):g}cm"
    sure = f"from its width; shape after {ROUND_SOURCE}"
    return Pot(name, round_litres(diameter_m), diameter_m, sure, ROUND_HEIGHT * diameter_m)


def parse_pot(text: str, units: Units) -> Pot:
    """Read a trade class (``#1``, ``SP4``), a width (``4in``, ``9cm``), a square (``9cm square``, ``sq9cm``),
    a deep pot (``deep 5x18cm``), a tray (``72-cell tray``) or a volume (``2L``, ``1gal``).

    A bare number is a width, in inches (US) or centimetres. A gallon is a true US gallon; ``1 trade gal``
    is the trade class. The name of what comes back can be read again in gardens of either units.

    Raises:
        ValueError: the text is no pot, or no pot is that small or that large.
    """
    word = " ".join(text.split())
    if match := _CLASS.match(word):
        return _known_class(text, f"SP{match[1]}" if match[1] else f"#{int(match[2])}")
    if match := _TRADE.match(word):
        return _known_class(text, f"#{int(match[1])}")
    if match := _WIDTH.match(word):
        return round_pot(*_width(text, match[1], match[2], units))
    if match := _CELLS.match(word):
        return _tray(text, int(match[1]))
    if match := _DEEP.match(word):
        return _deep(text, match, units)
    side = _SQUARE_AFTER.sub("", _SQUARE_BEFORE.sub("", word))
    if side != word and (match := _WIDTH.match(side)):
        side_m, name = _width(text, match[1], match[2], units)
        sure = f"from its side, {FROM_MEMORY}"
        return Pot(f"{name} square", square_litres(side_m), side_m, sure, SQUARE_HEIGHT * side_m)
    return _by_volume(text, word, units)


def _known_class(text: str, name: str) -> Pot:
    if name not in MEASURED_CLASS_L and name not in REMEMBERED_CLASS_L:
        known = ", ".join(pot.name for pot in classes())
        raise ValueError(f"'{text}' is not a trade class this program knows; it knows {known}.")
    return _class_pot(name)


def _width(text: str, number: str, unit: str | None, units: Units) -> tuple[float, str]:
    """A width in metres, and as it is written down."""
    width, unit = float(number.replace(",", ".")), _unit(unit, units)
    if not SMALLEST_M <= width * METRES[unit] <= LARGEST_M:
        raise ValueError(f"No pot is as wide as '{text}'; {ACCEPTS}.")
    return width * METRES[unit], f"{width:g}{unit}"


def _unit(unit: str | None, units: Units) -> str:
    usual = "in" if units is Units.US else "cm"
    word = (unit or usual).casefold()
    return "in" if word in ('"', "″") or word.startswith("in") else word


def _deep(text: str, match: re.Match[str], units: Units) -> Pot:
    """A tall narrow pot; a unit that stands once holds for both measures."""
    unit = match[2] or match[4]
    width_m, width = _width(text, match[1], unit, units)
    depth, deep_unit = float(match[3].replace(",", ".")), _unit(match[4] or unit, units)
    depth_m = depth * METRES[deep_unit]
    if not width_m <= depth_m <= LARGEST_M:
        raise ValueError(f"A deep pot is deeper than wide, and '{text}' is not; {ACCEPTS}.")
    name = f"deep {width.removesuffix(deep_unit)}x{depth:g}{deep_unit}"
    return Pot(name, deep_litres(width_m, depth_m), width_m, f"from its measures, {FROM_MEMORY}", depth_m)


def _tray(text: str, cells: int) -> Pot:
    try:
        litres = cell_litres(cells)
    except ValueError:
        raise ValueError(
            f"No tray has as many or as few cells as '{text}': {FEWEST_CELLS} to {MOST_CELLS}; {ACCEPTS}."
        ) from None
    return Pot(f"{cells}-cell tray", litres, None, f"in a tray of the usual size, {FROM_MEMORY}", cells=cells)


def _by_volume(text: str, word: str, units: Units) -> Pot:
    try:
        litres = parse_volume(word, units)
    except ValueError:
        raise ValueError(f"'{text}' is not a pot; {ACCEPTS}.") from None
    if not SMALLEST_L <= litres <= LARGEST_L:
        raise ValueError(f"No pot holds as much or as little as '{text}'; {ACCEPTS}.")
    return Pot(word.replace(" ", ""), litres, None, TRADE_GALLON if "gal" in word.casefold() else "")


ALIKE = 0.35
ALIKE_ACROSS = 0.1
"""Two pots whose volumes, or whose widths, differ by less than this share are the same step; from memory."""


def alike(one: Pot, other: Pot) -> bool:
    """Whether two pots are one size for a plant's purposes: they take about as much mix, or leave as much
    room round its roots."""
    if one.diameter_m and other.diameter_m:
        wider = max(one.diameter_m, other.diameter_m)
        if abs(one.diameter_m - other.diameter_m) <= ALIKE_ACROSS * wider:
            return True
    return abs(one.volume_l - other.volume_l) <= ALIKE * max(one.volume_l, other.volume_l)
