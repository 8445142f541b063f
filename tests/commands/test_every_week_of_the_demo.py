"""All 104 weeks of the demo garden's two years: nothing contradicts anything, and nothing comes too late."""

from collections import Counter
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.commands.running import cuttings, demo_garden

LAST_DAY = date(2026, 12, 31)
FIRST_WEEK = date(2025, 1, 4)
WEEKS = 104

AGAINST = (
    {"plant", "winter"},  # into the ground, and into shelter
    {"plant", "hold"},
    {"plant", "harden"},
    {"plant", "pot-on"},
    {"plant", "look-in"},
    {"pot-on", "winter"},
    {"feed", "winter"},
    {"feed", "look-in"},
    {"out", "winter"},
    {"out", "vent"},
    {"vent", "winter"},
    {"pots", "look-in"},  # thirsty in summer, at rest in winter
    {"mulch", "heave"},
    {"air", "clean"},  # the second says the first and more
    {"rid", "plant"},
    {"rid", "pot"},
)
"""Kinds of work that may not be asked for one lot in one week, unless other stems of it are meant."""


FORECASTS = (
    (),
    ("--low", "24F", "--high", "41F", "--rain", "0.2in"),
    ("--low", "66F", "--high", "95F", "--rain", "0"),
    ("--low", "50F", "--high", "60F", "--rain", "3in"),
)
"""None, a frost, a heat wave, and a week of rain; whatever the season, for forecasts are mistyped too."""


def week(ledger: Path, first: date, forecast: tuple[str, ...]) -> list[dict[str, Any]]:
    words = ("week", "--from", first.isoformat(), *forecast, "--json")
    document = cuttings(*words, ledger=ledger, today=LAST_DAY).document
    nudges: list[dict[str, Any]] = document["nudges"]
    return nudges


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_garden(tmp_path_factory.mktemp("weeks") / "demo", LAST_DAY)


@pytest.mark.parametrize("forecast", FORECASTS, ids=["none", "frost", "heat", "rain"])
@pytest.mark.parametrize("quarter", range(8))
def test_no_week_contradicts_itself_or_comes_too_late(
    quarter: int, forecast: tuple[str, ...], garden: Path
) -> None:
    for number in range(quarter * WEEKS // 8, (quarter + 1) * WEEKS // 8):
        first = FIRST_WEEK + timedelta(weeks=number)
        last = first + timedelta(days=6)
        found = week(garden, first, forecast)
        _in_time(found, first, last)
        _each_once(found, first)
        for lot in {nudge["lot"] for nudge in found if nudge["lot"]}:
            _of_one_mind([nudge for nudge in found if nudge["lot"] == lot], first)
        _nothing_done_and_left(found, first)


def _in_time(found: list[dict[str, Any]], first: date, last: date) -> None:
    for nudge in found:
        window = nudge["window"]
        assert window["opens"] <= last.isoformat(), (first, nudge["id"])
        assert window["closes"] >= first.isoformat(), (first, nudge["id"])


def _each_once(found: list[dict[str, Any]], first: date) -> None:
    for key in ("id", "number", "what"):
        twice = [value for value, times in Counter(nudge[key] for nudge in found).items() if times > 1]
        assert not twice, (first, twice)


def _of_one_mind(nudges: list[dict[str, Any]], first: date) -> None:
    kinds = {nudge["id"].rpartition(":")[2].removesuffix("-more") for nudge in nudges}
    wrong = [pair for pair in AGAINST if pair <= kinds]
    assert not wrong, (first, nudges[0]["lot"], wrong)
    hopeless = any(nudge["what"].startswith("Give up") for nudge in nudges)
    assert not (hopeless and kinds & {"air", "clean"}), (first, nudges[0]["lot"])


def _nothing_done_and_left(found: list[dict[str, Any]], first: date) -> None:
    """What is to be left alone is not asked for by another nudge."""
    asked = {nudge["id"] for nudge in found if not nudge["not_yet"]}
    for nudge in found:
        if nudge["not_yet"]:
            assert nudge["minutes"] == 0
            assert nudge["id"].removesuffix(":wait") not in asked, (first, nudge["id"])
    cut = {nudge["site"] for nudge in found if nudge["what"].startswith("Cutting back")}
    uncut = {nudge["site"] for nudge in found if nudge["what"].startswith("Do not cut back")}
    assert not cut & uncut - {None}, first


def test_every_season_has_its_work(garden: Path) -> None:
    """The walk would hold nothing if the sheets were empty."""
    kinds = {
        nudge["id"].rpartition(":")[2]
        for number in range(WEEKS)
        for nudge in week(garden, FIRST_WEEK + timedelta(weeks=number), ())
    }
    assert kinds >= {"check", "pot", "air", "shade", "feed", "harden", "plant", "water", "pots", "winter",
                     "look-in", "out", "mulch", "heave", "labels", "prunings"}  # fmt: skip


def test_the_walk_notices_what_it_is_there_for() -> None:
    def said(kind: str, what: str = "x") -> dict[str, Any]:
        return {"id": f"26-001:{kind}", "lot": "26-001", "what": what}

    with pytest.raises(AssertionError):
        _of_one_mind([said("plant"), said("winter")], FIRST_WEEK)
    with pytest.raises(AssertionError):
        _of_one_mind([said("air"), said("check", "Give up 26-001")], FIRST_WEEK)
    _of_one_mind([said("plant"), said("pots")], FIRST_WEEK)
