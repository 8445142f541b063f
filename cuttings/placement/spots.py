"""Spots: one position on one site, with a name short enough to type, such as ``kitchen-bed@1.20,0.45``."""

import re
from collections.abc import Iterable

from attrs import frozen

from cuttings.ledger.places import Site
from cuttings.placement.outline import covers

_SPOT = re.compile(r"\s*(.+?)\s*@\s*(-?\d+(?:\.\d+)?)\s*,\s*(-?\d+(?:\.\d+)?)\s*$")


@frozen
class Spot:
    """One position on one site, in metres from its front left corner. ``radius_m`` is that of the mature
    plant it was found for, 0 where only the position was named."""

    id: str
    site: str
    x: float
    y: float
    radius_m: float = 0.0


def slug(name: str) -> str:
    """A site's name in lower case, with a hyphen for whatever is neither letter nor digit."""
    words = "".join(c if c.isalnum() else " " for c in name.casefold()).split()
    return "-".join(words) or "site"


def spot_at(site: Site, x: float, y: float, radius_m: float = 0.0) -> Spot:
    """The spot of a position on a site, to the whole centimetre."""
    x, y = round(x, 2) + 0.0, round(y, 2) + 0.0  # adding 0 turns -0.0 into 0.0
    return Spot(f"{slug(site.name)}@{x:.2f},{y:.2f}", site.name, x, y, radius_m)


def parse_spot(text: str, sites: Iterable[Site]) -> Spot:
    """Read a spot's name, without case; the site may be written as its name or as in the spot.

    Raises:
        ValueError: it is not a spot's name, or no site, several sites or other ground go by it.
    """
    match = _SPOT.match(text)
    if match is None:
        raise ValueError(f"'{text}' is not a spot; write it as in 'kitchen-bed@1.20,0.45'.")
    wanted = slug(match[1])
    found = [site for site in sites if slug(site.name) == wanted]
    if not found:
        raise ValueError(f"There is no site called '{match[1]}'; 'cuttings sites' lists them.")
    if len(found) > 1:
        names = " and ".join(sorted(site.name for site in found))
        raise ValueError(f"'{match[1]}' may be {names}; name the site and the position apart.")
    spot = spot_at(found[0], float(match[2]), float(match[3]))
    if not covers(found[0], (spot.x, spot.y)):
        raise ValueError(f"{spot.x:.2f} m, {spot.y:.2f} m lies outside {found[0].name}.")
    return spot
