"""What makes one site that would do better than another: flowers when there are none, company that drinks
alike, deer, water near at hand in the first summer, and a place away from the mother plant.
"""

from collections.abc import Iterator

from cuttings.placement.verdict import FOR, NOT_SAID, Question, Verdict
from cuttings.units import show_length
from cuttings.words import Moisture, PathSide, PlantType

DRINKS_OTHERWISE = 0.9
DEER_EAT_IT = 0.8
DEER_TASTE_IT = 0.9
FAR_FROM_WATER = 0.9
BESIDE_ITS_MOTHER = 0.95
STEEP = 0.95

HOSE_M = 30.0
"""How far a hose and patience reach: further off, a can is carried all the first summer; from memory."""

STEEP_PERCENT = 25.0
"""A rise of one in four, from which bare soil washes down and water runs off; from memory."""

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December")  # fmt: skip


def flowering(asked: Question) -> Iterator[Verdict]:
    """Flowers in a month when nothing else in the area flowers are a gain (common practice)."""
    if asked.plant.bloom is None or not asked.plant.bloom.months:
        return
    there = {month for each in asked.about if each.bloom for month in each.bloom.months}
    new = [month for month in asked.plant.bloom.months if month not in there]
    if there and new:
        month = MONTHS[asked.climate.month_here(new[0]) - 1]
        yield Verdict(f"It flowers in {month}, when nothing known in {asked.site.area} does.", FOR)


def company(asked: Question) -> Iterator[Verdict]:
    """Plants that want the same water stand together, so that a bed is watered as one (common practice)."""
    liked = asked.plant.moisture
    others = [each for each in asked.neighbours if each.moisture]
    if not liked or not others:
        return
    strange = [each for each in others if _steps_between(liked, each.moisture) >= 2]
    if strange:
        wants = "less" if _middle(strange[0].moisture) < _middle(liked) else "more"
        yield Verdict(f"{strange[0].name} beside it wants {wants} water.", DRINKS_OTHERWISE)
    elif all(set(liked) & set(each.moisture) for each in others):
        yield Verdict("What grows here wants the same water.", FOR)


def _steps_between(one: tuple[Moisture, ...], other: tuple[Moisture, ...]) -> int:
    scale = list(Moisture)
    return min(abs(scale.index(a) - scale.index(b)) for a in one for b in other)


def _middle(liked: tuple[Moisture, ...]) -> float:
    scale = list(Moisture)
    return sum(scale.index(each) for each in liked) / len(liked)


def deer(asked: Question) -> Iterator[Verdict]:
    if not asked.site.deer:
        return
    match asked.plant.deer:
        case "seldom":
            yield Verdict("Deer come here, and seldom eat it.", FOR)
        case "sometimes":
            yield Verdict("Deer come here, and sometimes eat it.", DEER_TASTE_IT)
        case "often":
            yield Verdict("Deer come here, and like it: it would need a fence or a net.", DEER_EAT_IT)
        case _:
            yield Verdict("Deer come here, and nobody has said whether they eat it.", NOT_SAID)


def watering(asked: Question) -> Iterator[Verdict]:
    """In its first summer a plant lives on what it is given (common practice)."""
    away = asked.site.water_m
    if away is None:
        return
    far = show_length(away, asked.units)
    if away > HOSE_M:
        yield Verdict(f"Water is {far} away: in its first summer every can is carried there.", FAR_FROM_WATER)
    else:
        yield Verdict(f"Water for its first summer is {far} away.", FOR)


def mother(asked: Question) -> Iterator[Verdict]:
    """Two places are safer than one: a fall of snow, a vole or a disease takes a bed at a time (common
    practice)."""
    if not asked.mother_site:
        return
    if asked.mother_site.casefold() == asked.site.name.casefold():
        yield Verdict(
            "Its mother plant grows here: elsewhere, what kills one would spare the other.", BESIDE_ITS_MOTHER
        )
    else:
        yield Verdict("It stands apart from its mother plant, so that one mishap cannot take both.", FOR)


def climbing(asked: Question) -> Iterator[Verdict]:
    if asked.plant.type is not PlantType.CLIMBER:
        return
    if asked.site.wall_side is PathSide.NONE:
        yield Verdict("It climbs, and nobody has said that there is a wall or frame for it here.", NOT_SAID)
    else:
        yield Verdict(f"It climbs, and there is a wall at the {asked.site.wall_side}.", FOR)


def slope(asked: Question) -> Iterator[Verdict]:
    """On a steep bank roots that spread hold the soil, and others need a terrace (common practice)."""
    rise = asked.site.slope
    if rise is None or abs(rise) < STEEP_PERCENT:
        return
    if asked.plant.runs:
        yield Verdict("The bank is steep, and its spreading roots would hold the soil.", FOR)
    else:
        yield Verdict("The bank is steep: cut a level step for it, so that water does not run off.", STEEP)


LIKINGS = (flowering, company, deer, watering, mother, climbing, slope)
"""Every liking, in the order the reasons are shown."""
