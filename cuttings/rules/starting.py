"""How to begin: what a good cutting, layer or division is, said before it is made, and what it is given.

The plant's own record speaks first, and the general figures of its method where it is silent.
"""

import re

from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant, Range, Way
from cuttings.rules.advice import Advice
from cuttings.rules.division import RESENTS
from cuttings.units import about_span, in_units, show_temperature
from cuttings.words import Cover, Method, Units, Wood

NEBRASKA = (
    "University of Nebraska-Lincoln Backyard Farmer: Propagation With Softwood, Semi-hardwood and Hardwood "
    "Cuttings"
)
"""About half of a softwood cutting stays above the medium, http://byf.unl.edu/Cuttings1"""

NCSU_LEAVES = "NC State Extension: Plant Propagation by Leaf, Cane, and Root Cuttings"
"""The stalk of a leaf goes into the medium, up to an inch and a half of it,
https://content.ces.ncsu.edu/publication/plant-propagation-by-leaf-cane-and-root-cuttings-instructions-for-the-home-gardener"""

SET = {
    Wood.SOFTWOOD: (
        "Set a third to half of it into the medium, no leaf touching: buried leaves rot.",
        NEBRASKA,
    ),
    Wood.SEMI_RIPE: (
        "Set a third to half of it into the medium, no leaf touching: buried leaves rot.",
        COMMON_PRACTICE,
    ),
    Wood.HARDWOOD: (
        "Set it right way up, so deep that only the top bud or two stand out: the rest cannot dry.",
        COMMON_PRACTICE,
    ),
    Wood.BASAL: ("Set its firm base 2 to 3 cm deep; soft stem would rot.", FROM_MEMORY),
    Wood.ROOT: (
        "Cover it 1 cm; one that stands has the end that was nearest the crown uppermost.",
        COMMON_PRACTICE,
    ),
    Wood.LEAF: (
        "Set the end of its stalk 2 to 3 cm deep, so that the blade just clears the medium.",
        NCSU_LEAVES,
    ),
}
"""How deep each kind of cutting is set, with the source."""

COVERS = re.compile(r"none|bag|dome|closed case|frame|tunnel|mist")
COVER_OF = {
    "none": Cover.NONE,
    "mist": Cover.MIST,
    "frame": Cover.FRAME,
    "tunnel": Cover.FRAME,
    "bag": Cover.BAG,
    "dome": Cover.BAG,
    "closed case": Cover.BAG,
}
"""The words for a cover in plant records; the first of them in a record is the one advised."""

MOIST_AIR = "Leaves without roots dry out; closed air keeps them alive."


def how_to_strike(way: Way, wood: Wood, units: Units, *, evergreen: bool) -> tuple[Advice[str], ...]:
    """How long to cut it and what to do with it; and how deep to set it.

    Args:
        evergreen: such a plant's hardwood keeps its leaves, and is set as ripening wood is.
    """
    cut = _sentences(_length(way.length_m, units), in_units(way.prepare, units))
    deep, source = SET[Wood.SEMI_RIPE if evergreen and wood is Wood.HARDWOOD else wood]
    made = (Advice(cut, "", way.source_of("prepare")),) if cut else ()
    return (*made, Advice(in_units(deep, units), "", source))


def _length(length_m: Range | None, units: Units) -> str:
    return f"Cut it {about_span(*length_m, units)} long." if length_m is not None else ""


def how_to_layer(way: Way, units: Units) -> tuple[Advice[str], ...]:
    """Which stem to take, what to do where it is to root; and what keeps that place moist.

    Raises:
        ValueError: the way is no layer.
    """
    if not way.method.is_layer:
        raise ValueError(f"A {way.method.spoken} is not layered.")
    which = f"The stem: {way.kind}" if way.kind and not way.prepare.startswith("Choose") else ""
    made = _sentences(which, in_units(way.prepare, units))
    into = "Pack it in" if way.method is Method.AIR_LAYER else "It roots in"
    over = "" if way.cover.startswith("none") and ";" not in way.cover else way.cover.removeprefix("none; ")
    kept = _sentences(f"{into} {in_units(way.medium, units)}" if way.medium else "", over, _water(way.method))
    return tuple(
        Advice(text, "", way.source_of(name)) for text, name in ((made, "prepare"), (kept, "medium")) if text
    )


def _water(method: Method) -> str:
    if method is Method.AIR_LAYER:
        return "Look into the wrap every few weeks and wet the moss before it dries."
    return "Water it in, and do not let it dry out all summer: a layer that dries makes no roots."


def how_to_divide(plant: Plant, way: Way, units: Units) -> tuple[Advice[str], ...]:
    """What a good piece is, whether the plant bears it, and how it is set again."""
    division = plant.division
    if division is None:
        return (Advice(_sentences(in_units(way.prepare, units)), "", way.source_of("prepare")),)
    piece = f"Each piece: {in_units(division.pieces, units)}" if division.pieces else ""
    again = f"Replant: {in_units(division.replant, units)}" if division.replant else ""
    told = ((piece, "pieces"), (RESENTS if division.resents else "", "resents"), (again, "replant"))
    return tuple(Advice(_sentences(text), "", division.source_of(name)) for text, name in told if text)


def recommend_dip(way: Way) -> Advice[int | None]:
    """The strength of rooting hormone to use, in parts per million of IBA; ``None`` for none.

    The weak end of the published range: more than the wood needs burns it.
    """
    if way.iba_ppm is None:
        return Advice(None, "Nobody has published a strength for it; most roots come without.", FROM_MEMORY)
    low, high = way.iba_ppm
    source = way.source_of("iba_ppm")
    if high == 0:
        return Advice(None, "This wood roots without hormone.", source)
    if low == 0:
        return Advice(None, f"It roots without; up to {high} ppm may bring more roots, sooner.", source)
    span = f"{low} to {high} ppm" if low != high else f"{low} ppm"
    why = f"Growers use {span} on this wood, and too much burns it; the product's own label comes first."
    return Advice(low, why, source)


def recommend_cover(way: Way, wood: Wood) -> Advice[Cover]:
    """What keeps the air moist round the cuttings: the first cover the record names."""
    named = COVERS.search(way.cover)
    if named is None:
        if wood.is_leafy:
            return Advice(Cover.BAG, MOIST_AIR, COMMON_PRACTICE)
        return Advice(Cover.NONE, "Without leaves it loses little water.", COMMON_PRACTICE)
    cover = COVER_OF[named[0]]
    why = _sentences(way.cover)
    if cover is not Cover.NONE and wood.is_leafy:
        why = f"{why} {MOIST_AIR}"
    return Advice(cover, why, way.source_of("cover"))


def recommend_heat(way: Way, units: Units) -> Advice[Range | None]:
    """How warm the medium should be for roots, in degrees Celsius, where the record tells."""
    if way.reference_temp_c is None:
        return Advice(None, "It needs no heat from below.", way.source)
    low, high = (show_temperature(degrees, units) for degrees in way.reference_temp_c)
    why = f"Roots come soonest with the medium at {low} to {high}; leave it empty if nothing heats it."
    return Advice(way.reference_temp_c, why, way.source_of("reference_temp_c"))


def _sentences(*parts: str) -> str:
    """Parts of a record as sentences, one after the other."""
    told = (part.strip().rstrip(".") for part in parts)
    return " ".join(f"{part[:1].upper()}{part[1:]}." for part in told if part)
