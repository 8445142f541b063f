"""The type on paper: which letters there are, how wide words run, where lines break.

The typeface is Fira Sans, which was drawn for small and poor screens and holds Latin, Greek and Cyrillic.
Lengths are points, 72 to the inch; y grows downwards.
"""

import unicodedata
from datetime import UTC, date, datetime, time
from importlib.resources import files
from typing import Literal

from attrs import field, frozen
from fpdf import FPDF

Format = Literal["letter", "A4"]

FAMILY = "fira"
FILES = {False: "FiraSans-Regular.ttf", True: "FiraSans-Bold.ttf"}
"""The two weights, by whether they are bold."""
FAINT = 165
"""The grey of ruled lines, of 255; everything else is black."""


@frozen
class Words:
    """A line of type: ``y`` is its baseline."""

    text: str
    x: float
    y: float
    size: float
    bold: bool = False


@frozen
class Box:
    """An empty square to tick; ``x`` and ``y`` are its upper left corner."""

    x: float
    y: float
    side: float


@frozen
class Rule:
    """A faint line to write on."""

    x: float
    y: float
    width: float


@frozen
class Bar:
    """A filled oblong; ``x`` and ``y`` are its upper left corner, ``grey`` its shade of 255."""

    x: float
    y: float
    width: float
    height: float
    grey: int = 0


Stroke = Words | Box | Rule | Bar


@frozen
class Lettering:
    """Paper of one format, and the type that is set on it."""

    pdf: FPDF
    _widths: dict[tuple[str, bool], float] = field(factory=dict, init=False, eq=False, repr=False)
    _letters: frozenset[int] = field(init=False, repr=False)

    @_letters.default
    def _held(self) -> frozenset[int]:
        held = [frozenset(font.cmap) for font in self.pdf.fonts.values() if hasattr(font, "cmap")]
        return frozenset.intersection(*held)

    @property
    def width(self) -> float:
        return float(self.pdf.w)

    @property
    def height(self) -> float:
        return float(self.pdf.h)

    def sayable(self, text: str) -> str:
        """The text in letters that the typeface holds, in one line.

        A letter that it lacks is said by its base letter, or else by a question mark. What controls other
        text, or changes a letter that is said without it, is left out.
        """
        said = (self._said(letter) for letter in unicodedata.normalize("NFC", text))
        return " ".join("".join(said).split())

    def _said(self, letter: str) -> str:
        if letter.isspace():
            return " "
        kind = unicodedata.category(letter)
        if kind in ("Cc", "Cf"):
            return ""
        if ord(letter) in self._letters:
            return letter
        if kind in ("Mn", "Me"):
            return ""
        base = unicodedata.normalize("NFKD", letter)
        return "".join(part for part in base if ord(part) in self._letters) or "?"

    def wide(self, text: str, size: float, *, bold: bool = False) -> float:
        """How wide a sayable text runs."""
        key = (text, bold)
        if key not in self._widths:
            self.pdf.set_font(FAMILY, "B" if bold else "", 100)
            self._widths[key] = self.pdf.get_string_width(text) / 100
        return self._widths[key] * size

    def lines(
        self, text: str, size: float, width: float, *, bold: bool = False, most: int | None = None
    ) -> list[str]:
        """A text broken at spaces into sayable lines no wider than ``width``; a longer word is cut.

        What does not go into ``most`` lines is left out, and dots at the end of the last one say so.
        """
        space = self.wide(" ", size, bold=bold)
        lines: list[str] = []
        line, filled = "", 0.0
        for word in self._pieces(self.sayable(text), size, width, bold=bold):
            wide = self.wide(word, size, bold=bold)
            if line and filled + space + wide <= width:
                line, filled = f"{line} {word}", filled + space + wide
                continue
            if line:
                lines.append(line)
            line, filled = word, wide
        if line:
            lines.append(line)
        if most is None or len(lines) <= most:
            return lines
        last = lines[most - 1]
        while last and self.wide(f"{last} …", size, bold=bold) > width:
            shorter, _, cut = last.rpartition(" ")
            last = shorter or cut[:-1]
        return [*lines[: most - 1], f"{last} …"]

    def _pieces(self, text: str, size: float, width: float, *, bold: bool) -> list[str]:
        pieces = []
        for word in text.split():
            piece = ""
            if self.wide(word, size, bold=bold) > width:
                for letter in word:
                    if piece and self.wide(piece + letter, size, bold=bold) > width:
                        pieces.append(piece)
                        piece = ""
                    piece += letter
            pieces.append(piece or word)
        return pieces

    def draw(self, stroke: Stroke, down: float) -> None:
        """Put a stroke on the page, so far further down."""
        match stroke:
            case Words(text=text, x=x, y=y, size=size, bold=bold):
                self.pdf.set_font(FAMILY, "B" if bold else "", size)
                self.pdf.text(x, down + y, text)
            case Box(x=x, y=y, side=side):
                self.pdf.set_draw_color(0)
                self.pdf.set_line_width(1.2)
                self.pdf.rect(x, down + y, side, side)
            case Rule(x=x, y=y, width=width):
                self.pdf.set_draw_color(FAINT)
                self.pdf.set_line_width(0.6)
                self.pdf.line(x, down + y, x + width, down + y)
            case Bar(x=x, y=y, width=width, height=height, grey=grey):
                self.pdf.set_fill_color(grey)
                self.pdf.rect(x, down + y, width, height, style="F")


def sheet_of_paper(paper: Format, title: str, day: date, *, landscape: bool = False) -> Lettering:
    """One empty page with its title; it says that it was made when a day began."""
    pdf = FPDF(orientation="landscape" if landscape else "portrait", unit="pt", format=paper)
    pdf.set_auto_page_break(False)
    for bold, name in FILES.items():
        pdf.add_font(FAMILY, "B" if bold else "", str(files("fontpkg_fira_sans").joinpath("files", name)))
    pdf.set_lang("en")
    pdf.set_creator("cuttings")
    pdf.set_creation_date(datetime.combine(day, time(), UTC))
    pdf.add_page()
    lettering = Lettering(pdf)
    pdf.set_title(lettering.sayable(title))
    return lettering
