"""When the stems of a lot that root do so: the logarithm of the time follows a logistic law.

The law is the log-logistic one, common for times of germination (Ritz, Pipper and Streibig, European Journal
of Agronomy 45, 2013). Days are those that count at the lot's own warmth.
"""

import math

from attrs import frozen

TEN_TO_NINETY = 2.0 * math.log(9.0)
"""How many spreads lie between the time by which one in ten and that by which nine in ten have rooted."""

LEAST_SPREAD = math.log(1.25) / TEN_TO_NINETY
"""Slow stems of a lot take at least a quarter longer than quick ones; from memory."""

_FAR = 700.0


@frozen
class Curve:
    """The share of the stems that root at all which has rooted by so many days.

    ``centre`` is the logarithm of the days by which half have, ``spread`` the scale of the logistic law.
    """

    centre: float
    spread: float

    @classmethod
    def of_range(cls, low: float, high: float) -> "Curve":
        """The curve by which one in ten have rooted after ``low`` days, and nine in ten after ``high``."""
        first, last = math.log(max(low, 1e-3)), math.log(max(high, 1e-3))
        return cls((first + last) / 2.0, max((last - first) / TEN_TO_NINETY, LEAST_SPREAD))

    def by(self, days: float) -> float:
        """The share that has rooted by so many days, 0 to 1."""
        return 1.0 - self.after(days)

    def after(self, days: float) -> float:
        """The share that roots only after so many days, 0 to 1."""
        if days <= 0.0:
            return 1.0
        late = (math.log(days) - self.centre) / self.spread
        return 0.0 if late > _FAR else 1.0 / (1.0 + math.exp(late))

    def between(self, first: float, last: float) -> float:
        """The share that roots after ``first`` days and by ``last``."""
        return self.after(first) - self.after(last)

    def day(self, share: float, since: float = 0.0) -> float:
        """The days by which a share, more than 0 and less than 1, of those still to root after ``since`` days
        have done so."""
        left = self.after(since) * (1.0 - share)
        if left <= 0.0:
            return since
        return max(
            math.exp(self.centre + self.spread * math.log1p(-left) - self.spread * math.log(left)), since
        )
