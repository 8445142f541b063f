"""``takes --year``: the account of a year, on the screen and in files to keep."""

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from cuttings.commands.desk import Desk
from cuttings.commands.drawings import write_drawing, write_text
from cuttings.commands.parsing import number, of_plant
from cuttings.commands.telling import known_lot
from cuttings.commands.year_pages import (
    MARKDOWN_BEGINS,
    account_document,
    account_drawing,
    account_markdown,
    account_page,
)
from cuttings.errors import Misused
from cuttings.ledger.lots import Lot
from cuttings.plants.names import folded
from cuttings.plants.understood import understand
from cuttings.show.page import Page
from cuttings.takes.cases import case_of
from cuttings.takes.year import Account, account
from cuttings.takes.year_worth import Prices
from cuttings.words import listed

MOST_WORTH = 1e6
"""The highest price of a stem that is believed."""


def year_account(
    desk: Desk,
    year: int,
    plant: str | None,
    markdown: str | None,
    svg: str | None,
    prices: Sequence[str],
    *,
    takes: Mapping[str, Any],
) -> None:
    """Answer with the account of a year, and write it to the files that were named.

    Args:
        plant: only lots of that plant, as it was typed.
        markdown: the file for the page, empty for none; ``svg`` that for its drawing.
        prices: as typed: ``4.50`` for a stem of any plant, ``box=6`` for one of that plant.
        takes: the document of the shares of the year's lots, to which that of the account is added.

    Raises:
        Misused: a price cannot be read, or is of a plant that the ledger does not have.
        Refused: a file cannot be written, or holds something else.
    """
    book = desk.book_then
    told = account(
        book,
        desk.catalogue,
        desk.climate,
        desk.on,
        year,
        give_up=lambda lot: _give_up(desk, lot),
        case_of=lambda lot: case_of(lot, desk.learned, desk.climate, desk.on),
        prices=_prices(desk, prices, book.lots.values()),
        only=_only(desk, plant),
    )
    garden = desk.garden.name if desk.garden else ""
    document = {**takes, "year": account_document(told)}
    if told.is_empty:
        desk.answer(_empty_page(told, plant), document)
        if markdown or svg:
            desk.remark("Nothing is written to a file of a year with nothing in it.")
        return
    page = account_page(told, garden, sources=desk.why, plain=desk.plain)
    if svg:
        write_drawing(svg, account_drawing(told, garden))
    if markdown:
        beside = _beside(markdown, svg) if svg else ""
        text = account_markdown(told, garden, beside, sources=desk.why)
        write_text(markdown, text, begins=MARKDOWN_BEGINS)
    page.next_steps(*_next_steps(told, markdown, svg))
    desk.answer(page, document)
    for path, what in ((svg, "drawing"), (markdown, "page")):
        if path:
            desk.remark(f"The {what} is in {path}.")


def _give_up(desk: Desk, lot: Lot) -> date | None:
    forecast = known_lot(desk, lot).forecast()
    return None if forecast is None else forecast.give_up


def _only(desk: Desk, plant: str | None) -> Callable[[Lot], bool] | None:
    """Which lots are of a plant, as ``lots --plant`` has it."""
    if not plant or not plant.strip():
        return None
    return of_plant(understand(desk.catalogue, plant).name, plant)


def _prices(desk: Desk, told: Iterable[str], lots: Iterable[Lot]) -> Prices:
    """The prices that were given; one of a cultivar goes before that of its species."""
    lots = tuple(lots)
    any_plant: Decimal | None = None
    near: dict[str, Decimal] = {}
    exact: dict[str, Decimal] = {}
    for text in told:
        plant, named, amount = text.rpartition("=")
        price = _price(amount, text)
        if not named:
            any_plant = price
            continue
        name = understand(desk.catalogue, plant).name
        own = {lot.plant for lot in lots if _is_called(lot, plant) or lot.plant == name}
        kin = {lot.plant for lot in lots if lot.plant.startswith(f"{name} ")}
        if not own | kin:
            known = listed(sorted({lot.plant_called for lot in lots}), 6) if lots else "none yet"
            raise Misused(f"--price: no lot is called '{plant}'; the ledger's plants are {known}.")
        exact.update(dict.fromkeys(own, price))
        near.update(dict.fromkeys(kin, price))
    return Prices(any_plant, {**near, **exact})


def _is_called(lot: Lot, plant: str) -> bool:
    typed = folded(plant, keep_cultivar=True)
    return bool(typed) and typed in [folded(name, keep_cultivar=True) for name in (lot.called, lot.plant)]


def _price(amount: str, text: str) -> Decimal:
    try:
        number(0, MOST_WORTH, "a price")(amount)
    except ValueError:
        raise Misused(
            f"--price: '{text}' is not a price; write a plain number like 4.50, or PLANT=4.50 for one plant."
        ) from None
    return Decimal(amount.strip().replace(",", "."))


def _beside(page: str, drawing: str) -> str:
    """The way from the page to the drawing, as a link has it."""
    try:
        way = os.path.relpath(Path(drawing).expanduser(), Path(page).expanduser().parent)
    except ValueError:  # on another drive
        way = drawing
    return Path(way).as_posix()


def _empty_page(told: Account, plant: str | None) -> Page:
    of = f" of '{plant}'" if plant else ""
    page = Page().row("", f"The ledger has nothing{of} of {told.year}: no lot was begun, nothing was moved.")
    years = [str(year) for year in told.years]
    if not years:
        return page
    page.row("", f"It has {'the year' if len(years) == 1 else 'the years'} {listed(years)}.")
    return page.next_steps(f"'cuttings takes --year {years[-1]}' tells of that one.")


def _next_steps(told: Account, markdown: str | None, svg: str | None) -> Iterable[str]:
    if not markdown:
        files = f"--markdown {told.year}.md" + ("" if svg else f" --svg {told.year}.svg")
        yield f"'cuttings takes --year {told.year} {files}' writes this page to keep."
    if not told.is_over:
        yield "'cuttings week' says what is best done now."
