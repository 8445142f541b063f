"""The picture of windows as SVG: whole, in agreement with its own calendar, and legible."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import combinations
from unicodedata import normalize
from xml.etree import ElementTree as ET

import pytest
from attrs import frozen
from hypothesis import given

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.commands.season_view import season_days, season_sections
from cuttings.demo.quarry_bank import quarry_bank
from cuttings.ledger.book import fold
from cuttings.nudges.ahead import season
from cuttings.plants.standard import standard
from cuttings.show.svg import ACCENT_COLOUR, NAMESPACE
from cuttings.show.timeline import Row, Section, Span
from cuttings.show.timeline_svg import timeline_svg
from tests.show.test_timeline import FIRST, NAME, NASTY, ranges, rows

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
HUNDREDTH = 0.011
"""Coordinates are written to a hundredth."""


def tag(name: str) -> str:
    return f"{{{NAMESPACE}}}{name}"


@frozen
class Picture:
    root: ET.Element
    first: date
    last: date

    def group(self, title: str) -> ET.Element:
        return next(each for each in self.root.iter(tag("g")) if each.findtext(tag("title")) == title)

    @property
    def rules(self) -> list[float]:
        """Where the months begin, and where the last one ends: upright lines that are longer than a tick."""
        lines = self.group("calendar").findall(tag("line"))
        return [at(x, "x1") for x in lines if at(x, "x1") == at(x, "x2") and at(x, "y2") - at(x, "y1") > 10]

    def x(self, day: date) -> float:
        """Where a day begins by the outer rules of the file."""
        left, right = self.rules[0], self.rules[-1]
        share = (day - self.first).days / ((self.last - self.first).days + 1)
        return left + min(max(share, 0.0), 1.0) * (right - left)


def at(element: ET.Element, name: str) -> float:
    return float(element.get(name, "nan"))


def drawn(sections: Sequence[Section], last: date, today: date = FIRST, first: date = FIRST) -> Picture:
    return Picture(ET.fromstring(timeline_svg(sections, first, last, today, "Quarry Bank")), first, last)


def demo(today: date) -> Picture:
    book = fold(quarry_bank(today)).as_of(today)
    first, last = season_days(today)
    found = season(book, standard(), COLD, today, last)
    return drawn(season_sections(found, today), last, today, first)


def test_the_months_begin_where_the_days_put_them() -> None:
    span = Span(what="pot", opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 6, 1))
    picture = drawn([Section("s", [Row(NAME, [span])])], date(2026, 8, 31))
    begins = [date(2026, month, 1) for month in range(4, 10)]
    assert picture.rules == pytest.approx([picture.x(day) for day in begins], abs=HUNDREDTH)
    names = [text.text for text in picture.group("calendar").iter(tag("text"))]
    assert names == ["April", "May", "June", "July", "August"]


@given(rows(), ranges)
def test_every_bar_agrees_with_the_calendar_of_the_file(row: Row, last: date) -> None:
    picture = drawn([Section("s", [row])], last)
    bars = [each for each in picture.root.findall(tag("g")) if each.findtext(tag("title")) != "calendar"]
    seen = [span for span in row.spans if span.opens <= last and span.closes >= FIRST]
    assert len(bars) == len(seen)
    for span in seen:
        (group,) = (
            bar for bar in bars if (bar.findtext(tag("title")) or "").split(": ")[1].split()[0] == span.what
        )
        whole, *others = group.findall(tag("line"))
        day = timedelta(days=1)
        assert (at(whole, "x1"), at(whole, "x2")) == pytest.approx(
            (picture.x(span.opens), picture.x(span.closes + day)), abs=HUNDREDTH
        )
        heavy = [line for line in others if at(line, "stroke-width") > 2]
        assert bool(heavy) is (span.best[0] <= last and span.best[1] >= FIRST)
        for line in heavy:
            assert (at(line, "x1"), at(line, "x2")) == pytest.approx(
                (picture.x(span.best[0]), picture.x(span.best[1] + day)), abs=HUNDREDTH
            )
        strokes = [line for line in others if at(line, "x1") == at(line, "x2") and line not in heavy]
        assert len(strokes) == (span.opens >= FIRST) + (span.closes <= last)
        assert len(strokes) + len(group.findall(tag("polyline"))) == 2


def boxes(root: ET.Element) -> Iterator[tuple[str, float, float, float, float]]:
    """About where each text lies: its letters are taken for a little over half as wide as they are high."""
    for text in root.iter(tag("text")):
        words, size = text.text or "", at(text, "font-size")
        wide = len(normalize("NFC", words)) * 0.56 * size
        left = (
            at(text, "x") - {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        )
        yield words, left, at(text, "y") - 0.75 * size, left + wide, at(text, "y") + 0.2 * size


@pytest.mark.parametrize("today", [date(2026, 5, 2), date(2026, 8, 20), date(2026, 11, 26)])
def test_no_text_of_the_demo_garden_runs_into_another_or_off_the_paper(today: date) -> None:
    root = demo(today).root
    written = list(boxes(root))
    assert len(written) > 20
    for one, other in combinations(written, 2):
        apart = one[3] <= other[1] or other[3] <= one[1] or one[4] <= other[2] or other[4] <= one[2]
        assert apart, (one, other)
    for words, left, top, right, bottom in written:
        assert 0 <= left < right <= at(root, "width"), words
        assert 0 <= top < bottom <= at(root, "height"), words


@given(rows(), ranges)
def test_bars_and_words_of_a_row_leave_one_another_room(row: Row, last: date) -> None:
    root = drawn([Section("s", [row])], last).root
    bars = [each for each in root.findall(tag("g")) if each.findtext(tag("title")) != "calendar"]
    spots = []
    for bar in bars:
        line, text = bar.find(tag("line")), bar.find(tag("text"))
        assert line is not None
        assert text is not None
        wide = len(text.text or "") * 6.0
        ends = min(at(line, "x1"), at(text, "x")), max(at(line, "x2"), at(text, "x") + wide)
        spots.append((at(line, "y1"), *ends))
    for one, other in combinations(spots, 2):
        assert one[0] != other[0] or one[2] < other[1] or other[2] < one[1]


def test_what_presses_is_said_in_words_too() -> None:
    root = demo(date(2026, 11, 26)).root
    accent = [text for text in root.iter(tag("text")) if text.get("fill") == ACCENT_COLOUR]
    assert accent
    assert all(" now, by " in (text.text or "") for text in accent)


@pytest.mark.parametrize("nasty", [*NASTY, "<script>&\"'", "\ufffe\ud800"])
def test_names_of_any_letters_make_a_file_that_can_be_read(nasty: str) -> None:
    span = Span(what=nasty, opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 5, 1), pressing=True)
    document = timeline_svg([Section(nasty, [Row(nasty, [span])])], FIRST, date(2026, 6, 1), FIRST, nasty)
    root = ET.fromstring(document)
    assert root.find(tag("script")) is None
    for words, left, _, right, _ in boxes(root):
        assert right - left <= at(root, "width"), words


def test_the_picture_grows_with_its_rows_and_may_be_empty() -> None:
    span = Span(what="pot", opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 5, 1))
    heights = [
        at(drawn([Section("s", [Row(NAME, [span])] * many)], date(2026, 8, 31)).root, "height")
        for many in (1, 2, 3)
    ]
    assert heights[2] - heights[1] == pytest.approx(heights[1] - heights[0])
    assert heights[1] > heights[0]
    empty = drawn([], date(2026, 8, 31)).root
    assert empty.findtext(tag("desc")) == "No window lies in these days."


def test_today_is_dashed_and_only_where_it_is_on_the_calendar() -> None:
    span = Span(what="pot", opens=FIRST, best=(FIRST, FIRST), closes=date(2026, 5, 1))
    for today, there in ((date(2026, 4, 20), True), (date(2026, 3, 31), False), (date(2026, 9, 1), False)):
        picture = drawn([Section("s", [Row(NAME, [span])])], date(2026, 8, 31), today)
        dashed = [line for line in picture.root.iter(tag("line")) if line.get("stroke-dasharray")]
        assert len(dashed) == there
        for line in dashed:
            middle = (picture.x(today) + picture.x(today + timedelta(days=1))) / 2
            assert at(line, "x1") == pytest.approx(middle, abs=HUNDREDTH)
