"""The ledger as the rest of the program sees it: read the book, record new entries. Nothing else.

Reading needs no lock, because the file only grows. Recording takes one, looks at what other processes
have written meanwhile, decides, and writes, so that two terminals never interleave.
"""

import contextlib
import json
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path

from tinydb import TinyDB
from tinydb.table import Document

from cuttings.errors import Misused, Refused
from cuttings.ledger.book import Book, fold
from cuttings.ledger.codec import SCHEMA, UnknownEntry, from_document, to_document
from cuttings.ledger.entries import Entry
from cuttings.ledger.ids import new_id
from cuttings.ledger.journal import TABLE, Damage, Journal, backup, sync_folder, write_new

FILE = "ledger.jsonl"
PATIENCE_S = 5.0
"""How long to wait for another terminal that is writing."""

Stamp = Callable[[], str]
Make = Callable[[Book, Stamp], Sequence[Entry]]


class Ledger:
    """One ledger folder. It is made when the first entry is recorded."""

    def __init__(self, folder: Path, who: str = "", patience_s: float = PATIENCE_S) -> None:
        self.folder = folder
        self.who = who
        self._patience_s = patience_s
        self._journal = Journal(folder / FILE)
        self._table = TinyDB(storage=lambda: self._journal).table(TABLE, cache_size=0)
        self._known: dict[int, Entry] = {}
        self._unknown: dict[int, Damage] = {}
        self._reading = 0

    @property
    def damage(self) -> tuple[Damage, ...]:
        """Lines that could not be read, as of the last reading; the others are in the book."""
        found = (*self._journal.damage, *self._unknown.values())
        return tuple(sorted(found, key=lambda damage: damage.line))

    def book(self) -> Book:
        """The book of every sound entry now in the file, other processes' too."""
        return fold(self._read())

    def _read(self) -> list[Entry]:
        documents = {document.doc_id: document for document in self._table}
        if self._reading != self._journal.readings:  # the file has been replaced under us
            self._reading = self._journal.readings
            self._known.clear()
            self._unknown.clear()
        for line, document in documents.items():
            if line in self._known or line in self._unknown:
                continue
            try:
                self._known[line] = from_document(document)
            except UnknownEntry as error:
                self._unknown[line] = Damage(line, str(error), json.dumps(document, ensure_ascii=False))
        return list(self._known.values())

    def record(self, make: Make) -> tuple[Book, tuple[Entry, ...]]:
        """Let ``make`` decide on entries from the newest book, and write them durably.

        Returns the book after them, and the entries.

        Raises:
            Refused: the entries do not fit, somebody else is writing, or the file cannot be written.
        """
        with self._lock():
            book = self.book()
            if self.damage:
                self._journal.forget()  # it may have been put right by hand
                book = self.book()
            self._refuse_if_damaged()
            if self._journal.version < SCHEMA:
                self._journal.rewrite_sound_lines()
            entries = tuple(make(book, self._stamps(book.last_id)))
            after = book.accept(entries)
            self._append(entries)
        return after, entries

    def _append(self, entries: Sequence[Entry]) -> None:
        # TinyDB numbers documents from what it last saw; the line numbers are what two processes share.
        first = self._journal.next_line
        try:
            self._table.insert_multiple(
                Document(to_document(entry), doc_id=first + i) for i, entry in enumerate(entries)
            )
        except ValueError as error:  # not a number, or bytes that are no letters
            raise Misused(
                f"Nothing was recorded: what was given cannot be written down ({error})."
            ) from error

    def beside(self, name: str) -> bytes | None:
        """What is kept in a file of that name beside the ledger; ``None`` where there is none."""
        try:
            return (self.folder / name).read_bytes()
        except FileNotFoundError:
            return None

    def keep_beside(self, contents: Mapping[str, bytes | None]) -> None:
        """Keep files beside the ledger, or take them away (``None``); what stood there goes to the backups.

        Each file is whole at every moment: the new one is synced under another name and then takes its place.

        Raises:
            Refused: the folder cannot be written to.
        """
        with self._lock():
            try:
                for name, content in contents.items():
                    self._replace(self.folder / name, content)
            except OSError as error:
                raise Refused(
                    f"Nothing was kept: {self.folder} cannot be written to ({error.strerror}); "
                    "make room or give write permission, then do it again."
                ) from error

    def _replace(self, path: Path, content: bytes | None) -> None:
        before = self.beside(path.name)
        if before is not None and before != content:
            backup(self.folder, path.stem, before, path.suffix)
        if content is None:
            path.unlink(missing_ok=True)
        else:
            fresh = path.with_name(f"{path.name}.new")
            write_new(fresh, content)
            fresh.replace(path)
        sync_folder(self.folder)

    def mend(self) -> tuple[Damage, ...]:
        """Set damaged lines aside, keeping a copy of the whole file among the backups."""
        with self._lock():
            self._journal.forget()
            self._read()
            damage = self.damage
            if damage:
                for line in self._unknown:
                    self._journal.drop(line)
                self._journal.rewrite_sound_lines()
        return damage

    def _refuse_if_damaged(self) -> None:
        if self.damage:
            lines = ", ".join(str(damage.line) for damage in self.damage)
            raise Refused(
                f"Nothing was recorded: line {lines} of {self.folder / FILE} is damaged; run "
                "'cuttings tally --mend', which keeps a copy and sets the damage aside."
            )

    def _stamps(self, last: str) -> Stamp:
        def stamp() -> str:
            nonlocal last
            last = new_id(datetime.now(UTC), after=last)
            return last

        return stamp

    @contextlib.contextmanager
    def _lock(self) -> Iterator[None]:
        from filelock import FileLock, Timeout

        holder = self.folder / "ledger.holder"
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            lock = FileLock(self.folder / "ledger.lock", timeout=self._patience_s)
            lock.acquire()
        except Timeout:
            raise Refused(f"Nothing was recorded: {_spoken_holder(holder)}; try again in a moment.") from None
        except OSError as error:
            raise Refused(
                f"Nothing was recorded: {self.folder} cannot be written to ({error.strerror}); "
                "give write permission, or name another ledger with --ledger."
            ) from error
        try:
            with contextlib.suppress(OSError):  # who holds it is a courtesy, not a need
                holder.write_text(json.dumps(self._me()), encoding="utf-8")
            yield
        finally:
            with contextlib.suppress(OSError):
                holder.unlink()
            lock.release()

    def _me(self) -> dict[str, str | int]:
        import socket

        return {
            "who": self.who,
            "process": os.getpid(),
            "machine": socket.gethostname(),
            "since": datetime.now().strftime("%H:%M:%S"),
        }


def _spoken_holder(path: Path) -> str:
    try:
        holder = json.loads(path.read_text(encoding="utf-8"))
        who = holder["who"] or "somebody"
        return (
            f"{who} (process {holder['process']} on {holder['machine']}) has been writing to this ledger "
            f"since {holder['since']}"
        )
    except (OSError, ValueError, KeyError, TypeError):
        return "another terminal is writing to this ledger"
