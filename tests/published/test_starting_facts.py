"""Cuttings, layers, divisions and potting on against what extension services publish.

Each check restates one published fact, with its publisher, title and address.
"""

import pytest

from cuttings.plants.standard import standard
from cuttings.rules.aftercare import PURDUE, Leaf, trim
from cuttings.rules.division import pieces_from_count
from cuttings.rules.pots import parse_pot
from cuttings.rules.potting import LADDER, next_pot
from cuttings.rules.starting import SET, how_to_layer, how_to_strike
from cuttings.units import METRES
from cuttings.words import Method, Units, Wood

INCH = METRES["in"]


def test_softwood_is_four_to_six_inches_long_and_half_of_it_stays_out() -> None:
    """University of Nebraska-Lincoln Backyard Farmer: Propagation With Softwood, Semi-hardwood and Hardwood
    Cuttings: cuttings of 4 to 6 inches, about half of each above the medium, http://byf.unl.edu/Cuttings1"""
    length = standard().way(Method.SOFTWOOD_CUTTING).length_m
    assert length == pytest.approx((4 * INCH, 6 * INCH), abs=0.003)
    assert SET[Wood.SOFTWOOD][0].startswith("Set a third to half of it")


def test_hardwood_is_four_to_twelve_inches_long_with_two_nodes_or_more() -> None:
    """Iowa State University Extension and Outreach (via KCII Radio): Consider Hardwood Stem Cuttings to Begin
    New Plants, 2017: 4 to 12 inches, at least two nodes, cut just below one at the foot and half an inch to
    an inch above one at the top, http://kciiradio.com/2017/02/consider-hardwood-stem-cuttings-to-begin-new-plants/"""
    way = standard().way(Method.HARDWOOD_CUTTING)
    assert way.length_m == pytest.approx((4 * INCH, 12 * INCH), abs=0.006)
    said = how_to_strike(way, Wood.HARDWOOD, Units.US, evergreen=False)[0].value
    assert "at least two nodes" in said
    assert "just below a node at the base" in said


def test_a_leaf_is_set_by_no_more_than_an_inch_and_a_half_of_its_stalk() -> None:
    """NC State Extension: Plant Propagation by Leaf, Cane, and Root Cuttings: a leaf with up to 1.5 inches of
    its stalk, the end of which goes into the medium,
    https://content.ces.ncsu.edu/publication/plant-propagation-by-leaf-cane-and-root-cuttings-instructions-for-the-home-gardener"""
    assert "2 to 3 cm" in SET[Wood.LEAF][0]
    assert 1.5 * INCH >= 0.03


def test_a_layer_keeps_six_to_eight_inches_of_tip_out() -> None:
    """The Eagle (Bryan-College Station): Fall is time for propagating plants, 2021: the stem is bent 6 to 8
    inches from its end and pinned under the soil,
    https://theeagle.com/brazos_life/skip-richter-fall-is-time-for-propagating-plants/article_ffd58128-2c57-11ec-b4ff-1b79533814fb.html"""
    said = how_to_layer(standard().way(Method.SIMPLE_LAYER), Units.US)[0].value
    assert "leave 6 to 12 in of tip out" in said


def test_the_top_of_a_small_rooted_layer_is_cut_to_suit_its_roots() -> None:
    """Purdue University Plant Propagation: Care of Layered Plants: a small root system may not supply many
    leaves, so the top is trimmed in proportion, https://hort.purdue.edu/plantprop/WebVersion/Layering/5_5.html

    The page names no share; the third is ours and says so."""
    advice = trim(Method.SIMPLE_LAYER, Leaf.MUCH)
    assert advice.source == PURDUE
    assert "from memory" in advice.sure


def test_a_piece_of_hosta_keeps_two_or_three_crowns() -> None:
    """University of Arkansas Cooperative Extension: Reference Desk: Dividing, January 2012: two or three
    crowns to a division of hosta, since single ones come back slowly; a clump has six or more,
    https://www.uaex.uada.edu/yard-garden/in-the-garden/reference-desk/perennials/dividing.aspx"""
    division = standard().plant("Hosta").division
    assert division is not None
    for crowns in range(6, 40):
        assert 2 <= crowns / pieces_from_count(division, crowns).value <= 3


def test_a_piece_of_daylily_keeps_two_or_three_fans() -> None:
    """University of Minnesota Extension (via Ask Extension, 2014): Growing daylilies: two to three fans to a
    division, https://ask.extension.org/questions/216335"""
    division = standard().plant("Hemerocallis").division
    assert division is not None
    assert division.counted_in == "fans"
    for fans in range(4, 40):
        assert 2 <= fans / pieces_from_count(division, fans).value <= 3


@pytest.mark.parametrize("units", list(Units))
def test_potting_on_goes_one_or_two_sizes_up(units: Units) -> None:
    """Laidback Gardener: Repot into only a slightly bigger pot, 2016: one or two sizes at a time,
    https://laidbackgardener.blog/2016/02/02/repot-into-only-a-slightly-bigger-pot/"""
    ladder = LADDER[units]
    for place, name in enumerate(ladder[:-1]):
        up = ladder.index(next_pot(parse_pot(name, units), units).value.name)
        assert 1 <= up - place <= 2
