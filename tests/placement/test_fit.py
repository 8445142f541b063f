"""What speaks for and against a plant on a site."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.ledger.places import Growing, Site
from cuttings.placement.fit import Fit, fit
from cuttings.placement.reasons import LIGHT_ONE_OFF, MOISTURE_ONE_OFF
from cuttings.plants.model import Bloom, Caution, Plant
from cuttings.plants.standard import standard
from cuttings.units import METRES
from cuttings.words import Drainage, Light, Moisture, Units
from tests.placement.beds import BED, COLD, CURRANT, HEUCHERA, NOWHERE, SOUTHERN, UNHEARD_OF, plants, sites


def of(plant: Plant, site: Site, units: Units = Units.US) -> Fit:
    return fit(plant, site, COLD, units)


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


def test_two_refusals_have_no_single_cure() -> None:
    found = of(CURRANT, evolve(BED, light=Light.SHADE, max_height_m=0.5))
    assert len(found.refused) == 2
    assert found.would_fit_if == ""


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
    warm = fit(CURRANT, BED, SOUTHERN, Units.METRIC)
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


def test_a_runner_is_against_where_others_grow() -> None:
    mint = evolve(CURRANT, runs=True)
    beside = evolve(BED, growing=(Growing(plant="Iris sibirica"),))
    assert of(mint, BED).score == 1.0
    assert of(mint, beside).against == ("It runs at the root and would spread into Iris sibirica.",)


def test_flowers_in_an_empty_month_speak_for_it_in_the_garden_s_own_season() -> None:
    early, late = evolve(CURRANT, bloom=Bloom((4,))), evolve(CURRANT, bloom=Bloom((7,)))
    assert (
        "It flowers in July, when nothing known to grow here does."
        in fit(late, BED, COLD, Units.US, neighbours=(early,)).for_
    )
    assert (
        "It flowers in January, when nothing known to grow here does."
        in fit(late, BED, SOUTHERN, Units.US, neighbours=(early,)).for_
    )
    assert not fit(early, BED, COLD, Units.US, neighbours=(early,)).against


def test_the_mother_plant_s_site_is_named() -> None:
    found = fit(CURRANT, BED, COLD, Units.US, mother_site="kitchen bed")
    assert found.for_[-1] == "Its mother plant grows here, so you can see how it does."


def test_what_nobody_has_said_is_said() -> None:
    found = fit(UNHEARD_OF, evolve(BED, light=None, max_height_m=1.0, walnut=True), NOWHERE, Units.METRIC)
    assert found.allowed
    assert found.against == (
        "Nobody has said how much cold it stands.",
        "Nobody has said how bright Kitchen bed is.",
        "Nobody has said how moist it likes its soil.",
        "Nobody has said how fast its soil should drain.",
        "Nothing over 1 m may stand here, and nobody has said how tall it grows.",
        "Nobody has said whether it puts up with walnut roots.",
    )
    assert fit(CURRANT, BED, NOWHERE, Units.US).against == (
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
    assert not (found.would_fit_if and len(found.refused) != 1)
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
    fewer = fit(plant, site, COLD, Units.US, neighbours=some)
    more = fit(plant, site, COLD, Units.US, neighbours=[*some, one])
    assert more.score <= fewer.score


def test_what_harms_only_pets_and_stock_may_stand_where_children_play() -> None:
    """Switch grass harms horses, sheep and goats that graze much of it; monkshood is deadly to anybody."""
    poisonous = "It is poisonous, and children play here."
    here = evolve(BED, children=True)
    assert poisonous not in of(standard().plant("Panicum virgatum"), here).refused
    assert poisonous in of(standard().plant("Aconitum"), here).refused
