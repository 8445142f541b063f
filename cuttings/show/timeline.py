"""Windows along the calendar: what each thing needs, when it may be done and when it is best done.

In letters, a bar is ``-`` while its window is open and ``=`` while it is at its best. It begins and ends in
the columns that hold the middle of its first and of its last day, so it is nowhere more than half a column
out. ``<`` and ``>`` stand beside the calendar, where a window goes on beyond its edge.
"""

from calendar import month_abbr, month_name
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise

from attrs import frozen
from rich.cells import cell_len

from cuttings.dates import spoken
from cuttings.show.plain import ascii_twin, clean, wrapped

NARROW = 60
"""With fewer columns than these a name stands above its bars, and what each bar is at the left of it."""

GAP = 3
"""Columns between one bar with its word and the next on a line, so that no word is taken for the other's."""

FEWEST_A_WEEK = 2.0
"""Columns that a week needs for its tick."""

PRESSING = " now"
"""What is said after the word of a job that cannot wait."""

_TIED = "\N{NO-BREAK SPACE}"


@frozen(kw_only=True)
class Span:
    """A window of a job: ``what`` it is in a word or two, from its first to its last day, both included.
    ``pressing`` is said of what waiting costs something."""

    what: str
    opens: date
    best: tuple[date, date]
    closes: date
    pressing: bool = False


@frozen
class Row:
    """What the windows are for."""

    name: str
    spans: Sequence[Span]


@frozen
class Section:
    """Rows that belong together, under a heading."""

    heading: str
    rows: Sequence[Row]


@frozen
class Calendar:
    """The days from ``first`` to ``last`` laid along so many ``units``: columns, or lengths on paper."""

    first: date
    last: date
    units: float

    @property
    def days(self) -> int:
        return (self.last - self.first).days + 1

    def at(self, day: date, *, part: float = 0.0) -> float:
        """Where a day begins, or so great a part of it is over; never off the calendar."""
        reckoned = ((day - self.first).days + part) / self.days
        return min(max(reckoned, 0.0), 1.0) * self.units

    def column(self, day: date) -> int:
        """The column that holds the middle of a day."""
        within = min(max(day, self.first), self.last)
        return int(self.at(within, part=0.5))

    def holds(self, day: date) -> bool:
        return self.first <= day <= self.last

    def touches(self, span: Span) -> bool:
        return span.opens <= self.last and span.closes >= self.first

    def months(self) -> Iterator[tuple[date, date]]:
        """The first and the last day of each month, as far as they are on the calendar."""
        begin = self.first
        while begin <= self.last:
            following = (begin.replace(day=1) + timedelta(days=31)).replace(day=1)
            yield begin, min(following - timedelta(days=1), self.last)
            begin = following

    def mondays(self) -> Iterator[date]:
        first = self.first + timedelta(days=-self.first.weekday() % 7)
        return (first + timedelta(days=7 * week) for week in range((self.last - first).days // 7 + 1))


def shown(sections: Iterable[Section], first: date, last: date) -> list[Section]:
    """The sections as far as something in them touches the days, each row's windows in their order."""
    calendar = Calendar(first, last, 1.0)
    kept = []
    for section in sections:
        rows = []
        for row in section.rows:
            spans = [span for span in row.spans if calendar.touches(span)]
            if spans:
                rows.append(Row(row.name, sorted(spans, key=lambda span: (span.opens, span.closes))))
        if rows:
            kept.append(Section(section.heading, rows))
    return kept


def timeline_words(sections: Iterable[Section], first: date, last: date, today: date) -> list[str]:
    """The picture in sentences, each section after its heading."""
    lines = []
    for section in shown(sections, first, last):
        lines.append(f"{section.heading}:")
        lines += [f"{row.name}: {span_words(span, today)}." for row in section.rows for span in row.spans]
    return lines


def span_words(span: Span, today: date) -> str:
    """``pot from 3 May to 14 June, best 3 to 24 May``."""
    whole = span.opens, span.closes
    pressing = PRESSING if span.pressing else ""
    how = "on" if span.opens == span.closes else "from"
    said = f"{span.what}{pressing} {how} {_stretch(whole, today)}"
    if span.best == whole:
        return said
    return f"{said}, best {'on ' if span.best[0] == span.best[1] else ''}{_stretch(span.best, today)}"


def _stretch(days: tuple[date, date], today: date) -> str:
    """Two days with the month and the year said once where they share them."""
    first, last = days
    end = spoken(last, today)
    if first == last:
        return end
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {end}"
    return f"{spoken(first, first if first.year == last.year else today)} to {end}"


def timeline_lines(
    sections: Iterable[Section], first: date, last: date, today: date, width: int
) -> list[str]:
    """The picture in ``width`` columns, forty or more."""
    kept = shown(sections, first, last)
    room = _names_room(kept, width)
    sheet = _Sheet(Calendar(first, last, width - room - 2), today, room)
    lines = _head(sheet)
    for section in kept:
        lines.append(_cut(section.heading, width))
        for row in section.rows:
            lines += _narrow(sheet, row, width) if width < NARROW else _wide(sheet, row, width)
    return [*lines, "", *_legend(sheet, kept, width)]


@frozen
class _Sheet:
    """The calendar with so much ``room`` for words at its left. A column on each side of it is kept for the
    signs that a window goes on."""

    calendar: Calendar
    today: date
    room: int

    def line(self, label: str, bars: Sequence["_Bar"]) -> str:
        cells = [" "] * (int(self.calendar.units) + 2)
        today = self.calendar.column(self.today) if self.calendar.holds(self.today) else None
        begins = [self.calendar.column(begin) for begin, _ in self.calendar.months() if begin.day == 1]
        for column in begins:
            beside = any(bar.start - 1 <= column <= bar.end for bar in bars)
            by_today = today is not None and abs(column - today) <= 1
            if column < bars[-1].end and not beside and not by_today:
                cells[1 + column] = "."
        if today is not None:
            cells[1 + today] = "|"
        for bar in bars:
            bar.draw(cells)
        return f"{label.ljust(self.room)}{''.join(cells)}".rstrip()

    @property
    def weeks(self) -> bool:
        """Whether there is room for a tick for each week."""
        return 7 * self.calendar.units / self.calendar.days >= FEWEST_A_WEEK


@frozen
class _Bar:
    """A bar in its columns, and its word from the column ``word_at`` on; both lie from ``start`` to before
    ``end``."""

    columns: tuple[int, int]
    best: tuple[int, int] | None
    beyond: tuple[bool, bool]
    word: str = ""
    word_at: int = 0

    @property
    def start(self) -> int:
        return min(self.columns[0], self.word_at) if self.word else self.columns[0]

    @property
    def end(self) -> int:
        return max(self.columns[1] + 1, self.word_at + len(self.word))

    def draw(self, cells: list[str]) -> None:
        """Into cells of which the first stands before the calendar, and the last after it."""
        cells[1 + self.start : 1 + self.end] = " " * (self.end - self.start)
        for column in range(self.columns[0], self.columns[1] + 1):
            cells[1 + column] = "=" if self.best and self.best[0] <= column <= self.best[1] else "-"
        if self.beyond[0]:
            cells[0] = "<"
        if self.beyond[1]:
            cells[-1] = ">"
        cells[1 + self.word_at : 1 + self.word_at + len(self.word)] = self.word


def _bar(calendar: Calendar, span: Span, word: str = "", word_at: int = 0) -> _Bar:
    begin, end = span.best
    seen = begin <= calendar.last and end >= calendar.first
    return _Bar(
        columns=(calendar.column(span.opens), calendar.column(span.closes)),
        best=(calendar.column(begin), calendar.column(end)) if seen else None,
        beyond=(span.opens < calendar.first, span.closes > calendar.last),
        word=word,
        word_at=word_at,
    )


def _worded(calendar: Calendar, span: Span) -> Iterator[_Bar]:
    """The bar with its word after it, and with its word before it, where there is room."""
    word = _word(span)
    begin, end = calendar.column(span.opens), calendar.column(span.closes)
    if end + 2 + len(word) <= calendar.units:
        yield _bar(calendar, span, word, end + 2)
    if begin - 1 - len(word) >= 0:
        yield _bar(calendar, span, word, begin - 1 - len(word))


def _wide(sheet: _Sheet, row: Row, width: int) -> Iterator[str]:
    """Bars side by side where they leave one another room, each beside its word; a bar with room for its
    word on neither side has a line of its own, with its word under the name."""
    lanes: list[list[_Bar]] = []
    alone: list[Span] = []
    for span in row.spans:
        ways = list(_worded(sheet.calendar, span))
        if not ways:
            alone.append(span)
            continue
        free = ((lane, bar) for lane in lanes for bar in ways if lane[-1].end + GAP <= bar.start)
        lane, bar = next(free, (None, ways[0]))
        if lane is None:
            lanes.append([bar])
        else:
            lane.append(bar)
    name = _cut(row.name, sheet.room - 1)
    if not lanes or not _level(row.name):
        yield _cut(row.name, width)
        name = ""
    for number, lane in enumerate(lanes):
        yield sheet.line(name if number == 0 else "", lane)
    yield from (_beneath(sheet, span) for span in alone)


def _narrow(sheet: _Sheet, row: Row, width: int) -> Iterator[str]:
    yield _cut(row.name, width)
    yield from (_beneath(sheet, span) for span in row.spans)


def _beneath(sheet: _Sheet, span: Span) -> str:
    """A bar with its word at the left."""
    presses = PRESSING if span.pressing else ""
    label = _cut(f"  {_word(span).removesuffix(presses)}", sheet.room - 1 - len(presses)) + presses
    return sheet.line(label, [_bar(sheet.calendar, span)])


def _names_room(sections: Sequence[Section], width: int) -> int:
    """Columns for the words at the left: as many as the longest needs, but most of the line is calendar."""
    rows = [row for section in sections for row in section.rows]
    if width < NARROW:
        needed = [len(_word(span)) + 3 for row in rows for span in row.spans]
        return min(max(needed, default=0), width * 2 // 5)
    needed = [len(row.name) + 1 for row in rows if _level(row.name)]
    return min(max([12, *needed]), width // 3)


def _head(sheet: _Sheet) -> list[str]:
    """The names of the months above their first days, and under them today and a tick for each Monday."""
    calendar = sheet.calendar
    begins = [(begin, calendar.column(begin)) for begin, _ in calendar.months()]
    rooms = [after - column - 1 for (_, column), (_, after) in pairwise(begins)]
    rooms.append(int(calendar.units) - begins[-1][1])
    forms = (list(month_name), list(month_abbr), [name[:1] for name in month_name])
    # The months at the edges may be cut short; they do not decide how the others are written.
    inner = list(zip(begins, rooms, strict=True))[1:-1]
    size = next((n for n, form in enumerate(forms) if all(len(form[d.month]) <= r for (d, _), r in inner)), 2)
    names = [" "] * int(calendar.units)
    for (begin, column), room in zip(begins, rooms, strict=True):
        name = next((form[begin.month] for form in forms[size:] if len(form[begin.month]) <= room), "")
        names[column : column + len(name)] = name
    ticks = [" "] * int(calendar.units)
    if sheet.weeks:
        for monday in calendar.mondays():
            ticks[calendar.column(monday)] = "'"
    if calendar.holds(sheet.today):
        ticks[calendar.column(sheet.today)] = "|"
    indent = " " * (sheet.room + 1)
    return [f"{indent}{''.join(cells)}".rstrip() for cells in (names, ticks) if any(map(str.strip, cells))]


def _legend(sheet: _Sheet, sections: Sequence[Section], width: int) -> list[str]:
    """What the signs mean that are on the picture; none is parted from its meaning."""
    calendar = sheet.calendar
    spans = [span for section in sections for row in section.rows for span in row.spans]
    told = {
        "- open": True,
        "= at its best": True,
        "< begun before": any(span.opens < calendar.first for span in spans),
        "> goes on": any(span.closes > calendar.last for span in spans),
        "| today": calendar.holds(sheet.today),
        ". first of the month": True,
        "' Monday": sheet.weeks,
    }
    said = ", ".join(sign.replace(" ", _TIED) for sign, there in told.items() if there)
    return [line.replace(_TIED, " ") for line in wrapped(f"{said}.", width)]


def _word(span: Span) -> str:
    """The word of a window in letters that are one column wide everywhere."""
    what = clean(span.what)
    return (what if _level(what) else ascii_twin(what)) + (PRESSING if span.pressing else "")


def _columns(text: str) -> int:
    """Columns that a text may take, as it is or in ASCII."""
    return max(len(text), cell_len(text), len(ascii_twin(text)))


def _level(text: str) -> bool:
    """Whether a text takes a column for each of its letters, as it is and in ASCII."""
    return len(clean(text)) == len(text) == cell_len(text) == len(ascii_twin(text))


def _cut(text: str, room: int) -> str:
    """A text in so many columns, with dots for what is left out; they are three, as their ASCII twin is."""
    text = clean(text)
    if _columns(text) <= room:
        return text
    text = text[: max(room - 3, 0)]
    while text and _columns(text) > room - 3:
        text = text[:-1]
    return f"{text}..."[: max(room, 0)]
