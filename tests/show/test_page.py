"""Pages: they fit, they are safe to show, and they have a plain and an ASCII twin."""

import io
import unicodedata
from unittest.mock import patch

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.console import Console

from cuttings.show.console import AsciiTwin, console
from cuttings.show.page import Page
from cuttings.show.plain import WIDEST, ascii_twin, clean, wrapped

NASTY = "\x1b[31mred\x1b[0m \x07bell \x9b2J [bold red]not markup[/] \u202egnirts\u2066 \r\n\ttab"
TEXT = st.text(max_size=120)
TURNING = {"RLO", "LRO", "RLE", "LRE", "PDF", "RLI", "LRI", "FSI", "PDI"}
"""The classes of marks that turn the order of letters round."""


def page(text: str = "Quarry Bank", long: str = "") -> Page:
    """A page with one of everything on it."""
    made = Page().heading(text, "2 May 2026")
    made.row("12 May", f"{text} {long}", f"Because {long}", tone="accent")
    made.row("a long label in the margin", text, "", "second reason", tone="warning")
    made.rows([("1", "one"), ("2", text)]).warnings(["Sap burns skin."])
    return made.next_steps("'cuttings week' shows the week.", "", "--why shows the sources.")


def shown(made: Page, width: int, *, colour: bool = False) -> str:
    out = io.StringIO()
    Console(
        file=out, width=width, force_terminal=colour, color_system="auto", highlight=False, markup=False,
        emoji=False, legacy_windows=False, _environ={"TERM": "xterm"},
    ).print(made)  # fmt: skip
    return out.getvalue()


@pytest.mark.parametrize("width", [40, 41, 60, 80, 99, 100, 132, 200])
@pytest.mark.parametrize("text", ["red currant", "紅すぐり" * 20, "x" * 250, "a b " * 60, NASTY, "é̂" * 40])
def test_every_line_fits(width: int, text: str) -> None:
    for line in shown(page(text, long=text), width).splitlines():
        assert cell_len(line) <= width, line


@given(TEXT, TEXT, st.integers(40, 200))
def test_every_line_fits_whatever_was_typed(text: str, long: str, width: int) -> None:
    for line in shown(page(text, long), width).split("\n"):
        assert cell_len(line) <= width


@given(TEXT, st.integers(4, 60))
def test_wrapping_keeps_every_word_in_order(text: str, width: int) -> None:
    lines = wrapped(clean(text), width)
    assert all(cell_len(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(clean(text).split())


@given(TEXT)
def test_nothing_typed_acts_on_the_terminal(text: str) -> None:
    for out in (shown(page(text), 80), "\n".join(page(text).plain_lines()), clean(text)):
        for letter in out.replace("\n", ""):
            assert unicodedata.category(letter) != "Cc"
            assert unicodedata.bidirectional(letter) not in TURNING


def test_markup_and_escape_codes_are_shown_as_they_were_typed_or_not_at_all() -> None:
    for out in (shown(page(NASTY), 120), "\n".join(page(NASTY).plain_lines())):
        assert "[bold red]not markup[/]" in out
        assert "\x1b" not in out
        assert "\x07" not in out


def test_a_typed_line_break_never_makes_a_new_line() -> None:
    (line,) = Page().row("", "one\ntwo\r\nthree\u2028four\x85\x0b\x1c").plain_lines()
    assert line.splitlines() == [line] == ["one two three four"]


def test_a_plain_page_is_one_thing_a_line() -> None:
    assert list(page("red currant", "ripe").plain_lines()) == [
        "red currant. 2 May 2026",
        "12 May: red currant ripe Because ripe",
        "a long label in the margin: red currant second reason",
        "1: one",
        "2: red currant",
        "Take care: Sap burns skin.",
        "Next: 'cuttings week' shows the week.",
        "--why shows the sources.",
    ]


def test_a_row_that_does_not_hold_is_left_out() -> None:
    assert list(Page().row("", "never", only_if=False).plain_lines()) == []
    assert list(Page().next_steps("", "").plain_lines()) == []


def test_colour_carries_no_meaning_alone() -> None:
    coloured = shown(page(), 80, colour=True)
    assert "\x1b[" in coloured
    bare = shown(page(), 80)
    assert "\x1b" not in bare
    assert "Take care" in bare


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("environment", "coloured"),
    [
        ({"TERM": "xterm-256color"}, True),
        ({"TERM": "xterm-256color", "NO_COLOR": "1"}, False),
        ({"TERM": "dumb"}, False),
    ],
)
def test_colour_is_left_out_where_it_is_not_wanted(environment: dict[str, str], coloured: bool) -> None:
    terminal = Terminal()
    with patch.dict("os.environ", environment, clear=True), patch("sys.stdout", terminal):
        console().print(page())
    out = terminal.getvalue()
    assert ("\x1b[32m" in out or "\x1b[1;32m" in out) is coloured
    assert ("\x1b[1;31m" in out) is coloured


def test_a_wide_terminal_keeps_its_right_side_white() -> None:
    with patch.dict("os.environ", {"COLUMNS": "200"}), patch("sys.stdout", io.StringIO()):
        assert console().width == WIDEST


@given(TEXT)
def test_the_ascii_twin_is_ascii(text: str) -> None:
    assert ascii_twin(text).isascii()


def test_signs_have_readable_twins() -> None:
    assert ascii_twin("Forsythia × intermedia — 28 °F, “½ in” … ≤ 3") == (
        'Forsythia x intermedia - 28 deg F, "1/2 in" ... <= 3'
    )
    assert ascii_twin("café Müller ß 紅") == "cafe Muller ss ?"


def test_an_ascii_terminal_is_never_sent_anything_else() -> None:
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    with patch("sys.stdout", out):
        console().print(page("Forsythia × intermedia, 28 °F, 紅"))
    out.flush()
    out.seek(0)
    text = out.read()
    assert "Forsythia x intermedia" in text
    assert "?" in text


def test_the_twin_of_a_stream_passes_on_what_it_is_asked() -> None:
    under = Terminal()
    twin = AsciiTwin(under)
    assert twin.write("é–") == 2
    twin.flush()
    assert (under.getvalue(), twin.isatty(), twin.encoding) == ("e-", True, "ascii")
