"""What the looks at one lot tell of when it roots, and of how many of its stems ever do.

A look tells only that so many stems rooted since the look before, or not yet: the times are
interval-censored, and a share of the stems never roots. The prior is a curve of rooting times whose centre
may be shifted, a spread that may be narrower or wider, and a beta law for the share that roots. The share is
integrated in closed form, the other two over a grid that closes in on where the posterior lies. All of it is
plain arithmetic, so that a week of many lots needs no library of numbers.
"""

import math
from collections.abc import Callable, Sequence
from functools import cached_property

from attrs import field, frozen

from cuttings.takes.curve import Curve
from cuttings.takes.grids import quantile, zoomed

SPREAD_SD = 0.35
"""How sure the spread of a published range is within one lot: standard deviation of its logarithm; a choice
of this program's own."""

_SPREADS = tuple(
    (weight, math.exp(step * SPREAD_SD))
    for weight, step in ((1 / 6, -(3**0.5)), (2 / 3, 0.0), (1 / 6, 3**0.5))
)
"""The three points of Gauss and Hermite, with their weights."""

_LEAST = 1e-300

WORTH_COUNTING = 2e-4
"""A curve of less weight than this changes no day."""


@frozen
class Looks:
    """What was seen of one lot, in days since it was started that count at its warmth.

    ``rooted`` holds for each look the days of the look before, its own, and how many stems had rooted in
    between; ``waiting`` stems had not by ``last``, the newest look; ``failed`` ones never will.
    """

    rooted: tuple[tuple[float, float, int], ...] = ()
    waiting: int = 0
    failed: int = 0
    last: float = 0.0

    @property
    def taken(self) -> int:
        """How many stems have rooted."""
        return sum(count for _, _, count in self.rooted)

    @property
    def news(self) -> float:
        """The days of the newest look that found roots; 0 where none has."""
        return max((last for _, last, _ in self.rooted), default=0.0)

    @property
    def tell(self) -> bool:
        """Whether anything has been seen that tells of the time."""
        return bool(self.rooted) or (self.last > 0.0 and self.waiting > 0)


@frozen
class Prior:
    """What is thought of a lot before anybody looks.

    ``shift`` and ``sd`` are the mean and the standard deviation of how much later than the curve the lot
    roots, in logarithms of days; ``takes`` and ``fails`` the parameters of the beta law of the share that
    roots.
    """

    curve: Curve
    shift: float
    sd: float
    takes: float
    fails: float


@frozen
class Node:
    """One curve with its weight in the posterior."""

    weight: float
    curve: Curve


@frozen
class Posterior:
    """What is thought of a lot after the looks at it.

    ``nodes`` are curves with their weights, which add up to 1; ``shifts`` the grid of shifts with the weight
    of each.
    """

    prior: Prior
    looks: Looks
    nodes: tuple[Node, ...]
    shifts: tuple[tuple[float, float], ...]
    _never: tuple[float, ...] = field(repr=False)

    def shift_at(self, share: float) -> float:
        """The shift below which such a share of the posterior lies."""
        return quantile(self.shifts, share)

    @cached_property
    def shift_mean_sd(self) -> tuple[float, float]:
        """Mean and standard deviation of the shift."""
        mean = sum(weight * shift for shift, weight in self.shifts)
        return mean, math.sqrt(max(sum(weight * (shift - mean) ** 2 for shift, weight in self.shifts), 1e-12))

    def half_by(self, share: float) -> float:
        """The days by which half of those that root have done so, at such a share of the posterior."""
        return math.exp(self.prior.curve.centre + self.shift_at(share))

    @cached_property
    def _now(self) -> tuple[tuple[float, Curve], ...]:
        """Each curve that counts, with its weight over the chance that the stems waiting wait still."""
        last, never = self.looks.last, self._never
        return tuple(
            (node.weight / max(_value(never, node.curve.after(last)), _LEAST), node.curve)
            for node in self.nodes
            if node.weight > WORTH_COUNTING
        )

    def news_by(self, days: float) -> float:
        """The chance, 0 to 1, that at least one more stem has rooted by so many days."""
        never = self._never
        none = sum(weight * _value(never, curve.after(days)) for weight, curve in self._now)
        return min(max(1.0 - none, 0.0), 1.0)

    def still_to_root(self, days: float) -> float:
        """The share of the stems waiting that would root yet if none more had by so many days."""
        whole = ever = 0.0
        never, slopes = self._never, self._slopes
        for weight, curve in self._now:
            left = curve.after(days)
            whole += weight * _value(never, left)
            ever += weight * left * _value(slopes, left)
        return ever / max(whole, _LEAST) / max(self.looks.waiting, 1)

    def rest_by(self, share: float, longest: float) -> float:
        """The days by which such a share of the stems that wait and root yet have done so, ``longest`` at
        most."""
        parts = []
        for weight, curve in self._now:
            left = curve.after(self.looks.last)
            parts.append((weight * _value(self._slopes, left), curve))  # how many root yet, over what is left
        still = sum(part * curve.after(self.looks.last) for part, curve in parts) * (1.0 - share)
        return first_day(
            lambda days: sum(part * curve.after(days) for part, curve in parts) <= still,
            max(self.looks.last, 0.5),
            longest,
        )

    @cached_property
    def _slopes(self) -> tuple[float, ...]:
        """The factors of the slope."""
        return tuple(power * factor for power, factor in enumerate(self._never))[1:]

    @cached_property
    def yet_to_root(self) -> tuple[float, ...]:
        """The chance of each number, from 0 to all, of stems waiting that root yet."""
        chances = [0.0] * len(self._never)
        for node in self.nodes:
            left = node.curve.after(self.looks.last)
            whole = max(_value(self._never, left), _LEAST)
            power = node.weight / whole
            for number, factor in enumerate(self._never):
                chances[number] += factor * power
                power *= left
        return tuple(chances)

    @property
    def yet_mean(self) -> float:
        """The mean number of stems waiting that root yet."""
        return sum(number * chance for number, chance in enumerate(self.yet_to_root))


def posterior(prior: Prior, looks: Looks, nodes: int = 19) -> Posterior:
    """The posterior of one lot.

    Args:
        nodes: points of the grid of shifts at least.
    """
    never = _never_yet(prior, looks)
    spreads = tuple((math.log(weight), prior.curve.spread * factor) for weight, factor in _SPREADS)

    def at(shift: float) -> list[float]:
        off = (shift - prior.shift) / prior.sd
        centre = prior.curve.centre + shift
        return [
            weight + _log_likelihood(Curve(centre, spread), looks, never) - off * off / 2.0
            for weight, spread in spreads
        ]

    grid = zoomed(at, prior.shift - 4.5 * prior.sd, prior.shift + 4.5 * prior.sd, nodes)
    found = tuple(
        Node(weight, Curve(prior.curve.centre + shift, spread))
        for shift, weights in grid
        for weight, (_, spread) in zip(weights, spreads, strict=True)
        if weight > 1e-9
    )
    shifts = tuple((shift, sum(weights)) for shift, weights in grid)
    return Posterior(prior, looks, found, shifts, never)


def _log_likelihood(curve: Curve, looks: Looks, never: Sequence[float]) -> float:
    """The logarithm of the chance of what was seen, for one curve, with the share that roots integrated out;
    but for a constant.

    Counts of one look are taken as they are; the number of ways to arrange them is left out.
    """
    found = math.log(max(_value(never, curve.after(looks.last)), _LEAST)) if looks.last > 0.0 else 0.0
    for first, last, count in looks.rooted:
        found += count * math.log(max(curve.between(first, last), _LEAST))
    return found


def _never_yet(prior: Prior, looks: Looks) -> tuple[float, ...]:
    """Factors of the powers of the share of rooting stems that is still to come.

    A waiting stem either never roots or roots later. The factor of a power n is the weight of n of the stems
    rooting later, integrated over the share that roots; the largest is 1.
    """
    waiting = looks.waiting
    a, b = prior.takes + looks.taken, prior.fails + looks.failed
    logs = [
        math.lgamma(waiting + 1) - math.lgamma(later + 1) - math.lgamma(waiting - later + 1)
        + math.lgamma(a + later) + math.lgamma(b + waiting - later)
        for later in range(waiting + 1)
    ]  # fmt: skip
    top = max(logs)
    return tuple(math.exp(log - top) for log in logs)


def _value(factors: Sequence[float], x: float) -> float:
    found = 0.0
    for factor in reversed(factors):
        found = found * x + factor
    return found


def first_day(holds: Callable[[float], bool], low: float, high: float) -> float:
    """The first number of days between two from which something holds, to a hundredth of it or a quarter of a
    day; ``high`` if it never does before."""
    if holds(low):
        return low
    while high - low > max(0.25, 0.01 * low):
        middle = (low + high) / 2.0
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high
