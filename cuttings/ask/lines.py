"""Plain numbered lines: for screen readers, simple terminals and anyone who prefers them."""

import sys
from typing import Any

from cuttings.ask.interview import Question
from cuttings.errors import Cancelled
from cuttings.show.plain import clean


class LineAsker:
    """Asks one line at a time on standard output and reads one line of answer."""

    def say(self, sentence: str) -> None:
        sys.stdout.write(clean(sentence) + "\n")

    def pause(self) -> None:
        """Wait for Enter."""
        self._line("Enter to go on: ")

    def ask(self, question: Question[Any]) -> str:
        self._put(question)
        while True:
            text = self._read(question)
            try:
                question.parse(text)
            except ValueError as error:
                self.say(str(error))
                continue
            return text

    def _put(self, question: Question[Any]) -> None:
        self.say(question.prompt)
        if question.why:
            self.say(f"  {question.why}")
        for number, choice in enumerate(question.choices, 1):
            self.say(f"  {number} {choice.label}")

    def _read(self, question: Question[Any]) -> str:
        hint = "y or n" if question.yes_no else ("number" if question.choices else "answer")
        offered = f" [{self._offered(question)}]" if question.default else ""
        text = self._line(f"{hint}{offered}: ")
        if not text and question.default is not None:
            return question.default
        if question.choices and text.isdigit() and 1 <= int(text) <= len(question.choices):
            return question.choices[int(text) - 1].value
        return text

    def _line(self, prompt: str) -> str:
        sys.stdout.write(prompt)
        sys.stdout.flush()
        try:
            return input().strip()
        except (EOFError, KeyboardInterrupt):
            raise Cancelled(CANCELLED) from None

    def _offered(self, question: Question[Any]) -> str:
        for number, choice in enumerate(question.choices, 1):
            if choice.value == question.default:
                return f"{number} {choice.label}"
        return clean(question.default or "")


CANCELLED = "Stopped; nothing was recorded, and the ledger is as it was."
