"""Drawings as SVG: whole, plain and safe."""

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.show.svg import ACCENT, DASHED, DOTTED, HEAVY, LACE, LINE, NAMESPACE, SOLID, THIN, Svg


def read(drawing: Svg) -> ET.Element:
    return ET.fromstring(drawing.document())


def tag(name: str) -> str:
    return f"{{{NAMESPACE}}}{name}"


def test_a_drawing_tells_what_it_is() -> None:
    root = read(Svg(120, 80.5, title="A bed", description="Two plants."))
    assert root.get("viewBox") == "0 0 120 80.5"
    assert root.findtext(tag("title")) == "A bed"
    assert root.findtext(tag("desc")) == "Two plants."


def test_shapes_stand_where_they_were_put() -> None:
    drawing = Svg(100, 100, title="t", description="d")
    inside = drawing.group("a group")
    inside.line((0, 1), (2, 3)).circle((4.125, 5), 6).polygon([(0, 0), (1, 0), (1, -0.001)])
    inside.polyline([(0, 0), (1.5, 1)], DASHED).rectangle((1, 2), 3, 4, SOLID).text(
        (7, 8), "here", anchor="end"
    )
    group = read(drawing).find(tag("g"))
    assert group is not None
    assert [each.tag for each in group] == list(
        map(tag, ("title", "line", "circle", "polygon", "polyline", "rect", "text"))
    )
    line, circle, polygon, polyline, rectangle, text = list(group)[1:]
    assert [line.get(name) for name in ("x1", "y1", "x2", "y2")] == ["0", "1", "2", "3"]
    assert circle.get("cx") in ("4.12", "4.13")
    assert polygon.get("points") == "0,0 1,0 1,0"
    assert polyline.get("stroke-dasharray") == "7 4"
    assert rectangle.get("fill") == SOLID.fill
    assert (text.text, text.get("text-anchor")) == ("here", "end")


@pytest.mark.parametrize(
    ("one", "other"), [(DASHED, DOTTED), (HEAVY, DASHED), (LINE, LACE), (ACCENT, DOTTED)]
)
def test_lines_differ_by_more_than_their_colour(one: object, other: object) -> None:
    assert (one.width, one.dash) != (other.width, other.dash)  # type: ignore[attr-defined]


def test_only_one_accent_stands_beside_black_and_grey() -> None:
    strokes = {style.stroke for style in (LINE, HEAVY, THIN, DASHED, DOTTED, ACCENT, SOLID, LACE)}
    colours = {stroke for stroke in strokes if len({stroke[1:3], stroke[3:5], stroke[5:7]}) > 1}
    assert colours == {ACCENT.stroke}


@given(st.text())
def test_any_words_can_be_written(words: str) -> None:
    drawing = Svg(10, 10, title=words, description=words)
    drawing.group(words).text((0, 0), words)
    root = read(drawing)
    assert all(each.tag.startswith(f"{{{NAMESPACE}}}") for each in root.iter())
    assert {each.tag for each in root.iter()} <= set(map(tag, ("svg", "title", "desc", "rect", "g", "text")))


def test_markup_is_only_words() -> None:
    drawing = Svg(10, 10, title="<script>alert(1)</script>", description="a & b")
    assert "<script>" not in drawing.document()
    assert read(drawing).findtext(tag("title")) == "<script>alert(1)</script>"
