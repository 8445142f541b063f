"""Hardening off: getting plants raised under cover used to sun, wind and cold, a day at a time."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant
from cuttings.rules.advice import Advice
from cuttings.rules.seasons import frosts, in_summer, is_hardy, summer
from cuttings.units import fahrenheit_to_celsius

PENN_STATE = "Penn State Extension: Hardening Transplants"
"""First outings of two to three hours, shaded and sheltered, and not before it is 45 to 50 F,
https://extension.psu.edu/hardening-transplants"""

MINNESOTA = (
    "University of Minnesota Extension Master Gardeners (Bemidji Pioneer): Hardening off isn't hard at all"
)
"""Three to four hours in shade to begin with; after about a week out overnight when nights are near 50 F,
https://www.bemidjipioneer.com/news/4040064-master-gardeners-hardening-isnt-hard-all"""

CALIFORNIA = "UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants"
"""At least two weeks; tender seedlings never out below 45 F,
https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants"""

HENNEPIN = "Hennepin County Master Gardeners (UMN): Start hardening off your vegetables now"
"""Warm crops react badly below 45 F,
https://hennepinmastergardeners.org/2014/05/start-hardening-off-your-vegetables-now/"""

DAY_MIN_C = fahrenheit_to_celsius(45.0)
"""No outing on a day colder than this, degrees Celsius (``PENN_STATE``, ``CALIFORNIA``)."""

TENDER_NIGHT_MIN_C = fahrenheit_to_celsius(50.0)
"""Tender plants stay out only on nights at least this warm, degrees Celsius (``MINNESOTA``)."""

HARDY_NIGHT_MIN_C = fahrenheit_to_celsius(35.0)
"""Hardy plants still soft from cover stay out on nights clear of frost; the 35 F is from memory, after
``CALIFORNIA``, which keeps even hardy ones from freezing before they are hardened."""

TENDER_CHILL_C = fahrenheit_to_celsius(45.0)
"""A night out below this harms tender plants, degrees Celsius (``CALIFORNIA``, ``HENNEPIN``)."""

TENDER_DAYS = 14
HARDY_DAYS = 10
TOUGH_DAYS = 7
"""Days for tender plants (``CALIFORNIA``), hardy ones from under cover, and ones that stood outside in
shelter; a week to a fortnight is common practice. ``CALIFORNIA`` asks two weeks of every transplant."""

HOURS_OUT = (2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
"""Hours outside on the first seven days: two to four at first (``PENN_STATE``, ``MINNESOTA``), then more."""

TOUGH_HOURS_OUT = (2.0, 3.0, 4.0, 6.0, 10.0)
"""The same for plants that are nearly hard, from memory."""

OVERNIGHT_HOURS = 24.0

WATER_FIRST = "water it first"
WATER_LESS = "a little less often, never to wilting"
"""Water before the first outing (common practice), then less often, but never to the point of wilting
(University of Maryland Extension: Hardening Vegetable Seedlings for the Home Garden,
https://extension.umd.edu/resource/hardening-vegetable-seedlings-home-garden)."""


@frozen
class HardeningDay:
    """One step, done on one day: hours outside (24 is day and night), light, wind, water, a word on it."""

    number: int
    hours_out: float
    shade: str
    wind: str
    water: str
    note: str

    @property
    def overnight(self) -> bool:
        """Whether the plants stay out for the night that follows the day."""
        return self.hours_out >= OVERNIGHT_HOURS


@frozen
class HardeningPlan:
    """The steps in order. No outing below ``day_min_c``, no night out below ``night_min_c`` (°C).

    A night out below ``chill_c`` sets tender plants back by a step more; ``None`` where none does.
    """

    days: tuple[HardeningDay, ...]
    night_min_c: float
    day_min_c: float
    why: str
    source: str
    chill_c: float | None = None


class DayState(StrEnum):
    """How a day of the plan stands."""

    DONE = "done"
    MISSED = "missed"
    NOW = "now"
    TO_COME = "to-come"


@frozen
class LoggedDay:
    """A day and the night after it, as the keeper wrote it down. ``night_low_c`` is ``None`` where nobody
    said how cold the night was (°C)."""

    on: date
    done: bool
    reason: str = ""
    night_low_c: float | None = None


@frozen
class DatedDay:
    """A step with the day it was done, was missed, or is to be done; ``reason`` says why it was missed."""

    on: date
    step: HardeningDay
    state: DayState
    reason: str = ""


@frozen
class Progress:
    """Where a lot stands in its plan: the step to do next, ``None`` when all are done."""

    next_day: HardeningDay | None
    done: int
    left: int


def needs_hardening(plant: Plant, *, grown_under_cover: bool, on: date, climate: Climate) -> Advice[bool]:
    """Whether a potted plant must be hardened off before it is planted out on a day."""
    if grown_under_cover:
        return Advice(True, "It grew under cover and knows no sun, wind or cold.", COMMON_PRACTICE)
    if not is_hardy(plant, climate):
        return Advice(False, "It has stood outside and is used to sun and wind.", COMMON_PRACTICE)
    if in_summer(climate, on):
        return Advice(False, "It is hardy and has stood outside already.", COMMON_PRACTICE)
    why = "It is hardy, at rest, and has stood outside: there is nothing soft to harden."
    return Advice(False, why, COMMON_PRACTICE)


@lru_cache(maxsize=1024)
def plan(plant: Plant, *, grown_under_cover: bool, climate: Climate) -> HardeningPlan:
    """The steps to harden a plant off: 7 to 14, the softer the plant the more.

    A step counts when it has been done. A day missed, for cold, wind or want of time, repeats its step
    the next day and never skips ahead.
    """
    tender = not is_hardy(plant, climate)
    if not grown_under_cover:
        why = "It stood outside in shelter; a week is enough."
        return _plan(TOUGH_DAYS, TOUGH_HOURS_OUT, tender, why, COMMON_PRACTICE)
    if tender:
        why = "It is tender and soft, so it takes two weeks."
        return _plan(TENDER_DAYS, HOURS_OUT, tender, why, f"{CALIFORNIA}; {PENN_STATE}; {MINNESOTA}")
    why = "It is hardy but soft from its cover; ten days will do."
    return _plan(HARDY_DAYS, HOURS_OUT, tender, why, f"{PENN_STATE}; {MINNESOTA}")


def _plan(count: int, hours: tuple[float, ...], tender: bool, why: str, source: str) -> HardeningPlan:
    out = hours + (OVERNIGHT_HOURS,) * (count - len(hours))
    days = tuple(
        HardeningDay(
            number,
            each,
            *_shade_and_wind(number, count),
            WATER_FIRST if number == 1 else WATER_LESS,
            _note(number, each, count),
        )
        for number, each in enumerate(out, start=1)
    )
    night_min_c = TENDER_NIGHT_MIN_C if tender else HARDY_NIGHT_MIN_C
    return HardeningPlan(days, night_min_c, DAY_MIN_C, why, source, TENDER_CHILL_C if tender else None)


def _shade_and_wind(number: int, count: int) -> tuple[str, str]:
    """Full shade and shelter for three days, some of both to the middle of the plan (common practice)."""
    if number <= 3:
        return "full shade", "sheltered"
    if number <= count // 2 + 1:
        return "early sun, then shade", "light breeze"
    return "the light of its new place", "open"


def _note(number: int, hours_out: float, count: int) -> str:
    if number == count:
        return "After this day it is ready to plant."
    if hours_out >= OVERNIGHT_HOURS:
        return "Out day and night; bring it in if the night falls below the limit."
    if number == 1:
        return "Water it first. Pick a still, mild day."
    return "Water a little less often, but never let it wilt. Bring it in at night."


def progress(plan: HardeningPlan, days_done: int) -> Progress:
    """Where a lot stands after so many steps done; missed days are simply not counted.

    Raises:
        ValueError: ``days_done`` is negative.
    """
    if days_done < 0:
        raise ValueError("Days done cannot be fewer than none.")
    done = min(days_done, len(plan.days))
    following = plan.days[done] if done < len(plan.days) else None
    return Progress(following, done, len(plan.days) - done)


def after_night(plan: HardeningPlan, step: HardeningDay, low_c: float) -> Advice[int]:
    """How many steps a night's low (°C) after a step undoes: none, the step itself, or the one before too."""
    if low_c >= plan.night_min_c:
        return Advice(0, "The night kept above the limit, so the day counts.", plan.source)
    if not step.overnight:
        return Advice(
            0, "They were to come in for the night, so the cold did not reach them.", COMMON_PRACTICE
        )
    if plan.chill_c is not None and low_c < plan.chill_c:
        why = (
            f"A night that cold harms tender plants: look them over, then go back to day "
            f"{max(step.number - 1, 1)}. Going back is a rule {FROM_MEMORY}."
        )
        return Advice(2, why, f"{CALIFORNIA}; {HENNEPIN}; {FROM_MEMORY}")
    why = (
        f"The night was too cold to be out, so day {step.number} is done again. That is a rule {FROM_MEMORY}."
    )
    return Advice(1, why, FROM_MEMORY)


def night_of(plan: HardeningPlan, log: Iterable[LoggedDay], on: date, low_c: float) -> Advice[int]:
    """What the low (°C) of the night after a day undoes, given what was logged; see ``after_night``."""
    rows, done = _lived_through(plan, [each for each in log if each.on <= on])
    if rows and rows[-1].on == on:
        if rows[-1].state is DayState.DONE:
            return after_night(plan, rows[-1].step, low_c)
        return Advice(0, "The day was missed already; its step is to be done again.", COMMON_PRACTICE)
    if done == len(plan.days):
        why = "All its days are done, so none is repeated; tender plants still come in when it may freeze."
        return Advice(0, why, COMMON_PRACTICE)
    return after_night(plan, plan.days[done], low_c)


def steps_done(plan: HardeningPlan, log: Iterable[LoggedDay]) -> int:
    """How many steps count as done after everything that was logged."""
    return _lived_through(plan, log)[1]


def schedule(
    plan: HardeningPlan, started: date, log: Sequence[LoggedDay], today: date
) -> tuple[DatedDay, ...]:
    """Every step with its date: done and missed days as they were logged, the rest from today on.

    A day that was missed, or whose night was too cold, is followed by the same step on the next day, and
    all later ones move with it. Where today is logged already, the rest begin tomorrow. What is logged
    once every step is done changes nothing and is left out.

    A night told of a day that is logged already belongs to that day; any other second entry of a day
    counts as another day, and shares its date.

    Raises:
        ValueError: a logged day lies before ``started``.
    """
    if any(each.on < started for each in log):
        raise ValueError("No day can be logged from before hardening off began.")
    rows, done = _lived_through(plan, log)
    first = max([today, started, *(each.on + timedelta(days=1) for each in log)])
    for number, step in enumerate(plan.days[done:]):
        on = first + timedelta(days=number)
        rows.append(DatedDay(on, step, DayState.NOW if on == today else DayState.TO_COME))
    return tuple(rows)


def ready_on(days: Sequence[DatedDay]) -> date:
    """The day after the last of a schedule, when the plants may be planted."""
    return days[-1].on + timedelta(days=1)


def _lived_through(plan: HardeningPlan, log: Iterable[LoggedDay]) -> tuple[list[DatedDay], int]:
    """The logged days with their steps, and how many steps count as done after them."""
    rows: list[DatedDay] = []
    done = 0
    for each in sorted(log, key=lambda logged: logged.on):
        if each.night_low_c is not None and rows and rows[-1].on == each.on:
            if rows[-1].state is DayState.DONE:  # the night of a day that is ticked off: take it up again
                rows.pop()
                done -= 1
                each = evolve(each, done=True)
            elif not each.done:
                continue
        if done < len(plan.days):
            row, done = _lived(plan, done, each)
            rows.append(row)
    return rows, done


def _lived(plan: HardeningPlan, done: int, logged: LoggedDay) -> tuple[DatedDay, int]:
    """One logged day with its step, and the steps that count as done after it."""
    step, low_c = plan.days[done], logged.night_low_c
    undone = 0 if low_c is None else after_night(plan, step, low_c).value
    if logged.done and not undone:
        return DatedDay(logged.on, step, DayState.DONE), done + 1
    reason = logged.reason or ("a night too cold" if undone else "")
    return DatedDay(logged.on, step, DayState.MISSED, reason), max(done - max(undone - 1, 0), 0)


def time_to_harden(plant: Plant, climate: Climate) -> timedelta:
    """How long a plant raised under cover takes, if no day is missed."""
    return timedelta(days=len(plan(plant, grown_under_cover=True, climate=climate).days))


def earliest_start(plant: Plant, climate: Climate, year: int) -> Advice[date]:
    """The first day to begin hardening a plant raised under cover, so that it is done as it may go out.

    Tender plants may go out once a frost still comes in no more springs than the keeper's risk allows, hardy
    ones at the average last frost.
    """
    spring = frosts(climate, year)
    steps = time_to_harden(plant, climate)
    if is_hardy(plant, climate):
        why = f"It takes {steps.days} days, and hardy plants may go out from the average last frost on."
        return Advice(spring.last_spring - steps, spring.said(why), COMMON_PRACTICE, _by(spring.known))
    frost = f"only {climate.risk:.0%} of springs still bring a frost"
    why = f"It takes {steps.days} days, and tender plants go out when {frost}."
    return Advice(spring.safe_spring - steps, spring.said(why), CALIFORNIA, _by(spring.known))


def next_start(plant: Plant, climate: Climate, today: date) -> Advice[date]:
    """The first day from today on for a plant raised under cover to begin, while the season holds it."""
    steps = time_to_harden(plant, climate)
    for year in (today.year - 1, today.year):
        earliest = earliest_start(plant, climate, year)
        if max(today, earliest.value) + steps <= summer(climate, year)[1]:
            return evolve(earliest, value=max(today, earliest.value))
    following = earliest_start(plant, climate, today.year + 1)
    return evolve(following, value=max(today, following.value))


def _by(known: bool) -> str:
    return "" if known else f"The frost dates are {FROM_MEMORY}."
