"""Names of spots."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from cuttings.placement.spots import Spot, parse_spot, slug, spot_at
from tests.placement.beds import BED


def test_a_spot_is_named_by_its_site_and_position() -> None:
    assert spot_at(BED, 1.2, 0.45, 0.6) == Spot("kitchen-bed@1.20,0.45", "Kitchen bed", 1.2, 0.45, 0.6)


@pytest.mark.parametrize(
    "text", ["kitchen-bed@1.20,0.45", "Kitchen bed @ 1.2, 0.45", " KITCHEN-BED@1.2,0.450"]
)
def test_it_is_read_however_it_is_typed(text: str) -> None:
    assert parse_spot(text, [BED]) == Spot("kitchen-bed@1.20,0.45", "Kitchen bed", 1.2, 0.45)


@given(st.text(min_size=1).filter(lambda name: name.strip()), st.integers(0, 400), st.integers(0, 150))
def test_a_spot_s_name_is_read_back(name: str, x_cm: int, y_cm: int) -> None:
    site = evolve(BED, name=name)
    spot = spot_at(site, x_cm / 100, y_cm / 100)
    assert parse_spot(spot.id, [site]) == spot


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("kitchen bed", "is not a spot; write it as in"),
        ("kitchen-bed@1.2", "is not a spot; write it as in"),
        ("wall@1.20,0.45", "There is no site called 'wall'"),
        ("kitchen-bed@9.00,0.45", "9.00 m, 0.45 m lies outside Kitchen bed."),
    ],
)
def test_what_cannot_be_read_is_refused_in_a_sentence(text: str, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        parse_spot(text, [BED])


def test_two_sites_of_one_spelling_are_both_named() -> None:
    with pytest.raises(ValueError, match="may be Kitchen bed and Kitchen-bed"):
        parse_spot("kitchen-bed@1.20,0.45", [BED, evolve(BED, name="Kitchen-bed")])


def test_where_the_size_is_not_known_any_position_is_read() -> None:
    assert parse_spot("kitchen-bed@9.00,0.45", [evolve(BED, length_m=None)]).x == 9.0


def test_slugs_keep_letters_of_any_alphabet() -> None:
    assert slug("Bärlauch – Ecke 2") == "bärlauch-ecke-2"
    assert slug("!!") == "site"
