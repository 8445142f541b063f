from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.rules.pot_shapes import cell_litres
from cuttings.rules.pots import TRADE_GALLON, alike, classes, parse_pot, round_pot, several
from cuttings.words import Units


@pytest.mark.parametrize(
    ("text", "name", "litres"),
    [("#1", "#1", 2.8), ("# 5", "#5", 14.9), ("sp4", "SP4", 0.9), ("#SP4", "SP4", 0.9), ("2L", "2L", 2.0)],
)
def test_classes_and_volumes(text: str, name: str, litres: float) -> None:
    pot = parse_pot(text, Units.US)
    assert (pot.name, pot.volume_l) == (name, litres)


def test_a_width_is_kept_as_written_and_measured_in_metres() -> None:
    assert parse_pot("4in", Units.METRIC).diameter_m == pytest.approx(0.1016)
    assert parse_pot('4"', Units.METRIC).name == "4in"
    assert parse_pot("9 cm", Units.US).name == "9cm"
    assert parse_pot("9,5cm", Units.US).diameter_m == pytest.approx(0.095)


def test_a_bare_number_is_a_width_in_the_gardens_units() -> None:
    assert parse_pot("4", Units.US) == parse_pot("4in", Units.US)
    assert parse_pot("9", Units.METRIC) == parse_pot("9cm", Units.METRIC)


def test_a_gallon_is_a_true_one_and_the_trade_gallon_is_told_of() -> None:
    pot = parse_pot("1gal", Units.US)
    assert pot.volume_l == pytest.approx(3.785411784)
    assert pot.sure == TRADE_GALLON
    assert parse_pot("1 trade gal", Units.US).volume_l == 2.8


@pytest.mark.parametrize(
    "text", ["", "#", "pot", "#99", "SP9", "0cm", "500cm", "9000L", "-4in", "4ft", "nan"]
)
def test_what_is_no_pot_is_refused_with_help(text: str) -> None:
    with pytest.raises(ValueError, match=r"#1, SP|knows"):
        parse_pot(text, Units.US)


def test_classes_grow_and_name_their_source() -> None:
    litres = [pot.volume_l for pot in classes()]
    assert litres == sorted(litres)
    assert all(pot.sure for pot in classes())


@given(st.floats(0.03, 0.6), st.floats(1.01, 2.0))
def test_a_wider_pot_holds_more(diameter: float, times: float) -> None:
    assert round_pot(diameter * times).volume_l >= round_pot(diameter).volume_l


@given(st.text(max_size=12), st.sampled_from(Units))
def test_any_text_gives_a_pot_or_is_refused(text: str, units: Units) -> None:
    with suppress(ValueError):
        assert parse_pot(text, units).volume_l > 0


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("9cm square", "9cm square"),
        ("sq9cm", "9cm square"),
        ("square 3.5 in", "3.5in square"),
        ("9 cm sq", "9cm square"),
        ("deep 5x18cm", "deep 5x18cm"),
        ("deep 5cm x 18cm", "deep 5x18cm"),
        ("DEEP 2×7 in", "deep 2x7in"),
        ("deep 2in x 18cm", "deep 2inx18cm"),
        ("deep 2.5x10", "deep 2.5x10in"),
        ("72-cell tray", "72-cell tray"),
        ("72 cells", "72-cell tray"),
        ("54 cell trays", "54-cell tray"),
    ],
)
def test_squares_deep_pots_and_trays_are_read_and_their_names_read_again(text: str, name: str) -> None:
    pot = parse_pot(text, Units.US)
    assert pot.name == name
    assert parse_pot(name, Units.METRIC) == pot


def test_a_stem_in_a_tray_has_one_cell_of_it() -> None:
    tray = parse_pot("72-cell tray", Units.US)
    assert (tray.cells, tray.diameter_m) == (72, None)
    assert tray.volume_l < parse_pot("7cm", Units.US).volume_l
    assert parse_pot("4in", Units.US).cells == 1


def test_a_square_holds_more_than_a_round_one_as_wide_and_a_deep_one_more_the_deeper() -> None:
    assert parse_pot("9cm square", Units.US).volume_l > parse_pot("9cm", Units.US).volume_l
    assert parse_pot("deep 5x20cm", Units.US).volume_l > parse_pot("deep 5x18cm", Units.US).volume_l


@pytest.mark.parametrize(
    "text", ["deep 18x5cm", "deep 5x900cm", "square", "sq", "3 cells", "5000 cells", "deep"]
)
def test_what_no_tray_square_or_deep_pot_is_like_is_refused_with_help(text: str) -> None:
    with pytest.raises(ValueError, match="write a trade class"):
        parse_pot(text, Units.US)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("6in", "#1", True),
        ("17cm", "#1", True),
        ("2L", "2.5L", True),
        ("4in", "5in", False),
        ("9cm", "11cm", False),
    ],
)
def test_pots_are_alike_by_what_they_take_or_by_their_width(one: str, other: str, same: bool) -> None:
    pots = parse_pot(one, Units.US), parse_pot(other, Units.US)
    assert alike(*pots) is alike(*reversed(pots)) is same


@given(st.integers(4, 799))
def test_more_cells_to_a_tray_are_smaller_ones(cells: int) -> None:
    assert cell_litres(cells + 1) <= cell_litres(cells)


@pytest.mark.parametrize(
    ("name", "words"),
    [("4in", "4in pots"), ("72-cell tray", "72-cell trays"), ("plugs", "plugs"), ("old can", "old cans")],
)
def test_several_are_called_as_one_would(name: str, words: str) -> None:
    assert several(name) == words
