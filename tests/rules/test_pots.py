from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.rules.pots import TRADE_GALLON, classes, parse_pot, round_pot
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
