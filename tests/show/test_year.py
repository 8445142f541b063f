"""Pictures of a year: they fit, they are plain letters, and they stand under the right months."""

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.show.year import Band, Bar, band_lines, bar_lines, month_line, odds_line, odds_table

WIDTHS = st.integers(40, 200)
DAYS = st.integers(1, 365)
DEGREES = st.floats(-60.0, 130.0)
MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
TENTHS = [f"{tenth} %" for tenth in range(10, 100, 10)]
COLD = Band(
    [(-19, -13, -7), (-18, -12, -5), (-12, -6, 0), (-5, -1, 4), (0, 4, 9), (4, 9, 14),
     (7, 11, 16), (6, 10, 15), (1, 6, 12), (-3, 2, 7), (-9, -3, 3), (-16, -9, -2)], 0.0, "C"
)  # fmt: skip
"""The nights of a cold-winter garden, °C, invented."""


@st.composite
def bands(draw: st.DrawFn) -> Band:
    months = [sorted(draw(st.tuples(DEGREES, DEGREES, DEGREES))) for _ in range(12)]
    return Band(
        [(low, middle, high) for low, middle, high in months], draw(st.sampled_from([0.0, 32.0])), "F"
    )


def day(month: int, of_month: int) -> int:
    return date(2023, month, of_month).timetuple().tm_yday


def under(line: str, width: int) -> set[str]:
    """The months whose columns hold something in a line of the picture."""
    head = month_line(width)
    begins = [head.index(name) for name in MONTHS]
    each = begins[1] - begins[0]
    return {
        name for name, column in zip(MONTHS, begins, strict=True) if line[column : column + each].strip(" ")
    }


@given(bands(), DAYS, DAYS, st.text("abcdefgh ,", max_size=30), WIDTHS)
def test_every_line_of_a_picture_fits_in_plain_letters(
    band: Band, first: int, last: int, name: str, width: int
) -> None:
    lines = [
        month_line(width),
        *band_lines(band, width),
        *bar_lines(Bar(name, (first, last), (first, last)), width),
        odds_line(name, [first / 365] * 365, width),
    ]
    assert max(map(len, lines)) <= width
    assert all(line.isascii() and line == line.rstrip() for line in lines[1:])


@given(st.lists(st.lists(st.just("31 Dec"), min_size=9, max_size=9), min_size=1, max_size=6), WIDTHS)
def test_a_table_fits_and_keeps_the_outer_and_the_middle_chances(rows: list[list[str]], width: int) -> None:
    lines = odds_table("", [("-15.6 C", row) for row in rows], TENTHS, width)
    assert max(map(len, lines)) <= width
    assert len({len(line) for line in lines}) == 1
    for outer in ("10 %", "50 %", "90 %"):
        assert outer in lines[0]


@pytest.mark.parametrize(
    ("width", "shown"),
    [
        (120, TENTHS),
        (80, ["10 %", "30 %", "50 %", "70 %", "90 %"]),
        (40, ["10 %", "50 %", "90 %"]),
        (20, ["50 %"]),
    ],
)
def test_a_table_has_as_many_columns_as_there_is_room_for(width: int, shown: Sequence[str]) -> None:
    dates = [f"{number} May" for number in range(10, 19)]
    head, row = odds_table("chance", [("32 F", dates)], TENTHS, width)
    assert re.findall(r"\d+ %", head) == shown
    assert re.findall(r"\d+ May", row) == [dates[TENTHS.index(each)] for each in shown]


def test_a_bar_stands_under_the_months_of_its_window() -> None:
    for width in (80, 120):
        (line,) = bar_lines(Bar("plant", (day(4, 3), day(6, 28)), (day(5, 3), day(5, 28))), width)
        assert line.startswith("plant ")
        assert under(line, width) == {"Apr", "May", "Jun"}
        assert under(line.replace("-", " "), width) == {"May"}


def test_a_bar_that_passes_new_year_is_drawn_at_both_ends() -> None:
    (line,) = bar_lines(Bar("hardwood", (day(11, 3), day(2, 26)), (day(12, 3), day(12, 26))), 80)
    assert under(line, 80) == {"Jan", "Feb", "Nov", "Dec"}
    assert under(line.replace("-", " "), 80) == {"Dec"}


@given(DAYS, WIDTHS)
def test_even_one_day_is_seen(on: int, width: int) -> None:
    *_, drawn = bar_lines(Bar("day", (on, on), (on, on)), width)
    assert "=" in drawn


def test_a_name_too_long_for_its_column_is_whole_above_its_bar() -> None:
    bar = Bar("autumn, evergreens", (day(8, 1), day(9, 30)), (day(8, 1), day(9, 30)))
    assert len(bar_lines(bar, 80)) == 1
    name, drawn = bar_lines(bar, 40)
    assert name == "autumn, evergreens"
    assert drawn.strip("=").isspace()


def test_the_band_falls_from_the_warmest_to_the_coldest_without_empty_lines() -> None:
    lines = band_lines(COLD, 80)
    levels = [int(line.split()[0]) for line in lines]
    assert all(upper > lower for upper, lower in pairwise(levels))
    assert len({upper - lower for upper, lower in pairwise(levels)}) == 1
    assert all(line.split()[1] == "C" for line in lines)
    assert all(set(line[17:]) & set(":=") for line in lines)
    assert 4 <= len(lines) <= 10


@given(bands(), WIDTHS)
def test_every_column_of_the_band_has_its_middle(band: Band, width: int) -> None:
    lines = band_lines(band, width)
    label = month_line(width).index("J")
    columns = len(month_line(width).rstrip()) - label
    for column in range(label, label + columns):
        assert any(line[column : column + 1] == "=" for line in lines)


def test_freezing_is_dotted_where_no_night_lies_near_it() -> None:
    frozen = next(line for line in band_lines(COLD, 80) if line.split()[0] == "0")
    assert {"Jan", "Jul"} <= under("".join(c if c == "." else " " for c in frozen), 80)


def test_odds_are_tenths_and_nothing_where_there_are_none() -> None:
    chances = [0.99] * 100 + [0.5] * 50 + [0.04] * 100 + [None] * 115
    line = odds_line("frost", chances, 80)
    assert line.startswith("frost ")
    assert set(line[19:]) == {"9", "5"}
    assert under(line, 80) == {"Jan", "Feb", "Mar", "Apr", "May"}


def test_certain_frost_is_not_written_with_two_figures() -> None:
    assert set(odds_line("", [1.0] * 365, 80).strip()) == {"9"}


def test_months_are_letters_where_there_is_no_room_for_more() -> None:
    assert month_line(40).split() == list("JFMAMJJASOND")
    assert month_line(80).split() == MONTHS
