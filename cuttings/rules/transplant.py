"""When to plant out, by the kind of plant and the climate of the place.

Autumn counts back from the ground freezing, since new roots need time while the soil is warm; spring
counts from the ground that can be dug and the last frost; heat and drought, where a record tells of them, are
left alone.
"""

from datetime import date, timedelta
from functools import lru_cache

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.climate.frost import FROST_F
from cuttings.dates import spoken
from cuttings.plants.model import COMMON_PRACTICE, Plant
from cuttings.rules.advice import Window
from cuttings.rules.growth import hard_summer
from cuttings.rules.odds import DEEP_FREEZE_F, chance_of_frozen_ground, chance_of_later_freeze
from cuttings.rules.seasons import (
    WARM_SOIL_C,
    Frosts,
    frosts,
    in_summer,
    is_hardy,
    next_window,
    summer,
    weeks,
    window,
)
from cuttings.rules.warmth import pace_said
from cuttings.words import PlantType, Stage

IOWA_AUTUMN = "Iowa State University Extension: Is late summer/early fall a good time to plant trees?"
"""Iowa: evergreens 15 August to 30 September, deciduous stock August to early November,
https://hortnews.extension.iastate.edu/faq/late-summerearly-fall-good-time-plant-trees"""

PERENNIALS_AUTUMN = (
    "University of Minnesota Extension Master Gardener (via WCTrib): "
    "Divide perennials when plant is not flowering, 2023"
)
"""Four to six weeks before the ground freezes."""

WOODY = frozenset({PlantType.TREE, PlantType.SHRUB, PlantType.CLIMBER, PlantType.SUBSHRUB})


@frozen
class Autumn:
    """An autumn window: the weeks before the first frost at which it opens and is at its best from, and
    the weeks before the ground freezes at which its best ends and it closes."""

    opens: float
    best: float
    best_ends: float
    closes: float
    why: str
    source: str


EVERGREEN = Autumn(
    opens=7.5,
    best=6.5,
    best_ends=9,
    closes=8,
    why="Evergreens lose water all winter, so they must root well before the ground freezes.",
    source=IOWA_AUTUMN,
)
DECIDUOUS = Autumn(
    opens=9.5,
    best=4.5,
    best_ends=6,
    closes=4,
    why="The soil is still warm and the leaves ask for little; stop before the ground freezes.",
    source=IOWA_AUTUMN,
)
PERENNIAL = Autumn(
    opens=8,
    best=6,
    best_ends=6,
    closes=4,
    why="Roots need four to six weeks of unfrozen soil, or frost lifts the crown out.",
    source=PERENNIALS_AUTUMN,
)
"""The weeks reproduce the sources' windows for an Iowa garden (first frost about 6 October, ground frozen
eight weeks later); the opening of the perennials' window is from memory."""

SPRING_BEST_FROM_WEEKS = 3
"""Weeks before the average last frost from which hardy plants settle best; from memory."""

SPRING_BEST_TO_WEEKS = 3
SPRING_CLOSES_WEEKS = 7
"""Weeks after the average last frost when the best ends, and when summer heat closes it; from memory."""

BARE_ROOT_CLOSES_WEEKS = 1
"""Weeks before the last frost by which bare roots must be in, ahead of the leaves; from memory."""

BARE_ROOT_LEAST_WEEKS = 2
"""Weeks of workable ground that bare roots are given, however early the last frost is; from memory."""

CONIFERS = frozenset(
    {"Abies", "Cedrus", "Chamaecyparis", "Cupressus", "Juniperus", "Picea", "Pinus", "Pseudotsuga", "Taxus",
     "Thuja", "Tsuga"}
)  # fmt: skip
"""Genera of evergreens with needles or scales; common practice."""

SPRING_SAFER = "Yew and evergreens with broad leaves are safer planted in spring."
"""A column that repeats Midwest extension advice: Fall tree planting,
https://boleyrealestate.com/fall-tree-planting/"""

BEFORE_THE_HEAT = "It closes before the heat or drought of your summer begins."
AFTER_THE_HEAT = "It opens once the heat or drought of your summer is over."
NEVER_FREEZES = "The ground does not freeze here, so it stays open until midwinter."

TOO_EARLY_WEEKS = 6
"""A day nearer than this to the spring window is called too early, not too late; from memory."""

TENDER_BEST_WEEKS = (1, 5)
"""Weeks after the safe date in which the soil is warm and the season still long; from memory."""

TENDER_CLOSES_WEEKS = 8
"""Weeks before the first frost after which a tender plant has too little summer left; from memory."""


@lru_cache(maxsize=1024)
def planting_windows(
    plant: Plant, climate: Climate, year: int, *, from_pot: bool = True
) -> tuple[Window, ...]:
    """The windows for planting out whose frost falls in a calendar year, earliest first.

    Args:
        from_pot: whether the roots come with their soil; bare roots must be in before the leaves open.
    """
    if not is_hardy(plant, climate):
        found = [_tender(plant, climate, year)]
    else:
        found = [_spring(plant, climate, year, from_pot), _autumn(plant, climate, year)]
    return tuple(sorted((each for each in found if each is not None), key=lambda each: each.opens))


def next_planting(plant: Plant, climate: Climate, on: date, *, from_pot: bool = True) -> Window | None:
    """The planting window open on a day, or the next to open."""
    return next_window(lambda year: planting_windows(plant, climate, year, from_pot=from_pot), on)


def _tender(plant: Plant, climate: Climate, year: int) -> Window | None:
    spring = frosts(climate, year)
    _, first_autumn = summer(climate, year)
    safe, (first, last) = spring.safe_spring, TENDER_BEST_WEEKS
    best = safe + weeks(first), safe + weeks(last)
    why = (
        f"It is tender: wait until no more than {climate.risk:.0%} of springs still bring a frost, "
        "and the soil is warm."
    )
    late = first_autumn if spring.frostless else first_autumn - weeks(TENDER_CLOSES_WEEKS)
    return window(
        f"plant out {plant.name}",
        safe,
        best,
        max(late, safe),
        why=spring.said(why),
        source=COMMON_PRACTICE,
        odds=chance_of_later_freeze(climate, best[0], FROST_F),
    )


def _spring(plant: Plant, climate: Climate, year: int, from_pot: bool) -> Window | None:
    spring = frosts(climate, year)
    last = spring.last_spring
    closes = last + weeks(SPRING_CLOSES_WEEKS) if from_pot else last - weeks(BARE_ROOT_CLOSES_WEEKS)
    why = "The ground has thawed and it has the whole season to root before winter."
    if not from_pot:
        why = "Bare roots go in once the ground has thawed and before the leaves open."
        closes = max(closes, spring.workable + weeks(BARE_ROOT_LEAST_WEEKS))
    hard = hard_summer(climate, year)
    if from_pot and hard is not None and spring.workable < hard[0] < closes:
        closes = hard[0]
        why += f" {BEFORE_THE_HEAT}"
    why += pace_said(climate, spring.workable)
    best = (last - weeks(SPRING_BEST_FROM_WEEKS), last + weeks(SPRING_BEST_TO_WEEKS))
    return window(
        f"plant {plant.name} in spring",
        spring.workable,
        best,
        closes,
        why=spring.said(why),
        source=COMMON_PRACTICE,
        odds=chance_of_later_freeze(climate, max(best[0], spring.workable), DEEP_FREEZE_F),
    )


def _autumn(plant: Plant, climate: Climate, year: int) -> Window | None:
    kind, autumn = autumn_rule(plant), frosts(climate, year)
    opens = autumn.first_autumn - weeks(kind.opens)
    best_from = autumn.first_autumn - weeks(kind.best)
    why = kind.why
    hard = hard_summer(climate, year - 1 if climate.southern else year)
    if hard is not None and opens <= hard[1] < _closes(kind, autumn):
        opens = hard[1] + timedelta(days=1)
        best_from = max(best_from, opens)
        why += f" {AFTER_THE_HEAT}"
    if plant.evergreen and _safer_in_spring(plant):
        why += f" {SPRING_SAFER}"
    if not autumn.freezes:
        why += f" {NEVER_FREEZES}"
    return window(
        f"plant {plant.name} in autumn",
        opens,
        (best_from, _best_ends(kind, autumn, climate, year)),
        _closes(kind, autumn),
        why=autumn.said(why),
        source=kind.source,
        odds=chance_of_frozen_ground(climate, max(best_from, opens) + weeks(kind.closes)),
    )


def _safer_in_spring(plant: Plant) -> bool:
    return plant.type in WOODY and (plant.genus == "Taxus" or plant.genus not in CONIFERS)


def _closes(kind: Autumn, autumn: Frosts) -> date:
    """So many weeks before the ground freezes, or midwinter where it never does."""
    return autumn.freeze - weeks(kind.closes) if autumn.freezes else autumn.freeze


def _best_ends(kind: Autumn, autumn: Frosts, climate: Climate, year: int) -> date:
    """The end of the best stretch: for deciduous woody plants the day the soil has cooled to 55 °F, for
    others so many weeks before the ground freezes."""
    cools = climate.soil.falls_through(WARM_SOIL_C) if kind is DECIDUOUS else None
    if cools is not None:
        return climate.autumn_day(year, cools)
    return autumn.freeze - weeks(kind.best_ends)


def autumn_rule(plant: Plant) -> Autumn:
    """The autumn rule a plant falls under."""
    if plant.type not in WOODY:
        return PERENNIAL
    return EVERGREEN if plant.evergreen else DECIDUOUS


def advise_planting(
    plant: Plant, climate: Climate, on: date, stage: Stage, *, soft: bool = True, divided: bool = False
) -> tuple[str, ...]:
    """What speaks against planting on a day, a sentence each; empty when nothing does.

    Args:
        stage: the stage the stems come from.
        soft: whether hardening off would do them good.
        divided: whether they came with roots of their own, as divisions and offsets do.
    """
    hardy = is_hardy(plant, climate)
    growing = in_summer(climate, on)
    warnings = []
    if soft and stage in (Stage.ROOTED, Stage.POTTED) and (growing or not hardy):
        warnings.append("It has not been hardened off; if it grew under cover, sun and wind will burn it.")
    if soft and stage is Stage.HARDENING:
        warnings.append("It is still being hardened off; finish that first if the weather allows.")
    if stage is Stage.ROOTED and not divided:
        warnings.append("It has not been potted; keep the roots covered and water it well until it grows.")
    if season := _out_of_season(plant, climate, on, hardy):
        warnings.append(season)
    return tuple(warnings)


def _out_of_season(plant: Plant, climate: Climate, on: date, hardy: bool) -> str:
    coming = next_planting(plant, climate, on)
    if coming is None or coming.holds(on):
        return ""
    again = f"The next good time opens about {spoken(coming.opens, on)}."
    if not hardy:
        late = in_summer(climate, on, after_weeks=SPRING_BEST_TO_WEEKS)
        reason = "Too little summer is left for it." if late else "It is tender and frost may still come."
    elif in_summer(climate, on, after_weeks=SPRING_BEST_TO_WEEKS, before_weeks=autumn_rule(plant).opens):
        reason = "Summer heat is hard on new roots; if you must, plant in the evening, water and shade it."
    elif coming.opens - on > weeks(TOO_EARLY_WEEKS):
        reason = "It is too late in the year: the ground may freeze before it has rooted."
    else:
        reason = "It is too early: the ground may still be frozen or too wet to dig."
    return frosts(climate, on.year).said(f"{reason} {again}")
