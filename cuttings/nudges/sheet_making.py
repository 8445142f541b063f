"""How the sheet is made: jobs are split into sittings, chosen for the minutes there are, and put in order."""

from collections.abc import Sequence
from datetime import date

from attrs import evolve

from cuttings.nudges.model import Nudge
from cuttings.nudges.sheet import Item, Sheet, Stop, alike
from cuttings.nudges.sittings import sittings


def sheet_of(
    nudges: Sequence[tuple[Nudge, int, float]],
    first: date,
    last: date,
    budget: int | None = None,
    walk: int = 0,
) -> Sheet:
    """The sheet of the days from ``first`` to ``last``.

    Each nudge comes with the number it is ticked off by and with how many plants are expected to be lost if
    it is left. ``budget`` is in minutes, or ``None`` if all is to be planned; ``walk`` is how many minutes it
    takes to go to a part of the garden. What is better left alone for now is never planned.
    """
    items = [
        Item(nudge=nudge, number=number, cost=cost, sittings=sittings(nudge.minutes, nudge.parts), taken=0)
        for nudge, number, cost in nudges
    ]
    items.sort(key=lambda item: (-item.cost, item.number))
    chosen = _planned([item for item in items if not item.nudge.not_yet], budget, walk)
    left = [item for item in chosen if not item.whole]
    return Sheet(
        first=first,
        last=last,
        stops=_in_order([item for item in chosen if item.planned]),
        left=tuple(sorted(left, key=lambda item: (-item.risk, item.number))),
        not_yet=tuple(item for item in items if item.nudge.not_yet),
        budget=budget,
        walk=walk,
    )


def reading_order(nudges: Sequence[tuple[Nudge, float]]) -> list[Nudge]:
    """Nudges, each with what waiting costs, in the order of a sheet that has room for all of them."""
    numbered = [(nudge, number, cost) for number, (nudge, cost) in enumerate(nudges, start=1)]
    whole = sheet_of(numbered, date.min, date.min)
    held = (item for stop in whole.stops for job in alike(stop.items) for item in job)
    return [item.nudge for item in (*held, *whole.not_yet)]


def _planned(items: Sequence[Item], budget: int | None, walk: int) -> list[Item]:
    """The items with as many of their sittings taken as fit best."""
    if budget is None:
        return [evolve(item, taken=len(item.sittings)) for item in items]
    from cuttings.nudges.planning import Job, plan  # numpy, only where minutes are counted

    jobs = [Job(area=item.nudge.area, sittings=item.sittings, saved=item.cost) for item in items]
    taken = plan(jobs, budget, walk).taken
    return [evolve(item, taken=count) for item, count in zip(items, taken, strict=True)]


def _in_order(items: Sequence[Item]) -> tuple[Stop, ...]:
    """The stops: first where most is saved, then where it takes fewer minutes, then by name; last what can be
    done anywhere."""
    areas: dict[str, list[Item]] = {}
    for item in items:
        areas.setdefault(item.nudge.area, []).append(item)
    stops = [Stop(area=area, items=tuple(held)) for area, held in areas.items()]
    return tuple(sorted(stops, key=lambda stop: (not stop.area, -_saved(stop), stop.minutes, stop.area)))


def _saved(stop: Stop) -> int:
    """Plants saved there, in whole thousandths, so that rounding settles no order."""
    return round(sum(item.cost - item.risk for item in stop.items) * 1000)
