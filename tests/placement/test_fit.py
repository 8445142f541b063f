"""What speaks for and against a plant on a site."""

from collections.abc import Sequence

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Growing, Site
from cuttings.placement.fit import Fit, judged, verdicts
from cuttings.placement.musts import LIGHT_ONE_OFF, MOISTURE_ONE_OFF
from cuttings.placement.verdict import Question
from cuttings.plants.model import Bloom, Caution, Plant
from cuttings.plants.standard import standard
from cuttings.units import METRES
from cuttings.words import Drainage, Light, Moisture, PathSide, PlantType, Units
from tests.placement.beds import BED, COLD, CURRANT, HEUCHERA, NOWHERE, SOUTHERN, UNHEARD_OF, plants, sites


def of(
    plant: Plant,
    site: Site,
    units: Units = Units.US,
    climate: Climate = COLD,
    *,
    mother_site: str = "",
    neighbours: Sequence[Plant] = (),
    about: Sequence[Plant] = (),
) -> Fit:
    asked = Question(plant, site, climate, units, mother_site, neighbours, (*neighbours, *about))
    return judged(site.name, verdicts(asked))


def test_a_site_that_gives_all_it_wants_scores_one() -> None:
    found = of(CURRANT, BED)
    assert found.score == 1.0
    assert found.allowed
    assert not found.against
    assert "Full sun suits it." in found.for_


@pytest.mark.parametrize(
    ("site", "because", "would_fit_if"),
    [
        (
            evolve(BED, light=Light.SHADE),
            "It needs full sun or part sun, and this site has shade.",
            "if the shade over it were thinned to let in 2 hours of sun a day",
        ),
        (
            evolve(BED, ph=8.0),
            "It wants pH 5.5 to 7, and the soil here has 8.",
            "if the soil were brought down to 7.5",
        ),
        (
            evolve(BED, max_height_m=2 * METRES["ft"]),
            "It grows 2 ft 11 in to 4 ft 11 in tall, and nothing over 2 ft may stand here.",
            "if it were kept under 2 ft",
        ),
    ],
)
def test_a_refusal_says_why_and_what_would_lift_it(site: Site, because: str, would_fit_if: str) -> None:
    found = of(CURRANT, site)
    assert found.refused == (because,)
    assert found.would_fit_if == would_fit_if
    assert found.score == 0.0


def test_two_refusals_have_a_cure_of_two_and_three_have_none() -> None:
    dark_and_low = evolve(BED, light=Light.SHADE, max_height_m=0.5)
    found = of(CURRANT, dark_and_low, Units.METRIC)
    assert len(found.refused) == 2
    assert found.would_fit_if == (
        "if the shade over it were thinned to let in 2 hours of sun a day, and if it were kept under 50 cm"
    )
    assert of(CURRANT, evolve(dark_and_low, ph=9.0)).would_fit_if == ""


@pytest.mark.parametrize(
    ("liked", "here", "said"),
    [
        (
            Light.FULL_SUN,
            Light.PART_SHADE,
            "if the shade over it were thinned to let in 4 hours of sun a day",
        ),
        (Light.SHADE, Light.PART_SUN, "if something shaded it to less than 4 hours of sun a day"),
        (Light.PART_SHADE, Light.FULL_SUN, "if something shaded it to less than 6 hours of sun a day"),
    ],
)
def test_the_cure_for_light_is_the_smallest_that_would_do(liked: Light, here: Light, said: str) -> None:
    plant = evolve(CURRANT, light=(liked,))
    assert of(plant, evolve(BED, light=here)).would_fit_if == said
    hours = float(said.split(" hours")[0].split(" ")[-1])
    cured = evolve(BED, light=None, sun_hours=hours if here is Light.PART_SHADE else hours - 0.1)
    assert of(plant, cured).allowed


def test_one_class_of_light_away_is_only_against() -> None:
    darker, brighter = of(CURRANT, evolve(BED, light=Light.PART_SHADE)), of(HEUCHERA, BED)
    assert darker.against == ("It likes full sun or part sun better; in part shade it may flower less.",)
    assert brighter.against == ("It likes part sun or part shade better; in full sun it may scorch.",)


def test_the_score_is_the_product_of_what_speaks_against_it() -> None:
    found = of(CURRANT, evolve(BED, light=Light.PART_SHADE, moisture=Moisture.WET))
    assert found.score == pytest.approx(LIGHT_ONE_OFF * MOISTURE_ONE_OFF)


def test_wet_ground_is_refused_to_a_lover_of_dry() -> None:
    dry = evolve(CURRANT, moisture=(Moisture.DRY,), drainage=(Drainage.SHARP,))
    found = of(dry, evolve(BED, moisture=Moisture.WET, drainage=Drainage.SLOW))
    assert found.refused == (
        "It needs dry soil, and here it is wet.",
        "It needs sharp drainage, and here it is slow.",
    )


def test_the_winter_decides_and_the_summer_only_warns() -> None:
    tender = evolve(CURRANT, zones=(8, 10))
    assert of(tender, BED).refused == ("It is hardy only to zone 8, and this garden is in zone 5b.",)
    warm = of(CURRANT, BED, Units.METRIC, SOUTHERN)
    assert warm.against == ("It is grown in zones 3 to 7; zone 8b may be too warm.",)


def test_only_the_top_of_its_height_over_the_limit_is_against() -> None:
    found = of(CURRANT, evolve(BED, max_height_m=1.2), Units.METRIC)
    assert found.allowed
    assert found.against == ("It grows 90 cm to 1.5 m tall and may have to be cut to 1.2 m here.",)


def test_soil_a_little_off_is_against() -> None:
    assert of(CURRANT, evolve(BED, ph=7.5)).against == (
        "It wants pH 5.5 to 7; the soil here, at 7.5, is a little off.",
    )


@pytest.mark.parametrize(
    ("juglone", "score"), [("sensitive", 0.0), ("tolerant", 1.0), ("", 0.9)]
)  # fmt: skip
def test_walnut_roots(juglone: str, score: float) -> None:
    found = of(evolve(CURRANT, juglone=juglone), evolve(BED, walnut=True))
    assert found.score == score
    if juglone == "sensitive":
        assert found.would_fit_if == "if it stood more than 80 ft from the walnut's trunk"


def test_poisonous_plants_stay_away_from_children() -> None:
    yew = evolve(CURRANT, cautions=(Caution("poison", "All of it is poisonous."),))
    assert of(yew, evolve(BED, children=True)).refused == ("It is poisonous, and children play here.",)
    assert of(yew, BED).allowed
    assert of(evolve(yew, cautions=(Caution("thorns", "It scratches."),)), evolve(BED, children=True)).allowed


def test_a_runner_is_kept_from_where_others_grow_unless_a_barrier_holds_it() -> None:
    mint = evolve(CURRANT, runs=True)
    beside = evolve(BED, growing=(Growing(plant="Iris sibirica"),))
    assert of(mint, BED).score == 1.0
    found = of(mint, beside)
    assert found.refused == ("It runs at the root and would spread into Iris sibirica.",)
    assert found.would_fit_if == "if a root barrier were sunk round it, or it grew in a bottomless tub"
    assert of(mint, evolve(beside, barrier=True)).score == 1.0


@pytest.mark.parametrize(
    ("salt", "score", "said"),
    [
        ("tolerant", 1.0, "It stands salt."),
        ("some", 0.9, "It stands some salt: rinse it in spring, and keep salted snow off it."),
        ("sensitive", 0.0, "Salt harms it, and salt comes here."),
        ("", 0.9, "Salt comes here, and nobody has said whether it stands it."),
    ],
)
def test_salt_is_asked_about_only_where_it_comes(salt: str, score: float, said: str) -> None:
    plant, salted = evolve(CURRANT, salt=salt), evolve(BED, salt=True)
    found = of(plant, salted)
    assert found.score == score
    assert said in (*found.for_, *found.against, *found.refused)
    assert of(plant, BED).score == 1.0


@pytest.mark.parametrize(("deer", "score"), [("seldom", 1.0), ("sometimes", 0.9), ("often", 0.8), ("", 0.9)])
def test_deer_count_only_where_they_come(deer: str, score: float) -> None:
    plant = evolve(CURRANT, deer=deer)
    assert of(plant, evolve(BED, deer=True)).score == score
    assert of(plant, BED).score == 1.0


def test_water_within_reach_speaks_for_a_place_and_far_off_against_it() -> None:
    near, far = of(CURRANT, evolve(BED, water_m=8.0)), of(CURRANT, evolve(BED, water_m=45.0))
    assert near.score == 1.0
    assert "Water for its first summer is 26 ft 3 in away." in near.for_
    assert far.against == ("Water is 148 ft away: in its first summer every can is carried there.",)


def test_company_that_drinks_alike_is_good_company() -> None:
    fond = evolve(CURRANT, name="Caltha palustris", moisture=(Moisture.WET,))
    sage = evolve(CURRANT, name="Salvia officinalis", moisture=(Moisture.DRY, Moisture.MEDIUM))
    assert of(fond, evolve(BED, moisture=Moisture.WET), neighbours=(sage,)).against == (
        "Salvia officinalis beside it wants less water.",
    )
    assert "What grows here wants the same water." in of(CURRANT, BED, neighbours=(sage,)).for_


def test_flowers_count_for_the_whole_area() -> None:
    early, late = evolve(CURRANT, bloom=Bloom((4,))), evolve(CURRANT, bloom=Bloom((7,)))
    said = "It flowers in July, when nothing known in kitchen side does."
    assert said in of(late, BED, about=(early,)).for_
    assert said not in of(late, BED, about=(early, late)).for_


def test_a_climber_wants_a_wall() -> None:
    vine = evolve(CURRANT, type=PlantType.CLIMBER)
    assert of(vine, BED).score == 0.9
    assert (
        "It climbs, and there is a wall at the back." in of(vine, evolve(BED, wall_side=PathSide.BACK)).for_
    )


def test_a_steep_bank_asks_for_a_step_or_for_roots_that_hold() -> None:
    steep = evolve(BED, slope=-40.0)
    assert of(CURRANT, steep).score == 0.95
    assert of(evolve(CURRANT, runs=True), steep).score == 1.0
    assert of(CURRANT, evolve(BED, slope=10.0)).score == 1.0


def test_flowers_in_an_empty_month_speak_for_it_in_the_garden_s_own_season() -> None:
    early, late = evolve(CURRANT, bloom=Bloom((4,))), evolve(CURRANT, bloom=Bloom((7,)))
    assert (
        "It flowers in July, when nothing known in kitchen side does."
        in of(late, BED, Units.US, COLD, neighbours=(early,)).for_
    )
    assert (
        "It flowers in January, when nothing known in kitchen side does."
        in of(late, BED, Units.US, SOUTHERN, neighbours=(early,)).for_
    )
    assert not of(early, BED, Units.US, COLD, neighbours=(early,)).against


def test_the_mother_plant_s_site_is_named() -> None:
    found = of(CURRANT, BED, Units.US, COLD, mother_site="kitchen bed")
    assert found.against == ("Its mother plant grows here: elsewhere, what kills one would spare the other.",)
    elsewhere = of(CURRANT, BED, mother_site="Gate strip")
    assert "It stands apart from its mother plant, so that one mishap cannot take both." in elsewhere.for_


def test_what_nobody_has_said_is_said() -> None:
    found = of(UNHEARD_OF, evolve(BED, light=None, max_height_m=1.0, walnut=True), Units.METRIC, NOWHERE)
    assert found.allowed
    assert found.against == (
        "Nobody has said how much cold it stands.",
        "Nobody has said how bright Kitchen bed is.",
        "Nobody has said how moist it likes its soil.",
        "Nobody has said how fast its soil should drain.",
        "Nothing over 1 m may stand here, and nobody has said how tall it grows.",
        "Nobody has said whether it puts up with walnut roots.",
    )
    assert of(CURRANT, BED, Units.US, NOWHERE).against == (
        "It is hardy to zone 3, but the garden's zone is not known.",
    )


def test_only_a_plant_particular_about_its_soil_asks_for_it_to_be_measured() -> None:
    unmeasured = evolve(BED, ph=None)
    azalea = evolve(CURRANT, ph=(4.5, 6.0))
    assert of(CURRANT, unmeasured).score == 1.0
    assert of(azalea, unmeasured).against == (
        "It wants pH 4.5 to 6, and nobody has measured the soil of Kitchen bed.",
    )


@given(plants(), sites(), st.sampled_from(Units))
def test_scores_lie_between_0_and_1_and_are_0_when_refused(plant: Plant, site: Site, units: Units) -> None:
    found = of(plant, site, units)
    assert 0.0 <= found.score <= 1.0
    assert (found.score == 0.0) == bool(found.refused)
    assert found == of(plant, site, units)
    assert not (found.would_fit_if and not 1 <= len(found.refused) <= 2)
    for said in (*found.for_, *found.against, *found.refused):
        assert said[0].isupper()
        assert said.endswith(".")


@given(plants(), sites(), st.floats(0.1, 3.0))
def test_one_more_constraint_never_raises_a_score(plant: Plant, site: Site, limit: float) -> None:
    free = evolve(site, walnut=False, children=False, max_height_m=None, growing=())
    before = of(plant, free).score
    tighter = min(limit, site.max_height_m or limit)
    for more in (
        evolve(free, children=True),
        evolve(free, max_height_m=limit),
        evolve(free, growing=(Growing(plant="Salvia"),)),
        evolve(free, walnut=True),
    ):
        assert of(plant, more).score <= before
    both = evolve(free, walnut=True, children=True)
    assert of(plant, evolve(both, max_height_m=tighter)).score <= of(plant, both).score
    assert (
        of(plant, evolve(free, max_height_m=tighter)).score
        <= of(plant, evolve(free, max_height_m=limit)).score
    )


@given(plants(), sites(), st.lists(plants(), max_size=3), plants())
def test_one_more_neighbour_in_flower_never_raises_a_score_among_neighbours(
    plant: Plant, site: Site, some: list[Plant], one: Plant
) -> None:
    fewer = of(plant, site, Units.US, COLD, neighbours=some)
    more = of(plant, site, Units.US, COLD, neighbours=[*some, one])
    assert more.score <= fewer.score


def test_what_harms_only_pets_and_stock_may_stand_where_children_play() -> None:
    """Switch grass harms horses, sheep and goats that graze much of it; monkshood is deadly to anybody."""
    poisonous = "It is poisonous, and children play here."
    here = evolve(BED, children=True)
    assert poisonous not in of(standard().plant("Panicum virgatum"), here).refused
    assert poisonous in of(standard().plant("Aconitum"), here).refused
