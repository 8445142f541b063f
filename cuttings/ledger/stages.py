"""Which stage may follow which, and how a lot's stems are counted."""

from collections.abc import Mapping

from cuttings.words import LIVING, Stage

_LEAVING = frozenset({Stage.GIVEN, Stage.SOLD, Stage.LOST})

MAY_FOLLOW: Mapping[Stage, frozenset[Stage]] = {
    Stage.WAITING: frozenset({Stage.ROOTED}) | _LEAVING,
    Stage.ROOTED: frozenset({Stage.POTTED, Stage.PLANTED}) | _LEAVING,
    Stage.POTTED: frozenset({Stage.POTTED, Stage.HARDENING, Stage.READY, Stage.PLANTED}) | _LEAVING,
    Stage.HARDENING: frozenset({Stage.READY, Stage.PLANTED}) | _LEAVING,
    Stage.READY: frozenset({Stage.PLANTED}) | _LEAVING,
    Stage.PLANTED: frozenset({Stage.LOST}),
    Stage.GIVEN: frozenset(),
    Stage.SOLD: frozenset(),
    Stage.LOST: frozenset(),
}
"""Potted may follow potted: a stem potted on. Lost may follow planted: a plant that died in its place."""

START_STAGES = frozenset({Stage.WAITING, Stage.ROOTED})
"""Where a new lot's stems may stand."""

_TO_REACH: Mapping[Stage, tuple[Stage, str]] = {
    Stage.ROOTED: (Stage.WAITING, "check the waiting ones first"),
    Stage.POTTED: (Stage.ROOTED, "pot the rooted ones first"),
    Stage.HARDENING: (Stage.POTTED, "begin hardening off the potted ones first"),
    Stage.READY: (Stage.HARDENING, "finish hardening off first"),
}
"""For each stage, the one before it and how its stems get on."""


_SPOKEN_ORDER = (*reversed(LIVING), *(stage for stage in Stage if stage not in LIVING))


def spoken_counts(stages: Mapping[Stage, int]) -> str:
    """Counts as words, ``7 potted, 3 waiting, 2 lost``: the living first, the furthest on of them before
    the others; ``nothing`` when all are zero."""
    parts = [f"{stages[stage]} {stage}" for stage in _SPOKEN_ORDER if stages.get(stage)]
    return ", ".join(parts) or "nothing"


def _ordered(stages: Mapping[Stage, int]) -> str:
    return " and ".join(spoken_counts(stages).rsplit(", ", 1))


def shortage(lot: str, stages: Mapping[Stage, int], count: int, source: Stage | None) -> str:
    """The sentence that refuses a count the lot does not hold, at one stage or at all."""
    if source is None:
        return f"{lot} holds {_ordered(stages)}, so {count} cannot be taken."
    before, advice = _TO_REACH.get(source, (source, ""))
    end = f"; {advice}." if advice and stages.get(before) else "."
    if not stages.get(source):
        return f"{lot} holds {_ordered(stages)}; none of it is {source}{end}"
    return f"{lot} holds {_ordered(stages)}, so {count} cannot come out of {source}{end}"


def wrong_step(lot: str, source: Stage, target: Stage) -> str:
    """The sentence that refuses a move the order of stages does not allow."""
    nexts = [stage for stage in Stage if stage in MAY_FOLLOW[source] and stage is not source]
    allowed = ", ".join(nexts[:-1]) + " or " + nexts[-1] if len(nexts) > 1 else "".join(nexts)
    after = f"a {source} stem can only become {allowed}" if nexts else f"{source} is where a stem's way ends"
    return f"{lot}: {source} stems cannot become {target}; {after}."
