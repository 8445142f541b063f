"""Questions, their answers, and taking answers up again after going back."""

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.ask import Answers, Choice, Interview, Question, Retracing
from cuttings.errors import Back, Cancelled, Misused, Refused, Unfound

NAME = Question("name", "What is it called?", str)
COUNT = Question("count", "How many?", int, default="1", allowed="a whole number")
KIND = Question("kind", "Which kind?", str, (Choice("a"), Choice("b")))
QUESTIONS: tuple[Question[Any], ...] = (NAME, COUNT, KIND)


class Script:
    """Somebody who answers from a list; ``<`` goes back, and the end of the list is Ctrl-C."""

    def __init__(self, *texts: str) -> None:
        self.texts = list(texts)
        self.heard: list[str] = []
        self.asked: list[tuple[str, bool]] = []

    def ask(self, question: Question[Any], *, back: bool = False) -> str:
        self.asked.append((question.name, back))
        if not self.texts:
            raise Cancelled("Stopped.")
        text = self.texts.pop(0)
        if text == "<":
            if back:
                raise Back
            return self.ask(question, back=back)
        return text

    def say(self, sentence: str) -> None:
        self.heard.append(sentence)

    def pause(self) -> None:
        self.heard.append("pause")


def all_asked(script: Script, questions: Sequence[Question[Any]] = QUESTIONS) -> list[Any]:
    """Every question asked in a run, begun again whenever somebody goes back, with a word after each."""
    taken_up: Sequence[tuple[str, str]] = ()
    while True:
        asker = Retracing(script, Answers(taken_up))
        interview = Interview({}, questions, asker)
        found = []
        try:
            for question in questions:
                found.append(interview.ask(question))
                interview.say(f"so {question.name}")
        except Back as back:
            taken_up = back.answers
        else:
            return found


def test_options_answer_without_anybody_being_asked() -> None:
    interview = Interview({"name": "box", "count": "3"}, [NAME], Script())
    assert not interview.asking
    assert (interview.ask(NAME), interview.ask(COUNT)) == ("box", 3)
    assert interview.given(KIND) is None


def test_what_is_left_out_takes_its_default_or_is_named() -> None:
    assert Interview({"name": "box"}, [NAME], None).ask(COUNT) == 1
    with pytest.raises(Misused, match=r"Missing: --name; --count \(a whole number\)\."):
        Interview({}, [NAME, COUNT], None)
    with pytest.raises(Misused, match="--kind"):
        Interview({"name": "box"}, [NAME], None).ask(KIND)


def test_an_option_that_cannot_be_read_is_misuse_and_one_that_names_nothing_is_refused() -> None:
    def nowhere(text: str) -> str:
        raise Unfound(f"There is no '{text}'.")

    with pytest.raises(Misused, match="--count: "):
        Interview({"name": "box", "count": "many"}, [NAME], None).ask(COUNT)
    with pytest.raises(Refused, match="There is no 'x'"):
        Interview({"name": "x"}, [NAME], None).ask(Question("name", "", nowhere))


def test_with_something_missing_everything_not_given_is_asked() -> None:
    script = Script("4")
    interview = Interview({"name": "box"}, [NAME, KIND], script)
    assert interview.ask(NAME) == "box"
    assert interview.ask(COUNT) == 4
    assert script.asked == [("count", False)]


def test_where_the_choices_have_run_out_nothing_is_asked() -> None:
    with pytest.raises(Refused, match="nothing to choose"):
        Interview({}, [KIND], Script("a")).ask(
            Question("kind", "", str, nothing="There is nothing to choose.")
        )


def test_going_back_asks_the_one_before_again_and_takes_up_the_rest() -> None:
    script = Script("box", "2", "<", "3", "a")
    assert all_asked(script) == ["box", 3, "a"]
    assert [name for name, _ in script.asked] == ["name", "count", "kind", "count", "kind"]
    assert [back for _, back in script.asked] == [False, True, True, True, True]


def test_going_back_twice_in_a_row() -> None:
    assert all_asked(Script("box", "2", "<", "<", "yew", "5", "b")) == ["yew", 5, "b"]


def test_what_was_said_before_the_answers_taken_up_is_not_said_again() -> None:
    script = Script("box", "2", "<", "3", "a")
    all_asked(script)
    assert script.heard == ["so name", "so count", "so name", "so count", "so kind"]


def test_at_the_first_question_nobody_goes_back() -> None:
    assert all_asked(Script("<", "<", "box", "<", "yew", "1", "a")) == ["yew", 1, "a"]


def test_stopping_hands_on_all_answers_given_also_those_taken_up() -> None:
    with pytest.raises(Cancelled) as stop:
        all_asked(Script("box", "2", "<", "3"))
    assert stop.value.answers == (("name", "box"), ("count", "3"))


@pytest.mark.parametrize("stale", [("count", "many"), ("kind", "c"), ("colour", "red")])
def test_an_answer_that_no_longer_fits_is_asked_for_with_all_after_it(stale: tuple[str, str]) -> None:
    before = [("name", "box"), ("count", "2")] if stale[0] == "kind" else [("name", "box")]
    script = Script(*["2", "a"][len(before) - 1 :])
    interview = Interview({}, QUESTIONS, Retracing(script, Answers([*before, stale, ("kind", "b")])))
    assert [interview.ask(question) for question in QUESTIONS] == ["box", 2, "a"]


def test_behind_what_is_settled_nobody_goes_back_and_nothing_is_taken_up() -> None:
    script = Script("box", "<", "7")
    answers = Answers()
    asker = Retracing(script, answers)
    asker.ask(NAME)
    answers.settle()
    assert asker.ask(COUNT) == "7"
    assert script.asked == [("name", False), ("count", False), ("count", False)]
    with pytest.raises(Cancelled) as stop:
        asker.ask(KIND)
    assert stop.value.answers == ()


@settings(deadline=None)
@given(st.lists(st.sampled_from(["<", "answer"]), max_size=40))
def test_however_one_goes_to_and_fro_the_answers_are_the_last_ones_given(steps: list[str]) -> None:
    given, texts = list[str](), []
    for number, step in enumerate([*steps, *["answer"] * 45]):
        if len(given) == 5:
            break
        if step == "<":
            given[-1:] = []
            texts.append("<")
        else:
            given.append(str(number))
            texts.append(str(number))
    questions = [Question(f"q{number}", "?", str) for number in range(5)]
    script = Script(*texts)
    assert all_asked(script, questions) == given
    assert not script.texts
