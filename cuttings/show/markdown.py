"""Markdown for a page that somebody keeps: headings, lists, tables and pictures, and no text that acts as
markup."""

import re
from collections.abc import Iterable, Sequence
from urllib.parse import quote

from cuttings.show.plain import clean

_ACTIVE = re.compile(r"([\\`*_{}\[\]<>|~#&!$@])")
_LINKED = re.compile(r"(?i)(:)(?=//)|(?<=\bwww)(\.)")
_OPENS_A_LIST = re.compile(r"^(\s*)([+\-=]|\d+(?=[.)](?:\s|$)))")


def escaped(text: str) -> str:
    """Text as it reads: nothing in it is a heading, a list, a link, stress or a tag."""
    plain = _ACTIVE.sub(r"\\\1", " ".join(clean(text).split()))
    plain = _LINKED.sub(lambda found: f"\\{found[0]}", plain)
    opens = _OPENS_A_LIST.match(plain)
    if opens is None:
        return plain
    at = opens.end() if opens[2][0].isdigit() else opens.start(2)
    return f"{plain[:at]}\\{plain[at:]}"


def heading(level: int, text: str) -> str:
    return f"{'#' * level} {escaped(text)}"


def items(lines: Iterable[Sequence[str]], *, numbered: bool = False) -> str:
    """A list, each item a sentence with what stands under it."""
    told = []
    for number, (first, *rest) in enumerate(lines, start=1):
        mark = f"{number}. " if numbered else "- "
        told.append(f"  \n{' ' * len(mark)}".join([mark + escaped(first), *map(escaped, rest)]))
    return "\n".join(told)


def table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table; columns of numbers stand to the right."""
    rows = list(rows)
    numbers = [all(_is_number(row[n]) for row in rows) for n in range(len(columns))]
    rule = ["---:" if right else "---" for right in numbers]
    lines = [[escaped(each) for each in columns], rule, *([escaped(each) for each in row] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def picture(words: str, path: str) -> str:
    """A drawing in a file beside the page, and what it shows for those who do not see it."""
    return f"![{escaped(words)}]({quote(path, safe='/')})"


def _is_number(text: str) -> bool:
    return bool(re.fullmatch(r"[\d.,]+", text))
