"""Hardiness zones: what is read, and the limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.zones import middle_c, parse_zone, zone_limits_f, zone_of


@pytest.mark.parametrize(("typed", "zone"), [("5b", "5b"), ("5B", "5b"), (" 6 ", "6"), ("13a", "13a")])
def test_a_zone_is_read_as_it_is_written(typed: str, zone: str) -> None:
    assert parse_zone(typed) == zone
    assert Climate(lat=42.9, zone=zone).zone_number == int(zone.rstrip("ab"))


@pytest.mark.parametrize("typed", ["", "0", "14", "5c", "b", "5bb", "zone 5"])
def test_what_is_no_zone_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="is not a hardiness zone"):
        parse_zone(typed)


@given(st.floats(-60, 30))
def test_a_coldest_night_lies_within_its_zone(coldest_c: float) -> None:
    low, high = zone_limits_f(zone_of(coldest_c))
    coldest_f = coldest_c * 1.8 + 32
    assert low - 1e-6 <= coldest_f < high + 1e-6 or not -60 <= coldest_f < 70


@pytest.mark.parametrize("zone", [f"{number}{half}" for number in range(1, 14) for half in "ab"])
def test_the_middle_of_a_half_zone_lies_in_it(zone: str) -> None:
    assert zone_of(middle_c(zone)) == zone


def test_a_whole_zone_spans_both_halves() -> None:
    assert zone_limits_f("5") == (zone_limits_f("5a")[0], zone_limits_f("5b")[1])
