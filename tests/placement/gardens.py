"""Seeded gardens of any size for the joint plan: catalogue plants on invented sites."""

from random import Random

from attrs import frozen

from cuttings.ledger.places import Growing, HeightLimit, Site
from cuttings.placement.wanted import Setting, Wanted
from cuttings.plants.model import Plant
from cuttings.plants.standard import standard
from cuttings.words import Drainage, Light, Moisture, PathSide, PlantType, SeenFrom, Units
from tests.placement.beds import COLD

KINDS = (
    PlantType.PERENNIAL, PlantType.GRASS, PlantType.SUBSHRUB, PlantType.HERB, PlantType.FERN, PlantType.SHRUB,
)  # fmt: skip
PLACED_FROM = (0.2, 2.0)
"""Mature spreads in metres of the plants that are drawn."""


@frozen(eq=False)
class Garden:
    lots: list[Wanted]
    sites: list[Site]
    setting: Setting


def garden(seed: int, lots: int, plants: int, sites: int, *, roomy: float = 1.0) -> Garden:
    """So many lots with so many plants in all, and so many sites, ``roomy`` times as long as usual."""
    chance = Random(seed)
    known = _hardy()
    places = [_site(chance, number, known, roomy) for number in range(sites)]
    counts = [1] * lots
    for _ in range(plants - lots):
        counts[chance.randrange(lots)] += 1
    wanted = [
        Wanted(f"26-{number:03d}", chance.choice(known), count) for number, count in enumerate(counts, 1)
    ]
    by_name = {plant.name: plant for plant in known}
    return Garden(wanted, places, Setting(COLD, Units.METRIC, by_name, places))


def _hardy() -> list[Plant]:
    low, high = PLACED_FROM
    return sorted(
        (
            plant
            for plant in standard()
            if plant.type in KINDS
            and plant.rank == "species"
            and plant.zones is not None
            and plant.zones[0] <= 5
            and not plant.unwanted
            and plant.spread_m is not None
            and low <= sum(plant.spread_m) / 2 <= high
        ),
        key=lambda plant: plant.name,
    )


def _site(chance: Random, number: int, known: list[Plant], roomy: float) -> Site:
    length, depth = round(chance.uniform(3, 10) * roomy, 1), round(chance.uniform(1.0, 3.0), 1)
    path = chance.choice([PathSide.NONE, PathSide.FRONT, PathSide.LEFT])
    growing = tuple(
        Growing(plant=chance.choice(known).name, x=round(chance.uniform(0, length), 2),
                y=round(chance.uniform(0, depth), 2), spread_m=round(chance.uniform(0.3, 1.2), 2))
        for _ in range(chance.randrange(0, 4))
    )  # fmt: skip
    return Site(
        name=f"bed {number}",
        area=f"area {number % 3}",
        light=chance.choice([Light.FULL_SUN, Light.FULL_SUN, Light.PART_SUN, Light.PART_SHADE]),
        length_m=length,
        depth_m=depth,
        moisture=chance.choice([Moisture.DRY, Moisture.MEDIUM, Moisture.MEDIUM, Moisture.MOIST]),
        drainage=chance.choice([Drainage.SHARP, Drainage.GOOD, Drainage.GOOD, Drainage.SLOW]),
        ph=chance.choice([None, 6.0, 6.5, 7.0]),
        max_height_m=chance.choice([None, None, None, 1.2]),
        path_side=path,
        setback_m=0.15 if path is not PathSide.NONE else 0.0,
        wall_side=chance.choice([PathSide.NONE, PathSide.BACK]),
        wall_gap_m=0.3,
        seen_from=chance.choice([SeenFrom.FRONT, SeenFrom.FRONT, SeenFrom.AROUND]),
        limits=(HeightLimit(from_m=1.0, to_m=2.5, height_m=0.8),) if chance.random() < 0.25 else (),
        walnut=chance.random() < 0.1,
        children=chance.random() < 0.1,
        salt=chance.random() < 0.1,
        barrier=chance.random() < 0.5,
        growing=growing,
    )
