"""Options for what can be seen of a plant: the questions of the key, on the command line."""

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import click

from cuttings.errors import Misused
from cuttings.plants.key import QUESTIONS

T = TypeVar("T")


def look_options(command: Callable[..., T]) -> Callable[..., T]:
    """Give a command an option for each question of the key."""
    for each in reversed(QUESTIONS):
        seen = "|".join(answer.value for answer in each.answers)
        command = click.option(f"--{each.name}", metavar="SEEN", help=seen)(command)
    return command


def looks_in(given: Mapping[str, Any]) -> dict[str, str]:
    """What was seen, by question.

    Raises:
        Misused: something is no answer to its question.
    """
    looks = {}
    for each in QUESTIONS:
        text = given[each.name.replace("-", "_")]
        try:
            if text:
                looks[each.name] = one_word(*(answer.value for answer in each.answers))(text)
        except ValueError as error:
            raise Misused(f"--{each.name}: {error}") from None
    return looks


def one_word(*words: str) -> Callable[[str], str]:
    """One of some words."""

    def read(text: str) -> str:
        word = text.strip().casefold()
        if word not in words:
            raise ValueError(f"'{text}' is none of: {', '.join(words)}.")
        return word

    return read
