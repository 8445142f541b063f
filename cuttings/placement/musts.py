"""What a plant must have of a site: cold it stands, light, water, soil, height, and nothing that harms it or
that it would harm. Each is one question; one refusal keeps a plant off a site.
"""

from collections.abc import Iterator
from math import ceil

from cuttings.placement.light import least_hours, site_light, steps_away
from cuttings.placement.verdict import FOR, NOT_SAID, REFUSED, Question, Verdict, spoken
from cuttings.plants.model import Caution
from cuttings.units import show_length, show_span
from cuttings.words import Drainage, Light, Units

LIGHT_ONE_OFF = 0.7
MOISTURE_ONE_OFF = 0.8
DRAINAGE_ONE_OFF = 0.8
PH_A_LITTLE_OFF = 0.85
WARM_END = 0.9
SOME_SALT = 0.9
MAY_GROW_TOO_TALL = 0.9

PH_MARGIN = 0.5
"""How far outside its range a plant still grows, in units of pH; from memory."""

ORDINARY_PH = (6.0, 7.0)
"""The pH of ordinary garden soil, in which most plants thrive (common practice); only a plant whose range
lies outside needs its soil measured."""

WALNUT_REACH_M = 80 * 0.3048
"""How far the roots of a full-grown black walnut can poison other plants: 50 to 60 ft as a rule, up to 80.
Ohio State University Extension: Black Walnut Toxicity to Plants, Humans and Horses (HYG-1148-93),
as reprinted at https://lists.ibiblio.org/sympa/nomenu/arc/permaculture/2005-03/msg00093.html"""

POISONOUS = frozenset({"poison", "poisonous", "toxic"})
"""The kinds of caution that keep a plant away from where children play."""


ZONE_NOT_KNOWN = "the garden's zone is not known."


def wanted(asked: Question) -> Iterator[Verdict]:
    if asked.plant.unwanted:
        yield Verdict("Nobody should plant it: it runs wild and cannot be got out again.", REFUSED)


def hardiness(asked: Question) -> Iterator[Verdict]:
    zones, here = asked.plant.zones, asked.climate.zone_number
    if zones is None:
        yield Verdict("Nobody has said how much cold it stands.", NOT_SAID)
    elif here is None:
        yield Verdict(f"It is hardy to zone {zones[0]}, but {ZONE_NOT_KNOWN}", NOT_SAID)
    elif here < zones[0]:
        yield Verdict(
            f"It is hardy only to zone {zones[0]}, and this garden is in zone {asked.climate.zone}.",
            REFUSED,
            "if it came under cover for the winter",
        )
    elif here > zones[1]:
        yield Verdict(
            f"It is grown in zones {zones[0]} to {zones[1]}; zone {asked.climate.zone} may be too warm.",
            WARM_END,
        )
    else:
        yield Verdict(
            f"It is hardy to zone {zones[0]}, and this garden is in zone {asked.climate.zone}.", FOR
        )


def light(asked: Question) -> Iterator[Verdict]:
    liked, here = asked.plant.light, site_light(asked.site)
    if here is None:
        yield Verdict(f"Nobody has said how bright {asked.site.name} is.", NOT_SAID)
        return
    if not liked:
        yield Verdict("Nobody has said how much light it likes.", NOT_SAID)
        return
    hours = asked.site.sun_hours
    place = spoken([here]) + (f" ({hours:g} hours of sun a day)" if hours is not None else "")
    steps = steps_away(liked, here)
    if steps == 0:
        yield Verdict(f"{place[:1].upper()}{place[1:]} suits it.", FOR)
    elif abs(steps) == 1:
        harm = "flower less" if steps > 0 else "scorch"
        yield Verdict(f"It likes {spoken(liked)} better; in {place} it may {harm}.", LIGHT_ONE_OFF)
    else:
        yield Verdict(
            f"It needs {spoken(liked)}, and this site has {place}.", REFUSED, _if_light(here, steps)
        )


def _if_light(here: Light, steps: int) -> str:
    """The change of light that would bring a site to within one class of what a plant likes."""
    classes = list(Light)
    liked = classes.index(here) - steps
    if steps > 0:
        hours = least_hours(classes[liked + 1])
        return f"if the shade over it were thinned to let in {hours:g} hours of sun a day"
    hours = least_hours(classes[liked - 2])
    return f"if something shaded it to less than {hours:g} hours of sun a day"


def moisture(asked: Question) -> Iterator[Verdict]:
    liked, here = asked.plant.moisture, asked.site.moisture
    if not liked:
        yield Verdict("Nobody has said how moist it likes its soil.", NOT_SAID)
        return
    steps = steps_away(liked, here)
    if steps == 0:
        yield Verdict(f"{here.capitalize()} soil suits it.", FOR)
    elif abs(steps) == 1:
        yield Verdict(f"It likes {spoken(liked)} soil better; here it is {here}.", MOISTURE_ONE_OFF)
    else:
        change = (
            "if it were planted on a mound, clear of the wet"
            if steps > 0
            else "if it were watered all summer"
        )
        yield Verdict(f"It needs {spoken(liked)} soil, and here it is {here}.", REFUSED, change)


def drainage(asked: Question) -> Iterator[Verdict]:
    liked, here = asked.plant.drainage, asked.site.drainage
    if not liked:
        yield Verdict("Nobody has said how fast its soil should drain.", NOT_SAID)
        return
    steps = steps_away(liked, here)
    if steps == 0:
        yield Verdict(f"{here.capitalize()} drainage suits it.", FOR)
    elif abs(steps) == 1:
        yield Verdict(f"It likes {spoken(liked)} drainage better; here it is {here}.", DRAINAGE_ONE_OFF)
    else:
        change = "if the ground were raised and opened with grit" if here is Drainage.SLOW else (
            "if plenty of leaf mould were dug in to hold the water")  # fmt: skip
        yield Verdict(f"It needs {spoken(liked)} drainage, and here it is {here}.", REFUSED, change)


def acidity(asked: Question) -> Iterator[Verdict]:
    liked, here = asked.plant.ph, asked.site.ph
    if liked is None:
        return
    low, high = liked
    span = f"pH {low:g} to {high:g}"
    if here is None:
        if high <= ORDINARY_PH[0] or low >= ORDINARY_PH[1]:
            yield Verdict(
                f"It wants {span}, and nobody has measured the soil of {asked.site.name}.", NOT_SAID
            )
        return
    off = round(max(low - here, here - high), 6)
    if off <= 0.0:
        yield Verdict(f"It wants {span}, and the soil here has {here:g}.", FOR)
    elif off <= PH_MARGIN:
        yield Verdict(f"It wants {span}; the soil here, at {here:g}, is a little off.", PH_A_LITTLE_OFF)
    else:
        change = f"up to {low - PH_MARGIN:g}" if here < low else f"down to {high + PH_MARGIN:g}"
        yield Verdict(
            f"It wants {span}, and the soil here has {here:g}.", REFUSED, f"if the soil were brought {change}"
        )


def height(asked: Question) -> Iterator[Verdict]:
    limit, tall = asked.site.max_height_m, asked.plant.height_m
    if limit is None:
        return
    most = show_length(limit, asked.units)
    if tall is None:
        yield Verdict(f"Nothing over {most} may stand here, and nobody has said how tall it grows.", NOT_SAID)
        return
    span = show_span(*tall, asked.units)
    if tall[0] > limit:
        yield Verdict(
            f"It grows {span} tall, and nothing over {most} may stand here.",
            REFUSED,
            f"if it were kept under {most}",
        )
    elif tall[1] > limit:
        yield Verdict(f"It grows {span} tall and may have to be cut to {most} here.", MAY_GROW_TOO_TALL)
    else:
        yield Verdict(f"It grows {span} tall, within the {most} allowed here.", FOR)


def walnut(asked: Question) -> Iterator[Verdict]:
    if not asked.site.walnut:
        return
    if asked.plant.juglone == "sensitive":
        metric = asked.units is Units.METRIC
        reach = show_length(float(ceil(WALNUT_REACH_M)) if metric else WALNUT_REACH_M, asked.units)
        yield Verdict(
            "Walnut roots would poison it.", REFUSED, f"if it stood more than {reach} from the walnut's trunk"
        )
    elif asked.plant.juglone:
        yield Verdict("It puts up with walnut roots.", FOR)
    else:
        yield Verdict("Nobody has said whether it puts up with walnut roots.", NOT_SAID)


def salt(asked: Question) -> Iterator[Verdict]:
    if not asked.site.salt:
        return
    match asked.plant.salt:
        case "tolerant":
            yield Verdict("It stands salt.", FOR)
        case "some":
            yield Verdict("It stands some salt: rinse it in spring, and keep salted snow off it.", SOME_SALT)
        case "sensitive":
            yield Verdict(
                "Salt harms it, and salt comes here.", REFUSED, "if sand were strewn here instead of salt"
            )
        case _:
            yield Verdict("Salt comes here, and nobody has said whether it stands it.", NOT_SAID)


def _poisons_people(caution: Caution) -> bool:
    return caution.kind in POISONOUS and caution.harms != "animals"


def children(asked: Question) -> Iterator[Verdict]:
    if asked.site.children and any(_poisons_people(each) for each in asked.plant.cautions):
        yield Verdict("It is poisonous, and children play here.", REFUSED, "if children did not play there")


def running(asked: Question) -> Iterator[Verdict]:
    if not asked.plant.runs:
        return
    if asked.site.barrier:
        yield Verdict("It runs at the root, and a root barrier holds it here.", FOR)
    elif asked.site.growing:
        names = sorted({each.plant for each in asked.site.growing})
        beside = names[0] if len(names) == 1 else f"{names[0]} and others"
        yield Verdict(
            f"It runs at the root and would spread into {beside}.",
            REFUSED,
            "if a root barrier were sunk round it, or it grew in a bottomless tub",
        )


MUSTS = (
    wanted, hardiness, light, moisture, drainage, acidity, height, walnut, salt, children, running,
)  # fmt: skip
"""Every must-have, in the order the reasons are shown."""
