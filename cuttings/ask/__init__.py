"""Asking: questions as data, and those who put them to a person."""

from cuttings.ask.interview import Asker, Choice, Interview, Question
from cuttings.ask.retracing import Answers, Retracing

__all__ = ["Answers", "Asker", "Choice", "Interview", "Question", "Retracing", "asker_for"]


def asker_for(plain: bool) -> Asker:
    """Who asks at this terminal: numbered plain lines, or prompts with arrow keys."""
    if plain:
        from cuttings.ask.lines import LineAsker

        return LineAsker()
    from cuttings.ask.prompts import PromptAsker

    return PromptAsker()
