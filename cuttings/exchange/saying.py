"""How the paper says what a sheet holds."""

import calendar
import re
from collections.abc import Sequence
from datetime import date

from cuttings.dates import margin, spoken
from cuttings.nudges.sheet import REST_MINUTES, Item, Sheet, Stop

AT_RISK = "waiting risks"
_SENTENCE_END = re.compile(r"(?<=[^\W\d_]{2}[.!?])\s+(?=[A-Z0-9])")


def _weekday(day: date) -> str:
    return calendar.day_name[day.weekday()]


def days(first: date, last: date) -> str:
    """``Saturday 2 May to Friday 8 May 2026``."""
    end = f"{_weekday(last)} {spoken(last)}"
    return end if first == last else f"{_weekday(first)} {spoken(first, last)} to {end}"


def minutes(sheet: Sheet) -> str:
    """What all of it takes, and what there is."""
    if not sheet.stops:
        return "" if sheet.budget is None else f"There are {sheet.budget} minutes."
    told = f"About {sheet.minutes} minutes in all"
    return f"{told}." if sheet.budget is None else f"{told}; there are {sheet.budget}."


def stop_minutes(stop: Stop, walk: int) -> str:
    way = f", and {walk} to go there and set up" if stop.area and walk else ""
    return f"{stop.minutes} min{way}"


def job(items: Sequence[Item]) -> str:
    """What is to be done; what it is done to stands beside its own box where there is more than one."""
    first = items[0].nudge
    return first.what if len(items) == 1 else first.job.replace("{}", f"these {len(items)}", 1)


def due(items: Sequence[Item], today: date) -> str:
    """The last good day: ``by`` it where waiting loses plants; of care that comes round, that it is due."""
    if items[0].nudge.when:
        return items[0].nudge.when
    if items[0].nudge.every:
        return "this week"
    pressing = [item for item in items if item.pressing]
    last = min(item.nudge.window.closes for item in pressing or items)
    return f"{'by' if pressing else 'until'} {margin(last, today)}"


def sittings(item: Item) -> str:
    """Into how many sittings a split job goes, empty for one that is done at one go."""
    of, planned = len(item.sittings), item.sittings[: item.taken]
    if of == 1:
        return ""
    count = f"{item.taken} of its {of} sittings," if item.taken < of else f"{of} sittings of"
    lengths = list(dict.fromkeys(each.minutes for each in planned))
    if len(lengths) == 1:
        each = f"{lengths[0]} minutes"
    else:
        *before, last = [str(sitting.minutes) for sitting in planned]
        each = f"{', '.join(before)} and {last} minutes"
    rest = f" with a rest of {REST_MINUTES} between" if len(planned) > 1 else ""
    return f"{count} {each}{rest}"


def sentences(text: str) -> list[str]:
    return _SENTENCE_END.split(text.strip())


def opening(item: Item, last: date, today: date) -> str:
    """From when on a job is right that is better left alone until a day; empty where it is not known."""
    opens = item.nudge.window.opens
    return f"from {margin(opens, today)}" if opens > last else ""


def unplanned(item: Item) -> str:
    """A job that is not planned, or not all of it."""
    return f"{item.nudge.what}, the rest of it." if item.planned else f"{item.nudge.what}."


def more(count: int) -> str:
    return f"and {count} more; the screen shows them all"


def write_down(sheet: Sheet, number: int) -> str:
    """What to type when the job of a number is done."""
    return f"cuttings week --from {sheet.first.isoformat()} --done {number}"
