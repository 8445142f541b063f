"""What is known about one lot together: its plant, its way of increase, and when it should root."""

from datetime import timedelta

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant, Way
from cuttings.plants.understood import plant_for
from cuttings.rules.rooting import Bench, Forecast, forecast
from cuttings.words import Cover, Units, Wood

ROOTED_UNDER_COVER = frozenset(wood.method for wood in Wood if wood.is_leafy)
"""Leafy cuttings are rooted in closed air; a find of one is taken for such (common practice)."""


FOUND_PART_WAY = "It was found part-way, so the earliest of these days may lie behind it."


@frozen
class Known:
    """A lot with the rules that hold for it."""

    lot: Lot
    plant: Plant
    way: Way
    source: str
    climate: Climate
    units: Units
    area: str = ""

    @property
    def under_cover(self) -> bool:
        """Whether the lot was rooted in closed or heated air."""
        origin = self.lot.origin
        if isinstance(origin, e.Strike):
            return origin.cover is not Cover.NONE or origin.heat_c is not None
        return self.lot.method in ROOTED_UNDER_COVER

    @property
    def _bench(self) -> Bench:
        origin = self.lot.origin
        if isinstance(origin, e.Strike) and origin.heat_c is None and origin.cover is Cover.FRAME:
            return Bench.FRAME
        return Bench.WARM if self.under_cover else Bench.OPEN

    def forecast(self) -> Forecast | None:
        """When it should have rooted; ``None`` where it came with roots or no time is known.

        Nobody knows when a found stem began to root. It is taken to be as far on as the quickest would be,
        so the find itself counts as the first look.
        """
        lot = self.lot
        if lot.method.starts_rooted:
            return None
        origin = lot.origin
        quickest = self.way.rooting_days[0] if self.way.rooting_days else 0
        head_start = quickest if isinstance(origin, e.Find) else 0
        looks = tuple(check.on for check in lot.of_kind(e.Check))
        result = forecast(
            self.way,
            lot.started_on - timedelta(days=head_start),
            self.climate,
            bench=self._bench,
            looked=(lot.started_on, *looks) if head_start else looks,
            source_name=self.source,
        )
        if result is None or not head_start:
            return result
        return evolve(result, why=f"{result.why} {FOUND_PART_WAY}")


def known(lot: Lot, catalogue: Catalogue, climate: Climate, units: Units, area: str = "") -> Known:
    """The lot with its plant's rules, or the nearest general ones; ``area`` is where it is worked on."""
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    way = plant.way(lot.method) or catalogue.way(lot.method)
    return Known(lot, plant, way, catalogue.reference(way.source_of("rooting_days")), climate, units, area)
