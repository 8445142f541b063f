"""The desk a command works at: which ledger, which day, who asks, and how answers are shown."""

import contextlib
import json
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import cached_property, wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click
from attrs import define, evolve, field

from cuttings.ask import Answers, Asker, Interview, Question, Retracing, asker_for
from cuttings.climate.climate import SAFE_RISK, Climate, climate_from
from cuttings.climate.frost import frost_dates
from cuttings.climate.normals import LAYOUT, Normals, OtherHemisphere, from_document, to_bytes, years_of
from cuttings.climate.zones import middle_c
from cuttings.commands.terminal import at_terminal, say_error, write_lines
from cuttings.dates import parse_date
from cuttings.errors import Misused, Refused
from cuttings.ledger.book import Book
from cuttings.ledger.entries import Entry
from cuttings.ledger.places import Garden
from cuttings.ledger.store import Ledger, Stamp
from cuttings.show.page import Page
from cuttings.show.plain import piped_width, speaks_unicode
from cuttings.words import Units

if TYPE_CHECKING:
    from cuttings.plants.catalogue import Catalogue
    from cuttings.takes.learned import Learned

SCHEMA = 1
NORMALS_FILE = "climate.json"
DAYS_FILE = "climate.days"
"""What is kept of a station file beside the ledger: its normals, and its days."""
R = TypeVar("R")
E = TypeVar("E", bound=Entry)
_META = "cuttings."


def _remember(ctx: click.Context, param: click.Parameter, value: object) -> object:
    """Keep a global option wherever on the line it stood; the last one given holds."""
    if value not in (None, False):
        ctx.meta[_META + str(param.name)] = value
    return value


def global_options(command: Callable[..., R]) -> Callable[..., R]:
    """The options that may stand before or after any command."""
    options: Sequence[Callable[[Callable[..., R]], Callable[..., R]]] = [
        _option("--ledger", metavar="DIR", help="the ledger's folder (or set CUTTINGS_LEDGER)"),
        _option("--on", "on_day", metavar="DATE", help="the day it happened: YYYY-MM-DD, yesterday, monday"),
        _option("--who", metavar="NAME", help="who writes this down"),
        _option("--json", "as_json", is_flag=True, help="print one JSON document"),
        _option("--why", is_flag=True, help="show the sources too"),
        _option("--plain", is_flag=True, help="no colour, no drawing, one thing a line"),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def _option(*names: str, **settings: Any) -> Callable[[Callable[..., R]], Callable[..., R]]:
    return click.option(*names, expose_value=False, callback=_remember, is_eager=True, **settings)


@define(slots=False)
class Desk:
    """What a command needs of the world outside."""

    ledger: Ledger
    today: date
    on: date
    as_json: bool = False
    why: bool = False
    plain: bool = False
    asker: Asker | None = None
    answers: Answers | None = None
    """What was answered so far; ``None`` where nobody can go back."""
    _made: dict[str, tuple[Book, Any]] = field(factory=dict, init=False)

    @cached_property
    def book(self) -> Book:
        """The book as it was when the command began; damage is told of once."""
        book = self.ledger.book()
        for damage in self.ledger.damage:
            self.remark(
                f"Line {damage.line} of the ledger is damaged ({damage.why}) and was passed over; "
                "'cuttings tally --mend' sets it aside."
            )
        return book

    @property
    def garden(self) -> Garden | None:
        return self.book.garden

    @property
    def units(self) -> Units:
        return self.garden.units if self.garden else Units.US

    @property
    def catalogue(self) -> "Catalogue":
        """The plants that are known, with the keeper's own facts; the same object as long as the book is."""
        return self._while_the_book_stands("catalogue", lambda: _catalogue_of(self.book))

    @property
    def climate(self) -> Climate:
        """The garden's climate, at this season's own pace. The same object as long as the book is the same,
        for the rules remember what they worked out for it."""
        return self._while_the_book_stands(
            "climate", lambda: self._paced(climate_of(self.garden, self.normals))
        )

    @property
    def book_then(self) -> Book:
        """The book as it stood on the day that the command is of; the same object as long as the book is."""
        return self._while_the_book_stands("then", lambda: self.book.as_of(self.on))

    @property
    def learned(self) -> "Learned":
        """What the ledger's own lots have taught by that day; the same object as long as the book is."""
        return self._while_the_book_stands("learned", lambda: _learned_from(self))

    def _while_the_book_stands(self, name: str, make: Callable[[], R]) -> R:
        """Something made from the book once, and made anew when an entry has changed it."""
        book, made = self._made.get(name, (None, None))
        if book is not self.book:
            made = make()
            self._made[name] = self.book, made
        return cast("R", made)

    def _paced(self, climate: Climate) -> Climate:
        if not self.book.signs:
            return climate
        from cuttings.nudges.season import pace_in

        return evolve(climate, pace=pace_in(self.book, self.catalogue, climate, self.on))

    @cached_property
    def normals(self) -> Normals | None:
        """What is kept of the station file that was loaded; ``None`` where there is none, or it is
        damaged. Normals of another version, or for the other half of the earth, are reckoned anew."""
        kept = self.ledger.beside(NORMALS_FILE)
        if kept is None:
            return None
        try:
            document = json.loads(kept)
            years = years_of(document)
            if years is not None and document["layout"] != LAYOUT:
                return self._reckoned_anew(years)
            normals = from_document(document)
            if years is None or self.garden is None or normals.southern == (self.garden.lat < 0):
                return normals
            return self._reckoned_anew(years)
        except OtherHemisphere as error:
            say_error(str(error))
        except ValueError:
            where = self.ledger.folder / NORMALS_FILE
            say_error(f"The climate in {where} cannot be read; load the station file again.")
        return None

    def _reckoned_anew(self, years: tuple[int, int]) -> Normals:
        """The normals of those years from the days that are kept, for the garden as it lies now.

        They are kept in place of the old ones, unless nothing can be written there; then the next command
        does it again.

        Raises:
            ValueError: the days are gone or damaged, or do not fit the garden.
        """
        from cuttings.climate.condensing import condense
        from cuttings.climate.series import Series

        days = self.ledger.beside(DAYS_FILE)
        if days is None or self.garden is None:
            raise ValueError("there are no days to reckon from")
        normals = condense(Series.from_bytes(days), self.garden.lat, years)
        with contextlib.suppress(Refused):
            self.ledger.keep_beside({NORMALS_FILE: to_bytes(normals)})
        return normals

    def interview(self, given: Mapping[str, Any], required: Sequence[Question[Any]]) -> Interview:
        """Questions for what the options left out; see ``Interview``."""
        return Interview(given=given, required=required, asker=self.asker)

    def write(self, kind: type[E], **fields: Any) -> tuple[Book, E]:
        """Record one entry of a kind; returns the book after it and the entry."""
        return self._record_one(lambda _, stamp: kind(**self._stamped(stamp), **fields))

    def begin(self, kind: type[E], code: str = "lot", prefix: str = "", **fields: Any) -> tuple[Book, E]:
        """Record one entry whose field ``code`` takes the next running code; a mark's begins with ``M``."""

        def make(book: Book, stamp: Stamp) -> E:
            return kind(**self._stamped(stamp), **{**fields, code: book.next_code(self.on, prefix)})

        return self._record_one(make)

    def write_all(self, kind: type[E], several: Sequence[Mapping[str, Any]]) -> tuple[E, ...]:
        """Record several entries of a kind, all of them or none."""
        if not several:
            return ()
        return self._record(lambda _, stamp: [kind(**self._stamped(stamp), **fields) for fields in several])[
            1
        ]

    def _record_one(self, make: Callable[[Book, Stamp], E]) -> tuple[Book, E]:
        book, entries = self._record(lambda book, stamp: [make(book, stamp)])
        return book, entries[0]

    def _record(self, make: Callable[[Book, Stamp], list[E]]) -> tuple[Book, tuple[E, ...]]:
        book, entries = self.ledger.record(make)
        if self.answers is not None:
            self.answers.settle()
        self.__dict__["book"] = book
        if self.on > self.today:
            self.warn(f"{self.on.isoformat()} is still to come; it is recorded under that day all the same.")
        return book, cast("tuple[E, ...]", entries)

    def _stamped(self, stamp: Stamp) -> dict[str, Any]:
        return {"id": stamp(), "on": self.on, "who": self.ledger.who}

    @property
    def retracing(self) -> bool:
        """Whether this run has yet to catch up with one before it, which said everything up to there."""
        return self.answers is not None and self.answers.retracing

    def warn(self, sentence: str) -> None:
        """Advice against what is being done; said on stderr so that it never spoils a document."""
        self.remark(f"Take care: {sentence}")

    def remark(self, sentence: str) -> None:
        """Something worth knowing, beside the answer."""
        if not self.retracing:
            say_error(sentence)

    def answer(self, page: Page, document: Mapping[str, Any]) -> None:
        """Show the answer: the page, or with ``--json`` the document and nothing else."""
        if self.as_json:
            whole = {"schema": SCHEMA, **document}
            ascii_only = not speaks_unicode(sys.stdout)
            sys.stdout.write(json.dumps(whole, ensure_ascii=ascii_only, allow_nan=False, indent=2) + "\n")
        else:
            self._print(page)

    def show(self, page: Page) -> None:
        """Show a page between two questions; one that an earlier run showed is not shown again."""
        if not self.retracing:
            self._print(page)

    def _print(self, page: Page) -> None:
        if self.plain:
            write_lines(page.plain_lines())
        elif sys.stdout.isatty() or os.environ.get("FORCE_COLOR"):
            from cuttings.show.console import console

            console().print(page)
        else:  # no colours to give, so rich need not be loaded
            write_lines("".join(text for text, _ in line) for line in page.lines(piped_width()))
        sys.stdout.flush()

    def recorded(self, sentence: str, entry: Entry, page: Page | None = None, **document: Any) -> None:
        """Say that an entry is safe, in one sentence, with what one would do next."""
        whole = Page()
        whole.row("Recorded", sentence, tone="accent")
        if page is not None:
            whole.parts.extend(page.parts)
        self.answer(whole, {"entry": entry.id, **document})


def _catalogue_of(book: Book) -> "Catalogue":
    from cuttings.plants.standard import standard

    if not book.plant_facts:
        return standard()
    from cuttings.plants.own import own_record

    return standard().with_own(own_record(each.plant, each.facts, each.on) for each in book.plant_facts)


def _learned_from(desk: Desk) -> "Learned":
    from cuttings.takes.learned import Learned

    return Learned(desk.book_then.lots.values(), desk.catalogue, desk.climate)


def climate_of(garden: Garden | None, normals: Normals | None = None) -> Climate:
    """The climate from a station's normals, or as far as the garden's facts tell it."""
    if garden is None:
        return Climate(lat=45.0)
    risk = garden.risk or SAFE_RISK
    if normals is not None:
        return climate_from(normals, garden.lat, risk)
    dates = frost_dates(
        garden.last_frost,
        garden.first_frost,
        garden.last_frost_odds,
        garden.first_frost_odds,
        coldest_c=middle_c(garden.zone) if garden.zone else None,
    )
    return Climate(lat=garden.lat, frost=dates, zone=garden.zone, risk=risk)


def with_desk(command: Callable[..., R]) -> Callable[..., R]:
    """Give a click command its desk as the first argument."""

    @wraps(command)
    def at_desk(*args: Any, **kwargs: Any) -> R:
        return command(desk_of(click.get_current_context()), *args, **kwargs)

    return at_desk


def desk_of(ctx: click.Context) -> Desk:
    """The desk that the global options describe."""
    meta = {key.removeprefix(_META): value for key, value in ctx.meta.items() if key.startswith(_META)}
    today = date.today()
    try:
        on = parse_date(meta["on_day"], today) if "on_day" in meta else today
    except ValueError as error:
        raise Misused(f"--on: {error}") from None
    as_json, plain = bool(meta.get("as_json")), bool(meta.get("plain"))
    asker: Asker | None = None
    answers: Answers | None = ctx.obj
    if at_terminal() and not as_json:
        asker = asker_for(plain or os.environ.get("TERM") == "dumb")
        if answers is not None:
            asker = Retracing(asker, answers)
    who = meta.get("who", os.environ.get("CUTTINGS_WHO", ""))
    return Desk(
        ledger=Ledger(ledger_folder(meta.get("ledger")), who=who),
        today=today,
        on=on,
        as_json=as_json,
        why=bool(meta.get("why")),
        plain=plain,
        asker=asker,
        answers=answers,
    )


def globals_of(ctx: click.Context) -> list[str]:
    """The global options that hold, to be handed on to another command."""
    names = {"ledger": "--ledger", "on_day": "--on", "who": "--who"}
    flags = {"why": "--why", "plain": "--plain", "as_json": "--json"}
    given = []
    for key, option in names.items():
        if (value := ctx.meta.get(_META + key)) is not None:
            given += [option, str(value)]
    return given + [option for key, option in flags.items() if ctx.meta.get(_META + key)]


def ledger_folder(named: str | None) -> Path:
    """The folder named on the line, in the environment, or the platform's place for user data."""
    chosen = named or os.environ.get("CUTTINGS_LEDGER")
    if chosen:
        return Path(chosen).expanduser()
    from platformdirs import user_data_path

    return user_data_path("cuttings", appauthor=False)
