"""What each lot needs, by the stages its stems stand at.

Every rule below answers with nudges that carry their whole window, whether it is now or later; the week
keeps those that touch its days, and a card shows the one that comes first.
"""

from collections.abc import Callable, Iterable
from datetime import date, timedelta

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.nudges.knowledge import Known
from cuttings.nudges.model import Nudge
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.rules.advice import Window
from cuttings.rules.aftercare import first_feed_days, shade_days
from cuttings.rules.hardening import HardeningDay, earliest_start, needs_hardening, plan, progress
from cuttings.rules.layering import sever_window
from cuttings.rules.looking import how_to_look
from cuttings.rules.potting import ready_to_pot
from cuttings.rules.seasons import frosts, in_summer, is_hardy, weeks
from cuttings.rules.transplant import next_planting
from cuttings.words import Stage

MINUTES = {
    "check": 5,
    "pot": 6,
    "harden": 5,
    "plant": 20,
    "water": 5,
    "air": 3,
    "shade": 3,
    "feed": 5,
    "winter": 30,
}
"""Minutes that a job takes for one lot, and for potting and planting one stem; from memory."""

FIRST_LOOK_WEEKS = 4
"""When to look at a lot for which no rooting time is known; from memory."""

UNTIL_POTTED_WEEKS = 6
"""How long rooted cuttings and found layers may wait for their pots; from memory."""

PIECES_DRY_DAYS = 14
"""How long divided pieces may lie, kept moist, before they are potted or planted; from memory."""

FILL_POT_WEEKS = 4
"""Weeks in the pot before the roots hold the ball together for the next move; from memory."""

WINTERED_DAYS = 180
"""Days in the pot after which a hardy plant has stood through a winter; from memory."""

WATER_WEEKS = 12
WATER_SOURCE = "University of Minnesota Extension: Watering newly planted trees and shrubs"
"""Daily for a fortnight, then every two or three days to the twelfth week (``WATER_SOURCE``)."""

WINTER_SOURCE = (
    "Iowa State University Extension: How can I over-winter unplanted perennials still in their containers"
)
"""Potted plants are sunk once dormant but before the soil freezes (``WINTER_SOURCE``)."""


def nudges_for(known: Known, today: date) -> list[Nudge]:
    """Everything one lot needs from today on, each with its window; windows that have closed are left out."""
    lot = known.lot
    found = [
        nudge
        for stage, rule in _RULES
        if lot.at(stage)
        for nudge in rule(known, today)
        if nudge.window.closes >= today
    ]
    return sorted(found, key=lambda nudge: (max(nudge.window.opens, today), nudge.window.closes, nudge.id))


def next_for(known: Known, today: date) -> Nudge | None:
    """The first thing that a lot needs that the ledger will hear of, or failing that the first at all."""
    found = nudges_for(known, today)
    return next((nudge for nudge in found if nudge.task), found[0] if found else None)


def _nudge(known: Known, name: str, job: str, window: Window, stage: Stage, task: str = "") -> Nudge:
    stems = known.lot.at(stage)
    each = MINUTES[name] * (stems if name in ("pot", "plant") else 1)
    return Nudge(
        id=f"{known.lot.code}:{name}",
        job=job,
        name=f"{known.lot.code} {known.lot.plant_called}",
        window=window,
        lot=known.lot.code,
        stems=stems,
        minutes=each,
        task=task,
    )


def _stretch(opens: date, best: tuple[date, date], closes: date, what: str, why: str, source: str) -> Window:
    closes = max(closes, opens)
    first = min(max(best[0], opens), closes)
    return Window(what=what, opens=opens, best=(first, min(max(best[1], first), closes)), closes=closes,
                  why=why, source=source)  # fmt: skip


def _days(number: int) -> timedelta:
    return timedelta(days=number)


def _waiting(known: Known, today: date) -> Iterable[Nudge]:
    lot = known.lot
    rooting = known.forecast()
    look = how_to_look(lot.method)
    if rooting is None:
        opens = max([lot.started_on, *(check.on for check in lot.of_kind(e.Check))]) + weeks(FIRST_LOOK_WEEKS)
        why = f"No rooting time is known for it, so look every few weeks. {look}"
        window = _stretch(max(opens, today), (opens, opens + _days(14)), max(opens, today) + _days(28),
                          "look for roots", why, FROM_MEMORY)  # fmt: skip
        yield _nudge(known, "check", "Look for roots on {}", window, Stage.WAITING, task="check")
    elif today <= rooting.give_up:
        first = rooting.next_look
        best = (first, first + _days(14))
        window = _stretch(
            first, best, rooting.give_up, "look for roots", f"{rooting.why} {look}", rooting.source
        )
        yield _nudge(known, "check", "Look for roots on {}", window, Stage.WAITING, task="check")
    else:
        why = (
            f"It should have rooted by {spoken(rooting.p90, today)}, and the last day worth waiting for was "
            f"{spoken(rooting.give_up, today)}. Look once more, then write it off."
        )
        window = _stretch(rooting.give_up, (today, today + _days(14)), today + _days(28), "give up", why,
                          rooting.source)  # fmt: skip
        yield _nudge(known, "check", "Give up {}, or find roots", window, Stage.WAITING, task="check")
    if lot.method.is_cutting and known.under_cover:
        why = "Cuttings without roots live on the water in the air round them, and rot starts on a dead leaf."
        window = _stretch(today, (today, today + _days(3)), today + _days(6), "care", why, COMMON_PRACTICE)
        what = "Air {}, pick off dead leaves, keep the mix just moist"
        yield _nudge(known, "air", what, window, Stage.WAITING)


def _rooted(known: Known, today: date) -> Iterable[Nudge]:
    lot = known.lot
    since = lot.reached(Stage.ROOTED) or lot.started_on
    if lot.method.starts_rooted:
        why = "Cut roots dry fast; keep them moist and shaded until they are in soil again."
        window = _stretch(
            since, (since, since + _days(2)), since + _days(PIECES_DRY_DAYS), "pot", why, COMMON_PRACTICE
        )
        if today > window.closes:
            window = _stretch(
                since, (today, today), today + _days(7), "pot", f"It is overdue. {why}", COMMON_PRACTICE
            )
        yield _nudge(
            known,
            "pot",
            "Pot the pieces of {}, or plant them",
            window,
            Stage.ROOTED,
            task="pot",
        )
        return
    if isinstance(lot.entries[0], e.Layer):
        window = sever_window(lot.method, lot.started_on, known.climate)
        if today <= window.closes:
            what = "Cut {} from its mother and pot it"
            yield _nudge(known, "pot", what, window, Stage.ROOTED, task="pot")
            return
    checks = [check.root_length_m for check in lot.of_kind(e.Check) if check.root_length_m is not None]
    ready = ready_to_pot(checks[-1] if checks else None, lot.method, known.units)
    short = bool(checks) and not ready.value
    opens = since + _days(14) if short else since
    closes = max(opens + weeks(UNTIL_POTTED_WEEKS), today + _days(7))
    window = _stretch(opens, (opens, opens + _days(21)), closes, "pot", ready.why, ready.source)
    job = "Look at the roots of {} again, and pot if they are long enough" if short else "Pot {}"
    yield _nudge(known, "pot", job, window, Stage.ROOTED, task="pot")


def _potted(known: Known, today: date) -> Iterable[Nudge]:
    lot = known.lot
    since = lot.reached(Stage.POTTED) or lot.started_on
    pot = lot.latest(e.Pot)
    yield from _shade(known, since, pot)
    feed = first_feed_days(since, known.climate)
    due = since + _days(feed.value)
    window = _stretch(due, (due, due + _days(14)), due + _days(28), "feed", feed.why, feed.source)
    yield _nudge(known, "feed", "Feed {} lightly, for the first time", window, Stage.POTTED)
    planting = next_planting(known.plant, known.climate, max(today, since + weeks(FILL_POT_WEEKS)))
    needs = needs_hardening(known.plant, grown_under_cover=_soft(known, since, today), on=today,
                            climate=known.climate)  # fmt: skip
    if planting is not None and needs.value:
        steps = plan(known.plant, grown_under_cover=True, climate=known.climate)
        first = earliest_start(known.plant, known.climate, planting.opens.year)
        start = max(first.value, planting.opens - _days(len(steps.days)), since + weeks(FILL_POT_WEEKS))
        last = max(planting.closes - _days(len(steps.days)), start)
        window = _stretch(
            start, (start, start + _days(14)), last, "harden", f"{needs.why} {first.why}", steps.source
        )
        yield _nudge(known, "harden", "Begin hardening off {}", window, Stage.POTTED, task="harden")
    elif planting is not None:
        yield from _plant_out(known, Stage.POTTED, planting, since + weeks(FILL_POT_WEEKS))
    yield from _winter(known, Stage.POTTED, planting, today)


def _soft(known: Known, since: date, today: date) -> bool:
    """Whether it still has the soft growth of its cover: a hardy plant no more, once it has stood out through
    a winter; a tender one spends that winter under cover too."""
    wintered = (today - since).days >= WINTERED_DAYS
    return known.under_cover and not (wintered and is_hardy(known.plant, known.climate))


def _shade(known: Known, since: date, pot: e.Pot | None) -> Iterable[Nudge]:
    advice = shade_days(known.lot.method, since, known.climate, is_hardy(known.plant, known.climate))
    days, why = advice.value, advice.why
    if pot is not None and pot.shade_days is not None and pot.shade_days != days:
        days, why = pot.shade_days, f"You meant it to stand in shade for {pot.shade_days} days."
    if not days:
        return
    end = since + _days(days)
    window = _stretch(end, (end, end + _days(2)), end + _days(7), "light", why, advice.source)
    yield _nudge(known, "shade", "Move {} back into the light", window, Stage.POTTED)


def _plant_out(known: Known, stage: Stage, planting: Window, earliest: date) -> Iterable[Nudge]:
    opens = max(planting.opens, min(earliest, planting.closes))
    window = _stretch(opens, planting.best, planting.closes, planting.what, planting.why, planting.source)
    what = "Plant {} out; 'cuttings spot LOT' says where"
    yield _nudge(known, "plant", what, window, stage, task="plant")


def _winter(known: Known, stage: Stage, planting: Window | None, today: date) -> Iterable[Nudge]:
    """Pots that will not be planted before the ground freezes need their roots kept from the worst cold."""
    autumn = frosts(known.climate, today.year)
    if planting is not None and planting.opens < autumn.freeze and planting.closes >= autumn.first_autumn:
        return
    hardy = is_hardy(known.plant, known.climate)
    opens = autumn.first_autumn - (weeks(0) if hardy else weeks(3))
    closes = autumn.freeze if hardy else autumn.first_autumn
    best = (opens + weeks(2), closes - weeks(1)) if hardy else (opens, closes - weeks(1))
    what = (
        "Sink the pots of {} in soil, or group them in a cold frame"
        if hardy
        else "Bring {} indoors for the winter"
    )
    why = autumn.said(
        "Roots in a pot above the ground meet far more cold than roots in the ground."
        if hardy
        else "It does not stand frost."
    )
    window = _stretch(opens, best, closes, "winter", why, WINTER_SOURCE if hardy else COMMON_PRACTICE)
    yield _nudge(known, "winter", what, window, stage)


def _hardening(known: Known, today: date) -> Iterable[Nudge]:
    lot = known.lot
    steps = plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)
    where = progress(steps, lot.hardening_days[0])
    if where.next_day is None:
        why = f"All {len(steps.days)} days of its plan are done."
        window = _stretch(today, (today, today + _days(3)), today + _days(14), "finish", why, steps.source)
        yield _nudge(known, "harden", "Finish hardening off {}", window, Stage.HARDENING, task="harden")
        return
    window = _stretch(today, (today, today + _days(where.left - 1)), today + _days(where.left + 6), "harden",
                      f"{steps.why} {where.next_day.note}", steps.source)  # fmt: skip
    what = f"Harden {{}}, day {where.next_day.number} of {len(steps.days)}: {_outing(where.next_day)}"
    yield _nudge(known, "harden", what, window, Stage.HARDENING, task="harden")


def _outing(day: HardeningDay) -> str:
    return f"{'day and night' if day.hours_out >= 24 else f'{day.hours_out:g} hours'} out, {day.shade}"


def _ready(known: Known, today: date) -> Iterable[Nudge]:
    planting = next_planting(known.plant, known.climate, today)
    if planting is not None:
        yield from _plant_out(known, Stage.READY, planting, planting.opens)
    yield from _winter(known, Stage.READY, planting, today)


def _planted(known: Known, today: date) -> Iterable[Nudge]:
    since = known.lot.reached(Stage.PLANTED)
    if since is None or today > since + weeks(WATER_WEEKS) or not in_summer(known.climate, today):
        return
    daily = today <= since + weeks(2)
    how = "every day" if daily else "every two or three days"
    why = f"Planted {spoken(since, today)}, it has few roots outside its old ball until its twelfth week."
    window = _stretch(
        since, (today, today + _days(6)), since + weeks(WATER_WEEKS), "water", why, WATER_SOURCE
    )
    what = f"Water {{}} {how} unless it rains"
    yield _nudge(known, "water", what, window, Stage.PLANTED)


_RULES: tuple[tuple[Stage, Callable[[Known, date], Iterable[Nudge]]], ...] = (
    (Stage.WAITING, _waiting),
    (Stage.ROOTED, _rooted),
    (Stage.POTTED, _potted),
    (Stage.HARDENING, _hardening),
    (Stage.READY, _ready),
    (Stage.PLANTED, _planted),
)
