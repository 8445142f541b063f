"""Text made safe and text made plain: no control characters, and an ASCII twin for every sign we use."""

import unicodedata

# Marks that change the direction or order of text: harmless in a name, harmful on a terminal.
_UNSEEN: dict[int, str | None] = dict.fromkeys(
    [*range(0x20), *range(0x7F, 0xA0), 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]
)
_UNSEEN[ord("\n")] = " "
_UNSEEN[ord("\t")] = " "

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
    plain = "".join(_TWINS.get(letter, letter) for letter in text)
    bare = "".join(c for c in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(c))
    return bare.encode("ascii", "replace").decode()
