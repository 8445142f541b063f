"""Light classes and their hours."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.placement.light import LIMITS, LightLimits, light_of_hours, site_light, steps_away
from cuttings.words import Light
from tests.placement.beds import BED


@given(st.floats(0, 24), st.floats(0, 24))
def test_more_sun_never_makes_a_darker_class(some: float, other: float) -> None:
    order = list(Light)
    low, high = sorted((some, other))
    assert order.index(light_of_hours(high)) <= order.index(light_of_hours(low))


def test_another_growers_table_can_be_used() -> None:
    by_thirds = LightLimits(full_sun_h=6.0, part_sun_h=3.0, part_shade_h=3.0, source="a grower")
    assert light_of_hours(3.5) is Light.PART_SHADE
    assert light_of_hours(3.5, by_thirds) is Light.PART_SUN


@pytest.mark.parametrize("hours", [-0.1, 24.5, float("nan")])
def test_hours_no_day_has_are_refused(hours: float) -> None:
    with pytest.raises(ValueError, match="0 to 24 hours"):
        light_of_hours(hours)


def test_hours_say_more_than_the_class_somebody_gave() -> None:
    assert site_light(evolve(BED, light=Light.SHADE, sun_hours=7.0)) is Light.FULL_SUN
    assert site_light(BED) is Light.FULL_SUN
    assert site_light(evolve(BED, light=None)) is None


def test_steps_are_counted_from_the_nearest_class_that_is_liked() -> None:
    assert steps_away((Light.FULL_SUN, Light.PART_SUN), Light.PART_SUN) == 0
    assert steps_away((Light.FULL_SUN, Light.PART_SUN), Light.SHADE) == 2
    assert steps_away((Light.SHADE,), Light.FULL_SUN) == -3


def test_the_limits_name_their_source() -> None:
    assert ": " in LIMITS.source
