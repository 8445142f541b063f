"""Positions told by tape: one question for them, the side settled, and what they come to in words."""

from collections.abc import Callable, Sequence
from math import dist
from typing import Any

from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk
from cuttings.commands.parsing import one_of, site_in
from cuttings.commands.site_questions import at_question, position_on
from cuttings.errors import Misused, Refused, Unfound
from cuttings.ledger.book import Book
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import FixedPoint, Growing, Hold, Point, Site
from cuttings.placement.points import (
    best_pair,
    fixed_points,
    least_unsure_m,
    nearest_on,
    off_ground_m,
    on_ground,
    point_named,
    tape_words,
)
from cuttings.placement.spots import Spot, spot_at
from cuttings.placement.tape import (
    POOR_M,
    STEP_M,
    Fix,
    NoTriangle,
    Tape,
    distances,
    place,
    read_tape,
    unsure_words,
    why_not,
)
from cuttings.show.page import Page
from cuttings.units import plan_words, show_length
from cuttings.words import Side, Units

POORLY_FIXED = (
    "The two tapes run nearly in one line there, so it is poorly fixed: measure from a point further off to "
    "the side as well."
)
CROSSED_TWICE = "The tapes cross at two places."
WHERE = "Where on it, as x,y? (or A=3.2m B=4.75m; Enter if not measured)"


@frozen
class Solved:
    """Where a tape leads, from two points of a plan, the side still open."""

    tape: Tape
    fix: Fix


@frozen
class Told:
    """A position as it was told: ``sentences`` say how a tape was understood, and ``side`` where it lies."""

    at: Point | None = None
    side: Side | None = None
    unsure_m: float | None = None
    poor: bool = False
    sentences: tuple[str, ...] = ()

    @property
    def page(self) -> Page:
        """What the tape came to, as a row to put under an answer."""
        return Page().row("By tape", *self.sentences) if self.sentences else Page()

    @property
    def document(self) -> dict[str, Any] | None:
        if self.unsure_m is None:
            return None
        return {
            "side": self.side.value if self.side else None,
            "within_m": round(self.unsure_m, 3),
            "poorly_fixed": self.poor,
        }


NOWHERE = Told()
"""No position was told."""


def only_one_of(given: dict[str, Any]) -> None:
    """A position is told in one way.

    Raises:
        Misused: both ``--at`` and ``--tape`` are given, or a side without a tape.
    """
    if given.get("at") and given.get("tape"):
        raise Misused("Give either --at or --tape.")
    if given.get("side") and not given.get("tape") and "=" not in (given.get("at") or ""):
        raise Misused("--side goes with --tape.")


def solved_on(site: Site, text: str, units: Units) -> Solved:
    """Where a tape leads on a site.

    Raises:
        ValueError: it is no tape.
        Unfound: the site has no such points, or no place has these distances from them.
    """
    tape = read_tape(text, units)
    first, second = (_known_point(site, name) for name in (tape.first, tape.second))
    named = Tape(first.name, second.name, tape.first_m, tape.second_m)
    return Solved(named, _fix(named, (first.x, first.y), (second.x, second.y), units))


def solved_inside(site: Site, text: str, units: Units) -> Solved:
    """Where a tape leads that must lead to a place on the site, as far as it can be read.

    Raises:
        ValueError: it is no tape.
        Unfound: as ``solved_on``, or both places where the tapes cross lie outside.
    """
    solved = solved_on(site, text, units)
    outside = min(off_ground_m(site, at) for at in (solved.fix.left, solved.fix.right))
    if outside > solved.fix.unsure_m:
        far = show_length(round(outside, 2), units)
        raise Unfound(f"The tapes cross {far} outside {site.name}; measure again.")
    return solved


def solved_apart(apart_m: float, text: str, units: Units) -> Solved:
    """Where a tape leads beside two points on no plan: the way along the line between them, and to its left.

    Raises:
        ValueError: it is no tape.
        Unfound: no place has these distances from them.
    """
    tape = read_tape(text, units)
    return Solved(tape, _fix(tape, (0.0, 0.0), (apart_m, 0.0), units))


def _fix(tape: Tape, first: Point, second: Point, units: Units) -> Fix:
    try:
        return place(first, second, tape.first_m, tape.second_m)
    except NoTriangle:
        raise Unfound(why_not(tape, dist(first, second), units)) from None


def _known_point(site: Site, name: str) -> FixedPoint:
    point = point_named(site, name)
    if point is not None:
        return point
    known = ", ".join(each.name for each in fixed_points(site)) or "none, for its length is not known"
    raise Unfound(
        f"{site.name} has no point {name} to measure from (it has {known}); 'cuttings sites point' names one."
    )


def tape_question(
    read: Callable[[str], Any],
    prompt: str = "Tape from two fixed points, such as A=3.20m B=4.75m? (Enter to skip)",
) -> Question[Any]:
    return Question("tape", prompt, read, default="")


def side_question(tape: Tape, why: str = "") -> Question[Side]:
    line = f"the line from {tape.first} to {tape.second}"
    sides = tuple(
        Choice(side.value, f"{side} as one walks from {tape.first} to {tape.second}") for side in Side
    )
    return Question("side", f"Left or right of {line}?", one_of(Side), sides, why=why)


def ask_position(desk: Desk, interview: Interview, site: Site) -> Told:
    """A position on a site, as ``x,y`` or by tape; neither where it was not measured."""
    by_tape = interview.given(tape_question(lambda text: solved_inside(site, text, desk.units)))
    told = by_tape or interview.ask(position_question(site, desk.units))
    return settled(desk, interview, site, told) if isinstance(told, Solved) else Told(told)


def position_question(site: Site, units: Units) -> Question[Point | Solved | None]:
    """The question for a position on a site that may be answered by tape as well."""
    plain = position_on(site, at_question(units, WHERE))

    def read(text: str) -> Point | Solved | None:
        return solved_inside(site, text, units) if "=" in text else plain.parse(text)

    return Question("at", WHERE, read, default="", allowed=plain.allowed)


def settled(desk: Desk, interview: Interview, site: Site, solved: Solved, *, inside: bool = True) -> Told:
    """The place meant of the two where the tapes cross: the one on the site, or that on the side told.

    Args:
        inside: whether the place must lie on the site; one outside by no more than the tapes may be out is
            put on its edge.
    """
    fix, tape = solved.fix, solved.tape
    side = interview.given(side_question(tape))
    why = ""
    if side is None and not fix.on_line:
        side, why = _by_ground(site, solved, inside=inside)
        side = side or ask_side(desk, interview, tape, why)
    at = fix.on(side or Side.LEFT)
    outside = off_ground_m(site, at)
    if inside and outside > fix.unsure_m:
        far = show_length(round(outside, 2), desk.units)
        raise Refused(
            f"To the {side} of {tape.line} the place lies {far} outside {site.name}; is it the other side?"
        )
    if inside and outside:
        at = nearest_on(site, at)
        why = f"By the tape it lies {_small(outside, desk.units)} outside; it is put on the edge."
    at = rounded(at)
    return told_of(solved, at, side, plan_words(at, desk.units), why, desk.units)


def _by_ground(site: Site, solved: Solved, *, inside: bool) -> tuple[Side | None, str]:
    """The side on which the place lies on the site, with the reason; or no side, and why one must be told."""
    fix = solved.fix
    on = [side for side in Side if on_ground(site, fix.on(side))]
    if len(on) == 1:
        return on[0], f"Of the two places where the tapes cross, only that one lies on {site.name}."
    if not on and inside:
        return min(Side, key=lambda side: off_ground_m(site, fix.on(side))), ""
    lie = "Both lie" if on else "Neither lies"
    return None, f"{CROSSED_TWICE} {lie} on {site.name}."


def told_by_side(desk: Desk, interview: Interview, solved: Solved, words: Callable[[Point], str]) -> Told:
    """The place on the side that is told, where no ground says which is meant; ``words`` say where it is."""
    side = None if solved.fix.on_line else ask_side(desk, interview, solved.tape, CROSSED_TWICE)
    at = rounded(solved.fix.on(side or Side.LEFT))
    return told_of(solved, at, side, words(at), "", desk.units)


def ask_side(desk: Desk, interview: Interview, tape: Tape, why: str) -> Side:
    """The side, from the options or from the person.

    Raises:
        Misused: it is not given, and nobody is there to ask.
    """
    question = side_question(tape, why)
    given = interview.given(question)
    if given is not None:
        return given
    if interview.asking:
        return interview.ask(question)
    if desk.asker is None:
        raise Misused(f"{why} Tell with --side (left|right) which is meant, as one walks from {tape.first} "
                      f"to {tape.second}.")  # fmt: skip
    return Interview({}, [question], desk.asker).ask(question)


def told_of(solved: Solved, at: Point, side: Side | None, where: str, why: str, units: Units) -> Told:
    """A place by tape, with the sentences that say where it is and how sure that is."""
    fix, tape = solved.fix, solved.tape
    line = tape.line
    beside = "" if line in where else f", on {line}" if side is None else f", to the {side} of {line}"
    short, step = (_small(each, units) for each in (fix.stretched_m, STEP_M))
    meet = f"The tapes miss each other by {short}; read to the nearest {step} they meet, on the line."
    sentences = (
        f"{where}{beside}; {unsure_words(fix.unsure_m, units)}.",
        why,
        meet if fix.stretched_m else "",
    )
    poor = (POORLY_FIXED,) if fix.poor else ()
    return Told(at, side, fix.unsure_m, fix.poor, (*(each for each in sentences if each), *poor))


def rounded(at: Point) -> Point:
    """A position to the whole centimetre."""
    return round(at[0], 2) + 0.0, round(at[1], 2) + 0.0  # adding 0 turns -0.0 into 0.0


def _small(metres: float, units: Units) -> str:
    return show_length(max(round(metres, 2), 0.01), units)


def spot_by_tape(desk: Desk, given: dict[str, Any]) -> tuple[Spot, Told]:
    """The spot on the site that ``--hold`` names, at the place that ``--tape`` tells.

    Raises:
        Misused: no site is named.
    """
    if not given["hold"] or "@" in given["hold"]:
        raise Misused("--tape goes with --hold and a site's name, such as --hold 'gate bed'.")
    interview = Interview(given, [], None)
    site = interview.ask(Question("hold", "", site_in(desk.book)))
    told = ask_position(desk, interview, site)
    assert told.at is not None
    return spot_at(site, *told.at), told


def position_of(thing: Growing | Hold) -> Point | None:
    return None if thing.x is None or thing.y is None else (thing.x, thing.y)


def found_by(site: Site, thing: Growing | Hold, units: Units) -> str:
    """How a plant or a held spot is found again, as a sentence; empty where that is not known."""
    at = position_of(thing)
    words = tape_words(site, at, units) if at is not None else ""
    if at is None or not words:
        return ""
    unsure_m = least_unsure_m(site, at)
    return f"By tape: {words}{f'; only {unsure_words(unsure_m, units)}' if unsure_m > POOR_M else ''}."


def tape_document(site: Site, at: Point | None) -> list[dict[str, Any]]:
    """The tape distances of a position on a site, from the two points that fix it."""
    pair = best_pair(site, at) if at is not None else None
    if at is None or pair is None:
        return []
    measured = zip(pair, distances(at, *pair), strict=True)
    return [{"from": point.name, "distance_m": round(metres, 3)} for point, metres in measured]


def measured_from(site: Site, units: Units) -> Sequence[str]:
    """What the points of a site are, and whether another would help, as sentences; none where it has none."""
    told = {each.name for each in site.points}
    corners = ("the front left corner", "the front right corner")
    words = [
        f"{each.name} {plan_words((each.x, each.y), units)}"
        if each.name in told
        else f"{each.name} is {corners[each.name == 'B']}"
        for each in fixed_points(site)
    ]
    if not words:
        return ()
    places = [at for each in site.growing if (at := position_of(each)) is not None]
    poor = any(least_unsure_m(site, at) > POOR_M for at in places)
    better = "A point well in front or behind would fix some better: 'cuttings sites point' names one."
    return (f"{'; '.join(words)}.", better if poor else "")


def standing_rows(desk: Desk, lot: Lot) -> Sequence[tuple[str, str, str]]:
    """Where the stems of a lot stand and which spots are held for it: a margin, the place, and its tape."""
    units = desk.units
    rows = [
        ("Planted", f"{site.name}, {plan_words(at, units)}.", found_by(site, each, units))
        for site, each, at in _standing(desk.book, lot)
    ]
    for hold in desk.book.holds.values():
        if hold.lot == lot.code and hold.site in desk.book.sites:
            site = desk.book.sites[hold.site]
            where = f"{hold.spot}, {plan_words((hold.x, hold.y), units)}."
            rows.append(("Held", where, found_by(site, hold, units)))
    return rows


def standing_document(book: Book, lot: Lot) -> list[dict[str, Any]]:
    return [
        {"site": site.name, "x": at[0], "y": at[1], "tape": tape_document(site, at)}
        for site, _, at in _standing(book, lot)
    ]


def _standing(book: Book, lot: Lot) -> Sequence[tuple[Site, Growing, Point]]:
    return [
        (site, each, at)
        for site in book.sites.values()
        for each in site.growing
        if each.lot == lot.code and (at := position_of(each)) is not None
    ]
