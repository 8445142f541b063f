"""What the stems given and sold in a year come to, at the prices that somebody named and at no others.

Prices are plain numbers in whatever money the keeper uses.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from attrs import field, frozen

from cuttings.ledger import entries as e
from cuttings.takes.year_moves import Moved
from cuttings.words import Stage


@frozen
class Prices:
    """What one stem is worth: that of a plant by its botanical name, or else of ``any_plant``."""

    any_plant: Decimal | None = None
    of_plant: Mapping[str, Decimal] = field(factory=dict)

    def of(self, plant: str) -> Decimal | None:
        return self.of_plant.get(plant, self.any_plant)

    @property
    def told(self) -> bool:
        return self.any_plant is not None or bool(self.of_plant)


@frozen(kw_only=True)
class Line:
    """The stems of one plant: ``sold`` and ``given``, how many of them have a price, and what those come
    to."""

    plant: str
    called: str
    sold: int
    given: int
    value_sold: Decimal
    value_given: Decimal
    priced_sold: int
    priced_given: int

    @property
    def value(self) -> Decimal:
        return self.value_sold + self.value_given

    @property
    def unpriced(self) -> int:
        return self.sold + self.given - self.priced_sold - self.priced_given


@frozen
class Worth:
    """The year's stems that left the garden, plant by plant, those that are worth most first."""

    lines: tuple[Line, ...]

    @property
    def value(self) -> Decimal:
        return sum((line.value for line in self.lines), Decimal())

    @property
    def value_sold(self) -> Decimal:
        return sum((line.value_sold for line in self.lines), Decimal())

    @property
    def sold(self) -> int:
        return sum(line.sold for line in self.lines)

    @property
    def given(self) -> int:
        return sum(line.given for line in self.lines)

    @property
    def priced_sold(self) -> int:
        return sum(line.priced_sold for line in self.lines)

    @property
    def priced_given(self) -> int:
        return sum(line.priced_given for line in self.lines)

    @property
    def unpriced(self) -> int:
        return sum(line.unpriced for line in self.lines)


def worth_of(moves: Iterable[Moved], prices: Prices) -> Worth | None:
    """What the stems given and sold by some moves are worth.

    A sale counts at the price it was written down with, anything else at the price given for its plant.
    ``None`` where no price was given and none was written down.
    """
    gone = [moved for moved in moves if moved.target in (Stage.GIVEN, Stage.SOLD)]
    if not prices.told and not any(_recorded(moved) is not None for moved in gone):
        return None
    plants: dict[str, list[Moved]] = {}
    for moved in gone:
        plants.setdefault(moved.lot.plant, []).append(moved)
    lines = [_line(plant, each, prices) for plant, each in plants.items()]
    return Worth(tuple(sorted(lines, key=lambda line: (-line.value, line.called))))


def _line(plant: str, moves: list[Moved], prices: Prices) -> Line:
    value = {Stage.SOLD: Decimal(), Stage.GIVEN: Decimal()}
    stems = {Stage.SOLD: 0, Stage.GIVEN: 0}
    priced = {Stage.SOLD: 0, Stage.GIVEN: 0}
    for moved in moves:
        recorded = _recorded(moved)
        price = prices.of(plant) if recorded is None else recorded
        stems[moved.target] += moved.count
        if price is not None:
            priced[moved.target] += moved.count
            value[moved.target] += price * moved.count
    return Line(
        plant=plant,
        called=moves[-1].lot.plant_called,
        sold=stems[Stage.SOLD],
        given=stems[Stage.GIVEN],
        value_sold=value[Stage.SOLD],
        value_given=value[Stage.GIVEN],
        priced_sold=priced[Stage.SOLD],
        priced_given=priced[Stage.GIVEN],
    )


def _recorded(moved: Moved) -> Decimal | None:
    """The price that a sale was written down with."""
    price = moved.entry.price if isinstance(moved.entry, e.Sell) else None
    return None if price is None else Decimal(str(price))
