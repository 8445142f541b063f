"""Measures: read in either system, kept in SI, shown in the garden's own.

Lengths are metres, volumes litres, temperatures degrees Celsius, masses grams. The conversion factors
are exact by definition: NIST Special Publication 811, *Guide for the Use of the International System
of Units* (2008), appendix B.
"""

import math
import re

from cuttings.words import Units

METRES = {
    "m": 1.0,
    "cm": 0.01,
    "mm": 0.001,
    "ft": 0.3048,
    "'": 0.3048,
    "in": 0.0254,
    '"': 0.0254,
    "yd": 0.9144,
}
LITRES = {
    "l": 1.0,
    "ml": 0.001,
    "gal": 3.785411784,
    "qt": 0.946352946,
    "pt": 0.473176473,
    "floz": 0.0295735295625,
    "cuft": 28.316846592,
    "cuyd": 764.554857984,
}
VOLUME_UNITS = "mL, L, floz, pt, qt, gal, cuft or cuyd"
GRAMS = {"g": 1.0, "kg": 1000.0, "mg": 0.001, "oz": 28.349523125, "lb": 453.59237}
"""Ounces and pounds are avoirdupois."""

HEAVIEST_G = 1e9
"""Nobody weighs out more than a thousand tonnes."""

LONGEST_M = 9_000.0
"""No garden lies higher above the sea, and nothing in one is longer."""
_NUMBER = re.compile(r"\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\d\s.,+-][^\d]*)?\s*$")


def _split(text: str, what: str, example: str) -> tuple[float, str]:
    match = _NUMBER.match(text.replace("−", "-"))
    if match is None:
        raise ValueError(f"'{text}' is not {what}; write it like {example}.")
    number = float(match[1].replace(",", "."))
    if not math.isfinite(number):
        raise ValueError(f"'{text}' is not {what}; write it like {example}.")
    return number, (match[2] or "").strip().casefold().replace(" ", "").replace(".", "")


_ALIASES = {
    "inch": "in", "inches": "in", "″": '"', "foot": "ft", "feet": "ft", "′": "'", "yard": "yd", "yards": "yd",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "litre": "l", "litres": "l", "liter": "l", "liters": "l", "gallon": "gal", "gallons": "gal",
    "quart": "qt", "quarts": "qt", "pint": "pt", "pints": "pt", "ft³": "cuft", "cubicfoot": "cuft",
    "cubicfeet": "cuft", "yd³": "cuyd", "cubicyard": "cuyd", "cubicyards": "cuyd",
    "gram": "g", "grams": "g", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "ounce": "oz", "ounces": "oz", "pound": "lb", "pounds": "lb", "lbs": "lb",
}  # fmt: skip
_FEET_AND_INCHES = re.compile(r"""\s*(\d+)\s*(?:'|ft)\s*(\d+(?:\.\d+)?)\s*(?:"|in)\s*$""", re.IGNORECASE)
_POUNDS_AND_OUNCES = re.compile(r"\s*(\d+)\s*lbs?\s*(\d+(?:\.\d+)?)\s*oz\s*$", re.IGNORECASE)


def parse_length(text: str, units: Units) -> float:
    """Read a length such as ``4in``, ``10 cm``, ``1.2m``, ``5ft 6in``, in metres.

    A bare number is in the garden's units: feet (US) or metres.

    Raises:
        ValueError: the text is no length, or is negative.
    """
    both = _FEET_AND_INCHES.match(text)
    if both is not None:
        return _on_earth(float(both[1]) * METRES["ft"] + float(both[2]) * METRES["in"], text)
    number, unit = _split(text, "a length", "4in, 10cm, 6ft or 1.2m")
    unit = _ALIASES.get(unit, unit) or ("ft" if units is Units.US else "m")
    if unit not in METRES:
        raise ValueError(f"'{text}' has no length unit this program knows; use in, ft, yd, mm, cm or m.")
    if number < 0:
        raise ValueError(f"A length cannot be negative ('{text}').")
    return _on_earth(number * METRES[unit], text)


def _on_earth(metres: float, text: str) -> float:
    if metres > LONGEST_M:
        raise ValueError(f"{text} is longer than anything a garden has; check the unit.")
    return metres


def parse_temperature(text: str, units: Units) -> float:
    """Read a temperature such as ``28F``, ``-2C`` or ``-2 °C``, in degrees Celsius.

    Raises:
        ValueError: the text is no temperature, or lies outside what a garden can meet.
    """
    number, unit = _split(text, "a temperature", "28F or -2C")
    unit = unit.replace("°", "").replace("deg", "") or ("f" if units is Units.US else "c")
    if unit not in ("f", "c"):
        raise ValueError(f"'{text}' has no temperature unit this program knows; use F or C.")
    celsius = fahrenheit_to_celsius(number) if unit == "f" else number
    if not -90.0 <= celsius <= 70.0:
        raise ValueError(f"{text} is outside anything a garden meets; check the unit (F or C).")
    return celsius


def parse_volume(text: str, units: Units) -> float:
    """Read a volume such as ``2L``, ``250 mL``, ``3gal`` (US liquid) or ``2 cu ft``, in litres.

    Raises:
        ValueError: the text is no volume, or is not above zero.
    """
    number, unit = _split(text, "a volume", "2L, 250mL or 3gal")
    unit = _ALIASES.get(unit, unit) or ("gal" if units is Units.US else "l")
    if unit not in LITRES:
        raise ValueError(f"'{text}' has no volume unit this program knows; use {VOLUME_UNITS}.")
    if number <= 0:
        raise ValueError(f"A volume must be more than nothing ('{text}').")
    return number * LITRES[unit]


def parse_mass(text: str, units: Units) -> float:
    """Read a mass such as ``13oz``, ``1lb 4oz``, ``250 g`` or ``1.5kg``, in grams.

    A bare number is in ounces (US) or grams.

    Raises:
        ValueError: the text is no mass, or is not above zero.
    """
    both = _POUNDS_AND_OUNCES.match(text)
    if both is not None:
        number, unit = float(both[1]) * GRAMS["lb"] + float(both[2]) * GRAMS["oz"], "g"
    else:
        number, unit = _split(text, "a weight", "13oz, 2lb, 250g or 1.5kg")
    unit = _ALIASES.get(unit, unit) or ("oz" if units is Units.US else "g")
    if unit not in GRAMS:
        raise ValueError(f"'{text}' has no weight unit this program knows; use oz, lb, g or kg.")
    if number <= 0:
        raise ValueError(f"A weight must be more than nothing ('{text}').")
    return _weighable(number * GRAMS[unit], text)


def _weighable(grams: float, text: str) -> float:
    if grams > HEAVIEST_G:
        raise ValueError(f"{text} is heavier than anything a garden weighs; check the unit.")
    return grams


def fahrenheit_to_celsius(degrees_f: float) -> float:
    return (degrees_f - 32.0) / 1.8


def fahrenheit_difference(degrees: float) -> float:
    """A difference of so many degrees Fahrenheit, in Celsius."""
    return degrees / 1.8


def difference_shown(degrees_c: float, units: Units) -> float:
    """A difference of temperatures, or a sum of degree days, in degrees of the garden's own scale."""
    return degrees_c * 1.8 if units is Units.US else degrees_c


def celsius_to_fahrenheit(degrees_c: float) -> float:
    return degrees_c * 1.8 + 32.0


WHOLE_FEET_FROM = 100 * 12
"""Inches from which nobody says the inches any more."""


def _trim(number: float, places: int) -> str:
    text = f"{number:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show_length(metres: float, units: Units) -> str:
    """A length as a gardener says it: ``4 in``, ``5 ft 6 in``, ``12 cm``, ``1.2 m``."""
    if units is Units.METRIC:
        return f"{_trim(metres, 2)} m" if metres >= 0.9995 else f"{_trim(metres * 100, 1)} cm"
    inches = metres / METRES["in"]
    if inches < 11.95:
        return f"{_trim(inches, 1)} in"
    if inches >= WHOLE_FEET_FROM:
        return f"{round(inches / 12)} ft"
    feet, rest = divmod(round(inches), 12)
    return f"{feet} ft {rest} in" if rest else f"{feet} ft"


def show_area(square_metres: float, units: Units) -> str:
    """An area: ``9 m²``, ``2.4 m²``, ``97 sq ft``."""
    area, unit = (
        (square_metres, "m²") if units is Units.METRIC else (square_metres / METRES["ft"] ** 2, "sq ft")
    )
    return f"{_trim(area, 1 if area < 9.95 else 0)} {unit}"


def show_span(low_m: float, high_m: float, units: Units) -> str:
    """A range of lengths: ``3 to 5 ft``, ``8 to 10 cm``."""
    low, high = show_length(low_m, units), show_length(high_m, units)
    if low == high:
        return low
    if low.count(" ") == high.count(" ") == 1 and low.split(" ")[-1] == high.split(" ")[-1]:
        return f"{low.split(' ')[0]} to {high}"
    return f"{low} to {high}"


def about_span(low_m: float, high_m: float, units: Units) -> str:
    """A range of lengths as one would say it: in inches and feet to the quarter, half or whole of one, and so
    never quite the same: ``3 to 5 ft``, ``8 in to 2 ft``. In centimetres and metres as it is."""
    if units is Units.METRIC:
        return show_span(low_m, high_m, units)
    low, high = (metres / METRES["in"] for metres in (low_m, high_m))
    ends = [_roughly(each, "ft" if _in_feet(each, high) else "in") for each in (low, high)]
    if ends[0] == ends[1]:
        return ends[1]
    return f"{ends[0].removesuffix(ends[1][-3:])} to {ends[1]}"


INCHES_TO_A_FOOT = 12
FEET_FROM_IN = 23.5
"""Inches from which one says feet; the lower end of such a range is in feet from three quarters of one."""


def _in_feet(inches: float, high: float) -> bool:
    return inches >= FEET_FROM_IN or (high >= FEET_FROM_IN and inches >= 0.75 * INCHES_TO_A_FOOT)


def _roughly(inches: float, unit: str) -> str:
    """To the quarter below two, to the half below four, whole above."""
    number = inches / INCHES_TO_A_FOOT if unit == "ft" else inches
    parts = 4 if number < 2 else 2 if number < 4 else 1
    return f"{max(round(number * parts), 1) / parts:g} {unit}"


_IN_PROSE = re.compile(r"(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (mm|cm|m)\b")


def in_units(sentence: str, units: Units) -> str:
    """A sentence whose metric lengths (``5 to 10 cm``) are said in the garden's own units."""
    if units is Units.METRIC:
        return sentence

    def said(match: re.Match[str]) -> str:
        low, high = (float(each or match[1]) * METRES[match[3]] for each in match.groups()[:2])
        return about_span(low, high, units)

    return _IN_PROSE.sub(said, sentence)


def show_temperature(degrees_c: float, units: Units) -> str:
    """A temperature to the nearest whole degree: ``28 °F``, ``-2 °C``."""
    if units is Units.US:
        return f"{round(celsius_to_fahrenheit(degrees_c))} °F"
    return f"{round(degrees_c)} °C"


def show_volume(litres: float, units: Units) -> str:
    """A volume: ``2.8 L``, ``250 mL``, ``3 gal``, ``1.5 qt``."""
    if units is Units.METRIC:
        return f"{_trim(litres, 1)} L" if litres >= 0.9995 else f"{_trim(litres * 1000, 0)} mL"
    if litres >= LITRES["gal"]:
        return f"{_trim(litres / LITRES['gal'], 1)} gal"
    if litres >= 0.4:
        return f"{_trim(litres / LITRES['qt'], 1)} qt"
    return f"{_trim(litres / LITRES['floz'], 1)} fl oz"


OUNCES_TO_A_POUND = 16


def show_mass(grams: float, units: Units) -> str:
    """A mass as scales show it, to three figures: ``10 oz``, ``1 lb 4.5 oz``, ``7.57 g``, ``1.25 kg``."""
    if units is Units.METRIC:
        return f"{_three_figures(grams / 1000)} kg" if grams >= 999.5 else f"{_three_figures(grams)} g"
    ounces = grams / GRAMS["oz"]
    if ounces < OUNCES_TO_A_POUND - 0.05:
        return f"{_three_figures(ounces)} oz"
    pounds, rest = divmod(round(ounces, 1), OUNCES_TO_A_POUND)
    return f"{round(pounds)} lb {_trim(rest, 1)} oz" if rest >= 0.05 else f"{round(pounds)} lb"


def _three_figures(number: float) -> str:
    """To three figures, and never to more than four places."""
    places = 2 - math.floor(math.log10(number)) if number > 0 else 0
    return _trim(number, min(max(places, 0), 4))


def plan_words(at: tuple[float, float], units: Units) -> str:
    """A position on a plan in words: ``1.85 m along and 90 cm back``, before the front or beside it too."""
    along, back = (show_length(abs(metres), units) for metres in at)
    sideways = f"{along} along" if at[0] >= 0 else f"{along} left of the left end"
    return f"{sideways} and {back} back" if at[1] >= 0 else f"{sideways} and {back} before the front"
