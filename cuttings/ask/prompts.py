"""Prompts with arrow keys, over questionary. Only this module imports it."""

import string
import sys
from typing import Any

import questionary
from prompt_toolkit.history import InMemoryHistory

from cuttings.ask.interview import Question
from cuttings.ask.lines import CANCELLED, say_wrapped
from cuttings.errors import Cancelled
from cuttings.show.plain import sayable

STYLE = questionary.Style(
    [
        ("qmark", "fg:ansigreen bold"),
        ("question", "bold"),
        ("answer", ""),
        ("pointer", "fg:ansigreen bold"),
        ("highlighted", "fg:ansigreen bold"),
        ("selected", ""),
        ("instruction", "fg:ansibrightblack"),
    ]
)
_SHORTCUTS = string.digits[1:] + "".join(c for c in string.ascii_lowercase if c not in "jk")


def _shown(text: str) -> str:
    return sayable(text, sys.stdout)


class PromptAsker:
    """Asks with questionary and brings back the answer as text."""

    def say(self, sentence: str) -> None:
        say_wrapped(sentence, indent="  ")

    def pause(self) -> None:
        """Wait for any key."""
        try:
            questionary.press_any_key_to_continue("  (any key to go on)", style=STYLE).unsafe_ask()
        except (KeyboardInterrupt, EOFError):
            raise Cancelled(CANCELLED) from None

    def ask(self, question: Question[Any]) -> str:
        if question.why:
            self.say(question.why)
        try:
            if question.yes_no:
                return self._yes_no(question)
            return self._choose(question) if question.choices else self._type(question)
        except (KeyboardInterrupt, EOFError):
            raise Cancelled(CANCELLED) from None

    def _yes_no(self, question: Question[Any]) -> str:
        answer = questionary.confirm(
            _shown(question.prompt), default=question.default != "no", qmark="-", style=STYLE, auto_enter=True
        ).unsafe_ask()
        return "yes" if answer else "no"

    def _choose(self, question: Question[Any]) -> str:
        shortcuts = not question.by_number and len(question.choices) <= len(_SHORTCUTS)
        choices = [
            questionary.Choice(
                _shown(choice.label), value=choice.value, shortcut_key=_SHORTCUTS[n] if shortcuts else None
            )
            for n, choice in enumerate(question.choices)
        ]
        values = [choice.value for choice in question.choices]
        answer: str = questionary.select(
            _shown(question.prompt),
            choices=choices,
            default=question.default if question.default in values else None,
            qmark="-",
            pointer=">",
            style=STYLE,
            instruction="(arrows or its key, then Enter)"
            if shortcuts
            else "(arrows, or its number or letters of it, then Enter)",
            use_shortcuts=shortcuts,
            use_search_filter=not shortcuts,
            use_jk_keys=False,
        ).unsafe_ask()
        return answer

    def _type(self, question: Question[Any]) -> str:
        """A typed answer; what is wrong with it is said in full under it, and arrow up brings it back."""
        offer = f" [{question.default}]" if question.default else ""
        typed = InMemoryHistory()
        while True:
            answer: str = questionary.text(
                _shown(question.prompt + offer), qmark="-", style=STYLE, history=typed
            ).unsafe_ask()
            text = answer.strip() or question.default or ""
            try:
                question.parse(text)
            except ValueError as error:
                self.say(str(error))
                continue
            return text
