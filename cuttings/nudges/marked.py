"""What a mark in the ground is to be come back for, and where it is found again."""

from datetime import date

from attrs import evolve

from cuttings.climate.climate import Climate
from cuttings.ledger.entries import Mark
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss, Nudge
from cuttings.nudges.whereabouts import Whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.plants.understood import plant_for
from cuttings.rules.advice import Window
from cuttings.rules.caution import Task, handling
from cuttings.rules.marks import mark_window
from cuttings.rules.seasons import is_hardy
from cuttings.units import plan_words
from cuttings.words import PlantType, Purpose, Units

MINUTES = {Purpose.WATCH: 5, Purpose.TAKE_HARDWOOD: 20, Purpose.LAYER: 15}
DIGGING_MINUTES = 25
"""Minutes to come back to a mark, and for any digging there; from memory."""

TOOLS = {
    Purpose.WATCH: (),
    Purpose.TAKE_HARDWOOD: ("clean secateurs", "labels", "pencil"),
    Purpose.LAYER: ("trowel", "pegs", "labels", "pencil"),
}
DIGGING_TOOLS = ("fork", "tape measure", "pots or sacks", "labels", "pencil")
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
    window = mark_window(mark.purpose, plant, max(mark.on, today), climate)
    window = evolve(window, source=catalogue.reference(window.source))
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
        cautions=handling(plant, mark.called or mark.plant, CAUTIONED.get(mark.purpose, Task.DIVIDE)),
    )


def _place(mark: Mark, units: Units) -> str:
    """Where it is: the keeper's words, its place on a plan, and the tape that finds it."""
    where = f", {mark.where}" if mark.where else ""
    if mark.site and mark.at is not None:
        where += f", {plan_words(mark.at, units)} on {mark.site}"
    return where + (f" (tape: {mark.tape})" if mark.tape else "")


def _loss(mark: Mark, plant: Plant, climate: Climate, window: Window) -> Loss:
    """One plant: a tender one is lost to frost if it is not lifted, any other may be forgotten for good."""
    if mark.purpose is Purpose.WATCH:
        return Loss()
    late = between(window.best[1], window.closes)
    tender = not is_hardy(plant, climate) and plant.type is not PlantType.BULB
    if mark.purpose is Purpose.LIFT and tender:
        return Loss(plants=1.0, late=late, by="frost reaches it")
    return Loss(plants=MISSED_SHARE, late=late, by="its season passes for a year")
