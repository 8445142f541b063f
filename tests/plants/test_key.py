"""The key of questions: it narrows the catalogue and never shuts the right plant out."""

import random

import pytest

from cuttings.plants.key import BY_NAME, FEW, QUESTIONS, expected_left, narrowed, next_question, to_tell_apart
from cuttings.plants.model import Looks, Plant
from cuttings.plants.standard import standard
from cuttings.words import PlantType

PLANTS = to_tell_apart(standard())


def answered(plant: Plant, chance: random.Random) -> tuple[list[Plant], int]:
    """What is left when somebody with the plant in hand answers truly, and after how many questions."""
    left, answers, asked = PLANTS, dict[str, str](), list[str]()
    while (question := next_question(left, asked)) is not None:
        asked.append(question.name)
        seen = sorted(question.seen(plant))
        if seen:
            answers[question.name] = chance.choice(seen)
            left = narrowed(PLANTS, answers)
    return left, len(asked)


def test_true_answers_never_shut_the_right_plant_out_and_narrow_the_rest() -> None:
    """All plants of the catalogue, each held in the hand once: the right one is always left, and half of them
    are then among fifteen or fewer."""
    chance = random.Random(20261125)
    sizes = []
    for plant in PLANTS:
        left, questions = answered(plant, chance)
        assert plant in left
        assert questions <= len(QUESTIONS)
        sizes.append(len(left))
    sizes.sort()
    middle, most = sizes[len(sizes) // 2], sizes[len(sizes) * 9 // 10]
    print(f"{len(sizes)} plants; left in the middle case {middle}, in nine of ten {most} or fewer")
    assert middle <= 15


def test_an_answer_shuts_out_what_it_contradicts_and_keeps_what_nobody_entered() -> None:
    minty = Plant("Primus", PlantType.HERB, looks=Looks(leaves=("opposite",), stem="square", smell="of mint"))
    daisy = Plant("Secundus", PlantType.PERENNIAL, looks=Looks(leaves=("basal", "alternate"), petals=(8,)))
    blank = Plant("Tertius", PlantType.PERENNIAL)
    plants = [blank, daisy, minty]
    assert narrowed(plants, {"leaves": "opposite"}) == [minty, blank]
    assert narrowed(plants, {"leaves": "basal"}) == [daisy, blank]
    assert narrowed(plants, {"stem": "square", "smell": "mint"}) == [minty, blank]
    assert narrowed(plants, {"petals": "8"}) == [daisy, blank, minty]
    assert narrowed(plants, {"grows": "fern"}) == []


@pytest.mark.parametrize(
    ("name", "answers"),
    [
        ("Acer platanoides", {"leaves": "opposite", "leaf": "lobed", "sap": "milky"}),
        ("Monarda didyma", {"leaves": "opposite", "stem": "square"}),
        ("Parthenocissus quinquefolia", {"grows": "climbing", "leaf": "compound"}),
        ("Galanthus nivalis", {"below": "bulb", "leaf": "strap"}),
        ("Rubus idaeus", {"prickles": "yes", "leaf": "compound"}),
        ("Iris sibirica", {"leaf": "strap", "below": "rhizome"}),
        ("Cornus sericea", {"leaves": "opposite", "leaf": "simple", "petals": "4"}),
        ("Convallaria majalis", {"below": "rhizome", "leaves": "basal"}),
        ("Allium schoenoprasum", {"smell": "onion"}),
        ("Rosa rugosa", {"prickles": "yes", "petals": "5", "leaf": "compound"}),
    ],
)
def test_well_known_plants_are_left_by_what_anybody_can_see_on_them(
    name: str, answers: dict[str, str]
) -> None:
    """Common practice: the first things a flora's key asks of them."""
    names = [plant.name for plant in narrowed(PLANTS, answers)]
    assert name in names
    assert len(names) < len(PLANTS) / 3


def test_every_word_of_the_records_is_an_answer() -> None:
    for question in QUESTIONS:
        offered = {answer.value for answer in question.answers}
        for plant in standard():
            assert question.seen(plant) <= offered, f"{plant.name}: {question.seen(plant)}"


def test_the_next_question_is_the_one_that_leaves_fewest() -> None:
    first = next_question(PLANTS, [])
    assert first is not None
    assert all(expected_left(first, PLANTS) <= expected_left(other, PLANTS) for other in QUESTIONS)
    assert next_question(PLANTS[:FEW], []) is None
    assert next_question(PLANTS, BY_NAME) is None
