"""The catalogue's months as dates of this garden.

The months are those of an ordinary cold-winter garden of the north. They move with this garden's own spring
and autumn, fully at its frost dates and less towards midsummer and midwinter, and the southern hemisphere
takes them six months later.
"""

from calendar import monthrange
from collections.abc import Iterable
from datetime import date, timedelta
from functools import lru_cache
from itertools import pairwise

from cuttings.climate.climate import USUAL_FIRST_FROST_DAY, USUAL_LAST_FROST_DAY, Climate
from cuttings.climate.wave import YEAR_DAYS, round_the_year
from cuttings.rules.seasons import Stretch
from cuttings.rules.warmth import paced

MONTH_PRECISION_DAYS = 7.0
"""A catalogue month is no finer than this: a garden whose frost dates differ by less keeps the months as
printed."""

FURTHEST_SHIFT_DAYS = 60.0
"""The furthest that a spring is taken to come before the catalogue's, or an autumn after it; from memory."""

LATEST_SHIFT_DAYS = 45.0
"""The furthest that a spring is taken to come after the catalogue's, or an autumn before it; from memory."""


def month_stretches(months: Iterable[int], climate: Climate, year: int) -> tuple[Stretch, ...]:
    """The unbroken runs of catalogue months that begin in a year, as dates of this garden.

    A run may pass New Year. Twelve months make one run from January to December. Where this garden's spring
    or autumn differs from that of the catalogue's by a week or more, the dates move with it, fully at the
    frost dates and less towards midsummer and midwinter; and with the season's own pace.
    """
    here = {climate.month_here(month) for month in months}
    if len(here) == 12:
        return ((date(year, 1, 1), date(year, 12, 31)),)
    stretches = []
    for first in (month for month in sorted(here) if (month - 2) % 12 + 1 not in here):
        length = 1
        while (first + length - 1) % 12 + 1 in here:
            length += 1
        over, last = divmod(first + length - 2, 12)
        end_year, end_month = year + over, last + 1
        opens, closes = date(year, first, 1), date(end_year, end_month, monthrange(end_year, end_month)[1])
        stretches.append((paced(climate, _moved(climate, opens)), paced(climate, _moved(climate, closes))))
    return tuple(stretches)


def _moved(climate: Climate, day: date) -> date:
    """A day of the catalogue's calendar, already in this hemisphere, as the day that matches it here."""
    spring, autumn = _shifts(climate)
    if not spring and not autumn:
        return day
    northern = (
        day.timetuple().tm_yday - (YEAR_DAYS / 2 if climate.southern else 0.0) - MIDWINTER_DAY
    ) % YEAR_DAYS
    anchors = (
        (0.0, 0.0),
        (USUAL_LAST_FROST_DAY - MIDWINTER_DAY, spring),
        (YEAR_DAYS / 2, 0.0),
        (USUAL_FIRST_FROST_DAY - MIDWINTER_DAY, autumn),
        (YEAR_DAYS, 0.0),
    )
    for (before, low), (after, high) in pairwise(anchors):
        if before <= northern <= after:
            return day + timedelta(days=round(low + (high - low) * (northern - before) / (after - before)))
    raise AssertionError("every day lies between two anchors")


MIDWINTER_DAY = 18.0
"""Midwinter of the catalogue's garden, half a year from midsummer, as a day of the year."""


@lru_cache(maxsize=64)
def _shifts(climate: Climate) -> tuple[float, float]:
    """Days by which this garden's spring and autumn are later than those of the catalogue's."""
    if climate.frost is None:
        return 0.0, 0.0
    turn = YEAR_DAYS / 2 if climate.southern else 0.0
    freezes = climate.frost.at()
    if freezes.spring.share <= 0.5:
        return -FURTHEST_SHIFT_DAYS, FURTHEST_SHIFT_DAYS
    spring = round_the_year(freezes.spring.mean - turn - USUAL_LAST_FROST_DAY)
    autumn = round_the_year(freezes.autumn.mean - turn - USUAL_FIRST_FROST_DAY)
    return (
        _precise(min(max(spring, -FURTHEST_SHIFT_DAYS), LATEST_SHIFT_DAYS)),
        _precise(min(max(autumn, -LATEST_SHIFT_DAYS), FURTHEST_SHIFT_DAYS)),
    )


def _precise(days: float) -> float:
    return days if abs(days) >= MONTH_PRECISION_DAYS else 0.0
