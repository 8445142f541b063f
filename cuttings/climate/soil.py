"""The warmth of the soil, from the year's round of the air: a wave that flattens and lags with depth.

The annual and the daily wave of the surface sink into the ground as a damped, delayed sine (Oklahoma State
University, *Rain or Shine*, 13.4 Sub-Surface Soil Temperatures,
https://open.library.okstate.edu/rainorshine/chapter/13-4-sub-surface-soil-temperatures).

Limits: the mean is taken to be the same at every depth, and the soil's diffusivity to be the same at every
depth and all the year (Oklahoma State University, soil physics, after Hillel 1982: *Model Description*,
http://soilphysics.okstate.edu/toolkit/temperature/model.htm). The surface is taken to swing as far as the
air. Snow, the heat of freezing and thawing, shade, mulch and wet ground are left out: under snow the soil
stays warmer than this says, and in spring wet or shaded ground is later.
"""

import math

from cuttings.climate.wave import YEAR_DAYS, Wave

SOIL_SOURCE = "Oklahoma State University: Rain or Shine, 13.4 Sub-Surface Soil Temperatures"
SOIL_LIMITS = (
    "A damped wave from the year's round of the air; snow and mulch keep it warmer, wet and shade later."
)

DIFFUSIVITY_M2_PER_DAY = 0.05
"""How readily warmth spreads in the soil [m²/day]: the low end of 0.05 to 0.08, which varies with its water.

Oklahoma State University, soil physics (after Hillel 1982): Soil Temperature Exercises,
http://soilphysics.okstate.edu/software/SoilTemperature/exercises.html. The low end because other figures lie
below it: 0.043 in the worked example of *Rain or Shine* (0.50e-6 m²/s), and 0.028 from the annual damping
depth of 1.80 m under Dutch grass (Jacobs, Heusinkveld, Holtslag: Long-term record and analysis of soil
temperatures and soil heat fluxes in a grassland area, The Netherlands, Agricultural and Forest Meteorology
151, 2011, pages 774-780). At the depth of roots it matters little: from 0.028 to 0.08, what is left of the
amplitude at 15 cm goes from 0.92 to 0.95, and the delay from five days to three.
"""

WARMER_AT_0_C, WARMER_PER_C = 2.49, -0.09
"""How much warmer than the air the soil is in the mean of the year: 2.49 °C less 0.09 of the air's mean.

The soil's mean at 50 cm is 2.49 + 0.91 × the air's mean [°C], with an error of 0.74 °C (root mean square), at
69 stations in the eastern United States, 2005-2015 (D'Avello, Bathgate, Thompson: Modeling the thermic soil
temperature regime boundary of the eastern United States, Soil Science Society of America Journal, 2021,
pages 2100-2114, https://doi.org/10.1002/saj2.20320). That makes 2 °C if the air's mean is 5 °C and 1 °C if
it is 16 °C. Long snow makes it more: 2 to 5 °C in Finland (Yli-Halla, Mokma: Soil temperature regimes in
Finland, Agricultural and Food Science, https://doi.org/10.23986/afsci.5606).
"""

DAY_SECONDS = 86_400.0


def damping_depth_m(diffusivity_m2_per_day: float, period_days: float = YEAR_DAYS) -> float:
    """The depth at which 1/e (37 %) of a wave's amplitude is left [m].

    The square root of diffusivity × period / pi, which is that of 2 × diffusivity / (2 pi / period): the
    frequency of a daily wave is 2 pi a day. (One glossary prints 1 a day; that would be two and a half times
    too deep.)

    Args:
        diffusivity_m2_per_day: thermal diffusivity of the soil [m²/day], above 0.
        period_days: the wave's period [days], above 0; 1 for the daily wave.

    Raises:
        ValueError: diffusivity or period is not above 0.
    """
    if not (diffusivity_m2_per_day > 0.0 and period_days > 0.0):
        raise ValueError("Diffusivity and period must be more than nothing.")
    return math.sqrt(diffusivity_m2_per_day * period_days / math.pi)


def warmer_than_air_c(mean_air_c: float) -> float:
    """How much warmer the soil is than the air, both in the mean of the year [°C]."""
    return WARMER_AT_0_C + WARMER_PER_C * mean_air_c


def soil_wave(
    air: Wave,
    depth_m: float,
    diffusivity_m2_per_day: float = DIFFUSIVITY_M2_PER_DAY,
    warmer_by_c: float | None = None,
) -> Wave:
    """The year's round of the soil's daily mean temperature at a depth.

    Args:
        air: the year's round of the air's daily mean temperature.
        depth_m: depth below the surface [m], 0 or more.
        diffusivity_m2_per_day: thermal diffusivity of the soil [m²/day], above 0.
        warmer_by_c: soil less air in the mean of the year [°C]; from ``warmer_than_air_c`` if not given.

    Raises:
        ValueError: the depth is above ground, or the diffusivity not above 0.
    """
    damped = _damped(depth_m, damping_depth_m(diffusivity_m2_per_day))
    warmer = warmer_than_air_c(air.mean_c) if warmer_by_c is None else warmer_by_c
    return Wave(
        mean_c=air.mean_c + warmer,
        amplitude_c=air.amplitude_c * math.exp(-damped),
        peak_day=air.peak_day + damped * YEAR_DAYS / (2.0 * math.pi),
    )


def daily_amplitude_c(
    surface_amplitude_c: float, depth_m: float, diffusivity_m2_per_day: float = DIFFUSIVITY_M2_PER_DAY
) -> float:
    """What is left at a depth of the surface's swing between day and night [°C], half of it each way.

    Args:
        surface_amplitude_c: half the way from the coldest to the warmest hour at the surface [°C].
        depth_m: depth below the surface [m], 0 or more.
        diffusivity_m2_per_day: thermal diffusivity of the soil [m²/day], above 0.

    Raises:
        ValueError: the depth is above ground, or the diffusivity not above 0.
    """
    return surface_amplitude_c * math.exp(-_damped(depth_m, damping_depth_m(diffusivity_m2_per_day, 1.0)))


def _damped(depth_m: float, damping_m: float) -> float:
    """Depth in damping depths, which is the delay in radians too."""
    if not depth_m >= 0.0:
        raise ValueError("A depth in the soil cannot be above the ground.")
    return depth_m / damping_m
