"""Synthetic winters for the tests: an annual wave, noise that remembers, and years that lean one way."""

from datetime import date

import numpy as np
from attrs import frozen
from numpy.typing import NDArray
from scipy.signal import lfilter

from cuttings.climate.series import Series

Numbers = NDArray[np.float64]

SPREAD_C, WIDER_IN_WINTER = 5.0, 0.25
"""Standard deviation of a night about the wave, and by how much of itself it is wider in midwinter."""

DAY_MEMORY, SLOW_MEMORY, SLOW_C, YEAR_C = 0.7, 0.97, 1.5, 0.8
"""How much of a departure is left on the next day; the same for slow spells, their spread, and that of
years."""


@frozen
class Weather:
    """Nights of a made-up place: mean and amplitude of the wave of minima, °C; midwinter is on 18 January."""

    mean_c: float
    amplitude_c: float

    def winters(self, count: int, chance: np.random.Generator) -> Numbers:
        """So many winters, August to July, a row each: minima in tenths of °C as a station would give
        them."""
        day = np.arange(365)
        turn = 2 * np.pi * (day - 170) / 365.25  # midwinter is the 170th day after 1 August
        wave = self.mean_c - self.amplitude_c * np.cos(turn)
        spread = SPREAD_C * (1 + WIDER_IN_WINTER * np.cos(turn))
        nights = wave + spread * _remembering(DAY_MEMORY, count, chance)
        nights += SLOW_C * _remembering(SLOW_MEMORY, count, chance)
        nights += YEAR_C * chance.standard_normal((count, 1))
        return np.asarray(np.rint(nights * 10))


def _remembering(memory: float, count: int, chance: np.random.Generator) -> Numbers:
    """Noise of spread one in which a part of each day is left on the next, after a long run-in."""
    noise = chance.standard_normal((count, 365 + 150))
    return np.asarray(lfilter([np.sqrt(1 - memory**2)], [1, -memory], noise, axis=1)[:, 150:])


def series_of(winters: Numbers, first_year: int = 1990, swing_c: float = 11.0) -> Series:
    """Winters laid end to end from an August on, leap days repeated from the day before."""
    first = date(first_year, 8, 1)
    days = (date(first_year + len(winters), 7, 31) - first).days + 1
    minima = np.empty(days, dtype=np.int16)
    for number, winter in enumerate(winters):
        begins = (date(first_year + number, 8, 1) - first).days
        length = (date(first_year + number + 1, 8, 1) - date(first_year + number, 8, 1)).days
        minima[begins : begins + length] = np.append(winter, winter[-1])[:length]
    maxima = (minima + round(swing_c * 10)).astype(np.int16)
    return Series("a made-up place", first, minima, maxima, np.full(days, 27, dtype=np.int16))
