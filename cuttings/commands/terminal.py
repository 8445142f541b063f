"""The terminal itself: is there one, how wide, which characters, and sentences to stderr."""

import sys
from collections.abc import Iterable

from cuttings.show.plain import sayable, terminal_width, wrapped


def at_terminal() -> bool:
    """Whether a person is there to be asked: both ends must be a terminal."""
    return bool(sys.stdin and sys.stdin.isatty() and sys.stdout and sys.stdout.isatty())


def write_lines(lines: Iterable[str]) -> None:
    """Lines to stdout, in whatever letters it speaks."""
    sys.stdout.write("".join(f"{sayable(line, sys.stdout).rstrip()}\n" for line in lines))


def say_error(sentence: str) -> None:
    """One sentence to stderr, with nothing in it that a terminal would obey; wrapped only at a terminal."""
    text = sayable(sentence, sys.stderr)
    lines = wrapped(text, terminal_width() - 1) if sys.stderr.isatty() else [text]
    sys.stderr.write("".join(f"{line}\n" for line in lines))
    sys.stderr.flush()
