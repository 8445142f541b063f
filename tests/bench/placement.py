"""The joint plan in gardens of three sizes, beside the rule "best site first, in order".

    python -m tests.bench.placement

For each garden: the greedy rule's total fit, that of the first plan and of the last, the proven gap, the
seconds, how many plants found a place, and what an independent checker finds broken.
"""

from time import perf_counter

from cuttings.commands.terminal import no_chatter
from cuttings.placement.match import Joint
from tests.placement.checker import faults
from tests.placement.gardens import garden
from tests.placement.greedy import greedy_total

SIZES = (("roomy", 40, 120, 12, 1.5), ("usual", 40, 120, 12, 1.0), ("crowded", 40, 120, 12, 0.6),
         ("large", 200, 600, 60, 1.0))  # fmt: skip
SECONDS = 30.0
SEEDS = (1, 2, 3)


def main() -> None:
    print(f"{'garden':<10} seed  greedy   first    last   bound     gap  first s  last s  placed  broken")
    for name, lots, plants, sites, roomy in SIZES:
        for seed in SEEDS if name != "large" else SEEDS[:1]:
            print(f"{name:<10} {_line(seed, lots, plants, sites, roomy)}", flush=True)


def _line(seed: int, lots: int, plants: int, sites: int, roomy: float) -> str:
    made = garden(seed, lots, plants, sites, roomy=roomy)
    joint = Joint(made.lots, made.sites, [], made.setting)
    began, first, last, seconds = perf_counter(), None, None, [0.0, 0.0]
    with no_chatter():
        for last in joint.states():
            seconds[1] = perf_counter() - began
            if first is None:
                first, seconds[0] = last, seconds[1]
            if last.gap <= 1e-3 or seconds[1] > SECONDS:
                break
    assert first is not None
    assert last is not None
    plan = joint.plan(last)
    broken = faults(plan, made.sites, {wanted.lot: wanted.plant for wanted in made.lots}, zone=5)
    return (
        f"{seed:4d} {greedy_total(made):7.2f} {first.total:7.2f} {last.total:7.2f} {last.bound:7.2f} "
        f"{last.gap:7.2%} {seconds[0]:8.1f} {seconds[1]:7.1f} {len(plan.plan):7d} {len(broken):7d}"
    )


if __name__ == "__main__":
    main()
