"""Which of two groups of lots roots better, how surely, and by how much.

Lots are compared only within what they share otherwise, their plant and method: each such stratum gives a
difference, and the strata are put together weighed as Mantel and Haenszel weigh theirs (Journal of the
National Cancer Institute 22, 1959), by the stems on both sides. Each side of a stratum has a posterior of its
own, which starts from what is published of its lots; the difference is summed exactly over both, point by
point.
"""

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from functools import lru_cache

from attrs import evolve, frozen

from cuttings.takes.cases import NO_DIP, By, Case, Fact
from cuttings.takes.grids import quantile
from cuttings.takes.groups import Group, Key, lots_of, share_of
from cuttings.takes.shares import Share

LEAST_LOTS, LEAST_STEMS = 2, 10
"""What each side needs at the least for a word on which is better: lots, for one tells nothing of how lots
differ, and stems whose end is known. From memory."""

SURE_ENOUGH = 0.9
"""The chance at which one is called better; from memory."""

PER_UNIT = 200
"""Steps of the grid of shares, and of differences, from 0 to 1."""

BETWEEN = 8
"""Parts into which each step of a posterior is cut, so that it lies on the grid of shares without gaps."""

NEXT_TO_NOTHING = 1e-8

ANY_DIP = Fact("any", "any dip", (1, ""))


class Verdict(StrEnum):
    """What a comparison came to."""

    BETTER = "better"
    CANNOT_TELL = "cannot-tell"
    TOO_FEW = "too-few"
    TOO_UNLIKE = "too-unlike"


@frozen
class Side:
    """Some lots whose stems waited for roots, and the key they share."""

    key: Key
    cases: tuple[Case, ...]

    @property
    def lots(self) -> int:
        return lots_of(self.cases)

    @property
    def rooted(self) -> int:
        return sum(case.told.rooted for case in self.cases)

    @property
    def failed(self) -> int:
        return sum(case.told.failed for case in self.cases)

    @property
    def waiting(self) -> int:
        return sum(case.told.waiting for case in self.cases)

    @property
    def decided(self) -> int:
        return self.rooted + self.failed


@frozen(kw_only=True)
class Comparison:
    """Two groups that differ in one fact, ``by``. ``better`` is the one that is more likely the better.

    The sides hold the lots that were compared; ``unmatched`` ones had nothing to be compared with.
    ``probability`` that it is better, and by how much of all stems (``interval``: nine times in ten), are
    ``None`` where nothing could be compared. ``log_odds_ratio`` and its standard error are of the bare
    counts, ``None`` where one of them is 0. ``also`` names what else the lots of the two sides differ in.
    """

    by: By
    better: Side
    worse: Side
    verdict: Verdict
    unmatched: int = 0
    probability: float | None = None
    difference: float | None = None
    interval: tuple[float, float] | None = None
    log_odds_ratio: float | None = None
    log_odds_se: float | None = None
    also: tuple[By, ...] = ()


def comparisons(groups: Iterable[Group]) -> tuple[Comparison, ...]:
    """The best group against each of those that differ from it in one fact alone; the surest first. Plants
    are compared only where nothing but the plant tells the groups apart; any dip at all is compared with
    none."""
    waited = [
        Side(group.key, tuple(case for case in group.cases if case.waited))
        for group in groups
        if group.rooting is not None and group.rooting.started
    ]
    found = [compare(best, each, by) for by, best, others in _bundles(waited) for each in others]
    order = list(Verdict)
    return tuple(sorted(found, key=lambda each: (order.index(each.verdict), -(each.probability or 0.0))))


def _bundles(sides: Sequence[Side]) -> Iterator[tuple[By, Side, list[Side]]]:
    """The best side of each set that differs in one fact, with the others of it."""
    bys = tuple(sides[0].key) if sides else ()
    for by in bys:
        if by is By.PLANT and len(bys) > 1:
            continue
        sets: dict[tuple[Fact, ...], list[Side]] = {}
        for side in sides:
            rest = tuple(fact for each, fact in side.key.items() if each is not by)
            sets.setdefault(rest, []).append(side)
        for each in sets.values():
            if by is By.DIP and len(each) > 2:
                yield from _any_dip(each)
            if len(each) > 1:
                best = max(each, key=_promise)
                yield by, best, [side for side in each if side is not best]


def _any_dip(sides: Sequence[Side]) -> Iterator[tuple[By, Side, list[Side]]]:
    none = [side for side in sides if side.key[By.DIP].value == NO_DIP]
    if none:
        dipped = tuple(case for side in sides if side is not none[0] for case in side.cases)
        yield By.DIP, Side({**none[0].key, By.DIP: ANY_DIP}, dipped), none


def _promise(side: Side) -> tuple[bool, float]:
    """What makes a side the one to beat: enough lots, then the share that roots."""
    return _enough(side), share_of(side.cases).mean


def _enough(side: Side) -> bool:
    return side.lots >= LEAST_LOTS and side.decided >= LEAST_STEMS


def compare(first: Side, second: Side, by: By) -> Comparison:
    """Which of two groups of lots that differ in a fact roots better."""
    strata = _strata(first, second, by)
    if not strata:
        return Comparison(by=by, better=first, worse=second, verdict=Verdict.TOO_UNLIKE)
    one = evolve(first, cases=tuple(case for ones, _ in strata for case in ones))
    other = evolve(second, cases=tuple(case for _, others in strata for case in others))
    unmatched = sum(case.told_of for side in (first, second) for case in side.cases)
    unmatched -= len(one.cases) + len(other.cases)
    law = difference_of(strata)
    above = _above(law)
    if above < 0.5:
        one, other, above = other, one, 1.0 - above
        law = [(-each, weight) for each, weight in reversed(law)]
    ratio, se = _log_odds(one, other)
    return Comparison(
        by=by,
        better=one,
        worse=other,
        verdict=_verdict(one, other, above),
        unmatched=unmatched,
        probability=above,
        difference=sum(each * weight for each, weight in law),
        interval=(quantile(law, 0.05), quantile(law, 0.95)),
        log_odds_ratio=ratio,
        log_odds_se=se,
        also=_also(one, other, by),
    )


def chance_better(one: Share, other: Share) -> float:
    """The chance that of two shares, each told by counts of its own, the first is truly the greater."""
    law = _Law.of_share(one).plus(_Law.of_share(other).turned())
    return _above([(float(law.first + number), weight) for number, weight in enumerate(law.weights)])


def _above(law: Iterable[tuple[float, float]]) -> float:
    """How likely a difference is above nothing; the weight on nothing is parted."""
    return sum(weight if each > 0.0 else weight / 2.0 for each, weight in law if each >= 0.0)


def _verdict(one: Side, other: Side, probability: float) -> Verdict:
    if not (_enough(one) and _enough(other)):
        return Verdict.TOO_FEW
    return Verdict.BETTER if probability >= SURE_ENOUGH else Verdict.CANNOT_TELL


Stratum = tuple[tuple[Case, ...], tuple[Case, ...]]
"""The lots of both sides that share a plant and a method."""


def _strata(first: Side, second: Side, by: By) -> list[Stratum]:
    """The lots that can be compared. A lot of which nothing is known yet tells nothing, and cannot."""
    shared = [each for each in (By.PLANT, By.METHOD) if each is not by]
    if by is By.WOOD:
        shared.remove(By.METHOD)
    sides: tuple[dict[tuple[Fact, ...], list[Case]], ...] = ({}, {})
    for side, found in zip((first, second), sides, strict=True):
        for case in side.cases:
            if case.told_of:
                found.setdefault(tuple(case.facts[each] for each in shared), []).append(case)
    ones, others = sides
    return [(tuple(ones[key]), tuple(others[key])) for key in ones if key in others]


def difference_of(strata: Sequence[Stratum]) -> list[tuple[float, float]]:
    """The law of how much more of the first sides' stems root: differences on an even grid, with weights that
    add up to 1."""
    sides = [(_law_of(ones), _law_of(others)) for ones, others in strata]
    weights = [one * other / (one + other) for (one, _), (other, _) in sides]
    whole = sum(weights)
    law = _Law(0, [1.0])
    for ((_, one), (_, other)), weight in zip(sides, weights, strict=True):
        law = law.plus(one.plus(other.turned()).shrunk(weight / whole))
    return [((law.first + number) / PER_UNIT, weight) for number, weight in enumerate(law.weights)]


@lru_cache(maxsize=1024)
def _law_of(cases: tuple[Case, ...]) -> tuple[float, "_Law"]:
    """How many stems of some lots were counted, and the law of the share that roots."""
    share = share_of(cases)
    return share.stems, _Law.of_share(share)


@frozen
class _Law:
    """Weights of whole steps of a share or a difference, from the step ``first`` on."""

    first: int
    weights: list[float]

    @classmethod
    def of(cls, points: Iterable[tuple[float, float]]) -> "_Law":
        """The law of some points, in steps; each is shared out between the two whole steps it lies
        between."""
        found: dict[int, float] = {}
        for point, weight in points:
            step = math.floor(point)
            beyond = point - step
            found[step] = found.get(step, 0.0) + weight * (1.0 - beyond)
            found[step + 1] = found.get(step + 1, 0.0) + weight * beyond
        whole = sum(found.values())
        kept = [step for step, weight in found.items() if weight > NEXT_TO_NOTHING * whole]
        first, last = min(kept), max(kept)
        whole = sum(found.get(step, 0.0) for step in range(first, last + 1))
        return cls(first, [found.get(step, 0.0) / whole for step in range(first, last + 1)])

    @classmethod
    def of_share(cls, share: Share) -> "_Law":
        """The posterior of a share, with straight lines between its points."""
        ends = itertools.pairwise(share.points)
        parts = [(part + 0.5) / BETWEEN for part in range(BETWEEN)]
        return cls.of(
            ((p + (q - p) * part) * PER_UNIT, w + (v - w) * part) for (p, w), (q, v) in ends for part in parts
        )

    def turned(self) -> "_Law":
        """The law of the same with its sign changed."""
        return _Law(1 - self.first - len(self.weights), self.weights[::-1])

    def shrunk(self, part: float) -> "_Law":
        """The law of a part of it."""
        return _Law.of(((self.first + step) * part, weight) for step, weight in enumerate(self.weights))

    def plus(self, other: "_Law") -> "_Law":
        """The law of the sum of two."""
        weights = [0.0] * (len(self.weights) + len(other.weights) - 1)
        for number, weight in enumerate(self.weights):
            for beyond, more in enumerate(other.weights, number):
                weights[beyond] += weight * more
        return _Law(self.first + other.first, weights)


def _log_odds(one: Side, other: Side) -> tuple[float | None, float | None]:
    """The logarithm of the odds ratio of two sides by their bare counts, and its standard error (Woolf,
    Annals of Human Genetics 19, 1955)."""
    cells = (one.rooted, one.failed, other.rooted, other.failed)
    if 0 in cells:
        return None, None
    rooted, failed, other_rooted, other_failed = cells
    ratio = math.log(rooted / failed) - math.log(other_rooted / other_failed)
    return ratio, math.sqrt(sum(1.0 / cell for cell in cells))


def _also(one: Side, other: Side, by: By) -> tuple[By, ...]:
    """What else the lots of two sides differ in, so that it may be what makes the difference: facts that no
    lot of the one shares with any of the other."""
    found = []
    for each in By:
        if each in (by, By.PLANT, By.METHOD, By.WOOD):
            continue
        ones, others = ({case.facts.get(each) for case in side.cases} - {None} for side in (one, other))
        if ones and others and not ones & others:
            found.append(each)
    return tuple(found)
