"""What of a sheet or a season goes into a calendar: the days of each nudge, and what is told of it."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from datetime import date

from attrs import frozen

from cuttings.dates import spoken, spoken_span
from cuttings.nudges.model import WORTH_SAYING, Nudge
from cuttings.nudges.sheet import Item, Sheet
from cuttings.rules.advice import Window
from cuttings.words import plants_said, time_said

Command = Callable[[Nudge], str]
"""The command that writes a nudge down as done; empty where the ledger does not hear of it."""


@frozen(kw_only=True)
class Event:
    """A nudge on the days of a calendar, ``first`` and ``last`` included.

    ``turn`` tells this time of the nudge from its other times: an event of the same nudge and turn takes the
    place of the one before, whatever its days. ``cost`` is how many plants are expected to be lost if it is
    left until ``left_until`` is over, the last day of its sheet or else of its window. ``planned`` is false
    for what does not fit into the week's minutes.
    """

    nudge: Nudge
    turn: str
    first: date
    last: date
    minutes: int
    cost: float
    left_until: date
    command: str = ""
    planned: bool = True

    @property
    def at_stake(self) -> float:
        """Plants expected to be lost if it is left until its window has closed; 0 for less than is worth a
        word."""
        lost = self.nudge.loss.expected(self.first, self.nudge.window.closes)
        return lost if lost >= WORTH_SAYING else 0.0


def of_week(sheet: Sheet, command: Command) -> tuple[Event, ...]:
    """What is on a sheet, planned or not, in its order; without what is better left alone.

    An event lies on the days of the best stretch that are left from the sheet's first day on. Where there are
    none, or the sheet is over before they begin, it lasts from the first day to the closing day. Care that
    comes round again stays within the sheet, and each week's is an event of its own.
    """
    items = {item.nudge.id: item for item in (*sheet.left, *_planned(sheet))}
    ordered = dict.fromkeys(item.nudge.id for item in (*_planned(sheet), *sheet.left))
    return tuple(_of_item(items[each], sheet, command) for each in ordered)


def _planned(sheet: Sheet) -> Iterator[Item]:
    for stop in sheet.stops:
        yield from stop.items


def _of_item(item: Item, sheet: Sheet, command: Command) -> Event:
    nudge, window = item.nudge, item.nudge.window
    out_of_reach = window.best[0] > sheet.last
    first, last = _rest(window, sheet.first, best=not out_of_reach)
    turn = f"{window.opens.year}"
    if nudge.every:
        turn, last = f"{sheet.first:%G-W%V}", max(first, min(last, sheet.last))
    return Event(
        nudge=nudge,
        turn=turn,
        first=first,
        last=last,
        minutes=item.minutes,
        cost=item.cost,
        left_until=sheet.last,
        command=command(nudge),
        planned=item.planned,
    )


def of_season(nudges: Iterable[Nudge], today: date, command: Command) -> tuple[Event, ...]:
    """The windows of a season that have not closed by ``today``, the first to open first; without what is
    better left alone.

    An event lies on the days that are left of the best stretch, or else on all that are left of the window.
    Where a nudge has several windows in one year, they are told apart by their order in it.
    """
    ahead = [nudge for nudge in nudges if not nudge.not_yet and nudge.window.closes >= today]
    seen: Counter[tuple[str, int]] = Counter()
    events = []
    for nudge in sorted(ahead, key=lambda nudge: (nudge.window.opens, nudge.window.closes, nudge.id)):
        window = nudge.window
        first, last = _rest(window, today)
        year = window.opens.year
        earlier = seen[nudge.id, year]
        seen[nudge.id, year] += 1
        events.append(
            Event(
                nudge=nudge,
                turn=f"{year}.{earlier + 1}" if earlier else f"{year}",
                first=first,
                last=last,
                minutes=nudge.minutes,
                cost=nudge.loss.expected(first, window.closes),
                left_until=window.closes,
                command=command(nudge),
            )
        )
    return tuple(events)


def _rest(window: Window, today: date, *, best: bool = True) -> tuple[date, date]:
    """The days from ``today`` on that are left of a window's best stretch, or else of the window."""
    if best and window.best[1] >= today:
        return max(window.best[0], today), window.best[1]
    first = max(window.opens, today)
    return first, max(first, window.closes)


def described(event: Event) -> str:
    """All that is known of an event, one thing a line: why, when, what waiting costs, what it takes, how it
    is written down, and the source of it."""
    nudge, window, day = event.nudge, event.nudge.window, event.first
    good, best = spoken_span(window.opens, window.closes, day), spoken_span(*window.best, day)
    lines = [
        window.why,
        f"Good {good}." if good == best else f"Good {good}, at its best {best}.",
        window.spoiled,
        _waiting(event),
        "" if event.planned else "It did not fit into the minutes of this week's sheet.",
        _again(nudge.every),
        f"About {time_said(event.minutes)}.",
        f"Take {', '.join(nudge.tools)}." if nudge.tools else "",
        *nudge.cautions,
        f"'{event.command}' writes it down once it is done." if event.command else "",
        f"Source: {window.source}",
    ]
    return "\n".join(line for line in lines if line)


def _again(every: int) -> str:
    if every == 0:
        return ""
    return "Due again every day." if every == 1 else f"Due again every {every} days."


def _waiting(event: Event) -> str:
    """What it costs to leave it until the sheet is over, and until its window has closed."""
    costs = {event.left_until: event.cost, event.nudge.window.closes: event.at_stake}
    told = [
        f"until {spoken(until, event.first)} is over, {plants_said(cost)}"
        for until, cost in costs.items()
        if cost >= WORTH_SAYING and until <= event.nudge.window.closes
    ]
    by = f" ({event.nudge.loss.by})" if event.nudge.loss.by else ""
    return f"Expected to be lost if it is left {'; '.join(told)}{by}." if told else ""
