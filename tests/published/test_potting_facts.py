"""Figures for rooting, pots and potting against what growers and extension services publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

from datetime import date, timedelta

import pytest

from cuttings.climate.climate import Climate
from cuttings.plants.model import Way
from cuttings.plants.standard import standard
from cuttings.rules.aftercare import Leaf, first_feed_days, trim
from cuttings.rules.pots import parse_pot
from cuttings.rules.potting import ready_to_pot, recommend_depth
from cuttings.rules.rooting import Bench, RootingClock
from cuttings.units import LITRES
from cuttings.words import Method, Units

IOWA = Climate(42.0, zone="5a")


@pytest.mark.parametrize(
    ("name", "litres", "gallons"),
    [
        ("#1", 2.8, 0.74),
        ("#2", 6.0, 1.6),
        ("#3", 9.0, 2.4),
        ("#5", 14.9, 3.9),
        ("#6", 19.0, 5.0),
        ("#7", 24.6, 6.5),
        ("#15", 54.9, 14.5),
        ("#25", 104.5, 27.6),
    ],
)
def test_trade_classes_hold_their_measured_fill(name: str, litres: float, gallons: float) -> None:
    """Bookcliff Gardens: A Note About Pot Sizes,
    https://bookcliffgardens.com/index.php/about-us/plant-catalog/item/currant-red-lake

    The page gives both measures; they agree to its own rounding, 2 %.
    """
    pot = parse_pot(name, Units.US)
    assert pot.volume_l == litres
    assert pot.volume_l / LITRES["gal"] == pytest.approx(gallons, rel=0.02)


def test_a_trade_gallon_is_three_quarters_of_a_gallon() -> None:
    """The same page: a #1 holds 0.74 US gallon, so a true gallon is a third more."""
    true, trade = parse_pot("1gal", Units.US), parse_pot("#1", Units.US)
    assert trade.volume_l / true.volume_l == pytest.approx(0.74, abs=0.005)


def test_roots_are_an_inch_long_before_potting() -> None:
    """University of Minnesota Extension (via Echo Press): Take cuttings from your favorite annuals, 2016,
    http://www.echopress.com/country/extension/4109229-extension-column-now-time-take-cuttings-your-favorite-annuals"""
    assert ready_to_pot(1.0 * 0.0254, Method.SOFTWOOD_CUTTING).value
    assert not ready_to_pot(0.9 * 0.0254, Method.SOFTWOOD_CUTTING).value


def test_tender_tips_root_in_four_to_six_weeks() -> None:
    """University of Minnesota Extension (via Echo Press): Take cuttings from your favorite annuals, 2016
    (coleus, geranium, begonia in perlite, covered)."""
    way = Way(Method.SOFTWOOD_CUTTING, rooting_days=(28, 42))
    clock = RootingClock.of(way, date(2026, 9, 1), IOWA, Bench.WARM)
    assert clock is not None
    assert clock.after(clock.low) == date(2026, 9, 1) + timedelta(weeks=4)
    assert clock.after(clock.high) == date(2026, 9, 1) + timedelta(weeks=6)


def test_potted_cuttings_are_first_fed_after_four_to_six_weeks() -> None:
    """Master Gardener column (NewsBreak, 2021): Over-wintering geraniums from cuttings: lightly, every four
    to six weeks, once growth resumes, https://www.newsbreak.com/news/2399026760737"""
    assert 4 * 7 <= first_feed_days(date(2026, 5, 20), IOWA).value <= 6 * 7


def test_division_tops_are_cut_to_four_to_six_inches() -> None:
    """Cornell Cooperative Extension Oneida County: Take care when dividing perennials, 2017,
    https://www.timestelegram.com/entertainmentlife/20171016/in-garden-take-care-when-dividing-perennials"""
    assert "4 to 6 inches" in trim(Method.CROWN_DIVISION, Leaf.EVEN).value


@pytest.mark.parametrize(
    ("name", "method", "inches"),
    [
        ("Narcissus", Method.BULB_OFFSET, (6, 8)),
        ("Tulipa", Method.BULB_OFFSET, (6, 8)),
        ("Galanthus nivalis", Method.BULB_OFFSET, (3, 3)),
        ("Crocus", Method.BULB_OFFSET, (3, 3)),
        ("Paeonia lactiflora", Method.CROWN_DIVISION, (1, 2)),
        ("Hemerocallis", Method.CROWN_DIVISION, (1, 1)),
    ],
)
def test_planting_depths(name: str, method: Method, inches: tuple[float, float]) -> None:
    """Bulbs: University of Illinois and Purdue (quoted on verydays.com): Spring bulb planting,
    https://verydays.com/articles_0jfmga.html. Peony: Iowa State University Extension: What is the proper
    way to divide peonies? Daylily: Ask Extension: Best time to divide day lilies and hostas, 2014. To 3 mm,
    since our figures are in round centimetres."""
    depth = recommend_depth(standard().plant(name), method).value
    assert depth is not None
    assert inches[0] * 0.0254 - 0.003 <= depth <= inches[1] * 0.0254 + 0.003
