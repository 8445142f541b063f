"""Degree days, against worked examples and a published calculator.

Each check copies one published fact, restated, with its publisher, title and address.
"""

from statistics import fmean

import pytest

from cuttings.climate.heat import accumulated, degree_days_86_50, degree_days_average, degree_days_sine

CLARK = """Ohio State University Extension Clark Co. (Springfield News-Sun):
Plant Development and Growing Degree Days,
http://www.springfieldnewssun.com/lifestyles/home--garden/plant-development-and-growing-degree-days/X8HiDu6bS3PbaP9INvxUWM/amp.html"""
AKRON = """OSU Extension (Akron Beacon Journal): Degree days predict when things will happen in landscape,
https://www.beaconjournal.com/entertainmentlife/20190307/plant-lovers-almanac-degree-days-predict-when-things-will-happen-in-landscape"""
MICHIGAN = """Michigan State University Extension: Calculating Growing Degree Days,
https://info.5y1.org/how-do-you-calculate-the-difference_1_baa5bb.html"""
WAUSHARA = """UW Extension Waushara Co.: Calculating Growing Degree Days,
https://www.wausharaargus.com/latest-ag-news/calculating-growing-degree-days"""
CORN = """Ohio State University Extension: Corn Growing Degree Days,
https://wfin.com/agnet/corn-growing-degree-days/?utm_source=rss&utm_medium=rss&utm_campaign=corn-growing-degree-days"""
IOWA = """Iowa State University Agronomy 541: Growing degree day rules,
http://agron-www.agron.iastate.edu/courses/Agron541/classes/541/lesson02b/2b.1.1.html"""

BASE_F, UPPER_F = 50.0, 70.0

CALCULATOR = [
    (34, 47, 0.00), (36, 48, 0.00), (39, 49, 0.00),  # all below the base
    (41, 50, 0.00), (31, 50, 0.00), (31, 51, 0.10), (30, 53, 0.47), (44, 55, 1.51), (29, 64, 3.93),
    (46, 69, 8.22), (48, 70, 9.26), (49, 70, 9.59),  # through the base
    (50, 64, 7.00), (54, 67, 10.50), (51, 63, 7.00), (50, 70, 10.00),  # all between
    (50, 72, 10.74), (53, 71, 11.90), (57, 73, 14.44), (60, 79, 16.72), (66, 100, 19.41), (69, 97, 19.92),
    (54, 90, 15.24), (52, 97, 14.94),  # through the upper threshold
    (71, 103, 20.00), (72, 95, 20.00),  # all above
    (44, 76, 10.00), (46, 81, 11.37), (36, 76, 8.65), (49, 90, 13.29), (41, 80, 10.17), (35, 64, 4.37),
]  # fmt: skip
"""Lowest and highest of a day [°F]; its degree days from 50 to 70 °F by single sine, horizontal cut-off.

University of California Statewide Integrated Pest Management Program: Degree-Days, Custom Calculation, run on
the weather of Esparto, California, 2020, and published as reference answers by University of California
Agriculture and Natural Resources, Informatics and GIS: Degree Days Validation Challenge,
https://github.com/UCANR-IGIS/degree-day-challenge (data/ucipm_results/ucipm_low50_high70_sngsine_horiz.csv).
"""

JANUARY = [
    (38, 55), (36, 67), (33, 59), (37, 59), (38, 63), (36, 58), (30, 53), (41, 50), (37, 53), (32, 55),
    (42, 61), (37, 57), (39, 58), (38, 57), (31, 51), (39, 58), (34, 47), (35, 54), (36, 48), (39, 53),
    (38, 58), (42, 60), (42, 57), (41, 60), (46, 62), (54, 67), (50, 64), (49, 62), (46, 69), (43, 67),
    (39, 67),
]  # fmt: skip
JANUARY_SUMS = {1: 1.19, 10: 20.20, 20: 33.83, 31: 93.81}
"""The days of January of the same record, and the running sum printed for some of them."""


def sine(low: float, high: float) -> float:
    return degree_days_sine(low, high, BASE_F, UPPER_F)


@pytest.mark.parametrize(
    ("low", "high", "printed", "source"),
    [
        (43, 63, 3.0, CLARK),
        (45, 45, 0.0, CLARK),  # printed as a mean of 45
        (62, 64, 13.0, AKRON),
        (40, 65, 2.5, MICHIGAN),
        (35, 60, 0.0, MICHIGAN),
    ],
)
def test_the_average_of_the_worked_examples(low: float, high: float, printed: float, source: str) -> None:
    assert degree_days_average(low, high, BASE_F) == pytest.approx(printed), source


@pytest.mark.parametrize(
    ("low", "high", "printed", "source"),
    [
        (65, 90, 25.5, WAUSHARA),
        (46, 72, 11.0, WAUSHARA),
        (42, 63, 6.5, WAUSHARA),
        (63, 87, 24.5, CORN),
        (50, 70, 10.0, IOWA),
        (86, 86, 36.0, IOWA),  # the most a day can have
        (90, 110, 36.0, IOWA),
    ],
)
def test_the_modified_method_of_the_worked_examples(
    low: float, high: float, printed: float, source: str
) -> None:
    assert degree_days_86_50(low, high) == pytest.approx(printed), source


def test_three_days_of_the_modified_method_add_up() -> None:
    """UW Extension Waushara Co. (as above): 25.5 + 11 + 6.5 = 43."""
    sums = accumulated([(65, 90), (46, 72), (42, 63)], degree_days_86_50)
    assert sums == pytest.approx((25.5, 36.5, 43.0))


def test_the_sine_counts_an_afternoon_that_the_average_leaves_out() -> None:
    """Michigan State University Extension (as above): 60/35 gives nothing by average, some by the sine."""
    assert degree_days_average(35, 60, BASE_F) == 0.0
    assert degree_days_sine(35, 60, BASE_F) > 1.0


@pytest.mark.parametrize(("low", "high", "printed"), CALCULATOR)
def test_the_single_sine_of_a_published_calculator(low: float, high: float, printed: float) -> None:
    """Printed to the hundredth."""
    assert sine(low, high) == pytest.approx(printed, abs=0.00501)


@pytest.mark.parametrize(("day", "printed"), JANUARY_SUMS.items())
def test_the_running_sum_of_a_published_calculator(day: int, printed: float) -> None:
    """Printed to the hundredth, from days that were not rounded."""
    assert accumulated(JANUARY, sine)[day - 1] == pytest.approx(printed, abs=0.00501)


def test_degree_days_of_mean_temperatures_are_not_means_of_degree_days() -> None:
    """The same January: the printed sum is 93.81, and one of thirty-one mean days has nearly a fifth less.
    By the average method it has none at all, against one and a half a day."""
    low, high = (fmean(day[end] for day in JANUARY) for end in (0, 1))
    assert len(JANUARY) * sine(low, high) < 0.82 * 93.81
    assert degree_days_average(low, high, BASE_F) == 0.0
    assert fmean(degree_days_average(*day, BASE_F) for day in JANUARY) > 1.5
