from datetime import date, timedelta

from cuttings.rules.marks import mark_window
from cuttings.rules.seasons import frosts
from cuttings.words import Purpose
from tests.rules.gardens import BRAMBLE, COLD, CURRANT, DAFFODIL, DAHLIA, IRIS, ROSEMARY, SNOWDROP, SOUTHERN

MAY = date(2026, 5, 1)


def test_bulbs_are_lifted_when_the_leaves_have_died_down() -> None:
    found = mark_window(Purpose.LIFT, DAFFODIL, MAY, COLD)
    assert found.opens == date(2026, 6, 11)


def test_snowdrops_are_lifted_in_leaf_just_after_flowering() -> None:
    found = mark_window(Purpose.LIFT, SNOWDROP, date(2026, 3, 10), COLD)
    assert (found.opens, found.closes) == (date(2026, 3, 31), date(2026, 5, 5))


def test_a_snowdrop_marked_too_late_waits_a_year() -> None:
    assert mark_window(Purpose.LIFT, SNOWDROP, date(2026, 6, 1), COLD).opens.year == 2027


def test_dahlias_are_lifted_after_frost_and_other_tender_plants_before_it() -> None:
    assert mark_window(Purpose.LIFT, DAHLIA, MAY, COLD).best[0] == date(2026, 9, 28)
    assert mark_window(Purpose.LIFT, ROSEMARY, MAY, COLD).closes == date(2026, 9, 28)


def test_hardwood_is_taken_from_leaf_fall_to_before_the_buds_move() -> None:
    found = mark_window(Purpose.TAKE_HARDWOOD, CURRANT, MAY, COLD)
    assert found.opens == frosts(COLD, 2026).hard_freeze + timedelta(weeks=2)
    assert found.closes < date(2027, 5, 14)
    south = mark_window(Purpose.TAKE_HARDWOOD, CURRANT, MAY, SOUTHERN)
    assert south.opens.month == 5


def test_a_shrub_is_moved_at_rest() -> None:
    found = mark_window(Purpose.MOVE, CURRANT, date(2026, 11, 20), COLD)
    assert found.opens == frosts(COLD, 2027).workable
    assert found.what == "move Ribes rubrum"


def test_dividing_and_layering_follow_the_plants_record() -> None:
    assert mark_window(Purpose.DIVIDE, IRIS, MAY, COLD).opens == date(2026, 9, 1)
    pegged = mark_window(Purpose.LAYER, CURRANT, date(2026, 3, 1), COLD)
    assert pegged.opens == frosts(COLD, 2026).workable
    assert mark_window(Purpose.LAYER, BRAMBLE, date(2026, 3, 1), COLD).opens == date(2026, 8, 1)


def test_watching_comes_back_in_about_four_weeks() -> None:
    found = mark_window(Purpose.WATCH, IRIS, MAY, COLD)
    assert found.best[0] == date(2026, 5, 29)
