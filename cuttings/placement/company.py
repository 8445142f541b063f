"""What a position on a site means for a plant and its neighbours: who hides whom, and who stands in whose
shade.

These decide between positions on one site, never between sites.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from cuttings.ledger.places import Point, Site
from cuttings.placement.room import full_radius
from cuttings.plants.model import Plant
from cuttings.words import Light, SeenFrom

HIDES = 1.25
"""A plant hides another behind it that it tops by more than a quarter; from memory."""

SHADED = frozenset({Light.PART_SHADE, Light.SHADE})


@frozen
class Companion:
    """A plant at a place on a site's plan, as far as it is known."""

    name: str
    x: float
    y: float
    radius_m: float
    plant: Plant | None = None

    @property
    def height_m(self) -> float | None:
        """The middle of its mature height."""
        tall = self.plant.height_m if self.plant else None
        return None if tall is None else sum(tall) / 2


@frozen
class Regard:
    """Something a position is good or bad for."""

    said: str
    good: bool


def growing_on(site: Site, known: Mapping[str, Plant]) -> list[Companion]:
    """The plants that grow at known positions on a site; ``known`` is what each name is known as."""
    return [
        Companion(each.plant, each.x, each.y, full_radius(each), known.get(each.plant))
        for each in site.growing
        if each.x is not None and each.y is not None
    ]


def regards(new: Companion, others: Sequence[Companion], site: Site, lat: float) -> list[Regard]:
    """What is to be said of a plant at its place among others."""
    return [*_view(new, others, site), *_shade(new, others, site, lat)]


def _view(new: Companion, others: Sequence[Companion], site: Site) -> Iterator[Regard]:
    """Who hides whom, as seen from the front; a bed that is seen all round has no behind."""
    if site.seen_from is not SeenFrom.FRONT:
        return
    seen = [(each, _hidden(new, each, site)) for each in others]
    for other, hidden in seen:
        if hidden is new:
            yield Regard(f"{other.name} in front of it would hide it.", False)
        elif hidden is other:
            yield Regard(f"It would stand in front of {other.name} and hide it.", False)
    lower = [each for each in others if each.y < new.y and _in_line(new, each) and _top(each, site)
             and _hidden(new, each, site) is None]  # fmt: skip
    if lower and not any(hidden for _, hidden in seen) and _top(new, site):
        yield Regard(f"It can be seen over {lower[0].name} in front of it.", True)


def _hidden(one: Companion, other: Companion, site: Site) -> Companion | None:
    """Which of two plants the other hides, if one does."""
    if not _in_line(one, other) or one.y == other.y:
        return None
    front, back = (one, other) if one.y < other.y else (other, one)
    before, behind = _top(front, site), _top(back, site)
    if before is None or behind is None or before <= HIDES * behind:
        return None
    return back


def _in_line(one: Companion, other: Companion) -> bool:
    """Whether one stands before the other rather than beside it."""
    return abs(one.x - other.x) < max(one.radius_m, other.radius_m)


def _top(each: Companion, site: Site) -> float | None:
    """How high a plant's top comes above the front of the site."""
    if each.height_m is None:
        return None
    return max(each.height_m + (site.slope or 0.0) / 100.0 * each.y, 0.0)


def _shade(new: Companion, others: Sequence[Companion], site: Site, lat: float) -> Iterator[Regard]:
    if site.facing is None:
        return
    for other in others:
        if _loves_sun(other) and _shades(new, other, site.facing, lat):
            yield Regard(f"It would shade {other.name}, which wants full sun.", False)
        elif _loves_sun(new) and _shades(other, new, site.facing, lat):
            yield Regard(f"{other.name} would shade it, and it wants full sun.", False)


def _loves_sun(each: Companion) -> bool:
    liked = each.plant.light if each.plant else ()
    return Light.FULL_SUN in liked and not SHADED & set(liked)


def _shades(tall: Companion, low: Companion, facing: float, lat: float) -> bool:
    """Whether the noon shadow of one plant falls on the middle of another at the equinox, when the sun stands
    as high as the latitude leaves of a right angle."""
    if tall.height_m is None or low.height_m is None or tall.height_m <= low.height_m:
        return False
    reach = (tall.height_m - low.height_m) * math.tan(math.radians(min(abs(lat), 80.0)))
    east, north = direction(0.0 if lat >= 0.0 else 180.0, facing)
    dx, dy = low.x - tall.x, low.y - tall.y
    along, aside = dx * east + dy * north, abs(dx * north - dy * east)
    return 0.0 < along <= reach + tall.radius_m and aside < tall.radius_m


def direction(bearing: float, facing: float) -> Point:
    """A bearing as a direction on a site's plan.

    Args:
        bearing: degrees clockwise from true north.
        facing: the bearing towards which the front of the site looks.
    """
    turn = math.radians(bearing - facing - 180.0)  # clockwise from the way to the back
    return math.sin(turn), math.cos(turn)
