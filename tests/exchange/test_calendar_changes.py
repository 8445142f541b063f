"""The calendar file written again: what moves, what is called off, and what stands in its way."""

import contextlib
from collections.abc import Callable
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.errors import Refused
from cuttings.exchange.events import of_season
from tests.exchange.checks import Part, events, faults, read, stopped
from tests.exchange.making import (
    GOOD,
    MORNING,
    SATURDAY,
    after,
    command,
    days,
    file_of,
    nudge,
    planned,
    twice,
    window,
    without,
)


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
    "no id": without("UID:.*?\r\nSEQ"),
    "no start": without("DTSTART"),
    "no end": without("DTEND"),
    "two starts": twice("DTSTART"),
    "a start that is no day": lambda file: file.replace(b"DATE:2026", b"DATE:x", 1),
    "the end first": lambda file: file.replace(b"DTSTART;VALUE=DATE:2026", b"DTSTART;VALUE=DATE:2027", 1),
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
