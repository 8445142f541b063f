"""What was counted, and what a comparison came to, in plain sentences; never a share without its count."""

from collections.abc import Sequence

from cuttings.takes.cases import LEAST_TOLD, By
from cuttings.takes.comparing import LEAST_LOTS, LEAST_STEMS, Comparison, Side, Verdict
from cuttings.takes.groups import Group, Key, Rooting, Survival
from cuttings.takes.saying import also_said, by_how_much, chances_said, of_hundred, phrase
from cuttings.takes.shares import Figure, Share

STEMS_OF_A_LOT = 5.0
"""About so many stems that share nothing tell as much as a lot of ten; this program's own choice, near what
``shares.LOTS_DIFFER`` comes to."""

FAR_APART = 0.15
"""A share counted so far from what to count on asks for a word why; this program's own choice."""

IN_WORDS = ("no", "one", "two", "three", "four")
"""Small numbers as a sentence has them."""

NOT_TOLD = {
    By.WOOD: "only cuttings have a wood",
    By.MONTH: "nobody knows when stems that were found began",
    By.DIP: "only cuttings that were struck are dipped",
    By.MEDIUM: "nobody wrote down what they stand in",
    By.COVER: "only cuttings that were struck are covered",
    By.PLACE: "nobody wrote down where they stood",
}
"""Why a lot may lack a fact."""


def lots_said(count: int) -> str:
    return f"{count} {'lot' if count == 1 else 'lots'}"


def key_said(key: Key) -> str:
    """What the lots of a group share: ``red currant, hardwood cutting``."""
    return ", ".join(fact.said for fact in key.values())


def counted(rooting: Rooting | None, lots: int) -> str:
    """How many of a group's stems rooted."""
    if rooting is None:
        return f"{lots_said(lots)} that came with roots"
    parts = [f"{rooting.rooted} of {rooting.started} rooted"]
    if rooting.waiting:
        failed = f"{rooting.failed} failed and " if rooting.failed else ""
        parts.append(f"{failed}{rooting.waiting} still {'waits' if rooting.waiting == 1 else 'wait'}")
    if rooting.gone:
        parts.append(f"{rooting.gone} left before anybody knew")
    return f"{', '.join(parts)}; {lots_said(rooting.lots)}"


def counted_on(rooting: Rooting) -> str:
    """What to count on, and where that starts from."""
    share, figure = rooting.share, rooting.share.figure
    kinds = {True: "published", False: "usual"}
    kind = " or ".join(word for published, word in kinds.items() if published in rooting.sources.values())
    start = f"the {kind} {of_hundred(figure.mean)}"
    if share.stems < LEAST_TOLD:
        return f"Nothing is known of these yet; {start} of 100 is all there is to go by."
    return f"Count on about {_count_on(share)}; starts from {start} ({_weighs(figure)}).{_apart(rooting)}"


def _weighs(figure: Figure) -> str:
    """What a figure counts for, in lots: the stems of one lot count for fewer than they are."""
    lots = max(round(figure.stems / STEMS_OF_A_LOT), 1)
    return f"weighs like {lots_in_words(lots)} of ten"


def _apart(rooting: Rooting) -> str:
    """Why what to count on is far from the share counted; empty where it is not, or where the counts are
    said to be small."""
    share, decided = rooting.share, rooting.decided
    if is_small(rooting) or not decided:
        return ""
    low, high = share.interval()
    own = rooting.rooted / decided
    if low <= own <= high and abs(own - share.mean) <= FAR_APART:
        return ""
    only = " only" if rooting.lots < len(IN_WORDS) else ""
    return f" Yours alone come to {of_hundred(own)}: {lots_in_words(rooting.lots)}{only}, and lots differ."


def lots_in_words(count: int) -> str:
    """A number of lots as a sentence has it: ``two lots``."""
    number = IN_WORDS[count] if count < len(IN_WORDS) else str(count)
    return f"{number} {'lot' if count == 1 else 'lots'}"


def _count_on(share: Share) -> str:
    return f"{of_hundred(share.mean)} of 100, nine times in ten between {_from_to(share, ' and ')}"


def _from_to(share: Share, between: str) -> str:
    return between.join(of_hundred(end) for end in share.interval())


def is_small(rooting: Rooting) -> bool:
    """Whether too little was counted for what it says to be leaned on."""
    return rooting.lots < LEAST_LOTS or rooting.decided < LEAST_STEMS


def smallness(rooting: Rooting) -> str:
    """That it is little to go by; empty where it is not, or where nothing is known at all."""
    if not is_small(rooting) or not rooting.decided:
        return ""
    stems = "1 stem" if rooting.decided == 1 else f"{rooting.decided} stems"
    if rooting.lots < LEAST_LOTS:
        few = f" of {stems}" if rooting.decided < LEAST_STEMS else ""
        return f"One lot only{few}: little to go by."
    return f"Only {stems} so far: little to go by."


def afterwards(group: Group) -> str:
    """How potting, and the year after planting, went; empty where no stem came so far."""
    said = (
        _survived(group.potted, "Potted", "lived on", "not two months in a pot yet"),
        _survived(group.a_year_on, "Planted", "lived a year", "not a year in the ground yet"),
    )
    return " ".join(each for each in said if each)


def _survived(survival: Survival | None, came: str, lived: str, not_yet: str) -> str:
    if survival is None:
        return ""
    step, parts = survival.step, []
    if survival.share is not None:
        share = survival.share
        about = f"(count on {of_hundred(share.mean)} of 100, {_from_to(share, ' to ')})"
        parts.append(f"{step.lived} of {step.lived + step.died} {lived} {about}")
    if step.undecided:
        parts.append(f"{step.undecided} {not_yet}")
    return f"{came}: {'; '.join(parts)}."


def left_out_said(by: By, lots: int) -> str:
    """How many lots a table leaves out, and why."""
    return f"{lots_said(lots)}: {NOT_TOLD[by]}."


def comparison_said(each: Comparison) -> str:
    """What a comparison came to, with the counts of both sides."""
    fixed = [fact.said for by, fact in each.better.key.items() if by is not each.by]
    where = f"{', '.join(fixed)}: " if fixed else ""
    one, other = (_side_said(side, each.by) for side in (each.better, each.worse))
    return _capitalised(f"{where}{_verdict_said(each, one, other)}")


def _verdict_said(each: Comparison, one: str, other: str) -> str:
    chances = _capitalised(chances_said(each))
    match each.verdict:
        case Verdict.TOO_UNLIKE:
            what = "plant" if each.by in (By.METHOD, By.WOOD) else "method" if each.by is By.PLANT else ""
            both = f"no {what}" if what else "no plant by one method"
            return f"{one}, {other}: too unlike to tell, for {both} was tried both ways."
        case Verdict.TOO_FEW:
            return (
                f"{one}, {other}: too few to tell; each side takes "
                f"{LEAST_LOTS} lots and {LEAST_STEMS} known stems."
            )
        case Verdict.CANNOT_TELL:
            return f"{one} or {other}: no telling. {chances} for the first, {by_how_much(each)}."
        case Verdict.BETTER:
            return f"{one} more root than {other}. {chances}, {by_how_much(each)}."


def _side_said(side: Side, by: By) -> str:
    waiting = f", {side.waiting} still waiting" if side.waiting else ""
    count = f"{side.rooted} of {side.decided + side.waiting}{waiting}, {lots_said(side.lots)}"
    return f"{phrase(by, side.key[by])} ({count})"


def cautions_said(each: Comparison) -> str:
    """What takes from a comparison's weight: what else differs, and lots without a match."""
    unmatched = f"{_capitalised(lots_said(each.unmatched))} had nothing like it on the other side."
    return " ".join(part for part in (also_said(each), unmatched if each.unmatched else "") if part)


def not_shown(left: Sequence[Comparison]) -> str:
    """What the comparisons without a line of their own come to; empty where there are none."""
    surer = sum(each.verdict is Verdict.BETTER for each in left)
    parts = []
    if surer:
        parts.append(f"Of {_other_pairs(surer)} one side is better too, less surely.")
    if len(left) > surer:
        others = _other_pairs(len(left) - surer)
        parts.append(f"{_capitalised(others)} {'tells' if others.endswith('pair') else 'tell'} no more.")
    return " ".join(parts)


def _other_pairs(count: int) -> str:
    return f"{count} other {'pair' if count == 1 else 'pairs'}"


def _capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]
