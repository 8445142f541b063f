"""The calendar file of a week or a season, for a phone: RFC 5545 (iCalendar) and RFC 7986 (its calendar
properties).

It has no METHOD. A published calendar (RFC 5546, section 3.2.1) must name an organizer by an address, which a
garden does not have; without a method, a file is a plain picture of a calendar (RFC 5545, section 3.7.2).
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, date, datetime, timedelta
from uuid import UUID, uuid5

from attrs import evolve, frozen
from icalendar import Alarm, Calendar, Component, vDDDTypes, vText
from icalendar import Event as Entry

from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.exchange.events import Event, described

PRODUCT = "-//cuttings//week//EN"
SPACE = UUID("18df0668-0bd5-4292-9531-d1ca963a7ee0")
"""The space that the ids of this program's calendars are drawn from; never to be changed."""

MORNING = timedelta(hours=7)
"""When a phone speaks up, from the beginning of the day in its own time zone."""

WARN_DAYS = 7
"""Days before a window closes on which a phone warns of what would be lost: a weekend lies between them. This
program's own."""

DAY = timedelta(days=1)
EPOCH = date(2020, 1, 1)
"""The day from which a file's number is counted; any day before the first file."""

_UID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_BREAK = re.compile("\r\n|[\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_UNFIT = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
_ESCAPED = {ord("\\"): "\\\\", ord(";"): "\\;", ord(","): "\\,", ord("\n"): "\\n"}


class Text(vText):
    """Text as section 3.3.11 of RFC 5545 escapes it. The library's own takes a backslash before an N, as in
    a path that somebody typed, for a line break."""

    def to_ical(self) -> bytes:
        return self.translate(_ESCAPED).encode()


def text(typed: str) -> Text:
    """Text typed by people, fit for a calendar file: any line break as one, other control characters and
    what no file can hold taken out."""
    return Text(_UNFIT.sub("", _BREAK.sub("\n", typed)))


@frozen(kw_only=True)
class _Days:
    """What an event says at least; ``end`` is the day after its last."""

    first: date
    end: date
    status: str
    summary: str


@frozen
class _Stood:
    """An event that stood in the file before, with the number of its version."""

    days: _Days
    number: int


@frozen(kw_only=True)
class _Edition:
    """One writing of a file: when, and the number that no earlier writing exceeds."""

    now: datetime
    number: int

    @property
    def today(self) -> date:
        return self.now.date()


def calendar_of(
    events: Iterable[Event],
    *,
    ledger: str,
    garden: str,
    now: datetime,
    entries: int,
    before: bytes | None = None,
) -> bytes:
    """The file of a calendar with these events.

    Args:
        ledger: what tells this ledger from all others for good; its events are known by it.
        garden: the garden's name, by which the calendar is listed; may be empty.
        now: the moment of writing, in the keeper's own time zone.
        entries: how many entries the ledger holds. With the days that pass it makes the number by which a
            phone tells the newer version of an event.
        before: what the file holds so far. Its events that are not over yet and no longer among these are
            called off, so that a phone takes them away.

    Raises:
        Refused: what stands in the file is not a calendar of this ledger.
    """
    mark = uuid5(SPACE, ledger)
    stood = _standing(before, mark) if before and before.strip() else {}
    edition = _Edition(now=now, number=entries + (now.date() - EPOCH).days)
    calendar = Calendar()
    calendar.add("PRODID", PRODUCT)
    calendar.add("VERSION", "2.0")
    calendar.add("UID", str(mark))
    calendar.add("LAST-MODIFIED", now.astimezone(UTC))
    # Few phones read the standard's NAME yet; the older name of the same thing is understood by most.
    for name in ("NAME", "X-WR-CALNAME"):
        calendar.add(name, text(garden or "cuttings"))
    live = {str(uuid5(mark, f"{event.nudge.id} {event.turn}")): event for event in events}
    for uid, event in live.items():
        calendar.add_component(_confirmed(uid, event, edition, stood.get(uid)))
    for uid, old in stood.items():
        if uid not in live and old.days.end > edition.today:
            called_off = evolve(old.days, status="CANCELLED")
            calendar.add_component(_entry(uid, called_off, edition, old))
    file: bytes = calendar.to_ical()
    return file


def _confirmed(uid: str, event: Event, edition: _Edition, before: _Stood | None) -> Entry:
    nudge = event.nudge
    days = _Days(first=event.first, end=event.last + DAY, status="CONFIRMED", summary=text(nudge.what))
    entry = _entry(uid, days, edition, before)
    entry.add("DESCRIPTION", text(described(event)))
    if nudge.area:
        entry.add("LOCATION", text(nudge.area))
    for alarm in _alarms(event):
        entry.add_component(alarm)
    return entry


def _entry(uid: str, days: _Days, edition: _Edition, before: _Stood | None) -> Entry:
    """An event over whole days that keeps nobody from anything else."""
    entry = Entry()
    entry.add("UID", uid)
    entry.add("SEQUENCE", _number(days, edition, before))
    entry.add("DTSTAMP", edition.now.astimezone(UTC))
    entry.add("LAST-MODIFIED", edition.now.astimezone(UTC))
    entry.add("DTSTART", days.first)
    entry.add("DTEND", days.end)
    entry.add("STATUS", days.status)
    entry.add("SUMMARY", text(days.summary))
    entry.add("TRANSP", "TRANSPARENT")
    return entry


def _number(days: _Days, edition: _Edition, before: _Stood | None) -> int:
    """The number of an event's version (RFC 5545, section 3.8.7.4): higher than that of the one before, if
    it has moved or is called off since."""
    if before is None:
        return edition.number
    return max(edition.number, before.number + (days != before.days))


def _alarms(event: Event) -> Iterator[Alarm]:
    """On the first morning of what is planned, and in time before what would be lost is lost."""
    what, closes = event.nudge.what, event.nudge.window.closes
    if event.planned:
        yield _alarm(what, MORNING)
    warns_on = closes - WARN_DAYS * DAY
    if event.at_stake and (warns_on > event.first or not event.planned):
        after = max(warns_on - event.first, timedelta(0))
        yield _alarm(f"{what}: too late after {spoken(closes, event.first)}", after + MORNING)


def _alarm(says: str, after: timedelta) -> Alarm:
    """An alarm some time after the beginning of an event's first day (RFC 5545, section 3.8.6.3)."""
    alarm = Alarm()
    alarm.add("ACTION", "DISPLAY")
    alarm.add("DESCRIPTION", text(says))
    alarm.add("TRIGGER", after)
    return alarm


def _standing(before: bytes, mark: UUID) -> Mapping[str, _Stood]:
    """The events of a file, by their ids; those that were damaged are left out.

    Raises:
        Refused: it is not this ledger's calendar.
    """
    try:
        calendar = Calendar.from_ical(before)
    except Exception:  # whatever damage makes the library stumble, it is no calendar of ours
        calendar = Calendar()
    if str(calendar.get("PRODID")) != PRODUCT:
        raise Refused("What stands in that file is no calendar of this program; name another file.")
    if str(calendar.get("UID")) not in (str(mark), str(uuid5(SPACE, ""))):  # or of one yet to be begun
        raise Refused("What stands in that file is the calendar of another ledger; name another file.")
    found = ((str(entry.get("UID", "")), _stood(entry)) for entry in calendar.walk("VEVENT"))
    return {uid: stood for uid, stood in found if _UID.fullmatch(uid) and stood is not None}


def _stood(entry: Component) -> _Stood | None:
    """An event as this program writes them; ``None`` for any other."""
    first, end = _day(entry, "DTSTART"), _day(entry, "DTEND")
    number = entry.get("SEQUENCE", 0)
    if first is None or end is None or end <= first or not isinstance(number, int):
        return None
    summary, status = str(entry.get("SUMMARY", "")), str(entry.get("STATUS", ""))
    return _Stood(_Days(first=first, end=end, status=status, summary=summary), int(number))


def _day(entry: Component, name: str) -> date | None:
    """A date that an event tells; ``None`` where it tells none, or tells it wrongly."""
    found = entry.get(name)
    return found.dt if isinstance(found, vDDDTypes) and type(found.dt) is date else None
