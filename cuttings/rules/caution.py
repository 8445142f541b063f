"""What can hurt a person, an animal, other ground or the law, said where it matters.

The sentences are the usual cautions and no more: the product's label, local rules and people licensed
for the work come first.
"""

from collections.abc import Sequence
from enum import StrEnum
from functools import lru_cache

from cuttings.plants.model import COMMON_PRACTICE, Caution, Plant


class Task(StrEnum):
    """What is about to be done."""

    FIND = "find"
    STRIKE = "strike"
    LAYER = "layer"
    DIVIDE = "divide"
    CHECK = "check"
    POT = "pot"
    PLANT = "plant"
    MARK = "mark"
    GIVE = "give"
    FEED = "feed"


ALL_TASKS = frozenset(Task)
TOUCHING = frozenset({Task.FIND, Task.STRIKE, Task.LAYER, Task.DIVIDE, Task.POT, Task.PLANT, Task.GIVE})
INCREASING = frozenset({Task.FIND, Task.STRIKE, Task.LAYER, Task.DIVIDE, Task.PLANT, Task.GIVE})

HURTS = frozenset(
    {"poison", "poisonous", "toxic", "irritant", "sap", "allergy", "skin", "thorns", "spines", "unknown"}
)
"""Kinds of caution about harm to the one who handles the plant; others are of law, pests and spread."""

TASKS_BY_KIND = {
    "poison": TOUCHING,
    "poisonous": TOUCHING,
    "toxic": TOUCHING,
    "irritant": TOUCHING,
    "sap": TOUCHING,
    "allergy": TOUCHING,
    "skin": TOUCHING,
    "thorns": TOUCHING,
    "spines": TOUCHING,
    "invasive": INCREASING,
    "spread": INCREASING,
    "law": INCREASING,
    "legal": INCREASING,
    "patent": INCREASING,
    "protected": INCREASING,
    "disease": INCREASING,
    "pest": INCREASING,
}
"""When a plant's own caution matters; a kind not named here is shown for every task, to be safe."""

HORMONE = Caution(
    "dust",
    "Rooting powder: wear gloves, do not breathe the dust or get it in your eyes, and tip out only what you "
    "need; never put leftovers back. What the label says goes first.",
    "Missouri Botanical Garden: Rooting hormone; "
    "Middle Atlantic Chapter, American Rhododendron Society: Propagation by cuttings",
)

HORMONE_SOLUTION = Caution(
    "solution",
    "Rooting solution: wear gloves, keep it out of your eyes, do not breathe or drink it, and do not eat "
    "while you work. Stocks made with alcohol burn: no flame near, and fresh air. What the label says goes "
    "first.",
    "Australian National Botanic Gardens: Safe use of plant growth hormones",
)

HORMONE_VESSELS = Caution(
    "vessels",
    "Measure and mix in things that never touch food, write on the bottle what it is, how strong and since "
    "when, and keep it locked away from children, animals and food.",
    "Australian National Botanic Gardens: Safe use of plant growth hormones; common practice",
)

POTTING_MIX = Caution(
    "dust",
    "Potting mix can carry Legionella: open the bag away from your face, wet the mix so it makes no dust, "
    "wear gloves, and wash your hands before you eat or smoke. Follow the warning on the bag.",
    "Workplace Health and Safety Queensland: Legionella risks from potting mix and compost; "
    "SA Health: Legionella longbeachae infection",
)

BURIED_LINES = Caution(
    "digging",
    "Before digging deep, ask your local utility-locating service to mark buried pipes and cables; some lie "
    "only inches down.",
    "Arbor Day Foundation: Before Planting a Tree, Call 811; "
    "Country Lines: I Am Only Planting A Bush, Do I Really Need To Call 811 First?",
)

TREE_WORK = Caution(
    "felling",
    "Felling or lopping a tree is work for a licensed arborist, and many places protect trees or ask for a "
    "permit first.",
    COMMON_PRACTICE,
)

HEAVY_CLUMPS = Caution(
    "lifting",
    "A clump with its soil is heavier than it looks: split it in the hole or slide it on a sheet, and bend "
    "your knees.",
    COMMON_PRACTICE,
)

UNKNOWN = Caution(
    "unknown",
    "Nobody has entered this plant: take it for poisonous, wear gloves, and check local rules before you "
    "keep, share or move it.",
    COMMON_PRACTICE,
)

SHARP_BLADES = Caution("blade", "Cut away from your hand, with a clean sharp blade.", COMMON_PRACTICE)

SOIL_PESTS = Caution(
    "pest",
    "Soil can carry worms and weeds to another garden: wash it off the roots first, and give away nothing "
    "that local rules forbid.",
    "University of Illinois Extension: Stop the spread of jumping worms, 2021",
)

FERTILISER = Caution(
    "dust",
    "What the label says goes first. Wear gloves, keep the dust out of your eyes and lungs, and store "
    "fertiliser dry, away from children and animals.",
    COMMON_PRACTICE,
)

FEED_IN_WATER = Caution(
    "water",
    "Mix feed away from wells, ponds and drains, leave no hose in it, and have a backflow preventer before "
    "an injector; local rules go first.",
    "UMass Extension Greenhouse Crops and Floriculture Program: Protecting Groundwater from Contamination",
)

GENERAL: tuple[tuple[Caution, frozenset[Task]], ...] = (
    (HORMONE, frozenset({Task.STRIKE})),
    (POTTING_MIX, frozenset({Task.STRIKE, Task.POT})),
    (BURIED_LINES, frozenset({Task.DIVIDE, Task.PLANT})),
    (HEAVY_CLUMPS, frozenset({Task.DIVIDE})),
    (SHARP_BLADES, frozenset({Task.STRIKE, Task.LAYER})),
    (SOIL_PESTS, frozenset({Task.GIVE})),
    (FERTILISER, frozenset({Task.FEED})),
    (FEED_IN_WATER, frozenset({Task.FEED})),
)


def cautions(plant: Plant, task: Task) -> tuple[Caution, ...]:
    """The plant's own cautions that matter for a task, then the general ones."""
    return (*own_cautions(plant, task), *general_cautions(task))


def own_cautions(plant: Plant, task: Task) -> tuple[Caution, ...]:
    """The cautions on the plant's own record that matter for a task, and one for a plant nobody knows."""
    unknown = (UNKNOWN,) if plant.rank == "type" else ()
    return (*_matter(plant.cautions, task), *unknown)


def general_cautions(task: Task) -> tuple[Caution, ...]:
    """The cautions that hold for a task whatever the plant."""
    return tuple(caution for caution, tasks in GENERAL if task in tasks)


@lru_cache(maxsize=1024)
def handling(plant: Plant, called: str, task: Task) -> tuple[str, ...]:
    """What can hurt the one who does a task: the plant's own dangers by the name it is called, then the
    general ones. Those of law, pests and spread are said where a plant is started and given away."""
    own = (each for each in own_cautions(plant, task) if each.kind in HURTS and each.harms != "animals")
    named = (f"{called[:1].upper()}{called[1:]}: {each.text}" for each in own)
    return (*named, *(each.text for each in general_cautions(task)))


def _matter(all_cautions: Sequence[Caution], task: Task) -> tuple[Caution, ...]:
    return tuple(each for each in all_cautions if task in TASKS_BY_KIND.get(each.kind, ALL_TASKS))
