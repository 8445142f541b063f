"""The charts of a year's account as a drawing: whole, true to the counts, and legible without colour."""

from collections.abc import Sequence
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.show.account_chart import End, MonthBars, StemBar, TakeRow
from cuttings.show.account_svg import account_svg
from cuttings.show.svg import ACCENT_COLOUR, NAMESPACE
from cuttings.show.timeline_svg import LEFT, RIGHT, WIDTH
from tests.show.test_account_chart import BOX, IRIS, MONTHS, TAKE, stem_bars

EMPTY = MonthBars(year=2026, stems=[0] * 12)


def tag(name: str) -> str:
    return f"{{{NAMESPACE}}}{name}"


def drawn(
    bars: Sequence[StemBar] = (BOX, IRIS),
    months: MonthBars = MONTHS,
    takes: Sequence[TakeRow] = (TAKE,),
    title: str = "Quarry Bank, 2026",
) -> ET.Element:
    return ET.fromstring(account_svg(title, ["2026: 2 lots."], bars, months, takes))


def group(root: ET.Element, title: str) -> ET.Element:
    return next(each for each in root.iter(tag("g")) if each.findtext(tag("title")) == title)


def number(element: ET.Element, name: str) -> float:
    return float(element.get(name, "nan"))


def test_the_drawing_says_in_words_what_it_shows() -> None:
    root = drawn()
    assert root.findtext(tag("title")) == "Quarry Bank, 2026"
    told = root.findtext(tag("desc")) or ""
    assert "2026: 2 lots." in told
    assert "box, semi-ripe cutting, 20: 15 on the way, 2 waiting, 3 lost." in told
    assert "April 14, the year before 6" in told
    assert "15 of 20 rooted: about 7 of 10" in told


def test_boxes_are_as_long_as_their_stems_are_many() -> None:
    box = group(drawn(), f"box, semi-ripe cutting, {BOX.words}")
    boxes = [each for each in box.findall(tag("rect")) if each.get("stroke") != "none"]
    each_stem = (RIGHT - LEFT) / 20
    assert [number(rect, "width") for rect in boxes] == pytest.approx(
        [15 * each_stem, 2 * each_stem], abs=0.01
    )
    lost = next(line for line in box.findall(tag("line")) if line.get("stroke-dasharray"))
    assert number(lost, "x2") <= RIGHT
    assert number(lost, "x1") >= LEFT + 17 * each_stem


def test_what_became_of_stems_is_told_by_strokes_and_not_by_colour_alone() -> None:
    def strokes(end: End) -> tuple[object, ...]:
        bar = StemBar(name="n", aside="a", ends={end: 10})
        found = group(drawn([bar], EMPTY, ()), f"n, a, {bar.words}")
        boxes = [
            rect.get("stroke-dasharray")
            for rect in found.findall(tag("rect"))
            if rect.get("stroke") != "none"
        ]
        lines = [line.get("stroke-dasharray") for line in found.findall(tag("line"))]
        return tuple(boxes), len(lines), tuple(lines[:1])

    assert len({strokes(end) for end in End}) == len(End)


def test_months_are_as_high_as_their_stems() -> None:
    root = drawn()
    april, august = group(root, "April 14, the year before 6"), group(root, "August 20, the year before 30")
    heights = [
        number(next(rect for rect in each.findall(tag("rect")) if rect.get("stroke") != "none"), "height")
        for each in (april, august)
    ]
    assert heights[0] / heights[1] == pytest.approx(14 / 20, abs=0.01)
    assert all(each.find(f"{tag('line')}[@stroke-dasharray]") is not None for each in (april, august))


def test_a_dot_lies_where_its_share_is() -> None:
    dot, ring = None, None
    for circle in group(drawn(), f"box, semi-ripe cutting: {TAKE.words}").findall(tag("circle")):
        if circle.get("fill") == "none":
            ring = circle
        else:
            dot = circle
    assert dot is not None
    assert ring is not None
    assert number(dot, "cx") == pytest.approx(LEFT + TAKE.mean * (RIGHT - LEFT), abs=0.01)
    assert number(ring, "cx") == pytest.approx(LEFT + TAKE.usual * (RIGHT - LEFT), abs=0.01)


def test_only_one_colour_stands_beside_black_grey_and_paper() -> None:
    inks = {each.get(name) or "" for each in drawn().iter() for name in ("stroke", "fill")} - {"", "none"}
    assert {ink for ink in inks if len({ink[1:3], ink[3:5], ink[5:7]}) > 1} == {ACCENT_COLOUR}


def test_charts_with_nothing_to_show_are_left_out() -> None:
    root = drawn((), EMPTY, ())
    assert not root.findall(tag("g"))
    whole = drawn()
    assert number(root, "height") < number(whole, "height")


@settings(max_examples=40)
@given(stem_bars, st.text(max_size=60), st.lists(st.integers(0, 5000), min_size=12, max_size=12))
def test_any_names_and_counts_make_a_whole_drawing(bars: list[StemBar], title: str, stems: list[int]) -> None:
    kept = [bar for bar in bars if bar.stems]
    root = drawn(kept, MonthBars(year=2026, stems=stems), (TAKE,), title)
    assert all(each.tag.startswith(f"{{{NAMESPACE}}}") for each in root.iter())
    for each in root.iter(tag("rect")):
        assert -0.01 <= number(each, "x") <= WIDTH
        assert number(each, "x") + number(each, "width") <= WIDTH + 0.01
    for each in root.iter(tag("text")):
        assert 0 <= number(each, "y") <= number(root, "height")


def test_names_are_only_words() -> None:
    bar = StemBar(name="<script>alert(1)</script>", aside='"&', ends={End.PLACE: 2})
    text = account_svg("a & b", ["<b>"], [bar], EMPTY, ())
    assert "<script>" not in text
    assert ET.fromstring(text).findtext(tag("title")) == "a & b"
