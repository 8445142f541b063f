"""The days of hardening off, one after another, to its end."""

from collections.abc import Iterable
from datetime import date

from cuttings.dates import spoken
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.nudges.in_pots import of_missing_summer
from cuttings.nudges.knowledge import Known
from cuttings.nudges.loss import once_frost_comes, stakes
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Window
from cuttings.rules.hardening import DayState, HardeningDay, LoggedDay, plan, schedule, steps_done
from cuttings.rules.seasons import frosts, is_hardy
from cuttings.rules.transplant import next_planting
from cuttings.units import show_temperature
from cuttings.words import Stage

MOST_WAIT_DAYS = 28
"""Days for which a hardened plant may wait outside to be planted; from memory."""


def hardening(known: Known, today: date) -> Iterable[Nudge]:
    """The next day of the plan, or its end."""
    steps = plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)
    started, log = hardening_log(known.lot)
    dated = schedule(steps, started, log, today)
    coming = [day for day in dated if day.state in (DayState.NOW, DayState.TO_COME)]
    if not coming:
        why = f"All {len(steps.days)} days of its plan are done."
        window = stretch(today, (today, today + days(3)), today + days(14), "finish", why, steps.source)
        job = "Finish hardening off {}"
        yield nudge(known, "harden", job, window, Stage.HARDENING, task="harden", step="finish")
        return
    planting = next_planting(known.plant, known.climate, coming[-1].on)
    if planting is not None and waits_too_long(planting, coming[-1].on):
        yield _too_late_to_harden(known, planting, today)
        return
    (first, step), last = (coming[0].on, coming[0].step), coming[-1].on
    night, day_least = (show_temperature(c, known.units) for c in (steps.night_min_c, steps.day_min_c))
    limit = f"The night's limit is {night}." if step.overnight else f"It stays in on a day below {day_least}."
    why = f"{steps.why} {step.note} {limit}"
    window = stretch(first, (first, last), last + days(7), "harden", why, steps.source)
    job = f"Harden {{}}, day {step.number} of {len(steps.days)}: {_outing(step)}"
    closes = last if planting is None else max(planting.closes, last)
    loss = of_missing_summer(known, Stage.HARDENING, last, closes)
    yield nudge(
        known, "harden", job, window, Stage.HARDENING, task="harden", step="day-done", loss=loss, every=1
    )


def _too_late_to_harden(known: Known, planting: Window, today: date) -> Nudge:
    """Hardening off that would end long before planting is put off, and what is out comes in."""
    opens = spoken(planting.opens, today)
    why = f"The next good time to plant it out opens about {opens}, long after the plan's end."
    again = known.lot.code
    window = stretch(today, (today, today + days(6)), today + days(13), "harden", why, COMMON_PRACTICE)
    job = f"Bring {{}} back under cover; 'cuttings harden {again} --start' begins again in spring"
    share = 0.0 if is_hardy(known.plant, known.climate) else 1.0
    frost = once_frost_comes(known.climate, frosts(known.climate, today.year).first_autumn)
    loss = stakes(known, (Stage.HARDENING,), share, frost, "frost comes")
    return nudge(known, "harden", job, window, Stage.HARDENING, loss=loss, every=28)


def hardening_log(lot: Lot) -> tuple[date, tuple[LoggedDay, ...]]:
    """The day a lot's hardening off was last begun, and the days logged since."""
    started, log = lot.reached(Stage.HARDENING) or lot.started_on, list[LoggedDay]()
    for entry in lot.of_kind(e.Harden):
        if entry.step == "start" or entry.moves:
            started, log = entry.on, []
        else:
            log.append(LoggedDay(entry.on, entry.step == "day-done", entry.reason, entry.night_low_c))
    return started, tuple(log)


def out_at_night(known: Known) -> bool:
    """Whether stems that are being hardened off are to stand out for the night by their plan, or have been
    through it all."""
    steps = plan(known.plant, grown_under_cover=known.under_cover, climate=known.climate)
    done = steps_done(steps, hardening_log(known.lot)[1])
    return done == len(steps.days) or steps.days[done].overnight


def waits_too_long(planting: Window, ready: date) -> bool:
    """Whether what is hardened off by a day would have to come in again before it may be planted."""
    return planting.opens - ready > days(MOST_WAIT_DAYS)


def _outing(day: HardeningDay) -> str:
    hours = "day and night" if day.overnight else f"{day.hours_out:g} hours"
    return f"{hours} out, {day.shade}, {day.wind}"
