"""What a whole ledger teaches of its garden: how much sooner or later stems root here, and how many take.

How much later a lot roots than published is taken to be the sum of three parts, in logarithms of days: that
of the garden for a family of methods, that of the plant by its method, and that of the lot. Each is normal
round nothing. What one lot told is boiled down to a normal law of its own, so that all lots together are a
matter of adding precisions.
"""

import math
from collections.abc import Iterable, Mapping
from functools import cached_property, lru_cache

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.lots import Lot
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Way
from cuttings.plants.understood import plant_for
from cuttings.rules.rooting import RootingClock
from cuttings.takes.curve import Curve
from cuttings.takes.evidence import ROOTED_UNDER_COVER, begun_on, bench_of, is_found, looks_of, tally_of
from cuttings.takes.figures import rooting_figure
from cuttings.takes.rooting import Looks, Prior, posterior
from cuttings.takes.shares import Counts, Share
from cuttings.takes.shares import learned as learned_share
from cuttings.words import Method

GARDEN_SD, WAY_SD, LOT_SD = 0.15, 0.17, 0.15
"""Standard deviations of the three parts, in logarithms of days; this program's own choice. Together a lot
takes half as long again as published or longer, or two thirds of it or less, one time in seven."""

FOUND_SPREAD = 0.15
"""How far apart the stems of a find began to root, as a spread in logarithms of days: nobody knows, and each
may have touched the soil in another month. This program's own choice."""

OPEN_MINDED_SD = 0.6
"""How freely a lot is heard before all are weighed together."""

LEAST_PRECISION = 0.05
"""A lot that tells less than this, as one over the variance of a shift in logarithms of days, is not
heard."""

Kind = tuple[str, Method]
"""A plant, and the method by which more is made of it."""


def family_of(method: Method) -> str:
    """What roots in the same way: layers on their mother, leafy cuttings in closed air, bare wood and roots.
    How one family does in a garden says little of another."""
    if method.is_layer:
        return "layers"
    if method.is_cutting:
        return "leafy cuttings" if method in ROOTED_UNDER_COVER else "bare cuttings"
    return method.value


@frozen
class Heard:
    """How much later than published one lot was, in logarithms of days, and how precisely it tells so."""

    lot: str
    shift: float
    precision: float


@frozen
class Shift:
    """How much later than published the next lot is, in logarithms of days; ``lots`` of the same plant and
    method, and ``others`` of the garden, were heard for it."""

    mean: float
    sd: float
    lots: int
    others: int


class Learned:
    """What lots taught, each thing reckoned when it is first asked for."""

    def __init__(self, lots: Iterable[Lot], catalogue: Catalogue, climate: Climate) -> None:
        self._lots = tuple(lots)
        self._catalogue = catalogue
        self._climate = climate
        self._shares: dict[Kind, Share] = {}
        self._gardens: dict[Kind, tuple[float, float, int]] = {}

    def way_of(self, lot: Lot) -> Way:
        """The way of increase of a lot, with the method's general figures where the plant has none."""
        return way_for(lot, self._catalogue)

    def shift(self, kind: Kind, without: str = "") -> Shift:
        """How much later than published a lot of a kind is, by all the lots but one."""
        mine = tuple(each for each in self._heard.get(kind, ()) if each.lot != without)
        garden, var, others = self._garden_without(kind)
        mean, var = _joined([(garden, var + WAY_SD**2), *map(_as_heard, mine)])
        return Shift(mean, math.sqrt(var + LOT_SD**2), len(mine), others)

    def _garden_without(self, kind: Kind) -> tuple[float, float, int]:
        """Mean and variance of the garden's part by all the lots of other kinds of its family, and their
        number."""
        if kind not in self._gardens:
            like = family_of(kind[1])
            others = [
                weighed
                for other, weighed in self._kinds.items()
                if other != kind and family_of(other[1]) == like
            ]
            told = _joined([(0.0, GARDEN_SD**2), *((mean, var + WAY_SD**2) for mean, var, _ in others)])
            self._gardens[kind] = (*told, sum(count for _, _, count in others))
        return self._gardens[kind]

    def share(self, kind: Kind, way: Way) -> Share:
        """The share of stems of a kind that root, by the lots that have come to an end; one that was split
        is one."""
        if kind not in self._shares:
            ended = self._ended.get(kind, ())
            self._shares[kind] = learned_share(rooting_figure(way), ended)
        return self._shares[kind]

    def prior(self, lot: Lot, way: Way, clock: RootingClock) -> tuple[Prior, Shift]:
        """What is thought of a lot before anybody looks at it."""
        kind = (lot.plant, lot.method)
        shift = self.shift(kind, lot.code)
        takes, fails = self.share(kind, way).next_lot
        curve = Curve.of_range(clock.low, clock.high)
        if is_found(lot):
            curve = evolve(curve, spread=math.hypot(curve.spread, FOUND_SPREAD))
        return Prior(curve, shift.mean, shift.sd, takes, fails), shift

    @cached_property
    def _heard(self) -> Mapping[Kind, tuple[Heard, ...]]:
        found: dict[Kind, list[Heard]] = {}
        for lot in self._lots:
            heard = self._hear(lot)
            if heard is not None:
                found.setdefault((lot.plant, lot.method), []).append(heard)
        return {kind: tuple(each) for kind, each in found.items()}

    def _hear(self, lot: Lot) -> Heard | None:
        if lot.method.starts_rooted or is_found(lot) or len(lot.entries) < 2:
            return None
        way = self.way_of(lot)
        clock = RootingClock.of(way, begun_on(lot, way), self._climate, bench_of(lot))
        if clock is None:
            return None
        looks = looks_of(lot, clock)
        if not looks.tell:
            return None
        figure = rooting_figure(way)
        takes, fails = figure.mean * figure.stems, (1.0 - figure.mean) * figure.stems
        told = _told(Curve.of_range(clock.low, clock.high), takes, fails, looks)
        return None if told is None else Heard(lot.code, *told)

    @cached_property
    def _kinds(self) -> Mapping[Kind, tuple[float, float, int]]:
        """For each kind the mean and variance of its shift by its own lots alone, and their number."""
        return {
            kind: (*_joined(list(map(_as_heard, heard))), len(heard)) for kind, heard in self._heard.items()
        }

    @cached_property
    def _ended(self) -> Mapping[Kind, tuple[Counts, ...]]:
        found: dict[Kind, dict[str, Counts]] = {}
        waiting: set[tuple[Kind, str]] = set()
        for lot in self._lots:
            told, kind, begun = tally_of(lot), (lot.plant, lot.method), lot.origin.lot
            if told.waiting:
                waiting.add((kind, begun))
            counts = found.setdefault(kind, {})
            counts[begun] = counts.get(begun, Counts(0, 0)).plus(Counts(told.rooted, told.failed))
        return {
            kind: tuple(each for begun, each in counts.items() if (kind, begun) not in waiting)
            for kind, counts in found.items()
        }


def way_for(lot: Lot, catalogue: Catalogue) -> Way:
    """The way of increase of a lot, with the method's general figures where the plant has none."""
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    return plant.way(lot.method) or catalogue.way(lot.method)


@lru_cache(maxsize=4096)
def _told(curve: Curve, takes: float, fails: float, looks: Looks) -> tuple[float, float] | None:
    """How much later than its curve a lot was, and how precisely it tells so, apart from what was thought
    before.

    ``None`` where it tells next to nothing.
    """
    mean, sd = posterior(Prior(curve, 0.0, OPEN_MINDED_SD, takes, fails), looks).shift_mean_sd
    precision = 1.0 / sd**2 - 1.0 / OPEN_MINDED_SD**2
    return None if precision < LEAST_PRECISION else (mean / sd**2 / precision, precision)


def _as_heard(heard: Heard) -> tuple[float, float]:
    """What one lot tells of its kind: its own part is of no account there."""
    return heard.shift, 1.0 / heard.precision + LOT_SD**2


def _joined(told: list[tuple[float, float]]) -> tuple[float, float]:
    """Mean and variance of what several normal laws tell of one number."""
    precision = sum(1.0 / var for _, var in told)
    return sum(mean / var for mean, var in told) / precision, 1.0 / precision
