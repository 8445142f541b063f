"""One cold night: what it can kill, how likely, and what is worth doing before dusk.

The forecast low is that of air at shelter height, about 5 ft above the ground, in degrees Celsius. For
every part of a plant that cold can kill there are two forecasts: the one from which stems begin to be lost,
and the one at which all of them are. Between the two the chance of loss rises evenly; that straight line is
this program's own reckoning, good for putting things in order and no more. A colder night or less shelter
never lowers it.
"""

from collections.abc import Sequence
from datetime import date
from enum import StrEnum

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Caution, Plant
from cuttings.rules.advice import Advice
from cuttings.rules.hardiness import (
    FREEZE_CLASSES,
    FREEZING_C,
    FREEZING_STUDY,
    VERMONT,
    ZONES,
    hardened,
    is_frost_tender,
    root_limits,
    shoot_limits,
)
from cuttings.rules.seasons import is_hardy
from cuttings.units import show_temperature
from cuttings.words import Units

ADVISORY = "Daryl Ritchison, meteorologist (National Weather Service criteria): Frost Season"
"""A frost advisory goes out for forecast lows of 33 to 36 F, since they are read about 5 ft up and it is
often freezing near the ground, http://darylritchison.com/frost-season/"""

MEDIUM_STUDY = (
    "Journal of Environmental Horticulture 8(3) (abstract): "
    "Overwintering Container-grown Herbaceous Perennials"
)
"""Under winter covers the medium was 4 to 7 C warmer than the air round it,
https://meridian.allenpress.com/jeh/article/8/3/135/80473/Overwintering-Container-grown-Herbaceous"""

MISSOURI = "University of Missouri Extension G6965: Building and Using Hotbeds and Cold Frames"
"""A cold frame is at most 5 to 10 F warmer than outdoors,
https://extension.missouri.edu./publications/g6965"""

TORONTO = "Toronto Master Gardeners: Covering cold frames"
"""Blankets over the frame below about -7 C,
https://www.torontomastergardeners.ca/askagardener/covering-cold-frames/"""

TEXAS = "Angelina County extension agents (via KTRE): Tips on protecting plants during freezing weather, 2019"
"""A bedsheet gives 2 to 5 degrees of protection, and moist soil holds four times the heat of dry soil,
https://www.ktre.com/2019/11/27/east-texas-ag-news-tips-protecting-plants-during-freezing-weather/"""

Warmth = tuple[float, float]
"""Degrees Celsius by which something is warmer than the forecast low: at the least, and at the most."""


def _degrees(fahrenheit: float) -> float:
    """A difference of so many degrees Fahrenheit, in Celsius."""
    return fahrenheit / 1.8


CLEAR_NIGHT_C = _degrees(4.0)
"""How much colder than the forecast leaves and ground may be on a clear still night, degrees Celsius: the 4
F from 36 F, the mildest low of a frost advisory, to freezing (``ADVISORY``). A cloudy or windy night takes
nothing off, so all is only lost at a forecast that kills without it."""

FRAME_C: Warmth = (_degrees(5.0), _degrees(10.0))
"""What a closed frame adds (``MISSOURI``)."""

EXTRA_COVER_C = -7.0
"""The forecast from which a frame wants more over it than its own lid (``TORONTO``)."""

CLOTH_C: Warmth = (_degrees(2.0), _degrees(5.0))
"""What a sheet over a plant adds (``TEXAS``)."""

MIX_HOLDS_C = 3.0
"""How much warmer than the air the mix of a pot in the open is still at dawn, degrees Celsius. From memory;
it is less than the 4 to 7 C under winter covers (``MEDIUM_STUDY``)."""

WRAPPED_C: Warmth = (3.0, 3.0)
BLANKETED_C: Warmth = (3.0, 3.0)
"""What wrapping and covering grouped pots adds, and blankets or straw over a closed frame; from memory.
With what the mix holds by itself, wrapped pots lie within the 4 to 7 C of ``MEDIUM_STUDY``."""


LOST_WITH_SHOOTS = 0.25
"""The share of plants in the ground that are lost with their shoots; the rest sprout again from roots that
the soil kept warm. Any frost-tender plant is lost. From memory."""

ENOUGH = 0.05
"""A remedy that leaves no more than this chance of loss is enough, and the easiest such is taken; one that
saves no more than this share of what is dying is not worth the walk. This program's own."""

SLACK_C = 0.01
"""Degrees that rounding in unit conversion may take."""


class Seat(StrEnum):
    """What the roots stand in."""

    GROUND = "ground"
    POT = "pot"
    LOOSE = "loose"


class Shelter(StrEnum):
    """What stands between stems and the night, least first."""

    OPEN = "open"
    BAG = "bag"
    FRAME = "frame"
    HEATED = "heated"
    INDOORS = "indoors"


COLDLESS = (Shelter.HEATED, Shelter.INDOORS)
"""Shelters that the night does not get into."""


@frozen(kw_only=True)
class Standing:
    """How some stems of a plant stand tonight.

    ``potted`` are those that have filled out in pots of their own; cuttings still in their tray are not.
    ``new`` is for those planted in the last weeks, ``soft`` for those raised in warmth. ``attached`` cannot
    be carried, as they still hang on their mother plant. ``night_limit_c`` is the coldest night their
    hardening off allows, with its source; ``said`` the keeper's own words for where they are, if the
    shelter was read from them.
    """

    plant: Plant
    seat: Seat
    shelter: Shelter = Shelter.OPEN
    potted: bool = False
    new: bool = False
    soft: bool = False
    attached: bool = False
    night_limit_c: float | None = None
    night_source: str = ""
    said: str = ""


@frozen
class Danger:
    """A part of a plant that the night can kill, told by forecast lows, degrees Celsius.

    ``share`` is the share of stems lost when the part is.
    """

    begins_c: float
    certain_c: float
    what: str
    source: str
    share: float = 1.0

    def chance(self, low_c: float, warmer: Warmth = (0.0, 0.0)) -> float:
        """The chance that a stem is lost, 0 to 1, if something makes its place so much warmer."""
        begins, certain = self.begins_c - warmer[0], self.certain_c - warmer[1]
        return self.share * min(max((begins - low_c) / (begins - certain), 0.0), 1.0)


@frozen(kw_only=True)
class Remedy:
    """Something to do before dusk. ``do`` has ``{}`` where the stems belong.

    ``warmer`` is what it adds, ``None`` where it takes them out of the cold. Minutes are for the lot, and for
    each stem; from memory.
    """

    do: str
    warmer: Warmth | None
    minutes: float = 0.0
    minutes_a_stem: float = 0.0
    source: str = COMMON_PRACTICE
    cautions: tuple[Caution, ...] = ()


LIFTING = Caution(
    "lifting",
    "Wet pots are heavy: bend your knees, and get help with big ones.",
    COMMON_PRACTICE,
)

NO_FLAME = Caution(
    "fumes",
    "No candle, lamp or fuel heater in a closed frame or shed: it can start a fire, and its carbon monoxide "
    "kills without a smell.",
    COMMON_PRACTICE,
)

WATER_FIRST = Advice(
    "Water dry pots and beds this afternoon.",
    "Moist soil holds more heat.",
    TEXAS,
)

LEAVE = Remedy(do="Leave alone: {}", warmer=(0.0, 0.0))
NOTHING = Remedy(do="Beyond saving tonight: {}", warmer=(0.0, 0.0))
BRING_IN = Remedy(
    do="Bring indoors for the night: {}", warmer=None, minutes=3, minutes_a_stem=0.5, cautions=(LIFTING,)
)
UNDER_A_ROOF = Remedy(
    do="Take to a shed, garage or cellar, not into the warm: {}",
    warmer=None,
    minutes=3,
    minutes_a_stem=1,
    cautions=(LIFTING, NO_FLAME),
)
WRAP_POTS = Remedy(
    do="Group by a wall, wrap and cover the pots of {}",
    warmer=WRAPPED_C,
    minutes=3,
    minutes_a_stem=0.5,
    source=f"{COMMON_PRACTICE}; {MEDIUM_STUDY}",
    cautions=(LIFTING,),
)
WRAP_LAYERS = Remedy(do="Wrap sacking round the balls of {}", warmer=WRAPPED_C, minutes=3, minutes_a_stem=3)
COVER = Remedy(
    do="Cover down to the ground before dusk: {}", warmer=CLOTH_C, minutes=2, minutes_a_stem=2, source=TEXAS,
    cautions=(NO_FLAME,),
)  # fmt: skip
CLOSE_FRAME = Remedy(
    do="Close the frame over {}", warmer=FRAME_C, minutes=2, source=MISSOURI, cautions=(NO_FLAME,)
)
BLANKET_FRAME = Remedy(
    do="Close the frame and lay blankets or straw over {}",
    warmer=(FRAME_C[0] + BLANKETED_C[0], FRAME_C[1] + BLANKETED_C[1]),
    minutes=8,
    source=f"{MISSOURI}; {TORONTO}",
    cautions=(NO_FLAME,),
)
BRING_LOOSE = Remedy(do="Bring in, cool, free of frost and just moist: {}", warmer=None, minutes=5)


@frozen(kw_only=True)
class Verdict:
    """What tonight means for some stems.

    ``chance`` is that of loss if nothing is done, ``saved`` the share of stems that the remedy keeps alive.
    ``begins_c`` is the forecast low at which they begin to be at risk, ``None`` where no night is too cold.
    ``beyond`` is set where nothing worth doing would save them. ``why`` is the ``cause`` with the limits of
    the ``danger``, the worst of those that are near.
    """

    begins_c: float | None
    why: str
    source: str
    at_risk: bool = False
    chance: float = 0.0
    saved: float = 0.0
    beyond: bool = False
    remedy: Remedy = LEAVE
    cause: str = ""
    danger: Danger | None = None


def dangers(standing: Standing, climate: Climate, on: date) -> tuple[Danger, ...]:
    """What the night can kill of stems that stand so; nothing of hardy ones in the ground, or under a roof.

    A frame is taken as ajar, since to close it is the first thing to do.
    """
    if standing.shelter in COLDLESS:
        return ()
    hard = 0.0 if standing.soft else hardened(climate, on)
    plant = standing.plant
    if standing.seat is Seat.GROUND:
        settled = is_hardy(plant, climate) and not standing.new
        return () if settled else (_shoots(standing, climate, hard),)
    roots = _roots(standing, hard)
    if standing.seat is Seat.POT and (is_frost_tender(plant) or not standing.potted):
        return roots, _shoots(standing, climate, hard)
    return (roots,)


def _sky(standing: Standing) -> Warmth:
    """What the place of leaves differs from the forecast by: they lose more heat under an open sky."""
    return (-CLEAR_NIGHT_C, 0.0) if standing.shelter is Shelter.OPEN else (0.0, 0.0)


def _shoots(standing: Standing, climate: Climate, hard: float) -> Danger:
    limits, sky = shoot_limits(standing.plant, climate, hard), _sky(standing)
    share = LOST_WITH_SHOOTS if standing.seat is Seat.GROUND else 1.0
    if is_frost_tender(standing.plant):
        what, source, share = "Frost kills it.", FREEZE_CLASSES, 1.0
    elif hard > 0:
        what, source = "Its shoots have hardened only so far.", f"{FREEZE_CLASSES}; {ZONES}"
    else:
        what, source = "Its shoots are soft at this season.", FREEZE_CLASSES
    if sky[0] < 0:
        what = f"{what} On a clear still night leaves are colder than the air."
        source = f"{source}; {ADVISORY}"
    return Danger(limits.harm_c - sky[0], limits.dead_c - sky[1], what, source, share)


def _roots(standing: Standing, hard: float) -> Danger:
    limits = root_limits(standing.plant, hard)
    if standing.seat is Seat.LOOSE:
        sky, harm_c = _sky(standing), min(limits.harm_c, FREEZING_C)
        what = "Roots out of the soil have nothing round them that holds heat."
        return Danger(harm_c - sky[0], limits.dead_c - sky[1], what, f"{VERMONT}; {ADVISORY}")
    what = "Roots in a pot freeze long before those in the ground."
    if hard == 0:
        what = "Roots in a pot freeze before those in the ground, and are not hardened now."
    sources = f"{VERMONT}; {FREEZING_STUDY}; that the mix holds some warmth is {FROM_MEMORY}"
    return Danger(limits.harm_c - MIX_HOLDS_C, limits.dead_c - MIX_HOLDS_C, what, sources)


def remedies(standing: Standing, climate: Climate, low_c: float) -> tuple[Remedy, ...]:
    """What could be done for stems that stand so, the easiest first."""
    if standing.seat is Seat.GROUND:
        return (COVER,)
    if standing.attached:
        return (WRAP_LAYERS,)
    if standing.seat is Seat.LOOSE:
        return (BRING_LOOSE,)
    hardy = is_hardy(standing.plant, climate) and not standing.soft
    carry = UNDER_A_ROOF if hardy else BRING_IN
    if standing.shelter is Shelter.FRAME:
        return (BLANKET_FRAME, carry) if low_c <= EXTRA_COVER_C else (CLOSE_FRAME, BLANKET_FRAME, carry)
    return (WRAP_POTS, carry) if hardy else (carry,)


def judge(standing: Standing, climate: Climate, on: date, low_c: float, units: Units) -> Verdict:
    """What a night with a forecast low, degrees Celsius, means for stems that stand so.

    Args:
        on: the day before the night.
        units: those the reason is told in.
    """
    found = dangers(standing, climate, on)
    begins = _begins(standing, found)
    near = [danger for danger in found if low_c <= danger.begins_c + SLACK_C]
    worst = max(near, key=lambda danger: (danger.chance(low_c), danger.begins_c), default=None)
    chilled = _too_cold_to_harden(standing, low_c)
    if worst is None and not chilled:
        why, safe_source = _unharmed(standing, begins, units)
        return Verdict(begins_c=begins, why=why, source=safe_source)
    cause, sources = _endangered(standing, worst, chilled, units)
    chance = worst.chance(low_c) if worst is not None else 0.0
    remedy, left = (BRING_IN, 0.0) if chilled else _best(remedies(standing, climate, low_c), found, low_c)
    beyond = chance > 0 and chance - left <= ENOUGH * chance
    if beyond:
        remedy, left, cause = NOTHING, chance, f"{cause} A cover gives only a few degrees."
    return Verdict(
        at_risk=True,
        chance=chance,
        saved=chance - left,
        begins_c=begins,
        beyond=beyond,
        remedy=remedy,
        cause=cause,
        danger=worst,
        why=f"{cause} {limits_said([worst], units)}" if worst is not None else cause,
        source="; ".join(dict.fromkeys((*sources, *remedy.source.split("; ")))),
    )


def _begins(standing: Standing, found: tuple[Danger, ...]) -> float | None:
    """The forecast low at which they begin to be at risk."""
    begins = [danger.begins_c for danger in found]
    if standing.night_limit_c is not None and standing.shelter not in COLDLESS:
        begins.append(standing.night_limit_c)
    return max(begins, default=None)


def _too_cold_to_harden(standing: Standing, low_c: float) -> bool:
    limit = standing.night_limit_c
    return limit is not None and standing.shelter not in COLDLESS and low_c < limit - SLACK_C


def _best(offered: tuple[Remedy, ...], found: tuple[Danger, ...], low_c: float) -> tuple[Remedy, float]:
    """The easiest remedy that is enough, or else the one that leaves the least; and the chance it leaves."""
    left = [(_left(remedy, found, low_c), remedy) for remedy in offered]
    enough = [each for each in left if each[0] <= ENOUGH]
    chance, remedy = enough[0] if enough else min(left, key=lambda each: each[0])
    return remedy, chance


def _left(remedy: Remedy, found: tuple[Danger, ...], low_c: float) -> float:
    if remedy.warmer is None:
        return 0.0
    return max((danger.chance(low_c, remedy.warmer) for danger in found), default=0.0)


def limits_said(found: Sequence[Danger], units: Units) -> str:
    """From which forecast on stems begin to be lost, and at which all are, for dangers of one kind."""
    begins = show_temperature(max(danger.begins_c for danger in found), units)
    certain = show_temperature(min(danger.certain_c for danger in found), units)
    if any(danger.share < 1 for danger in found):
        return f"Shoots begin to die near {begins}; at {certain} all are gone, but most plants sprout again."
    return f"Losses begin near {begins}; at {certain} all are likely gone."


def _endangered(
    standing: Standing, worst: Danger | None, chilled: bool, units: Units
) -> tuple[str, Sequence[str]]:
    """Why stems are at risk tonight, and the sources."""
    said, sources = [], []
    if chilled and standing.night_limit_c is not None:
        limit = show_temperature(standing.night_limit_c, units)
        said.append(f"It is being hardened off, and stays out only on nights of {limit} or more.")
        sources += standing.night_source.split("; ")
    if worst is not None:
        said.append(worst.what)
        sources += worst.source.split("; ")
    return f"{' '.join(said)}{_read(standing)}", sources


def _unharmed(standing: Standing, begins_c: float | None, units: Units) -> tuple[str, str]:
    """Why stems are safe tonight, and the source."""
    if standing.shelter is Shelter.INDOORS:
        why = f"You wrote '{standing.said}', so they are taken to stand indoors; if not, bring them in."
        return why, COMMON_PRACTICE
    if standing.shelter is Shelter.HEATED:
        return "Bottom heat keeps frost out while the power is on; see that it is.", COMMON_PRACTICE
    if begins_c is None:
        why = f"They are hardy here, and in the ground or on the mother plant.{_read(standing)}"
        return why, COMMON_PRACTICE
    source = standing.night_source if begins_c == standing.night_limit_c else f"{FREEZE_CLASSES}; {VERMONT}"
    why = f"At this season they stand nights down to {show_temperature(begins_c, units)}.{_read(standing)}"
    return why, source


def _read(standing: Standing) -> str:
    """What was read from the keeper's own words, so that it can be put right."""
    if not standing.said:
        return ""
    place = "in a frame" if standing.shelter is Shelter.FRAME else "sunk in the ground"
    return f" You wrote '{standing.said}', so they are taken to stand {place}."
