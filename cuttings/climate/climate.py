"""The climate of one garden: measured at a station near it, or as far as its keeper has told it."""

import math
from datetime import date, timedelta

from attrs import field, frozen

from cuttings.climate.frost import FrostDates
from cuttings.climate.normals import Normals
from cuttings.climate.soil import soil_wave
from cuttings.climate.wave import YEAR_DAYS, Wave, round_the_year
from cuttings.climate.zones import middle_c, zone_number, zone_of

SAFE_RISK = 0.10
"""The chance of a later frost at which tender plants go out, unless the keeper chose another; common
practice."""

TROPICS_DEG = 15.0
"""Nearer to the equator than this the year may be warmest at any time; from memory."""

ROOT_DEPTH_M = 0.10
"""The depth at which soil temperatures are meant: that of a young plant's roots, and of the four-inch
readings of weather stations."""

USUAL_LAST_FROST_DAY = 130.0
USUAL_FIRST_FROST_DAY = 276.0
USUAL_COLDEST_C = -23.3
"""An ordinary cold-winter garden, north, between hardiness zones 5 and 6: last frost 10 May, first 3 October.
It stands in where nothing was told, and is the one whose months the catalogue gives. From memory."""

MEAN_AT_FROST_C = 13.5
"""Mean air temperature on the even-odds dates of the last and first frost. It is 12 to 15 °C at the
stations we could look at; from memory."""

TROUGH_ABOVE_COLDEST_C = 19.0
"""How much warmer the mean of midwinter is than the mean annual extreme minimum: 15 to 20 °C; from memory."""

SHORTEST_SEASON_DAYS, LONGEST_SEASON_DAYS, WIDEST_C = 30.0, 300.0, 25.0
"""Frost-free seasons, in days, and half swings of the year's means, in °C, beyond these are not believed."""

MIDSUMMER = {False: 201.0, True: 18.5}
"""About when the year is warmest, as a day of the year, north and south (20 July, 18 January)."""

WANDERS_DAYS = 80.0
"""The furthest that the warmest day is believed to lie from there."""


@frozen(cache_hash=True)
class Pace:
    """How far this year's spring is ahead of the normal one, in degree days above 5 °C; behind, if negative.

    ``days`` is what that comes to now, ``since`` the day from which dates are moved by it, and ``said`` the
    sentence that is shown wherever one was. ``workable`` is the day on which the keeper found that the soil
    can be dug, and ``blooms`` the first flowers seen, by botanical name: what was seen is not reckoned
    again.
    """

    year: int
    ahead: float
    days: int
    since: date
    said: str
    workable: date | None = None
    blooms: tuple[tuple[str, date], ...] = ()

    def first_bloom(self, plant: str, year: int) -> date | None:
        """The first flower of a plant that was seen in a year's spring."""
        return dict(self.blooms).get(plant) if year == self.year else None


@frozen(cache_hash=True)
class Climate:
    """What the rules need to know of a place: where it lies, how cold it gets, when frost comes.

    ``frost`` and ``zone`` are what holds for the garden, whichever they come from. ``air`` is the year's
    round of the mean daily temperature: measured where there are normals, estimated from frost and zone
    elsewhere. ``risk`` is the chance of a later frost at which the keeper lets tender plants out.
    """

    lat: float
    frost: FrostDates | None = None
    zone: str = ""
    normals: Normals | None = None
    risk: float = SAFE_RISK
    pace: Pace | None = None
    air: Wave = field(init=False)
    soil: Wave = field(init=False)

    @air.default
    def _air(self) -> Wave:
        measured = None if self.normals is None else self.normals.mean
        return _believable(
            measured or estimated_air(self.frost, self.zone, southern=self.southern), self.southern
        )

    @soil.default
    def _soil(self) -> Wave:
        return soil_wave(self.air, ROOT_DEPTH_M)

    @property
    def southern(self) -> bool:
        return self.lat < 0

    @property
    def zone_number(self) -> int | None:
        """The whole hardiness zone, 1 to 13, or ``None`` where it is not known."""
        return zone_number(self.zone)

    @property
    def coldest_c(self) -> float | None:
        """The mean annual extreme minimum, °C: measured, or the middle of the zone; ``None`` if not known."""
        if self.normals is not None and self.normals.coldest_c is not None:
            return self.normals.coldest_c
        return middle_c(self.zone) if self.zone else None

    def month_here(self, northern_month: int) -> int:
        """The month of this garden that stands for a month of the northern catalogue."""
        return (northern_month + 5) % 12 + 1 if self.southern else northern_month

    def spring_day(self, year: int, day_of_year: float) -> date:
        """A day of the wave's warming half as a date in the spring of a calendar year."""
        peak = self._peak(year + 1 if self.southern else year)
        return _whole(peak, -((self.air.peak_day - day_of_year) % YEAR_DAYS))

    def autumn_day(self, year: int, day_of_year: float) -> date:
        """A day of the wave's cooling half as a date in the autumn of a calendar year; it may pass New
        Year."""
        return _whole(self._peak(year), (day_of_year - self.air.peak_day) % YEAR_DAYS)

    def _peak(self, year: int) -> tuple[date, float]:
        """The warmest day of a year: its 1 January, and the days from there (below 0 in a southern year)."""
        middle = MIDSUMMER[self.southern]
        return date(year, 1, 1), middle + round_the_year(self.air.peak_day - middle) - 1.0


def _whole(peak: tuple[date, float], days: float) -> date:
    newyear, to_peak = peak
    return newyear + timedelta(days=round(to_peak + days))


def _believable(air: Wave, southern: bool) -> Wave:
    """The wave with its peak in the summer half; near the equator, or from odd dates, it might lie
    anywhere."""
    middle = MIDSUMMER[southern]
    wandered = round_the_year(air.peak_day - middle)
    if abs(wandered) <= WANDERS_DAYS:
        return air
    return Wave(air.mean_c, air.amplitude_c, middle + math.copysign(WANDERS_DAYS, wandered))


def climate_from(normals: Normals, lat: float, risk: float = SAFE_RISK, pace: Pace | None = None) -> Climate:
    """The climate of a garden that goes by a station's normals."""
    stated = (
        f"{normals.winters} winters of daily readings, {normals.first_year} to {normals.last_year}, "
        f"at {normals.station or 'your station'}"
    )
    zone = "" if normals.coldest_c is None else zone_of(normals.coldest_c)
    return Climate(lat, FrostDates(normals.freezes, stated), zone, normals, risk, pace)


def estimated_air(frost: FrostDates | None, zone: str, *, southern: bool = False) -> Wave:
    """The round of mean temperature that goes with frost dates and a zone, roughly (within 2 or 3 °C).

    The wave is taken to stand at ``MEAN_AT_FROST_C`` on the even-odds dates of frost and at
    ``TROUGH_ABOVE_COLDEST_C`` over the zone's coldest night in midwinter. Without dates or zone those of an
    ordinary cold-winter garden are taken.
    """
    spring, autumn = USUAL_LAST_FROST_DAY, USUAL_FIRST_FROST_DAY
    turn = YEAR_DAYS / 2 if southern else 0.0
    if frost is not None:
        spring, autumn = frost.at().spring.mean - turn, frost.at().autumn.mean - turn
    season = (autumn - spring) % YEAR_DAYS
    trough = (middle_c(zone) if zone else USUAL_COLDEST_C) + TROUGH_ABOVE_COLDEST_C
    # With a season of nearly the whole year or of no time at all the sum would run off: keep it on earth.
    season = min(max(season, SHORTEST_SEASON_DAYS), LONGEST_SEASON_DAYS)
    amplitude = (MEAN_AT_FROST_C - trough) / (1.0 + math.cos(math.pi * season / YEAR_DAYS))
    amplitude = min(max(amplitude, 1.0), WIDEST_C)
    return Wave(trough + amplitude, amplitude, spring + season / 2 + turn)
