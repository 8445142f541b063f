"""Prompts with arrow keys, over questionary. Only this module imports it."""

import string
import sys
from collections.abc import Sequence
from typing import Any

import questionary
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent, merge_key_bindings

from cuttings.ask.interview import Question
from cuttings.ask.lines import BACK, CANCELLED, NOTHING_BEFORE, say_wrapped
from cuttings.errors import Back, Cancelled
from cuttings.show.plain import sayable, terminal_width

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
GOES_BACK = f"{BACK} goes back"
ROOM_TO_TYPE = 12
"""Letters left for a short answer on the line of a prompt; without them its hint is left out."""

_SHORTCUTS = string.digits[1:] + "".join(c for c in string.ascii_lowercase if c not in "jk")


def _shown(text: str) -> str:
    return sayable(text, sys.stdout)


def _with_back(prompt: questionary.Question) -> questionary.Question:
    """A list or a yes-or-no question that takes the key for going back too, and then leaves no trace."""
    bindings = KeyBindings()

    @bindings.add(BACK, eager=True)
    def go_back(event: KeyPressEvent) -> None:
        event.app.erase_when_done = True
        event.app.exit(result=BACK)

    own = prompt.application.key_bindings
    prompt.application.key_bindings = merge_key_bindings([own, bindings] if own else [bindings])
    return prompt


def _fitting(prompt: str, hints: Sequence[str]) -> str:
    """The first of some hints that stands on one line with a prompt, in brackets; a space where none does,
    for an empty one would be replaced."""
    mark = len("-  ()")
    fits = (hint for hint in hints if mark + len(prompt) + len(hint) < terminal_width())
    found = next(fits, "")
    return f"({found})" if found else " "


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

    def ask(self, question: Question[Any], *, back: bool = False) -> str:
        if question.why:
            self.say(question.why)
        put = self._yes_no if question.yes_no else self._choose if question.choices else self._type
        while True:
            try:
                answer = put(question, back)
            except (KeyboardInterrupt, EOFError):
                raise Cancelled(CANCELLED) from None
            if answer != BACK:
                return answer
            if back:
                raise Back
            self.say(NOTHING_BEFORE)

    def _yes_no(self, question: Question[Any], back: bool) -> str:
        yes = question.default != "no"
        prompt = questionary.confirm(
            _shown(question.prompt),
            default=yes,
            qmark="-",
            style=STYLE,
            auto_enter=True,
            instruction=f"({'Y/n' if yes else 'y/N'}; {GOES_BACK}) " if back else None,
        )
        answer = _with_back(prompt).unsafe_ask()
        return BACK if answer == BACK else "yes" if answer else "no"

    def _choose(self, question: Question[Any], back: bool) -> str:
        shortcuts = not question.by_number and len(question.choices) <= len(_SHORTCUTS)
        choices = [
            questionary.Choice(
                _shown(choice.label), value=choice.value, shortcut_key=_SHORTCUTS[n] if shortcuts else None
            )
            for n, choice in enumerate(question.choices)
        ]
        values = [choice.value for choice in question.choices]
        keys = "arrows or its key" if shortcuts else "arrows, or its number or letters of it"
        hints = (f"{keys}, then Enter; {GOES_BACK}", GOES_BACK) if back else (f"{keys}, then Enter",)
        prompt = questionary.select(
            _shown(question.prompt),
            choices=choices,
            default=question.default if question.default in values else None,
            qmark="-",
            pointer=">",
            style=STYLE,
            instruction=_fitting(_shown(question.prompt), hints),
            use_shortcuts=shortcuts,
            use_search_filter=not shortcuts,
            use_jk_keys=False,
        )
        answer: str = _with_back(prompt).unsafe_ask()
        return answer

    def _type(self, question: Question[Any], back: bool) -> str:
        """A typed answer; what is wrong with it is said in full under it, and arrow up brings it back."""
        asked = _shown(f"{question.prompt} [{question.default}]" if question.default else question.prompt)
        hint = f"({GOES_BACK})"
        if len(asked) + ROOM_TO_TYPE > terminal_width() and question.default:
            self.say(f"Enter takes: {question.default}")
            asked = _shown(question.prompt)
        fits = len(asked) + len(hint) + ROOM_TO_TYPE <= terminal_width()
        typed = InMemoryHistory()
        while True:
            answer: str = questionary.text(
                asked,
                qmark="-",
                style=STYLE,
                history=typed,
                instruction=hint if back and fits else None,
            ).unsafe_ask()
            text = answer.strip() or question.default or ""
            if text == BACK:
                return BACK
            try:
                question.parse(text)
            except ValueError as error:
                self.say(str(error))
                continue
            return text
