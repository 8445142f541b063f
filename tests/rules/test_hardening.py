from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.hardening import earliest_start, needs_hardening, plan, progress
from cuttings.rules.seasons import frosts
from tests.rules.gardens import COLD, CURRANT, DAHLIA, IRIS, SOUTHERN, UNKNOWN, climates, plants, years


def test_dormant_hardy_stock_that_stood_outdoors_needs_none() -> None:
    advice = needs_hardening(CURRANT, grown_under_cover=False, on=date(2026, 3, 20), climate=COLD)
    assert not advice.value
    assert "at rest" in advice.why


def test_whatever_grew_under_cover_needs_it() -> None:
    for plant in (CURRANT, DAHLIA):
        assert needs_hardening(plant, grown_under_cover=True, on=date(2026, 5, 1), climate=COLD).value


@given(plants, st.booleans(), climates())
def test_a_plan_takes_a_week_to_a_fortnight_and_never_shortens_the_day(
    plant: Plant, under_cover: bool, climate: Climate
) -> None:
    made = plan(plant, grown_under_cover=under_cover, climate=climate)
    hours = [day.hours_out for day in made.days]
    assert 7 <= len(hours) <= 14
    assert hours == sorted(hours)
    assert hours[-1] == 24
    assert [day.number for day in made.days] == list(range(1, len(hours) + 1))


def test_the_softer_the_longer_and_the_warmer() -> None:
    tender = plan(DAHLIA, grown_under_cover=True, climate=COLD)
    hardy = plan(IRIS, grown_under_cover=True, climate=COLD)
    outside = plan(IRIS, grown_under_cover=False, climate=COLD)
    assert len(tender.days) > len(hardy.days) > len(outside.days)
    assert tender.night_min_c > hardy.night_min_c > 0


def test_a_missed_day_repeats_its_step() -> None:
    made = plan(IRIS, grown_under_cover=True, climate=COLD)
    assert progress(made, 3).next_day == made.days[3]
    assert progress(made, 3) == progress(made, 3)
    assert progress(made, 3).left == len(made.days) - 3


def test_progress_ends_and_stays_ended() -> None:
    made = plan(IRIS, grown_under_cover=True, climate=COLD)
    assert progress(made, len(made.days)).next_day is None
    assert progress(made, 99).left == 0


def test_fewer_than_no_days_is_refused() -> None:
    with pytest.raises(ValueError, match="fewer than none"):
        progress(plan(IRIS, grown_under_cover=True, climate=COLD), -1)


def test_the_start_counts_back_from_the_day_it_may_go_out() -> None:
    assert earliest_start(IRIS, COLD, 2026).value == date(2026, 5, 4)
    assert earliest_start(DAHLIA, COLD, 2026).value == date(2026, 5, 15)
    assert earliest_start(DAHLIA, SOUTHERN, 2026).value.month == 10
    assert "not entered" in earliest_start(DAHLIA, UNKNOWN, 2026).why


@given(plants, climates(), years)
def test_it_starts_before_the_day_tender_plants_go_out(plant: Plant, climate: Climate, year: int) -> None:
    assert earliest_start(plant, climate, year).value < frosts(climate, year).safe_spring
