"""Choosing among plants: by what a place offers, what they look like, and how and when they are increased."""

from collections.abc import Mapping
from datetime import date, timedelta

from attrs import field, frozen

from cuttings.climate.climate import Climate
from cuttings.plants.key import narrowed
from cuttings.plants.model import Plant, Way
from cuttings.rules.increase import in_season
from cuttings.words import Drainage, Light, Method, Moisture, PlantType

DAYS_AHEAD = 6
"""The days after today that belong to this week."""


@frozen
class Wanted:
    """What a plant is wanted to be; what is ``None`` or empty does not matter.

    ``methods`` are ways of increase of which one must be known. ``month`` is a month in this garden in which
    it is done, ``this_week`` asks for one whose season is open within the week. ``looks`` are answers of the
    key by question.
    """

    type: PlantType | None = None
    light: Light | None = None
    moisture: Moisture | None = None
    drainage: Drainage | None = None
    zone: int | None = None
    tallest_m: float | None = None
    deer: str = ""
    juglone: str = ""
    salt: str = ""
    evergreen: bool = False
    methods: frozenset[Method] = frozenset()
    month: int | None = None
    this_week: bool = False
    easy: bool = False
    looks: Mapping[str, str] = field(factory=dict)

    @property
    def asks_for_ways(self) -> bool:
        """Whether it matters how the plant is increased."""
        return bool(self.methods or self.month or self.this_week or self.easy)


def suits(plant: Plant, wanted: Wanted) -> bool:
    """Whether a plant is what is wanted, apart from how it is increased."""
    return (
        (wanted.type is None or plant.type is wanted.type)
        and (wanted.light is None or wanted.light in plant.light)
        and (wanted.moisture is None or wanted.moisture in plant.moisture)
        and (wanted.drainage is None or wanted.drainage in plant.drainage)
        and (
            wanted.zone is None
            or (plant.zones is not None and plant.zones[0] <= wanted.zone <= plant.zones[1])
        )
        and (
            wanted.tallest_m is None or (plant.height_m is not None and plant.height_m[0] <= wanted.tallest_m)
        )
        and (not wanted.deer or plant.deer == wanted.deer)
        and (not wanted.juglone or plant.juglone == wanted.juglone)
        and (not wanted.salt or plant.salt == wanted.salt)
        and (plant.evergreen or not wanted.evergreen)
        and bool(not wanted.looks or narrowed([plant], wanted.looks))
    )


def ways_wanted(plant: Plant, wanted: Wanted, climate: Climate, on: date) -> tuple[Way, ...]:
    """The ways of increasing a plant that are wanted, best first."""
    return tuple(way for way in plant.ways if _is_wanted(way, wanted, climate, on))


def _is_wanted(way: Way, wanted: Wanted, climate: Climate, on: date) -> bool:
    if wanted.methods and way.method not in wanted.methods:
        return False
    if wanted.easy and way.difficulty != "easy":
        return False
    if wanted.month and wanted.month not in {climate.month_here(month) for month in way.months}:
        return False
    days = (on + timedelta(days=ahead) for ahead in range(DAYS_AHEAD + 1))
    return not wanted.this_week or any(in_season(way, day, climate) for day in days)


DIVISIONS = frozenset(method for method in Method if method.starts_rooted)
CUTTINGS = frozenset(method for method in Method if method.is_cutting)
LAYERS = frozenset(method for method in Method if method.is_layer)
"""Methods by the family they belong to."""


EASE = {"easy": 0, "moderate": 1, "hard": 2}


def easiest_first(plant: Plant) -> tuple[Way, ...]:
    """A plant's ways of increase by how easy they are; among equals the best first."""
    return tuple(sorted(plant.ways, key=lambda way: EASE.get(way.difficulty, 1)))
