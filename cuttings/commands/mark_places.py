"""Where a mark lies: its tape, kept as typed, and the place it leads to where the two points are known."""

from collections.abc import Callable, Sequence
from math import dist
from typing import Any

from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import maybe, site_in
from cuttings.commands.taping import (
    NOWHERE,
    POORLY_FIXED,
    Solved,
    Told,
    settled,
    solved_apart,
    solved_on,
    tape_question,
    told_by_side,
)
from cuttings.errors import Misused, Refused, Unfound
from cuttings.ledger import entries as e
from cuttings.ledger.book import Book
from cuttings.ledger.places import Point, Site
from cuttings.placement.points import point_named
from cuttings.placement.tape import (
    POOR_M,
    STEP_M,
    Tape,
    line_words,
    read_tape,
    tape_length,
    uncertainty_m,
    unsure_words,
)
from cuttings.units import parse_length, plan_words
from cuttings.words import Units

NONE = "none"


@frozen
class MarkPlace:
    """The facts of a mark that say where it lies, and what the tape came to."""

    tape: str = ""
    site: str = ""
    apart_m: float | None = None
    told: Told = NOWHERE

    @property
    def facts(self) -> dict[str, Any]:
        return {
            "tape": self.tape,
            "site": self.site,
            "apart_m": self.apart_m,
            "at": self.told.at,
            "side": self.told.side.value if self.told.side else "",
        }


def ask_mark_place(desk: Desk, interview: Interview, given: dict[str, Any], where: str) -> MarkPlace:
    """The tape of a mark, and the place it leads to.

    Args:
        where: what was said of where it is; a site of that name is offered first.
    """
    if given["site"] and given["apart"]:
        raise Misused("Give either --site, or --apart for two points on no plan.")
    text = interview.ask(tape_question(lambda text: _checked(text, desk.units)))
    if not text:
        if given["site"] or given["apart"] or given["side"]:
            raise Misused("--site, --apart and --side go with --tape.")
        return MarkPlace()
    tape = read_tape(text, desk.units)
    site = _ask_site(desk, interview, tape, where)
    if site is not None:
        text, solved = _solved(interview, text, lambda typed: solved_on(site, typed, desk.units))
        told = settled(desk, interview, site, solved, inside=False) if solved else NOWHERE
        return MarkPlace(text, site.name if solved else "", None, told)
    apart = interview.ask(_apart(tape, desk.units))
    if apart is None:
        if given["side"]:
            raise Misused("--side goes with --site or --apart.")
        return MarkPlace(text)
    text, solved = _solved(interview, text, lambda typed: solved_apart(apart, typed, desk.units))
    if solved is None:
        return MarkPlace(text)

    def words(at: Point) -> str:
        return line_words(tape.first, tape.second, at, desk.units)

    return MarkPlace(text, "", apart, told_by_side(desk, interview, solved, words))


def _checked(text: str, units: Units) -> str:
    """Two named distances, checked and kept as typed."""
    if text.strip():
        read_tape(text, units)
    return text.strip()


def _solved(interview: Interview, text: str, solve: Callable[[str], Solved]) -> tuple[str, Solved | None]:
    """A tape and where it leads; one that leads nowhere is asked for again, or kept as it is."""
    try:
        return text, solve(text)
    except Unfound as error:
        if not interview.asking:
            raise Refused(str(error)) from None
        interview.say(str(error))
    prompt = "The two distances again? (Enter keeps them as they are, without a place)"
    again: Question[Any] = tape_question(maybe(lambda typed: (typed.strip(), solve(typed))), prompt)
    return interview.ask_anew(again) or (text, None)


def _ask_site(desk: Desk, interview: Interview, tape: Tape, where: str) -> Site | None:
    """The site on whose plan the two points stand, or ``None`` where they stand on none."""
    read = site_in(desk.book)
    given = interview.given(Question("site", "", read))
    if given is not None or not interview.asking or interview.given(_apart(tape, desk.units)) is not None:
        return given
    known = [
        site
        for site in desk.book.sites.values()
        if point_named(site, tape.first) and point_named(site, tape.second)
    ]
    if not known:
        return None
    named = next((site.name for site in known if site.name.casefold() in where.casefold()), NONE)
    choices = (*(Choice(site.name) for site in known), Choice(NONE, "on no plan"))
    prompt = f"On which site's plan are {tape.first} and {tape.second}?"
    answer = interview.ask(Question("site", prompt, str, choices, default=named))
    return None if answer == NONE else read(answer)


def _apart(tape: Tape, units: Units) -> Question[float | None]:
    """How far two points on no plan stand from each other."""
    unit = "feet" if units is Units.US else "metres"
    prompt = f"How far from {tape.first} to {tape.second}, in {unit}? (Enter if not measured)"
    return Question("apart", prompt, maybe(lambda text: parse_length(text, units)), default="")


def where_marked(book: Book, mark: e.Mark, units: Units) -> Sequence[str]:
    """A mark's tape, and where it lies by it, as sentences."""
    tape = f"Tape: {mark.tape}." if mark.tape else ""
    known = _known(book, mark, units)
    if mark.at is None or known is None:
        return (tape,)
    typed, first, second = known
    beside = f", to the {mark.side} of {typed.line}" if mark.side else f", on {typed.line}"
    where = (
        f"{plan_words(mark.at, units)} on {mark.site}{beside}"
        if mark.site
        else line_words(typed.first, typed.second, mark.at, units)
    )
    unsure = _unsure(mark.at, first, second)
    return (
        tape,
        _moved(typed, mark.at, first, second, units),
        f"It lies {where}; {unsure_words(unsure, units)}.",
        POORLY_FIXED if unsure > POOR_M else "",
    )


def mark_document(book: Book, mark: e.Mark, units: Units) -> dict[str, Any]:
    """Where a mark lies, as JSON; nulls where only its tape is known."""
    known = _known(book, mark, units)
    unsure = _unsure(mark.at, *known[1:]) if mark.at is not None and known is not None else None
    return {
        "tape": mark.tape,
        "site": mark.site or None,
        "at": list(mark.at) if mark.at else None,
        "apart_m": mark.apart_m,
        "side": mark.side or None,
        "within_m": None if unsure is None else round(unsure, 3),
        "poorly_fixed": None if unsure is None else unsure > POOR_M,
    }


def _known(book: Book, mark: e.Mark, units: Units) -> tuple[Tape, Point, Point] | None:
    """A mark's tape and the two points it is measured from as they stand today, where they are known."""
    try:
        tape = read_tape(mark.tape, units)
    except ValueError:  # nothing this program wrote
        return None
    if mark.apart_m is not None:
        return tape, (0.0, 0.0), (mark.apart_m, 0.0)
    site = book.sites.get(mark.site)
    first, second = (point_named(site, name) if site else None for name in (tape.first, tape.second))
    return (tape, (first.x, first.y), (second.x, second.y)) if first and second else None


def _unsure(at: Point, first: Point, second: Point) -> float:
    return uncertainty_m(dist(first, second), dist(first, at), dist(second, at))


def _moved(tape: Tape, at: Point, first: Point, second: Point, units: Units) -> str:
    """What the tape reads today, where a point was moved after the mark was made."""
    today = dist(first, at), dist(second, at)
    if max(abs(today[0] - tape.first_m), abs(today[1] - tape.second_m)) <= STEP_M:
        return ""
    one, other = (tape_length(each, units) for each in today)
    return f"A point has moved since: today it is {tape.first} {one}, {tape.second} {other}."
