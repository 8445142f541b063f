"""Potting a rooted stem: when, into which pot and mix, and how deep."""

from collections.abc import Sequence
from datetime import date, timedelta

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant, Range
from cuttings.rules.advice import Advice
from cuttings.rules.growth import growing_days_after
from cuttings.rules.layering import sever_window
from cuttings.rules.pots import ALIKE, Pot, parse_pot
from cuttings.rules.seasons import frosts
from cuttings.units import show_length
from cuttings.words import Drainage, Method, PlantType, Units

ROOTS_BEFORE_POTTING_M = 0.0254
ROOTS_SOURCE = (
    "University of Minnesota Extension (via Echo Press): Take cuttings from your favorite annuals, 2016"
)
"""Pot when the roots are at least an inch long,
http://www.echopress.com/country/extension/4109229-extension-column-now-time-take-cuttings-your-favorite-annuals"""

CLEARANCE_M = 0.025
"""Fresh mix to leave all round the root ball; common practice is 2 to 3 cm, an inch."""

LADDER = {
    Units.US: ("3in", "4in", "5in", "6in", "#1", "#2", "#3", "#5", "#7", "#10"),
    Units.METRIC: ("7cm", "9cm", "11cm", "13cm", "17cm", "21cm", "26cm", "30cm", "35cm"),
}
"""The pots one steps up through, smallest first; common practice."""

USUAL_SPREAD_M = {
    Method.CROWN_DIVISION: 0.11,
    Method.RHIZOME_DIVISION: 0.10,
    Method.TUBER_DIVISION: 0.10,
    Method.OFFSET: 0.06,
    Method.BULB_OFFSET: 0.05,
    Method.SIMPLE_LAYER: 0.09,
    Method.SERPENTINE_LAYER: 0.08,
    Method.MOUND_LAYER: 0.09,
    Method.TIP_LAYER: 0.09,
    Method.AIR_LAYER: 0.10,
    Method.HARDWOOD_CUTTING: 0.08,
}
USUAL_SPREAD_OTHERWISE_M = 0.04
"""Root spread taken where nobody measured it, in metres; from memory."""

ACID_GENERA = frozenset(
    {"Calluna", "Camellia", "Erica", "Gaultheria", "Kalmia", "Leucothoe", "Pieris"}
    | {"Rhododendron", "Vaccinium"}
)
"""Genera that want a mix without lime; common practice."""

ACID_BELOW_PH = 6.0
"""A plant whose best soil stays below this is potted in acid mix; from memory."""


def ready_to_pot(root_length_m: float | None, method: Method, units: Units = Units.US) -> Advice[bool]:
    """Whether a rooted stem has root enough to be potted; ``root_length_m`` is its longest root."""
    if method.starts_rooted:
        return Advice(True, "It came with roots of its own; pot it before they dry.", COMMON_PRACTICE)
    enough = show_length(ROOTS_BEFORE_POTTING_M, units)
    if root_length_m is None:
        why = f"Look at the roots first: they should be at least {enough} long before the move."
        return Advice(False, why, ROOTS_SOURCE, "The roots were not measured.")
    found = show_length(root_length_m, units)
    if root_length_m >= ROOTS_BEFORE_POTTING_M * 0.99:
        return Advice(True, f"Roots of {found} are long enough; {enough} is the least.", ROOTS_SOURCE)
    return Advice(False, f"Roots of {found} break in the move; wait until they reach {enough}.", ROOTS_SOURCE)


def recommend_pot(
    root_spread_m: float | None,
    method: Method,
    plant: Plant,
    units: Units = Units.US,
    own: Sequence[Pot] | None = None,
) -> Advice[Pot]:
    """The smallest pot that leaves a finger of fresh mix all round the roots.

    Args:
        root_spread_m: width of the root ball across, in metres, or ``None`` where nobody measured it.
        plant: a bulb is given the pot of its offset whatever way it was made.
        units: which pots to choose from: US trade pots and inches, or centimetres.
        own: the pots that are free in the keeper's drawer, to choose from first; ``None`` without a drawer.
    """
    measured = root_spread_m is not None
    made = Method.BULB_OFFSET if plant.type is PlantType.BULB else method
    spread = (
        root_spread_m if root_spread_m is not None else USUAL_SPREAD_M.get(made, USUAL_SPREAD_OTHERWISE_M)
    )
    width_m = spread + 2 * CLEARANCE_M
    pot = _smallest_holding(width_m, units)
    roots = f"roots {show_length(spread, units)} across"
    why = (
        f"For {roots} it leaves about {show_length(CLEARANCE_M, units)} of fresh mix all round. "
        "A pot much larger stays wet and sour; move up one size at a time."
    )
    sure = "" if measured else f"Nobody measured the roots; {roots} are usual for a {made.spoken}."
    if own is None:
        return Advice(pot, why, COMMON_PRACTICE, sure)
    right = [each for each in own if _suits(each, width_m, pot)]
    if right:
        pot = min(right, key=lambda each: each.volume_l)
        return Advice(pot, f"The smallest of yours that is free and will do. {why}", COMMON_PRACTICE, sure)
    return Advice(pot, why, COMMON_PRACTICE, f"None of your own that would do is free. {sure}".strip())


MUCH_LARGER = 3.0
"""A pot that takes so many times the mix of the one advised is too large a step; from memory."""


def _suits(pot: Pot, width_m: float, usual: Pot) -> bool:
    """Whether a pot is as wide as the roots want, or takes about the usual mix where its width is not known,
    and is not much larger than the usual one."""
    if pot.volume_l > MUCH_LARGER * usual.volume_l:
        return False
    if pot.diameter_m is None:
        return pot.volume_l >= usual.volume_l * (1 - ALIKE)
    return pot.diameter_m >= width_m


def _smallest_holding(width_m: float, units: Units) -> Pot:
    ladder = [parse_pot(name, units) for name in LADDER[units]]
    return next((pot for pot in ladder if (pot.diameter_m or 0.0) >= width_m), ladder[-1])


POT_ON_SOURCE = "Laidback Gardener: Repot into only a slightly bigger pot, 2016"
"""One or two sizes at a time; in a much larger pot the roots cannot dry the mix, and rot,
https://laidbackgardener.blog/2016/02/02/repot-into-only-a-slightly-bigger-pot/"""

FILLS_POT_DAYS = 56
"""Growing days in which the roots of a young plant fill the new mix of a pot; from memory."""

ONE_SIZE = 1.15
"""How much more mix the next size of pot holds at the least; from memory."""


def ready_to_pot_on(filled: bool, on: date, climate: Climate, hardy: bool) -> Advice[bool]:
    """Whether a plant in a pot should move into a larger one.

    Args:
        filled: whether its roots hold the ball together, or show at the holes.
    """
    if not filled:
        why = "Leave it until the roots hold the ball together: a larger pot stays wet and rots them."
        return Advice(False, why, POT_ON_SOURCE)
    filled_by = growing_days_after(climate, on, FILLS_POT_DAYS)
    if hardy and filled_by > on + timedelta(days=FILLS_POT_DAYS + 7):  # winter lies between
        why = (
            "Leave it until growth begins in spring: now the new mix would stay cold and wet, without roots."
        )
        return Advice(False, frosts(climate, on.year).said(why), FROM_MEMORY)
    return Advice(True, "The roots fill the pot and there is time to fill the next.", POT_ON_SOURCE)


def next_pot(pot: Pot, units: Units = Units.US) -> Advice[Pot]:
    """One size up from the pot it stands in; the largest where there is no larger one."""
    ladder = [parse_pot(name, units) for name in LADDER[units]]
    larger = (each for each in ladder if each.volume_l >= pot.volume_l * ONE_SIZE)
    why = f"One size up from {pot.name}: in a much larger pot the roots cannot dry the mix, and rot."
    return Advice(next(larger, ladder[-1]), why, POT_ON_SOURCE)


def season_to_pot(method: Method, started: date | None, on: date, climate: Climate, *, warm: bool) -> str:
    """Why a day is a poor one to pot a rooted stem, in a sentence; empty where it is none.

    Args:
        started: the day a layer was pegged; ``None`` where nobody knows it.
        warm: whether it stands indoors or over heat, where winter is no matter.
    """
    if method.is_layer and started is not None:
        sever = sever_window(method, started, climate)
        if on < sever.opens:
            return (
                f"It is early to cut it from its mother; better from {spoken(sever.opens, on)}. {sever.why}"
            )
    growth = growing_days_after(climate, on, 0)
    if method.is_cutting and growth != on and not warm:
        return (
            f"It makes no roots now: if it can stay, pot it when growth begins, about {spoken(growth, on)}."
        )
    return ""


def recommend_mix(plant: Plant, *, striking: bool = False) -> Advice[str]:
    """The mix to use, by the name of its recipe: ``striking``, ``potting``, ``gritty`` or ``acid``."""
    if striking:
        return Advice("striking", "Open and poor, so that air reaches the cut end.", COMMON_PRACTICE)
    if plant.mix:
        return Advice(plant.mix, f"The mix on record for {plant.name}.", plant.source_of("mix"))
    if plant.genus in ACID_GENERA or (plant.ph is not None and plant.ph[1] < ACID_BELOW_PH):
        return Advice("acid", f"{plant.name} yellows where there is lime.", COMMON_PRACTICE)
    if plant.drainage and all(each is Drainage.SHARP for each in plant.drainage):
        return Advice("gritty", f"{plant.name} rots where water stands.", COMMON_PRACTICE)
    return Advice("potting", "Nothing more special is known to be needed.", COMMON_PRACTICE)


AS_IT_STANDS: Advice[float | None] = Advice(
    None, "As deep as it stands in its pot now: bark that is buried rots.", COMMON_PRACTICE
)
"""How deep a plant is set that is potted on."""


def recommend_depth(plant: Plant, method: Method, pot: Pot | None = None) -> Advice[float | None]:
    """How deep to set it, in metres, where the plant's record has a figure: of a bulb as planting charts have
    it, of a crown or eye the soil over it. The middle of the range is advised, but no deeper than leaves half
    the pot's mix below.

    ``None`` with a sentence where the rule is to go by the plant, and where it may stand level with the soil.
    """
    depth, source = _depth_on_record(plant, method)
    if depth is not None and depth[0] > 0:
        usual = sum(depth) / 2
        room = pot.mix_depth_m / 2 if pot is not None and pot.mix_depth_m is not None else usual
        if room < usual:
            why = "Charts set it deeper in the ground; in this pot half the mix must stay below for roots."
            return Advice(room, why, COMMON_PRACTICE)
        return Advice(usual, _sentence(_depth_words(plant, method)), source)
    if plant.potting_depth:
        return Advice(None, _sentence(plant.potting_depth), plant.source_of("potting_depth"))
    if plant.type is PlantType.BULB:
        return Advice(None, "Two to three times as deep as the bulb is tall.", COMMON_PRACTICE)
    if method.is_cutting or method.is_layer:
        return Advice(None, "Just cover the topmost roots; keep leaves and buds clear.", COMMON_PRACTICE)
    return Advice(None, "As deep as it stood before; the old soil line shows on the stem.", COMMON_PRACTICE)


def _depth_words(plant: Plant, method: Method) -> str:
    """The words that go with the figure of a record."""
    if plant.potting_depth and "potting_depth" not in plant.levels:
        return plant.potting_depth
    if method.starts_rooted and plant.division is not None and plant.division.replant:
        return plant.division.replant
    return plant.planting_depth or "as charts of planting give it"


def _depth_on_record(plant: Plant, method: Method) -> tuple[Range | None, str]:
    """The depth of a division, or of the plant itself if it is a bulb or was divided, and its source."""
    division = plant.division
    if method.starts_rooted and division is not None and division.replant_depth_m is not None:
        return division.replant_depth_m, division.source_of("replant_depth_m")
    if plant.type is PlantType.BULB or method.starts_rooted:
        return plant.planting_depth_m, plant.source_of("planting_depth_m")
    return None, ""


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}."
