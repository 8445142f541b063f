"""What became of the stems of a lot after they had rooted: whether they lived through potting, till they were
planted, and a year in the ground.

Nobody tells one stem of a lot from another. Those that die are taken to be the newest at the step, which are
most at risk; those that go on, the oldest.
"""

from collections.abc import Iterator
from datetime import date, timedelta

from attrs import frozen

from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.words import Stage

IN_CARE = frozenset({Stage.POTTED, Stage.HARDENING, Stage.READY})
IN_THE_GROUND = frozenset({Stage.PLANTED})

POTTING_DAYS = 60
"""Days in its pot after which a stem has come through potting; from memory."""

A_YEAR = 365


@frozen
class Step:
    """So many stems came to a step; of them so many lived through it, died in it, or are still in it."""

    came: int
    lived: int
    died: int

    @property
    def undecided(self) -> int:
        return self.came - self.lived - self.died


@frozen
class _Fate:
    """Some stems of one day: when they left a step, whether alive, or ``None`` where they are still in it."""

    count: int
    since: date
    until: date | None = None
    alive: bool = True

    def lasted(self, days: int, today: date) -> bool:
        return ((self.until or today) - self.since) >= timedelta(days=days)


def through_potting(lot: Lot, today: date) -> Step:
    """Of the stems that were potted, those that lived for ``POTTING_DAYS`` or went on alive before."""
    return _step(_fates(lot, IN_CARE), POTTING_DAYS, today, leaving_is_living=True)


def till_planted(lot: Lot, today: date) -> Step:
    """Of the stems that came through potting, those that were planted, given or sold alive."""
    settled = [
        fate
        for fate in _fates(lot, IN_CARE)
        if fate.lasted(POTTING_DAYS, today) or (fate.until is not None and fate.alive)
    ]
    lived = sum(fate.count for fate in settled if fate.until is not None and fate.alive)
    died = sum(fate.count for fate in settled if not fate.alive)
    return Step(sum(fate.count for fate in settled), lived, died)


def a_year_on(lot: Lot, today: date) -> Step:
    """Of the stems that were planted, those alive a year later."""
    return _step(_fates(lot, IN_THE_GROUND), A_YEAR, today, leaving_is_living=False)


def _step(fates: list[_Fate], days: int, today: date, *, leaving_is_living: bool) -> Step:
    lived = died = 0
    for fate in fates:
        left_alive = fate.until is not None and fate.alive and leaving_is_living
        if fate.lasted(days, today) or left_alive:
            lived += fate.count
        elif not fate.alive:
            died += fate.count
    return Step(sum(fate.count for fate in fates), lived, died)


def _fates(lot: Lot, inside: frozenset[Stage]) -> list[_Fate]:
    """What became of every stem that came to some stages, oldest first."""
    cohorts: list[tuple[date, int]] = []
    fates: list[_Fate] = []
    for on, count, arrives, alive in _moves(lot, inside):
        if arrives:
            cohorts.append((on, count))
            continue
        left = count
        while left and cohorts:
            position = 0 if alive else -1
            since, held = cohorts[position]
            taken = min(left, held)
            fates.append(_Fate(taken, since, on, alive))
            left -= taken
            if held > taken:
                cohorts[position] = (since, held - taken)
            else:
                cohorts.pop(position)
    return fates + [_Fate(held, since) for since, held in cohorts]


def _moves(lot: Lot, inside: frozenset[Stage]) -> Iterator[tuple[date, int, bool, bool]]:
    """Each move over the edge of some stages: its day, how many stems, whether they come in, whether they
    live.

    Stems split off a lot go on in the lot that they are split into, and count there alone.
    """
    for entry in lot.entries:
        comes = isinstance(entry, e.Split) and entry.into == lot.code
        if entry.lot != lot.code and not comes:
            continue
        for move in entry.moves:
            if comes:
                if move.source in inside:
                    yield entry.on, move.count, True, True
            elif move.target in inside and move.source not in inside:
                yield entry.on, move.count, True, True
            elif move.source in inside and move.target not in inside:
                yield entry.on, move.count, False, move.target is not Stage.LOST
