"""Limits of beds are limits: no planting that can be found passes one."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttings.ledger.places import Site
from cuttings.placement.capacity import Capacity, densest
from cuttings.placement.packing import Want, pack
from cuttings.placement.room import bed_of
from cuttings.placement.wanted import Need
from tests.placement.beds import BED, radii, sites

kinds = st.lists(radii, min_size=1, max_size=3, unique=True)


@settings(deadline=None, max_examples=60)
@given(sites(), kinds, st.lists(st.floats(0.1, 9.0), min_size=3, max_size=3), st.sampled_from([0.0, 0.2]))
def test_no_packing_passes_a_limit(site: Site, wide: list[float], asked: list[float], overlap: float) -> None:
    bed = bed_of(site, overlap=overlap)
    if bed is None:
        return
    needs = [Need(radius) for radius in wide]
    capacity = Capacity(bed, needs)
    limits = [*capacity.first(), *capacity.broken_by(dict(zip(needs, asked, strict=False)))]
    wants = [Want(number, need) for number, need in enumerate(needs) for _ in range(12)]
    placed = pack(bed, wants, 6)
    held: dict[Need, float] = dict.fromkeys(needs, 0.0)
    for number in placed:
        held[wants[number].need] += 1.0
    for limit in limits:
        assert limit.over(held) <= 1e-6


def test_a_limit_is_found_for_what_could_never_fit() -> None:
    bed = bed_of(BED)
    assert bed
    need = Need(0.6)
    found = Capacity(bed, [need]).broken_by({need: 6.0})
    assert found
    assert all(limit.room / limit.takes[need] < 6.0 for limit in found)


def test_a_row_of_plants_as_wide_as_the_bed_is_limited_by_its_length() -> None:
    bed = bed_of(Site(name="row", area="a", length_m=6.0, depth_m=1.0))
    assert bed
    need = Need(0.5)
    (limit, *_) = Capacity(bed, [need]).broken_by({need: 9.0})
    assert limit.room / limit.takes[need] == pytest.approx(6.0, rel=0.02)


def test_equal_circles_cover_the_plane_as_thue_proved() -> None:
    """pi / sqrt(12), the densest packing of equal circles (A. Thue, 1910), from memory."""
    assert densest(1.0) == pytest.approx(math.pi / math.sqrt(12.0))
    ratios = np.linspace(0.05, 1.0, 40)
    covered = [densest(float(ratio)) for ratio in ratios]
    assert all(one >= other for one, other in pairwise(covered))
    assert all(covered[-1] <= each < 1.0 for each in covered)
