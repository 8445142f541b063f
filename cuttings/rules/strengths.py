"""Strengths of rooting hormone: read and shown as ppm, percent and weight in a litre or kilogram.

Kept in ppm. Of a solution, 1 ppm is 1 mg in a litre and 1 % (w/v) is 10 g in a litre, 10,000 ppm; of a
powder, 1 ppm is 1 mg in a kilogram and 1 % (w/w) is 10 g in a kilogram, 10,000 ppm. The trade says ppm of
both. Source: Horticulture Guruji (HORT 221): Preparation of plant growth regulator solutions,
https://www.horticultureguruji.in/preparation-of-plant-growth-regulator-solutions/
"""

import math
import re

from attrs import frozen

from cuttings.words import DipForm

PPM_PER_PERCENT = 10_000.0
ALL_OF_IT_PPM = 1_000_000.0
"""The pure substance."""

_PPM = {
    "": 1.0, "ppm": 1.0, "%": PPM_PER_PERCENT,
    "%w/v": PPM_PER_PERCENT, "mg/l": 1.0, "g/l": 1000.0, "mg/ml": 1000.0,
    "%w/w": PPM_PER_PERCENT, "mg/kg": 1.0, "g/kg": 1000.0,
}  # fmt: skip
_BY_VOLUME = ("%w/v", "mg/l", "g/l", "mg/ml")
_BY_WEIGHT = ("%w/w", "mg/kg", "g/kg")
_WRITTEN = re.compile(r"([+-]?)(\d[\d.,]*|[.,]\d+)\s*(\D*)$")
_THOUSANDS = re.compile(r"\d{1,3}(,\d{3})+")
_DOTTED = re.compile(r"[1-9]\d{0,2}(\.\d{3})+")
EXAMPLES = {DipForm.LIQUID: "10000ppm, 1% or 10g/L", DipForm.POWDER: "8000ppm, 0.8% or 8g/kg"}


@frozen
class Parts:
    """A dilution said in parts: so much stock to so much water or talc."""

    stock: float
    diluent: float

    def strength_ppm(self, stock_ppm: float) -> float:
        return stock_ppm * self.stock / (self.stock + self.diluent)


def parse_strength(text: str, form: DipForm) -> float:
    """Read a strength such as ``2000ppm``, ``0.2 %``, ``2000 mg/L``, ``2g/L`` or ``8 g/kg``, in ppm.

    A bare number is ppm. In ppm and mg a comma before three digits parts the thousands, as labels print them.

    Raises:
        ValueError: the text is no strength, could be read two ways, or lies outside 0 to 100 %.
    """
    match = _WRITTEN.match(text.strip())
    if match is None:
        raise ValueError(f"'{text}' is not a strength; write it like {EXAMPLES[form]}.")
    sign, digits, unit = match[1], match[2], re.sub(r"\s", "", match[3]).casefold()
    if unit not in _PPM:
        raise ValueError(f"'{text}' has no unit of strength this program knows; use ppm, %, mg/L or g/L.")
    if unit in (_BY_WEIGHT if form is DipForm.LIQUID else _BY_VOLUME):
        inside = "litre" if form is DipForm.LIQUID else "kilogram"
        raise ValueError(
            f"'{text}' will not do: a {form} holds so much in a {inside}; write it like {EXAMPLES[form]}."
        )
    ppm = round(_number(text, digits, small=_PPM[unit] == 1.0) * _PPM[unit], 6)
    if sign == "-" or ppm <= 0:
        raise ValueError(f"A strength must be more than nothing ('{text}').")
    if ppm > ALL_OF_IT_PPM:
        raise ValueError(f"'{text}' is more than the pure substance; check the unit.")
    return ppm


def _number(text: str, digits: str, *, small: bool) -> float:
    """The number written; ``small`` units are those in which thousands are usual."""
    if small and _THOUSANDS.fullmatch(digits):
        return float(digits.replace(",", ""))
    if small and _DOTTED.fullmatch(digits):
        whole = digits.replace(".", "")
        raise ValueError(f"'{text}' could be read two ways; write {whole} without a point if you mean that.")
    try:
        number = float(digits.replace(",", "."))
    except ValueError:
        raise ValueError(f"'{text}' is not a number; write it with one point at most.") from None
    if not math.isfinite(number):
        raise ValueError(f"'{text}' is not a strength.")
    return number


_SHARE = r"(\d+(?:\.\d+)?)\s*parts?"
_PARTS = re.compile(
    rf"{_SHARE}(?: (?:of )?(?:stock|concentrate|powder))? (?:to|and) {_SHARE} (?:of )?(water|talc)$"
)
_RATIO = re.compile(r"\d[\d.,]*\s*(:|/|to\b|in\b|parts?\b)\s*", re.IGNORECASE)


def parse_wanted(text: str, form: DipForm) -> float | Parts | None:
    """Read what is wanted: a strength in ppm, ``none`` for no hormone, or parts of stock to parts of water.

    A bare ratio is refused: ``1:10`` is one part in ten to some growers and one part to ten to others.

    Raises:
        ValueError: it is none of these.
    """
    said = " ".join(text.casefold().split())
    if said in ("none", "no"):
        return None
    diluent = "water" if form is DipForm.LIQUID else "talc"
    parts = _PARTS.match(said)
    if parts and parts[3] == diluent and float(parts[1]) > 0:
        return Parts(float(parts[1]), float(parts[2]))
    if _RATIO.match(said):
        raise ValueError(
            f"'{text}' is understood in two ways, as parts of the whole and as parts beside it; "
            f"say '1 part stock to 9 parts {diluent}', or give the strength, such as {EXAMPLES[form]}."
        )
    return parse_strength(text, form)


def show_strength(ppm: float, form: DipForm) -> str:
    """A strength in all its units: ``2000 ppm (0.2 % w/v, 2 g/L)``, ``8000 ppm (0.8 % w/w, 8 g/kg)``."""
    percent, inside = ("% w/v", "L") if form is DipForm.LIQUID else ("% w/w", "kg")
    weight = f"{plain(ppm / 1000)} g" if ppm >= 1000 else f"{plain(ppm)} mg"
    return f"{plain(ppm)} ppm ({plain(ppm / PPM_PER_PERCENT)} {percent}, {weight}/{inside})"


def plain(number: float) -> str:
    """A number with four figures that count, without an exponent."""
    places = max(3 - math.floor(math.log10(number)), 0) if number > 0 else 0
    text = f"{number:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
