"""What a cold night can kill, part by part: roots, shoots, and this season's growth.

The forecast low is that of air at shelter height, about 5 ft above the ground, in degrees Celsius. For
every part of a plant that cold can kill there are two forecasts: the one from which stems begin to be lost,
and the one at which all of them are. Between the two the chance of loss rises evenly; that straight line is
this program's own reckoning, good for putting things in order and no more. A colder night or less shelter
never lowers it.
"""

from collections.abc import Sequence
from datetime import date

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import FROM_MEMORY, Plant
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
from cuttings.rules.shelter import (
    COLDLESS,
    Seat,
    Shelter,
    Standing,
    Warmth,
)
from cuttings.units import fahrenheit_difference, fahrenheit_to_celsius, show_temperature
from cuttings.words import PlantType, Units

ADVISORY = "Daryl Ritchison, meteorologist (National Weather Service criteria): Frost Season"
"""A frost advisory goes out for forecast lows of 33 to 36 F, since they are read about 5 ft up and it is
often freezing near the ground, http://darylritchison.com/frost-season/"""

ADVISORY_C = fahrenheit_to_celsius(36.0)
"""The mildest low of a frost advisory, degrees Celsius (``ADVISORY``)."""

CLEAR_NIGHT_C = fahrenheit_difference(4.0)
"""How much colder than the forecast leaves and ground may be on a clear still night, degrees Celsius: the 4
F from 36 F, the mildest low of a frost advisory, to freezing (``ADVISORY``). A cloudy or windy night takes
nothing off, so all is only lost at a forecast that kills without it."""

MIX_HOLDS_C = 3.0
"""How much warmer than the air the mix of a pot in the open is still at dawn, degrees Celsius. From memory;
it is less than the 4 to 7 C under winter covers (``MEDIUM_STUDY``)."""

LOST_WITH_SHOOTS = 0.25
"""The share of plants hardy here, in the ground, that are lost with their shoots; the rest sprout again from
roots that the soil kept warm. Any other plant is lost with them. From memory."""

BEYOND_ZONE_C = fahrenheit_difference(10.0)
"""How far below the cold end of its zone all the shoots of a plant at rest are gone, degrees Celsius: a whole
zone more. From memory."""


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


def dangers(standing: Standing, climate: Climate, on: date) -> tuple[Danger, ...]:
    """What the night can kill of stems that stand so; nothing of those under a roof.

    A frame is taken as ajar, since to close it is the first thing to do.
    """
    if standing.shelter in COLDLESS:
        return ()
    hard = 0.0 if standing.soft else hardened(climate, on)
    plant = standing.plant
    if standing.seat is Seat.GROUND:
        if settled(standing, climate):
            return _of_the_settled(plant, climate, on)
        return (_shoots(standing, climate, hard),)
    roots = _roots(standing, hard)
    if standing.seat is Seat.POT and (is_frost_tender(plant) or standing.soft or not standing.potted):
        return roots, _shoots(standing, climate, hard)
    return (roots,)


def settled(standing: Standing, climate: Climate) -> bool:
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
    if in_ground and not hardy and not is_frost_tender(standing.plant):
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


def limits_said(found: Sequence[Danger], units: Units) -> str:
    """From which forecast on stems begin to be lost, and at which all are, for dangers of one kind."""
    begins = show_temperature(max(danger.begins_c for danger in found), units)
    certain = show_temperature(min(danger.certain_c for danger in found), units)
    if all(danger.share == 0 for danger in found):
        return f"Soft shoots and flowers begin to die near {begins}; at {certain} most are gone."
    if any(danger.share < 1 for danger in found):
        return f"Shoots begin to die near {begins}; at {certain} all are gone, but most plants sprout again."
    return f"Losses begin near {begins}; at {certain} all are likely gone."
