"""Cleaning: the sums of a soak, and that no way to clean comes without its source and its caution."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.rules.cleaning import CAUTIONS, CLEANERS, REMINDER, bleach_soak


@given(st.floats(0.01, 1000), st.floats(1, 20))
def test_a_soak_is_made_up_whole_and_stronger_bleach_takes_less(litres: float, percent: float) -> None:
    soak = bleach_soak(litres, percent)
    assert soak.bleach_l > 0
    assert soak.water_l > 0
    assert soak.bleach_l + soak.water_l == pytest.approx(litres)
    assert bleach_soak(litres, min(percent * 1.1, 20)).bleach_l <= soak.bleach_l * (1 + 1e-9)


@pytest.mark.parametrize(
    ("litres", "percent", "says"),
    [(0, 5.25, "more than nothing"), (-1, 5.25, "more than nothing"), (float("nan"), 5.25, "more than"),
     (1, 0.3, "its label tells"), (1, 50, "its label tells"), (1, float("nan"), "its label tells")],
)  # fmt: skip
def test_a_soak_that_cannot_be_is_refused(litres: float, percent: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        bleach_soak(litres, percent)


def test_every_way_names_its_source_and_what_it_is_for() -> None:
    assert all(each.source and each.uses and each.how for each in CLEANERS)
    assert all(each.strength or each.celsius for each in CLEANERS)


def test_what_hurts_is_said() -> None:
    said = " ".join(caution.text.casefold() for caution in CAUTIONS)
    for word in (
        "never mix",
        "gloves",
        "windows",
        "label",
        "children",
        "burns",
        "scald",
        "rinse",
        "storm drain",
    ):
        assert word in said
    assert all(caution.source for caution in CAUTIONS)


def test_the_reminder_tells_the_figures_in_one_line() -> None:
    assert all(word in REMINDER for word in ("70 %", "10 minutes", "1 part bleach to 9", "nothing else"))
    assert len(REMINDER) <= 100
