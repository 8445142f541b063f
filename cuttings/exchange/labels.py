"""Labels as a PDF: the name and what else there is to tell in the largest type that has room, and a code to
scan.

Lengths are points, 72 to the inch, except in a ``Layout``, which counts in millimetres; y grows downwards.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import product

import segno
from attrs import evolve, frozen
from fpdf.prefs import ViewerPreferences

from cuttings.exchange.label_sheets import Layout
from cuttings.exchange.lettering import FAINT, Bar, Lettering, Words, sheet_of_paper
from cuttings.rules.labelling import Label, name_forms, parts_of

MM = 72 / 25.4
EDGE = 2.0 * MM
"""White inside the edge of a label, for a knife or a printer that is a little out; from memory."""
SIZES = tuple(size / 2 for size in range(56, 11, -1))
"""Sizes of type for the name, the best first; below six points nobody reads it outdoors, from memory."""
TINY = (5.5, 5.0, 4.5, 4.0)
"""For the name and the code alone, on a label with no room for more."""
REST, LEAST_REST = 0.8, 5.5
"""Of the size of the name: that of the other lines, and the smallest they may have."""
LEADING = 1.2
NAME_LINES, ORIGIN_LINES = 4, 2

QUIET = 4
"""Modules of white round the code: Denso Wave, *Point for determining the code area*,
https://www.qrcode.com/en/howto/code.html"""
LEAST_MODULE, MOST_MODULE = 0.4 * MM, 1.0 * MM
"""The smallest module that a telephone reads on a label which has been out in the weather; a larger one than
the second is of no more use. From memory."""
MOST_OF_IT = 0.42
"""Of a label's length: what the code may take."""
TICK, TICK_OFF, TICK_WIDTH = 3.0 * MM, 1.0 * MM, 0.2 * MM
CROSS = 1.0 * MM
"""Cutting marks: the length of those in the margin and how far off they stand, and the arms of the crosses
between labels."""


@frozen
class Printed:
    """A PDF, its pages, and the lots whose labels are too small for a code."""

    pdf: bytes
    pages: int
    without_code: tuple[str, ...]


@frozen
class _Room:
    """What there is for words on a label, inside its edge."""

    edge: float
    width: float
    height: float


@frozen
class _Line:
    """A sayable text by the words that may be parted at the end of a line."""

    words: tuple[str, ...]
    scale: float = REST
    bold: bool = False
    most: int = 1


def labels_pdf(labels: Sequence[Label], layout: Layout, *, skip: int = 0, day: date) -> Printed:
    """The labels on sheets, the first ``skip`` places of which are left empty. It says that it was made when
    ``day`` began, and asks whoever prints it to leave its size alone."""
    lettering = sheet_of_paper(layout.paper, "Labels", day, landscape=layout.landscape)
    lettering.pdf.viewer_preferences = ViewerPreferences(print_scaling="None")
    pages, done = 0, dict[Label, tuple[tuple[Words | Bar, ...], bool]]()
    for each, place in zip(labels, layout.places(len(labels), skip), strict=True):
        if place.page >= pages:
            if pages:
                lettering.pdf.add_page()
            pages = place.page + 1
            _draw(lettering, _cutting_marks(layout) if layout.cut else (), 0.0, 0.0)
        if each not in done:
            done[each] = set_label(lettering, each, layout.size.width * MM, layout.size.height * MM)
        strokes, _ = done[each]
        x, y = place.x * MM, place.y * MM
        if layout.size.height > layout.size.width:
            low = y + layout.size.height * MM
            with lettering.pdf.rotation(90, x, low):
                _draw(lettering, strokes, x, low)
        else:
            _draw(lettering, strokes, x, y)
    without = tuple(each.lot for each, (_, coded) in done.items() if not coded)
    return Printed(bytes(lettering.pdf.output()), pages, without)


def _draw(lettering: Lettering, strokes: Iterable[Words | Bar], x: float, y: float) -> None:
    for stroke in strokes:
        lettering.draw(evolve(stroke, x=stroke.x + x), y)


def set_label(
    lettering: Lettering, label: Label, width: float, height: float
) -> tuple[tuple[Words | Bar, ...], bool]:
    """The strokes of one label, its long side across, and whether it has a code to scan."""
    long, short = max(width, height), min(width, height)
    edge = min(EDGE, short / 10)
    if code := _code(label, long, short):
        left = min(bar.x for bar in code) - QUIET * code[0].height
        if words := _words(lettering, label, _Room(edge, left - edge, short - 2 * edge)):
            return (*words, *code), True
    room = _Room(edge, long - 2 * edge, short - 2 * edge)
    return tuple(_words(lettering, label, room) or _least(lettering, label, room)), False


def _code(label: Label, long: float, short: float) -> tuple[Bar, ...]:
    """The code at the right end of a label, with its white on every side; nothing where it would be too small
    to be read."""
    room = min(short, MOST_OF_IT * long)
    for name, error in product(name_forms(label.name), ("m", "l")):
        symbol = segno.make(f"{label.lot} {name}", error=error, micro=False, encoding="utf-8")
        rows = [bytes(row) for row in symbol.matrix]
        module = min(room / (len(rows) + 2 * QUIET), MOST_MODULE)
        if module >= LEAST_MODULE:
            x = long - (len(rows) + QUIET) * module
            y = (short - len(rows) * module) / 2
            return tuple(
                Bar(x + first * module, y + number * module, count * module, module)
                for number, row in enumerate(rows)
                for first, count in _dark(row)
            )
    return ()


def _dark(row: bytes) -> Iterator[tuple[int, int]]:
    """The dark stretches of a row of modules: where they begin, and how long they are."""
    first = None
    for at, dark in enumerate((*row, 0)):
        if dark and first is None:
            first = at
        elif not dark and first is not None:
            yield first, at - first
            first = None


def _words(lettering: Lettering, label: Label, room: _Room) -> list[Words]:
    """All that the label tells, in the largest type in which it has room; nothing where it has none."""
    say = lettering.sayable
    how, day = say(label.method.spoken), say(label.day)
    tail = _Line(tuple(say(label.origin).split()), most=ORIGIN_LINES)
    head = _head(lettering, label, label.name)
    for size, way in product(_sizes(room), ((f"{how}, {day}",), (how, day))):
        lines = (*head, *(_Line((text,)) for text in way), tail)
        if (words := _fitted(lettering, lines, size, room)) is not None:
            return words
    return []


def _sizes(room: _Room) -> list[float]:
    """Sizes in which two lines have room at all, the best first."""
    return [size for size in SIZES if 2 * size * LEADING <= room.height]


def _head(lettering: Lettering, label: Label, name: str) -> tuple[_Line, _Line]:
    """What no label goes without."""
    parts = tuple(map(lettering.sayable, parts_of(name)))
    return _Line(parts, 1.0, True, NAME_LINES), _Line((lettering.sayable(label.lot),), 1.0, True)


def _least(lettering: Lettering, label: Label, room: _Room) -> list[Words]:
    """The code and as much as there is room for, on a label too small for all of it."""
    how = _Line((f"{label.method.spoken}, {label.day}",))
    for form, more, size in product(name_forms(label.name), ((how,), ()), (*_sizes(room), *TINY)):
        lines = (*_head(lettering, label, form), *more)
        if (words := _fitted(lettering, lines, size, room)) is not None:
            return words
    size = TINY[-1]
    most = max(int(room.height / (size * LEADING)) - 1, 1)
    name = lettering.lines(name_forms(label.name)[-1], size, room.width, bold=True, most=most)
    return _stacked([(line, size, True) for line in (*name, lettering.sayable(label.lot))], room)


def _fitted(lettering: Lettering, lines: Sequence[_Line], size: float, room: _Room) -> list[Words] | None:
    """The lines at a size; ``None`` where they are too many, or a word of them too long."""
    set_lines: list[tuple[str, float, bool]] = []
    high = 0.0
    for line in lines:
        own = size if line.scale == 1.0 else max(size * line.scale, LEAST_REST)
        broken = _broken(lettering, line, own, room.width)
        high += len(broken) * own * LEADING
        if any(lettering.wide(text, own, bold=line.bold) > room.width for text in broken):
            return None
        if len(broken) > line.most or high > room.height:
            return None
        set_lines += [(text, own, line.bold) for text in broken]
    return _stacked(set_lines, room)


def _broken(lettering: Lettering, line: _Line, size: float, width: float) -> list[str]:
    """A text in lines as wide as may be; wider ones where a word is."""
    lines: list[str] = []
    for word in line.words:
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and lettering.wide(longer, size, bold=line.bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _stacked(lines: Sequence[tuple[str, float, bool]], room: _Room) -> list[Words]:
    """Lines one below the other from the left edge, in the middle of the height."""
    high = sum(size * LEADING for _, size, _ in lines)
    y = room.edge + (room.height - high) / 2
    words = []
    for text, size, bold in lines:
        words.append(Words(text, room.edge, y + size * 0.92, size, bold))
        y += size * LEADING
    return words


def _cutting_marks(layout: Layout) -> Iterator[Bar]:
    """Ticks in the margins where the knife goes, and faint crosses where four labels meet."""
    across = [(layout.left + n * layout.size.width) * MM for n in range(layout.columns + 1)]
    down = [(layout.top + n * layout.size.height) * MM for n in range(layout.rows + 1)]
    half = TICK_WIDTH / 2
    for x in across:
        for y in (down[0] - TICK_OFF - TICK, down[-1] + TICK_OFF):
            yield Bar(x - half, y, TICK_WIDTH, TICK)
    for y in down:
        for x in (across[0] - TICK_OFF - TICK, across[-1] + TICK_OFF):
            yield Bar(x, y - half, TICK, TICK_WIDTH)
    for x, y in product(across[1:-1], down[1:-1]):
        yield Bar(x - CROSS, y - half, 2 * CROSS, TICK_WIDTH, FAINT)
        yield Bar(x - half, y - CROSS, TICK_WIDTH, 2 * CROSS, FAINT)
