"""Small gardens for tests: one frame of entries, and what grows where."""

from datetime import date, timedelta
from typing import Any

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.places import Garden, Site
from cuttings.words import Units

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")
BEGAN = date(2023, 3, 1)
AREAS = ("gate strip", "kitchen side", "holding bench")
SITES = {"gate bed": "gate strip", "fruit row": "kitchen side", "herb corner": "kitchen side"}


def garden() -> Story:
    """Three sites in two areas, and a bench; nothing grows yet."""
    story = Story(date(2035, 1, 1))
    place = Garden(name="Quarry Bank", lat=42.9, lon=-76.1, units=Units.US)
    story.tell(e.GardenFacts, BEGAN, garden=place, areas=AREAS)
    for name, area in SITES.items():
        site = Site(name=name, area=area, length_m=8.0, depth_m=2.0)
        story.tell(e.SiteFacts, BEGAN, site=site)
    return story


def grows(story: Story, site: str, *plants: str, on: date = BEGAN, **fields: Any) -> None:
    """Plants from before the ledger; ``planted`` dates one that is not."""
    for number, plant in enumerate(plants):
        at = (0.8 + 1.2 * number, 1.0)
        story.tell(e.GrowingHere, on, site=site, plant=plant, at=at, spread_m=1.0, **fields)


def book_of(story: Story, on: date) -> Book:
    book = fold(story.entries()).as_of(on)
    assert not book.problems, book.problems
    return book


def week_from(first: date) -> tuple[date, date]:
    return first, first + timedelta(days=6)


def weeks_of(first: date, count: int) -> list[tuple[date, date]]:
    return [week_from(first + timedelta(weeks=number)) for number in range(count)]
