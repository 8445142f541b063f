"""How much cold the parts of a plant stand: shoots and roots harden through autumn and soften in spring.

Temperatures are degrees Celsius at the part itself; ``rules.cold`` turns them into forecasts.
"""

from datetime import date
from functools import lru_cache

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.climate.zones import zone_limits_f
from cuttings.plants.model import Plant
from cuttings.rules.phases import dormancy
from cuttings.rules.seasons import HARDY_TO_ZONE, frosts, weeks
from cuttings.units import fahrenheit_to_celsius
from cuttings.words import PlantType

FREEZE_CLASSES = "Old Farmer's Almanac (via WNAW): First frost of the season in Massachusetts"
"""29 to 32 F kills tender plants only, 25 to 28 F is widely destructive, 24 F and less harms most plants,
https://wnaw.com/first-frost-of-the-season-in-massachusetts-coming-real-soon/"""

VERMONT = (
    "University of Vermont Extension (COH31): Herbaceous Perennials, Container Overwintering and Hardiness"
)
"""The same potted plant may die at 32 F in September and live through 7 F or less in January,
http://pss.uvm.edu/ppp/pubs/coh31hardy.htm"""

FREEZING_STUDY = (
    "Journal of Environmental Horticulture (abstract): "
    "Controlled freezing of twenty-three container-grown herbaceous perennials"
)
"""In February 15 of 23 potted perennials lived through -8 C; the weakest were still saleable at -5 C, and a
plant stops being saleable 3 to 6 C before it dies,
https://discovery.researcher.life/article/controlled-freezing-of-twenty-three-container-grown-herbaceous-perennials/df818cb72f2d3425a076d3c953c3afc9"""

ZONES = "United States Department of Agriculture: Plant Hardiness Zone Map"
"""Each zone's range of mean annual extreme minima; see ``cuttings.climate.zones``."""


@frozen
class Limits:
    """The temperatures of a part of a plant, degrees Celsius, from which stems begin to die and by which all
    have."""

    harm_c: float
    dead_c: float

    def towards(self, other: "Limits", share: float) -> "Limits":
        """These limits moved a share of the way to others, and never to warmer ones."""
        return Limits(
            self.harm_c + share * min(other.harm_c - self.harm_c, 0.0),
            self.dead_c + share * min(other.dead_c - self.dead_c, 0.0),
        )


FREEZING_C = 0.0
HARM_TO_DEATH_C = 3.0
"""Degrees Celsius between the first harm and a killing temperature (the lower figure of
``FREEZING_STUDY``). A killing temperature is read as the one that kills half, so all are dead as far below
it."""

TENDER_SHOOTS = Limits(FREEZING_C, fahrenheit_to_celsius(29.0))
SOFT_SHOOTS = Limits(fahrenheit_to_celsius(29.0), fahrenheit_to_celsius(24.0))
"""Shoots that never harden, and those of other plants in growth (``FREEZE_CLASSES``)."""

SOFT_GROWTH = Limits(fahrenheit_to_celsius(28.0), fahrenheit_to_celsius(24.0))
"""Forecasts from which settled hardy plants begin to lose soft shoots and flowers, and by which most have
(``FREEZE_CLASSES``, whose classes are those of forecasts). The plants themselves live."""

SOFT_ROOTS = Limits(FREEZING_C + HARM_TO_DEATH_C, FREEZING_C - HARM_TO_DEATH_C)
"""Roots and crowns in a pot that have not hardened: freezing kills them (``VERMONT``)."""

WINTER_ROOTS = Limits(-5.0, fahrenheit_to_celsius(7.0))
"""Roots and crowns in a pot at midwinter, for a plant whose own killing temperature is not known: the
weakest of ``FREEZING_STUDY`` were unharmed at the first, and the hardy ones of ``VERMONT`` live to the
second. Between them it makes 8 in 23 die at -8 C, as they did in ``FREEZING_STUDY``."""

TENDER_FROM_ZONE = 10
"""Plants hardy only from this zone on, where mean annual extreme minima are 30 F and more, meet no hard
frost at home and do not harden to it."""

HARDENING_WEEKS = 16
"""Weeks from the average first frost until roots are as hard as they get: September to January
(``VERMONT``)."""

SOFTENING_WEEKS = 8
SOFT_BEFORE_LAST_FROST_WEEKS = 2
"""Weeks over which they soften again, and how long before the average last frost they have; from memory."""


@lru_cache(maxsize=512)
def hardened(climate: Climate, on: date) -> float:
    """How far plants outdoors have hardened for the winter: 0 in the growing season, 1 at midwinter."""
    return max(_through_winter(climate, year, on) for year in (on.year - 1, on.year))


def _through_winter(climate: Climate, year: int, on: date) -> float:
    """The same, by the winter that begins with the autumn of a year."""
    first_frost = frosts(climate, year).first_autumn
    last_frost = frosts(climate, year if climate.southern else year + 1).last_spring
    rising = (on - first_frost).days / weeks(HARDENING_WEEKS).days
    soft_again = last_frost - weeks(SOFT_BEFORE_LAST_FROST_WEEKS)
    falling = (soft_again - on).days / weeks(SOFTENING_WEEKS).days
    return min(max(min(rising, falling), 0.0), 1.0)


@lru_cache(maxsize=512)
def in_growth(climate: Climate, on: date) -> bool:
    """Whether hardy plants outdoors are in growth: from bud break to leaf fall."""
    rests = (dormancy(climate, year) for year in (on.year - 1, on.year))
    return not any(opens <= on < closes for opens, closes in rests)


def is_frost_tender(plant: Plant) -> bool:
    """Whether any frost kills it, however slowly autumn came."""
    warm = plant.zones is not None and plant.zones[0] >= TENDER_FROM_ZONE
    return warm or plant.type is PlantType.TENDER_PERENNIAL


def home_zone(plant: Plant, climate: Climate) -> int:
    """The coldest zone it is hardy to; the garden's own for a plant whose zones nobody has entered."""
    return plant.zones[0] if plant.zones is not None else climate.zone_number or HARDY_TO_ZONE


def coldest_night_c(zone: int) -> float:
    """The mean coldest night of the cold end of a zone, degrees Celsius (``ZONES``)."""
    return fahrenheit_to_celsius(zone_limits_f(str(zone))[0])


def shoot_limits(plant: Plant, climate: Climate, hard: float) -> Limits:
    """What its shoots stand when they have hardened so far; hard ones, their zone's mean coldest night."""
    if is_frost_tender(plant):
        return TENDER_SHOOTS
    coldest = coldest_night_c(home_zone(plant, climate))
    return SOFT_SHOOTS.towards(Limits(coldest + HARM_TO_DEATH_C, coldest), hard)


def root_limits(plant: Plant, hard: float) -> Limits:
    """What its roots and crown in a pot stand when they have hardened so far: at most their own temperature
    of killing or of first harm, or the general ones, and never more than its shoots would."""
    if is_frost_tender(plant):
        return SOFT_ROOTS
    winter = WINTER_ROOTS
    harm_c = plant.root_harm_c
    if plant.root_kill_c is not None:
        harm_c = plant.root_kill_c + HARM_TO_DEATH_C
    if harm_c is not None:
        winter = Limits(harm_c, harm_c - 2 * HARM_TO_DEATH_C)
    elif plant.zones is not None:
        dead = max(winter.dead_c, coldest_night_c(plant.zones[0]))
        winter = Limits(max(winter.harm_c, dead + HARM_TO_DEATH_C), dead)
    return SOFT_ROOTS.towards(winter, hard)
