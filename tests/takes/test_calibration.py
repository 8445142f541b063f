"""Nine times in ten is nine times in ten, and the second year is better than the first."""

from pathlib import Path

import pytest

from tests.takes.calibration import HALF_AGAIN, REGIMES, Regime, covered, page
from tests.takes.two_years import value

PAGE = Path(__file__).parents[2] / "docs" / "calibration.md"


@pytest.mark.parametrize("regime", REGIMES, ids=lambda regime: regime.name)
def test_of_a_truth_as_likely_as_thought_nine_in_ten_are_covered(regime: Regime) -> None:
    found = covered(regime, None)
    assert 0.87 <= found.date <= 0.93
    assert 0.87 <= found.take <= 0.93


@pytest.mark.parametrize("shift", [HALF_AGAIN, -HALF_AGAIN], ids=["slow", "fast"])
@pytest.mark.parametrize("regime", REGIMES, ids=lambda regime: regime.name)
def test_of_a_truth_half_again_as_slow_or_fast_eight_in_ten_are_covered(regime: Regime, shift: float) -> None:
    found = covered(regime, shift)
    assert found.date >= 0.80
    assert found.take >= 0.80


def test_forecasts_of_the_second_year_err_by_less_than_seven_tenths_of_the_handbooks() -> None:
    found = value()
    assert found.learned <= 0.7 * found.handbook


def test_the_page_says_what_was_found() -> None:
    assert PAGE.read_text(encoding="utf-8") == page()
