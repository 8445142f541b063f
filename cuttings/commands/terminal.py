"""The terminal itself: is there one, how wide, which characters, and sentences to stderr."""

import sys

from cuttings.show.plain import ascii_twin, clean


def at_terminal() -> bool:
    """Whether a person is there to be asked: both ends must be a terminal."""
    return bool(sys.stdin and sys.stdin.isatty() and sys.stdout and sys.stdout.isatty())


def speaks_unicode(stream: object) -> bool:
    encoding = (getattr(stream, "encoding", None) or "ascii").lower()
    return encoding.replace("-", "").startswith("utf")


def say_error(sentence: str) -> None:
    """One sentence to stderr, with nothing in it that a terminal would obey."""
    text = clean(sentence)
    sys.stderr.write((text if speaks_unicode(sys.stderr) else ascii_twin(text)) + "\n")
    sys.stderr.flush()
