"""Strengths and dilutions of rooting hormone against what growers and laboratories publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

import pytest

from cuttings.plants.standard import standard
from cuttings.rules.dipping import (
    NOTHING,
    STRONGEST_LIQUID_PPM,
    TRIED_ALCOHOL,
    Recommended,
    advise_dip,
    dilute,
    doubts,
    treatment,
)
from cuttings.rules.strengths import Parts, parse_strength
from cuttings.units import GRAMS, LITRES, parse_volume
from cuttings.words import DipForm, Method, Units, Wood

LIQUID, POWDER = DipForm.LIQUID, DipForm.POWDER


def test_one_ppm_is_a_milligram_a_litre_and_percent_times_ten_thousand() -> None:
    """Horticulture Guruji (HORT 221): Preparation of plant growth regulator solutions,
    https://www.horticultureguruji.in/preparation-of-plant-growth-regulator-solutions/"""
    assert parse_strength("1 mg/L", LIQUID) == parse_strength("1ppm", LIQUID) == 1
    for percent in (0.01, 0.1, 0.3, 0.8, 1, 2):
        assert parse_strength(f"{percent}%", LIQUID) == percent * 10_000


def test_a_hundredth_of_a_percent_by_weight_in_volume_is_a_hundred_ppm() -> None:
    """School slides: To investigate the effect of IAA growth regulator on plant tissue, 0.01 % w/v is 100
    ppm, https://slideplayer.com/slide/4605075/"""
    assert parse_strength("0.01% w/v", LIQUID) == 100


def test_one_millilitre_into_nine_of_water_is_a_tenth_each_time() -> None:
    """The same slides: from 100 ppm, 1 mL into 9 mL six times over, and the table of what comes of it."""
    ppm, table = 100.0, (10, 1, 0.1, 0.01, 0.001, 0.0001)
    for printed in table:
        ppm = Parts(1, 9).strength_ppm(ppm)
        assert ppm == pytest.approx(printed)
    mix = dilute(LIQUID, 100.0, 10.0, 10.0)
    assert (mix.stock, mix.diluent) == (1.0, 9.0)


def test_one_part_in_ten_and_one_part_to_ten_are_not_the_same() -> None:
    """University of Minnesota Extension (Grabowski): Back to bleach to keep pruning tools clean, 2015, writes
    1:10 for one part in ten; to other growers it is one part to ten. The two differ by a tenth.
    http://blog-yard-garden-news.extension.umn.edu/2015/04/back-to-bleach-to-keep-pruning-tools.html"""
    in_ten, to_ten = (Parts(1, rest).strength_ppm(10_000) for rest in (9, 10))
    assert in_ten == 1000
    assert to_ten == pytest.approx(909.09, abs=0.01)


def test_a_gallon_of_bleach_in_ten_by_both_systems() -> None:
    """The same page: one part of bleach in ten. Of a US gallon (3.785 L) that is 12.8 fl oz, or 379 mL; the
    units are exact by NIST Special Publication 811."""
    made = parse_volume("1gal", Units.US) * 1000
    mix = dilute(LIQUID, 10_000.0, 1000.0, made)
    assert mix.stock == pytest.approx(378.5411784)
    assert mix.stock / 1000 / LITRES["floz"] == pytest.approx(12.8)
    assert mix.diluent / 1000 / LITRES["floz"] == pytest.approx(115.2)


def test_an_ounce_in_a_hundred_gallons_is_seventy_five_ppm() -> None:
    """Texas A&M Horticulture IPM: Nutrition and fertility calculations, 1 oz in 100 gal adds 75 ppm (exactly
    74.9), http://hortipm.tamu.edu/ipmguide/nutrient/calcs.html"""
    ppm = parse_strength(f"{GRAMS['oz'] * 1000 / (100 * LITRES['gal'])} mg/L", LIQUID)
    assert ppm == pytest.approx(75, rel=0.002)


def test_a_gram_of_powder_strength_is_a_tenth_of_a_percent() -> None:
    """CSIRO, Australian Journal of Experimental Agriculture 34(8) (Dawson and King, 1994): powder of 3 g of
    IBA in a kilogram of talc, dips of 4000 mg/L, https://publish.csiro.au/EA/EA9941225

    3 g in a kilogram is the 3000 ppm of the tables; what of an 0.8 % powder makes it is plain arithmetic.
    """
    assert parse_strength("3 g/kg", POWDER) == parse_strength("0.3%", POWDER) == 3000
    assert parse_strength("4000 mg/L", LIQUID) == 4000
    mix = dilute(POWDER, parse_strength("0.8%", POWDER), parse_strength("3 g/kg", POWDER), 1000.0)
    assert mix.active_mg == pytest.approx(3000)
    assert (mix.stock, mix.diluent) == (375.0, 625.0)


def test_the_strongest_stock_sold_is_about_one_percent() -> None:
    """IPPS Proceedings 42 (Kroin 1992): Advances Using IBA Dissolved in Water (1.03 %),
    http://www.pubhort.org/ipps/42/126.htm"""
    assert parse_strength("1.03%", LIQUID) == STRONGEST_LIQUID_PPM


def test_a_quick_dip_takes_one_to_five_seconds() -> None:
    """IPPS Proceedings 50 (Geneve): Root Formation in Relationship to Auxin Uptake, 1 to 5 seconds,
    http://www.pubhort.org/ipps/50/96.htm; Longman and Wilson: Rooting Cuttings of Tropical Trees, A 40, the
    same, http://www.fao.org/docrep/006/ad231e/AD231E05.htm; HortTechnology 22(6): Winter Stem Cutting
    Propagation of Heller's Japanese Holly, one second; Australian Native Plants Society: Tips for Successful
    Plant Propagation, five seconds, http://anpsa.org.au/APOL2006/jul06-s3.html"""
    seconds = treatment(LIQUID, 2500).value.seconds
    assert seconds == (1, 5)
    assert all(seconds[0] <= published <= seconds[1] for published in (1, 5))


def test_a_soak_takes_four_to_twelve_hours_and_the_stronger_the_shorter() -> None:
    """Longman and Wilson: Rooting Cuttings of Tropical Trees, A 40, 4 to 12 hours; Sichuan forestry journal
    2017: fig, 500 mg/L for two hours, https://www.sjfsci.com/cn/article/doi/10.16779/j.cnki.1003-5508.2017.01.016

    Others differ: IPPS 50 (Geneve) has soaks of up to 48 hours, Plant Growth Regulation (Luckman and Menary):
    Eucalyptus nitens 20 mg/L for 48 hours, Journal of Horticulture (Elhaak): rosemary 60 ppm for three hours.
    """
    assert treatment(LIQUID, 60, soak=True).value.hours == (4, 12)
    assert treatment(LIQUID, 500, soak=True).value.hours == (2, 2)


def test_published_soaks_are_no_quick_dips() -> None:
    """Eucalyptus nitens 20 mg/L, rosemary 60 ppm, fig 500 mg/L, as above: none is refused as a soak."""
    for published in (20, 60, 500):
        assert treatment(LIQUID, published, soak=True).value.hours


def test_half_of_alcohol_burned_no_stem_but_lantana() -> None:
    """Mississippi State University thesis (Ray 2017): Safety of Isopropyl Alcohol as a Carrier in Auxin
    Solutions: quick dips of 1000 and 2000 ppm with 25 and 50 % alcohol burned no stems, but for lantana
    (oai:scholarsjunction.msstate.edu:td-4848)."""
    assert TRIED_ALCOHOL == 0.5
    for share in (0.25, 0.5):
        for ppm in (1000.0, 2000.0):
            assert not doubts(dilute(LIQUID, ppm / share, ppm, 500.0), None, Wood.SOFTWOOD)


def advised(name: str, wood: Wood) -> Recommended:
    catalogue = standard()
    return advise_dip(wood, catalogue.way(wood.method), catalogue.plant(name).way(wood.method)).value


LPPI = "University of Florida / IFAS: Landscape Plant Propagation Information, "

STRENGTHS = [
    ("Taxus baccata", Wood.HARDWOOD, 8000, 8000, LPPI + "sp371, in talc"),
    ("Ilex opaca", Wood.SEMI_RIPE, 8000, 8000, LPPI + "sp189, in talc"),
    ("Ilex cornuta", Wood.SEMI_RIPE, 3000, 3000, LPPI + "sp185 (dwarf Burford), in talc"),
    ("Ilex aquifolium", Wood.SEMI_RIPE, 8000, 8000, LPPI + "sp182, in talc"),
    ("Camellia reticulata", Wood.SEMI_RIPE, 8000, 8000, LPPI + "sp061, in talc"),
    (
        "Aesculus parviflora",
        Wood.SOFTWOOD,
        2500,
        2500,
        "IPPS 44:499-502 (Bir and Barnes): bottlebrush buckeye",
    ),
    (
        "Vitis",
        Wood.HARDWOOD,
        500,
        2000,
        "Mississippi State University: Grape Propagation, smallfruits.org 2025",
    ),
    (
        "Rosa multiflora",
        Wood.SEMI_RIPE,
        750,
        750,
        "Lincoln University NZ: Rooting capacity of two rose species",
    ),
]


@pytest.mark.parametrize(("name", "wood", "low", "high", "source"), STRENGTHS)
def test_published_strengths_lie_within_what_is_advised(
    name: str, wood: Wood, low: int, high: int, source: str
) -> None:
    found = advised(name, wood)
    assert found.low <= low <= high <= found.high, source


@pytest.mark.parametrize(
    ("name", "wood", "source"),
    [
        (
            "Corylus cornuta",
            Wood.SOFTWOOD,
            "HortScience (Cartabiano): four native species, hormone without effect",
        ),
        ("Ilex crenata 'Helleri'", Wood.HARDWOOD, "HortTechnology 22(6): 100 % with or without"),
        ("Ilex cornuta", Wood.HARDWOOD, "ASHS (Blythe and Sibley): auxin not needed, double dose worse"),
        ("Buxus", Wood.SEMI_RIPE, "American Boxwood Society: roots almost as well without"),
        ("Pelargonium", Wood.SOFTWOOD, "refereed abstract: P. peltatum and P. x hortorum, no difference"),
    ],
)
def test_where_hormone_was_found_of_little_use_none_is_among_what_is_advised(
    name: str, wood: Wood, source: str
) -> None:
    found = advised(name, wood)
    assert found == NOTHING or found.low == 0, source


@pytest.mark.parametrize(
    ("wood", "low", "high", "source"),
    [
        (Wood.SOFTWOOD, 1000, 1000, "Ceanothus, softwood or semi-hardwood, 1000 ppm"),
        (
            Wood.HARDWOOD,
            500,
            2000,
            "Mississippi State University: Grape Propagation, 500 to 2000 ppm by cultivar",
        ),
        (Wood.SEMI_RIPE, 3000, 8000, LPPI + "hollies and camellias, 3000 and 8000 ppm in talc"),
    ],
)
def test_published_strengths_by_wood_lie_within_the_general_range(
    wood: Wood, low: int, high: int, source: str
) -> None:
    """Ceanothus: University of New Hampshire Extension: Propagating trees and shrubs in winter, answers of
    2022 after Hartmann and Kester, https://extension.unh.edu/blog/2022/03/propagating-trees-shrubs-winter-post-webinar-qa
    """
    found = advise_dip(wood, standard().way(wood.method)).value
    assert found.low <= low <= high <= found.high, source


def test_hardwood_is_dipped_in_strengths_up_to_those_of_talc_by_plants_that_need_them() -> None:
    """The same answers: manzanita, dormant, 8000 ppm; a yew (see above) the same. More than the general range
    of hardwood, which is why the plant's own record goes first."""
    general = advise_dip(Wood.HARDWOOD, standard().way(Method.HARDWOOD_CUTTING)).value
    assert general.high < 8000 <= advised("Taxus baccata", Wood.HARDWOOD).high
