"""Drawings and other files that the program writes for somebody to open."""

import os
from pathlib import Path

from cuttings.errors import Refused

SVG_BEGINS, PDF_BEGINS = (b"<?xml", b"<svg"), (b"%PDF-",)
"""How files begin that a drawing or a page may take the place of."""


def write_drawing(path: str, document: str) -> None:
    """A drawing written to a file, in place of another drawing if there is one.

    Raises:
        Refused: something else stands there, or it cannot be written.
    """
    _refuse_unless(path, SVG_BEGINS, "drawing")
    write_whole(path, document.encode())


def write_page(path: str, document: bytes) -> None:
    """A page to print written to a file, in place of another one if there is one.

    Raises:
        Refused: something else stands there, or it cannot be written.
    """
    _refuse_unless(path, PDF_BEGINS, "page")
    write_whole(path, document)


def write_text(path: str, text: str, *, begins: str) -> None:
    """A page of text written to a file, in place of an earlier one, which ``begins`` in the same words.

    Raises:
        Refused: something else stands there, or it cannot be written.
    """
    _refuse_unless(path, (begins.encode(),), "page")
    write_whole(path, text.encode())


def _refuse_unless(path: str, begins: tuple[bytes, ...], kind: str) -> None:
    before = read_before(path)
    if before and not before.lstrip().startswith(begins):
        raise Refused(f"{path} holds something else, which no {kind} takes the place of; name another file.")


def write_whole(path: str, content: bytes) -> None:
    """A file that is whole at every moment: the new one takes the place of what stood there.

    Raises:
        Refused: it cannot be written there.
    """
    try:
        target = _named(path)
        if target.exists() and not target.is_file():  # a pipe or a device takes what it is given
            target.write_bytes(content)
            return
        fresh = target.with_name(f".{target.name}.{os.urandom(6).hex()}")
        try:
            fresh.write_bytes(content)
            fresh.replace(target)
        finally:
            fresh.unlink(missing_ok=True)
    except (OSError, ValueError) as error:
        raise Refused(_unwritten(path, error)) from None


def read_before(path: str) -> bytes | None:
    """What a file holds that is to be written anew; ``None`` where there is none, and of a pipe or a device.

    Raises:
        Refused: it cannot be read.
    """
    try:
        target = _named(path)
        return target.read_bytes() if target.is_file() else None
    except (OSError, ValueError) as error:
        raise Refused(_unwritten(path, error)) from None


def _named(path: str) -> Path:
    """The file of that name.

    Raises:
        ValueError: no file can be called so.
    """
    if not path.strip():
        raise ValueError("no name")
    try:
        return Path(path).expanduser()
    except RuntimeError as error:  # there is no such user
        raise ValueError(str(error)) from None


def _unwritten(path: str, error: Exception) -> str:
    why = getattr(error, "strerror", None) or "no such name can be written"
    return f"{path} cannot be written ({why}); name another file."
