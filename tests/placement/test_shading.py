"""What an obstacle costs, and what the skyline makes of a site nobody has judged."""

import pytest
from attrs import evolve

from cuttings.placement.light import light_of_hours, reckoned_light, season_hours, site_light, with_sun
from cuttings.placement.shading import changed_by, costs, sunshine
from cuttings.placement.skyline import evergreen
from cuttings.words import Light
from tests.placement.beds import BED, COLD, CURRANT, HEUCHERA, UNHEARD_OF
from tests.placement.obstacles import TREE, WALL

LAT, LON = 42.9, -76.1
DARK = evolve(WALL, start=85.0, end=255.0, distance_m=1.0, height_m=9.0)
SHADED = evolve(BED, light=None, obstacles=(DARK, TREE))


def test_a_site_nobody_has_judged_is_judged_by_what_stands_round_it() -> None:
    lit = with_sun(SHADED, LAT, LON, COLD)
    hours = season_hours(LAT, LON, SHADED.obstacles, COLD)
    assert site_light(SHADED) is None
    assert lit.sun_hours == pytest.approx(hours, abs=0.1)
    assert reckoned_light(SHADED, LAT, LON, COLD) is light_of_hours(hours) is Light.PART_SUN
    assert evolve(lit, sun_hours=None) == SHADED


@pytest.mark.parametrize(
    "site",
    [
        evolve(SHADED, light=Light.FULL_SUN),
        evolve(SHADED, sun_hours=9.0),
        evolve(SHADED, obstacles=()),
    ],
)
def test_what_was_told_holds_and_what_nobody_knows_is_not_guessed(site: object) -> None:
    assert with_sun(site, LAT, LON, COLD) is site  # type: ignore[arg-type]


def test_hours_are_never_cut_into_another_class() -> None:
    for height in range(10, 100, 3):
        site = evolve(SHADED, obstacles=(evolve(DARK, height_m=height / 10),))
        hours = season_hours(LAT, LON, site.obstacles, COLD)
        lit = with_sun(site, LAT, LON, COLD)
        assert lit.sun_hours is not None
        assert 0.0 <= hours - lit.sun_hours < 0.1 + 1e-9
        assert site_light(lit) is light_of_hours(hours)


def test_each_obstacle_costs_what_its_going_would_bring() -> None:
    found = costs(LAT, LON, (WALL, TREE), COLD)
    wall, tree = found.each
    assert found.now == sunshine(LAT, LON, (TREE, WALL), COLD)
    assert wall.without == sunshine(LAT, LON, (TREE,), COLD)
    assert wall.evergreen is None
    assert tree.without == sunshine(LAT, LON, (WALL,), COLD)
    assert tree.evergreen == sunshine(LAT, LON, (WALL, evergreen(TREE)), COLD)
    assert tree.evergreen.season < found.now.season < tree.without.season
    assert tree.evergreen.months[6] == found.now.months[6]
    assert tree.evergreen.months[2] < found.now.months[2] == pytest.approx(tree.without.months[2])


def test_a_new_building_tells_who_would_miss_the_sun() -> None:
    growing = {"red currant": CURRANT, "heuchera": HEUCHERA, "unheard of": UNHEARD_OF}
    change = changed_by(DARK, LAT, LON, (), COLD, growing)
    assert change.after == sunshine(LAT, LON, (DARK,), COLD)
    assert change.after.light is Light.PART_SUN
    assert change.unsuited == ()
    west = evolve(DARK, start=200.0, end=285.0)
    darker = changed_by(west, LAT, LON, (DARK,), COLD, growing)
    assert [each.plant for each in darker.unsuited] == ["red currant"]
    assert darker.unsuited[0].steps > 0
