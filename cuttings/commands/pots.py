"""The pots one owns: listed, put in, taken out; and how they are cleaned."""

from collections.abc import Callable, Sequence
from typing import Any

import click
from attrs import evolve

from cuttings.ask import Choice, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import drawer_of, kind_in, pot_of
from cuttings.commands.parsing import filled, number, whole
from cuttings.commands.questions import NOTE
from cuttings.errors import Misused, Unfound
from cuttings.ledger.book import Book
from cuttings.ledger.containers import Containers, Held, Kind
from cuttings.plants.model import Caution
from cuttings.rules.cleaning import (
    BLEACH,
    BLEACH_PERCENT,
    CAUTIONS,
    CLEANERS,
    LEAST_PERCENT,
    MOST_PERCENT,
    SOAK_SOURCE,
    WASH_FIRST,
    WASH_SOURCE,
    Cleaner,
    Soak,
    bleach_soak,
)
from cuttings.rules.pots import Pot, class_limits_l, parse_pot, several
from cuttings.show.page import Page
from cuttings.units import parse_volume, show_temperature, show_volume
from cuttings.words import Units

COUNT = Question("count", "How many?", whole(), allowed="a whole number from 1")
OWNED = evolve(COUNT, prompt="How many? (those in use count too)")
USUAL_SOAK = {Units.US: "3gal", Units.METRIC: "10L"}
"""A bucket of soak, where nobody says how much."""


@click.group(invoke_without_command=True, help="The pots you own: how many are in use and free.")
@global_options
@click.pass_context
def pots(ctx: click.Context) -> None:
    if ctx.invoked_subcommand is None:
        listed()


@with_desk
def listed(desk: Desk) -> None:
    """The drawer, kind by kind."""
    held = [each for each in drawer_of(desk.book) if each.pieces or each.in_use]
    page = Page().heading("Pots", desk.garden.name if desk.garden else "")
    for each in held:
        page.row(each.kind.name, f"{_stands(each)}.", f"{_size_words(each.kind, desk.units)}.")
        page.warnings([f"{_short(each)}."] if each.free < 0 else [])
    page.row("", "Nobody has written down yet which pots there are.", only_if=not held)
    page.next_steps(
        "'cuttings pots add NAME --size POT --count N' puts pots in.",
        "'cuttings pots clean' tells how used ones are cleaned." if held else "",
    )
    desk.answer(page, {"pots": [held_document(each) for each in held]})


def _stands(held: Held) -> str:
    owned = f"{held.owned} owned"
    if held.kind.cells > 1:
        owned = f"{held.pieces} of {held.kind.cells} cells owned"
    return f"{owned}, {held.in_use} in use, {max(held.free, 0)} free"


def _short(held: Held) -> str:
    places = "cells" if held.kind.cells > 1 else "pots"
    return f"{-held.free} more {places} are in use than you own; 'cuttings pots add' puts the missing ones in"


def _size_words(kind: Kind, units: Units) -> str:
    litres = pot_of(kind).volume_l
    name = "" if kind.size == kind.name else f"{kind.size}, "
    cell = " to a cell" if kind.cells > 1 else ""
    limits = class_limits_l(kind.size)
    words = ""
    if limits is not None and not limits[0][0] <= litres <= limits[0][1]:
        low, high = (show_volume(each, units) for each in limits[0])
        words = f"; the nursery standard has {low} to {high} for a {kind.size}"
    return f"{name}{show_volume(litres, units)} of mix{cell}{words}"


def held_document(held: Held) -> dict[str, Any]:
    """A kind of the drawer as JSON; what is owned, in use and free counts stems' places."""
    kind = held.kind
    return {
        "name": kind.name,
        "size": kind.size,
        "volume_l": kind.volume_l,
        "cells": kind.cells,
        "pieces": held.pieces,
        "owned": held.owned,
        "in_use": held.in_use,
        "free": held.free,
    }


@pots.command(short_help="put pots into the drawer", help="Put pots you own into the drawer.")
@click.argument("name", required=False)
@click.option("--size", metavar="POT", help="4in, 9cm square, #1, SP4, 2L, deep 5x18cm or 72-cell tray")
@click.option("--count", metavar="N", help="how many pots, or trays")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def add(desk: Desk, **given: Any) -> None:
    units = desk.units
    name_of = Question(
        "name",
        "What do you call them? (4in, 9cm square, or a name of your own)",
        _name,
        argument=True,
        allowed="a name, such as 4in",
    )
    size_of = Question(
        "size", "What size are they?", lambda text: parse_pot(text, units), allowed="4in, 9cm, #1, SP4, 2L"
    )
    told = given["name"] and (kind_in(desk.book, given["name"], units) or _itself(given["name"], units))
    interview = desk.interview(given, [name_of, OWNED] if told else [name_of, size_of, OWNED])
    name = interview.ask(name_of)
    kind, itself = kind_in(desk.book, name, units), _itself(name, units)
    size = interview.given(size_of)
    if kind is None and size is None:
        size = itself or interview.ask(size_of)
    if itself and size and size.name != itself.name:
        raise Misused(f"--size: '{name}' is a size itself; give pots of another size another name.")
    count = interview.ask(OWNED)
    note = interview.ask(NOTE)
    known = kind or itself
    facts: dict[str, Any] = {"name": known.name if known else name, "change": count, "note": note}
    if size is not None:
        facts |= {"size": size.name, "volume_l": size.volume_l, "cells": size.cells}
    _record(desk, facts)


@pots.command(short_help="take pots out of the drawer", help="Take pots out that broke or went away.")
@click.argument("name", required=False)
@click.option("--count", metavar="N", help="how many pots, or trays")
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def remove(desk: Desk, **given: Any) -> None:
    which = Question(
        "name",
        "Which pots?",
        _kind_named(desk.book, desk.units),
        tuple(
            Choice(each.kind.name, f"{each.kind.name}: {_stands(each)}")
            for each in drawer_of(desk.book)
            if each.pieces
        ),
        argument=True,
        allowed="a name from 'cuttings pots'",
        nothing="There are no pots in the drawer; 'cuttings pots add' puts some in.",
    )
    interview = desk.interview(given, [which, COUNT])
    kind = interview.ask(which)
    held = next(each for each in drawer_of(desk.book) if each.kind.name == kind.name)
    count = interview.ask(Question("count", f"How many? (up to {held.pieces})", _up_to(held)))
    note = interview.ask(NOTE)
    _record(desk, {"name": kind.name, "change": -count, "note": note})


def _record(desk: Desk, facts: dict[str, Any]) -> None:
    book, entry = desk.write(Containers, **facts)
    held = next(each for each in drawer_of(book) if each.kind.name == entry.name)
    page = Page().warnings([f"{_short(held)}."] if held.free < 0 else [])
    more = "more" if entry.change > 0 else "fewer"
    sentence = f"{abs(entry.change)} {more} of {several(entry.name)}; {_stands(held)}."
    desk.recorded(sentence, entry, page, **held_document(held))


def _name(text: str) -> str:
    return " ".join(filled(text).split())


def _itself(name: str, units: Units) -> Pot | None:
    """The pot that a name is the size of: ``4in``."""
    try:
        return parse_pot(name, units)
    except ValueError:
        return None


def _kind_named(book: Book, units: Units) -> Callable[[str], Kind]:
    def read(text: str) -> Kind:
        kind = kind_in(book, text, units)
        if kind is None:
            known = ", ".join(each.name for each in book.containers.values()) or "none yet"
            raise Unfound(f"There is no '{text}' in the drawer. Pots there: {known}.")
        return kind

    return read


def _up_to(held: Held) -> Callable[[str], int]:
    def read(text: str) -> int:
        count = whole()(text)
        if count > held.pieces:
            raise Unfound(f"You own {held.pieces} of {several(held.kind.name)}, so {count} cannot go.")
        return count

    return read


@pots.command(
    short_help="how pots, blades and benches are cleaned",
    help="How pots, blades and benches are cleaned, and the sums for a soak.",
)
@click.option("--make", metavar="VOL", help="how much soak to make, such as 10L or 3gal")
@click.option("--bleach", metavar="PERCENT", help=f"how strong the bleach is ({BLEACH_PERCENT:g})")
@global_options
@with_desk
def clean(desk: Desk, make: str | None, bleach: str | None) -> None:
    litres = _option("--make", lambda text: parse_volume(text, desk.units), make or USUAL_SOAK[desk.units])
    strong = number(LEAST_PERCENT, MOST_PERCENT, "the strength of bleach in percent")
    percent = _option("--bleach", strong, bleach or f"{BLEACH_PERCENT:g}")
    soak = bleach_soak(litres, percent)
    page = Page().heading("Clean pots, blades and benches", "the product's label goes first")
    page.row("First", WASH_FIRST, WASH_SOURCE if desk.why else "")
    page.row("Soak", _sum(litres, soak, percent), SOAK_SOURCE if desk.why else "", tone="accent")
    _take_care(page, CAUTIONS[:2], desk.why)
    page.gap()
    for each in CLEANERS:
        what = f"{each.name[:1].upper()}{each.name[1:]}: {each.uses}; {_dose(each, desk.units)}."
        page.row("", what, f"{each.how}.", each.source if desk.why else "")
    page.gap()
    _take_care(page, CAUTIONS[2:], desk.why)
    desk.answer(page, clean_document(litres, percent, soak))


def _take_care(page: Page, cautions: Sequence[Caution], why: bool) -> None:
    for caution in cautions:
        page.row("Take care", caution.text, caution.source if why else "", tone="warning")


def _option(option: str, read: Callable[[str], float], text: str) -> float:
    try:
        return read(text)
    except ValueError as error:
        raise Misused(f"{option}: {error}") from None


def _dose(cleaner: Cleaner, units: Units) -> str:
    """How strong, how hot and how long."""
    heat = ""
    if cleaner.celsius is not None:
        low, high = (show_temperature(each, units) for each in cleaner.celsius)
        heat = f"{low.split()[0]} to {high}"
    time = f"{cleaner.minutes:g} minutes at least" if cleaner.minutes is not None else ""
    return ", ".join(part for part in (cleaner.strength, heat, time) if part)


def _both(litres: float) -> str:
    return f"{show_volume(litres, Units.METRIC)} ({show_volume(litres, Units.US)})"


def _sum(litres: float, soak: Soak, percent: float) -> str:
    bleach = f"{BLEACH.name} of {percent:g} %"
    return f"For {_both(litres)}: {_both(soak.bleach_l)} of {bleach} into {_both(soak.water_l)} of water."


def clean_document(litres: float, percent: float, soak: Soak) -> dict[str, Any]:
    """The table, the soak's sums and the cautions as JSON."""
    return {
        "soak": {
            "make_l": round(litres, 4),
            "bleach_percent": percent,
            "bleach_l": round(soak.bleach_l, 4),
            "water_l": round(soak.water_l, 4),
            "soak_percent": soak.percent,
        },
        "cleaners": [
            {
                "name": each.name,
                "uses": each.uses,
                "strength": each.strength,
                "minutes": each.minutes,
                "celsius": [round(degrees, 1) for degrees in each.celsius] if each.celsius else None,
                "how": each.how,
                "source": each.source,
            }
            for each in CLEANERS
        ],
        "cautions": [{"text": each.text, "source": each.source} for each in CAUTIONS],
    }
