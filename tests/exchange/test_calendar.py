"""The calendar file: sound by RFC 5545 and by three libraries, and true to what people typed."""

import unicodedata
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import pytest
import vobject
from hypothesis import example, given, settings
from hypothesis import strategies as st
from ical.calendar_stream import IcsCalendarStream

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.exchange.calendar import calendar_of
from cuttings.exchange.events import described, of_season, of_week
from cuttings.ledger.book import fold
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from tests.exchange.checks import ON_BYTES, ON_PARTS, WITNESSES, Part, events, faults, read, stopped
from tests.exchange.making import (
    GOOD,
    MORNING,
    SATURDAY,
    command,
    days,
    file_of,
    item,
    nudge,
    planned,
    sheet,
    twice,
    window,
    without,
)


def test_a_file_breaks_no_rule_and_no_witness_stops_at_it() -> None:
    assert len(events(GOOD)) == 2
    assert faults(GOOD) == set()
    assert stopped(GOOD) == set()


def test_every_nudge_of_a_garden_in_every_month_makes_a_sound_file() -> None:
    book, climate = fold(quarry_bank(date(2026, 4, 5))), Climate(42.9, frost_dates((5, 15), (9, 30)), "5b")
    before, told = b"", 0
    for month in range(1, 13):
        first = date(2027, month, 6)
        nudges = week(book, standard(), climate, first, first + timedelta(days=6))
        of_sheet = of_week(sheet(*(item(each) for each in nudges), first=first), command)
        now = datetime(first.year, first.month, first.day, 11, tzinfo=UTC)
        for found in (of_sheet, of_season(nudges, first, command)):
            before = file_of(found, now=now, before=before)
            told += len(events(before))
            assert len(events(before)) >= len(nudges)
            assert faults(before) == set()
            assert stopped(before) == set()
    assert told > 100


def _instead(old: str, new: str) -> Callable[[bytes], bytes]:
    return lambda file: file.replace(old.encode(), new.encode())


def _second_id_as_the_first(file: bytes) -> bytes:
    first, second = (event.value("UID") for event in events(file))
    return file.replace(second.encode(), first.encode())


def _cut_in_a_letter(file: bytes) -> bytes:
    return file.replace("Ж".encode(), b"\xd0\r\n \x96", 1)


# How to break a file, the rules that this breaks, and the witnesses that stop at it (vobject 0.9, ics 0.7,
# ical 14).
BROKEN: dict[str, tuple[Callable[[bytes], bytes], set[str], set[str]]] = {
    "bare line feeds": (_instead("\r\n", "\n"), {"line ends"}, set()),
    "no last line end": (lambda file: file[:-2], {"line ends", "structure"}, set()),
    "long lines": (_instead("\r\n ", ""), {"octets"}, set()),
    "a letter in two": (_cut_in_a_letter, {"octets"}, {"vobject", "ics", "ical"}),
    "a bell": (_instead("Pot ", "Pot \x07"), {"controls"}, {"ics", "ical"}),
    "no version": (without("VERSION"), {"version", "counts"}, {"ics"}),
    "no product": (without("PRODID"), {"counts"}, {"vobject", "ics"}),
    "no id": (without("UID:.*?\r\nSEQ"), {"counts"}, {"vobject"}),
    "no stamp": (without("DTSTAMP"), {"counts"}, {"vobject"}),
    "no start": (without("DTSTART"), {"counts"}, set()),
    "two starts": (twice("DTSTART"), {"counts"}, {"vobject", "ics", "ical"}),
    "two states": (twice("STATUS"), {"counts"}, {"vobject", "ics", "ical"}),
    "no trigger": (without("TRIGGER"), {"counts"}, {"ics", "ical"}),
    "one id for two": (_second_id_as_the_first, {"ids"}, set()),
    "a start of no type": (_instead("DTSTART;VALUE=DATE", "DTSTART"), {"whole days"}, set()),
    "a moment for a day": (
        _instead(";VALUE=DATE:20260403", ":20260403T000000Z"),
        {"whole days", "utc"},
        {"ical"},
    ),
    "no such day": (_instead(":20260403", ":20261343"), set(), {"vobject", "ics", "ical"}),
    "the end first": (_instead("E:20260403", "E:20260301"), {"order"}, {"ics"}),
    "no day at all": (_instead("DTEND;VALUE=DATE:20260403", "DTEND;VALUE=DATE:20260321"), {"order"}, set()),
    "a stamp of no zone": (_instead("DTSTAMP:20260321T113000Z", "DTSTAMP:20260321T113000"), {"utc"}, set()),
    "an unknown state": (_instead("CONFIRMED", "PERHAPS"), {"values"}, {"ics", "ical"}),
    "a trigger of hours": (_instead("PT7H", "7H"), {"triggers"}, {"ics", "ical"}),
    "a number below 0": (_instead("SEQUENCE:", "SEQUENCE:-"), {"numbers"}, set()),
    "a bare semicolon": (_instead("\\;", ";"), {"escapes"}, set()),
    "a raw line break": (_instead("Pot ", "Pot\r\n"), {"structure"}, {"vobject", "ics", "ical"}),
    "an event left open": (_instead("END:VEVENT\r\n", ""), {"structure"}, {"vobject", "ics", "ical"}),
    "published by nobody": (
        _instead("VERSION:2.0", "VERSION:2.0\r\nMETHOD:PUBLISH"),
        {"organized"},
        set(),
    ),
}


@pytest.mark.parametrize("how", BROKEN)
def test_the_checks_and_the_witnesses_can_fail(how: str) -> None:
    break_it, rules, witnesses = BROKEN[how]
    broken = break_it(GOOD)
    assert broken != GOOD
    assert faults(broken) == rules
    assert stopped(broken) == witnesses


def test_there_is_a_broken_file_for_every_rule_and_every_witness() -> None:
    assert set().union(*(rules for _, rules, _ in BROKEN.values())) == {
        *ON_BYTES,
        *ON_PARTS,
        "ids",
        "structure",
    }
    assert set().union(*(witnesses for _, _, witnesses in BROKEN.values())) == set(WITNESSES)


def fit(typed: str) -> str:
    """What is left of a text in a calendar: line breaks of any kind as one, no other control characters but
    tab (RFC 5545, section 3.3.11), and nothing that UTF-8 has no bytes for."""
    lines = "\n".join(f"{typed}.".splitlines())[:-1]
    return "".join(each for each in lines if each in "\t\n" or unicodedata.category(each) not in ("Cc", "Cs"))


NASTY = st.text(
    st.one_of(st.characters(), st.sampled_from("\\nN;,:\"'\r\n\t \x07\x85\u2028\u202e\ufeffאبé🌱")),
    max_size=90,
)


@settings(max_examples=150, deadline=None)
@given(name=NASTY, area=NASTY, why=NASTY, tool=NASTY, garden=NASTY)
@example(name="C:\\New\\names", area="\\", why="\\n \\N \\\\", tool="a\r\nb\rc\n", garden=";,:")
@example(name="é" * 90, area="🌱" * 40, why="\u202eא" * 40, tool="\ud800", garden="\x00")
@example(name="BEGIN:VEVENT\r\nEND:VEVENT", area="\x1c\x85\u2029", why="END:VCALENDAR", tool="", garden="")
def test_what_people_typed_comes_out_as_it_went_in(
    name: str, area: str, why: str, tool: str, garden: str
) -> None:
    typed = nudge(window(-10, (-3, 12), 40, why=why), name=name, area=area, tools=(tool, "x"))
    (event,) = planned(typed)
    file = calendar_of([event], ledger="", garden=garden, now=MORNING, entries=0)
    assert faults(file) == set()
    assert stopped(file) == set()
    (told,) = events(file)
    assert told.text("SUMMARY") == fit(typed.what)
    assert told.text("LOCATION") == fit(area)
    assert told.text("DESCRIPTION") == fit(described(event))
    assert read(file).text("NAME") == fit(garden or "cuttings")


def test_two_libraries_read_the_texts_as_this_test_does() -> None:
    name = "C:\\New; 'a, b' סמבוק\nsecond line 🌱"
    file = file_of(planned(nudge(name=name)))
    assert vobject.readOne(file.decode()).vevent.summary.value == f"Pot {name}"
    (event,) = IcsCalendarStream.calendar_from_ics(file.decode()).events
    assert event.summary == f"Pot {name}"
    assert (event.dtstart, event.dtend) == (SATURDAY, date(2026, 4, 3))


def test_an_event_takes_whole_days_and_keeps_nobody_from_anything() -> None:
    (event,) = events(file_of(planned(nudge())))
    assert days(event) == ("20260321", "20260403")
    assert event.value("TRANSP") == "TRANSPARENT"
    assert event.value("STATUS") == "CONFIRMED"
    assert event.value("DTSTAMP") == event.value("LAST-MODIFIED") == "20260321T113000Z"
    assert event.value("LOCATION") == "north wall"


def alarms(event: Part) -> list[str]:
    return [part.value("TRIGGER") for part in event.parts]


@pytest.mark.parametrize(
    ("closes", "is_planned", "plants", "triggers"),
    [
        (40, True, 3.0, ["PT7H", "P33DT7H"]),  # a week before it closes
        (40, True, 0.0, ["PT7H"]),  # nothing is lost by waiting
        (40, False, 3.0, ["P33DT7H"]),  # no time for it this week
        (40, False, 0.0, []),
        (13, True, 3.0, ["PT7H", "P6DT7H"]),
        (7, True, 3.0, ["PT7H"]),  # the first morning is warning enough
        (5, False, 3.0, ["PT7H"]),
    ],
)
def test_a_phone_speaks_up_on_the_first_morning_and_before_plants_are_lost(
    closes: int, is_planned: bool, plants: float, triggers: list[str]
) -> None:
    its_window = window(-10, (-3, 4), closes)
    loss = Loss(plants=plants, late=between(its_window.best[1], its_window.closes))
    it = item(nudge(its_window, loss=loss), taken=int(is_planned), cost=0.0)
    its_sheet = sheet(it) if is_planned else sheet(left=(it,))
    (event,) = events(file_of(of_week(its_sheet, command)))
    assert alarms(event) == triggers


def test_the_second_alarm_says_when_it_is_too_late() -> None:
    (event,) = events(file_of(planned(nudge())))
    assert [part.text("DESCRIPTION") for part in event.parts] == [
        "Pot 26-001 red currant",
        "Pot 26-001 red currant: too late after 30 April",
    ]
