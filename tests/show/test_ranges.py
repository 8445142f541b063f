"""Ranges on one scale, in letters."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.show.ranges import LEAST_SCALE, Span, draw_ranges

BOTH = [Span("no dip", 0.0, 0.5, 1.0), Span("3000 ppm powder", 0.25, 0.25, 0.5)]


def test_the_scale_stands_over_the_ranges() -> None:
    assert draw_ranges(BOTH, 59) == [
        "                0        25        50        75       100",
        "no dip          --------------------o--------------------",
        "3000 ppm powder .         o----------         .         .",
    ]


def test_a_long_name_goes_on_under_itself() -> None:
    lines = draw_ranges([Span("climbing hydrangea, simple layer", 0.4, 0.5, 0.6)], 60)
    assert [line.split("  ")[0] for line in lines[1:]] == ["climbing .", "hydrangea, simple", "layer"] or len(
        lines
    ) == 3
    assert lines[1].startswith("climbing hydrangea,")
    assert lines[2] == "simple layer"


@pytest.mark.parametrize("width", [40, 80, 100])
@given(
    shares=st.lists(st.floats(0, 1), min_size=3, max_size=3).map(sorted),
    name=st.text("abc ü", max_size=60).filter(str.strip),
)
def test_every_line_fits_and_shows_both_ends(shares: list[float], name: str, width: int) -> None:
    low, middle, high = shares
    lines = draw_ranges([Span(name, low, middle, high)], width)
    assert max(map(len, lines)) <= min(width, 80)
    bar = lines[1]
    start = lines[0].index("0")
    assert bar.count("o") == 1
    inside = [at for at, sign in enumerate(bar) if at >= start and sign in "-o"]
    assert inside == list(range(inside[0], inside[-1] + 1))
    assert inside[0] <= bar.index("o", start) <= inside[-1]
    scale = lines[0].rindex("100") + 2 - start
    assert scale >= LEAST_SCALE - 1
    assert (inside[0] - start) / scale == pytest.approx(low, abs=0.5 / scale + 1e-9)
    assert (inside[-1] - start) / scale == pytest.approx(high, abs=0.5 / scale + 1e-9)
