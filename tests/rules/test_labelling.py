"""What a label says: names as the code of nomenclature has them, in the lines of the smallest label."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttings.plants.standard import standard
from cuttings.rules.labelling import LABEL_LINES, LABEL_WIDTH, formal_name, label, name_forms
from cuttings.words import Method

DAY = date(2026, 5, 12)
LONGEST = max(Method, key=lambda method: len(method.spoken))


def lines_of(name: str, mother: str = "the old hedge", method: Method = LONGEST) -> tuple[str, ...]:
    return label(name, "26-014", method, DAY, mother).lines


def test_a_label_says_what_how_when_and_from_where() -> None:
    box = label("Buxus sempervirens", "26-014", Method.SIMPLE_LAYER, DAY, "by the gate")
    assert box.lines == ("Buxus sempervirens", "26-014  simple layer", "12 May 2026", "from by the gate")
    assert box.text == "Buxus sempervirens / 26-014 simple layer / 12 May 2026 / from by the gate"
    assert box.code_and_name == "26-014 Buxus sempervirens"


@pytest.mark.parametrize(
    ("typed", "formal"),
    [
        ("Heuchera \u2018Plum Pudding\u2019", "Heuchera 'Plum Pudding'"),
        ('Heuchera "Plum Pudding"', "Heuchera 'Plum Pudding'"),
        ("Anemone x hybrida", "Anemone × hybrida"),
        ("x Fatshedera lizei", "× Fatshedera lizei"),
        ("Phlox", "Phlox"),
        ("Culver's root", "Culver's root"),
        ("Hydrangea anomala ssp. petiolaris", "Hydrangea anomala subsp. petiolaris"),
        ("Hydrangea anomala subspecies petiolaris", "Hydrangea anomala subsp. petiolaris"),
        ("Juniperus communis var depressa", "Juniperus communis var. depressa"),
        ("Fagus sylvatica forma purpurea", "Fagus sylvatica f. purpurea"),
        ("Fagus sylvatica f. purpurea", "Fagus sylvatica f. purpurea"),
        ("Rhododendron Exbury Group", "Rhododendron Exbury Group"),
    ],
)
def test_names_are_written_as_the_code_has_them(typed: str, formal: str) -> None:
    assert formal_name(typed) == formal
    assert formal_name(formal) == formal


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        ("Hydrangea anomala subsp. petiolaris", ("Hydrangea anomala", "subsp. petiolaris")),
        ("Symphyotrichum novae-angliae", ("Symphyotrichum", "novae-angliae")),
        ("Eriocapitella × hybrida 'Orchard Edge'", ("Eriocapitella × hybrida", "'Orchard Edge'")),
        ("Helictotrichon sempervirens × Helictotrichon pratense",
         ("Helictotrichon", "sempervirens × H. pratense")),
        ("Symphyotrichum novae-angliae 'Wind on the Far Hill'", ("Symphyotrichum 'Wind on", "the Far Hill'")),
        ("× Crataemespilus grandiflora 'By the Wide North Wall'",
         ("× Crataemespilus 'By the", "Wide North Wall'")),
    ],
)  # fmt: skip
def test_a_long_name_is_broken_or_shortened_by_rule(name: str, lines: tuple[str, ...]) -> None:
    assert lines_of(name)[:-3] == lines


def test_without_a_mother_the_name_has_her_line_too() -> None:
    name = "Symphyotrichum novae-angliae 'Wind on the Far Hill'"
    assert "novae-angliae" not in " ".join(lines_of(name))
    assert "novae-angliae" in " ".join(lines_of(name, mother=""))
    assert len(lines_of(name, mother="")) == LABEL_LINES


def test_every_name_of_the_catalogue_is_whole_on_the_smallest_label() -> None:
    names = [plant.name for plant in standard()]
    assert len(names) > 900
    for name in names:
        lines = lines_of(name)
        assert len(lines) <= LABEL_LINES, name
        assert all(len(line) <= LABEL_WIDTH for line in lines), lines
        assert " ".join(lines[:-3]) == formal_name(name), lines


def test_every_name_of_the_catalogue_is_told_with_a_cultivar_of_three_words() -> None:
    for plant in standard():
        if "'" in plant.name or plant.name.endswith("Group"):
            continue
        lines = lines_of(f"{plant.name} 'Quarry Bank Early'")
        name = " ".join(lines[:-3])
        assert name.startswith(plant.name.split()[0]), lines
        assert name.endswith("'Quarry Bank Early'"), lines
        assert len(lines) <= LABEL_LINES
        assert all(len(line) <= LABEL_WIDTH for line in lines), lines


def test_the_shorter_forms_keep_the_genus_once_and_the_cultivar() -> None:
    assert name_forms("Buxus sempervirens × Buxus microphylla 'Gate'") == (
        "Buxus sempervirens × Buxus microphylla 'Gate'",
        "Buxus sempervirens × B. microphylla 'Gate'",
        "Buxus 'Gate'",
    )
    assert name_forms("Phlox") == ("Phlox",)


@given(st.text(max_size=80), st.text(max_size=80))
def test_a_label_always_fits_and_carries_no_control_codes(name: str, mother: str) -> None:
    lines = lines_of(name, mother, Method.SEMI_RIPE_CUTTING)
    assert len(lines) <= LABEL_LINES
    assert all(len(line) <= LABEL_WIDTH and line.isprintable() for line in lines)


def test_a_mother_in_many_words_takes_the_lines_that_are_left() -> None:
    lines = lines_of("Ribes rubrum", "the currant by the gate", Method.SIMPLE_LAYER)
    assert lines[-2:] == ("from the currant by the", "gate")
    assert lines_of("Ribes rubrum", "the " * 40)[-1].endswith("…")
