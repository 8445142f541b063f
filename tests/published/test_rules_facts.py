"""The rules' figures against what growers and extension services publish.

Each check copies one published fact, restated, with its publisher, title and address. The garden is one
in central Iowa, whose first autumn freeze is that of Boone County: 23 September, 6 October and
20 October (Iowa State University Extension: Frost Dates in Iowa,
https://hortnews.extension.iastate.edu/frost-dates-iowa). Its last spring frost, early in May, is only
roughly known and no check leans on it.
"""

from datetime import date, timedelta

import pytest

from cuttings.climate.climate import Climate
from cuttings.climate.frost import frost_dates
from cuttings.plants.model import Bloom, Division, Plant, Way
from cuttings.rules.advice import Window
from cuttings.rules.division import division_windows
from cuttings.rules.hardening import HardeningPlan, after_night, plan
from cuttings.rules.layering import pegging_window, sever_window
from cuttings.rules.marks import mark_window
from cuttings.rules.seasons import frosts
from cuttings.rules.transplant import planting_windows
from cuttings.units import celsius_to_fahrenheit, fahrenheit_to_celsius
from cuttings.words import Method, PlantType, Purpose

IOWA = Climate(42.0, frost_dates((5, 5), None, None, ((9, 23), (10, 6), (10, 20))), "5a")

SHRUB = Plant("Viburnum", PlantType.SHRUB, zones=(3, 8))
SPRUCE = Plant("Picea", PlantType.TREE, zones=(2, 7), evergreen=True)
PEONY = Plant("Paeonia", PlantType.PERENNIAL, zones=(3, 8), division=Division("autumn", (9, 10, 11)))
TENDER = Plant("Pelargonium", PlantType.TENDER_PERENNIAL)


def autumn(plant: Plant) -> Window:
    return planting_windows(plant, IOWA, 2026)[-1]


def days_apart(found: date, published: date) -> int:
    return abs((found - published).days)


def iowa_plan(plant: Plant) -> HardeningPlan:
    return plan(plant, grown_under_cover=True, climate=IOWA)


@pytest.mark.parametrize("plant", [TENDER, SHRUB, PEONY])
def test_first_outings_last_two_to_four_hours(plant: Plant) -> None:
    """Penn State Extension: Hardening Transplants, https://extension.psu.edu/hardening-transplants: two to
    three hours. U of Minnesota Extension Master Gardeners (Bemidji Pioneer): Hardening off isn't hard at all,
    https://www.bemidjipioneer.com/news/4040064-master-gardeners-hardening-isnt-hard-all: three to four."""
    first = iowa_plan(plant).days[:3]
    assert all(2 <= day.hours_out <= 4 for day in first)
    assert all("shade" in day.shade for day in first)


def test_no_outing_below_45_to_50_f() -> None:
    """Penn State Extension: Hardening Transplants, https://extension.psu.edu/hardening-transplants"""
    assert 45 <= celsius_to_fahrenheit(iowa_plan(SHRUB).day_min_c) <= 50


def test_tender_plants_are_not_exposed_below_45_f() -> None:
    """UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants,
    https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants"""
    assert celsius_to_fahrenheit(iowa_plan(TENDER).day_min_c) >= 45 - 1e-9


def test_hardening_tender_plants_takes_at_least_two_weeks() -> None:
    """UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants,
    https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants"""
    assert len(iowa_plan(TENDER).days) >= 14


def test_nights_out_begin_after_about_a_week_when_they_are_near_50_f() -> None:
    """U of Minnesota Extension Master Gardeners (Bemidji Pioneer): Hardening off isn't hard at all,
    https://www.bemidjipioneer.com/news/4040064-master-gardeners-hardening-isnt-hard-all"""
    made = iowa_plan(TENDER)
    first_night = next(day.number for day in made.days if day.hours_out == 24)
    assert 7 <= first_night <= 9
    assert celsius_to_fahrenheit(made.night_min_c) == pytest.approx(50)


def test_watering_is_less_often_but_never_to_wilting() -> None:
    """University of Maryland Extension: Hardening Vegetable Seedlings for the Home Garden,
    https://extension.umd.edu/resource/hardening-vegetable-seedlings-home-garden"""
    day = iowa_plan(TENDER).days[2]
    assert "less often" in day.note
    assert "never let it wilt" in day.note
    assert "less often" in day.water
    assert "never to wilting" in day.water


def test_a_tender_plant_is_left_out_only_on_nights_of_50_f_or_warmer() -> None:
    """University of Maryland Extension: Hardening Vegetable Seedlings for the Home Garden, of cucumber and
    melon, https://extension.umd.edu/resource/hardening-vegetable-seedlings-home-garden"""
    made = iowa_plan(TENDER)
    night = next(day for day in made.days if day.overnight)
    assert after_night(made, night, fahrenheit_to_celsius(50)).value == 0
    assert after_night(made, night, fahrenheit_to_celsius(49)).value > 0


@pytest.mark.parametrize("degrees_f", [45, 50])
def test_a_sheltered_place_of_45_to_50_f_is_warm_enough_to_begin(degrees_f: float) -> None:
    """UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants,
    https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants"""
    made = iowa_plan(TENDER)
    assert made.day_min_c <= fahrenheit_to_celsius(degrees_f)
    assert made.days[0].wind == "sheltered"
    assert "shade" in made.days[0].shade


def test_tender_plants_begin_out_of_the_wind() -> None:
    """UC Master Gardeners (Santa Clara), California Master Gardener Handbook: Hardening Plants,
    https://mgscchelpdesk.zohodesk.com/portal/en/kb/articles/hardening-plants: not out when it is windy."""
    first = iowa_plan(TENDER).days[0]
    assert first.wind == "sheltered"
    assert "still" in first.note


@pytest.mark.parametrize("plant", [TENDER, SHRUB, PEONY])
def test_the_first_outing_is_as_long_as_one_publisher_or_another_gives_it(plant: Plant) -> None:
    """Hennepin County Master Gardeners (UMN): Start hardening off your vegetables now,
    https://hennepinmastergardeners.org/2014/05/start-hardening-off-your-vegetables-now/: about one hour, for
    vegetables. Penn State and Minnesota, as above, give two to three and three to four hours. They differ;
    our two hours are the shortest of what is said of every transplant, and an hour longer than Hennepin's."""
    assert 1 <= iowa_plan(plant).days[0].hours_out <= 4


def test_warm_crops_are_harmed_below_45_f() -> None:
    """Hennepin County Master Gardeners (UMN): Start hardening off your vegetables now, of tomato and pepper,
    https://hennepinmastergardeners.org/2014/05/start-hardening-off-your-vegetables-now/"""
    made = iowa_plan(TENDER)
    night = made.days[-1]
    assert after_night(made, night, fahrenheit_to_celsius(45)).value == 1
    assert after_night(made, night, fahrenheit_to_celsius(44)).value == 2
    assert celsius_to_fahrenheit(made.day_min_c) >= 45 - 1e-9


def test_iowa_evergreens_are_planted_from_mid_august_to_the_end_of_september() -> None:
    """Iowa State University Extension: Is late summer/early fall a good time to plant trees?,
    https://hortnews.extension.iastate.edu/faq/late-summerearly-fall-good-time-plant-trees. Within 3 days."""
    found = autumn(SPRUCE)
    assert days_apart(found.opens, date(2026, 8, 15)) <= 3
    assert days_apart(found.best[1], date(2026, 9, 30)) <= 3


def test_iowa_evergreens_are_in_by_early_october() -> None:
    """Iowa State University Extension: Planting Trees in Late Summer/Early Fall, 2011,
    http://www.ipm.iastate.edu/ipm/hortnews/2011/8-24/planting.html"""
    assert date(2026, 10, 1) <= autumn(SPRUCE).closes <= date(2026, 10, 10)


def test_iowa_deciduous_stock_is_planted_from_august_to_early_november() -> None:
    """Iowa State University Extension: Is late summer/early fall a good time to plant trees?,
    https://hortnews.extension.iastate.edu/faq/late-summerearly-fall-good-time-plant-trees. Within 3 days."""
    found = autumn(SHRUB)
    assert days_apart(found.opens, date(2026, 8, 1)) <= 3
    assert date(2026, 11, 1) <= found.closes <= date(2026, 11, 10)


def test_the_ground_freezes_after_autumn_divisions_are_mulched() -> None:
    """Iowa State University Extension: Which perennials can be divided in late summer?: mulch in mid to late
    November, https://hortnews.extension.iastate.edu/faq/which-perennials-can-be-divided-late-summer"""
    assert date(2026, 11, 15) <= frosts(IOWA, 2026).freeze <= date(2026, 12, 7)


def test_divisions_have_four_to_six_weeks_before_the_ground_freezes() -> None:
    """University of Minnesota Extension Master Gardener (via WCTrib): Divide perennials when plant is not
    flowering, 2023"""
    (found,) = division_windows(PEONY, IOWA, 2026)
    freeze = frosts(IOWA, 2026).freeze
    assert freeze - found.closes == timedelta(weeks=4)
    assert freeze - found.best[1] >= timedelta(weeks=6)


def test_perennials_are_planted_by_six_to_four_weeks_before_the_ground_freezes() -> None:
    """greenyplace.com (compiles Clemson and other extension text): How late in the fall can you divide
    perennials, https://greenyplace.com/how-late-in-the-fall-can-you-divide-perennials"""
    found = autumn(PEONY)
    assert frosts(IOWA, 2026).freeze - found.best[1] == timedelta(weeks=6)
    assert frosts(IOWA, 2026).freeze - found.closes == timedelta(weeks=4)


def test_iowa_peonies_are_divided_in_september() -> None:
    """Iowa State University Extension: What is the proper way to divide peonies?,
    https://hortnews.extension.iastate.edu/faq/what-proper-way-divide-peonies"""
    september = Plant("Paeonia", PlantType.PERENNIAL, division=Division("September", (9,)))
    (found,) = division_windows(september, IOWA, 2026)
    assert (found.opens, found.closes) == (date(2026, 9, 1), date(2026, 9, 30))


def test_potted_perennials_root_before_cold_when_potted_by_october() -> None:
    """UMass Extension: Overwintering Container-Grown Ornamentals: pot by late September or early October,
    https://ag.umass.edu/landscape/fact-sheets/overwintering-container-grown-ornamentals.
    Our best stretch for the open ground runs a little longer, and holds that date."""
    found = autumn(PEONY)
    assert found.best[0] <= date(2026, 9, 25) <= date(2026, 10, 5) <= found.best[1]


def test_layers_are_made_in_spring_and_summer() -> None:
    """University of Florida Agricultural Extension Service: Propagation of Ornamental Plants by Layering,
    1955, http://ufdc.ufl.edu/UF00084279/00001"""
    found = pegging_window(Way(Method.SIMPLE_LAYER), IOWA, 2026)
    assert date(2026, 3, 20) <= found.opens <= found.closes <= date(2026, 9, 22)


def test_spring_layers_are_rooted_before_dormancy_and_moved_the_next_spring() -> None:
    """Florida, as above: usually rooted before dormancy. University of Arkansas Cooperative Extension:
    Reference Desk: Layering: cut off and moved the next spring,
    https://www.uaex.edu/yard-garden/in-the-garden/reference-desk/propagating/layering.aspx"""
    found = sever_window(Method.SIMPLE_LAYER, date(2026, 4, 20), IOWA)
    assert found.opens < date(2026, 12, 1)
    assert date(2027, 3, 1) <= found.best[0] <= found.best[1] <= date(2027, 5, 31)


def test_bramble_tips_go_down_in_mid_to_late_summer_and_move_in_autumn_or_spring() -> None:
    """eXtension: How can I propagate additional plants from my blackberry stand,
    https://articles.extension.org/pages/34924/how-can-i-propagate-additional-plants-from-my-blackberry-stand"""
    pegged = pegging_window(Way(Method.TIP_LAYER), IOWA, 2026)
    assert date(2026, 7, 15) <= pegged.opens <= pegged.best[1] <= date(2026, 9, 22)
    cut = sever_window(Method.TIP_LAYER, date(2026, 8, 10), IOWA)
    assert cut.opens.month in (10, 11)
    assert cut.best[0].year == 2027


def test_mounded_shoots_are_cut_the_following_spring() -> None:
    """Oregon State Extension 1957 (quoted by Walden Effect): Propagating Clonal Rootstocks,
    https://www.waldeneffect.org/blog/Stooling_an_apple_rootstock/"""
    found = sever_window(Method.MOUND_LAYER, date(2026, 5, 20), IOWA)
    assert found.best[0].year == 2027
    assert found.best[0].month in (3, 4)


def test_daffodils_keep_their_leaves_four_to_six_weeks_after_flowering() -> None:
    """Iowa State University Extension and Outreach (via KCII Radio): Tips for daffodil care, 2015,
    https://www.kciiradio.com/2015/05/16/tips-for-daffodil-care"""
    daffodil = Plant("Narcissus", PlantType.BULB, bloom=Bloom((4,)))
    found = mark_window(Purpose.LIFT, daffodil, date(2026, 4, 20), IOWA)
    faded = date(2026, 4, 30)
    assert timedelta(weeks=4) <= found.opens - faded <= timedelta(weeks=6)


def test_snowdrops_are_split_as_the_flowers_fade() -> None:
    """Royal Botanic Garden Edinburgh, Botanics Stories, https://stories.rbge.info/archives/32976"""
    snowdrop = Plant("Galanthus nivalis", PlantType.BULB, bloom=Bloom((2, 3)))
    found = mark_window(Purpose.LIFT, snowdrop, date(2026, 3, 1), IOWA)
    assert found.opens == date(2026, 3, 31)


def test_hardwood_is_taken_after_a_hard_frost_in_late_autumn_and_early_winter() -> None:
    """University of Missouri Extension G6970: Home Propagation of Garden and Landscape Plants,
    http://extension.missouri.edu/publications/DisplayPrinterFriendlyPub.aspx?P=G6970"""
    found = mark_window(Purpose.TAKE_HARDWOOD, SHRUB, date(2026, 9, 1), IOWA)
    assert date(2026, 11, 1) <= found.opens
    assert found.best[1] <= date(2027, 1, 15)
