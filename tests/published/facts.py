"""A published fact as printed, its source beside it, and its value in the catalogue's own units."""

from attrs import frozen

Span = tuple[float, float]

FACTOR = {
    "days": 1.0,
    "weeks": 7.0,
    "months": 1.0,
    "years": 1.0,
    "zones": 1.0,
    "pH": 1.0,
    "ppm": 1.0,
    "percent": 0.01,
    "percent IBA": 10_000.0,
    "inches": 0.0254,
    "feet": 0.3048,
    "cm": 0.01,
    "m": 1.0,
}
"""What turns a printed unit into the catalogue's own: days, ppm, metres, shares of one."""


@frozen
class Source:
    """Where a fact was published."""

    publisher: str
    title: str
    url: str


def in_our_units(low: float, high: float, unit: str) -> Span:
    """A printed range in the catalogue's units; degrees Fahrenheit in Celsius."""
    if unit == "F":
        return ((low - 32.0) / 1.8, (high - 32.0) / 1.8)
    return (low * FACTOR[unit], high * FACTOR[unit])
