"""Entries for tests, with ids that rise in the order they are made."""

import itertools
from datetime import date
from typing import Any, TypeVar

from cuttings.ledger import entries as e
from cuttings.words import Method, Stage

K = TypeVar("K", bound=e.Entry)
MAY = date(2026, 5, 1)
_running = itertools.count(1)


def made(kind: type[K], on: date = MAY, **fields: Any) -> K:
    """An entry of a kind, with the next id."""
    number = next(_running)
    return kind(id=f"20260501-000000000-{number:010d}", on=on, **fields)


def found(lot: str = "26-001", count: int = 3, on: date = MAY, stage: Stage = Stage.WAITING) -> e.Find:
    """A find of red currant layers."""
    return made(
        e.Find,
        on=on,
        lot=lot,
        plant="Ribes rubrum",
        called="red currant",
        method=Method.SIMPLE_LAYER,
        moves=(e.Move(count=count, target=stage),),
    )


def moved(
    kind: type[K], count: int, source: Stage, target: Stage | None, lot: str = "26-001", **fields: Any
) -> K:
    """An entry that moves stems of a lot."""
    return made(kind, lot=lot, moves=(e.Move(count=count, source=source, target=target),), **fields)
