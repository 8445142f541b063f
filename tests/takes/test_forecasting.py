"""When one lot roots: as published, as learned from others, and as seen."""

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.plants.model import Way
from cuttings.rules.rooting import Bench, RootingClock
from cuttings.takes.curve import Curve
from cuttings.takes.evidence import looks_of
from cuttings.takes.forecasting import Forecast, forecast
from cuttings.words import Method
from tests.rules.gardens import COLD, climates, days
from tests.takes.lots import STARTED, Known, Look, lot_of

SOFTWOOD = Way(Method.SOFTWOOD_CUTTING, rooting_days=(28, 42))
LAYER = Way(Method.SIMPLE_LAYER, rooting_days=(60, 120))
A_WEEK = timedelta(days=7)


def made(
    way: Way,
    looks: Sequence[Look] = (),
    *,
    climate: Climate = COLD,
    started: date = STARTED,
    stems: int = 8,
    bench: Bench = Bench.WARM,
    found: bool = False,
    others: Sequence[Sequence[Look]] = (),
) -> Forecast:
    lot = lot_of(way, looks, started=started, stems=stems, bench=bench, found=found)
    earlier = [
        lot_of(way, each, started=started, bench=bench, code=f"25-{number:03d}")
        for number, each in enumerate(others)
    ]
    told = forecast(lot, way, climate, Known(way, [lot, *earlier], climate), "a handbook")
    assert told is not None
    return told


def test_before_anything_is_seen_it_is_as_published() -> None:
    found = made(SOFTWOOD)
    assert (found.p10, found.p90) == (date(2026, 6, 29), date(2026, 7, 13))
    assert found.p50 == STARTED + timedelta(days=34)
    assert found.likely[0] < found.p10 < found.p90 < found.likely[1]
    assert found.source == "a handbook"
    assert "4 to 6 weeks" in found.why
    assert "published range" in found.sure


def test_without_a_published_time_or_with_roots_of_its_own_there_is_no_forecast() -> None:
    for way in (Way(Method.SIMPLE_LAYER), Way(Method.OFFSET, rooting_days=(10, 20))):
        lot = lot_of(way)
        assert forecast(lot, way, COLD, Known(way, [lot], COLD), "") is None


def test_a_single_stem_is_left_in_peace_longer_than_a_trayful() -> None:
    alone, tray = made(SOFTWOOD, stems=1), made(SOFTWOOD, stems=30)
    assert tray.next_look == tray.p10
    assert alone.next_look > tray.next_look
    assert "has rooted" in alone.look_why


def test_none_yet_at_three_weeks_says_little_and_none_at_six_weeks_much() -> None:
    fresh, early, late = made(SOFTWOOD), made(SOFTWOOD, [Look(21)]), made(SOFTWOOD, [Look(42)])
    assert fresh.p50 <= early.p50 <= fresh.p50 + timedelta(days=4)
    assert late.p50 > fresh.p90
    assert late.yet[0] == 0


def test_five_of_eight_rooted_tells_when_the_rest_will_be() -> None:
    looks = [Look(21), Look(34, rooted=5)]
    found = made(SOFTWOOD, looks)
    assert STARTED + timedelta(days=34) <= found.p10 <= found.p50 <= found.p90
    assert found.p90 <= STARTED + timedelta(days=50)
    assert found.next_look >= STARTED + timedelta(days=34) + A_WEEK
    assert found.likely[1] < made(SOFTWOOD).likely[1]
    assert (found.yet[0], found.yet[2]) == (0, 3)


def test_stragglers_among_rooted_ones_are_given_up_sooner_than_a_lot_that_has_not_begun() -> None:
    begun = made(SOFTWOOD, [Look(21), Look(34, rooted=5), Look(45)])
    silent = made(SOFTWOOD, [Look(21), Look(34), Look(45)])
    assert begun.give_up < silent.give_up


def test_roots_found_at_a_second_look_of_a_day_were_found_on_that_day() -> None:
    """Outdoors in winter, when no days count, they are not put off till spring."""
    looks = [Look(90), Look(230), Look(230, rooted=2)]
    begun = date(2026, 5, 1)
    clock = RootingClock.of(LAYER, begun, COLD, Bench.OPEN)
    assert clock is not None
    told = looks_of(lot_of(LAYER, looks, started=begun, bench=Bench.OPEN, stems=4), clock)
    assert told.news == told.last


def test_dead_ones_lower_what_is_expected_of_the_rest() -> None:
    sound, rotting = made(SOFTWOOD, [Look(35)], stems=12), made(SOFTWOOD, [Look(35, failed=6)], stems=12)
    assert rotting.yet[2] <= 6
    assert rotting.give_up <= sound.give_up


def test_lots_that_rooted_late_put_the_next_one_off_and_it_is_said() -> None:
    late = [[Look(40), Look(50, rooted=7), Look(57, failed=1)]] * 3
    found = made(SOFTWOOD, others=late)
    assert found.p50 > made(SOFTWOOD).p50 + timedelta(days=5)
    assert "By your own 3 lots of it, count on about" in found.why
    assert "% later" in found.why


def test_what_a_lot_told_of_itself_is_not_counted_twice() -> None:
    looks = [Look(40), Look(50, rooted=7)]
    alone = made(SOFTWOOD, looks)
    assert "By your" not in alone.why


def test_a_find_counts_as_the_first_look_and_teaches_others_nothing_of_time() -> None:
    found = made(SOFTWOOD, found=True)
    assert found.next_look >= STARTED + A_WEEK
    lots = [lot_of(SOFTWOOD, [Look(3, rooted=8)], found=True, code=f"25-{n:03d}") for n in range(5)]
    shift = Known(SOFTWOOD, lots, COLD).shift(("Ribes rubrum", Method.SOFTWOOD_CUTTING))
    assert (shift.mean, shift.lots) == (0.0, 0)


def test_finds_teach_how_many_take() -> None:
    lots = [lot_of(SOFTWOOD, [Look(3, rooted=1, failed=7)], found=True, code=f"25-{n:03d}") for n in range(5)]
    share = Known(SOFTWOOD, lots, COLD).share(("Ribes rubrum", Method.SOFTWOOD_CUTTING), SOFTWOOD)
    assert share.mean < 0.4


@pytest.mark.parametrize(
    ("method", "gap"),
    [(Method.SOFTWOOD_CUTTING, 7), (Method.HARDWOOD_CUTTING, 28), (Method.SIMPLE_LAYER, 42)],
)
def test_a_lot_is_left_in_peace_between_looks(method: Method, gap: int) -> None:
    way = Way(method, rooting_days=(20, 100))
    found = made(way, [Look(21), Look(24, rooted=1)])
    assert found.next_look >= STARTED + timedelta(days=24 + gap)


def test_the_last_look_falls_on_the_day_to_give_up() -> None:
    found = made(SOFTWOOD, [Look(200)])
    assert found.next_look == found.give_up


@given(
    st.sampled_from([method for method in Method if method.is_cutting or method.is_layer]),
    st.tuples(st.integers(0, 700), st.integers(0, 700)),
    days,
    climates(),
    st.sampled_from(Bench),
    st.lists(st.tuples(st.integers(0, 900), st.integers(0, 4), st.integers(0, 2)), max_size=3),
)
def test_forecasts_are_in_order(
    method: Method,
    rooting_days: tuple[int, int],
    started: date,
    climate: Climate,
    bench: Bench,
    seen: list[tuple[int, int, int]],
) -> None:
    looks = [Look(on, rooted, failed) for on, rooted, failed in sorted(seen)]
    way = Way(method, rooting_days=rooting_days)
    found = made(way, looks, climate=climate, started=started, stems=20, bench=bench)
    assert started <= found.p10 <= found.p50 <= found.p90 <= found.give_up
    assert found.likely[0] <= found.likely[1]
    assert found.next_look <= found.give_up
    assert looks or found.p10 <= found.next_look
    clock = RootingClock.of(way, started, climate, Bench.OPEN if method.is_layer else bench)
    assert clock is not None
    slow = clock.after(Curve.of_range(clock.low, clock.high).day(0.9))
    latest = max([slow + timedelta(days=366), *(started + timedelta(days=look.days) for look in looks)])
    assert found.give_up <= latest + timedelta(days=1)  # the clock of a look and of its day may differ by one
    waiting = 20 - sum(look.rooted + look.failed for look in looks)
    assert 0 <= found.yet[0] <= found.yet[1] <= found.yet[2] <= waiting
