"""How long it takes to choose the jobs for the minutes there are, beside HiGHS on the same weeks.

    python -m tests.bench.minutes

HiGHS (through SciPy) is given the same weeks as a whole-number programme and must find that as many plants
are saved; the last week is too large for it. The memory is what one plan takes at its highest.
"""

import random
import tracemalloc
from collections.abc import Sequence
from statistics import median
from time import perf_counter

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from cuttings.commands.terminal import no_chatter
from cuttings.nudges.planning import Job, plan
from cuttings.nudges.sittings import sittings

RUNS = 5
WALK = 5
SIZES = ((200, 12, 240, True), (2_000, 30, 600, True), (20_000, 60, 600, False), (20_000, 60, 1_500, False))
"""Jobs, parts of the garden, minutes, and whether HiGHS is put to it."""


def week(number: int, areas: int) -> list[Job]:
    """Jobs as lots have them: small ones, and potting and planting by the stem; few cost much if left."""
    chance = random.Random(number)
    jobs = []
    for _ in range(number):
        each, stems = chance.choice(((6, chance.randint(1, 12)), (20, chance.randint(1, 6)), (5, 1), (30, 1)))
        jobs.append(
            Job(
                area=chance.choice([f"area {area}" for area in range(1, areas)] + [""]),
                sittings=sittings(each * stems, stems),
                saved=stems * chance.random() ** 3,
            )
        )
    return jobs


def by_highs(jobs: Sequence[Job], minutes: int, walk: int) -> float:
    """Plants saved in the best plan that HiGHS finds: each column is so many sittings of a job, or a part of
    the garden that is walked to."""
    choices = [
        (job, lasts, saved)
        for job in range(len(jobs))
        for lasts, saved in list(zip(jobs[job].minutes(), jobs[job].thousandths(), strict=True))[1:]
    ]
    areas = sorted({job.area for job in jobs} - {""})
    # Rows: the minutes; for each job, at most one choice, and none without the walk to where it is.
    held = [(0, column, float(lasts)) for column, (_, lasts, _) in enumerate(choices)]
    held += [(0, len(choices) + area, float(walk)) for area in range(len(areas))]
    held += [(1 + job, column, 1.0) for column, (job, _, _) in enumerate(choices)]
    held += [
        (1 + index, len(choices) + areas.index(job.area), -1.0) for index, job in enumerate(jobs) if job.area
    ]
    most = np.array([minutes, *(0.0 if job.area else 1.0 for job in jobs)])
    rows, columns, weights = zip(*held, strict=True)
    found = milp(
        -np.array([*(float(saved) for _, _, saved in choices), *(0.0 for _ in areas)]),
        integrality=1,
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(coo_array((weights, (rows, columns))).tocsr(), ub=most),
        options={"mip_rel_gap": 0.0},
    )
    assert found.success, found.message
    return round(-float(found.fun)) / 1000


def main() -> None:
    print("  jobs  areas  minutes     plan   HiGHS  ratio    saved  memory")
    for number, areas, minutes, compared in SIZES:
        jobs = week(number, areas)
        seconds = []
        for _ in range(RUNS):
            began = perf_counter()
            found = plan(jobs, minutes, WALK)
            seconds.append(perf_counter() - began)
        tracemalloc.start()
        plan(jobs, minutes, WALK)
        peak = tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        other = "      -      -"
        if compared:
            began = perf_counter()
            with no_chatter():
                saved = by_highs(jobs, minutes, WALK)
            spent = perf_counter() - began
            assert saved == found.saved, f"HiGHS saves {saved} plants, the plan {found.saved}"
            other = f"{spent:5.2f} s {spent / median(seconds):6.0f}"
        print(
            f"{number:6,d} {areas:6d} {minutes:8d} {median(seconds) * 1000:5.0f} ms {other} "
            f"{found.saved:8.3f} {peak:4.0f} MB",
            flush=True,
        )


if __name__ == "__main__":
    main()
