"""Reading answers: each function turns a text into a value or says in a sentence what it wants."""

from collections.abc import Callable
from enum import StrEnum
from typing import TypeVar

from cuttings.ask import Choice
from cuttings.errors import Unfound
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Site
from cuttings.words import Stage

E = TypeVar("E", bound=StrEnum)
T = TypeVar("T")


def words(text: str) -> str:
    """Free text, as it is."""
    return text.strip()


def filled(text: str) -> str:
    """Free text that may not be empty."""
    if not text.strip():
        raise ValueError("This cannot be left empty.")
    return text.strip()


def maybe(parse: Callable[[str], T]) -> Callable[[str], T | None]:
    """The same reading, with an empty answer allowed."""
    return lambda text: parse(text) if text.strip() else None


def whole(least: int = 1, most: int = 99_999) -> Callable[[str], int]:
    """A whole number within limits."""

    def read(text: str) -> int:
        try:
            number = int(text.strip())
        except ValueError:
            wrong = f"'{text}' is not a whole number." if text.strip() else "This cannot be left empty."
            raise ValueError(wrong) from None
        if number < least:
            raise ValueError(f"{number} is too few; it takes at least {least}.")
        if number > most:
            raise ValueError(f"{number} is too many; {most} is the most.")
        return number

    return read


def number(least: float, most: float, what: str) -> Callable[[str], float]:
    """A number within limits; NaN and infinity lie in none."""

    def read(text: str) -> float:
        try:
            value = float(text.strip().replace(",", "."))
        except ValueError:
            raise ValueError(f"'{text}' is not {what}; write a number from {least:g} to {most:g}.") from None
        if not least <= value <= most:
            raise ValueError(f"{text} will not do: {what} lies between {least:g} and {most:g}.")
        return value

    return read


def yes_no(text: str) -> bool:
    """A yes or a no."""
    word = text.strip().casefold()
    if word in ("y", "yes", "true"):
        return True
    if word in ("n", "no", "false"):
        return False
    raise ValueError("Answer y or n.")


def one_of(kind: type[E]) -> Callable[[str], E]:
    """One of a set of words."""

    def read(text: str) -> E:
        word = "-".join(text.strip().casefold().replace("_", "-").split())
        try:
            return kind(word)
        except ValueError:
            raise ValueError(f"'{text}' is none of: {', '.join(kind)}.") from None

    return read


def choices(kind: type[E], **spoken: str) -> tuple[Choice, ...]:
    """The members of a set of words as choices; ``spoken`` gives the fuller wording of some."""
    return tuple(Choice(member.value, spoken.get(member.name.lower(), "")) for member in kind)


def lot_in(book: Book) -> Callable[[str], Lot]:
    """A lot of the book, by its code (``26-014``, ``26-14``), also with its plant after it as a scanned label
    has it, or by a plant that only one live lot has."""

    def read(text: str) -> Lot:
        asked = text.strip()
        for code in (asked, *asked.split()[:1]):
            found = book.lots.get(code) or book.lots.get(_padded(code))
            if found is not None:
                return found
        wanted = asked.casefold()
        near = [
            lot
            for lot in book.live_lots()
            if wanted and (wanted in lot.plant.casefold() or wanted in lot.called.casefold())
        ]
        if len(near) == 1:
            return near[0]
        if near:
            names = ", ".join(f"{lot.code} {lot.plant_called}" for lot in near[:6])
            raise Unfound(f"'{text}' could be any of {names}; give the code.")
        raise Unfound(f"There is no lot '{text}'; 'cuttings lots' lists them.")

    return read


def of_plant(name: str, typed: str) -> Callable[[Lot], bool]:
    """Whether a lot is of a plant: by the name that was understood, or by what was typed as the keeper's own
    word for it."""
    name, typed = name.casefold(), typed.strip().casefold()
    return lambda lot: name in lot.plant.casefold() or typed in lot.called.casefold()


def _padded(code: str) -> str:
    year, dash, running = code.partition("-")
    return f"{year}-{int(running):03d}" if dash and running.isdecimal() else code


def site_in(book: Book) -> Callable[[str], Site]:
    """A site of the book by its name, or the beginning of one, without case."""

    def read(text: str) -> Site:
        wanted = text.strip().casefold()
        exact = [site for name, site in book.sites.items() if name.casefold() == wanted]
        near = exact or [site for name, site in book.sites.items() if wanted and wanted in name.casefold()]
        if len(near) == 1:
            return near[0]
        if near:
            raise Unfound(f"'{text}' could be {' or '.join(site.name for site in near)}; say which.")
        known = ", ".join(book.sites) or "none yet; add one with 'cuttings sites add'"
        raise Unfound(f"There is no site '{text}'. Sites: {known}.")

    return read


def lot_choices(book: Book, *stages: Stage) -> tuple[Choice, ...]:
    """The lots that hold stems at any of the stages, as choices."""
    from cuttings.ledger.stages import spoken_counts

    return tuple(
        Choice(lot.code, f"{lot.code}  {lot.plant_called}, {spoken_counts(lot.stages)}")
        for lot in book.lots.values()
        if any(lot.at(stage) for stage in stages)
    )
