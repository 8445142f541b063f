"""Entries to plain documents and back; the schema version and its upgrades live here."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

import cattrs

from cuttings.ledger.entries import Entry, Move
from cuttings.ledger.kinds import KINDS
from cuttings.words import Stage

Document = dict[str, Any]

SCHEMA = 7
"""The version of the documents this program writes."""


def _as_it_is(document: Document) -> Document:
    """A document that the next version reads unchanged: only new fields or kinds came in."""
    return document


UPGRADES: Mapping[int, Callable[[Document], Document]] = dict.fromkeys(range(1, SCHEMA), _as_it_is)
"""For each older version, what turns a document of it into one of the next version."""


class UnknownEntry(ValueError):
    """A document that is no entry this program knows."""


def _converter() -> cattrs.Converter:
    converter = cattrs.Converter(forbid_extra_keys=True, detailed_validation=False, omit_if_default=True)
    converter.register_unstructure_hook(date, date.isoformat)
    converter.register_structure_hook(date, lambda text, _: date.fromisoformat(text))
    converter.register_structure_hook(
        Move, lambda m, _: Move(count=m[0], source=_stage(m[1]), target=_stage(m[2]))
    )
    converter.register_unstructure_hook(Move, lambda m: [m.count, m.source, m.target])
    return converter


def _stage(text: str | None) -> Stage | None:
    return None if text is None else Stage(text)


_CONVERTER = _converter()


def to_document(entry: Entry) -> Document:
    """The entry as a JSON-ready document; the day and the kind stand first, for reading by eye."""
    fields = _CONVERTER.unstructure(entry)
    return {"on": fields.pop("on"), "kind": entry.kind, **fields}


def from_document(document: Document) -> Entry:
    """The entry a document holds.

    Raises:
        UnknownEntry: its kind or a field of it is not known, or a value cannot be read.
    """
    fields = dict(document)
    kind = fields.pop("kind", None)
    cls = KINDS.get(kind) if isinstance(kind, str) else None
    if cls is None:
        raise UnknownEntry(f"no kind of entry is called {kind!r}")
    try:
        return _CONVERTER.structure(fields, cls)
    except Exception as error:
        raise UnknownEntry(f"the {kind} entry cannot be read: {error}") from error


def upgraded(document: Document, version: int) -> Document:
    """The document brought from an older schema version to this program's."""
    for step in range(version, SCHEMA):
        document = UPGRADES[step](document)
    return document
