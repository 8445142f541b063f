"""What is on the way already: of the stems of a plant in care, how many are alive and fit to plant by a
day."""

from collections.abc import Sequence
from datetime import date

import numpy as np
from attrs import frozen

from cuttings.ledger.lots import Lot
from cuttings.rules.hardening import time_to_harden
from cuttings.rules.raising import FILL_POT_WEEKS, in_planting_time, plantable_from_pot
from cuttings.rules.rooting import RootingClock
from cuttings.rules.seasons import weeks
from cuttings.takes.evidence import begun_on, bench_of, closed_air, looks_of
from cuttings.takes.goal import Goals
from cuttings.takes.raised import Timetable
from cuttings.takes.rooting import posterior
from cuttings.takes.survivors import Shares, thinned, timely
from cuttings.words import LIVING, Stage

IN_SOIL = (Stage.POTTED, Stage.HARDENING, Stage.READY)


@frozen
class OnTheWay:
    """``stems`` of the plant in care now, and the chance of each number, from 0 on, alive and fit to plant
    by a day."""

    stems: int
    numbers: tuple[float, ...]

    def enough(self, want: int) -> float:
        """The chance, 0 to 1, of at least so many."""
        return sum(self.numbers[want:])

    def surely(self, sure: float) -> int:
        """The most of which at least so many are there with such a chance, 0 to 1."""
        return max((each for each in range(len(self.numbers)) if self.enough(each) >= sure), default=0)

    @property
    def expected(self) -> float:
        return sum(number * chance for number, chance in enumerate(self.numbers))


def on_the_way(goals: Goals, by: date) -> OnTheWay:
    """The stems of the plant in care, each lot thought of by itself."""
    lots = [lot for lot in goals.lots if lot.plant == goals.name and lot.living]
    numbers = np.ones(1)
    for lot in lots:
        for part in _parts(goals, lot, by):
            numbers = np.convolve(numbers, part)
    stems = sum(lot.at(stage) for lot in lots for stage in LIVING)
    return OnTheWay(stems, tuple(float(chance) for chance in numbers))


def _parts(goals: Goals, lot: Lot, by: date) -> list[Sequence[float]]:
    """The chance of each number alive by the day, of the stems that wait, those with roots, and those in
    pots."""
    way = goals.learned.way_of(lot)
    kind = lot.plant, lot.method
    table = Timetable(goals.plant, way, goals.climate, bench_of(lot), goals.learned.shift(kind, lot.code), by)
    parts: list[Sequence[float]] = []
    if lot.at(Stage.WAITING):
        parts.append(thinned(thinned(_rooted(goals, lot, table), goals.potting), goals.living))
    fit = table.plantable(lot.started_on, goals.today)
    if lot.at(Stage.ROOTED) and fit is not None and fit <= by:
        parts.append(thinned(thinned(_all(lot.at(Stage.ROOTED)), goals.potting), goals.living))
    in_soil = sum(lot.at(stage) for stage in IN_SOIL if _is_fit(goals, lot, stage, by))
    if in_soil:
        parts.append(thinned(_all(in_soil), goals.living))
    return parts


def _is_fit(goals: Goals, lot: Lot, stage: Stage, by: date) -> bool:
    """Whether stems of a lot that stand in pots may be planted by a day: grown on and hardened off, in
    planting time."""
    plant, climate, today = goals.plant, goals.climate, goals.today
    since = lot.reached(stage) or lot.started_on
    if stage is Stage.POTTED:
        potted = max(since, today - weeks(FILL_POT_WEEKS))
        day = plantable_from_pot(plant, climate, potted, under_cover=closed_air(lot))
    else:
        hardened = since + time_to_harden(plant, climate) if stage is Stage.HARDENING else since
        day = in_planting_time(plant, climate, max(hardened, today))
    return day is not None and day <= by


def _all(count: int) -> tuple[float, ...]:
    return (*(0.0,) * count, 1.0)


def _rooted(goals: Goals, lot: Lot, table: Timetable) -> tuple[float, ...]:
    """The chance of each number of those that wait which has roots in time."""
    begun, last = begun_on(lot, table.way), table.deadline(lot.started_on, goals.today)
    clock = RootingClock.of(table.way, begun, goals.climate, bench_of(lot))
    if clock is None or last is None:
        return (1.0,)
    looks = looks_of(lot, clock)
    thought = posterior(goals.learned.prior(lot, table.way, clock)[0], looks)
    days = max(clock.passed(last), looks.last)
    in_time: Shares = [
        (node.weight, node.curve.between(looks.last, days) / max(node.curve.after(looks.last), 1e-12))
        for node in thought.nodes
    ]
    return timely(thought.yet_to_root, in_time)
