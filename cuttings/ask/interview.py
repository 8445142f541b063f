"""Questions as data, and the one path by which options and prompts give their answers."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Generic, Protocol, TypeVar

from attrs import evolve, frozen

from cuttings.errors import Misused, Refused, Unfound

T = TypeVar("T")


@frozen
class Choice:
    """One of the answers that may be chosen; ``words`` is how a person would say it."""

    value: str
    words: str = ""

    @property
    def label(self) -> str:
        return self.words or self.value


@frozen
class Question(Generic[T]):
    """Something a command must know.

    ``name`` is the option's name without dashes, or the argument's. ``default`` is the answer offered, as
    one would type it, with ``why`` as its reason; ``None`` offers nothing. ``allowed`` tells what may be
    answered, for the line that names what is missing. ``nothing`` is what to say where the choices have run
    out, so that there is nothing to ask. With ``by_number`` the choices have numbers of their own, by which
    they are chosen.
    """

    name: str
    prompt: str
    parse: Callable[[str], T]
    choices: tuple[Choice, ...] = ()
    default: str | None = None
    why: str = ""
    allowed: str = ""
    argument: bool = False
    yes_no: bool = False
    nothing: str = ""
    by_number: bool = False

    @property
    def option(self) -> str:
        return self.name.upper() if self.argument else f"--{self.name}"

    @property
    def may_be(self) -> str:
        return self.allowed or "|".join(choice.value for choice in self.choices)

    def offering(self, default: str | None, why: str = "") -> "Question[T]":
        """The same question with another default and its reason."""
        return evolve(self, default=default, why=why)


class Asker(Protocol):
    """Whoever puts a question to a person and brings back a text that its ``parse`` can read.

    ``<`` as the answer raises ``Back`` where ``back`` says that there is a question before this one; where
    there is none, the person is told so.
    """

    def ask(self, question: Question[Any], *, back: bool = False) -> str: ...

    def say(self, sentence: str) -> None: ...

    def pause(self) -> None: ...


class Interview:
    """Asks for what the options left out, and only when something needed is missing.

    With every needed detail given, nothing is asked: what is left out takes its default. At a terminal
    with something missing, everything that was not given is asked. Elsewhere a missing detail is an
    error that names every one of them.
    """

    def __init__(
        self,
        given: Mapping[str, Any],
        required: Sequence[Question[Any]],
        asker: Asker | None,
    ) -> None:
        self._given = given
        missing = [question for question in required if self._answer(question) is None]
        if missing and asker is None:
            wants = "; ".join(f"{q.option} ({q.may_be})" if q.may_be else q.option for q in missing)
            raise Misused(f"Missing: {wants}.")
        self.asker = asker if missing else None
        """Who asks, or ``None`` where nothing is asked."""

    @property
    def asking(self) -> bool:
        """Whether there is a person at the other end."""
        return self.asker is not None

    def _answer(self, question: Question[Any]) -> str | None:
        value = self._given.get(question.name.replace("-", "_"))
        if value is None or value is False:
            return None
        return "yes" if value is True else str(value)

    def ask(self, question: Question[T]) -> T:
        """The answer: from the options, from the person, or the default.

        Raises:
            Misused: the option's value cannot be read, or there is neither answer nor default.
            Refused: it names something that is not there.
        """
        text = self._answer(question)
        if text is None and self.asker is not None:
            if question.nothing and not question.choices:
                raise Refused(question.nothing)
            return self.ask_anew(question)
        if text is None:
            text = question.default
        if text is None:
            raise Misused(f"Missing: {question.option} ({question.may_be}).")
        try:
            return question.parse(text)
        except Unfound as error:
            raise Refused(str(error)) from None
        except ValueError as error:
            raise Misused(f"{question.option}: {error}") from None

    def ask_anew(self, question: Question[T]) -> T:
        """The person's answer, whatever the options say."""
        assert self.asker is not None
        return question.parse(self.asker.ask(question))

    def given(self, question: Question[T]) -> T | None:
        """The answer of the options alone; never asked for."""
        return None if self._answer(question) is None else self.ask(question)

    def say(self, sentence: str) -> None:
        """Tell the person something between two questions; silent where nobody is asked."""
        if self.asker is not None and sentence:
            self.asker.say(sentence)
