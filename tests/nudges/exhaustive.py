"""The best plan by trying every choice there is: a witness that shares no code with the planner."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import floor

from attrs import frozen

REST = 10


@frozen
class Work:
    """A job: where it is, the minutes and the parts of each of its sittings, and the thousandths of a plant
    that all of it saves."""

    area: str
    sittings: tuple[tuple[int, int], ...]
    thousandths: int


@frozen
class Tried:
    """One choice: how many sittings of each job, in the order given, and what comes of it."""

    taken: tuple[int, ...]
    saved: int
    whole: int
    areas: int
    minutes: int


def saved(work: Work, taken: int) -> int:
    """Whole thousandths that the first sittings of a job save."""
    parts = sum(each for _, each in work.sittings)
    return floor(Fraction(work.thousandths * sum(each for _, each in work.sittings[:taken]), parts))


def minutes(work: Work, taken: int) -> int:
    """Minutes of the first sittings of a job, with a rest between each two."""
    return sum(each for each, _ in work.sittings[:taken]) + REST * max(taken - 1, 0)


def all_choices(works: Sequence[Work], budget: int, walk: int) -> Iterator[Tried]:
    """Every choice that keeps to the minutes. Only those that are over already are not gone on with."""
    steps = [
        [(taken, saved(work, taken), minutes(work, taken)) for taken in range(len(work.sittings) + 1)]
        for work in works
    ]

    def go_on(taken: tuple[int, ...], gone_to: frozenset[str], gain: int, spent: int) -> Iterator[Tried]:
        if spent > budget:
            return
        if len(taken) == len(works):
            whole = sum(done == len(work.sittings) for done, work in zip(taken, works, strict=True))
            yield Tried(taken, gain, whole, len(gone_to), spent)
            return
        area = works[len(taken)].area
        for done, more, lasts in steps[len(taken)]:
            new = done > 0 and area != "" and area not in gone_to
            yield from go_on(
                (*taken, done),
                gone_to | {area} if new else gone_to,
                gain + more,
                spent + lasts + (walk if new else 0),
            )

    return go_on((), frozenset(), 0, 0)


def best(works: Sequence[Work], budget: int, walk: int) -> Tried:
    """The choice that saves most, with most jobs whole, fewest named parts of the garden, fewest minutes;
    among equals the one that does most of the earliest job, the parts of the garden being gone through in the
    order of their first jobs."""
    areas = list(dict.fromkeys(work.area for work in works))
    order = sorted(range(len(works)), key=lambda index: areas.index(works[index].area))
    return max(
        all_choices(works, budget, walk),
        key=lambda tried: (
            tried.saved,
            tried.whole,
            -tried.areas,
            -tried.minutes,
            [tried.taken[index] for index in order],
        ),
    )
