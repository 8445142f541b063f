"""The week's sheet as data: what is planned in which part of the garden, what is left, what waits."""

from collections.abc import Callable, Iterable
from datetime import date
from typing import TypeVar

from attrs import frozen

from cuttings.nudges.model import Nudge

T = TypeVar("T")

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
    def whole(self) -> bool:
        """Whether all of it is planned."""
        return self.taken == len(self.sittings)

    @property
    def minutes(self) -> int:
        """Minutes of the planned sittings with the rests between them; of the whole job if none is."""
        sittings = self.sittings[: self.taken] or self.sittings
        return sum(each.minutes for each in sittings) + REST_MINUTES * (len(sittings) - 1)

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
    def risk(self) -> float:
        """Plants expected to be lost by all that is left."""
        return sum(item.risk for item in self.left)


def alike(things: Iterable[T], nudge_of: Callable[[T], Nudge]) -> list[list[T]]:
    """What is the same work for the same reason stands together, in the order of the first of it."""
    jobs: dict[tuple[str, str], list[T]] = {}
    for thing in things:
        nudge = nudge_of(thing)
        jobs.setdefault((nudge.job, nudge.window.why), []).append(thing)
    return list(jobs.values())
