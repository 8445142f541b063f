"""How many plants of a kind fill the free ground of a site, or a patch of it, and where they stand."""

import re
from collections.abc import Sequence
from typing import Any

import click
from attrs import frozen

from cuttings.ask import Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.naming import PLANT, Named, ask_plant
from cuttings.commands.parsing import one_of
from cuttings.commands.site_questions import ask_site, which_site
from cuttings.commands.site_view import Room
from cuttings.errors import Misused, Refused
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Point, Site
from cuttings.placement.filling import MOST_PLANTS, drift, fill_free, odd_number
from cuttings.placement.outline import plot
from cuttings.placement.room import held, radius, standing
from cuttings.placement.spacing import PatchEdge, Pattern, spacing_count, spacing_positions
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.show.page import Page
from cuttings.show.patch import Patch, circles_take, patch_lines
from cuttings.units import parse_length, show_area, show_length
from cuttings.words import PLANTABLE, Units

EDGES = (PatchEdge.ON, PatchEdge.HALF_IN)
LEAST_M = 0.02
"""Nothing is planted closer than this, nor in a patch so small; check the unit."""

_BY = re.compile(r"\s*(?:x|×|\bby\b)\s*", re.IGNORECASE)


@frozen
class Filling:
    """Plants set out; positions in metres from the front left corner of the patch, or else of the site."""

    site: Site
    named: Named
    spacing_m: float
    source: str
    pattern: Pattern
    edge: PatchEdge
    drift: bool
    patch: Point | None
    counts: tuple[tuple[Pattern, PatchEdge, int], ...]
    positions: tuple[Point, ...]


@click.command(help="How many plants of a kind fill a site's free ground, or a patch.")
@click.argument("name", required=False)
@click.argument("plant", required=False)
@click.option("--patch", metavar="LENxLEN", help="a patch of so much length by depth instead")
@click.option("--spacing", metavar="LEN", help="from plant to plant, where it differs from the catalogue's")
@click.option("--pattern", metavar="PATTERN", help="|".join(Pattern))
@click.option("--edge", metavar="EDGE", help="|".join(EDGES) + ": where a patch's outer plants stand")
@click.option("--drift", is_flag=True, help="a drift: an odd number, staggered, long rather than round")
@global_options
@with_desk
def fill(desk: Desk, **given: Any) -> None:
    options = desk.interview(given, [])
    patch = options.given(Question("patch", "", lambda text: _size(text, desk.units)))
    spacing = options.given(Question("spacing", "", lambda text: _apart(text, desk.units)))
    pattern = options.given(Question("pattern", "", one_of(Pattern)))
    edge = options.given(Question("edge", "", _edge))
    if given["drift"] and pattern is Pattern.SQUARE:
        raise Misused("A drift is staggered; leave --pattern square out.")
    if edge is not None and patch is None:
        raise Misused("--edge is for a patch; give its size with --patch.")
    interview = desk.interview(given, [which_site(desk.book), PLANT])
    site = ask_site(desk, interview)
    named = ask_plant(desk, interview)
    if named.plant.unwanted:
        raise Refused(f"{named.spoken} is unwanted: it is not for planting.")
    if pattern is None:
        pattern = Pattern.TRIANGLE
    spacing_m, source = _spacing(named, spacing)
    filled = _filled(desk, site, named, spacing_m, source, pattern, edge or PatchEdge.HALF_IN, patch,
                     given["drift"])  # fmt: skip
    desk.answer(_page(desk, filled), _document(desk, filled))


def _size(text: str, units: Units) -> Point:
    sides = _BY.split(text.strip())
    if len(sides) != 2:
        raise ValueError(f"'{text}' is not a patch; write its length and depth like 4mx1.2m or 12ftx4ft.")
    length, depth = (_apart(side, units) for side in sides)
    return length, depth


def _apart(text: str, units: Units) -> float:
    metres = parse_length(text, units)
    if metres < LEAST_M:
        raise ValueError(f"'{text}' is too small; check the unit.")
    return metres


def _edge(text: str) -> PatchEdge:
    edge = one_of(PatchEdge)(text)
    if edge not in EDGES:
        raise ValueError(f"'{text}' is none of: {', '.join(EDGES)}.")
    return edge


def _spacing(named: Named, told: float | None) -> tuple[float, str]:
    """The spacing in metres and where it comes from: what was told, the record's, or the mature spread."""
    plant = named.plant
    if told is not None:
        return told, "your own spacing"
    if plant.spacing_m is not None:
        return sum(plant.spacing_m) / 2, plant.source_of("spacing_m")
    if plant.spread_m is not None:
        return 2 * radius(plant), f"its full-grown width ({plant.source_of('spread_m')})"
    return 2 * radius(plant), f"a middling width, for nobody has said how wide it grows ({FROM_MEMORY})"


def _filled(
    desk: Desk,
    site: Site,
    named: Named,
    spacing_m: float,
    source: str,
    pattern: Pattern,
    edge: PatchEdge,
    patch: Point | None,
    as_drift: bool,
) -> Filling:
    if patch is None:
        positions, counts = _in_free_ground(desk, site, spacing_m, pattern)
    else:
        positions, counts = _in_patch(desk, site, spacing_m, pattern, edge, patch)
    if as_drift:
        positions = drift(positions, spacing_m)
    return Filling(site, named, spacing_m, source, pattern, edge, as_drift, patch, counts, positions)


def _box(site: Site, patch: Point | None) -> tuple[Point, Point]:
    ground = plot(site)
    if patch is not None or ground is None:
        return (0.0, 0.0), patch or (0.0, 0.0)
    return ground.low, ground.high


Counted = tuple[tuple[Point, ...], tuple[tuple[Pattern, PatchEdge, int], ...]]


def _in_free_ground(desk: Desk, site: Site, spacing_m: float, pattern: Pattern) -> Counted:
    if plot(site) is None:
        raise Refused(
            f"The size of {site.name} is not known; give --patch LENxLEN, or its size with "
            f"'cuttings sites add \"{site.name}\" --length LEN --depth LEN'."
        )
    holds = list(desk.book.holds.values())
    try:
        found = {each: fill_free(site, holds, spacing_m, each) for each in Pattern}
    except ValueError as error:
        raise Misused(f"--spacing: {error}") from None
    if any(each.x is None for each in site.growing):
        desk.warn(f"some plants on {site.name} have no position; the ground they take is not left out.")
    return found[pattern], tuple((each, PatchEdge.HALF_IN, len(found[each])) for each in Pattern)


def _in_patch(
    desk: Desk, site: Site, spacing_m: float, pattern: Pattern, edge: PatchEdge, patch: Point
) -> Counted:
    _fits_on(desk, site, patch)
    counts = tuple(
        (each, where, spacing_count(*patch, spacing_m, each, where)) for each in Pattern for where in EDGES
    )
    if max(count for _, _, count in counts) > MOST_PLANTS:
        raise Misused(f"That spacing makes more than {MOST_PLANTS} plants; check its unit.")
    return spacing_positions(*patch, spacing_m, pattern, edge), counts


def _fits_on(desk: Desk, site: Site, patch: Point) -> None:
    """Refuse a patch longer or deeper than its site, and warn of one larger than the ground that is free."""
    ground, room = plot(site), Room(desk, site).cover
    if ground is None or room is None:
        return
    sides = tuple(high - low for low, high in zip(ground.low, ground.high, strict=True))
    if any(wanted > side + 0.005 for wanted, side in zip(patch, sides, strict=True)):
        size = " by ".join(show_length(side, desk.units) for side in sides)
        raise Refused(f"A patch of {_by(patch, desk.units)} does not fit on {site.name}, which is {size}.")
    if patch[0] * patch[1] > room.free_m2 + 0.01:
        free = show_area(room.free_m2, desk.units)
        desk.warn(f"only {free} of {site.name} is free, less than the patch.")


def _by(patch: Point, units: Units) -> str:
    return " by ".join(show_length(side, units) for side in patch)


def _page(desk: Desk, filled: Filling) -> Page:
    units, name = desk.units, filled.named.spoken
    where = f"a patch of {_by(filled.patch, units)} on" if filled.patch else "the free ground of"
    page = Page().heading(f"{name} in {where} {filled.site.name}")
    source = f"Source: {desk.catalogue.reference(filled.source)}." if desk.why else ""
    page.row("Apart", f"{show_length(round(filled.spacing_m, 3), units)} from plant to plant.", source)
    for pattern in Pattern:
        told = [_count_words(filled, edge, count) for each, edge, count in filled.counts if each is pattern]
        page.row(pattern.capitalize(), "; ".join(told) + ".")
    count = len(filled.positions)
    if not count:
        page.row("", "There is no room for one at that spacing.")
        return page.next_steps("'cuttings sites' says which site has more free.")
    page.row("Plants", _chosen_words(filled), _odd_words(filled, desk.why))
    _own(page, desk, filled)
    page.gap()
    drawn = _drawn(desk, filled)
    page.drawing(lambda width: patch_lines(drawn, units, width), _in_words(filled, units))
    return page.next_steps(
        "'cuttings spot LOT --site NAME' holds places for your own.",
        "" if filled.drift else "--drift lays them out as a drift.",
    )


def _count_words(filled: Filling, edge: PatchEdge, count: int) -> str:
    if filled.patch is None:
        return f"{count}"
    return f"{count} with plants {'on its edge' if edge is PatchEdge.ON else 'half a spacing in'}"


def _chosen_words(filled: Filling) -> str:
    count, shape = len(filled.positions), "in a drift" if filled.drift else f"on the {filled.pattern}"
    return f"{count} {shape}."


def _odd_words(filled: Filling, why: bool) -> str:
    """The odd number for a group, where the count is even: 3, 5 or 7 look less set out than 4 or 6."""
    count = len(filled.positions)
    odd = odd_number(count)
    said = f"For a group that looks less set out, make or buy {odd}." if odd < count else ""
    return f"{said} Source: {COMMON_PRACTICE}." if said and why else said


def _in_words(filled: Filling, units: Units) -> str:
    """What the drawing shows, row by row."""
    rows: dict[float, list[float]] = {}
    for x, y in filled.positions:
        rows.setdefault(round(y, 2), []).append(x)
    told = []
    for back, row in sorted(rows.items()):
        first = show_length(round(min(row), 2), units)
        told.append(f"{show_length(back, units)} back: {len(row)}, the first {first} along.")
    return " ".join(told)


def _drawn(desk: Desk, filled: Filling) -> Patch:
    (left, front), (right, back) = _box(filled.site, filled.patch)
    ground = plot(filled.site)
    circles = [*standing(filled.site), *held(filled.site, desk.book.holds.values())]
    free = filled.patch is None and ground is not None
    return Patch(
        right - left,
        back - front,
        filled.spacing_m,
        filled.pattern is Pattern.TRIANGLE,
        [(x - left, y - front) for x, y in filled.positions],
        circles_take([(each.x - left, each.y - front, each.radius_m) for each in circles] if free else []),
        (lambda x, y: ground.holds(x + left, y + front)) if free and ground else (lambda x, y: True),  # noqa: ARG005
    )


def own_lots(desk: Desk, named: Named) -> Sequence[tuple[Lot, int]]:
    """The garden's own lots of a plant with stems that could be planted, and how many."""
    lots = [(lot, sum(lot.at(stage) for stage in PLANTABLE)) for lot in desk.book.lots.values()]
    return [(lot, stems) for lot, stems in lots if stems and lot.plant == named.name]


def _own(page: Page, desk: Desk, filled: Filling) -> None:
    lots = own_lots(desk, filled.named)
    stems, wanted = sum(stems for _, stems in lots), len(filled.positions)
    if not stems:
        page.row("Your own", "None stands ready to be planted.")
        return
    told = ", ".join(f"{stems} of {lot.code}" for lot, stems in lots)
    more = f"; {wanted - stems} more to make or buy" if stems < wanted else ", which is enough"
    page.row("Your own", f"{stems} could be used ({told}){more}.")


def _document(desk: Desk, filled: Filling) -> dict[str, Any]:
    own = own_lots(desk, filled.named)
    count, stems = len(filled.positions), sum(stems for _, stems in own)
    patch = {"length_m": filled.patch[0], "depth_m": filled.patch[1]} if filled.patch else None
    return {
        "site": filled.site.name,
        "plant": filled.named.name,
        "patch": patch,
        "spacing_m": round(filled.spacing_m, 3),
        "spacing_source": desk.catalogue.reference(filled.source),
        "pattern": filled.pattern.value,
        "edge": filled.edge.value,
        "drift": filled.drift,
        "counts": [
            {"pattern": pattern.value, "edge": edge.value, "count": number}
            for pattern, edge, number in filled.counts
        ],
        "count": count,
        "odd": odd_number(count),
        "positions": [[round(x, 3), round(y, 3)] for x, y in filled.positions],
        "own": [{"lot": lot.code, "stems": number} for lot, number in own],
        "to_make": max(count - stems, 0),
    }
