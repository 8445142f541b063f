"""One cold night: colder is never safer, more shelter never worse, and what to do is worth doing."""

from datetime import date
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.cold import Verdict, judge
from cuttings.rules.hardiness import hardened, root_limits, shoot_limits
from cuttings.rules.shelter import (
    BLANKET_FRAME,
    BRING_IN,
    CLOSE_FRAME,
    COVER,
    COVER_IF_TIME,
    NO_HELP,
    NOTHING,
    SEE_TO_HEAT,
    UNDER_A_ROOF,
    WRAP_LAYERS,
    WRAP_POTS,
    Seat,
    Shelter,
    Standing,
)
from cuttings.units import fahrenheit_to_celsius
from cuttings.words import PlantType, Units
from tests.rules.gardens import (
    BOX,
    COLD,
    CURRANT,
    DAHLIA,
    PLANTS,
    ROSEMARY,
    SNOWDROP,
    SOUTHERN,
    climates,
    days,
)

PHLOX = Plant("Phlox", PlantType.PERENNIAL, zones=(4, 8), root_kill_c=-11.0)
PALM = Plant("Trachycarpus", PlantType.TREE, zones=(10, 11))
PEOPLE = (*PLANTS, PHLOX, PALM)

SPRING, AUTUMN, MIDWINTER = date(2026, 5, 10), date(2026, 9, 28), date(2026, 1, 20)

lows = st.floats(-45, 20)
shares = st.floats(0, 1)


@st.composite
def standings(draw: st.DrawFn) -> Standing:
    seat = draw(st.sampled_from(Seat))
    return Standing(
        plant=draw(st.sampled_from(PEOPLE)),
        seat=seat,
        shelter=draw(st.sampled_from(Shelter)),
        potted=draw(st.booleans()),
        new=draw(st.booleans()),
        soft=draw(st.booleans()),
        attached=seat is Seat.POT and draw(st.booleans()),
        night_limit_c=draw(st.none() | st.floats(0, 12)),
        night_source="an almanac",
    )


def verdict(standing: Standing, low_f: float, on: date = SPRING, climate: Climate = COLD) -> Verdict:
    return judge(standing, climate, on, fahrenheit_to_celsius(low_f), Units.US)


def potted(plant: Plant, shelter: Shelter = Shelter.OPEN, *, soft: bool = False) -> Standing:
    return Standing(plant=plant, seat=Seat.POT, potted=True, shelter=shelter, soft=soft)


def in_ground(plant: Plant, *, new: bool = False) -> Standing:
    return Standing(plant=plant, seat=Seat.GROUND, new=new)


@given(standings(), climates(), days, lows, st.floats(0, 30))
def test_a_colder_night_is_never_safer(
    standing: Standing, climate: Climate, on: date, low_c: float, colder: float
) -> None:
    mild = judge(standing, climate, on, low_c, Units.METRIC)
    cold = judge(standing, climate, on, low_c - colder, Units.METRIC)
    assert cold.at_risk or not mild.at_risk
    assert cold.chance >= mild.chance - 1e-9


@given(st.lists(st.tuples(standings(), climates()), max_size=8), days, lows, st.floats(0, 30))
def test_the_set_at_risk_grows_as_the_low_falls(
    gardens: list[tuple[Standing, Climate]], on: date, low_c: float, colder: float
) -> None:
    def at_risk(low: float) -> set[int]:
        judged = [judge(standing, climate, on, low, Units.US) for standing, climate in gardens]
        return {number for number, each in enumerate(judged) if each.at_risk}

    assert at_risk(low_c) <= at_risk(low_c - colder)


@given(standings(), climates(), days, lows)
def test_more_shelter_is_never_worse(standing: Standing, climate: Climate, on: date, low_c: float) -> None:
    judged = [
        judge(evolve(standing, shelter=shelter), climate, on, low_c, Units.METRIC) for shelter in Shelter
    ]
    for less, more in pairwise(judged):
        assert less.at_risk or not more.at_risk
        assert more.chance <= less.chance + 1e-9


@given(standings(), climates(), days, lows)
def test_chances_are_shares_and_a_remedy_never_harms(
    standing: Standing, climate: Climate, on: date, low_c: float
) -> None:
    found = judge(standing, climate, on, low_c, Units.US)
    assert 0 <= found.saved <= found.chance <= 1
    assert found.at_risk or found.chance == 0
    assert found.at_risk or not found.beyond
    assert found.why.endswith(".")
    assert found.source
    assert found.remedy.do.endswith("{}")
    if found.at_risk:
        assert found.begins_c is not None
        assert low_c <= found.begins_c + 0.01


@given(standings(), climates(), days)
def test_the_risk_begins_where_it_says(standing: Standing, climate: Climate, on: date) -> None:
    begins = judge(standing, climate, on, 20.0, Units.US).begins_c
    if begins is not None:
        assert judge(standing, climate, on, begins - 0.1, Units.US).at_risk
        assert not judge(standing, climate, on, begins + 0.1, Units.US).at_risk


@given(climates(), days)
def test_hardness_is_a_share(climate: Climate, on: date) -> None:
    assert 0 <= hardened(climate, on) <= 1


@pytest.mark.parametrize(("climate", "summer", "winter"), [(COLD, 7, 1), (SOUTHERN, 1, 8)])
def test_plants_are_soft_in_summer_and_hard_in_winter(climate: Climate, summer: int, winter: int) -> None:
    assert hardened(climate, date(2026, summer, 15)) == 0
    assert hardened(climate, date(2026, winter, 15)) > 0.9


def test_plants_harden_through_autumn_day_by_day() -> None:
    autumn = [hardened(COLD, date(2026, month, 15)) for month in (9, 10, 11, 12)]
    assert autumn == sorted(autumn)
    assert autumn[0] == 0 < autumn[1]


@given(st.sampled_from(PEOPLE), climates(), shares, shares)
def test_a_harder_plant_never_stands_less(plant: Plant, climate: Climate, one: float, other: float) -> None:
    soft, hard = sorted((one, other))
    for limits in (
        (shoot_limits(plant, climate, soft), shoot_limits(plant, climate, hard)),
        (root_limits(plant, soft), root_limits(plant, hard)),
    ):
        assert limits[1].harm_c <= limits[0].harm_c
        assert limits[1].dead_c <= limits[0].dead_c
        assert limits[1].dead_c < limits[1].harm_c


def test_hardy_plants_in_the_ground_are_left_alone_while_they_rest() -> None:
    for low_f in (20, 0, -20, -38):
        found = verdict(in_ground(CURRANT), low_f, MIDWINTER)
        assert not found.at_risk
        assert "hardy here" in found.why


@pytest.mark.parametrize(("plant", "zone", "safe_f"), [(BOX, 5, -18), (CURRANT, 3, -38)])
def test_a_night_colder_than_its_zone_s_may_kill_a_hardy_plant_in_the_ground(
    plant: Plant, zone: int, safe_f: float
) -> None:
    assert not verdict(in_ground(plant), safe_f, MIDWINTER).at_risk
    found = verdict(in_ground(plant), safe_f - 27, MIDWINTER)
    assert found.at_risk
    assert 0.1 < found.chance < 0.5
    assert f"zone {zone}" in found.why
    assert "most plants sprout again" in found.why
    assert found.remedy in (COVER, NO_HELP)


@pytest.mark.parametrize(
    ("on", "told"),
    [
        (SPRING, True),
        (date(2026, 7, 1), True),
        (date(2026, 10, 5), True),
        (date(2026, 11, 20), False),
        (MIDWINTER, False),
    ],
)
def test_hardy_plants_in_growth_lose_soft_growth_and_no_more(on: date, told: bool) -> None:
    found = verdict(in_ground(CURRANT), 26, on)
    assert found.spared is found.at_risk is told
    if told:
        assert (found.chance, found.saved, found.beyond) == (0, 0, False)
        assert found.remedy is COVER_IF_TIME
        assert "live through it" in found.why
        assert "24 °F" in found.why


def test_a_light_frost_takes_nothing_from_hardy_plants_in_the_ground() -> None:
    assert not verdict(in_ground(CURRANT), 29).at_risk


def test_the_leaves_of_bulbs_are_not_worried_about() -> None:
    assert not verdict(in_ground(SNOWDROP), 20).at_risk


def test_newly_planted_hardy_plants_may_lose_their_soft_shoots() -> None:
    found = verdict(in_ground(CURRANT, new=True), 24)
    assert found.at_risk
    assert found.remedy is COVER
    assert found.chance < 0.5
    assert "most plants sprout again" in found.why


@pytest.mark.parametrize("low_f", [5, -40])
def test_a_plant_not_hardy_here_is_lost_with_its_shoots(low_f: float) -> None:
    found = verdict(in_ground(ROSEMARY), low_f, MIDWINTER)
    assert found.chance == 1
    assert found.beyond
    assert "most plants sprout again" not in found.why
    assert "not hardy here" in found.why


@pytest.mark.parametrize("on", [date(2026, 4, 15), date(2026, 10, 15)])
def test_a_plant_not_hardy_here_may_well_be_lost_out_of_season(on: date) -> None:
    assert 0.25 < verdict(in_ground(ROSEMARY), 20, on).chance < 1
    assert verdict(in_ground(ROSEMARY), 28, on).chance < 0.25


def test_a_tender_plant_hardy_to_a_frostless_zone_is_still_killed_by_frost() -> None:
    frostless = evolve(COLD, zone="10a")
    assert verdict(in_ground(PALM), 25, climate=frostless).chance == 1


def test_soft_pots_are_at_risk_in_midwinter_as_in_may() -> None:
    assert not verdict(potted(CURRANT), 26, MIDWINTER).at_risk
    found = verdict(potted(CURRANT, soft=True), 26, MIDWINTER)
    assert found.chance > 0.5
    assert found.remedy is BRING_IN
    assert "soft from where it was raised" in found.why


@pytest.mark.parametrize("plant", [DAHLIA, ROSEMARY])
def test_tender_stems_fresh_from_warmth_come_in_below_45_f(plant: Plant) -> None:
    found = verdict(potted(plant, soft=True), 44)
    assert (found.at_risk, found.chilled, found.chance) == (True, True, 0)
    assert found.remedy is BRING_IN
    assert "not hardened off" in found.why
    assert not verdict(potted(plant, soft=True), 45).at_risk
    assert not verdict(potted(plant), 40).at_risk
    assert not verdict(potted(CURRANT, soft=True), 40).at_risk
    assert not verdict(potted(plant, Shelter.INDOORS, soft=True), 20).at_risk


def test_a_closed_frame_is_enough_for_tender_stems_on_a_night_just_too_cold() -> None:
    framed = potted(DAHLIA, Shelter.FRAME, soft=True)
    assert verdict(framed, 41).remedy is CLOSE_FRAME
    assert verdict(framed, 38).remedy is BRING_IN


def test_tender_stems_under_heat_are_only_as_safe_as_the_heat() -> None:
    heated = Standing(plant=DAHLIA, seat=Seat.POT, shelter=Shelter.HEATED, soft=True)
    found = verdict(heated, 30)
    assert found.remedy is SEE_TO_HEAT
    assert found.chance == 0
    assert "45 °F" in found.why
    assert not verdict(heated, 46).at_risk
    assert not verdict(evolve(heated, plant=CURRANT), 30).at_risk


def test_a_tender_plant_in_the_ground_is_covered_for_a_light_frost() -> None:
    found = verdict(in_ground(DAHLIA), 31)
    assert found.remedy is COVER
    assert found.saved > 0.3
    assert "clear still night" in found.why
    assert "36 °F" in found.why


def test_no_cover_saves_a_tender_plant_from_a_hard_freeze() -> None:
    found = verdict(in_ground(DAHLIA), 10)
    assert found.at_risk
    assert found.beyond
    assert found.remedy is NOTHING
    assert found.saved == 0


def test_tender_pots_are_brought_in_and_hardy_ones_grouped() -> None:
    assert verdict(potted(DAHLIA), 32).remedy is BRING_IN
    assert verdict(potted(ROSEMARY), 27).remedy is BRING_IN
    assert verdict(potted(CURRANT), 30).remedy is WRAP_POTS
    assert not verdict(potted(CURRANT), 36).at_risk


def test_hardy_pots_go_under_a_roof_when_wrapping_is_not_enough() -> None:
    found = verdict(potted(CURRANT), -10, MIDWINTER)
    assert found.remedy is UNDER_A_ROOF
    assert found.saved == found.chance == 1


def test_a_frame_is_closed_then_covered_then_emptied() -> None:
    framed = potted(BOX, Shelter.FRAME)
    assert verdict(framed, 30).remedy is CLOSE_FRAME
    assert verdict(potted(PHLOX, Shelter.FRAME), 12, MIDWINTER).remedy is BLANKET_FRAME
    assert verdict(framed, -20, MIDWINTER).remedy is UNDER_A_ROOF


def test_an_air_layer_is_wrapped_where_it_hangs() -> None:
    hanging = Standing(plant=CURRANT, seat=Seat.POT, attached=True)
    assert verdict(hanging, 28).remedy is WRAP_LAYERS


def test_the_same_pot_stands_far_more_in_midwinter_than_in_september() -> None:
    assert verdict(potted(CURRANT), 26, AUTUMN).at_risk
    assert not verdict(potted(CURRANT), 26, MIDWINTER).at_risk


def test_roots_die_at_their_own_temperature_where_it_is_known() -> None:
    general, own = (verdict(potted(plant), 5, MIDWINTER).chance for plant in (CURRANT, PHLOX))
    tender_roots = Plant("Buxus", PlantType.SHRUB, zones=(5, 8), root_kill_c=-3.9)
    assert 0 < own < general < verdict(potted(tender_roots), 5, MIDWINTER).chance


def test_roots_are_harmed_from_the_coldest_that_a_trial_brought_them_through() -> None:
    trial = Plant("Tiarella", PlantType.PERENNIAL, zones=(4, 8), root_harm_c=-8.0)
    assert root_limits(trial, 1.0).harm_c == -8.0
    killed = Plant("Tiarella", PlantType.PERENNIAL, zones=(4, 8), root_kill_c=-11.0)
    assert root_limits(killed, 1.0) == root_limits(trial, 1.0)


def test_a_night_too_cold_for_hardening_brings_plants_in_before_frost_does() -> None:
    out = Standing(
        plant=DAHLIA,
        seat=Seat.POT,
        potted=True,
        soft=True,
        night_limit_c=10.0,
        night_source="an almanac",
    )
    found = verdict(out, 45)
    assert found.at_risk
    assert found.remedy is BRING_IN
    assert found.chance == 0
    assert "50 °F or more" in found.why
    assert not verdict(out, 50).at_risk


def test_limits_are_told_in_the_units_of_the_garden() -> None:
    low_c = fahrenheit_to_celsius(28)
    assert "0 °C" in judge(potted(CURRANT), COLD, SPRING, low_c, Units.METRIC).why
    assert "32 °F" in judge(potted(CURRANT), COLD, SPRING, low_c, Units.US).why


def test_what_was_read_from_the_keepers_words_is_said() -> None:
    found = verdict(Standing(plant=DAHLIA, seat=Seat.POT, shelter=Shelter.INDOORS, said="the cellar"), 10)
    assert not found.at_risk
    assert "You wrote 'the cellar'" in found.why


def test_what_can_hurt_is_said_with_the_work() -> None:
    assert any("carbon monoxide" in caution.text for caution in CLOSE_FRAME.cautions)
    assert any("bend your knees" in caution.text for caution in WRAP_POTS.cautions)
