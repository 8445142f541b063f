"""Hardiness zones: five-degree steps of the mean annual extreme minimum.

United States Department of Agriculture: Plant Hardiness Zone Map. A zone is 10 °F wide, a half zone 5 °F;
zone 1a begins at -60 °F, zone 13b ends at 70 °F. It is the mean of the years' coldest nights, not the
record.
"""

import re

from cuttings.units import celsius_to_fahrenheit

_ZONE = re.compile(r"(1[0-3]|[1-9])([ab]?)$", re.IGNORECASE)

COLDEST_ZONE_F = -60.0
HALF_ZONE_F = 5.0
HALF_ZONES = 26

POT_ZONES_LESS = 2
"""Zones by which a plant should be hardier than the garden to winter in a pot above the ground: common
practice, given as a rule of thumb by many growers and by no one as a measurement."""


def parse_zone(text: str) -> str:
    """Read a hardiness zone such as ``5b`` or ``6``.

    Raises:
        ValueError: there is no such zone.
    """
    match = _ZONE.match(text.strip())
    if match is None:
        raise ValueError(f"'{text}' is not a hardiness zone; write a number 1 to 13, with a or b if known.")
    return f"{match[1]}{match[2].lower()}"


def zone_number(zone: str) -> int | None:
    """The whole zone, 1 to 13, or ``None`` where there is none."""
    match = _ZONE.match(zone)
    return int(match[1]) if match else None


def zone_of(coldest_c: float) -> str:
    """The half zone of a mean annual extreme minimum, °C; a mean on a limit belongs to the warmer one."""
    steps = int((round(celsius_to_fahrenheit(coldest_c), 6) - COLDEST_ZONE_F) // HALF_ZONE_F)
    steps = min(max(steps, 0), HALF_ZONES - 1)
    return f"{steps // 2 + 1}{'ab'[steps % 2]}"


def zone_limits_f(zone: str) -> tuple[float, float]:
    """The mean annual extreme minima that a zone spans, °F: five degrees of a half zone, ten of a whole one.

    Raises:
        ValueError: there is no such zone.
    """
    zone = parse_zone(zone)
    whole = int(zone.rstrip("ab"))
    low = COLDEST_ZONE_F + 2 * HALF_ZONE_F * (whole - 1) + (HALF_ZONE_F if zone.endswith("b") else 0.0)
    return low, low + (HALF_ZONE_F if zone[-1] in "ab" else 2 * HALF_ZONE_F)


def middle_c(zone: str) -> float:
    """The middle of a zone's mean annual extreme minima, °C.

    Raises:
        ValueError: there is no such zone.
    """
    low, high = zone_limits_f(zone)
    return ((low + high) / 2.0 - 32.0) / 1.8
