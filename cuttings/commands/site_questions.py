"""Questions about sites and positions on them that several commands share."""

from collections.abc import Callable
from typing import Any

from attrs import evolve

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import maybe, site_in
from cuttings.errors import Refused, Unfound
from cuttings.ledger.book import Book
from cuttings.ledger.places import HeightLimit, Point, Site
from cuttings.placement.outline import covers
from cuttings.units import parse_length
from cuttings.words import Units


def corners(units: Units) -> Callable[[str], tuple[Point, ...]]:
    """Three corners or more, as ``x,y x,y ...``; bare numbers are metres, as the plan has them."""

    def read(text: str) -> tuple[Point, ...]:
        points = tuple(_point(pair, units) for pair in text.split())
        if len(points) < 3:
            raise ValueError("A plot has at least three corners; write them like '0,0 4,0 4,2'.")
        return points

    return read


def height_limits(units: Units) -> Callable[[str], tuple[HeightLimit, ...]]:
    """Stretches with a height limit, as ``from to height`` each, parted by semicolons; ``none`` for none."""

    def read(text: str) -> tuple[HeightLimit, ...]:
        if text.strip().casefold() == "none":
            return ()
        return tuple(_limit(each, units) for each in text.split(";"))

    return read


def _limit(text: str, units: Units) -> HeightLimit:
    parts = text.replace(",", " ").split()
    if len(parts) != 3:
        raise ValueError(f"'{text.strip()}' is no stretch; write FROM TO HEIGHT, such as '2m 3m 80cm'.")
    low, high, height = (parse_length(part, units) for part in parts)
    if not 0.0 <= low < high or height <= 0.0:
        raise ValueError("A stretch runs from a lesser length to a greater, and its height is above 0.")
    return HeightLimit(from_m=low, to_m=high, height_m=height)


def _point(text: str, units: Units) -> Point:
    x, comma, y = text.partition(",")
    if not comma:
        raise ValueError(f"'{text}' is not a position; write it as x,y such as 1.2,0.5 (metres).")
    return _metres(x, units), _metres(y, units)


def _metres(text: str, units: Units) -> float:
    """A position's number: metres when bare (plans are drawn in metres), else as its unit says."""
    return parse_length(text, Units.METRIC) if text.strip()[-1:].isdigit() else parse_length(text, units)


def at_question(units: Units, prompt: str = "Where on it, as x,y? (Enter if not measured)") -> Question[Any]:
    """The question for a position on a site."""
    return Question(
        "at", prompt, maybe(lambda text: _point(text, units)), default="", allowed="X,Y in metres"
    )


def position_on(site: Site, question: Question[Point | None]) -> Question[Point | None]:
    """The question for a position, with those outside the site turned away."""

    def read(text: str) -> Point | None:
        at = question.parse(text)
        if at is not None and not covers(site, at):
            raise Unfound(f"{at[0]:.2f} m, {at[1]:.2f} m lies outside {site.name}.")
        return at

    return evolve(question, parse=read)


def length_question(name: str, prompt: str, units: Units, least_m: float = 0.0) -> Question[float | None]:
    def read(text: str) -> float:
        metres = parse_length(text, units)
        if metres < least_m:
            raise ValueError(f"'{text}' is too small for a garden plot; check the unit.")
        return metres

    unit = "feet" if units is Units.US else "metres"
    return Question(name, f"{prompt} in {unit}? (Enter if not known)", maybe(read), default="")


def which_site(book: Book) -> Question[Site]:
    return Question(
        "name",
        "Which site?",
        site_in(book),
        tuple(Choice(name) for name in book.sites),
        argument=True,
        allowed="a site's name",
    )


def ask_site(desk: Desk, interview: Interview) -> Site:
    if not desk.book.sites:
        raise Refused("There are no sites yet; 'cuttings sites add' describes the first one.")
    return interview.ask(which_site(desk.book))
