"""The calendar file: sound by RFC 5545 and by three libraries, and one that moves and takes away events."""

import contextlib
import re
import unicodedata
from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
import vobject
from hypothesis import example, given, settings
from hypothesis import strategies as st
from ical.calendar_stream import IcsCalendarStream

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.errors import Refused
from cuttings.exchange.calendar import calendar_of
from cuttings.exchange.events import Event, described, of_season, of_week
from cuttings.ledger.book import fold
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from tests.exchange.checks import ON_BYTES, ON_PARTS, WITNESSES, Part, events, faults, read, stopped
from tests.exchange.making import SATURDAY, after, command, item, nudge, planned, sheet, window

HERE = timezone(timedelta(hours=-5))
MORNING = datetime(2026, 3, 21, 6, 30, tzinfo=HERE)
LONG = "26-001 Ribes; rubrum, 'Ж-Яблоня' סמבוק 🌱" * 4


def file_of(
    found: Iterable[Event],
    *,
    now: datetime = MORNING,
    entries: int = 7,
    before: bytes | None = None,
    ledger: str = "20260104-101112131-k3f9w2x7qd",
) -> bytes:
    return calendar_of(found, ledger=ledger, garden="Quarry Bank", now=now, entries=entries, before=before)


GOOD = file_of(planned(nudge(name=LONG), nudge(id="26-002:pot")))


def days(event: Part) -> tuple[str, str]:
    return event.value("DTSTART"), event.value("DTEND")


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


def _without(name: str) -> Callable[[bytes], bytes]:
    return lambda file: re.sub(rb"\r\n%s[^\r]*" % name.encode(), b"", file, count=1)


def _twice(name: str) -> Callable[[bytes], bytes]:
    return lambda file: re.sub(rb"(\r\n%s[^\r]*)" % name.encode(), rb"\1\1", file, count=1)


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
    "no version": (_without("VERSION"), {"version", "counts"}, {"ics"}),
    "no product": (_without("PRODID"), {"counts"}, {"vobject", "ics"}),
    "no id": (_without("UID:.*?\r\nSEQ"), {"counts"}, {"vobject"}),
    "no stamp": (_without("DTSTAMP"), {"counts"}, {"vobject"}),
    "no start": (_without("DTSTART"), {"counts"}, set()),
    "two starts": (_twice("DTSTART"), {"counts"}, {"vobject", "ics", "ical"}),
    "two states": (_twice("STATUS"), {"counts"}, {"vobject", "ics", "ical"}),
    "no trigger": (_without("TRIGGER"), {"counts"}, {"ics", "ical"}),
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


def phone(*files: bytes) -> dict[str, Part]:
    """What a phone shows that has read these files in turn: of each event the newest version (RFC 5546,
    section 2.1.5), unless it is called off."""
    held: dict[str, Part] = {}
    for file in files:
        for event in events(file):
            old = held.get(event.value("UID"))
            if old is None or _version(old) < _version(event):
                held[event.value("UID")] = event
    return {uid: event for uid, event in held.items() if event.value("STATUS") == "CONFIRMED"}


def _version(event: Part) -> tuple[int, str]:
    return int(event.value("SEQUENCE")), event.value("DTSTAMP")


MOVED = nudge(window(-8, (4, 20), 50))


@pytest.mark.parametrize("entries", [7, 8])
@pytest.mark.parametrize("later", [timedelta(hours=1), timedelta(days=7)])
def test_a_moved_event_takes_the_place_of_the_one_before(entries: int, later: timedelta) -> None:
    first = file_of(planned(nudge()))
    second = file_of(planned(MOVED), now=MORNING + later, entries=entries, before=first)
    (old,), (new,) = events(first), events(second)
    assert old.value("UID") == new.value("UID")
    assert int(new.value("SEQUENCE")) > int(old.value("SEQUENCE"))
    assert [days(each) for each in phone(first, second).values()] == [("20260325", "20260411")]


@pytest.mark.parametrize(("entries", "later"), [(8, timedelta(hours=1)), (7, timedelta(days=7))])
def test_so_it_does_when_the_first_file_is_gone(entries: int, later: timedelta) -> None:
    first = file_of(planned(nudge()))
    second = file_of(planned(MOVED), now=MORNING + later, entries=entries)
    (old,), (new,) = events(first), events(second)
    assert int(new.value("SEQUENCE")) > int(old.value("SEQUENCE"))
    assert [days(each) for each in phone(first, second).values()] == [("20260325", "20260411")]


def test_an_event_that_stays_keeps_its_number_on_the_same_day() -> None:
    first = file_of(planned(nudge()))
    second = file_of(planned(nudge()), now=MORNING + timedelta(hours=1), before=first)
    assert [e.value("SEQUENCE") for e in events(first)] == [e.value("SEQUENCE") for e in events(second)]


def test_the_number_never_falls_though_the_ledger_lost_entries() -> None:
    first = file_of(planned(nudge()), entries=900)
    second = file_of(planned(nudge()), entries=7, before=first)
    assert events(first)[0].value("SEQUENCE") == events(second)[0].value("SEQUENCE")


def test_what_is_done_is_called_off() -> None:
    first = file_of(planned(nudge(), nudge(id="26-002:pot")))
    second = file_of(planned(nudge(id="26-002:pot")), now=MORNING + timedelta(hours=1), before=first)
    assert len(phone(first)) == 2
    (left,) = phone(first, second).values()
    assert left.value("UID") == events(first)[1].value("UID")
    (gone,) = (each for each in events(second) if each.value("STATUS") == "CANCELLED")
    (was,) = (each for each in events(first) if each.value("UID") == gone.value("UID"))
    assert _version(gone) > _version(was)
    assert (days(gone), gone.text("SUMMARY"), gone.parts) == (days(was), was.text("SUMMARY"), [])
    assert faults(second) == set()
    assert stopped(second) == set()


def test_what_was_called_off_stays_so_until_it_is_over_and_may_come_back() -> None:
    first = file_of(planned(nudge()))
    gone = file_of([], now=MORNING + timedelta(hours=1), before=first)
    still = file_of([], now=MORNING + timedelta(days=12), before=gone)
    assert [each.value("STATUS") for each in events(still)] == ["CANCELLED"]
    assert events(file_of([], now=MORNING + timedelta(days=13), before=still)) == []
    back = file_of(planned(nudge()), now=MORNING + timedelta(hours=2), before=gone)
    assert len(phone(first, gone, back)) == 1


def test_what_is_over_is_not_called_off() -> None:
    first = file_of(planned(nudge()))
    assert events(file_of([], now=MORNING + timedelta(days=13), before=first)) == []


def test_the_week_and_the_season_make_no_doubles_on_a_phone() -> None:
    nudges = [nudge(), nudge(window(20, (30, 40), 50), id="26-003:check")]
    season = file_of(of_season(nudges, SATURDAY, command))
    this_week = file_of(planned(nudges[0]), now=MORNING + timedelta(hours=1))
    assert len(phone(season, this_week)) == 2


def test_weekly_care_is_an_event_a_week() -> None:
    airing = nudge(window(-10, (-3, 60), 90), id="26-001:air", every=7)
    first = file_of(planned(airing))
    second = file_of(planned(airing, first=after(7)), now=MORNING + timedelta(days=7), before=first)
    assert sorted(days(each) for each in phone(first, second).values()) == [
        ("20260321", "20260328"),
        ("20260328", "20260404"),
    ]


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 9),  # days since the writing before
            st.integers(0, 2),  # entries since then
            st.dictionaries(st.sampled_from("abcd"), st.tuples(st.integers(-9, 9), st.integers(0, 20))),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_a_phone_that_has_read_every_file_shows_what_the_last_one_says(
    writings: list[tuple[int, int, dict[str, tuple[int, int]]]],
) -> None:
    files: list[bytes] = []
    today, entries = 0, 0
    for later, more, nudges in writings:
        today, entries = today + later, entries + more
        found = planned(
            *(
                nudge(
                    window(today + opens, (today + opens, today + opens + lasts), today + opens + lasts),
                    id=id_,
                )
                for id_, (opens, lasts) in nudges.items()
                if opens + lasts >= 0
            ),
            first=after(today),
        )
        now = MORNING + timedelta(days=today)
        files.append(file_of(found, now=now, entries=entries, before=files[-1] if files else None))
        assert faults(files[-1]) == set()
        shown = {uid: days(each) for uid, each in phone(*files).items()}
        ahead = {uid: span for uid, span in shown.items() if span[1] > f"{after(today):%Y%m%d}"}
        assert ahead == {uid: days(each) for uid, each in phone(files[-1]).items()}


def test_the_ids_are_those_of_the_first_files_ever_written() -> None:
    """If this fails, every event on every phone would stand there twice."""
    file = file_of(planned(nudge()))
    assert read(file).value("UID") == "57c494aa-6669-580a-b692-e4bfa32110be"
    assert [each.value("UID") for each in events(file)] == ["31a8a627-ef4c-5104-9dbe-e48eab559543"]


def test_an_empty_file_is_written_over() -> None:
    assert len(events(file_of(planned(nudge()), before=b"\r\n"))) == 1


OTHER = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//somebody else//EN\r\nEND:VCALENDAR\r\n"


@pytest.mark.parametrize(
    "stands", [b"Dear R.,\n", b"%PDF-1.7\n\xff\xfe", b"\x00", OTHER, GOOD + GOOD, GOOD[:-40]]
)
def test_a_file_of_another_kind_is_refused(stands: bytes) -> None:
    with pytest.raises(Refused, match="no calendar of this program; name another file"):
        file_of(planned(nudge()), before=stands)


def test_the_file_of_another_ledger_is_refused() -> None:
    with pytest.raises(Refused, match="the calendar of another ledger; name another file"):
        file_of(planned(nudge()), before=GOOD, ledger="20250101-000000000-0000000000")


DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "an id that is none": lambda file: file.replace(b"\r\nSEQ", b"\x00\r\nSEQ", 1),
    "no id": _without("UID:.*?\r\nSEQ"),
    "no start": _without("DTSTART"),
    "no end": _without("DTEND"),
    "two starts": _twice("DTSTART"),
    "a start that is no day": lambda file: file.replace(b"DATE:2026", b"DATE:x", 1),
    "the end first": lambda file: file.replace(b"DTEND;VALUE=DATE:2026", b"DTEND;VALUE=DATE:2025", 1),
    "a number that is none": lambda file: file.replace(b"SEQUENCE:", b"SEQUENCE:x", 1),
}


@pytest.mark.parametrize("how", DAMAGE)
def test_an_event_that_was_damaged_is_passed_over(how: str) -> None:
    damaged = DAMAGE[how](GOOD)
    assert damaged != GOOD
    file = file_of([], before=damaged)
    assert [each.value("UID") for each in events(file)] == [events(GOOD)[1].value("UID")]
    assert faults(file) == set()


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_no_damage_to_a_file_does_more_than_have_it_refused(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(GOOD)))
    to = data.draw(st.integers(at, min(at + 40, len(GOOD))))
    piece = data.draw(st.one_of(st.binary(max_size=6), st.sampled_from([b"\r\n", b":", b";", b"=", b'"'])))
    damaged = GOOD[:at] + piece + GOOD[to:]
    with contextlib.suppress(Refused):
        file = file_of(planned(nudge(id="26-009:pot")), before=damaged)
        assert faults(file) == set()
