"""How each kind of lot, a plant by a method, did in a year: its counts, and the share that took against the
usual."""

from collections.abc import Callable, Iterable, Sequence

from attrs import frozen

from cuttings.ledger.lots import Lot
from cuttings.plants.model import Way
from cuttings.takes.comparing import SURE_ENOUGH, chance_better
from cuttings.takes.evidence import brought_along, tally_of
from cuttings.takes.figures import rooting_figure
from cuttings.takes.shares import FINE, Counts, Share, learned
from cuttings.takes.year_moves import Fates, fates_of, moves_of
from cuttings.words import Method, Stage

ENOUGH_STEMS = 10
"""With fewer stems that have come to an end, no kind is called the best or the worst; this program's own
choice."""


@frozen(kw_only=True)
class Kind:
    """The lots of one plant by one method.

    Of the stems of lots that have come to an end, ``took`` rooted, or went on alive where they came with
    roots, and ``failed`` did not; ``undecided`` are those of lots in which some still wait. ``share`` is
    what ``took`` and ``failed`` come to, beginning with the figure that is published, or usual.
    """

    plant: str
    called: str
    method: Method
    lots: int
    fates: Fates
    took: int
    failed: int
    undecided: int
    share: Share

    @property
    def ended(self) -> int:
        return self.took + self.failed

    @property
    def is_enough(self) -> bool:
        return self.ended >= ENOUGH_STEMS

    @property
    def against(self) -> int:
        """1 where it surely took better than the usual figure, -1 where worse, 0 where nobody can tell."""
        if not self.is_enough:
            return 0
        low, high = self.share.interval()
        return (low > self.share.figure.mean) - (high < self.share.figure.mean)


def kinds_of(lots: Iterable[Lot], way_of: Callable[[Lot], Way]) -> tuple[Kind, ...]:
    """The kinds among some lots, those with most stems first."""
    groups: dict[tuple[str, Method], list[Lot]] = {}
    for lot in lots:
        groups.setdefault((lot.plant, lot.method), []).append(lot)
    found = [_kind(group, way_of(group[-1])) for group in groups.values()]
    return tuple(sorted((kind for kind in found if kind.fates.started), key=lambda each: -each.fates.started))


def best_and_worst(kinds: Iterable[Kind]) -> tuple[Kind, Kind] | None:
    """The kinds of which most and fewest took, among those with enough stems; ``None`` where it is not sure
    enough that they differ."""
    ranked = sorted((kind for kind in kinds if kind.is_enough), key=lambda kind: kind.share.mean)
    if len(ranked) < 2 or chance_better(ranked[-1].share, ranked[0].share) < SURE_ENOUGH:
        return None
    return ranked[-1], ranked[0]


def _kind(lots: Sequence[Lot], way: Way) -> Kind:
    told = _told_of(lots)
    ended = [counts for counts, waiting in told if not waiting]
    newest = lots[-1]
    return Kind(
        plant=newest.plant,
        called=newest.plant_called,
        method=newest.method,
        lots=len({lot.origin.id for lot in lots}),
        fates=fates_of(lots),
        took=round(sum(each.came_through for each in ended)),
        failed=round(sum(each.did_not for each in ended)),
        undecided=sum(
            round(counts.came_through + counts.did_not) + waiting for counts, waiting in told if waiting
        ),
        share=learned(rooting_figure(way), ended, FINE),
    )


def counts_of(lot: Lot) -> tuple[Counts, int]:
    """Of the stems of a lot those that took and did not, and how many are still undecided.

    Pieces that come with roots have taken once they were potted, planted or passed on alive.
    """
    if not lot.method.starts_rooted:
        told = tally_of(lot)
        return Counts(told.rooted, told.failed), told.waiting
    left = [moved for moved in moves_of((lot,)) if moved.source is Stage.ROOTED]
    died = sum(moved.count for moved in left if moved.target is Stage.LOST)
    took = sum(moved.count for moved in left) - died + brought_along(lot, Stage.ROOTED)
    return Counts(took, died), lot.at(Stage.ROOTED)


def _told_of(lots: Iterable[Lot]) -> list[tuple[Counts, int]]:
    """The same of some lots, those that were begun together as one."""
    found: dict[str, tuple[Counts, int]] = {}
    for lot in lots:
        (counts, waiting), (more, still) = found.get(lot.origin.lot, (Counts(0, 0), 0)), counts_of(lot)
        found[lot.origin.lot] = counts.plus(more), waiting + still
    return list(found.values())
