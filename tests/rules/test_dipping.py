"""Strengths and dilutions: what goes in is what comes out, and what cannot be made is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.plants.model import COMMON_PRACTICE, Way
from cuttings.plants.standard import standard
from cuttings.rules.dipping import (
    LEAST_MEASURED,
    MOST_MADE,
    NOTHING,
    SOAK_PPM,
    STRONGEST_PPM,
    STRONGEST_SOAK_PPM,
    CannotBeMade,
    Recommended,
    advise_dip,
    dilute,
    doubts,
    mixing,
    treatment,
)
from cuttings.rules.strengths import Parts, parse_strength, parse_wanted, plain, show_strength
from cuttings.words import DipForm, Wood

LIQUID, POWDER = DipForm.LIQUID, DipForm.POWDER
FORMS = st.sampled_from(DipForm)
STRENGTHS = st.floats(100.0, STRONGEST_PPM)
AMOUNTS = st.floats(100.0, 5000.0)


@given(FORMS, STRENGTHS, STRENGTHS, AMOUNTS)
def test_thinning_keeps_the_active_amount(form: DipForm, one: float, other: float, made: float) -> None:
    weak, strong = sorted((one, other))
    mix = dilute(form, strong, weak, made)
    assert mix.stock * mix.stock_ppm == pytest.approx(mix.made * mix.strength_ppm)
    assert mix.stock * mix.stock_ppm / 1000 == pytest.approx(mix.active_mg)
    assert mix.stock + mix.diluent == pytest.approx(made)
    assert 0 <= mix.diluent < made
    assert 0 < mix.stock <= made


@given(FORMS, STRENGTHS, STRENGTHS, AMOUNTS)
def test_a_mix_read_back_has_the_strength(form: DipForm, one: float, other: float, made: float) -> None:
    weak, strong = sorted((one, other))
    mix = dilute(form, strong, weak, made)
    assert mix.active_mg * 1000 / (mix.stock + mix.diluent) == pytest.approx(weak)
    assert Parts(mix.stock, mix.diluent).strength_ppm(strong) == pytest.approx(weak)


@given(FORMS, st.floats(1000.0, STRONGEST_PPM), st.tuples(STRENGTHS, STRENGTHS), AMOUNTS)
def test_a_stronger_dip_takes_more_stock_and_a_stronger_stock_less(
    form: DipForm, stock: float, wanted: tuple[float, float], made: float
) -> None:
    weak, strong = sorted(min(each, stock) for each in wanted)
    assert dilute(form, stock, weak, made).stock <= dilute(form, stock, strong, made).stock
    assert dilute(form, stock * 2, weak, made).stock < dilute(form, stock, weak, made).stock


@given(FORMS, STRENGTHS, STRENGTHS, AMOUNTS)
def test_thinning_twice_is_thinning_once(form: DipForm, one: float, other: float, made: float) -> None:
    weak, between = sorted((one, other))
    first = dilute(form, STRONGEST_PPM, between, made)
    then = dilute(form, between, weak, made)
    at_once = dilute(form, STRONGEST_PPM, weak, made)
    assert then.stock / made * first.stock == pytest.approx(at_once.stock)


@given(FORMS, STRENGTHS, st.floats(1.001, 100.0), AMOUNTS)
def test_nothing_is_made_stronger_than_its_stock(
    form: DipForm, stock: float, times: float, made: float
) -> None:
    with pytest.raises(CannotBeMade, match="thinning only weakens it"):
        dilute(form, stock, stock * times, made)


@given(FORMS, st.floats(max_value=0.0, allow_nan=False))
def test_nothing_is_made_of_nothing(form: DipForm, nothing: float) -> None:
    for stock, want, made in ((nothing, 100.0, 100.0), (1000.0, nothing, 100.0), (1000.0, 100.0, nothing)):
        with pytest.raises(CannotBeMade, match="must be more than nothing"):
            dilute(form, stock, want, made)
    with pytest.raises(CannotBeMade):
        dilute(form, float("nan"), 100.0, 100.0)


@given(FORMS, STRENGTHS, st.floats(1.0, 2000.0))
def test_what_cannot_be_measured_is_refused_with_what_can(form: DipForm, stock: float, times: float) -> None:
    want = stock / times
    with pytest.raises(CannotBeMade, match="less than can be measured") as refusal:
        dilute(form, stock, want, LEAST_MEASURED * times * 0.9)
    least = float(str(refusal.value).split("make at least ")[1].split()[0])
    assert dilute(form, stock, want, least).stock >= LEAST_MEASURED * 0.999
    assert least <= LEAST_MEASURED * times * 1.11


@pytest.mark.parametrize("form", DipForm)
def test_limits(form: DipForm) -> None:
    assert dilute(form, 1e6, STRONGEST_PPM, MOST_MADE[form]).made == MOST_MADE[form]
    with pytest.raises(CannotBeMade, match="stronger than any plant"):
        dilute(form, 1e6, STRONGEST_PPM + 1, 100.0)
    with pytest.raises(CannotBeMade, match="more than a bench uses"):
        dilute(form, 1e4, 1e3, MOST_MADE[form] + 1)
    with pytest.raises(CannotBeMade, match="more than a bench uses"):
        dilute(form, 1e4, 1e3, float("inf"))


@pytest.mark.parametrize("form", DipForm)
def test_a_stock_of_the_strength_wanted_is_used_as_it_is(form: DipForm) -> None:
    mix = dilute(form, 3000.0, 3000.0, 50.0)
    assert (mix.stock, mix.diluent, mix.share) == (50.0, 0.0, 1.0)


@pytest.mark.parametrize(
    ("text", "form", "ppm"),
    [
        ("2000ppm", LIQUID, 2000),
        ("2000 PPM", LIQUID, 2000),
        ("2000", LIQUID, 2000),
        ("10,000 ppm", LIQUID, 10_000),
        ("1,250.5ppm", LIQUID, None),
        ("1%", LIQUID, 10_000),
        ("0,3 %", POWDER, 3000),
        ("0.07%", LIQUID, 700),
        ("1 % w/v", LIQUID, 10_000),
        ("0.8% w/w", POWDER, 8000),
        ("500 mg/L", LIQUID, 500),
        ("10g/L", LIQUID, 10_000),
        ("2 mg/mL", LIQUID, 2000),
        ("3 g/kg", POWDER, 3000),
        ("3000mg/kg", POWDER, 3000),
        ("1,5 g/L", LIQUID, 1500),
        ("10.000ppm", LIQUID, None),
        ("3 g/kg", LIQUID, None),
        ("3 g/L", POWDER, None),
        ("1% w/w", LIQUID, None),
        ("0ppm", LIQUID, None),
        ("-5%", LIQUID, None),
        ("101%", LIQUID, None),
        ("nan", LIQUID, None),
        ("1e5ppm", LIQUID, None),
        ("1 000ppm", LIQUID, None),
        ("", LIQUID, None),
        ("5 drops", LIQUID, None),
    ],
)
def test_reading_a_strength(text: str, form: DipForm, ppm: float | None) -> None:
    if ppm is None:
        with pytest.raises(ValueError, match=r"\.$"):
            parse_strength(text, form)
    else:
        assert parse_strength(text, form) == ppm


@given(FORMS, st.integers(1, 1_000_000))
def test_every_unit_of_a_strength_shown_reads_back(form: DipForm, ppm: int) -> None:
    first, others = show_strength(ppm, form).rstrip(")").split(" (")
    for said in (first, *others.split(", ")):
        assert parse_strength(said, form) == pytest.approx(ppm, rel=0.001)


@given(st.text(max_size=20), FORMS)
def test_whatever_is_typed_is_a_strength_or_a_sentence(text: str, form: DipForm) -> None:
    try:
        wanted, refusal = parse_wanted(text, form), "."
    except ValueError as error:
        wanted, refusal = None, str(error)
    assert refusal.endswith(".")
    assert wanted is None or isinstance(wanted, Parts) or 0 < wanted <= 1e6


@pytest.mark.parametrize(
    "text", ["1:10", "1 : 10", "10:1", "1/10", "1 in 10", "1 part in 10 parts", "1 part to 10 parts"]
)
def test_a_bare_ratio_is_refused_for_it_means_two_things(text: str) -> None:
    with pytest.raises(ValueError, match="two ways"):
        parse_wanted(text, LIQUID)


@given(
    st.integers(1, 100), st.integers(0, 1000), st.sampled_from(["stock ", "of stock ", "concentrate ", ""])
)
def test_parts_are_read_where_both_are_named(stock: int, rest: int, named: str) -> None:
    for form, diluent in ((LIQUID, "water"), (POWDER, "talc")):
        said = f"{stock} parts {named}to {rest} parts {diluent}"
        assert parse_wanted(said, form) == Parts(stock, rest)
    with pytest.raises(ValueError, match="two ways"):
        parse_wanted("1 part stock to 9 parts water", POWDER)


def test_no_hormone_may_be_wanted() -> None:
    assert parse_wanted("none", LIQUID) is None


@pytest.mark.parametrize(
    ("number", "said"), [(2000.0, "2000"), (909.0909, "909.1"), (0.00123456, "0.001235"), (0.0, "0")]
)
def test_numbers_are_said_without_exponents(number: float, said: str) -> None:
    assert plain(number) == said


def way(*iba_ppm: int, difficulty: str = "easy", source: str = "a table") -> Way:
    method = Wood.SOFTWOOD.method
    low_high = (iba_ppm[0], iba_ppm[1]) if iba_ppm else None
    return Way(method, difficulty=difficulty, iba_ppm=low_high, source=source)


def test_the_plants_own_record_goes_before_the_general_one() -> None:
    advice = advise_dip(Wood.SOFTWOOD, way(1000, 3000), way(2500, 5000, source="its own"), called="box")
    assert advice.value == Recommended(2500, 2500, 5000)
    assert (advice.source, advice.sure) == ("its own", "")
    assert "softwood cuttings of box" in advice.why


def test_what_a_plant_has_only_from_its_kind_is_said_of_most_plants() -> None:
    for own in (None, way(), way(1000, 3000)):
        advice = advise_dip(Wood.SOFTWOOD, way(1000, 3000), own, called="box")
        assert advice.value == Recommended(1000, 1000, 3000)
        assert "most plants" in advice.why
        assert "box" not in advice.why


def test_a_plant_that_may_root_without_is_dipped_weakly_if_at_all() -> None:
    assert advise_dip(Wood.SOFTWOOD, way(0, 8000)).value == Recommended(1000, 0, 8000)
    assert advise_dip(Wood.SOFTWOOD, way(0, 500)).value == Recommended(500, 0, 500)


def test_no_hormone_where_it_is_of_no_use() -> None:
    assert advise_dip(Wood.SOFTWOOD, way(0, 0)).value == NOTHING
    none = advise_dip(Wood.ROOT, way())
    assert (none.value, none.source) == (NOTHING, COMMON_PRACTICE)
    assert advise_dip(Wood.SOFTWOOD, way(0, 0), soak=True).value == NOTHING


def test_an_unchecked_figure_says_so() -> None:
    assert advise_dip(Wood.SOFTWOOD, way(1000, 3000, source="from memory")).sure


@pytest.mark.parametrize("wood", Wood)
def test_every_wood_has_advice_for_any_plant(wood: Wood) -> None:
    general = standard().way(wood.method)
    quick, soak = (advise_dip(wood, general, soak=each).value for each in (False, True))
    assert quick.low <= quick.ppm <= quick.high <= STRONGEST_PPM
    assert soak == NOTHING or SOAK_PPM[0] <= soak.ppm <= SOAK_PPM[1]
    assert (quick == NOTHING) == (soak == NOTHING)


def test_the_harder_a_plant_is_to_root_the_stronger_its_soak() -> None:
    soaks = [
        advise_dip(Wood.SOFTWOOD, way(0, 3000, difficulty=each), soak=True).value.ppm
        for each in ("easy", "moderate", "hard")
    ]
    assert soaks == sorted(set(soaks))


@given(st.floats(1.0, STRONGEST_SOAK_PPM), st.floats(1.0, STRONGEST_SOAK_PPM))
def test_the_stronger_the_soak_the_shorter(one: float, other: float) -> None:
    weak, strong = (treatment(LIQUID, each, soak=True).value.hours for each in sorted((one, other)))
    assert weak is not None
    assert strong is not None
    assert weak[1] >= strong[1]


def test_a_soak_is_never_as_strong_as_a_dip() -> None:
    with pytest.raises(CannotBeMade, match="no strength to soak in"):
        treatment(LIQUID, STRONGEST_SOAK_PPM + 1, soak=True)
    assert treatment(LIQUID, STRONGEST_SOAK_PPM + 1).value.seconds == (1, 5)
    assert treatment(POWDER, 3000).value.seconds is None


def said(form: DipForm, stock: float, want: float, advised: Recommended | None = None,
         wood: Wood | None = None, *, soak: bool = False) -> str:  # fmt: skip
    return " ".join(each.value for each in doubts(dilute(form, stock, want, 500.0), advised, wood, soak=soak))


def test_doubts() -> None:
    assert said(LIQUID, 10_000, 2000) == ""
    assert "stronger than growers use" in said(LIQUID, 10_000, 2000, Recommended(500, 500, 1000))
    assert "stronger than growers use" in said(POWDER, 20_000, 12_000)
    assert "No hormone is advised" in said(LIQUID, 10_000, 500, NOTHING)
    assert "a soak's strength" in said(LIQUID, 10_000, 100)
    assert said(LIQUID, 10_000, 100, soak=True) == ""
    assert "up to 200 ppm" in said(LIQUID, 10_000, 300, soak=True)
    assert "read the label's strength" in said(LIQUID, 100_000, 2000)
    assert said(POWDER, 20_000, 2000) == ""


def test_much_alcohol_on_soft_stems_is_doubted() -> None:
    assert "burn soft stems" in said(LIQUID, 5000, 3000, wood=Wood.SOFTWOOD)
    assert "burn soft stems" in said(LIQUID, 5000, 3000)
    assert said(LIQUID, 5000, 3000, wood=Wood.HARDWOOD) == ""
    assert said(LIQUID, 5000, 2500, wood=Wood.SOFTWOOD) == ""
    assert said(POWDER, 5000, 3000, wood=Wood.SOFTWOOD) == ""


def test_mixing_says_what_harms() -> None:
    assert "dust" in mixing(POWDER).value
    assert "made with water" in mixing(LIQUID, soak=True).value
    assert "fill up" in mixing(LIQUID).value
