"""The first weeks after potting: shade, the first feed, and what to cut back."""

from datetime import date, timedelta
from enum import StrEnum

from cuttings.climate.climate import Climate
from cuttings.dates import spoken
from cuttings.plants.model import COMMON_PRACTICE, FROM_MEMORY
from cuttings.rules.advice import Advice
from cuttings.rules.growth import growing_days_after
from cuttings.rules.seasons import frosts, in_summer, summer, weeks
from cuttings.words import Method

SHADE_DAYS = {"layer": 7, "division": 7, "cutting": 10, "seedling": 5}
SHADE_DAYS_MORE_IN_HEAT = 4
"""Days out of the sun after potting, and how many more in high summer; from memory."""

HEAT_AFTER_LAST_FROST_WEEKS = 5
HEAT_BEFORE_FIRST_FROST_WEEKS = 5
"""High summer runs from so long after the last frost to so long before the first one; from memory."""

FEED_AFTER_DAYS = 28
FEED_SOURCE = "Master Gardener column, NewsBreak, 2021: Over-wintering geraniums from cuttings"
"""Potted cuttings are fed lightly every four to six weeks once new growth shows,
https://www.newsbreak.com/news/2399026760737; the first feed after four weeks is from memory."""

FIRST_FEED = "half strength"
"""Of what the feed's label gives for pot plants: salt in the mix burns new roots; from memory."""

FEED_WHY = "Once new leaves grow, and lightly; the mix feeds it until then."
FEED_IN_SPRING_WHY = "Not before spring: feeding now makes soft growth that frost takes."
FEED_SURE = f"The four weeks are {FROM_MEMORY}."

LAST_FEED_BEFORE_FROST_WEEKS = 8
"""Feeding stops so long before the first frost, so that no soft growth meets it; from memory."""

DIVISION_SOURCE = "Cornell Cooperative Extension Oneida County: Take care when dividing perennials, 2017"
"""Tops of divisions are shortened to four to six inches,
https://www.timestelegram.com/entertainmentlife/20171016/in-garden-take-care-when-dividing-perennials"""

PURDUE = "Purdue University Plant Propagation: Care of Layered Plants"
"""A small root system cannot supply many leaves, so the top is trimmed to match it,
https://hort.purdue.edu/plantprop/WebVersion/Layering/5_5.html"""

UNCOVERED_SOURCE = "Laidback Gardener: Acclimatizing Rooted Cuttings, 2020"
"""Leaves made under cover wilt when it is taken off at once; it is opened little by little over several days,
https://laidbackgardener.blog/2020/10/17/acclimatizing-rooted-cuttings/"""


class Leaf(StrEnum):
    """How much leaf a stem carries, against its roots."""

    LITTLE = "little"
    EVEN = "even"
    MUCH = "much"


class Stem(StrEnum):
    """How a stem stands that is being potted."""

    FIRM = "firm"
    SOFT = "soft"
    THIN = "thin"


THIRD_SURE = f"The third is {FROM_MEMORY}; take less where the roots are many."


def shade_days(method: Method, on: date, climate: Climate, hardy: bool) -> Advice[int]:
    """Days to keep it out of the sun after potting, 0 to 14."""
    said = frosts(climate, on.year).said
    if hardy and growing_days_after(climate, on, 0) != on:
        return Advice(0, said("It is at rest and the sun is weak; a sheltered place will do."), FROM_MEMORY)
    days = SHADE_DAYS[_kind(method)]
    if in_summer(
        climate, on, after_weeks=HEAT_AFTER_LAST_FROST_WEEKS, before_weeks=HEAT_BEFORE_FIRST_FROST_WEEKS
    ):
        days += SHADE_DAYS_MORE_IN_HEAT
        return Advice(days, said("New roots cannot keep up with a high summer sun."), FROM_MEMORY)
    return Advice(days, said("Shade until the roots have taken hold of the new mix."), FROM_MEMORY)


def _kind(method: Method) -> str:
    if method.is_layer:
        return "layer"
    if method.starts_rooted:
        return "division"
    return "cutting" if method.is_cutting else "seedling"


def first_feed_days(on: date, climate: Climate) -> Advice[int]:
    """Days from potting to the first light feed."""
    due = on + timedelta(days=FEED_AFTER_DAYS)
    said = frosts(climate, on.year).said
    for year in (on.year - 1, on.year, on.year + 1):
        opens, closes = summer(climate, year)
        if max(due, opens) <= closes - weeks(LAST_FEED_BEFORE_FROST_WEEKS):
            feed = max(due, opens)
            why = FEED_WHY if feed == due else FEED_IN_SPRING_WHY
            return Advice((feed - on).days, said(why), FEED_SOURCE, FEED_SURE)
    return Advice(FEED_AFTER_DAYS, FEED_WHY, FEED_SOURCE, FEED_SURE)


def trim(method: Method, leaf: Leaf) -> Advice[str]:
    """What to cut back when potting, in a sentence."""
    if method is Method.BULB_OFFSET:
        return Advice("Leave the leaves on: they feed the bulb until they yellow.", "Leaves are its larder.",
                      COMMON_PRACTICE)  # fmt: skip
    if method.starts_rooted:
        return Advice(
            "Cut the leaves back to 4 to 6 inches (10 to 15 cm).",
            "Fewer leaves ask less of roots that were just cut.",
            DIVISION_SOURCE,
        )
    if leaf is Leaf.MUCH:
        stub = "Cut off the old stem below the roots. " if method.is_layer else ""
        return Advice(
            f"{stub}Shorten the top by about a third, to just above a bud.",
            "A small root cannot keep a large top in water.",
            PURDUE,
            THIRD_SURE,
        )
    if method.is_layer:
        return Advice(
            "Cut off the stub of the old stem below the new roots, cleanly.",
            "Dead wood under the roots lets rot in.",
            COMMON_PRACTICE,
        )
    why = "It has hardly a leaf to feed yet." if leaf is Leaf.LITTLE else "It has root enough for its leaves."
    return Advice(
        "Cut nothing now; pinch out the tip once it grows, for a bushy plant.", why, COMMON_PRACTICE
    )


def hold_up(stem: Stem) -> Advice[str]:
    """What a stem wants at once, by how it stands, in a sentence; empty where it wants nothing."""
    if stem is Stem.SOFT:
        return Advice(
            "Keep it under a loose bag or a cover at first, and open that a little more each day for a week.",
            "Soft leaves that grew in moist air wilt when they are uncovered at once.",
            UNCOVERED_SOURCE,
            f"The week is {FROM_MEMORY}.",
        )
    if stem is Stem.THIN:
        return Advice(
            "Set a thin cane before the mix goes in, and tie the stem to it loosely.",
            "Rocked by the wind it tears its new roots, and a cane pushed in later goes through them.",
            COMMON_PRACTICE,
        )
    return Advice("", "", COMMON_PRACTICE)


def back_to_light(on: date, shaded: int) -> str:
    """When and how it goes back into the light, after so many days of shade; empty where it had none."""
    if not shaded:
        return ""
    return (
        f"Back into the light from {spoken(on + timedelta(days=shaded), on)}, an hour or two more each day."
    )


def where_to_stand(shaded: int, hardy: bool) -> Advice[str]:
    """The kind of place for the pots in the first weeks."""
    if shaded:
        return Advice(
            "shade",
            "Bright shade out of the wind, on something that drains, where you pass every day.",
            COMMON_PRACTICE,
        )
    if hardy:
        why = "Sheltered and close to the ground: roots in a pot freeze before those in the earth."
        return Advice("shelter", why, COMMON_PRACTICE)
    return Advice("light", "In the light and free of frost.", COMMON_PRACTICE)
