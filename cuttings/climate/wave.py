"""The year's round of a temperature, as one sine.

A wave has one hump a year. Where the year has two (near the equator), or where a sea or a monsoon bends
it, the sine is only the nearest one.
"""

import math
from collections.abc import Sequence

from attrs import field, frozen

YEAR_DAYS = 365.25
"""The length of a year of the calendar in days, leap years shared out (Julian year)."""

_MONTH_DAYS = (31.0, 28.25, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0)
_TURN = 2.0 * math.pi
_Row = tuple[float, float, float]


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


def fitted(values: Sequence[float]) -> Wave:
    """The wave nearest to a year of mean temperatures, by least squares.

    Twelve values are the means of the months from January; 365 or 366 are the means of the days from
    1 January. The mean of a month is flatter than the wave it is taken from, by the factor
    ``sin(x) / x`` with ``x`` half the month's share of the turn (about 1 %); the fit makes up for that.

    Args:
        values: mean temperatures [°C], 12, 365 or 366 of them.

    Raises:
        ValueError: there are not that many, or one is not finite.
    """
    if len(values) not in (12, 365, 366) or not all(map(math.isfinite, values)):
        raise ValueError("A year's wave is fitted to 12 monthly or 365 or 366 daily temperatures.")
    rows = _month_rows() if len(values) == 12 else _day_rows(len(values))
    mean, cosine, sine = _least_squares(rows, values)
    turned = math.atan2(sine, cosine) / _TURN * YEAR_DAYS
    return Wave(mean, math.hypot(cosine, sine), turned)


def _day_rows(count: int) -> list[_Row]:
    angles = [_TURN * day / YEAR_DAYS for day in range(1, count + 1)]
    return [(1.0, math.cos(angle), math.sin(angle)) for angle in angles]


def _month_rows() -> list[_Row]:
    rows = []
    start = 0.5
    for days in _MONTH_DAYS:
        middle = _TURN * (start + days / 2.0) / YEAR_DAYS
        half = math.pi * days / YEAR_DAYS
        flatter = math.sin(half) / half
        rows.append((1.0, flatter * math.cos(middle), flatter * math.sin(middle)))
        start += days
    return rows


def _least_squares(rows: Sequence[_Row], values: Sequence[float]) -> _Row:
    """The three weights of the rows' columns that come nearest to the values (normal equations)."""
    matrix = [[math.fsum(row[i] * row[j] for row in rows) for j in range(3)] for i in range(3)]
    right = [math.fsum(row[i] * value for row, value in zip(rows, values, strict=True)) for i in range(3)]
    whole = _determinant(matrix)
    first, second, third = (_determinant(_swapped(matrix, column, right)) / whole for column in range(3))
    return first, second, third


def _swapped(matrix: list[list[float]], column: int, right: list[float]) -> list[list[float]]:
    return [[*row[:column], value, *row[column + 1 :]] for row, value in zip(matrix, right, strict=True)]


def _determinant(m: list[list[float]]) -> float:
    return (
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    )
