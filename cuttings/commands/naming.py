"""Asking for a plant: spelling forgiven, candidates offered, unknown plants welcomed."""

from typing import Any

from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import filled, one_of, yes_no
from cuttings.errors import Refused
from cuttings.plants.catalogue import standard
from cuttings.plants.model import Plant
from cuttings.plants.understood import Understood, plant_for, understand
from cuttings.words import Method, PlantType

PLANT = Question("plant", "Which plant?", filled, argument=True, allowed="a common or botanical name")
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
    catalogue = standard()
    found = _understood(interview, interview.ask(PLANT))
    while interview.asking and found.plant is None:
        interview.say(found.remark)
        if interview.ask_anew(KEEP):
            break
        found = _understood(interview, interview.ask_anew(PLANT))
    if found.remark and not interview.asking:
        desk.remark(found.remark)
    elif found.remark and found.plant is not None:
        interview.say(found.remark)
    if found.plant is not None:
        return Named(found.name, found.called, found.plant)
    kind = interview.ask(TYPE) if interview.asking else None
    return Named(found.name, found.called, plant_for(catalogue, found.name, kind, method), kind)


def _understood(interview: Interview, asked: str) -> Understood:
    found = understand(standard(), asked)
    return _chosen(interview, found) if found.candidates else found


def _chosen(interview: Interview, found: Understood) -> Understood:
    if not interview.asking:
        raise Refused(f"'{found.name}' could be {' or '.join(found.candidates)}; give the full name.")
    which = Question("which", "Which of these?", str, tuple(Choice(name, name) for name in found.candidates))
    return understand(standard(), interview.ask(which))
