"""Photos are copied beside the ledger, under a name made from their content."""

import hashlib
import os
from pathlib import Path

from cuttings.errors import Misused, Refused


def keep_photo(folder: Path, given: str | None) -> str:
    """Copy a photo into the ledger's folder and return its path there; empty where none was given."""
    if not given:
        return ""
    try:
        content = Path(given).expanduser().read_bytes()
    except OSError as error:
        raise Misused(f"--photo: {given} cannot be read ({error.strerror}).") from None
    name = hashlib.sha256(content).hexdigest()[:16] + Path(given).suffix.lower()
    kept = folder / "photos" / name
    try:
        kept.parent.mkdir(parents=True, exist_ok=True)
        if not kept.exists():
            fresh = kept.with_suffix(".new")
            with fresh.open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            fresh.replace(kept)
    except OSError as error:
        raise Refused(f"Nothing was recorded: the photo could not be kept ({error.strerror}).") from None
    return f"photos/{name}"
