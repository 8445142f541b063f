"""The room on a site: what stands there and the positions that are free.

A plant is a circle of its mature size. Positions are whole centimetres, as a tape and a label have them.

It stands whole inside the outline where the empty site is wide enough for it. In a bed that is not, it may
reach over the edges by half its radius, as shrubs in borders do: its stem and roots are then still well
inside. It never reaches over an edge along a path or a wall, or one with a setback.
"""

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from attrs import frozen

from cuttings.ledger.places import Growing, Hold, Point, Site
from cuttings.placement.outline import plot
from cuttings.plants.model import Plant
from cuttings.words import SeenFrom

if TYPE_CHECKING:
    from cuttings.placement.bed import Bed

Position = Point

UNKNOWN_RADIUS_M = 0.3
"""The mature radius taken for a plant nobody knows the spread of; from memory, a middling perennial."""

REACH = 0.5
"""The share of its radius by which a plant may grow over the edge of a bed too narrow for it; from memory."""

SLACK_M = 1e-9
"""Plants that just touch do not overlap, whatever the last bit of a number says."""

CENTIMETRE = 0.01
"""How finely plans are drawn: as finely as a tape is read."""


@frozen
class Circle:
    """Ground taken up by one mature plant."""

    x: float
    y: float
    radius_m: float


def radius(plant: Plant) -> float:
    """The mature radius of a plant in metres: half the middle of its range of spread.

    The middle, because the low end crowds half the plants and the high end leaves bare ground round most
    (common practice). ``UNKNOWN_RADIUS_M`` where nobody has said how wide it grows.
    """
    return UNKNOWN_RADIUS_M if plant.spread_m is None else sum(plant.spread_m) / 4


def standing(site: Site) -> list[Circle]:
    """The mature circles of what grows at a known position on a site."""
    return [
        Circle(each.x, each.y, full_radius(each))
        for each in site.growing
        if each.x is not None and each.y is not None
    ]


def unmeasured(site: Site) -> list[Growing]:
    """The plants that grow somewhere on a site, nobody has said where."""
    return [each for each in site.growing if each.x is None or each.y is None]


def held(site: Site, holds: Iterable[Hold]) -> list[Circle]:
    """The circles kept for other plants on a site."""
    return [Circle(each.x, each.y, each.radius_m) for each in holds if each.site == site.name]


def full_radius(growing: Growing) -> float:
    """The mature radius in metres of what grows on a site."""
    return growing.radius_m or UNKNOWN_RADIUS_M


def bed_of(
    site: Site, occupied: Sequence[Circle] = (), *, step_m: float = CENTIMETRE, overlap: float = 0.0
) -> "Bed | None":
    """The ground of a site for planting, with what grows there; ``None`` where its size is not known.

    Args:
        occupied: ground taken besides what is written down as growing there: spots held, plants placed.
        step_m: how finely positions are tried.
        overlap: the share of the narrower plant's width that may lie within its neighbour's, 0 to below 1.
    """
    from cuttings.placement.bed import Bed, circles_array

    ground = plot(site)
    if ground is None:
        return None
    return Bed(
        plot=ground,
        taken=circles_array([*standing(site), *occupied]),
        limits=site.limits,
        step_m=step_m,
        overlap=overlap,
        hidden_m2=sum(math.pi * full_radius(each) ** 2 for each in unmeasured(site)),
        all_round=site.seen_from is not SeenFrom.FRONT,
    )


@lru_cache(maxsize=4096)
def reach_over(site: Site, radius_m: float) -> float:
    """The share of its radius a plant may reach over the open edges of a site: 0 where it fits whole."""
    bed = bed_of(site)
    return 0.0 if bed is None else bed.reach(radius_m)


def widest_free(site: Site, occupied: Sequence[Circle]) -> float:
    """The radius in metres of about the largest plant that could still stand whole on a site; 0 if none."""
    bed = bed_of(site, occupied)
    return 0.0 if bed is None else bed.widest()
