"""The herbaceous, bulb and tender records against what growers and extension services publish.

Each row copies one published fact, restated, with its value as printed, its unit, and its publisher,
title and address. A row holds when the catalogue's range overlaps the published one. Several of the
sources are not those of the records, so that a record is not merely checked against itself.
"""

import re
from collections.abc import Callable

import pytest
from attrs import frozen

from cuttings.plants.catalogue import standard
from cuttings.plants.model import Division, Plant, Way
from cuttings.words import Method
from tests.published.facts import Source, Span, in_our_units


@frozen
class Fact:
    """One published range, as printed."""

    plant: str
    field: str
    low: float
    high: float
    unit: str
    source: Source

    @property
    def span(self) -> Span:
        return in_our_units(self.low, self.high, self.unit)


ISU_HOW_OFTEN = Source(
    "Iowa State University Extension",
    "How often can I divide perennials?",
    "https://hortnews.extension.iastate.edu/faq/how-often-can-i-divide-perennials",
)
ISU_LATE_SUMMER = Source(
    "Iowa State University Extension",
    "Which perennials can be divided in late summer?",
    "https://hortnews.extension.iastate.edu/faq/which-perennials-can-be-divided-late-summer",
)
ISU_STORE = Source(
    "Iowa State University Extension Store",
    "When to Divide Perennials",
    "https://doczz.net/doc/1329836/when-to-divide-perennials---extension-store",
)
ISU_FARMS = Source(
    "Iowa State University Extension (via Farms.com)",
    "Yard and Garden: Properly Dividing Perennials",
    "http://www.farms.com/news/yard-and-garden-properly-dividing-perennials-90383.aspx",
)
ISU_QC_TIMES = Source(
    "Iowa State University Extension (via Quad-City Times)",
    "Dividing perennials gives you free plants (2020)",
    "https://qctimes.com/lifestyles/home-and-garden/dividing-perennials-gives-you-free-plants/"
    "article_72f213e2-c9bb-5004-9147-ff808f3668e1.html",
)
ISU_BEARDED_IRIS = Source(
    "Iowa State University Extension",
    "When and how do you divide bearded irises?",
    "https://yardandgarden.extension.iastate.edu/faq/when-and-how-do-you-divide-bearded-irises",
)
ISU_PEONIES = Source(
    "Iowa State University Extension",
    "What is the proper way to divide peonies?",
    "https://hortnews.extension.iastate.edu/faq/what-proper-way-divide-peonies",
)
ISU_HOSTA = Source(
    "Iowa State University Extension",
    "Hosta (Hosta sp.)",
    "https://yardandgarden.extension.iastate.edu/encyclopedia/hosta-hosta-sp",
)
KANSAS_PEONIES = Source(
    "Kansas State University Extension",
    "Dividing Peonies",
    "https://www.ksuhortnewsletter.org/newsletters/dividing-peonies9530018",
)
KANSAS_DAYLILIES = Source(
    "K-State Research & Extension",
    "Gardening tips for upcoming months",
    "https://fstribune.com/story/1450830.html",
)
NDSU = Source(
    "North Dakota State University Extension, Cass County",
    "Vegetative Propagation of Perennials",
    "https://www.ag.ndsu.edu/hort/info/perennials/vegprop.htm",
)
UMN = Source(
    "University of Minnesota Extension Master Gardener (via WCTrib)",
    "Divide perennials when plant is not flowering (2023)",
    "https://www.wctrib.com/lifestyle/"
    "master-gardener-sue-morris-general-rule-is-divide-perennials-when-plant-is-not-flowering",
)
UMN_DAYLILIES = Source(
    "Ask Extension (answer citing University of Minnesota Extension)",
    "Best time to divide day lilies and hostas (2014)",
    "https://ask.extension.org/questions/216335",
)
UMN_ANNUALS = Source(
    "University of Minnesota Extension (via Echo Press)",
    "Take cuttings from your favorite annuals (2016)",
    "http://www.echopress.com/country/extension/"
    "4109229-extension-column-now-time-take-cuttings-your-favorite-annuals",
)
UW_DANE = Source(
    "UW-Madison Extension, Dane County (via Madison.com)",
    "Garden calendar, week of Oct 2 2022",
    "https://madison.com/lifestyles/home-and-garden/garden-calendar-for-the-week-of-oct-2-2022/"
    "article_cdebf131-d534-5e71-b7cb-fc2bfa6509da.html",
)
UGA = Source(
    "Gwinnett County (GA) Master Gardeners / UGA Extension",
    "Home Propagation of Plants: Division and Layering",
    "http://www.gwinnettmastergardeners.com/2009/02",
)
MGNV = Source(
    "Master Gardeners of Northern Virginia (Virginia Cooperative Extension)",
    "Dividing Native Perennials",
    "https://mgnv.org/mg-virtual-classroom/native-plants-garden-video-2023/dividing-native-perennials/",
)
BULBS = Source(
    "University of Illinois and Purdue (quoted on verydays.com)",
    "Spring bulb planting",
    "https://verydays.com/articles_0jfmga.html",
)
ILLINOIS_SNOWDROPS = Source(
    "University of Illinois Extension, Boone and Winnebago counties",
    "Spring Bulbs",
    "https://extension.illinois.edu/hortihints/0208c.html",
)
DANE_BEARDED_IRIS = Source(
    "UW-Extension Dane County Master Gardeners, Teaching Garden",
    "Iris germanica 'Fantastic Blue'",
    "https://tgplpinfo.blogspot.com",
)
CHICAGO_MUSCARI = Source(
    "Chicago Botanic Garden",
    "Muscari szovitsianum, grape hyacinth",
    "https://www.chicagobotanic.org/plantcollections/plantfinder/muscari_szovitsianum--grape_hyacinth",
)
UVM_NARCISSUS = Source(
    "University of Vermont, Plant and Soil Science 123", "Narcissus", "http://pss.uvm.edu/pss123/bulnarc.html"
)
AFRICAN_VIOLETS = Source(
    "National Gardening Association citing African Violet Society of America",
    "African violet Q&A (2007)",
    "https://garden.org/frogs/view/50051/",
)
PELARGONIUM = Source(
    "Master Gardener column (NewsBreak, 2021)",
    "Over-wintering geraniums from cuttings",
    "https://www.newsbreak.com/news/2399026760737/"
    "master-gardener-fall-is-the-best-time-to-till-garden-soil-with-next-growing-season-in-mind",
)
MISSOURI_HERBS = Source(
    "University of Missouri Extension",
    "Growing Herbs at Home (G6470)",
    "http://www.mcttelecom.com/~planter/garden/propagating.html",
)
MICHIGAN_PHLOX = Source(
    "Michigan State University Extension (copy on butterflywebsite.com)",
    "Phlox--Garden Phlox, Hardy Phlox",
    "https://butterflywebsite.com/articles/msu/01700691.html",
)
MICHIGAN_COLEUS = Source(
    "Michigan Gardener",
    "Tips on propagating Coleus and Plectranthus",
    "http://www.michigangardener.com/tips-on-propagating-coleus-and-plectranthus/",
)
ZONE10 = Source(
    "zone10.com", "Best time to root cuttings", "https://zone10.com/best-time-to-root-cuttings.html"
)
OHIO_MISCANTHUS = Source(
    "Ohio State University", "Plant page: Miscanthus sinensis", "https://u.osu.edu/plants/miscanthus-sinensis"
)
OKLAHOMA_PANICUM = Source(
    "Oklahoma State University Extension",
    "Switchgrass, Panicum virgatum cultivars",
    "https://extension.okstate.edu/programs/oklahoma-proven/plant-profiles/switchgrass.html",
)

FACTS = (
    # How often: years between divisions.
    Fact("Iris sibirica", "every_years", 4, 6, "years", ISU_HOW_OFTEN),
    Fact("Hosta", "every_years", 2, 4, "years", ISU_HOW_OFTEN),
    Fact("Phlox paniculata", "every_years", 2, 4, "years", ISU_HOW_OFTEN),
    Fact("Hemerocallis", "every_years", 2, 4, "years", ISU_HOW_OFTEN),
    Fact("Hemerocallis", "every_years", 3, 4, "years", UMN_DAYLILIES),
    Fact("Hemerocallis", "every_years", 3, 4, "years", KANSAS_DAYLILIES),
    Fact("Iris germanica", "every_years", 3, 5, "years", ISU_BEARDED_IRIS),
    Fact("Iris germanica", "every_years", 3, 4, "years", DANE_BEARDED_IRIS),
    Fact("Paeonia lactiflora", "every_years", 50, 50, "years", ISU_QC_TIMES),
    Fact("Monarda didyma", "every_years", 2, 3, "years", ISU_FARMS),
    Fact("Symphyotrichum novae-angliae", "every_years", 2, 3, "years", ISU_STORE),
    Fact("Chrysanthemum × morifolium", "every_years", 2, 3, "years", ISU_STORE),
    Fact("Achillea millefolium", "every_years", 3, 5, "years", NDSU),
    Fact("Astilbe", "every_years", 3, 4, "years", NDSU),
    Fact("Bergenia", "every_years", 3, 4, "years", NDSU),
    Fact("Lamprocapnos spectabilis", "every_years", 3, 5, "years", NDSU),
    Fact("Aquilegia", "every_years", 3, 5, "years", NDSU),
    Fact("Agastache", "every_years", 3, 4, "years", MGNV),
    Fact("Veronicastrum virginicum", "every_years", 4, 5, "years", MGNV),
    # When: the months of division that the source names; a season is taken as its usual months.
    Fact("Paeonia lactiflora", "division_months", 9, 9, "months", ISU_PEONIES),
    Fact("Paeonia lactiflora", "division_months", 9, 10, "months", UW_DANE),
    Fact("Iris germanica", "division_months", 7, 8, "months", ISU_BEARDED_IRIS),
    Fact("Iris sibirica", "division_months", 9, 10, "months", UMN),
    Fact("Papaver orientale", "division_months", 7, 8, "months", UGA),
    Fact("Hosta", "division_months", 9, 9, "months", ISU_LATE_SUMMER),
    Fact("Hemerocallis", "division_months", 9, 9, "months", ISU_LATE_SUMMER),
    Fact("Phlox paniculata", "division_months", 9, 9, "months", ISU_LATE_SUMMER),
    Fact("Pulmonaria officinalis", "division_months", 9, 9, "months", ISU_LATE_SUMMER),
    Fact("Geranium", "division_months", 9, 9, "months", ISU_LATE_SUMMER),
    Fact("Heuchera", "division_months", 8, 9, "months", ISU_STORE),
    Fact("Monarda didyma", "division_months", 3, 4, "months", ISU_FARMS),
    Fact("Hylotelephium spectabile", "division_months", 3, 4, "months", ISU_FARMS),
    Fact("Dryopteris", "division_months", 3, 4, "months", UGA),
    Fact("Delphinium", "division_months", 3, 4, "months", UGA),
    Fact("Pachysandra", "division_months", 8, 9, "months", MGNV),
    # How deep.
    Fact("Paeonia lactiflora", "depth", 1, 2, "inches", KANSAS_PEONIES),
    Fact("Paeonia lactiflora", "depth", 1.5, 2, "inches", UW_DANE),
    Fact("Hemerocallis", "depth", 1, 1, "inches", UMN_DAYLILIES),
    Fact("Tulipa", "depth", 6, 8, "inches", BULBS),
    Fact("Narcissus", "depth", 6, 8, "inches", BULBS),
    Fact("Narcissus", "depth", 2, 3, "inches", UVM_NARCISSUS),
    Fact("Lilium", "depth", 6, 8, "inches", BULBS),
    Fact("Hyacinthus orientalis", "depth", 6, 8, "inches", BULBS),
    Fact("Galanthus nivalis", "depth", 3, 3, "inches", BULBS),
    Fact("Galanthus nivalis", "depth", 3, 3, "inches", ILLINOIS_SNOWDROPS),
    Fact("Crocus", "depth", 3, 3, "inches", BULBS),
    Fact("Muscari", "depth", 3, 3, "inches", CHICAGO_MUSCARI),
    # How long the cutting.
    Fact("Brunnera macrophylla", "root-cutting length", 1.5, 1.5, "inches", NDSU),
    Fact("Lamprocapnos spectabilis", "root-cutting length", 3, 6, "inches", NDSU),  # "three inches or more"
    Fact("Campanula", "softwood-cutting length", 2, 3, "inches", NDSU),
    Fact("Chrysanthemum × morifolium", "softwood-cutting length", 3, 3, "inches", NDSU),
    Fact("Phlox paniculata", "root-cutting length", 2, 2, "inches", MICHIGAN_PHLOX),
    Fact("Eriocapitella hupehensis", "root-cutting length", 1, 3, "inches", ZONE10),
    Fact("Papaver orientale", "root-cutting length", 3, 3, "inches", ZONE10),
    Fact("Thymus", "softwood-cutting length", 3, 5, "inches", MISSOURI_HERBS),
    Fact("Pelargonium", "softwood-cutting length", 4, 4, "inches", PELARGONIUM),
    Fact("Coleus scutellarioides", "softwood-cutting length", 4, 6, "inches", MICHIGAN_COLEUS),
    Fact("Streptocarpus ionanthus", "leaf-cutting length", 1, 2, "inches", AFRICAN_VIOLETS),
    # How long to root; "one month" is taken as four to five weeks.
    Fact("Pelargonium", "softwood-cutting rooting", 4, 6, "weeks", UMN_ANNUALS),
    Fact("Coleus scutellarioides", "softwood-cutting rooting", 4, 6, "weeks", UMN_ANNUALS),
    Fact("Begonia", "softwood-cutting rooting", 4, 6, "weeks", UMN_ANNUALS),
    Fact("Plectranthus", "softwood-cutting rooting", 4, 6, "weeks", UMN_ANNUALS),
    Fact("Ipomoea batatas", "softwood-cutting rooting", 4, 6, "weeks", UMN_ANNUALS),
    Fact("Streptocarpus ionanthus", "leaf-cutting rooting", 4, 5, "weeks", AFRICAN_VIOLETS),
    # How hardy and how big.
    Fact("Hosta", "zones", 3, 8, "zones", ISU_HOSTA),
    Fact("Hosta", "spread", 0.5, 5, "feet", ISU_HOSTA),
    Fact("Miscanthus sinensis", "height", 4, 7, "feet", OHIO_MISCANTHUS),
    Fact("Panicum virgatum", "height", 3, 6, "feet", OKLAHOMA_PANICUM),
    Fact("Panicum virgatum", "zones", 5, 9, "zones", OKLAHOMA_PANICUM),
    Fact("Narcissus", "height", 6, 24, "inches", UVM_NARCISSUS),
)

LEFT_ALONE = (
    ("Aquilegia", UMN),
    ("Eriocapitella hupehensis", UMN),  # listed there as anemone
    ("Baptisia", ISU_FARMS),
)


def plant_named(name: str) -> Plant:
    plant = standard().find(name).plant
    assert plant is not None, f"{name} is not in the catalogue"
    return plant


def division_of(plant: Plant) -> Division:
    assert plant.division is not None, f"{plant.name} is not divided"
    return plant.division


def way_of(plant: Plant, method: str) -> Way:
    way = plant.way(Method(method))
    assert way is not None, f"{plant.name} has no {method}"
    return way


def depths(plant: Plant) -> list[Span]:
    """The depths its planting sentence names, in metres; each ``a to b cm`` or ``a cm`` is one."""
    found = re.findall(r"(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? cm", plant.planting_depth)
    return [(float(low) / 100, float(high or low) / 100) for low, high in found]


def held(plant: Plant, field: str) -> list[Span | None]:
    """The catalogue's ranges for a field; months count one by one."""
    if field == "depth":
        return [*depths(plant)]
    if field == "division_months":
        return [(month, month) for month in division_of(plant).months]
    simple: dict[str, Callable[[], Span | None]] = {
        "every_years": lambda: division_of(plant).every_years,
        "zones": lambda: plant.zones,
        "height": lambda: plant.height_m,
        "spread": lambda: plant.spread_m,
    }
    if field in simple:
        return [simple[field]()]
    method, what = field.split(" ")
    way = way_of(plant, method)
    return [way.length_m if what == "length" else way.rooting_days]


def overlap(one: Span, other: Span) -> bool:
    """Whether two ranges share a value, give or take the rounding of inches to whole centimetres."""
    slack = 0.02 * max(*one, *other)
    return one[0] <= other[1] + slack and other[0] <= one[1] + slack


@pytest.mark.parametrize(
    "fact", [pytest.param(fact, id=f"{fact.plant} {fact.field} {fact.source.publisher}") for fact in FACTS]
)
def test_the_record_overlaps_what_is_published(fact: Fact) -> None:
    spans = [span for span in held(plant_named(fact.plant), fact.field) if span is not None]
    assert spans, f"{fact.plant} says nothing of {fact.field}"
    assert any(overlap(span, fact.span) for span in spans), (
        f"{fact.plant} {fact.field}: {spans} against {fact.low} to {fact.high} {fact.unit}, {fact.source}"
    )


@pytest.mark.parametrize(
    ("name", "source"),
    [pytest.param(name, source, id=f"{name} resents {source.publisher}") for name, source in LEFT_ALONE],
)
def test_a_plant_that_is_best_left_alone_says_so(name: str, source: Source) -> None:
    assert division_of(plant_named(name)).resents, source


def test_roots_in_pots_are_thought_harmed_no_warmer_than_a_trial_brought_them_through() -> None:
    """Journal of Environmental Horticulture (abstract): Controlled freezing of twenty-three container-grown
    herbaceous perennials, https://discovery.researcher.life/article/controlled-freezing-of-twenty-three-
    container-grown-herbaceous-perennials/df818cb72f2d3425a076d3c953c3afc9: still saleable after -8 C,
    Tiarella cordifolia; after -11 C, two phloxes."""
    survived = {"Tiarella cordifolia": -8.0, "Phlox": -11.0}
    for name, temperature in survived.items():
        plant = plant_named(name)
        assert plant.root_kill_c is None
        assert plant.root_harm_c is not None
        assert plant.root_harm_c <= temperature
