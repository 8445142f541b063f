"""Dates as people type them. Days are local civil days; the caller says which day is today."""

import calendar
import re
from datetime import date, timedelta

MonthDay = tuple[int, int]
EARLIEST, LATEST = 1900, 2199
"""The years of a date that can be written down; any other is a slip of the hand."""

LEAP_YEARS = 8
"""The most years from one 29 February to the next."""

_DAY_OF_MONTH = re.compile(r"(?:(\d{1,2})\.? ([a-z]{3,})|([a-z]{3,})\.? (\d{1,2})),?(?: (\d{4}))?")
_FROM_NOW = re.compile(r"(?:\+|in )?\s*(\d{1,3}) ?(d|days?|w|weeks?)")
_MONTH_DAY = re.compile(r"(\d{1,2})-(\d{1,2})$")


def parse_date(text: str, today: date) -> date:
    """Read ``YYYY-MM-DD``, ``today``, ``yesterday`` or a weekday's name (the last one past).

    Raises:
        ValueError: the text is no such date.
    """
    word = text.strip().casefold()
    if word == "today":
        return today
    if word == "yesterday":
        return today - timedelta(days=1)
    for number, name in enumerate(calendar.day_name):
        if word and len(word) >= 3 and name.casefold().startswith(word):
            return today - timedelta(days=(today.weekday() - number - 1) % 7 + 1)
    try:
        if not re.fullmatch(r"\d{4}-\d{1,2}-\d{1,2}", word):
            raise ValueError
        year, month, day = (int(part) for part in word.split("-"))
        found = date(year, month, day)
    except ValueError:
        raise ValueError(
            f"'{text}' is not a date; write it like {today.isoformat()}, today, yesterday or monday."
        ) from None
    if not EARLIEST <= found.year <= LATEST:
        raise ValueError(f"'{text}' cannot be meant; a year lies between {EARLIEST} and {LATEST}.")
    return found


def day_ahead(text: str, today: date) -> date | None:
    """Read a day to come: ``YYYY-MM-DD``, ``tomorrow``, ``next week`` (its Monday), ``+10d``, ``2 weeks``, a
    weekday's name, ``15 September`` or ``15 sep 2027``. A weekday is the coming one here, never the one past,
    and so is a day of the year; ``None`` where it is none of these. The day may be past where its year is
    told."""
    words = " ".join(text.strip().casefold().split())
    if words == "tomorrow":
        return today + timedelta(days=1)
    if words == "next week":
        return _coming(calendar.MONDAY, today)
    for number, name in enumerate(calendar.day_name):
        if len(words) >= 3 and name.casefold().startswith(words):
            return _coming(number, today)
    if span := _FROM_NOW.fullmatch(words):
        return today + timedelta(days=int(span[1]) * (7 if span[2].startswith("w") else 1))
    try:
        return _named_day(words, today) or parse_date(words, today)
    except ValueError:
        return None


def _coming(weekday: int, today: date) -> date:
    return today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)


def _named_day(words: str, today: date) -> date | None:
    """``15 september``, ``september 15`` or either with a year; ``None`` where it is neither.

    Raises:
        ValueError: there is no such month, or no such day in it.
    """
    found = _DAY_OF_MONTH.fullmatch(words)
    if found is None:
        return None
    day, month = int(found[1] or found[4]), parse_month(found[2] or found[3])
    if found[5]:
        year = int(found[5])
        return date(year, month, day) if EARLIEST <= year <= LATEST else None
    years = range(today.year, today.year + LEAP_YEARS + 1)
    days = (date(year, month, day) for year in years if _is_day(year, month, day))
    return next((each for each in days if each > today), None)


def _is_day(year: int, month: int, day: int) -> bool:
    return 1 <= day <= calendar.monthrange(year, month)[1]


def parse_month_day(text: str) -> MonthDay:
    """Read ``MM-DD``.

    Raises:
        ValueError: the text is no day of a year.
    """
    match = _MONTH_DAY.match(text.strip())
    if match:
        month, day = int(match[1]), int(match[2])
        if 1 <= month <= 12 and 1 <= day <= calendar.monthrange(2024, month)[1]:
            return month, day
    raise ValueError(f"'{text}' is not a month and day; write it like 05-12.")


def parse_month(text: str) -> int:
    """Read a month by number or by name (three letters are enough): ``11``, ``nov``, ``November``.

    Raises:
        ValueError: the text is no month.
    """
    word = text.strip().casefold()
    for number in range(1, 13):
        name = calendar.month_name[number].casefold()
        if word in (str(number), f"{number:02d}") or (len(word) >= 3 and name.startswith(word)):
            return number
    raise ValueError(f"'{text}' is not a month; write it like 11, nov or november.")


def day_of_year(month_day: MonthDay) -> int:
    """Day 1 to 365 of a common year; 29 February counts as the 28th."""
    month, day = month_day
    return date(2023, month, min(day, calendar.monthrange(2023, month)[1])).timetuple().tm_yday


def spoken(day: date, today: date | None = None) -> str:
    """A date for a sentence: ``12 May``, with the year unless it is today's own."""
    text = f"{day.day} {calendar.month_name[day.month]}"
    return text if today is not None and day.year == today.year else f"{text} {day.year}"


def spoken_span(first: date, last: date, today: date) -> str:
    """Two dates for a sentence, ``from 12 May to 3 June``; ``on 12 May`` where they are one."""
    if first == last:
        return f"on {spoken(first, today)}"
    return f"from {spoken(first, today)} to {spoken(last, today)}"


def margin(day: date, today: date) -> str:
    """A date for the left margin of a page: ``12 May``, or ``12 May 25`` for another year."""
    text = f"{day.day} {calendar.month_abbr[day.month]}"
    return text if day.year == today.year else f"{text} {day.year % 100:02d}"
