"""Going back: a command run again takes up the answers given before, and asks on from there."""

from collections.abc import Sequence
from typing import Any

from cuttings.ask.interview import Asker, Question
from cuttings.errors import Back, Cancelled


class Answers:
    """What a person answered in one run of a command, in order, by the names of the questions.

    ``taken_up`` are those of an earlier run of the same command; each is given again in its turn, as long as
    the same questions come in the same order and can still read them.
    """

    def __init__(self, taken_up: Sequence[tuple[str, str]] = ()) -> None:
        self._taken_up = list(taken_up)
        self._settled = False
        self.given: list[tuple[str, str]] = []

    @property
    def retracing(self) -> bool:
        """Whether the next question was answered in an earlier run."""
        return bool(self._taken_up)

    @property
    def can_go_back(self) -> bool:
        return bool(self.given)

    def again(self, question: Question[Any]) -> str | None:
        """The answer taken up for a question; the rest is let go where it no longer fits."""
        if not self._taken_up:
            return None
        name, text = self._taken_up.pop(0)
        if name == question.name and _reads(question, text):
            return text
        self._taken_up.clear()
        return None

    def add(self, question: Question[Any], text: str) -> None:
        if not self._settled:
            self.given.append((question.name, text))

    def settle(self) -> None:
        """Something was recorded: what led to it stands, and nobody goes back behind it."""
        self._settled = True
        self._taken_up.clear()
        self.given.clear()


def _reads(question: Question[Any], text: str) -> bool:
    if question.choices and text not in {choice.value for choice in question.choices}:
        return False
    try:
        question.parse(text)
    except ValueError:
        return False
    return True


class Retracing:
    """An asker that takes up earlier answers, in silence, before it lets another one ask."""

    def __init__(self, asker: Asker, answers: Answers) -> None:
        self._asker = asker
        self._answers = answers

    def ask(self, question: Question[Any], *, back: bool = False) -> str:
        text = self._answers.again(question)
        if text is None:
            text = self._put(question, back)
        self._answers.add(question, text)
        return text

    def _put(self, question: Question[Any], back: bool) -> str:
        given = self._answers.given
        try:
            return self._asker.ask(question, back=back or self._answers.can_go_back)
        except Cancelled as stop:
            raise Cancelled(stop.sentence, given) from None
        except Back:
            raise Back(given[:-1]) from None

    def say(self, sentence: str) -> None:
        if not self._answers.retracing:
            self._asker.say(sentence)

    def pause(self) -> None:
        if not self._answers.retracing:
            self._asker.pause()
