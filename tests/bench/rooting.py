"""How long one lot's posterior takes, against a reference library's plain fit of the same looks.

Run it by hand: `python -m tests.bench.rooting`. The three are run in turn in one process, so that whatever
else the machine does bears on all alike, and the medians are set against each other. The posterior is
reckoned anew each time, with the days of the next look and of giving up; the fits have no share that never
roots.
"""

import statistics
import time
import warnings
from collections.abc import Callable

import numpy as np
from lifelines import LogLogisticFitter
from scipy.stats import CensoredData, fisk

from cuttings.takes.curve import Curve
from cuttings.takes.forecasting import reckoned
from cuttings.takes.rooting import Looks, Prior

RUNS = 41
LOOKS = Looks(((21.0, 34.0, 5), (34.0, 41.0, 8), (41.0, 48.0, 4)), waiting=3, last=48.0)
PRIOR = Prior(Curve.of_range(28.0, 42.0), shift=0.0, sd=0.27, takes=2.4, fails=1.6)
INTERVALS = [(first, last) for first, last, count in LOOKS.rooted for _ in range(count)]
LATE = [LOOKS.last] * LOOKS.waiting
LOWER = np.array([first for first, _ in INTERVALS] + LATE)
UPPER = np.array([last for _, last in INTERVALS] + [np.inf] * len(LATE))


def ours() -> None:
    reckoned.__wrapped__(PRIOR, LOOKS, PRIOR.curve)


def by_scipy() -> None:
    fisk.fit(CensoredData(interval=INTERVALS, right=LATE), floc=0)


def by_lifelines() -> None:
    LogLogisticFitter().fit_interval_censoring(LOWER, UPPER)


def seconds(work: Callable[[], None]) -> float:
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def main() -> None:
    warnings.simplefilter("ignore")
    works = (ours, by_scipy, by_lifelines)
    for work in works:
        work()
    times = [[seconds(work) for work in works] for _ in range(RUNS)]
    mine, scipys, lifelines = (statistics.median(column) for column in zip(*times, strict=True))
    print(
        f"one lot's posterior, with its next look and its last: median {mine * 1000:.1f} ms over {RUNS} runs"
    )
    print(f"scipy's fit: median {scipys * 1000:.1f} ms, ratio {mine / scipys:.2f}")
    print(f"lifelines' fit: median {lifelines * 1000:.1f} ms, ratio {mine / lifelines:.2f}")


if __name__ == "__main__":
    main()
