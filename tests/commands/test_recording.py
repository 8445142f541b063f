"""Every command that writes an entry, option by option."""

import random
from collections.abc import Mapping
from pathlib import Path

import pytest

from cuttings.ledger.store import Ledger
from cuttings.words import Cause, LayerHow, Method, Purpose, Wood
from tests.commands.expecting import RECORDING, begun, last_entry, misused, refused, standing
from tests.commands.running import cuttings, recorded


@pytest.mark.parametrize("method", list(Method))
def test_a_find_waits_unless_it_came_with_roots_of_its_own(method: Method, ledger: Path) -> None:
    result = recorded("find", "red currant", "--method", method.value, "--count", "3", ledger=ledger)
    came_rooted = method.value.endswith(("-division", "offset"))
    assert result.document.keys() == RECORDING
    assert result.stages == {"rooted" if came_rooted else "waiting": 3}
    assert recorded("card", result.lot, ledger=ledger).document["method"] == method.value


def test_a_find_seen_with_roots_stands_as_rooted(ledger: Path) -> None:
    result = recorded("find", "red currant", "--method", "simple-layer", "--rooted", ledger=ledger)
    assert result.stages == {"rooted": 1}


def test_a_find_keeps_every_detail(ledger: Path, tmp_path: Path) -> None:
    photo = tmp_path / "find.JPG"
    photo.write_bytes(b"a picture")
    lot = recorded("find", "red currant", "--method", "simple-layer", "--count", "4", "--rooted", "--mother",
                   "the old currant by the gate", "--where", "gate strip", "--note", "under the leaves",
                   "--photo", str(photo), ledger=ledger).lot  # fmt: skip
    entry = last_entry(ledger, lot)
    assert entry["kind"] == "find"
    assert (entry["mother"], entry["where"]) == ("the old currant by the gate", "gate strip")
    assert entry["note"] == "under the leaves"
    assert (ledger / entry["photo"]).read_bytes() == b"a picture"


@pytest.mark.parametrize("wood", list(Wood))
def test_cuttings_of_every_wood_wait(wood: Wood, ledger: Path) -> None:
    result = recorded("strike", "red currant", "--wood", wood.value, "--count", "5", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 5}


@pytest.mark.parametrize(
    ("dip", "form", "cover"),
    [
        ("3000", "powder", "bag"),
        ("none", "liquid", "none"),
        ("1000", "liquid", "frame"),
        ("500", "powder", "mist"),
    ],
)
def test_a_strike_keeps_every_detail(dip: str, form: str, cover: str, ledger: Path) -> None:
    lot = recorded("strike", "red currant", "--wood", "softwood", "--count", "5", "--dip", dip, "--dip-form",
                   form, "--medium", "half perlite", "--cover", cover, "--heat", "70F", "--where",
                   "kitchen windowsill", ledger=ledger).lot  # fmt: skip
    entry = last_entry(ledger, lot)
    assert entry.get("dip_ppm") == (None if dip == "none" else int(dip))
    assert entry.get("dip_form") == (None if dip == "none" else form)
    assert entry["medium"] == "half perlite"
    assert entry.get("cover", "none") == cover
    assert entry["heat_c"] == pytest.approx((70 - 32) / 1.8)


@pytest.mark.parametrize(
    ("typed", "in_f", "in_c"), [("70F", 21.111, 21.111), ("21C", 21, 21), ("-2C", -2, -2), ("28", -2.222, 28)]
)
def test_temperatures_are_read_in_either_system(
    typed: str, in_f: float, in_c: float, ledger: Path, metric: Path
) -> None:
    for folder, celsius in ((ledger, in_f), (metric, in_c)):
        words = ("strike", "red currant", "--wood", "root", "--count", "1", "--heat", typed)
        lot = recorded(*words, ledger=folder).lot
        assert last_entry(folder, lot)["heat_c"] == pytest.approx(celsius, abs=0.001)


@pytest.mark.parametrize("how", list(LayerHow))
def test_layers_of_every_kind_wait(how: LayerHow, ledger: Path) -> None:
    result = recorded("layer", "red currant", "--how", how.value, "--count", "2", "--mother", "by the gate",
                      "--where", "gate strip", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 2}
    assert recorded("layer", "red currant", "--how", how.value, ledger=ledger).stages == {"waiting": 1}


def test_the_pieces_of_a_clump_start_rooted(ledger: Path) -> None:
    result = recorded("divide", "Siberian iris", "--pieces", "5", "--mother", "the wet bank clump",
                      "--where", "holding bench", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"rooted": 5}


@pytest.mark.parametrize("purpose", list(Purpose))
def test_a_mark_is_made_for_every_purpose(purpose: Purpose, ledger: Path, tmp_path: Path) -> None:
    photo = tmp_path / "mark.png"
    photo.write_bytes(b"a picture")
    words = ("mark", "snowdrop", "--for", purpose.value, "--when", "when the leaves are yellow", "--tape",
             "A=3.20m B=4.75m", "--photo", str(photo))  # fmt: skip
    document = recorded(*words, ledger=ledger).document
    assert document.keys() >= RECORDING
    listed = cuttings("mark", "--list", "--json", ledger=ledger).document["marks"]
    assert [(mark["for"], mark["tape"]) for mark in listed] == [(purpose.value, "A=3.20m B=4.75m")]


def test_a_tape_that_names_one_point_twice_or_no_length_is_misuse(ledger: Path) -> None:
    for tape in ("A=3.20m", "A=3.20m A=4.75m", "A=near B=far"):
        misused("mark", "snowdrop", "--for", "lift", "--tape", tape, ledger=ledger, saying=["--tape"])


def test_a_check_moves_waiting_stems(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 6))
    result = recorded("check", lot, "--rooted", "3", "--not-yet", "2", "--failed", "1", "--root-length",
                      "10cm", "--note", "white tips", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING | {"rooting"}
    assert result.stages == {"waiting": 2, "rooted": 3, "lost": 1}
    entry = last_entry(ledger, lot)
    assert (entry["note"], entry["root_length_m"]) == ("white tips", pytest.approx(0.1))


@pytest.mark.parametrize(
    ("words", "stages"),
    [
        (("--rooted", "2"), {"waiting": 2, "rooted": 2}),
        (("--failed", "4"), {"lost": 4}),
        (("--not-yet", "4"), {"waiting": 4}),
        (("--not-yet", "1"), {"waiting": 4}),
        (("--rooted", "4"), {"rooted": 4}),
        (("--rooted", "0", "--failed", "0"), {"waiting": 4}),
    ],
)
def test_what_a_check_does_not_tell_of_still_waits(
    words: tuple[str, ...], stages: Mapping[str, int], ledger: Path
) -> None:
    lot = begun(ledger, ("waiting", 4))
    assert recorded("check", lot, *words, ledger=ledger).stages == stages


def test_a_check_that_tells_nothing_is_misuse(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    misused("check", lot, ledger=ledger, saying=["--rooted", "--not-yet", "--failed"])
    misused("check", ledger=ledger, saying=["LOT"])


def test_potting_takes_rooted_stems(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 1), ("rooted", 3))
    result = recorded("pot", lot, "--count", "2", "--pot", "4in", "--mix", "potting", "--depth", "2in",
                      "--where", "holding bench", ledger=ledger)  # fmt: skip
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 1, "rooted": 1, "potted": 2}
    entry = last_entry(ledger, lot)
    assert (entry["pot"], entry["mix"], entry["where"]) == ("4in", "potting", "holding bench")
    assert entry["depth_m"] == pytest.approx(0.0508)
    assert recorded("pot", lot, "--pot", "9cm", ledger=ledger).stages == {"waiting": 1, "potted": 3}


@pytest.mark.parametrize(
    ("pot", "litres"),
    [("#1", 2.8), ("SP4", 0.9), ("4in", None), ("9cm", None), ("2L", 2.0), ("3gal", 11.356), ("500mL", 0.5)],
)
def test_a_pot_is_named_as_growers_name_it(pot: str, litres: float | None, ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    recorded("pot", lot, "--pot", pot, ledger=ledger)
    volume = last_entry(ledger, lot)["pot_volume_l"]
    assert volume > 0
    assert litres is None or volume == pytest.approx(litres, abs=0.001)


def test_a_bare_pot_is_as_wide_as_the_garden_counts(ledger: Path, metric: Path) -> None:
    volumes = []
    for folder, bare, said in ((ledger, "4", "4in"), (metric, "9", "9cm")):
        lot = begun(folder, ("rooted", 2))
        recorded("pot", lot, "--count", "1", "--pot", bare, ledger=folder)
        volumes.append(last_entry(folder, lot)["pot_volume_l"])
        recorded("pot", lot, "--count", "1", "--pot", said, ledger=folder)
        volumes.append(last_entry(folder, lot)["pot_volume_l"])
    assert volumes[0] == volumes[1]
    assert volumes[2] == volumes[3]


def test_a_pot_that_is_none_is_misuse(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    for pot in ("bucketful", "#4", "-4in", "0"):
        misused("pot", lot, "--pot", pot, ledger=ledger, saying=["--pot"])


def test_hardening_off_is_begun_ticked_off_skipped_and_finished(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    for words, stages in (
        (("--start",), {"hardening": 3}),
        (("--day-done",), {"hardening": 3}),
        (("--skip", "too windy"), {"hardening": 3}),
        (("--finish",), {"ready": 3}),
    ):
        result = recorded("harden", lot, *words, ledger=ledger)
        assert result.document.keys() == RECORDING
        assert result.stages == stages


def test_only_one_step_of_hardening_off_is_written_at_a_time(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    misused("harden", lot, "--start", "--finish", ledger=ledger, saying=["--start"])
    refused("harden", lot, "--day-done", ledger=ledger, saying=["3 potted"])


@pytest.mark.parametrize("stage", ["rooted", "potted", "hardening", "ready"])
def test_planting_is_allowed_from_every_stage_with_roots(stage: str, ledger: Path) -> None:
    lot = begun(ledger, (stage, 2))
    result = recorded("plant", lot, "--count", "1", "--site", "Gate Bed", "--at", "1.2,0.7", ledger=ledger)
    assert result.document.keys() >= RECORDING
    assert result.stages == {stage: 1, "planted": 1}


def test_a_step_skipped_against_advice_is_warned_of_and_recorded(ledger: Path) -> None:
    rooted = begun(ledger, ("rooted", 1))
    assert "Pot " in recorded("card", rooted, ledger=ledger).document["next"]["what"]
    result = recorded("plant", rooted, "--site", "Gate Bed", ledger=ledger)
    assert result.stages == {"planted": 1}
    assert "Take care: It has not been potted" in result.err
    soft = recorded(
        "strike", "rosemary", "--wood", "softwood", "--count", "2", "--cover", "bag", ledger=ledger
    ).lot
    recorded("check", soft, "--rooted", "2", ledger=ledger)
    recorded("pot", soft, "--pot", "4in", "--where", "windowsill", ledger=ledger)
    result = recorded("plant", soft, "--count", "1", "--site", "Gate Bed", ledger=ledger)
    assert result.stages == {"potted": 1, "planted": 1}
    assert "Take care: It has not been hardened off" in result.err
    result = recorded("harden", soft, "--finish", ledger=ledger)
    assert result.stages == {"ready": 1, "planted": 1}
    assert "days of hardening off were not done" in result.err


def test_what_needs_no_step_more_is_planted_without_a_word(ledger: Path) -> None:
    lot = recorded("divide", "Siberian iris", "--pieces", "1", ledger=ledger).lot
    assert recorded("plant", lot, "--site", "Gate Bed", ledger=ledger).err == ""


def test_waiting_stems_are_not_planted_or_potted(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 3))
    refused("plant", lot, "--site", "Gate Bed", ledger=ledger, saying=["3 waiting"])
    refused("pot", lot, "--pot", "4in", ledger=ledger, saying=["3 waiting"])
    refused("harden", lot, "--start", ledger=ledger, saying=["3 waiting"])


def test_a_spot_that_was_offered_is_planted(demo: Path) -> None:
    offered = cuttings("spot", "24-006", "--json", ledger=demo).document["plan"][0]
    result = recorded("plant", "24-006", "--count", "1", "--spot", offered["spot"], ledger=demo)
    assert result.document["site"] == offered["site"]
    assert result.document["at"] == [[offered["x"], offered["y"]]]


def test_a_planting_names_a_spot_or_a_site(ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 1))
    misused("plant", lot, ledger=ledger, saying=["--site", "--spot"])
    misused(
        "plant", lot, "--site", "Gate Bed", "--spot", "gate-bed@1.00,1.00", ledger=ledger, saying=["--spot"]
    )
    refused("plant", lot, "--site", "Gate Bed", "--at", "9,9", ledger=ledger, saying=["outside"])
    refused("plant", lot, "--spot", "gate-bed@9.00,9.00", ledger=ledger, saying=["outside"])
    refused("plant", lot, "--spot", "no-such@1.00,1.00", ledger=ledger, saying=["no-such"])


def test_stems_are_given_sold_and_lost(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2), ("rooted", 2), ("potted", 4))
    gone: dict[str, int] = {}
    for words, end in (
        (("give", lot, "--count", "1", "--to", "the plant swap"), "given"),
        (("sell", lot, "--count", "2", "--price", "3.50"), "sold"),
        (("sell", lot, "--count", "1"), "sold"),
        (("lose", lot, "--count", "1", "--stage", "rooted", "--cause", "eaten"), "lost"),
    ):
        result = recorded(*words, ledger=ledger)
        gone[end] = gone.get(end, 0) + int(words[3])
        assert result.document.keys() == RECORDING
        assert {stage: result.stages.get(stage, 0) for stage in gone} == gone
    assert standing(ledger, lot) == {"waiting": 2, "rooted": 1, "given": 1, "sold": 3, "lost": 1}


@pytest.mark.parametrize("cause", list(Cause))
def test_stems_are_lost_of_every_cause(cause: Cause, ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 2))
    words = ("lose", lot, "--count", "1", "--stage", "waiting", "--cause", cause.value)
    assert recorded(*words, ledger=ledger).stages == {"waiting": 1, "lost": 1}
    assert last_entry(ledger, lot).get("cause", "unknown") == cause.value


@pytest.mark.parametrize("stage", ["waiting", "rooted", "potted", "hardening", "ready"])
def test_stems_are_lost_from_every_living_stage(stage: str, ledger: Path) -> None:
    lot = begun(ledger, (stage, 2))
    words = ("lose", lot, "--count", "2", "--stage", stage, "--cause", "frost")
    assert recorded(*words, ledger=ledger).stages == {"lost": 2}


@pytest.mark.parametrize("stage", ["given", "sold", "lost"])
def test_what_has_left_cannot_be_lost(stage: str, ledger: Path) -> None:
    lot = begun(ledger, ("rooted", 3))
    recorded("give", lot, "--count", "1", ledger=ledger)
    recorded("sell", lot, "--count", "1", ledger=ledger)
    recorded("lose", lot, "--count", "1", "--stage", "rooted", "--cause", "rot", ledger=ledger)
    refused("lose", lot, "--count", "1", "--stage", stage, "--cause", "rot", ledger=ledger)


@pytest.mark.parametrize(
    "words",
    [
        ("check", "26-001", "--rooted", "9"),
        ("check", "26-001", "--rooted", "1", "--failed", "2"),
        ("check", "26-001", "--rooted", "1", "--not-yet", "2"),
        ("check", "26-001", "--not-yet", "3"),
        ("pot", "26-001", "--count", "9", "--pot", "4in"),
        ("harden", "26-001", "--start", "--count", "9"),
        ("plant", "26-001", "--count", "9", "--site", "Gate Bed"),
        ("give", "26-001", "--count", "9"),
        ("sell", "26-001", "--count", "9"),
        ("lose", "26-001", "--count", "9", "--stage", "waiting", "--cause", "rot"),
        ("lose", "26-001", "--count", "1", "--stage", "ready", "--cause", "rot"),
    ],
    ids=" ".join,
)
def test_a_count_the_lot_does_not_hold_is_refused(words: tuple[str, ...], ledger: Path) -> None:
    begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    refused(*words, ledger=ledger, saying=["26-001" if words[0] != "check" else ""])


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("find",), ["PLANT", "--method", "simple-layer"]),
        (("strike",), ["PLANT", "--wood", "softwood|semi-ripe", "--count"]),
        (("layer",), ["PLANT", "--how", "simple|tip|mound|serpentine|air"]),
        (("divide",), ["PLANT", "--pieces"]),
        (("mark",), ["PLANT", "--for", "lift|divide|layer|take-hardwood|move|watch"]),
        (("check",), ["LOT", "--rooted", "--not-yet", "--failed"]),
        (("pot",), ["LOT", "--pot"]),
        (("harden",), ["LOT"]),
        (("plant",), ["LOT", "--site", "--spot"]),
        (("give",), ["LOT", "--count"]),
        (("sell",), ["LOT", "--count"]),
        (("lose",), ["LOT", "--count", "--stage", "--cause", "rot|dried|frost|eaten|weak|unknown"]),
        (("note",), ["LOT", "TEXT"]),
        (("card",), ["LOT"]),
        (("spot",), ["LOT"]),
        (("sites", "growing"), ["NAME", "PLANT", "--at"]),
        (("sites", "show"), ["NAME"]),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_a_missing_detail_is_misuse_that_names_every_one(
    words: tuple[str, ...], named: list[str], ledger: Path
) -> None:
    misused(*words, ledger=ledger, saying=named)
    assert cuttings(*words, ledger=ledger).err.count("\n") == 1


@pytest.mark.parametrize(
    "words",
    [
        ("nosuchcommand",),
        ("find", "red currant", "--method", "grafting"),
        ("find", "red currant", "--method", "tip-layer", "--count", "0"),
        ("find", "red currant", "--method", "tip-layer", "--count", "-1"),
        ("find", "red currant", "--method", "tip-layer", "--count", "1.5"),
        ("find", "red currant", "--method", "tip-layer", "--photo", "no/such/picture.jpg"),
        ("find", "red currant", "--method", "tip-layer", "--nonsense"),
        ("strike", "red currant", "--wood", "driftwood", "--count", "1"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--dip", "strong"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--cover", "blanket"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--heat", "900F"),
        ("strike", "red currant", "--wood", "hardwood", "--count", "1", "--heat", "warm"),
        ("layer", "red currant", "--how", "sideways"),
        ("divide", "Siberian iris", "--pieces", "0"),
        ("mark", "snowdrop", "--for", "fun"),
        ("check", "26-001", "--rooted", "some"),
        ("pot", "26-001", "--pot", "4in", "--depth", "deep"),
        ("give", "26-001", "--count", "none"),
        ("sell", "26-001", "--count", "1", "--price", "-1"),
        ("lose", "26-001", "--count", "1", "--stage", "asleep", "--cause", "rot"),
        ("lose", "26-001", "--count", "1", "--stage", "waiting", "--cause", "boredom"),
        ("lots", "--stage", "asleep"),
        ("plants", "--light", "candle"),
        ("plants", "--zone", "14"),
        ("plants", "--hardwood-in", "13"),
        ("plants", "--hardwood-in", "0"),
        ("plants", "--hardwood-in", "smarch"),
        ("week", "--from", "someday"),
        ("week", "--from", "2026-05-02", "--to", "2026-05-01"),
    ],
    ids=" ".join,
)
def test_what_cannot_be_read_is_misuse(words: tuple[str, ...], ledger: Path) -> None:
    begun(ledger, ("waiting", 2), ("rooted", 1), ("potted", 1))
    misused(*words, ledger=ledger)


def test_the_last_entry_or_a_named_one_is_taken_back(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    first = recorded("check", lot, "--rooted", "1", ledger=ledger).document["entry"]
    recorded("check", lot, "--rooted", "2", ledger=ledger)
    result = recorded("undo", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert (result.lot, result.stages) == (lot, {"waiting": 3, "rooted": 1})
    assert recorded("undo", first, ledger=ledger).stages == {"waiting": 4}
    refused("undo", first, ledger=ledger, saying=[first])


def test_a_lot_that_is_taken_back_whole_holds_nothing(ledger: Path) -> None:
    lot = recorded("find", "red currant", "--method", "tip-layer", ledger=ledger).lot
    result = recorded("undo", ledger=ledger)
    assert (result.lot, result.stages) == (lot, {})
    assert cuttings("tally", "--json", ledger=ledger).document["started"] == 0


def test_nothing_is_taken_back_from_an_empty_ledger(tmp_path: Path) -> None:
    refused("undo", ledger=tmp_path)


def test_a_note_moves_nothing(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    result = recorded("note", lot, "slow to start", ledger=ledger)
    assert result.document.keys() == RECORDING
    assert result.stages == {"waiting": 4}


def test_a_note_may_say_what_one_plant_of_a_lot_counts(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    result = recorded("note", lot, "--worth", "5", ledger=ledger)
    assert result.document.keys() == RECORDING | {"worth"}
    assert result.document["worth"] == 5.0
    recorded("note", lot, "from the old wall", "--worth", "2,5", ledger=ledger)
    assert last_entry(ledger, lot)["worth"] == 2.5
    assert last_entry(ledger, lot)["note"] == "from the old wall"
    assert Ledger(ledger).book().lots[lot].worth == 2.5
    assert f"note of {lot}: from the old wall, one counts for 2.5" in cuttings("undo", ledger=ledger).out
    assert Ledger(ledger).book().lots[lot].worth == 5.0
    for wrong in ("0", "-1", "1001", "nan", "dear"):
        misused("note", lot, "--worth", wrong, ledger=ledger, saying=["--worth", "0.001"])
    misused("note", lot, "--worth", "2", "--plant", "lilac", ledger=ledger, saying=["--plant and --worth"])


def test_an_entry_before_its_lot_began_is_refused(ledger: Path) -> None:
    lot = begun(ledger, ("waiting", 4))
    refused("check", lot, "--rooted", "1", "--on", "2026-05-01", ledger=ledger, saying=[lot])


def test_each_recording_says_one_sentence_that_begins_with_recorded(ledger: Path) -> None:
    out = cuttings("find", "red currant", "--method", "tip-layer", "--plain", ledger=ledger).out
    assert out.splitlines()[0].startswith("Recorded: 26-001: 1 stem of red currant")


def test_lots_are_coded_by_year_and_running_number(ledger: Path) -> None:
    codes = [
        recorded("find", "red currant", "--method", "tip-layer", "--on", day, ledger=ledger).lot
        for day in ("2026-05-01", "2025-09-01", "2026-05-02")
    ]
    assert codes == ["26-001", "25-001", "26-002"]


@pytest.mark.parametrize("seed", range(4))
def test_stems_are_conserved_whatever_is_asked(seed: int, ledger: Path) -> None:
    chance = random.Random(seed)
    started = 0
    lots: list[str] = []
    for step in range(30):
        lot = chance.choice(lots) if lots else ""
        n = str(chance.randint(1, 5))
        words = chance.choice(_asks(lot, n, chance)) if lots and step % 6 else None
        if words is None:
            result = recorded("find", "red currant", "--method", "tip-layer", "--count", n, ledger=ledger)
            started += int(n)
            lots.append(result.lot)
        else:
            result = cuttings(*words, "--json", ledger=ledger)
            assert result.code in (0, 1), result
        if result.code == 0 and result.document["lot"]:
            card = recorded("card", result.lot, ledger=ledger).document
            assert sum(card["stages"].values()) == card["started"]
    tally = cuttings("tally", "--json", ledger=ledger)
    assert tally.code == 0
    assert tally.document["started"] == sum(tally.document["stages"].values()) == started


def _asks(lot: str, n: str, chance: random.Random) -> list[tuple[str, ...]]:
    stage = chance.choice(["waiting", "rooted", "potted", "hardening", "ready", "planted"])
    return [
        ("check", lot, "--rooted", n),
        ("check", lot, "--failed", "1"),
        ("pot", lot, "--count", n, "--pot", "4in"),
        ("harden", lot, "--start"),
        ("harden", lot, "--finish"),
        ("plant", lot, "--count", n, "--site", "Gate Bed"),
        ("give", lot, "--count", n),
        ("sell", lot, "--count", n),
        ("lose", lot, "--count", n, "--stage", stage, "--cause", "unknown"),
        ("note", lot, "seen"),
    ]


def test_a_spot_held_for_another_lot_is_taken_with_a_warning(ledger: Path) -> None:
    first, second = begun(ledger, ("rooted", 1)), begun(ledger, ("rooted", 1))
    recorded("spot", first, "--hold", "gate-bed@1.00,0.75", ledger=ledger)
    held = cuttings("spot", second, "--hold", "gate-bed@1.10,0.75", "--json", ledger=ledger)
    assert held.code == 0
    assert f"held for {first}" in held.err
    planted = cuttings("plant", second, "--spot", "gate-bed@1.00,0.75", "--json", ledger=ledger)
    assert f"this spot is held for {first}" in planted.err
