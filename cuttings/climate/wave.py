"""The year's round of a temperature, as one sine.

A wave has one hump a year. Where the year has two (near the equator), or where a sea or a monsoon bends
it, the sine is only the nearest one.
"""

import math

from attrs import field, frozen

YEAR_DAYS = 365.25
"""The length of a year of the calendar in days, leap years shared out (Julian year)."""

_TURN = 2.0 * math.pi


def in_year(day: float) -> float:
    """A day counted from 1 January, taken round the year into 1 (inside) to 366.25 (outside)."""
    inside = (day - 1.0) % YEAR_DAYS + 1.0
    return inside if inside < 1.0 + YEAR_DAYS else 1.0


def round_the_year(days: float) -> float:
    """Days as the nearer way round the year: -182.6 to 182.6."""
    return (days + YEAR_DAYS / 2) % YEAR_DAYS - YEAR_DAYS / 2


def _peak(day: float) -> float:
    if not math.isfinite(day):
        raise ValueError("The peak of a wave must be a day of the year.")
    return in_year(day)


@frozen(cache_hash=True)
class Wave:
    """The year's round of a temperature: ``mean_c + amplitude_c`` times a cosine that is 1 on the peak day.

    Days of the year are whole at the middle of a day: 1 is 1 January, 32 is 1 February. A peak outside the
    year is taken round it.

    Attributes:
        mean_c: the mean of the year [°C].
        amplitude_c: half the way from the coldest to the warmest [°C], not below 0.
        peak_day: the day of the year of the warmest, 1 to 366.25.

    Raises:
        ValueError: the amplitude is below 0, or a figure is not finite.
    """

    mean_c: float
    amplitude_c: float
    peak_day: float = field(converter=_peak)

    def __attrs_post_init__(self) -> None:
        if not math.isfinite(self.mean_c) or not 0.0 <= self.amplitude_c < math.inf:
            raise ValueError("A wave needs a mean, and an amplitude of 0 or more.")

    def at(self, day_of_year: float) -> float:
        """The temperature on a day of the year [°C]; days beyond either end run on into the next year."""
        return self.mean_c + self.amplitude_c * math.cos(_TURN * (day_of_year - self.peak_day) / YEAR_DAYS)

    @property
    def trough_day(self) -> float:
        """The day of the year of the coldest, 1 to 366.25."""
        return in_year(self.peak_day + YEAR_DAYS / 2.0)

    def rises_through(self, level_c: float) -> float | None:
        """The day of the year on which it warms past a level; ``None`` where it never crosses it."""
        half = self._days_above(level_c)
        return None if half is None else in_year(self.peak_day - half)

    def falls_through(self, level_c: float) -> float | None:
        """The day of the year on which it cools past a level; ``None`` where it never crosses it."""
        half = self._days_above(level_c)
        return None if half is None else in_year(self.peak_day + half)

    def _days_above(self, level_c: float) -> float | None:
        """Half the days a year spends above a level. To touch a level is not to cross it."""
        over = level_c - self.mean_c
        if not -self.amplitude_c < over < self.amplitude_c:
            return None
        return math.acos(over / self.amplitude_c) / _TURN * YEAR_DAYS
