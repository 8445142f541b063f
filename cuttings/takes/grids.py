"""Posteriors on a grid that closes in on where they lie, and their quantiles."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

DEEP = 9.0
"""Logarithms below the top at which a density counts for nothing."""

FINE = 0.55
"""A grid is fine enough when its step is at most so many standard deviations: sums of a smooth density are
then good to a thousandth."""

WIDE = 0.6
"""A grid is close enough when what counts takes up so much of it."""

MOST_ROUNDS = 8
"""A grid is closed in so many times at the most."""

HALVINGS = 20
"""A quantile lies within a millionth of a step."""


def zoomed(
    logs_at: Callable[[float], Sequence[float]], low: float, high: float, nodes: int
) -> list[tuple[float, tuple[float, ...]]]:
    """A density in one direction, with any number of layers, on evenly spaced points where it counts.

    Args:
        logs_at: the logarithms of the density of each layer at a point; any constant may be missing.
        nodes: how many points the grid has.

    Returns:
        Each point with the weights of its layers, all of which add up to 1.
    """
    for _ in range(MOST_ROUNDS):
        step = (high - low) / (nodes - 1)
        points = [low + number * step for number in range(nodes)]
        logs = [logs_at(point) for point in points]
        top = max(max(each) for each in logs)
        layers = [tuple(math.exp(log - top) for log in each) for each in logs]
        sums = [sum(each) for each in layers]
        counts = [point for point, each in zip(points, sums, strict=True) if each > math.exp(-DEEP)]
        closer = max(low, counts[0] - step), min(high, counts[-1] + step)
        if closer[1] - closer[0] > WIDE * (high - low) and step <= FINE * _sd(points, sums):
            break
        low, high = closer
    whole = sum(sums)
    return [(point, tuple(part / whole for part in each)) for point, each in zip(points, layers, strict=True)]


def _sd(points: Sequence[float], weights: Sequence[float]) -> float:
    """The standard deviation of points with weights."""
    whole = sum(weights)
    mean = sum(point * weight for point, weight in zip(points, weights, strict=True)) / whole
    squares = sum((point - mean) ** 2 * weight for point, weight in zip(points, weights, strict=True))
    return math.sqrt(squares / whole)


def quantile(grid: Sequence[tuple[float, float]], share: float) -> float:
    """The point below which such a share of an evenly spaced density lies.

    Between two points the density is taken for the cubic through them and their neighbours.

    Args:
        grid: points in order with their weights, which add up to 1.
    """
    weights = [0.0, *(weight for _, weight in grid), 0.0]
    below = 0.0
    for number, ((before, first), (point, last)) in enumerate(pairwise(grid)):
        here = max((13.0 * (first + last) - weights[number] - weights[number + 3]) / 24.0, 0.0)
        if below + here >= share:
            return before + (point - before) * _part(first, last, here, share - below)
        below += here
    return grid[-1][0]


def _part(first: float, last: float, rise: float, wanted: float) -> float:
    """How far along a step, 0 to 1, a wanted part of its weight is reached.

    Args:
        first, last: the density at its ends.
        rise: the weight of the whole step.
    """
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        at = (low + high) / 2.0
        left = at * (1.0 - at) * (first * (1.0 - at) - last * at) + at * at * (3.0 - 2.0 * at) * rise
        low, high = (at, high) if left < wanted else (low, at)
    return (low + high) / 2.0
