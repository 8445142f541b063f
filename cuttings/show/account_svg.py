"""The charts of a year's account as one drawing: hatched and open bars, dashed marks, dots with their ranges.

What a bar is made of tells what became of its stems: strokes close together or far apart, an open box, a
dashed one, a dotted line. Colour tells nothing that a stroke does not.
"""

from calendar import month_abbr
from collections.abc import Sequence

from cuttings.show.account_chart import (
    OF_TEN,
    SIGNS,
    STEMS,
    TENS,
    End,
    MonthBars,
    StemBar,
    TakeRow,
    month_words,
    stem_words,
    take_words,
    ticks,
)
from cuttings.show.svg import ACCENT_COLOUR, BLACK, DASHED, LINE, PAPER, QUIET, THIN, Group, Style, Svg
from cuttings.show.timeline_svg import BIG, LEFT, MARGIN, MIDDLE, RIGHT, SMALL, WIDTH, fitted, text_width

TITLE_AT, LEAD_AT, TOP = 34.0, 56.0, 84.0
LEAD_LINE = 16.0
HEADING, AXIS, ROW, AFTER, KEY = 26.0, 22.0, 44.0, 24.0, 30.0
BAR = 15.0
"""How high a bar is."""

MONTHS_HIGH, MONTH_BAR = 130.0, 0.5
"""How high the most of a month reaches, and how much of its column a bar takes up."""

TICKS_APART = 44.0
CLOSE, FAR = 3.0, 9.0
"""From one stroke of a hatched bar to the next."""

FINE = Style(width=0.8)
FINE_ACCENT = Style(stroke=ACCENT_COLOUR, width=1.0)
DASHED_BOX = Style(width=1.0, dash=(4.0, 3.0))
LOST_LINE = Style(width=1.6, dash=(1.6, 3.6))
DOT, RING = 4.5, 5.5


def account_svg(
    title: str, lead: Sequence[str], bars: Sequence[StemBar], months: MonthBars, takes: Sequence[TakeRow]
) -> str:
    """The text of an SVG file with every chart that has something to show; it is as high as they need."""
    said = " ".join([*lead, *stem_words(bars), *month_words(months), *take_words(takes)])
    top = TOP + LEAD_LINE * (len(lead) - 1)
    heights = [_stems_high(bars), _months_high(months), _takes_high(takes)]
    drawing = Svg(WIDTH, top + sum(heights), title=title, description=said)
    drawing.text((MARGIN, TITLE_AT), fitted(title, WIDTH - 2 * MARGIN, BIG), size=BIG)
    for number, line in enumerate(lead):
        at = (MARGIN, LEAD_AT + LEAD_LINE * number)
        drawing.text(at, fitted(line, WIDTH - 2 * MARGIN, SMALL + 1), size=SMALL + 1, colour=QUIET)
    if bars:
        _stems(drawing.group("what became of the stems"), bars, top)
    if heights[1]:
        _months(drawing.group("stems started by month"), months, top + heights[0])
    if takes:
        _takes(drawing.group("what took"), takes, top + heights[0] + heights[1])
    return drawing.document()


def _stems_high(bars: Sequence[StemBar]) -> float:
    return HEADING + AXIS + ROW * len(bars) + KEY + AFTER if bars else 0.0


def _months_high(months: MonthBars) -> float:
    drawn = any(months.stems) or any(months.before)
    return HEADING + AXIS + MONTHS_HIGH + AXIS + KEY + AFTER if drawn else 0.0


def _takes_high(takes: Sequence[TakeRow]) -> float:
    return HEADING + AXIS + ROW * len(takes) + KEY + AFTER if takes else 0.0


def _stems(group: Group, bars: Sequence[StemBar], top: float) -> None:
    """A bar for each kind, as long as it has stems."""
    _heading(group, "What became of the stems", top)
    most = max(bar.stems for bar in bars)
    first = top + HEADING + AXIS
    _scale(group, most, STEMS, first, ROW * len(bars))
    for number, bar in enumerate(bars):
        row = first + ROW * number + 8
        inside = group.group(f"{bar.name}, {bar.aside}, {bar.words}")
        _name(inside, bar.name, bar.aside, row)
        begin = LEFT
        for end in SIGNS:
            length = bar.ends.get(end, 0) * (RIGHT - LEFT) / most
            _piece(inside, end, begin, row, length)
            begin += length
        _under(inside, bar.words, row + BAR + 13)
    at = MARGIN
    for end in SIGNS:
        _piece(group, end, at, first + ROW * len(bars) + 10, 26.0)
        group.text((at + 32, first + ROW * len(bars) + 22), str(end), size=SMALL)
        at += 32 + text_width(str(end), SMALL) + 26


def _piece(group: Group, end: End, left: float, top: float, length: float) -> None:
    """A part of a bar, drawn as befits what became of its stems."""
    if length <= 0.0:
        return
    if end is End.LOST:
        group.line((left + 2, top + BAR / 2), (left + length - 1, top + BAR / 2), LOST_LINE)
        return
    if end is End.WAITING:
        group.rectangle((left, top), length, BAR, DASHED_BOX)
        return
    group.rectangle((left, top), length, BAR, LINE)
    if end in (End.PLACE, End.PASSED_ON):
        style, apart = (FINE_ACCENT, CLOSE) if end is End.PLACE else (FINE, FAR)
        _hatch(group, left, top, length, BAR, apart, style)


def _hatch(
    group: Group, left: float, top: float, length: float, high: float, apart: float, style: Style
) -> None:
    """Upright strokes within a box."""
    for number in range(1, int(length / apart) + 1):
        x = left + number * apart
        if x < left + length - 0.5:
            group.line((x, top + 1), (x, top + high - 1), style)


def _months(group: Group, months: MonthBars, top: float) -> None:
    """An upright bar for each month, and a dashed stroke as high as the year before came."""
    _heading(group, "Stems started, month by month", top)
    roof = top + HEADING + AXIS
    floor = roof + MONTHS_HIGH
    for mark in ticks(months.most, 22.0, MONTHS_HIGH):
        y = floor - mark * MONTHS_HIGH / months.most
        group.line((LEFT, y), (RIGHT, y), LINE if mark == 0 else THIN)
        group.text((LEFT - 8, y + 4), str(mark), size=SMALL, anchor="end")
    group.text((MARGIN, roof + 4), "stems", size=SMALL, colour=QUIET)
    column = (RIGHT - LEFT) / 12
    for month, stems in enumerate(months.stems):
        middle = LEFT + column * (month + 0.5)
        half = column * MONTH_BAR / 2
        group.text((middle, floor + 16), month_abbr[month + 1], size=SMALL, anchor="middle")
        inside = group.group(months.words(month) or f"{month_abbr[month + 1]}: nothing")
        earlier = months.before[month] if months.before else 0
        if earlier:
            y = floor - earlier * MONTHS_HIGH / months.most
            inside.line((middle - half - 8, y), (middle + half + 8, y), DASHED)
        if stems:
            high = stems * MONTHS_HIGH / months.most
            inside.rectangle((middle - half, floor - high), 2 * half, high, LINE)
            _hatch(inside, middle - half, floor - high, 2 * half, high, CLOSE, FINE_ACCENT)
            wide = text_width(str(stems), SMALL)
            box = (middle - wide / 2, floor - high - SMALL - 4)
            inside.rectangle(box, wide, SMALL + 2, Style(stroke="none", fill=PAPER))
            inside.text((middle, floor - high - 5), str(stems), size=SMALL, anchor="middle")
    at = floor + AXIS + 12
    group.rectangle((MARGIN, at), 26.0, BAR, LINE)
    _hatch(group, MARGIN, at, 26.0, BAR, CLOSE, FINE_ACCENT)
    group.text((MARGIN + 32, at + 12), str(months.year), size=SMALL)
    if months.before:
        group.line((MARGIN + 86, at + BAR / 2), (MARGIN + 116, at + BAR / 2), DASHED)
        group.text((MARGIN + 124, at + 12), f"{months.year - 1}, the whole year", size=SMALL)


def _takes(group: Group, rows: Sequence[TakeRow], top: float) -> None:
    """A dot for what each kind comes to, a line for its range, a ring for the usual."""
    _heading(group, "What took, against the usual", top)
    first = top + HEADING + AXIS
    _scale(group, TENS, OF_TEN, first, ROW * len(rows))
    for number, row in enumerate(rows):
        y = first + ROW * number + 14
        inside = group.group(f"{row.name}, {row.aside}: {row.words}")
        _name(inside, row.name, row.aside, y - 6)
        _dot_and_range(inside, _along(row.low), _along(row.mean), _along(row.high), _along(row.usual), y)
        _under(inside, row.words, y + 20)
    at = first + ROW * len(rows) + 18
    group.circle((MARGIN + 6, at), DOT, Style(stroke=ACCENT_COLOUR, fill=ACCENT_COLOUR))
    group.text((MARGIN + 18, at + 4), "what it comes to, the usual counted in", size=SMALL)
    group.line((MARGIN + 290, at), (MARGIN + 326, at), LINE)
    group.text((MARGIN + 334, at + 4), "nine times in ten between its ends", size=SMALL)
    group.circle((MARGIN + 590, at), RING, DASHED_BOX)
    group.text((MARGIN + 602, at + 4), "the usual", size=SMALL)


def _dot_and_range(group: Group, low: float, mean: float, high: float, usual: float, y: float) -> None:
    group.line((low, y), (high, y), LINE)
    for x in (low, high):
        group.line((x, y - 5), (x, y + 5), LINE)
    group.circle((usual, y), RING, DASHED_BOX)
    group.circle((mean, y), DOT, Style(stroke=ACCENT_COLOUR, fill=ACCENT_COLOUR))


def _along(share: float) -> float:
    return LEFT + min(max(share, 0.0), 1.0) * (RIGHT - LEFT)


def _heading(group: Group, words: str, top: float) -> None:
    group.text((MARGIN, top + 14), words, size=MIDDLE + 1, colour=BLACK)


def _scale(group: Group, most: int, of: str, top: float, high: float) -> None:
    """Numbers over a line, and quiet rules down from its ticks; the last number says of what."""
    marks = ticks(most, TICKS_APART, RIGHT - LEFT)
    group.line((LEFT, top), (RIGHT, top), LINE)
    for mark in marks:
        x = LEFT + mark * (RIGHT - LEFT) / most
        group.line((x, top), (x, top + high), THIN)
        group.text((x, top - 6), str(mark), size=SMALL, anchor="middle")
    last = LEFT + marks[-1] * (RIGHT - LEFT) / most
    half = text_width(str(marks[-1]), SMALL) / 2
    room = WIDTH - last - half - 4
    if text_width(of, SMALL) <= room:
        group.text((last + half + 3, top - 6), of.strip(), size=SMALL, colour=QUIET)
    else:
        group.text((LEFT - 10, top - 6), of.strip(), size=SMALL, anchor="end", colour=QUIET)


def _under(group: Group, words: str, y: float) -> None:
    """Words under what is drawn, on paper of their own so that no rule runs through them."""
    words = fitted(words, RIGHT - LEFT - 8, SMALL)
    group.rectangle(
        (LEFT + 3, y - SMALL + 1), text_width(words, SMALL) + 2, SMALL + 2, Style(stroke="none", fill=PAPER)
    )
    group.text((LEFT + 4, y), words, size=SMALL, colour=QUIET)


def _name(group: Group, name: str, aside: str, top: float) -> None:
    room = LEFT - MARGIN - 12
    group.text((MARGIN, top + 11), fitted(name, room, SMALL + 1), size=SMALL + 1)
    group.text((MARGIN + 10, top + 26), fitted(aside, room - 10, SMALL), size=SMALL, colour=QUIET)
