"""Cleanliness at the bench: what frees pots, blades and benches of disease, how strong, and for how long.

Litres, minutes, degrees Celsius and percent. The product's label and local rules come first; where products
differ from maker to maker, no figure is given but the label's.
"""

from attrs import frozen

from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Caution
from cuttings.units import fahrenheit_to_celsius

IOWA_STATE = "Iowa State University Extension: How do I sanitize my pruners to prevent the spread of disease?"
"""https://hortnews.extension.iastate.edu/faq/how-do-i-sanitize-my-pruners-prevent-spread-disease"""

PENN_STATE = "Penn State Extension: Disinfecting Tools, Equipment, Pots, Flats and Benches"
"""https://extension.psu.edu/disinfecting-tools-equipment-pots-flats-and-benches"""

PHYTOSPHERE = "phytosphere.com: Sanitizing tools and surfaces"
"""Phytosanitary Procedures for BMPs for Producing Clean Nursery Stock 2.3,
http://phytosphere.com/BMPsnursery/phytosan2_3.htm"""

PURDUE = "Purdue University, Vegetable Crops Hotline: Fall Clean and Sanitize, 2017"
"""https://vegcropshotline.org/article/fall-clean-and-sanitize/"""

UMASS = "UMass Extension: Cleaning and Disinfecting the Greenhouse"
"""https://ag.umass.edu/fact-sheets/cleaning-disinfecting-greenhouse"""

KENT = "Kent Cooperative Extension: Disinfectants for Greenhouses and Propagation Houses, 2008"
"""http://kentcoopextension.blogspot.com/2008/10/greenhouse-and-nursery.html"""

HOT_WATER = "stuewe.com: nursery notes of January 2016, after Dumroese and others, 2002"
"""http://www.stuewe.com/blog/2016/01/ The page's own Celsius, 40 to 60, is not its 158 to 176 °F; the
Fahrenheit is what the rest of the page goes by."""

CDC = "Centers for Disease Control and Prevention: Cleaning and Disinfecting Your Facility, 2020"
"""Sheet CS316270A, as kept at https://records.co.kittitas.wa.us/Weblink/DocView.aspx?id=5253823"""

POISON = "magnifiedts.com: Dangerous Gases in the Home, 2016; common practice"
"""What bleach gives off with ammonia and with acids, http://www.magnifiedts.com/dangerous-gases-in-the-home/"""

BLEACH_IN = 10
"""One part of household bleach in so many parts of soak, that is one to nine of water; ``IOWA_STATE``,
``PENN_STATE``. Some sheets of the University of Florida ask for one in four; the weaker is the usual."""

BLEACH_PERCENT = 5.25
"""Sodium hypochlorite in the bleach that is meant; ``PHYTOSPHERE``, whose tenth of it is 0.525 %."""

BLEACH_MINUTES = 10
"""The least that pots and blades lie in it; ``IOWA_STATE``, ``PENN_STATE``."""

BLEACH_KEEPS_HOURS = 2
"""How long a soak once mixed is used; ``IOWA_STATE``, ``PURDUE``."""

ALCOHOL_PERCENT = (70, 90)
"""Ethyl or isopropyl alcohol that blades are wetted with; ``PHYTOSPHERE``. 70 % is what shops sell."""

WATER_C = (fahrenheit_to_celsius(165), fahrenheit_to_celsius(185))
WATER_MINUTES = 3
"""Hot water that cleans pots, and the longest of the times told; ``HOT_WATER`` has 15 to 30 seconds for hard
plastic, 30 to 90 for foam, and more than 3 minutes where it is 158 to 176 °F."""

STEAM_C = (fahrenheit_to_celsius(180), fahrenheit_to_celsius(200))
STEAM_MINUTES = 30
"""Steam or dry heat under a cover, for clay, wood and metal; ``PENN_STATE``."""

LEAST_PERCENT, MOST_PERCENT = 1.0, 20.0
"""What bleach for a household or a pool is sold at; from memory."""


@frozen
class Cleaner:
    """One way to clean: what for, how strong and how, each in words without their full stop.

    ``minutes`` is the least it takes, ``None`` where wetting is enough or the label tells; ``celsius`` is how
    hot it is.
    """

    name: str
    uses: str
    strength: str
    how: str
    source: str
    minutes: float | None = None
    celsius: tuple[float, float] | None = None


BLEACH = Cleaner(
    "household bleach",
    "pots, trays and hard benches",
    f"1 part in {BLEACH_IN - 1} parts of water",
    "Pour the bleach into the water, not the water into it; soak, then rinse well. Mix it anew after "
    f"{BLEACH_KEEPS_HOURS} hours. It eats steel: rinse and dry blades at once",
    f"{IOWA_STATE}; {PENN_STATE}",
    minutes=BLEACH_MINUTES,
)
ALCOHOL = Cleaner(
    "rubbing alcohol",
    "knives and secateurs",
    f"{ALCOHOL_PERCENT[0]} %, as it is sold",
    "Wipe or dip between plants and let it dry: no soak, no rinse. Against fire blight bleach is relied on",
    f"{IOWA_STATE}; {PENN_STATE}; {PHYTOSPHERE}",
)
PEROXIDE = Cleaner(
    "hydrogen peroxide, with or without peracetic acid",
    "benches, pots and trays",
    "as the label says",
    "Take a product that is labelled for it, not the peroxide for the skin",
    f"{PURDUE}; {KENT}",
)
QUATERNARY = Cleaner(
    "quaternary ammonium",
    "benches, pots, trays and tools",
    "as the label says",
    "Rinse soap off first, for it undoes some of them",
    f"{KENT}; {UMASS}",
)
HOT = Cleaner(
    "hot water",
    "plastic pots and trays",
    "",
    "Dip them under in a basket; foam warps where it is hotter",
    HOT_WATER,
    minutes=WATER_MINUTES,
    celsius=WATER_C,
)
STEAM = Cleaner(
    "steam or dry heat",
    "clay, wood and metal",
    "",
    "Under a cover that holds the heat",
    PENN_STATE,
    minutes=STEAM_MINUTES,
    celsius=STEAM_C,
)

CLEANERS = (BLEACH, ALCOHOL, PEROXIDE, QUATERNARY, HOT, STEAM)
"""What cleans, the usual first."""

WASH_FIRST = "Brush and wash off all soil and sap first; nothing cleans through dirt."
WASH_SOURCE = f"{PENN_STATE}; {UMASS}"

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "gas",
        "Never mix bleach with ammonia, vinegar or another acid, alcohol, peroxide or any other cleaner: "
        "it gives off gas that can kill.",
        f"{CDC}; {POISON}",
    ),
    Caution(
        "skin",
        "Wear gloves and cover your eyes, work outdoors or with the windows open, and read the label first.",
        f"{CDC}; the eyes, {COMMON_PRACTICE}",
    ),
    Caution("fire", "Alcohol burns: no flame, spark or smoking near it.", COMMON_PRACTICE),
    Caution("scald", "Hot water and steam scald: long gloves, and tongs or a basket.", COMMON_PRACTICE),
    Caution(
        "plants",
        "Keep all of it off living plants, and rinse and air the pots before they are filled.",
        HOT_WATER,
    ),
    Caution(
        "children",
        "Keep it in its own bottle, away from children and animals, never in one for drink.",
        COMMON_PRACTICE,
    ),
    Caution(
        "disposal",
        "Get rid of the rest as the label and local rules say; never in a pond, a ditch or a storm drain.",
        COMMON_PRACTICE,
    ),
)
"""The usual cautions; the product's label and local rules come first."""

REMINDER = (
    f"Blades in {ALCOHOL_PERCENT[0]} % alcohol; used pots {BLEACH_MINUTES} minutes in 1 part bleach to "
    f"{BLEACH_IN - 1} of water, and nothing else in it."
)
"""One line for the first job of a day at the bench."""
REMINDER_SOURCE = IOWA_STATE


@frozen
class Soak:
    """The parts of a soak in litres, and the percent of sodium hypochlorite in it."""

    bleach_l: float
    water_l: float
    percent: float


def bleach_soak(litres: float, bleach_percent: float = BLEACH_PERCENT) -> Soak:
    """The bleach and the water for so many litres of soak, as strong as one part of ordinary bleach in ten.

    Args:
        bleach_percent: sodium hypochlorite in the bleach, as its label has it; stronger bleach takes less.

    Raises:
        ValueError: the volume is not above zero, or no bleach is that weak or that strong.
    """
    if not litres > 0:
        raise ValueError("A soak must be more than nothing.")
    if not LEAST_PERCENT <= bleach_percent <= MOST_PERCENT:
        raise ValueError(
            f"Bleach holds {LEAST_PERCENT:g} to {MOST_PERCENT:g} % of sodium hypochlorite; its label tells."
        )
    wanted = BLEACH_PERCENT / BLEACH_IN
    bleach = litres * wanted / bleach_percent
    return Soak(bleach, litres - bleach, wanted)


SOAK_SOURCE = f"{IOWA_STATE}; bleach of other strengths by proportion, {FROM_MEMORY}"
