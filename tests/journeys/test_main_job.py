"""The whole job, from an empty ledger to a plant in its place, at the prompts and through the home screen."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from cuttings.ledger import entries as e
from cuttings.ledger.store import FILE, Ledger
from cuttings.ledger.tally import tally
from tests.journeys.terminal import Terminal

PLANT = "red currant"
FEWEST_KEYS = 12
"""More keys than this for one find, beside its name, and the find is not written down in the garden."""

GARDEN = (
    ("Latitude in degrees", "42.9"),
    ("Longitude in degrees", "-76.1"),
)
CLIMATE = (
    ("Height above the sea in feet?", "1080"),
    ("Hardiness zone", "5b"),
    ("Average last frost of spring", "05-15"),
    ("Average first frost of autumn", "09-30"),
    ("Parts of the garden", "gate strip, kitchen side, holding bench"),
)
POTTING = (
    "How many are potted?",
    "How wide are the roots across?",
    "How much leaf is there",
    "What is the stem like?",
    "Which pot?",
    "Which mix?",
    "How deep?",
    "How many days of shade?",
    "What does the label say?",
    "Where do they stand?",
    "Anything to remember?",
)


@contextmanager
def _opened(on: str, folder: Path) -> Iterator[Terminal]:
    """The ledger opened on a day, and left by its own menu."""
    with Terminal("--on", on, folder=folder, lines=50, columns=100) as terminal:
        yield terminal
        terminal.choose("What now?", "Leave the ledger")
        assert terminal.finish() == 0


def _go_on(terminal: Terminal) -> str:
    """The screen once the answer is there; then a key, and the home screen again."""
    terminal.wait_for_end("(any key to go on)")
    said = terminal.flowing()
    terminal.keys(" ")
    terminal.asked("What now?")
    return said


def _describe_the_garden(terminal: Terminal) -> None:
    terminal.wait_for("A new ledger")
    terminal.wait_for("Every date that follows rests on that")
    terminal.answer("What is the garden called?", "Quarry Bank")
    for prompt, answer in GARDEN:
        terminal.answer(prompt, answer)
    terminal.choose("Which units?", "feet, inches and Fahrenheit")
    for prompt, answer in CLIMATE:
        terminal.answer(prompt, answer)
    terminal.wait_for("Recorded Quarry Bank is described.")
    terminal.wait_for("No lots yet")


def _describe_a_site(terminal: Terminal) -> None:
    terminal.choose("What now?", "Put something right")
    terminal.wait_for("Describe a site")
    terminal.choose("What now?", "Describe a site")
    terminal.answer("What is the site called?", "fruit row")
    terminal.wait_for("So far: gate strip, kitchen side, holding bench.")
    terminal.answer("In which part of the garden?", "kitchen side")
    terminal.choose("How much light does it get?", "full sun")
    terminal.answer("How long is it", "40")
    terminal.answer("How deep is it, front to back", "6ft")
    terminal.choose("How wet is it in a normal summer?")
    terminal.choose("How does water leave it?")
    terminal.answer("Soil pH?", "6.5")
    terminal.answer("A height limit")
    terminal.choose("A path along which side")
    terminal.choose("A wall or fence along which side?")
    terminal.say("Is a black walnut near")
    terminal.say("Do children play there?")
    terminal.say("Does road salt or salt wind come there?")
    terminal.say("Do deer come there?")
    terminal.answer("What grows there already?", PLANT)
    terminal.answer("Where on it, as x,y?", "8.2,1.0")
    terminal.answer("How wide will red currant grow")
    terminal.answer("What grows there already?")
    said = _go_on(terminal)
    assert "Recorded fruit row: full sun; 40 ft by 6 ft; medium soil, good drainage; pH 6.5." in said


def _write_the_find_down(terminal: Terminal) -> int:
    """Returns the keys pressed for it, without those of the plant's name."""
    terminal.asked("What now?")
    before = terminal.pressed
    terminal.choose("What now?", "I found something rooted")
    terminal.answer("Which plant?", PLANT)
    terminal.choose("How did it come about?", "simple layer")
    terminal.answer("How many stems?", "3")
    terminal.say("Have you seen roots on them?")
    terminal.answer("Which is the mother plant?")
    terminal.answer("Where do they stand now?")
    terminal.answer("Anything to remember?")
    terminal.wait_for("Recorded 25-001: 3 stems of red currant, simple layer; 3 waiting.")
    pressed = terminal.pressed - before - len(PLANT)
    said = _go_on(terminal)
    assert "Take care Currants and gooseberries carry white pine blister rust" in said
    assert "1 lots" not in terminal.flowing()
    terminal.wait_for("3 waiting.")
    return pressed


def _look_whether_it_has_rooted(terminal: Terminal) -> None:
    terminal.choose("What now?", "I looked whether a lot has rooted")
    terminal.choose("Which lot have you looked at?", "25-001")
    terminal.wait_for("Do not pull it up to see")
    terminal.say("Is there new growth?", "y")
    terminal.say("Do they hold when touched very gently?", "y")
    terminal.say("Are roots to be seen", "y")
    terminal.say("Has any stem gone black or soft?")
    terminal.answer("How long is the longest root?", "3in")
    terminal.wait_for("That looks like: rooted. Roots can be seen, and that settles it.")
    terminal.answer("Of 3, how many have rooted?")
    terminal.answer("Anything to remember?")
    said = _go_on(terminal)
    assert "Recorded 25-001 red currant: 3 rooted. Next Pot 25-001 red currant" in said
    assert "Pot 25-001 red currant." in terminal.flowing()


def _pot_as_advised(terminal: Terminal) -> None:
    terminal.choose("What now?", "I am potting")
    terminal.choose("Which lot is to be potted?", "25-001")
    for prompt in POTTING:
        terminal.asked(prompt)
        if prompt.startswith("Which pot?"):
            terminal.wait_for("Cut off the stub of the old stem below the new roots, cleanly.")
        terminal.answer(prompt)
    said = _go_on(terminal)
    assert "Recorded 3 stems of 25-001 red currant in 6in pots of potting mix; 3 potted." in said
    assert "Advised otherwise" not in said


def _harden_off(folder: Path) -> None:
    with _opened("2025-08-28", folder) as terminal:
        terminal.choose("What now?", "I am hardening off")
        terminal.choose("Which lot?", "25-001")
        terminal.wait_for("It needs none.")
        terminal.choose("What is to be written down?", "begin with the 3 potted")
        terminal.answer("How many begin?")
        assert "Recorded 25-001 red currant: 3 hardening; day 0 of" in _go_on(terminal)
        terminal.choose("What now?", "I am hardening off")
        terminal.choose("Which lot?", "25-001")
        terminal.choose("What is to be written down?", "a day of it is done")
        assert "day 1 of" in _go_on(terminal)
    with _opened("2025-09-05", folder) as terminal:
        terminal.choose("What now?", "I am hardening off")
        terminal.choose("Which lot?", "25-001")
        terminal.choose("What is to be written down?", "it is finished")
        terminal.answer("How many are ready?")
        assert "Recorded 25-001 red currant: 3 ready." in _go_on(terminal)


def _hold_a_spot(terminal: Terminal) -> None:
    terminal.choose("What now?", "Look something up")
    terminal.choose("What now?", "Where could a lot go?")
    terminal.choose("For which lot?", "25-001")
    terminal.wait_for("Full sun suits it.")
    terminal.choose("Hold a spot for it?", "fruit row")
    said = _go_on(terminal)
    assert "is held for 25-001 red currant." in said
    assert "Next 'cuttings plant 25-001 --spot fruit-row@" in said


def _plant_at_the_held_spot(terminal: Terminal) -> None:
    terminal.choose("What now?", "I planted something")
    terminal.choose("Which lot is planted?", "25-001")
    terminal.answer("How many are planted?", "1")
    terminal.choose("Where does it go?", "held for it")
    terminal.answer("Anything to remember?")
    said = _go_on(terminal)
    assert "Recorded 1 stem of 25-001 red currant on fruit row" in said
    assert "25-001 now stands at 2 ready, 1 planted." in said


def _count_every_stem(terminal: Terminal) -> None:
    terminal.choose("What now?", "Look something up")
    terminal.wait_for("Count every stem")
    terminal.choose("What now?", "Count every stem")
    assert "balance" in _go_on(terminal)


def test_a_found_layer_is_followed_from_an_empty_ledger_to_its_place(tmp_path: Path) -> None:
    with _opened("2025-04-12", tmp_path) as terminal:
        _describe_the_garden(terminal)
        _describe_a_site(terminal)
        pressed = _write_the_find_down(terminal)
    assert pressed <= FEWEST_KEYS
    with _opened("2025-05-03", tmp_path) as terminal:
        _look_whether_it_has_rooted(terminal)
        _pot_as_advised(terminal)
    _harden_off(tmp_path)
    with _opened("2025-09-05", tmp_path) as terminal:
        _hold_a_spot(terminal)
    with _opened("2025-09-12", tmp_path) as terminal:
        _plant_at_the_held_spot(terminal)
        _count_every_stem(terminal)
    _the_ledger_tells_it_all(tmp_path / "ledger")


def _the_ledger_tells_it_all(folder: Path) -> None:
    ledger = Ledger(folder)
    book = ledger.book()
    assert (folder / FILE).exists()
    assert not ledger.damage
    assert [type(entry) for entry in book.entries] == [
        e.GardenFacts, e.SiteFacts, e.GrowingHere, e.Find, e.Check, e.Pot, e.Harden, e.Harden, e.Ready,
        e.HoldSpot, e.Plant,
    ]  # fmt: skip
    assert book.garden is not None
    assert (book.garden.name, book.garden.zone, book.garden.last_frost) == ("Quarry Bank", "5b", (5, 15))
    assert book.garden.elevation_m == pytest.approx(329.184)
    lot = book.lots["25-001"]
    assert lot.plant == "Ribes rubrum"
    assert {stage.value: count for stage, count in lot.stages.items() if count} == {"ready": 2, "planted": 1}
    held, planted = book.entries[-2], book.entries[-1]
    assert isinstance(held, e.HoldSpot)
    assert isinstance(planted, e.Plant)
    assert planted.at == (held.at,)
    assert planted.spots == (held.spot,)
    assert not book.holds
    assert [plant.lot for plant in book.sites["fruit row"].growing] == ["", "25-001"]
    assert tally(book).balanced
