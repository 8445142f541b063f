"""The mother plants of the garden: what grows on its sites, the established ones first."""

from datetime import date

from cuttings.nudges.stock import Mother, mother_plants
from cuttings.plants.standard import standard
from tests.nudges.gardens import book_of, garden, grows

MAY = date(2026, 5, 2)


def test_the_established_ones_stand_first_and_the_young_are_told() -> None:
    story = garden()
    grows(story, "gate bed", "Ribes rubrum", planted=date(2025, 6, 1))
    grows(story, "fruit row", "Ribes rubrum", "Ribes rubrum")
    grows(story, "herb corner", "Ribes nigrum")
    found = mother_plants(book_of(story, MAY), standard(), "Ribes rubrum", MAY)
    assert found == (
        Mother("fruit row", "red currant", 2, young=False),
        Mother("gate bed", "red currant", 1, young=True),
    )
    assert found[0].spoken == "red currant on the fruit row"


def test_a_cultivar_is_a_mother_of_its_species_but_not_the_other_way_round() -> None:
    story = garden()
    grows(story, "gate bed", "Ribes rubrum 'Early'")
    book = book_of(story, MAY)
    assert [each.site for each in mother_plants(book, standard(), "Ribes rubrum", MAY)] == ["gate bed"]
    assert not mother_plants(book, standard(), "Ribes rubrum 'Late'", MAY)
    assert not mother_plants(book, standard(), "Ribes", MAY)
