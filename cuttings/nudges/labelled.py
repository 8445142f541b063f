"""Which lots want a label, and what theirs says."""

from collections.abc import Iterable

from cuttings.ledger.lots import Lot
from cuttings.rules.labelling import Label, label


def label_of(lot: Lot) -> Label:
    """The label that a lot should have."""
    return label(lot.plant, lot.code, lot.method, lot.started_on, lot.mother)


def unlabelled(lots: Iterable[Lot]) -> list[Lot]:
    """The lots with stems in the keeper's care that have no label of their own, by their codes."""
    return sorted((lot for lot in lots if lot.living and not lot.label), key=lambda lot: lot.code)
