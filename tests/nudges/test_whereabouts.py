"""In which part of the garden a lot is worked on, by the keeper's words and by where it was planted."""

from datetime import date

import pytest

from cuttings.ledger.book import fold
from cuttings.nudges.whereabouts import whereabouts
from tests.nudges.gardens import garden


@pytest.mark.parametrize(
    ("words", "area"),
    [
        ("fruit row", "kitchen side"),
        ("the holding bench, left", "holding bench"),
        ("behind the fruit row", "kitchen side"),
        ("north cellar", ""),
        ("", ""),
    ],
)
def test_the_area_of_a_place_is_told_by_its_words(words: str, area: str) -> None:
    assert whereabouts(fold(garden().entries()).as_of(date(2026, 1, 1))).area_named(words) == area
