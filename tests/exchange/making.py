"""Nudges, sheets and calendar files made by hand, and ways to break a file."""

import re
from collections.abc import Callable, Iterable
from datetime import date, datetime, timedelta, timezone
from typing import Any

from cuttings.exchange.calendar import calendar_of
from cuttings.exchange.events import Event, of_week
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss, Nudge
from cuttings.nudges.sheet import Item, Sheet, Sitting, Stop
from cuttings.rules.advice import Window
from tests.exchange.checks import Part

SATURDAY = date(2026, 3, 21)


def after(days: int) -> date:
    """So many days after the Saturday on which the sheet begins."""
    return SATURDAY + timedelta(days=days)


def window(opens: int, best: tuple[int, int], closes: int, **more: Any) -> Window:
    """A window by its days after that Saturday."""
    told = {"what": "pot", "why": "The roots hold the mix.", "source": "common practice", **more}
    return Window(opens=after(opens), best=(after(best[0]), after(best[1])), closes=after(closes), **told)


def nudge(its_window: Window | None = None, **more: Any) -> Nudge:
    its_window = its_window or window(-10, (-3, 12), 40)
    told: dict[str, Any] = {
        "id": "26-001:pot",
        "job": "Pot {}",
        "name": "26-001 red currant",
        "task": "pot",
        "lot": "26-001",
        "area": "north wall",
        "minutes": 18,
        "loss": Loss(plants=3.0, late=between(its_window.best[1], its_window.closes)),
        **more,
    }
    return Nudge(window=its_window, **told)


def item(each: Nudge, *, taken: int = 1, cost: float = 0.4) -> Item:
    return Item(nudge=each, number=1, cost=cost, sittings=(Sitting(each.minutes, each.parts),), taken=taken)


def sheet(*planned: Item, left: tuple[Item, ...] = (), first: date = SATURDAY) -> Sheet:
    stops = tuple(Stop(area=each.nudge.area, items=(each,)) for each in planned)
    return Sheet(first=first, last=first + timedelta(days=6), stops=stops, left=left)


def command(each: Nudge) -> str:
    return f"cuttings {each.task} {each.lot}" if each.task else ""


def planned(*nudges: Nudge, first: date = SATURDAY) -> tuple[Event, ...]:
    """The events of a sheet on which all of these are planned."""
    return of_week(sheet(*(item(each) for each in nudges), first=first), command)


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
    """The first day of an event, and the day after its last."""
    return event.value("DTSTART"), event.value("DTEND")


def without(name: str) -> Callable[[bytes], bytes]:
    """Takes the first line that begins like this out of a file."""
    return lambda file: re.sub(rb"\r\n%s[^\r]*" % name.encode(), b"", file, count=1)


def twice(name: str) -> Callable[[bytes], bytes]:
    """Doubles the first line of a file that begins like this."""
    return lambda file: re.sub(rb"(\r\n%s[^\r]*)" % name.encode(), rb"\1\1", file, count=1)
