"""How much of each ingredient goes into a batch of a mix, by the litre, by the scoop and by the bag.

Litres throughout. ``litres`` of an ingredient are its share of the mix as it lies in the pots, so that they
add up to what is wanted; ``loose_l`` is what to measure out before mixing, which is more.
"""

import math
import re
from collections.abc import Iterable, Sequence

from attrs import frozen

from cuttings.plants.model import FROM_MEMORY
from cuttings.rules.mixes import MATERIALS, Material, Part
from cuttings.units import GRAMS, LITRES, parse_volume
from cuttings.words import Units

MIXING = 0.10
"""Share that a heap loses when its ingredients are mixed, because fines fall between coarse pieces; from
memory, where growers allow 10 to 20 % for this, settling and spilling together. One published recipe allows
nothing (Rutgers NJAES: Making a plant growing mix, 2015)."""
SETTLING = 0.04
SPILLING = 0.02
"""Shares of the mix that the first watering settles and that the bench loses, from memory. A published count
of pots to the bag (Acme Hydroponics: Container Capacities,
https://www.acmehydroponics.net/resources/container-capacities.aspx) leaves 2 to 7 % for both, and these lie
within it."""
ALLOWANCES_SOURCE = FROM_MEMORY

COIR_L_PER_KG = 13.0
COIR_WATER_L_PER_KG = 4.5
COIR_SOURCE = "Biology Insights: How Much Does Coco Coir Expand?"
"""A pressed block, wetted: 5 kg make 60 to 75 L with 20 to 25 L of water, 650 g make 7 to 11 L,
https://biologyinsights.com/how-much-does-coco-coir-expand"""

LEAST_L, MOST_L = 0.05, 20_000.0
"""The smallest and the largest batch that is reckoned."""

SCOOPS: dict[Units, tuple[tuple[str, float], ...]] = {
    Units.US: (
        ("tablespoon", LITRES["qt"] / 64),
        ("quarter cup", LITRES["qt"] / 16),
        ("cup", LITRES["qt"] / 4),
        ("one-quart scoop", LITRES["qt"]),
        ("one-gallon bucket", LITRES["gal"]),
        ("five-gallon bucket", 5 * LITRES["gal"]),
    ),
    Units.METRIC: (
        ("15 mL spoon", 0.015),
        ("50 mL measure", 0.05),
        ("250 mL cup", 0.25),
        ("1 L scoop", 1.0),
        ("5 L bucket", 5.0),
        ("10 L bucket", 10.0),
    ),
}
"""Measures that are at hand, smallest first."""

BAG_FORM = "an ingredient and the size of its bag, such as 'coir 9L, perlite 100L, bark 2cuft'"
_UNIT = (
    r"cu(?:bic)?\.?\s*(?:ft|feet|foot|yd|yards?)|ft³|yd³|cuft|cuyd|ml|li?t(?:re|er)s?|l|gal(?:lons?)?"
    r"|q(?:uar)?ts?|p(?:in)?ts?|fl\.?\s*oz|kg|g|lb|oz"
)
_SIZE = re.compile(rf"(\d+(?:[.,]\d+)?)\s*({_UNIT})\b\.?", re.IGNORECASE)
_KIND_OF_BAG = re.compile(r"\b(?:bags?|blocks?|bricks?|bales?|of|in)\b", re.IGNORECASE)
_BETWEEN = re.compile(r"\s*(?:;|,(?!\d))\s*")
SIZES_OF_ONE = 2
"""How many bag sizes of one ingredient may be put together."""


@frozen
class Allowance:
    """Shares by which what is measured out exceeds what lies in the pots."""

    mixing: float = MIXING
    settling: float = 0.0
    spilling: float = 0.0

    @property
    def factor(self) -> float:
        return 1.0 + self.mixing + self.settling + self.spilling


FOR_POTS = Allowance(MIXING, SETTLING, SPILLING)
FOR_A_HEAP = Allowance(MIXING)
"""A wanted volume is a heap of mix: it shrinks in mixing and nothing else."""


@frozen
class Bag:
    """A size an ingredient is sold in, by the litres it makes. A block of coir has its weight too."""

    material: Material
    litres: float
    kg: float | None = None


@frozen
class Purchase:
    """So many bags of a size."""

    bag: Bag
    count: int


@frozen
class Share:
    """One ingredient of a batch. ``scoops`` are to the half for each part, rounded up. ``left_l``: what stays
    over of the bags, ``None`` where none are named."""

    part: Part
    litres: float
    loose_l: float
    scoops: float
    bags: tuple[Purchase, ...] = ()
    left_l: float | None = None


@frozen
class Batch:
    """A batch of a mix: the litres it makes, and its ingredients. A scoop is a measure at hand."""

    total_l: float
    shares: tuple[Share, ...]
    allowance: Allowance
    scoop: str
    scoop_l: float

    @property
    def loose_l(self) -> float:
        """All that is measured out before mixing."""
        return round(sum(share.loose_l for share in self.shares), 3)


def batch(
    parts: Sequence[Part], total_l: float, allowance: Allowance, units: Units, bags: Sequence[Bag] = ()
) -> Batch:
    """A batch of so many litres by parts of volume.

    Args:
        total_l: the mix wanted, as it lies in the pots or on the heap.
        bags: the sizes that can be bought; every one must be of a material of ``parts``.

    Raises:
        ValueError: nobody mixes so little or so much, or a bag is of something that is not in the mix.
    """
    if not LEAST_L <= total_l <= MOST_L:
        raise ValueError(f"{total_l:g} L cannot be reckoned; it takes {LEAST_L * 1000:g} mL to {MOST_L:g} L.")
    strange = next((bag for bag in bags if bag.material not in {part.material for part in parts}), None)
    if strange is not None:
        names = ", ".join(part.material.name for part in parts)
        raise ValueError(f"There is no {strange.material.name} in this mix; it is made of {names}.")
    whole = sum(part.parts for part in parts)
    scoop, scoop_l = _scoop(total_l * allowance.factor / whole, units)
    litres = apportioned(total_l, [part.parts for part in parts])
    loose = [_loose(each, allowance) for each in litres]
    scoops = max(_half_scoops(each / part.parts, scoop_l) for part, each in zip(parts, loose, strict=True))
    shares = tuple(
        _share(part, each, lying, scoops, bags)
        for part, each, lying in zip(parts, litres, loose, strict=True)
    )
    return Batch(round(total_l, 3), shares, allowance, scoop, scoop_l)


def _loose(litres: float, allowance: Allowance) -> float:
    """What is measured out for so much of the mix, in litres, up to a whole millilitre."""
    return math.ceil(round(litres * allowance.factor * 1000, 6)) / 1000


def _half_scoops(litres: float, scoop_l: float) -> float:
    return math.ceil(round(litres / scoop_l * 2, 3)) / 2


def _share(part: Part, litres: float, loose: float, of_a_part: float, bags: Sequence[Bag]) -> Share:
    sizes = [bag for bag in bags if bag.material == part.material]
    bought = fewest_left_over(loose, sizes) if sizes else ()
    held = sum(each.count * each.bag.litres for each in bought)
    return Share(
        part, litres, loose, of_a_part * part.parts, bought, round(held - loose, 3) if sizes else None
    )


def apportioned(total_l: float, parts: Sequence[int]) -> list[float]:
    """A volume shared out by parts, in whole millilitres that add up to it; what rounding leaves goes to
    those that it cut most."""
    whole, wanted = sum(parts), round(total_l * 1000)
    exact = [wanted * part / whole for part in parts]
    shares = [math.floor(each) for each in exact]
    by_loss = sorted(range(len(parts)), key=lambda n: shares[n] - exact[n])
    for n in by_loss[: wanted - sum(shares)]:
        shares[n] += 1
    return [each / 1000 for each in shares]


def _scoop(part_l: float, units: Units) -> tuple[str, float]:
    """The largest measure at hand that a part fills twice; the smallest where it fills none so."""
    fitting = [scoop for scoop in SCOOPS[units] if 2 * scoop[1] <= part_l]
    return fitting[-1] if fitting else SCOOPS[units][0]


def fewest_left_over(needed_l: float, sizes: Sequence[Bag]) -> tuple[Purchase, ...]:
    """Whole bags that hold what is needed with the least left over, and of those the fewest bags."""
    tries = _choices(needed_l, sorted(sizes, key=lambda bag: -bag.litres))
    best = min(tries, key=lambda counts: (_held(counts), sum(each.count for each in counts)))
    return tuple(each for each in best if each.count)


def _held(bought: Iterable[Purchase]) -> float:
    return round(sum(each.count * each.bag.litres for each in bought), 6)


def _choices(needed_l: float, sizes: Sequence[Bag]) -> Iterable[tuple[Purchase, ...]]:
    """All ways to buy enough in which the last size only fills up what the others leave."""
    bag, *others = sizes
    most = max(math.ceil(round(needed_l / bag.litres, 9)), 0)
    if not others:
        yield (Purchase(bag, most),)
        return
    for count in range(most + 1):
        for rest in _choices(needed_l - count * bag.litres, others):
            yield (Purchase(bag, count), *rest)


def parse_bags(text: str, parts: Sequence[Part], units: Units) -> tuple[Bag, ...]:
    """Read ``coir 9L, perlite 100L, bark 2cuft``; of coir also the weight of a pressed block, ``coir 650g``.

    A quart of dry goods is a sixth more than the liquid quart that is meant here, so bags sold by it are
    never too few.

    Raises:
        ValueError: it cannot be read, names what is not in the mix, or names too many sizes of one thing.
    """
    bags = tuple(_bag(each, parts, units) for each in _BETWEEN.split(text.strip()) if each)
    if not bags:
        raise ValueError(f"Write {BAG_FORM}.")
    for material in {bag.material for bag in bags}:
        if len({bag.litres for bag in bags if bag.material == material}) > SIZES_OF_ONE:
            raise ValueError(f"Name at most {SIZES_OF_ONE} sizes of {material.name}.")
    return tuple(dict.fromkeys(bags))


def _bag(text: str, parts: Sequence[Part], units: Units) -> Bag:
    size = _SIZE.search(text)
    if size is None:
        raise ValueError(f"'{text}' has no size; write {BAG_FORM}.")
    name = " ".join(_KIND_OF_BAG.sub(" ", f"{text[: size.start()]} {text[size.end() :]}").split())
    material = _material(name, parts)
    grams = GRAMS.get(size[2].casefold())
    if grams is None:
        litres, kg = parse_volume(f"{size[1]}{size[2]}", units), None
    elif material.name == "coir":
        kg = float(size[1].replace(",", ".")) * grams / 1000
        litres = kg * COIR_L_PER_KG
    else:
        raise ValueError(
            f"'{text}' is a weight; only a block of coir goes by weight, {material.name} by volume."
        )
    if not LEAST_L <= litres <= MOST_L:
        raise ValueError(f"No bag is as large or as small as '{text}'.")
    return Bag(material, round(litres, 3), kg)


def _material(name: str, parts: Sequence[Part]) -> Material:
    """The ingredient of a mix that goes by a name, one it is known by or its own."""
    wanted = name.casefold()
    found = [part.material for part in parts if wanted in (part.material.name, *part.material.called)]
    if found:
        return found[0]
    names = ", ".join(part.material.name for part in parts)
    if any(wanted in (material.name, *material.called) for material in MATERIALS):
        raise ValueError(f"There is no {wanted} in this mix; it is made of {names}.")
    raise ValueError(f"'{name}' is no ingredient this program knows; this mix is made of {names}.")
