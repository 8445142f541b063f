"""Text made safe and text made plain: no control characters, and an ASCII twin for every sign we use."""

import os
import unicodedata

from rich.cells import cell_len, chop_cells

WIDEST = 100
"""Lines longer than this are hard to read; a wider terminal keeps its right side white."""

# Marks that change the direction or order of text: harmless in a name, harmful on a terminal.
_UNSEEN: dict[int, str | None] = dict.fromkeys(
    [*range(0x20), *range(0x7F, 0xA0), 0x61C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]
)
_UNSEEN |= dict.fromkeys(map(ord, "\n\t\u2028\u2029"), " ")

_TWINS = {
    "×": "x", "–": "-", "—": "-", "−": "-", "·": "-", "…": "...", "°": " deg ", "‘": "'", "’": "'",
    "“": '"', "”": '"', "≤": "<=", "≥": ">=", "½": "1/2", "¼": "1/4", "²": "2", "›": ">", "•": "*",
    "─": "-", "│": "|", "┌": "+", "┐": "+", "└": "+", "┘": "+", "○": "o", "●": "@", "↑": "^", "ß": "ss",
}  # fmt: skip


def clean(text: str) -> str:
    """Text typed by people, with everything taken out that a terminal would obey."""
    return text.translate(_UNSEEN)


def ascii_twin(text: str) -> str:
    """The same text in ASCII: signs by their twins, accents dropped, anything else a question mark."""
    plain = "".join(_TWINS.get(letter, letter) for letter in text.replace(" °", "°"))
    bare = "".join(c for c in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(c))
    return bare.encode("ascii", "replace").decode()


def speaks_unicode(stream: object) -> bool:
    """Whether a stream can take any letter."""
    encoding = (getattr(stream, "encoding", None) or "ascii").lower()
    return encoding.replace("-", "").startswith("utf")


def sayable(text: str, stream: object) -> str:
    """The text cleaned, and in ASCII where the stream speaks nothing else."""
    text = clean(text)
    return text if speaks_unicode(stream) else ascii_twin(text)


def piped_width() -> int:
    """Columns of a page that goes into a pipe or a file: what COLUMNS says, or 80."""
    told = os.environ.get("COLUMNS", "")
    return min(int(told) if told.isdecimal() and int(told) else 80, WIDEST)


def terminal_width() -> int:
    """Columns of the terminal at hand; 80 where there is none."""
    from shutil import get_terminal_size  # it loads three compression modules

    return get_terminal_size().columns


def wrapped(text: str, width: int) -> list[str]:
    """Text broken at spaces into lines of at most ``width`` columns; a longer word is cut."""
    lines: list[str] = []
    line, room = "", width
    for word in text.split(" "):
        size = len(word) if word.isascii() else cell_len(word)
        if line and size < room:
            line, room = f"{line} {word}", room - size - 1
            continue
        if line:
            lines.append(line.rstrip())
        if size > width:
            *cut, word = chop_cells(word, width)
            lines.extend(cut)
            size = cell_len(word)
        line, room = word, width - size
    lines.append(line.rstrip())
    return lines
