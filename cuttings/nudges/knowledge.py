"""What is known about one lot together: its plant, its way of increase, and when it should root."""

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Site
from cuttings.nudges.whereabouts import NOWHERE, Whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant, Way
from cuttings.plants.understood import plant_for
from cuttings.rules.places import Place, place_of
from cuttings.rules.rooting import Bench
from cuttings.rules.seasons import is_hardy
from cuttings.takes.evidence import bench_of, closed_air, is_found
from cuttings.takes.forecasting import Forecast, forecast
from cuttings.takes.learned import Learned
from cuttings.words import Stage, Units

SETTLED_DAYS = 60
"""Days outside in its pot after which a hardy plant's growth has hardened by itself; from memory."""

SHELTERED = (Place.INDOORS, Place.FRAME)
"""Places where growth stays soft."""

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
    learned: Learned
    where: Whereabouts = NOWHERE

    def area_of(self, stage: Stage) -> str:
        """The part of the garden in which its stems of a stage are worked on."""
        return self.where.area_of(self.lot, stage)

    @property
    def grown_on(self) -> tuple[Site, ...]:
        """The sites on which its planted stems grow."""
        return self.where.sites_of(self.lot)

    @property
    def spots_held(self) -> tuple[str, ...]:
        """The names of the sites on which a spot is held for it."""
        return self.where.held.get(self.lot.code, ())

    @property
    def closed_air(self) -> bool:
        """Whether the lot was rooted in closed or heated air."""
        return closed_air(self.lot)

    @property
    def under_cover(self) -> bool:
        """Whether its stems grew under cover: in closed or heated air, or indoors by the keeper's words."""
        return self.closed_air or any(place_of(where) is Place.INDOORS for where in self._stood())

    def _stood(self) -> Iterator[str]:
        """The keeper's words for every place that its stems have stood in; layers root on their mother."""
        if not self.lot.method.is_layer:
            yield self.lot.origin.where
        yield from (pot.where for pot in self.lot.of_kind(e.Pot))

    def soft(self, today: date) -> bool:
        """Whether its stems in pots still have the soft growth of their cover.

        A hardy plant's has hardened by itself once it has stood outside in its pot for ``SETTLED_DAYS``; a
        tender one spends the winter under cover too, and stays soft until it is hardened off.
        """
        if not self.under_cover or not is_hardy(self.plant, self.climate):
            return self.under_cover
        outside = self._outside_since()
        return outside is None or (today - outside).days < SETTLED_DAYS

    def _outside_since(self) -> date | None:
        """The day from which its pots have stood outside; ``None`` while they stand indoors or in a frame."""
        if place_of(self.lot.where_stand(Stage.POTTED)) in SHELTERED:
            return None
        since = self.lot.reached(Stage.POTTED) or self.lot.started_on
        pots = [pot for pot in self.lot.of_kind(e.Pot) if pot.where]
        for before, after in pairwise(pots):
            if place_of(before.where) in SHELTERED and place_of(after.where) not in SHELTERED:
                since = max(since, after.on)
        return since

    @property
    def bench(self) -> Bench:
        """What keeps its roots warm."""
        return bench_of(self.lot)

    def forecast(self) -> Forecast | None:
        """When it should have rooted; ``None`` where it came with roots or no time is known.

        Nobody knows when a found stem began to root. It is taken to be as far on as the quickest would be,
        so the find itself counts as the first look.
        """
        result = forecast(self.lot, self.way, self.climate, self.learned, self.source)
        if result is None or not is_found(self.lot):
            return result
        return evolve(result, why=f"{result.why} {FOUND_PART_WAY}")


def known(
    lot: Lot,
    catalogue: Catalogue,
    climate: Climate,
    units: Units,
    learned: Learned | None = None,
    where: Whereabouts = NOWHERE,
) -> Known:
    """The lot with its plant's rules, or the nearest general ones; ``where`` tells where it is worked on, and
    ``learned`` what the ledger's other lots have taught."""
    plant = plant_for(catalogue, lot.plant, lot.plant_type, lot.method)
    way = plant.way(lot.method) or catalogue.way(lot.method)
    source = catalogue.reference(way.source_of("rooting_days"))
    learned = Learned((), catalogue, climate) if learned is None else learned
    return Known(lot, plant, way, source, climate, units, learned, where)
