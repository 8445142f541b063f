"""Hardening off: getting plants raised under cover used to sun, wind and cold, a day at a time."""

from datetime import date, timedelta

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant
from cuttings.rules.advice import Advice
from cuttings.rules.seasons import frosts, in_summer, is_hardy
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

DAY_MIN_C = fahrenheit_to_celsius(45.0)
"""No outing on a day colder than this, degrees Celsius (``PENN_STATE``, ``CALIFORNIA``)."""

TENDER_NIGHT_MIN_C = fahrenheit_to_celsius(50.0)
"""Tender plants stay out only on nights at least this warm, degrees Celsius (``MINNESOTA``)."""

HARDY_NIGHT_MIN_C = fahrenheit_to_celsius(35.0)
"""Hardy plants still soft from cover stay out on nights clear of frost; the 35 F is from memory, after
``CALIFORNIA``, which keeps even hardy ones from freezing before they are hardened."""

TENDER_DAYS = 14
HARDY_DAYS = 10
TOUGH_DAYS = 7
"""Days for tender plants (``CALIFORNIA``), hardy ones from under cover, and ones that stood outside in
shelter; a week to a fortnight is common practice."""

HOURS_OUT = (2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
"""Hours outside on the first seven days: two to four at first (``PENN_STATE``, ``MINNESOTA``), then more."""

TOUGH_HOURS_OUT = (2.0, 3.0, 4.0, 6.0, 10.0)
"""The same for plants that are nearly hard, from memory."""

OVERNIGHT_HOURS = 24.0


@frozen
class HardeningDay:
    """One step, done on one day: hours outside (24 is day and night), the light, and a word on it."""

    number: int
    hours_out: float
    shade: str
    note: str


@frozen
class HardeningPlan:
    """The steps in order. No outing below ``day_min_c``, no night out below ``night_min_c`` (°C)."""

    days: tuple[HardeningDay, ...]
    night_min_c: float
    day_min_c: float
    why: str
    source: str


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
        HardeningDay(number, each, _shade(number, count), _note(number, each, count))
        for number, each in enumerate(out, start=1)
    )
    night_min_c = TENDER_NIGHT_MIN_C if tender else HARDY_NIGHT_MIN_C
    return HardeningPlan(days, night_min_c, DAY_MIN_C, why, source)


def _shade(number: int, count: int) -> str:
    if number <= 3:
        return "full shade, out of the wind"
    if number <= count // 2 + 1:
        return "early sun, shade from mid-morning"
    return "the light of its new place"


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


def earliest_start(plant: Plant, climate: Climate, year: int) -> Advice[date]:
    """The first day to begin hardening a plant raised under cover, so that it is done as it may go out.

    Tender plants may go out once one year in ten still brings a frost, hardy ones at the average last
    frost.
    """
    spring = frosts(climate, year)
    steps = timedelta(days=len(plan(plant, grown_under_cover=True, climate=climate).days))
    if is_hardy(plant, climate):
        why = f"It takes {steps.days} days, and hardy plants may go out at the average last frost."
        return Advice(spring.last_spring - steps, spring.said(why), COMMON_PRACTICE, _by(spring.known))
    why = f"It takes {steps.days} days, and tender plants go out when one year in ten still brings a frost."
    return Advice(spring.safe_spring - steps, spring.said(why), CALIFORNIA, _by(spring.known))


def _by(known: bool) -> str:
    return "" if known else f"The frost dates are {FROM_MEMORY}."
