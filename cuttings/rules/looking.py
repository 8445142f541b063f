"""Judging by eye and finger whether a stem has rooted, without tearing it up."""

from enum import StrEnum

from attrs import frozen

from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Advice
from cuttings.words import Method

DO_NOT_PULL = "Do not pull it up to see: the first roots are thin and snap. Feel for a slight hold, no more."

SCRAPE_ASIDE = "Scrape the soil aside with your fingers at the buried bend, look for roots, and cover it."

OPEN_THE_WRAP = "Look through the wrapping for roots, or open one side, and close it again if there are few."

TOUCH_IT = "Touch it: a rooted one stands firm, and its new leaves do not flag on a warm day."

COUNT_LEAVES = "Count its true leaves: with two pairs it has root enough to be lifted with a plug of soil."

BLACK_OR_SOFT = "black or soft"
"""What a look says of stems that have rotted, in the words that it is written down with."""

LOOK_AT_HOLES = "Look for roots at the holes in the bottom of the pot."


class Verdict(StrEnum):
    """What a look tells."""

    ROOTED = "rooted"
    NOT_YET = "not-yet"
    FAILED = "failed"


@frozen
class Seen:
    """What was seen; ``None`` for what was not looked at. ``root_length_m`` is the longest root."""

    new_growth: bool | None = None
    resists_tug: bool | None = None
    roots_at_holes: bool | None = None
    root_length_m: float | None = None
    blackened: bool | None = None


def how_to_look(method: Method) -> str:
    """What to do to see whether a stem has rooted; common practice."""
    if method is Method.AIR_LAYER:
        return OPEN_THE_WRAP
    if method.is_layer:
        return f"{SCRAPE_ASIDE} {DO_NOT_PULL}"
    if method is Method.HARDWOOD_CUTTING:
        return f"{TOUCH_IT} {DO_NOT_PULL}"
    if method is Method.SEEDLING:
        return COUNT_LEAVES
    return f"{LOOK_AT_HOLES} {DO_NOT_PULL}"


def judge(seen: Seen, method: Method) -> Advice[Verdict]:
    """Rooted, not yet, or failed, from what was seen. Roots seen outweigh every other sign."""
    if seen.roots_at_holes or (seen.root_length_m or 0.0) > 0.0:
        return _verdict(Verdict.ROOTED, "Roots can be seen, and that settles it.")
    if seen.blackened:
        return _verdict(Verdict.FAILED, "The stem has gone black and no root is seen: it has rotted.")
    if seen.resists_tug and not method.is_layer:
        return _verdict(
            Verdict.ROOTED,
            "It holds when touched, so roots have taken hold of the mix.",
            "Fairly sure: a thick callus can hold too. Let the roots fill out before potting.",
        )
    return _verdict(Verdict.NOT_YET, _why_not_yet(seen, method), "Look again before you give it up.")


def _why_not_yet(seen: Seen, method: Method) -> str:
    if seen.resists_tug and method.is_layer:
        return f"The peg and the mother plant hold a layer whether it has roots or not. {how_to_look(method)}"
    if seen.new_growth:
        return (
            "New leaves alone prove nothing: a stem can open them on the food it has stored. "
            f"{how_to_look(method)}"
        )
    if seen.resists_tug is False:
        return "It does not hold yet. Firm it back in and leave it in peace."
    if seen.root_length_m == 0.0 or seen.roots_at_holes is False:
        return "No root is seen yet, and the stem is still sound."
    return f"Nothing here tells of roots. {how_to_look(method)}"


def _verdict(verdict: Verdict, why: str, sure: str = "") -> Advice[Verdict]:
    return Advice(verdict, why=why, source=COMMON_PRACTICE, sure=sure)
