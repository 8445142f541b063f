"""Which jobs to do in the minutes there are, so that the most plants are saved: the best choice, not a guess.

A job is done up to one of its sittings. To work in a part of the garden, one walks there once. The choice is
found by dynamic programming over the minutes, one part of the garden after another and in it one job after
another. The tables run from the last job to the first, so that the choice can be read off from the first to
the last.
"""

from collections.abc import Sequence
from itertools import accumulate
from typing import Any

import numpy as np
from attrs import field, frozen
from attrs.validators import ge, min_len
from numpy.typing import NDArray

from cuttings.nudges.sheet import REST_MINUTES, Sitting

Values = NDArray[Any]
"""The best value for each number of minutes, from 0 on: of int64, or of Python's integers where those are too
small."""


@frozen(kw_only=True)
class Job:
    """Work in a part of the garden, ``""`` for what can be done anywhere.

    ``saved`` is how many plants are saved by all of it; its first sittings save the share of their parts.
    """

    area: str
    sittings: tuple[Sitting, ...] = field(validator=min_len(1))
    saved: float = field(validator=ge(0.0))

    def thousandths(self) -> list[int]:
        """Plants saved by its first sittings, for none, one, two... of them, in whole thousandths."""
        parts = [0, *accumulate(each.parts for each in self.sittings)]
        whole = round(self.saved * 1000)
        return [*(whole * done // parts[-1] for done in parts[:-1]), whole]

    def minutes(self) -> list[int]:
        """Minutes of its first sittings with the rests between them, for none, one, two... of them."""
        worked = accumulate(each.minutes for each in self.sittings)
        return [0, *(minutes + REST_MINUTES * rests for rests, minutes in enumerate(worked))]


@frozen(kw_only=True)
class Plan:
    """How many of each job's sittings to do, from the first on, in the order the jobs were given.

    ``saved`` is in plants, ``minutes`` with the ways and the rests.
    """

    taken: tuple[int, ...]
    saved: float
    minutes: int


@frozen
class _Choice:
    """The first sittings of a job: how many, their minutes, and the bits that tell with how many minutes for
    all that comes after it they are worth as much as fewer of them, or more."""

    taken: int
    minutes: int
    good: NDArray[np.uint8]


@frozen
class _Round:
    """Work in one part of the garden: the minutes to get there, the bits that tell with how many minutes once
    there it is worth going, and what can be chosen of each job, the last job first."""

    walk: int
    good: NDArray[np.uint8]
    jobs: list[tuple[int, list[_Choice]]]


@frozen
class _Scale:
    """How three aims become one number: plants saved, then jobs done whole, then fewer parts of the garden,
    each of which takes one away. There are at most so many jobs and parts of the garden."""

    jobs: int
    areas: int

    def value(self, thousandths: int, whole: int) -> int:
        return (thousandths * (self.jobs + 1) + whole) * (self.areas + 1)


def plan(jobs: Sequence[Job], minutes: int, walk: int) -> Plan:
    """The best choice that takes at most so many minutes, ``walk`` of them to each named part of the garden
    that has work.

    The best saves most plants, in whole thousandths. Of those that save as many it is the one with most jobs
    done whole, then with fewest named parts of the garden, then with fewest minutes. Of those that are still
    equal it does most of the earliest job in the first part of the garden where they differ, the parts being
    in the order of their first jobs. Its time goes by sittings times minutes, and so does its memory, a bit
    for each.
    """
    areas: dict[str, list[int]] = {}
    for index, job in enumerate(jobs):
        areas.setdefault(job.area, []).append(index)
    taken = [len(job.sittings) for job in jobs]
    all_minutes = _minutes(jobs, taken, walk)
    if all_minutes > minutes:
        taken = _chosen(jobs, areas, max(minutes, 0), walk)
    saved = sum(job.thousandths()[done] for job, done in zip(jobs, taken, strict=True))
    return Plan(taken=tuple(taken), saved=saved / 1000, minutes=_minutes(jobs, taken, walk))


def _minutes(jobs: Sequence[Job], taken: Sequence[int], walk: int) -> int:
    done = [(job, count) for job, count in zip(jobs, taken, strict=True) if count]
    named = {job.area for job, _ in done if job.area}
    return walk * len(named) + sum(job.minutes()[count] for job, count in done)


def _chosen(jobs: Sequence[Job], areas: dict[str, list[int]], minutes: int, walk: int) -> list[int]:
    scale = _Scale(len(jobs), len(areas))
    saved = sum(job.thousandths()[-1] for job in jobs)
    fits = scale.value(saved, len(jobs)) < np.iinfo(np.int64).max
    best: Values = np.zeros(minutes + 1, dtype=np.int64 if fits else object)
    rounds: list[_Round] = []
    for area, members in reversed(areas.items()):
        way = walk if area else 0
        if way > minutes:
            continue
        there = best[: minutes + 1 - way] - (1 if area else 0)
        chosen = [(index, _add(jobs[index], there, scale)) for index in reversed(members)]
        rounds.append(_Round(way, np.packbits(there >= best[way:]), chosen))
        np.maximum(best[way:], there, out=best[way:])
    return _read_off(rounds, int(np.argmax(best == best[-1])), len(jobs))


def _add(job: Job, there: Values, scale: _Scale) -> list[_Choice]:
    """Let ``there``, the best values without the job, become those with it; what can be chosen of it."""
    without = there.copy() if len(job.sittings) > 1 else there
    choices = []
    for taken, (minutes, saved) in enumerate(zip(job.minutes(), job.thousandths(), strict=True)):
        if taken == 0:
            continue
        if minutes >= len(there):
            break
        value = scale.value(saved, int(taken == len(job.sittings)))
        with_it = without[: len(there) - minutes] + value
        so_far = there[minutes:]
        choices.append(_Choice(taken, minutes, np.packbits(with_it >= so_far)))
        np.maximum(so_far, with_it, out=so_far)
    return choices


def _read_off(rounds: list[_Round], minutes: int, jobs: int) -> list[int]:
    """How much of each job is done in the best plan of exactly so many minutes."""
    taken = [0] * jobs
    left = minutes
    for each in reversed(rounds):
        if not _bit(each.good, left - each.walk):
            continue
        left -= each.walk
        for index, choices in reversed(each.jobs):
            # More of a job was compared with the best of less, so the most that is good is the best.
            for choice in reversed(choices):
                if _bit(choice.good, left - choice.minutes):
                    taken[index] = choice.taken
                    left -= choice.minutes
                    break
    return taken


def _bit(bits: NDArray[np.uint8], at: int) -> bool:
    return at >= 0 and bool(bits[at >> 3] >> (7 - (at & 7)) & 1)
