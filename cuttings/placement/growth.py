"""How wide a plant is, so many years after it was planted.

A young plant takes up ``START_SHARE`` of its full width and widens by the same amount every year until it is
full grown: growers' tables of slow, medium and fast speak of so much a year, too. How many years it takes
follows from its kind and its rate of growth. It is an estimate: soil, water and the knife count for more.
"""

from collections.abc import Mapping
from datetime import date

from attrs import frozen

from cuttings.plants.model import FROM_MEMORY, Plant
from cuttings.words import PlantType

SLOW, MEDIUM, FAST = "slow", "medium", "fast"

DAYS_A_YEAR = 365.25

START_SHARE = 0.2
"""The share of its full width that a plant has on the day it is planted; from memory, a plant from a pot."""


@frozen
class Years:
    """The years from planting to full width, and who says so."""

    years: float
    source: str = FROM_MEMORY


_THIRD_SEASON = Years(3, "Sunrise Gardens: Perennial plantings; My Garden Insider: Growth")
"""Full effect in about three years, https://sunrisegardensllc.com/perennial-plantings.html;
full height and spread in the third season, http://www.mygardeninsider.com/qr/perennials/growth"""

_HOSTA = Years(5, "Biology Insights: How long does it take hostas to grow")
"""A slow perennial: three to five years to its full size, the large ones five,
https://biologyinsights.com/how-long-does-it-take-hostas-to-grow"""

_TWO_SEASONS = Years(2, "Backyard Answer: How long does it take ornamental grass to grow")
"""Two seasons to their mature size, https://backyardanswer.com/how-long-does-it-take-ornamental-grass-to-grow/"""

_GRASS = Years(3, "Van Bakel Greenhouse: Ornamental grasses")
"""Warm-season grasses are at their fullest in season three,
https://www.vanbakelgreenhouse.com/ornamental-grasses.html"""

_LAVENDER = "Biology Insights: Does lavender spread quickly"
"""A sub-shrub becomes a rounded mound in three to five years,
https://biologyinsights.com/does-lavender-spread-quickly"""

_QUICK_SHRUB = Years(4, "Thornscapes: planning for a mature landscape")
"""Three to five years for a shrub or small tree, https://thornscapes.com/?p=390"""

_LABELLED_SHRUB = Years(10, "Portland Press Herald: When does ultimate size not mean ultimate size, 2020")
"""The full size that labels and catalogues give is that after about ten years,
https://www.pressherald.com/2020/09/06/q-when-does-ultimate-size-not-mean-ultimate-size/"""

_TREE = Years(20, "Conservation Digest, after the USDA Plants Database: Height at base age")
"""The age at which the size of a tree in temperate ground is told; that of a shrub is ten years,
https://conservationdigest.com/glossary/height-base-age-maximum/"""

_HERBACEOUS = {FAST: Years(2), MEDIUM: _THIRD_SEASON, SLOW: _HOSTA}

YEARS_TO_FULL: Mapping[PlantType, Mapping[str, Years]] = {
    PlantType.PERENNIAL: _HERBACEOUS,
    PlantType.TENDER_PERENNIAL: _HERBACEOUS,
    PlantType.HERB: _HERBACEOUS,
    PlantType.FERN: {FAST: Years(3), MEDIUM: Years(4), SLOW: Years(6)},
    PlantType.BULB: {FAST: Years(2), MEDIUM: Years(4), SLOW: Years(6)},
    PlantType.GRASS: {FAST: _TWO_SEASONS, MEDIUM: _GRASS, SLOW: Years(5)},
    PlantType.SUBSHRUB: {FAST: Years(3, _LAVENDER), MEDIUM: Years(4, _LAVENDER), SLOW: Years(5, _LAVENDER)},
    PlantType.SHRUB: {FAST: _QUICK_SHRUB, MEDIUM: Years(7), SLOW: _LABELLED_SHRUB},
    PlantType.CLIMBER: {FAST: Years(4), MEDIUM: Years(6), SLOW: Years(10)},
    PlantType.TREE: {FAST: Years(15), MEDIUM: _TREE, SLOW: Years(30)},
}
"""The years from planting to full width, by the kind of plant and its rate of growth."""


def years_to_full(plant: Plant | None) -> Years:
    """How many years a plant takes to its full width; one nobody knows is a middling perennial."""
    if plant is None:
        return YEARS_TO_FULL[PlantType.PERENNIAL][MEDIUM]
    return YEARS_TO_FULL[plant.type][plant.growth or MEDIUM]


def share_grown(plant: Plant | None, planted: date | None, day: date) -> float:
    """The share of its full size that a plant has on a day, 0 to 1; all of it where nobody knows when it was
    planted. The share before it was planted is that of the day it was."""
    if planted is None:
        return 1.0
    years = max((day - planted).days, 0) / DAYS_A_YEAR
    return min(START_SHARE + (1.0 - START_SHARE) * years / years_to_full(plant).years, 1.0)


def full_grown_on(plant: Plant | None, planted: date) -> int:
    """The year by whose end a plant has its full width."""
    year = planted.year
    while share_grown(plant, planted, date(year, 12, 31)) < 1.0:
        year += 1
    return year
