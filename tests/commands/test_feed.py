"""The command that reckons a feed: its document, its page in both systems, and what it refuses."""

from datetime import date
from pathlib import Path

import pytest

from tests.commands.expecting import begun, misused, refused
from tests.commands.running import MAY, cuttings, demo_garden, recorded

KEYS = {"schema", "grade", "nutrient", "ppm", "dose_g", "water_l", "g_per_l", "injector_parts",
        "stock_g_per_l", "stock_l", "ec_ms_per_cm", "for_young_plants", "lot", "warnings",
        "cautions"}  # fmt: skip
HALF_STRENGTH = ("feed", "--grade", "20-10-20", "--ppm", "100")
LOW, FULL = "75 to 125 ppm of nitrogen", "Full strength"


def flowing(text: str) -> str:
    return " ".join(text.split())


def test_the_document_of_a_strength(ledger: Path) -> None:
    words = ("feed", "--grade", "20-10-20", "--ppm", "150", "--water", "100gal", "--injector", "1:200")
    document = recorded(*words, ledger=ledger).document
    assert document.keys() == KEYS
    assert document["ppm"] == pytest.approx(
        {"N": 150, "P": 32.732, "K": 124.523, "P2O5": 75, "K2O": 150}, rel=1e-4
    )
    assert document["dose_g"] == pytest.approx(283.906, rel=1e-5)
    assert document["water_l"] == pytest.approx(378.541, rel=1e-5)
    assert document["stock_g_per_l"] == pytest.approx(150.0)
    assert document["stock_l"] == pytest.approx(378.541 / 200, rel=1e-5)
    assert document["lot"] is None
    assert document["warnings"] == []
    assert len(document["cautions"]) == 2


def test_the_document_of_a_dose_is_the_inverse(ledger: Path) -> None:
    dosed = recorded(
        "feed", "--grade", "20-10-20", "--dose", "13oz", "--water", "100gal", ledger=ledger
    ).document
    assert dosed["ppm"]["N"] == pytest.approx(194.718, rel=1e-5)
    assert dosed["stock_g_per_l"] is dosed["stock_l"] is dosed["injector_parts"] is None
    ppm = str(dosed["ppm"]["N"])
    asked = recorded("feed", "--grade", "20-10-20", "--ppm", ppm, "--water", "100gal", ledger=ledger).document
    assert asked["dose_g"] == pytest.approx(13 * 28.349523125, rel=1e-5)


@pytest.mark.parametrize("named", ["P", "p2o5", "K", "K2O", "n"])
def test_a_strength_may_be_counted_in_any_nutrient(named: str, ledger: Path) -> None:
    words = ("feed", "--grade", "9-45-15", "--ppm", "50 mg/L", "--nutrient", named, "--water", "10L")
    document = recorded(*words, ledger=ledger).document
    assert document["nutrient"] == named.upper()
    assert document["ppm"][named.upper()] == pytest.approx(50.0)


def test_the_page_tells_dose_can_nutrients_stock_and_cautions(ledger: Path) -> None:
    words = ("feed", "--grade", "20-10-20", "--ppm", "150", "--water", "100gal", "--injector", "1:200")
    out = cuttings(*words, ledger=ledger).out
    text = flowing(out)
    for said in (
        "10 oz (284 g) of fertiliser in 100 gal of feed.",
        "0.2 oz (5.68 g) in 2 gal.",
        "150 ppm nitrogen, 33 ppm phosphorus and 125 ppm potassium.",
        "75 ppm phosphate (P2O5) and 150 ppm potash (K2O)",
        "For 1:200, 1 lb 4 oz to the gallon (150 g to the litre); 2 qt of it makes this feed.",
        "One part of stock in 200 parts of feed",
        "the feed is 0.5 % weaker",
        "0.6 to 1.2 mS/cm",
        FULL,
        LOW,
        "What the label says goes first.",
        "away from wells",
        "children",
    ):
        assert said in text, said
    assert max(len(line) for line in out.splitlines()) <= 80


def test_the_page_is_in_the_units_of_the_garden(metric: Path) -> None:
    text = flowing(cuttings(*HALF_STRENGTH, "--water", "200", "--injector", "0.5%", ledger=metric).out)
    assert "100 g of fertiliser in 200 L of feed." in text
    assert "5 g in 10 L." in text
    assert "For 1:200, 100 g to the litre; 1 L of it makes this feed." in text
    assert "Right for young plants" in text
    assert " oz" not in text
    assert "gal" not in text


def test_a_plain_can_of_feed_fits_the_screen_and_is_told_once(ledger: Path) -> None:
    out = cuttings(*HALF_STRENGTH, "--water", "2gal", ledger=ledger).out
    assert "0.134 oz (3.79 g) of fertiliser in 2 gal of feed." in out
    assert "A can" not in out
    assert len(out.splitlines()) <= 24


def test_a_bare_dose_is_in_the_units_of_the_garden(ledger: Path, metric: Path) -> None:
    words = ("feed", "--grade", "20-20-20", "--dose", "2", "--water", "10")
    us, si = (recorded(*words, ledger=garden).document for garden in (ledger, metric))
    assert (us["dose_g"], us["water_l"]) == (
        pytest.approx(56.699, rel=1e-5),
        pytest.approx(37.8541, rel=1e-5),
    )
    assert (si["dose_g"], si["water_l"]) == (2.0, 10.0)


def test_a_feed_that_burns_and_a_stock_that_will_not_dissolve_are_warned_of(ledger: Path) -> None:
    words = ("feed", "--grade", "20-20-20", "--ppm", "300", "--water", "10L", "--injector", "1:400")
    warnings = recorded(*words, ledger=ledger).document["warnings"]
    assert len(warnings) == 2
    assert "can burn roots" in warnings[0]
    assert "600 g to the litre" in warnings[1]
    assert flowing(cuttings(*words, ledger=ledger).out).count("Take care") == 4


def test_sources_are_told_when_asked_for(ledger: Path) -> None:
    words = (*HALF_STRENGTH, "--water", "2gal", "--injector", "1:100")
    assert "Extension" not in cuttings(*words, ledger=ledger).out
    assert "UMass Extension Greenhouse: Chart" in flowing(cuttings(*words, "--why", ledger=ledger).out)


def test_a_lot_is_fed_four_weeks_after_potting_and_not_after_late_summer(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    words = (*HALF_STRENGTH, "--water", "2gal")
    early = cuttings("feed", lot, *words[1:], ledger=ledger)
    assert f"{lot}  " in early.out
    assert "red currant: not now. From about 30 May." in flowing(early.out)
    told = [
        recorded("feed", lot, *words[1:], ledger=ledger, today=day).document["lot"]
        for day in (MAY, date(2026, 6, 20), date(2026, 9, 1))
    ]
    assert [each["now"] for each in told] == [False, True, False]
    alone = recorded("feed", lot, ledger=ledger, today=date(2026, 6, 20)).document
    assert alone["lot"] == told[1]
    assert "red currant: yes." in cuttings("feed", lot, ledger=ledger, today=date(2026, 6, 20)).out
    assert [each["from"] for each in told] == ["2026-05-30", None, "2027-05-15"]
    assert all(each["lot"] == lot and each["why"] and each["source"] for each in told)


def test_what_has_no_roots_is_not_fed(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 3))
    told = recorded("feed", lot, *HALF_STRENGTH[1:], "--water", "2gal", ledger=ledger).document["lot"]
    assert (told["now"], told["from"]) == (False, None)
    assert "Without roots" in told["why"]


def test_it_never_says_no_where_the_week_says_feed(tmp_path: Path) -> None:
    asked = 0
    for day in (date(2026, 5, 20), date(2026, 6, 20), date(2026, 7, 18)):
        garden = demo_garden(tmp_path / day.isoformat(), day)
        for nudge in recorded("week", "--minutes", "600", ledger=garden, today=day).document["nudges"]:
            if nudge["what"].startswith("Feed") and nudge["window"]["opens"] <= day.isoformat():
                words = (*HALF_STRENGTH[1:], "--water", "2gal")
                told = recorded("feed", nudge["lot"], *words, ledger=garden, today=day).document["lot"]
                assert told["now"], (day, nudge["what"])
                asked += 1
    assert asked


def test_it_writes_nothing(ledger: Path) -> None:
    before = (ledger / "ledger.jsonl").read_bytes()
    assert cuttings(*HALF_STRENGTH, "--water", "2gal", ledger=ledger).code == 0
    assert (ledger / "ledger.jsonl").read_bytes() == before


def test_it_needs_no_garden(tmp_path: Path) -> None:
    result = cuttings(*HALF_STRENGTH, "--water", "2gal", ledger=tmp_path / "none")
    assert result.code == 0
    assert "the last feed is near" not in flowing(result.out)


def test_what_is_missing_is_named_in_one_line(ledger: Path) -> None:
    misused("feed", ledger=ledger, saying=["Missing: --grade", "--ppm", "--dose", "--water"])
    misused("feed", "--grade", "20-10-20", "--dose", "1oz", ledger=ledger, saying=["Missing: --water"])
    misused("feed", "--water", "2gal", ledger=ledger, saying=["Missing: --grade", "--ppm"])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--grade", "20-10", "--ppm", "100", "--water", "2gal"), "--grade: '20-10' is not a grade"),
        (("--grade", "20-10-20", "--ppm", "lots", "--water", "2gal"), "--ppm: 'lots' is not a strength"),
        (("--grade", "20-10-20", "--ppm", "inf", "--water", "2gal"), "--ppm: inf will not do"),
        (("--grade", "20-10-20", "--ppm", "100", "--water", "2lb"), "--water: '2lb' has no volume unit"),
        (("--grade", "20-10-20", "--ppm", "100", "--water", "9" * 320 + "gal"), "--water: "),
        (("--grade", "20-10-20", "--ppm", "100", "--water", "0.001mL"), "not an amount anybody feeds with"),
        (("--grade", "20-10-20", "--dose", "2gal", "--water", "2gal"), "--dose: '2gal' has no weight unit"),
        (("--grade", "20-10-20", "--dose", "0g", "--water", "2gal"), "--dose: A weight must be more"),
        (("--grade", "20-10-20", "--ppm", "100", "--water", "2gal", "--injector", "200:1"), "--injector: "),
        (("--grade", "20-10-20", "--ppm", "100", "--water", "2gal", "--nutrient", "Mg"), "--nutrient: 'Mg'"),
        (("--grade", "20-10-20", "--ppm", "100", "--dose", "1oz", "--water", "2gal"), "give one of the two"),
        (
            ("--grade", "20-10-20", "--nutrient", "K", "--dose", "1oz", "--water", "2gal"),
            "give one of the two",
        ),
    ],
)
def test_what_cannot_be_read_is_misuse(words: tuple[str, ...], says: str, ledger: Path) -> None:
    misused("feed", *words, ledger=ledger, saying=[says])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--grade", "0-52-34", "--ppm", "100", "--water", "2gal"), "holds no nitrogen"),
        (("--grade", "46-0-0", "--ppm", "9", "--nutrient", "K", "--water", "2gal"), "holds no potassium"),
        (("--grade", "20-10-20", "--dose", "20lb", "--water", "1gal"), "more than water can dissolve"),
        (
            ("--grade", "1-1-1", "--ppm", "200", "--water", "1gal", "--injector", "1:200"),
            "each litre of stock",
        ),
        (("26-999", "--grade", "20-10-20", "--ppm", "100", "--water", "2gal"), "There is no lot '26-999'"),
    ],
)
def test_what_the_facts_do_not_allow_is_refused(words: tuple[str, ...], says: str, ledger: Path) -> None:
    refused("feed", *words, ledger=ledger, saying=[says])
