"""Mixes to strike and pot in: each recipe by parts of volume, what it is good for, and what is in it.

The first version of every recipe is without peat; the version with peat is kept beside it. Sources stand
beside the figures: a publisher and title where the proportions are published, ``common practice`` for those
that any grower would confirm, ``from memory`` for what nobody has checked.
"""

from collections.abc import Mapping

from attrs import frozen

from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY, Caution, Range
from cuttings.rules.caution import POTTING_MIX

ROCK_GARDEN = "Inter Gardening: Growing Mediums for Alpines and Rock Garden Plants"
"""https://intergardening.co.uk/practical/planting/alpines/growing-mediums.html"""
PENN_STATE = "Penn State Extension (via Federated Garden Clubs of Nebraska): Homemade Potting Media"
"""https://www.federatedgardenclubsofnebraskainc.com/homemade-potting-mix"""
PEAT_FREE = "Gardeners' World (quoted on gardenandgossip.org): How to make your own peat-free compost"
"""https://gardenandgossip.org/portal.php?page=70"""
MEDIUM_TEXTURE = "Better Homes and Gardens: Soil recipe"
"""http://www.bhg.com/advice/gardening/soil/soil-recipe/"""
SEEDLING_MIX = "Organic Gardening: Potting Soil Recipes"
"""http://www.organicgardening.com/learn-and-grow/potting-soil-recipes"""
PEAT_LITE = "Acquaah, Horticulture: Principles and Practices, table 4-11: Cornell Peat-Lite Mix A"
"""https://www.yumpu.com/en/document/view/59981442/horticulture-principles-and-practices/172"""
LOAM_BASED = "cactusexpert.org: Soil or no soil, of the John Innes composts"
"""https://www.cactusexpert.org/world-of-succulents/soil-or-nosoil.html"""
BOG = "Elio's Garden: Recommended Best Soil to Use for Carnivorous Plants"
"""https://eliosgarden.com/recommended-best-soil-to-use-for-carnivorous-plants/"""
RHODODENDRONS = "Journal of the American Rhododendron Society 38(3): Notes on Growing Media for Rhododendrons"
"""https://scholar.lib.vt.edu/ejournals/JARS/v38n3/v38n3-rouse.htm"""
RUTGERS = "Rutgers NJAES: Making a plant growing mix, 2015"
"""https://nj-vegetable-crops-online-resources.rutgers.edu/2015/04/making-a-plant-growing-mix"""

DRY_DUST = Caution(
    "dust",
    "Perlite, vermiculite and dry sand make a dust that harms the lungs: wet them in the bag before you "
    "pour, work out of doors with your back to the wind, and wear a dust mask. What the bag says goes first.",
    f"US CDC / NIOSH: Perlite; the rest is {COMMON_PRACTICE}",
)
SPHAGNUM_SCRATCHES = Caution(
    "skin",
    "Sphagnum moss can carry a fungus that enters through scratches: wear gloves and long sleeves, and ask a "
    "doctor about a sore that does not heal.",
    FROM_MEMORY,
)
GARDEN_HEAP = Caution(
    "spores",
    "A garden heap breathes out mould spores when it is turned: keep your face away, and leave it to others "
    "if you have asthma or weak lungs.",
    FROM_MEMORY,
)
LIME_BURNS = Caution(
    "irritant",
    "Ground limestone stings eyes and lungs: gloves and glasses, and follow the bag.",
    COMMON_PRACTICE,
)


@frozen
class Material:
    """Something that mixes are made of. ``called`` are other names it goes by; ``note``: what to look for."""

    name: str
    note: str
    called: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()


COIR = Material(
    "coir", "Soaked and rinsed; cheap coir can be salty.", ("coco coir", "coconut fibre", "cocopeat")
)
BARK = Material("composted bark", "Fine, composted or well aged, never fresh.", ("bark", "pine bark"))
PERLITE = Material("perlite", "Coarse or medium.", cautions=(DRY_DUST,))
VERMICULITE = Material("vermiculite", "Medium.", cautions=(DRY_DUST,))
SAND = Material(
    "sharp sand", "Coarse and washed; not builder's or beach sand.", ("sand", "coarse sand"), (DRY_DUST,)
)
LIME_FREE_SAND = Material(
    "lime-free sand",
    "Washed quartz: it must not fizz in vinegar.",
    ("sand", "sharp sand", "silica sand", "quartz sand", "lime-free sharp sand"),
    (DRY_DUST,),
)
GRIT = Material("grit", "Washed, 3 to 6 mm.", ("horticultural grit", "chippings", "gravel"))
LEAF_MOULD = Material("leaf mould", "Two years old and crumbly.", ("leafmould", "leaf mold", "leafmold"))
COMPOST = Material("garden compost", "Ripe and sieved.", ("compost", "home-made compost"), (GARDEN_HEAP,))
LOAM = Material("loam", "Sieved; sterilised, or weeds come with it.", ("topsoil", "garden soil", "soil"))
SPHAGNUM = Material(
    "sphagnum moss",
    "Long-fibred and farmed, not dug from a bog.",
    ("sphagnum", "moss"),
    (SPHAGNUM_SCRATCHES,),
)
PEAT = Material("peat", "Moss peat, wetted the day before.", ("peat moss", "moss peat"))

MATERIALS = (
    COIR, BARK, PERLITE, VERMICULITE, SAND, LIME_FREE_SAND, GRIT, LEAF_MOULD, COMPOST, LOAM, SPHAGNUM, PEAT,
)  # fmt: skip


@frozen
class Part:
    """So many parts of a material, by volume."""

    material: Material
    parts: int


@frozen(kw_only=True)
class Recipe:
    """A mix. ``ph`` is where it settles, low and high; ``peat`` is the version with peat."""

    name: str
    purpose: str
    good_for: str
    parts: tuple[Part, ...]
    source: str
    drainage: str
    ph: Range
    ph_source: str
    ph_note: str
    peat: tuple[Part, ...]
    peat_source: str
    feeding: str
    limed_peat: bool = False
    """Whether the peat version needs ground limestone."""

    def version(self, *, with_peat: bool = False) -> tuple[Part, ...]:
        return self.peat if with_peat else self.parts

    def version_source(self, *, with_peat: bool = False) -> str:
        return self.peat_source if with_peat else self.source

    def cautions(self, *, with_peat: bool = False) -> tuple[Caution, ...]:
        """What can hurt the one who mixes it, each thing once; what holds for every mix stands first."""
        of_parts = [each for part in self.version(with_peat=with_peat) for each in part.material.cautions]
        lime = [LIME_BURNS] if with_peat and self.limed_peat else []
        return tuple(dict.fromkeys([POTTING_MIX, *of_parts, *lime]))


LIMED = "Peat is sour: ground limestone goes with it, about 5 lb to the cubic yard (3 g to the litre)."
"""The amount: ``PEAT_LITE``."""

RECIPES: Mapping[str, Recipe] = {
    recipe.name: recipe
    for recipe in (
        Recipe(
            name="striking",
            purpose="Open and poor, so that air reaches the cut end while it roots.",
            good_for="cuttings of every kind, and leaves; pot them on once they have rooted",
            parts=(Part(COIR, 1), Part(PERLITE, 1)),
            source=f"{PENN_STATE}, with coir for the peat as is {COMMON_PRACTICE}",
            drainage="It runs through within seconds, and the mix stays moist; do not press it down.",
            ph=(5.5, 6.5),
            ph_source=FROM_MEMORY,
            ph_note="Slightly sour; no lime is needed for so short a stay.",
            peat=(Part(PEAT, 1), Part(PERLITE, 1)),
            peat_source=PENN_STATE,
            feeding="There is no food in it, and none is wanted before there are roots.",
        ),
        Recipe(
            name="potting",
            purpose="Holds water and food for a year of growth in a pot.",
            good_for="most shrubs, perennials and climbers once they have rooted, and divisions",
            parts=(Part(COIR, 3), Part(COMPOST, 1), Part(LOAM, 1), Part(PERLITE, 1)),
            source=PEAT_FREE,
            drainage="It drains well; empty saucers that stay full.",
            ph=(6.0, 6.5),
            ph_source=f"{RUTGERS}, for a mix with peat; without it {FROM_MEMORY}",
            ph_note="About as most plants want it; compost from a limy garden lifts it.",
            peat=(Part(PEAT, 2), Part(BARK, 1), Part(PERLITE, 1)),
            peat_source=MEDIUM_TEXTURE,
            feeding="Lightly, once new leaves grow.",
            limed_peat=True,
        ),
        Recipe(
            name="gritty",
            purpose="Lets water straight through, for roots that rot where it stands.",
            good_for="rosemary, lavender, thyme, silver leaves and dwarf bulbs",
            parts=(Part(LOAM, 1), Part(COIR, 1), Part(GRIT, 1)),
            source=ROCK_GARDEN,
            drainage="It runs out at once. The mix is heavy, so small pots stand firm.",
            ph=(6.5, 7.5),
            ph_source=FROM_MEMORY,
            ph_note="Near neutral; limestone grit does no harm here.",
            peat=(Part(LOAM, 1), Part(PEAT, 1), Part(GRIT, 1)),
            peat_source=ROCK_GARDEN,
            feeding="Once in spring; more makes soft growth.",
        ),
        Recipe(
            name="acid",
            purpose="Without lime, for plants that yellow where there is any.",
            good_for="rhododendron, azalea, camellia, heathers, pieris and blueberry",
            parts=(Part(BARK, 2), Part(LEAF_MOULD, 2), Part(LIME_FREE_SAND, 1)),
            source=ROCK_GARDEN,
            drainage="It drains freely, yet the mix must not dry out, for it is slow to take up water again.",
            ph=(4.5, 5.5),
            ph_source=RHODODENDRONS,
            ph_note="No lime, no limestone grit, no mushroom compost, no wood ash; water with rain where the "
            "tap is hard.",
            peat=(Part(PEAT, 4), Part(LIME_FREE_SAND, 1)),
            peat_source=ROCK_GARDEN,
            feeding="One made for lime-haters.",
        ),
        Recipe(
            name="alpine",
            purpose="Mostly stone, for cushions and rock plants that hate a wet winter.",
            good_for="saxifrage, dianthus, thrift, sedum and houseleek in pots and troughs",
            parts=(Part(LOAM, 1), Part(LEAF_MOULD, 1), Part(GRIT, 3)),
            source=ROCK_GARDEN,
            drainage="It runs out at once; finish with a finger of grit round the neck of the plant.",
            ph=(6.5, 7.5),
            ph_source=FROM_MEMORY,
            ph_note="Use lime-free grit for gentians and other lime-haters.",
            peat=(Part(LOAM, 1), Part(PEAT, 1), Part(GRIT, 3)),
            peat_source=ROCK_GARDEN,
            feeding="Hardly any.",
        ),
        Recipe(
            name="bog",
            purpose="Sour, poor and always wet, for plants of the bog.",
            good_for="pitcher plants, sundews, cranberry and bog orchids",
            parts=(Part(SPHAGNUM, 1), Part(PERLITE, 1)),
            source=BOG,
            drainage="Stand the pot in a saucer of rain water; it should never dry.",
            ph=(3.5, 5.0),
            ph_source=FROM_MEMORY,
            ph_note="Rain or distilled water only; tap water brings lime.",
            peat=(Part(PEAT, 1), Part(LIME_FREE_SAND, 1)),
            peat_source=BOG,
            feeding="Never at the roots: it kills them.",
        ),
        Recipe(
            name="seedlings",
            purpose="Fine and gentle, for small roots that have just been lifted.",
            good_for="self-sown seedlings, seed, and pricking out",
            parts=(Part(COIR, 2), Part(COMPOST, 2), Part(PERLITE, 1)),
            source=SEEDLING_MIX,
            drainage="It drains well and stays moist; sieve it through a mesh of 6 mm.",
            ph=(6.0, 6.5),
            ph_source=f"{RUTGERS}, for a mix with peat; without it {FROM_MEMORY}",
            ph_note="About as most plants want it.",
            peat=(Part(PEAT, 1), Part(VERMICULITE, 1)),
            peat_source=PEAT_LITE,
            feeding="Compost feeds it for a month; without any it wants a weak feed from the first leaves.",
            limed_peat=True,
        ),
        Recipe(
            name="loam",
            purpose="Heavy and lasting, for what stays in a big pot for years.",
            good_for="shrubs and small trees in tubs, and mother plants kept in pots",
            parts=(Part(LOAM, 7), Part(LEAF_MOULD, 3), Part(SAND, 2)),
            source=f"{LOAM_BASED}, with leaf mould for the peat as is {COMMON_PRACTICE}",
            drainage="It drains well as long as the loam is not clay; too heavy for roof and balcony.",
            ph=(6.0, 6.8),
            ph_source=FROM_MEMORY,
            ph_note="The published mix settles near 6.5; that of your loam decides.",
            peat=(Part(LOAM, 7), Part(PEAT, 3), Part(SAND, 2)),
            peat_source=LOAM_BASED,
            feeding="From the second spring on.",
            limed_peat=True,
        ),
    )
}  # fmt: skip


def recipe_called(text: str) -> Recipe:
    """The recipe of a name, without case.

    Raises:
        ValueError: there is no such recipe; the sentence names those there are.
    """
    name = text.strip().casefold().removesuffix(" mix")
    if name not in RECIPES:
        raise ValueError(f"'{text}' is none of: {', '.join(RECIPES)}.")
    return RECIPES[name]


WETTING = (
    "As you mix, a little at a time, until a squeezed handful holds together and hardly drips; dry "
    "mix sheds water and makes dust."
)
"""Common practice."""

FILLING = (
    "To a finger's breadth below the rim; tap the pot down once, do not press, and top up after the "
    "first watering."
)
"""Common practice."""
