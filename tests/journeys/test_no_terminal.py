"""Without a terminal: nothing is asked, and what comes out suits a pipe, a script and an old screen."""

import json
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from cuttings.takes.cases import By
from tests.journeys.askings import DAY, ESCAPES, copied
from tests.journeys.terminal import Terminal, environment

Run = Callable[..., subprocess.CompletedProcess[str]]

ASCII_ONLY = {"PYTHONIOENCODING": "ascii"}
OLD_SCREEN = {"LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
METHODS = "simple-layer|tip-layer|mound-layer|serpentine-layer|air-layer|crown-division|rhizome-division"
STAGES = "waiting|rooted|potted|hardening|ready|planted"
LOT = "LOT (a lot's code)"
PLANT = "PLANT (a common or botanical name)"
WHOLE = "(a whole number from 1)"
POT = "4in, 9cm square, #1, SP4, 2L, 72-cell tray or a name from 'cuttings pots'"

MISSING = {
    "find": (PLANT, f"--method ({METHODS}"),
    "find box": (f"--method ({METHODS}",),
    "strike": (PLANT, "--wood (softwood|semi-ripe|hardwood|basal|root|leaf)", f"--count {WHOLE}"),
    "layer": (PLANT, "--how (simple|tip|mound|serpentine|air)"),
    "divide": (PLANT, f"--pieces {WHOLE}"),
    "mark": (PLANT, "--for (lift|divide|layer|take-hardwood|move|watch)"),
    "check": (LOT, "--rooted (N, or --not-yet N, or --failed N)"),
    "check 25-001": ("--rooted (N, or --not-yet N, or --failed N)",),
    "pot": (LOT, f"--pot ({POT})"),
    "pots add": ("NAME (a name, such as 4in)", "--size (4in, 9cm, #1, SP4, 2L)", f"--count {WHOLE}"),
    "pots add 4in": (f"--count {WHOLE}",),
    "pots remove": ("NAME (a name from 'cuttings pots')", f"--count {WHOLE}"),
    "harden": (LOT,),
    "plant": (LOT, "--site (a site's name, or --spot ID)"),
    "give": (LOT, f"--count {WHOLE}"),
    "sell": (LOT, f"--count {WHOLE}"),
    "lose": (LOT, f"--stage ({STAGES})", f"--count {WHOLE}", "--cause (rot|dried|frost|eaten|weak|unknown)"),
    "split": (LOT, f"--count {WHOLE}"),
    "note": (LOT, "TEXT"),
    "takes --ask": (f"--by ({'|'.join(By)}, or --plant NAME, or --year YEAR)",),
    "card": (LOT,),
    "spot": (LOT,),
    "sites add": ("NAME (a name)", "--area (a name)"),
    "sites growing": ("NAME (a site's name)", PLANT, "--at (X,Y in metres)"),
    "sites show": ("NAME (a site's name)",),
    "sites obstacle": ("NAME (a site's name)", "--kind (wall|fence|building|hedge|tree)",
                       "--bearing (degrees from true north, or --from and --to)",
                       "--width (a length such as 6ft or 2m)", "--distance (a length such as 6ft or 2m)",
                       "--height (a length such as 6ft or 2m)"),
    "sites sun": ("NAME (a site's name)",),
    "sites check": ("NAME (a site's name)",),
    "climate load": ("FILE (a weather station's daily record)",),
    "climate seen": ("SIGN (last-snow|soil-workable|first-bloom)",),
    "climate seen first-bloom": (PLANT,),
    "feed": ("--grade (such as 20-10-20)", "--ppm (a strength such as 100, or --dose WEIGHT)",
             "--water (a volume such as 2gal or 10L)"),
    "feed --dose 13oz": ("--grade (such as 20-10-20)", "--water (a volume such as 2gal or 10L)"),
    "goal": (PLANT, "--want (1 to 500)", "--by (a day to come, such as "),
    "tonight": ("--low (a temperature such as 29F or -2C)",),
    "mix": ("RECIPE (striking|potting|gritty|acid|alpine|bog|seedlings|loam)",
            "--pots (a whole number from 1, or --volume for the whole)", f"--size ({POT})"),
    "mix gritty": ("--pots (a whole number from 1, or --volume for the whole)", "--size (4in,"),
    "mix --pots 3 --size 2L": ("RECIPE (striking|potting|gritty|acid|alpine|bog|seedlings|loam)",),
    "dip": ("--stock (10000ppm, 1% or 10g/L)", "--want (2000ppm, or --wood for the strength advised)",
            "--make (250mL or 8floz)"),
    "dip --wood softwood --form powder": ("--stock (8000ppm, 0.8% or 8g/kg)", "--make (50g or 2oz)"),
    "garden --change": ("--name (a name)", "--lat (degrees)", "--lon (degrees)", "--units (us|metric)",
                        "--elevation (a length such as 1000ft or 330m)"),
}  # fmt: skip

LOOKS = (
    "lots", "card 25-004", "card 25-004 --trail", "tally", "week", "week --why", "sites",
    "sites show 'wall foot'", "sites sun 'wall foot'", "sites check 'wall foot'",
    "garden", "plants", "plants box", "spot 24-003", "spot --all", "harden 24-003",
    "mark --list", "climate", "climate --risk 5", "tonight --low 27F", "mix --list",
    "mix potting --pots 12 --size 4in --bags 'coir 650g, perlite 100L'",
    "feed 24-004 --grade 20-10-20 --ppm 400 --water 2gal --injector 1:200", "",
    "dip rosemary --wood softwood --stock 1% --make 250mL",
    "goal 'red currant' --want 5 --by 2027-09-01", "goal --site 'gate bed'",
    "pots", "pots clean", "pots clean --why",
    "labels", "labels 24-004", "card '24-004 Rubus'", "which",
    "which --where bench --stage potted --leaves opposite",
    "takes", "takes --plant currant", "takes --by month,place --why", "takes --by dip --year 2024",
)  # fmt: skip

WRITES = (
    "find 'red currant' --method tip-layer --count 2",
    "strike rosemary --wood softwood --count 5 --dip 3000 --heat 70F",
    "layer box --how mound",
    "divide heuchera --pieces 3",
    "mark snowdrop --for lift --tape 'A=3.20m B=4.75m'",
    "check 25-001 --rooted 1 --not-yet 1",
    "pot 25-001 --pot 4in",
    "pots add 4in --count 30",
    "pots add 'black squares' --size '9cm square' --count 12 --note 'from the plant swap'",
    "harden 24-003 --start",
    "harden 24-003 --day-done --night-low 30F",
    "harden 24-003 --finish",
    "spot 24-003 --hold 'wall-foot@6.00,0.40'",
    "spot 24-003 --release 'wall-foot@6.00,0.40'",
    "plant 24-003 --site 'wall foot' --at 6.0,0.4",
    "give 24-004 --count 2 --to 'the plant swap' --with-pots",
    "sell 24-004 --count 2 --price 4.50",
    "lose 24-004 --count 1 --stage potted --cause frost",
    "split 24-004 --count 3 --stage potted",
    "note 24-004 'north end'",
    "labels 24-004 --written",
    "sites add 'plum bed' --area 'gate strip' --light shade --length 6m --depth 2m",
    "sites growing 'plum bed' box --at 1,1",
    "sites obstacle 'wall foot' --kind wall --bearing 180 --width 7m --distance 1m --height 2m",
    "garden --zone 6a",
    "undo",
)


@pytest.fixture
def run(garden: Path, tmp_path: Path) -> Run:
    """Runs a command line on a copy of the demo garden, on its day, with no terminal."""
    copied(garden, tmp_path)

    def call(
        words: str, *more: str, on: str = DAY.isoformat(), **env: str
    ) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "cuttings", *shlex.split(words), *more, "--on", on],
            cwd=tmp_path, env=environment(tmp_path, **env), stdin=subprocess.DEVNULL, capture_output=True,
            text=True, encoding="utf-8", timeout=60, check=False,
        )  # fmt: skip

    return call


def _ledger(folder: Path) -> bytes:
    return (folder / "ledger" / "ledger.jsonl").read_bytes()


@pytest.mark.parametrize("words", MISSING)
def test_what_is_missing_is_named_in_one_line_with_what_it_may_be(
    words: str, run: Run, tmp_path: Path
) -> None:
    before = _ledger(tmp_path)
    done = run(words)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert done.stderr.startswith("Missing: ")
    for wanted in MISSING[words]:
        assert wanted in done.stderr
    assert done.stderr.count("; ") == len(MISSING[words]) - 1
    assert _ledger(tmp_path) == before


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        ("frobnicate", 2, "There is no command 'frobnicate'"),
        ("fnd box", 2, "There is no command 'fnd'"),
        ("find box --method sideways", 2, "--method: 'sideways' is none of: simple-layer"),
        ("find box --method tip-layer --count many", 2, "--count: 'many' is not a whole number."),
        ("find box --method tip-layer --count -3", 2, "--count: -3 is too few"),
        ("find box --colour red", 2, "No such option '--colour'"),
        ("find box --method tip-layer --photo /nowhere.jpg", 2, "--photo: /nowhere.jpg cannot be read"),
        ("pot 24-001 --pot bucket", 2, "--pot: 'bucket'"),
        ("pots add plugs --size bucket --count 2", 2, "--size: 'bucket' is not a pot"),
        ("pots remove 4in --count 1", 1, "There is no '4in' in the drawer"),
        ("pots clean --make some", 2, "--make: 'some' is not a volume"),
        ("card 99-999", 1, "There is no lot '99-999'"),
        ("card currant", 1, "'currant' could be any of"),
        ("give box --count 400", 1, "so 400 cannot be taken."),
        ("plant 24-003 --site nowhere", 1, "There is no site 'nowhere'"),
        ("plant 24-003 --site 'wall foot' --at 99,99", 1, "lies outside wall foot"),
        ("pot 25-001 --pot 4in", 1, "25-001 holds 2 waiting"),
        ("labels 99-999", 1, "There is no lot '99-999'"),
        ("labels --sheet 25x67mm", 2, "--sheet goes with --pdf FILE."),
        ("labels 24-004 --pdf l.pdf --sheet tiny", 2, "--sheet: 'tiny' is not the size of a label"),
        ("labels 24-004 --pdf l.pdf --sheet 2x2mm", 2, "Nothing can be read on a label of 2x2mm"),
        ("labels 24-004 --pdf l.pdf --paper a3", 2, "--paper: 'a3' is none of: A4, letter."),
        ("labels 24-004 --pdf l.pdf --gap 1x1mm", 2, "--gap and --margins go with --grid"),
        ("labels 24-004 --pdf l.pdf --grid 3x7 --cut", 2, "Give only one of --cut and --grid."),
        ("labels 24-004 --pdf l.pdf --grid 9x9", 1, "check the sizes, gaps and margins."),
        ("labels 24-004 --pdf l.pdf --skip 90", 2, "90 cannot be gone from it."),
        ("labels 24-004 --pdf /nowhere/l.pdf", 1, "/nowhere/l.pdf cannot be written"),
        ("which --stage asleep", 2, "--stage: 'asleep' is none of"),
        ("which --stage planted", 2, "stems that are planted stand in no pot"),
        ("which --pot bucket", 2, "--pot: 'bucket'"),
        ("which --leaves purple", 2, "--leaves: 'purple' is none of"),
        ("goal box --want 5 --by 2025-10-01", 1, "is too soon. "),
        ("goal box --want 5 --by 2020-10-01", 1, "is no day to come. The soonest for 5 box is "),
        ("goal --site nowhere", 1, "There is no site 'nowhere'"),
        ("goal --site 'gate bed' --keep offset", 2, "--keep goes with a PLANT"),
        ("undo zzzz", 1, "no entry ends in 'zzzz'"),
        ("week --from 2025-13-45", 2, "--from: '2025-13-45' is not a date"),
        ("lots --stage asleep", 2, "--stage: 'asleep' is none of"),
        ("spot 24-003 --hold wall-foot", 1, "'wall-foot'"),
        ("garden --lat 400", 2, "--lat: 400 will not do"),
        ("climate load /nowhere.csv", 2, "FILE: '/nowhere.csv' cannot be read"),
        ("climate load ledger/ledger.jsonl", 1, "ledger.jsonl: "),
        ("climate --period 2010,2000", 2, "--period: '2010,2000' is not two years"),
        ("climate --period 2000,2010", 1, "There is no record to take years from"),
        ("climate --risk 200", 2, "--risk: '200' will not do"),
        ("climate forget", 1, "No record is loaded"),
        ("climate seen rain", 2, "SIGN: 'rain' is none of"),
        ("climate seen last-snow", 1, "tells nothing of a spring"),
        ("dip --stock strong --want 1000ppm --make 1L", 2, "--stock: 'strong' is not a strength"),
        ("dip --stock 1% --want 1:10 --make 1L", 2, "--want: '1:10' is understood in two ways"),
        ("dip --stock 1% --want 2% --make 1L", 1, "thinning only weakens it"),
        ("tonight --low cold", 2, "--low: 'cold' is not a temperature"),
        ("mix mud --volume 9L", 2, "RECIPE: 'mud' is none of: striking, potting, gritty, acid"),
        ("mix acid --volume wide", 2, "--volume: 'wide' is not a volume"),
        ("mix acid --pots 3 --size bucket", 2, "--size: 'bucket' is not a pot"),
        ("mix acid --pots 3 --volume 9L", 2, "Give either --volume, or --pots with --size"),
        ("mix acid --volume 9L --bags 'grit 5L'", 2, "--bags: There is no grit in this mix"),
        ("mix acid --pots 90000 --size '#25'", 2, "cannot be reckoned"),
        ("mix --for 99-999", 1, "There is no lot '99-999'"),
        ("feed --grade 20-10 --ppm 100 --water 2gal", 2, "--grade: '20-10' is not a grade"),
        ("feed --grade 0-52-34 --ppm 100 --water 2gal", 1, "0-52-34 holds no nitrogen"),
        ("harden 24-003 --night-low cold", 2, "--night-low: 'cold' is not a temperature"),
        ("harden 24-003 --night-low 30F", 1, "is not being hardened off"),
        ("tally --ledger /proc/nothing/here", 0, ""),
        ("find box --method tip-layer --ledger /proc/nothing/here", 1, "Nothing was recorded"),
    ],
)
def test_an_error_is_one_sentence_on_stderr(
    words: str, code: int, says: str, run: Run, tmp_path: Path
) -> None:
    before = _ledger(tmp_path)
    done = run(words)
    assert done.returncode == code, done.stderr
    assert says in done.stderr
    if code:
        assert done.stdout == ""
        assert done.stderr.count("\n") == 1
        assert done.stderr.rstrip().endswith(".")
    assert "Traceback" not in done.stderr
    assert _ledger(tmp_path) == before


def test_a_bad_day_is_one_sentence_too(run: Run) -> None:
    done = run("lots", on="someday")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "--on: 'someday' is not a date; write it like " + done.stderr.split("like ")[1]


@pytest.mark.parametrize("words", LOOKS)
@pytest.mark.parametrize("surroundings", [ASCII_ONLY, OLD_SCREEN], ids=["ascii", "old screen"])
def test_a_screen_that_speaks_only_ascii_gets_only_ascii(
    words: str, surroundings: dict[str, str], run: Run
) -> None:
    for more in ((), ("--plain",), ("--json",)):
        done = run(words, *more, **surroundings)
        assert done.returncode == 0, done.stderr
        assert done.stdout.strip()
        assert (done.stdout + done.stderr).isascii()


def test_writing_down_a_name_beyond_ascii_works_on_a_screen_that_speaks_only_ascii(run: Run) -> None:
    done = run("find 'Eriocapitella × hybrida “white”' --method root-cutting", **ASCII_ONLY)
    assert done.returncode == 0
    assert (done.stdout + done.stderr).isascii()
    assert "Eriocapitella x hybrida" in done.stdout


@pytest.mark.parametrize(
    "command", ["", "find", "sites add", "garden", "week", "climate load", "tonight", "dip", "pots add"]
)
def test_help_comes_out_in_ascii(command: str, run: Run) -> None:
    done = run(command, "--help", **ASCII_ONLY)
    assert done.returncode == 0
    assert done.stdout.startswith("Usage: cuttings")


@pytest.mark.parametrize("words", LOOKS)
def test_every_look_fits_narrow_usual_and_wide_screens(words: str, run: Run) -> None:
    for columns in (40, 80, 200):
        done = run(words, COLUMNS=str(columns))
        assert done.returncode == 0, done.stderr
        widest = max(done.stdout.splitlines(), key=len)
        assert len(widest) <= min(columns, 100), widest


@pytest.mark.parametrize("words", LOOKS)
def test_a_pipe_gets_no_escape_codes(words: str, run: Run) -> None:
    done = run(words, FORCE_COLOR="")
    assert "\x1b" not in done.stdout + done.stderr


def test_no_color_at_a_terminal_leaves_no_colour(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    for surroundings, coloured in (({}, True), ({"NO_COLOR": "1"}, False)):
        with Terminal("week", "--on", "2025-10-04", folder=tmp_path, env=surroundings) as terminal:
            assert terminal.finish() == 0
            codes = re.findall(rb"\x1b\[([\d;]*)m", terminal.everything)
        colours = [code for code in codes if re.search(rb"(^|;)(3[0-8]|4[0-8]|9\d|10\d)(;|$)", code)]
        assert bool(colours) is coloured, terminal.screen_text()


def test_plain_is_one_thing_a_line(run: Run) -> None:
    lines = run("lots --plain", COLUMNS="40").stdout.splitlines()
    lots = [line for line in lines if re.match(r"\d\d-\d\d\d: ", line)]
    document = json.loads(run("lots --json").stdout)
    assert sorted(line[:6] for line in lots) == [lot["lot"] for lot in document["lots"]]
    places = {lot["lot"]: lot["where"] for lot in document["lots"]}
    assert all(places[line[:6]] in line for line in lots)
    assert lines[0] == "Lots. Quarry Bank"


@pytest.mark.parametrize("words", ["card 25-004", "week", "spot --all", "sites", "tally", "pots clean"])
def test_plain_says_what_the_page_says(words: str, run: Run) -> None:
    def said(more: str) -> set[str]:
        return set(re.findall(r"[a-z]{4,}|\d+", run(f"{words} {more}", COLUMNS="100").stdout.casefold()))

    assert said("") == said("--plain")


def test_a_reader_that_stops_early_is_no_error(garden: Path, tmp_path: Path) -> None:
    copied(garden, tmp_path)
    for words in ("spot --all", "plants", "card 25-004", "week --json", "lots --plain", "--help"):
        line = f"{shlex.quote(sys.executable)} -m cuttings {words} | head -n 1"
        done = subprocess.run(
            ["/bin/sh", "-c", line], cwd=tmp_path, env=environment(tmp_path), stdin=subprocess.DEVNULL,
            capture_output=True, text=True, timeout=60, check=False,
        )  # fmt: skip
        assert done.returncode == 0
        assert done.stderr == ""
        assert done.stdout.count("\n") == 1


def test_text_that_looks_like_codes_or_markup_is_shown_and_not_obeyed(run: Run) -> None:
    shown = "[31mred[0m ]0;title[red]markup[/red] [/] \\"
    assert run("note 25-004", ESCAPES).returncode == 0
    assert run("find", ESCAPES, "--method", "tip-layer", "--where", ESCAPES).returncode == 0
    for words in ("card 25-004", "lots", "card 25-006", "week"):
        for more in ((), ("--plain",), ("--json",)):
            done = run(words, *more, COLUMNS="200")
            assert done.returncode == 0, done.stderr
            assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", done.stdout)
            if words != "week" and "--json" not in more:
                assert shown in " ".join(done.stdout.split())
    assert json.loads(run("lots --json").stdout)["lots"][-1]["where"] == ESCAPES


def test_a_name_that_turns_text_round_is_cleaned(run: Run) -> None:
    done = run("find", "box\u202egnorw\u2066", "--method", "tip-layer", COLUMNS="200")
    assert done.returncode == 0
    assert not set(done.stdout + done.stderr) & {"\u202e", "\u2066"}


def test_every_look_prints_one_document(run: Run) -> None:
    for words in LOOKS:
        done = run(words, "--json")
        assert done.returncode == 0, done.stderr
        assert done.stderr == ""
        assert json.loads(done.stdout)["schema"] == 1, words


def test_every_write_prints_one_document_and_nothing_else(run: Run, tmp_path: Path) -> None:
    for words in WRITES:
        before = _ledger(tmp_path)
        done = run(words, "--json")
        assert done.returncode == 0, f"{words}: {done.stderr}"
        document = json.loads(done.stdout)
        assert document["schema"] == 1
        written = _ledger(tmp_path)[len(before) :].splitlines()
        assert len(written) == 1, words
        assert document["entry"] in written[0].decode()
    tally = json.loads(run("tally --json").stdout)
    assert tally["balanced"] is True
    assert tally["broken"] == []


def test_a_refusal_prints_no_document(run: Run) -> None:
    done = run("give box --count 400 --json")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1


@pytest.mark.parametrize("kept", [True, False])
def test_the_demo_garden_is_made_without_a_terminal(kept: bool, run: Run, tmp_path: Path) -> None:
    before = _ledger(tmp_path)
    done = run(f"demo --json{' --keep there' if kept else ''}")
    assert done.returncode == 0
    where = Path(json.loads(done.stdout)["ledger"])
    assert (tmp_path / where / "ledger.jsonl").exists() is kept
    assert _ledger(tmp_path) == before
    if kept:
        again = run("demo --json --keep there")
        assert again.returncode == 1
        assert "There is a ledger in there already" in again.stderr


def test_the_played_demo_ends_with_a_balanced_tally(run: Run) -> None:
    done = run("demo --script")
    assert done.returncode == 0, done.stderr
    assert "$ cuttings tally" in done.stdout
    assert "Traceback" not in done.stderr
