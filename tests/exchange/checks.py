"""What RFC 5545 asks of a calendar file, read without a library; and three libraries as witnesses.

The libraries read leniently: each passes over something that the others stop at, and all of them pass over
line ends, long lines, dates without their type and ids used twice. Those are why this reader exists.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

import ics
import vobject
from ical.calendar_stream import IcsCalendarStream

LINE_OCTETS = 75  # section 3.1

TEXTS = {"SUMMARY", "DESCRIPTION", "LOCATION", "NAME", "X-WR-CALNAME"}
ONCE = {  # sections 3.6, 3.6.1 and 3.6.6: properties that must occur, and only once
    "VCALENDAR": {"PRODID", "VERSION"},
    "VEVENT": {"UID", "DTSTAMP", "DTSTART", "DTEND"},
    "VALARM": {"ACTION", "DESCRIPTION", "TRIGGER"},
}
AT_MOST_ONCE = {
    "VCALENDAR": {"METHOD", "UID", "LAST-MODIFIED"},  # section 3.6; RFC 7986, section 4
    "VEVENT": {
        "CLASS",
        "DESCRIPTION",
        "LAST-MODIFIED",
        "LOCATION",
        "SEQUENCE",
        "STATUS",
        "SUMMARY",
        "TRANSP",
    },
    "VALARM": {"DURATION", "REPEAT"},
}
ALLOWED = {
    "STATUS": {"TENTATIVE", "CONFIRMED", "CANCELLED"},  # section 3.8.1.11
    "TRANSP": {"OPAQUE", "TRANSPARENT"},  # section 3.8.2.7
    "ACTION": {"DISPLAY"},  # section 3.8.6.1; this program's only kind
}
DURATION = re.compile(r"[+-]?P(\d+W|\d+D|(\d+D)?T(\d+H(\d+M(\d+S)?)?|\d+M(\d+S)?|\d+S))")  # section 3.3.6
WELL_ESCAPED = re.compile(r"(?:[^\\;,]|\\[\\;,nN])*")  # section 3.3.11
CONTROLS = re.compile(r"[\x00-\x08\x0a-\x1f\x7f]")  # section 3.1


class Property(NamedTuple):
    name: str
    params: str
    value: str


class Part(NamedTuple):
    """A component: its kind, its properties, and the components in it."""

    kind: str
    properties: list[Property]
    parts: list["Part"]

    def all(self, name: str) -> list[Property]:
        return [each for each in self.properties if each.name == name]

    def value(self, name: str) -> str:
        return next((each.value for each in self.all(name)), "")

    def text(self, name: str) -> str:
        return unescaped(self.value(name))

    def walk(self) -> Iterator["Part"]:
        yield self
        for part in self.parts:
            yield from part.walk()


def unescaped(value: str) -> str:
    """Section 3.3.11."""
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], value)


def unfolded(file: bytes) -> list[str]:
    """Section 3.1: the content lines, put together again."""
    return re.sub(rb"\r?\n[ \t]", b"", file).decode("utf-8", "replace").replace("\r\n", "\n").split("\n")[:-1]


def read(file: bytes) -> Part:
    """The calendar in a file.

    Raises:
        ValueError: components do not begin and end in pairs, or a line is no property.
    """
    top = Part("", [], [])
    open_parts = [top]
    for line in unfolded(file):
        match = re.fullmatch(r"([A-Za-z0-9-]+)((?:;[^:]*)?):(.*)", line, re.DOTALL)
        if match is None:
            raise ValueError(line)
        name, params, value = match.groups()
        if name == "BEGIN":
            part = Part(value, [], [])
            open_parts[-1].parts.append(part)
            open_parts.append(part)
        elif name == "END":
            if open_parts.pop().kind != value:
                raise ValueError(line)
        else:
            open_parts[-1].properties.append(Property(name, params, value))
    if open_parts != [top] or [part.kind for part in top.parts] != ["VCALENDAR"]:
        raise ValueError("not one whole calendar")
    return top.parts[0]


def events(file: bytes) -> list[Part]:
    return [part for part in read(file).parts if part.kind == "VEVENT"]


def faults(file: bytes) -> set[str]:
    """The names of the rules that a file breaks."""
    found = {name for name, holds in ON_BYTES.items() if not holds(file)}
    try:
        calendar = read(file)
    except ValueError:
        return found | {"structure"}
    parts = list(calendar.walk())
    found |= {name for name, holds in ON_PARTS.items() if not all(holds(part) for part in parts)}
    ids = Counter(part.value("UID") for part in parts if part.kind == "VEVENT")
    return found | ({"ids"} if any(count > 1 for count in ids.values()) else set())


def _line_ends(file: bytes) -> bool:
    """Section 3.1: every line ends in CRLF, the last too."""
    return file.endswith(b"\r\n") and not re.search(rb"(?<!\r)\n|\r(?!\n)", file)


def _octets(file: bytes) -> bool:
    """Section 3.1: at most 75 octets a line without its end, and no letter in two pieces."""
    for line in re.split(rb"\r?\n", file):
        try:
            line.decode("utf-8")
        except UnicodeDecodeError:
            return False
        if len(line) > LINE_OCTETS:
            return False
    return True


def _controls(file: bytes) -> bool:
    """Section 3.1: no control characters but tab."""
    return not any(CONTROLS.search(line) for line in unfolded(file))


def _version(part: Part) -> bool:
    """Section 3.7.4."""
    return part.kind != "VCALENDAR" or part.value("VERSION") == "2.0"


def _counts(part: Part) -> bool:
    counts = Counter(each.name for each in part.properties)
    return all(counts[name] == 1 for name in ONCE[part.kind]) and all(
        counts[name] <= 1 for name in AT_MOST_ONCE[part.kind]
    )


def _whole_days(part: Part) -> bool:
    """Sections 3.8.2.2 and 3.8.2.4 with 3.3.4: a date says that it is one."""
    days = [each for each in part.properties if each.name in ("DTSTART", "DTEND")]
    return all(each.params == ";VALUE=DATE" and re.fullmatch(r"\d{8}", each.value) for each in days)


def _order(part: Part) -> bool:
    """Section 3.8.2.2: the end, which is not part of the event, is later than the start."""
    return part.kind != "VEVENT" or part.value("DTEND") > part.value("DTSTART")


def _utc(part: Part) -> bool:
    """Sections 3.8.7.2 and 3.8.7.3, with 3.3.5: moments are in UTC; no text may be taken for one."""
    moments = [each for each in part.properties if re.match(r"\d{8}T\d{6}", each.value)]
    stamps = part.all("DTSTAMP") + part.all("LAST-MODIFIED")
    return all(re.fullmatch(r"\d{8}T\d{6}Z", each.value) for each in stamps) and all(
        each.name in TEXTS or each in stamps for each in moments
    )


def _values(part: Part) -> bool:
    """Sections 3.8.1.11, 3.8.2.7 and 3.8.6.1."""
    return all(each.value in ALLOWED.get(each.name, {each.value}) for each in part.properties)


def _triggers(part: Part) -> bool:
    """Section 3.8.6.3: by default a duration."""
    return all(DURATION.fullmatch(each.value) for each in part.all("TRIGGER"))


def _numbers(part: Part) -> bool:
    """Section 3.8.7.4 with 3.3.8: an integer from 0 on, in 32 bits."""
    return all(each.value.isdecimal() and int(each.value) <= 2_147_483_647 for each in part.all("SEQUENCE"))


def _escapes(part: Part) -> bool:
    """Section 3.3.11."""
    return all(WELL_ESCAPED.fullmatch(each.value) for each in part.properties if each.name in TEXTS)


def _organized(part: Part) -> bool:
    """RFC 5546, section 3.2.1: a published calendar names its organizer in every event."""
    return not part.all("METHOD") or all(each.all("ORGANIZER") for each in part.parts)


ON_BYTES: Mapping[str, Callable[[bytes], bool]] = {
    "line ends": _line_ends,
    "octets": _octets,
    "controls": _controls,
}
ON_PARTS: Mapping[str, Callable[[Part], bool]] = {
    "version": _version,
    "counts": _counts,
    "whole days": _whole_days,
    "order": _order,
    "utc": _utc,
    "values": _values,
    "triggers": _triggers,
    "numbers": _numbers,
    "escapes": _escapes,
    "organized": _organized,
}


def _vobject(file: bytes) -> None:
    vobject.readOne(file.decode()).validate(raiseException=True)


def _ics(file: bytes) -> None:
    ics.Calendar(file.decode())


def _ical(file: bytes) -> None:
    IcsCalendarStream.calendar_from_ics(file.decode())


WITNESSES: Mapping[str, Callable[[bytes], None]] = {"vobject": _vobject, "ics": _ics, "ical": _ical}
"""Libraries that read a file, and raise an error of their own at what they do not accept."""


def stopped(file: bytes) -> set[str]:
    """The witnesses that do not accept a file."""
    found = set()
    for name, witness in WITNESSES.items():
        try:
            witness(file)
        except Exception:  # each has errors of its own kind
            found.add(name)
    return found
