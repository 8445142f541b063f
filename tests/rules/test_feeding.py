"""Liquid feed: dose and strength undo one another, nothing is made or lost, and the season is kept."""

from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from cuttings.climate.climate import Climate
from cuttings.rules.aftercare import FEED_AFTER_DAYS
from cuttings.rules.feeding import (
    K_IN_K2O,
    MOST_DISSOLVED_G_PER_L,
    P_IN_P2O5,
    SLOW_TO_DISSOLVE_G_PER_L,
    Feed,
    Grade,
    Nutrient,
    conductivity,
    feed_for,
    feed_now,
    feed_of,
    last_feed,
    parse_grade,
    parse_ratio,
    slow_to_dissolve,
    stock_for,
    too_strong,
    young_plants,
)
from cuttings.words import LIVING, Stage
from tests.rules.gardens import COLD, SOUTHERN, UNKNOWN, climates, days

FEW = st.decimals("0", "33", places=1).map(float)
GRADES = st.builds(Grade, FEW, FEW, FEW).filter(lambda grade: grade.n + grade.p2o5 + grade.k2o > 0)
NUTRIENTS = st.sampled_from(list(Nutrient))
WATER_L = st.floats(0.1, 10_000.0)
DOSES_G_PER_L = st.floats(1e-4, 500.0)
RATIOS = st.floats(2.0, 5000.0)


@given(GRADES, NUTRIENTS, st.floats(0.1, 1000.0), WATER_L)
def test_a_dose_for_a_strength_gives_that_strength(
    grade: Grade, nutrient: Nutrient, ppm: float, water_l: float
) -> None:
    assume(grade.share(nutrient) * MOST_DISSOLVED_G_PER_L > 2 * ppm / 1000)
    assert feed_for(grade, nutrient, ppm, water_l).ppm[nutrient] == pytest.approx(ppm, rel=1e-12)


@given(GRADES, NUTRIENTS, DOSES_G_PER_L, WATER_L)
def test_a_strength_from_a_dose_gives_back_that_dose(
    grade: Grade, nutrient: Nutrient, g_per_l: float, water_l: float
) -> None:
    assume(grade.share(nutrient) > 0)
    made = feed_of(grade, g_per_l * water_l, water_l)
    again = feed_for(grade, nutrient, made.ppm[nutrient], water_l)
    assert again.dose_g == pytest.approx(made.dose_g, rel=1e-12)


@given(GRADES, DOSES_G_PER_L, WATER_L)
def test_what_goes_in_is_what_the_feed_holds(grade: Grade, g_per_l: float, water_l: float) -> None:
    made = feed_of(grade, g_per_l * water_l, water_l)
    for nutrient, percent in ((Nutrient.N, grade.n), (Nutrient.P2O5, grade.p2o5), (Nutrient.K2O, grade.k2o)):
        held_g = made.ppm[nutrient] / 1000.0 * water_l
        assert held_g == pytest.approx(made.dose_g * percent / 100.0, rel=1e-12)
    assert made.ppm[Nutrient.P] == pytest.approx(made.ppm[Nutrient.P2O5] * P_IN_P2O5)
    assert made.ppm[Nutrient.K] == pytest.approx(made.ppm[Nutrient.K2O] * K_IN_K2O)


@given(GRADES, st.floats(1e-4, 5.0), WATER_L, RATIOS)
def test_the_stock_carries_the_whole_dose_and_comes_out_at_the_strength(
    grade: Grade, g_per_l: float, water_l: float, parts: float
) -> None:
    made = feed_of(grade, g_per_l * water_l, water_l)
    assume(g_per_l * parts <= MOST_DISSOLVED_G_PER_L * 0.999)
    stock = stock_for(made, parts)
    assert stock.g_per_l * stock.litres == pytest.approx(made.dose_g, rel=1e-12)
    assert stock.litres < water_l
    drawn = Feed(grade, stock.g_per_l * stock.litres, stock.litres * parts)
    assert drawn.ppm[Nutrient.N] == pytest.approx(made.ppm[Nutrient.N], rel=1e-12)
    added = Feed(grade, stock.g_per_l, 1.0 + parts)  # one part to so many parts of water
    assert 1.0 - added.g_per_l / made.g_per_l == pytest.approx(stock.weaker_if_added / 100.0, abs=1e-9)


def test_what_no_water_dissolves_is_refused() -> None:
    grade = Grade(20, 10, 20)
    assert feed_of(grade, MOST_DISSOLVED_G_PER_L, 1.0).g_per_l == MOST_DISSOLVED_G_PER_L
    with pytest.raises(ValueError, match="more than water can dissolve"):
        feed_of(grade, MOST_DISSOLVED_G_PER_L * 1.001, 1.0)
    with pytest.raises(ValueError, match="each litre of stock"):
        stock_for(feed_for(grade, Nutrient.N, 250.0, 1.0), 1000.0)
    for dose_g, water_l in ((0.0, 1.0), (1.0, 0.0), (-1.0, 1.0), (1.0, float("nan"))):
        with pytest.raises(ValueError, match="some fertiliser and some water"):
            feed_of(grade, dose_g, water_l)


def test_a_nutrient_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(ValueError, match=r"0-52-34 holds no nitrogen; .*\(P, K, P2O5 or K2O\)"):
        feed_for(Grade(0, 52, 34), Nutrient.N, 100.0, 10.0)
    with pytest.raises(ValueError, match=r"holds no potash; .*\(N, P or P2O5\)"):
        feed_for(Grade(12, 61, 0), Nutrient.K2O, 100.0, 10.0)


@pytest.mark.parametrize(
    ("typed", "grade"),
    [
        ("20-10-20", Grade(20, 10, 20)),
        (" 20 - 10 - 20 ", Grade(20, 10, 20)),
        ("20 10 20", Grade(20, 10, 20)),
        ("20:10:20", Grade(20, 10, 20)),
        ("20–10–20", Grade(20, 10, 20)),
        ("15.5-0-0", Grade(15.5, 0, 0)),
        ("12,5-4-8", Grade(12.5, 4, 8)),
        ("0-0-60", Grade(0, 0, 60)),
    ],
)
def test_grades_are_read(typed: str, grade: Grade) -> None:
    assert parse_grade(typed) == grade
    assert parse_grade(str(grade)) == grade


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "20",
        "20-10",
        "20-10-20-5",
        "a-b-c",
        "-20-10-20",
        "0-0-0",
        "50-40-30",
        "1e2-0-0",
        "9" * 400 + "-0-0",
    ],
)
def test_what_is_no_grade_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="grade"):
        parse_grade(typed)


@pytest.mark.parametrize(
    ("typed", "parts"),
    [("1:200", 200), ("200", 200), ("1 : 100", 100), ("0.5%", 200), ("1%", 100), (".5 %", 200), ("1:64", 64)],
)
def test_ratios_are_read(typed: str, parts: float) -> None:
    assert parse_ratio(typed) == pytest.approx(parts)


@pytest.mark.parametrize(
    "typed",
    ["", "1:0", "200:1", "1:1", "0%", "100%", "1:99999", "one", "-1:200", "9" * 400, "." + "0" * 330 + "1%"],
)
def test_what_is_no_ratio_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match="ratio"):
        parse_ratio(typed)


@given(GRADES, DOSES_G_PER_L)
def test_what_is_told_for_young_plants_and_what_is_warned_of_agree(grade: Grade, g_per_l: float) -> None:
    made = feed_of(grade, g_per_l, 1.0)
    assert young_plants(made).value.startswith("Too ") is (too_strong(made) is not None)


@pytest.mark.parametrize(
    ("ppm", "begins"),
    [
        (50, "Weaker"),
        (75, "Right"),
        (100, "Right"),
        (125, "Right"),
        (150, "Full"),
        (250, "Full"),
        (300, "Too"),
    ],
)
def test_strengths_are_told_for_young_plants(ppm: float, begins: str) -> None:
    assert young_plants(feed_for(Grade(20, 20, 20), Nutrient.N, ppm, 10.0)).value.startswith(begins)


def test_a_thick_stock_is_warned_of_before_it_is_refused() -> None:
    assert slow_to_dissolve(SLOW_TO_DISSOLVE_G_PER_L) is None
    warning = slow_to_dissolve(SLOW_TO_DISSOLVE_G_PER_L + 1)
    assert warning is not None
    assert "301 g to the litre" in warning.value


@pytest.mark.parametrize("grade", [Grade(15, 0, 15), Grade(20, 10, 20), Grade(20, 20, 20)])
def test_conductivity_grows_with_the_strength(grade: Grade) -> None:
    weak, strong = (conductivity(feed_for(grade, Nutrient.N, ppm, 1.0)) for ppm in (100.0, 200.0))
    assert weak is not None
    assert strong == pytest.approx([2 * each for each in weak])


@pytest.mark.parametrize("grade", [Grade(46, 0, 0), Grade(9, 45, 15), Grade(0, 52, 34), Grade(15, 30, 15)])
def test_conductivity_is_not_told_where_nothing_was_read(grade: Grade) -> None:
    assert conductivity(feed_of(grade, 1.0, 1.0)) is None


POTTED = date(2026, 6, 1)
HELD = (Stage.POTTED,)


def test_a_potted_lot_is_fed_after_four_weeks_and_not_after_late_summer() -> None:
    due = POTTED + timedelta(days=FEED_AFTER_DAYS)
    early = feed_now(due - timedelta(days=1), HELD, POTTED, COLD)
    assert (early.now, early.opens) == (False, due)
    assert feed_now(due, HELD, POTTED, COLD).now
    last = last_feed(COLD, due)
    assert last is not None
    assert feed_now(last, HELD, POTTED, COLD).now
    late = feed_now(last + timedelta(days=1), HELD, POTTED, COLD)
    assert not late.now
    assert late.opens is not None
    assert late.opens.year == 2027
    assert feed_now(late.opens, HELD, POTTED, COLD).now


@pytest.mark.parametrize(
    ("held", "says"),
    [
        ((Stage.WAITING,), "Without roots"),
        ((Stage.WAITING, Stage.ROOTED), "Pot them first"),
        ((Stage.HARDENING,), "harden off"),
        ((Stage.PLANTED,), "None of them stands in a pot"),
        ((), "None of them stands in a pot"),
    ],
)
def test_what_stands_in_no_pot_or_hardens_is_not_fed(held: tuple[Stage, ...], says: str) -> None:
    timing = feed_now(date(2026, 7, 10), held, POTTED, COLD)
    assert not timing.now
    assert says in timing.why


@given(days, st.integers(0, 1500), st.sampled_from((COLD, SOUTHERN, UNKNOWN)))
def test_the_day_from_which_it_is_fed_is_to_come_and_holds(
    potted: date, after: int, climate: Climate
) -> None:
    on = potted + timedelta(days=after)
    timing = feed_now(on, HELD, potted, climate)
    assert timing.now == (timing.opens is None)
    if timing.opens is not None:
        assert timing.opens > on
        assert feed_now(timing.opens, HELD, potted, climate).now


@given(days, st.integers(-400, 1500), climates(), st.sets(st.sampled_from(LIVING)))
def test_every_garden_has_an_answer_with_its_reason(
    potted: date, after: int, climate: Climate, held: set[Stage]
) -> None:
    on = potted + timedelta(days=after)
    timing = feed_now(on, held, potted, climate)
    assert timing.why
    assert timing.source
    last = last_feed(climate, on)
    assert last is None or last >= on
