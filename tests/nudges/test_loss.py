"""What waiting costs: the chance that it becomes too late, if it was not before."""

from datetime import date, timedelta

import pytest

from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss

FIRST = date(2026, 6, 1)
LAST = date(2026, 6, 6)


def after(days: int) -> date:
    return FIRST + timedelta(days=days)


@pytest.mark.parametrize(
    ("best_ends", "closes", "cost"),
    [(10, 20, 0.0), (5, 20, 0.0), (-1, 11, 5.0), (-1, 5, 10.0), (-1, 2, 10.0), (-7, 11, 5.0), (-9, 0, 10.0)],
)
def test_waiting_costs_the_chance_that_it_becomes_too_late(best_ends: int, closes: int, cost: float) -> None:
    loss = Loss(plants=10.0, late=between(after(best_ends), after(closes)))
    assert loss.expected(FIRST, LAST) == pytest.approx(cost)


def test_nothing_more_is_lost_once_all_is() -> None:
    assert Loss(plants=10.0, late=between(after(-9), after(-2))).expected(FIRST, LAST) == 0.0
