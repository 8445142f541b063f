"""Lots put together by what they share, and what each group teaches: how many root, come through potting, and
live a year in the ground."""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from attrs import frozen

from cuttings.takes.cases import By, Case, Fact
from cuttings.takes.figures import LIVES_A_YEAR, SURVIVES_POTTING
from cuttings.takes.outcomes import Step
from cuttings.takes.shares import FINE, Counts, Figure, Share, learned

Key = Mapping[By, Fact]
"""What the lots of a group share."""


@frozen
class Rooting:
    """How many stems of a group that waited for roots made them.

    ``failed`` never will, ``waiting`` may yet, and ``gone`` were given or sold before anybody knew. ``lots``
    are those begun together: a lot and what was split off it are one. ``sources`` tell where the figure comes
    from that ``share`` starts from, each with whether it is published.
    """

    lots: int
    rooted: int
    failed: int
    waiting: int
    gone: int
    sources: Mapping[str, bool]
    share: Share

    @property
    def started(self) -> int:
        return self.rooted + self.failed + self.waiting + self.gone

    @property
    def decided(self) -> int:
        return self.rooted + self.failed


@frozen
class Survival:
    """How many stems of a group lived through a step. ``share`` is ``None`` while all are undecided."""

    lots: int
    step: Step
    share: Share | None


@frozen
class Group:
    """Some lots that share a key. A part is ``None`` where no stem came so far."""

    key: Key
    cases: tuple[Case, ...]
    rooting: Rooting | None
    potted: Survival | None
    a_year_on: Survival | None


def grouped(cases: Iterable[Case], by: Sequence[By]) -> tuple[Group, ...]:
    """Lots put together by what they share, in the order of their keys. A lot that lacks any of the facts
    stands in no group, and neither does one of which nothing is told yet."""
    found: dict[tuple[Fact, ...], list[Case]] = {}
    for case in cases:
        if all(each in case.facts for each in by):
            found.setdefault(tuple(case.facts[each] for each in by), []).append(case)
    ordered = sorted(found.items(), key=lambda item: [fact.order for fact in item[0]])
    groups = (_group(dict(zip(by, facts, strict=True)), together) for facts, together in ordered)
    return tuple(group for group in groups if group.rooting or group.potted or group.a_year_on)


def left_out(cases: Iterable[Case], by: Sequence[By]) -> dict[By, int]:
    """How many lots lack each fact, those that lack several counted for the first."""
    found: dict[By, int] = {}
    for case in cases:
        missing = next((each for each in by if each not in case.facts), None)
        if missing is not None:
            found[missing] = found.get(missing, 0) + 1
    return found


def _group(key: Key, cases: Sequence[Case]) -> Group:
    return Group(
        key=key,
        cases=tuple(cases),
        rooting=rooting_of(cases),
        potted=_survival([(case, case.potted) for case in cases], SURVIVES_POTTING),
        a_year_on=_survival([(case, case.a_year_on) for case in cases], LIVES_A_YEAR),
    )


def rooting_of(cases: Iterable[Case]) -> Rooting | None:
    """What some lots teach of rooting; ``None`` where no stem of theirs waited for roots."""
    waited = [case for case in cases if case.waited]
    if not waited:
        return None
    told = [case.told for case in waited]
    return Rooting(
        lots=lots_of(waited),
        rooted=sum(each.rooted for each in told),
        failed=sum(each.failed for each in told),
        waiting=sum(each.waiting for each in told),
        gone=sum(each.gone for each in told),
        sources={case.figure.source: case.figure.published for case in waited},
        share=share_of(tuple(waited)),
    )


def lots_of(cases: Iterable[Case]) -> int:
    """How many lots were begun together."""
    return len({case.begun_as for case in cases})


@lru_cache(maxsize=4096)
def share_of(cases: tuple[Case, ...]) -> Share:
    """What some lots whose stems waited teach of the share that roots."""
    return learned(start_of(cases), counts_of(cases), FINE)


def start_of(cases: Sequence[Case]) -> Figure:
    """The figure that some lots start from: the mean of theirs, weighed by stems."""
    weights = [case.told.started for case in cases]
    whole = sum(weights)
    figures = [case.figure for case in cases]
    return Figure(
        mean=sum(w * each.mean for w, each in zip(weights, figures, strict=True)) / whole,
        stems=sum(w * each.stems for w, each in zip(weights, figures, strict=True)) / whole,
        source=figures[0].source,
        published=all(each.published for each in figures),
    )


def counts_of(cases: Iterable[Case]) -> tuple[Counts, ...]:
    """What came of each lot that was begun: one that was split shared its first weeks, and counts as one."""
    return _joined((case, case.counts) for case in cases)


def _joined(counted: Iterable[tuple[Case, Counts]]) -> tuple[Counts, ...]:
    found: dict[str, Counts] = {}
    for case, counts in counted:
        found[case.begun_as] = found.get(case.begun_as, Counts(0, 0)).plus(counts)
    return tuple(found.values())


def _survival(steps: Iterable[tuple[Case, Step]], figure: Figure) -> Survival | None:
    came = [(case, step) for case, step in steps if step.came]
    if not came:
        return None
    whole = Step(
        came=sum(step.came for _, step in came),
        lived=sum(step.lived for _, step in came),
        died=sum(step.died for _, step in came),
    )
    counts = _joined((case, Counts(step.lived, step.died)) for case, step in came)
    known = whole.lived + whole.died > 0
    share = learned(figure, counts, FINE) if known else None
    return Survival(lots_of(case for case, _ in came), whole, share)
