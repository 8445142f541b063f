"""What the tests ask of a posterior, and of a curve, that the program itself has no need of."""

import math
from collections.abc import Iterator

from cuttings.takes.curve import Curve
from cuttings.takes.rooting import Looks, Posterior

LEAST = 1e-300


def share_laws(told: Posterior) -> Iterator[tuple[float, float, float]]:
    """The share that roots, as a mixture of beta laws: each with its weight and two parameters."""
    rooted, failed, waiting = told.looks.taken, told.looks.failed, told.looks.waiting
    for number, chance in enumerate(told.yet_to_root):
        yield chance, told.prior.takes + rooted + number, told.prior.fails + failed + waiting - number


def mean_share(told: Posterior) -> float:
    """The mean share of the lot's stems that roots."""
    return sum(chance * a / (a + b) for chance, a, b in share_laws(told))


def log_likelihood(curve: Curve, share: float, looks: Looks) -> float:
    """The logarithm of the chance of what was seen, for one curve and one share of stems that root.

    Counts of one look are taken as they are; the number of ways to arrange them is left out.
    """
    found = sum(
        count * math.log(max(share * curve.between(first, last), LEAST))
        for first, last, count in looks.rooted
    )
    found += looks.waiting * math.log(max(1.0 - share * curve.by(looks.last), LEAST))
    return found + looks.failed * math.log(max(1.0 - share, LEAST)) if looks.failed else found
