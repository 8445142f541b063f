"""Windows along the calendar as a drawing: thin while open, heavy while at their best, the word above."""

from collections.abc import Iterator, Sequence
from datetime import date

from attrs import frozen
from rich.cells import cell_len

from cuttings.dates import spoken
from cuttings.show.plain import clean
from cuttings.show.svg import ACCENT_COLOUR, BLACK, DASHED, LINE, PAPER, QUIET, THIN, Group, Style, Svg
from cuttings.show.timeline import PRESSING, Calendar, Row, Section, Span, shown, span_words

WIDTH = 960.0
MARGIN = 32.0
LEFT, RIGHT = 240.0, WIDTH - MARGIN
"""Where the calendar begins and ends; names stand at its left."""

TITLE_AT, MONTHS_AT, TOP = 34.0, 66.0, 74.0
HEADING, LANE, AFTER_ROW, AFTER_SECTION = 24.0, 27.0, 4.0, 8.0
FOOT = 64.0

BIG, MIDDLE, SMALL = 18.0, 13.0, 11.0
LETTER = 0.6
"""About how wide a letter is, as a share of its size; wider than most are."""

APART = 14.0
"""Room between one bar with its word and the next on the same line."""

MONTH_NAMES_NEED = 62.0
"""How wide a month must be for its whole name."""

HEAVY_BAR = 5.0
END = 4.5
"""How far the stroke at the end of a window reaches above and below it."""

KEY = "Thin: open. Heavy: at its best. An arrow: it goes on beyond the edge. Small ticks: Mondays."


def timeline_svg(sections: Sequence[Section], first: date, last: date, today: date, title: str) -> str:
    """The text of an SVG file; it is as high as its rows need."""
    kept = shown(sections, first, last)
    calendar = Calendar(first, last, RIGHT - LEFT)
    laid = list(_laid(kept, calendar, today))
    bottom = laid[-1].bottom if laid else TOP + LANE
    said = " ".join(
        f"{row.name}: {span_words(span, today)}." for part in kept for row in part.rows for span in row.spans
    )
    drawing = Svg(WIDTH, bottom + FOOT, title=title, description=said or "No window lies in these days.")
    drawing.text((MARGIN, TITLE_AT), fitted(title, WIDTH - 2 * MARGIN, BIG), size=BIG)
    _axis(drawing.group("calendar"), calendar, bottom)
    _today(drawing, calendar, today, bottom)
    for each in laid:
        _row(drawing, each)
    drawing.text((MARGIN, bottom + FOOT - 16), KEY, size=SMALL, colour=QUIET)
    return drawing.document()


@frozen
class _Bar:
    """A window between its ends, and its word, which begins at ``word_x``."""

    span: Span
    ends: tuple[float, float]
    best: tuple[float, float] | None
    beyond: tuple[bool, bool]
    word: str
    word_x: float
    said: str

    @property
    def extent(self) -> tuple[float, float]:
        return min(self.ends[0], self.word_x), max(self.ends[1], self.word_x + text_width(self.word, SMALL))


@frozen
class _LaidRow:
    """A row on the paper, from ``top`` on; ``heading`` is that of its section, if it is the first there."""

    heading: str | None
    name: str
    top: float
    lanes: Sequence[Sequence[_Bar]]

    @property
    def first_lane(self) -> float:
        return self.top + (0.0 if self.heading is None else HEADING)

    @property
    def bottom(self) -> float:
        return self.first_lane + LANE * len(self.lanes) + AFTER_ROW


def _laid(sections: Sequence[Section], calendar: Calendar, today: date) -> Iterator[_LaidRow]:
    top = TOP
    for section in sections:
        for number, row in enumerate(section.rows):
            bars = [_bar(row, span, calendar, today) for span in row.spans]
            lanes = _in_lanes([bar.extent for bar in bars], APART)
            told = [[bars[index] for index in lane] for lane in lanes]
            laid = _LaidRow(None if number else section.heading, row.name, top, told)
            top = laid.bottom
            yield laid
        top += AFTER_SECTION


def _in_lanes(extents: Sequence[tuple[float, float]], apart: float) -> list[list[int]]:
    """Which stretches can lie side by side on one line, so far apart: their numbers, line by line."""
    lanes: list[list[int]] = []
    for number, (begin, _) in enumerate(extents):
        lane = next((lane for lane in lanes if extents[lane[-1]][1] + apart <= begin), None)
        if lane is None:
            lanes.append([number])
        else:
            lane.append(number)
    return lanes


def _bar(row: Row, span: Span, calendar: Calendar, today: date) -> _Bar:
    begin, end = span.best
    ends = LEFT + calendar.at(span.opens), LEFT + calendar.at(span.closes, part=1.0)
    seen = begin <= calendar.last and end >= calendar.first
    presses = f"{PRESSING}, by {spoken(span.closes, today)}" if span.pressing else ""
    word = fitted(span.what, RIGHT - LEFT - text_width(presses, SMALL), SMALL) + presses
    return _Bar(
        span=span,
        ends=ends,
        best=(LEFT + calendar.at(begin), LEFT + calendar.at(end, part=1.0)) if seen else None,
        beyond=(span.opens < calendar.first, span.closes > calendar.last),
        word=word,
        word_x=min(ends[0] + 2, RIGHT - text_width(word, SMALL)),
        said=f"{row.name}: {span_words(span, today)}",
    )


def _axis(axis: Group, calendar: Calendar, bottom: float) -> None:
    """The months between quiet rules, their names above, and a tick for each Monday."""
    axis.line((LEFT, TOP), (RIGHT, TOP), LINE)
    for begin, end in calendar.months():
        left, right = LEFT + calendar.at(begin), LEFT + calendar.at(end, part=1.0)
        axis.line((left, TOP), (left, bottom), THIN)
        name = f"{begin:%B}" if right - left >= MONTH_NAMES_NEED else f"{begin:%b}"
        if text_width(name, SMALL) <= right - left:
            axis.text(((left + right) / 2, MONTHS_AT), name, size=SMALL, anchor="middle")
    axis.line((RIGHT, TOP), (RIGHT, bottom), THIN)
    for monday in calendar.mondays():
        x = LEFT + calendar.at(monday)
        axis.line((x, TOP), (x, TOP + 4), THIN)


def _today(drawing: Svg, calendar: Calendar, today: date, bottom: float) -> None:
    """A dashed line through the middle of the day, with its name under it."""
    if not calendar.holds(today):
        return
    x = LEFT + calendar.at(today, part=0.5)
    drawing.line((x, TOP), (x, bottom + 6), DASHED)
    words = f"today, {spoken(today, today)}"
    half = text_width(words, SMALL) / 2
    drawing.text((min(x, RIGHT - half), bottom + 20), words, size=SMALL, anchor="middle")


def _row(drawing: Svg, row: _LaidRow) -> None:
    room = LEFT - MARGIN - 12
    if row.heading is not None:
        words = fitted(row.heading, room, MIDDLE)
        drawing.text((MARGIN, row.top + HEADING - 7), words, size=MIDDLE)
    for number, lane in enumerate(row.lanes):
        y = row.first_lane + LANE * number + 19
        if number == 0:
            drawing.text((MARGIN + 10, y + 4), fitted(row.name, room - 10, SMALL + 1), size=SMALL + 1)
        for bar in lane:
            _draw(drawing.group(bar.said), bar, y)


def _draw(group: Group, bar: _Bar, y: float) -> None:
    colour = ACCENT_COLOUR if bar.span.pressing else BLACK
    left, right = bar.ends
    group.line((left, y), (right, y), Style(stroke=colour, width=1.2))
    for x, goes_on, way in ((left, bar.beyond[0], -1.0), (right, bar.beyond[1], 1.0)):
        if goes_on:
            tip = (x + way * 7, y)
            arrow = [(x, y), tip, (x + way * 3, y - END), tip, (x + way * 3, y + END)]
            group.polyline(arrow, Style(stroke=colour, width=1.2))
        else:
            group.line((x, y - END), (x, y + END), Style(stroke=colour, width=1.2))
    if bar.best is not None:
        group.line((bar.best[0], y), (bar.best[1], y), Style(stroke=colour, width=HEAVY_BAR))
    wide = text_width(bar.word, SMALL)
    group.rectangle((bar.word_x, y - 6 - SMALL), wide, SMALL + 1, Style(stroke="none", fill=PAPER))
    group.text((bar.word_x, y - 7), bar.word, size=SMALL, colour=colour)


def text_width(words: str, size: float) -> float:
    """About how wide words are, in the drawing's units; rather too wide than too narrow."""
    return cell_len(clean(words)) * LETTER * size


def fitted(words: str, room: float, size: float) -> str:
    """Words that fit, with an ellipsis for what is left out."""
    words = clean(words)
    if text_width(words, size) <= room:
        return words
    while words and text_width(words, size) > room - LETTER * size:
        words = words[:-1]
    return f"{words}…"
