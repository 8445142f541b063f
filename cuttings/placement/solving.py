"""Linear programmes of whole or broken numbers, row by row, solved by HiGHS through SciPy."""

from collections.abc import Iterable

import numpy as np
from attrs import define, field

from cuttings.placement.bed import Floats

ROUNDING = 1e-9
"""Limits are met to this share, whatever the last bit of a number says."""


@define(eq=False)
class Rows:
    """The limits of a programme: each a weighted sum of columns that may not pass a number."""

    rows: list[int] = field(factory=list)
    columns: list[int] = field(factory=list)
    weights: list[float] = field(factory=list)
    most: list[float] = field(factory=list)

    def add(self, weighted: Iterable[tuple[int, float]], most: float) -> None:
        for column, weight in weighted:
            self.rows.append(len(self.most))
            self.columns.append(column)
            self.weights.append(weight)
        self.most.append(most + ROUNDING * max(most, 1.0))

    def solve(
        self, gain: Floats, upper: Floats, *, whole: bool = True, exact: float, seconds: float
    ) -> tuple[Floats, float] | None:
        """The columns' values for the highest total gain, and what that total cannot pass.

        Args:
            gain: of each column; ``upper`` is the most it may be, the least being 0.
            whole: whether the values must be whole numbers.
            exact: how far short of the best the answer may fall, as a share of it.
            seconds: after how long the best answer so far is taken.

        Returns:
            ``None`` where no answer was found in the time.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        shape = (len(self.most), len(gain))
        solved = milp(
            -gain,
            integrality=np.full(len(gain), int(whole)),
            bounds=Bounds(0, upper),
            constraints=LinearConstraint(
                csr_array((self.weights, (self.rows, self.columns)), shape=shape), ub=np.array(self.most)
            ),
            options={"mip_rel_gap": exact, "time_limit": seconds},
        )
        if solved.x is None:
            return None
        bound = solved.fun if solved.mip_dual_bound is None else solved.mip_dual_bound
        return np.asarray(solved.x), -float(bound)
