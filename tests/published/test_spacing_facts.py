"""Plants to an area, and hours of sun to a class, against what growers publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

import pytest

from cuttings.placement.light import light_of_hours
from cuttings.placement.musts import WALNUT_REACH_M
from cuttings.placement.spacing import ROW_SPACING, PatchEdge, Pattern, spacing_count
from cuttings.units import METRES
from cuttings.words import Light

TEN_FEET = 10 * METRES["ft"]


@pytest.mark.parametrize(
    ("inches", "plants"),
    [(4, 900), (6, 400), (8, 225), (10, 144), (12, 100), (15, 64), (18, 44), (24, 25), (36, 11)],
)
def test_plants_to_a_hundred_square_feet(inches: int, plants: int) -> None:
    """Glover Perennials: Groundcover spacing chart, https://gloverperennials.com/?p=2150"""
    spacing = inches * METRES["in"]
    assert spacing_count(TEN_FEET, TEN_FEET, spacing, edge=PatchEdge.BY_AREA) == plants


@pytest.mark.parametrize(
    ("inches", "plants"), [(4, 900), (6, 400), (8, 225), (10, 144), (12, 100), (15, 64), (24, 25)]
)
def test_where_the_spacing_divides_the_bed_the_grid_holds_what_the_chart_says(
    inches: int, plants: int
) -> None:
    """The rows of the same chart whose spacing goes into ten feet a whole number of times."""
    spacing = inches * METRES["in"]
    assert spacing_count(TEN_FEET, TEN_FEET, spacing, edge=PatchEdge.HALF_IN) == plants


def test_a_triangle_holds_some_fifteen_in_a_hundred_more() -> None:
    """Bloomin Designs: How many plants do you need?, https://www.bloomindesigns.com/plant-calculator/
    (100 sq ft at 12 in: 115 plants, rows 10.392 in apart; 13.5 in: 0.79 plants to the square foot)"""
    foot = METRES["ft"]
    assert spacing_count(TEN_FEET, TEN_FEET, foot, Pattern.TRIANGLE, PatchEdge.BY_AREA) == 115
    assert pytest.approx(10.392, abs=0.001) == 12 * ROW_SPACING
    assert spacing_count(TEN_FEET, TEN_FEET, 13.5 * METRES["in"], edge=PatchEdge.BY_AREA) == 79


@pytest.mark.parametrize(
    ("hours", "light"),
    [
        (6.5, Light.FULL_SUN),
        (6.0, Light.FULL_SUN),
        (5.9, Light.PART_SUN),
        (4.0, Light.PART_SUN),
        (3.9, Light.PART_SHADE),
        (2.0, Light.PART_SHADE),
        (1.9, Light.SHADE),
        (0.0, Light.SHADE),
    ],
)
def test_hours_of_sun_to_a_class(hours: float, light: Light) -> None:
    """Part sun 4 to 6 hours, part shade 2 to 4, full shade under 2: Beatrice Daily Sun (garden column), Right
    plant, right place,
    https://beatricedailysun.com/opinion/columnists/right-plant-right-place/article_83328130-a3e3-50d8-8b68-83df03ee442c.html
    """
    assert light_of_hours(hours) is light


def test_part_sun_is_four_to_six_hours() -> None:
    """Old Farmer's Almanac (American Horticultural Society definitions): Shade garden and plant shade
    definitions, https://cdn.almanac.com/shade-garden-and-plant-shade-definitions"""
    assert {light_of_hours(hours) for hours in (4.0, 5.0, 5.9)} == {Light.PART_SUN}


def test_partial_shade_has_at_least_two_hours() -> None:
    """Colorado State University Extension: Defining full sun, light shade, partial shade, full shade and deep
    shade, as quoted at
    https://redlib.baczek.me/r/DenverGardener/comments/1k0o656/defining_full_sun_light_shade_partial_shade_full"""
    assert light_of_hours(2.0) is Light.PART_SHADE
    assert light_of_hours(1.99) is not Light.PART_SHADE


def test_walnut_roots_reach_up_to_eighty_feet() -> None:
    """Ohio State University Extension: Black Walnut Toxicity to Plants, Humans and Horses (HYG-1148-93),
    https://lists.ibiblio.org/sympa/nomenu/arc/permaculture/2005-03/msg00093.html"""
    assert pytest.approx(80 * METRES["ft"]) == WALNUT_REACH_M
