"""The terminal itself: is there one, how wide, which characters, and sentences to stderr."""

import sys

from cuttings.show.plain import sayable


def at_terminal() -> bool:
    """Whether a person is there to be asked: both ends must be a terminal."""
    return bool(sys.stdin and sys.stdin.isatty() and sys.stdout and sys.stdout.isatty())


def say_error(sentence: str) -> None:
    """One sentence to stderr, with nothing in it that a terminal would obey."""
    sys.stderr.write(sayable(sentence, sys.stderr) + "\n")
    sys.stderr.flush()
