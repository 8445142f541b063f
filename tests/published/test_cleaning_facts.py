"""What cleans pots, blades and benches against what extension services publish.

Each check copies one published fact, restated, with its publisher, title and address.
"""

import pytest

from cuttings.rules.cleaning import (
    ALCOHOL,
    ALCOHOL_PERCENT,
    BLEACH,
    BLEACH_KEEPS_HOURS,
    CAUTIONS,
    HOT,
    PEROXIDE,
    QUATERNARY,
    STEAM,
    WASH_FIRST,
    bleach_soak,
)
from cuttings.units import celsius_to_fahrenheit


def fahrenheit(celsius: tuple[float, float] | None) -> tuple[float, float]:
    assert celsius is not None
    return celsius_to_fahrenheit(celsius[0]), celsius_to_fahrenheit(celsius[1])


def test_one_part_of_bleach_in_nine_of_water_for_ten_minutes() -> None:
    """Iowa State University Extension: How do I sanitize my pruners to prevent the spread of disease?,
    https://hortnews.extension.iastate.edu/faq/how-do-i-sanitize-my-pruners-prevent-spread-disease: 9 parts of
    water and 1 of bleach, the bleach added to the water, ten minutes at least, used within two hours, then
    rinsed.

    Penn State Extension: Disinfecting Tools, Equipment, Pots, Flats and Benches,
    https://extension.psu.edu/disinfecting-tools-equipment-pots-flats-and-benches: 1 gallon in 9 of water,
    containers under it for ten minutes.
    """
    soak = bleach_soak(10)
    assert (soak.bleach_l, soak.water_l) == pytest.approx((1.0, 9.0))
    assert (BLEACH.minutes, BLEACH_KEEPS_HOURS) == (10, 2)
    assert "bleach into the water" in BLEACH.how
    assert "rinse" in BLEACH.how


def test_the_sources_that_want_it_stronger_or_longer_are_known() -> None:
    """University of Florida, quoted by Ask Extension: Cleaning pruning tools, 2012,
    https://ask.extension.org/questions/111201: 1 part in 3 of water. Garden Club by the Sea: Keep Your Tools
    Clean, 2018, https://www.garden-club-by-the-sea.org/single-post/2018/02/10/keep-your-tools-clean: 30
    minutes. The weaker and shorter of two extension services is ours, told as the least."""
    soak = bleach_soak(10)
    assert soak.bleach_l / soak.water_l < 1 / 3
    assert BLEACH.minutes is not None
    assert BLEACH.minutes <= 30


def test_the_soak_is_about_half_a_percent_whatever_the_bleach() -> None:
    """phytosphere.com: Sanitizing tools and surfaces, http://phytosphere.com/BMPsnursery/phytosan2_3.htm:
    freshly diluted bleach of 0.525 % sodium hypochlorite."""
    for percent in (5.25, 6.0, 8.25, 10.0):
        soak = bleach_soak(7, percent)
        assert soak.bleach_l * percent / 7 == pytest.approx(0.525)
        assert soak.bleach_l + soak.water_l == pytest.approx(7)
        assert soak.percent == pytest.approx(0.525)


def test_blades_are_wetted_with_seventy_percent_alcohol() -> None:
    """The same page: 70 to 90 % alcohol, left to dry. Iowa State, as above: 70 % as it is sold, no soak, and
    not for apples with fire blight. Penn State, as above: not rinsed."""
    assert ALCOHOL_PERCENT == (70, 90)
    assert ALCOHOL.minutes is None
    assert "no soak, no rinse" in ALCOHOL.how
    assert "fire blight" in ALCOHOL.how


def test_steam_or_dry_heat_for_half_an_hour() -> None:
    """Penn State, as above: 180 to 200 °F for 30 minutes under a cover."""
    assert fahrenheit(STEAM.celsius) == pytest.approx((180, 200))
    assert STEAM.minutes == 30


def test_hot_water_for_three_minutes() -> None:
    """stuewe.com: nursery notes of January 2016, after Dumroese and others 2002,
    http://www.stuewe.com/blog/2016/01/: 165 to 185 °F for 15 to 90 seconds by the kind of pot; more than 3
    minutes where it is 158 to 176 °F."""
    assert fahrenheit(HOT.celsius) == pytest.approx((165, 185))
    assert HOT.minutes == 3


def test_products_that_differ_go_by_their_label() -> None:
    """Kent Cooperative Extension: Disinfectants for Greenhouses and Propagation Houses, 2008,
    http://kentcoopextension.blogspot.com/2008/10/greenhouse-and-nursery.html: by the label's directions.
    Purdue University, Vegetable Crops Hotline: Fall Clean and Sanitize, 2017,
    https://vegcropshotline.org/article/fall-clean-and-sanitize/: products labelled for it, not the skin's
    peroxide."""
    for cleaner in (PEROXIDE, QUATERNARY):
        assert cleaner.strength == "as the label says"
        assert cleaner.minutes is None
    assert "not the peroxide for the skin" in PEROXIDE.how


def test_dirt_comes_off_first_and_soap_before_quaternary_ammonium() -> None:
    """UMass Extension: Cleaning and Disinfecting the Greenhouse,
    https://ag.umass.edu/fact-sheets/cleaning-disinfecting-greenhouse: soil and residues weaken disinfectants,
    and soap left behind can undo the quaternary ones. Penn State, as above: wash before."""
    assert "Brush and wash off" in WASH_FIRST
    assert "Rinse soap off first" in QUATERNARY.how


def test_bleach_is_mixed_with_nothing() -> None:
    """Centers for Disease Control and Prevention: Cleaning and Disinfecting Your Facility, 2020 (CS316270A):
    never with ammonia or any other cleanser; gloves, air, the label. magnifiedts.com: Dangerous Gases in the
    Home, 2016, http://www.magnifiedts.com/dangerous-gases-in-the-home/: nor with acids such as vinegar."""
    gas = CAUTIONS[0].text
    assert all(word in gas for word in ("Never mix", "ammonia", "vinegar", "acid", "any other cleaner"))
    assert all(word in CAUTIONS[1].text for word in ("gloves", "windows open", "label first"))
