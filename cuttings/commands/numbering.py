"""The numbers by which the nudges of a sheet are ticked off, kept beside the ledger as they were shown."""

import contextlib
import json
import os
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from attrs import astuple, evolve, field, frozen

from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.nudges.outlook import FAIR, Outlook

FILE = "week.json"
MOST_SHEETS = 8
"""How many sheets are remembered, the ones shown last."""


@frozen
class Shown:
    """A sheet that was shown: its first and last day, the number of each nudge's id on it, and the forecast
    that it was asked under."""

    first: date
    last: date
    numbers: Mapping[str, int] = field(factory=dict)
    outlook: Outlook = FAIR

    def with_ids(self, ids: Iterable[str]) -> "Shown":
        """The sheet with a number for each id: the one it has, or else the next."""
        new = [each for each in dict.fromkeys(ids) if each not in self.numbers]
        start = max(self.numbers.values(), default=0) + 1
        return evolve(self, numbers={**self.numbers, **{each: start + n for n, each in enumerate(new)}})


@frozen
class Found:
    """A nudge that was named: its id, the days of the sheet it was named on (``None`` where it stands on none
    that is remembered), and the forecast of that sheet."""

    id: str
    days: tuple[date, date] | None = None
    outlook: Outlook = FAIR


def numbers_for(
    folder: Path, first: date, last: date, ids: Iterable[str], outlook: Outlook = FAIR
) -> dict[str, int]:
    """The numbers of nudges on the sheet of those days, which is now the one shown last.

    A sheet that begins on the same day keeps its numbers, however long it is; another begins at 1. Where
    nothing can be kept beside the ledger, for its folder is not there yet or may not be written to, they are
    told all the same.
    """
    sheets = list(_sheets(folder))
    before = next((sheet for sheet in sheets if sheet.first == first), None)
    now = evolve((before or Shown(first, last)).with_ids(ids), last=last, outlook=outlook)
    if not sheets or sheets[-1] != now:
        _keep(folder, [*(sheet for sheet in sheets if sheet is not before), now][-MOST_SHEETS:])
    return dict(now.numbers)


def find(folder: Path, text: str, first: date | None = None, on: date | None = None) -> Found:
    """The nudge that a number stands for: on the sheet shown last, the one that began on ``first``, or the
    last that holds the day ``on``; or that goes by an id.

    Raises:
        Refused: there is no such sheet, or no such number on it.
    """
    word = text.strip()
    shown = list(reversed(_sheets(folder)))
    sheets = [
        sheet
        for sheet in shown
        if (first is None or sheet.first == first) and (on is None or sheet.first <= on <= sheet.last)
    ]
    if ":" in word:
        its = next((sheet for sheet in sheets if word in sheet.numbers), None)
        return Found(word) if its is None else Found(word, (its.first, its.last), its.outlook)
    if not sheets:
        day = first or on
        begins = "" if day is None else f" that begins on {spoken(day)}"
        again = "" if day is None else f" --from {day.isoformat()}"
        raise Refused(
            f"No sheet{begins} has been shown yet; 'cuttings week{again}' shows it, with its numbers."
        )
    sheet = sheets[0]
    for nudge, number in sheet.numbers.items():
        if word == str(number):
            return Found(nudge, (sheet.first, sheet.last), sheet.outlook)
    span = f"from {spoken(sheet.first)} to {spoken(sheet.last)}"
    has = f"its numbers go from 1 to {len(sheet.numbers)}" if sheet.numbers else "nothing stands on it"
    raise Refused(f"There is no number '{word}' on the sheet {span}; {has}.")


def _sheets(folder: Path) -> Sequence[Shown]:
    """The sheets that are remembered, the one shown last at the end; none if the file cannot be read."""
    try:
        document = json.loads((folder / FILE).read_bytes())
        return [_shown(sheet) for sheet in document["sheets"]]
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return []


def _shown(sheet: Mapping[str, Any]) -> Shown:
    numbers = {str(nudge): int(number) for nudge, number in sheet["numbers"].items()}
    outlook = Outlook(*sheet.get("outlook", ()))
    return Shown(date.fromisoformat(sheet["from"]), date.fromisoformat(sheet["to"]), numbers, outlook)


def _keep(folder: Path, sheets: Sequence[Shown]) -> None:
    """Write the file under a name of its own and put it in its place, if the folder lets us."""
    document = {
        "sheets": [
            {
                "from": sheet.first.isoformat(),
                "to": sheet.last.isoformat(),
                "outlook": astuple(sheet.outlook),
                "numbers": sheet.numbers,
            }
            for sheet in sheets
        ]
    }
    fresh = folder / f"{FILE}.{os.urandom(6).hex()}"
    try:
        fresh.write_text(json.dumps(document, indent=1), encoding="utf-8")
        fresh.replace(folder / FILE)
    except OSError:  # the sheet is worth showing without it
        with contextlib.suppress(OSError):
            fresh.unlink()
