"""A find nobody can name, one with an unwanted double, and the right name when it is known."""

from collections.abc import Iterator
from pathlib import Path

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from cuttings.plants.key import narrowed, next_question, to_tell_apart
from cuttings.plants.standard import standard
from tests.journeys.askings import DAY, copied
from tests.journeys.terminal import Terminal

LOT = "25-006"


def at_find(tmp_path: Path, *words: str) -> Terminal:
    return Terminal("find", *words, "--on", DAY.isoformat(), folder=tmp_path)


def end(terminal: Terminal) -> None:
    """The rest of a find, with what is offered."""
    terminal.answer("How many stems?", "2")
    terminal.say("Have you seen roots on them?")
    terminal.answer("Which is the mother plant?")
    terminal.answer("Where do they stand now?")
    terminal.answer("Anything to remember?")


def true_answers(name: str) -> Iterator[tuple[str, str]]:
    """What the key asks of somebody with that plant in hand, and what they answer in its words."""
    plants = to_tell_apart(standard())
    plant = standard().plant(name)
    left, answers, asked = plants, dict[str, str](), list[str]()
    while (question := next_question(left, asked)) is not None:
        asked.append(question.name)
        seen = sorted(question.seen(plant))
        if not seen:
            yield question.ask, "I cannot tell"
            continue
        answers[question.name] = seen[0]
        left = narrowed(plants, answers)
        yield question.ask, next(each.words for each in question.answers if each.value == seen[0])


def test_a_find_nobody_can_name_is_named_by_looking_at_it(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with at_find(tmp_path) as terminal:
        terminal.answer("Which plant?", "?")
        for question, words in true_answers("Buxus sempervirens"):
            terminal.choose(question.split("(")[0], words)
        terminal.wait_for("A key cannot make sure")
        terminal.choose("Which could it be?", "Buxus sempervirens")
        terminal.choose("How did it come about?", "simple layer")
        end(terminal)
        assert terminal.finish() == 0
    assert Ledger(kept.parent).book().lots[LOT].plant == "Buxus sempervirens"


def test_a_find_that_stays_unknown_is_kept_under_a_name_for_now(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    plants = to_tell_apart(standard())
    first = next_question(plants, [])
    assert first is not None
    with at_find(tmp_path, "?") as terminal:
        asked: list[str] = []
        while (question := next_question(plants, asked)) is not None:
            asked.append(question.name)
            terminal.choose(question.ask.split("(")[0], "I cannot tell")
        terminal.choose("Which could it be?", "none of these")
        terminal.choose("What kind of plant is it?", "shrub")
        terminal.answer("What shall it be called for now?")
        terminal.choose("How did it come about?", "seedling")
        end(terminal)
        assert terminal.finish() == 0
        assert "2 seedlings of unknown shrub" in terminal.flowing()
    assert Ledger(kept.parent).book().lots[LOT].plant == "unknown shrub"


def test_a_double_is_shown_and_not_written_down(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with at_find(tmp_path, "Virginia creeper") as terminal:
        terminal.choose("How did it come about?", "simple layer")
        terminal.wait_for("Look twice: Poison ivy")
        terminal.choose("Which is it?", "poison ivy")
        assert terminal.finish() == 1
        assert "Nothing was recorded, since it is poison ivy." in terminal.flowing()
    assert kept.read_bytes() == before


def test_a_plant_that_was_found_before_is_not_asked_about_again(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    for again in (False, True):
        with at_find(tmp_path, "Virginia creeper") as terminal:
            terminal.choose("How did it come about?", "simple layer")
            if not again:
                terminal.choose("Which is it?")
            end(terminal)
            assert terminal.finish() == 0
            assert ("Look twice" in terminal.flowing()) is not again
    assert all("May yet" not in lot.origin.note for lot in Ledger(kept.parent).book().lots.values())


def test_who_cannot_tell_a_double_has_the_doubt_noted(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with at_find(tmp_path, "Virginia creeper") as terminal:
        terminal.choose("How did it come about?", "simple layer")
        terminal.choose("Which is it?", "I cannot tell yet")
        end(terminal)
        assert terminal.finish() == 0
    start = Ledger(kept.parent).book().lots[LOT].origin
    assert isinstance(start, e.Find)
    assert "May yet turn out to be poison ivy" in start.note


def test_a_plant_is_looked_up_at_a_prompt_by_its_name_or_by_looking_at_it(tmp_path: Path) -> None:
    with Terminal("plants", "--ask", folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "blumph")
        terminal.corrected("No plant called 'blumph' is in the catalogue")
        terminal.answer("Which plant?", "?")
        for question, words in true_answers("Buxus sempervirens"):
            terminal.choose(question.split("(")[0], words)
        terminal.choose("Which could it be?", "Buxus sempervirens")
        assert terminal.finish() == 0
        assert "'cuttings find \"Buxus sempervirens\"' writes down a find." in terminal.flowing()
