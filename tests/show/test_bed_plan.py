"""Beds drawn in text: to scale, within the columns there are, and everything on it named."""

from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from cuttings.show.bed_plan import BedPlan, Growth, Ring, plan_lines, plan_words
from cuttings.show.bed_plan_svg import beds_svg
from cuttings.show.plain import ascii_twin

BED = BedPlan(
    name="wall foot",
    outline=((0.0, 0.0), (7.0, 0.0), (7.0, 1.2), (0.0, 1.2)),
    rings=(
        Ring(0.8, 0.6, 0.6, Growth.GROWN, "a", "climbing hydrangea"),
        Ring(2.6, 0.6, 0.5, Growth.HELD, "b", "held for 25-001 box"),
        Ring(5.0, 0.6, 0.6, Growth.OFFERED, "1", "24-006 red currant"),
    ),
    unit_m=1.0,
    unit="m",
    north=(0.0, 1.0),
    notes=("A wall stands along the back.",),
)


@pytest.mark.parametrize("width", [40, 60, 80, 100, 200])
def test_it_stays_within_its_columns_and_speaks_ascii(width: int) -> None:
    lines = plan_lines(BED, width)
    assert max(len(line) for line in lines) <= width
    assert [ascii_twin(line) for line in lines] == lines


def test_it_is_to_scale() -> None:
    lines = plan_lines(BED, 80)
    top = next(line for line in lines if line.lstrip().startswith("+--"))
    columns_a_metre = (top.rindex("+") - top.index("+")) / 7.0
    middle = next(line for line in lines if " 1 " in line and "*" in line)
    assert (middle.index("1") - top.index("+")) / columns_a_metre == pytest.approx(5.0, abs=0.1)
    stars = [at for at, letter in enumerate(middle) if letter == "*"]
    assert (stars[-1] - stars[0]) / columns_a_metre == pytest.approx(1.2, abs=0.15)
    bar = next(line for line in lines if line.endswith("| 1 m"))
    assert bar.rindex("|") - bar.index("|") == pytest.approx(columns_a_metre, abs=1.0)


def test_everything_on_it_is_named() -> None:
    text = "\n".join(plan_lines(BED, 80))
    for words in ("North is at the back: ^", "A wall stands along the back.", ". a  climbing hydrangea",
                  "o b  held for 25-001 box", "* 1  24-006 red currant",
                  ". grows here, o held, * offered"):  # fmt: skip
        assert words in text
    assert plan_words(BED) == [
        "climbing hydrangea: grows here.",
        "held for 25-001 box: held.",
        "24-006 red currant: offered.",
        "A wall stands along the back.",
    ]


def test_north_may_lie_anywhere() -> None:
    arrows = {
        north: next(line for line in plan_lines(evolve(BED, north=north), 80) if "North" in line).strip()
        for north in ((1.0, 0.0), (0.0, -1.0), (-0.7, 0.7))
    }
    assert list(arrows.values()) == [
        "North is to the right: >", "North is at the front: v", "North is at the back left: \\",
    ]  # fmt: skip
    assert not [line for line in plan_lines(evolve(BED, north=None), 80) if "North" in line]


def test_a_crooked_bed_has_slanting_edges() -> None:
    crooked = evolve(BED, outline=((0.0, 0.0), (6.0, 0.0), (3.0, 3.0)), rings=())
    text = "\n".join(plan_lines(crooked, 60))
    assert "/" in text
    assert "\\" in text


def test_the_drawing_holds_every_circle_and_every_word() -> None:
    root = ET.fromstring(beds_svg([BED, evolve(BED, name="gate <bed>")], "Beds"))
    space = "{http://www.w3.org/2000/svg}"
    circles = [each for each in root.iter(f"{space}circle") if float(each.get("r", "0")) > 10]
    assert len(circles) == 6
    words = [text.text for text in root.iter(f"{space}text")]
    assert {"wall foot", "gate <bed>", "N", "1  24-006 red currant"} <= set(words)
    dashed = [each for each in circles if each.get("stroke-dasharray")]
    assert len(dashed) == 2  # a held spot is told by its stroke, not its colour
