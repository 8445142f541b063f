"""Care through the year against what is published for gardens in Iowa, Minnesota and elsewhere.

The Iowa garden is that of ``test_rules_facts``: Boone County, first autumn freeze on 6 October at even odds.
"""

from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.ledger.places import Site
from cuttings.nudges.model import Nudge
from cuttings.nudges.sittings import sittings
from cuttings.nudges.week import all_nudges
from cuttings.plants.standard import standard
from cuttings.rules.seasons import frosts
from cuttings.words import Method, Stage
from tests.published.test_rules_facts import IOWA

IRIS: dict[str, Any] = {"plant": "Iris sibirica", "called": "Siberian iris"}
CURRANT: dict[str, Any] = {"plant": "Ribes rubrum", "called": "red currant"}


def garden() -> Story:
    story = Story(date(2030, 1, 1))
    story.tell(e.SiteFacts, date(2026, 1, 1), site=Site(name="bed", area="gate strip"))
    return story


def due(story: Story, today: date) -> dict[str, Nudge]:
    """Everything that is due on a day or comes after it, by the last part of its id."""
    book = fold(story.entries()).as_of(today)
    return {nudge.id.rpartition(":")[2]: nudge for nudge in all_nudges(book, standard(), IOWA, today)}


def potted(on: date) -> Story:
    story = garden()
    lot = story.begin(e.Divide, on, 3, method=Method.CROWN_DIVISION, **IRIS)
    story.pot(on, lot, 3, "4in", 0.5, "holding bench")
    return story


def test_autumn_divisions_are_mulched_in_mid_to_late_november() -> None:
    """Iowa State University Extension: Which perennials can be divided in late summer?: several inches of
    straw or pine needles in mid to late November,
    https://hortnews.extension.iastate.edu/faq/which-perennials-can-be-divided-late-summer"""
    story = garden()
    lot = story.begin(e.Divide, date(2026, 9, 5), 4, method=Method.CROWN_DIVISION, **IRIS)
    story.plant(date(2026, 9, 6), lot, Stage.ROOTED, "bed", count=4, spread_m=0.6)
    best = due(story, date(2026, 10, 1))["mulch"].window.best
    assert date(2026, 11, 10) <= best[0] <= date(2026, 11, 20)
    assert date(2026, 11, 24) <= best[1] <= date(2026, 12, 4)


def test_pots_are_sunk_some_weeks_after_the_first_frost_and_before_the_ground_freezes() -> None:
    """Iowa State University Extension: How can I over-winter unplanted perennials still in their containers:
    after dormancy, usually a few weeks after the first frost, and before the soil freezes."""
    window = due(potted(date(2026, 10, 20)), date(2026, 10, 21))["winter"].window
    autumn = frosts(IOWA, 2026)
    assert (
        autumn.first_autumn + timedelta(weeks=2) <= window.best[0] <= autumn.first_autumn + timedelta(weeks=4)
    )
    assert window.closes <= autumn.freeze


def test_pots_come_out_as_the_soil_thaws_several_weeks_before_the_last_frost() -> None:
    """The same page: lifted in spring when the soil thaws, several weeks before the last frost."""
    window = due(potted(date(2026, 10, 1)), date(2027, 2, 20))["out"].window
    spring = frosts(IOWA, 2027)
    assert window.opens >= spring.thaw
    assert window.closes <= spring.last_spring - timedelta(weeks=2)


@pytest.mark.parametrize(
    ("week", "how"),
    [(1, "every day"), (2, "every day"), (4, "every two or three days"), (11, "every two or three days")],
)
def test_new_shrubs_are_watered_daily_for_a_fortnight_then_every_few_days_to_the_twelfth_week(
    week: int, how: str
) -> None:
    """University of Minnesota Extension: Watering newly planted trees and shrubs,
    https://extension.umn.edu/planting-and-growing-guides/watering-newly-planted-trees-and-shrubs"""
    assert how in _watered(week).what


def test_new_shrubs_are_watered_weekly_until_the_ground_freezes() -> None:
    """University of Minnesota Extension: Fall is the Best Time to Plant Trees and Shrubs: weekly until the
    ground freezes."""
    assert "once a week" in _watered(14).what
    assert _watered(14).window.closes == frosts(IOWA, 2026).freeze


def _watered(week: int) -> Nudge:
    story = garden()
    planted = date(2026, 5, 20)
    lot = story.begin(e.Find, date(2026, 4, 20), 2, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.pot(date(2026, 4, 20), lot, 2, "4in", 0.5, "holding bench")
    story.plant(planted, lot, Stage.POTTED, "bed", count=2, spread_m=1.2)
    return due(story, planted + timedelta(weeks=week, days=-1))["water"]


def test_potted_plants_are_fed_every_four_to_six_weeks_and_not_after_late_summer() -> None:
    """Master Gardener column (NewsBreak, 2021): Over-wintering geraniums from cuttings: lightly, every four
    to six weeks, https://www.newsbreak.com/news/2399026760737. Christian Science Monitor, 2008: Stop
    fertilizing: not in late summer,
    https://www.csmonitor.com/The-Culture/Gardening/2008/0822/stop-fertilizing"""
    story = potted(date(2026, 4, 25))
    rounds = set()
    for number in range(26):
        today = date(2026, 5, 1) + timedelta(weeks=number)
        feed = due(story, today).get("feed")
        if feed is not None and feed.window.holds(today):
            rounds.add(feed.window.opens)
    opens = sorted(rounds)
    assert len(opens) >= 3
    assert all(28 <= (after - before).days <= 42 for before, after in pairwise(opens))
    assert opens[-1] < date(2026, 8, 20)


def test_nobody_works_longer_than_half_an_hour_without_a_rest() -> None:
    """Rutgers NJAES, Burlington County: a break every fifteen to thirty minutes of garden work."""
    assert max(sitting.minutes for sitting in sittings(200, 10)) <= 30
