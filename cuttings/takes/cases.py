"""One lot as a trial: how it was begun, and what became of its stems."""

import calendar
from collections.abc import Mapping
from datetime import date
from enum import StrEnum

from attrs import field, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.rules.rooting import RootingClock
from cuttings.takes.evidence import Tally, begun_on, bench_of, is_found, looks_of, tally_of
from cuttings.takes.figures import rooting_figure
from cuttings.takes.learned import Learned
from cuttings.takes.outcomes import Step, a_year_on, through_potting
from cuttings.takes.rooting import posterior
from cuttings.takes.shares import Counts, Figure
from cuttings.words import Cover, Wood

LEAST_TOLD = 0.5
"""Looks at stems that could hardly have rooted yet tell less than half a stem would: next to nothing."""


class By(StrEnum):
    """What lots may be told apart by."""

    PLANT = "plant"
    METHOD = "method"
    WOOD = "wood"
    MONTH = "month"
    DIP = "dip"
    MEDIUM = "medium"
    COVER = "cover"
    PLACE = "place"
    YEAR = "year"


@frozen
class Fact:
    """One thing told of a lot; facts are the same where their values are. ``said`` is for people, ``order``
    its place among others."""

    value: str | int
    said: str = field(eq=False)
    order: tuple[int, str] = field(eq=False)


@frozen(eq=False)
class Case:
    """One lot, compared by identity. ``begun_as`` is the code under which its stems were begun: lots split
    off one another share it.

    ``stems`` are all it was begun with; ``told`` counts those that waited for roots; in ``counts`` those that
    still wait count for the part of their time that was over when they were last looked at. ``figure`` is
    what is published of its way.
    """

    code: str
    begun_as: str
    facts: Mapping[By, Fact]
    stems: int
    told: Tally
    counts: Counts
    figure: Figure
    potted: Step
    a_year_on: Step

    @property
    def waited(self) -> bool:
        """Whether its stems waited for roots; those that came with roots tell nothing of rooting."""
        return self.told.started > 0

    @property
    def told_of(self) -> bool:
        """Whether anything is known of how its stems rooted."""
        return self.counts.came_through + self.counts.did_not >= LEAST_TOLD


def case_of(lot: Lot, learned: Learned, climate: Climate, today: date) -> Case:
    """A lot as it stands on a day."""
    told = tally_of(lot)
    waited = told.waiting * _over(lot, learned, climate) if told.waiting else 0.0
    return Case(
        code=lot.code,
        begun_as=lot.origin.lot,
        facts=facts_of(lot),
        stems=lot.started,
        told=told,
        counts=Counts(told.rooted, told.failed + waited),
        figure=rooting_figure(learned.way_of(lot)),
        potted=through_potting(lot, today),
        a_year_on=a_year_on(lot, today),
    )


def _over(lot: Lot, learned: Learned, climate: Climate) -> float:
    """The chance that a stem that roots had done so by the last look at its lot; 0 where no time is known."""
    way = learned.way_of(lot)
    clock = RootingClock.of(way, begun_on(lot, way), climate, bench_of(lot))
    if clock is None:
        return 0.0
    prior, _ = learned.prior(lot, way, clock)
    looks = looks_of(lot, clock)
    nodes = posterior(prior, looks).nodes
    return sum(node.weight * node.curve.by(looks.last) for node in nodes)


def facts_of(lot: Lot) -> dict[By, Fact]:
    """What is told of how a lot was begun. A fact that does not apply to it, or that nobody wrote down, is
    missing: only struck cuttings have a dip, a medium and a cover, and nobody knows when a find began."""
    origin = lot.origin
    facts = {
        By.PLANT: _named(lot.plant, lot.plant_called),
        By.METHOD: _named(lot.method.value, lot.method.spoken),
        By.YEAR: _numbered(lot.started_on.year, str(lot.started_on.year)),
    }
    if not is_found(lot):
        month = lot.started_on.month
        facts[By.MONTH] = _numbered(month, calendar.month_name[month])
    wood = next((wood for wood in Wood if wood.method is lot.method), None)
    if wood is not None:
        facts[By.WOOD] = _named(wood.value, wood.value)
    if isinstance(origin, e.Strike):
        facts[By.DIP] = _dip(origin)
        facts[By.COVER] = _named(
            origin.cover.value, "no cover" if origin.cover is Cover.NONE else origin.cover.value
        )
        if origin.medium.strip():
            facts[By.MEDIUM] = _typed(origin.medium)
    if origin.where.strip():
        facts[By.PLACE] = _typed(origin.where)
    return facts


NO_DIP = "none"


def _dip(strike: e.Strike) -> Fact:
    if strike.dip_ppm is None:
        return Fact(NO_DIP, "no dip", (0, ""))
    form = "" if strike.dip_form is None else f" {strike.dip_form}"
    said = f"{strike.dip_ppm} ppm{form}"
    return Fact(said, said, (strike.dip_ppm, form))


def _named(value: str, said: str) -> Fact:
    return Fact(value, said, (0, said.casefold()))


def _numbered(number: int, said: str) -> Fact:
    return Fact(number, said, (number, ""))


def _typed(text: str) -> Fact:
    """What somebody typed; case and blanks make no difference."""
    return _named(" ".join(text.casefold().split()), " ".join(text.split()))
