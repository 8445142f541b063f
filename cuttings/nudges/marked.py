"""What a mark in the ground is to be come back for, and where it is found again."""

from datetime import date

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.ledger.entries import Mark
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss, Nudge
from cuttings.nudges.whereabouts import Whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Window
from cuttings.rules.caution import Task, handling
from cuttings.rules.marks import LATE_WEEKS, come_back
from cuttings.rules.seasons import is_hardy, weeks
from cuttings.units import plan_words
from cuttings.words import PlantType, Purpose, Units

MINUTES = {Purpose.WATCH: 5, Purpose.TAKE_HARDWOOD: 20, Purpose.LAYER: 15}
DIGGING_MINUTES = 25
"""Minutes to come back to a mark, and for any digging there; from memory."""

TOOLS = {
    Purpose.WATCH: (),
    Purpose.TAKE_HARDWOOD: ("secateurs", "labels", "pencil"),
    Purpose.LAYER: ("trowel", "pegs", "labels", "pencil"),
}
DIGGING_TOOLS = ("fork", "tape measure", "pots or sacks", "labels", "pencil")
DIGGING = frozenset({Purpose.LIFT, Purpose.DIVIDE, Purpose.MOVE})
FOUND_BY_TAPE = "tape measure"

MISSED_SHARE = 0.25
"""How likely it is that what a mark was set for never happens if its season passes; from memory."""

CAUTIONED = {Purpose.WATCH: Task.CHECK, Purpose.TAKE_HARDWOOD: Task.STRIKE, Purpose.LAYER: Task.LAYER}
"""What the work at a mark is to the rules of caution; any other is digging."""

SAID = {
    Purpose.TAKE_HARDWOOD: "Take hardwood of {}",
    Purpose.WATCH: "Look at {}",
    Purpose.LAYER: "Layer {}",
    Purpose.LIFT: "Lift {}",
    Purpose.DIVIDE: "Divide {}",
    Purpose.MOVE: "Move {}",
}


def marked(
    mark: Mark, catalogue: Catalogue, climate: Climate, where: Whereabouts, today: date, units: Units
) -> Nudge:
    """The nudge of an open mark; one left undone comes round again with the next window."""
    plant = plant_for(catalogue, mark.plant, mark.plant_type, None)
    window = come_back(mark.purpose, plant, mark.on, today, climate, mark.when)
    window = evolve(window, source=catalogue.reference(window.source))
    overdue = window.closes < today
    if overdue:
        window = _overdue(window, today)
    told = f"; you said: {mark.when}" if mark.when else ""
    tools = TOOLS.get(mark.purpose, DIGGING_TOOLS)
    if mark.tape and FOUND_BY_TAPE not in tools:
        tools = (*tools, FOUND_BY_TAPE)
    site = where.sites.get(mark.site)
    return Nudge(
        id=f"{mark.code}:{mark.purpose}",
        job=f"{SAID[mark.purpose]}{_place(mark, units)}{told}",
        name=f"{mark.called or mark.plant} at mark {mark.code}",
        window=window,
        task="mark",
        mark=mark.code,
        site=mark.site,
        area=site.area if site is not None else where.area_named(mark.where),
        stems=1,
        minutes=MINUTES.get(mark.purpose, DIGGING_MINUTES),
        loss=_loss(mark, plant, climate, window),
        tools=tools,
        digs=mark.purpose in DIGGING,
        when="overdue" if overdue else "",
        cautions=handling(plant, mark.called or mark.plant, CAUTIONED.get(mark.purpose, Task.DIVIDE)),
    )


def _overdue(window: Window, today: date) -> Window:
    """A window that has just closed, held open a little longer."""
    why = (
        f"It was to be done by {spoken(window.closes, today)}. Do it now if the ground lets you; or tick the "
        "mark off, and say what became of it."
    )
    closes = window.closes + weeks(LATE_WEEKS)
    return evolve(window, best=(window.closes, window.closes), closes=closes, why=why, odds=None)


def _place(mark: Mark, units: Units) -> str:
    """Where it is: the keeper's words, its place on a plan, and the tape that finds it."""
    where = f", {mark.where}" if mark.where else ""
    if mark.site and mark.at is not None:
        where += f", {plan_words(mark.at, units)} on {mark.site}"
    tape = f" (tape: {mark.tape})" if mark.tape else ""
    return f"{where}{tape}" or ", at a place that nobody wrote down"


def _loss(mark: Mark, plant: Plant, climate: Climate, window: Window) -> Loss:
    """One plant: a tender one is lost to frost if it is not lifted, any other may be forgotten for good."""
    if mark.purpose is Purpose.WATCH:
        return Loss()
    late = between(window.best[1], window.closes)
    tender = not is_hardy(plant, climate) and plant.type is not PlantType.BULB
    if mark.purpose is Purpose.LIFT and tender:
        return Loss(plants=1.0, late=late, by="frost reaches it")
    return Loss(plants=MISSED_SHARE, late=late, by="its season passes for a year")
