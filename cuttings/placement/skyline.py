"""The skyline of a site: how high what stands round it reaches, in each direction.

An obstacle is a flat upright face, square to its middle bearing, at ``distance_m`` along that bearing.
Towards an azimuth inside it, ``off`` degrees from its middle, the top of the face stands at an elevation of
``atan((base_m + height_m) * cos(off) / distance_m)``. Of several the highest makes the skyline. All that lies
below it counts as hidden, even the gap under a lifted crown: the sun shines when the centre of its disc,
without refraction, stands above the skyline and above 0 degrees. A deciduous obstacle counts on its days in
leaf, the first and the last with them. One that lets a share of the sun through takes only the rest, and
several in the way take it one after the other.
"""

import math
from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from attrs import evolve

from cuttings.dates import MonthDay
from cuttings.ledger.places import Obstacle
from cuttings.words import ObstacleKind

if TYPE_CHECKING:  # numpy is loaded only where a skyline is reckoned
    import numpy as np
    from numpy.typing import NDArray

    Degrees = NDArray[np.float64]

HALF_TURN, TURN = 180.0, 360.0

BEARING_PLACES = 4
"""Decimals of a degree kept of a bearing that was reckoned from a width."""


def obstacle_between(
    kind: ObstacleKind,
    start: float,
    end: float,
    *,
    distance_m: float,
    height_m: float,
    base_m: float = 0.0,
    leaf: tuple[MonthDay, MonthDay] | None = None,
    density: float = 1.0,
    name: str = "",
) -> Obstacle:
    """An obstacle that runs clockwise from one bearing to another, in degrees from true north.

    Raises:
        ValueError: no flat face stands like that; the message is a sentence.
    """
    made = Obstacle(
        kind=kind,
        start=start % TURN,
        end=end % TURN,
        distance_m=distance_m,
        height_m=height_m,
        base_m=base_m,
        leaf=leaf,
        density=density,
        name=name,
    )
    _check(made)
    return made


def ends_of_width(bearing: float, width_m: float, distance_m: float) -> tuple[float, float]:
    """The bearings of the two ends of a face so many metres wide, whose middle lies at a bearing, in degrees.

    Raises:
        ValueError: the width or the distance is not above 0; the message is a sentence.
    """
    _above_0(width_m, "The width")
    _above_0(distance_m, "The distance")
    half = math.degrees(math.atan(width_m / 2 / distance_m))
    return round(bearing - half, BEARING_PLACES), round(bearing + half, BEARING_PLACES)


def _check(made: Obstacle) -> None:
    if not (math.isfinite(made.start) and math.isfinite(made.end)):
        raise ValueError("A bearing is a number of degrees from true north.")
    _above_0(made.distance_m, "The distance")
    _above_0(made.height_m, "The height")
    if not 0.0 <= made.base_m < math.inf:
        raise ValueError("The foot of it cannot stand below the site; leave the base out.")
    if not 0.0 <= made.density <= 1.0:
        raise ValueError("The density is the share of the sun it keeps off, from 0 to 1.")
    if made.breadth == 0.0:
        raise ValueError("The two bearings are the same; give those of its left and its right end.")
    if made.breadth >= HALF_TURN:
        raise ValueError(
            f"Clockwise from {made.start:g} to {made.end:g} is {made.breadth:g} degrees, and a straight face "
            "takes up less than 180: turn the bearings round, or write it down in two parts."
        )


def _above_0(metres: float, what: str) -> None:
    if not 0.0 < metres < math.inf:
        raise ValueError(f"{what} must be more than nothing.")


def in_leaf(obstacle: Obstacle, on: date) -> bool:
    """Whether an obstacle keeps the sun off on a day: always, unless it is bare then."""
    if obstacle.leaf is None:
        return True
    first, last = obstacle.leaf
    day = on.month, on.day
    return first <= day <= last if first <= last else day >= first or day <= last


def standing_on(obstacles: Iterable[Obstacle], on: date) -> tuple[Obstacle, ...]:
    """The obstacles that keep the sun off on a day."""
    return tuple(each for each in obstacles if in_leaf(each, on))


def evergreen(obstacle: Obstacle) -> Obstacle:
    """The same obstacle in leaf all year."""
    return evolve(obstacle, leaf=None)


def tops(obstacle: Obstacle, azimuths: "Degrees") -> "Degrees":
    """How high an obstacle reaches [degrees] towards each azimuth [degrees]; 0 where it does not stand."""
    import numpy as np

    half = obstacle.breadth / 2
    off = np.abs((azimuths - obstacle.bearing + HALF_TURN) % TURN - HALF_TURN)
    return np.where(off <= half + 1e-9, _top(obstacle, np.cos(np.radians(off))), 0.0)


def _top(obstacle: Obstacle, cosine: "Degrees") -> "Degrees":
    import numpy as np

    return np.degrees(np.arctan((obstacle.base_m + obstacle.height_m) * cosine / obstacle.distance_m))


def skyline(obstacles: Sequence[Obstacle], azimuths: "Degrees") -> "Degrees":
    """The height of the skyline [degrees] towards each azimuth [degrees], all obstacles in leaf."""
    import numpy as np

    highest = np.zeros_like(azimuths)
    for each in _solid(obstacles):
        highest = np.maximum(highest, tops(each, azimuths))
    return highest


def _solid(obstacles: Iterable[Obstacle]) -> list[Obstacle]:
    """Those that keep any sun off at all."""
    return [each for each in obstacles if each.density > 0.0]


def horizon(obstacles: Sequence[Obstacle]) -> list[tuple[float, float]]:
    """The skyline as points ``(azimuth, elevation)`` in degrees, from 0 to 360 at every whole degree.

    Where an obstacle begins or ends, the azimuth stands twice: with the skyline just before it and with that
    just after it. A straight line from point to point is the skyline.
    """
    import numpy as np

    edges = {edge % TURN for each in _solid(obstacles) for edge in (each.start, each.end)}
    points: list[tuple[float, float]] = []
    for azimuth in sorted({*map(float, range(361)), *edges}):
        beside = np.array([azimuth - _BESIDE, azimuth + _BESIDE])
        before, after = (float(each) for each in skyline(obstacles, beside))
        if azimuth > 0.0:
            points.append((azimuth, before))
        if azimuth < TURN and (azimuth == 0.0 or azimuth in edges):
            points.append((azimuth, after))
    return points


_BESIDE = 1e-6
"""Degrees to either side at which the skyline beside an edge is looked up."""
