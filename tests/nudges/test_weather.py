"""What a forecast does to the sheet, where it would be easy to go wrong."""

from datetime import date, timedelta
from typing import Any

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import fold
from cuttings.nudges.model import Nudge
from cuttings.nudges.outlook import Outlook
from cuttings.nudges.week import week
from cuttings.plants.standard import standard
from cuttings.words import Method, Stage
from tests.nudges.gardens import COLD, garden

MAY = date(2026, 5, 9)
CURRANT: dict[str, Any] = {"plant": "Ribes rubrum", "called": "red currant"}


def sheet(story: Story, outlook: Outlook, first: date = MAY, days: int = 7) -> dict[str, Nudge]:
    book = fold(story.entries()).as_of(first)
    assert not book.problems
    found = week(book, standard(), COLD, first, first + timedelta(days=days - 1), outlook)
    assert len({nudge.id for nudge in found}) == len(found)
    return {nudge.id: nudge for nudge in found}


def planted_twice() -> Story:
    story = garden()
    lot = story.begin(e.Find, date(2026, 4, 20), 4, rooted=True, method=Method.SIMPLE_LAYER, **CURRANT)
    story.plant(date(2026, 5, 2), lot, Stage.ROOTED, "fruit row", count=2, spread_m=1.2)
    story.plant(date(2026, 5, 2), lot, Stage.ROOTED, "gate bed", count=2, spread_m=1.2)
    return story


def test_a_lot_in_two_places_is_covered_in_each() -> None:
    found = sheet(planted_twice(), Outlook(low_c=-4.0))
    covers = {nudge.area: nudge for nudge in found.values() if nudge.id.endswith(":cold")}
    assert set(covers) == {"kitchen side", "gate strip"}
    assert all(nudge.stems == 2 for nudge in covers.values())
    assert all(nudge.when == "cold day" for nudge in covers.values())


def test_what_cold_costs_is_told_in_plants_as_everything_else_is() -> None:
    story = planted_twice()
    before = sheet(story, Outlook(low_c=-4.0))["26-001:fruit row:planted:cold"].loss.plants
    story.tell(e.Note, date(2026, 5, 3), lot="26-001", worth=10.0)
    after = sheet(story, Outlook(low_c=-4.0))["26-001:fruit row:planted:cold"].loss.plants
    assert (before, after) == (2.0, 20.0)


def test_the_rain_of_a_month_is_not_that_of_a_week() -> None:
    story = planted_twice()
    rain = Outlook(rain_mm=30.0)
    assert not [key for key in sheet(story, rain, date(2026, 5, 23)) if key.endswith(":water")]
    month = sheet(story, rain, date(2026, 5, 23), days=31)
    assert [key for key in month if key.endswith(":water")]
