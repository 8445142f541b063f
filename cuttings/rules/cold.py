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
from cuttings.rules.hardening import CALIFORNIA, HENNEPIN, TENDER_CHILL_C
from cuttings.rules.hardiness import (
    FREEZE_CLASSES,
    FREEZING_C,
    FREEZING_STUDY,
    SOFT_GROWTH,
    VERMONT,
    ZONES,
    Limits,
    coldest_night_c,
    hardened,
    home_zone,
    in_growth,
    is_frost_tender,
    root_limits,
    shoot_limits,
)
from cuttings.rules.seasons import is_hardy
from cuttings.units import fahrenheit_to_celsius, show_temperature
from cuttings.words import PlantType, Units

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


ADVISORY_C = fahrenheit_to_celsius(36.0)
"""The mildest low of a frost advisory, degrees Celsius (``ADVISORY``)."""

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
"""The share of plants hardy here, in the ground, that are lost with their shoots; the rest sprout again from
roots that the soil kept warm. Any other plant is lost with them. From memory."""

BEYOND_ZONE_C = _degrees(10.0)
"""How far below the cold end of its zone all the shoots of a plant at rest are gone, degrees Celsius: a whole
zone more. From memory."""

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
    ``new`` is for those planted in the last weeks or without roots yet, ``soft`` for those raised in warmth
    and not hardened off. ``attached`` cannot be carried, as they still hang on their mother plant.
    ``night_limit_c`` is the coldest night their hardening off allows, with its source; ``said`` the keeper's
    own words for where they are, if the shelter was read from them.
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

    ``share`` is the share of stems lost when the part is: none where only a season's growth is.
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
NO_HELP = Remedy(do="A cover would hardly help: {}", warmer=(0.0, 0.0))
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
COVER_IF_TIME = Remedy(
    do="Cover if you can: {}", warmer=CLOTH_C, minutes=2, minutes_a_stem=2, source=TEXAS,
    cautions=(NO_FLAME,),
)  # fmt: skip
SEE_TO_HEAT = Remedy(do="See that the heat is on, and shut the cover over {}", warmer=None, minutes=2)
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
    ``beyond`` is set where nothing worth doing would save them, ``spared`` where they live and only soft
    growth may be lost, ``chilled`` where the night is too cold for stems that are not hardened off. ``why``
    is the ``cause`` with the limits of the ``danger``, the worst of those that are near.
    """

    begins_c: float | None
    why: str
    source: str
    at_risk: bool = False
    chance: float = 0.0
    saved: float = 0.0
    beyond: bool = False
    spared: bool = False
    chilled: bool = False
    remedy: Remedy = LEAVE
    cause: str = ""
    danger: Danger | None = None


def dangers(standing: Standing, climate: Climate, on: date) -> tuple[Danger, ...]:
    """What the night can kill of stems that stand so; nothing of those under a roof.

    A frame is taken as ajar, since to close it is the first thing to do.
    """
    if standing.shelter in COLDLESS:
        return ()
    hard = 0.0 if standing.soft else hardened(climate, on)
    plant = standing.plant
    if standing.seat is Seat.GROUND:
        if _settled(standing, climate):
            return _of_the_settled(plant, climate, on)
        return (_shoots(standing, climate, hard),)
    roots = _roots(standing, hard)
    if standing.seat is Seat.POT and (is_frost_tender(plant) or standing.soft or not standing.potted):
        return roots, _shoots(standing, climate, hard)
    return (roots,)


def _settled(standing: Standing, climate: Climate) -> bool:
    """Whether a plant in the ground stands this garden's winter, and has the roots for it."""
    plant = standing.plant
    fresh = standing.new or standing.soft
    return is_hardy(plant, climate) and not is_frost_tender(plant) and not fresh


def _of_the_settled(plant: Plant, climate: Climate, on: date) -> tuple[Danger, ...]:
    """Nights colder than its zone's, and while it grows its soft growth: bulbs droop and rise again (common
    practice)."""
    zone = home_zone(plant, climate)
    coldest_c = coldest_night_c(zone)
    deep = Danger(
        coldest_c,
        coldest_c - BEYOND_ZONE_C,
        f"Nights this cold are rare even in zone {zone}, the coldest they are hardy to.",
        f"{ZONES}; how much more they stand is {FROM_MEMORY}",
        LOST_WITH_SHOOTS,
    )
    if plant.type is PlantType.BULB or not in_growth(climate, on):
        return (deep,)
    what = "They are hardy here, and live through it."
    return Danger(SOFT_GROWTH.harm_c, SOFT_GROWTH.dead_c, what, FREEZE_CLASSES, share=0.0), deep


def _sky(standing: Standing) -> Warmth:
    """What the place of leaves differs from the forecast by: they lose more heat under an open sky."""
    return (-CLEAR_NIGHT_C, 0.0) if standing.shelter is Shelter.OPEN else (0.0, 0.0)


def _shoots(standing: Standing, climate: Climate, hard: float) -> Danger:
    limits, sky = _shoots_stand(standing, climate, hard), _sky(standing)
    hardy, in_ground = is_hardy(standing.plant, climate), standing.seat is Seat.GROUND
    share = LOST_WITH_SHOOTS if in_ground and hardy else 1.0
    if is_frost_tender(standing.plant):
        what, source, share = "Frost kills it.", FREEZE_CLASSES, 1.0
    elif hard > 0:
        what, source = "Its shoots have hardened only so far.", f"{FREEZE_CLASSES}; {ZONES}"
    elif standing.soft:
        what, source = "Its shoots are soft from where it was raised.", FREEZE_CLASSES
    else:
        what, source = "Its shoots are soft at this season.", FREEZE_CLASSES
    if in_ground and not hardy and share == 1.0 and not is_frost_tender(standing.plant):
        what = f"{what} It is not hardy here, so what dies back seldom sprouts again."
        source = f"{source}; {ZONES}"
    if sky[0] < 0:
        what = f"{what} On a clear still night leaves are colder than the air."
        source = f"{source}; {ADVISORY}"
    return Danger(limits.harm_c - sky[0], limits.dead_c - sky[1], what, source, share)


def _shoots_stand(standing: Standing, climate: Climate, hard: float) -> Limits:
    """What shoots stand; those of a plant with old wood and roots in the ground are not all gone before its
    zone's mean coldest night."""
    plant = standing.plant
    limits = shoot_limits(plant, climate, hard)
    rooted = standing.seat is Seat.GROUND and not (standing.new or standing.soft)
    if is_frost_tender(plant) or not rooted:
        return limits
    return Limits(limits.harm_c, min(limits.dead_c, coldest_night_c(home_zone(plant, climate))))


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
    limit = _night_limit(standing, climate, units)
    begins = max([danger.begins_c for danger in found] + ([limit.value] if limit else []), default=None)
    near = [danger for danger in found if low_c <= danger.begins_c + SLACK_C]
    worst = max(near, key=lambda danger: (danger.chance(low_c), danger.begins_c), default=None)
    broken = limit if limit is not None and low_c < limit.value - SLACK_C else None
    if worst is None and broken is None:
        why, safe_source = _unharmed(standing, climate, begins, limit, units)
        return Verdict(begins_c=begins, why=why, source=safe_source)
    cause, sources = _endangered(standing, worst, broken)
    chance = worst.chance(low_c) if worst is not None else 0.0
    spared = broken is None and worst is not None and worst.share == 0
    if broken is not None:
        remedy, left = _out_of_the_chill(standing, broken.value, low_c), 0.0
    elif spared:
        remedy, left = COVER_IF_TIME, 0.0
    else:
        remedy, left = _best(remedies(standing, climate, low_c), found, low_c)
    beyond = chance > 0 and chance - left <= ENOUGH * chance
    if beyond:
        hopeless = worst is not None and worst.share == 1
        remedy, left = NOTHING if hopeless else NO_HELP, chance
        cause = f"{cause} A cover gives only a few degrees."
    return Verdict(
        at_risk=True,
        chance=chance,
        saved=chance - left,
        begins_c=begins,
        beyond=beyond,
        spared=spared,
        chilled=broken is not None,
        remedy=remedy,
        cause=cause,
        danger=worst,
        why=f"{cause} {limits_said([worst], units)}" if worst is not None else cause,
        source="; ".join(dict.fromkeys((*sources, *remedy.source.split("; ")))),
    )


def _night_limit(standing: Standing, climate: Climate, units: Units) -> Advice[float] | None:
    """The coldest night, degrees Celsius, for stems that are not hardened off yet, whether frost comes or
    not; ``None`` where there is none."""
    limits = (_while_hardening(standing, units), _fresh_from_warmth(standing, climate, units))
    return max((each for each in limits if each is not None), key=lambda each: each.value, default=None)


def _while_hardening(standing: Standing, units: Units) -> Advice[float] | None:
    limit_c = standing.night_limit_c
    if limit_c is None or standing.shelter in COLDLESS:
        return None
    limit = show_temperature(limit_c, units)
    why = f"It is being hardened off, and stays out only on nights of {limit} or more."
    return Advice(limit_c, why, standing.night_source)


def _fresh_from_warmth(standing: Standing, climate: Climate, units: Units) -> Advice[float] | None:
    """The limit of tender stems under heat, or raised under cover and not hardened off."""
    raised = standing.soft and (standing.potted or standing.seat is Seat.POT)
    if not raised or standing.attached or standing.shelter is Shelter.INDOORS:
        return None
    if is_hardy(standing.plant, climate):
        return None
    limit = show_temperature(TENDER_CHILL_C, units)
    why = f"It is tender, raised in warmth and not hardened off: nights below {limit} set it back."
    if standing.shelter is Shelter.HEATED:
        why = f"It is tender and used to its heat: should that fail, a night below {limit} harms it."
    return Advice(TENDER_CHILL_C, why, f"{CALIFORNIA}; {HENNEPIN}")


def _out_of_the_chill(standing: Standing, limit_c: float, low_c: float) -> Remedy:
    """What keeps stems that are not hardened off from a night too cold for them."""
    if standing.shelter is Shelter.HEATED:
        return SEE_TO_HEAT
    frame = standing.shelter is Shelter.FRAME and standing.seat is Seat.POT
    if frame and standing.night_limit_c is None and low_c + FRAME_C[0] >= limit_c:
        return CLOSE_FRAME
    return BRING_IN


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
    if all(danger.share == 0 for danger in found):
        return f"Soft shoots and flowers begin to die near {begins}; at {certain} most are gone."
    if any(danger.share < 1 for danger in found):
        return f"Shoots begin to die near {begins}; at {certain} all are gone, but most plants sprout again."
    return f"Losses begin near {begins}; at {certain} all are likely gone."


def _endangered(
    standing: Standing, worst: Danger | None, broken: Advice[float] | None
) -> tuple[str, Sequence[str]]:
    """Why stems are at risk tonight, and the sources."""
    said, sources = [], []
    if broken is not None:
        said.append(broken.why)
        sources += broken.source.split("; ")
    if worst is not None:
        said.append(worst.what)
        sources += worst.source.split("; ")
    return f"{' '.join(said)}{_read(standing)}", sources


def _unharmed(
    standing: Standing,
    climate: Climate,
    begins_c: float | None,
    limit: Advice[float] | None,
    units: Units,
) -> tuple[str, str]:
    """Why stems are safe tonight, and the source."""
    if standing.shelter is Shelter.INDOORS:
        why = f"You wrote '{standing.said}', so they are taken to stand indoors; if not, bring them in."
        return why, COMMON_PRACTICE
    if standing.shelter is Shelter.HEATED or begins_c is None:
        return "Bottom heat keeps frost out while the power is on; see that it is.", COMMON_PRACTICE
    if standing.seat is Seat.GROUND and _settled(standing, climate):
        why = f"They are hardy here, and in the ground or on the mother plant.{_read(standing)}"
        return why, COMMON_PRACTICE
    source = limit.source if limit and begins_c == limit.value else f"{FREEZE_CLASSES}; {VERMONT}"
    why = f"At this season they stand nights down to {show_temperature(begins_c, units)}.{_read(standing)}"
    return why, source


def _read(standing: Standing) -> str:
    """What was read from the keeper's own words, so that it can be put right."""
    if not standing.said:
        return ""
    place = "in a frame" if standing.shelter is Shelter.FRAME else "sunk in the ground"
    return f" You wrote '{standing.said}', so they are taken to stand {place}."
