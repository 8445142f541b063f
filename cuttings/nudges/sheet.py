"""The week's sheet as data: what is planned in which part of the garden, what is left, what waits."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from attrs import frozen

from cuttings.nudges.model import WORTH_SAYING, Nudge

WEEK = timedelta(days=6)
"""From the first day of a sheet to its last, unless somebody asks for other days."""

ANYWHERE = "Anywhere"
"""What stands over the work that belongs to no part of the garden."""

REST_MINUTES = 10
"""The rest between two sittings; from memory."""


@frozen
class Sitting:
    """Work done at one go: its minutes, and how many of the job's parts it takes."""

    minutes: int
    parts: int


@frozen(kw_only=True)
class Item:
    """A nudge on a sheet.

    ``number`` is the one it is ticked off by. ``cost`` is how many plants are expected to be lost if it is
    left until the sheet's last day is over. ``taken`` is how many of its sittings are planned, from the first
    on.
    """

    nudge: Nudge
    number: int
    cost: float
    sittings: tuple[Sitting, ...]
    taken: int

    @property
    def planned(self) -> bool:
        return self.taken > 0

    @property
    def pressing(self) -> bool:
        """Whether waiting costs enough to be told of."""
        return self.cost >= WORTH_SAYING

    @property
    def whole(self) -> bool:
        """Whether all of it is planned."""
        return self.taken == len(self.sittings)

    @property
    def minutes(self) -> int:
        """Minutes of the planned sittings with the rests between them; of the whole job if none is."""
        return _with_rests(self.sittings[: self.taken] or self.sittings)

    @property
    def minutes_left(self) -> int:
        """Minutes of the sittings that are not planned, with the rests between them."""
        return _with_rests(self.sittings[self.taken :])

    @property
    def parts(self) -> int:
        """How many of the job's parts are planned."""
        return sum(each.parts for each in self.sittings[: self.taken])

    @property
    def risk(self) -> float:
        """Plants expected to be lost by what of it is not planned."""
        return self.cost * (1.0 - self.parts / self.nudge.parts)


@frozen(kw_only=True)
class Stop:
    """One part of the garden, and what is planned there, what loses most by waiting first. ``area`` is empty
    for what can be done anywhere."""

    area: str
    items: tuple[Item, ...]

    @property
    def tools(self) -> tuple[str, ...]:
        """What to take there, each once."""
        return tuple(dict.fromkeys(tool for item in self.items for tool in item.nudge.tools))

    @property
    def minutes(self) -> int:
        """Minutes of work and rest there, without the way."""
        return sum(item.minutes for item in self.items)


@frozen(kw_only=True)
class Sheet:
    """What is worth doing from one day to another, both included.

    ``stops`` are in the order to go. ``left`` holds what is not planned, or not all of it, what loses most
    first; ``not_yet`` what is better left alone. ``budget`` is how many minutes there are, ``None`` where
    nobody said. ``walk`` is what it takes to go to a part of the garden and set up there, in minutes.
    """

    first: date
    last: date
    stops: tuple[Stop, ...]
    left: tuple[Item, ...] = ()
    not_yet: tuple[Item, ...] = ()
    budget: int | None = None
    walk: int = 0

    @property
    def minutes(self) -> int:
        """Minutes that all that is planned takes, with the ways and the rests."""
        return sum(stop.minutes + (self.walk if stop.area else 0) for stop in self.stops)

    @property
    def items(self) -> tuple[Item, ...]:
        """Everything on the sheet, each once: what is planned, what is left, and what waits."""
        planned = [item for stop in self.stops for item in stop.items]
        left = (item for item in self.left if not item.planned)
        return (*planned, *left, *self.not_yet)

    @property
    def risk(self) -> float:
        """Plants expected to be lost by all that is left."""
        return sum(item.risk for item in self.left)


def alike(items: Iterable[Item]) -> list[list[Item]]:
    """What is the same work in one place for the same reason stands together, in the order of the first of
    it."""
    jobs: dict[tuple[str, str, str, str], list[Item]] = {}
    for item in items:
        nudge = item.nudge
        jobs.setdefault((nudge.area, nudge.job, nudge.window.why, nudge.when), []).append(item)
    return list(jobs.values())


def _with_rests(sittings: Sequence[Sitting]) -> int:
    return sum(each.minutes for each in sittings) + REST_MINUTES * max(len(sittings) - 1, 0)
