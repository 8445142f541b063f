"""Dipping cuttings in rooting hormone: how strong, how to thin a stock, how long, and what to be wary of.

Thinning keeps the active amount: stock strength times stock equals wanted strength times what is made.
Volumes are millilitres, weights grams, strengths ppm (see ``strengths``). The label goes before all of it.
"""

import math

from attrs import frozen

from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Way
from cuttings.rules.advice import Advice
from cuttings.rules.strengths import plain, show_strength
from cuttings.words import DipForm, Wood

MANUAL = "Longman and Wilson: Rooting Cuttings of Tropical Trees, A 40"
"""http://www.fao.org/docrep/006/ad231e/AD231E05.htm"""

QUICK_DIP_SECONDS = (1, 5)
QUICK_DIP_SOURCE = (
    "IPPS Proceedings 50 (Geneve): Root Formation in Relationship to Auxin Uptake in Cuttings; " + MANUAL
)
"""http://www.pubhort.org/ipps/50/96.htm"""

SOAK_HOURS = (4, 12)
"""Standing in a weak solution in water, by ``MANUAL``; others soak for up to two days."""

SOAK_PPM = (20, 200)
"""The strengths soaks are usually made in; from memory. Published soaks of 20 and 60 ppm lie within."""

SOAK_BY_DIFFICULTY = {"easy": 20, "moderate": 50, "hard": 200}
"""What of that range to begin with, by how hard the plant is to root; from memory."""

STRONGEST_SOAK_PPM, STRONGEST_SOAK_HOURS = 500, (2, 2)
STRONGEST_SOAK_SOURCE = (
    "Sichuan forestry journal: IBA concentration and time on rooting of fig cuttings, 2017"
)
"""https://www.sjfsci.com/cn/article/doi/10.16779/j.cnki.1003-5508.2017.01.016"""

USUAL_MOST_PPM = 10_000
"""Stronger than this is rare whatever the wood; from memory."""

STRONGEST_PPM = 30_000
"""More than this no record of a plant asks for."""

STRONGEST_LIQUID_PPM = 10_300
STRONGEST_LIQUID_SOURCE = "IPPS Proceedings 42 (Kroin): Advances Using IBA Dissolved in Water, 1992"
"""The strongest stock solution sold ready made holds 1.03 %, in nearly pure alcohol,
http://www.pubhort.org/ipps/42/126.htm"""

TRIED_ALCOHOL = 0.5
TRIED_ALCOHOL_SOURCE = (
    "Mississippi State University: Safety of Isopropyl Alcohol as a Carrier in Auxin Solutions, 2017"
)
"""Quick dips with a quarter to a half of alcohol burned no stem of seven kinds but one, lantana."""

TOO_MUCH_SOURCE = "ASHS (Blythe and Sibley): Winter cutting propagation of Dwarf Burford holly"
"""Twice the usual dose rooted fewer."""

WEAKEST_SOLD_PPM = 1000
"""The weakest of the strengths tables of powders use (1000, 3000 and 8000 ppm); common practice."""

LEAST_MEASURED = 0.1
"""The least a small syringe or a fine scale measures well, in mL or g; common practice."""

MOST_MADE = {DipForm.LIQUID: 20_000.0, DipForm.POWDER: 5_000.0}
"""No bench uses more at once, in mL and g: a bucketful, a sackful; this program's own."""

SOFT = (Wood.SOFTWOOD, Wood.BASAL, Wood.LEAF)


class CannotBeMade(ValueError):
    """What is asked for cannot be mixed, or should not be; the text is a sentence that says what can."""


@frozen
class Dilution:
    """A stock thinned to a strength. ``made`` is millilitres of a liquid, grams of a powder."""

    form: DipForm
    stock_ppm: float
    strength_ppm: float
    made: float

    @property
    def share(self) -> float:
        """The part of the whole that is stock."""
        return self.strength_ppm / self.stock_ppm

    @property
    def stock(self) -> float:
        return self.made * self.share

    @property
    def diluent(self) -> float:
        return self.made - self.stock

    @property
    def active_mg(self) -> float:
        """Milligrams of hormone in what is made."""
        return self.made * self.strength_ppm / 1000.0


def check_strength(form: DipForm, stock_ppm: float, strength_ppm: float) -> None:
    """Whether thinning a stock gives a strength that is in use.

    Raises:
        CannotBeMade: it is stronger than the stock or than anything in use, or nothing at all.
    """
    if not all(math.isfinite(each) and each > 0 for each in (stock_ppm, strength_ppm)):
        raise CannotBeMade("A strength must be more than nothing.")
    if strength_ppm > stock_ppm:
        raise CannotBeMade(
            f"A stock of {show_strength(stock_ppm, form)} cannot make {show_strength(strength_ppm, form)}: "
            "thinning only weakens it, so take a stronger stock, or want no more than the stock has."
        )
    if strength_ppm > STRONGEST_PPM:
        raise CannotBeMade(
            f"{show_strength(strength_ppm, form)} is stronger than any plant here is dipped in "
            f"({STRONGEST_PPM} ppm); check the unit, and want less."
        )


def dilute(form: DipForm, stock_ppm: float, strength_ppm: float, made: float) -> Dilution:
    """Stock and water (mL) or talc (g) that together make so much of a strength.

    Raises:
        CannotBeMade: the strength is none (see ``check_strength``), it is too much to be sensible, or it
            takes less stock than one can measure.
    """
    check_strength(form, stock_ppm, strength_ppm)
    if not made > 0:
        raise CannotBeMade("An amount must be more than nothing.")
    unit = "mL" if form is DipForm.LIQUID else "g"
    if made > MOST_MADE[form]:
        most = f"{MOST_MADE[form] / 1000:g} {'L' if form is DipForm.LIQUID else 'kg'}"
        raise CannotBeMade(
            f"More than {most} at once is more than a bench uses; check the unit, and make less."
        )
    mix = Dilution(form, stock_ppm, strength_ppm, made)
    if mix.stock < LEAST_MEASURED * (1 - 1e-9):
        raise CannotBeMade(
            f"That takes only {mix.stock:.2g} {unit} of stock, less than can be measured; make at least "
            f"{_rounded_up(LEAST_MEASURED / mix.share)} {unit}, or thin some stock first and then that again."
        )
    return mix


def _rounded_up(amount: float) -> str:
    """An amount rounded up to two figures that count."""
    step = 10.0 ** (math.floor(math.log10(amount)) - 1)
    return f"{math.ceil(round(amount / step, 9)) * step:.10g}"


@frozen
class Recommended:
    """A strength to begin with and the range growers use, in ppm; all nought where no hormone is of use."""

    ppm: int
    low: int
    high: int


NOTHING = Recommended(0, 0, 0)


def advise_dip(
    wood: Wood, general: Way, own: Way | None = None, *, called: str = "", soak: bool = False
) -> Advice[Recommended]:
    """How strong a hormone for a kind of wood: by the plant's ``own`` record of that kind of cutting where it
    says, otherwise by the ``general`` figures of that kind of cutting."""
    way = own if own is not None and own.iba_ppm is not None else general
    source = way.source_of("iba_ppm")
    named = way is own and (own.iba_ppm, source) != (general.iba_ppm, general.source_of("iba_ppm"))
    whose = called if named and called else "most plants"
    of = f"{wood} cuttings of {whose}"
    if way.iba_ppm is None:
        return Advice(NOTHING, f"A {wood} cutting is set without hormone.", COMMON_PRACTICE)
    low, high = way.iba_ppm
    sure = "Nobody has checked this figure yet." if source == FROM_MEMORY else ""
    if high == 0:
        return Advice(NOTHING, f"Hormone is of no use on {of}: they root without.", source, sure)
    if soak:
        begin = SOAK_BY_DIFFICULTY.get(way.difficulty, SOAK_BY_DIFFICULTY["moderate"])
        why = f"A soak is weak, {SOAK_PPM[0]} to {SOAK_PPM[1]} ppm: more, the harder the plant is to root."
        return Advice(Recommended(begin, *SOAK_PPM), why, FROM_MEMORY, "Nobody has checked this figure yet.")
    if low == 0:
        why = f"Growers use none to {high} ppm on {of}: they may root without. Too much roots fewer."
        return Advice(Recommended(min(high, WEAKEST_SOLD_PPM), 0, high), why, source, sure)
    why = f"Growers use {low} to {high} ppm on {of}; begin weak, for too much roots fewer."
    return Advice(Recommended(low, low, high), why, source, sure)


@frozen
class Treatment:
    """How a cutting is treated: seconds in a quick dip or hours in a soak, each from and to; neither in
    powder."""

    how: str
    seconds: tuple[int, int] | None = None
    hours: tuple[int, int] | None = None


def treatment(form: DipForm, strength_ppm: float, *, soak: bool = False) -> Advice[Treatment]:
    """How long and how deep to dip.

    Raises:
        CannotBeMade: a soak so strong would kill what stands in it.
    """
    if form is DipForm.POWDER:
        how = "Touch the moist base to the powder and tap off what is loose."
        return Advice(Treatment(how), "Only the cut end takes it up; more harms.", MANUAL)
    if not soak:
        low, high = QUICK_DIP_SECONDS
        how = f"Dip the lowest 1 cm for {low} to {high} seconds and let it dry before it is stuck."
        why = "A stem left in alcohol for longer dies at its base."
        return Advice(Treatment(how, seconds=QUICK_DIP_SECONDS), why, QUICK_DIP_SOURCE)
    if strength_ppm > STRONGEST_SOAK_PPM:
        raise CannotBeMade(
            f"{plain(strength_ppm)} ppm is no strength to soak in: want at most {STRONGEST_SOAK_PPM} ppm, "
            "or leave out --soak and dip for seconds."
        )
    if strength_ppm > SOAK_PPM[1]:
        how = f"Stand the lowest 2 to 3 cm in it for {STRONGEST_SOAK_HOURS[1]} hours, no longer."
        return Advice(
            Treatment(how, hours=STRONGEST_SOAK_HOURS), "The stronger, the shorter.", STRONGEST_SOAK_SOURCE
        )
    low, high = SOAK_HOURS
    how = f"Stand the lowest 2 to 3 cm in it for {low} to {high} hours, in shade; a day at the very most."
    return Advice(
        Treatment(how, hours=SOAK_HOURS),
        "A weak solution needs hours where a strong one needs seconds.",
        MANUAL,
    )


def doubts(
    mix: Dilution, advised: Recommended | None, wood: Wood | None, *, soak: bool = False
) -> tuple[Advice[str], ...]:
    """What speaks against a mix that can be made, each as a sentence with its source."""
    found = []
    ppm, liquid = mix.strength_ppm, mix.form is DipForm.LIQUID
    high = SOAK_PPM[1] if soak else USUAL_MOST_PPM if advised is None else advised.high
    if advised == NOTHING:
        found.append(
            Advice(f"No hormone is advised here, and {plain(ppm)} ppm may harm.", "", COMMON_PRACTICE)
        )
    elif ppm > high:
        usual = f"growers use here (up to {high} ppm)"
        stronger = f"{plain(ppm)} ppm is stronger than {usual}: it may burn, and root fewer."
        found.append(Advice(stronger, "", TOO_MUCH_SOURCE))
    if liquid and not soak and ppm <= SOAK_PPM[1]:
        weak = (
            f"{plain(ppm)} ppm is a soak's strength: in a dip of seconds it does little. --soak is for that."
        )
        found.append(Advice(weak, "", FROM_MEMORY))
    if liquid and mix.stock_ppm > STRONGEST_LIQUID_PPM:
        label = "Stocks sold ready made hold about 1 % at most: read the label's strength and unit again."
        found.append(Advice(label, "", STRONGEST_LIQUID_SOURCE))
    if liquid and not soak and mix.share > TRIED_ALCOHOL and (wood is None or wood in SOFT):
        burning = (
            f"If the stock is made with alcohol, up to {mix.share:.0%} of this mix is alcohol, more than has "
            "been tried: it may burn soft stems. Try a few first."
        )
        found.append(Advice(burning, "", TRIED_ALCOHOL_SOURCE))
    return tuple(found)


def mixing(form: DipForm, *, soak: bool = False) -> Advice[str]:
    """How stock and water or talc are put together."""
    if form is DipForm.POWDER:
        shake = (
            "Shake them in a closed jar for some minutes, in still air and with a dust mask on; let the dust "
            "settle before you open it. Powder bought at the right strength is safer."
        )
        return Advice(shake, "", COMMON_PRACTICE)
    fill = "Measure the stock first, then fill up with clean water: alcohol and water shrink as they mix."
    if not soak:
        return Advice(fill, "", COMMON_PRACTICE)
    return Advice(f"{fill} Soak only in a stock made with water: hours in alcohol kill.", "", MANUAL)


LEFTOVERS = Advice(
    "Pour out no more than you use at once. What a cutting has touched never goes back: it spoils the rest. "
    "Get rid of it as the label and local rules say, never into a drain or water.",
    "",
    "Australian National Botanic Gardens: Safe use of plant growth hormones; common practice",
)
"""What to do with what is left, https://www.anbg.gov.au/PROPGATE/safeuse.htm"""
