"""The one console, made for the terminal at hand."""

import io
import sys
from typing import TextIO

from rich.console import Console

from cuttings.show.plain import WIDEST, ascii_twin


class AsciiTwin(io.TextIOBase):
    """A stream that says everything in ASCII, for terminals that know nothing else."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        self._stream.write(ascii_twin(text))
        return len(text)

    def flush(self) -> None:
        self._stream.flush()

    def isatty(self) -> bool:
        return self._stream.isatty()

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return "ascii"


class OneConsole(Console):
    """A console that lets the command table see that the reader of a pipe has gone."""

    def on_broken_pipe(self) -> None:
        raise BrokenPipeError


def console() -> Console:
    """A console on standard output, at most ``WIDEST`` columns wide."""
    encoding = (getattr(sys.stdout, "encoding", None) or "ascii").lower().replace("-", "")
    stream: TextIO = sys.stdout if encoding.startswith("utf") else AsciiTwin(sys.stdout)  # type: ignore[assignment]
    made = OneConsole(file=stream, highlight=False, markup=False, emoji=False, soft_wrap=False)
    if made.width > WIDEST:
        made.width = WIDEST
    return made
