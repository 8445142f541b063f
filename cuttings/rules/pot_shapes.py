"""What a pot takes by its shape: round, square and deep pots by their measures, cell trays by their cells.

Metres and litres throughout. Each volume is that of the mix a pot is filled with, not of the water it would
hold to the brim.
"""

import math
from bisect import bisect_left

ROUND_SOURCE = "Jacksons Nurseries: Plant Pot Size Guide"
"""Top, base and height of pots from 9 to 28 cm, whose middle shares are ours,
https://www.jacksonsnurseries.co.uk/plant-pot-size-guide-page-2.html"""

ROUND_BASE, ROUND_HEIGHT = 0.75, 0.80
"""A round pot's base and height as shares of its width across the top; from ``ROUND_SOURCE``."""

SQUARE_BASE, SQUARE_HEIGHT = 0.85, 0.95
"""A square pot's base and height as shares of its side; it tapers less than a round one; from memory."""

DEEP_BASE = 0.85
"""A deep pot's base as a share of its width across the top; from memory."""

FILLED = 0.9
"""The share of a pot filled with mix, since a finger's breadth is left for watering; from memory."""

CELL_L = {
    32: 0.110,
    36: 0.100,
    50: 0.075,
    72: 0.042,
    98: 0.028,
    128: 0.022,
    200: 0.011,
    288: 0.006,
    512: 0.003,
}
"""Litres to a cell by the number of cells in a tray of the usual size, 10 by 20 inches; from memory."""

FEWEST_CELLS, MOST_CELLS = 4, 800


def _tapered(top: float, base: float, height: float) -> float:
    """The volume between two level squares of those sides, so far apart; a round pot has pi/4 of it."""
    return height / 3 * (top * top + top * base + base * base)


def _litres_of_mix(cubic_metres: float) -> float:
    return round(cubic_metres * 1000 * FILLED, 3)


def round_litres(diameter_m: float) -> float:
    """The mix an ordinary round pot takes, by its width across the top."""
    return _litres_of_mix(
        math.pi / 4 * _tapered(diameter_m, ROUND_BASE * diameter_m, ROUND_HEIGHT * diameter_m)
    )


def square_litres(side_m: float) -> float:
    """The mix an ordinary square pot takes, by the length of its side at the top."""
    return _litres_of_mix(_tapered(side_m, SQUARE_BASE * side_m, SQUARE_HEIGHT * side_m))


def deep_litres(diameter_m: float, depth_m: float) -> float:
    """The mix a tall narrow pot takes, as tree seedlings are raised in, by its width and its depth."""
    return _litres_of_mix(math.pi / 4 * _tapered(diameter_m, DEEP_BASE * diameter_m, depth_m))


def cell_litres(cells: int) -> float:
    """The mix one cell takes of a tray of so many; between the sizes of ``CELL_L`` it falls evenly, in
    proportion, and beyond them the whole tray takes what the nearest one does.

    Raises:
        ValueError: no tray has so few or so many cells.
    """
    if not FEWEST_CELLS <= cells <= MOST_CELLS:
        raise ValueError(f"no tray has {cells} cells; it has {FEWEST_CELLS} to {MOST_CELLS}")
    known = sorted(CELL_L)
    after = bisect_left(known, cells)
    if after in (0, len(known)):
        nearest = known[min(after, len(known) - 1)]
        return round(CELL_L[nearest] * nearest / cells, 4)
    fewer, more = known[after - 1], known[after]
    share = math.log(cells / fewer) / math.log(more / fewer)
    return round(CELL_L[fewer] * math.pow(CELL_L[more] / CELL_L[fewer], share), 4)
