"""The scale a station file is written in: told, or seen from the data.

The rule: average the maxima of each calendar month over all its years and take the warmest month. Above 122
it can only be in tenths of °C, for no place on earth has a month as warm as 50 °C, which is 122 °F. Above
50 it is in °F by the same limit; anything less is in °C. Readings with a fraction are never tenths.

Its limits: tenths of °C from a place whose warmest month has a mean maximum of 5 to 12 °C are taken for °F,
and °F from a place that never gets above 10 °C for °C. Nothing is gardened in such places, so what a
person says of the units is held against the same rule. Rain follows the temperatures: inches with °F, mm
with °C, tenths of mm with tenths of °C.
"""

from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from cuttings.words import Units

KELVINS: Final = (260.0, 325.0)
"""Between these lies a warmest month's mean maximum in kelvins wherever something grows; from memory."""

AS_KELVINS: Final = (
    "The temperatures look like kelvins (the warmest month's mean maximum is {:.0f}); take 273.15 off every "
    "one of them, which makes °C, and load the file again."
)

AS_KELVINS_HEADED: Final = (
    "The headings say kelvins; take 273.15 off every temperature, which makes °C, mend the headings, and "
    "load the file again."
)

HOTTEST_MONTH_C: Final = 50.0
HOTTEST_MONTH_F: Final = 122.0
"""A mean maximum that no month reaches anywhere; from memory (the same temperature twice)."""


class Scale(StrEnum):
    """What a file's numbers mean, for temperatures and for rain."""

    TENTHS = "tenths of °C and of mm"
    METRIC = "°C and mm"
    US = "°F and inches"

    @property
    def units(self) -> Units:
        """The units a person would name for it."""
        return Units.US if self is Scale.US else Units.METRIC


RAIN_TENTHS: Final = {Scale.TENTHS: 1.0, Scale.METRIC: 10.0, Scale.US: 254.0}
"""Tenths of mm in one unit of rain."""


def looks_like_kelvins(warmest: float) -> bool:
    """Whether a warmest month's mean maximum may be in kelvins; it may be in tenths of °C as well."""
    return KELVINS[0] <= warmest <= KELVINS[1]


def scale_of(warmest: float, *, whole: bool, told: Units | None, headed: bool = False) -> Scale:
    """The scale of a file whose warmest month has that mean maximum, in the file's own numbers.

    ``whole`` says that no reading has a fraction; ``told`` is what the person said the units are, or with
    ``headed`` what the headings say.

    Raises:
        ValueError: the numbers fit no scale, or not the one that was told.
    """
    seen = _seen(warmest, whole)
    if seen is None and looks_like_kelvins(warmest):
        raise ValueError(AS_KELVINS.format(warmest))
    if seen is None:
        raise ValueError(
            f"The warmest month's mean maximum is {warmest:.0f}, which is too hot in °F and in °C; check "
            "that the columns are minimum and maximum temperatures, and load the file again."
        )
    if told in (None, seen.units):
        return seen
    other, scale = (Units.METRIC, "°F") if told is Units.US else (Units.US, "°C")
    if headed:
        raise ValueError(
            f"The headings say {scale}, but the warmest month's mean maximum is {warmest:.0f}, which cannot "
            f"be that; mend the headings, or load the file with --file-units {other.value}."
        )
    raise ValueError(
        f"The warmest month's mean maximum is {warmest:.0f}, which cannot be {scale}; load the file with "
        f"--file-units {other.value}, or without that option."
    )


def _seen(warmest: float, whole: bool) -> Scale | None:
    if warmest <= HOTTEST_MONTH_C:
        return Scale.METRIC
    if warmest <= HOTTEST_MONTH_F:
        return Scale.US
    return Scale.TENTHS if whole and warmest <= 10 * HOTTEST_MONTH_C else None


def in_tenths(values: NDArray[np.float64], scale: Scale) -> NDArray[np.float64]:
    """Temperatures in whole tenths of °C; NaN stays NaN."""
    match scale:
        case Scale.TENTHS:
            return np.rint(values)
        case Scale.METRIC:
            return np.rint(values * 10.0)
        case Scale.US:
            return np.rint((values - 32.0) / 0.18)
