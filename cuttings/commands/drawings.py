"""Drawings and other files that the program writes for somebody to open."""

import os
from pathlib import Path

from cuttings.errors import Refused


def write_drawing(path: str, document: str) -> None:
    """A drawing written to a file.

    Raises:
        Refused: it cannot be written there.
    """
    write_whole(path, document.encode())


def write_whole(path: str, content: bytes) -> None:
    """A file that is whole at every moment: the new one takes the place of what stood there.

    Raises:
        Refused: it cannot be written there.
    """
    try:
        target = Path(path).expanduser()
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
    """What a file holds that is to be written anew; ``None`` where there is none.

    Raises:
        Refused: it cannot be read.
    """
    try:
        return Path(path).expanduser().read_bytes()
    except FileNotFoundError:
        return None
    except (OSError, ValueError) as error:
        raise Refused(_unwritten(path, error)) from None


def _unwritten(path: str, error: Exception) -> str:
    why = getattr(error, "strerror", None) or "no such name can be written"
    return f"{path} cannot be written ({why}); name another file."
