"""The wave nearest to a table's twelve monthly means, as published checks need it."""

import math
from collections.abc import Sequence

import numpy as np

from cuttings.climate.wave import YEAR_DAYS, Wave

MONTH_DAYS = np.array((31.0, 28.25, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0))


def fitted(monthly_c: Sequence[float]) -> Wave:
    """The wave nearest to the means of the months from January, degrees Celsius, by least squares.

    The mean of a month is flatter than the wave it is taken from, by the factor ``sin(x) / x`` with ``x``
    half the month's share of the turn (about 1 %); the fit makes up for that.
    """
    middles = (0.5 + np.cumsum(MONTH_DAYS) - MONTH_DAYS / 2.0) * math.tau / YEAR_DAYS
    flatter = np.sinc(MONTH_DAYS / YEAR_DAYS)
    columns = np.column_stack((np.ones(12), flatter * np.cos(middles), flatter * np.sin(middles)))
    (mean, cosine, sine), *_ = np.linalg.lstsq(columns, np.asarray(monthly_c, float))
    turned = math.atan2(sine, cosine) / math.tau * YEAR_DAYS
    return Wave(float(mean), math.hypot(cosine, sine), turned)
