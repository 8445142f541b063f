"""What is read from the keeper's own words for a place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.rules.places import Place, place_of


@pytest.mark.parametrize(
    ("where", "place"),
    [
        ("on the kitchen windowsill", Place.INDOORS),
        ("Cellar", Place.INDOORS),
        ("the cold frame", Place.FRAME),
        ("greenhouse, top shelf", Place.FRAME),
        ("sunk in the fruit row", Place.SUNK),
        ("plunged in the frame", Place.SUNK),
        ("holding bench", Place.OPEN),
        ("outside the cellar", Place.OPEN),
        ("by the greenhouse", Place.OPEN),
        ("frameless bed", Place.OPEN),
        ("", Place.OPEN),
    ],
)
def test_a_place_is_read_from_whole_words(where: str, place: Place) -> None:
    assert place_of(where) is place


@given(st.text())
def test_any_words_are_some_place(where: str) -> None:
    assert place_of(where) in Place
