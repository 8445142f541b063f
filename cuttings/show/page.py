"""The page: dates or labels in a margin on the left, the fact beside them, its reason under it.

A page is data first. It is laid out here, in lines; rich gives them their colours on a terminal, a pipe takes
them as they are, and the plain form says one thing a line. Every text on it is
cleaned here, in one place, so nothing that people typed can act on the terminal.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from attrs import define, field, frozen
from rich.cells import cell_len

from cuttings.show.plain import clean, wrapped

if TYPE_CHECKING:
    from rich.console import Console, ConsoleOptions, RenderResult

Line = tuple[tuple[str, str], ...]
"""A line as stretches of text, each with its tone."""

STYLES = {
    "": "",
    "heading": "bold",
    "quiet": "dim",
    "accent": "bold green",
    "warning": "bold red",
}
"""How each tone looks where a terminal has colours; the words carry the meaning without them."""


@frozen
class Row:
    """One thing on a page. ``tone`` is empty, ``accent`` for what needs the reader, or ``warning``."""

    margin: str
    text: str
    reasons: tuple[str, ...] = ()
    tone: str = ""


@frozen
class Heading:
    text: str
    aside: str = ""


@frozen
class Drawing:
    """Lines that are laid out as they are: a table or a picture. ``draw`` gives them for so many columns, and
    ``words`` says the same in sentences for those who want no drawing."""

    draw: Callable[[int], Sequence[str]]
    words: tuple[str, ...]


Part = Row | Heading | Drawing | None


@define
class Page:
    """A screen that answers one question."""

    parts: list[Part] = field(factory=list)
    margin_width: int = 9

    def heading(self, text: str, aside: str = "") -> "Page":
        if self.parts:
            self.gap()
        self.parts.append(Heading(clean(text), clean(aside)))
        return self

    def row(self, margin: str, text: str, *reasons: str, tone: str = "", only_if: bool = True) -> "Page":
        """A fact with its margin and the reasons under it; empty reasons are dropped."""
        if only_if:
            kept = tuple(clean(reason) for reason in reasons if reason)
            self.parts.append(Row(clean(margin), clean(text), kept, tone))
        return self

    def rows(self, rows: Iterable[tuple[str, str]]) -> "Page":
        for margin, text in rows:
            self.row(margin, text)
        return self

    def warnings(self, sentences: Iterable[str]) -> "Page":
        """Cautions: the words say so, not the colour alone."""
        for sentence in sentences:
            self.row("Take care", sentence, tone="warning")
        return self

    def drawing(self, draw: Callable[[int], Sequence[str]], *words: str) -> "Page":
        """A table or a picture, and what it says in words."""
        self.parts.append(Drawing(draw, tuple(clean(word) for word in words)))
        return self

    def gap(self) -> "Page":
        self.parts.append(None)
        return self

    def next_steps(self, *steps: str) -> "Page":
        """The one or two things one would do next."""
        if any(steps):
            self.gap()
        for number, step in enumerate(step for step in steps if step):
            self.row("Next" if number == 0 else "", step)
        return self

    def lines(self, width: int) -> Iterator[Line]:
        """The page laid out for so many columns."""
        margins = [part.margin for part in self.parts if isinstance(part, Row)]
        beside = max([self.margin_width, *(cell_len(margin) for margin in margins)])
        beside = min(beside, max(6, width // 3))
        for part in self.parts:
            match part:
                case None:
                    yield ()
                case Heading():
                    yield from _heading(part, width)
                case Drawing():
                    yield from (((clean(line)[:width], ""),) for line in part.draw(width))
                case Row():
                    yield from _row(part, beside, width)

    def __rich_console__(self, console: "Console", options: "ConsoleOptions") -> "RenderResult":
        from rich.segment import Segment

        for line in self.lines(options.max_width):
            yield from (Segment(text, console.get_style(STYLES[tone] or "none")) for text, tone in line)
            yield Segment.line()

    def plain_lines(self) -> Iterator[str]:
        """The page for a screen reader or a pipe: one thing a line, no drawing."""
        for part in self.parts:
            match part:
                case Heading():
                    yield f"{part.text}. {part.aside}".rstrip() if part.aside else part.text
                case Row():
                    lead = f"{part.margin.strip()}: " if part.margin.strip() else ""
                    yield lead + " ".join((part.text, *part.reasons))
                case Drawing():
                    yield from part.words
                case _:
                    continue


def _heading(part: Heading, width: int) -> Iterator[Line]:
    """A heading with its aside, on one line if there is room."""
    if part.aside and cell_len(part.text) + 3 + cell_len(part.aside) <= width:
        yield (part.text, "heading"), (f"   {part.aside}", "quiet")
        return
    yield from (((line, "heading"),) for line in wrapped(part.text, width))
    if part.aside:
        yield from (((line, "quiet"),) for line in wrapped(part.aside, width))


def _row(part: Row, beside: int, width: int) -> Iterator[Line]:
    """The margin, the fact beside it, and each reason under it, wrapped with a hanging indent."""
    room = max(width - beside - 2, 8)
    left = wrapped(part.margin, beside)
    right = [(line, part.tone) for line in wrapped(part.text, room)] if part.text else []
    right += [(line, "quiet") for reason in part.reasons for line in wrapped(reason, room)]
    for number in range(max(len(left), len(right))):
        head = left[number] if number < len(left) else ""
        text, tone = right[number] if number < len(right) else ("", "")
        indent = " " * (beside + 2 - cell_len(head)) if text else ""
        yield (head, part.tone), (indent, ""), (text, tone)
