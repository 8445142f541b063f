"""What will grow into what on a site, and in which year.

Two plants meet in the first year at whose end the circles of their width touch. Two of a kind that stand no
closer than their own spacing are meant to close up, and do not crowd (common practice). A spot that is held
counts as planted today.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from enum import StrEnum
from functools import partial
from itertools import islice
from math import hypot

from attrs import evolve, frozen

from cuttings.ledger.places import Growing, Hold, Site
from cuttings.placement.growth import DAYS_A_YEAR, share_grown
from cuttings.placement.outline import plot
from cuttings.placement.room import full_radius
from cuttings.plants.model import Plant
from cuttings.words import PathSide, PlantType

NEAR_M = 0.01
"""Circles that overlap by no more than this only touch: positions are whole centimetres."""

YOUNG_YEARS = 3
"""A woody plant is moved without much harm in its first years in a place; from memory."""

WOODY = frozenset({PlantType.TREE, PlantType.SHRUB, PlantType.CLIMBER, PlantType.SUBSHRUB})


class Against(StrEnum):
    """What a plant grows into."""

    PLANT = "plant"
    HELD = "held"
    PATH = "path"
    EDGE = "edge"
    HEIGHT = "height"


class Remedy(StrEnum):
    """What is done about it, the gentlest first."""

    DIVIDE = "divide"
    MOVE = "move"
    CUT_BACK = "cut-back"
    THIN = "thin"


@frozen
class Standing:
    """A plant at its place, or a spot held for one: ``held`` is then the spot. Lengths in metres."""

    name: str
    x: float | None
    y: float | None
    full_radius_m: float
    planted: date | None
    known: Plant | None
    lot: str = ""
    held: str = ""

    def grown(self, day: date) -> float:
        """The share of its full size on a day."""
        return share_grown(self.known, self.planted, day)

    def radius_on(self, day: date) -> float:
        return self.full_radius_m * self.grown(day)

    @property
    def full_height_m(self) -> float | None:
        """The middle of its range of height."""
        return sum(self.known.height_m) / 2 if self.known and self.known.height_m else None

    @property
    def at(self) -> tuple[float, float] | None:
        return None if self.x is None or self.y is None else (self.x, self.y)


@frozen
class Crowd:
    """A plant that grows into another, over the path, or too high.

    ``year`` is the first by whose end they meet, this year where they do so ``now``; ``overlap_m`` by how
    much at full size.
    """

    plant: Standing
    against: Against
    year: int
    now: bool
    overlap_m: float
    other: Standing | None = None


def standing_plant(plant: Growing, known: Plant | None) -> Standing:
    return Standing(plant.plant, plant.x, plant.y, full_radius(plant), plant.planted, known, plant.lot)


def kept_spot(hold: Hold, name: str, known: Plant | None, today: date) -> Standing:
    """A held spot as if its plant went in today."""
    return Standing(name, hold.x, hold.y, hold.radius_m, today, known, hold.lot, hold.spot)


def crowding(
    site: Site, spots: Sequence[Standing], today: date, known: Mapping[str, Plant]
) -> tuple[Crowd, ...]:
    """What will crowd on a site, soonest first and of one year the worst first.

    Args:
        spots: those held on the site; see ``kept_spot``.
        known: the catalogue's plant for each name that grows there, as far as it knows them.
    """
    plants = [standing_plant(each, known.get(each.plant)) for each in site.growing]
    found = [
        *_pairs(plants, spots, today),
        *_over_edges(site, plants, today),
        *_too_high(site, plants, today),
    ]
    return tuple(sorted(found, key=lambda each: (each.year, not each.now, -each.overlap_m, each.plant.name)))


def _pairs(plants: Sequence[Standing], spots: Sequence[Standing], today: date) -> list[Crowd]:
    """Plants that grow into one another, or over a held spot; the one written down first is named first."""
    found = []
    for one, other in _near(plants, spots):
        apart = hypot(one[0] - other[0], one[1] - other[1])
        first, second = one[2], other[2]
        overlap = first.full_radius_m + second.full_radius_m - apart
        if overlap > NEAR_M and not _meant_to_close_up(first, second, apart):
            against = Against.HELD if second.held else Against.PLANT
            year, now = _first(partial(_meet, first, second, apart), today)
            found.append(Crowd(first, against, year, now, overlap, second))
    return found


Placed = tuple[float, float, Standing]


def _near(plants: Sequence[Standing], spots: Sequence[Standing]) -> Iterator[tuple[Placed, Placed]]:
    """Pairs of what stands so near along the site that it might meet. Of a bed of hundreds each is compared
    with its neighbours alone."""
    placed = [
        (number, (each.x, each.y, each))
        for number, each in enumerate((*plants, *spots))
        if each.x is not None and each.y is not None
    ]
    placed.sort(key=lambda numbered: numbered[1][0])
    widest_m = max((each[2].full_radius_m for _, each in placed), default=0.0)
    for number, (order, one) in enumerate(placed):
        reach_m = one[0] + one[2].full_radius_m + widest_m
        for further, other in islice(placed, number + 1, None):
            if other[0] > reach_m:
                break
            if not (one[2].held and other[2].held):
                yield (one, other) if order < further else (other, one)


def _meet(one: Standing, other: Standing, apart: float, day: date) -> bool:
    return one.radius_on(day) + other.radius_on(day) >= apart


def _first(happens: Callable[[date], bool], today: date) -> tuple[int, bool]:
    """The first year by whose end something happens that happens once all is full grown; and whether it does
    so already."""
    if happens(today):
        return today.year, True
    year = today.year
    while not happens(date(year, 12, 31)):
        year += 1
    return year, False


def _meant_to_close_up(one: Standing, other: Standing, apart: float) -> bool:
    spacing = one.known.spacing_m if one.known else None
    return one.name == other.name and spacing is not None and apart >= spacing[0] - NEAR_M


def _over_edges(site: Site, plants: Sequence[Standing], today: date) -> Iterator[Crowd]:
    """The plants that reach into the room kept free along the path, or along every edge; a wall is not
    harmed by what leans on it."""
    ground = plot(evolve(site, wall_side=PathSide.NONE))
    closed = [edge for edge in ground.edges if edge.keep_free_m is not None] if ground else []
    if not closed:
        return
    against = Against.EDGE if site.path_side is PathSide.NONE else Against.PATH
    for plant in plants:
        if plant.x is None or plant.y is None:
            continue
        gap = min(edge.distance(plant.x, plant.y) - (edge.keep_free_m or 0.0) for edge in closed)
        overlap = plant.full_radius_m - gap
        if overlap > NEAR_M:
            year, now = _first(partial(_reaches, plant, gap), today)
            yield Crowd(plant, against, year, now, overlap)


def _reaches(plant: Standing, gap_m: float, day: date) -> bool:
    return plant.radius_on(day) >= gap_m


def _too_high(site: Site, plants: Sequence[Standing], today: date) -> Iterator[Crowd]:
    for plant in plants:
        limit, height = _height_limit(site, plant), plant.full_height_m
        if limit is not None and height is not None and height - limit > NEAR_M:
            year, now = _first(partial(_stands_over, plant, height, limit), today)
            yield Crowd(plant, Against.HEIGHT, year, now, height - limit)


def _stands_over(plant: Standing, height_m: float, limit_m: float, day: date) -> bool:
    return height_m * plant.grown(day) >= limit_m


def _height_limit(site: Site, plant: Standing) -> float | None:
    """The lowest limit over the ground that a plant will take up."""
    limits = [] if site.max_height_m is None else [site.max_height_m]
    if plant.x is not None:
        left, right = plant.x - plant.full_radius_m, plant.x + plant.full_radius_m
        limits += [each.height_m for each in site.limits if each.from_m < right and each.to_m > left]
    return min(limits, default=None)


def remedy(crowd: Crowd, today: date) -> tuple[Standing, Remedy]:
    """What to do about it, and to which of the two: the gentler way first, then to the smaller plant."""
    if crowd.other is not None and crowd.against is Against.HELD:
        return crowd.other, Remedy.MOVE
    both = [each for each in (crowd.plant, crowd.other) if each is not None]
    ways = [(each, _way(each, crowd.against, today)) for each in both]
    gentle = list(Remedy)
    return min(ways, key=lambda way: (gentle.index(way[1]), way[0].full_radius_m))


def _way(plant: Standing, against: Against, today: date) -> Remedy:
    known = plant.known
    woody = known is not None and known.type in WOODY
    if (
        against is not Against.HEIGHT
        and known
        and known.division
        and not known.division.resents
        and not woody
    ):
        return Remedy.DIVIDE
    if not woody or _young(plant, today):
        return Remedy.MOVE
    return Remedy.THIN if known and known.type is PlantType.TREE else Remedy.CUT_BACK


def _young(plant: Standing, today: date) -> bool:
    return plant.planted is not None and (today - plant.planted).days < YOUNG_YEARS * DAYS_A_YEAR
