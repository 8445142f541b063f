"""How well a plant and a site suit each other, with the reasons for and against.

The score starts at 1 and is multiplied by the weight of every reason against (see ``reasons``); one refusal
makes it 0. A further reason against can therefore never raise it.
"""

from collections.abc import Sequence

from attrs import frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Site
from cuttings.placement.reasons import ALL, FOR, REFUSED, Question, Verdict
from cuttings.plants.model import Plant
from cuttings.words import Units


@frozen
class Fit:
    """How a plant suits a site. ``score`` is 0 to 1, for ordering only; ``refused`` holds what forbids it,
    empty when the site is allowed; ``would_fit_if`` is the one change that would admit it, if one would."""

    site: str
    score: float
    for_: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()
    would_fit_if: str = ""

    @property
    def allowed(self) -> bool:
        return not self.refused


def fit(
    plant: Plant,
    site: Site,
    climate: Climate,
    units: Units,
    *,
    mother_site: str = "",
    neighbours: Sequence[Plant] = (),
) -> Fit:
    """How well a plant suits a site.

    Args:
        units: the garden's own, in which the reasons name lengths.
        mother_site: the name of the site its mother plant grows on, if known.
        neighbours: what the catalogue knows of the plants that grow on the site.
    """
    asked = Question(plant, site, climate, units, mother_site, neighbours)
    return judged(site.name, [verdict for question in ALL for verdict in question(asked)])


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
        would_fit_if=refusals[0].would_fit_if if len(refusals) == 1 else "",
    )


def with_verdict(found: Fit, verdict: Verdict) -> Fit:
    """A fit with one more reason taken into account."""
    more = judged(found.site, [verdict])
    return Fit(
        site=found.site,
        score=found.score * more.score,
        for_=found.for_ + more.for_,
        against=found.against + more.against,
        refused=found.refused + more.refused,
        would_fit_if="" if found.refused and more.refused else found.would_fit_if + more.would_fit_if,
    )
