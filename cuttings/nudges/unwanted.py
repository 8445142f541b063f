"""What a lot of a plant that nobody should keep needs: to be done away with, and nothing else."""

from datetime import date

from cuttings.nudges.knowledge import Known
from cuttings.nudges.making import days, nudge, stretch
from cuttings.nudges.model import Nudge
from cuttings.words import LIVING, Stage

LASTS_DAYS = 13
"""Days in which it is best done, from any day on which it is still there; from memory."""


def doing_away(known: Known, today: date) -> list[Nudge]:
    """One nudge while any of it stands, with the plant's own caution for its reason."""
    stages = [stage for stage in (*LIVING, Stage.PLANTED) if known.lot.at(stage)]
    caution = next((caution for caution in known.plant.cautions if caution.kind == "invasive"), None)
    if not stages or caution is None:
        return []
    best = (today, today + days(LASTS_DAYS // 2))
    window = stretch(today, best, today + days(LASTS_DAYS), "do away with it", caution.text, caution.source)
    return [nudge(known, "rid", "Do away with {} safely", window, stages[0], task="lose")]
