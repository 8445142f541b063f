"""What each lot needs, by the stages its stems stand at.

Every rule answers with nudges that carry their whole window, whether it is now or later; the week keeps
those that touch its days, and a card shows the one that comes first.
"""

from collections.abc import Callable, Iterable
from datetime import date

from cuttings.nudges.hardening_off import hardening
from cuttings.nudges.in_pots import IN_POTS, potted, ready, watered
from cuttings.nudges.knowledge import Known
from cuttings.nudges.model import Nudge
from cuttings.nudges.settling import planted
from cuttings.nudges.till_potted import rooted, waiting
from cuttings.nudges.unwanted import doing_away
from cuttings.nudges.winter import KEPT, in_frames, wintering
from cuttings.words import Stage

_RULES: tuple[tuple[tuple[Stage, ...], Callable[[Known, date], Iterable[Nudge]]], ...] = (
    ((Stage.WAITING,), waiting),
    ((Stage.ROOTED,), rooted),
    (IN_POTS, watered),
    ((Stage.POTTED,), potted),
    ((Stage.HARDENING,), hardening),
    ((Stage.READY,), ready),
    (KEPT, wintering),
    (KEPT, in_frames),
    ((Stage.PLANTED,), planted),
)
"""What is asked of a lot that holds stems at any of the stages."""


def nudges_for(known: Known, today: date) -> list[Nudge]:
    """Everything one lot needs from today on, each with its window; windows that have closed are left out."""
    if known.plant.unwanted:
        return doing_away(known, today)
    held = known.lot.stages.keys()
    found = [
        nudge
        for stages, rule in _RULES
        if not held.isdisjoint(stages)
        for nudge in rule(known, today)
        if nudge.window.closes >= today
    ]
    return sorted(found, key=lambda nudge: (max(nudge.window.opens, today), nudge.window.closes, nudge.id))


def next_for(known: Known, today: date) -> Nudge | None:
    """The first thing that a lot needs that the ledger will hear of, or failing that the first at all."""
    found = nudges_for(known, today)
    return next((nudge for nudge in found if nudge.task), found[0] if found else None)


def also_due(known: Known, first: Nudge, today: date) -> Nudge | None:
    """What else the lot needs by now that the ledger will hear of, for stems that stand at another stage."""
    return next(
        (
            nudge
            for nudge in nudges_for(known, today)
            if nudge.task and nudge.task != first.task and nudge.window.opens <= today and not nudge.not_yet
        ),
        None,
    )
