"""The climate of one garden, as far as its keeper has told it."""

import re

from attrs import frozen

from cuttings.climate.frost import FrostDates

_ZONE = re.compile(r"(1[0-3]|[1-9])([ab]?)$", re.IGNORECASE)


@frozen(cache_hash=True)
class Climate:
    """What the rules need to know of a place: where it lies, how cold it gets, when frost comes."""

    lat: float
    frost: FrostDates | None = None
    zone: str = ""

    @property
    def southern(self) -> bool:
        return self.lat < 0

    @property
    def zone_number(self) -> int | None:
        """The whole hardiness zone, 1 to 13, or ``None`` where it is not known."""
        match = _ZONE.match(self.zone)
        return int(match[1]) if match else None

    def month_here(self, northern_month: int) -> int:
        """The month of this garden that stands for a month of the northern catalogue."""
        return (northern_month + 5) % 12 + 1 if self.southern else northern_month


def parse_zone(text: str) -> str:
    """Read a hardiness zone such as ``5b`` or ``6``.

    Raises:
        ValueError: there is no such zone.
    """
    match = _ZONE.match(text.strip())
    if match is None:
        raise ValueError(f"'{text}' is not a hardiness zone; write a number 1 to 13, with a or b if known.")
    return f"{match[1]}{match[2].lower()}"
