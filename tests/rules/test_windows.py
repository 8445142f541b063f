"""Whatever the garden, the year and the plant, a window opens before it closes, with its best inside."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Division, Plant, Way
from cuttings.rules.division import division_windows, next_division
from cuttings.rules.layering import next_pegging, pegging_window, sever_window
from cuttings.rules.marks import mark_window
from cuttings.rules.transplant import advise_planting, next_planting, planting_windows
from cuttings.words import Method, PlantType, Purpose, Stage
from tests.rules.gardens import climates, days, in_order, plants, years

layers = st.sampled_from([method for method in Method if method.is_layer])
months = st.lists(st.integers(1, 12), min_size=1, unique=True).map(tuple)


@given(plants, climates(), years, st.booleans())
def test_planting_windows_are_in_order(plant: Plant, climate: Climate, year: int, from_pot: bool) -> None:
    for each in planting_windows(plant, climate, year, from_pot=from_pot):
        assert in_order(each)
        assert each.why.endswith(".")
        assert each.source


@given(plants, climates(), days)
def test_the_next_planting_has_not_closed(plant: Plant, climate: Climate, on: date) -> None:
    found = next_planting(plant, climate, on)
    assert found is None or (in_order(found) and found.closes >= on)


@given(months, climates(), years)
def test_division_windows_are_in_order(months: tuple[int, ...], climate: Climate, year: int) -> None:
    clump = Plant("Aster", PlantType.PERENNIAL, division=Division("spring", months))
    assert all(in_order(each) for each in division_windows(clump, climate, year))


@given(months, climates(), days)
def test_the_next_division_has_not_closed(months: tuple[int, ...], climate: Climate, on: date) -> None:
    found = next_division(Plant("Aster", PlantType.PERENNIAL, division=Division("", months)), climate, on)
    assert found is None or (in_order(found) and found.closes >= on)


@given(layers, months | st.just(()), climates(), days)
def test_pegging_windows_are_in_order(
    method: Method, months: tuple[int, ...], climate: Climate, on: date
) -> None:
    way = Way(method, months=months)
    found = next_pegging(way, climate, on)
    assert found is not None
    assert in_order(found)
    assert found.closes >= on
    assert in_order(pegging_window(way, climate, on.year))


@given(layers, days, climates())
def test_a_layer_is_cut_after_it_was_started(method: Method, started: date, climate: Climate) -> None:
    found = sever_window(method, started, climate)
    assert in_order(found)
    assert found.opens > started


@given(st.sampled_from(Purpose), plants, days, climates())
def test_a_mark_comes_back_on_or_after_its_day(
    purpose: Purpose, plant: Plant, marked_on: date, climate: Climate
) -> None:
    found = mark_window(purpose, plant, marked_on, climate)
    assert in_order(found)
    assert found.closes >= marked_on


@given(plants, climates(), days, st.sampled_from(Stage))
def test_warnings_are_sentences(plant: Plant, climate: Climate, on: date, stage: Stage) -> None:
    assert all(text.endswith(".") for text in advise_planting(plant, climate, on, stage))
