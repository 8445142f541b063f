"""Years told day by day, and their accounts."""

from datetime import date
from typing import Any

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book, fold
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Site
from cuttings.plants.standard import standard
from cuttings.takes.cases import case_of
from cuttings.takes.forecasting import forecast
from cuttings.takes.learned import Learned
from cuttings.takes.year import Account, account
from cuttings.words import Light

COLD = Climate(lat=42.9, frost=frost_dates((5, 15), (9, 30)), zone="5b")

Plant = dict[str, Any]

BOX: Plant = {"plant": "Buxus sempervirens", "called": "box"}
ROSEMARY: Plant = {"plant": "Salvia rosmarinus", "called": "rosemary"}
CURRANT: Plant = {"plant": "Ribes rubrum", "called": "red currant"}
IRIS: Plant = {"plant": "Iris sibirica", "called": "Siberian iris"}
CLIMBER: Plant = {"plant": "Hydrangea anomala subsp. petiolaris", "called": "climbing hydrangea"}


def day(text: str) -> date:
    return date.fromisoformat(text)


def a_garden(today: str = "2026-12-31") -> Story:
    """A story with two sites, told up to a day."""
    story = Story(day(today))
    for name, area in (("gate bed", "gate strip"), ("fruit row", "kitchen side")):
        site = Site(name=name, area=area, light=Light.FULL_SUN, length_m=8.0, depth_m=2.0)
        story.tell(e.SiteFacts, day("2024-01-01"), site=site)
    return story


def booked(story: Story) -> Book:
    book = fold(story.entries())
    assert not book.problems
    return book


def told(story: Story, year: int = 2026, **given: Any) -> Account:
    """The account of a year on the story's last day."""
    return accounted(booked(story), story.last_day, year, **given)


def accounted(book: Book, today: date, year: int, **given: Any) -> Account:
    book = book.as_of(today)
    learned = Learned(book.lots.values(), standard(), COLD)

    def give_up(lot: Lot) -> date | None:
        found = forecast(lot, learned.way_of(lot), COLD, learned, "")
        return None if found is None else found.give_up

    return account(
        book,
        standard(),
        COLD,
        today,
        year,
        give_up=give_up,
        case_of=lambda lot: case_of(lot, learned, COLD, today),
        **given,
    )
