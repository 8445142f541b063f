"""How a nudge about a lot is made: its window put together, and rounds that come back until it is done."""

from collections.abc import Callable
from datetime import date, timedelta

from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss, Nudge
from cuttings.rules.advice import Window
from cuttings.words import Stage

MINUTES = {
    "check": 5, "pot": 6, "bulbs": 15, "air": 3, "shade": 3, "feed": 5, "harden": 5, "plant": 20, "water": 5,
    "pots": 2, "rid": 30, "winter": 30,
}  # fmt: skip
"""Minutes that a job takes for one lot, and for potting and planting one stem; from memory."""

BY_THE_STEM = ("pot", "plant")


def nudge(
    known: Known,
    name: str,
    job: str,
    window: Window,
    stage: Stage,
    *,
    task: str = "",
    stake: int | None = None,
) -> Nudge:
    """A nudge about a lot's stems at a stage; all of them are at stake unless it says how many."""
    stems = known.lot.at(stage)
    at_stake = stems if stake is None else stake
    by_the_stem = name in BY_THE_STEM
    return Nudge(
        id=f"{known.lot.code}:{name}",
        job=job,
        name=f"{known.lot.code} {known.lot.plant_called}",
        window=window,
        lot=known.lot.code,
        area=known.area,
        stems=stems,
        minutes=MINUTES[name] * (stems if by_the_stem else 1),
        parts=stems if by_the_stem else 1,
        loss=Loss(plants=float(at_stake), late=between(window.best[1], window.closes)),
        task=task,
    )


def days(number: int) -> timedelta:
    return timedelta(days=number)


def stretch(
    opens: date,
    best: tuple[date, date],
    closes: date,
    what: str,
    why: str,
    source: str,
    odds: float | None = None,
) -> Window:
    """A window whose best stretch is kept inside it; ``odds`` as in ``Window``."""
    closes = max(closes, opens)
    first = min(max(best[0], opens), closes)
    return Window(
        what=what,
        opens=opens,
        best=(first, min(max(best[1], first), closes)),
        closes=closes,
        why=why,
        source=source,
        odds=odds,
    )


def coming_round(
    first: date,
    today: date,
    what: str,
    why: str,
    source: str,
    *,
    every: int = 28,
    lasts: int = 14,
    settle: Callable[[date], date] = lambda day: day,
) -> Window:
    """The round of a job that comes back every so many days until it is done: the one now, or the next.

    It is on the sheet for ``lasts`` days and then leaves the keeper in peace until its next round.
    ``settle`` puts a day off to one on which the job can be done.
    """
    opens = settle(first)
    while opens + days(lasts - 1) < today:
        opens = settle(opens + days(max(every, lasts)))
    return stretch(opens, (opens, opens + days(lasts // 2)), opens + days(lasts - 1), what, why, source)
