"""Drawings written to files."""

from pathlib import Path

from cuttings.errors import Refused


def write_drawing(path: str, document: str) -> None:
    """A drawing written to a file.

    Raises:
        Refused: it cannot be written there.
    """
    try:
        Path(path).expanduser().write_text(document, encoding="utf-8")
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no such name can be written"
        raise Refused(f"{path} cannot be written ({why}); name another file.") from None
