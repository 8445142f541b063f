"""Nudges put aside: done, put off until a day or a condition, or never to come back."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, timedelta

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.dates import day_ahead, spoken
from cuttings.ledger.book import Book
from cuttings.ledger.ticks import Aside
from cuttings.nudges.model import Nudge
from cuttings.rules.phases import dormancy
from cuttings.rules.seasons import Frosts, frosts
from cuttings.words import Sign, Stage, either

_OF_THE_YEAR: Mapping[str, Callable[[Frosts], date | None]] = {
    "last-frost": lambda year: year.last_spring,
    "safe": lambda year: year.safe_spring,
    "workable": lambda year: year.workable,
    "first-frost": lambda year: year.first_autumn,
    "hard-freeze": lambda year: year.hard_freeze,
    "frozen-ground": lambda year: year.freeze if year.freezes else None,
}
LEAF_FALL = "leaf-fall"
SEASONS = (*_OF_THE_YEAR, LEAF_FALL)
"""Conditions that hold from a day of the garden's year on: the even-odds last frost, the day from which
tender plants are safe, and so on."""

SIGNS = tuple(sign.value for sign in Sign)
"""Conditions that hold once the keeper has written that sign of spring down."""

STAGES = tuple(
    stage.value for stage in (Stage.ROOTED, Stage.POTTED, Stage.HARDENING, Stage.READY, Stage.PLANTED)
)
"""Conditions that hold while the nudge's lot has stems at that stage."""

CONDITIONS = (*SEASONS, *SIGNS, *STAGES)


def kept(nudges: Iterable[Nudge], book: Book, climate: Climate, first: date, last: date) -> list[Nudge]:
    """The nudges of the days from ``first`` to ``last``, both included, without those put aside.

    One that was put off into the middle of these days keeps only the rest of its window; care that was given
    is not asked for before it is due again.
    """
    found = []
    for nudge in nudges:
        aside = book.put_aside.get(nudge.id)
        back = date.min if aside is None else back_on(nudge, aside, book, climate)
        if back is None or back > last or (back > first and _given(nudge, aside)):
            continue
        if back <= first:
            found.append(nudge)
        elif back <= nudge.window.closes:
            found.append(_from(nudge, back))
    return found


def _given(nudge: Nudge, aside: Aside | None) -> bool:
    """Whether it is care that was given and that nobody put off: asked for again when its day has come."""
    return aside is not None and nudge.every > 0 and aside.until is None and not aside.condition


def back_on(nudge: Nudge, aside: Aside, book: Book, climate: Climate) -> date | None:
    """The first day on which a nudge is of interest again: ``date.min`` if it is now, ``None`` as long as
    no such day is known."""
    back = date.min
    if aside.never:
        return None
    if aside.done is not None and nudge.every:
        back = aside.done + timedelta(days=nudge.every)
    elif aside.opened is not None and nudge.window.opens <= aside.opened:
        return None
    if aside.until is not None:
        return max(back, aside.until)
    if aside.condition and aside.since is not None:
        if aside.condition in SEASONS:
            return max(back, falls_on(aside.condition, aside.since, climate) or date.min)
        return back if holds(aside.condition, aside.since, nudge.lot, book) else None
    return back


def falls_on(condition: str, since: date, climate: Climate) -> date | None:
    """The first day after ``since`` on which a condition of ``SEASONS`` comes true; ``None`` where the
    ground does not freeze, if it is that. While frost may still come, the last frost is not over."""
    if condition == "last-frost":
        springs = [frosts(climate, year) for year in (since.year - 1, since.year, since.year + 1)]
        still = [each.safe_spring for each in springs if each.last_spring <= since < each.safe_spring]
        if still:
            return still[0]
    days = [_day_of(condition, year, climate) for year in range(since.year - 1, since.year + 3)]
    return min((day for day in days if day is not None and day > since), default=None)


def _day_of(condition: str, year: int, climate: Climate) -> date | None:
    if condition == LEAF_FALL:
        return dormancy(climate, year)[0]
    return _OF_THE_YEAR[condition](frosts(climate, year))


def holds(condition: str, since: date, lot: str, book: Book) -> bool:
    """Whether a sign was seen since a day, or a lot has stems at a stage or further on."""
    if condition in SIGNS:
        return any(seen.sign == condition and seen.on >= since for seen in book.signs)
    stages = list(Stage)
    further = stages[stages.index(Stage(condition)) : stages.index(Stage.LOST)]
    return lot in book.lots and any(book.lots[lot].at(stage) for stage in further)


def _from(nudge: Nudge, day: date) -> Nudge:
    """The nudge with its window from a day on, which lies in it."""
    window = nudge.window
    best = max(window.best[0], day), max(window.best[1], day)
    return evolve(nudge, window=evolve(window, opens=max(window.opens, day), best=best))


def too_late(nudge: Nudge, until: date) -> str:
    """What is wrong with putting a nudge off until a day; empty if its window is still open then."""
    closes = nudge.window.closes
    if until <= closes or nudge.every:
        return ""
    return f"its window closes on {spoken(closes, until)}; by then it is too late."


def parse_later(text: str, today: date) -> date | str:
    """A day after today, or one of ``CONDITIONS``.

    A day is whatever ``dates.day_ahead`` takes: later lies ahead.

    Raises:
        ValueError: it is neither, or the day is not after today.
    """
    words = " ".join(text.strip().casefold().split())
    condition = words.replace(" ", "-").replace("_", "-")
    if condition in CONDITIONS:
        return condition
    day = day_ahead(words, today)
    if day is None:
        raise ValueError(
            f"'{text}' is no time to come; write a day like {(today + timedelta(days=7)).isoformat()}, "
            f"tomorrow, friday, next week or +10d, or what must come first: {either(CONDITIONS)}."
        )
    if day <= today:
        raise ValueError(f"'{text}' is not later than {spoken(today, today)}; write a day after it.")
    return day
