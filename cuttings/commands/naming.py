"""Asking for a plant: spelling forgiven, candidates offered, unknown plants welcomed."""

from typing import Any

from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.identifying import UNSURE, by_key, introduced
from cuttings.commands.parsing import filled, one_of, yes_no
from cuttings.errors import Refused
from cuttings.plants.model import Plant
from cuttings.plants.understood import Understood, plant_for, understand
from cuttings.words import Method, PlantType

PLANT = Question(
    "plant",
    "Which plant? (its name, or ? if you do not know)",
    filled,
    argument=True,
    allowed="a common or botanical name",
)
TYPE = Question(
    "type",
    "What kind of plant is it?",
    one_of(PlantType),
    tuple(Choice(kind.value, kind.replace("-", " ")) for kind in PlantType),
)


KEEP = Question("keep", "Keep that name?", yes_no, default="yes", yes_no=True)


@frozen
class Named:
    """A plant as its name goes into the ledger, with the rules that hold for it."""

    name: str
    called: str
    plant: Plant
    plant_type: PlantType | None = None

    @property
    def facts(self) -> dict[str, Any]:
        """The fields of an entry that name it."""
        return {"plant": self.name, "called": self.called, "plant_type": self.plant_type}

    @property
    def spoken(self) -> str:
        return self.called or self.name


def ask_plant(desk: Desk, interview: Interview, method: Method | None = None) -> Named:
    """The plant meant. What was forgiven, and what is not known, is said rather than guessed silently."""
    found = _understood(desk, interview, interview.ask(PLANT))
    while interview.asking and found.plant is None and not found.unsure:
        interview.say(found.remark)
        if interview.ask_anew(KEEP):
            break
        found = _understood(desk, interview, interview.ask_anew(PLANT))
    if found.remark and not interview.asking:
        desk.remark(found.remark)
    elif found.remark and found.plant is not None:
        interview.say(found.remark)
    if found.plant is not None:
        return Named(found.name, found.called, found.plant)
    kind = interview.ask(TYPE) if interview.asking else None
    name = interview.ask_anew(_for_now(kind)) if found.unsure else found.name
    return Named(name, found.called, plant_for(desk.catalogue, name, kind, method), kind)


def _for_now(kind: PlantType | None) -> Question[str]:
    unknown = f"unknown {kind.replace('-', ' ')}" if kind else "unknown plant"
    why = "'cuttings note LOT --plant NAME' gives it its right name later."
    return Question("for-now", "What shall it be called for now?", filled, default=unknown, why=why)


def _understood(desk: Desk, interview: Interview, asked: str) -> Understood:
    if asked.strip() == UNSURE:
        return _looked_up(desk, interview)
    found = understand(desk.catalogue, asked)
    return _chosen(desk, interview, found) if found.candidates else found


def _looked_up(desk: Desk, interview: Interview) -> Understood:
    """The plant settled on with the key, for somebody who does not know its name."""
    settled = by_key(desk, interview.asker)
    if settled is None:
        return Understood("", "", None, unsure=True)
    return understand(desk.catalogue, settled)


def _chosen(desk: Desk, interview: Interview, found: Understood) -> Understood:
    if not interview.asking:
        raise Refused(found.could_be)
    choices = tuple(Choice(name, introduced(desk.catalogue.plant(name))) for name in found.candidates)
    which = Question("which", "Which of these?", str, choices)
    return understand(desk.catalogue, interview.ask(which))
