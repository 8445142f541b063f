"""The terminal itself: is there one, how wide, which characters, and sentences to stderr."""

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

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


@contextmanager
def no_chatter() -> Iterator[None]:
    """Keeps what a library's own code writes to the standard output out of it, below Python's reach."""
    sys.stdout.flush()
    kept = os.dup(1)
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.close(nowhere)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


class Passing:
    """A sentence on stderr that the next one replaces; silent where nobody would see it pass."""

    def __init__(self) -> None:
        self._shown = sys.stderr.isatty() and os.environ.get("TERM") != "dumb"
        self._width = 0

    def say(self, sentence: str) -> None:
        if self._shown:
            text = sayable(sentence, sys.stderr)[: terminal_width() - 1]
            sys.stderr.write(f"\r{text.ljust(self._width)}")
            sys.stderr.flush()
            self._width = len(text)

    def done(self) -> None:
        if self._shown and self._width:
            sys.stderr.write(f"\r{' ' * self._width}\r")
            sys.stderr.flush()
