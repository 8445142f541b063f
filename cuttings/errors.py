"""What can go wrong, each with the exit code a shell sees. Messages are one sentence that helps."""

from collections.abc import Mapping


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

    ``typed`` holds the answers given until then, by question name, so that they can be taken up again.
    """

    exit_code = 130

    def __init__(self, sentence: str, typed: Mapping[str, str] | None = None) -> None:
        super().__init__(sentence)
        self.typed = dict(typed or {})


class Unfound(ValueError):
    """A name that stands for nothing in this ledger, or for several things. Asked again at a prompt,
    refused by the facts elsewhere."""
