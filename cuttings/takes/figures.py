"""The published and general shares that stems come through at, from which the ledger's own results start."""

from cuttings.plants.model import FROM_MEMORY, Way
from cuttings.takes.shares import GENERAL_STEMS, Figure
from cuttings.words import Method

CUTTINGS_ROOT = {"easy": 0.8, "moderate": 0.6, "hard": 0.35}
LAYERS_ROOT = {"easy": 0.9, "moderate": 0.8, "hard": 0.6}
SEEDLINGS_ROOT, ROOTED_ALREADY = 0.9, 0.97
"""The share of stems that root, by how easy the way is held to be, where no figure is published for the
plant; from memory."""

USUALLY = "moderate"
"""How easy a way is taken to be where nobody has said."""

SURVIVES_POTTING = Figure(0.9, GENERAL_STEMS, FROM_MEMORY)
"""Of rooted stems that are potted, how many live on; from memory."""

LIVES_TILL_PLANTED = Figure(0.95, GENERAL_STEMS, FROM_MEMORY)
"""Of stems that have settled in their pots, how many are alive when they are planted; from memory."""

LIVES_A_YEAR = Figure(0.85, GENERAL_STEMS, FROM_MEMORY)
"""Of planted stems, how many are alive a year later; from memory."""


def rooting_figure(way: Way) -> Figure:
    """The share of stems that root by a way: as published for the plant, or the usual. Divisions and offsets
    come with roots of their own."""
    if way.take is not None:
        return Figure.of_range(*way.take, way.source_of("take"))
    return Figure(_usually(way), GENERAL_STEMS, FROM_MEMORY)


def _usually(way: Way) -> float:
    if way.method.starts_rooted:
        return ROOTED_ALREADY
    if way.method is Method.SEEDLING:
        return SEEDLINGS_ROOT
    return (LAYERS_ROOT if way.method.is_layer else CUTTINGS_ROOT)[way.difficulty or USUALLY]
