"""A process of its own that records in ledgers, so that tests can kill it, starve it or lock it out.

It is run as ``python -m tests.ledger.child JOB FOLDER ...`` and prints one JSON document. Recorders are
forked from it, which is fast because everything is imported by then.
"""

import ctypes
import json
import os
import random
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

import filelock  # noqa: F401  the store imports it when it first records; the forked need not

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.store import Ledger, Stamp
from cuttings.words import Method, Stage
from tests.ledger.making import MAY

_PR_CAPBSET_DROP = 24
_CAP_DAC_OVERRIDE, _CAP_DAC_READ_SEARCH = 1, 2
_real_write = os.write


def record_one(ledger: Ledger) -> e.Entry:
    """Record a lot of two stems under the next free code."""

    def make(book: Book, stamp: Stamp) -> list[e.Entry]:
        return [
            e.Find(
                id=stamp(), on=MAY, lot=book.next_code(MAY), plant="Ribes rubrum",
                method=Method.SIMPLE_LAYER, moves=(e.Move(count=2, target=Stage.WAITING),),
            )
        ]  # fmt: skip

    return ledger.record(make)[1][0]


def record_until_refused(ledger: Ledger, tell: Callable[[str], None], most: int) -> None:
    """Record so many lots, telling each id once it is recorded; stop with the sentence of a refusal."""
    try:
        for _ in range(most):
            tell(record_one(ledger).id)
    except Refused as refusal:
        tell(f"refused: {refusal.sentence}")


def forked(work: Callable[[Callable[[str], None]], None]) -> tuple[int, int]:
    """Start a process that does some work and tells of it; its number, and where to read what it tells."""
    reading, writing = os.pipe()
    process = os.fork()
    if not process:
        os.close(reading)
        _work_and_leave(work, writing)
    os.close(writing)
    return process, reading


def _work_and_leave(work: Callable[[Callable[[str], None]], None], writing: int) -> NoReturn:
    def tell(line: str) -> None:
        _real_write(writing, line.encode() + b"\n")

    code = 1
    try:
        work(tell)
        code = 0
    finally:
        os._exit(code)  # leaves a traceback on stderr, and none of the parent's business undone


def told(reading: int) -> list[str]:
    """All that a forked process told before it ended."""
    return _hear_all(reading).decode().split("\n")[:-1]


def _hear(reading: int, lines: int) -> bytes:
    """What a forked process tells until it has told so many lines, or ended."""
    heard = b""
    while heard.count(b"\n") < lines and (more := os.read(reading, 4096)):
        heard += more
    return heard


def _hear_all(reading: int) -> bytes:
    with os.fdopen(reading, "rb") as pipe:
        return pipe.read()


def kill(folder: Path, kills: int, seed: int, bytes_at_once: int) -> dict[str, Any]:
    """Record, and be killed at a random moment, again and again.

    On a disk that is slow and takes only a few bytes at once (if not 0), kills tear lines.
    """

    def write_slowly(handle: int, data: Any) -> int:
        time.sleep(0.0002)
        return _real_write(handle, bytes(data[:bytes_at_once]))

    def work(tell: Callable[[str], None]) -> None:
        if bytes_at_once:
            os.write = write_slowly
        record_until_refused(Ledger(folder), tell, 1_000_000)

    chance = random.Random(seed)
    acknowledged: list[str] = []
    for _ in range(kills):
        process, reading = forked(work)
        heard = _hear(reading, chance.randrange(5))
        time.sleep(chance.uniform(0.0, 0.02))
        os.kill(process, signal.SIGKILL)
        acknowledged += (heard + _hear_all(reading)).decode().split()
        os.waitpid(process, 0)
    return {"acknowledged": acknowledged}


def fill(folder: Path, *limits: int) -> dict[str, Any]:
    """Record on a disk on which no file can grow beyond a limit, twice over; for each limit in bytes."""
    import resource

    answers = {}
    for limit in limits:

        def work(tell: Callable[[str], None], limit: int = limit) -> None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
            ledger = Ledger(folder / str(limit))
            record_until_refused(ledger, tell, 20)
            record_until_refused(ledger, tell, 20)

        process, reading = forked(work)
        lines = told(reading)
        answers[str(limit)] = {"told": lines, "exit": os.waitpid(process, 0)[1]}
    return answers


def together(folder: Path, processes: int, each: int) -> dict[str, Any]:
    """Record from several processes at once."""
    started = [
        forked(lambda tell: record_until_refused(Ledger(folder), tell, each)) for _ in range(processes)
    ]
    lines = [line for _, reading in started for line in told(reading)]
    return {"told": lines, "exits": [os.waitpid(process, 0)[1] for process, _ in started]}


def try_once(folder: Path) -> dict[str, Any]:
    """Read, record, mend and read again, as a user whom permissions bind; what came of each."""
    ledger = Ledger(folder)
    return {
        "lots": _or_refused(lambda: list(ledger.book().lots)),
        "recorded": _or_refused(lambda: record_one(ledger).id),
        "mended": _or_refused(lambda: len(ledger.mend())),
        "after": _or_refused(lambda: list(ledger.book().lots)),
    }


def _or_refused(do: Callable[[], Any]) -> Any:
    try:
        return do()
    except Refused as refusal:
        return f"refused: {refusal.sentence}"


def bound_by_permissions() -> bool:
    """Whether file permissions hold for this process; root is above them."""
    return os.geteuid() != 0 or not Path("/proc/self/status").exists() or not _overrides()


def _overrides() -> bool:
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    effective = int(status.split("CapEff:")[1].split()[0], 16)
    return bool(effective & (1 << _CAP_DAC_OVERRIDE))


def become_bound_by_permissions() -> None:
    """Give up root's privilege over file permissions, by starting again without it."""
    libc = ctypes.CDLL(None, use_errno=True)
    for capability in (_CAP_DAC_OVERRIDE, _CAP_DAC_READ_SEARCH):
        if libc.prctl(_PR_CAPBSET_DROP, capability, 0, 0, 0):
            raise OSError(ctypes.get_errno(), "the privilege cannot be given up")
    os.execv(sys.executable, [sys.executable, "-m", "tests.ledger.child", *sys.argv[1:]])


def main(job: str, folder: str, *numbers: str) -> None:
    jobs: dict[str, Callable[..., dict[str, Any]]] = {
        "kill": kill, "fill": fill, "together": together, "try": try_once,
    }  # fmt: skip
    if job == "try" and not bound_by_permissions():
        become_bound_by_permissions()
    print(json.dumps(jobs[job](Path(folder), *map(int, numbers))))


if __name__ == "__main__":
    main(*sys.argv[1:])
