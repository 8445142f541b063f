"""What the stems of lots did, move by move, and where that left them: every stem is counted once.

Stems split off a lot go on in the lot that they are split into; each move belongs to the lot whose entry it
is.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import TypeVar

from attrs import frozen

from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.rules.looking import BLACK_OR_SOFT
from cuttings.words import LIVING, Cause, Stage

K = TypeVar("K")

FAILED = "failed"
"""The cause of stems that a look found dead, where nobody said of what."""


@frozen
class Moved:
    """So many stems of a lot from one stage to another, by one entry."""

    lot: Lot
    entry: e.LotEntry
    source: Stage
    target: Stage
    count: int

    @property
    def on(self) -> date:
        return self.entry.on

    @property
    def cause(self) -> str:
        """Of what lost stems died: a cause by its name, or ``FAILED``."""
        if isinstance(self.entry, e.Lose):
            return self.entry.cause.value
        seen = self.entry.seen if isinstance(self.entry, e.Check) else ()
        return Cause.ROT.value if BLACK_OR_SOFT in seen else FAILED


def moves_of(lots: Iterable[Lot]) -> Iterator[Moved]:
    """Every move of stems from one stage to another, lot by lot, in the order of each lot's entries."""
    for lot in lots:
        for entry in lot.entries:
            if entry.lot == lot.code and not isinstance(entry, e.Split):
                for move in entry.moves:
                    if move.source is not None and move.target is not None:
                        yield Moved(lot, entry, move.source, move.target, move.count)


def moves_in(year: int, lots: Iterable[Lot]) -> tuple[Moved, ...]:
    """The moves of one year, by day."""
    found = (moved for moved in moves_of(lots) if moved.on.year == year)
    return tuple(sorted(found, key=lambda moved: moved.entry.order))


@frozen(kw_only=True)
class Fates:
    """What became of stems. They are all at one of ``stages``; the other counts tell how they came there.

    ``rooted`` have rooted, or came with roots, whatever became of them since; ``potted`` were put into a
    pot, and ``planted`` in their places. ``lost_at`` counts the lost by the stage at which they died,
    ``lost_of`` by the cause.
    """

    started: int
    stages: Mapping[Stage, int]
    rooted: int
    potted: int
    planted: int
    lost_at: Mapping[Stage, int]
    lost_of: Mapping[str, int]

    def at(self, stage: Stage) -> int:
        return self.stages.get(stage, 0)

    @property
    def on_the_way(self) -> int:
        """Stems still in the keeper's care."""
        return sum(self.at(stage) for stage in LIVING)

    @property
    def passed_on(self) -> int:
        """Stems given or sold."""
        return self.at(Stage.GIVEN) + self.at(Stage.SOLD)


def fates_of(lots: Iterable[Lot]) -> Fates:
    """What became of all the stems of some lots, as their entries stand."""
    lots = tuple(lots)
    stages: Counter[Stage] = Counter()
    for lot in lots:
        stages.update(lot.stages)
    moves = tuple(moves_of(lots))
    gone_unrooted = sum(m.count for m in moves if m.source is Stage.WAITING and m.target is not Stage.ROOTED)
    lost = [moved for moved in moves if moved.target is Stage.LOST]
    started = sum(lot.started for lot in lots)
    return Fates(
        started=started,
        stages={stage: stages[stage] for stage in Stage if stages[stage]},
        rooted=started - stages[Stage.WAITING] - gone_unrooted,
        potted=_into(Stage.POTTED, moves),
        planted=_into(Stage.PLANTED, moves),
        lost_at=counted((moved.source, moved.count) for moved in lost),
        lost_of=counted((moved.cause, moved.count) for moved in lost),
    )


def _into(stage: Stage, moves: Iterable[Moved]) -> int:
    """How many stems came to a stage from another; one that is potted on came there before."""
    return sum(moved.count for moved in moves if moved.target is stage and moved.source is not stage)


def counted(pairs: Iterable[tuple[K, int]]) -> dict[K, int]:
    """Sums by key, the greatest first, and of equals the first to come."""
    sums: dict[K, int] = {}
    for key, count in pairs:
        sums[key] = sums.get(key, 0) + count
    return dict(sorted(sums.items(), key=lambda item: -item[1]))
