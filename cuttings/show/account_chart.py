"""The charts of a year's account, in letters: what became of each kind of lot, when lots were started, and
what took.

Every sign has an ASCII twin of the same width, and every chart a sentence for each of its rows.
"""

from calendar import month_abbr, month_name
from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum

from attrs import frozen
from rich.cells import cell_len

from cuttings.show.plain import clean, wrapped

NARROW = 60
"""With fewer columns than these a name stands above its row, not beside it."""

BESIDE = 27
"""Columns for a name beside its row."""

TENS = 10
"""Shares are told as so many of ten."""

STEMS, OF_TEN = " stems", " of 10"
"""What the numbers of an axis are, said after the last one."""

ROUND_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
MOST_TICKS = 6


class End(StrEnum):
    """Where a stem has got to, as the bars tell it apart."""

    PLACE = "in place"
    PASSED_ON = "given or sold"
    ON_THE_WAY = "on the way"
    WAITING = "waiting"
    LOST = "lost"


SIGNS: Mapping[End, str] = {
    End.PLACE: "=",
    End.PASSED_ON: "+",
    End.ON_THE_WAY: "-",
    End.WAITING: ":",
    End.LOST: "x",
}
"""What stands for a stem in a bar, in the order of the bar."""


@frozen(kw_only=True)
class StemBar:
    """What became of the stems of a kind; ``aside`` is what stands under its name."""

    name: str
    aside: str
    ends: Mapping[End, int]

    @property
    def stems(self) -> int:
        return sum(self.ends.values())

    @property
    def words(self) -> str:
        """``20: 15 on the way, 2 waiting, 3 lost``; ``all 12 waiting`` where they stand alike."""
        told = [f"{self.ends[end]} {end}" for end in SIGNS if self.ends.get(end)]
        if len(told) == 1:
            return f"all {told[0]}" if self.stems > 1 else told[0]
        return f"{self.stems}: {', '.join(told)}"


@frozen(kw_only=True)
class MonthBars:
    """The stems started in each of the twelve months of a year, and of the year before if anything is known
    of it."""

    year: int
    stems: Sequence[int]
    before: Sequence[int] = ()

    @property
    def most(self) -> int:
        return max(*self.stems, *self.before, 1)

    def words(self, month: int) -> str:
        """``April 14, the year before 6``; empty for a month, 0 to 11, in which nothing was started."""
        earlier = self.before[month] if self.before else 0
        if not self.stems[month] and not earlier:
            return ""
        told = f", the year before {earlier}" if self.before else ""
        return f"{month_name[month + 1]} {self.stems[month]}{told}"


@frozen(kw_only=True)
class TakeRow:
    """The share of a kind that took, 0 to 1: ``mean`` with the usual counted in, nine times in ten between
    ``low`` and ``high``, against the ``usual``. ``counts`` says of how many stems."""

    name: str
    aside: str
    counts: str
    low: float
    mean: float
    high: float
    usual: float

    @property
    def words(self) -> str:
        """``7 of 12 took: about 5 of 10, nine times in ten between 3 and 7; usual 5 of 10``."""
        about = f"about {tenths(self.mean)} of 10, {self.between}"
        return f"{self.counts}: {about}; usual {tenths(self.usual)} of 10"

    @property
    def between(self) -> str:
        return f"nine times in ten between {tenths(self.low)} and {tenths(self.high)}"


def tenths(share: float) -> str:
    """A share as so many of ten, to a half: ``7`` or ``6.5``."""
    return f"{round(share * TENS * 2) / 2:g}"


def stem_lines(bars: Sequence[StemBar], width: int) -> list[str]:
    """A bar for each kind, a sign for each stem or for several, its counts under it, and the key."""
    left, room = _room(width)
    most = max([1, *(bar.stems for bar in bars)])
    each = stem_columns(most, room - len(f"{most}{STEMS}"))
    lines = _axis(left, round(most * each), most, STEMS)
    for bar in bars:
        signs = "".join(
            SIGNS[end] * count for end, count in zip(SIGNS, shared(bar, round(bar.stems * each)), strict=True)
        )
        lines += _beside(bar.name, bar.aside, signs, bar.words, left, room)
    return [*lines, "", *_key([f"{sign} {end}" for end, sign in SIGNS.items()], width)]


def stem_columns(most: int, room: int) -> float:
    """Columns for one stem: a whole number of them, or where there are more stems than columns a part."""
    return float(room // most) if most <= room else room / most


def shared(bar: StemBar, columns: int) -> list[int]:
    """The columns of a bar shared out among its ends in their order: in all as many as it has, for each end
    as its count is, and at least one for an end that holds a stem as long as there are enough."""
    counts = [bar.ends.get(end, 0) for end in SIGNS]
    stems = sum(counts)
    columns = max(columns, 1) if stems else 0
    exact = [count * columns / stems if stems else 0.0 for count in counts]
    cells = [int(each) for each in exact]
    by_rest = sorted(range(len(counts)), key=lambda n: cells[n] - exact[n])
    for number in by_rest[: columns - sum(cells)]:
        cells[number] += 1
    for number, count in enumerate(counts):
        widest = max(range(len(cells)), key=cells.__getitem__)
        if count and not cells[number] and cells[widest] > 1:
            cells[number], cells[widest] = 1, cells[widest] - 1
    return cells


def stem_words(bars: Sequence[StemBar]) -> list[str]:
    """The bars in sentences."""
    return [f"{bar.name}, {bar.aside}, {bar.words}." for bar in bars]


def month_lines(months: MonthBars, width: int) -> list[str]:
    """A line for each month: ``=`` for what was started, ``o`` where the year before came to."""
    left = len("Jan") + 2
    each = stem_columns(months.most, width - left - len(f"{months.most}{STEMS}"))
    lines = _axis(left, round(months.most * each), months.most, STEMS)
    for month, stems in enumerate(months.stems):
        cells = list("=" * max(round(stems * each), 1 if stems else 0))
        earlier = months.before[month] if months.before else 0
        if earlier:
            column = max(round(earlier * each), 1) - 1
            cells += " " * (column + 1 - len(cells))
            cells[column] = "○"
        told = f"  {stems}" if stems else ""
        lines.append(f"{month_abbr[month + 1].ljust(left)}{''.join(cells)}{told}".rstrip())
    earlier_sign = [f"○ how many in {months.year - 1}"] if months.before else []
    return [*lines, "", *_key([f"= stems started in {months.year}", *earlier_sign], width)]


def month_words(months: MonthBars) -> list[str]:
    """The months in sentences, those in which anything was started."""
    told = [words for month in range(12) if (words := months.words(month))]
    return [f"Stems started by month: {'; '.join(told)}."] if told else []


def take_lines(rows: Sequence[TakeRow], width: int) -> list[str]:
    """For each kind a dot with its range on a scale of ten, the usual figure beside it, and its counts
    under it."""
    left, room = _room(width)
    units = room - len(f"{TENS}{OF_TEN}")
    lines = _axis(left, units, TENS, OF_TEN)
    for row in rows:
        lines += _beside(row.name, row.aside, _whiskers(row, units), row.words, left, room)
    return [*lines, "", *_key(("● what it comes to", "│──│ nine times in ten", "○ the usual"), width)]


def _whiskers(row: TakeRow, units: int) -> str:
    def column(share: float) -> int:
        return round(min(max(share, 0.0), 1.0) * units)

    low, high = column(row.low), column(row.high)
    cells = [" "] * (units + 1)
    cells[low : high + 1] = "─" * (high + 1 - low)
    cells[low] = cells[high] = "│"
    cells[column(row.usual)] = "○"
    cells[column(row.mean)] = "●"
    return "".join(cells).rstrip()


def take_words(rows: Sequence[TakeRow]) -> list[str]:
    """The ranges in sentences."""
    return [f"{row.name}, {row.aside}: {row.words}." for row in rows]


def ticks(most: int, fewest_apart: float, units: float) -> list[int]:
    """Round numbers from 0 to ``most`` that stand at least so far apart where ``most`` lies so many units
    along."""
    for step in ROUND_STEPS:
        if most / step <= MOST_TICKS and units * step / max(most, 1) >= fewest_apart:
            return list(range(0, most + 1, step))
    return [0]


def _axis(left: int, units: int, most: int, of: str) -> list[str]:
    """Numbers over a line of ticks, ``of`` what after the last one."""
    numbers, line = "", ["─"] * (units + 1)
    for mark in ticks(most, len(str(most)) + 2, units):
        column = round(mark * units / max(most, 1))
        line[column] = "│"
        numbers = numbers.ljust(column) + str(mark)
    return [f"{' ' * left}{numbers}{of}", f"{' ' * left}{''.join(line)}"]


def _key(signs: Sequence[str], width: int) -> list[str]:
    """What the signs stand for, as many on a line as there is room for."""
    lines: list[str] = []
    for sign in signs:
        if lines and len(lines[-1]) + 3 + len(sign) <= width:
            lines[-1] += f"   {sign}"
        else:
            lines.append(sign)
    return lines


def _beside(name: str, aside: str, drawn: str, words: str, left: int, room: int) -> Iterator[str]:
    """A row with its name and what stands under it at the left, and the words under what is drawn."""
    name, aside, told = clean(name), clean(aside), wrapped(clean(words), room)
    if not left:
        yield from wrapped(f"{name}, {aside}", room)
        yield drawn
        yield from told
        return
    names = [*wrapped(name, left - 2), *(f"  {line}" for line in wrapped(aside, left - 4))]
    right = [drawn, *told]
    for number in range(max(len(names), len(right))):
        head = names[number] if number < len(names) else ""
        text = right[number] if number < len(right) else ""
        yield f"{head}{' ' * (left - cell_len(head))}{text}".rstrip()


def _room(width: int) -> tuple[int, int]:
    """The columns for names beside the rows, 0 where they stand above them, and those for what is drawn."""
    left = BESIDE if width >= NARROW else 0
    return left, max(width - left, 12)
