"""Labels: what to write on them, labels to print, and that they were written."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawings import write_whole
from cuttings.commands.parsing import lot_in, whole
from cuttings.errors import Misused, Refused, Unfound
from cuttings.exchange.label_sheets import (
    PAPER,
    SMALL,
    Grid,
    Layout,
    common_grid,
    cut_out,
    on_grid,
    parse_gap,
    parse_grid,
    parse_size,
)
from cuttings.exchange.lettering import Format
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.nudges.grounds import LABEL_SOURCE, LABEL_WHY
from cuttings.nudges.in_pots import IN_POTS
from cuttings.nudges.labelled import label_of, unlabelled
from cuttings.rules.labelling import Label
from cuttings.show.page import Page
from cuttings.words import Units, listed

T = TypeVar("T")

MOST_PRINTED = 2000
"""More labels than anybody prints at once: a slip of the hand."""

WET_INK = "Where they get wet, print with a laser or cover them with clear tape: most inkjet ink runs."
"""Common practice."""

OF_PAPER = ("sheet", "paper", "cut", "grid", "gap", "margins", "skip", "each")
"""Options that only go with a printed sheet."""


@click.command(
    help="What to write on the labels of lots, or of all that have none; --pdf makes labels to print, "
    "--written keeps that they were made."
)
@click.argument("lots", nargs=-1, metavar="[LOT]...")
@click.option("--pdf", metavar="FILE", help="labels to print, with a code to scan")
@click.option("--sheet", metavar="SIZE", help="the size of a label, width by height: 67x25mm, 2.625x1in")
@click.option("--paper", metavar="PAPER", help="a4|letter (as is usual where the garden's units are)")
@click.option("--cut", is_flag=True, help="on plain paper with cutting marks, whatever the size")
@click.option("--grid", metavar="CxR", help="on a sheet cut already: columns and rows, such as 3x7")
@click.option("--gap", metavar="WxH", help="with --grid, what lies between labels: 2.5x0mm (none)")
@click.option("--margins", metavar="WxH", help="with --grid, from the left and upper edge to the first label")
@click.option("--skip", metavar="N", help="so many labels are gone from the first sheet")
@click.option("--each", is_flag=True, help="one for every stem that stands in a pot, not one a lot")
@click.option("--written", is_flag=True, help="write down that these lots have their labels")
@global_options
@with_desk
def labels(desk: Desk, lots: Sequence[str], written: bool, **given: Any) -> None:
    chosen = _chosen(desk, lots)
    if given["pdf"] is None and (stray := next((name for name in OF_PAPER if given[name]), None)):
        raise Misused(f"--{stray} goes with --pdf FILE.")
    if not chosen and (written or given["pdf"] is not None):
        raise Refused("Every lot in your care has a label; name the lots that want another.")
    printed = None if given["pdf"] is None else _print(desk, chosen, given)
    document = {"labels": [_document(label_of(lot)) for lot in chosen], "printed": printed}
    if written:
        _write(desk, chosen, document)
        return
    page = _page(chosen, why=desk.why, plain=desk.plain)
    if chosen and printed is None:
        page.next_steps(
            "'cuttings labels --written LOT' keeps that a lot has its label; --pdf FILE makes some to print."
        )
    desk.answer(page, document)


def _chosen(desk: Desk, named: Sequence[str]) -> list[Lot]:
    """The lots that are named, or all that have no label.

    Raises:
        Refused: one is not there.
    """
    if not named:
        return unlabelled(desk.book.lots.values())
    read = lot_in(desk.book)
    try:
        return list({lot.code: lot for lot in map(read, named)}.values())
    except Unfound as error:
        raise Refused(str(error)) from None


def _document(label: Label) -> dict[str, Any]:
    return {"lot": label.lot, "lines": list(label.lines), "qr": label.code_and_name}


def _page(chosen: Sequence[Lot], *, why: bool, plain: bool) -> Page:
    page = Page().heading("Labels")
    for lot in chosen:
        label = label_of(lot)
        first, *others = [label.text] if plain else label.lines
        page.row(lot.code, first, *others)
    page.row("", "Every lot in your care has a label.", only_if=not chosen)
    page.row("Why", LABEL_WHY, LABEL_SOURCE if why else "", only_if=bool(chosen))
    return page


def _write(desk: Desk, chosen: Sequence[Lot], document: dict[str, Any]) -> None:
    """Keep that the labels were made, each under its own lot."""
    written = desk.write_all(e.Labelled, [{"lot": lot.code, "text": label_of(lot).text} for lot in chosen])
    many = len(written) > 1
    page = Page().rows((entry.lot, f"{entry.text}.") for entry in written)
    page.next_steps(f"'cuttings undo' takes {'the last of them' if many else 'it'} back.")
    desk.recorded(
        f"{len(written)} label{'s' if many else ''} written: {listed([_called(lot) for lot in chosen])}.",
        written[-1],
        page,
        entries=[entry.id for entry in written],
        **document,
    )


def _called(lot: Lot) -> str:
    return f"{lot.code} {lot.plant_called}"


def _print(desk: Desk, chosen: Sequence[Lot], given: Mapping[str, Any]) -> dict[str, Any]:
    """Labels in a file to print, and what there is to say of them.

    Raises:
        Misused: an option cannot be read, or does not go with another.
        Refused: the file cannot be written, or no label goes on the paper.
    """
    skip = _read(given, "skip", whole(0, MOST_PRINTED)) or 0
    layout = _layout(desk, given)
    if skip >= layout.a_sheet:
        raise Misused(f"--skip: a sheet holds {layout.a_sheet} labels; {skip} cannot be gone from it.")
    made = [label_of(lot) for lot in chosen for _ in range(_copies(lot) if given["each"] else 1)]
    if len(made) > MOST_PRINTED:
        raise Misused(f"That would be {len(made)} labels; name fewer lots, or leave out --each.")
    from cuttings.exchange.labels import labels_pdf  # it loads a typeface

    printed = labels_pdf(made, layout, skip=skip, day=desk.today)
    path = given["pdf"]
    write_whole(path, printed.pdf)
    desk.remark(_said(len(made), printed.pages, path, layout))
    if printed.without_code:
        desk.remark(
            f"A label of {layout.size} is too small for a code to scan that tells of "
            f"{listed(printed.without_code)}; the words are there."
        )
    return {
        "file": path,
        "labels": len(made),
        "pages": printed.pages,
        "size_m": [round(layout.size.width / 1000, 6), round(layout.size.height / 1000, 6)],
        "without_qr": list(printed.without_code),
    }


def _said(count: int, pages: int, path: str, layout: Layout) -> str:
    """What is in the file, and how to print it."""
    what = "1 label is" if count == 1 else f"{count} labels are"
    sheets = f"{pages} sheet{'s' if pages > 1 else ''} of {layout.paper} paper"
    cut = ", and cut at the marks" if layout.cut else ""
    return f"{what} in {path}, on {sheets}; print at actual size (100 %){cut}. {WET_INK}"


def _copies(lot: Lot) -> int:
    return max(sum(lot.at(stage) for stage in IN_POTS), 1)


def _layout(desk: Desk, given: Mapping[str, Any]) -> Layout:
    """How the labels lie: in the columns and rows that were told, as on the common sheet of their size, or to
    be cut out of plain paper."""
    size = _read(given, "sheet", lambda text: parse_size(text, desk.units)) or SMALL
    told = _read(given, "paper", _paper)
    paper: Format = told or ("letter" if desk.units is Units.US else "A4")
    columns = _read(given, "grid", parse_grid)
    gap = _read(given, "gap", lambda text: parse_gap(text, desk.units))
    margins = _read(given, "margins", lambda text: parse_gap(text, desk.units))
    if columns is None and (gap or margins):
        raise Misused("--gap and --margins go with --grid, such as --grid 3x7.")
    if given["cut"] and columns is not None:
        raise Misused("Give only one of --cut and --grid.")
    try:
        if columns is not None:
            return on_grid(Grid(paper, size, *columns, *(gap or (0.0, 0.0))), margins)
        common = None if given["cut"] or not given["sheet"] else common_grid(size, paper)
        if common is not None and told in (None, common.paper):
            return on_grid(common)
        return cut_out(size, paper)
    except ValueError as error:
        raise Refused(str(error)) from None


def _paper(text: str) -> Format:
    for paper in PAPER:
        if paper.casefold() == text.strip().casefold():
            return paper
    raise ValueError(f"'{text}' is none of: {', '.join(PAPER)}.")


def _read(given: Mapping[str, Any], name: str, parse: Callable[[str], T]) -> T | None:
    text = given[name]
    try:
        return None if text is None else parse(text)
    except ValueError as error:
        raise Misused(f"--{name}: {error}") from None
