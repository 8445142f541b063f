"""Ways to have so many of a plant by a day: how many to start, when at the latest, and how sure that is.

A way's lot roots with a share of its own, part of it in time, and loses some in pots and some later. The
number to start is the smallest with which the chance of enough alive at planting is as large as it is
wanted.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import cached_property

from attrs import define, evolve, field, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.lots import Lot
from cuttings.plants.model import Plant, Way
from cuttings.rules.advice import Window
from cuttings.rules.increase import EASIEST_FIRST
from cuttings.rules.raising import last_day
from cuttings.rules.rooting import Bench
from cuttings.rules.taking import next_taking
from cuttings.takes.figures import LIVES_TILL_PLANTED, SURVIVES_POTTING
from cuttings.takes.learned import Learned
from cuttings.takes.outcomes import Step, through_potting, till_planted
from cuttings.takes.raised import Timetable, usual_bench
from cuttings.takes.shares import GENERAL_STEMS, Counts, Figure, Share, learned
from cuttings.takes.survivors import CERTAIN, Beta, Losses, Survivors
from cuttings.words import Method

MOST_A_STEM, LEAST_MOST, MOST_STARTED = 8, 16, 1200
"""No more are started than so many for each one wanted, or so many in all: who must start more looks for
another way; this program's own choice."""

TOLD_A_STEM, TOLD_MOST = 40, 160
"""How many it would take is told up to so many for each one wanted, or so many in all; this program's own
choice."""

MOST_WINDOWS = 8
"""How many windows of one way are looked at: four years of spring and autumn. Where there are more, which is
the last chance is not told."""

NEARLY = 0.01
"""What falls short is told with the number beyond which more stems add less than this to the chance."""

LATE, EARLY = 0.95, 0.05
"""Between these shares of all lots the numbers alive lie, nine times in ten."""

LAST_READY, FIRST_READY = 0.9, 0.1

FORTNIGHT = timedelta(days=13)
FEW_MORE = 8
"""A stem more for each eight is worth a fortnight in which to start them; from memory."""

AS_MANY_AGAIN = 2
"""Up to so many times the stems are worth the best time of a window against its first day, and doing without
bottom heat; this program's own choice."""


@frozen
class Aim:
    """So many stems alive by a day, with such a certainty, 0 to 1."""

    want: int
    by: date
    sure: float


@frozen(kw_only=True)
class Expected:
    """How many stems of a lot are expected to have rooted in time, to have come through potting, and to be
    alive when they are planted."""

    rooted: float
    potted: float
    alive: float


@frozen(kw_only=True)
class WayTo:
    """One way to reach an aim: start so many between ``opens`` and ``start_by``.

    ``certainty`` is the chance, 0 to 1, of at least as many as wanted if they are started on ``start_by``.
    ``ready`` are the days from which nine in ten and one in ten of those that are in time are still to come.
    ``alive`` are the fewest and the most alive at planting, nine times in ten, and ``in_pots`` the most to be
    potted, nineteen times in twenty. ``lots`` of the ledger were heard for the share that roots, and
    ``later`` is the last chance after this one. ``bench`` is what keeps the roots warm.
    """

    way: Way
    bench: Bench
    window: Window
    start: int
    opens: date
    start_by: date
    certainty: float
    ready: tuple[date, date]
    losses: Expected
    alive: tuple[int, int]
    in_pots: int
    lots: int
    later: "WayTo | None" = None


@frozen(kw_only=True)
class Short:
    """A way that does not reach the aim, and why. ``start`` and ``certainty`` are the best that can be had
    of it, 0 where it comes too late altogether."""

    way: Way
    why: str
    start: int = 0
    certainty: float = 0.0


@frozen
class Found:
    """The ways that reach an aim, the easiest first, and those that do not."""

    ways: tuple[WayTo, ...]
    short: tuple[Short, ...]


def ordered(plant: Plant) -> tuple[Way, ...]:
    """The ways of a plant's record that a goal may count on. Seedlings come where they will and when, and
    those of a named kind do not come true."""
    return tuple(way for way in plant.ways if way.method is not Method.SEEDLING)


@define(slots=False)
class Goals:
    """What can be made of one plant in one garden, from a day on."""

    name: str
    plant: Plant
    lots: Sequence[Lot]
    learned: Learned
    climate: Climate
    today: date
    _survivors: dict[tuple[Way, int], Survivors] = field(factory=dict, init=False)

    def ways(self, aim: Aim, held: Sequence[float] = (1.0,)) -> Found:
        """Every way of the plant's record that can be ordered, and whether it reaches an aim.

        Args:
            held: the chance of each number of stems, from 0 on, that are alive by then already.
        """
        found: list[WayTo] = []
        short: list[Short] = []
        for way in ordered(self.plant):
            told = self._best(way, aim, held)
            if isinstance(told, WayTo):
                found.append(told)
            else:
                short.append(told)
        return Found(
            tuple(sorted(found, key=lambda each: (each.start, EASIEST_FIRST.index(each.way.method)))),
            tuple(sorted(short, key=lambda each: -each.certainty)),
        )

    def reaches(self, aim: Aim, held: Sequence[float] = (1.0,)) -> bool:
        """Whether any way reaches an aim."""
        return any(isinstance(self._best(way, aim, held), WayTo) for way in ordered(self.plant))

    def soonest(self, aim: Aim, years: int = 5) -> date | None:
        """The first day by which any way reaches an aim like this; ``None`` where none does in so many
        years."""
        first, last = max(self.today, aim.by), self.today + timedelta(days=365 * years)
        if not self.reaches(_by(aim, last)):
            return None
        late = last_day(lambda day: not self.reaches(_by(aim, day)), first, last)
        return first if late is None else late + timedelta(days=1)

    def table(self, way: Way, by: date, bench: Bench | None = None) -> Timetable:
        """The timetable of a way towards a day, on the bench that is usual for it or on another."""
        shift = self.learned.shift((self.name, way.method))
        return Timetable(self.plant, way, self.climate, bench or usual_bench(way.method), shift, by)

    def losses(self, way: Way) -> Losses:
        """The laws of what a lot of the way comes through."""
        table = self.table(way, self.today)
        rooting = None if table.has_roots else self._rooting(way).next_lot
        return Losses(rooting, self.potting, self.living)

    @cached_property
    def potting(self) -> Beta:
        """The law of the share of a lot that lives through potting."""
        return self._through(SURVIVES_POTTING).next_lot

    @cached_property
    def living(self) -> Beta:
        """The law of the share that lives from there until it is planted."""
        return self._through(LIVES_TILL_PLANTED).next_lot

    def _rooting(self, way: Way) -> Share:
        return self.learned.share((self.name, way.method), way)

    def _through(self, figure: Figure) -> Share:
        """The share of the plant's stems that comes through potting or from there to its planting: by the
        lots of the garden, of which those of the plant itself tell more."""
        step = through_potting if figure is SURVIVES_POTTING else till_planted
        others = _counts(step(lot, self.today) for lot in self.lots if lot.plant != self.name)
        own = _counts(step(lot, self.today) for lot in self.lots if lot.plant == self.name)
        garden = learned(figure, others)
        if not own:
            return garden
        return learned(Figure(garden.mean, GENERAL_STEMS, figure.source), own)

    def _best(self, way: Way, aim: Aim, held: Sequence[float]) -> WayTo | Short:
        """The way without heat; where that falls short, or takes many times the stems, cuttings with it."""
        told = self._way(way, aim, held, usual_bench(way.method))
        if not way.method.is_cutting or way.rooting_days is None:
            return told
        if isinstance(told, WayTo) and not self._is_wasteful(told, aim, held):
            return told
        warm = self._way(way, aim, held, Bench.WARM)
        if isinstance(warm, WayTo) and (isinstance(told, Short) or told.start > AS_MANY_AGAIN * warm.start):
            return warm
        return told

    def _is_wasteful(self, told: WayTo, aim: Aim, held: Sequence[float]) -> bool:
        """Whether a way takes many times the stems that it would if all of them rooted in time."""
        least = self._lot(told.way, aim.want).fewest(aim.want, aim.sure, CERTAIN, held)
        return least is not None and told.start > AS_MANY_AGAIN * least[0]

    def _way(self, way: Way, aim: Aim, held: Sequence[float], bench: Bench) -> WayTo | Short:
        table = self.table(way, aim.by, bench)
        if way.method.value.endswith("division") and self.plant.division and self.plant.division.resents:
            return Short(way=way, why="It resents being divided; leave the clump whole.")
        if not table.is_timed:
            return Short(way=way, why="Nobody has written down how long it takes to root.")
        windows = list(self._windows(way, aim.by))
        if not windows:
            return Short(way=way, why="Its season does not come before that day.")
        tried = [self._in(window, way, table, aim, held) for window in windows]
        found = [each for each in tried if isinstance(each, WayTo)]
        if not found:
            return max((each for each in tried if isinstance(each, Short)), key=lambda each: each.certainty)
        best = min(found, key=lambda each: (each.start, each.opens))
        return best if len(windows) == MOST_WINDOWS else _with_later(best, found[-1])

    def _windows(self, way: Way, by: date) -> Iterator[Window]:
        day = self.today
        for _ in range(MOST_WINDOWS):
            window = next_taking(self.plant, way, self.climate, day)
            if window is None or window.opens > by:
                return
            yield window
            day = window.closes + timedelta(days=1)

    def _in(
        self, window: Window, way: Way, table: Timetable, aim: Aim, held: Sequence[float]
    ) -> WayTo | Short:
        """What one window gives."""
        opens, closes = max(window.opens, self.today), min(window.closes, aim.by)
        best = min(max(window.best[0], opens), closes)
        lot = self._lot(way, aim.want)

        def fewest(day: date) -> int | None:
            if table.deadline(day) is None:
                return None
            enough = lot.fewest(aim.want, aim.sure, table.in_time(day), held)
            return None if enough is None else enough[0]

        least = fewest(opens)
        if least is None:
            return self._short(way, lot, table, aim, held, opens)

        def is_worth_it(day: date) -> bool:
            number = fewest(day)
            return number is not None and number <= AS_MANY_AGAIN * least

        day = best if is_worth_it(best) else last_day(is_worth_it, opens, best) or opens
        start, start_by = self._widened(lot, table, aim, held, fewest(day) or least, (day, closes))
        return self._told(window, way, table, aim, held, start, (opens, start_by))

    def _lot(self, way: Way, want: int, a_stem: int = MOST_A_STEM, least: int = LEAST_MOST) -> Survivors:
        most = min(max(least, a_stem * want), MOST_STARTED)
        key = way, most
        if key not in self._survivors:
            self._survivors[key] = Survivors(self.losses(way), most)
        return self._survivors[key]

    def _widened(
        self,
        lot: Survivors,
        table: Timetable,
        aim: Aim,
        held: Sequence[float],
        fewest: int,
        days: tuple[date, date],
    ) -> tuple[int, date]:
        """How many to start and by when: the fewest for the best day, as long as they are enough. Where
        that is but a few days, some more for a fortnight of it."""
        day, closes = days

        def until(number: int, last: date) -> date:
            def sure_from(begun: date) -> bool:
                return lot.chance(number, aim.want, table.in_time(begun), held) >= aim.sure

            return last_day(sure_from, day, last) or day

        start_by, fortnight = until(fewest, closes), min(day + FORTNIGHT, closes)
        if start_by >= fortnight:
            return fewest, start_by
        start_by = until(min(fewest + max(fewest // FEW_MORE, 1), lot.most), fortnight)
        enough = lot.fewest(aim.want, aim.sure, table.in_time(start_by), held)
        assert enough is not None
        return enough[0], start_by

    def _told(
        self,
        window: Window,
        way: Way,
        table: Timetable,
        aim: Aim,
        held: Sequence[float],
        start: int,
        days: tuple[date, date],
    ) -> WayTo:
        opens, start_by = days
        lot = self._lot(way, aim.want)
        in_time = table.in_time(start_by)
        early, late = table.ready(opens, FIRST_READY), table.ready(start_by, LAST_READY)
        assert early is not None
        assert late is not None
        few, many = lot.alive(start, in_time, (EARLY, LATE))
        root, pot, live = lot.losses.means
        rooted = start * root * sum(weight * share for weight, share in in_time)
        return WayTo(
            way=way,
            bench=table.bench,
            window=window,
            start=start,
            opens=opens,
            start_by=start_by,
            certainty=lot.chance(start, aim.want, in_time, held),
            ready=(early, max(early, late)),
            losses=Expected(rooted=rooted, potted=rooted * pot, alive=rooted * pot * live),
            alive=(few, many),
            in_pots=max(lot.rooted(start, in_time, (LATE,))[0], 1),
            lots=0 if table.has_roots else self._rooting(way).lots,
        )

    def _short(
        self, way: Way, lot: Survivors, table: Timetable, aim: Aim, held: Sequence[float], day: date
    ) -> Short:
        """Why one window does not do."""
        in_time = table.in_time(day)
        root = sum(weight * share for weight, share in in_time)
        most = lot.chance(lot.most, aim.want, in_time, held)
        if table.deadline(day) is None or root < NEARLY:
            ready = table.soonest(day)
            return Short(way=way, why=TOO_LATE if ready is None or ready > aim.by else TOO_SLOW)
        enough = lot.fewest(aim.want, max(most - NEARLY, NEARLY), in_time, held)
        start = lot.most if enough is None else enough[0]
        told = self._lot(way, aim.want, TOLD_A_STEM, TOLD_MOST).fewest(aim.want, aim.sure, in_time, held)
        reason = TOO_SLOW if root <= HALF else TOGETHER if told is None else FEW_ROOT
        why = reason if told is None else TOO_MANY.format(told[0], aim.want, reason[0].lower() + reason[1:])
        return Short(way=way, why=why, start=start, certainty=lot.chance(start, aim.want, in_time, held))


HALF = 0.5
TOO_LATE = "Begun in its season, none would be ready to plant by then."
TOO_SLOW = "Few of them would have rooted in time to be ready by then."
FEW_ROOT = "Too many of its lots fail or root poorly."
TOO_MANY = "It would take {} to be sure of {}: {}"
TOGETHER = "A whole lot fails too often, however many are in it: spread them over two ways, or two lots."
"""Why a way falls short."""


def _by(aim: Aim, day: date) -> Aim:
    return Aim(aim.want, day, aim.sure)


def _counts(steps: Iterable[Step]) -> list[Counts]:
    return [Counts(step.lived, step.died) for step in steps if step.lived + step.died]


def _with_later(best: WayTo, last: WayTo) -> WayTo:
    return evolve(best, later=last) if last.opens > best.start_by else best
