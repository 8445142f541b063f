"""How fast plants grow up, against what growers publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

from datetime import date
from statistics import median

import pytest

from cuttings.placement.growth import FAST, MEDIUM, SLOW, YEARS_TO_FULL, share_grown, years_to_full
from cuttings.plants.files import PLANT_FILES
from cuttings.plants.model import Plant
from cuttings.plants.standard import data_files, standard
from cuttings.units import METRES
from cuttings.words import PlantType


def inches_a_year(kind: PlantType, growth: str) -> float:
    """What the plants of a kind and rate in the catalogue grow taller each year, the middle one of them."""
    files, catalogue = data_files(), standard()
    names = [record["name"] for name in PLANT_FILES for record in files[name]["plants"]]
    plants = [catalogue.plant(name) for name in names]
    return median(
        sum(plant.height_m) / 2 / years_to_full(plant).years / METRES["in"]
        for plant in plants
        if plant.type is kind and plant.growth == growth and plant.height_m
    )


@pytest.mark.parametrize("kind", [PlantType.TREE, PlantType.SHRUB])
@pytest.mark.parametrize(("growth", "least", "most"), [(SLOW, 0, 12), (MEDIUM, 13, 24), (FAST, 25, 200)])
def test_inches_a_year_of_slow_medium_and_fast(kind: PlantType, growth: str, least: int, most: int) -> None:
    """12 inches a year or less, 13 to 24, 25 or more. Melinda Myers: Tree and shrub growth rates,
    https://www.melindamyers.com/audio-video/melindas-garden-moment-audio-tips/trees-shrubs-roses/tree-and-shrub-growth-rates
    """
    assert least <= round(inches_a_year(kind, growth)) <= most


def test_a_perennial_is_full_grown_in_its_third_year() -> None:
    """Little growth in the first season, some in the second, full height and spread in the third. My Garden
    Insider: Growth, http://www.mygardeninsider.com/qr/perennials/growth; about three years: Sunrise Gardens,
    Perennial plantings, https://sunrisegardensllc.com/perennial-plantings.html"""
    clump = Plant("Planta ignota", PlantType.PERENNIAL)
    planted = date(2023, 5, 1)
    assert share_grown(clump, planted, date(2025, 4, 30)) < 0.8
    assert share_grown(clump, planted, date(2025, 10, 31)) == pytest.approx(1.0, abs=0.15)
    assert share_grown(clump, planted, date(2026, 5, 2)) == 1.0


def test_a_hosta_takes_three_to_five_years() -> None:
    """Biology Insights: How long does it take hostas to grow,
    https://biologyinsights.com/how-long-does-it-take-hostas-to-grow"""
    hosta = standard().plant("Hosta")
    assert 3 <= years_to_full(hosta).years <= 5
    assert YEARS_TO_FULL[PlantType.PERENNIAL][SLOW].years == 5


def test_warm_season_grasses_are_at_their_fullest_in_season_three() -> None:
    """Van Bakel Greenhouse: Ornamental grasses, https://www.vanbakelgreenhouse.com/ornamental-grasses.html;
    usually two seasons: Backyard Answer, https://backyardanswer.com/how-long-does-it-take-ornamental-grass-to-grow/
    """
    assert (YEARS_TO_FULL[PlantType.GRASS][FAST].years, YEARS_TO_FULL[PlantType.GRASS][MEDIUM].years) == (
        2,
        3,
    )


def test_lavender_takes_three_to_five_years() -> None:
    """Biology Insights: Does lavender spread quickly, https://biologyinsights.com/does-lavender-spread-quickly"""
    assert 3 <= years_to_full(standard().plant("Lavandula angustifolia")).years <= 5


def test_a_quick_shrub_takes_three_to_five_years() -> None:
    """Thornscapes, https://thornscapes.com/?p=390"""
    assert 3 <= YEARS_TO_FULL[PlantType.SHRUB][FAST].years <= 5


def test_what_a_label_calls_the_size_of_a_shrub_is_that_after_ten_years() -> None:
    """Portland Press Herald: When does ultimate size not mean ultimate size, 2020,
    https://www.pressherald.com/2020/09/06/q-when-does-ultimate-size-not-mean-ultimate-size/; Natural Pruning,
    http://naturalpruningnw.com/how-big-will-my-tree-grow/"""
    assert max(each.years for each in YEARS_TO_FULL[PlantType.SHRUB].values()) == 10


def test_the_size_of_a_tree_is_told_at_twenty_years() -> None:
    """USDA Plants Database, as quoted by Conservation Digest: Height at base age (20 years for trees of
    temperate ground, 10 for shrubs), https://conservationdigest.com/glossary/height-base-age-maximum/"""
    assert YEARS_TO_FULL[PlantType.TREE][MEDIUM].years == 20
