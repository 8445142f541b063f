"""How wide a plant is, by its years in the ground."""

from datetime import date, timedelta

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.placement.growth import (
    FAST,
    MEDIUM,
    SLOW,
    START_SHARE,
    YEARS_TO_FULL,
    full_grown_on,
    share_grown,
    years_to_full,
)
from cuttings.plants.files import PLANT_FILES
from cuttings.plants.model import Plant
from cuttings.plants.standard import data_files
from cuttings.words import PlantType
from tests.placement.beds import CURRANT

PLANTED = date(2025, 5, 31)
RATES = (FAST, MEDIUM, SLOW)

plants = st.builds(
    lambda kind, rate: Plant("Planta ignota", kind, growth=rate),
    st.sampled_from(list(PlantType)),
    st.sampled_from(["", *RATES]),
)
days = st.integers(-1000, 20_000).map(lambda count: PLANTED + timedelta(days=count))


@given(plants, days, st.integers(0, 5000))
def test_a_plant_never_shrinks_with_the_years(plant: Plant, day: date, later: int) -> None:
    now, then = share_grown(plant, PLANTED, day), share_grown(plant, PLANTED, day + timedelta(days=later))
    assert START_SHARE <= now <= then <= 1.0


@pytest.mark.parametrize("kind", PlantType)
def test_every_kind_has_every_rate_and_the_faster_is_never_later(kind: PlantType) -> None:
    years = [YEARS_TO_FULL[kind][rate].years for rate in RATES]
    assert years == sorted(years)
    assert years[0] > 0


def test_the_plant_records_know_no_other_rates() -> None:
    files = data_files()
    told = {record.get("growth", MEDIUM) for name in PLANT_FILES for record in files[name]["plants"]}
    assert told == set(RATES)


@given(plants)
def test_full_grown_by_the_end_of_the_year_that_is_named(plant: Plant) -> None:
    year = full_grown_on(plant, PLANTED)
    assert share_grown(plant, PLANTED, date(year, 12, 31)) == 1.0
    assert share_grown(plant, PLANTED, date(year - 1, 12, 31)) < 1.0


def test_halfway_to_its_years_it_is_halfway_between_young_and_full_grown() -> None:
    slow = evolve(CURRANT, growth=SLOW)
    halfway = PLANTED + timedelta(days=round(years_to_full(slow).years * 365.25 / 2))
    assert share_grown(slow, PLANTED, halfway) == pytest.approx((START_SHARE + 1) / 2, abs=0.001)


def test_a_plant_of_no_known_date_is_full_grown() -> None:
    assert share_grown(CURRANT, None, PLANTED) == 1.0


def test_a_plant_nobody_knows_grows_like_a_middling_perennial() -> None:
    assert years_to_full(None) is YEARS_TO_FULL[PlantType.PERENNIAL][MEDIUM]
    assert years_to_full(CURRANT) is YEARS_TO_FULL[PlantType.SHRUB][MEDIUM]
