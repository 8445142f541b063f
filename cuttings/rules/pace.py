"""The season's own pace: what the keeper has seen, against what degree days would have.

A sign seen early or late is turned into degree days by which the season is ahead, and those into days for
later dates; see ``rules.warmth.paced``.
"""

from collections.abc import Sequence
from datetime import date, timedelta

from attrs import frozen

from cuttings.climate.climate import Climate, Pace
from cuttings.dates import spoken
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant
from cuttings.rules.months import month_stretches
from cuttings.rules.seasons import frosts
from cuttings.rules.warmth import bloom_warmth, degree_days_between, since_midwinter
from cuttings.words import Sign

SNOW_GONE_AIR_C = 3.0
"""Mean air temperature at which the last snow of a winter is usually gone; from memory."""

OHIO = "Ohio State University Extension: Secrest Arboretum: Just Before Spring, 2020"
"""First bloom (one flower in twenty open) in degree days above 50 °F from 1 January,
https://bygl.osu.edu/node/1452."""

CLARK = "Ohio State University Extension Clark County: Plant Development and Growing Degree Days"
LILAC = "Growing degree day maps (figures of UMass, UW and Penn State, by way of a garden column)"
SERVICEBERRY = "Growing Degree Days explained (UMass figures, by way of a garden column)"

FIRST_BLOOM_F: dict[str, tuple[float, str]] = {
    "Cornus mas": (40.0, OHIO),
    "Acer rubrum": (44.0, OHIO),
    "Forsythia": (86.0, OHIO),
    "Amelanchier": (75.0, SERVICEBERRY),
    "Pyrus calleryana": (142.0, CLARK),
    "Syringa vulgaris": (238.0, LILAC),
}
"""Degree days (°F) above 50 °F from 1 January to first bloom, by plant or genus. Two Ohio pages differ by
five on border forsythia, and years differ from one another by about 15 %."""

INTO_THE_MONTH_DAYS = 10
"""Where only months of bloom are known, the first flower is looked for so long after they begin; from
memory."""

OWN_YEARS = 2
"""Earlier years of one's own from which a date is believed before any published figure; from memory."""

WEIGHTS = {"own": 1.0, "published": 1.0, "rough": 0.3}
"""How much a sign counts beside others of the same spring: a month of bloom tells little; from memory."""

ON_TIME_DAYS = 2
"""A season no further off than this is on time; from memory."""


@frozen
class Seen:
    """A sign that was seen on a day; ``plant`` for a first bloom."""

    sign: Sign
    on: date
    plant: Plant | None = None

    @property
    def words(self) -> str:
        """The sign as one says it: ``first bloom of Forsythia``."""
        named = f" of {self.plant.common[0] if self.plant.common else self.plant.name}" if self.plant else ""
        return f"{self.sign.spoken}{named}"

    def same(self, other: "Seen") -> bool:
        return self.sign is other.sign and (self.plant and self.plant.name) == (
            other.plant and other.plant.name
        )


@frozen
class Expectation:
    """When a sign is to be expected in a year, how much that is worth, and why."""

    on: date
    weight: float
    why: str
    source: str


def expectation(seen: Seen, climate: Climate, earlier: Sequence[Seen] = ()) -> Expectation | None:
    """When a sign is usual in the year it was seen in: by the keeper's own earlier years, by a published
    figure, or roughly by the month; ``None`` where nothing tells. ``earlier`` may hold other signs too."""
    plain = Climate(climate.lat, climate.frost, climate.zone, climate.normals)
    year, _ = since_midwinter(plain, seen.on)
    own = [each for each in earlier if each.same(seen) and since_midwinter(plain, each.on)[0] < year]
    if len({each.on.year for each in own}) >= OWN_YEARS:
        middle = sum(since_midwinter(plain, each.on)[1] for each in own) / len(own)
        on = plain.spring_day(year, plain.air.trough_day) + timedelta(days=round(middle))
        return Expectation(
            on, WEIGHTS["own"], f"the mean of your own {len(own)} earlier years", "your ledger"
        )
    if seen.sign is Sign.SOIL_WORKABLE:
        why = "when the soil at root depth passes 6 °C (43 °F)"
        return Expectation(frosts(plain, year).workable, WEIGHTS["published"], why, COMMON_PRACTICE)
    if seen.sign is Sign.LAST_SNOW:
        rises = plain.air.rises_through(SNOW_GONE_AIR_C)
        why = "when days warm past 3 °C (37 °F) in the mean"
        return (
            rises and Expectation(plain.spring_day(year, rises), WEIGHTS["rough"], why, FROM_MEMORY)
        ) or None
    return _bloom(seen.plant, plain, year) if seen.plant is not None else None


def _bloom(plant: Plant, climate: Climate, year: int) -> Expectation | None:
    figure = FIRST_BLOOM_F.get(plant.name) or FIRST_BLOOM_F.get(plant.genus)
    if figure is not None:
        wanted, source = figure
        day = _bloom_day(climate, year, wanted / 1.8)
        why = f"at {wanted:.0f} degree days above 50 °F since New Year"
        return None if day is None else Expectation(day, WEIGHTS["published"], why, source)
    if plant.bloom is None or not plant.bloom.months:
        return None
    opens = month_stretches(plant.bloom.months, climate, year)[0][0]
    on = opens + timedelta(days=INTO_THE_MONTH_DAYS)
    return Expectation(
        on, WEIGHTS["rough"], "early in its months of bloom, roughly", plant.source_of("bloom")
    )


def _bloom_day(climate: Climate, year: int, degree_days_c: float) -> date | None:
    """The day by which so many degree days above 10 °C are to be expected since New Year (1 July in the
    south)."""
    sums = bloom_warmth(climate)
    day = next((number for number, total in enumerate(sums) if total >= degree_days_c), None)
    begins = date(year, 7, 1) if climate.southern else date(year, 1, 1)
    return None if day is None else begins + timedelta(days=max(day, 1) - 1)


def pace_of(seen: Sequence[Seen], climate: Climate, today: date) -> Pace | None:
    """The pace of the spring that a day belongs to, from everything seen until then; ``None`` if nothing
    tells.

    Signs of one spring are averaged in degree days, each by what it is worth.
    """
    plain = Climate(climate.lat, climate.frost, climate.zone, climate.normals)
    year, _ = since_midwinter(plain, today)
    told: list[tuple[Seen, Expectation]] = []
    for each in sorted(seen, key=lambda s: s.on):
        if each.on <= today and since_midwinter(plain, each.on)[0] == year:
            expected = expectation(each, plain, seen)
            if expected is not None:
                told.append((each, expected))
    if not told:
        return None
    weight = sum(expected.weight for _, expected in told)
    ahead = (
        sum(expected.weight * degree_days_between(plain, each.on, expected.on) for each, expected in told)
        / weight
    )
    days = round(sum(expected.weight * (expected.on - each.on).days for each, expected in told) / weight)
    return Pace(year, ahead, days, _said(told, days))


def _said(told: Sequence[tuple[Seen, Expectation]], days: int) -> str:
    seen, expected = told[-1]
    usual = f"usual about {spoken(expected.on, seen.on)}"
    signs = f"{seen.words} was seen on {spoken(seen.on, seen.on)} and is {usual}"
    if abs(days) <= ON_TIME_DAYS:
        return f"The season is on time ({signs})."
    side = "ahead" if days > 0 else "behind"
    return f"The season is about {abs(days)} days {side} ({signs}), so what growth brings is moved with it."
