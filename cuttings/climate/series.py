"""The daily readings of one station, and the compact form in which they are kept.

Readings are whole tenths: of a degree Celsius for temperatures, of a millimetre for rain. That holds a
reading in whole degrees Fahrenheit too: rounded to the tenth and turned back it gives the same whole degree.
"""

import json
import zlib
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any, Final, Self

import numpy as np
from attrs import Attribute, field, frozen
from numpy.typing import NDArray

MISSING: Final = -32768
"""Stands in place of a reading that there is none of."""

VERSION: Final = 1
"""Of the form in which a series is kept."""

MOST_DAYS: Final = 200_000
"""More days than any station on earth has been read on (some five hundred years)."""

_DAMAGED = "The stored climate series is damaged ({}); load the station file again."


def _tenths(values: Any) -> NDArray[np.int16]:
    """A copy that nobody can change."""
    copied: NDArray[np.int16] = np.array(values, dtype=np.int16)
    copied.flags.writeable = False
    return copied


def _is_a_day(_: object, __: "Attribute[date]", value: object) -> None:
    if not isinstance(value, date) or isinstance(value, datetime):
        raise TypeError("a series begins on a day")


@frozen(eq=False)
class Series:
    """Daily readings of one station: one for every day from ``first`` to ``last``, both included.

    ``tmin`` and ``tmax`` are tenths of °C and ``rain`` is tenths of mm, each of shape (days,), with
    ``MISSING`` where there is none. The arrays cannot be written to.

    Raises:
        ValueError: the three are not equally long, or hold no day.
    """

    station: str
    first: date = field(validator=_is_a_day)
    tmin: NDArray[np.int16] = field(converter=_tenths)
    tmax: NDArray[np.int16] = field(converter=_tenths)
    rain: NDArray[np.int16] = field(converter=_tenths)

    def __attrs_post_init__(self) -> None:
        if not self.tmin.shape == self.tmax.shape == self.rain.shape == (self.days,) or not self.days:
            raise ValueError("A series needs a minimum, a maximum and rain for each of its days.")

    @property
    def days(self) -> int:
        """How many days the series spans, those without readings included."""
        return int(self.tmin.size)

    @property
    def last(self) -> date:
        """The last day."""
        return self.first + timedelta(days=self.days - 1)

    def to_bytes(self) -> bytes:
        """The series as it is kept: a line that says what it is, then the packed readings.

        The line is a JSON object with the form's version, the station, the first day, the number of days and
        a checksum of everything else. What follows is zlib over the three arrays one after the other, each
        as differences from day to day (which wrap round), high bytes before low ones: that halves the size.
        """
        packed = zlib.compress(b"".join(map(_packed, (self.tmin, self.tmax, self.rain))), 9)
        head = {
            "series": VERSION,
            "station": self.station,
            "first": self.first.isoformat(),
            "days": self.days,
        }
        return json.dumps({**head, "sum": _checksum(head, packed)}).encode() + b"\n" + packed

    @classmethod
    def from_bytes(cls, content: bytes) -> Self:
        """The series that was kept.

        Raises:
            ValueError: it is damaged, or of a newer version; the sentence says what to do.
        """
        line, _, packed = content.partition(b"\n")
        head = _head(line)
        if head["series"] > VERSION:
            raise ValueError(
                "The stored climate series was written by a newer version of this program; "
                "update the program."
            )
        if head.pop("sum", None) != _checksum(head, packed):
            raise ValueError(_DAMAGED.format("it does not fit its checksum"))
        try:
            days = int(head["days"])
            if not 0 < days <= MOST_DAYS:
                raise ValueError
            size = 2 * days
            plain = zlib.decompressobj().decompress(packed, 3 * size + 1)
            if len(plain) != 3 * size:
                raise ValueError
            tmin, tmax, rain = (_unpacked(plain[start : start + size]) for start in range(0, 3 * size, size))
            return cls(str(head["station"]), date.fromisoformat(head["first"]), tmin, tmax, rain)
        except (ValueError, TypeError, KeyError, zlib.error):
            raise ValueError(_DAMAGED.format("it cannot be unpacked")) from None


def _head(line: bytes) -> dict[str, Any]:
    try:
        head = json.loads(line)
        if isinstance(head, dict) and isinstance(head.get("series"), int):
            return head
    except ValueError:  # a broken character is a ValueError too
        pass
    raise ValueError(_DAMAGED.format("it does not begin like one"))


def _checksum(head: Mapping[str, Any], packed: bytes) -> str:
    return f"{zlib.crc32(packed, zlib.crc32(json.dumps(head, sort_keys=True).encode())):08x}"


def _packed(values: NDArray[np.int16]) -> bytes:
    steps = np.diff(values, prepend=np.int16(0)).astype("<i2")
    return steps.view(np.uint8).reshape(-1, 2).T[::-1].tobytes()


def _unpacked(planes: bytes) -> NDArray[np.int16]:
    both = np.frombuffer(planes, dtype=np.uint8).reshape(2, -1)[::-1].T
    steps = np.ascontiguousarray(both).view("<i2").reshape(-1)
    return np.cumsum(steps, dtype=np.int16)
