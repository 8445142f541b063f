"""What is known about one lot together: its plant, its way of increase, and when it should root."""

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant, Way
from cuttings.plants.understood import plant_for
from cuttings.rules.rooting import Forecast, forecast
from cuttings.words import Cover, Method

ROOTED_UNDER_COVER = frozenset(
    {Method.SOFTWOOD_CUTTING, Method.SEMI_RIPE_CUTTING, Method.BASAL_CUTTING, Method.LEAF_CUTTING}
)
"""Leafy cuttings are rooted in closed air, so they do not wait for spring (common practice)."""


@frozen
class Known:
    """A lot with the rules that hold for it."""

    lot: Lot
    plant: Plant
    way: Way
    source: str
    climate: Climate

    @property
    def under_cover(self) -> bool:
        """Whether the lot was rooted in closed or heated air."""
        strike = self.lot.latest(e.Strike)
        covered = strike is not None and (strike.cover is not Cover.NONE or strike.heat_c is not None)
        return covered or self.lot.method in ROOTED_UNDER_COVER

    def forecast(self) -> Forecast | None:
        """When it should have rooted; ``None`` where it came with roots or no time is known."""
        if self.lot.method.starts_rooted:
            return None
        strike = self.lot.latest(e.Strike)
        return forecast(
            self.way,
            self.lot.started_on,
            self.climate,
            heated=strike is not None and strike.heat_c is not None,
            under_cover=self.under_cover,
            looked=tuple(check.on for check in self.lot.of_kind(e.Check)),
            source_name=self.source,
        )


def known(lot: Lot, catalogue: Catalogue, climate: Climate) -> Known:
    """The lot with its plant's rules, or the nearest general ones."""
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    way = plant.way(lot.method) or catalogue.way(lot.method)
    return Known(lot, plant, way, catalogue.reference(way.source_of("rooting_days")), climate)
