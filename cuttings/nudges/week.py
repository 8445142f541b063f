"""The week's sheet: every nudge that touches its days, what dies of waiting first."""

from collections.abc import Iterable
from datetime import date

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.ledger.book import Book
from cuttings.ledger.entries import Mark
from cuttings.nudges.knowledge import known
from cuttings.nudges.loss import between
from cuttings.nudges.lots import nudges_for
from cuttings.nudges.model import Loss, Nudge
from cuttings.nudges.whereabouts import whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Window
from cuttings.rules.marks import mark_window
from cuttings.words import Purpose, Stage, Units

MARK_MINUTES = {Purpose.WATCH: 5, Purpose.TAKE_HARDWOOD: 20}
"""Minutes to come back to a mark; twenty-five for any digging. From memory."""


WORTH_SAYING = 0.05
"""Plants; a smaller loss by waiting is not told of, and brings no job before its best time."""


def week(book: Book, catalogue: Catalogue, climate: Climate, first: date, last: date) -> list[Nudge]:
    """Nudges whose window touches the days from ``first`` to ``last``, both included, and whose best time
    has begun by then.

    The ones that lose most by waiting until after ``last`` come first, then those that close soonest.
    """
    found = [
        nudge
        for nudge in _all(book, catalogue, climate, first, last)
        if nudge.window.best[0] <= last or nudge.loss.expected(first, last) >= WORTH_SAYING
    ]
    return sorted(found, key=lambda nudge: (-nudge.loss.expected(first, last), nudge.window.closes, nudge.id))


def _all(book: Book, catalogue: Catalogue, climate: Climate, first: date, last: date) -> Iterable[Nudge]:
    units = book.garden.units if book.garden else Units.US
    if climate.frost is None:
        yield _tell_frost(first)
    where = whereabouts(book)
    for lot in book.lots.values():
        if lot.living or lot.at(Stage.PLANTED):
            about = known(lot, catalogue, climate, units, where)
            yield from (nudge for nudge in nudges_for(about, first) if nudge.window.opens <= last)
    for mark in book.open_marks():
        nudge = _mark(mark, book, catalogue, climate, first)
        if nudge.window.opens <= last and nudge.window.closes >= first:
            yield nudge


def _mark(mark: Mark, book: Book, catalogue: Catalogue, climate: Climate, today: date) -> Nudge:
    plant = plant_for(catalogue, mark.plant, mark.plant_type, None)
    # A mark left undone comes round again with the next window.
    window = mark_window(mark.purpose, plant, max(mark.on, today), climate)
    window = evolve(window, source=catalogue.reference(window.source))
    name = mark.called or mark.plant
    where = f", {mark.where}" if mark.where else ""
    tape = f" (tape: {mark.tape})" if mark.tape else ""
    told = f"; you said: {mark.when}" if mark.when else ""
    verb = {Purpose.TAKE_HARDWOOD: "take hardwood of", Purpose.WATCH: "look at"}.get(
        mark.purpose, mark.purpose
    )
    area = next((area for area in book.areas if area.casefold() in mark.where.casefold()), "")
    return Nudge(
        id=f"{mark.code}:{mark.purpose}",
        job=f"{verb[:1].upper()}{verb[1:]} {{}}{where}{tape}{told}",
        name=f"{name} at mark {mark.code}",
        window=window,
        task="mark",
        mark=mark.code,
        area=area,
        stems=1,
        loss=Loss(plants=1.0, late=between(window.best[1], window.closes)),
        minutes=MARK_MINUTES.get(mark.purpose, 25),
    )


def _tell_frost(today: date) -> Nudge:
    window = Window(
        what="tell the frost dates",
        opens=today,
        best=(today, today),
        closes=today,
        why="Without your frost dates, every date here is that of an ordinary cold-winter garden.",
        source=COMMON_PRACTICE,
    )
    return Nudge(
        id="garden:frost",
        job="Tell {}: 'cuttings garden --last-frost MM-DD --first-frost MM-DD'",
        name="the frost dates",
        window=window,
        task="garden",
        minutes=2,
    )
