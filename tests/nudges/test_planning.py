"""The plan for the minutes there are: against every choice there is, and what always holds."""

import random
from itertools import pairwise
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.nudges.planning import Job, Plan, plan
from cuttings.nudges.sheet import REST_MINUTES, Sitting
from cuttings.nudges.sittings import sittings
from tests.nudges import exhaustive
from tests.nudges.exhaustive import Work, best

AREAS = ("gate strip", "kitchen side", "north wall", "wet corner", "")
WEEKS = 500
CHUNKS = 20
CHOICES = 40_000
"""No week has more choices, so that all of them can be tried."""


def a_job(chance: random.Random, areas: int) -> Job:
    """Mostly short, sometimes split; worth nothing, some even number, or anything."""
    parts = chance.choice((1, 1, 2, 3, 5, 12))
    minutes = chance.choice((2, 5, 5, 10, 20, 30)) if chance.random() < 0.7 else parts * chance.randint(3, 35)
    worth = chance.choice((0.0, 0.25, 1.0, 2.0, 0.1 * chance.randint(0, 90), chance.uniform(0.0, 9.0)))
    split = sittings(minutes, parts)
    if len(split) > 5:
        split = (*split[:4], Sitting(chance.randint(1, 40), sum(each.parts for each in split[4:])))
    return Job(area=chance.choice(AREAS[-areas:]), sittings=split, saved=worth)


def a_week(seed: int) -> tuple[list[Job], int, int]:
    """Jobs, the minutes there are, and those to each part of the garden."""
    chance = random.Random(seed)
    areas = chance.randint(1, len(AREAS))
    jobs: list[Job] = []
    for _ in range(chance.randint(1, 15)):
        job = chance.choice(jobs) if jobs and chance.random() < 0.2 else a_job(chance, areas)
        if prod(len(each.sittings) + 1 for each in (*jobs, job)) <= CHOICES:
            jobs.append(job)
    walk = chance.choice((0, 5, 10, chance.randint(0, 20)))
    everything = plan(jobs, 10**6, walk).minutes
    budget = chance.choice(
        (0, everything - 1, everything, everything + 9, *[chance.randint(0, everything)] * 12)
    )
    return jobs, max(budget, 0), walk


def works(jobs: list[Job]) -> list[Work]:
    return [
        Work(job.area, tuple((each.minutes, each.parts) for each in job.sittings), round(job.saved * 1000))
        for job in jobs
    ]


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_no_choice_is_better(chunk: int) -> None:
    for seed in range(chunk, WEEKS, CHUNKS):
        jobs, budget, walk = a_week(seed)
        found, wanted = plan(jobs, budget, walk), best(works(jobs), budget, walk)
        expected = Plan(taken=wanted.taken, saved=wanted.saved / 1000, minutes=wanted.minutes)
        assert found == expected, f"week {seed}: {jobs}, {budget} minutes, {walk} to walk"


def test_the_weeks_tried_are_of_every_kind() -> None:
    weeks = [a_week(seed) for seed in range(WEEKS)]
    plans = [plan(*week) for week in weeks]
    assert max(len(jobs) for jobs, _, _ in weeks) == 15
    assert {walk for _, _, walk in weeks} == set(range(21))
    assert {len({job.area for job in jobs}) for jobs, _, _ in weeks} == {1, 2, 3, 4, 5}
    part_done = [
        week
        for week, found in zip(weeks, plans, strict=True)
        if any(0 < taken < len(job.sittings) for taken, job in zip(found.taken, week[0], strict=True))
    ]
    fit = [week for week, found in zip(weeks, plans, strict=True) if all(found.taken)]
    assert len(part_done) >= 50
    assert 50 <= len(fit) <= 200


def test_very_many_plants_are_counted_as_exactly() -> None:
    jobs = [
        Job(area=area, sittings=(Sitting(10, 1),), saved=2.0**53 + 2.0 * n) for n, area in enumerate(AREAS)
    ]
    wanted = best(works(jobs), 45, 5)
    assert plan(jobs, 45, 5).taken == wanted.taken == (0, 0, 1, 1, 1)


def test_what_comes_earlier_goes_first_where_nothing_else_tells() -> None:
    job = Job(area="wet corner", sittings=(Sitting(10, 1),), saved=1.0)
    assert plan([job] * 5, 31, 5).taken == (1, 1, 0, 0, 0)


def test_without_jobs_there_is_nothing_to_do() -> None:
    assert plan([], 60, 5) == Plan(taken=(), saved=0.0, minutes=0)


jobs_of_a_week = st.lists(
    st.builds(
        lambda area, minutes, parts, saved: Job(area=area, sittings=sittings(minutes, parts), saved=saved),
        area=st.sampled_from(AREAS),
        minutes=st.integers(0, 200),
        parts=st.integers(1, 12),
        saved=st.floats(0.0, 50.0),
    ),
    max_size=40,
)
budgets = st.integers(0, 900)
walks = st.integers(0, 20)


@given(jobs_of_a_week, budgets, walks)
def test_a_plan_keeps_to_its_minutes_and_says_what_it_comes_to(
    jobs: list[Job], budget: int, walk: int
) -> None:
    found = plan(jobs, budget, walk)
    assert all(0 <= taken <= len(job.sittings) for taken, job in zip(found.taken, jobs, strict=True))
    done = list(zip(works(jobs), found.taken, strict=True))
    away = {work.area for work, taken in done if taken} - {""}
    assert found.minutes == walk * len(away) + sum(exhaustive.minutes(work, taken) for work, taken in done)
    assert found.minutes <= budget
    assert found.saved == sum(exhaustive.saved(work, taken) for work, taken in done) / 1000


@given(jobs_of_a_week, budgets, budgets, walks)
def test_more_minutes_never_save_less(jobs: list[Job], one: int, other: int, walk: int) -> None:
    less, more = sorted((one, other))
    assert plan(jobs, less, walk).saved <= plan(jobs, more, walk).saved


@given(jobs_of_a_week, walks)
def test_everything_is_planned_if_it_fits_and_only_then(jobs: list[Job], walk: int) -> None:
    everything = tuple(len(job.sittings) for job in jobs)
    needed = plan(jobs, 10**6, walk).minutes
    assert plan(jobs, needed, walk).taken == everything
    if needed:
        assert plan(jobs, needed - 1, walk).taken != everything


@settings(max_examples=500)
@given(st.integers(0, 2000), st.integers(1, 60))
def test_sittings_make_up_the_job_and_none_is_too_long(minutes: int, parts: int) -> None:
    found = sittings(minutes, parts)
    assert sum(each.minutes for each in found) == minutes
    assert sum(each.parts for each in found) == parts
    assert all(each.parts >= 1 for each in found)
    # A break each quarter to half hour: Rutgers NJAES Burlington, Ergonomics for Gardeners Part 4, 2021.
    assert all(each.minutes <= 30 or each.parts == 1 for each in found)
    assert all(a.minutes >= b.minutes and a.parts >= b.parts for a, b in pairwise(found))
    assert found[0].parts - found[-1].parts <= 1
    fewest = next(n for n in range(1, parts + 1) if n == parts or -(-parts // n) * minutes <= 30 * parts)
    assert len(found) == fewest


def test_sittings_by_hand() -> None:
    assert sittings(30, 5) == (Sitting(30, 5),)
    assert sittings(48, 8) == (Sitting(24, 4), Sitting(24, 4))
    assert sittings(42, 7) == (Sitting(24, 4), Sitting(18, 3))
    assert sittings(120, 3) == (Sitting(40, 1), Sitting(40, 1), Sitting(40, 1))
    assert sittings(50, 1) == (Sitting(50, 1),)
    assert REST_MINUTES == exhaustive.REST
