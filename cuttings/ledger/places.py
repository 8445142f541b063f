"""The garden, its sites and what grows there. Lengths are metres, bearings degrees from true north.

Positions are ``(x, y)`` in metres from a site's front left corner as seen from its viewing side, ``x``
along the length and ``y`` towards the back.
"""

from datetime import date

from attrs import frozen

from cuttings.dates import MonthDay
from cuttings.words import Drainage, Light, Moisture, ObstacleKind, PathSide, SeenFrom, Units

Point = tuple[float, float]


@frozen(kw_only=True)
class Garden:
    """The garden itself. Frost dates are ``(month, day)``.

    ``last_frost`` and ``first_frost`` are average dates; the ``_odds`` are the dates with a chance of 10,
    50 and 90 % of a frost later in spring, or already in autumn. ``risk`` is the chance of a late frost, 0
    to 1, at which the keeper lets tender plants out; ``None`` for the usual one.
    """

    name: str
    lat: float
    lon: float
    elevation_m: float | None = None
    units: Units
    zone: str = ""
    last_frost: MonthDay | None = None
    first_frost: MonthDay | None = None
    last_frost_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None
    first_frost_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None
    risk: float | None = None


@frozen(kw_only=True)
class Growing:
    """One plant that takes up room on a site; ``lot`` is set for one that came through the ledger."""

    plant: str
    x: float | None = None
    y: float | None = None
    spread_m: float | None = None
    planted: date | None = None
    lot: str = ""

    @property
    def radius_m(self) -> float:
        return (self.spread_m or 0.0) / 2


@frozen(kw_only=True)
class Obstacle:
    """Something that keeps the sun off a site: a flat upright face, square to its middle bearing.

    It runs clockwise from bearing ``start`` to bearing ``end``, less than half a turn, as seen from the
    middle of the site at ground level. ``distance_m`` is measured along its middle bearing. Its foot stands
    ``base_m`` above the site's level and its top ``height_m`` above its foot. ``leaf`` is the first and the
    last day in leaf of a deciduous one. ``density`` is the share of the sun that it keeps off, 0 to 1.
    ``entry`` is the entry it was written down with.
    """

    kind: ObstacleKind
    start: float
    end: float
    distance_m: float
    height_m: float
    base_m: float = 0.0
    leaf: tuple[MonthDay, MonthDay] | None = None
    density: float = 1.0
    name: str = ""
    entry: str = ""

    @property
    def bearing(self) -> float:
        """The bearing of its middle."""
        return (self.start + self.breadth / 2) % 360.0

    @property
    def breadth(self) -> float:
        """The angle in degrees that it takes up, seen from the middle of the site."""
        return (self.end - self.start) % 360.0


@frozen(kw_only=True)
class HeightLimit:
    """A stretch along a site's length where nothing taller may grow, such as the ground under a window."""

    from_m: float
    to_m: float
    height_m: float


@frozen(kw_only=True)
class FixedPoint:
    """Something on a site's plan that stays where it is, to measure from: a corner, a post, a tap."""

    name: str
    x: float
    y: float


@frozen(kw_only=True)
class Site:
    """A place a plant can go. Either ``light`` or ``sun_hours`` says how bright it is, or else what stands
    round it.

    ``setback_m`` is kept free along the path and ``wall_gap_m`` along the wall, for its eaves and its
    footing. ``slope`` is the rise from front to back in percent, below 0 where it falls. ``water_m`` is how
    far away the nearest tap or butt is. ``barrier`` tells of a root barrier round it, ``salt`` of road salt
    or salt wind, ``deer`` that deer come here.
    """

    name: str
    area: str
    light: Light | None = None
    sun_hours: float | None = None
    length_m: float | None = None
    depth_m: float | None = None
    corners: tuple[Point, ...] = ()
    facing: float | None = None
    moisture: Moisture = Moisture.MEDIUM
    drainage: Drainage = Drainage.GOOD
    ph: float | None = None
    max_height_m: float | None = None
    path_side: PathSide = PathSide.NONE
    setback_m: float = 0.0
    wall_side: PathSide = PathSide.NONE
    wall_gap_m: float = 0.0
    seen_from: SeenFrom = SeenFrom.FRONT
    slope: float | None = None
    limits: tuple[HeightLimit, ...] = ()
    water_m: float | None = None
    walnut: bool = False
    children: bool = False
    salt: bool = False
    deer: bool = False
    barrier: bool = False
    obstacles: tuple[Obstacle, ...] = ()
    points: tuple[FixedPoint, ...] = ()
    growing: tuple[Growing, ...] = ()

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners in order; a rectangle's when only length and depth are known; else empty."""
        if self.corners:
            return self.corners
        if self.length_m and self.depth_m:
            return ((0.0, 0.0), (self.length_m, 0.0), (self.length_m, self.depth_m), (0.0, self.depth_m))
        return ()


@frozen(kw_only=True)
class Hold:
    """A spot kept for a lot until it is planted or let go."""

    spot: str
    lot: str
    site: str
    x: float
    y: float
    radius_m: float
    entry: str
