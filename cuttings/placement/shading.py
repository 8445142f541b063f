"""What an obstacle costs a site in sun, and what a new one would change there."""

from collections.abc import Mapping, Sequence

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Obstacle
from cuttings.placement.light import light_of_hours, mean_hours, steps_away
from cuttings.placement.skyline import evergreen
from cuttings.placement.sun import monthly_means, year_of_sun
from cuttings.plants.model import Plant
from cuttings.words import Light


@frozen
class Sunshine:
    """The direct sun behind a set of obstacles: hours a day by month and through the growing season."""

    months: tuple[float, ...]
    season: float

    @property
    def light(self) -> Light:
        return light_of_hours(self.season)


@frozen
class Cost:
    """One obstacle: the sun without it, which is also that with it bare all year; and, for a deciduous one,
    the sun if it kept its leaves all year."""

    obstacle: Obstacle
    without: Sunshine
    evergreen: Sunshine | None


@frozen
class Costs:
    """The sun as it is, and what each obstacle costs of it."""

    now: Sunshine
    each: tuple[Cost, ...]


@frozen
class Unsuited:
    """A plant that would no longer have the light it likes. ``steps`` is how many classes too dark."""

    plant: str
    likes: tuple[Light, ...]
    steps: int


@frozen
class Change:
    """What a new obstacle would do."""

    obstacle: Obstacle
    after: Sunshine
    unsuited: tuple[Unsuited, ...]


def sunshine(lat: float, lon: float, obstacles: Sequence[Obstacle], climate: Climate) -> Sunshine:
    """The direct sun behind some obstacles, in hours a day."""
    year = year_of_sun(lat, lon, tuple(obstacles))
    return Sunshine(monthly_means(year.hours), mean_hours(year, lat, climate))


def costs(lat: float, lon: float, obstacles: Sequence[Obstacle], climate: Climate) -> Costs:
    """What each of the obstacles costs, the others standing."""

    def sun(*those: Obstacle) -> Sunshine:
        return sunshine(lat, lon, those, climate)

    found = []
    for number, each in enumerate(obstacles):
        before, after = obstacles[:number], obstacles[number + 1 :]
        green = sun(*before, evergreen(each), *after) if each.leaf else None
        found.append(Cost(each, sun(*before, *after), green))
    return Costs(sun(*obstacles), tuple(found))


def changed_by(
    new: Obstacle,
    lat: float,
    lon: float,
    obstacles: Sequence[Obstacle],
    climate: Climate,
    growing: Mapping[str, Plant],
) -> Change:
    """What a new obstacle would change beside those that stand.

    Args:
        growing: the catalogue's plant for each name that grows on the site, as far as it knows them.
    """
    before = sunshine(lat, lon, obstacles, climate)
    after = sunshine(lat, lon, (*obstacles, new), climate)
    unsuited = []
    for name, plant in growing.items():
        if plant.light and steps_away(plant.light, before.light) == 0:
            steps = steps_away(plant.light, after.light)
            if steps != 0:
                unsuited.append(Unsuited(name, tuple(plant.light), steps))
    return Change(new, after, tuple(unsuited))
