"""Helping to name a find: the key of questions, and a second look where a plant has an unwanted double."""

from collections.abc import Sequence

from cuttings.ask import Asker, Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.telling import warning_of
from cuttings.errors import Misused, Refused
from cuttings.plants.key import Answer, KeyQuestion, narrowed, next_question, to_tell_apart
from cuttings.plants.model import Plant
from cuttings.words import either

UNSURE = "?"
"""What is typed for a plant's name by somebody who does not know it."""

CANNOT_TELL = "cannot-tell"
NONE_OF_THESE = "none"
MOST_OFFERED = 12

NEVER_SURE = (
    "A key cannot make sure: before you rely on the name, or let anybody eat any part of it, compare a good "
    "picture or a flora, or ask somebody who knows."
)


def by_key(desk: Desk, asker: Asker | None) -> str | None:
    """The botanical name of the plant a person settles on by looking at it; ``None`` if it is none.

    Raises:
        Misused: there is nobody to ask.
    """
    if asker is None:
        raise Misused(
            "The key of questions needs a terminal; 'cuttings plants --leaves opposite --petals 5' and the "
            "like narrow the plants down without one."
        )
    everything = to_tell_apart(desk.catalogue)
    left, answers = everything, dict[str, str]()
    asked: list[str] = []
    while (question := next_question(left, asked)) is not None:
        asked.append(question.name)
        answer = asker.ask(_put(question, left))
        if answer == CANNOT_TELL:
            continue
        answers[question.name] = answer
        left = narrowed(everything, answers)
        asker.say(f"That leaves {len(left)} of {len(everything)} plants.")
    return _settle(asker, left)


def _put(question: KeyQuestion, left: list[Plant]) -> Question[str]:
    """The question with those of its answers that some plant still in play would give."""
    seen = frozenset[str]().union(*(question.seen(plant) for plant in left))
    return asked_of(question, [each for each in question.answers if each.value in seen])


def asked_of(question: KeyQuestion, answers: Sequence[Answer]) -> Question[str]:
    """A question of the key as it is put to a person, who may be unable to tell."""
    choices = [Choice(each.value, each.words) for each in answers]
    choices.append(Choice(CANNOT_TELL, "I cannot tell"))
    return Question(f"key-{question.name}", question.ask, str, tuple(choices))


def _settle(asker: Asker, left: list[Plant]) -> str | None:
    if not left:
        asker.say("No plant that is known here fits all of that.")
        return None
    asker.say(NEVER_SURE)
    more = f" ({len(left) - MOST_OFFERED} more are not shown)" if len(left) > MOST_OFFERED else ""
    choices = [Choice(plant.name, introduced(plant)) for plant in left[:MOST_OFFERED]]
    choices.append(Choice(NONE_OF_THESE, "none of these, or I cannot tell"))
    settled = asker.ask(Question("key-plant", f"Which could it be?{more}", str, tuple(choices)))
    return None if settled == NONE_OF_THESE else settled


def introduced(plant: Plant) -> str:
    """A plant as one would name it to a gardener."""
    return f"{plant.common[0]} ({plant.name})" if plant.common else plant.name


def look_twice(interview: Interview, plant: Plant, spoken: str) -> str:
    """Have a plant that has unwanted doubles looked at again; a remark for the lot's note if nobody can tell.

    Raises:
        Refused: it is the double, and so is not written down.
    """
    if not interview.asking or not plant.doubles:
        return ""
    for double in plant.doubles:
        interview.say(f"Look twice: {warning_of(double, spoken)}")
    choices = (
        Choice(plant.name, spoken),
        *(Choice(double.name, f"{double.common} ({double.name})") for double in plant.doubles),
        Choice(CANNOT_TELL, "I cannot tell yet"),
    )
    answer = interview.ask(Question("double", "Which is it?", str, choices, default=plant.name))
    if answer == plant.name:
        return ""
    if answer == CANNOT_TELL:
        return f"May yet turn out to be {either(double.common for double in plant.doubles)}."
    double = next(double for double in plant.doubles if double.name == answer)
    raise Refused(f"Nothing was recorded, since it is {double.common}. {double.if_double}")
