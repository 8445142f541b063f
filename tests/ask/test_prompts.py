"""Prompts with arrow keys, driven by keys from a pipe; what is seen on a screen is for the journeys."""

from collections.abc import Iterator

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from cuttings.ask import Choice, Question
from cuttings.ask.prompts import PromptAsker
from cuttings.errors import Back, Cancelled

FEW = tuple(Choice(word) for word in ("oak", "elm", "yew"))
MANY = tuple(Choice(f"lot <{number}>") for number in range(60))
LIST = Question("lot", "Which lot?", str, FEW)
LONG_LIST = Question("lot", "Which lot?", str, MANY)
SURE = Question("sure", "Sure?", str, default="yes", yes_no=True)
TYPED = Question("count", "How many?", int, default="1")


@pytest.fixture
def keys() -> Iterator[PipeInput]:
    with create_pipe_input() as pipe, create_app_session(input=pipe, output=DummyOutput()):
        yield pipe


@pytest.mark.parametrize(
    ("question", "typed"), [(LIST, "<"), (LONG_LIST, "<"), (SURE, "<"), (TYPED, "<\r"), (TYPED, " < \r")]
)
def test_every_kind_of_question_goes_back(question: Question[object], typed: str, keys: PipeInput) -> None:
    keys.send_text(typed)
    with pytest.raises(Back):
        PromptAsker().ask(question, back=True)


@pytest.mark.parametrize(
    ("question", "typed", "answer"),
    [
        (LIST, "<2\r", "elm"),
        (LONG_LIST, "<\r", "lot <0>"),
        (SURE, "<n", "no"),
        (TYPED, "<\r7\r", "7"),
    ],
)
def test_with_no_question_before_it_one_is_told_so_and_asked_again(
    question: Question[object], typed: str, answer: str, keys: PipeInput, capsys: pytest.CaptureFixture[str]
) -> None:
    keys.send_text(typed)
    assert PromptAsker().ask(question) == answer
    assert "There is no question before this one to go back to." in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("question", [LIST, LONG_LIST, SURE, TYPED])
def test_ctrl_c_still_stops(question: Question[object], keys: PipeInput) -> None:
    keys.send_text("\x03")
    with pytest.raises(Cancelled):
        PromptAsker().ask(question, back=True)


def test_a_long_list_is_still_narrowed_by_typing(keys: PipeInput) -> None:
    keys.send_text("47\r")
    assert PromptAsker().ask(LONG_LIST, back=True) == "lot <47>"
