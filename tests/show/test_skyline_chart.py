"""The sky over a site in letters and as a drawing."""

import math
from collections.abc import Sequence
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.show.plain import ascii_twin
from cuttings.show.skyline_chart import ROWS, Sky, SunPath, height_at, month_bars, sky_lines
from cuttings.show.skyline_svg import sky_svg
from cuttings.show.svg import NAMESPACE

FLAT = [(0.0, 0.0), (360.0, 0.0)]
WALL = [(0.0, 0.0), (150.0, 0.0), (150.0, 35.0), (210.0, 35.0), (210.0, 0.0), (360.0, 0.0)]
MONTHS = [(hour / 2, hour / 3) for hour in range(12)]


def path(name: str, mark: str, highest: float, noon: float = 180.0) -> SunPath:
    """A way over the sky from six to six, a straight quarter turn to either side of noon."""
    points = [
        (
            6.0 + quarter / 4,
            (noon - 90.0 + 3.75 * quarter) % 360.0,
            highest * math.sin(math.pi * quarter / 48),
        )
        for quarter in range(1, 48)
    ]
    return SunPath(name, mark, points)


Points = Sequence[tuple[float, float]]


def sky(hides: Points = WALL, dims: Points = (), noon: float = 180.0) -> Sky:
    paths = [path("21 June", "*", 70, noon), path("21 December", "o", 22, noon)]
    return Sky(noon, hides, dims or hides, paths)


@pytest.mark.parametrize("width", [40, 57, 80, 100, 200])
@pytest.mark.parametrize("noon", [0.0, 180.0])
def test_the_picture_fits_its_columns(width: int, noon: float) -> None:
    lines = sky_lines(sky(noon=noon), width)
    assert all(len(line) <= width for line in lines)
    assert all(ascii_twin(line) == line for line in lines)
    assert len(lines) >= ROWS + 3


def test_the_side_of_the_noon_sun_is_in_the_middle() -> None:
    for noon, order in ((180.0, ["E", "SE", "S", "SW", "W"]), (0.0, ["W", "NW", "N", "NE", "E"])):
        words = sky_lines(sky(noon=noon), 40)[ROWS + 1].split()
        assert [word for word in words if word.isalpha()] == order


def test_what_hides_the_sun_hides_its_way() -> None:
    free, behind = (sky_lines(sky(hides), 80)[:ROWS] for hides in (FLAT, WALL))
    assert "".join(free).count("o") - 12 > "".join(behind).count("o") > 0
    assert "".join(free).count("*") == "".join(behind).count("*")
    assert ":" in "".join(behind)
    assert ":" not in "".join(free)


def test_what_lets_sun_through_leaves_its_way() -> None:
    lines = sky_lines(sky(FLAT, WALL), 80)
    free = sky_lines(sky(FLAT), 80)
    assert "".join(lines[:ROWS]).count("o") == "".join(free[:ROWS]).count("o")
    assert "." in "".join(lines[:ROWS])
    assert ". dimmed" in lines[-1]
    assert ": hidden" not in lines[-1]


def test_a_low_fence_and_a_thin_pole_are_seen() -> None:
    low = [(0.0, 4.0), (360.0, 4.0)]
    thin = [(0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (123.0, 60.0), (123.0, 0.0), (360.0, 0.0)]
    assert "_" in sky_lines(sky(low), 80)[ROWS - 1]
    assert any(":" in line for line in sky_lines(sky(thin), 80)[:ROWS])


def test_the_hours_stand_on_the_way_of_the_sun() -> None:
    lines = sky_lines(sky(FLAT), 80)[:ROWS]
    assert "".join(lines).count("12") == 2
    assert "".join(lines).count("15") == 2


def test_a_sun_that_never_rises_is_drawn_as_a_sky_without_it() -> None:
    dark = Sky(180.0, WALL, WALL, [SunPath("21 December", "o", [])])
    assert all(len(line) <= 60 for line in sky_lines(dark, 60))
    ET.fromstring(sky_svg(dark, "t", "d"))


@given(st.floats(0, 360))
def test_a_skyline_is_looked_up_between_its_points(azimuth: float) -> None:
    assert height_at(WALL, azimuth) == (35.0 if 150.0 <= azimuth % 360.0 < 210.0 else 0.0)
    assert height_at([(0.0, 0.0), (360.0, 36.0)], azimuth) == pytest.approx(azimuth % 360.0 / 10)
    assert height_at([], azimuth) == 0.0


@pytest.mark.parametrize(("width", "lines"), [(40, 12), (63, 12), (64, 6), (80, 6), (200, 6)])
def test_the_months_stand_in_two_columns_where_there_is_room(width: int, lines: int) -> None:
    bars = month_bars(MONTHS, width)
    assert len(bars) == lines
    assert all(len(bar) <= width for bar in bars)


def test_bars_are_as_long_as_the_hours_are_many() -> None:
    bars = month_bars(MONTHS, 60)
    lengths = [bar.count("=") + bar.count("-") for bar in bars]
    assert lengths == sorted(lengths)
    assert lengths[0] == 0
    assert bars[11].endswith(" 9.2")
    assert bars[11].count("=") > bars[11].count("-")


def test_a_year_without_sun_has_no_bars() -> None:
    assert all(bar.endswith(" 0.0") for bar in month_bars([(0.0, 0.0)] * 12, 40))


def test_the_drawing_says_what_it_shows_and_tells_lines_by_their_strokes() -> None:
    root = ET.fromstring(sky_svg(sky(dims=[(0.0, 50.0), (360.0, 50.0)]), "Sun on <bed>", "In words."))
    words = [each.text for each in root.iter(f"{{{NAMESPACE}}}text")]
    assert {"Sun on <bed>", "S", "E", "W", "180°", "60°", "21 June", "21 December", "hides the sun",
            "lets some through", "12"} <= set(words)  # fmt: skip
    ways = root.findall(f".//{{{NAMESPACE}}}polyline")
    strokes = [(each.get("stroke-width"), each.get("stroke-dasharray")) for each in ways]
    assert len(set(strokes)) == len(strokes) == 2


@pytest.mark.parametrize("noon", [0.0, 180.0])
def test_the_drawing_stays_on_its_paper(noon: float) -> None:
    root = ET.fromstring(sky_svg(sky(noon=noon), "t", "d"))
    width, height = (float(root.get(name, "0")) for name in ("width", "height"))
    for shape in root.iter(f"{{{NAMESPACE}}}polyline"):
        for pair in shape.get("points", "").split():
            x, y = map(float, pair.split(","))
            assert 0 <= x <= width
            assert 0 <= y <= height


def test_an_edge_at_north_is_drawn_upright_in_the_south() -> None:
    """Where north is in the middle, the left side of an edge there comes before its right side."""
    east = [(0.0, 40.0), (60.0, 40.0), (60.0, 0.0), (360.0, 0.0)]
    root = ET.fromstring(sky_svg(sky(east, noon=0.0), "t", "d"))
    (outline,) = root.findall(f".//{{{NAMESPACE}}}polygon")
    points = [tuple(map(float, pair.split(","))) for pair in outline.get("points", "").split()]
    assert points == sorted(points, key=lambda point: point[0])
    middle = (points[0][0] + points[-1][0]) / 2
    edge = [y for x, y in points if x == pytest.approx(middle)]
    assert edge == sorted(edge, reverse=True)
    assert edge[0] > edge[-1]
