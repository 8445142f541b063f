"""Labels at the command line: what to write, what to print, and that it was written."""

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from cuttings.ledger import entries as e
from cuttings.ledger.store import Ledger
from tests.commands.expecting import begun, misused, refused
from tests.commands.running import cuttings, recorded


def unlabelled(ledger: Path) -> list[str]:
    return [lot["lot"] for lot in recorded("lots", "--unlabelled", ledger=ledger).document["lots"]]


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(file.read_bytes())).pages)


def test_without_a_lot_it_is_for_all_that_have_no_label(demo: Path) -> None:
    document = recorded("labels", ledger=demo).document
    assert [each["lot"] for each in document["labels"]] == unlabelled(demo)
    assert document["printed"] is None
    out = cuttings("labels", "--plain", ledger=demo).out
    assert "25-005: Pulmonaria officinalis / 25-005 crown division" in out


def test_a_label_says_what_the_ledger_knows(demo: Path) -> None:
    (told,) = recorded("labels", "24-006", ledger=demo).document["labels"]
    assert told == {
        "lot": "24-006",
        "lines": [
            "Ribes rubrum",
            "24-006  hardwood cutting",
            "10 November 2024",
            "from the currant by the",
            "gate",
        ],
        "qr": "24-006 Ribes rubrum",
    }


def test_what_was_written_is_kept_and_can_be_taken_back(ledger: Path) -> None:
    lot = begun(ledger, ("potted", 3))
    assert unlabelled(ledger) == [lot]
    result = recorded("labels", "--written", ledger=ledger)
    assert result.document["entry"] == result.document["entries"][0]
    assert unlabelled(ledger) == []
    label = "Ribes rubrum / 26-001 simple layer / 2 May 2026"
    assert recorded("card", lot, ledger=ledger).document["label"] == label
    assert label in cuttings("card", lot, "--plain", ledger=ledger).out
    refused("labels", "--written", ledger=ledger, saying=["Every lot in your care has a label"])
    recorded("undo", ledger=ledger)
    assert unlabelled(ledger) == [lot]


def test_several_labels_are_written_down_together_or_not_at_all(demo: Path) -> None:
    refused("labels", "25-005", "99-999", "--written", ledger=demo, saying=["There is no lot '99-999'"])
    before = set(unlabelled(demo))
    result = recorded("labels", "25-005", "25-6", "25-005", "--written", ledger=demo)
    assert len(result.document["entries"]) == 2
    assert before - set(unlabelled(demo)) == {"25-005", "25-006"}
    entries = [x for x in Ledger(demo).book().entries if isinstance(x, e.Labelled)]
    assert [entry.lot for entry in entries] == ["25-005", "25-006"]
    out = cuttings("labels", "25-005", "25-006", "--written", "--plain", ledger=demo).out
    assert "2 labels written: 25-005 lungwort and 25-006 red currant." in out
    assert "'cuttings undo' takes the last of them back." in out


def test_with_no_lot_left_to_label_it_says_so(ledger: Path) -> None:
    assert "Every lot in your care has a label." in cuttings("labels", ledger=ledger).out
    assert recorded("labels", ledger=ledger).document["labels"] == []


def test_the_weeks_nudge_is_done_by_writing_the_labels(ledger: Path) -> None:
    lots = []
    for _ in range(2):
        lot = recorded("find", "red currant", "--method", "simple-layer", "--rooted", "--where",
                       "holding bench", ledger=ledger).lot  # fmt: skip
        recorded("pot", lot, "--pot", "4in", "--where", "holding bench", ledger=ledger)
        lots.append(lot)
    elsewhere = recorded(
        "find", "box", "--method", "simple-layer", "--where", "gate strip", ledger=ledger
    ).lot

    def asked() -> set[str]:
        week = recorded("week", ledger=ledger).document["nudges"]
        return {nudge["id"] for nudge in week if nudge["id"].endswith(":labels")}

    assert asked() == {"area:holding bench:labels"}
    result = recorded("week", "--done", "area:holding bench:labels", ledger=ledger)
    assert [each["lot"] for each in result.document["labels"]] == lots
    assert "Done: Write labels for 26-001 red currant and 26-002 red currant." in result.err
    assert "takes back one of them at a time" in result.err
    assert asked() == set()
    assert unlabelled(ledger) == [elsewhere]
    recorded("undo", ledger=ledger)
    assert asked() == {"area:holding bench:labels"}


def test_labels_are_printed_for_one_lot_or_many(demo: Path, tmp_path: Path) -> None:
    file = tmp_path / "labels.pdf"
    result = recorded("labels", "24-006", "--pdf", str(file), ledger=demo)
    assert result.document["printed"] == {
        "file": str(file), "labels": 1, "pages": 1, "size_m": [0.067, 0.025], "without_qr": [],
    }  # fmt: skip
    assert "print at actual size (100 %), and cut at the marks" in result.err
    assert text_of(file).splitlines() == [
        "Ribes rubrum", "24-006", "hardwood cutting", "10 November 2024", "from the currant by the gate",
    ]  # fmt: skip
    recorded("labels", "--pdf", str(file), ledger=demo)
    assert all(code in text_of(file) for code in unlabelled(demo))


def test_each_stem_in_a_pot_may_have_its_own(demo: Path, tmp_path: Path) -> None:
    file = tmp_path / "labels.pdf"
    potted = recorded("card", "24-006", ledger=demo).stages["potted"]
    printed = recorded("labels", "24-006", "--each", "--pdf", str(file), ledger=demo).document["printed"]
    assert printed["labels"] == potted > 1
    assert text_of(file).count("24-006") == potted
    rooting = recorded("labels", "25-006", "--each", "--pdf", str(file), ledger=demo).document["printed"]
    assert rooting["labels"] == 1


@pytest.mark.parametrize(
    ("options", "paper", "cut"),
    [
        ((), "letter", True),
        (("--sheet", "25x67mm"), "letter", True),
        (("--sheet", "2.625x1in"), "letter", False),
        (("--sheet", "63.5x38.1mm"), "A4", False),
        (("--sheet", "63.5x38.1mm", "--paper", "letter"), "letter", True),
        (("--sheet", "2.625x1in", "--cut"), "letter", True),
        (("--paper", "a4"), "A4", True),
        (("--sheet", "60x30mm", "--grid", "3x8", "--gap", "2x1mm", "--margins", "10x10mm"), "letter", False),
    ],
)
def test_the_sheet_goes_by_its_size(
    options: tuple[str, ...], paper: str, cut: bool, demo: Path, tmp_path: Path
) -> None:
    file = tmp_path / "labels.pdf"
    err = recorded("labels", "24-006", *options, "--pdf", str(file), ledger=demo).err
    assert f"sheet of {paper} paper" in err
    assert ("cut at the marks" in err) is cut


def test_a_metric_garden_prints_on_a4(metric: Path, tmp_path: Path) -> None:
    begun(metric, ("potted", 1))
    assert "1 sheet of A4 paper" in recorded("labels", "--pdf", str(tmp_path / "l.pdf"), ledger=metric).err


def test_a_label_too_small_for_a_code_says_so(demo: Path, tmp_path: Path) -> None:
    result = recorded("labels", "24-006", "--pdf", str(tmp_path / "l.pdf"), "--sheet", "60x12mm", ledger=demo)
    assert result.document["printed"]["without_qr"] == ["24-006"]
    assert "A label of 60x12mm is too small for a code to scan that tells of 24-006" in result.err


def test_printed_and_written_in_one_go(demo: Path, tmp_path: Path) -> None:
    result = recorded("labels", "25-005", "--pdf", str(tmp_path / "l.pdf"), "--written", ledger=demo)
    assert result.document["printed"]["labels"] == 1
    assert "25-005" not in unlabelled(demo)


def test_a_file_that_cannot_be_written_keeps_nothing(demo: Path) -> None:
    refused(
        "labels", "25-004", "--written", "--pdf", "/nowhere/l.pdf", ledger=demo, saying=["cannot be written"]
    )
    misused("labels", "25-004", "--written", "--skip", "3", ledger=demo, saying=["--skip goes with --pdf"])


@pytest.mark.parametrize(
    "scanned", ["24-006", "24-6", "24-006 Ribes rubrum", " 24-006  Ribes 'Quarry Bank' "]
)
def test_what_was_scanned_opens_the_card(scanned: str, demo: Path) -> None:
    assert recorded("card", scanned, ledger=demo).document["lot"] == "24-006"
    assert recorded("card", *scanned.split(), ledger=demo).document["lot"] == "24-006"
    assert recorded("labels", scanned, ledger=demo).document["labels"][0]["lot"] == "24-006"


def test_a_scanned_label_of_another_garden_is_refused(demo: Path) -> None:
    refused("card", "31-006 Ribes rubrum", ledger=demo, saying=["There is no lot '31-006 Ribes rubrum'"])
