"""The picture of windows in letters: it fits, its bars are where their days are, and each says what it is."""

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import accumulate

import pytest
from attrs import frozen
from hypothesis import given
from hypothesis import strategies as st

from cuttings.show.page import Page
from cuttings.show.plain import ascii_twin
from cuttings.show.timeline import Row, Section, Span, shown, timeline_lines, timeline_words

WIDTHS = (40, 60, 80, 120, 200)
FIRST = date(2026, 4, 1)
NAME = "26-004 red currant"
WORDS = ("look", "pot", "harden", "plant", "lift", "feed", "shelter")
NASTY = (
    "", "x" * 300, "½" * 90, "名" * 60, "e\u0301" * 80, "\x1b[31mred\x1b[0m\n\t\u202e", "- = | . ' < >",
    "…", "ß°×",
)  # fmt: skip
BAR = r"-+=-{2,}"

days = st.integers(-60, 400).map(lambda number: FIRST + timedelta(days=number))
ranges = st.integers(27, 380).map(lambda number: FIRST + timedelta(days=number))


@st.composite
def spans(draw: st.DrawFn, what: str = "pot") -> Span:
    if draw(st.booleans()):
        opens, begin, end, closes = sorted(draw(st.tuples(days, days, days, days)))
    else:  # short enough for several of them on a line
        lengths = st.lists(st.integers(0, 8), min_size=3, max_size=3)
        opens, begin, end, closes = accumulate(
            draw(lengths), lambda day, length: day + timedelta(days=length), initial=draw(days)
        )
    return Span(what=what, opens=opens, best=(begin, end), closes=closes, pressing=draw(st.booleans()))


@st.composite
def rows(draw: st.DrawFn) -> Row:
    words = draw(st.lists(st.sampled_from(WORDS), min_size=1, max_size=7, unique=True))
    return Row(NAME, [draw(spans(word)) for word in words])


@frozen
class Axis:
    """Where the calendar lies in a drawing, told by the mark for today in drawings of the same windows."""

    sections: Sequence[Section]
    last: date
    width: int

    def lines(self, today: date = date(1990, 1, 1)) -> list[str]:
        return timeline_lines(self.sections, FIRST, self.last, today, self.width)

    @property
    def columns(self) -> int:
        return self.width - self.left - 1

    @property
    def left(self) -> int:
        """The column of the line in which the calendar begins, after a name or a word and a blank each."""
        row = self.sections[0].rows[0]
        if self.width < 60:
            words = [span.what + (" now" if span.pressing else "") for span in row.spans]
            return min(max(len(word) + 3 for word in words), self.width * 2 // 5) + 1
        return min(len(row.name) + 1, self.width // 3) + 1

    def middle(self, day: date) -> float:
        """Where the middle of a day lies, in columns of the calendar, reckoned from its length alone."""
        day = min(max(day, FIRST), self.last)
        total = (self.last - FIRST).days + 1
        return ((day - FIRST).days + 0.5) * self.columns / total


@frozen
class Drawn:
    """One bar as it was read from a drawing, its columns counted from the beginning of the calendar."""

    word: str
    begin: int
    bar: str
    before: bool
    after: bool


def read(axis: Axis) -> Iterator[Drawn]:
    lines = axis.lines()
    body = lines[lines.index("kitchen side") + 1 : lines.index("")]
    for line in body:
        label, rest = line[: axis.left - 1].strip(), line[axis.left - 1 :].ljust(axis.columns + 2)
        cells = re.sub(r"[.|]", " ", rest[1:-1])
        pieces = list(re.finditer(r"\S+(?: {1,2}\S+)*", cells)) if re.search("[-=]", cells) else []
        for number, piece in enumerate(pieces):
            bar = re.search(r"[-=]+", piece.group())
            assert bar is not None
            yield Drawn(
                word=piece.group().replace(bar.group(), "").strip() or label,
                begin=piece.start() + bar.start(),
                bar=bar.group(),
                before=number == 0 and rest[0] == "<",
                after=number == len(pieces) - 1 and rest[-1] == ">",
            )


@given(rows(), ranges, st.sampled_from(WIDTHS))
def test_every_window_is_drawn_once_beside_its_word_within_half_a_column(
    row: Row, last: date, width: int
) -> None:
    agrees(row, last, width)


@pytest.mark.parametrize("width", WIDTHS)
def test_windows_that_follow_one_another_keep_their_words(width: int) -> None:
    for step in range(1, 45):
        opening = [FIRST + timedelta(days=step * number) for number in range(len(WORDS))]
        followed = [
            Span(what=word, opens=day, best=(day, day), closes=day + timedelta(days=6))
            for word, day in zip(WORDS, opening, strict=True)
        ]
        agrees(Row(NAME, followed), FIRST + timedelta(days=330), width)


def agrees(row: Row, last: date, width: int) -> None:
    """Whether the bars and the words of a drawing are those of the row's windows, each where its days are."""
    sections = shown([Section("kitchen side", [row])], FIRST, last)
    if not sections:
        return
    axis = Axis(sections, last, width)
    drawn = {each.word: each for each in read(axis)}
    told = {span.what + (" now" if span.pressing else ""): span for span in sections[0].rows[0].spans}
    assert set(drawn) == set(told)
    assert len(list(read(axis))) == len(told)
    for word, span in told.items():
        bar = drawn[word]
        assert abs(bar.begin + 0.5 - axis.middle(span.opens)) <= 0.5 + 1e-9
        assert abs(bar.begin + len(bar.bar) - 0.5 - axis.middle(span.closes)) <= 0.5 + 1e-9
        begin, end = span.best
        assert ("=" in bar.bar) is (begin <= last and end >= FIRST)
        if "=" in bar.bar:
            first, after = bar.bar.index("="), bar.bar.rindex("=")
            assert set(bar.bar[first : after + 1]) == {"="}
            assert abs(bar.begin + first + 0.5 - axis.middle(begin)) <= 0.5 + 1e-9
            assert abs(bar.begin + after + 0.5 - axis.middle(end)) <= 0.5 + 1e-9
        if span.opens < FIRST and bar.begin == 0:
            assert bar.before
        if span.closes > last:
            assert bar.after


@given(st.lists(rows(), min_size=1, max_size=4), days, ranges, st.integers(40, 200))
def test_no_line_is_wider_than_the_terminal(several: list[Row], today: date, last: date, width: int) -> None:
    lines = timeline_lines([Section("kitchen side", several)], FIRST, last, today, width)
    assert max(map(len, lines)) <= width
    assert all(line.isascii() and line == line.rstrip() for line in lines)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("nasty", NASTY)
def test_names_of_any_letters_leave_the_bars_where_they_are(nasty: str, width: int) -> None:
    from rich.cells import cell_len

    span = Span(what=nasty[:40], opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 5, 1))
    plain = Span(what="pot", opens=date(2026, 6, 1), best=(date(2026, 6, 15),) * 2, closes=date(2026, 7, 20))
    several = [Section(nasty, [Row(nasty, [span, plain]), Row(NAME, [plain])])]
    lines = timeline_lines(several, FIRST, date(2026, 8, 31), date(2026, 4, 20), width)
    for line in (*lines, *map(ascii_twin, lines)):
        assert cell_len(line) <= width
    assert not any(ord(letter) < 0x20 or letter == "\u202e" for line in lines for letter in line)
    bars = [line for line in lines if re.search(BAR, line)]
    assert len(bars) == 2
    assert len({cell_len(line[: re.search(BAR, line).start()]) for line in bars}) == 1  # type: ignore[union-attr]
    assert [ascii_twin(line).count("=") for line in lines] == [line.count("=") for line in lines]


def test_months_stand_over_their_first_days_and_weeks_where_there_is_room() -> None:
    span = Span(what="pot", opens=date(2026, 6, 1), best=(date(2026, 6, 1),) * 2, closes=date(2026, 6, 1))
    for width, june in ((40, "Jun"), (60, "Jun"), (80, "June"), (120, "June"), (200, "June")):
        months, ticks, *_ = lines = timeline_lines(
            [Section("s", [Row(NAME, [span])])], FIRST, date(2026, 9, 30), date(2026, 6, 1), width
        )
        bar = next(line for line in lines[2:] if "=" in line)
        assert months[bar.index("=") :].split()[0] == june
        assert ticks[bar.index("=")] == "|"
        assert ("'" in ticks) is (width >= 80)
        assert ("' Monday" in " ".join(lines)) is (width >= 80)


def test_a_range_that_begins_within_a_month_says_so_only_where_there_is_room() -> None:
    span = Span(what="pot", opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 12, 1))
    for first in (date(2026, 4, 28), date(2026, 4, 2)):
        for width in WIDTHS:
            months = timeline_lines(
                [Section("s", [Row(NAME, [span])])], first, date(2026, 9, 3), first, width
            )[0]
            assert "M" in months
            assert len(months) <= width


def test_a_bar_too_long_for_its_word_has_it_under_the_name() -> None:
    span = Span(
        what="pot",
        opens=date(2026, 1, 1),
        best=(date(2026, 5, 1), date(2026, 5, 20)),
        closes=date(2027, 1, 1),
    )
    lines = timeline_lines([Section("s", [Row(NAME, [span])])], FIRST, date(2026, 9, 30), FIRST, 80)
    assert lines[3] == NAME
    assert lines[4].startswith("  pot ")
    assert re.search(r"<-+=+-+>$", lines[4])


def test_what_lies_outside_the_days_is_not_drawn() -> None:
    gone = Span(what="pot", opens=date(2025, 1, 1), best=(date(2025, 1, 1),) * 2, closes=date(2025, 2, 1))
    assert shown([Section("s", [Row("a", [gone])])], FIRST, date(2026, 9, 30)) == []
    assert timeline_words([Section("s", [Row("a", [gone])])], FIRST, date(2026, 9, 30), FIRST) == []


def test_the_same_in_words() -> None:
    pot = Span(
        what="pot", opens=date(2026, 5, 3), best=(date(2026, 5, 3), date(2026, 5, 24)),
        closes=date(2026, 6, 14), pressing=True,
    )  # fmt: skip
    plant = Span(
        what="plant", opens=date(2027, 4, 7), best=(date(2027, 4, 24), date(2027, 6, 5)),
        closes=date(2027, 7, 3),
    )  # fmt: skip
    lift = Span(
        what="lift", opens=date(2026, 12, 1), best=(date(2026, 12, 1), date(2027, 1, 9)),
        closes=date(2027, 1, 9),
    )  # fmt: skip
    look = Span(what="look", opens=FIRST, best=(FIRST, FIRST), closes=FIRST)
    air = Span(what="air", opens=FIRST, best=(date(2026, 4, 3),) * 2, closes=date(2026, 4, 9))
    said = timeline_words(
        [Section("kitchen side", [Row(NAME, [plant, pot, lift, look, air])])], FIRST, date(2027, 6, 1), FIRST
    )
    assert said == [
        "kitchen side:",
        f"{NAME}: look on 1 April.",
        f"{NAME}: air from 1 to 9 April, best on 3 April.",
        f"{NAME}: pot now from 3 May to 14 June, best 3 to 24 May.",
        f"{NAME}: lift from 1 December to 9 January 2027.",
        f"{NAME}: plant from 7 April to 3 July 2027, best 24 April to 5 June 2027.",
    ]


def test_the_picture_goes_through_a_page() -> None:
    span = Span(what="pot", opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 6, 1))
    sections = [Section("s", [Row(NAME, [span])])]
    page = Page().drawing(lambda width: timeline_lines(sections, FIRST, date(2026, 9, 30), FIRST, width))
    for width in WIDTHS:
        drawn = ["".join(text for text, _ in line) for line in page.lines(width)]
        assert drawn == timeline_lines(sections, FIRST, date(2026, 9, 30), FIRST, width)
