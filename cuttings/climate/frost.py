"""Freeze dates with odds: from daily records, from three dates of a published table, or from one average.

The date of the last freeze of spring, or of the first of autumn, is taken to follow a normal law over the
years that have such a freeze, together with the share of years that have one, as the published freeze
tables of the national weather service do (NOAA, *Freeze/Frost Data*, Climatography of the United States
No. 20, 1971-2000). A chance of ``None`` as a date means that the cold never comes with so much certainty.

Dates are counted in days of a year, from its 1 January on. A northern winter runs from August to July: its
last freeze may lie before the 1 January of its spring (a day below one), and its first freeze after the
31 December of its autumn. In the southern hemisphere the winter is that of the calendar year itself.
"""

import math
from datetime import date, timedelta
from enum import StrEnum

from attrs import field, frozen

from cuttings.climate.wave import YEAR_DAYS
from cuttings.dates import MonthDay, day_of_year
from cuttings.units import fahrenheit_to_celsius

THRESHOLDS_F = (36, 32, 28, 24, 20, 16)
"""Cold for which the published tables give dates, in whole degrees Fahrenheit at the height of a shelter."""

FROST_F = 32
"""The threshold meant where only "frost" is said."""

GENERAL_SPREAD_DAYS = 12.0
"""Standard deviation assumed for a last or first frost known only by its average.

The last spring frost at eleven North Carolina stations has standard deviations of 8 to 17 days, twelve
in the middle (NC State University, frost tables by station; see ``tests/published``).
"""

OFFSETS_DAYS = {36: (15.5, -10.5), 32: (0.0, 0.0), 28: (-16.0, 12.0), 24: (-31.5, 24.0), 20: (-44.0, 34.5),
                16: (-53.0, 45.5)}  # fmt: skip
"""Days by which the median date of another threshold differs from that of 32 °F, in spring and in autumn.

Means over the fifteen to thirty stations of the northern United States whose published tables stand in
``tests/published``; single stations differ from them by up to two weeks, mild ones by more. Used only where
dates were typed.
"""

WINTER_SPREAD_C = 3.0
"""Standard deviation of a year's coldest night about its mean, for gardens without a record; from memory."""

TABLE_YEARS = 30
"""Years that a published table is taken to rest on; thirty is the rule of the weather services."""

TABLE_ROUNDING_DAYS = 1.0
"""What is lost by printing dates to the day."""

AVERAGE_DOUBT_DAYS = 7.0
"""How far an average that a keeper has from somewhere may lie from that of the garden; from memory."""

Z90 = 1.2815515655446004
"""The standard normal quantile of 0.9. With the median it is all that most commands ask for, and stands here
so that they need not load ``statistics``."""

INTERVAL = 0.90
"""How sure the stated sampling error is."""


class Basis(StrEnum):
    """What freeze dates rest on."""

    RECORD = "daily record"
    TABLE = "three dates of a table"
    AVERAGE = "one average"
    OFFSET = "another threshold's dates"


def quantile(chance: float) -> float:
    """The standard normal quantile of a chance above 0 and below 1."""
    known = {0.1: -Z90, 0.5: 0.0, 0.9: Z90}.get(chance)
    if known is not None:
        return known
    from statistics import NormalDist

    return NormalDist().inv_cdf(chance)


def share_below(value: float, mean: float, sd: float) -> float:
    """The share of a normal law below a value; a law without spread is a step."""
    if sd <= 0:
        return float(value >= mean)
    return math.erfc((mean - value) / (sd * math.sqrt(2.0))) / 2.0


@frozen(cache_hash=True)
class Law:
    """A normal law over the years that have such a freeze.

    ``mean`` and ``sd`` are days, ``share`` is that of the years that have one (0 to 1), ``years`` how many
    years were looked at; none where the law is only estimated. Where dates that were typed lie further off on
    one side of the middle than on the other, ``sd_early`` is the spread of the early side, and ``mean`` the
    even-odds date.
    """

    mean: float
    sd: float
    share: float = 1.0
    years: int = 0
    sd_early: float | None = None

    def below(self, value: float) -> float:
        """The chance of such a freeze on or before a day."""
        return self.share * share_below(value, self.mean, self._spread(value < self.mean))

    def above(self, value: float) -> float:
        """The chance of such a freeze after a day."""
        return self.share - self.below(value)

    def first_reached(self, chance: float) -> float | None:
        """The day by which such a freeze has come with that chance."""
        if chance >= self.share:
            return None
        z = quantile(chance / self.share)
        return self.mean + z * self._spread(z < 0)

    def last_left(self, chance: float) -> float | None:
        """The day after which such a freeze still comes with that chance."""
        if chance >= self.share:
            return None
        z = -quantile(chance / self.share)
        return self.mean + z * self._spread(z < 0)

    def _spread(self, early: bool) -> float:
        return self.sd if self.sd_early is None or not early else self.sd_early

    def nearest(self, on: date) -> float:
        """A date as the day of the year that lies nearest to this law's mean."""
        day = float(on.timetuple().tm_yday)
        return day + YEAR_DAYS * round((self.mean - day) / YEAR_DAYS)


WHOLE_YEAR_DAYS = 365
"""A freeze-free season longer than the year is none."""

ROUNDED_SKEW_DAYS = 3
"""Three dates are taken to be even about the middle one if they differ from it by no more than rounding
makes, twice over and a day."""


def unwrapped(odds: tuple[MonthDay, ...]) -> list[int]:
    """The dates as days of a common year, those beyond New Year brought next to the middle one."""
    days = [day_of_year(each) for each in odds]
    middle = days[len(days) // 2]
    return [day + 365 * round((middle - day) / 365) for day in days]


@frozen(cache_hash=True)
class Freezes:
    """The last freeze of spring, the first of autumn and the days between, at one threshold.

    ``length`` is the law of the freeze-free season in days, over the years that have a freeze at both ends.
    """

    threshold_f: int
    spring: Law
    autumn: Law
    length: Law
    basis: Basis = Basis.RECORD

    def length_days(self, chance: float) -> int | None:
        """The length that the freeze-free season exceeds with that chance, in days; a year without a freeze
        exceeds any."""
        law = self.length
        freezing = chance - (1.0 - law.share)
        if freezing <= 1e-12 or law.share == 0:
            return None
        days = round(law.mean - quantile(min(freezing / law.share, 1 - 1e-12)) * law.sd)
        return days if days <= WHOLE_YEAR_DAYS else None

    def half_widths(self) -> tuple[float | None, float | None]:
        """Half the width, in days, of the interval that holds the true even-odds date of spring and of autumn
        nine times in ten; ``None`` where there is no such date."""
        return _half_width(self.spring, self.basis), _half_width(self.autumn, self.basis)


def _half_width(law: Law, basis: Basis) -> float | None:
    """Sampling error of the median: the mean's, the spread's and the share's, by the delta method.

    Student's t, with one less than the years that had such a freeze (any handbook of statistics).
    """
    if law.share <= 0.5:
        return None
    years = law.years or TABLE_YEARS
    frozen_years = max(2.0, years * law.share)
    z = quantile(0.5 / law.share)
    density = math.exp(-z * z / 2) / math.sqrt(2 * math.pi)
    by_share = 0.5 / law.share**2 / density * math.sqrt(law.share * (1 - law.share) / years)
    error = law.sd * math.sqrt(1 / frozen_years + z * z / (2 * (frozen_years - 1)) + by_share**2)
    more = {
        Basis.TABLE: TABLE_ROUNDING_DAYS,
        Basis.AVERAGE: AVERAGE_DOUBT_DAYS,
        Basis.OFFSET: AVERAGE_DOUBT_DAYS,
    }
    return math.hypot(_student_t(frozen_years - 1) * error, more.get(basis, 0.0))


def _student_t(freedom: float) -> float:
    from scipy.special import stdtrit

    return float(stdtrit(freedom, (1 + INTERVAL) / 2))


@frozen(cache_hash=True)
class FrostDates:
    """The freezes of one garden at every threshold, warmest first; ``stated`` says what they rest on.

    A threshold is given in °F. The dates of a calendar year are those of its spring and of its autumn.
    """

    levels: tuple[Freezes, ...]
    stated: str
    _by_threshold: dict[int, Freezes] = field(init=False, eq=False, repr=False)

    @_by_threshold.default
    def _index(self) -> dict[int, Freezes]:
        return {level.threshold_f: level for level in self.levels}

    def at(self, threshold_f: int = FROST_F) -> Freezes:
        return self._by_threshold[threshold_f]

    def last_spring(self, year: int, chance: float = 0.5, threshold_f: int = FROST_F) -> date | None:
        """The date after which such a freeze still comes with that chance (0 < chance < 1)."""
        return _dated(year, self.at(threshold_f).spring.last_left(chance))

    def first_autumn(self, year: int, chance: float = 0.5, threshold_f: int = FROST_F) -> date | None:
        """The date by which the first such freeze has come with that chance (0 < chance < 1)."""
        return _dated(year, self.at(threshold_f).autumn.first_reached(chance))

    def chance_of_later_frost(self, on: date, threshold_f: int = FROST_F) -> float:
        """The chance that such a freeze still comes in spring after a date, 0 to 1.

        A deeper freeze is a lighter one too, so the chance is never below that of a colder threshold, which
        laws fitted one by one do not know of in their tails.
        """
        laws = (level.spring for level in self.levels if level.threshold_f <= threshold_f)
        return max(law.above(law.nearest(on)) for law in laws)

    def chance_of_frost_already(self, on: date, threshold_f: int = FROST_F) -> float:
        """The chance that autumn's first such freeze has come by a date, 0 to 1; as for spring."""
        laws = (level.autumn for level in self.levels if level.threshold_f <= threshold_f)
        return max(law.below(law.nearest(on)) for law in laws)


def _dated(year: int, day: float | None) -> date | None:
    return None if day is None else date(year, 1, 1) + timedelta(days=round(day) - 1)


def frost_dates(
    last: MonthDay | None,
    first: MonthDay | None,
    last_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None,
    first_odds: tuple[MonthDay, MonthDay, MonthDay] | None = None,
    *,
    coldest_c: float | None = None,
) -> FrostDates | None:
    """Freeze dates from averages, or from the dates with odds of 10, 50 and 90 % where they are given.

    What was typed is taken for 32 °F; the other thresholds follow by ``OFFSETS_DAYS``. Where only spring or
    only autumn was typed, the other lies as far on the other side of midsummer as it does in an ordinary
    garden, with more doubt.

    Args:
        coldest_c: mean annual extreme minimum, °C, from which the share of years that reach the deeper
            thresholds is estimated; without it every year is taken to.

    Returns:
        ``None`` where neither spring's nor autumn's dates are known.
    """
    told_spring = _law(last, last_odds, later_first=True)
    told_autumn = _law(first, first_odds, later_first=False)
    spring, autumn = told_spring or _mirrored(told_autumn), told_autumn or _mirrored(told_spring)
    if spring is None or autumn is None:
        return None
    both = last_odds is not None and first_odds is not None
    basis = Basis.TABLE if both else Basis.AVERAGE
    levels = (_offset(threshold, spring, autumn, basis, coldest_c) for threshold in THRESHOLDS_F)
    return FrostDates(tuple(levels), _stated((last, last_odds), (first, first_odds)))


Told = tuple[MonthDay | None, tuple[MonthDay, ...] | None]
"""What was typed of one end of the season: the average, and the three dates with odds."""


def _stated(last: Told, first: Told) -> str:
    if last[1] and first[1]:
        return "your 10, 50 and 90 % frost dates"
    spread = f", with a general spread of {GENERAL_SPREAD_DAYS:.0f} days either way"
    if last[0] and first[0] and not last[1] and not first[1]:
        return f"your average frost dates{spread}"
    return f"{_end_stated('last', last)} and {_end_stated('first', first)}"


def _end_stated(which: str, told: Told) -> str:
    average, odds = told
    if odds:
        return f"your 10, 50 and 90 % dates of the {which} frost"
    return f"your average {which} frost" if average else f"a {which} frost reckoned from the other"


SEASON_MIDDLE_TWICE = 406.0
"""Last and first frost of an ordinary garden added up, as days of the year (10 May and 3 October), which is
the same in both hemispheres; from memory."""

MIRRORED_SPREAD_DAYS = 20.0
"""Standard deviation of a frost date that is only reckoned from the other; from memory."""


def _mirrored(other: Law | None) -> Law | None:
    """The other end of the season, as far from midsummer."""
    return None if other is None else Law(SEASON_MIDDLE_TWICE - other.mean, MIRRORED_SPREAD_DAYS)


def _offset(threshold_f: int, spring: Law, autumn: Law, basis: Basis, coldest_c: float | None) -> Freezes:
    before, after = OFFSETS_DAYS[threshold_f]
    share = 1.0
    if coldest_c is not None and threshold_f < FROST_F:
        share = share_below(fahrenheit_to_celsius(threshold_f), coldest_c, WINTER_SPREAD_C)
    last = Law(spring.mean + before, spring.sd, share, sd_early=spring.sd_early)
    first = Law(autumn.mean + after, autumn.sd, share, sd_early=autumn.sd_early)
    length = Law((first.mean - last.mean) % YEAR_DAYS, math.hypot(last.sd, first.sd), share)
    return Freezes(threshold_f, last, first, length, basis if threshold_f == FROST_F else Basis.OFFSET)


def _law(average: MonthDay | None, odds: tuple[MonthDay, ...] | None, *, later_first: bool) -> Law | None:
    """The law of 32 °F, in days: from three quantiles if given, else from the average."""
    if odds is not None:
        late, middle, early = unwrapped(odds) if later_first else reversed(unwrapped(odds))
        if abs(late + early - 2 * middle) > ROUNDED_SKEW_DAYS:
            return Law(middle, max(late - middle, 1) / Z90, sd_early=max(middle - early, 1) / Z90)
        return Law(middle, (late - early) / (2 * Z90))
    if average is not None:
        return Law(float(day_of_year(average)), GENERAL_SPREAD_DAYS)
    return None
