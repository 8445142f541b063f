"""Labels to print: read back by pypdf, drawn by PDFium, measured, and scanned by zxing-cpp."""

import io
from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np
import numpy.typing as npt
import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader

from cuttings.exchange.label_sheets import (
    GRIDS,
    PAPER,
    SMALL,
    Grid,
    Layout,
    Size,
    common_grid,
    cut_out,
    on_grid,
    parse_gap,
    parse_grid,
    parse_size,
)
from cuttings.exchange.labels import MM, QUIET, Printed, labels_pdf, set_label
from cuttings.exchange.lettering import Bar, Format, Lettering, Words, sheet_of_paper
from cuttings.plants.standard import standard
from cuttings.rules.labelling import Label, label
from cuttings.words import Method, Units

DAY = date(2026, 5, 2)
NAMES = (
    "Ribes rubrum", "Hydrangea anomala subsp. petiolaris", "Eriocapitella × hybrida", "Heuchera",
    "Buxus sempervirens 'Suffruticosa'", "Metasequoia glyptostroboides", "Salvia rosmarinus",
)  # fmt: skip
MOTHERS = ("the currant by the gate", "", "the old hedge")
A4_CUT = cut_out(SMALL, "A4")
Ink = npt.NDArray[np.bool_]


def some(count: int, names: Sequence[str] = NAMES) -> list[Label]:
    methods = list(Method)
    return [
        label(names[n % len(names)], f"26-{n + 1:03d}", methods[n % len(methods)], DAY, MOTHERS[n % 3])
        for n in range(count)
    ]


@pytest.fixture(scope="module")
def setter() -> Iterator[Lettering]:
    """A page to measure type on; its typeface is read to the end, as nobody warns of an open file then."""
    lettering = sheet_of_paper("A4", "", DAY)
    yield lettering
    lettering.pdf.output()


def made(labels: Sequence[Label], layout: Layout, skip: int = 0) -> Printed:
    return labels_pdf(labels, layout, skip=skip, day=DAY)


def drawn(pdf: bytes, dpi: int, page: int = 0) -> npt.NDArray[np.uint8]:
    """A page as grey dots of 0 to 255."""
    bitmap = pypdfium2.PdfDocument(pdf)[page].render(scale=dpi / 72, grayscale=True)
    return np.asarray(bitmap.to_numpy(), dtype=np.uint8).squeeze()


def ink(pdf: bytes, dpi: int = 300, page: int = 0) -> Ink:
    return np.asarray(drawn(pdf, dpi, page) < 128)


def within(dots: Ink, dpi: int, x: float, y: float, width: float, height: float) -> Ink:
    """What is drawn in an oblong given in millimetres."""
    left, top, right, low = (round(each * dpi / 25.4) for each in (x, y, x + width, y + height))
    return dots[top:low, left:right]


def extent(dots: Ink, dpi: int) -> tuple[float, float, float, float]:
    """Left, top, right and lower edge of what is drawn, in millimetres."""
    rows, columns = np.flatnonzero(dots.any(axis=1)), np.flatnonzero(dots.any(axis=0))
    return tuple(  # type: ignore[return-value]
        float(each) * 25.4 / dpi for each in (columns[0], rows[0], columns[-1] + 1, rows[-1] + 1)
    )


def scanned(pdf: bytes, dpi: int, page: int = 0) -> dict[str, tuple[float, float]]:
    """What a scanner reads on a page: each text with the middle of its code, in millimetres."""
    found = {}
    for code in zxingcpp.read_barcodes(drawn(pdf, dpi, page)):
        corners = (code.position.top_left, code.position.bottom_right)
        x, y = (sum(getattr(corner, at) for corner in corners) / 2 * 25.4 / dpi for at in "xy")
        found[code.text] = x, y
    return found


ROTATED = on_grid(Grid("A4", Size(25.0, 67.0), 7, 4))
LAYOUTS = [
    A4_CUT,
    cut_out(SMALL, "letter"),
    cut_out(Size(90.0, 55.0), "A4"),
    cut_out(Size(60.0, 12.0), "letter"),
    cut_out(Size(20.0, 10.0), "A4"),
    ROTATED,
    *map(on_grid, GRIDS),
]


@pytest.mark.parametrize("dpi", [150, 300])
@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda each: f"{each.size} {each.paper}")
def test_every_code_on_a_page_is_read_and_stands_on_its_own_label(layout: Layout, dpi: int) -> None:
    labels = some(layout.a_sheet)
    printed = made(labels, layout)
    found = scanned(printed.pdf, dpi)
    assert found.keys() == {each.code_and_name for each in labels if each.lot not in printed.without_code}
    for each, place in zip(labels, layout.places(len(labels)), strict=True):
        if each.code_and_name in found:
            x, y = found[each.code_and_name]
            assert place.x < x < place.x + layout.size.width
            assert place.y < y < place.y + layout.size.height


def test_small_labels_have_a_code_and_the_smallest_have_words_alone() -> None:
    assert made(some(28), A4_CUT).without_code == ()
    tiny = made(some(7), cut_out(Size(20.0, 10.0), "A4"))
    assert tiny.without_code == tuple(each.lot for each in some(7))
    assert scanned(tiny.pdf, 600) == {}


def test_a_code_is_read_with_a_corner_of_it_dirty() -> None:
    """The least that a level of correction is for: a blot of 1.5 mm, away from the three eyes."""
    grey = drawn(made(some(1), A4_CUT).pdf, 300).copy()
    (text, (x, y)), *_ = scanned(made(some(1), A4_CUT).pdf, 300).items()
    at_x, at_y, half = round(x / 25.4 * 300), round(y / 25.4 * 300), round(0.75 / 25.4 * 300)
    grey[at_y - half : at_y + half, at_x - half : at_x + half] = 0
    assert [code.text for code in zxingcpp.read_barcodes(grey)] == [text]


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda each: f"{each.size} {each.paper}")
def test_nothing_is_drawn_outside_a_label_but_marks_to_cut_at(layout: Layout) -> None:
    pages = made(some(layout.a_sheet), layout)
    dpi, dots = 300, ink(pages.pdf)
    edge = min(QUIET * 0.4, min(layout.size.width, layout.size.height) / 10) - 0.2
    for place in layout.places(layout.a_sheet):
        there = within(
            dots,
            dpi,
            place.x + edge,
            place.y + edge,
            layout.size.width - 2 * edge,
            layout.size.height - 2 * edge,
        )
        assert there.any()
        there[:] = False
    if layout.cut:
        far = [layout.left, layout.top, layout.columns * layout.size.width, layout.rows * layout.size.height]
        grown = [far[0] - 4.2, far[1] - 4.2, far[2] + 8.4, far[3] + 8.4]
        within(dots, dpi, grown[0], grown[1], grown[2], 3.5)[:] = False
        within(dots, dpi, grown[0], grown[1] + grown[3] - 3.5, grown[2], 3.5)[:] = False
        within(dots, dpi, grown[0], grown[1], 3.5, grown[3])[:] = False
        within(dots, dpi, grown[0] + grown[2] - 3.5, grown[1], 3.5, grown[3])[:] = False
    assert not dots.any()


MEASURED = [
    (cut_out(SMALL, "A4"), (297.0, 210.0), 4, 7, (14.5, 17.5), (67.0, 25.0)),
    (on_grid(GRIDS[3]), (210.0, 297.0), 3, 7, (7.21, 15.15), (66.04, 38.1)),
    (on_grid(GRIDS[5]), (210.0, 297.0), 3, 8, (0.0, 0.5), (70.0, 37.0)),
    (on_grid(GRIDS[10]), (215.9, 279.4), 3, 10, (4.7625, 12.7), (69.85, 25.4)),
    (on_grid(Grid("A4", Size(60.0, 30.0), 3, 8, 2.0, 1.0), (10.0, 12.0)), (210.0, 297.0), 3, 8, (10.0, 12.0),
     (62.0, 31.0)),
]  # fmt: skip
"""Layouts with the sheet, columns and rows, the first corner, and from label to label: worked out by hand."""


@pytest.mark.parametrize(("layout", "paper", "columns", "rows", "first", "step"), MEASURED)
def test_labels_lie_where_a_ruler_finds_them(
    layout: Layout,
    paper: tuple[float, float],
    columns: int,
    rows: int,
    first: tuple[float, float],
    step: tuple[float, float],
    setter: Lettering,
) -> None:
    """Within 0.3 mm: the same label again and again is drawn at the same distance from its corners."""
    assert (layout.columns, layout.rows) == (columns, rows)
    pdf = made([some(1)[0]] * (columns * rows), layout).pdf
    box = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx(paper, abs=0.1)
    dpi, inside = 600, 0.7
    dots = ink(pdf, dpi)
    size = layout.size
    seen, codes = [], []
    for row in range(rows):
        for column in range(columns):
            x, y = first[0] + column * step[0], first[1] + row * step[1]
            own = within(dots, dpi, x + inside, y + inside, size.width - 2 * inside, size.height - 2 * inside)
            seen.append(extent(own, dpi))
            codes.append(extent(own[:, own.shape[1] * 6 // 10 :], dpi))
    assert np.ptp(np.array(seen), axis=0).max() < 0.1
    left, _, right, _ = (float(each) + inside for each in np.mean(seen, axis=0))
    _, top, _, low = (float(each) + inside for each in np.mean(codes, axis=0))
    module = _modules(setter, some(1)[0], size)
    assert left == pytest.approx(min(2.0, size.height / 10), abs=0.3)
    assert size.width - right == pytest.approx(QUIET * module, abs=0.3)
    assert top == pytest.approx(size.height - low, abs=0.3)


def _modules(setter: Lettering, each: Label, size: Size) -> float:
    """The side of a module in millimetres, from the strokes."""
    strokes, coded = set_label(setter, each, size.width * MM, size.height * MM)
    assert coded
    return min(stroke.width for stroke in strokes if isinstance(stroke, Bar)) / MM


def test_cutting_marks_stand_at_the_edges_of_the_labels() -> None:
    dpi = 600
    dots = ink(made(some(28), A4_CUT).pdf, dpi)
    above = within(dots, dpi, 0, 17.5 - 3.5, 297, 2).all(axis=0)
    beside = within(dots, dpi, 14.5 - 3.5, 0, 2, 210).all(axis=1)
    for line, wanted in (
        (above, [14.5 + n * 67 for n in range(5)]),
        (beside, [17.5 + n * 25 for n in range(8)]),
    ):
        at = [float(np.mean(part)) * 25.4 / dpi for part in _runs(np.asarray(line))]
        assert at == pytest.approx(wanted, abs=0.3)


def _runs(line: Ink) -> list[npt.NDArray[np.intp]]:
    where = np.flatnonzero(line)
    return np.split(where, np.flatnonzero(np.diff(where) > 1) + 1)


@pytest.mark.parametrize("size", [SMALL, Size(38.1, 21.2), Size(105.0, 57.0)])
def test_a_code_has_white_round_it_and_modules_that_can_be_read(size: Size, setter: Lettering) -> None:
    for each in some(7):
        strokes, coded = set_label(setter, each, size.width * MM, size.height * MM)
        bars = [stroke for stroke in strokes if isinstance(stroke, Bar)]
        assert coded
        module = bars[0].height
        assert module / MM >= 0.4 - 1e-9
        left, top = min(bar.x for bar in bars), min(bar.y for bar in bars)
        right, low = max(bar.x + bar.width for bar in bars), max(bar.y + bar.height for bar in bars)
        assert right - left == pytest.approx(low - top)
        quiet = QUIET * module - 1e-6
        assert size.width * MM - right >= quiet
        assert min(top, size.height * MM - low) >= quiet
        for words in strokes:
            if isinstance(words, Words):
                assert words.x + setter.wide(words.text, words.size, bold=words.bold) <= left - quiet


def test_a_label_tells_all_there_is_in_its_order() -> None:
    text = PdfReader(io.BytesIO(made(some(1), A4_CUT).pdf)).pages[0].extract_text()
    assert text.splitlines() == [
        "Ribes rubrum", "26-001", "simple layer, 2 May 2026", "from the currant by the gate",
    ]  # fmt: skip


def test_every_plant_of_the_catalogue_is_whole_and_legible_on_the_small_label(setter: Lettering) -> None:
    for plant in standard():
        each = label(plant.name, "26-014", Method.SEMI_RIPE_CUTTING, DAY, "the old hedge by the gate")
        strokes, coded = set_label(setter, each, SMALL.width * MM, SMALL.height * MM)
        words = [stroke for stroke in strokes if isinstance(stroke, Words)]
        assert coded, plant.name
        bold = [word for word in words if word.bold]
        assert " ".join(word.text for word in bold) == f"{each.name} 26-014"
        assert " ".join(word.text for word in words[len(bold) :]) in (
            "semi-ripe cutting, 2 May 2026 from the old hedge by the gate",
            "semi-ripe cutting 2 May 2026 from the old hedge by the gate",
        )
        assert min(word.size for word in bold) >= 7
        assert min(word.size for word in words) >= 5.5


@pytest.mark.parametrize("size", [Size(20.0, 10.0), Size(30.0, 12.0), Size(60.0, 12.0), Size(25.0, 25.0)])
@pytest.mark.parametrize(
    "name", [*NAMES, "Symphyotrichum novae-angliae 'Wind on the Far Hill'", "", "x" * 70]
)
def test_even_a_tiny_label_holds_its_words(name: str, size: Size, setter: Lettering) -> None:
    each = label(name, "26-014", Method.SEMI_RIPE_CUTTING, DAY, "the old hedge")
    strokes, _ = set_label(setter, each, size.width * MM, size.height * MM)
    words = [stroke for stroke in strokes if isinstance(stroke, Words)]
    assert any(word.text.endswith("26-014") for word in words)
    for word in words:
        assert word.x + setter.wide(word.text, word.size, bold=word.bold) <= size.width * MM
        assert word.size * 0.7 < word.y < size.height * MM


def test_names_in_other_letters_are_printed_and_scanned() -> None:
    each = label("Роза 'Утро'", "26-014", Method.OFFSET, DAY, "Ödön's bed")
    pdf = made([each], A4_CUT).pdf
    assert list(scanned(pdf, 300)) == ["26-014 Роза 'Утро'"]
    assert "Роза" in PdfReader(io.BytesIO(pdf)).pages[0].extract_text()


def test_a_name_too_long_for_a_small_code_is_scanned_by_its_shorter_form() -> None:
    long = label("Symphyotrichum novae-angliae 'Wind on the Far Hill'", "26-006", Method.OFFSET, DAY, "")
    assert list(scanned(made([long], cut_out(Size(46.0, 16.2), "A4")).pdf, 300)) == [
        "26-006 Symphyotrichum 'Wind on the Far Hill'"
    ]


def test_more_labels_than_a_sheet_holds_go_on_and_a_used_sheet_is_used_up() -> None:
    labels = some(40)
    printed = made(labels, A4_CUT, skip=20)
    assert printed.pages == len(PdfReader(io.BytesIO(printed.pdf)).pages) == 3
    counts = [len(scanned(printed.pdf, 150, page)) for page in range(3)]
    assert counts == [8, 28, 4]
    first = min(scanned(printed.pdf, 150).values(), key=lambda at: (round(at[1]), at[0]))
    assert first[1] > 17.5 + 5 * 25


def test_the_same_labels_give_the_same_bytes_and_ask_to_be_printed_as_they_are() -> None:
    one, other = (made(some(5), A4_CUT).pdf for _ in range(2))
    assert one == other
    wishes = PdfReader(io.BytesIO(one)).viewer_preferences
    assert wishes is not None
    assert str(wishes["/PrintScaling"]) == "/None"


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: f"{grid.size} {grid.paper}")
def test_a_common_sheet_fits_its_paper_with_the_same_white_left_and_right(grid: Grid) -> None:
    layout = on_grid(grid)
    width, height = PAPER[grid.paper]
    last = list(layout.places(layout.a_sheet))[-1]
    assert layout.left == pytest.approx(width - last.x - layout.size.width, abs=0.01)
    assert layout.top == pytest.approx(height - last.y - layout.size.height, abs=0.01)
    assert common_grid(grid.size, grid.paper) == grid


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_labels_to_cut_out_leave_the_printer_its_margin_and_waste_no_row(paper: Format) -> None:
    for size in (SMALL, Size(90.0, 55.0), Size(20.0, 10.0), Size(200.0, 190.0)):
        layout = cut_out(size, paper)
        width, height = PAPER[paper][::-1] if layout.landscape else PAPER[paper]
        across, down = layout.columns * layout.size.width, layout.rows * layout.size.height
        assert width - across >= 19.9
        assert height - down >= 19.9
        assert min(width - across - layout.size.width, height - down - layout.size.height) < 20
    with pytest.raises(ValueError, match="does not go on A4 paper"):
        cut_out(Size(200.0, 200.0), "A4")


@pytest.mark.parametrize(
    ("text", "units", "size"),
    [
        ("25x67mm", Units.US, (25, 67)),
        ("25 x 67 mm", Units.US, (25, 67)),
        ("25×67", Units.METRIC, (25, 67)),
        ("2.625x1in", Units.METRIC, (66.675, 25.4)),
        ('3"x1"', Units.METRIC, (76.2, 25.4)),
        ("3x1", Units.US, (76.2, 25.4)),
        ("6,7x2,5cm", Units.US, (67, 25)),
        ("2inx25mm", Units.US, (50.8, 25)),
    ],
)
def test_sizes_are_read_in_any_unit(text: str, units: Units, size: tuple[float, float]) -> None:
    read = parse_size(text, units)
    assert (read.width, read.height) == pytest.approx(size)


@pytest.mark.parametrize(
    "text", ["", "25", "25x", "small", "5x5mm", "9x60mm", "500x10mm", "0x0", "-2x4in", "1e3x4"]
)
def test_what_is_no_size_is_told_in_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match=r".+\.$"):
        parse_size(text, Units.METRIC)


def test_grids_and_gaps_are_read_too() -> None:
    assert parse_grid("3x7") == (3, 7)
    assert parse_gap("2.5x0mm", Units.US) == (2.5, 0.0)
    for wrong in ("0x3", "3", "axb", "3x999"):
        with pytest.raises(ValueError, match="columns and rows"):
            parse_grid(wrong)
    with pytest.raises(ValueError, match="two distances"):
        parse_gap("wide", Units.US)
    with pytest.raises(ValueError, match="check the sizes, gaps and margins"):
        on_grid(Grid("A4", SMALL, 4, 4))
    with pytest.raises(ValueError, match="check the sizes, gaps and margins"):
        on_grid(Grid("A4", SMALL, 3, 4), (20.0, 20.0))
