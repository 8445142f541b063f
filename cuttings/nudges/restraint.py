"""What is better left alone for now: wood that has still to bloom, leaves that feed a bulb, late growth.

No window here touches that of the same job for the same plant: each ends on the day before it may be done.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.nudges.grown import Grown, grown, in_order, touches
from cuttings.nudges.model import Nudge
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.rules.advice import Window
from cuttings.rules.marks import DAFFODIL, IN_THE_GREEN, LEAVES_LAST_WEEKS, mark_window
from cuttings.rules.phases import dormancy
from cuttings.rules.pruning import BEFORE_BUDS_WEEKS, RIPENS_WEEKS, next_pruning
from cuttings.rules.pruning import SOURCE as PRUNING_SOURCE
from cuttings.rules.seasons import frosts, weeks
from cuttings.rules.transplant import WOODY
from cuttings.words import PlantType, Purpose, listed

OLD_WOOD = "What blooms on last year's wood loses this year's flowers to a cut now."
LEAVES = "Green leaves fill the bulb for next year; once they have yellowed they come away by themselves."
LATE = "Soft growth that follows a late cut or feed does not ripen, and freezes."

BULB_SOURCE = f"University of Tennessee Gardens: Outdoor tips, 2020; {DAFFODIL}"
"""Leaves taken off green leave less for the bulb and its next flowers, https://utgardens.tennessee.edu/?p=305"""

LATE_SOURCE = f"{PRUNING_SOURCE}; Worcester Telegram (garden column): No feeding or pruning now, 2009"
"""No pruning from late summer to early autumn; woody plants are fed again only once nothing can start into
growth, https://www.telegram.com/article/20090903/FLASH/909030510"""

MOST_SAID_DAYS = 14
"""A thing to leave alone for months is said in the first weeks, when one is tempted most; from memory."""

LONGEST_WAIT_WEEKS = 40
"""Whatever is cut back later than so many weeks from late winter is cut in the next one; from memory."""


@frozen
class Wait:
    """One plant on one site, and the stretch in which it is left alone."""

    grown: Grown
    window: Window


def restraint(book: Book, catalogue: Catalogue, climate: Climate, first: date, last: date) -> list[Nudge]:
    """What to leave alone in the days from ``first`` to ``last``; plants alike in one area share a nudge."""
    everything = list(grown(book, catalogue))
    wood = [wait for each in everything if (wait := _wait(each, uncut(each.plant, climate, first)))]
    bulbs = [wait for each in everything if (wait := _wait(each, in_leaf(each.plant, climate, first)))]
    found = [
        *_together(wood, "old-wood", "Do not cut back {} yet", first, last),
        *_together(bulbs, "leaves", "Leave the leaves of {} until they have yellowed", first, last),
    ]
    woody = [each.plant for each in everything if each.plant.type in WOODY]
    if woody:
        found += _no_late_growth(woody, climate, first, last)
    return in_order(found)


def _wait(each: Grown, window: Window | None) -> Wait | None:
    return None if window is None else Wait(each, window)


def uncut(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The stretch open on a day, or the next to open, in which others are cut back and a plant that blooms on
    old wood is not: from late winter to the day before its own time begins. ``None`` where it has none."""
    if plant.unwanted or plant.type not in WOODY - {PlantType.SUBSHRUB}:
        return None  # low evergreen herbs are clipped for the kitchen all along
    if plant.bloom is None or plant.bloom.wood != "old":
        return None
    for year in range(on.year - 1, on.year + 2):
        moved = dormancy(climate, year if climate.southern else year - 1)[1]
        opens = moved - weeks(BEFORE_BUDS_WEEKS[0])
        pruning = next_pruning(plant, climate, opens)
        if pruning is None or pruning.opens <= opens or pruning.opens - opens > weeks(LONGEST_WAIT_WEEKS):
            continue
        closes = pruning.opens - timedelta(days=1)
        if closes >= on:
            best = min(opens + timedelta(days=MOST_SAID_DAYS - 1), closes)
            return Window(
                what=f"leave {plant.name} uncut",
                opens=opens,
                best=(opens, best),
                closes=closes,
                why=OLD_WOOD,
                source=pruning.source,
            )
    return None


def in_leaf(plant: Plant, climate: Climate, on: date) -> Window | None:
    """The stretch open on a day, or the next to open, in which the leaves of a bulb are to be left: from the
    end of its bloom until they have died down. What is lifted in leaf is left alone once that is over."""
    if plant.type is not PlantType.BULB or plant.unwanted:
        return None
    day = on - weeks(LEAVES_LAST_WEEKS)
    for _ in range(4):
        lift = mark_window(Purpose.LIFT, plant, day, climate)
        if plant.genus in IN_THE_GREEN:
            opens, yellow = lift.closes + timedelta(days=1), lift.opens + weeks(LEAVES_LAST_WEEKS)
        else:
            opens, yellow = lift.opens - weeks(LEAVES_LAST_WEEKS), lift.opens
        closes = yellow - timedelta(days=1)
        if opens <= closes and closes >= on:
            return Window(
                what=f"leave the leaves of {plant.name}",
                opens=opens,
                best=(opens, closes),
                closes=closes,
                why=LEAVES,
                source=BULB_SOURCE,
            )
        day = lift.closes + timedelta(days=1)
    return None


def late_growth(plants: Iterable[Plant], climate: Climate, on: date) -> Window | None:
    """The stretch open on a day, or the next to open, in which nothing woody is fed or cut back.

    It runs from when new growth no longer ripens to leaf fall, or to the day before the first of the plants
    has its own time to be cut back, which in mild winters is earlier. ``None`` where frost is no rule.
    """
    for year in range(on.year - 1, on.year + 2):
        autumn = frosts(climate, year)
        opens = autumn.first_autumn - weeks(RIPENS_WEEKS) + timedelta(days=1)
        closes = dormancy(climate, year)[0] - timedelta(days=1)
        cut = [
            each.opens - timedelta(days=1)
            for plant in plants
            for each in (next_pruning(plant, climate, opens),)
            if each is not None
        ]
        closes = min(closes, *cut) if cut else closes
        if not autumn.frostless and opens <= closes and closes >= on:
            return Window(
                what="leave shrubs unfed and uncut",
                opens=opens,
                best=(opens, min(opens + timedelta(days=MOST_SAID_DAYS - 1), closes)),
                closes=closes,
                why=autumn.said(LATE),
                source=LATE_SOURCE,
            )
    return None


def _no_late_growth(plants: Sequence[Plant], climate: Climate, first: date, last: date) -> Iterator[Nudge]:
    window = late_growth(plants, climate, first)
    if window is not None and _said(window, first, last):
        yield Nudge(
            id="garden:late-growth",
            job="Do not feed or cut back {} after late summer",
            name="evergreens and other shrubs in the ground",
            window=window,
            minutes=0,
            not_yet=True,
        )


def _said(window: Window, first: date, last: date) -> bool:
    return window.best[0] <= last and window.best[1] >= first


def _together(waits: Sequence[Wait], kind: str, job: str, first: date, last: date) -> Iterator[Nudge]:
    """One nudge for all that is left alone in an area for the same reason, for as long as all of it is."""
    said = [wait for wait in waits if _said(wait.window, first, last)]
    for area, here in groupby(sorted(said, key=_area), key=_area):
        rest = sorted(here, key=lambda wait: (wait.window.opens, wait.grown.called))
        suffix = ""
        while rest:
            window, together = rest[0].window, [rest[0]]
            for wait in rest[1:]:
                both = _while_both(window, wait.window)
                if both is not None and touches(both, first, last):
                    window, together = both, [*together, wait]
            rest = [wait for wait in rest if wait not in together]
            yield _one(f"area:{area}:{kind}{suffix}", job, window, together)
            suffix = f":{rest[0].grown.name}" if rest else ""


def _area(wait: Wait) -> str:
    return wait.grown.site.area


def _while_both(one: Window, other: Window) -> Window | None:
    opens, closes = max(one.opens, other.opens), min(one.closes, other.closes)
    if closes < opens:
        return None
    return evolve(one, opens=opens, best=(opens, min(max(one.best[1], opens), closes)), closes=closes)


def _one(id_: str, job: str, window: Window, together: Sequence[Wait]) -> Nudge:
    sites = {wait.grown.site.name for wait in together}
    return Nudge(
        id=id_,
        job=job,
        name=f"the {listed([wait.grown.called for wait in together])}",
        window=window,
        site=sites.pop() if len(sites) == 1 else "",
        area=together[0].grown.site.area,
        minutes=0,
        not_yet=True,
    )
