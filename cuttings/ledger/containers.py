"""The drawer: the pots and trays one owns, and how many of them stand in use.

What is owned is told by entries. What is in use is never written down: it follows from the pots in which the
lots' stems stand.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from attrs import define, evolve, field, frozen

from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.words import Stage

IN_POTS = (Stage.POTTED, Stage.HARDENING, Stage.READY)
"""The stages at which a stem stands in a pot."""


@frozen(kw_only=True, eq=False, repr=False)
class Containers(e.Entry):
    """So many pots or trays of a name more, or fewer: bought, found, broken, thrown away.

    ``size`` is the pot's size as ``pot`` takes it, and ``volume_l`` the mix for one stem; a stem has one of a
    tray's ``cells``. They are told with the first of a name, and may be left out later.
    """

    kind = "containers"
    name: str
    size: str = ""
    volume_l: float | None = None
    cells: int = 1
    change: int
    note: str = ""

    @property
    def key(self) -> str:
        return self.name.casefold()


@frozen
class Kind:
    """Pots of one name: their size, the mix a stem's place takes, and how many were got, less those lost."""

    name: str
    size: str
    volume_l: float | None
    cells: int
    count: int

    @classmethod
    def after(cls, before: "Kind | None", entry: Containers) -> "Kind":
        """The kind after one more entry about it.

        Raises:
            Refused: nothing changes, there are not so many, or the name stands for another size.
        """
        if not entry.change:
            raise Refused(f"{entry.name}: say how many there are more or fewer.")
        if before is None:
            if not entry.name.strip() or not entry.size or entry.change < 0:
                raise Refused(f"There is no {entry.name} in the drawer; 'cuttings pots add' puts some in.")
            if entry.cells < 1:
                raise Refused(f"{entry.name}: a tray has at least one cell.")
            return cls(entry.name, entry.size, entry.volume_l, entry.cells, entry.change)
        if entry.size and (entry.size, entry.cells) != (before.size, before.cells):
            raise Refused(
                f"{before.name} in the drawer is of size {before.size}; give the others another name."
            )
        if before.count + entry.change < 0:
            raise Refused(
                f"You own {before.count} of {before.name}, so {-entry.change} cannot leave the drawer."
            )
        return evolve(before, count=before.count + entry.change)


@frozen
class Held:
    """Pots of one kind as they stand.

    ``owned``, ``in_use`` and ``free`` count places for one stem each, which of a tray are its cells. ``free``
    is below zero where more are in use than owned.
    """

    kind: Kind
    gone: int = 0
    in_use: int = 0

    @property
    def pieces(self) -> int:
        """How many pots or trays one owns: those written down, less those that went with their plants."""
        return max(self.kind.count - self.gone, 0)

    @property
    def owned(self) -> int:
        return self.pieces * self.kind.cells

    @property
    def free(self) -> int:
        return self.owned - self.in_use


def drawer(kinds: Mapping[str, Kind], lots: Iterable[Lot]) -> tuple[Held, ...]:
    """The drawer as it stands, in the order the kinds came into it.

    A stem whose pot is a kind's name stands in one of that kind. One whose pot is a size stands in the first
    kind of that size that has one free, or in the last of them.
    """
    if not kinds:
        return ()
    used, gone = Counter[str](), Counter[str]()
    for lot in lots:
        standing = _Standing.of(lot)
        used.update(standing.in_use)
        gone.update(standing.gone)
    held = {key: Held(kind) for key, kind in kinds.items()}
    for pot, count in gone.items():
        for key, part in _shared(held, pot, count):
            if not held[key].kind.cells > 1:  # a plug is lifted out of its tray, and the tray stays
                held[key] = evolve(held[key], gone=held[key].gone + part)
    for pot in sorted(used, key=lambda pot: pot not in kinds):  # by name first, then by size
        for key, part in _shared(held, pot, used[pot]):
            held[key] = evolve(held[key], in_use=held[key].in_use + part)
    return tuple(held.values())


def _shared(held: Mapping[str, Held], pot: str, count: int) -> Iterator[tuple[str, int]]:
    """The kinds that a pot of that name or size is one of, and how many of them each has."""
    if pot in held:
        yield pot, count
        return
    alike = [key for key, each in held.items() if each.kind.size.casefold() == pot]
    for key in alike:
        part = count if key == alike[-1] else min(count, max(held[key].free, 0))
        if part:
            yield key, part
        count -= part


@define
class _Standing:
    """The pots that a lot's stems stand in, by name or size without case, and those that went with plants.

    Within a stage, stems leave in the order in which they were potted.
    """

    queues: dict[Stage, list[tuple[str, int]]] = field(factory=dict)
    gone: Counter[str] = field(factory=Counter)

    @classmethod
    def of(cls, lot: Lot) -> "_Standing":
        """Played through from the lot's entries; of those before it was split off, its own stems are kept."""
        codes = {lot.code}
        for entry in reversed(lot.entries):
            if isinstance(entry, e.Split) and entry.into in codes:
                codes.add(entry.lot)
        standing = cls()
        for entry in lot.entries:
            if isinstance(entry, e.Split) and entry.into in codes:
                standing = cls({move.source: standing._taken(move) for move in entry.moves if move.source})
            else:
                standing._apply(entry)
        return standing

    @property
    def in_use(self) -> Counter[str]:
        counts = Counter[str]()
        for queue in self.queues.values():
            for pot, count in queue:
                counts[pot] += count
        return counts

    def _apply(self, entry: e.LotEntry) -> None:
        for move in entry.moves:
            taken = self._taken(move)
            if isinstance(entry, e.Pot):
                taken = [(entry.pot.casefold(), move.count)]
            elif isinstance(entry, e.Give | e.Sell) and entry.with_pots:
                for pot, count in taken:
                    self.gone[pot] += count
            if move.target in IN_POTS and taken:
                self.queues.setdefault(move.target, []).extend(taken)

    def _taken(self, move: e.Move) -> list[tuple[str, int]]:
        """The pots of the stems that a move takes from a stage."""
        queue = self.queues.get(move.source, []) if move.source is not None else []
        taken, left = [], move.count
        while queue and left:
            pot, count = queue.pop(0)
            part = min(count, left)
            taken.append((pot, part))
            left -= part
            if count > part:
                queue.insert(0, (pot, count - part))
        return taken
