"""The words the whole program shares: stages, methods, woods, light and the like.

Trade terms keep their trade meaning. This module depends on nothing, so every part may import it.
"""

from collections.abc import Iterable, Sequence
from enum import StrEnum


def either(words: Iterable[str]) -> str:
    """Words as one offers them: ``a``, ``a or b``, ``a, b or c``."""
    *before, last = words
    return f"{', '.join(before)} or {last}" if before else last


def listed(names: Sequence[str], most: int | None = None) -> str:
    """Names as a sentence has them, each once: ``a, b and c``; those beyond ``most`` are only counted."""
    names = list(dict.fromkeys(names))
    if most is not None and len(names) > most + 1:
        names = [*names[:most], f"{len(names) - most} more"]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def plants_said(plants: float) -> str:
    """A number of plants expected to be lost: ``about 0.4 of a plant``; empty where there are none."""
    if plants <= 0:
        return ""
    if plants < 0.1:
        return "less than 0.1 of a plant"
    if plants < 0.95:
        return f"about {plants:.1f} of a plant"
    said = f"{plants:.1f}".removesuffix(".0") if plants < 9.95 else f"{plants:.0f}"
    return f"about {said} {'plant' if said == '1' else 'plants'}"


def time_said(minutes: int) -> str:
    """Minutes as one says them: ``45 min``, and beyond two hours ``2 h 40 min``."""
    hours, rest = divmod(minutes, 60)
    if minutes <= 120:
        return f"{minutes} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


class Stage(StrEnum):
    """Where a stem stands, in the order it passes through."""

    WAITING = "waiting"
    ROOTED = "rooted"
    POTTED = "potted"
    HARDENING = "hardening"
    READY = "ready"
    PLANTED = "planted"
    GIVEN = "given"
    SOLD = "sold"
    LOST = "lost"


LIVING = (Stage.WAITING, Stage.ROOTED, Stage.POTTED, Stage.HARDENING, Stage.READY)
"""Stages of stems that still need the keeper's care before they leave the ledger."""

PLANTABLE = (Stage.READY, Stage.HARDENING, Stage.POTTED, Stage.ROOTED)
"""Stages a stem may be planted from, the furthest on first."""


class Method(StrEnum):
    """How a lot was started."""

    SIMPLE_LAYER = "simple-layer"
    TIP_LAYER = "tip-layer"
    MOUND_LAYER = "mound-layer"
    SERPENTINE_LAYER = "serpentine-layer"
    AIR_LAYER = "air-layer"
    CROWN_DIVISION = "crown-division"
    RHIZOME_DIVISION = "rhizome-division"
    TUBER_DIVISION = "tuber-division"
    OFFSET = "offset"
    BULB_OFFSET = "bulb-offset"
    SOFTWOOD_CUTTING = "softwood-cutting"
    SEMI_RIPE_CUTTING = "semi-ripe-cutting"
    HARDWOOD_CUTTING = "hardwood-cutting"
    BASAL_CUTTING = "basal-cutting"
    ROOT_CUTTING = "root-cutting"
    LEAF_CUTTING = "leaf-cutting"
    SEEDLING = "seedling"

    @property
    def spoken(self) -> str:
        """The method as one says it: ``simple layer``, ``semi-ripe cutting``."""
        return "semi-ripe cutting" if self is Method.SEMI_RIPE_CUTTING else self.value.replace("-", " ")

    @property
    def is_layer(self) -> bool:
        return self.value.endswith("-layer")

    @property
    def is_cutting(self) -> bool:
        return self.value.endswith("-cutting")

    @property
    def starts_rooted(self) -> bool:
        """Divisions and offsets come with roots of their own (common practice)."""
        return self.value.endswith("-division") or self in (Method.OFFSET, Method.BULB_OFFSET)


class Wood(StrEnum):
    """The material of a cutting."""

    SOFTWOOD = "softwood"
    SEMI_RIPE = "semi-ripe"
    HARDWOOD = "hardwood"
    BASAL = "basal"
    ROOT = "root"
    LEAF = "leaf"

    @property
    def method(self) -> Method:
        return Method(f"{self.value}-cutting")

    @property
    def is_leafy(self) -> bool:
        """Whether it loses water through leaves before it has roots."""
        return self not in (Wood.HARDWOOD, Wood.ROOT)


class LayerHow(StrEnum):
    """How a stem is layered."""

    SIMPLE = "simple"
    TIP = "tip"
    MOUND = "mound"
    SERPENTINE = "serpentine"
    AIR = "air"

    @property
    def method(self) -> Method:
        return Method(f"{self.value}-layer")


class Purpose(StrEnum):
    """What a mark in the ground is to be come back for."""

    LIFT = "lift"
    DIVIDE = "divide"
    LAYER = "layer"
    TAKE_HARDWOOD = "take-hardwood"
    MOVE = "move"
    WATCH = "watch"


class Sign(StrEnum):
    """Something seen in the garden that tells how far on the spring is."""

    LAST_SNOW = "last-snow"
    SOIL_WORKABLE = "soil-workable"
    FIRST_BLOOM = "first-bloom"

    @property
    def spoken(self) -> str:
        """The sign as one says it."""
        return {
            Sign.LAST_SNOW: "the last snow gone",
            Sign.SOIL_WORKABLE: "the soil workable",
            Sign.FIRST_BLOOM: "the first bloom",
        }[self]


class Cause(StrEnum):
    """Why stems were lost."""

    ROT = "rot"
    DRIED = "dried"
    FROST = "frost"
    EATEN = "eaten"
    WEAK = "weak"
    UNKNOWN = "unknown"


class DipForm(StrEnum):
    """The form of a rooting hormone."""

    POWDER = "powder"
    LIQUID = "liquid"


class Cover(StrEnum):
    """What keeps the air moist round the cuttings."""

    NONE = "none"
    BAG = "bag"
    FRAME = "frame"
    MIST = "mist"


class Light(StrEnum):
    """Light classes, sunniest first; the hours behind them are in ``cuttings.placement.light``."""

    FULL_SUN = "full-sun"
    PART_SUN = "part-sun"
    PART_SHADE = "part-shade"
    SHADE = "shade"


class Moisture(StrEnum):
    """How wet the ground is through a normal summer, driest first."""

    DRY = "dry"
    MEDIUM = "medium"
    MOIST = "moist"
    WET = "wet"


class Drainage(StrEnum):
    """How fast water leaves the ground, fastest first."""

    SHARP = "sharp"
    GOOD = "good"
    SLOW = "slow"


class PathSide(StrEnum):
    """The side of a site along which a path runs, as seen from its viewing side."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"
    NONE = "none"


class SeenFrom(StrEnum):
    """From where a site is looked at: its front alone, its front and its back, or all round."""

    FRONT = "front"
    BOTH = "both"
    AROUND = "around"


class Side(StrEnum):
    """The side of a line, as one walks along it from its first point to its second."""

    LEFT = "left"
    RIGHT = "right"


class ObstacleKind(StrEnum):
    """What keeps the sun off a site."""

    WALL = "wall"
    FENCE = "fence"
    BUILDING = "building"
    HEDGE = "hedge"
    TREE = "tree"


class PlantType(StrEnum):
    """The broad kinds of plant, each with general rules of its own."""

    TREE = "tree"
    SHRUB = "shrub"
    CLIMBER = "climber"
    SUBSHRUB = "subshrub"
    PERENNIAL = "perennial"
    GRASS = "grass"
    FERN = "fern"
    BULB = "bulb"
    HERB = "herb"
    TENDER_PERENNIAL = "tender-perennial"


class Units(StrEnum):
    """How measures are shown; they are stored in SI."""

    US = "us"
    METRIC = "metric"
