"""Liquid feed: how much fertiliser makes how strong a feed, for a can, a tank or an injector; and when.

A strength in ppm is milligrams of a nutrient in a litre of ready feed (UMass Extension Greenhouse: Chart -
Ratios and Concentrations for Using Water Soluble Fertilizers). Water is the volume of the ready feed.
Masses are grams, volumes litres, grades percent by weight.
"""

import re
from collections.abc import Collection, Iterator, Mapping
from datetime import date, timedelta
from enum import StrEnum

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.rules.advice import Advice
from cuttings.rules.aftercare import FEED_WHY, LAST_FEED_BEFORE_FROST_WEEKS, first_feed_days
from cuttings.rules.seasons import frosts, in_summer, summer, weeks
from cuttings.words import Stage, either

ATOMIC_WEIGHTS = {"O": 15.999, "P": 30.974, "K": 39.098}
"""IUPAC: Standard atomic weights of the elements 2021 (Prohaska and others, Pure and Applied Chemistry,
2022), abridged to five figures."""

P_IN_P2O5 = 2 * ATOMIC_WEIGHTS["P"] / (2 * ATOMIC_WEIGHTS["P"] + 5 * ATOMIC_WEIGHTS["O"])
K_IN_K2O = 2 * ATOMIC_WEIGHTS["K"] / (2 * ATOMIC_WEIGHTS["K"] + ATOMIC_WEIGHTS["O"])
"""Shares by weight, 0.4364 and 0.8301; Virginia Cooperative Extension (SPES-201) prints 0.4365 and 0.8301."""

MG_IN_G = 1000.0

MOST_PPM = 100_000.0
"""No feed is a tenth nutrient; beyond this a strength is a slip."""


class Nutrient(StrEnum):
    """What a strength is counted in. A label counts phosphorus and potassium as the oxides."""

    N = "N"
    P = "P"
    K = "K"
    P2O5 = "P2O5"
    K2O = "K2O"

    @property
    def spoken(self) -> str:
        return {"N": "nitrogen", "P": "phosphorus", "K": "potassium", "P2O5": "phosphate", "K2O": "potash"}[
            self.value
        ]


@frozen
class Grade:
    """The three numbers on a label: nitrogen, phosphate (P2O5) and potash (K2O), percent by weight."""

    n: float
    p2o5: float
    k2o: float

    def share(self, nutrient: Nutrient) -> float:
        """The share by weight of a nutrient, 0 to 1."""
        return {
            Nutrient.N: self.n,
            Nutrient.P2O5: self.p2o5,
            Nutrient.K2O: self.k2o,
            Nutrient.P: self.p2o5 * P_IN_P2O5,
            Nutrient.K: self.k2o * K_IN_K2O,
        }[nutrient] / 100.0

    def __str__(self) -> str:
        return f"{self.n:g}-{self.p2o5:g}-{self.k2o:g}"


_BETWEEN = re.compile(r"\s*[-–+:/\s]\s*")
_PERCENT = re.compile(r"\d+(?:[.,]\d+)?")
_RATIO = re.compile(r"(?:1\s*:\s*)?(\d+(?:[.,]\d+)?)")
_SHARE = re.compile(r"(\d*[.,]?\d+)\s*%")


def parse_grade(text: str) -> Grade:
    """Read a grade such as ``20-10-20`` or ``12.5-4-8``.

    Raises:
        ValueError: it is not three percentages, or they come to nothing or to more than the whole.
    """
    parts = _BETWEEN.split(text.strip())
    if len(parts) != 3 or not all(_PERCENT.fullmatch(part) for part in parts):
        raise ValueError(f"'{text}' is not a grade; write the label's three numbers like 20-10-20.")
    n, p2o5, k2o = (float(part.replace(",", ".")) for part in parts)
    if not 0.0 < n + p2o5 + k2o <= 100.0:
        raise ValueError(f"{text} is no grade: its three percentages come to between 0 and 100 together.")
    return Grade(n, p2o5, k2o)


@frozen
class Feed:
    """So many grams of a fertiliser in so many litres of ready feed."""

    grade: Grade
    dose_g: float
    water_l: float

    @property
    def g_per_l(self) -> float:
        return self.dose_g / self.water_l

    @property
    def ppm(self) -> Mapping[Nutrient, float]:
        """The strength in each nutrient, mg/L."""
        return {each: self.grade.share(each) * self.g_per_l * MG_IN_G for each in Nutrient}


MOST_DISSOLVED_G_PER_L = 1000.0
"""No litre of solution holds more. Ammonium nitrate, the most soluble of ``SOLUBLE_SOURCE``, is full at
1902 g to the litre of water, which makes under 900 g in a litre of solution (its density is from memory)."""

SLOW_TO_DISSOLVE_G_PER_L = 300.0
SOLUBLE_SOURCE = "Government of Western Australia: Preparation of liquid fertiliser stock solutions"
"""Potassium nitrate, common in soluble feeds, is full at 316 g to the litre of water at 20 °C, potassium
chloride at 340, potassium sulphate at 111,
https://www.agric.wa.gov.au/nursery-cutflowers/preparation-liquid-fertiliser-stock-solutions. That mixed feeds
give out between 350 and 600 g is from memory."""


def feed_of(grade: Grade, dose_g: float, water_l: float) -> Feed:
    """A dose in so much ready feed.

    Raises:
        ValueError: nothing dissolves so far, or an amount is not above zero.
    """
    if not (dose_g > 0.0 and water_l > 0.0):
        raise ValueError("A feed takes some fertiliser and some water.")
    _check_dissolves(dose_g / water_l, "feed")
    return Feed(grade, dose_g, water_l)


def check_holds(grade: Grade, nutrient: Nutrient) -> None:
    """Raises ``ValueError`` where a fertiliser of the grade holds nothing of the nutrient."""
    if grade.share(nutrient) <= 0.0:
        held = either(each for each in Nutrient if grade.share(each) > 0.0)
        raise ValueError(
            f"{grade} holds no {nutrient.spoken}; name one that it holds ({held}) with --nutrient."
        )


def feed_for(grade: Grade, nutrient: Nutrient, ppm: float, water_l: float) -> Feed:
    """The dose that makes a strength in one nutrient; ``Feed.ppm`` is its inverse.

    Raises:
        ValueError: the grade holds nothing of the nutrient, or so much does not dissolve.
    """
    check_holds(grade, nutrient)
    return feed_of(grade, ppm * water_l / MG_IN_G / grade.share(nutrient), water_l)


def _check_dissolves(g_per_l: float, what: str) -> None:
    if g_per_l > MOST_DISSOLVED_G_PER_L:
        raise ValueError(
            f"That would be {g_per_l:,.0f} g in each litre of {what}, more than water can dissolve; "
            "check the strength, the grade and the ratio."
        )


FULLEST_RATIO = 5000.0
RATIO_SOURCE = (
    "UMass Extension Greenhouse: Chart - Ratios and Concentrations for Using Water Soluble Fertilizers"
)
"""At 1:100 one gallon of concentrate delivers 100 gallons of final solution,
https://ag.umass.edu/greenhouse-floriculture/fact-sheets/chart-ratios-concentrations-for-using-water-soluble-fertilizers;
New England Greenhouse Update (Checking Your Fertilizer Injector) gives 0.5 percent and 1:200 as the same
setting, http://www.negreenhouseupdate.info/index.php/search-form/241-checking-your-fertilizer-injector"""


def parse_ratio(text: str) -> float:
    """Read an injector's setting, ``1:200``, ``200`` or ``0.5%``: parts of ready feed to one of stock.

    Raises:
        ValueError: it is no ratio, or none that an injector has.
    """
    typed = text.strip()
    share, ratio = _SHARE.fullmatch(typed), _RATIO.fullmatch(typed)
    if share is not None:
        percent = float(share[1].replace(",", "."))
        parts = 100.0 / percent if percent > 0.0 else 0.0
    elif ratio is not None:
        parts = float(ratio[1].replace(",", "."))
    else:
        raise ValueError(f"'{text}' is not an injector's ratio; write it like 1:200 or 0.5%.")
    if not 2.0 <= parts <= FULLEST_RATIO:
        raise ValueError(f"{text} is no injector's ratio: they lie between 1:2 and 1:{FULLEST_RATIO:.0f}.")
    return parts


@frozen
class Stock:
    """The concentrate an injector draws from: litres of it for all of the feed, and grams in each litre."""

    parts: float
    litres: float
    g_per_l: float

    @property
    def weaker_if_added(self) -> float:
        """Percent by which the feed comes out weaker where 1:200 means one part to 200 of water."""
        return 100.0 / (self.parts + 1.0)


def stock_for(feed: Feed, parts: float) -> Stock:
    """The stock for a feed, one part of it in so many parts in all.

    Raises:
        ValueError: so much does not dissolve.
    """
    g_per_l = feed.g_per_l * parts
    _check_dissolves(g_per_l, "stock")
    return Stock(parts, feed.water_l / parts, g_per_l)


EC_PER_100_PPM_N = (0.4, 0.8)
EC_GRADES_N = (15.0, 20.0)
EC_SOURCE = "University of Delaware Cooperative Extension, Kent County: Check your fertilizer injectors, 2008"
"""mS/cm that 100 ppm of nitrogen adds: 0.41 and 0.46 from two makers' 20-20-20, 0.69 and 0.76 from 15-0-15,
https://kentcoopextension.blogspot.com/2008/08/greenhouse-and-nursery-check-your.html. Grades unlike those
(other shares of nitrogen, or less of it than of the rest) are not told: there the figure may lie far off."""


def conductivity(feed: Feed) -> tuple[float, float] | None:
    """What a feed adds to the water's electrical conductivity, mS/cm, lowest and highest; ``None`` for a
    grade that the published readings do not cover."""
    grade = feed.grade
    least, most = EC_GRADES_N
    if not (least <= grade.n <= most and grade.n >= max(grade.p2o5, grade.k2o)):
        return None
    low, high = (each * feed.ppm[Nutrient.N] / 100.0 for each in EC_PER_100_PPM_N)
    return low, high


FULL_PPM_N = (150.0, 250.0)
FULL_SOURCE = "UMass Extension Greenhouse: Fertilizer Calculations for Greenhouse Crops"
"""What many grown greenhouse crops get at every watering,
http://ag.umass.edu/greenhouse-floriculture/fact-sheets/fertilizer-calculations-for-greenhouse-crops"""

YOUNG_PPM_N = (75.0, 125.0)
YOUNG_USUAL_PPM_N = 100.0
YOUNG_SOURCE = f"{FULL_SOURCE}; half of it for young plants is {COMMON_PRACTICE}"
"""Of ten perennials grown at 50 to 350 ppm not all bore the stronger feeds, and a weaker one gave good plants
too (abstract: Determination of Optimum Fertilizer Concentration and Corresponding Substrate Electrical
Conductivity for Ten Taxa of Herbaceous Perennials)."""

SALT_WHY = "Salt draws water out of roots."
SALTIEST_G_PER_L = 2.0
"""More fertiliser than this in a litre burns young roots whatever its grade; from memory."""


def young_plants(feed: Feed) -> Advice[str]:
    """How a feed suits young plants in pots, in a sentence."""
    ppm_n = _nitrogen(feed)
    low, high = YOUNG_PPM_N
    usual = f"half strength for a first feed, about {low:.0f} to {high:.0f} ppm of nitrogen"
    if ppm_n > FULL_PPM_N[1]:
        said = f"Too strong for young plants: they get {usual}."
    elif feed.g_per_l > SALTIEST_G_PER_L:
        said = f"Too salty for young plants: {feed.grade} takes much fertiliser for so little nitrogen."
    elif ppm_n < low:
        said = f"Weaker than {usual}; it does no harm."
    elif ppm_n <= high:
        said = f"Right for young plants: {usual}."
    else:
        said = f"Full strength, for well-rooted plants in growth; young ones get {usual}."
    return Advice(said, FEED_WHY, YOUNG_SOURCE)


def too_strong(feed: Feed) -> Advice[str] | None:
    """A warning where a feed is stronger than growers use it, else ``None``."""
    most = FULL_PPM_N[1]
    if _nitrogen(feed) > most:
        said = (
            f"More than {most:.0f} ppm of nitrogen is stronger than grown plants are fed, and can burn roots."
        )
        return Advice(said, SALT_WHY, FULL_SOURCE)
    if feed.g_per_l > SALTIEST_G_PER_L:
        said = (
            f"More than {SALTIEST_G_PER_L:g} g of fertiliser in a litre is salty enough to burn young roots."
        )
        return Advice(said, SALT_WHY, FROM_MEMORY)
    return None


def _nitrogen(feed: Feed) -> float:
    """Its strength in nitrogen, ppm, without what a dose loses to rounding."""
    return round(feed.ppm[Nutrient.N], 6)


def slow_to_dissolve(g_per_l: float) -> Advice[str] | None:
    """A warning where a stock is stronger than many fertilisers dissolve, else ``None``."""
    if g_per_l <= SLOW_TO_DISSOLVE_G_PER_L:
        return None
    said = (
        f"{g_per_l:.0f} g to the litre is more than many fertilisers dissolve; the label says how far yours "
        "does. A smaller ratio needs a weaker stock."
    )
    return Advice(said, "What does not dissolve blocks the injector.", SOLUBLE_SOURCE)


NOT_TO_FEED = Advice(
    "Cuttings without roots, plants potted less than four weeks ago or at rest, anything after late summer, "
    "and a dry mix: water that first.",
    "Roots that are missing, new, asleep or dry bear no salt, and late soft growth freezes.",
    f"{COMMON_PRACTICE}; the four weeks are {FROM_MEMORY}",
)

IN_POTS = frozenset({Stage.POTTED, Stage.HARDENING, Stage.READY})
NO_ROOTS_WHY = "Without roots they cannot take it up; feed once they are potted and new leaves grow."
POT_FIRST_WHY = "Pot them first; the fresh mix feeds them for the first four weeks."
NOT_IN_POTS_WHY = "None of them stands in a pot; feed in the ground follows the soil, not this sheet."
HARDENING_WHY = "While they harden off their growth is to firm up; feed makes it soft."
OUT_OF_SEASON_WHY = "From late summer to the last frost they are not fed: soft growth freezes."


@frozen
class Timing:
    """Whether a lot is fed now; ``opens`` is the day from which it may be, where that is known."""

    now: bool
    why: str
    source: str
    opens: date | None = None


def feed_now(on: date, held: Collection[Stage], potted: date, climate: Climate) -> Timing:
    """Whether a lot that holds stems at those stages, and came into its pots on a day, is fed on another.

    It says the same as the week's sheet, which also goes by ``first_feed_days`` and the end of summer.
    """
    stages = IN_POTS & set(held)
    if not stages:
        if Stage.ROOTED in held:
            return Timing(False, POT_FIRST_WHY, COMMON_PRACTICE)
        why = NO_ROOTS_WHY if Stage.WAITING in held else NOT_IN_POTS_WHY
        return Timing(False, why, COMMON_PRACTICE)
    if stages == {Stage.HARDENING}:
        return Timing(False, HARDENING_WHY, COMMON_PRACTICE)
    first = first_feed_days(potted, climate)
    due = potted + timedelta(days=first.value)
    if on < due:
        return Timing(False, first.why, first.source, due)
    if in_summer(climate, on, before_weeks=LAST_FEED_BEFORE_FROST_WEEKS):
        return Timing(True, FEED_WHY, first.source)
    why = frosts(climate, on.year).said(OUT_OF_SEASON_WHY)
    opens = min((opens for opens, _ in _feeding_times(climate, on) if opens > on), default=None)
    return Timing(False, why, f"{COMMON_PRACTICE}; how long before frost is {FROM_MEMORY}", opens)


def last_feed(climate: Climate, on: date) -> date | None:
    """The last day on which pots are fed in the growing time that is on, or in the next; ``None`` where the
    summer is too short to feed in."""
    return min((closes for _, closes in _feeding_times(climate, on) if closes >= on), default=None)


def _feeding_times(climate: Climate, on: date) -> Iterator[tuple[date, date]]:
    """The stretches of some years round a day in which pots are fed."""
    for year in range(on.year - 1, on.year + 3):
        opens, closes = summer(climate, year)
        closes -= weeks(LAST_FEED_BEFORE_FROST_WEEKS)
        if opens <= closes:
            yield opens, closes
