"""The season's own pace: what the keeper has seen, against what degree days would have.

A sign seen early or late is turned into degree days by which the season is ahead, and those into days for
later dates; see ``rules.warmth.paced``.
"""

from collections.abc import Sequence
from datetime import date, timedelta

from attrs import evolve, frozen

from cuttings.climate.climate import Climate, Pace
from cuttings.dates import spoken
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Plant
from cuttings.rules.bloom import first_bloom
from cuttings.rules.seasons import frosts
from cuttings.rules.warmth import PACE_HOLDS_DAYS, degree_days_between, since_midwinter
from cuttings.words import Sign

SNOW_GONE_AIR_C = 3.0
"""Mean air temperature at which the last snow of a winter is usually gone; from memory."""

OWN_YEARS = 2
"""Earlier years of one's own from which a date is believed before any published figure; from memory."""

WEIGHTS = {"own": 1.0, "published": 1.0, "rough": 0.3}
"""How much a sign counts beside others of the same spring: a month of bloom tells little; from memory."""

OLDER_SIGN = 0.5
"""How much each sign counts against the next one that was seen: the newest knows most; from memory."""

FURTHEST_LEAD_DAYS = 30
"""Days by which a spring is early or late at the most; a sign further off is more likely a slip of the
date, or a plant in a warm corner; from memory."""

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
    plain = evolve(climate, pace=None)
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
    bloom = first_bloom(seen.plant, plain, year) if seen.plant is not None else None
    if bloom is None:
        return None
    weight = WEIGHTS["published" if bloom.published else "rough"]
    return Expectation(bloom.on, weight, bloom.why, bloom.source)


def pace_of(seen: Sequence[Seen], climate: Climate, today: date) -> Pace | None:
    """The pace of the spring that a day belongs to, from everything seen until then; ``None`` if nothing
    tells.

    Signs of one spring are averaged in degree days, each by what it is worth, the newest most.
    """
    plain = evolve(climate, pace=None)
    year, since = since_midwinter(plain, today)
    if since > PACE_HOLDS_DAYS:
        return None
    told: list[tuple[Seen, Expectation]] = []
    for each in sorted(seen, key=lambda s: s.on):
        if each.on <= today and since_midwinter(plain, each.on)[0] == year:
            expected = expectation(each, plain, seen)
            if expected is not None:
                told.append((each, expected))
    if not told:
        return None
    newness = [OLDER_SIGN**back for back in range(len(told))][::-1]
    weights = [expected.weight * new for new, (_, expected) in zip(newness, told, strict=True)]
    leads = [lead(each, expected) for each, expected in told]
    ahead = sum(
        weight * degree_days_between(plain, expected.on - timedelta(days=days), expected.on)
        for weight, (_, expected), days in zip(weights, told, leads, strict=True)
    )
    days = round(sum(weight * each for weight, each in zip(weights, leads, strict=True)) / sum(weights))
    newest, expected = told[-1]
    dug = [each.on for each, _ in told if each.sign is Sign.SOIL_WORKABLE]
    return Pace(
        year,
        ahead / sum(weights),
        days,
        min(newest.on, expected.on),
        _said(told, days),
        workable=dug[0] if dug else None,
        blooms=tuple((each.plant.name, each.on) for each, _ in told if each.plant is not None),
    )


def lead(seen: Seen, expected: Expectation) -> int:
    """Days by which a sign was early; a sign further off than spring ever is counts for no more than that."""
    return min(max((expected.on - seen.on).days, -FURTHEST_LEAD_DAYS), FURTHEST_LEAD_DAYS)


def _said(told: Sequence[tuple[Seen, Expectation]], days: int) -> str:
    if len(told) == 1:
        seen, expected = told[0]
        usual = f"usual about {spoken(expected.on, seen.on)}"
        signs = f"{seen.words} was seen on {spoken(seen.on, seen.on)} and is {usual}"
    else:
        each_off = (f"{seen.words} {_days_off((expected.on - seen.on).days)}" for seen, expected in told)
        signs = "; ".join(each_off)
    if abs(days) <= ON_TIME_DAYS:
        return f"The season is on time ({signs})."
    side = "ahead" if days > 0 else "behind"
    return f"The season is about {abs(days)} days {side} ({signs}), so what growth brings is moved with it."


def _days_off(early: int) -> str:
    if early == 0:
        return "on its day"
    number = "a day" if abs(early) == 1 else f"{abs(early)} days"
    return f"{number} {'early' if early > 0 else 'late'}"
