"""Small gardens planned position by position: one yes or no for every plant at every node of a net.

It is exact on its net, and far too large for a garden of any size; there plants are shared out to beds first
(``programme``).
"""

from collections.abc import Iterator, Sequence

import numpy as np
from attrs import evolve, frozen

from cuttings.placement.bed import Bed, Flags, Floats
from cuttings.placement.solving import Rows
from cuttings.placement.wanted import Need

MOST_COLUMNS = 1_500
"""A net with more choices than this is not worth its time."""

COARSEST_M = 0.15
"""A net with wider meshes than this tells little of a bed, unless the plan itself has no finer ones."""

SECONDS = 5.0


@frozen
class Column:
    """One lot's plant at one position of one bed."""

    lot: int
    bed: int
    node: int


@frozen(eq=False)
class Net:
    """The positions of one bed's net, and for each kind of plant which of them it may take."""

    bed: Bed
    at: Floats
    allowed: dict[Need, Flags]


def nets(beds: Sequence[Bed | None], needs: Sequence[Need], lots: int) -> list[Net] | None:
    """A net over each bed, as fine as the plan or as the number of choices allows; ``None`` where it would
    have to be too coarse, or a bed has not been measured."""
    if any(bed is None or bed.hidden_m2 for bed in beds):
        return None
    measured = [bed for bed in beds if bed is not None]
    fine = max((bed.step_m for bed in measured), default=COARSEST_M)
    for step in sorted({fine, *(each for each in (0.05, 0.1, COARSEST_M) if each > fine)}):
        boxes = sum(np.prod(np.subtract(bed.plot.high, bed.plot.low)) / step**2 for bed in measured)
        if boxes * lots <= MOST_COLUMNS:
            return [_net(evolve(bed, step_m=step), needs) for bed in measured]
    return None


def _net(bed: Bed, needs: Sequence[Need]) -> Net:
    nodes = bed.nodes()
    return Net(bed, nodes, {need: bed.allowed(nodes, need) for need in needs})


def best_on(
    laid: Sequence[Net], needs: Sequence[Need], counts: Sequence[int], worth: Sequence[Sequence[float]]
) -> tuple[list[tuple[int, int, tuple[float, float]]], float] | None:
    """The best plan on nets: lot, bed and position of each plant, and the total that none on them can pass.

    Args:
        needs: for each lot what its plants ask of the ground; ``counts`` how many there are, and ``worth``
        what
            one is worth on each bed.
    """
    columns = [
        Column(lot, bed, int(node))
        for lot, need in enumerate(needs)
        for bed, net in enumerate(laid)
        if worth[lot][bed] > 0.0
        for node in np.flatnonzero(net.allowed[need])
    ]
    if not columns:
        return [], 0.0
    rows = Rows()
    for lot, count in enumerate(counts):
        rows.add(((number, 1.0) for number, column in enumerate(columns) if column.lot == lot), count)
    for bed, net in enumerate(laid):
        mine = [number for number, column in enumerate(columns) if column.bed == bed]
        nodes = [columns[number].node for number in mine]
        radii = np.array([needs[columns[number].lot].radius_m for number in mine])
        for together in _apart(net, nodes, radii):
            rows.add(((mine[number], 1.0) for number in together), 1.0)
    gain = np.array([worth[column.lot][column.bed] for column in columns])
    answer = rows.solve(gain, np.ones(len(columns)), exact=0.0, seconds=SECONDS)
    if answer is None:
        return None
    values, bound = answer
    found = [columns[number] for number in np.flatnonzero(values > 0.5)]
    puts = []
    for column in found:
        x, y = laid[column.bed].at[column.node]
        puts.append((column.lot, column.bed, (float(x), float(y))))
    return puts, bound


def _apart(net: Net, nodes: Sequence[int], radii: Floats) -> Iterator[list[int]]:
    """Sets of columns of a bed that exclude each other: those whose own ground holds one node of the net, and
    the pairs that come too close all the same."""
    if not len(nodes):
        return
    at = net.at[list(nodes)]
    own = radii * (1.0 - net.bed.overlap)
    away = np.hypot(at[:, :1] - net.at[:, 0], at[:, 1:] - net.at[:, 1])
    covers = away < own[:, None] - 1e-9
    for node in range(len(net.at)):
        together = np.flatnonzero(covers[:, node])
        if len(together) > 1:
            yield [int(number) for number in together]
    gaps = np.hypot(at[:, :1] - at[:, 0], at[:, 1:] - at[:, 1])
    least = radii[:, None] + radii - 2.0 * net.bed.overlap * np.minimum(radii[:, None], radii)
    shared = (covers.astype(np.int32) @ covers.T.astype(np.int32)) > 0
    close = np.triu((gaps < least - 1e-9) & ~shared, 1)
    yield from ([int(one), int(other)] for one, other in zip(*np.nonzero(close), strict=True))
