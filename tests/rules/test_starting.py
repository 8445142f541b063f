"""What is advised before and at a start, for every plant and method that is known."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.plants.model import Division, Plant, Way
from cuttings.plants.standard import standard
from cuttings.rules.division import not_now, pieces_from_count, pieces_from_width
from cuttings.rules.starting import (
    SET,
    how_to_divide,
    how_to_layer,
    how_to_strike,
    recommend_cover,
    recommend_dip,
    recommend_heat,
)
from cuttings.words import Cover, LayerHow, Method, PlantType, Units, Wood
from tests.rules.gardens import COLD, IRIS, days

WAYS = [(plant, way) for plant in standard() for way in plant.ways]
DIVISIONS = [plant.division for plant in standard() if plant.division is not None]
LONGEST = 400
"""Letters in a line of advice, at the most: a few lines on any screen."""


def _told(plant: Plant, way: Way, units: Units) -> list[str]:
    if way.method.is_layer:
        return [advice.value for advice in how_to_layer(way, units)]
    if way.method.is_cutting:
        wood = Wood(way.method.value.removesuffix("-cutting"))
        return [advice.value for advice in how_to_strike(way, wood, units, evergreen=plant.evergreen)]
    return [advice.value for advice in how_to_divide(plant, way, units)]


@pytest.mark.parametrize("units", list(Units))
def test_for_every_plant_there_are_at_most_three_lines_of_whole_sentences(units: Units) -> None:
    for plant, way in WAYS:
        lines = _told(plant, way, units)
        assert 1 <= len(lines) <= 3, plant.name
        for line in lines:
            assert line[0].isupper() or line[0].isdigit(), line
            assert line.endswith("."), line
            assert ".." not in line, line
            assert len(line) <= LONGEST, line


def test_lengths_are_said_in_the_gardens_units() -> None:
    way = Way(Method.SOFTWOOD_CUTTING, length_m=(0.1, 0.15), prepare="Cut below a node")
    said = [how_to_strike(way, Wood.SOFTWOOD, units, evergreen=False)[0].value for units in Units]
    assert sorted(said) == [
        "Cut it 10 to 15 cm long. Cut below a node.",
        "Cut it 4 to 6 in long. Cut below a node.",
    ]


def test_hardwood_of_evergreens_keeps_its_leaves_above_the_medium() -> None:
    way = Way(Method.HARDWOOD_CUTTING)
    assert "top bud" in how_to_strike(way, Wood.HARDWOOD, Units.US, evergreen=False)[-1].value
    assert "no leaf" in how_to_strike(way, Wood.HARDWOOD, Units.US, evergreen=True)[-1].value


def test_only_layers_are_layered() -> None:
    with pytest.raises(ValueError, match="is not layered"):
        how_to_layer(Way(Method.SEEDLING), Units.US)
    for how in LayerHow:
        assert how_to_layer(standard().way(how.method), Units.METRIC)


@pytest.mark.parametrize(
    ("range_ppm", "advised", "says"),
    [
        (None, None, "Nobody has published"),
        ((0, 0), None, "roots without hormone"),
        ((0, 3000), None, "up to 3000 ppm"),
        ((1000, 3000), 1000, "1000 to 3000 ppm"),
        ((8000, 8000), 8000, "8000 ppm on this wood"),
    ],
)
def test_the_weak_end_of_a_published_dip_is_advised(
    range_ppm: tuple[int, int] | None, advised: int | None, says: str
) -> None:
    dip = recommend_dip(Way(Method.SEMI_RIPE_CUTTING, iba_ppm=range_ppm))
    assert dip.value == advised
    assert says in dip.why
    assert ("label comes first" in dip.why) is (advised is not None)


@pytest.mark.parametrize(
    ("words", "wood", "cover"),
    [
        ("bag or dome, out of direct sun", Wood.SOFTWOOD, Cover.BAG),
        ("frame or bag, bottom heat helps", Wood.HARDWOOD, Cover.FRAME),
        ("mist or a closed dome", Wood.SOFTWOOD, Cover.MIST),
        ("none, or open: it rots in a closed bag", Wood.SOFTWOOD, Cover.NONE),
        ("tunnel or frame; bottom heat helps", Wood.HARDWOOD, Cover.FRAME),
        ("shade", Wood.SEMI_RIPE, Cover.BAG),
        ("", Wood.ROOT, Cover.NONE),
    ],
)
def test_the_first_cover_that_a_record_names_is_advised(words: str, wood: Wood, cover: Cover) -> None:
    assert recommend_cover(Way(wood.method, cover=words), wood).value is cover


def test_warmth_is_told_in_the_gardens_units() -> None:
    way = Way(Method.SOFTWOOD_CUTTING, reference_temp_c=(20, 24))
    assert "68 °F to 75 °F" in recommend_heat(way, Units.US).why
    assert "20 °C to 24 °C" in recommend_heat(way, Units.METRIC).why
    assert recommend_heat(Way(Method.ROOT_CUTTING), Units.US).value is None


def test_every_wood_is_set_somehow() -> None:
    assert SET.keys() == set(Wood)


@pytest.mark.parametrize(
    ("counted", "pieces", "says"),
    [
        (1, 1, "Leave it whole: each piece should keep at least 2 fans, and it has 1."),
        (3, 1, "Leave it whole"),
        (4, 2, "keeps 2 to 4 fans"),
        (8, 2, "4 is the most it gives."),
        (17, 5, "8 is the most it gives."),
    ],
)
def test_a_clump_gives_pieces_by_what_is_counted_in_it(counted: int, pieces: int, says: str) -> None:
    division = Division("spring", (4,), per_piece=(2, 4), counted_in="fans")
    found = pieces_from_count(division, counted)
    assert found.value == pieces
    assert says in found.why


@given(st.sampled_from(DIVISIONS), st.integers(1, 500))
def test_no_piece_is_smaller_than_the_record_allows(division: Division, counted: int) -> None:
    if division.per_piece is None:
        with pytest.raises(ValueError, match="not known"):
            pieces_from_count(division, counted)
        return
    found = pieces_from_count(division, counted).value
    assert found == 1 or counted // found >= division.per_piece[0]


@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0))
def test_a_wider_clump_gives_no_fewer_pieces(one: float, other: float) -> None:
    narrow, wide = sorted((one, other))
    assert 1 <= pieces_from_width(narrow).value <= pieces_from_width(wide).value


def test_a_clump_no_wider_than_a_hand_or_two_is_left_whole() -> None:
    assert pieces_from_width(0.15).value == 1
    assert pieces_from_width(0.3).value == 4
    assert "An estimate" in pieces_from_width(0.3).sure


@given(days)
def test_a_plant_is_divided_now_or_later(on: date) -> None:
    window = not_now(IRIS, COLD, on)
    assert window is None or window.opens > on


def test_what_is_never_divided_has_no_time_for_it() -> None:
    assert not_now(Plant("Acer", PlantType.TREE), COLD, date(2026, 5, 1)) is None
