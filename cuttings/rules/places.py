"""The keeper's own words for a place, and what shelter they tell of.

Only a few words are read, and what was read is said wherever it decides anything, so that it can be put
right. Words that are not known tell of nothing, and the stems are taken to stand in the open.
"""

from enum import StrEnum
from functools import lru_cache


class Place(StrEnum):
    """What the words for a place tell of."""

    OPEN = "open"
    SUNK = "sunk"
    FRAME = "frame"
    INDOORS = "indoors"


INDOOR_WORDS = frozenset(
    {"indoors", "windowsill", "windowsills", "sill", "cellar", "basement", "conservatory"}
)
FRAME_WORDS = frozenset({"frame", "frames", "greenhouse", "glasshouse", "polytunnel", "cloche", "cloches"})
SUNK_WORDS = frozenset({"sunk", "plunged"})
OUT_OF_IT = frozenset(
    {"outside", "by", "beside", "near", "behind", "against", "below", "under", "next", "door", "no", "not"}
)
"""Words in the keeper's own name of a place from which its shelter is read, and those that make it none at
all."""


@lru_cache(maxsize=1024)
def place_of(where: str) -> Place:
    """What the keeper's words for a place tell of; the open where they tell of nothing."""
    words = set("".join(c if c.isalpha() else " " for c in where.casefold()).split())
    if words & OUT_OF_IT:
        return Place.OPEN
    if words & INDOOR_WORDS:
        return Place.INDOORS
    if words & SUNK_WORDS:
        return Place.SUNK
    return Place.FRAME if words & FRAME_WORDS else Place.OPEN
