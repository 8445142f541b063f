"""What a rule answers: a value or a stretch of dates, always with its reason and its source."""

from datetime import date
from typing import Generic, TypeVar

from attrs import field, frozen

T = TypeVar("T")


@frozen
class Advice(Generic[T]):
    """A recommended value. ``why`` is a sentence a gardener would accept; ``source`` a publisher and
    title, ``common practice`` or ``from memory``; ``sure`` says how sure it is where it only estimates."""

    value: T
    why: str
    source: str
    sure: str = ""


LEAST_ODDS = 0.05
"""A smaller chance of failure than this is not worth a sentence."""


def _share(odds: float | None) -> float | None:
    """A chance between 0 and 1, to the thousandth: more would be a show of knowledge nobody has."""
    return None if odds is None else round(min(max(odds, 0.0), 1.0), 3)


@frozen(kw_only=True)
class Window:
    """The stretch of dates in which a job goes well; both ends of every stretch are included.

    ``odds`` is the chance, 0 to 1, that weather spoils the job if it is done on the first best day, or
    ``None`` where the rule cannot say.
    """

    what: str
    opens: date
    best: tuple[date, date]
    closes: date
    why: str
    source: str
    odds: float | None = field(default=None, converter=_share)

    def holds(self, day: date) -> bool:
        return self.opens <= day <= self.closes

    @property
    def spoiled(self) -> str:
        """In how many years the weather spoils the job, as a sentence; empty where it hardly ever does or
        nobody can say."""
        if self.odds is None or self.odds < LEAST_ODDS:
            return ""
        return f"Done on its first best day, cold spoils it in {round(self.odds * 100)} years of 100."
