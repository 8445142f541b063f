"""The weather of Quarry Bank: invented, day by day, from a seeded model.

An annual wave, a swing between night and day, a yearly lean, and noise in which each day remembers the one
before. Nothing was measured anywhere.
"""

import math
import random
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final

INVENTED: Final = (
    "# The weather of Quarry Bank, an invented garden: made by a seeded model, measured nowhere."
)
HEADINGS: Final = "date,tmin,tmax,rain"

SEED: Final = 72
"""Of the seeds tried, the one whose thirty years come nearest to what the garden's keepers say of it: a last
frost about 15 May, a first about 30 September, zone 5b, a metre of rain."""

MEAN_F: Final = 44.1
AMPLITUDE_F: Final = 24.2
PEAK_DAY: Final = 202.0
"""The year's round of the mean temperature in °F, and the day of the year on which it is highest."""

SWING_F: Final = 24.9
SWING_SPRING_F: Final = 2.2
SWING_PEAK_DAY: Final = 135.0
"""The mean difference between day and night in °F, and how much more it is in late spring, on that day of the
year."""

SPREAD_F: Final = 7.0
SPREAD_WINTER_F: Final = 2.2
"""The standard deviation of a day's mean in °F, and how much more it is in midwinter."""

MEMORY: Final = 0.6
"""How much of a day's departure is left on the next."""

YEAR_SPREAD_F: Final = 1.0
"""The standard deviation of a whole year's lean in °F."""

SWING_SPREAD_F: Final = 4.0
LEAST_SWING_F: Final = 3.0
"""The standard deviation of the difference between day and night in °F, and the least it can be."""

RAIN_CHANCE: Final = 0.40
RAIN_MEAN_IN: Final = 0.27
"""The share of days with rain, and the mean of what such a day brings in inches."""


def daily_lines(last_year: int, years: int = 30) -> Iterator[str]:
    """So many whole years up to ``last_year``, as the lines of a file of plain rows, without line ends.

    The first line says that it is invented, the second names the columns: day, minimum and maximum in whole
    °F, rain in inches. Weather is counted back from the last year, so every last year has the same story.
    """
    yield INVENTED
    yield HEADINGS
    for back in range(years - 1, -1, -1):
        yield from _year(last_year - back, back)


def _year(year: int, back: int) -> Iterator[str]:
    chance = random.Random(SEED * 1_000 + back)
    gauss, uniform, cos = chance.gauss, chance.random, math.cos
    fresh = math.sqrt(1.0 - MEMORY * MEMORY)
    lean, departure = gauss(0.0, YEAR_SPREAD_F), gauss(0.0, 1.0)
    start = date(year, 1, 1)
    days = (date(year + 1, 1, 1) - start).days
    turn = math.tau / days
    for number in range(1, days + 1):
        warmth = cos(turn * (number - PEAK_DAY))
        departure = departure * MEMORY + gauss(0.0, fresh)
        mean = MEAN_F + lean + AMPLITUDE_F * warmth + (SPREAD_F - SPREAD_WINTER_F * warmth) * departure
        swing = SWING_F + SWING_SPRING_F * cos(turn * (number - SWING_PEAK_DAY)) + gauss(0.0, SWING_SPREAD_F)
        half = max(LEAST_SWING_F, swing) / 2.0
        rain = -RAIN_MEAN_IN * math.log(1.0 - uniform()) if uniform() < RAIN_CHANCE else 0.0
        day = start + timedelta(days=number - 1)
        yield f"{day.isoformat()},{round(mean - half)},{round(mean + half)},{rain:.2f}"
