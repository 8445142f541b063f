"""The share of stems that comes through a step, learned from lots that differ by more than chance.

The stems of one lot share its fate: the mix was too wet, or the day too hot. So a lot counts for less than
its stems. Each lot has a share of its own, from a beta law round the mean of its group (the beta-binomial
model, as Crowder has it in Applied Statistics 27, 1978); the mean starts from a published or general figure,
and how much lots differ from ``LOTS_DIFFER``. The posterior is reckoned on a grid.
"""

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import Self

from attrs import field, frozen

from cuttings.takes.grids import quantile, zoomed

MOST_STEMS, FEWEST_STEMS = 8.0, 3.0
"""A published share counts for as many stems of one's own at the most and at the least; from memory."""

GENERAL_STEMS = 4.0
"""For how many stems a general figure counts; from memory."""

LOTS_DIFFER = ((0.01, 0.25), (0.04, 0.3), (0.1, 0.25), (0.2, 0.15), (0.4, 0.05))
"""How alike the stems of one lot may be beyond chance (their correlation), and how likely each is held to be
before anything is counted; this program's own choice. Crowder's two sets of seeds, sown alike in plates, come
to 0.013 and 0.012 by a fit; lots of cuttings struck by hand in different weeks differ more."""

FURTHEST = 30.0
"""The log odds of a mean share lie within this; a figure near all or none leaves much room far out."""

COARSE, FINE = 21, 61
"""Points of a posterior's grid: enough for its moments, and for its quantiles to a thousandth."""

TEN_TO_NINETY_SDS = 2.563
"""Standard deviations of a normal law from its tenth to its ninetieth part."""


@frozen
class Figure:
    """Where a share starts from: its mean, and for how many stems it counts. ``source`` is a key or a name,
    and ``published`` tells that it is a published figure of this plant."""

    mean: float
    stems: float
    source: str
    published: bool = False

    @classmethod
    def of_range(cls, low: float, high: float, source: str) -> Self:
        """A published share, or the range of several: the wider it is, the fewer stems it counts for."""
        mean = min(max((low + high) / 2.0, 0.03), 0.97)
        sd = (high - low) / TEN_TO_NINETY_SDS
        stems = mean * (1.0 - mean) / (sd * sd) - 1.0 if sd > 0.0 else MOST_STEMS
        return cls(mean, min(max(stems, FEWEST_STEMS), MOST_STEMS), source, True)


@frozen
class Counts:
    """What became of the stems of one lot at a step; parts of stems count for those that are undecided."""

    came_through: float
    did_not: float

    def plus(self, other: "Counts") -> "Counts":
        """Both together."""
        return Counts(self.came_through + other.came_through, self.did_not + other.did_not)


@frozen
class Share:
    """What is known of the share of a group of lots.

    ``grid`` holds values of the mean with their weights, ``laws`` for each mean and each likeness of the
    stems of a lot the weight, the mean and the likeness. ``lots`` and ``stems`` say how much was counted.
    """

    figure: Figure
    lots: int
    stems: float
    grid: tuple[tuple[float, float], ...] = field(repr=False)
    laws: tuple[tuple[float, float, float], ...] = field(repr=False)

    @cached_property
    def mean(self) -> float:
        return sum(weight * mean for weight, mean, _ in self.laws)

    def interval(self, level: float = 0.9) -> tuple[float, float]:
        """The middle part of the posterior of the mean, 0 to 1 each."""
        tail = (1.0 - level) / 2.0
        return _share(quantile(self.grid, tail)), _share(quantile(self.grid, 1.0 - tail))

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """Values of the mean, 0 to 1, each with its weight."""
        return tuple((_share(logit), weight) for logit, weight in self.grid)

    @cached_property
    def next_lot(self) -> tuple[float, float]:
        """The two parameters of the beta law that is most like that of the share of one lot more."""
        second = sum(
            weight * (mean * mean + mean * (1.0 - mean) * alike) for weight, mean, alike in self.laws
        )
        variance = max(second - self.mean * self.mean, 1e-9)
        stems = max(self.mean * (1.0 - self.mean) / variance - 1.0, 0.2)
        return self.mean * stems, (1.0 - self.mean) * stems


def learned(figure: Figure, lots: Iterable[Counts], nodes: int = COARSE) -> Share:
    """The posterior of a group's share from what its lots came to.

    Args:
        nodes: points of the grid of the mean, which runs along its log odds; at least ``COARSE``.
    """
    counted = [each for each in lots if each.came_through + each.did_not > 0.0]
    every = Tallied.of(counted)
    a, b = figure.mean * figure.stems, (1.0 - figure.mean) * figure.stems
    likenesses = [
        (math.log(weight) + every.apart_from_the_mean(alike), alike) for alike, weight in LOTS_DIFFER
    ]

    def at(logit: float) -> Sequence[float]:
        mean = _share(logit)
        start = a * math.log(mean) + b * math.log1p(-mean)
        return [start + held + every.by_the_mean(mean, alike) for held, alike in likenesses]

    grid = zoomed(at, -FURTHEST, FURTHEST, COARSE)
    if nodes > COARSE:
        grid = zoomed(at, grid[0][0], grid[-1][0], nodes)
    return Share(
        figure=figure,
        lots=len(counted),
        stems=sum(each.came_through + each.did_not for each in counted),
        grid=tuple((logit, sum(weights)) for logit, weights in grid),
        laws=tuple(
            (weight, _share(logit), alike)
            for logit, weights in grid
            for weight, (alike, _) in zip(weights, LOTS_DIFFER, strict=True)
        ),
    )


Numbers = tuple[tuple[float, int], ...]
"""Numbers of stems, each with how many lots had so many."""


@frozen
class Tallied:
    """Many lots, with how often each number of stems came through, did not, or was counted at all: what is
    alike is reckoned once."""

    lots: int
    came_through: Numbers
    did_not: Numbers
    stems: Numbers

    @classmethod
    def of(cls, lots: Sequence[Counts]) -> Self:
        return cls(
            len(lots),
            tuple(Counter(each.came_through for each in lots).items()),
            tuple(Counter(each.did_not for each in lots).items()),
            tuple(Counter(each.came_through + each.did_not for each in lots).items()),
        )

    def log_chance(self, mean: float, alike: float) -> float:
        """The logarithm of the chance that of the stems of each lot those came through and those did not, in
        one order.

        Args:
            mean: the mean share, more than 0 and less than 1.
            alike: the correlation of the stems of a lot, more than 0 and less than 1.
        """
        return self.by_the_mean(mean, alike) + self.apart_from_the_mean(alike)

    def by_the_mean(self, mean: float, alike: float) -> float:
        """The part of it that the mean share bears on."""
        whole = 1.0 / alike - 1.0
        return self._rise(self.came_through, mean * whole) + self._rise(self.did_not, (1.0 - mean) * whole)

    def apart_from_the_mean(self, alike: float) -> float:
        """The rest of it."""
        return -self._rise(self.stems, 1.0 / alike - 1.0)

    def _rise(self, numbers: Numbers, base: float) -> float:
        """The logarithm of the rising factorials of a base by some numbers, those of all lots multiplied."""
        lgamma = math.lgamma
        return sum([times * lgamma(base + number) for number, times in numbers]) - self.lots * lgamma(base)


def _share(logit: float) -> float:
    return 1.0 / (1.0 + math.exp(-logit))
