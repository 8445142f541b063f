"""How stems stand when a cold night comes, and what more can be put round them before dusk.

What a shelter adds is in degrees Celsius over the forecast low.
"""

from enum import StrEnum

from attrs import evolve, frozen

from cuttings.climate.climate import Climate
from cuttings.plants.model import COMMON_PRACTICE, Caution, Plant
from cuttings.rules.advice import Advice
from cuttings.rules.seasons import is_hardy
from cuttings.units import fahrenheit_difference

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


FRAME_C: Warmth = (fahrenheit_difference(5.0), fahrenheit_difference(10.0))
"""What a closed frame adds (``MISSOURI``)."""

EXTRA_COVER_C = -7.0
"""The forecast from which a frame wants more over it than its own lid (``TORONTO``)."""

CLOTH_C: Warmth = (fahrenheit_difference(2.0), fahrenheit_difference(5.0))
"""What a sheet over a plant adds (``TEXAS``)."""

WRAPPED_C: Warmth = (3.0, 3.0)

BLANKETED_C: Warmth = (3.0, 3.0)
"""What wrapping and covering grouped pots adds, and blankets or straw over a closed frame; from memory.
With what the mix holds by itself, wrapped pots lie within the 4 to 7 C of ``MEDIUM_STUDY``."""


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

COVER_IF_TIME = evolve(COVER, do="Cover if you can: {}")

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
