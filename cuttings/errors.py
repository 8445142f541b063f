"""What can go wrong, each with the exit code a shell sees. Messages are one sentence that helps."""


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
    """The person pressed Ctrl-C at a prompt; nothing was written."""

    exit_code = 130
