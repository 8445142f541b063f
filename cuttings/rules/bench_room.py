"""How much room stems take on the bench: while they make roots, and in their pots."""

from cuttings.rules.pots import Pot
from cuttings.words import Method

APART_M = {
    Method.SOFTWOOD_CUTTING: (0.05, 0.05),
    Method.SEMI_RIPE_CUTTING: (0.05, 0.05),
    Method.BASAL_CUTTING: (0.05, 0.05),
    Method.LEAF_CUTTING: (0.07, 0.07),
    Method.ROOT_CUTTING: (0.05, 0.05),
    Method.HARDWOOD_CUTTING: (0.1, 0.15),
}
"""How far apart cuttings are set, along and across, in metres; from memory. Hardwood stands wider, in a
trench or a deep box, since it stays there until it is a plant."""

USUAL_POT_M = 0.11
"""The width taken for a pot whose own is not known, in metres; from memory."""


def rooting_room_m2(method: Method, stems: int) -> float:
    """The room that so many stems take while they make roots, in square metres; none on a bench for layers,
    which stay with their mother, and for pieces that have roots."""
    along, across = APART_M.get(method, (0.0, 0.0))
    return stems * along * across


def pot_room_m2(pot: Pot, pots: int) -> float:
    """The room that so many pots take, rim to rim in rows, in square metres."""
    return pots * (pot.diameter_m or USUAL_POT_M) ** 2
