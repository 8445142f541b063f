"""Whether a joint plan breaks anything it must not: checked with shapely, sharing no code with the matcher.

The rules are written here anew from what the guide promises: no two mature circles overlap more than allowed,
a plant stands whole inside its bed (or, in a bed too narrow for it, with all but half its radius over an open
edge), nothing reaches over a path, a wall or the room kept free along them, no height limit is broken, and no
must-have.
"""

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum

from shapely import LineString, Point, Polygon, box

from cuttings.ledger.places import Hold, Site
from cuttings.placement.match import Placed, Plan
from cuttings.plants.model import Plant
from cuttings.words import Drainage, Light, Moisture, PathSide

NEAR = 1e-6
UNKNOWN_M = 0.3


def faults(
    plan: Plan,
    sites: Sequence[Site],
    plants: Mapping[str, Plant],
    zone: int,
    holds: Sequence[Hold] = (),
    overlap: float = 0.0,
) -> list[str]:
    """Everything that is wrong with a plan, in words; ``plants`` are those of the lots."""
    found: list[str] = []
    for site in sites:
        here = [placed for placed in plan.plan if placed.site == site.name]
        new = [placed for placed in here if placed.spot]
        found += _overlaps(site, new, [hold for hold in holds if hold.site == site.name], overlap)
        for placed in here:
            plant = plants[placed.lot]
            found += [f"{placed.lot} on {site.name}: {why}" for why in _musts(plant, site, zone)]
            if placed.spot:
                found += [f"{placed.lot} on {site.name}: {why}" for why in _ground(placed, plant, site)]
    return found


def _overlaps(site: Site, new: list[Placed], holds: list[Hold], overlap: float) -> Iterator[str]:
    circles = [
        (placed.lot, placed.spot.x, placed.spot.y, placed.spot.radius_m) for placed in new if placed.spot
    ]
    there = [
        (each.plant, each.x, each.y, (each.spread_m or 2 * UNKNOWN_M) / 2)
        for each in site.growing
        if each.x is not None and each.y is not None
    ]
    kept = [(hold.lot, hold.x, hold.y, hold.radius_m) for hold in holds]
    pairs = [*itertools.combinations(circles, 2), *itertools.product(circles, [*there, *kept])]
    for (one, x, y, r), (other, u, v, s) in pairs:
        if math.dist((x, y), (u, v)) < r + s - 2 * overlap * min(r, s) - NEAR:
            yield f"{one} and {other} overlap on {site.name}"


def _ground(placed: Placed, plant: Plant, site: Site) -> Iterator[str]:
    spot = placed.spot
    assert spot is not None
    assert site.length_m
    assert site.depth_m
    bed = box(0.0, 0.0, site.length_m, site.depth_m)
    radius = (plant.spread_m[0] + plant.spread_m[1]) / 4 if plant.spread_m else UNKNOWN_M
    if abs(radius - spot.radius_m) > NEAR:
        yield "its circle is not that of the plant"
    whole = Point(spot.x, spot.y).buffer(radius - 1e-4, quad_segs=32)
    kept = dict(_kept(site))
    room = _room_for_it_whole(site, radius, kept)
    part = whole if room else Point(spot.x, spot.y).buffer(radius / 2 - 1e-4, quad_segs=32)
    if not bed.contains(part):
        yield "it stands outside the bed"
    for side, free in kept.items():
        if _edge(site, side).distance(Point(spot.x, spot.y)) < radius + free - NEAR:
            yield f"it reaches into the room kept free at the {side}"
    for limit in site.limits:
        stretch = box(limit.from_m + 1e-4, -50.0, limit.to_m - 1e-4, 50.0)
        if plant.height_m and plant.height_m[0] > limit.height_m and whole.intersects(stretch):
            yield "it grows too tall for the stretch it stands on"


def _kept(site: Site) -> Iterator[tuple[PathSide, float]]:
    if site.path_side is not PathSide.NONE:
        yield site.path_side, site.setback_m
    if site.wall_side is not PathSide.NONE:
        yield (
            site.wall_side,
            max(site.wall_gap_m, site.setback_m if site.wall_side is site.path_side else 0.0),
        )


def _room_for_it_whole(site: Site, radius: float, kept: Mapping[PathSide, float]) -> bool:
    """Whether the empty bed is wide enough for it, whole and clear of what is kept free."""
    assert site.length_m
    assert site.depth_m
    along = kept.get(PathSide.LEFT, 0.0) + kept.get(PathSide.RIGHT, 0.0)
    back = kept.get(PathSide.FRONT, 0.0) + kept.get(PathSide.BACK, 0.0)
    return 2 * radius <= min(site.length_m - along, site.depth_m - back) + NEAR


def _edge(site: Site, side: PathSide) -> LineString:
    assert site.length_m
    assert site.depth_m
    corners: Polygon = box(0.0, 0.0, site.length_m, site.depth_m)
    left, front, right, back = corners.bounds
    return LineString(
        {
            PathSide.FRONT: [(left, front), (right, front)],
            PathSide.BACK: [(left, back), (right, back)],
            PathSide.LEFT: [(left, front), (left, back)],
            PathSide.RIGHT: [(right, front), (right, back)],
        }[side]
    )


def _musts(plant: Plant, site: Site, zone: int) -> Iterator[str]:
    if plant.zones and zone < plant.zones[0]:
        yield "it is not hardy"
    scales: list[tuple[type[StrEnum], tuple[StrEnum, ...], StrEnum | None]] = [
        (Light, plant.light, site.light),
        (Moisture, plant.moisture, site.moisture),
        (Drainage, plant.drainage, site.drainage),
    ]
    for scale, liked, here in scales:
        order = list(scale)
        if liked and here and min(abs(order.index(each) - order.index(here)) for each in liked) > 1:
            yield f"it does not stand {here}"
    if plant.ph and site.ph and not plant.ph[0] - 0.5 - NEAR <= site.ph <= plant.ph[1] + 0.5 + NEAR:
        yield "its soil is wrong"
    if site.max_height_m and plant.height_m and plant.height_m[0] > site.max_height_m:
        yield "it grows too tall"
    if site.walnut and plant.juglone == "sensitive":
        yield "walnut roots poison it"
    if site.salt and plant.salt == "sensitive":
        yield "salt harms it"
    poisons = [each for each in plant.cautions if each.kind in ("poison", "poisonous", "toxic")]
    if site.children and any(each.harms != "animals" for each in poisons):
        yield "children play there"
    if plant.runs and site.growing and not site.barrier:
        yield "it runs into others"
