"""The rule of thumb that the joint plan must beat: lot after lot, each stem on the best site that has
room."""

from cuttings.placement.offer import offers
from cuttings.placement.packing import Packing, Want, first_by
from cuttings.placement.room import bed_of
from tests.placement.gardens import Garden


def greedy_total(garden: Garden) -> float:
    """The total fit when the lots choose in their order, best site first."""
    packings: dict[str, Packing] = {}
    total = 0.0
    for wanted in garden.lots:
        left = wanted.count
        for offer in offers(wanted, garden.sites, garden.setting):
            bed = bed_of(offer.site)
            if bed is None or not offer.fit.allowed:
                continue
            packing = packings.setdefault(offer.site.name, Packing(bed, {}))
            want = Want(0, wanted.need, stance=offer.stance)
            while left and packing.place(want, first_by(offer.stance, bed)) is not None:
                left -= 1
                total += offer.fit.score
    return total
