"""What is asked of a plant and a site together, and the verdicts that answer.

Each question answers with verdicts: a sentence, and the weight it carries. A weight of 1 speaks for the
site, one between 0 and 1 against it, and 0 refuses it. A fact nobody has given is never guessed: it weighs a
little against the site and says what is missing.

The weights are this program's own judgement, from memory: nobody publishes such figures. They put sites in
order and are no chance of survival. Light weighs most: water and soil can be helped, shade hardly.
"""

from collections.abc import Iterable, Sequence

from attrs import field, frozen

from cuttings.climate.climate import Climate
from cuttings.ledger.places import Site
from cuttings.plants.model import Plant
from cuttings.words import Units, either

FOR, REFUSED = 1.0, 0.0
NOT_SAID = 0.9


@frozen
class Verdict:
    """One reason and its weight; ``would_fit_if`` is the change that would lift a refusal."""

    said: str
    weight: float
    would_fit_if: str = ""


@frozen
class Question:
    """A plant and a site to be judged together.

    ``neighbours`` are the plants known to grow on the site, ``about`` those known to grow in its area.
    """

    plant: Plant
    site: Site
    climate: Climate
    units: Units
    mother_site: str = ""
    neighbours: Sequence[Plant] = field(factory=tuple)
    about: Sequence[Plant] = field(factory=tuple)


def spoken(words: Iterable[str]) -> str:
    """Words of the records as one offers them: ``full sun``, ``full sun or part sun``."""
    return either(word.replace("-", " ") for word in words)
