"""The ledger file: JSON Lines that only grow, under TinyDB's storage interface.

Every line is one document and ends with a checksum of itself. A new line is written, flushed and synced
before the writer says so. A last line cut short is what a power cut leaves of an entry nobody was told
was recorded; it is passed over, and set aside at the next writing. (A last line that lacks only its
newline, as an editor may leave it, is whole and counts.) A whole line whose checksum does not fit is
damage: the rest is read, and the line is named.

The stock storage of TinyDB rewrites the whole file in place at each insert; this one finds the new
documents in what it is handed and appends only those.
"""

import contextlib
import json
import os
import zlib
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from attrs import frozen
from tinydb.storages import Storage

from cuttings.errors import Refused
from cuttings.ledger.codec import SCHEMA, Document, upgraded

TABLE = "entries"
_SUM = ',"sum":"'
_TAIL = len(_SUM) + 8 + 2  # the key, eight hexadecimal digits, the closing quote and brace


@frozen
class Damage:
    """A line that cannot be trusted. Lines are counted from 1; ``text`` is the line as it stands."""

    line: int
    why: str
    text: str


def to_line(document: Document) -> bytes:
    """One line of the file, with its checksum and its end.

    Raises:
        ValueError: the document holds a number that is not one (NaN or infinity).
    """
    body = json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    checksum = zlib.crc32(body.encode())
    return f'{body[:-1]}{_SUM}{checksum:08x}"}}\n'.encode()


def from_line(line: bytes) -> Document:
    """The document of a line (without its end).

    Raises:
        ValueError: the line is no document, or does not fit its checksum.
    """
    text = line.decode()
    body, tail = text[:-_TAIL] + "}", text[-_TAIL:]
    if not tail.startswith(_SUM) or not tail.endswith('"}'):
        raise ValueError("it has no checksum")
    if int(tail[len(_SUM) : -2], 16) != zlib.crc32(body.encode()):
        raise ValueError("it does not fit its checksum")
    document = json.loads(body)
    if not isinstance(document, dict):
        raise ValueError("it is no document")
    return document


def sync_folder(folder: Path) -> None:
    """Make a folder's own list of files durable, where the system can (Windows cannot)."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


class Journal(Storage):
    """TinyDB's view of the ledger file. Call ``write`` only while holding the ledger's lock."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.readings = 0
        """How often the file was read from its beginning; line numbers hold within one such reading."""
        self.forget()

    def forget(self) -> None:
        """Read the file from its beginning next time."""
        self.readings += 1
        self._documents: dict[str, Document] = {}
        self._damage: list[Damage] = []
        self._end = 0  # where the last whole line ends
        self._last = b""  # that line, by which the file is known again
        self._lines = 0
        self._file: tuple[int, int] | None = None
        self.version = SCHEMA

    @property
    def damage(self) -> tuple[Damage, ...]:
        return tuple(self._damage)

    @property
    def next_line(self) -> int:
        """The number of the line that the next document will stand on; the first is the header's."""
        return max(self._lines, 1) + 1

    def read(self) -> dict[str, dict[str, Any]] | None:
        """Every sound document so far, another process's too; ``None`` where there is no file yet."""
        try:
            with self.path.open("rb") as file:
                self._catch_up(file.fileno())
        except FileNotFoundError:
            self.forget()
            return None
        except OSError as error:
            raise Refused(f"The ledger {self.path} cannot be read ({error.strerror}).") from error
        except Refused:
            self.forget()  # so that the next reading refuses it too
            raise
        return {TABLE: dict(self._documents)}

    def _catch_up(self, handle: int) -> None:
        state = os.fstat(handle)
        file = state.st_dev, state.st_ino
        data = _bytes_from(handle, self._end - len(self._last))
        if self._file != file or not data.startswith(self._last):  # replaced, or changed in place
            self.forget()
            self._file = file
            data = _bytes_from(handle, 0)
        data = data[len(self._last) :]
        if self._unended and data.startswith(b"\n"):
            self._end += 1
            self._last += b"\n"
            data = data[1:]
        *lines, tail = data.split(b"\n")
        for line in lines:
            self._pass(line + b"\n")
        if _is_sound(tail):
            self._pass(tail)

    @property
    def _unended(self) -> bool:
        return bool(self._last) and not self._last.endswith(b"\n")

    def _pass(self, line: bytes) -> None:
        self._lines += 1
        self._end += len(line)
        self._last = line
        self._take(line.removesuffix(b"\n"))

    def _take(self, line: bytes) -> None:
        try:
            document = from_line(line)
            if self._lines == 1:
                self._open_header(document)
            else:
                self._documents[str(self._lines)] = upgraded(document, self.version)
        except ValueError as error:  # a broken character or number is a ValueError too
            self._damage.append(Damage(self._lines, str(error), line.decode(errors="replace")))

    def _open_header(self, document: Document) -> None:
        version = document.get("schema")
        if document.get("ledger") != "cuttings" or not isinstance(version, int):
            raise ValueError("it is not the first line of a ledger")
        if version > SCHEMA:
            raise Refused(
                f"The ledger {self.path} was written by a newer version of this program (schema {version}; "
                f"this one reads up to {SCHEMA}); update the program."
            )
        self.version = version

    def write(self, data: Mapping[str, Mapping[str, Any]]) -> None:
        """Append the documents that are not in the file yet, durably.

        Raises:
            Refused: the file cannot be written; it is then as it was.
            ValueError: a document known already is missing or another, which would be a rewrite.
        """
        documents = data.get(TABLE, {})
        if any(documents.get(key) != document for key, document in self._documents.items()):
            raise ValueError("the ledger only grows; nothing in it can be removed or changed")
        self._append([dict(documents[key]) for key in documents if key not in self._documents])

    def _append(self, documents: Sequence[Document]) -> None:
        lines = b"".join(to_line(document) for document in documents)
        if not documents:
            return
        if not self._lines:
            lines = to_line(_header()) + lines
        elif self._unended:
            lines = b"\n" + lines
        try:
            self._write_at_end(lines)
        except OSError as error:
            raise Refused(
                f"Nothing was recorded: {self.path} cannot be written to ({error.strerror}); "
                "make room or give write permission, then do it again."
            ) from error

    def _write_at_end(self, lines: bytes) -> None:
        handle = os.open(self.path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o644)
        try:
            size = os.fstat(handle).st_size
            if size > self._end:
                self._set_aside(handle, size)
            os.lseek(handle, self._end, os.SEEK_SET)
            try:
                rest = memoryview(lines)
                while rest:
                    rest = rest[os.write(handle, rest) :]
                os.fsync(handle)
            except OSError:
                with contextlib.suppress(OSError):
                    os.ftruncate(handle, self._end)
                raise
        finally:
            os.close(handle)
        if not self._end:
            for folder in self.path.absolute().parents:  # they may be as new as the file
                sync_folder(folder)

    def _set_aside(self, handle: int, size: int) -> None:
        """Keep what a power cut left of a last line, then take it off the file."""
        os.lseek(handle, self._end, os.SEEK_SET)
        backup(self.path.parent, "torn-line", os.read(handle, size - self._end))
        os.ftruncate(handle, self._end)

    def drop(self, line: int) -> None:
        """Leave a line out of the next rewriting."""
        self._documents.pop(str(line), None)

    def rewrite_sound_lines(self) -> None:
        """Write the file anew with its sound documents at this program's schema; the old one is kept.

        The new file is synced under another name and then takes the place of the old in one step.

        Raises:
            Refused: there is no room or no permission; the file is then as it was.
        """
        fresh = self.path.with_suffix(".new")
        try:
            backup(self.path.parent, "ledger", self.path.read_bytes())
            write_new(fresh, b"".join(map(to_line, (_header(), *self._documents.values()))))
            fresh.replace(self.path)
        except OSError as error:
            raise Refused(
                f"Nothing was changed: {self.path.parent} cannot be written to ({error.strerror}); "
                "make room or give write permission, then do it again."
            ) from error
        sync_folder(self.path.parent)
        self.forget()
        self.read()


def _header() -> Document:
    return {"ledger": "cuttings", "schema": SCHEMA}


def _is_sound(line: bytes) -> bool:
    try:
        from_line(line)
    except ValueError:
        return False
    return True


def _bytes_from(handle: int, start: int) -> bytes:
    os.lseek(handle, start, os.SEEK_SET)
    data = bytearray()
    while chunk := os.read(handle, 1 << 20):
        data += chunk
    return bytes(data)


def write_new(path: Path, content: bytes) -> None:
    """Write a file durably, or leave none."""
    try:
        with path.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        with contextlib.suppress(OSError):
            path.unlink()
        raise


def backup(folder: Path, what: str, content: bytes, suffix: str = ".jsonl") -> Path:
    """Put a copy into the ledger's ``backups`` folder, under a name that sorts by time."""
    backups = folder / "backups"
    backups.mkdir(exist_ok=True)
    path = backups / f"{what}-{datetime.now(UTC):%Y%m%d-%H%M%S%f}{suffix}"
    write_new(path, content)
    sync_folder(backups)
    sync_folder(folder)
    return path
