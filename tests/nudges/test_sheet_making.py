"""The sheet: what is on it, in which order, and that the minutes it tells are those it was planned for."""

import subprocess
import sys
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import Sheet
from cuttings.nudges.sheet_making import sheet_of
from cuttings.rules.advice import Window

MONDAY, SUNDAY = date(2026, 5, 4), date(2026, 5, 10)
WINDOW = Window(
    what="pot", opens=MONDAY, best=(MONDAY, SUNDAY), closes=SUNDAY, why="Roots.", source="common practice"
)


def nudge(name: str, area: str = "", minutes: int = 5, parts: int = 1, *, not_yet: bool = False) -> Nudge:
    return Nudge(
        id=name,
        job="Pot {}",
        name=name,
        window=WINDOW,
        area=area,
        minutes=minutes,
        parts=parts,
        not_yet=not_yet,
    )


WEEK = [
    (nudge("currant", "north wall", 48, 8), 1, 4.0),
    (nudge("iris", "wet corner", 20), 2, 1.0),
    (nudge("box", "north wall", 10), 3, 0.0),
    (nudge("rosemary", "holding bench", 10), 4, 5.0),
    (nudge("frost dates", minutes=2), 5, 9.0),
    (nudge("snowdrop", "orchard edge", 15, not_yet=True), 6, 3.0),
    (nudge("heuchera", "gate strip", 10), 7, 0.0),
    (nudge("lungwort", "wet corner", 5), 8, 4.0),
]


def told(sheet: Sheet) -> list[tuple[str, list[tuple[int, int]]]]:
    return [(stop.area, [(item.number, item.taken) for item in stop.items]) for stop in sheet.stops]


def test_without_a_budget_everything_is_planned_and_what_saves_most_is_gone_to_first() -> None:
    sheet = sheet_of(WEEK, MONDAY, SUNDAY, walk=5)
    assert told(sheet) == [
        ("holding bench", [(4, 1)]),  # saves as much as the wet corner, in fewer minutes
        ("wet corner", [(8, 1), (2, 1)]),
        ("north wall", [(1, 2), (3, 1)]),
        ("gate strip", [(7, 1)]),
        ("", [(5, 1)]),
    ]
    assert sheet.left == ()
    assert [item.number for item in sheet.not_yet] == [6]
    assert (sheet.budget, sheet.minutes) == (None, 10 + 25 + 68 + 10 + 2 + 4 * 5)


def test_with_a_budget_the_rest_is_left_what_loses_most_first() -> None:
    sheet = sheet_of(WEEK, MONDAY, SUNDAY, 60, 5)
    assert told(sheet) == [
        ("holding bench", [(4, 1)]),
        ("wet corner", [(8, 1)]),
        ("north wall", [(1, 1)]),
        ("", [(5, 1)]),
    ]
    assert sheet.minutes == 10 + 5 + 24 + 2 + 3 * 5
    assert [(item.number, item.risk) for item in sheet.left] == [(1, 2.0), (2, 1.0), (3, 0.0), (7, 0.0)]


def test_with_no_minutes_at_all_everything_is_left() -> None:
    sheet = sheet_of(WEEK, MONDAY, SUNDAY, 0, 5)
    assert (sheet.stops, sheet.minutes) == ((), 0)
    assert [item.number for item in sheet.left] == [5, 4, 1, 8, 2, 3, 7]
    assert sheet.risk == 23.0


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["north wall", "wet corner", ""]),
            st.integers(0, 90),
            st.integers(1, 6),
            st.booleans(),
            st.floats(0, 9),
        ),
        max_size=20,
    ),
    st.none() | st.integers(0, 400),
    st.integers(0, 20),
)
def test_each_nudge_is_told_and_no_sheet_is_over_its_minutes(
    drawn: list[tuple[str, int, int, bool, float]], budget: int | None, walk: int
) -> None:
    week = [
        (nudge(f"lot {number}", area, minutes, parts, not_yet=not_yet), number, cost)
        for number, (area, minutes, parts, not_yet, cost) in enumerate(drawn)
    ]
    sheet = sheet_of(week, MONDAY, SUNDAY, budget, walk)
    planned = {item.number for stop in sheet.stops for item in stop.items}
    left = {item.number for item in sheet.left}
    waiting = {item.number for item in sheet.not_yet}
    assert planned | left == {number for each, number, _ in week if not each.not_yet}
    assert waiting == {number for each, number, _ in week if each.not_yet}
    assert all(not item.whole for item in sheet.left)
    assert all(item.whole or item.number in left for stop in sheet.stops for item in stop.items)
    assert budget is None or sheet.minutes <= budget
    assert budget is not None or not left
    assert [item.risk for item in sheet.left] == sorted((item.risk for item in sheet.left), reverse=True)
    assert "" not in [stop.area for stop in sheet.stops[:-1]]


PLAIN = """
import sys
from datetime import date
from cuttings.nudges.sheet_making import sheet_of
sheet_of([], date(2026, 5, 4), date(2026, 5, 10))
assert "numpy" not in sys.modules
sheet_of([], date(2026, 5, 4), date(2026, 5, 10), 60)
assert "numpy" in sys.modules
"""


def test_numpy_is_loaded_only_where_minutes_are_counted() -> None:
    subprocess.run([sys.executable, "-c", PLAIN], check=True)
