"""The woody records and the general figures of each method against what growers publish.

Each row copies one published fact, restated, with its value as printed, its unit, and its publisher,
title and address. A row holds when the catalogue's range overlaps the published one.
"""

import pytest
from attrs import frozen

from cuttings.plants.catalogue import standard
from cuttings.words import Method
from tests.published.facts import Source, Span, in_our_units


@frozen
class Fact:
    """One published range, as printed."""

    plant: str
    method: Method | None
    field: str
    low: float
    high: float
    unit: str
    source: Source

    @property
    def span(self) -> Span:
        return in_our_units(self.low, self.high, self.unit)

    def __str__(self) -> str:
        way = f" {self.method.value}" if self.method else ""
        return f"{self.plant}{way} {self.field}: {self.source.publisher}"


def florida(record: int) -> Source:
    return Source(
        "University of Florida / IFAS",
        f"Landscape Plant Propagation Information database, record sp{record}",
        f"https://hort.ifas.ufl.edu/database/lppi/sp{record}.shtml",
    )


def kwantlen(page: str, plant: str) -> Source:
    return Source(
        "Kwantlen Polytechnic University, School of Horticulture",
        f"Plant database: {plant}",
        f"https://plantdatabase.kpu.ca/{page}",
    )


YEW, HOLLY, ENGLISH_HOLLY, JUNIPER = florida(371), florida(189), florida(182), florida(216)
DWARF_JUNIPER, YAUPON, BURFORD, SWEET_VIBURNUM = florida(217), florida(191), florida(185), florida(397)
ALASKA_RIBES = Source(
    "University of Alaska Fairbanks, Georgeson Botanical Garden",
    "Propagating Currants and Gooseberries by Stem Cuttings and Layering",
    "",
)
LILAC = Source(
    "IPPS Proceedings 6:81-83 (quoted on hort.net)",
    "Lilac propagation record",
    "https://www.hort.net/lists/shadegardens/apr99/msg00187.html",
)
HELLERI = Source(
    "HortTechnology 22(6) (ASHS)",
    "Winter Stem Cutting Propagation of Heller's Japanese Holly with and without Auxin",
    "https://journals.ashs.org/horttech/view/journals/horttech/22/6/article-p771.xml",
)
BOXWOOD = Source(
    "American Boxwood Society (quoted on Google Answers)",
    "Boxwood propagation FAQ",
    "http://answers.google.com/answers/threadview/id/530936.html",
)
ROSEMARY_DAYS = Source(
    "Morehead State University (poster)",
    "Evaluation of cutting sizes and sticking times, rosemary",
    "https://scholarworks.moreheadstate.edu/celebration_posters_2025/85/",
)
ROSEMARY_TAKE = Source(
    "Flower and Ornamental Plants 2(1)",
    "Best cutting type and media for rooting rosemary",
    "http://flowerjournal.ir/article-1-122-en.html",
)
HERBS = Source(
    "University of Missouri Extension",
    "Growing Herbs at Home (G6470)",
    "http://www.mcttelecom.com/~planter/garden/propagating.html",
)
SNOWBERRY = Source(
    "USDA NRCS Bridger PMC / Native Plant Network",
    "Symphoricarpos albus protocol",
    "https://npn.rngr.net/npn/renderNPNProtocolDetails?selectedProtocolIds=caprifoliaceae-symphoricarpos-2796",
)
OSIER = Source(
    "USDA NRCS Pullman Plant Materials Center / Native Plant Network",
    "Cornus sericea protocol",
    "https://rngr.net/renderNPNProtocolDetails?selectedProtocolIds=cornaceae-cornus-3216",
)
WILLOW = Source(
    "USDA Forest Service RNGR / Native Plant Network",
    "Salix protocol",
    "https://rngr.net/renderNPNProtocolDetails?selectedProtocolIds=salicaceae-salix-3519",
)
LIVE_STAKES = Source(
    "USDA Forest Service MTDC",
    "Collecting Dormant Hardwood Cuttings for Western Riparian Restoration",
    "https://www.fs.usda.gov/t-d/pubs/htmlpubs/htm06242334/page01.htm",
)
SPIRAEA = Source(
    "USDI NPS Glacier National Park / Native Plant Network",
    "Spiraea splendens protocol",
    "https://npn.rngr.net/npn/renderNPNProtocolDetails?selectedProtocolIds=rosaceae-spiraea-315",
)
GRAPE = Source(
    "Mississippi State University (smallfruits.org)",
    "Grape Propagation",
    "https://smallfruits.org/2025/09/grape-propagation",
)
IOWA_GRAPE = Source(
    "Iowa State University Extension (via Washington Evening Journal)",
    "Yard and Garden: Propagating plants",
    "https://washington-ia.villagesoup.com/p/yard-and-garden-propagating-plants/954255",
)
BLUEBERRY = Source(
    "Refereed paper (AMiner abstract)",
    "Rooting ability of hardwood cuttings in highbush blueberry, different IBA",
    "https://www.aminer.cn/pub/5ce2d24eced107d4c64c34a2/rooting-ability-of-hardwood-cuttings-in-highbush-"
    "blueberry-vaccinium-corymbosum-l-using",
)
FIG = Source(
    "Sichuan forestry journal",
    "IBA concentration and time on rooting of fig hardwood cuttings",
    "https://www.sjfsci.com/cn/article/doi/10.16779/j.cnki.1003-5508.2017.01.016",
)
ROSE = Source(
    "Lincoln University, New Zealand (thesis)",
    "Rooting capacity of two rose species",
    "https://researcharchive.lincoln.ac.nz/handle/10182/3566",
)
COMMON_JUNIPER = Source(
    "International Journal of Plant Biology 16(2):57",
    "Vegetative propagation techniques for Juniperus communis",
    "https://www.mdpi.com/2037-0164/16/2/57",
)
VIBURNUM = Source(
    "UF/IFAS extension blog citing Dehgan 1989 (FSHS)",
    "Propagating Viburnum obovatum",
    "http://hortagent.blogspot.com/2011/04/propagating-viburnum-obovatum-walters.html",
)
ARKANSAS = Source(
    "University of Arkansas Cooperative Extension",
    "Reference Desk: Layering",
    "https://www.uaex.edu/yard-garden/in-the-garden/reference-desk/propagating/layering.aspx",
)
NORTH_CAROLINA = Source(
    "NC State Extension",
    "Plant Propagation by Layering: Instructions for the Home Gardener",
    "https://content.ces.ncsu.edu/publication/plant-propagation-by-layering-instructions-for-the-home-gardener",
)
FLORIDA_1955 = Source(
    "University of Florida Agricultural Extension Service",
    "Propagation of Ornamental Plants by Layering (1955)",
    "http://ufdc.ufl.edu/UF00084279/00001",
)
OREGON = Source(
    "Oregon State Extension 1957 (quoted on the Walden Effect blog)",
    "Stooling an apple rootstock",
    "https://www.waldeneffect.org/blog/Stooling_an_apple_rootstock/",
)
IOWA_SOFTWOOD = Source(
    "Iowa State University Extension",
    "Propagation of Shrubs from Softwood Cuttings (1997)",
    "https://hortnews.extension.iastate.edu/1997/5-23-1997/propshrub.html",
)
IOWA_HARDWOOD = Source(
    "Iowa State University Extension (via KCII Radio)",
    "Consider hardwood stem cuttings",
    "http://kciiradio.com/2017/02/consider-hardwood-stem-cuttings-to-begin-new-plants/",
)
NORTH_DAKOTA = Source(
    "North Dakota State University Extension, Cass County",
    "Vegetative Propagation of Perennials",
    "https://www.ag.ndsu.edu/hort/info/perennials/vegprop.htm",
)
MINNESOTA = Source(
    "University of Minnesota Extension Master Gardener (via WCTrib)",
    "Divide perennials when plant is not flowering (2023)",
    "https://www.wctrib.com/lifestyle/master-gardener-sue-morris-general-rule-is-divide-perennials-when-plant-"
    "is-not-flowering",
)
VIOLET = Source(
    "National Gardening Association",
    "African violet questions and answers (2007)",
    "https://garden.org/frogs/view/50051/",
)
ARBOR_DAY = Source(
    "Arbor Day Foundation",
    "Tree guide: Forsythia",
    "https://www.arborday.org/trees/treeguide/treedetail.cfm?itemID=840",
)
IOWA_ELDER = Source(
    "Iowa State University Extension, Forestry",
    "Iowa trees: Elderberry",
    "https://naturalresources.extension.iastate.edu/forestry/iowa_trees/trees/elderberry.html",
)
DELAWARE = Source(
    "University of Delaware Botanic Gardens",
    "Rhododendron catawbiense",
    "http://ag.udel.edu/udbg/broadleaf_evergreen/r_catawbiense.html",
)
OHIO = Source(
    "Ohio State University, plant pages",
    "Viburnum dentatum",
    "https://u.osu.edu/plants/viburnum-dentatum",
)
OKLAHOMA = Source(
    "Oklahoma State University Extension",
    "Plant profiles: Weigela",
    "https://extension.okstate.edu/programs/plant-id/plant-profiles/weigela/index.html",
)
ALASKA_YEW = Source(
    "University of Alaska Fairbanks Cooperative Extension Service",
    "Landscape plants: Anglojap Yew",
    "https://uaf.edu/ces/garden/landscape-plants/profile.php?id=p369",
)
RIBES_PH = Source(
    "Extension Highlights, May/June 2015",
    "Growing Ribes for Health and Happiness",
    "https://viewer.joomag.com/extension-highlights-may-june2015/0830740001430312678?page=8",
)

SEMI_RIPE, HARDWOOD, SOFTWOOD = Method.SEMI_RIPE_CUTTING, Method.HARDWOOD_CUTTING, Method.SOFTWOOD_CUTTING

WAYS = (
    Fact("Taxus baccata", HARDWOOD, "rooting_days", 10, 14, "weeks", YEW),
    Fact("Taxus baccata", HARDWOOD, "iba_ppm", 8000, 8000, "ppm", YEW),
    Fact("Taxus baccata", HARDWOOD, "reference_temp_c", 70, 75, "F", YEW),
    Fact("Ilex opaca", SEMI_RIPE, "rooting_days", 6, 8, "weeks", HOLLY),
    Fact("Ilex opaca", SEMI_RIPE, "iba_ppm", 8000, 8000, "ppm", HOLLY),
    Fact("Ilex opaca", SEMI_RIPE, "reference_temp_c", 75, 80, "F", HOLLY),
    Fact("Ilex aquifolium", SEMI_RIPE, "rooting_days", 4, 6, "weeks", ENGLISH_HOLLY),
    Fact("Ilex aquifolium", SEMI_RIPE, "iba_ppm", 8000, 8000, "ppm", ENGLISH_HOLLY),
    Fact("Ilex aquifolium", SEMI_RIPE, "reference_temp_c", 65, 65, "F", ENGLISH_HOLLY),
    Fact("Ilex crenata", SEMI_RIPE, "iba_ppm", 0, 2500, "ppm", HELLERI),
    Fact("Ilex crenata", SEMI_RIPE, "take", 100, 100, "percent", HELLERI),
    Fact("Ilex", SEMI_RIPE, "rooting_days", 12, 16, "weeks", YAUPON),
    Fact("Ilex", SEMI_RIPE, "iba_ppm", 3000, 3000, "ppm", BURFORD),
    Fact("Juniperus horizontalis", SEMI_RIPE, "rooting_days", 6, 12, "weeks", JUNIPER),
    Fact("Juniperus", SEMI_RIPE, "rooting_days", 8, 16, "weeks", DWARF_JUNIPER),
    Fact("Juniperus", HARDWOOD, "rooting_days", 180, 365, "days", COMMON_JUNIPER),
    Fact("Viburnum", SEMI_RIPE, "rooting_days", 6, 12, "weeks", SWEET_VIBURNUM),
    Fact("Viburnum", SOFTWOOD, "iba_ppm", 2500, 5000, "ppm", VIBURNUM),
    Fact("Syringa vulgaris", SOFTWOOD, "rooting_days", 4, 4, "weeks", LILAC),
    Fact("Syringa vulgaris", SOFTWOOD, "iba_ppm", 0.8, 1.2, "percent IBA", LILAC),
    Fact("Syringa vulgaris", SOFTWOOD, "reference_temp_c", 68, 68, "F", LILAC),
    Fact("Ribes rubrum", HARDWOOD, "rooting_days", 8, 8, "weeks", ALASKA_RIBES),
    Fact("Ribes rubrum", HARDWOOD, "length_m", 5, 8, "inches", ALASKA_RIBES),
    Fact("Ribes nigrum", HARDWOOD, "rooting_days", 8, 8, "weeks", ALASKA_RIBES),
    Fact("Ribes nigrum", HARDWOOD, "length_m", 5, 8, "inches", ALASKA_RIBES),
    Fact("Buxus sempervirens", SEMI_RIPE, "length_m", 2.5, 2.5, "inches", BOXWOOD),
    Fact("Salvia rosmarinus", SEMI_RIPE, "rooting_days", 45, 45, "days", ROSEMARY_DAYS),
    Fact("Salvia rosmarinus", SEMI_RIPE, "take", 48, 48, "percent", ROSEMARY_TAKE),
    Fact("Salvia rosmarinus", SOFTWOOD, "length_m", 3, 5, "inches", HERBS),
    Fact("Symphoricarpos albus", HARDWOOD, "length_m", 6, 8, "inches", SNOWBERRY),
    Fact("Cornus sericea", SOFTWOOD, "length_m", 6, 8, "inches", OSIER),
    Fact("Cornus sericea", SOFTWOOD, "iba_ppm", 0.3, 0.3, "percent IBA", OSIER),
    Fact("Salix", HARDWOOD, "length_m", 12, 16, "inches", LIVE_STAKES),
    Fact("Salix", HARDWOOD, "take", 99, 100, "percent", WILLOW),
    Fact("Spiraea", SOFTWOOD, "length_m", 15, 20, "cm", SPIRAEA),
    Fact("Vitis", HARDWOOD, "iba_ppm", 500, 2000, "ppm", GRAPE),
    Fact("Vitis", HARDWOOD, "length_m", 12, 12, "inches", IOWA_GRAPE),
    Fact("Vaccinium corymbosum", HARDWOOD, "rooting_days", 90, 90, "days", BLUEBERRY),
    Fact("Vaccinium corymbosum", HARDWOOD, "take", 68.01, 68.55, "percent", BLUEBERRY),
    Fact("Ficus carica", HARDWOOD, "iba_ppm", 500, 500, "ppm", FIG),
    Fact("Rosa", SOFTWOOD, "iba_ppm", 750, 750, "ppm", ROSE),
    Fact("Magnolia", Method.SIMPLE_LAYER, "rooting_days", 270, 365, "days", ARKANSAS),
    Fact("Rubus occidentalis", Method.TIP_LAYER, "length_m", 3, 4, "inches", NORTH_CAROLINA),
    Fact("Ribes uva-crispa", Method.MOUND_LAYER, "rooting_days", 300, 365, "days", OREGON),
)
"""What is published of one way of increasing one plant. Two "next springs" and one "several months to a
year" are given in days."""

METHODS = (
    Fact("any", Method.SIMPLE_LAYER, "rooting_days", 90, 240, "days", FLORIDA_1955),
    Fact("any", Method.TIP_LAYER, "length_m", 3, 4, "inches", NORTH_CAROLINA),
    Fact("any", Method.MOUND_LAYER, "rooting_days", 300, 365, "days", OREGON),
    Fact("any", Method.CROWN_DIVISION, "rooting_days", 4, 6, "weeks", MINNESOTA),
    Fact("any", SOFTWOOD, "length_m", 4, 6, "inches", IOWA_SOFTWOOD),
    Fact("any", SEMI_RIPE, "rooting_days", 8, 16, "weeks", DWARF_JUNIPER),
    Fact("any", SEMI_RIPE, "iba_ppm", 3000, 8000, "ppm", BURFORD),
    Fact("any", HARDWOOD, "length_m", 4, 12, "inches", IOWA_HARDWOOD),
    Fact("any", Method.BASAL_CUTTING, "length_m", 3, 3, "inches", NORTH_DAKOTA),
    Fact("any", Method.ROOT_CUTTING, "length_m", 1.5, 1.5, "inches", NORTH_DAKOTA),
    Fact("any", Method.LEAF_CUTTING, "rooting_days", 30, 31, "days", VIOLET),
    Fact("any", Method.LEAF_CUTTING, "length_m", 1, 2, "inches", VIOLET),
)
"""What is published of a method, whatever the plant."""

PLANTS = (
    Fact(
        "Hydrangea anomala subsp. petiolaris",
        None,
        "height_m",
        7,
        10,
        "m",
        kwantlen("plant/printableSummary/82", "Hydrangea petiolaris"),
    ),
    Fact(
        "Hydrangea paniculata",
        None,
        "height_m",
        2,
        3,
        "m",
        kwantlen("PlantPrint/hypa", "Hydrangea paniculata"),
    ),
    Fact(
        "Hydrangea paniculata",
        None,
        "zones",
        3,
        3,
        "zones",
        kwantlen("PlantPrint/hypa", "Hydrangea paniculata"),
    ),
    Fact("Cornus sericea", None, "spread_m", 2, 3, "m", kwantlen("PlantPrint/cost", "Cornus sericea")),
    Fact("Cornus alba", None, "zones", 3, 3, "zones", kwantlen("PlantPrint/coab", "Cornus alba")),
    Fact("Spiraea japonica", None, "height_m", 1.3, 2, "m", kwantlen("PlantPrint/spcv", "Spiraea japonica")),
    Fact("Forsythia × intermedia", None, "height_m", 8, 10, "feet", ARBOR_DAY),
    Fact("Forsythia × intermedia", None, "spread_m", 10, 12, "feet", ARBOR_DAY),
    Fact("Forsythia × intermedia", None, "zones", 5, 8, "zones", ARBOR_DAY),
    Fact("Sambucus canadensis", None, "height_m", 5, 12, "feet", IOWA_ELDER),
    Fact("Sambucus canadensis", None, "zones", 3, 9, "zones", IOWA_ELDER),
    Fact("Rhododendron catawbiense", None, "height_m", 6, 10, "feet", DELAWARE),
    Fact("Rhododendron catawbiense", None, "zones", 4, 8, "zones", DELAWARE),
    Fact("Viburnum dentatum", None, "spread_m", 6, 10, "feet", OHIO),
    Fact("Weigela florida", None, "height_m", 10, 10, "feet", OKLAHOMA),
    Fact("Taxus × media", None, "height_m", 3, 6, "feet", ALASKA_YEW),
    Fact("Ribes uva-crispa", None, "ph", 5.5, 7, "pH", RIBES_PH),
)
"""What is published of a plant's size, zones and soil."""

MONTHS = (
    ("Buxus sempervirens", SEMI_RIPE, {7, 8, 9, 10, 11, 12}, BOXWOOD),
    ("Symphoricarpos albus", HARDWOOD, {12, 1, 2}, SNOWBERRY),
    ("Forsythia × intermedia", SOFTWOOD, {5, 6, 7}, IOWA_SOFTWOOD),
    ("Weigela florida", SOFTWOOD, {5, 6, 7}, IOWA_SOFTWOOD),
    ("Syringa vulgaris", SOFTWOOD, {5, 6, 7}, IOWA_SOFTWOOD),
    ("Cornus sericea", SOFTWOOD, {5, 6}, OSIER),
    ("Vitis", HARDWOOD, {2, 3}, IOWA_GRAPE),
    ("Ilex opaca", SEMI_RIPE, {6, 7, 8}, HOLLY),
    ("Taxus baccata", HARDWOOD, {11}, YEW),
)
"""The months in which a source takes its cuttings: late May through early July, late autumn and so on."""

SLACK = 0.001
"""A millimetre, or a tenth of a percent: inches do not come out even in metres."""


def overlap(ours: Span, theirs: Span) -> bool:
    return ours[0] <= theirs[1] + SLACK and theirs[0] <= ours[1] + SLACK


@pytest.mark.parametrize("fact", WAYS, ids=str)
def test_a_way_of_increase_agrees_with_what_is_published(fact: Fact) -> None:
    assert fact.method is not None
    way = standard().plant(fact.plant).way(fact.method)
    assert way is not None, f"{fact.plant} has no {fact.method.value}"
    ours = getattr(way, fact.field)
    assert ours is not None, f"{fact.plant} {fact.method.value} has no {fact.field}"
    assert overlap(ours, fact.span), f"{fact}: ours {ours}, published {fact.span} ({fact.source.title})"


@pytest.mark.parametrize("fact", METHODS, ids=str)
def test_the_general_figures_of_a_method_agree_with_what_is_published(fact: Fact) -> None:
    assert fact.method is not None
    ours = getattr(standard().way(fact.method), fact.field)
    assert ours is not None, f"{fact.method.value} has no {fact.field}"
    assert overlap(ours, fact.span), f"{fact}: ours {ours}, published {fact.span} ({fact.source.title})"


@pytest.mark.parametrize("fact", PLANTS, ids=str)
def test_a_plant_agrees_with_what_is_published(fact: Fact) -> None:
    ours = getattr(standard().plant(fact.plant), fact.field)
    assert ours is not None, f"{fact.plant} has no {fact.field}"
    assert overlap(ours, fact.span), f"{fact}: ours {ours}, published {fact.span} ({fact.source.title})"


@pytest.mark.parametrize(
    ("plant", "method", "months", "source"),
    [pytest.param(*row, id=f"{row[0]} {row[1].value}: {row[3].publisher}") for row in MONTHS],
)
def test_cuttings_are_taken_in_the_months_that_are_published(
    plant: str, method: Method, months: set[int], source: Source
) -> None:
    way = standard().plant(plant).way(method)
    assert way is not None, f"{plant} has no {method.value}"
    assert months & set(way.months), f"{plant}: ours {way.months}, published {months} ({source.title})"


def test_clematis_is_best_left_undivided() -> None:
    """University of Minnesota Extension (via WCTrib): clematis dislikes disturbance."""
    division = standard().plant("Clematis").division
    assert division is not None
    assert division.resents


def test_hollies_keep_the_rooting_times_of_their_own_species() -> None:
    """Four to six weeks for English holly, six to eight for American, up to sixteen for yaupon."""
    catalogue = standard()
    times = {
        name: way.rooting_days
        for name in ("Ilex aquifolium", "Ilex opaca", "Ilex")
        if (way := catalogue.plant(name).way(SEMI_RIPE)) is not None
    }
    assert times == {"Ilex aquifolium": (28, 42), "Ilex opaca": (42, 56), "Ilex": (28, 112)}


@pytest.mark.parametrize("name", ["Ribes", "Ribes rubrum", "Ribes nigrum", "Ribes uva-crispa"])
def test_currants_and_gooseberries_defer_to_local_rules(name: str) -> None:
    """North Carolina Department of Agriculture: White Pine Blister Rust,
    http://ncagr.gov/plantindustry/plant/disease/48A-04.htm: the genus may not be grown there."""
    cautions = standard().plant(name).cautions
    assert any(c.kind == "law" and "local rules" in c.text for c in cautions), (
        f"{name}: no caution about the law"
    )
