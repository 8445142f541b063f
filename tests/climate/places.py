"""Made-up places of every kind of climate, as files would give them. All invented."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np
from attrs import frozen
from scipy.signal import lfilter

from tests.climate.station_files import Day

WIDER_IN_WINTER = 0.35
"""By how much of itself chance is wider in midwinter, and narrower in midsummer."""

SLOW, YEARLY = 0.2, 0.13
"""Spells of a month and the lean of whole years, as parts of a day's spread."""


@frozen
class Place:
    """A round of mean temperatures [°C] that is highest on ``peak_day``; the middle day's swing [°C] and the
    spread of days [°C]."""

    mean: float
    amplitude: float
    swing: float
    spread: float
    peak_day: float = 201.0

    def days(self, first: int, last: int, seed: int = 5) -> list[Day]:
        """Every day of those calendar years, in tenths of °C, without rain."""
        chance = np.random.default_rng(seed)
        begins = date(first, 1, 1)
        count = (date(last + 1, 1, 1) - begins).days
        round_ = np.cos(2 * np.pi * (np.arange(count) + 1 - self.peak_day) / 365.25)
        spread = self.spread * (1 - WIDER_IN_WINTER * round_)
        mean = self.mean + self.amplitude * round_
        mean += spread * (_remembering(0.75, count, chance) + SLOW * _remembering(0.97, count, chance))
        mean += np.repeat(self.spread * YEARLY * chance.standard_normal(last - first + 1), 366)[:count]
        half = np.maximum(self.swing * (1 + 0.25 * _remembering(0.5, count, chance)), 1.0) / 2
        lows, highs = (np.rint(each * 10).astype(int).tolist() for each in (mean - half, mean + half))
        return [
            Day(begins + timedelta(days=at), low, high)
            for at, (low, high) in enumerate(zip(lows, highs, strict=True))
        ]


def _remembering(
    memory: float, count: int, chance: np.random.Generator
) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    noise = chance.standard_normal(count + 200)
    return np.asarray(lfilter([np.sqrt(1 - memory**2)], [1, -memory], noise)[200:])


PLACES: Mapping[str, Place] = {
    "tropical": Place(26.0, 2.0, 9.0, 1.2),
    "a coral island": Place(27.5, 0.6, 4.0, 0.8),
    "a desert": Place(20.0, 11.0, 18.0, 4.0),
    "maritime": Place(9.0, 5.0, 6.0, 3.0, peak_day=222.0),
    "a prairie": Place(3.0, 19.0, 12.0, 6.0),
    "the coldest forest": Place(-9.0, 29.0, 11.0, 6.0),
    "an arctic coast": Place(-6.0, 9.0, 5.0, 5.0),
    "the far south": Place(10.0, 6.5, 10.0, 3.0, peak_day=20.0),
}
