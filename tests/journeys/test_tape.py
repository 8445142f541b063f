"""Finding a place again by tape, as a person does it at a terminal."""

from pathlib import Path

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from tests.journeys.askings import DAY, copied
from tests.journeys.terminal import CTRL_C, Terminal

ON = ("--on", DAY.isoformat())


def test_a_mark_is_taped_from_a_site_and_a_wrong_tape_asked_for_again(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("mark", "snowdrop", *ON, folder=tmp_path, columns=80) as terminal:
        terminal.choose("What is to be done there?", "lift it")
        terminal.answer("When, if you know better than the rules?")
        terminal.answer("Where is it?", "gate bed, at the back")
        terminal.answer("Tape from two fixed points", "A=10ft6in B=2ft")
        terminal.choose("On which site's plan are A and B?", "gate bed")
        terminal.wait_for("The tapes do not meet: together they are 12 ft 6 in long")
        terminal.answer("The two distances again?", "A=10ft6in B=40ft")
        terminal.corrected("the tape from B is")
        terminal.answer("The two distances again?", "A=10ft6in, B=10ft")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
        said = terminal.flowing()
    assert "By tape 10 ft 1 in along and 2 ft 10 in back, to the left of the line from A to B" in said
    assert "only that one lies on gate bed" in said
    mark = Ledger(kept.parent).book().open_marks()[-1]
    assert (mark.tape, mark.site, mark.side) == ("A=10ft6in, B=10ft", "gate bed", "left")


def test_a_position_asked_for_may_be_answered_by_tape(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("sites", "growing", "gate bed", "box", *ON, folder=tmp_path, columns=80) as terminal:
        terminal.answer("Where on it, as x,y?", "A=1m B=2m")
        terminal.corrected("The tapes do not meet")
        terminal.answer("Where on it, as x,y?", "A=4m C=3m")
        terminal.corrected("gate bed has no point C to measure from (it has A, B)")
        terminal.answer("Where on it, as x,y?", "A=5ft B=16ft")
        terminal.answer("How wide will box grow")
        assert terminal.finish() == 0
    plant = Ledger(kept.parent).book().sites["gate bed"].growing[-1]
    assert (plant.x, plant.y) == (1.21, 0.92)


def test_the_side_alone_is_asked_for_and_ctrl_c_there_records_nothing(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    words = ("mark", "snowdrop", "--for", "lift", "--tape", "oak=3m elm=4m", "--apart", "5m", *ON)
    before = kept.read_bytes()
    with Terminal(*words, folder=tmp_path, columns=80) as terminal:
        terminal.asked("Left or right of the line from oak to elm?")
        terminal.keys(CTRL_C)
        assert terminal.finish() == 130
    assert kept.read_bytes() == before
    with Terminal(*words, folder=tmp_path, columns=80) as terminal:
        terminal.choose("Left or right of the line from oak to elm?", "right")
        assert terminal.finish() == 0
    mark = Ledger(kept.parent).book().open_marks()[-1]
    assert isinstance(mark, e.Mark)
    assert (mark.at, mark.side) == ((1.8, -2.4), "right")
