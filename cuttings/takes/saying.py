"""What a comparison of lots says in words: its sides, how likely it is, and what takes from its weight."""

from cuttings.takes.cases import NO_DIP, By, Fact
from cuttings.takes.comparing import ANY_DIP, Comparison
from cuttings.words import Cover, listed

HUNDRED = 100


def of_hundred(share: float) -> str:
    """A share as so many of a hundred."""
    return str(round(share * HUNDRED))


def chances_said(each: Comparison) -> str:
    """A probability as one says it: ``97 chances in 100``; nothing is certain."""
    chances = int((each.probability or 0.0) * HUNDRED)
    if chances >= HUNDRED - 1:
        return "at least 99 chances in 100"
    tenths, rest = divmod(chances, 10)
    return f"{chances} chances in 100" if rest else f"{tenths} chances in 10"


def by_how_much(each: Comparison) -> str:
    """How far the sides are from one another, and where that lies."""
    low, high = each.interval or (0.0, 0.0)
    fewer = f"{of_hundred(-low)} fewer" if round(low * HUNDRED) < 0 else of_hundred(max(low, 0.0))
    more = f"{of_hundred(high)} more" if fewer.endswith("fewer") else of_hundred(high)
    return f"by {of_hundred(each.difference or 0.0)} in 100, nine times in ten between {fewer} and {more}"


def also_said(each: Comparison) -> str:
    """What else the sides differ in, so that it may be the cause; empty where they do not."""
    if not each.also or each.probability is None:
        return ""
    return f"They differ in {listed(list(each.also))} too, which may be what did it."


def phrase(by: By, fact: Fact) -> str:
    """One side of a comparison: ``without a dip``, ``in November``, ``of box``."""
    match by:
        case By.DIP:
            if fact.value == NO_DIP:
                return "without a dip"
            return "with any dip" if fact == ANY_DIP else f"with a dip of {fact.said}"
        case By.COVER:
            return _cover_said(Cover(str(fact.value)))
        case By.MONTH | By.YEAR | By.MEDIUM:
            return f"in {fact.said}"
        case By.PLACE:
            return f"at {fact.said}"
        case By.METHOD:
            return f"as {fact.said}s"
        case By.PLANT | By.WOOD:
            return f"of {fact.said}"


def _cover_said(cover: Cover) -> str:
    return {
        Cover.NONE: "without a cover",
        Cover.BAG: "in a bag",
        Cover.FRAME: "in a frame",
        Cover.MIST: "under mist",
    }[cover]
