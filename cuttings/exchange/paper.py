"""The week's sheet as one printed page, to be read at arm's length and written on with a pencil.

Lengths are points, 72 to the inch; in a block, ``y`` counts downwards from its own top. Names may hold any
letter: ``cuttings.exchange.lettering`` says what becomes of those that the typeface lacks.
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import chain, product

from attrs import evolve, field, frozen

from cuttings.exchange import saying
from cuttings.exchange.lettering import Box, Format, Lettering, Rule, Stroke, Words, sheet_of_paper
from cuttings.nudges.sheet import ANYWHERE, Item, Sheet, Stop, alike
from cuttings.words import plants_said

EDGE = 40.0
"""White on every side, 14 mm; home printers leave up to 6 mm bare, from memory."""
SIZES = (16.0, 15.0, 14.0, 13.0, 12.0, 11.0)
"""Sizes of type for the jobs, the best first."""
LEADING = 1.25
"""From one line of small type to the next, in sizes of type."""
SMALLEST, LEAST_READ = 9.5, 11.0
"""The smallest type for a reason, and for what must be read with a spade in hand."""
PENCIL, TIGHT = 21.0, 15.5
"""Room above a line for a pencil, about 7 mm, or 5 mm on a full page."""
SHORTEST_RULE = 0.35
"""Of a job's width: what must be left beside the end of its reason for a line there."""
FEWEST_LINES = 3
"""Ruled lines under "Notes" below which they are not worth a heading."""
Way = tuple[int, bool]
WAYS: tuple[tuple[Way, ...], ...] = (((2, False), (1, True)), ((0, False),))
"""Lines for a reason, and whether the pencil's line may stand beside its end; those of the first group are
tried together in each size of type. A reason ends with a sentence: a long first one may take more lines."""
JOB_LINES, NAME_LINES, TOOL_LINES = 4, 2, 3
LISTED = 8
"""How many jobs are named that are left or better left alone; the rest are counted."""


@frozen
class Block:
    """Strokes that stay together, and the height they take."""

    strokes: tuple[Stroke, ...]
    height: float


@frozen(kw_only=True)
class Setter:
    """Sets a sheet in one size of type, in one of the ways."""

    lettering: Lettering
    today: date
    size: float
    way: Way
    items: tuple[Item, ...] = field(repr=False)
    """All that has a number: what is planned and what is left."""
    listed: int = LISTED
    longest: str = field(init=False)
    margin: float = field(init=False)

    @longest.default
    def _widest_number(self) -> str:
        return max((str(item.number) for item in self.items), key=len, default="")

    @margin.default
    def _for_dates(self) -> float:
        dates = {"until 30 May", *(saying.due([item], self.today) for item in self.items)}
        return max(self.lettering.wide(told, self.middle, bold=True) for told in dates) + self.size * 0.4

    @property
    def why_lines(self) -> int:
        return self.way[0]

    @property
    def small(self) -> float:
        return max(SMALLEST, self.size * 0.72)

    @property
    def middle(self) -> float:
        return max(LEAST_READ, self.size * 0.8)

    @property
    def side(self) -> float:
        """Of a tick box."""
        return self.size * 1.1

    @property
    def right(self) -> float:
        return self.lettering.width - EDGE

    @property
    def text_x(self) -> float:
        """Where the words of a job begin, after the date, the box and the number."""
        return EDGE + self.margin + self._indent(self.size)

    def _indent(self, size: float) -> float:
        """From a tick box to the words that follow it and its number."""
        return size * 2.2 + self.lettering.wide(self.longest, size, bold=True)

    def page(self, sheet: Sheet, garden: str, most: int | None = None) -> list[Block]:
        """All that is printed above the foot; of what is planned, ``most`` jobs that cost most by waiting."""
        blocks = [self._head(sheet, garden)]
        stops = sheet.stops if most is None else _costliest(sheet, most)
        for stop in stops:
            blocks.append(self._stop(stop, sheet.walk))
            blocks.extend(self._job(items) for items in alike(stop.items))
        dropped = sum(len(stop.items) for stop in sheet.stops) - sum(len(stop.items) for stop in stops)
        if dropped:
            blocks.append(self._lines([saying.more(dropped)], EDGE))
        elif not sheet.stops:
            blocks.append(self._lines(["Nothing needs doing."], EDGE, size=self.size))
        blocks.extend(self._listed("Wait", sheet.not_yet, sheet.last))
        blocks.extend(self._listed("Left for another day", sheet.left, sheet.last))
        return blocks

    def foot(self, sheet: Sheet) -> Block:
        """How to write it down afterwards; the job that costs most by waiting is always printed."""
        items = [item for stop in sheet.stops for item in stop.items]
        if not items:
            return Block((), 0.0)
        told = "Afterwards, write down what is done by its number:"
        command = saying.write_down(sheet, max(items, key=lambda item: item.cost).number)
        y = self.small * 1.6
        x = EDGE + self.lettering.wide(told + " ", self.small)
        return Block(
            (Words(told, EDGE, y, self.small), Words(command, x, y, self.small, bold=True)),
            y + 0.3 * self.small,
        )

    def notes(self, room: float) -> Block:
        """Lines for a pencil in what room there is."""
        top = self.size * 2.6
        count = int((room - top) / PENCIL - 0.5)
        if count < FEWEST_LINES:
            return Block((), 0.0)
        rules = (Rule(EDGE, top + PENCIL * n, self.right - EDGE) for n in range(1, count + 1))
        return Block((Words("Notes", EDGE, top, self.size, bold=True), *rules), top + PENCIL * count)

    def _head(self, sheet: Sheet, garden: str) -> Block:
        title = self.size * 1.6
        name = self.lettering.lines(garden, title, self.right - EDGE, bold=True, most=NAME_LINES)
        return self._stacked(
            EDGE,
            [
                *((line, title, True) for line in name),
                (saying.days(sheet.first, sheet.last), self.size, False),
                *((text, self.small, False) for text in (saying.minutes(sheet),) if text),
            ],
        )

    def _stop(self, stop: Stop, walk: int) -> Block:
        size = self.size * 1.1
        told = saying.stop_minutes(stop, walk)
        x = self.right - self.lettering.wide(told, self.small)
        top = self.size * 0.9
        area = self._lines(
            [stop.area or ANYWHERE], EDGE, size=size, bold=True, most=NAME_LINES, until=x - self.size
        )
        strokes = [*area.strokes, Words(told, x, size, self.small)]
        height = max(area.height, size * LEADING)
        if stop.tools:
            take = self._lines([f"Take: {', '.join(stop.tools)}"], EDGE, size=self.middle, most=TOOL_LINES)
            strokes += _lowered(take.strokes, height)
            height += take.height
        return Block(tuple(_lowered(strokes, top)), height + top + self.size * 0.3)

    def _job(self, items: Sequence[Item]) -> Block:
        """One job, for one lot or several, with all that is said of it and a line for a pencil."""
        first, lead = items[0], self.size * 1.2
        time = f"{sum(item.minutes for item in items)} min"
        time_x = self.right - self.lettering.wide(time, self.middle)
        base = self.size * 1.15
        pressing = any(item.pressing for item in items)
        strokes: list[Stroke] = [Words(saying.due(items, self.today), EDGE, base, self.middle, pressing)]
        if len(items) == 1:
            strokes += self._tick(first, EDGE + self.margin, base, self.size)
        lines = self.lettering.lines(
            saying.job(items), self.size, time_x - self.size - self.text_x, most=JOB_LINES
        )
        strokes += [Words(line, self.text_x, base + lead * n, self.size) for n, line in enumerate(lines)]
        strokes.append(Words(time, time_x, base, self.middle))
        y = base + lead * (len(lines) - 1) + self.size * 0.3
        parts = [self._ticks(items)] if len(items) > 1 else []
        parts.extend(self._lines([text], self.text_x, bold=bold) for text, bold in self._said_under(items))
        for part in parts:
            strokes += _lowered(part.strokes, y)
            y += part.height
        return self._ruled(strokes, y)

    def _ruled(self, strokes: list[Stroke], y: float) -> Block:
        """A job with its line for a pencil: below it, or beside the end of its reason."""
        end, pencil = strokes[-1], PENCIL if self.size > LEAST_READ else TIGHT
        left = self.text_x
        if self.way[1] and isinstance(end, Words) and end.size == self.small and not end.bold:
            beside = end.x + self.lettering.wide(end.text, end.size) + self.size * 0.6
            if self.right - beside >= SHORTEST_RULE * (self.right - self.text_x):
                left, y = beside, y + max(pencil - end.size * LEADING, 0.0)
        if left == self.text_x:
            y += pencil
        strokes.append(Rule(left, y, self.right - left))
        return Block(tuple(strokes), y + self.size * 0.35)

    def _said_under(self, items: Sequence[Item]) -> Iterator[tuple[str, bool]]:
        """What stands under a job, and whether it is bold: its sittings, what can hurt, and why."""
        for item in items:
            split = saying.sittings(item)
            if split:
                yield (f"{split}." if len(items) == 1 else f"Number {item.number}: {split}."), False
        for caution in dict.fromkeys(chain.from_iterable(item.nudge.cautions for item in items)):
            yield f"Take care: {caution}", True
        if self.why_lines:
            yield self._why(items[0].nudge.window.why), False

    def _why(self, why: str) -> str:
        """As many whole sentences as go into the lines for them, and at least the first."""
        kept, *rest = saying.sentences(why)
        for sentence in rest:
            longer = f"{kept} {sentence}"
            if len(self.lettering.lines(longer, self.small, self.right - self.text_x)) > self.why_lines:
                break
            kept = longer
        return kept

    def _tick(self, item: Item, x: float, base: float, size: float) -> list[Stroke]:
        """A box and its number, upright on a line of type."""
        side = size * 1.1
        return [
            Box(x, base - size * 0.345 - side / 2, side),
            Words(str(item.number), x + side + size * 0.35, base, size, bold=True),
        ]

    def _ticks(self, items: Sequence[Item]) -> Block:
        """A box for each lot, with its number and name, side by side where the names are short."""
        size, indent = self.middle, self._indent(self.middle)
        width = self.right - self.text_x
        names = [self.lettering.sayable(item.nudge.name) for item in items]
        widest = max(self.lettering.wide(name, size) for name in names) + indent + size
        columns = min(max(int((width + size) // widest), 1), 3)
        step = width / columns
        strokes: list[Stroke] = []
        y = 0.0
        for start in range(0, len(items), columns):
            most = 1
            for column, item in enumerate(items[start : start + columns]):
                x, base = self.text_x + column * step, y + size * 1.25
                lines = self.lettering.lines(names[start + column], size, step - indent, most=NAME_LINES)
                most = max(most, len(lines))
                strokes += self._tick(item, x, base, size)
                strokes += [
                    Words(line, x + indent, base + size * 1.2 * n, size) for n, line in enumerate(lines)
                ]
            y += size * (1.55 + 1.2 * (most - 1))
        return Block(tuple(strokes), y + size * 0.3)

    def _listed(self, heading: str, items: Sequence[Item], last: date) -> Iterator[Block]:
        if not items:
            return
        top = self.size * 0.9
        strokes = [Words(heading, EDGE, top + self.size, self.size, bold=True)]
        if any(plants_said(item.risk) for item in items):
            x = self.right - self.lettering.wide(saying.AT_RISK, self.small)
            strokes.append(Words(saying.AT_RISK, x, top + self.size, self.small))
        yield Block(tuple(strokes), top + self.size * 1.35)
        shown = items if len(items) <= self.listed else items[: self.listed]
        yield from (self._unplanned(item, last) for item in shown)
        if len(shown) < len(items):
            yield self._lines([saying.more(len(items) - len(shown))], EDGE + self.margin)

    def _unplanned(self, item: Item, last: date) -> Block:
        """A job that is left, or better left: its day, what it is, and what waiting risks."""
        size, base = self.small, self.small
        waits = item.nudge.not_yet
        when = saying.opening(item, last, self.today) if waits else saying.due([item], self.today)
        lost = plants_said(item.risk)
        lost_x = self.right - self.lettering.wide(lost, size)
        told, number = saying.unplanned(item), "" if waits else str(item.number)
        if waits and self.why_lines:
            told = f"{told} {saying.sentences(item.nudge.window.why)[0]}"
        x = EDGE + self.margin
        text_x = x + self.lettering.wide(self.longest, size, bold=True) + size * 0.6 if number else x
        until = lost_x - (self.size if lost else 0.0)
        text = self._lines([told], text_x, most=NAME_LINES, until=until)
        around = (
            Words(when, EDGE, base, size), Words(number, x, base, size, bold=True), *text.strokes,
            Words(lost, lost_x, base, size),
        )  # fmt: skip
        return Block(tuple(each for each in around if not isinstance(each, Words) or each.text), text.height)

    def _lines(
        self,
        told: Iterable[str],
        x: float,
        *,
        size: float = 0.0,
        bold: bool = False,
        most: int | None = None,
        until: float = 0.0,
    ) -> Block:
        """Texts one under the other, each broken into lines."""
        size, width = size or self.small, (until or self.right) - x
        return self._stacked(
            x,
            [
                (line, size, bold)
                for text in told
                for line in self.lettering.lines(text, size, width, bold=bold, most=most)
            ],
        )

    def _stacked(self, x: float, lines: Iterable[tuple[str, float, bool]]) -> Block:
        strokes, y = [], 0.0
        for text, size, bold in lines:
            strokes.append(Words(text, x, y + size, size, bold))
            y += size * LEADING
        return Block(tuple(strokes), y)


def page_of(sheet: Sheet, *, garden: str, today: date, us: bool) -> bytes:
    """The sheet as a PDF of exactly one page: US letter, or A4.

    It is set in the largest type in which all of it has room. If it has none even in the smallest, the
    reasons are left out, and then the jobs that cost least by waiting. The same arguments give the same
    bytes: the document says that it was made when ``today`` began.
    """
    paper: Format = "letter" if us else "A4"
    title = f"{garden}, {saying.days(sheet.first, sheet.last)}"
    lettering = sheet_of_paper(paper, title, today)
    setter, blocks = _chosen(lettering, sheet, garden, today)
    y = EDGE
    foot = setter.foot(sheet)
    low = lettering.height - EDGE - foot.height
    used = sum(block.height for block in blocks)
    for block in (*blocks, setter.notes(low - EDGE - used)):
        for stroke in block.strokes:
            lettering.draw(stroke, y)
        y += block.height
    for stroke in foot.strokes:
        lettering.draw(stroke, low)
    return bytes(lettering.pdf.output())


def _chosen(lettering: Lettering, sheet: Sheet, garden: str, today: date) -> tuple[Setter, list[Block]]:
    """The best way to set a sheet on one page."""

    def fits(setter: Setter, most: int | None = None) -> bool:
        height = sum(block.height for block in setter.page(sheet, garden, most)) + setter.foot(sheet).height
        return height <= lettering.height - 2 * EDGE

    planned = [item for stop in sheet.stops for item in stop.items]
    items = (*planned, *sheet.left)
    for ways in WAYS:
        for size, way in product(SIZES, ways):
            setter = Setter(lettering=lettering, today=today, size=size, way=way, items=items)
            if fits(setter):
                return setter, setter.page(sheet, garden)
    setter = evolve(setter, listed=LISTED // 2)
    most = bisect_right(range(len(planned) + 1), False, key=lambda most: not fits(setter, most)) - 1
    return setter, setter.page(sheet, garden, max(most, 0))


def _costliest(sheet: Sheet, most: int) -> tuple[Stop, ...]:
    """The stops with only so many jobs, those that cost most by waiting."""
    items = sorted((item for stop in sheet.stops for item in stop.items), key=lambda item: -item.cost)
    kept = {item.number for item in items[:most]}
    stops = (evolve(stop, items=tuple(i for i in stop.items if i.number in kept)) for stop in sheet.stops)
    return tuple(stop for stop in stops if stop.items)


def _lowered(strokes: Iterable[Stroke], by: float) -> list[Stroke]:
    return [evolve(stroke, y=stroke.y + by) for stroke in strokes]
