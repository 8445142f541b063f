"""Plants to an area, and hours of sun to a class, against what growers publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

from collections import Counter

import pytest

from cuttings.placement.light import light_of_hours
from cuttings.placement.musts import WALNUT_REACH_M
from cuttings.placement.spacing import (
    ROW_SPACING,
    PatchEdge,
    Pattern,
    spacing_count,
    spacing_positions,
)
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
    ("inches", "to_the_square_foot"), [(6, 4), (8, 2.25), (10, 1.44), (12, 1), (18, 0.44), (24, 0.25)]
)
def test_plants_to_the_square_foot(inches: int, to_the_square_foot: float) -> None:
    """Iowa State University Extension: Determining plant quantity, 1992,
    https://hortnews.extension.iastate.edu/1992/4-29-1992/quant.html"""
    count = spacing_count(TEN_FEET, TEN_FEET, inches * METRES["in"], edge=PatchEdge.BY_AREA)
    assert count == round(100 * to_the_square_foot)


def test_eleven_to_the_square_metre_at_30_cm() -> None:
    """ABC Gardening Australia: Plant spacing, series 20, https://www.abc.net.au/gardening/factsheets/plant-spacing/9429718"""
    assert spacing_count(1.0, 1.0, 0.3, edge=PatchEdge.BY_AREA) == 11


HECTARE = 100.0
ACRE_SIDE = 43_560**0.5 * METRES["ft"]


def test_plants_to_the_hectare_on_the_triangle() -> None:
    """Legitlads: Triangular planting density (2,887 to the hectare at 2 m, 15.5 % more than on the square),
    https://legitlads.com/hub/tools/farming-hub/crop-planning/triangular-planting-density-calculator"""
    count = {each: spacing_count(HECTARE, HECTARE, 2.0, each, PatchEdge.BY_AREA) for each in Pattern}
    assert count[Pattern.TRIANGLE] == pytest.approx(2887, abs=1)  # it rounds 2886.75 up, we do not
    assert count[Pattern.TRIANGLE] / count[Pattern.SQUARE] == pytest.approx(
        1.155, abs=0.001
    )  # of whole trees


@pytest.mark.parametrize("feet", [8, 10, 15, 20, 25])
def test_a_triangle_takes_fifteen_in_a_hundred_more_trees_to_the_acre(feet: int) -> None:
    """Green Tree Nursery: Planting patterns (43,560 over the square of the distance, and 15 % more on the
    triangle), http://greentreenursery.com/information/planting-patterns/"""
    spacing = feet * METRES["ft"]
    square = spacing_count(ACRE_SIDE, ACRE_SIDE, spacing, Pattern.SQUARE, PatchEdge.BY_AREA)
    triangle = spacing_count(ACRE_SIDE, ACRE_SIDE, spacing, Pattern.TRIANGLE, PatchEdge.BY_AREA)
    assert square == int(43_560 / feet**2)
    assert triangle == pytest.approx(43_560 / feet**2 * 1.15, rel=0.01)


def test_trees_nine_feet_apart_to_the_acre() -> None:
    """University of Georgia, Warnell School of Forestry: Number of trees per acre by spacing distance (about
    538), https://online.documentine.com/how-many-feet-in-an-acre/1/number-of-trees-per-acre-by-spacing-distance.html"""
    count = spacing_count(ACRE_SIDE, ACRE_SIDE, 9 * METRES["ft"], edge=PatchEdge.BY_AREA)
    assert count == pytest.approx(538, abs=1)  # 537.8, of which the 0.8 is no tree


def test_trees_that_stand_on_one_acre_25_feet_apart() -> None:
    """Oklahoma Experiment Station, Circular 20, as quoted in The Principles of Fruit-Growing, 1915: 64 on the
    square, 67 on the triangle, https://origin-www.alibris.com/The-Principles-of-Fruit-Growing-with-Applications-to-Practice/book/30740034

    The circular's 67 are nine rows that begin with one of seven trees: 5 x 7 + 4 x 8. Ours begin with one of
    eight, which makes 5 x 8 + 4 x 7, one more tree on the same ground.
    """
    spacing = 25 * METRES["ft"]
    assert spacing_count(ACRE_SIDE, ACRE_SIDE, spacing, Pattern.SQUARE, PatchEdge.HALF_IN) == 64
    trees = spacing_positions(ACRE_SIDE, ACRE_SIDE, spacing, Pattern.TRIANGLE, PatchEdge.HALF_IN)
    rows = sorted(Counter(y for _, y in trees).items())
    assert [count for _, count in rows] == [8, 7, 8, 7, 8, 7, 8, 7, 8]
    assert sum(count for _, count in rows[1:]) + 7 == 67


@pytest.mark.parametrize(("pattern", "plants"), [(Pattern.SQUARE, 70), (Pattern.TRIANGLE, 68)])
def test_a_small_bed_may_hold_fewer_on_the_triangle_than_on_the_square(pattern: Pattern, plants: int) -> None:
    """Plain geometry: 4 x 1.2 m at 0.30 m with plants on its edge are 5 rows of 14, or 3 of 14 and 2 of 13;
    the fifteen in a hundred of the tables are those of ground without edges."""
    assert spacing_count(4.0, 1.2, 0.30, pattern, PatchEdge.ON) == plants


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
