"""What is in care already counts once it is fit to plant: severed, grown on, hardened off, and in season."""

from datetime import date, timedelta

from attrs import evolve

from cuttings.ledger import entries as e
from cuttings.plants.standard import standard
from cuttings.takes.held import OnTheWay, on_the_way
from cuttings.words import Method, Stage
from tests.takes.lots import lot_of
from tests.takes.test_goal import COLD, MAY, goals_for

CLIMBER = "Hydrangea anomala subsp. petiolaris"


def expected(started: date, by: date, stages: dict[Stage, int] | None = None, potted: date = MAY) -> float:
    """How many of eight layers are expected to be fit to plant by a day, as they wait, or as they stand."""
    way = standard().plant(CLIMBER).way(Method.SIMPLE_LAYER)
    assert way is not None
    lot = lot_of(way, started=started, stems=8, plant=CLIMBER)
    if stages:
        move = e.Move(count=8, source=Stage.ROOTED, target=Stage.POTTED)
        pot = e.Pot(id="z", on=potted, lot=lot.code, moves=(move,), pot="4in")
        lot = evolve(lot, stages=stages, entries=(*lot.entries, pot))
    return on_the_way(goals_for(CLIMBER, COLD, MAY, [lot]), by).expected


def test_a_layer_is_cut_from_its_mother_in_the_season_after_its_own_start() -> None:
    summer = date(2026, 7, 1)
    assert expected(date(2025, 4, 20), summer) > 4.0
    assert expected(date(2026, 4, 20), summer) == 0.0
    assert expected(date(2026, 4, 20), date(2027, 10, 15)) > 4.0


def test_what_was_potted_yesterday_is_not_fit_next_week_and_what_is_ready_is() -> None:
    begun, next_week = date(2025, 4, 20), MAY + timedelta(days=7)
    yesterday = MAY - timedelta(days=1)
    assert expected(begun, next_week, {Stage.POTTED: 8}, potted=yesterday) == 0.0
    assert expected(begun, date(2026, 6, 20), {Stage.POTTED: 8}, potted=yesterday) > 7.0
    assert expected(begun, next_week, {Stage.POTTED: 8}, potted=date(2026, 3, 20)) > 7.0
    assert expected(begun, next_week, {Stage.READY: 8}) > 7.0


def test_what_can_be_reckoned_with_is_the_most_that_are_sure_enough() -> None:
    held = OnTheWay(4, (0.05, 0.05, 0.2, 0.7))
    assert [held.surely(sure) for sure in (0.5, 0.7, 0.8, 0.89, 0.94, 0.99)] == [3, 3, 2, 2, 1, 0]
