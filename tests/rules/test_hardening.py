from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant
from cuttings.rules.hardening import (
    DatedDay,
    DayState,
    HardeningPlan,
    LoggedDay,
    after_night,
    earliest_start,
    needs_hardening,
    next_start,
    night_of,
    plan,
    progress,
    ready_on,
    schedule,
    steps_done,
)
from cuttings.rules.seasons import frosts
from cuttings.units import fahrenheit_to_celsius
from tests.rules.gardens import COLD, CURRANT, DAHLIA, IRIS, SOUTHERN, UNKNOWN, climates, plants, years

BEGUN = date(2026, 5, 20)
TENDER = plan(DAHLIA, grown_under_cover=True, climate=COLD)
HARDY = plan(IRIS, grown_under_cover=True, climate=COLD)


def later(number: int) -> date:
    return BEGUN + timedelta(days=number)


def done(number: int, low_f: float | None = None) -> LoggedDay:
    return LoggedDay(later(number), True, "", None if low_f is None else fahrenheit_to_celsius(low_f))


def missed(number: int, low_f: float | None = None) -> LoggedDay:
    low_c = None if low_f is None else fahrenheit_to_celsius(low_f)
    return LoggedDay(later(number), False, "a cold wind", low_c)


def coming(days: Sequence[DatedDay]) -> list[DatedDay]:
    return [day for day in days if day.state in (DayState.NOW, DayState.TO_COME)]


plans = st.builds(
    lambda plant, under_cover, climate: plan(plant, grown_under_cover=under_cover, climate=climate),
    plants, st.booleans(), climates(),
)  # fmt: skip
lows = st.none() | st.floats(-30, 30)


@st.composite
def logs(draw: st.DrawFn) -> tuple[LoggedDay, ...]:
    """Days logged from the beginning on, with days between of which nothing was written."""
    days = draw(st.lists(st.integers(0, 40), unique=True, max_size=25).map(sorted))
    return tuple(
        LoggedDay(later(day), draw(st.booleans()), draw(st.sampled_from(("", "wind"))), draw(lows))
        for day in days
    )


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


def test_nobody_is_told_to_begin_in_a_season_that_is_over() -> None:
    assert next_start(DAHLIA, COLD, date(2026, 3, 1)) == earliest_start(DAHLIA, COLD, 2026)
    assert next_start(DAHLIA, COLD, date(2026, 7, 1)).value == date(2026, 7, 1)
    assert next_start(DAHLIA, COLD, date(2026, 9, 25)) == earliest_start(DAHLIA, COLD, 2027)


@given(plants, climates(), st.dates(date(2000, 1, 1), date(2100, 12, 31)))
def test_the_next_start_never_lies_behind(plant: Plant, climate: Climate, today: date) -> None:
    assert next_start(plant, climate, today).value >= today


# The dates of the days


@given(plans, logs(), st.integers(-5, 60))
def test_the_dates_of_a_plan_strictly_rise(
    made: HardeningPlan, log: tuple[LoggedDay, ...], days_on: int
) -> None:
    days = schedule(made, BEGUN, log, later(days_on))
    dates = [day.on for day in days]
    assert all(first < second for first, second in pairwise(dates))
    assert dates[0] >= BEGUN
    assert ready_on(days) > dates[-1]


@given(plans, logs(), st.integers(-5, 60))
def test_what_is_left_runs_to_the_end_without_a_gap_and_never_shortens_the_day(
    made: HardeningPlan, log: tuple[LoggedDay, ...], days_on: int
) -> None:
    today = later(days_on)
    left = coming(schedule(made, BEGUN, log, today))
    assert [day.step for day in left] == list(made.days[steps_done(made, log) :])
    assert [day.on for day in left] == [left[0].on + timedelta(days=n) for n in range(len(left))]
    assert all(day.on >= today for day in left)
    hours = [day.step.hours_out for day in left]
    assert hours == sorted(hours)


@given(plans, logs(), st.integers(-5, 60))
def test_logged_days_keep_their_dates_and_a_step_is_only_skipped_by_being_done(
    made: HardeningPlan, log: tuple[LoggedDay, ...], days_on: int
) -> None:
    days = schedule(made, BEGUN, log, later(days_on))
    logged = days[: len(days) - len(coming(days))]
    assert [day.on for day in logged] == [each.on for each in log][: len(logged)]
    for first, second in pairwise(days):
        ahead = second.step.number - first.step.number
        assert ahead == 1 if first.state is not DayState.MISSED else ahead in (0, -1)


@given(plans, st.data())
def test_a_missed_day_moves_the_ready_day_by_exactly_one(made: HardeningPlan, data: st.DataObject) -> None:
    before = data.draw(st.integers(0, len(made.days) - 1))
    log = tuple(done(number) for number in range(before))
    without = schedule(made, BEGUN, log, later(before))
    with_it = schedule(made, BEGUN, (*log, missed(before)), later(before))
    assert ready_on(with_it) - ready_on(without) == timedelta(days=1)
    assert with_it[before].state is DayState.MISSED
    assert with_it[before].reason == "a cold wind"
    assert with_it[before + 1].step == with_it[before].step


@given(plans, logs(), st.integers(-5, 60))
def test_no_more_nor_fewer_steps_are_done_than_the_plan_has(
    made: HardeningPlan, log: tuple[LoggedDay, ...], days_on: int
) -> None:
    days = schedule(made, BEGUN, log, later(days_on))
    assert 7 <= len({day.step.number for day in days}) == len(made.days) <= 14
    assert 0 <= steps_done(made, log) <= len(made.days)


def test_today_is_told_apart_from_the_days_to_come() -> None:
    days = schedule(HARDY, BEGUN, (done(0), done(1)), later(2))
    assert [day.state for day in days[:4]] == [DayState.DONE, DayState.DONE, DayState.NOW, DayState.TO_COME]
    days = schedule(HARDY, BEGUN, (done(0), done(1)), later(1))
    assert DayState.NOW not in [day.state for day in days]
    assert days[2].on == later(2)


def test_days_that_nobody_wrote_of_move_the_rest() -> None:
    assert ready_on(schedule(HARDY, BEGUN, (done(0),), later(1))) == later(10)
    assert ready_on(schedule(HARDY, BEGUN, (done(0),), later(4))) == later(13)


def test_a_finished_plan_keeps_the_day_it_was_done() -> None:
    log = tuple(done(number) for number in range(12))
    days = schedule(HARDY, BEGUN, log, later(30))
    assert len(days) == 10
    assert ready_on(days) == later(10)


def test_nothing_can_be_logged_from_before_it_began() -> None:
    with pytest.raises(ValueError, match="before hardening off began"):
        schedule(HARDY, BEGUN, (done(-1),), BEGUN)


# Nights


def test_a_cold_night_out_repeats_its_step_and_a_mild_one_does_not() -> None:
    week = tuple(done(number) for number in range(7))
    assert steps_done(HARDY, (*week, done(7, low_f=36))) == 8
    assert steps_done(HARDY, (*week, done(7, low_f=30))) == 7
    assert steps_done(HARDY, (*week, missed(7, low_f=30))) == 7
    days = schedule(HARDY, BEGUN, (*week, done(7, low_f=30)), later(8))
    assert days[7].state is DayState.MISSED
    assert days[7].reason == "a night too cold"


def test_a_night_that_chills_tender_plants_goes_back_a_step_and_says_it_is_from_memory() -> None:
    log = tuple(done(number) for number in range(9))
    assert steps_done(TENDER, (*log, missed(9, low_f=47))) == 9
    assert steps_done(TENDER, (*log, missed(9, low_f=44))) == 8
    chilled = after_night(TENDER, TENDER.days[9], fahrenheit_to_celsius(44))
    assert chilled.value == 2
    assert "go back to day 9" in chilled.why
    assert "from memory" in chilled.why


@given(plans, st.floats(-30, 30))
def test_a_night_spent_under_cover_undoes_nothing(made: HardeningPlan, low_c: float) -> None:
    for step in made.days:
        undone = after_night(made, step, low_c).value
        assert undone == 0 or (step.overnight and low_c < made.night_min_c)


@given(plans, st.floats(-30, 30), st.floats(-30, 30))
def test_the_colder_the_night_the_more_it_undoes(made: HardeningPlan, one: float, other: float) -> None:
    for step in made.days:
        colder, warmer = (after_night(made, step, low_c).value for low_c in sorted((one, other)))
        assert colder >= warmer


@given(plans, st.data())
def test_a_night_told_the_morning_after_belongs_to_the_day_that_was_ticked_off(
    made: HardeningPlan, data: st.DataObject
) -> None:
    last = data.draw(st.integers(0, len(made.days) - 1))
    low_f = data.draw(st.floats(0, 70))
    log = tuple(done(number) for number in range(last))
    at_once = (*log, done(last, low_f))
    for night in (done(last, low_f), missed(last, low_f)):
        one_by_one = (*log, done(last), night)
        assert steps_done(made, one_by_one) == steps_done(made, at_once)
        assert len(schedule(made, BEGUN, one_by_one, later(last))) == len(
            schedule(made, BEGUN, at_once, later(last))
        )


def test_a_night_after_a_missed_day_finds_the_plants_indoors() -> None:
    log = (*(done(number) for number in range(9)), missed(9))
    assert night_of(TENDER, log, later(9), -5.0).value == 0
    assert steps_done(TENDER, (*log, missed(9, low_f=20))) == 9
    assert len(schedule(TENDER, BEGUN, (*log, missed(9, low_f=20)), later(10))) == 15


def test_a_night_is_judged_by_the_day_it_follows() -> None:
    log = tuple(done(number) for number in range(9))
    assert night_of(TENDER, log, later(6), 2.0).value == 0  # day 7 comes in for the night
    assert night_of(TENDER, log, later(8), 2.0).value == 2
    assert night_of(TENDER, log, later(9), 9.0).value == 1
    assert night_of(TENDER, tuple(done(number) for number in range(14)), later(14), 2.0).value == 0


def test_wind_comes_after_shelter_and_water_grows_less() -> None:
    for made in (TENDER, HARDY, plan(IRIS, grown_under_cover=False, climate=COLD)):
        winds = [day.wind for day in made.days]
        assert winds == sorted(winds, key=["sheltered", "light breeze", "open"].index)
        assert {*winds} == {"sheltered", "light breeze", "open"}
        assert made.days[0].water == "water it first"
        assert all("less" in day.water and "never to wilting" in day.water for day in made.days[1:])
