"""How long the day is, from sunrise to sunset, by latitude and date."""

import math
from datetime import date, datetime

SUNRISE_ZENITH_DEGREES = 90.0 + 50.0 / 60.0
"""How far the middle of the sun lies from overhead when its upper edge is seen to rise: 90° 50'.

US Naval Observatory, Almanac for Computers, 1990, as worked at http://edwilliams.org/sunrise_sunset_example.htm.
"""

_GRAZING_DEGREES = 1e-9
"""So near the level of sunrise at noon or midnight, the sun is not followed any further."""


def day_length_hours(lat: float, on: date, *, lon: float = 0.0, with_refraction: bool = True) -> float:
    """The hours from sunrise to sunset over a level horizon: 24 if the sun stays up, 0 if it stays down.

    With refraction the upper edge of the sun counts, lifted by the air, as in an almanac; without, its middle
    and geometry alone, some ten minutes less at 40°. The sun's declination is taken at local noon and held
    for the day. Hills, trees and walls are left out.

    Args:
        lat: latitude [degrees], north positive, -90 to 90.
        on: the local day.
        lon: longitude [degrees], east positive; it only says when noon is, and matters by less than
            four minutes at 65° and less than two at 45°.
        with_refraction: whether to count from the upper edge as seen through the air.

    Raises:
        ValueError: there is no such latitude.
    """
    if not -90.0 <= lat <= 90.0:
        raise ValueError("A latitude lies between -90 and 90 degrees.")
    from astral import SunDirection
    from astral.julian import julianday, julianday_to_juliancentury
    from astral.sun import hour_angle, sun_declination

    noon = julianday(datetime(on.year, on.month, on.day, 12)) - lon / 360.0
    declination = sun_declination(julianday_to_juliancentury(noon))
    zenith = SUNRISE_ZENITH_DEGREES if with_refraction else 90.0
    if abs(lat - declination) >= zenith - _GRAZING_DEGREES:  # at noon
        return 0.0
    if 180.0 - abs(lat + declination) <= zenith + _GRAZING_DEGREES:  # at midnight
        return 24.0
    half_turn = hour_angle(lat, declination, zenith, SunDirection.RISING)
    return 24.0 * half_turn / math.pi
