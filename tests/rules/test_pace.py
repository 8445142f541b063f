"""The season's own pace: early, late, on time, and what is believed."""

from datetime import date, timedelta

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Bloom, Plant
from cuttings.rules.bloom import FIRST_BLOOM_F, bloom_stretches, first_bloom
from cuttings.rules.division import next_division
from cuttings.rules.months import month_stretches
from cuttings.rules.pace import Seen, expectation, pace_of
from cuttings.rules.seasons import frosts
from cuttings.words import PlantType, Sign
from tests.rules.gardens import COLD, IRIS, climates

FORSYTHIA = Plant("Forsythia", PlantType.SHRUB, common=("forsythia",), bloom=Bloom((4,)))
PEONY = Plant("Paeonia", PlantType.PERENNIAL, common=("peony",), bloom=Bloom((5, 6)))
SIGNS = st.sampled_from(Sign)


def workable(on: date) -> Seen:
    return Seen(Sign.SOIL_WORKABLE, on)


def usual(seen: Seen, climate: Climate = COLD) -> date:
    found = expectation(seen, climate)
    assert found is not None
    return found.on


def test_workable_soil_is_usual_when_it_passes_the_warmth_of_roots() -> None:
    assert usual(workable(date(2026, 4, 1))) == frosts(COLD, 2026).workable


def test_a_published_bloom_comes_before_a_month_of_bloom() -> None:
    found = expectation(Seen(Sign.FIRST_BLOOM, date(2026, 4, 20), FORSYTHIA), COLD)
    assert found is not None
    assert "86 degree days above 50 °F" in found.why
    assert found.source == FIRST_BLOOM_F["Forsythia"][1]
    rough = expectation(Seen(Sign.FIRST_BLOOM, date(2026, 5, 20), PEONY), COLD)
    assert rough is not None
    assert "roughly" in rough.why
    assert rough.weight < found.weight


def test_plants_bloom_in_the_order_of_their_degree_days() -> None:
    seen = [Seen(Sign.FIRST_BLOOM, date(2026, 4, 20), Plant(name, PlantType.SHRUB)) for name in FIRST_BLOOM_F]
    days = {each.plant.name: usual(each) for each in seen if each.plant}
    by_figure = sorted(FIRST_BLOOM_F, key=lambda name: FIRST_BLOOM_F[name][0])
    assert [days[name] for name in by_figure] == sorted(days.values())


def test_two_earlier_years_of_ones_own_are_believed_first() -> None:
    earlier = [workable(date(2024, 4, 20)), workable(date(2025, 4, 24))]
    found = expectation(workable(date(2026, 4, 10)), COLD, earlier)
    assert found is not None
    assert abs((found.on - date(2026, 4, 22)).days) <= 1
    assert "your own 2 earlier years" in found.why


def test_other_signs_and_later_years_are_no_earlier_years() -> None:
    others = [Seen(Sign.LAST_SNOW, date(2024, 4, 1)), workable(date(2027, 4, 1)), workable(date(2024, 4, 20))]
    found = expectation(workable(date(2026, 4, 10)), COLD, others)
    assert found is not None
    assert "your own" not in found.why


def test_a_plant_nobody_knows_tells_nothing_until_two_years_have_passed() -> None:
    unknown = Plant("Nomen nescio", PlantType.SHRUB)
    assert expectation(Seen(Sign.FIRST_BLOOM, date(2026, 4, 20), unknown), COLD) is None
    assert pace_of([Seen(Sign.FIRST_BLOOM, date(2026, 4, 20), unknown)], COLD, date(2026, 5, 1)) is None


@pytest.mark.parametrize(("days", "word"), [(10, "ahead"), (-10, "behind"), (0, "on time")])
def test_the_pace_says_what_was_seen_and_when_it_is_usual(days: int, word: str) -> None:
    seen = workable(frosts(COLD, 2026).workable - timedelta(days=days))
    pace = pace_of([seen], COLD, date(2026, 5, 1))
    assert pace is not None
    assert pace.days == days
    assert word in pace.said
    assert "is usual about" in pace.said
    assert (pace.ahead > 0) == (days > 0)


def test_only_signs_of_this_spring_up_to_today_count() -> None:
    early = workable(date(2026, 3, 25))
    assert pace_of([early], COLD, date(2026, 3, 24)) is None
    assert pace_of([early], COLD, date(2027, 4, 1)) is None
    assert pace_of([early], COLD, date(2026, 6, 1)) is not None


def test_signs_that_disagree_are_weighed() -> None:
    normal = frosts(COLD, 2026).workable
    early = Seen(
        Sign.FIRST_BLOOM, usual(Seen(Sign.FIRST_BLOOM, normal, FORSYTHIA)) - timedelta(days=10), FORSYTHIA
    )
    rough = Seen(Sign.FIRST_BLOOM, usual(Seen(Sign.FIRST_BLOOM, normal, PEONY)) + timedelta(days=12), PEONY)
    pace = pace_of([early, rough], COLD, date(2026, 7, 1))
    assert pace is not None
    assert 0 < pace.days < 10


def test_what_was_seen_is_not_reckoned_again() -> None:
    """Soil that could be dug late stays late, though the forsythia was early afterwards."""
    normal = frosts(COLD, 2026).workable
    late = workable(normal + timedelta(days=14))
    forsythia = usual(Seen(Sign.FIRST_BLOOM, normal, FORSYTHIA))
    bloom = Seen(Sign.FIRST_BLOOM, forsythia - timedelta(days=7), FORSYTHIA)
    climate = evolve(COLD, pace=pace_of([late, bloom], COLD, date(2026, 6, 1)))
    assert climate.pace is not None
    assert frosts(climate, 2026).workable == late.on
    assert bloom_stretches(FORSYTHIA, climate, 2026)[0][0] == bloom.on
    assert "14 days late" in climate.pace.said
    assert "7 days early" in climate.pace.said


def test_the_newest_sign_knows_most() -> None:
    normal = frosts(COLD, 2026).workable
    forsythia = usual(Seen(Sign.FIRST_BLOOM, normal, FORSYTHIA))
    late, early = normal + timedelta(days=9), forsythia - timedelta(days=9)
    pace = pace_of([workable(late), Seen(Sign.FIRST_BLOOM, early, FORSYTHIA)], COLD, date(2026, 6, 1))
    assert pace is not None
    assert pace.days > 0


def test_a_sign_far_too_early_counts_for_a_month_and_no_more() -> None:
    pace = pace_of([workable(frosts(COLD, 2026).workable - timedelta(days=60))], COLD, date(2026, 5, 1))
    assert pace is not None
    assert pace.days == 30


def test_nothing_is_brought_forward_past_the_day_of_the_sign() -> None:
    seen = workable(frosts(COLD, 2026).workable - timedelta(days=25))
    climate = evolve(COLD, pace=pace_of([seen], COLD, date(2026, 4, 1)))
    found = next_division(IRIS, climate, seen.on)
    assert found is not None
    assert found.opens >= seen.on


def test_months_before_the_sign_stay_where_they_are() -> None:
    seen = workable(frosts(COLD, 2026).workable - timedelta(days=10))
    climate = evolve(COLD, pace=pace_of([seen], COLD, date(2026, 4, 10)))
    assert month_stretches((3,), climate, 2026)[0][0] == date(2026, 3, 1)


def test_bloom_begins_with_its_degree_days_where_they_are_published() -> None:
    expected = first_bloom(FORSYTHIA, COLD, 2026)
    assert expected is not None
    ((opens, closes),) = bloom_stretches(FORSYTHIA, COLD, 2026)
    assert opens == expected.on
    assert timedelta(days=14) <= closes - opens <= timedelta(days=35)
    assert bloom_stretches(PEONY, COLD, 2026) == month_stretches((5, 6), COLD, 2026)


def test_an_early_spring_brings_the_division_forward_and_says_so() -> None:
    seen = workable(frosts(COLD, 2026).workable - timedelta(days=10))
    early = evolve(COLD, pace=pace_of([seen], COLD, date(2026, 4, 1)))
    usually, now = (next_division(IRIS, climate, date(2026, 3, 1)) for climate in (COLD, early))
    assert usually is not None
    assert now is not None
    assert 0 < (usually.opens - now.opens).days <= 10
    assert "days ahead" in now.why
    assert "days ahead" not in usually.why


def test_frost_does_not_come_earlier_for_an_early_spring() -> None:
    seen = workable(frosts(COLD, 2026).workable - timedelta(days=10))
    early = evolve(COLD, pace=pace_of([seen], COLD, date(2026, 4, 1)))
    assert frosts(early, 2026).safe_spring == frosts(COLD, 2026).safe_spring
    assert frosts(early, 2026).first_autumn == frosts(COLD, 2026).first_autumn


def test_a_southern_spring_has_its_own_year() -> None:
    cold = Climate(-45.0, frost_dates((11, 10), (4, 5)), "5b")
    normal = frosts(cold, 2026).workable
    assert normal.month in (9, 10)
    pace = pace_of([workable(normal - timedelta(days=5))], cold, normal)
    assert pace is not None
    assert pace.year == 2026
    assert pace.days == 5


@given(climates(), SIGNS, st.dates(date(2020, 1, 1), date(2030, 12, 31)))
def test_any_sign_in_any_garden_makes_a_sentence_or_nothing(climate: Climate, sign: Sign, on: date) -> None:
    plant = FORSYTHIA if sign is Sign.FIRST_BLOOM else None
    pace = pace_of([Seen(sign, on, plant)], climate, on)
    assert pace is None or pace.said.endswith(".")


def test_by_autumn_the_spring_is_forgotten() -> None:
    late = workable(frosts(COLD, 2026).workable + timedelta(days=12))
    assert pace_of([late], COLD, date(2026, 7, 1)) is not None
    assert pace_of([late], COLD, date(2026, 11, 1)) is None
