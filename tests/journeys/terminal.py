"""A person at a terminal: types keys into the real program and reads what stands on its screen."""

import os
import signal
import sys
import time
import warnings
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import Self

import pexpect
import pyte

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 20.0
"""How long a screen may take on a busy machine; nothing waits that long unless something is wrong."""

ENTER, CTRL_C, CTRL_D, CTRL_U, UP, DOWN = "\r", "\x03", "\x04", "\x15", "\x1b[A", "\x1b[B"
Condition = Callable[[], bool]
_LISTENING = 2004 << 5
"""The mode (bracketed paste, as pyte keeps it) that a prompt turns on while it waits, and off again."""


def environment(folder: Path, **changes: str) -> dict[str, str]:
    """The surroundings of a run: a home of its own and no settings of whoever runs the tests."""
    settings = {
        "PATH": os.environ.get("PATH", ""),
        "HOME": str(folder),
        "CUTTINGS_LEDGER": str(folder / "ledger"),
        "TERM": "xterm-256color",
        "LANG": "C.UTF-8",
        "PYTHONPATH": str(ROOT),
    }
    return {**settings, **changes}


class _Screen(pyte.Screen):
    """A screen that sends its reports, such as where the cursor is, back to the program."""

    def __init__(self, columns: int, lines: int) -> None:
        super().__init__(columns, lines)
        self.reports = ""

    def drawn(self) -> list[str]:
        """The lines as they look; most are empty, which makes this much faster than asking for every cell."""
        empty = " " * self.columns
        return [
            "".join(self.buffer[y][x].data for x in range(self.columns)) if self.buffer.get(y) else empty
            for y in range(self.lines)
        ]

    def write_process_input(self, data: str) -> None:
        self.reports += data


def _heed_ctrl_c() -> None:
    """A shell that runs the tests in the background has its children ignore Ctrl-C, and theirs too."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Terminal:
    """``cuttings`` with some arguments in a pseudo-terminal; use it in a ``with`` block."""

    def __init__(
        self,
        *arguments: str,
        folder: Path,
        lines: int = 40,
        columns: int = 120,
        env: Mapping[str, str] | None = None,
    ) -> None:
        self.folder = folder
        self._screen = _Screen(columns, lines)
        self._stream = pyte.ByteStream(self._screen)
        self._rows: list[str] | None = None
        self.everything = b""
        """All that was ever written to the terminal, for what must never appear."""
        self.pressed = 0
        """How many keys were pressed."""
        with warnings.catch_warnings():
            # The runner of parallel tests has threads; the child only executes another program.
            warnings.simplefilter("ignore", DeprecationWarning)
            self._child = pexpect.spawn(
                sys.executable,
                ["-m", "cuttings", *arguments],
                dimensions=(lines, columns),
                env=environment(folder, **(env or {})),
                cwd=str(folder),
                timeout=PATIENCE_S,
                preexec_fn=_heed_ctrl_c,
            )
        self._child.delaybeforesend = None
        for closing in (self._child, self._child.ptyproc):
            closing.delayafterclose = closing.delayafterterminate = 0.01

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._child.close(force=True)

    # Reading

    def rows(self) -> list[str]:
        """The lines of the screen, each as wide as it is."""
        if self._rows is None:
            self._rows = self._screen.drawn()
        return self._rows

    def screen_text(self) -> str:
        """The screen, without the white space at the ends of its lines."""
        return "\n".join(line.rstrip() for line in self.rows()).rstrip()

    def flowing(self) -> str:
        """The screen as running text, with one space for all white space, so that wrapping is no matter."""
        return " ".join(self.screen_text().split())

    def _read(self, patience_s: float) -> bool:
        """Take in what the program writes; false when it has closed the terminal."""
        try:
            data = self._child.read_nonblocking(65536, timeout=patience_s)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.everything += data
        self._stream.feed(data)
        self._rows = None
        if self._screen.reports:
            reports, self._screen.reports = self._screen.reports, ""
            self._child.send(reports)
        return True

    def _until(self, what: str, true: Condition, timeout: float) -> None:
        end = time.monotonic() + timeout
        while not true():
            open_still = self._read(0.05)
            if true():
                return
            if not open_still or time.monotonic() > end:
                why = "the program ended" if not open_still else f"{timeout:g} s passed"
                raise AssertionError(f"{what}: {why}. The screen:\n{self.screen_text()}")

    def wait_for(self, text: str, timeout: float = PATIENCE_S) -> None:
        """Read until the text is on the screen, wrapped or not.

        Raises:
            AssertionError: it does not come; the message shows the screen.
        """
        wanted = " ".join(text.split())
        self._until(f"waited for {text!r}", lambda: wanted in self.flowing(), timeout)

    def wait_for_end(self, text: str, timeout: float = PATIENCE_S) -> None:
        """Read until the text is the last thing on the screen."""
        self._until(f"waited to end with {text!r}", lambda: self.flowing().endswith(text), timeout)

    def question(self) -> str:
        """The newest question and all below it, unwrapped; empty where nothing was asked yet."""
        rows = self.rows()
        asked = [n for n, row in enumerate(rows) if row.startswith("- ")]
        return "".join(rows[asked[-1] :]) if asked else ""

    def _asks(self, prompt: str) -> bool:
        """Whether the newest question is this one and still waits for its answer."""
        return _LISTENING in self._screen.mode and self.question().startswith(f"- {prompt}")

    def asked(self, prompt: str, timeout: float = PATIENCE_S) -> None:
        """Read until this question stands there and waits for its answer."""
        self._until(f"waited to be asked {prompt!r}", lambda: self._asks(prompt), timeout)

    def corrected(self, text: str, timeout: float = PATIENCE_S) -> None:
        """Read until the text stands under the last answer, and the question is put anew."""
        wanted = " ".join(text.split())

        def stands() -> bool:
            asked = [n for n, row in enumerate(self.rows()) if row.startswith("- ")]
            said = " ".join(" ".join(self.rows()[asked[-2] :]).split()) if len(asked) > 1 else ""
            return wanted in said and _LISTENING in self._screen.mode

        self._until(f"waited to be told {text!r}", stands, timeout)

    def pointed_at(self) -> str:
        """The line of a list that the arrow points at."""
        rows = [row for row in self.rows() if row.startswith(" > ")]
        return rows[-1].strip() if rows else ""

    def _points_elsewhere(self, before: str) -> bool:
        """Whether the arrow has arrived at another line; half-way through a redrawing it is nowhere."""
        return self.pointed_at() not in ("", before)

    # Typing

    def keys(self, *keys: str) -> None:
        """Press keys, in order; each string is one key."""
        for key in keys:
            self.pressed += 1
            self._child.send(key)

    def type(self, text: str) -> None:
        """Type a text, a key for each letter."""
        self.pressed += len(text)
        self._child.send(text)

    def enter(self) -> None:
        self.keys(ENTER)

    def ctrl_c(self) -> None:
        self.keys(CTRL_C)

    def press_until_it_ends(self, key: str, times: int = 10) -> None:
        """Press a key again, as a person would, as long as the program takes no notice."""
        for _ in range(times):
            self.keys(key)
            end = time.monotonic() + 1.0
            while time.monotonic() < end:
                if not self._read(0.05):
                    return

    def ctrl_d(self) -> None:
        self.keys(CTRL_D)

    def paste(self, text: str) -> None:
        """Paste, as a terminal hands it over: between brackets, with all that the clipboard held."""
        self._child.send(f"\x1b[200~{text}\x1b[201~")

    def answer(self, prompt: str, text: str = "") -> None:
        """Wait for a question, then type the answer and Enter."""
        self.asked(prompt)
        self.type(text)
        self.enter()

    def choose(self, prompt: str, words: str = "") -> None:
        """Wait for a list, move the arrow to the line with these words (or leave it), and press Enter."""
        self.asked(prompt)
        self._until(f"waited for the list of {prompt!r}", partial(self._points_elsewhere, ""), PATIENCE_S)
        for _ in range(40):
            if words in self.pointed_at():
                self.enter()
                return
            before = self.pointed_at()
            self.keys(DOWN)
            self._until(f"moved on from {before!r}", partial(self._points_elsewhere, before), PATIENCE_S)
        raise AssertionError(f"{words!r} is not offered. The screen:\n{self.screen_text()}")

    def say(self, prompt: str, key: str = ENTER) -> None:
        """Wait for a yes-or-no question, and press one key."""
        self.asked(prompt)
        self.keys(key)

    def finish(self, timeout: float = PATIENCE_S) -> int:
        """Read to the end; the exit code."""
        end = time.monotonic() + timeout
        while self._read(0.05):
            if time.monotonic() > end:
                raise AssertionError(f"it does not end. The screen:\n{self.screen_text()}")
        self._child.wait()
        assert b"Traceback" not in self.everything, self.screen_text()
        status = self._child.exitstatus
        assert status is not None, f"it was ended by signal {self._child.signalstatus}"
        return int(status)
