"""What takes: how many stems root, come through potting and live a year, by whatever lots differ in."""

from collections.abc import Mapping, Sequence
from typing import Any

import click

from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import of_plant, one_of, whole
from cuttings.commands.takes_asking import asked
from cuttings.commands.takes_view import Table, takes_document, takes_page
from cuttings.dates import EARLIEST, LATEST
from cuttings.errors import Misused, Refused
from cuttings.ledger.lots import Lot
from cuttings.plants.understood import understand
from cuttings.takes.cases import By, Case, case_of
from cuttings.takes.comparing import comparisons
from cuttings.takes.groups import grouped, left_out
from cuttings.words import listed

WAITING_FOR = (
    "It fills by itself: each look at a lot ('cuttings check') tells how many rooted, and each loss in a pot "
    "or in its place how many did not live."
)


@click.command(help="How many of your stems root and live, with what is published to start from.")
@click.option("--plant", metavar="TEXT", help="only lots of that plant")
@click.option("--by", multiple=True, metavar="BY", help=f"{'|'.join(By)}; several with commas")
@click.option("--ask", is_flag=True, help="ask what to tell of")
@click.option("--year", metavar="YEAR", help="the account of a year; with --by a table of its lots")
@click.option("--markdown", metavar="FILE", help="keep the account of a year as Markdown")
@click.option("--svg", metavar="FILE", help="and its charts as a drawing")
@click.option("--price", multiple=True, metavar="AMOUNT", help="what a stem is worth: 4.50, or PLANT=6")
@global_options
@with_desk
def takes(desk: Desk, ask: bool, **given: Any) -> None:
    if ask:
        if any(given.values()):
            raise Misused("--ask asks what to tell of; give it without other options, or leave it out.")
        given |= asked(desk, lambda name: _lots_of(desk, list(desk.book_then.lots.values()), name))
    year = _year(given["year"])
    plant = (given["plant"] or "").strip()
    by = _by(given["by"]) or ((By.METHOD,) if plant else (By.PLANT, By.METHOD))
    cases = _cases(desk, plant, year)
    groups = grouped(cases, by)
    table = Table(
        by=by,
        groups=groups,
        comparisons=comparisons(groups),
        left_out=left_out(cases, by),
        title=_title(desk, by, plant, year),
        nothing="" if groups else _nothing(cases, by, plant, year),
    )
    document = takes_document(desk, table)
    if year is None or given["by"]:
        _only_with_the_account(given)
        desk.answer(takes_page(desk, table), document)
        return
    from cuttings.commands.year_account import year_account

    files = given["markdown"], given["svg"]
    year_account(desk, year, plant, *files, given["price"], takes=document)


def _only_with_the_account(given: Mapping[str, Any]) -> None:
    for name in ("markdown", "svg", "price"):
        if given[name]:
            raise Misused(f"--{name} belongs to the account of a year; give --year without --by.")


def _by(given: Sequence[str]) -> tuple[By, ...]:
    """What to tell lots apart by, each once, in the order given."""
    try:
        words = [word for text in given for word in text.split(",")]
        return tuple(dict.fromkeys(one_of(By)(word) for word in words))
    except ValueError as error:
        raise Misused(f"--by: {error}") from None


def _year(given: str | None) -> int | None:
    try:
        return whole(EARLIEST, LATEST)(given) if given else None
    except ValueError as error:
        raise Misused(f"--year: {error}") from None


def _cases(desk: Desk, plant: str, year: int | None) -> list[Case]:
    every = list(desk.book_then.lots.values())
    return [
        case_of(lot, desk.learned, desk.climate, desk.on)
        for lot in (_lots_of(desk, every, plant) if plant else every)
        if year is None or lot.started_on.year == year
    ]


def _lots_of(desk: Desk, lots: list[Lot], typed: str) -> list[Lot]:
    """The lots of one plant, by its name in the catalogue or by the keeper's own."""
    meant = understand(desk.catalogue, typed)
    found = list(filter(of_plant(meant.name, typed), lots))
    if not found and meant.plant is None:
        raise Refused(
            meant.could_be
            if meant.candidates
            else f"There is no lot of '{typed}'; 'cuttings lots' lists them all."
        )
    return found


def _title(desk: Desk, by: Sequence[By], plant: str, year: int | None) -> str:
    parts = [
        plant or (desk.garden.name if desk.garden else ""),
        str(year or ""),
        f"by {listed([each.value for each in by])}",
    ]
    return ", ".join(part for part in parts if part)


def _nothing(cases: Sequence[Case], by: Sequence[By], plant: str, year: int | None) -> str:
    if cases and len(cases) == sum(left_out(cases, by).values()):
        return "None of the lots here tells of that."
    if cases:
        return f"Nothing to tell of {'this' if len(cases) == 1 else 'these'} yet. {WAITING_FOR}"
    of = f" of {plant}" if plant else ""
    begun = f" begun in {year}" if year else ""
    return f"No lots{of}{begun} yet. {WAITING_FOR}"
