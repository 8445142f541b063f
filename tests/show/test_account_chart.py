"""The charts of a year's account in letters: true to their counts, within their columns, with ASCII twins."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from cuttings.show.account_chart import (
    NARROW,
    SIGNS,
    End,
    MonthBars,
    StemBar,
    TakeRow,
    month_lines,
    month_words,
    shared,
    stem_lines,
    stem_words,
    take_lines,
    take_words,
    tenths,
    ticks,
)
from cuttings.show.plain import ascii_twin

BOX = StemBar(name="box", aside="semi-ripe cutting", ends={End.ON_THE_WAY: 15, End.WAITING: 2, End.LOST: 3})
IRIS = StemBar(name="Siberian iris", aside="crown division", ends={End.PLACE: 3, End.PASSED_ON: 2})
MONTHS = MonthBars(
    year=2026, stems=[0, 0, 3, 14, 5, 0, 0, 20, 2, 0, 12, 0], before=[0, 0, 0, 6, 9, 1, 0, 30, 2, 0, 0, 0]
)
TAKE = TakeRow(
    name="box", aside="semi-ripe cutting", counts="15 of 20 rooted", low=0.5, mean=0.7, high=0.85, usual=0.6
)
WIDTHS = [40, 60, 80, 120]

ends = st.fixed_dictionaries({end: st.integers(0, 400) for end in End})
names = st.text(max_size=40).map(lambda text: f"n{text}")
stem_bars = st.lists(st.builds(StemBar, name=names, aside=names, ends=ends), max_size=6)


def of_signs(line: str) -> str:
    """A line's bar: its signs in the columns after a name."""
    return line[27:].rstrip()


@pytest.mark.parametrize("width", WIDTHS)
def test_every_line_fits_and_has_a_twin_of_the_same_width(width: int) -> None:
    for lines in (stem_lines([BOX, IRIS], width), month_lines(MONTHS, width), take_lines([TAKE], width)):
        assert max(map(cell_len, lines)) <= width
        assert all(len(ascii_twin(line)) == len(line) for line in lines)


def test_a_bar_has_a_sign_for_each_stem_or_the_same_number_for_all() -> None:
    lines = stem_lines([BOX, IRIS], 80)
    assert of_signs(lines[2]) == "-" * 30 + ":" * 4 + "x" * 6
    assert of_signs(lines[3]) == "20: 15 on the way, 2 waiting, 3 lost"
    assert of_signs(lines[4]) == "=" * 6 + "+" * 4


def test_the_scale_stands_over_the_ends_of_the_bars() -> None:
    numbers, marks, box, *_ = stem_lines([BOX, IRIS], 80)
    assert numbers.endswith("20 stems")
    assert numbers.index("20") == marks.rindex("│") == len(box)


def test_on_a_narrow_screen_a_name_stands_over_its_bar() -> None:
    lines = stem_lines([IRIS], NARROW - 1)
    at = lines.index("Siberian iris, crown division")
    assert set(lines[at + 1]) == {"=", "+"}


def test_every_sign_is_explained_under_the_bars() -> None:
    key = " ".join(stem_lines([BOX], 40)[-2:])
    assert all(f"{sign} {end}" in key for end, sign in SIGNS.items())


@given(ends, st.integers(5, 100))
def test_a_bar_is_shared_out_whole_and_nobody_is_left_out(counts: dict[End, int], columns: int) -> None:
    bar = StemBar(name="n", aside="a", ends=counts)
    cells = shared(bar, columns)
    assert sum(cells) == (columns if bar.stems else 0)
    for end, count in zip(SIGNS, cells, strict=True):
        assert (count > 0) == (bar.ends[end] > 0)
        assert abs(count - bar.ends[end] * columns / max(bar.stems, 1)) <= len(End)


@given(stem_bars, st.sampled_from(WIDTHS))
def test_any_names_and_counts_fit(bars: Sequence[StemBar], width: int) -> None:
    lines = stem_lines(bars, width)
    assert max(map(cell_len, lines)) <= width
    assert len(stem_words(bars)) == len(bars)


def test_stems_that_stand_alike_are_said_once() -> None:
    assert StemBar(name="n", aside="a", ends={End.WAITING: 12}).words == "all 12 waiting"
    assert StemBar(name="n", aside="a", ends={End.WAITING: 1}).words == "1 waiting"


def test_months_show_this_year_and_how_far_the_one_before_came() -> None:
    lines = month_lines(MONTHS, 80)
    march, april, may, june = lines[4:8]
    assert march == "Mar  ======  3"
    assert april.count("=") + april.count("○") == 28
    assert april[5 + 11] == "○"
    assert may.index("○") == 5 + 17
    assert june.split() == ["Jun", "○"]
    assert lines[-1] == "= stems started in 2026   ○ how many in 2025"


def test_without_a_year_before_its_sign_is_not_explained() -> None:
    lines = month_lines(MonthBars(year=2026, stems=MONTHS.stems), 80)
    assert lines[-1] == "= stems started in 2026"
    assert not any("○" in line for line in lines)


def test_months_are_said_in_words() -> None:
    (said,) = month_words(MONTHS)
    assert "April 14, the year before 6" in said
    assert "January" not in said
    assert month_words(MonthBars(year=2026, stems=[0] * 12)) == []


def test_a_dot_lies_on_the_scale_where_its_share_is() -> None:
    numbers, marks, drawn, words, *_ = take_lines([TAKE], 80)
    start, end = marks.index("│"), marks.rindex("│")

    def share(sign: str) -> float:
        return (drawn.index(sign) - start) / (end - start)

    assert numbers.endswith("10 of 10")
    assert share("●") == pytest.approx(TAKE.mean, abs=0.02)
    assert share("○") == pytest.approx(TAKE.usual, abs=0.02)
    assert share("│") == pytest.approx(TAKE.low, abs=0.02)
    assert (drawn.rindex("│") - start) / (end - start) == pytest.approx(TAKE.high, abs=0.02)
    assert "15 of 20 rooted: about 7 of 10" in words


@given(
    st.tuples(*[st.floats(0.0, 1.0)] * 3).map(sorted),
    st.floats(0.0, 1.0),
    st.sampled_from(WIDTHS),
)
def test_any_range_is_drawn_within_the_scale(told: list[float], usual: float, width: int) -> None:
    low, mean, high = told
    row = TakeRow(name="n", aside="a", counts="1 of 2 took", low=low, mean=mean, high=high, usual=usual)
    lines = take_lines([row], width)
    assert max(map(cell_len, lines)) <= width
    assert sum(line.count("●") for line in lines) == 2  # one in the drawing, one in the key
    assert take_words([row])


@pytest.mark.parametrize(("share", "said"), [(0.0, "0"), (0.52, "5"), (0.56, "5.5"), (0.98, "10")])
def test_a_share_is_told_as_so_many_of_ten(share: float, said: str) -> None:
    assert tenths(share) == said


@given(st.integers(1, 20_000), st.floats(20.0, 1000.0))
def test_ticks_are_round_and_stand_apart(most: int, units: float) -> None:
    found = ticks(most, 4.0, units)
    assert found[0] == 0
    assert found[-1] <= most
    gaps = {after - before for before, after in pairwise(found)}
    assert len(gaps) <= 1
    assert all(gap * units / most >= 4.0 for gap in gaps)
