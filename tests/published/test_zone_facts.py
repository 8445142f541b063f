"""Hardiness zones against printed tables, °F of the mean annual extreme minimum."""

import pytest

from cuttings.climate.zones import HALF_ZONES, middle_c, zone_limits_f, zone_of

HALF = {
    "2a": (-50, -45), "2b": (-45, -40), "3a": (-40, -35), "4b": (-25, -20), "5a": (-20, -15),
    "5b": (-15, -10), "6a": (-10, -5), "7a": (0, 5),
}  # fmt: skip
"""thevegetablegarden.info, after the USDA table of 1990: USDA Hardiness Zones and Average Annual Minimum
Temperature Range."""

WHOLE = {"9": (20, 30), "10": (30, 40)}
"""LocalHarvest: USDA Zones."""

LOWER_LIMITS_C = (
    -51.1, -48.3, -45.6, -42.8, -40.0, -37.2, -34.4, -31.7, -28.9, -26.1, -23.3, -20.6, -17.8, -15.0, -12.2,
    -9.4, -6.7, -3.9, -1.1, 1.7, 4.4, 7.2, 10.0, 12.8, 15.6, 18.3,
)  # fmt: skip
"""The lower limits of the twenty-six half zones, 1a to 13b, as two pages print them alike: permawiki.org:
Hardiness zone, and worldofsucculents.com: USDA Hardiness Zones."""


@pytest.mark.parametrize(("zone", "limits"), [*HALF.items(), *WHOLE.items()])
def test_a_zone_spans_what_is_printed(zone: str, limits: tuple[int, int]) -> None:
    assert zone_limits_f(zone) == limits


def test_all_half_zones_have_their_printed_lower_limits() -> None:
    assert len(LOWER_LIMITS_C) == HALF_ZONES
    for number, lower_c in enumerate(LOWER_LIMITS_C):
        zone = f"{number // 2 + 1}{'ab'[number % 2]}"
        low_f, high_f = zone_limits_f(zone)
        assert (low_f - 32) / 1.8 == pytest.approx(lower_c, abs=0.06)
        assert high_f - low_f == 5
        assert zone_of(middle_c(zone)) == zone


@pytest.mark.parametrize(
    ("record_f", "zone"), [(-10.0, "6a"), (-10.1, "5b"), (0.0, "7a"), (10.4, "8a"), (69.0, "13b")]
)
def test_a_mean_of_coldest_nights_falls_into_its_zone(record_f: float, zone: str) -> None:
    """USDA/PRISM announcement (by way of East Oahu news): New Plant Hardiness Map Unveiled: the mean of the
    annual extreme minima, not the record low. That a limit belongs to the warmer zone is common
    practice."""
    assert zone_of((record_f - 32) / 1.8) == zone
