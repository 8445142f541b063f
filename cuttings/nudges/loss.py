"""What waiting costs: the chances that it becomes too late for a job, and the plants that stems stand for."""

from datetime import date, timedelta

from cuttings.climate.climate import Climate
from cuttings.climate.frost import FROST_F
from cuttings.nudges.knowledge import Known
from cuttings.nudges.model import Chance, Loss
from cuttings.rules.odds import chance_of_freeze_already, chance_of_frozen_ground
from cuttings.words import Stage

BECOMES_A_PLANT = {
    Stage.ROOTED: 0.85,
    Stage.POTTED: 0.9,
    Stage.HARDENING: 0.95,
    Stage.READY: 0.95,
    Stage.PLANTED: 1.0,
}
"""The chance that a rooted stem at a stage becomes a plant in its place; from memory."""


def takes(known: Known) -> float:
    """The share of a lot's waiting stems that is likely to root yet: by what was seen of them and of the
    ledger's other lots, starting from what is published for the plant, or from the usual."""
    lot, rooting = known.lot, known.forecast()
    waiting = lot.at(Stage.WAITING)
    if rooting is not None and waiting:
        return rooting.yet_mean / waiting
    return known.learned.share((lot.plant, lot.method), known.way).mean


def plants_from(known: Known, stage: Stage, stems: int | None = None) -> float:
    """How many plants in their place the stems at a stage, or so many of them, stand for, at what the keeper
    says one is worth."""
    chance = (
        takes(known) * BECOMES_A_PLANT[Stage.ROOTED] if stage is Stage.WAITING else BECOMES_A_PLANT[stage]
    )
    return (known.lot.at(stage) if stems is None else stems) * chance * known.lot.worth


def between(first: date, last: date) -> Chance:
    """Rises evenly from the end of a first day to that of a last; a plain reckoning of this program's own."""
    days = (last - first).days

    def late(day: date) -> float:
        over = (day - first).days - 1  # by the morning of a day, the day itself is not over
        if days <= 0:
            return float(over >= 0)
        return min(max(over / days, 0.0), 1.0)

    return late


def week_by_week(since: date, share: float) -> Chance:
    """The same share of what is left goes in every week from a day on."""

    def late(day: date) -> float:
        kept: float = (1.0 - share) ** max((day - since).days / 7.0, 0.0)
        return 1.0 - kept

    return late


def once_frost_comes(climate: Climate, usually: date) -> Chance:
    """Autumn's first frost has come, by the garden's odds; where those are not known, in a month round the
    usual day."""
    if climate.frost is None:
        return between(usually - timedelta(days=14), usually + timedelta(days=14))

    def late(day: date) -> float:
        return chance_of_freeze_already(climate, day, FROST_F) or 0.0

    return late


def once_ground_freezes(climate: Climate, lead: timedelta = timedelta()) -> Chance:
    """The ground freezes within so long, by the garden's odds."""
    return lambda day: chance_of_frozen_ground(climate, day + lead)


def stakes(known: Known, stages: tuple[Stage, ...], share: float, late: Chance, by: str) -> Loss:
    """What a lot loses of its stems at some stages: a share of the plants that they stand for."""
    plants = sum(plants_from(known, stage) for stage in stages)
    return Loss(plants=plants * share, late=late, by=by)
