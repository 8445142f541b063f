"""The timetable of one way of increase: which share of a lot started on a day has roots in time to be
planted."""

from datetime import date
from functools import lru_cache

from attrs import define, field

from cuttings.climate.climate import Climate
from cuttings.plants.model import Plant, Way
from cuttings.rules.raising import last_day, plantable
from cuttings.rules.rooting import Bench, RootingClock
from cuttings.takes.curve import Curve
from cuttings.takes.evidence import ROOTED_UNDER_COVER
from cuttings.takes.learned import Shift
from cuttings.takes.rooting import Looks, Node, Prior, posterior
from cuttings.words import Method

NONE_IN_TIME = ((1.0, 0.0),)
ALL_IN_TIME = ((1.0, 1.0),)

UNTIL_SURE = 1e-3
"""A quantile is sought to so many of the clock's days."""


def usual_bench(method: Method) -> Bench:
    """What keeps the roots of a lot warm that nobody has started yet: closed air for leafy cuttings, and no
    heat."""
    return Bench.FRAME if method in ROOTED_UNDER_COVER else Bench.OPEN


@lru_cache(maxsize=512)
def _curves(low: float, high: float, shift: float, sd: float) -> tuple[Node, ...]:
    """The curves by which a lot may root that nobody has looked at, with their weights, which add up to 1."""
    nodes = posterior(Prior(Curve.of_range(low, high), shift, sd, 1.0, 1.0), Looks()).nodes
    whole = sum(node.weight for node in nodes)
    return tuple(Node(node.weight / whole, node.curve) for node in nodes)


@define(slots=False)
class Timetable:
    """One way of increase in one garden, towards a day by which its stems should be planted.

    ``bench`` is what keeps its roots warm, and ``shift`` how much later than published its lots root.
    """

    plant: Plant
    way: Way
    climate: Climate
    bench: Bench
    shift: Shift
    by: date
    _shares: dict[date, tuple[tuple[float, float], ...]] = field(factory=dict, init=False)

    @property
    def has_roots(self) -> bool:
        """Whether what is started has roots already: divisions and offsets, and seedlings that are lifted."""
        method = self.way.method
        return method.starts_rooted or (method is Method.SEEDLING and self.way.rooting_days is None)

    @property
    def is_timed(self) -> bool:
        """Whether it is known how long the way takes."""
        return self.has_roots or self.way.rooting_days is not None

    def plantable(self, started: date, rooted: date) -> date | None:
        """The day from which a stem may be planted that rooted on a day."""
        under = self.way.method in ROOTED_UNDER_COVER
        return plantable(self.plant, self.way.method, self.climate, started, rooted, under_cover=under)

    def deadline(self, started: date, since: date | None = None) -> date | None:
        """The last day, from the start or a later one on, on which a stem may root to be planted in time;
        ``None`` where it is too late already."""

        def in_time(rooted: date) -> bool:
            day = self.plantable(started, rooted)
            return day is not None and day <= self.by

        return last_day(in_time, since or started, self.by)

    def in_time(self, started: date) -> tuple[tuple[float, float], ...]:
        """Of the stems that root at all, the share that does so in time, with the chance of each share."""
        if started not in self._shares:
            self._shares[started] = self._in_time(started)
        return self._shares[started]

    def _in_time(self, started: date) -> tuple[tuple[float, float], ...]:
        last = self.deadline(started)
        if last is None:
            return NONE_IN_TIME
        clock = self._clock(started)
        if clock is None:
            return ALL_IN_TIME
        days = clock.passed(last)
        return tuple((node.weight, node.curve.by(days)) for node in self._nodes(clock))

    def ready(self, started: date, share: float) -> date | None:
        """The day by which such a share, 0 to 1, of the stems that root in time may be planted."""
        last = self.deadline(started)
        if last is None:
            return None
        clock = self._clock(started)
        if clock is None:
            return self.plantable(started, started)
        nodes, low, high = self._nodes(clock), 0.0, clock.passed(last)
        whole = sum(node.weight * node.curve.by(high) for node in nodes)
        while high - low > UNTIL_SURE:
            middle = (low + high) / 2.0
            enough = sum(node.weight * node.curve.by(middle) for node in nodes) >= share * whole
            low, high = (low, middle) if enough else (middle, high)
        return self.plantable(started, min(clock.after(high), last))

    def soonest(self, started: date) -> date | None:
        """The first day on which any of its stems might be planted: those that are quick, one in ten."""
        clock = self._clock(started)
        rooted = started if clock is None else clock.after(clock.low)
        return self.plantable(started, rooted)

    def _clock(self, started: date) -> RootingClock | None:
        if self.has_roots:
            return None
        return RootingClock.of(self.way, started, self.climate, self.bench)

    def _nodes(self, clock: RootingClock) -> tuple[Node, ...]:
        return _curves(clock.low, clock.high, self.shift.mean, self.shift.sd)
