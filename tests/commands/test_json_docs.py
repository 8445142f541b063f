"""The page on JSON for scripts: every example on it is what the program prints today.

The examples are run in the order of the page, in one demo garden, and compared in shape: the same keys at
every level, and values of the same kind. Lists on the page are cut short, so only what it shows is compared.
"""

import json
import re
import shlex
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from attrs import frozen

from cuttings.app import COMMANDS
from cuttings.words import Stage
from tests.commands.running import MAY, cuttings

PAGE = Path(__file__).parents[2] / "docs" / "json.md"
EXAMPLE = re.compile(
    r"```console\n\$ cuttings (?P<line>[^\n]+)\n```\n\n```json\n(?P<document>.+?)\n```", re.DOTALL
)
GARDEN = "quarry-bank"


@frozen
class Example:
    """A command line on the page, and the document under it."""

    words: tuple[str, ...]
    document: Any


def examples() -> Sequence[Example]:
    text = PAGE.read_text(encoding="utf-8")
    found = [
        Example(tuple(shlex.split(match["line"])), json.loads(match["document"]))
        for match in EXAMPLE.finditer(text)
    ]
    assert len(found) == text.count("```json") == text.count("```console")
    return found


def kind(value: object) -> str:
    """The kind of a JSON value; whole and broken numbers are one kind."""
    if isinstance(value, bool):
        return "true or false"
    return {dict: "object", list: "list", str: "text", int: "number", float: "number"}.get(
        type(value), "null"
    )


def differences(said: object, told: object, at: str = "") -> list[str]:
    """Where the document on the page and the one the program told differ in shape."""
    if said is None or told is None:  # what is not known today may be known tomorrow
        return []
    if kind(said) != kind(told):
        return [f"{at or 'the document'}: {kind(said)} on the page, {kind(told)} told"]
    if isinstance(said, dict) and isinstance(told, dict):
        if at.endswith("stages"):
            return [f"{at}: no stage '{stage}'" for stage in said if stage not in list(Stage)]
        lost = [f"{at}.{key} is on the page but not told" for key in said.keys() - told.keys()]
        new = [f"{at}.{key} is told but not on the page" for key in told.keys() - said.keys()]
        return (
            lost
            + new
            + [
                d
                for key in said.keys() & told.keys()
                for d in differences(said[key], told[key], f"{at}.{key}")
            ]
        )
    if isinstance(said, list) and isinstance(told, list):
        if len(said) > len(told) or (told and not said):
            return [f"{at}: {len(said)} on the page, {len(told)} told"]
        return [d for n, each in enumerate(said) for d in differences(each, told[n], f"{at}[{n}]")]
    return []


def test_every_example_has_the_shape_that_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    wrong = []
    for example in examples():
        result = cuttings(*example.words, ledger=None, today=MAY, env={"CUTTINGS_LEDGER": GARDEN})
        line = shlex.join(example.words)
        if result.code != 0:
            wrong.append(f"{line}: {result.err}")
            continue
        assert "schema" in example.document
        wrong += [f"{line}: {each}" for each in differences(example.document, result.document)]
    assert not wrong, "\n".join(wrong)


def test_every_command_is_on_the_page() -> None:
    shown = {next((word for word in example.words if word in COMMANDS), "") for example in examples()}
    assert shown >= set(COMMANDS), f"show an example of: {sorted(set(COMMANDS) - shown)}"


def test_every_example_asks_for_a_document() -> None:
    assert all("--json" in example.words for example in examples())


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"a": 1}, {}),
        ({}, {"a": 1}),
        ({"a": 1}, {"a": "1"}),
        ({"a": True}, {"a": 1}),
        ({"a": [1]}, {"a": []}),
        ({"a": []}, {"a": [1]}),
        ({"a": [{"b": 1}]}, {"a": [{"c": 1}]}),
        ({"stages": {"asleep": 1}}, {"stages": {"waiting": 1}}),
    ],
)
def test_documents_of_another_shape_are_told_apart(said: object, told: object) -> None:
    assert differences(said, told)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"a": 1}, {"a": 2.5}),
        ({"a": None}, {"a": "known by now"}),
        ({"a": [1]}, {"a": [2, 3, 4]}),
        ({"stages": {"waiting": 1}}, {"stages": {"rooted": 1}}),
    ],
)
def test_documents_of_one_shape_are_alike(said: object, told: object) -> None:
    assert not differences(said, told)
