"""What to do otherwise: each sentence follows from what the ledger holds; a good year is left in peace."""

import pytest

from cuttings.demo.story import Story
from cuttings.ledger import entries as e
from cuttings.plants.standard import standard
from cuttings.takes.figures import rooting_figure
from cuttings.takes.year_lessons import MOST_LESSONS, REMEDIES, Lesson
from cuttings.words import Cause, Cover, Method, Stage, Wood
from tests.takes.gardens import BOX, CLIMBER, CURRANT, IRIS, ROSEMARY, a_garden, day, told


def lessons(story: Story, year: int = 2026) -> dict[str, Lesson]:
    return {lesson.key: lesson for lesson in told(story, year).lessons}


def potted(story: Story, count: int = 10, **facts: str) -> str:
    """Box that rooted well and stands in labelled pots."""
    lot = story.strike(day("2026-05-20"), count, Wood.SOFTWOOD, where="holding bench", **BOX)
    story.check(day("2026-07-01"), lot, rooted=count)
    story.pot(day("2026-07-01"), lot, count, "4in", 0.5, "holding bench", **{"label": "box", **facts})
    return lot


def test_a_good_year_is_told_nothing() -> None:
    story = a_garden("2026-08-31")
    potted(story)
    assert lessons(story) == {}


@pytest.mark.parametrize("cause", REMEDIES)
def test_what_stems_died_of_has_its_remedy_with_the_count(cause: Cause) -> None:
    story = a_garden("2026-08-31")
    lot = potted(story)
    story.lose(day("2026-07-20"), lot, 3, Stage.POTTED, cause)
    found = lessons(story)
    assert list(found) == [cause.value]
    lesson = found[cause.value]
    assert lesson.stems == 3
    assert lesson.text.startswith("3 stems ")
    assert f"({lot} box)" in lesson.text
    assert REMEDIES[cause][0] in lesson.text
    assert (lesson.why, lesson.source) == (REMEDIES[cause][1], "common practice")


def test_frost_is_told_with_its_nights() -> None:
    story = a_garden()
    lot = potted(story)
    story.lose(day("2026-11-03"), lot, 2, Stage.POTTED, Cause.FROST)
    story.lose(day("2026-11-20"), lot, 1, Stage.POTTED, Cause.FROST)
    assert "3 stems were lost to frost on 3 November and 20 November" in lessons(story)["frost"].text


def test_a_bait_is_left_to_its_label_and_local_rules() -> None:
    story = a_garden()
    story.lose(day("2026-07-20"), potted(story), 3, Stage.POTTED, Cause.EATEN)
    assert "its label and local rules go first" in lessons(story)["eaten"].why


def test_a_single_stem_of_many_teaches_nothing_but_one_of_few_does() -> None:
    many, few = a_garden("2026-08-31"), a_garden("2026-08-31")
    many.lose(day("2026-07-20"), potted(many, 40), 1, Stage.POTTED, Cause.DRIED)
    few.lose(day("2026-07-20"), potted(few, 4), 1, Stage.POTTED, Cause.DRIED)
    assert lessons(many) == {}
    assert lessons(few)["dried"].text.startswith("1 stem dried up")


def test_losses_of_older_lots_count_in_the_year_they_happened() -> None:
    story = a_garden("2027-08-31")
    story.lose(day("2027-03-20"), potted(story), 3, Stage.POTTED, Cause.FROST)
    assert "frost" not in lessons(story, 2026)
    assert lessons(story, 2027)["frost"].stems == 3


def test_losses_that_nobody_explained_are_asked_after() -> None:
    story = a_garden("2026-08-31")
    story.lose(day("2026-07-20"), potted(story), 4, Stage.POTTED, Cause.UNKNOWN)
    assert "4 stems were lost and nobody knows of what" in lessons(story)["unknown"].text


def test_stems_given_up_after_weeks_without_a_look_are_told() -> None:
    story = a_garden("2026-08-31")
    lot = story.strike(day("2026-05-20"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-05-27"), lot, rooted=4, not_yet=6)
    story.lose(day("2026-08-05"), lot, 6, Stage.WAITING, Cause.DRIED)
    lesson = lessons(story)["unseen"]
    assert lesson.stems == 6
    assert "without a look for 10 weeks" in lesson.text
    assert "look every week" in lesson.text


def test_stems_given_up_after_a_look_are_not_called_unseen() -> None:
    story = a_garden("2026-08-31")
    lot = story.strike(day("2026-05-20"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-08-01"), lot, rooted=4, not_yet=6)
    story.lose(day("2026-08-05"), lot, 6, Stage.WAITING, Cause.DRIED)
    assert "unseen" not in lessons(story)


def test_nobody_is_blamed_for_not_looking_in_winter() -> None:
    story = a_garden("2027-05-31")
    lot = story.strike(day("2026-11-12"), 10, Wood.HARDWOOD, **CURRANT)
    story.lose(day("2027-04-10"), lot, 10, Stage.WAITING, Cause.DRIED)
    assert "unseen" not in lessons(story, 2027)


def test_layers_that_nobody_looked_at_are_told_when_their_time_is_over() -> None:
    story = a_garden("2028-10-31")
    layers = story.begin(e.Layer, day("2026-06-06"), 3, method=Method.SIMPLE_LAYER, **CLIMBER)
    story.strike(day("2028-08-06"), 5, Wood.SEMI_RIPE, **BOX)
    lesson = lessons(story, 2028)["unchecked"]
    assert (lesson.stems, lesson.lots) == (3, (layers,))
    assert "Scrape the soil aside" in lesson.why


def test_layers_are_left_in_peace_while_they_may_still_root() -> None:
    story = a_garden("2026-07-31")
    story.begin(e.Layer, day("2026-06-06"), 3, method=Method.SIMPLE_LAYER, **CLIMBER)
    assert lessons(story) == {}


def test_stems_that_wait_past_hope_take_up_room() -> None:
    story = a_garden()
    lot = story.strike(day("2026-05-20"), 10, Wood.SOFTWOOD, where="kitchen windowsill", **ROSEMARY)
    story.check(day("2026-06-20"), lot, rooted=6, not_yet=4)
    story.check(day("2026-08-20"), lot, not_yet=4)
    lesson = lessons(story)["past-hope"]
    assert lesson.stems == 4
    assert "4 stems have waited past hope" in lesson.text


def test_what_was_struck_out_of_season_and_failed_is_told() -> None:
    story = a_garden()
    lot = story.strike(day("2026-02-10"), 12, Wood.SEMI_RIPE, **BOX)
    story.check(day("2026-06-10"), lot, rooted=2, failed=10)
    lesson = lessons(story)["out-of-season"]
    assert lesson.stems == 10
    assert "begun on 10 February, outside its season, and 2 of 12 rooted" in lesson.text
    assert "The season for" in lesson.why


def test_what_rooted_out_of_season_is_not_found_fault_with() -> None:
    story = a_garden()
    lot = story.strike(day("2026-02-10"), 12, Wood.SEMI_RIPE, **BOX)
    story.check(day("2026-06-10"), lot, rooted=11, failed=1)
    assert lessons(story) == {}


def test_a_kind_that_surely_took_worse_than_usual_is_told_with_its_counts() -> None:
    story = a_garden()
    for on in ("2026-08-01", "2026-08-05", "2026-08-09", "2026-08-13"):
        lot = story.strike(day(on), 10, Wood.SEMI_RIPE, **BOX)
        story.check(day("2026-10-10"), lot, rooted=0, failed=10)
    lesson = lessons(story)["took-badly"]
    assert "0 of 40 took" in lesson.text
    way = standard().plant("Buxus sempervirens").way(Method.SEMI_RIPE_CUTTING)
    assert way is not None
    assert lesson.stems == 40 - round((1.0 - rooting_figure(way).mean) * 40)


def test_losses_without_a_cause_are_asked_after_where_they_are_most() -> None:
    story = a_garden("2026-08-31")
    lot = story.strike(day("2026-05-20"), 20, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-07-01"), lot, rooted=13, failed=7)
    story.lose(day("2026-07-20"), lot, 3, Stage.ROOTED, Cause.ROT)
    lesson = lessons(story)["no-cause"]
    assert lesson.text.startswith(
        f"7 of 10 stems lost have no cause written down ({lot} box): next time look"
    )
    assert lesson.stems == 7


@pytest.mark.parametrize(("failed", "rotted"), [(5, 0), (7, 8)])
def test_few_losses_without_a_cause_are_left_in_peace(failed: int, rotted: int) -> None:
    story = a_garden("2026-08-31")
    lot = story.strike(day("2026-05-20"), 20, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-07-01"), lot, rooted=20 - failed, failed=failed)
    if rotted:
        story.lose(day("2026-07-20"), lot, rotted, Stage.ROOTED, Cause.ROT)
    assert "no-cause" not in lessons(story)


def test_what_was_potted_late_and_died_in_its_pot_is_told() -> None:
    story = a_garden("2027-05-01")
    lot = story.strike(day("2026-05-20"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-10-20"), lot, rooted=10)
    story.pot(day("2026-10-25"), lot, 10, "4in", 0.5, "holding bench", label="box")
    story.lose(day("2027-03-20"), lot, 7, Stage.POTTED, Cause.WEAK)
    lesson = lessons(story, 2026)["potted-late"]
    assert lesson.stems == 7
    assert "7 of 10 of" in lesson.text
    assert "potted on 25 October 2026" in lesson.text
    assert "UMass" in lesson.source


@pytest.mark.parametrize(("on", "where"), [("2026-07-25", "holding bench"), ("2026-10-25", "cold frame")])
def test_potting_in_time_or_under_cover_is_not_blamed(on: str, where: str) -> None:
    story = a_garden("2027-05-01")
    lot = story.strike(day("2026-05-20"), 10, Wood.SOFTWOOD, **BOX)
    story.check(day("2026-07-20"), lot, rooted=10)
    story.pot(day(on), lot, 10, "4in", 0.5, where, label="box")
    story.lose(day("2027-03-20"), lot, 7, Stage.POTTED, Cause.WEAK)
    assert "potted-late" not in lessons(story, 2026)


def planted_out(*, hardened: bool, died_on: str) -> Story:
    story = a_garden()
    lot = story.strike(
        day("2026-03-10"), 8, Wood.SOFTWOOD, cover=Cover.BAG, where="kitchen windowsill", **ROSEMARY
    )
    story.check(day("2026-04-10"), lot, rooted=8)
    story.pot(day("2026-04-10"), lot, 8, "4in", 0.5, "kitchen windowsill", label="rosemary")
    source = Stage.POTTED
    if hardened:
        story.harden(day("2026-05-10"), lot, 8, [], day("2026-05-20"))
        source = Stage.READY
    story.plant(day("2026-05-21"), lot, source, "gate bed", spread_m=0.7, count=8)
    story.lose(day(died_on), lot, 5, Stage.PLANTED, Cause.WEAK)
    return story


def test_what_went_out_soft_and_died_is_told() -> None:
    lesson = lessons(planted_out(hardened=False, died_on="2026-06-02"))["not-hardened"]
    assert lesson.stems == 5
    assert "5 of 8 planted straight out of shelter died within six weeks" in lesson.text


def test_hardening_is_not_blamed_for_what_it_did_not_do() -> None:
    assert "not-hardened" not in lessons(planted_out(hardened=True, died_on="2026-06-02"))
    assert "not-hardened" not in lessons(planted_out(hardened=False, died_on="2026-09-30"))


def test_pots_without_a_label_are_counted() -> None:
    story = a_garden("2026-08-31")
    potted(story, 6, label="")
    lesson = lessons(story)["unlabelled"]
    assert (lesson.stems, lesson.text.startswith("6 stems stand in pots without a label")) == (6, True)


def test_five_lessons_at_the_most_those_about_most_stems_first() -> None:
    story = a_garden("2026-12-31")
    for number, cause in enumerate(Cause, start=2):
        lot = potted(story, 20)
        story.lose(day("2026-07-20"), lot, number, Stage.POTTED, cause)
    potted(story, 6, label="")
    iris = story.begin(e.Divide, day("2026-04-20"), 9, method=Method.CROWN_DIVISION, **IRIS)
    story.lose(day("2026-05-20"), iris, 9, Stage.ROOTED, Cause.DRIED)
    found = told(story).lessons
    assert len(found) == MOST_LESSONS
    assert found[0].key == "dried"
    assert [lesson.stems for lesson in found] == sorted((each.stems for each in found), reverse=True)
    assert {lesson.key for lesson in found} == {"dried", "unknown", "unlabelled", "weak", "eaten"}


def test_every_lesson_is_a_sentence_with_its_reason_and_its_source() -> None:
    story = planted_out(hardened=False, died_on="2026-06-02")
    for lesson in told(story).lessons:
        assert lesson.text.endswith(".")
        assert lesson.why.endswith(".")
        assert lesson.source
        assert str(lesson.stems) in lesson.text
        assert all(lot in lesson.text for lot in lesson.lots)
