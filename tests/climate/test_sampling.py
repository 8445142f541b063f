"""Does the stated sampling error hold? A thousand made-up climates of thirty years are asked."""

import numpy as np
import pytest

from cuttings.climate.condensing import condense
from cuttings.climate.frost import FROST_F
from tests.climate.weather import Weather, series_of

PLACES = tuple(
    Weather(mean, amplitude)
    for mean, amplitude in (
        (0.0, 15.0), (1.5, 14.0), (3.0, 14.0), (3.0, 11.0), (4.5, 12.5),
        (6.0, 12.0), (6.0, 9.0), (8.0, 10.5), (9.0, 10.0), (10.0, 10.0),
    )
)  # fmt: skip
"""From a place with frost into June to one with frost till March."""

CLIMATES_EACH = 100
LONG_RUN = 20_000
"""Winters from which a place's true median date is told."""

YEARS = 30


def true_median(place: Weather, chance: np.random.Generator) -> float:
    """The median day of the year of the last 32 °F, over very many winters."""
    minima = np.rint(place.winters(LONG_RUN, chance) / 10 * 1.8 + 32)
    freezing = minima <= FROST_F
    assert freezing.any(axis=1).all()
    last = 364 - np.argmax(freezing[:, ::-1], axis=1)
    return float(np.median(last)) - 153 + 1  # 1 August is 153 days before New Year


@pytest.fixture(scope="module")
def held() -> list[bool]:
    """For each of the thousand, whether the interval about its median date held the true one."""
    found = []
    for number, place in enumerate(PLACES):
        chance = np.random.default_rng(20260 + number)
        truth = true_median(place, chance)
        for _ in range(CLIMATES_EACH):
            normals = condense(series_of(place.winters(YEARS, chance)), 43.0, (1991, 1990 + YEARS))
            freezes = next(level for level in normals.freezes if level.threshold_f == FROST_F)
            half, _ = freezes.half_widths()
            median = freezes.spring.last_left(0.5)
            assert half is not None
            assert median is not None
            found.append(abs(median - truth) <= half)
    return found


def test_ninety_in_a_hundred_intervals_hold_the_true_median_date(held: list[bool]) -> None:
    assert len(held) == 1000
    assert 0.87 <= sum(held) / len(held) <= 0.93
