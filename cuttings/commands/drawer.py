"""The drawer as other commands use it: pots by their names, those that are free, and too few of them."""

from collections.abc import Callable, Sequence

from attrs import evolve

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import yes_no
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.containers import IN_POTS, Held, Kind, drawer
from cuttings.rules.pots import Pot, parse_pot, several
from cuttings.words import Units

POT_FORMS = "4in, 9cm square, #1, SP4, 2L, 72-cell tray or a name from 'cuttings pots'"
"""How a pot may be written, in a few examples."""

WITH_POTS = Question("with-pots", "Do their pots go with them?", yes_no, default="no", yes_no=True)


def drawer_of(book: Book) -> tuple[Held, ...]:
    """The drawer as it stands in a book; empty where nobody wrote down what they own."""
    return drawer(book.containers, book.lots.values())


def kind_in(book: Book, text: str, units: Units) -> Kind | None:
    """The kind of the drawer that a text names, or whose name is the size it writes in other words."""
    kind = book.containers.get(" ".join(text.split()).casefold())
    if kind is not None:
        return kind
    try:
        return book.containers.get(parse_pot(text, units).name.casefold())
    except ValueError:
        return None


def pot_in(book: Book, units: Units) -> Callable[[str], Pot]:
    """Reads a pot: the name of one in the drawer, or what ``parse_pot`` reads."""

    def read(text: str) -> Pot:
        kind = kind_in(book, text, units)
        return parse_pot(text, units) if kind is None else pot_of(kind)

    return read


def pot_of(kind: Kind) -> Pot:
    """A kind of the drawer as a pot by its own name; of a size that another program wrote down in its own way
    only the mix it takes is known."""
    try:
        pot = evolve(parse_pot(kind.size, Units.METRIC), name=kind.name)  # a size is kept with its unit
    except ValueError:
        pot = Pot(kind.name, 0.0)
    return pot if kind.volume_l is None else evolve(pot, volume_l=kind.volume_l)


def free_pots(book: Book, count: int) -> Sequence[Pot] | None:
    """The pots of which so many are free; ``None`` without a drawer."""
    held = [each for each in drawer_of(book) if each.pieces]
    return [pot_of(each.kind) for each in held if each.free >= count] if held else None


def warn_if_short(desk: Desk, book: Book, entry: e.Pot) -> None:
    """Say where more stems were potted than there are pots for; what is recorded stays recorded."""
    named, held = entry.pot.casefold(), drawer_of(book)
    mine = [each for each in held if each.kind.name.casefold() == named]
    mine = mine or [each for each in held if each.kind.size.casefold() == named]
    short = -sum(min(each.free, 0) for each in mine)
    if short:
        free = max(entry.stems - short, 0)
        how_many = f"only {free}" if free else "none"
        cells = "cells " if mine[0].kind.cells > 1 and free else ""
        desk.warn(f"{how_many} {cells}of your {several(entry.pot)} are free for these {entry.stems}.")


def with_pots(desk: Desk, interview: Interview, moves: Sequence[e.Move]) -> bool:
    """Whether the pots of stems that leave go with them; asked only where there is a drawer and the stems
    stand in pots."""
    if desk.book.containers and any(move.source in IN_POTS for move in moves):
        return interview.ask(WITH_POTS)
    told = interview.given(WITH_POTS)
    return bool(told)
