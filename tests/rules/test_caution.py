import pytest

from cuttings.plants.model import Caution, Plant
from cuttings.rules.caution import (
    BURIED_LINES,
    HEAVY_CLUMPS,
    HORMONE,
    POTTING_MIX,
    SOIL_PESTS,
    Task,
    cautions,
    general_cautions,
)
from cuttings.words import PlantType

POISON = Caution("poison", "Every part is poisonous.")
PATENT = Caution("patent", "Some cultivars are patented.")
ODD = Caution("something else", "It bites.")
SPURGE = Plant("Euphorbia", PlantType.PERENNIAL, cautions=(POISON, PATENT, ODD))


def test_poison_matters_whenever_it_is_handled() -> None:
    assert POISON in cautions(SPURGE, Task.STRIKE)
    assert POISON not in cautions(SPURGE, Task.MARK)


def test_patents_matter_when_it_is_increased_or_given() -> None:
    assert PATENT in cautions(SPURGE, Task.STRIKE)
    assert PATENT in cautions(SPURGE, Task.GIVE)
    assert PATENT not in cautions(SPURGE, Task.POT)


@pytest.mark.parametrize("task", Task)
def test_a_caution_of_an_unknown_kind_is_always_shown(task: Task) -> None:
    assert ODD in cautions(SPURGE, task)


def test_general_cautions_come_with_their_tasks() -> None:
    assert HORMONE in general_cautions(Task.STRIKE)
    assert POTTING_MIX in general_cautions(Task.POT)
    assert {BURIED_LINES, HEAVY_CLUMPS} <= set(general_cautions(Task.DIVIDE))
    assert BURIED_LINES in general_cautions(Task.PLANT)
    assert SOIL_PESTS in general_cautions(Task.GIVE)
    assert general_cautions(Task.MARK) == ()


def test_the_powder_defers_to_its_label() -> None:
    assert "label" in HORMONE.text
