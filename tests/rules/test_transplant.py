from datetime import date

import pytest

from cuttings.plants.model import Plant
from cuttings.rules.transplant import advise_planting, next_planting, planting_windows
from cuttings.words import Stage
from tests.rules.gardens import BOX, COLD, CURRANT, DAHLIA, IRIS, SOUTHERN, UNKNOWN


def autumn_close(plant: Plant) -> date:
    return planting_windows(plant, COLD, 2026)[1].closes


def test_hardy_plants_have_a_spring_and_an_autumn() -> None:
    assert [each.what for each in planting_windows(IRIS, COLD, 2026)] == [
        "plant Iris sibirica in spring",
        "plant Iris sibirica in autumn",
    ]


def test_the_southern_year_has_its_autumn_first() -> None:
    assert [each.what.split()[-1] for each in planting_windows(IRIS, SOUTHERN, 2026)] == ["autumn", "spring"]


def test_evergreens_stop_before_deciduous_shrubs() -> None:
    assert autumn_close(BOX) < autumn_close(CURRANT)


def test_tender_plants_wait_for_the_safe_date_and_say_the_odds() -> None:
    (found,) = planting_windows(DAHLIA, COLD, 2026)
    assert found.opens == date(2026, 5, 29)
    assert found.odds is not None
    assert found.odds < 0.10


def test_bare_roots_are_in_before_the_leaves() -> None:
    bare, _ = planting_windows(CURRANT, COLD, 2026, from_pot=False)
    potted, _ = planting_windows(CURRANT, COLD, 2026)
    assert bare.closes < date(2026, 5, 14) < potted.closes


def test_without_frost_dates_the_window_says_so() -> None:
    assert all("not entered" in each.why for each in planting_windows(IRIS, UNKNOWN, 2026))


def test_a_good_day_has_no_warnings() -> None:
    assert advise_planting(CURRANT, COLD, date(2026, 9, 20), Stage.READY) == ()


@pytest.mark.parametrize(
    ("plant", "on", "word"),
    [
        (CURRANT, date(2026, 7, 10), "heat"),
        (CURRANT, date(2026, 11, 20), "too late"),
        (CURRANT, date(2026, 4, 1), "too early"),
        (DAHLIA, date(2026, 5, 10), "frost may still come"),
        (DAHLIA, date(2026, 9, 1), "Too little summer"),
        (BOX, date(2026, 10, 20), "too late"),
    ],
)
def test_a_bad_day_is_warned_of_with_the_next_good_time(plant: Plant, on: date, word: str) -> None:
    (warning,) = advise_planting(plant, COLD, on, Stage.READY)
    assert word in warning
    assert "next good time" in warning


def test_skipped_hardening_is_warned_of_except_for_stock_at_rest() -> None:
    assert "hardened off" in advise_planting(IRIS, COLD, date(2026, 5, 20), Stage.POTTED)[0]
    assert advise_planting(IRIS, COLD, date(2026, 4, 25), Stage.POTTED) == ()
    assert "still being hardened" in advise_planting(IRIS, COLD, date(2026, 5, 20), Stage.HARDENING)[0]


def test_an_unpotted_stem_is_told_of() -> None:
    assert any(
        "not been potted" in text for text in advise_planting(IRIS, COLD, date(2026, 4, 25), Stage.ROOTED)
    )


def test_the_next_planting_after_a_closed_autumn_is_spring() -> None:
    found = next_planting(IRIS, COLD, date(2026, 12, 1))
    assert found is not None
    assert found.opens.year == 2027
