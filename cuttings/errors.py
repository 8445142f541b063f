"""What can go wrong, each with the exit code a shell sees. Messages are one sentence that helps."""

from collections.abc import Sequence


class CuttingsError(Exception):
    """Something the person should be told in a sentence; never shown as a traceback."""

    exit_code = 1

    @property
    def sentence(self) -> str:
        return str(self.args[0]) if self.args else "Something went wrong."


class Refused(CuttingsError):
    """The facts do not allow it: a count the lot does not hold, a date before the lot began."""

    exit_code = 1


class Misused(CuttingsError):
    """The command was given something it cannot read, or too little."""

    exit_code = 2


class Cancelled(CuttingsError):
    """The person pressed Ctrl-C at a prompt; nothing was written.

    ``answers`` holds what was answered until then, in order, by the names of the questions, so that it can
    be taken up again.
    """

    exit_code = 130

    def __init__(self, sentence: str, answers: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__(sentence)
        self.answers = tuple(answers)


class Back(Exception):
    """The person wants to go back one question; ``answers`` holds those given before that one.

    No error: whoever runs commands runs this one again, with the answers taken up.
    """

    def __init__(self, answers: Sequence[tuple[str, str]] = ()) -> None:
        super().__init__("back one question")
        self.answers = tuple(answers)


class Unfound(ValueError):
    """A name that stands for nothing in this ledger, or for several things. Asked again at a prompt,
    refused by the facts elsewhere."""
