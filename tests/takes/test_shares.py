"""What is learned of a share, against libraries that reckon the same laws in their own ways."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from cuttings.takes import shares
from cuttings.takes.shares import FINE, LOTS_DIFFER, Counts, Figure, Tallied, learned

ALIKE_BY_CHANCE = ((1e-7, 1.0),)
"""Stems of a lot that are alike by chance alone: then the posterior of the mean is a beta law."""


@pytest.mark.parametrize("alike", [0.01, 0.1, 0.4])
@pytest.mark.parametrize("mean", [0.05, 0.5, 0.9])
@pytest.mark.parametrize(("came", "not_"), [(0, 5), (7, 3), (12, 0)])
def test_the_chance_of_one_lot_is_that_of_scipy(came: int, not_: int, mean: float, alike: float) -> None:
    """``scipy.stats.betabinom`` counts every order in which the stems may come."""
    stems, shape = came + not_, 1.0 / alike - 1.0
    theirs = stats.betabinom.logpmf(came, stems, mean * shape, (1.0 - mean) * shape)
    ways = math.log(math.comb(stems, came))
    ours = Tallied.of([Counts(came, not_)]).log_chance(mean, alike)
    assert ours + ways == pytest.approx(theirs, abs=1e-9)


@pytest.mark.parametrize(("came", "not_"), [(0, 6), (14, 6), (3, 1), (156, 84)])
@pytest.mark.parametrize("figure", [Figure(0.6, 12.0, "a table"), Figure(0.5, 4.0, "from memory")])
def test_where_lots_differ_by_chance_alone_the_posterior_is_the_beta_law_of_scipy(
    figure: Figure, came: int, not_: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shares, "LOTS_DIFFER", ALIKE_BY_CHANCE)
    ours = learned(figure, [Counts(came, not_)], FINE)
    law = stats.beta(figure.mean * figure.stems + came, (1.0 - figure.mean) * figure.stems + not_)
    assert ours.mean == pytest.approx(law.mean(), abs=1e-3)
    for level in (0.5, 0.9, 0.95):
        wanted = law.ppf([(1.0 - level) / 2.0, (1.0 + level) / 2.0])
        assert ours.interval(level) == pytest.approx(tuple(wanted), abs=1e-3)


@pytest.mark.parametrize(("came", "stems"), [(14, 20), (3, 9), (107, 240)])
def test_from_the_figure_of_jeffreys_the_range_is_that_of_statsmodels(
    came: int, stems: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    from statsmodels.stats.proportion import proportion_confint

    monkeypatch.setattr(shares, "LOTS_DIFFER", ALIKE_BY_CHANCE)
    ours = learned(Figure(0.5, 1.0, "Jeffreys"), [Counts(came, stems - came)], FINE)
    theirs = proportion_confint(came, stems, alpha=0.1, method="jeffreys")
    assert ours.interval(0.9) == pytest.approx(theirs, abs=1e-3)


@pytest.mark.parametrize("lots", [[(14, 6)], [(7, 3), (2, 8), (9, 1)], [(0, 12)], [(40, 0), (3, 30)]])
def test_the_posterior_is_that_of_sums_over_a_fine_even_grid(lots: list[tuple[int, int]]) -> None:
    """The same model by ``scipy.stats`` on 4,000 even steps of the mean."""
    figure = Figure(0.6, 4.0, "from memory")
    means = [(number + 0.5) / 4000 for number in range(4000)]
    weights = []
    for mean in means:
        start = stats.beta.pdf(mean, figure.mean * figure.stems, (1 - figure.mean) * figure.stems)
        each = 0.0
        for alike, held in LOTS_DIFFER:
            a, b = mean * (1 / alike - 1), (1 - mean) * (1 / alike - 1)
            each += held * math.prod(float(stats.betabinom.pmf(y, y + n, a, b)) for y, n in lots)
        weights.append(start * each)
    whole = sum(weights)
    ours = learned(figure, [Counts(*lot) for lot in lots], FINE)
    wanted = sum(mean * weight for mean, weight in zip(means, weights, strict=True)) / whole
    assert ours.mean == pytest.approx(wanted, abs=1e-3)
    low, high = ours.interval(0.9)
    for end, share in ((low, 0.05), (high, 0.95)):
        below = sum(weight for mean, weight in zip(means, weights, strict=True) if mean <= end) / whole
        assert below == pytest.approx(share, abs=1e-3)


def test_many_lots_that_agree_tell_more_than_one_of_as_many_stems() -> None:
    figure = Figure(0.5, 4.0, "from memory")
    one, six = learned(figure, [Counts(42, 18)]), learned(figure, [Counts(7, 3)] * 6)
    assert (one.stems, six.stems) == (60, 60)
    assert width(six) < 0.8 * width(one)
    assert six.mean > one.mean


def test_lots_that_disagree_tell_less_than_lots_that_agree() -> None:
    figure = Figure(0.5, 4.0, "from memory")
    agree, disagree = learned(figure, [Counts(5, 5)] * 4), learned(figure, [Counts(10, 0), Counts(0, 10)] * 2)
    assert width(disagree) > 1.5 * width(agree)


def width(share: shares.Share) -> float:
    low, high = share.interval()
    return high - low


@given(
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30)), max_size=6),
    st.floats(0.03, 0.97),
    st.floats(3.0, 12.0),
)
def test_a_share_lies_in_its_range_and_what_fails_mirrors_what_comes_through(
    lots: list[tuple[int, int]], mean: float, stems: float
) -> None:
    ours = learned(Figure(mean, stems, ""), [Counts(*lot) for lot in lots])
    mirrored = learned(Figure(1.0 - mean, stems, ""), [Counts(n, y) for y, n in lots])
    low, high = ours.interval()
    assert 0.0 <= low < ours.mean < high <= 1.0
    assert sum(weight for _, weight in ours.points) == pytest.approx(1.0)
    assert mirrored.mean == pytest.approx(1.0 - ours.mean, abs=1e-3)


@given(st.integers(0, 20), st.integers(0, 20))
def test_one_stem_more_that_comes_through_raises_the_share(came: int, not_: int) -> None:
    figure = Figure(0.6, 4.0, "")
    assert learned(figure, [Counts(came + 1, not_)]).mean > learned(figure, [Counts(came, not_)]).mean
