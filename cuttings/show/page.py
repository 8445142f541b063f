"""The page: dates or labels in a margin on the left, the fact beside them, its reason under it.

A page is data first. It can be shown through rich, or plainly, one thing a line. Every text on it is
cleaned here, in one place, so nothing that people typed can act on the terminal.
"""

from collections.abc import Iterable, Iterator
from itertools import zip_longest

from attrs import define, field, frozen
from rich.cells import cell_len
from rich.console import Console, ConsoleOptions, RenderResult
from rich.segment import Segment
from rich.style import Style
from rich.text import Text

from cuttings.show.plain import clean, wrapped

ACCENT = Style(color="green", bold=True)
WARNING = Style(color="red", bold=True)
QUIET = Style(dim=True)


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


Part = Row | Heading | None


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

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        rows = [part for part in self.parts if isinstance(part, Row)]
        width = max([self.margin_width, *(cell_len(part.margin) for part in rows)])
        width = min(width, max(6, options.max_width // 3))
        for part in self.parts:
            match part:
                case None:
                    yield Segment.line()
                case Heading():
                    yield _heading(part)
                case Row():
                    yield from _row(part, width, options.max_width)

    def plain_lines(self) -> Iterator[str]:
        """The page for a screen reader or a pipe: one thing a line, no drawing."""
        for part in self.parts:
            match part:
                case Heading():
                    yield f"{part.text}. {part.aside}".rstrip() if part.aside else part.text
                case Row():
                    lead = f"{part.margin.strip()}: " if part.margin.strip() else ""
                    yield lead + " ".join((part.text, *part.reasons))
                case _:
                    continue


def _heading(part: Heading) -> Text:
    text = Text(part.text, style="bold")
    if part.aside:
        text.append(f"   {part.aside}", style="not bold dim")
    return text


def _row(part: Row, width: int, room: int) -> Iterator[Segment]:
    """The margin, the fact beside it, and each reason under it, wrapped with a hanging indent.

    Rows are most of what is shown and are laid out here, not by a table: it is much faster.
    """
    style = {"accent": ACCENT, "warning": WARNING}.get(part.tone)
    beside = max(room - width - 2, 8)
    left = wrapped(part.margin, width)
    right = [(line, style) for line in wrapped(part.text, beside)] if part.text else []
    right += [(line, QUIET) for reason in part.reasons for line in wrapped(reason, beside)]
    for margin, (line, tone) in zip_longest(left, right, fillvalue=("", None)):
        head = margin if isinstance(margin, str) else ""
        if head:
            yield Segment(head, style)
        if line:
            yield Segment(" " * (width + 2 - cell_len(head)))
            yield Segment(line, tone)
        yield Segment.line()
