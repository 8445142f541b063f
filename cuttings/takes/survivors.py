"""How many of the stems that are started come through every loss, with the chance of each number.

The stems of one lot share its fate at every step: the share that comes through is drawn once for all of them.
So a step with a beta law turns numbers of stems into numbers of stems by the beta-binomial law, one with a
known share by the binomial law, and steps may be taken in any order. Nothing is drawn at random here; all
is exact but for rounding.
"""

from bisect import bisect_left
from collections.abc import Sequence
from functools import cached_property

import numpy as np
from attrs import define, field, frozen
from numpy.typing import NDArray
from scipy.special import bdtr, betaln, gammaln

Floats = NDArray[np.float64]

Beta = tuple[float, float]
"""The two parameters of the beta law of a lot's share."""

Shares = Sequence[tuple[float, float]]
"""Weights that add up to 1, each with a share, 0 to 1, that all the stems of a lot have in common."""

CERTAIN: Shares = ((1.0, 1.0),)

GROWS_BY = 4
ROUNDING = 1e-12


@frozen
class Losses:
    """The laws of what a lot comes through: ``rooting`` (``None`` for pieces that have roots), ``potting``,
    and ``living`` from there until it is planted."""

    rooting: Beta | None
    potting: Beta
    living: Beta

    @property
    def means(self) -> tuple[float, float, float]:
        """The mean share at each of the three steps."""
        root = 1.0 if self.rooting is None else _mean(self.rooting)
        return root, _mean(self.potting), _mean(self.living)


def _mean(law: Beta) -> float:
    return law[0] / (law[0] + law[1])


@define(slots=False)
class Survivors:
    """What becomes of a lot of any size up to ``most``, whatever day it is started on."""

    losses: Losses
    most: int
    _size: int = field(default=16, init=False)

    def chance(self, started: int, want: int, in_time: Shares, held: Sequence[float] = (1.0,)) -> float:
        """The chance, 0 to 1, that at least ``want`` stems are alive at planting.

        Args:
            in_time: the share of those that root which does so in time, with the chance of each share.
            held: the chance of each number of stems, from 0 on, that are alive by then without this lot.
        """
        self._hold(started)
        return float(self._chances(want, in_time, held)[started])

    def fewest(
        self, want: int, sure: float, in_time: Shares, held: Sequence[float] = (1.0,)
    ) -> tuple[int, float] | None:
        """The fewest stems to start for such a chance, 0 to 1, and what it is; ``None`` where ``most`` are
        too few."""
        while True:
            chances = self._chances(want, in_time, held)[: self.most + 1]
            enough = np.flatnonzero(chances[1:] >= sure)
            if len(enough):
                number = int(enough[0]) + 1
                return number, float(chances[number])
            if self._size >= self.most:
                return None
            self._hold(min(self._size * GROWS_BY, self.most))

    def alive(self, started: int, in_time: Shares, shares: Sequence[float]) -> tuple[int, ...]:
        """The numbers alive at planting below or at which such shares, 0 to 1, of all lots lie."""
        self._hold(started)
        return _quantiles(self._through[started, : started + 1], in_time, shares)

    def rooted(self, started: int, in_time: Shares, shares: Sequence[float]) -> tuple[int, ...]:
        """The same of the numbers that have rooted in time."""
        self._hold(started)
        return _quantiles(self._ever[started, : started + 1], in_time, shares)

    def _hold(self, started: int) -> None:
        """Make room for lots of such a size."""
        if started > self._size:
            self._size = started
            for name in ("_ever", "_through"):
                self.__dict__.pop(name, None)

    @cached_property
    def _ever(self) -> Floats:
        """For each number started (row) the chance of each number that ever roots."""
        rooting = self.losses.rooting
        return np.eye(self._size + 1) if rooting is None else beta_binomial(self._size, rooting)

    @cached_property
    def _through(self) -> Floats:
        """For each number started the chance of each that comes through, if time were no matter."""
        kept = beta_binomial(self._size, self.losses.potting) @ beta_binomial(self._size, self.losses.living)
        return np.asarray(self._ever @ kept)

    def _chances(self, want: int, in_time: Shares, held: Sequence[float]) -> Floats:
        """The chance of enough for every number started."""
        numbers = np.arange(self._size + 1)
        enough = np.zeros(self._size + 1)
        for number, chance in enumerate(held):
            still = want - number
            if chance > 0.0:
                enough += chance * (1.0 if still <= 0 else 1.0 - _at_most(still - 1, numbers, in_time))
        return np.asarray(self._through @ enough)


def beta_binomial(size: int, law: Beta) -> Floats:
    """For each number of stems from 0 to ``size`` (row) the chance of each number that comes through
    (column)."""
    a, b = law
    tried, through = np.meshgrid(np.arange(size + 1), np.arange(size + 1), indexing="ij")
    lost = tried - through
    possible = lost >= 0
    lost = np.where(possible, lost, 0)
    ways = gammaln(tried + 1) - gammaln(through + 1) - gammaln(lost + 1)
    return np.asarray(np.where(possible, np.exp(ways + betaln(a + through, b + lost) - betaln(a, b)), 0.0))


def thinned(numbers: Sequence[float], law: Beta) -> tuple[float, ...]:
    """The chance of each number of stems that comes through a step, from that of each which came to it."""
    return tuple(np.asarray(numbers) @ beta_binomial(len(numbers) - 1, law))


def timely(numbers: Sequence[float], in_time: Shares) -> tuple[float, ...]:
    """The chance of each number of stems that is in time, from that of each which ever is."""
    counts, through = np.arange(len(numbers)), np.asarray(numbers)
    at_most = [float(through @ _at_most(most, counts, in_time)) for most in range(len(numbers))]
    return tuple(np.diff(at_most, prepend=0.0))


def _at_most(most: int, numbers: Floats | NDArray[np.int64], in_time: Shares) -> Floats:
    """For each number of stems the chance that at most so many are in time."""
    weights = np.array([weight for weight, _ in in_time])
    shares = np.clip([share for _, share in in_time], 0.0, 1.0)
    below = bdtr(most, np.maximum(numbers, most)[:, None], shares[None, :]) @ weights
    return np.asarray(np.where(numbers <= most, 1.0, below))


def _quantiles(numbers: Floats, in_time: Shares, shares: Sequence[float]) -> tuple[int, ...]:
    counts = np.arange(len(numbers))

    def below(most: int) -> float:
        return float(numbers @ _at_most(most, counts, in_time))

    return tuple(bisect_left(counts, share - ROUNDING, hi=len(numbers) - 1, key=below) for share in shares)
