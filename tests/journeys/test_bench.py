"""The interviews at the potting bench: what is advised and why, and what is kept of the answers."""

from pathlib import Path

import pytest

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from tests.journeys.askings import APRIL, DAY, copied
from tests.journeys.terminal import Terminal


def _last(kept: Path) -> e.Entry:
    """The entry written last."""
    return max(Ledger(kept.parent).book().entries, key=lambda entry: entry.id)


def _skip(terminal: Terminal, *prompts: str) -> None:
    for prompt in prompts:
        terminal.answer(prompt)


DETAILS = ("Which is the mother plant?", "Where do they stand now?", "Anything to remember?")


def test_a_layer_with_few_roots_is_cut_back_and_what_was_advised_is_kept_beside_what_was_done(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    words = ("find", "hydrangea petiolaris", "--method", "simple-layer", "--rooted", "--count", "2")
    with Terminal(*words, "--on", "2025-05-20", folder=tmp_path) as terminal:
        assert terminal.finish() == 0
    with Terminal("pot", "25-006", "--why", "--on", "2025-05-20", folder=tmp_path, lines=60) as terminal:
        terminal.answer("How many are potted?")
        terminal.answer("How long is the longest root?", "1.5in")
        terminal.wait_for("Roots of 1.5 in are long enough; 1 in is the least. Source: University of Minn")
        terminal.answer("How wide are the roots across?", "1.5in")
        terminal.choose("How much leaf is there")
        terminal.choose("What is the stem like?")
        terminal.wait_for("Shorten the top by about a third, to just above a bud.")
        terminal.wait_for("Source: Purdue University Plant Propagation: Care of Layered Plants.")
        terminal.asked("Which pot? [4in]")
        terminal.answer("Which pot?", "#2")
        terminal.answer("Which mix?")
        terminal.wait_for("As deep as it rooted.")
        terminal.answer("How deep?", "2in")
        terminal.answer("How many days of shade?", "<")
        terminal.answer("How deep?", "<")
        terminal.answer("Which mix?", "<")
        terminal.answer("Which pot?", "#1")
        terminal.answer("Which mix?", "gritty")
        terminal.answer("How deep?", "3in")
        terminal.answer("How many days of shade?", "3")
        terminal.answer("What does the label say?")
        terminal.wait_for("Bright shade out of the wind")
        terminal.answer("Where do they stand?", "north wall")
        terminal.answer("Anything to remember?")
        assert terminal.finish() == 0
        assert "Back into the light from 23 May, an hour or two more each day." in terminal.flowing()
        assert "First feed about 17 June, at half strength." in terminal.flowing()
    entry = _last(kept)
    assert isinstance(entry, e.Pot)
    assert (entry.pot, entry.mix, entry.shade_days, entry.where) == ("#1", "gritty", 3, "north wall")
    assert entry.root_length_m == pytest.approx(0.0381)
    assert entry.root_spread_m == pytest.approx(0.0381)
    assert entry.depth_m == pytest.approx(0.0762)
    assert dict(entry.advised) == {
        "pot": "4in",
        "mix": "potting",
        "depth": "as deep as it rooted",
        "shade days": "7",
    }
    assert Ledger(kept.parent).book().lots["25-006"].root_length_m == pytest.approx(0.0381)


def test_roots_too_short_for_the_move_are_said_to_be(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    before = kept.read_bytes()
    with Terminal("pot", "24-001", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("How many are potted?")
        terminal.answer("How long is the longest root?", "0.5in")
        terminal.wait_for("Roots of 0.5 in break in the move; wait until they reach 1 in.")
        terminal.answer("How wide are the roots across?", "<")
        terminal.answer("How long is the longest root?", "<")
        terminal.answer("How many are potted?", "<")
        terminal.corrected("There is no question before this one to go back to.")
        terminal.ctrl_c()
        assert terminal.finish() == 130
    assert kept.read_bytes() == before


def test_leaf_and_stem_tell_what_to_cut_and_what_to_hold_up(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    words = ("find", "hydrangea petiolaris", "--method", "simple-layer", "--rooted")
    with Terminal(*words, "--on", "2025-05-20", folder=tmp_path) as terminal:
        assert terminal.finish() == 0
    before = kept.read_bytes()
    with Terminal("pot", "25-006", "--on", "2025-05-20", folder=tmp_path) as terminal:
        _skip(terminal, "How many are potted?", "How long is the longest root?")
        terminal.wait_for("Look at the roots first: they should be at least 1 in long before the move.")
        _skip(terminal, "How wide are the roots across?")
        terminal.choose("How much leaf is there", "about as much as root")
        terminal.choose("What is the stem like?", "soft and green")
        terminal.wait_for("Cut off the stub of the old stem below the new roots, cleanly.")
        terminal.wait_for("open that a little more each day for a week")
        terminal.answer("Which pot?", "<")
        terminal.asked("What is the stem like?")
        terminal.keys("<")
        terminal.choose("How much leaf is there", "far more leaf than root")
        terminal.choose("What is the stem like?", "thin, it leans or rocks")
        terminal.wait_for("Shorten the top by about a third")
        terminal.wait_for("Set a thin cane before the mix goes in")
        terminal.asked("Which pot?")
        terminal.ctrl_c()
        assert terminal.finish() == 130
    assert kept.read_bytes() == before


def test_potting_on_goes_up_one_size_and_says_when_not_to(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("pot", "24-004", "--again", "--on", "2025-05-20", folder=tmp_path, lines=60) as terminal:
        terminal.answer("How many are potted?", "15")
        terminal.say("Do roots show at the holes, or hold the ball together?", "n")
        terminal.wait_for("Leave it until the roots hold the ball together")
        terminal.answer("Which pot?", "<")
        terminal.say("Do roots show at the holes, or hold the ball together?", "y")
        terminal.wait_for("The roots fill the pot and there is time to fill the next.")
        terminal.wait_for("One size up from 4in")
        terminal.asked("Which pot? [5in]")
        _skip(terminal, "Which pot?", "Which mix?")
        terminal.wait_for("As deep as it stands in its pot now")
        _skip(terminal, "How deep?", "How many days", "What does the label", "Where do they", "Anything to")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Pot)
    assert (entry.pot, entry.stems, dict(entry.advised)) == ("5in", 15, {})


def test_cuttings_are_told_how_long_how_deep_how_strong_and_how_warm(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("strike", "--on", DAY.isoformat(), folder=tmp_path, lines=60) as terminal:
        terminal.answer("Which plant?", "rosemary")
        terminal.choose("What wood is it?", "softwood")
        terminal.answer("How many cuttings?", "<")
        terminal.choose("What wood is it?", "semi-ripe")
        terminal.wait_for("Cut it 3 to 5 in long. Take thin stems; strip the lower half.")
        terminal.wait_for("Set a third to half of it into the medium")
        terminal.answer("How many cuttings?", "6")
        terminal.wait_for("It roots without; up to 3000 ppm may bring more roots, sooner.")
        terminal.answer("Rooting hormone", "1000")
        terminal.choose("Powder or liquid?", "powder")
        terminal.answer("What are they struck in?", "<")
        terminal.asked("Powder or liquid?")
        terminal.keys("<")
        terminal.answer("Rooting hormone")
        terminal.answer("What are they struck in?")
        terminal.wait_for("Bag, aired every day.")
        terminal.choose("What covers them?")
        terminal.wait_for("Roots come soonest with the medium at 64 °F to 81 °F")
        _skip(terminal, "Bottom heat?", *DETAILS)
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Strike)
    assert (entry.wood, entry.stems, entry.dip_ppm, entry.dip_form) == ("semi-ripe", 6, None, None)
    assert (entry.medium, entry.cover, entry.heat_c) == ("perlite with a little peat or coir", "bag", None)


def test_layers_are_told_which_stem_where_to_wound_it_and_how_to_keep_it_moist(
    garden: Path, tmp_path: Path
) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("layer", "--on", APRIL.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "red currant")
        terminal.choose("How is it layered?", "tip")
        terminal.wait_for("Ribes rubrum is not usually increased by tip layer")
        terminal.answer("How many stems?", "<")
        terminal.choose("How is it layered?", "mound")
        terminal.wait_for("draw loose soil round the shoots as they lengthen")
        terminal.wait_for("Water it in, and do not let it dry out all summer")
        terminal.answer("How many stems?", "5")
        _skip(terminal, *DETAILS)
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Layer)
    assert (entry.method, entry.stems) == ("mound-layer", 5)


def test_a_clump_is_told_how_many_pieces_it_gives(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("divide", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.answer("Which plant?", "Siberian iris")
        terminal.wait_for("Each piece: two to four fans with their roots")
        terminal.answer("How large is the clump?", "3")
        terminal.wait_for("Leave it whole: each piece should keep at least 2 fans, and it has 3.")
        terminal.answer("How many pieces?", "<")
        terminal.answer("How large is the clump?", "12")
        terminal.asked("How many pieces? [3]")
        terminal.answer("How many pieces?")
        _skip(terminal, *DETAILS)
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Divide)
    assert entry.stems == 3


def test_a_plant_out_of_its_season_is_not_to_be_divided_now(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    with Terminal("divide", "switch grass", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        terminal.wait_for("Take care: the next good time to divide switch grass begins about 7 April 2026.")
        terminal.answer("How large is the clump?", "30cm")
        terminal.asked("How many pieces? [4]")
        terminal.ctrl_c()
        assert terminal.finish() == 130


def test_the_bench_is_asked_in_numbered_lines_too(garden: Path, tmp_path: Path) -> None:
    kept = copied(garden, tmp_path)
    with Terminal("divide", "--plain", "--on", DAY.isoformat(), folder=tmp_path) as terminal:
        for line, after in (
            ("Siberian iris", "How large is the clump?"),
            ("30cm", "How many pieces?"),
            ("<", "How large is the clump?"),
            ("8", "Each piece keeps 2 to 4 fans; larger ones flower sooner. 4 is the most it gives."),
        ):
            terminal.wait_for_end(":")
            terminal.type(f"{line}\n")
            terminal.wait_for(after)
        terminal.wait_for_end("answer [2]:")
        for _ in range(4):
            terminal.wait_for_end(":")
            terminal.type("\n")
        assert terminal.finish() == 0
    entry = _last(kept)
    assert isinstance(entry, e.Divide)
    assert entry.stems == 2
