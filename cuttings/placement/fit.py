"""How well a plant and a site suit each other, with the reasons for and against.

The score starts at 1 and is multiplied by the weight of every reason against (see ``verdict``); one refusal
makes it 0. A further reason against can therefore never raise it.
"""

from collections.abc import Sequence

from attrs import frozen

from cuttings.placement.likings import LIKINGS
from cuttings.placement.musts import MUSTS
from cuttings.placement.verdict import FOR, REFUSED, Question, Verdict

MOST_CHANGES = 2
"""Nobody changes more than so many things about a site for one plant; beyond, no change is proposed."""


@frozen
class Fit:
    """How a plant suits a site. ``score`` is 0 to 1, for ordering only; ``refused`` holds what forbids it,
    empty when the site is allowed; ``would_fit_if`` is the least change that would admit it, if one would."""

    site: str
    score: float
    for_: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()
    would_fit_if: str = ""

    @property
    def allowed(self) -> bool:
        return not self.refused


def verdicts(asked: Question) -> tuple[Verdict, ...]:
    """Everything that speaks for and against a plant on a site, wherever on it the plant would stand."""
    return tuple(verdict for question in (*MUSTS, *LIKINGS) for verdict in question(asked))


def judged(site: str, verdicts: Sequence[Verdict]) -> Fit:
    """The fit that a list of verdicts adds up to."""
    score = 1.0
    for verdict in verdicts:
        score *= verdict.weight
    refusals = [verdict for verdict in verdicts if verdict.weight == REFUSED]
    return Fit(
        site=site,
        score=score,
        for_=tuple(verdict.said for verdict in verdicts if verdict.weight == FOR),
        against=tuple(verdict.said for verdict in verdicts if REFUSED < verdict.weight < FOR),
        refused=tuple(verdict.said for verdict in refusals),
        would_fit_if=_changes(refusals),
    )


def _changes(refusals: Sequence[Verdict]) -> str:
    """The changes that would lift every refusal, where they are few and each is known."""
    changes = [verdict.would_fit_if for verdict in refusals]
    if not all(changes) or len(changes) > MOST_CHANGES:
        return ""
    return ", and ".join(changes)
