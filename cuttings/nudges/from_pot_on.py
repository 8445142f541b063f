"""What stems need from the pot on: light, feed, hardening off, a place, winter cover, then water."""

from collections.abc import Iterable
from datetime import date

from cuttings.climate.frost import FROST_F
from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.nudges.knowledge import Known
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Window
from cuttings.rules.aftercare import FEED_WHY, first_feed_days, shade_days
from cuttings.rules.hardening import (
    DayState,
    HardeningDay,
    LoggedDay,
    earliest_start,
    needs_hardening,
    plan,
    schedule,
    time_to_harden,
)
from cuttings.rules.odds import chance_of_freeze_already, chance_of_frozen_ground
from cuttings.rules.seasons import frosts, in_summer, is_hardy, weeks
from cuttings.rules.transplant import next_planting
from cuttings.units import show_temperature
from cuttings.words import PlantType, Stage

FILL_POT_WEEKS = 4
"""Weeks in the pot before the roots hold the ball together for the next move; from memory."""

WATER_WEEKS = 12
WATER_SOURCE = "University of Minnesota Extension: Watering newly planted trees and shrubs"
"""Daily for a fortnight, then every two or three days to the twelfth week (``WATER_SOURCE``)."""

WINTER_SOURCE = (
    "Iowa State University Extension: How can I over-winter unplanted perennials still in their containers"
)
"""Potted plants are sunk once dormant but before the soil freezes (``WINTER_SOURCE``)."""

POTS_DRY = "A pot holds little water, and young roots die when it dries through."

TENDER_IN_WEEKS = 3
"""Weeks before the average first frost when tender plants begin to come in; from memory."""

MOST_WAIT_DAYS = 28
"""Days for which a hardened plant may wait outside to be planted; from memory."""

LATE_WEEKS = 3
"""Weeks for which a missed winter job is still asked after; from memory."""


def potted(known: Known, today: date) -> Iterable[Nudge]:
    """Back into the light, the first feed, then hardening off or planting, and cover for the winter."""
    lot = known.lot
    since = lot.reached(Stage.POTTED) or lot.started_on
    yield from _water_pots(known, Stage.POTTED, today)
    yield from _shade(known, since)
    yield from _feed(known, since)
    planting = next_planting(known.plant, known.climate, max(today, since + weeks(FILL_POT_WEEKS)))
    needs = needs_hardening(known.plant, grown_under_cover=known.soft(today), on=today, climate=known.climate)
    if planting is not None and needs.value:
        yield _begin_hardening(known, planting, needs.why, since)
    elif planting is not None:
        yield _plant_out(known, Stage.POTTED, planting, since + weeks(FILL_POT_WEEKS))
    yield from _winter(known, Stage.POTTED, planting, today)


def hardening(known: Known, today: date) -> Iterable[Nudge]:
    """The next day of the plan, or its end."""
    lot = known.lot
    yield from _water_pots(known, Stage.HARDENING, today)
    steps = plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)
    started, log = hardening_log(lot)
    dated = schedule(steps, started, log, today)
    coming = [day for day in dated if day.state in (DayState.NOW, DayState.TO_COME)]
    if not coming:
        why = f"All {len(steps.days)} days of its plan are done."
        window = stretch(today, (today, today + days(3)), today + days(14), "finish", why, steps.source)
        yield nudge(known, "harden", "Finish hardening off {}", window, Stage.HARDENING, task="harden")
        return
    planting = next_planting(known.plant, known.climate, coming[-1].on)
    if planting is not None and waits_too_long(planting, coming[-1].on):
        yield _too_late_to_harden(known, planting, today)
        yield from _winter(known, Stage.HARDENING, planting, today)
        return
    (first, step), last = (coming[0].on, coming[0].step), coming[-1].on
    night, day_least = (show_temperature(c, known.units) for c in (steps.night_min_c, steps.day_min_c))
    limit = f"The night's limit is {night}." if step.overnight else f"It stays in on a day below {day_least}."
    why = f"{steps.why} {step.note} {limit}"
    window = stretch(first, (first, last), last + days(7), "harden", why, steps.source)
    job = f"Harden {{}}, day {step.number} of {len(steps.days)}: {_outing(step)}"
    yield nudge(known, "harden", job, window, Stage.HARDENING, task="harden")


def _too_late_to_harden(known: Known, planting: Window, today: date) -> Nudge:
    """Hardening off that would end long before planting is put off, and what is out comes in."""
    opens = spoken(planting.opens, today)
    why = f"The next good time to plant it out opens about {opens}, long after the plan's end."
    again = known.lot.code
    window = stretch(today, (today, today + days(6)), today + days(13), "harden", why, COMMON_PRACTICE)
    job = f"Bring {{}} back under cover; 'cuttings harden {again} --start' begins again in spring"
    return nudge(known, "harden", job, window, Stage.HARDENING, task="harden")


def hardening_log(lot: Lot) -> tuple[date, tuple[LoggedDay, ...]]:
    """The day a lot's hardening off was last begun, and the days logged since."""
    started, log = lot.reached(Stage.HARDENING) or lot.started_on, list[LoggedDay]()
    for entry in lot.of_kind(e.Harden):
        if entry.step == "start" or entry.moves:
            started, log = entry.on, []
        else:
            log.append(LoggedDay(entry.on, entry.step == "day-done", entry.reason, entry.night_low_c))
    return started, tuple(log)


def ready(known: Known, today: date) -> Iterable[Nudge]:
    """Into the ground while there is time, or under cover for the winter."""
    yield from _water_pots(known, Stage.READY, today)
    planting = next_planting(known.plant, known.climate, today)
    if planting is not None:
        yield _plant_out(known, Stage.READY, planting, planting.opens)
    yield from _winter(known, Stage.READY, planting, today)


def planted(known: Known, today: date) -> Iterable[Nudge]:
    """Water in the first season."""
    since = known.lot.reached(Stage.PLANTED)
    if known.plant.type is PlantType.BULB:
        return  # water in summer rots a resting bulb
    if since is None or today > since + weeks(WATER_WEEKS) or not in_summer(known.climate, today):
        return
    how = "every day" if today <= since + weeks(2) else "every two or three days"
    why = f"Planted {spoken(since, today)}, it has few roots outside its old ball until its twelfth week."
    ends = min([since + weeks(WATER_WEEKS), *_freezes_after(known, since)])
    window = stretch(since, (today, today + days(6)), ends, "water", why, WATER_SOURCE)
    yield nudge(known, "water", f"Water {{}} {how} unless it rains", window, Stage.PLANTED)


def _freezes_after(known: Known, day: date) -> list[date]:
    """The days on which the ground freezes after a day, where it does; watering ends there."""
    autumns = (frosts(known.climate, year) for year in (day.year, day.year + 1))
    return [autumn.freeze for autumn in autumns if autumn.freezes and autumn.freeze > day]


def _water_pots(known: Known, stage: Stage, today: date) -> Iterable[Nudge]:
    """Pots in summer, when a few dry days undo a year."""
    if in_summer(known.climate, today):
        window = stretch(today, (today, today), today + days(6), "water", POTS_DRY, COMMON_PRACTICE)
        job = "Water {} whenever the top of the mix is dry, daily in heat"
        yield nudge(known, "pots", job, window, stage, stake=0)


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


def _feed(known: Known, since: date) -> Iterable[Nudge]:
    feed = first_feed_days(since, known.climate)
    due = since + days(feed.value)
    window = stretch(due, (due, due + days(14)), due + days(28), "feed", FEED_WHY, feed.source)
    yield nudge(known, "feed", "Feed {} lightly, for the first time", window, Stage.POTTED, stake=0)


def waits_too_long(planting: Window, ready: date) -> bool:
    """Whether what is hardened off by a day would have to come in again before it may be planted."""
    return planting.opens - ready > days(MOST_WAIT_DAYS)


def _begin_hardening(known: Known, planting: Window, needed: str, since: date) -> Nudge:
    steps = plan(known.plant, grown_under_cover=True, climate=known.climate)
    earliest = earliest_start(known.plant, known.climate, planting.opens.year)
    taken = time_to_harden(known.plant, known.climate)
    start = max(earliest.value, planting.opens - taken, since + weeks(FILL_POT_WEEKS))
    last = max(planting.closes - taken, start)
    why = f"{needed} {earliest.why}"
    window = stretch(start, (start, start + days(14)), last, "harden", why, steps.source)
    return nudge(known, "harden", "Begin hardening off {}", window, Stage.POTTED, task="harden")


def _plant_out(known: Known, stage: Stage, planting: Window, earliest: date) -> Nudge:
    opens = max(planting.opens, min(earliest, planting.closes))
    window = stretch(
        opens, planting.best, planting.closes, planting.what, planting.why, planting.source, planting.odds
    )
    return nudge(known, "plant", "Plant {} out; 'cuttings spot' says where", window, stage, task="plant")


def _winter(known: Known, stage: Stage, planting: Window | None, today: date) -> Iterable[Nudge]:
    """Pots that will not be planted before the ground freezes need their roots kept from the worst cold."""
    autumn = frosts(known.climate, today.year)
    hardy = is_hardy(known.plant, known.climate)
    if autumn.frostless or (hardy and not autumn.freezes):
        return
    if planting is not None and planting.opens < autumn.freeze and planting.closes >= autumn.first_autumn:
        return
    if hardy:
        job = "Sink the pots of {} in soil, or group them in a cold frame"
        why = "Roots in a pot above the ground meet far more cold than roots in the ground."
        opens, closes, source = autumn.first_autumn, autumn.freeze, WINTER_SOURCE
        best = (opens + weeks(2), closes - weeks(1))
    else:
        job, why = "Bring {} indoors for the winter", "It does not stand frost."
        closes, source = autumn.first_autumn, COMMON_PRACTICE
        opens = closes - weeks(TENDER_IN_WEEKS)
        best = (opens, closes - weeks(1))
    if closes < today <= closes + weeks(LATE_WEEKS):
        job, why = "Keep {} under cover from now on", f"{why} The time to see to it has just passed."
        opens, best, closes = closes, (closes, closes + weeks(1)), closes + weeks(LATE_WEEKS)
    spoiled = (
        chance_of_frozen_ground(known.climate, best[0])
        if hardy
        else chance_of_freeze_already(known.climate, best[0], FROST_F)
    )
    window = stretch(opens, best, closes, "winter", autumn.said(why), source, spoiled)
    yield nudge(known, "winter", job, window, stage)


def _outing(day: HardeningDay) -> str:
    hours = "day and night" if day.overnight else f"{day.hours_out:g} hours"
    return f"{hours} out, {day.shade}, {day.wind}"
