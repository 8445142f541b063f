"""A nudge: one thing worth doing, with its reason, its window, its minutes and what waiting costs."""

from collections.abc import Callable
from datetime import date, timedelta

from attrs import field, frozen

from cuttings.rules.advice import Window

Chance = Callable[[date], float]
"""The chance, 0 to 1, that it is too late by the morning of a day; it never falls as days go by."""


def never(day: date) -> float:  # noqa: ARG001
    """Nothing is ever too late."""
    return 0.0


@frozen(kw_only=True)
class Loss:
    """What is lost if a job is left undone: so many plants, once it is too late.

    ``plants`` is what the stems would come to: their number, times the chance that each becomes a plant,
    times what the keeper says one is worth, times the share of them that is lost. ``late`` is the chance that
    it is too late by the morning of a day, and ``by`` says what makes it so.
    """

    plants: float = 0.0
    late: Chance = field(default=never, eq=False)
    by: str = ""

    def chance(self, first: date, last: date) -> float:
        """The chance, 0 to 1, that it becomes too late from a day to the end of a later one, if it was still
        in time before the first."""
        before, after = self.late(first), self.late(last + timedelta(days=1))
        return 0.0 if before >= 1.0 else min(max((after - before) / (1.0 - before), 0.0), 1.0)

    def expected(self, first: date, last: date) -> float:
        """Plants expected to be lost if it is left from a day until a later one is over."""
        return self.plants * self.chance(first, last)


NO_LOSS = Loss()

WORTH_SAYING = 0.05
"""Plants; a smaller loss by waiting is not told of, and presses nobody."""


@frozen(kw_only=True)
class Nudge:
    """One thing worth doing, or with ``not_yet`` one thing better left alone for now.

    ``id`` stays the same from week to week for the same thing. ``job`` is the sentence, with ``{}`` where
    ``name``, the lot, plant or place it is for, belongs. ``task`` is the command that records it, empty for
    care that leaves no entry of its own, and ``step`` the option of it that says what was done; ``words``
    are what it is told besides, where it begins a lot. ``lots`` are the lots that a job for several at once
    is for. ``parts`` is into how many like parts the work can be split: its stems, where each takes its own
    time. ``every`` is the number of days after which care that was given is due again, 0 for what is done
    once in its window. ``when`` says in a word when it is to be done, where a date would mislead:
    ``overdue``, ``cold day``. ``digs`` tells that it turns soil.
    """

    id: str
    job: str
    name: str
    window: Window
    task: str = ""
    step: str = ""
    words: tuple[str, ...] = ()
    lot: str = ""
    lots: tuple[str, ...] = ()
    mark: str = ""
    site: str = ""
    area: str = ""
    stems: int = 0
    minutes: int = 5
    parts: int = 1
    loss: Loss = NO_LOSS
    tools: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    every: int = 0
    when: str = ""
    digs: bool = False
    not_yet: bool = False

    @property
    def what(self) -> str:
        return self.job.replace("{}", self.name, 1)
