"""What is to be placed, and what the matcher must know besides."""

from collections.abc import Mapping, Sequence
from enum import Enum

from attrs import field, frozen
from attrs.validators import ge

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Site
from cuttings.placement.room import radius
from cuttings.plants.model import Plant
from cuttings.words import Units


class Stance(Enum):
    """Where on a bed a plant belongs by its height: so that nothing low is hidden by something tall."""

    FRONT = "front"
    BACK = "back"
    MIDDLE = "middle"


@frozen
class Need:
    """What a plant asks of the ground: its mature radius, and the least height it grows to."""

    radius_m: float
    height_m: float = 0.0


@frozen
class Wanted:
    """Stems of one lot that need a place each, in groups of ``group``."""

    lot: str
    plant: Plant
    count: int = field(default=1, validator=ge(0))
    mother_site: str = ""
    group: int = field(default=1, validator=ge(1))

    @property
    def need(self) -> Need:
        return Need(radius(self.plant), self.plant.height_m[0] if self.plant.height_m else 0.0)


@frozen(eq=False)
class Setting:
    """What the matcher must know besides the lots and the sites to choose from.

    ``known`` is the catalogue's plant for each name that grows on a site, as far as it knows them; ``garden``
    every site there is. ``overlap`` is the share of the narrower plant's width that may lie within its
    neighbour's.
    """

    climate: Climate
    units: Units
    known: Mapping[str, Plant] = field(factory=dict)
    garden: Sequence[Site] = ()
    overlap: float = 0.0

    def growing_on(self, site: Site) -> list[Plant]:
        return [self.known[each.plant] for each in site.growing if each.plant in self.known]

    def growing_about(self, site: Site) -> list[Plant]:
        """What is known to grow in the area of a site."""
        area = [each for each in self.garden if each.area == site.area and each.name != site.name]
        return [plant for each in (site, *area) for plant in self.growing_on(each)]
