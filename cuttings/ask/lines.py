"""Plain numbered lines: for screen readers, simple terminals and anyone who prefers them."""

import sys
from typing import Any

from cuttings.ask.interview import Question
from cuttings.errors import Back, Cancelled
from cuttings.show.plain import sayable, terminal_width, wrapped


def say_wrapped(sentence: str, indent: str = "") -> None:
    """A sentence on standard output, broken at spaces to the terminal's width."""
    width = max(terminal_width() - len(indent) - 1, 20)
    for line in wrapped(sayable(sentence.strip(), sys.stdout), width):
        sys.stdout.write(f"{indent}{line}\n")
    sys.stdout.flush()


def _refuse_unless_offered(question: Question[Any], text: str) -> None:
    """Where the answer is taken as it is, only one of the choices will do."""
    if question.parse is str and question.choices and text not in {c.value for c in question.choices}:
        raise ValueError(f"Answer with a number from 1 to {len(question.choices)}.")


class LineAsker:
    """Asks one line at a time on standard output and reads one line of answer.

    How to go back is told once, with the first question that has one before it.
    """

    def __init__(self) -> None:
        self._told_of_back = False

    def say(self, sentence: str) -> None:
        say_wrapped(sentence)

    def pause(self) -> None:
        """Wait for Enter."""
        self._line("Enter to go on: ")

    def ask(self, question: Question[Any], *, back: bool = False) -> str:
        self._put(question, back)
        while True:
            text = self._read(question)
            if text == BACK:
                self._go_back(back)
                continue
            try:
                _refuse_unless_offered(question, text)
                question.parse(text)
            except ValueError as error:
                self.say(str(error))
                continue
            return text

    def _go_back(self, back: bool) -> None:
        if back:
            raise Back
        self.say(NOTHING_BEFORE)

    def _put(self, question: Question[Any], back: bool) -> None:
        self.say(question.prompt)
        if back and not self._told_of_back:
            self._told_of_back = True
            say_wrapped(f"({BACK} goes back one question)", indent="  ")
        if question.why:
            say_wrapped(question.why, indent="  ")
        for number, choice in enumerate(question.choices, 1):
            say_wrapped(choice.label if question.by_number else f"{number} {choice.label}", indent="  ")

    def _read(self, question: Question[Any]) -> str:
        hint = "y or n" if question.yes_no else ("number" if question.choices else "answer")
        offered = f" [{self._offered(question)}]" if question.default else ""
        text = self._line(f"{hint}{offered}: ")
        if not text and question.default is not None:
            return question.default
        if (
            not question.by_number
            and question.choices
            and text.isdecimal()
            and 1 <= int(text) <= len(question.choices)
        ):
            return question.choices[int(text) - 1].value
        return text

    def _line(self, prompt: str) -> str:
        try:
            sys.stdout.write(sayable(prompt, sys.stdout))
            sys.stdout.flush()
            return input().strip()
        except (EOFError, KeyboardInterrupt):
            raise Cancelled(CANCELLED) from None

    def _offered(self, question: Question[Any]) -> str:
        for number, choice in enumerate(question.choices, 1):
            if choice.value == question.default:
                return f"{number} {choice.label}"
        return question.default or ""


BACK = "<"
"""What is answered by somebody who wants to go back one question."""

NOTHING_BEFORE = "There is no question before this one to go back to."
CANCELLED = "Stopped; nothing was recorded, and the ledger is as it was."
