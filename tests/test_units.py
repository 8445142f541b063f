"""Measures: read in either system, shown in the garden's own, and the factors as published."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.units import (
    GRAMS,
    LITRES,
    METRES,
    about_span,
    celsius_to_fahrenheit,
    fahrenheit_to_celsius,
    in_units,
    parse_length,
    parse_mass,
    parse_temperature,
    parse_volume,
    show_area,
    show_length,
    show_mass,
    show_span,
    show_temperature,
    show_volume,
)
from cuttings.words import Units

US, METRIC = Units.US, Units.METRIC
SYSTEMS = st.sampled_from(list(Units))
AMOUNTS = st.decimals("0.01", "5000", places=2).map(str)


@pytest.mark.parametrize(
    ("unit", "metres"), [("in", 2.54e-2), ("ft", 3.048e-1), ("yd", 9.144e-1), ("cm", 1e-2), ("mm", 1e-3)]
)
def test_lengths_convert_as_published(unit: str, metres: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: inch, foot and yard; exact factors."""
    assert METRES[unit] == metres
    assert parse_length(f"1{unit}", US) == metres


@pytest.mark.parametrize(
    ("unit", "litres"),
    [("gal", 3.785412), ("qt", 0.9463529), ("pt", 0.4731765), ("floz", 0.02957353), ("ml", 0.001)],
)
def test_volumes_convert_as_published(unit: str, litres: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: gallon, quart, pint and fluid ounce (U.S.
    liquid), printed there to seven digits."""
    assert LITRES[unit] == pytest.approx(litres, rel=2e-7)


@pytest.mark.parametrize(("unit", "grams"), [("oz", 28.34952), ("lb", 453.5924), ("kg", 1000), ("mg", 0.001)])
def test_weights_convert_as_published(unit: str, grams: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: ounce and pound (avoirdupois), to seven digits."""
    assert GRAMS[unit] == pytest.approx(grams, rel=2e-7)
    assert GRAMS["oz"] * 16 == pytest.approx(GRAMS["lb"], rel=1e-12)


def test_the_volumes_go_into_one_another_as_they_are_defined() -> None:
    """231 cubic inches to the gallon; 4 quarts, 8 pints, 128 fluid ounces (NIST Handbook 44, appendix C)."""
    assert LITRES["gal"] == pytest.approx(231 * METRES["in"] ** 3 * 1000, rel=1e-12)
    for unit, to_the_gallon in (("qt", 4), ("pt", 8), ("floz", 128)):
        assert LITRES[unit] * to_the_gallon == pytest.approx(LITRES["gal"], rel=1e-9)


@pytest.mark.parametrize(("f", "c"), [(32, 0), (212, 100), (-40, -40), (28, -2.2222), (98.6, 37)])
def test_temperatures_convert_as_published(f: float, c: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: t/°C = (t/°F - 32) / 1.8."""
    assert fahrenheit_to_celsius(f) == pytest.approx(c, abs=1e-4)
    assert celsius_to_fahrenheit(fahrenheit_to_celsius(f)) == pytest.approx(f)


@pytest.mark.parametrize(
    ("typed", "metres"),
    [
        ("4in", 0.1016),
        ("4 inches", 0.1016),
        ('4"', 0.1016),
        ("10cm", 0.1),
        ("10 CM", 0.1),
        ("1.2m", 1.2),
        ("1,2 m", 1.2),
        ("6ft", 1.8288),
        ("6'", 1.8288),
        ("5ft 6in", 1.6764),
        ("5'6\"", 1.6764),
        ("0.5 in.", 0.0127),
        ("250mm", 0.25),
        (".5m", 0.5),
        ("0", 0.0),
    ],
)
def test_lengths_are_read_as_people_write_them(typed: str, metres: float) -> None:
    assert parse_length(typed, US) == pytest.approx(metres)


@given(AMOUNTS, st.sampled_from(sorted(set(METRES) - {"'", '"'})), SYSTEMS, st.booleans())
def test_a_length_with_a_unit_reads_the_same_in_any_garden(
    amount: str, unit: str, units: Units, spaced: bool
) -> None:
    typed = f"{amount}{' ' if spaced else ''}{unit}"
    assert parse_length(typed, units) == pytest.approx(float(amount) * METRES[unit])


@given(AMOUNTS)
def test_a_bare_number_is_in_the_gardens_units(amount: str) -> None:
    assert parse_length(amount, US) == parse_length(f"{amount}ft", METRIC)
    assert parse_length(amount, METRIC) == parse_length(f"{amount}m", US)
    assert parse_volume(amount, US) == parse_volume(f"{amount}gal", METRIC)
    assert parse_volume(amount, METRIC) == parse_volume(f"{amount}L", US)


@given(st.floats(0.01, 900), SYSTEMS)
def test_a_shown_length_reads_back_to_what_it_was(metres: float, units: Units) -> None:
    shown = show_length(metres, units)
    step = 0.005
    if units is US and metres > 0.3:
        step = 0.5 * METRES["ft" if metres > 30 else "in"]
    assert parse_length(shown, units) == pytest.approx(metres, abs=step + 1e-9)


@given(st.floats(0.01, 900), SYSTEMS)
def test_a_shown_volume_reads_back_to_what_it_was(litres: float, units: Units) -> None:
    """One figure after the point of the unit shown; whole millilitres."""
    shown = show_volume(litres, units)
    unit = shown.split(" ", 1)[1].replace(" ", "").casefold()
    step = (1.0 if unit == "ml" else 0.1) * LITRES[unit]
    assert parse_volume(shown, units) == pytest.approx(litres, abs=step / 2 + 1e-9)


@given(st.floats(-60, 60), SYSTEMS)
def test_a_shown_temperature_reads_back_to_the_nearest_degree(celsius: float, units: Units) -> None:
    assert parse_temperature(show_temperature(celsius, units), units) == pytest.approx(celsius, abs=0.5001)


@pytest.mark.parametrize(
    ("typed", "us", "metric"),
    [("28F", -2.222, -2.222), ("-2C", -2, -2), ("-2 °C", -2, -2), ("−2C", -2, -2), ("28", -2.222, 28),
     ("70 deg F", 21.111, 21.111), ("70f", 21.111, 21.111)],
)  # fmt: skip
def test_temperatures_are_read_as_people_write_them(typed: str, us: float, metric: float) -> None:
    assert parse_temperature(typed, US) == pytest.approx(us, abs=0.001)
    assert parse_temperature(typed, METRIC) == pytest.approx(metric, abs=0.001)


@pytest.mark.parametrize(
    ("typed", "litres"),
    [("2L", 2), ("2 litres", 2), ("250 mL", 0.25), ("3gal", 11.35624), ("8 fl oz", 0.236588)],
)
def test_volumes_are_read_as_people_write_them(typed: str, litres: float) -> None:
    assert parse_volume(typed, US) == pytest.approx(litres, rel=1e-5)


@pytest.mark.parametrize(
    "typed", ["", "tall", "-1m", "4 cubits", "4in4", "1e3m", "nan", "inf m", "4 4", "9" * 400]
)
def test_what_is_no_length_is_refused_in_a_sentence(typed: str) -> None:
    with pytest.raises(ValueError, match=r"\.$|\)\.$"):
        parse_length(typed, US)


@pytest.mark.parametrize("typed", ["", "warm", "900F", "-100C", "20K", "nan"])
def test_what_is_no_temperature_is_refused_in_a_sentence(typed: str) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        parse_temperature(typed, US)


@pytest.mark.parametrize("typed", ["", "lots", "0L", "-2L", "3 bushels", "nan"])
def test_what_is_no_volume_is_refused_in_a_sentence(typed: str) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        parse_volume(typed, US)


@pytest.mark.parametrize(
    ("metres", "us", "metric"),
    [
        (0.1016, "4 in", "10.2 cm"),
        (0.3048, "1 ft", "30.5 cm"),
        (1.6764, "5 ft 6 in", "1.68 m"),
        (0.303, "11.9 in", "30.3 cm"),
        (0.304, "1 ft", "30.4 cm"),
        (0.999, "3 ft 3 in", "99.9 cm"),
        (0.9999, "3 ft 3 in", "1 m"),
        (1.0, "3 ft 3 in", "1 m"),
    ],
)
def test_lengths_are_shown_as_gardeners_say_them(metres: float, us: str, metric: str) -> None:
    assert show_length(metres, US) == us
    assert show_length(metres, METRIC) == metric


def test_weights_are_read_and_shown_as_people_write_them() -> None:
    for typed, grams in (
        ("50g", 50),
        ("1,5 kg", 1500),
        ("2 ounces", 56.699),
        ("1lb", 453.592),
        ("2", 56.699),
    ):
        assert parse_mass(typed, US) == pytest.approx(grams, rel=1e-5)
    assert parse_mass("2", METRIC) == 2
    assert [show_mass(grams, METRIC) for grams in (12.5, 1500)] == ["12.5 g", "1.5 kg"]
    assert [show_mass(grams, US) for grams in (40, 1000)] == ["1.41 oz", "2 lb 3.3 oz"]


@pytest.mark.parametrize("typed", ["heavy", "-5g", "0g", "5 bananas", "5mL", ""])
def test_what_is_no_weight_is_refused_in_a_sentence(typed: str) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        parse_mass(typed, US)


def test_volumes_are_shown_as_gardeners_say_them() -> None:
    assert [show_volume(litres, METRIC) for litres in (0.25, 0.9999, 2.8)] == ["250 mL", "1 L", "2.8 L"]
    assert [show_volume(litres, US) for litres in (11.356, 0.9, 0.2366)] == ["3 gal", "1 qt", "8 fl oz"]


def test_a_span_names_its_unit_once_where_it_can() -> None:
    assert show_span(0.9144, 1.524, US) == "3 to 5 ft"
    assert show_span(0.08, 0.10, METRIC) == "8 to 10 cm"
    assert show_span(0.1, 0.1, METRIC) == "10 cm"
    assert show_span(0.9, 2.5, US) == "2 ft 11 in to 8 ft 2 in"


@pytest.mark.parametrize(
    ("low_m", "high_m", "us"),
    [
        (0.3, 1.8, "1 to 6 ft"),
        (0.05, 0.6, "2 in to 2 ft"),
        (0.1, 0.15, "4 to 6 in"),
        (0.02, 0.05, "0.75 to 2 in"),
        (1.0, 1.5, "3.5 to 5 ft"),
        (3.0, 3.0, "10 ft"),
    ],
)
def test_a_range_is_said_as_a_gardener_would(low_m: float, high_m: float, us: str) -> None:
    assert about_span(low_m, high_m, US) == us
    assert about_span(low_m, high_m, METRIC) == show_span(low_m, high_m, METRIC)


@given(st.floats(0.006, 40.0), st.floats(0.0, 20.0))
def test_a_rough_range_stays_close_and_in_order(low_m: float, more_m: float) -> None:
    """Within a quarter of what it says, which is as near as two hands measure."""
    said = about_span(low_m, low_m + more_m, US)
    low, _, high = said.rpartition(" to ")
    unit = said.rsplit(" ", 1)[1]
    ends = [parse_length(end if end[-1].isalpha() else f"{end} {unit}", US) for end in (low or high, high)]
    assert ends[0] <= ends[1] + 1e-9
    for said_m, true_m in zip(ends, (low_m, low_m + more_m), strict=True):
        assert abs(said_m - true_m) <= 0.25 * true_m + 0.004


def test_lengths_in_a_sentence_are_said_in_the_gardens_units() -> None:
    sentence = "Peg it 5 to 10 cm deep, 1.5 m from the path; 20 °C is no length."
    assert in_units(sentence, METRIC) == sentence
    assert in_units(sentence, US) == "Peg it 2 to 4 in deep, 5 ft from the path; 20 °C is no length."


@pytest.mark.parametrize(
    ("square_metres", "units", "said"),
    [
        (9.0, Units.METRIC, "9 m²"),
        (2.44, Units.METRIC, "2.4 m²"),
        (12.4, Units.METRIC, "12 m²"),
        (9.0, Units.US, "97 sq ft"),
        (0.0, Units.US, "0 sq ft"),
    ],
)
def test_an_area_is_said_in_the_gardens_units(square_metres: float, units: Units, said: str) -> None:
    assert show_area(square_metres, units) == said


@pytest.mark.parametrize(("unit", "grams"), [("oz", 28.34952), ("lb", 453.5924), ("kg", 1000.0), ("g", 1.0)])
def test_masses_convert_as_published(unit: str, grams: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: ounce and pound (avoirdupois), printed there to
    seven digits."""
    assert GRAMS[unit] == pytest.approx(grams, rel=2e-7)


def test_a_pound_is_defined_and_holds_sixteen_ounces() -> None:
    """0.453 592 37 kg exactly (NIST Handbook 44, appendix C)."""
    assert GRAMS["lb"] == 453.59237
    assert GRAMS["oz"] * 16 == pytest.approx(GRAMS["lb"], rel=1e-15)


@pytest.mark.parametrize(
    ("typed", "grams"),
    [
        ("13oz", 368.543800625),
        ("13 Ounces", 368.543800625),
        ("2lb", 907.18474),
        ("2 lbs.", 907.18474),
        ("1lb 4oz", 566.9904625),
        ("1 lb 4.5 oz", 581.1652240625),
        ("250g", 250.0),
        ("1,5 kg", 1500.0),
        (".5kg", 500.0),
    ],
)
def test_masses_are_read_in_either_system(typed: str, grams: float) -> None:
    for units in Units:
        assert parse_mass(typed, units) == pytest.approx(grams, rel=1e-12)


def test_a_bare_mass_is_in_the_gardens_units() -> None:
    assert parse_mass("13", US) == pytest.approx(13 * GRAMS["oz"])
    assert parse_mass("13", METRIC) == 13.0


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("heavy", "is not a weight"),
        ("", "is not a weight"),
        ("3 bananas", "has no weight unit"),
        ("3L", "has no weight unit"),
        ("0g", "must be more than nothing"),
        ("-2oz", "must be more than nothing"),
        ("0lb 0oz", "must be more than nothing"),
        ("9" * 400 + "g", "is not a weight"),
        ("9" * 400 + "lb 1oz", "is heavier than anything"),
        ("1000001kg", "is heavier than anything"),
    ],
)
def test_what_is_no_mass_is_refused_in_a_sentence(typed: str, says: str) -> None:
    for units in Units:
        with pytest.raises(ValueError, match=says):
            parse_mass(typed, units)


def test_masses_are_shown_as_scales_show_them() -> None:
    assert [show_mass(grams, METRIC) for grams in (0.0757, 7.5708, 283.6, 999.6, 1250.0)] == [
        "0.0757 g", "7.57 g", "284 g", "1 kg", "1.25 kg",
    ]  # fmt: skip
    assert [show_mass(ounces * GRAMS["oz"], US) for ounces in (0.2672, 10.014, 15.96, 16.0, 20.5, 31.99)] == [
        "0.267 oz", "10 oz", "1 lb", "1 lb", "1 lb 4.5 oz", "2 lb",
    ]  # fmt: skip


@given(st.floats(0.1, 1e6), SYSTEMS)
def test_a_mass_that_is_shown_can_be_read_again(grams: float, units: Units) -> None:
    assert parse_mass(show_mass(grams, units), units) == pytest.approx(grams, rel=6e-3, abs=0.002)
