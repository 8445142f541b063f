"""How a nudge about a lot is made: its window put together, and rounds that come back until it is done."""

from collections.abc import Callable
from datetime import date, timedelta
from functools import lru_cache

from attrs import frozen

from cuttings.nudges.knowledge import Known
from cuttings.nudges.model import NO_LOSS, Loss, Nudge
from cuttings.rules.advice import Window
from cuttings.rules.caution import Task, handling
from cuttings.words import Stage


@frozen(eq=False, repr=False)
class Kind:
    """What work of a kind takes: minutes for a lot, and for each stem where each takes its own time (from
    memory); what to bring; and what it is to the rules of caution."""

    minutes: int
    a_stem: float = 0.0
    tools: tuple[str, ...] = ()
    task: Task | None = None
    digs: bool = False


KINDS = {
    "check": Kind(5, 0.1, ("labels", "pencil"), Task.CHECK),
    "pot": Kind(0, 6, ("pots", "potting mix", "watering can", "labels", "pencil"), Task.POT),
    "bulbs": Kind(15, tools=("trowel", "labels", "pencil"), task=Task.PLANT, digs=True),
    "pot-on": Kind(3, 4, ("pots one size up", "potting mix", "watering can"), Task.POT),
    "air": Kind(3, 0.05, tools=("a bowl for dead leaves", "fine rose or sprayer")),
    "clean": Kind(5, 0.1, tools=("a bowl for dead leaves", "clean scissors")),
    "shade": Kind(3),
    "feed": Kind(5, 0.1, tools=("liquid feed", "watering can")),
    "harden": Kind(5, tools=("crate or tray",)),
    "hold": Kind(0),
    "plant": Kind(0, 20, ("spade", "watering can", "labels", "pencil"), Task.PLANT, digs=True),
    "water": Kind(5, 0.5, tools=("watering can",)),
    "pots": Kind(2, 0.1, tools=("watering can",)),
    "rid": Kind(30, tools=("spade", "gloves", "strong sacks"), digs=True),
    "winter": Kind(10, 2, tools=("spade or cold frame",)),
    "vent": Kind(3, tools=("a stick to prop the frame",)),
    "look-in": Kind(5, 0.1, tools=("watering can", "a bowl for dead leaves")),
    "out": Kind(15, tools=("fork",)),
    "mulch": Kind(5, 2, ("straw, leaves or needles",)),
    "heave": Kind(5, tools=("trowel",), digs=True),
}  # fmt: skip
KINDS |= {"harden-more": KINDS["harden"], "plant-more": KINDS["plant"]}
"""The kinds of work on a lot, by the last part of the nudge's id; the last two are for stems that lag behind
others of their lot."""


def nudge(
    known: Known,
    name: str,
    job: str,
    window: Window,
    *stages: Stage,
    task: str = "",
    step: str = "",
    loss: Loss = NO_LOSS,
    every: int = 0,
    when: str = "",
    not_yet: bool = False,
    stems: int | None = None,
    area: str | None = None,
) -> Nudge:
    """A nudge about a lot's stems at some stages: all of them, where the lot is worked on, unless told
    otherwise."""
    lot, kind = known.lot, KINDS[name]
    stems = sum(lot.at(stage) for stage in stages) if stems is None else stems
    return Nudge(
        id=f"{lot.code}:{name}",
        job=job,
        name=f"{lot.code} {lot.plant_called}",
        window=window,
        lot=lot.code,
        area=known.area_of(stages[0]) if area is None else area,
        stems=stems,
        minutes=max(round(kind.minutes + kind.a_stem * stems), 0 if not_yet else 1),
        parts=stems if kind.a_stem >= 1 else 1,
        loss=loss,
        tools=kind.tools,
        cautions=handling(known.plant, lot.plant_called, kind.task) if kind.task else (),
        task=task,
        step=step,
        every=every,
        when=when,
        digs=kind.digs,
        not_yet=not_yet,
    )


@lru_cache(maxsize=1024)
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


def now(today: date, what: str, why: str, source: str, lasts: int = 7) -> Window:
    """A window for care that is due whenever one looks, good for so many days from today."""
    return stretch(today, (today, today), today + days(lasts - 1), what, why, source)


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
