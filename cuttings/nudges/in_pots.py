"""What stems in pots need through their growing time: water, light, feed, a bigger pot, a place."""

from collections.abc import Iterable
from datetime import date

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import between, once_ground_freezes, stakes, week_by_week
from cuttings.nudges.making import coming_round, days, now, nudge, stretch
from cuttings.nudges.model import NO_LOSS, Loss, Nudge
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Window
from cuttings.rules.aftercare import (
    FEED_SOURCE,
    FEED_WHY,
    LAST_FEED_BEFORE_FROST_WEEKS,
    first_feed_days,
    shade_days,
)
from cuttings.rules.growth import growing_days_after
from cuttings.rules.hardening import earliest_start, needs_hardening, plan, time_to_harden
from cuttings.rules.potting import POT_ON_SOURCE
from cuttings.rules.raising import FILL_POT_WEEKS
from cuttings.rules.seasons import frosts, in_summer, is_hardy, weeks
from cuttings.rules.transplant import next_planting
from cuttings.words import Stage

IN_POTS = (Stage.POTTED, Stage.HARDENING, Stage.READY)

POTS_DRY = "A pot holds little water, and young roots die when it dries through."
DRY_WEEK_SHARE, COOL_DRY_WEEK_SHARE = 0.3, 0.05
"""The share of young plants in pots that a week without water costs in summer, and in the cool weeks before
and after it; from memory."""

FEED_AGAIN_DAYS, FEED_ROUND_DAYS = 35, 28
"""Every four to six weeks (``FEED_SOURCE``): how far apart the rounds lie, and how long each may wait."""

FEED_AGAIN_WHY = (
    "Lightly, every four to six weeks while it grows, and not after late summer: soft growth freezes."
)

POT_ON_GROWING_DAYS = 84
"""Days of growth after which the roots of a young plant may have filled its pot; from memory. (Dogwood
cuttings hold a plug of ten cubic inches after fifteen weeks: Native Plant Network.)"""

POT_ON_ROUND_DAYS = 56
POT_ON_WHY = (
    "If roots circle the ball, one size larger is right: too large a pot stays wet and rots them. "
    "If they do not hold it together yet, leave it be."
)
LEAST_STAY_WEEKS = 8
"""A pot that a plant will leave for the ground within so many weeks is not changed; from memory."""

TEMPTED_WEEKS = 6
"""Weeks before planting time in which somebody with plants that are ready is told to wait; from memory."""

MISSED_SPRING_SHARE = 0.05
MISSED_AUTUMN_SHARE = 0.15
MISSED_TENDER_SHARE = 0.2
"""The share of plants lost that miss their time and stay in a pot: through a summer, through a winter, and of
tender ones that get too short a summer; from memory."""

SOON_AGAIN_WEEKS = 8
"""Where the next planting time opens within so many weeks, nothing is lost by missing one; from memory."""

AUTUMN_WITHIN_WEEKS = 12
"""A planting time that closes within so many weeks before the ground freezes is autumn's; from memory."""


def watered(known: Known, today: date) -> Iterable[Nudge]:
    """Pots in summer, when a few dry days undo a year, and in the cool weeks round it while roots of hardy
    plants grow; tender ones are looked in on under cover then."""
    if in_summer(known.climate, today):
        job, every, share = "Water {} whenever the top of the mix is dry, daily in heat", 3, DRY_WEEK_SHARE
    elif is_hardy(known.plant, known.climate) and growing_days_after(known.climate, today, 0) == today:
        job, every, share = "Feel the mix of {}, and water it if it is dry", 7, COOL_DRY_WEEK_SHARE
    else:
        return
    window = now(today, "water", POTS_DRY, COMMON_PRACTICE)
    loss = stakes(known, IN_POTS, 1.0, week_by_week(today, share), "pots dry through")
    yield nudge(known, "pots", job, window, *IN_POTS, loss=loss, every=every)


def potted(known: Known, today: date) -> Iterable[Nudge]:
    """Back into the light, feed, a bigger pot, then hardening off or planting."""
    since = known.lot.reached(Stage.POTTED) or known.lot.started_on
    yield from _shade(known, since)
    yield from _feed(known, since, today)
    planting = next_planting(known.plant, known.climate, max(today, since + weeks(FILL_POT_WEEKS)))
    needs = needs_hardening(known.plant, grown_under_cover=known.soft(today), on=today, climate=known.climate)
    if planting is not None and needs.value:
        yield _begin_hardening(known, planting, needs.why, since)
    elif planting is not None:
        yield _plant_out(known, Stage.POTTED, planting, since + weeks(FILL_POT_WEEKS))
    yield from _pot_on(known, since, planting, today)


def ready(known: Known, today: date) -> Iterable[Nudge]:
    """Into the ground while there is time; until it opens, patience."""
    planting = next_planting(known.plant, known.climate, today)
    if planting is None:
        return
    yield _plant_out(known, Stage.READY, planting, planting.opens)
    eve = planting.opens - days(1)
    if today <= eve <= today + weeks(TEMPTED_WEEKS):
        why = f"It may go out from about {spoken(planting.opens, today)}. {planting.why}"
        window = stretch(today, (today, eve), eve, "hold", why, planting.source, planting.odds)
        yield nudge(known, "hold", "Do not plant {} out yet", window, Stage.READY, not_yet=True)


def _shade(known: Known, since: date) -> Iterable[Nudge]:
    pot = known.lot.latest(e.Pot)
    since = pot.on if pot is not None else since
    advice = shade_days(known.lot.method, since, known.climate, is_hardy(known.plant, known.climate))
    shaded, why = advice.value, advice.why
    if pot is not None and pot.shade_days is not None and pot.shade_days != shaded:
        shaded, why = pot.shade_days, f"You meant it to stand in shade for {pot.shade_days} days."
    if shaded:
        end = since + days(shaded)
        window = stretch(end, (end, end + days(2)), end + days(7), "light", why, advice.source)
        yield nudge(known, "shade", "Move {} back into the light", window, Stage.POTTED)


def _feed(known: Known, since: date, today: date) -> Iterable[Nudge]:
    """The first feed, then one every few weeks until late summer."""
    first = first_feed_days(since, known.climate)
    due = since + days(first.value)
    if due + days(FEED_ROUND_DAYS) >= today:
        window = stretch(
            due,
            (due, due + days(FEED_ROUND_DAYS // 2)),
            due + days(FEED_ROUND_DAYS),
            "feed",
            FEED_WHY,
            first.source,
        )
        yield nudge(known, "feed", "Feed {} lightly, for the first time", window, Stage.POTTED)
        return
    window = coming_round(
        due + days(FEED_AGAIN_DAYS),
        today,
        "feed",
        FEED_AGAIN_WHY,
        FEED_SOURCE,
        every=FEED_AGAIN_DAYS,
        lasts=FEED_ROUND_DAYS,
    )
    if in_summer(known.climate, window.opens, before_weeks=LAST_FEED_BEFORE_FROST_WEEKS):
        yield nudge(known, "feed", "Feed {} lightly", window, Stage.POTTED, every=FEED_ROUND_DAYS)


def _pot_on(known: Known, since: date, planting: Window | None, today: date) -> Iterable[Nudge]:
    """A look whether the roots fill the pot, while there is time to fill the next one."""
    pot = known.lot.latest(e.Pot)
    filled = growing_days_after(known.climate, pot.on if pot is not None else since, POT_ON_GROWING_DAYS)
    window = coming_round(filled, today, "pot on", POT_ON_WHY, POT_ON_SOURCE, every=POT_ON_ROUND_DAYS)
    leaves_soon = planting is not None and planting.opens - window.opens <= weeks(LEAST_STAY_WEEKS)
    grows = in_summer(known.climate, window.opens, before_weeks=LAST_FEED_BEFORE_FROST_WEEKS)
    if grows and not leaves_soon:
        job = "See whether {} fill their pots; if they do, pot them on by one size"
        yield nudge(known, "pot-on", job, window, Stage.POTTED, task="pot")


def _begin_hardening(known: Known, planting: Window, needed: str, since: date) -> Nudge:
    steps = plan(known.plant, grown_under_cover=True, climate=known.climate)
    earliest = earliest_start(known.plant, known.climate, planting.opens.year)
    taken = time_to_harden(known.plant, known.climate)
    start = max(earliest.value, planting.opens - taken, since + weeks(FILL_POT_WEEKS))
    last = max(planting.closes - taken, start)
    why = f"{needed} {earliest.why}"
    window = stretch(start, (start, start + days(14)), last, "harden", why, steps.source)
    loss = of_missing_summer(known, Stage.POTTED, window.best[1], window.closes)
    job = "Begin hardening off {}"
    name = "harden-more" if known.lot.at(Stage.HARDENING) else "harden"
    return nudge(known, name, job, window, Stage.POTTED, task="harden", step="start", loss=loss)


def _plant_out(known: Known, stage: Stage, planting: Window, earliest: date) -> Nudge:
    opens = max(planting.opens, min(earliest, planting.closes))
    window = stretch(
        opens, planting.best, planting.closes, planting.what, planting.why, planting.source, planting.odds
    )
    held = known.spots_held
    where = f"on {' and '.join(held)}, where its spot is held" if held else "'cuttings spot' says where"
    job = f"Plant {{}} out {where}" if held else f"Plant {{}} out; {where}"
    loss = _of_missing(known, stage, window)
    name = "plant-more" if stage is Stage.POTTED and known.lot.at(Stage.READY) else "plant"
    return nudge(known, name, job, window, stage, task="plant", loss=loss)


def of_missing_summer(known: Known, stage: Stage, first: date, last: date) -> Loss:
    """What is lost of plants that are not planted between two days of the growing season."""
    late = between(first, last)
    if is_hardy(known.plant, known.climate):
        return stakes(known, (stage,), MISSED_SPRING_SHARE, late, "it must bear the summer in its pot")
    return stakes(known, (stage,), MISSED_TENDER_SHARE, late, "the summer left is too short")


def _of_missing(known: Known, stage: Stage, planting: Window) -> Loss:
    """What is lost of plants that miss a planting time and stay in their pots."""
    autumn = frosts(known.climate, planting.closes.year)
    following = next_planting(known.plant, known.climate, planting.closes + days(1))
    if following is not None and following.opens - planting.closes <= weeks(SOON_AGAIN_WEEKS):
        return NO_LOSS
    lead = autumn.freeze - planting.closes
    hardy = is_hardy(known.plant, known.climate)
    if hardy and autumn.freezes and days(0) <= lead <= weeks(AUTUMN_WITHIN_WEEKS):
        freezes = once_ground_freezes(known.climate, lead)
        return stakes(known, (stage,), MISSED_AUTUMN_SHARE, freezes, "the ground freezes before it roots")
    return of_missing_summer(known, stage, planting.best[1], planting.closes)
