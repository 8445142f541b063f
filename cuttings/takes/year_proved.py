"""What comparisons of the keeper's own lots have proved, where a year's lots were begun the worse way."""

from collections.abc import Callable, Iterable, Sequence

from attrs import frozen

from cuttings.ledger.lots import Lot
from cuttings.takes.cases import NO_DIP, By, Case
from cuttings.takes.comparing import SURE_ENOUGH, Comparison, Verdict, comparisons
from cuttings.takes.evidence import tally_of
from cuttings.takes.groups import grouped
from cuttings.takes.saying import also_said, by_how_much, chances_said, phrase
from cuttings.takes.year_kinds import Kind
from cuttings.words import Method

CHOSEN = (By.DIP, By.COVER, By.MEDIUM, By.WOOD, By.MONTH, By.PLACE)
"""What a keeper can do otherwise; of what is as sure the first is told."""


@frozen(kw_only=True)
class Proved:
    """That lots of a plant root better one way than another. ``lots`` are those of one year and one
    ``method`` that were begun the worse way, and ``stems`` of them failed; it is the surest of so many
    ``pairs``."""

    plant: str
    called: str
    method: Method
    comparison: Comparison
    lots: tuple[str, ...]
    stems: int
    pairs: int

    @property
    def advice(self) -> str:
        """What to do, and what it rests on."""
        each, by = self.comparison, self.comparison.by
        one, other = (
            f"{phrase(by, side.key[by])} {side.rooted} of {side.decided}"
            for side in (each.better, each.worse)
        )
        return f"{self._do}: {one} rooted, {other}; {chances_said(each)} that it helps"

    @property
    def _do(self) -> str:
        by = self.comparison.by
        better, worse = self.comparison.better.key[by], self.comparison.worse.key[by]
        match by:
            case By.DIP if worse.value == NO_DIP:
                return f"Dip {self.called}"
            case By.DIP if better.value != NO_DIP:
                return f"Dip {self.called} in {better.said}"
            case By.WOOD:
                return f"Take {better.said} of {self.called}"
            case By.MONTH | By.PLACE:
                return f"Begin {self.called} {phrase(by, better)}"
            case _:
                return f"Strike {self.called} {phrase(by, better)}"

    @property
    def why(self) -> str:
        """By how much, and what may be the cause instead."""
        more = f"Over the whole ledger more root that way, {by_how_much(self.comparison)}."
        surest = f"It is the surest of {self.pairs} pairs compared." if self.pairs > 1 else ""
        return " ".join(part for part in (more, surest, also_said(self.comparison)) if part)


TOLD = (Verdict.BETTER, Verdict.CANNOT_TELL)
"""What a comparison comes to where both sides have enough lots and stems."""


def proved_of(
    kinds: Iterable[Kind], lots: Sequence[Lot], begun: Sequence[Lot], case_of: Callable[[Lot], Case]
) -> tuple[Proved, ...]:
    """The surest finding for each kind of a year of which stems failed, where there is one.

    The more pairs are looked through, the likelier one of them seems better by luck alone: so the chance
    that the surest is wrong counts as often as there are pairs (the bound named after Bonferroni; common
    practice in comparing). Ways that part the lots alike are one.

    Args:
        lots: all lots of the ledger, by which ways are compared.
        begun: those of the year.
        case_of: a lot as it stands on the day of the account.
    """
    found = (_surest(kind, lots, begun, case_of) for kind in kinds)
    return tuple(proved for proved in found if proved is not None)


def _surest(
    kind: Kind, lots: Sequence[Lot], begun: Sequence[Lot], case_of: Callable[[Lot], Case]
) -> Proved | None:
    own = {lot.code for lot in begun if (lot.plant, lot.method) == (kind.plant, kind.method)}
    if not any(tally_of(lot).failed for lot in begun if lot.code in own):
        return None
    akin = [(lot.method, case_of(lot)) for lot in lots if lot.plant == kind.plant]
    found, pairs = [], dict[frozenset[tuple[Case, ...]], int]()
    for by in CHOSEN:
        cases = [case for method, case in akin if by is By.WOOD or method is kind.method]
        told = [each for each in comparisons(grouped(cases, (by,))) if each.verdict in TOLD]
        sides = frozenset(side.cases for each in told for side in (each.better, each.worse))
        pairs[sides] = len(told) * (len(told) + 1) // 2
        for each in told:
            failed = [case for case in each.worse.cases if case.code in own and case.told.failed]
            if failed:
                found.append((each, failed))
    if not found:
        return None
    surest, failed = max(found, key=lambda pair: pair[0].probability or 0.0)
    looked_through = sum(pairs.values())
    if looked_through * (1.0 - (surest.probability or 0.0)) > 1.0 - SURE_ENOUGH:
        return None
    return Proved(
        plant=kind.plant,
        called=kind.called,
        method=kind.method,
        comparison=surest,
        lots=tuple(case.code for case in failed),
        stems=sum(case.told.failed for case in failed),
        pairs=looked_through,
    )
