"""Plants of one kind set out on a pattern: in the free ground of a site, and as a drift."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from math import ceil, floor, hypot

from cuttings.ledger.places import Hold, Point, Site
from cuttings.placement.outline import Plot, plot
from cuttings.placement.room import SLACK_M, Circle, held, standing
from cuttings.placement.spacing import Pattern, row_spacing

TRIED_SHIFTS = 4
"""How many shifts of the pattern along and back are tried, so that it sits well between what grows there."""

MANY = 1500
"""A pattern of more plants than this is tried with fewer shifts: it hardly matters then."""

MOST_PLANTS = 5000
"""Nobody sets out more than this; such a spacing is a slip of the pen."""

DRIFT_TIMES_LONG = 3.0
"""A drift is a lens about three times as long as it is deep: long rather than round (common practice)."""

NEXT = 1.01
"""Plants no further apart than this share of their spacing stand next to each other."""


def fill_free(site: Site, holds: Iterable[Hold], spacing_m: float, pattern: Pattern) -> tuple[Point, ...]:
    """Where plants at one spacing stand in the free ground of a site, in metres, row by row from the front.

    Each keeps half a spacing from the edges, from the room kept free along a path, and from every full-grown
    plant and held spot. Of several shifts of the pattern the one that holds the most plants is taken.

    Raises:
        ValueError: the spacing is not above 0, or so small that no one would plant so many.
    """
    if spacing_m <= 0.0:
        raise ValueError("Plants need a spacing above 0.")
    ground = plot(site)
    if ground is None:
        return ()
    between = row_spacing(spacing_m, pattern)
    if ground.area_m2 > MOST_PLANTS * spacing_m * between:
        raise ValueError(f"That spacing makes more than {MOST_PLANTS} plants; check its unit.")
    taken = [*standing(site), *held(site, holds)]
    tries = TRIED_SHIFTS if ground.area_m2 <= MANY * spacing_m * between else 1
    best: tuple[Point, ...] = ()
    for back in _starts(ground, between, spacing_m, tries):
        for along in _starts(ground, spacing_m, spacing_m, tries):
            lattice = _lattice(ground, (along, back), spacing_m, pattern)
            free = tuple(at for at in lattice if _clear(ground, at, spacing_m / 2, taken))
            if len(free) > len(best):
                best = free
    return best


def _starts(ground: Plot, step_m: float, spacing_m: float, tries: int) -> list[float]:
    """How far in from the low corner of the bounding box the first plant stands: half a spacing, behind the
    room kept free, and at even shifts."""
    half = spacing_m / 2
    return sorted(
        {half + step_m * number / tries for number in range(tries)}
        | {half + max(ground.kept.values(), default=0.0)}
    )


def _lattice(ground: Plot, start: Point, spacing_m: float, pattern: Pattern) -> Iterator[Point]:
    """The points of a pattern over the bounding box, to the tenth of a millimetre."""
    (left, front), (right, back) = ground.low, ground.high
    between = row_spacing(spacing_m, pattern)
    for row in range(ceil((back - front - start[1]) / between) + 1):
        shift = -spacing_m / 2 if pattern is Pattern.TRIANGLE and row % 2 else 0.0
        for column in range(ceil((right - left - start[0] - shift) / spacing_m) + 1):
            x, y = left + start[0] + shift + column * spacing_m, front + start[1] + row * between
            yield round(x, 4), round(y, 4)


def _clear(ground: Plot, at: Point, radius_m: float, taken: Sequence[Circle]) -> bool:
    rounding = SLACK_M + 1e-4
    return ground.room_at(*at) >= radius_m - rounding and all(
        hypot(at[0] - each.x, at[1] - each.y) >= radius_m + each.radius_m - rounding for each in taken
    )


def drift(positions: Sequence[Point], spacing_m: float) -> tuple[Point, ...]:
    """Those of the positions that make a drift: an odd number of them within a long lens.

    Plants parted by others are no drift, so only the largest group of close neighbours counts. The lens is
    as long as the longer side of the group and lies along it, where it takes in the most plants; then nearest
    the middle.
    """
    together = _largest_group(positions, spacing_m)
    if not together:
        return ()
    wide, deep = (max(each) - min(each) + spacing_m for each in zip(*together, strict=True))
    if deep > wide:
        turned = drift([(y, x) for x, y in together], spacing_m)
        return tuple((x, y) for y, x in turned)
    middle_x, middle_y = ((max(each) + min(each)) / 2 for each in zip(*together, strict=True))
    half_depth = min(deep, wide / DRIFT_TIMES_LONG) / 2

    def within(back: float) -> list[Point]:
        return [
            (x, y)
            for x, y in together
            if ((x - middle_x) / (wide / 2)) ** 2 + ((y - back) / half_depth) ** 2 <= 1.0
        ]

    backs = {middle_y, *(y for _, y in together)}
    back = max(backs, key=lambda each: (len(within(each)), -abs(each - middle_y)))
    inside = sorted(within(back), key=lambda at: hypot(at[0] - middle_x, at[1] - back))
    kept = set(inside[: odd_number(len(inside))])
    return tuple(at for at in together if at in kept)


def _largest_group(positions: Sequence[Point], spacing_m: float) -> list[Point]:
    """The most positions that hang together, each no further than a spacing from its next."""
    near = spacing_m * NEXT
    cells: dict[tuple[int, int], set[Point]] = {}
    for x, y in positions:
        cells.setdefault((floor(x / near), floor(y / near)), set()).add((x, y))
    largest: set[Point] = set()
    for start in positions:
        group, reached = set[Point](), _take_near(start, cells, near)
        while reached:
            at = reached.pop()
            group.add(at)
            reached |= _take_near(at, cells, near)
        largest = max(largest, group, key=len)
    return [at for at in positions if at in largest]


def _take_near(at: Point, cells: dict[tuple[int, int], set[Point]], near: float) -> set[Point]:
    """The positions near to one, itself too, that nobody took out of the cells before."""
    column, row = floor(at[0] / near), floor(at[1] / near)
    taken = set[Point]()
    for cell in product(range(column - 1, column + 2), range(row - 1, row + 2)):
        there = cells.get(cell, set())
        taken |= {each for each in there if hypot(each[0] - at[0], each[1] - at[1]) <= near}
        there -= taken
    return taken


def odd_number(count: int) -> int:
    """The largest odd number not above a count: odd numbers look less set out (common practice; Taylor &
    Francis: Rules of thumb, planting distances and densities, https://doi.org/10.4324/9781003119500-39).
    0 for none."""
    return count if count % 2 else max(count - 1, 0)
