"""What became of the stems of a lot after they had rooted: whether they lived through potting, till they were
planted, and a year in the ground.

Nobody tells one stem of a lot from another. Those that die are taken to be the newest at the step, which are
most at risk; those that go on, the oldest.
"""

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
    """What became of every stem that came to some stages, oldest first.

    Stems split off a lot go on in the lot that they were split into, with the day they came on, and count
    there alone.
    """
    line = _line(lot)
    cohorts: list[tuple[date, int]] = []
    fates: list[_Fate] = []
    for entry in lot.entries:
        if isinstance(entry, e.Split):
            going = sum(move.count for move in entry.moves if move.source in inside)
            gone, cohorts = _parted(cohorts, going)
            if entry.into in line:
                cohorts, fates = gone, []
            continue
        for move in entry.moves:
            if move.target in inside and move.source not in inside:
                cohorts = [*cohorts, (entry.on, move.count)]
            elif move.source in inside and move.target not in inside:
                alive = move.target is not Stage.LOST
                gone, cohorts = _parted(cohorts, move.count) if alive else _newest(cohorts, move.count)
                fates += [_Fate(count, since, entry.on, alive) for since, count in gone]
    return fates + [_Fate(count, since) for since, count in cohorts]


def _line(lot: Lot) -> frozenset[str]:
    """The codes of a lot and of those that it was split off, one from the other."""
    parents = {entry.into: entry.lot for entry in lot.entries if isinstance(entry, e.Split)}
    code, line = lot.code, {lot.code}
    while code in parents:
        code = parents[code]
        line.add(code)
    return frozenset(line)


_Cohorts = list[tuple[date, int]]
"""How many stems came on which day, oldest first."""


def _parted(cohorts: _Cohorts, count: int) -> tuple[_Cohorts, _Cohorts]:
    """So many of the oldest, and the rest."""
    first: _Cohorts = []
    rest: _Cohorts = []
    for since, held in cohorts:
        taken = min(count, held)
        count -= taken
        first += [(since, taken)] if taken else []
        rest += [(since, held - taken)] if held > taken else []
    return first, rest


def _newest(cohorts: _Cohorts, count: int) -> tuple[_Cohorts, _Cohorts]:
    """So many of the newest, and the rest."""
    rest, newest = _parted(cohorts, max(sum(held for _, held in cohorts) - count, 0))
    return newest, rest
