"""Feed: how much fertiliser makes how strong a feed, what stock an injector draws, and whether it is time."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import click

from cuttings.ask import Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import lot_in, maybe, number
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger.lots import Lot
from cuttings.rules.advice import Advice
from cuttings.rules.caution import Task, general_cautions
from cuttings.rules.feeding import (
    EC_SOURCE,
    FULL_PPM_N,
    MOST_PPM,
    NOT_TO_FEED,
    RATIO_SOURCE,
    YOUNG_USUAL_PPM_N,
    Feed,
    Grade,
    Nutrient,
    Stock,
    Timing,
    check_holds,
    conductivity,
    feed_for,
    feed_now,
    feed_of,
    last_feed,
    parse_grade,
    parse_ratio,
    slow_to_dissolve,
    stock_for,
    too_strong,
    young_plants,
)
from cuttings.show.page import Page
from cuttings.units import LITRES, parse_mass, parse_volume, show_mass, show_volume
from cuttings.words import Stage, Units, listed

T = TypeVar("T")

CAN_L = {Units.US: 2 * LITRES["gal"], Units.METRIC: 10.0}
CAN_SAID = {Units.US: "2gal", Units.METRIC: "10L"}
"""The usual watering can; common practice."""

LEAST_WATER_L, MOST_WATER_L = 0.01, 1e6
WEIGH = "On scales; spoonfuls of two fertilisers differ in weight."
WEIGH_SOURCE = "New England Greenhouse Update: Checking Your Fertilizer Injector"
"""Fertiliser is measured by weight for mixing, not by volume."""

ONE_TANK = "No second feed in the same stock: calcium and phosphate together turn to sludge."
WATER_TOO = "Your water's own reading comes on top; the label tells it better."


_OF_A_FEED = ("grade", "ppm", "nutrient", "dose", "water", "injector")


@click.command(help="How much fertiliser makes how strong a feed, and whether LOT is to be fed now.")
@click.argument("lot", required=False)
@click.option("--grade", metavar="N-P-K", help="the three numbers on the label, such as 20-10-20")
@click.option("--ppm", metavar="N", help="the strength that is wanted, in ppm (mg/L) of nitrogen")
@click.option("--nutrient", metavar="NAME", help="count --ppm in N|P|K|P2O5|K2O instead")
@click.option("--dose", metavar="WEIGHT", help="instead of --ppm: how strong is so much fertiliser")
@click.option("--water", metavar="VOL", help="how much feed is made, such as 2gal or 10L")
@click.option("--injector", metavar="1:N", help="an injector's ratio; tells the stock to make")
@global_options
@with_desk
def feed(desk: Desk, **given: Any) -> None:
    if given["dose"] is not None and (given["ppm"] is not None or given["nutrient"] is not None):
        raise Misused("--dose tells how strong a feed is and --ppm asks for a dose; give one of the two.")
    about = desk.interview(given, [])
    lot = about.given(Question("lot", "", lot_in(desk.book.as_of(desk.on))))
    timing = None if lot is None else _timing(desk, lot)
    if lot is not None and timing is not None and all(given[name] is None for name in _OF_A_FEED):
        page = Page().heading("Feed", f"{lot.code} {lot.plant_called}")
        _add_timing(page, desk, lot, timing)
        page.next_steps("'cuttings feed --grade N-P-K --ppm N --water VOL' weighs one out.")
        desk.answer(page, {"lot": _timing_document(lot, timing)})
        return
    nutrient = about.given(_NUTRIENT) or Nutrient.N
    strength, water = _strength(nutrient), _water(desk)
    wanted = strength if given["dose"] is None else _dose(desk)
    interview = desk.interview(given, [_GRADE, wanted, water])
    grade = interview.ask(_GRADE)
    made, stock = _refusing(lambda: _made(interview, grade, nutrient, wanted, water))
    page = Page().heading("Feed", f"{grade}, {_ppm(made.ppm[nutrient])} of {nutrient.spoken}")
    if lot is not None and timing is not None:
        _add_timing(page, desk, lot, timing)
    _add_feed(page, desk, made, stock)
    page.warnings(advice.value for advice in _warnings(made, stock))
    page.warnings(caution.text for caution in general_cautions(Task.FEED))
    desk.answer(page, _document(made, nutrient, stock, lot, timing))


def _refusing(make: Callable[[], T]) -> T:
    try:
        return make()
    except ValueError as error:
        raise Refused(str(error)) from None


def _made(
    interview: Interview, grade: Grade, nutrient: Nutrient, wanted: Question[float], water: Question[float]
) -> tuple[Feed, Stock | None]:
    by_dose = wanted.name == "dose"
    if not by_dose:
        check_holds(grade, nutrient)
    amount, litres = interview.ask(wanted), interview.ask(water)
    parts = interview.ask(_INJECTOR)
    made = feed_of(grade, amount, litres) if by_dose else feed_for(grade, nutrient, amount, litres)
    return made, None if parts is None else stock_for(made, parts)


def _read_nutrient(text: str) -> Nutrient:
    word = text.strip().upper()
    if word not in list(Nutrient):
        raise ValueError(f"'{text}' is none of: {', '.join(Nutrient)}.")
    return Nutrient(word)


_NUTRIENT = Question("nutrient", "", _read_nutrient, allowed="|".join(Nutrient))
_GRADE = Question(
    "grade", "Which grade, the three numbers on the label?", parse_grade, allowed="such as 20-10-20"
)
_INJECTOR = Question(
    "injector",
    "Which ratio has your injector, such as 1:200? (Enter for none)",
    maybe(parse_ratio),
    default="",
)


def _strength(nutrient: Nutrient) -> Question[float]:
    def read(text: str) -> float:
        bare = text.strip().lower().removesuffix("ppm").removesuffix("mg/l")
        return number(0.01, MOST_PPM, "a strength in ppm")(bare)

    question = Question(
        "ppm",
        f"How strong, in ppm of {nutrient.spoken}?",
        read,
        allowed="a strength such as 100, or --dose WEIGHT",
    )
    low, high = FULL_PPM_N
    why = f"For young plants, half of the {low:.0f} to {high:.0f} that grown ones get."
    return question.offering(f"{YOUNG_USUAL_PPM_N:g}", why) if nutrient is Nutrient.N else question


def _dose(desk: Desk) -> Question[float]:
    return Question("dose", "How much fertiliser?", lambda text: parse_mass(text, desk.units))


def _water(desk: Desk) -> Question[float]:
    def read(text: str) -> float:
        litres = parse_volume(text, desk.units)
        if not LEAST_WATER_L <= litres <= MOST_WATER_L:
            raise ValueError(f"{text} is not an amount anybody feeds with; check the unit.")
        return litres

    return Question("water", "How much feed is to be made?", read, default=CAN_SAID[desk.units],
                    why="A watering can.", allowed="a volume such as 2gal or 10L")  # fmt: skip


def _timing(desk: Desk, lot: Lot) -> Timing:
    held = [stage for stage, count in lot.stages.items() if count]
    return feed_now(desk.on, held, lot.reached(Stage.POTTED) or lot.started_on, desk.climate)


def _warnings(made: Feed, stock: Stock | None) -> Sequence[Advice[str]]:
    said = too_strong(made), None if stock is None else slow_to_dissolve(stock.g_per_l)
    return [advice for advice in said if advice is not None]


def _add_feed(page: Page, desk: Desk, made: Feed, stock: Stock | None) -> None:
    ppm, units = made.ppm, desk.units
    dose = f"{_both(made.dose_g, units)} of fertiliser in {show_volume(made.water_l, units)} of feed."
    page.row("Weigh", dose, WEIGH, WEIGH_SOURCE if desk.why else "", tone="accent")
    can = CAN_L[units]
    other = abs(made.water_l - can) > 1e-6 * can
    page.row("A can", f"{_both(made.g_per_l * can, units)} in {show_volume(can, units)}.", only_if=other)
    n, p, k = (_ppm(ppm[each]) for each in (Nutrient.N, Nutrient.P, Nutrient.K))
    oxides = [f"{_ppm(ppm[each])} {each.spoken} ({each})" for each in (Nutrient.P2O5, Nutrient.K2O)]
    counted = f"The label counts the last two with their oxygen, as {listed(oxides)}."
    page.row("Holds", f"{n} nitrogen, {p} phosphorus and {k} potassium.", counted)
    if stock is not None:
        _add_stock(page, desk, stock)
    meter = conductivity(made)
    if meter is not None:
        reading = f"About {meter[0]:.2g} to {meter[1]:.2g} mS/cm on a conductivity meter (EC), very roughly."
        page.row("Meter", reading, WATER_TOO, EC_SOURCE if desk.why else "")
    young = young_plants(made)
    page.row("Young", f"{young.value} {young.why}", young.source if desk.why else "")
    last = last_feed(desk.climate, desk.on) if desk.garden else None
    until = f" Here the last feed is near {spoken(last, desk.on)}." if last else ""
    reasons = (NOT_TO_FEED.why, NOT_TO_FEED.source) if desk.why else ()
    page.row("Not for", NOT_TO_FEED.value + until, *reasons)


def _add_stock(page: Page, desk: Desk, stock: Stock) -> None:
    per_litre = f"{stock.g_per_l:.3g} g to the litre"
    if desk.units is Units.US:
        per_litre = f"{show_mass(stock.g_per_l * LITRES['gal'], desk.units)} to the gallon ({per_litre})"
    parts, weaker = f"{stock.parts:g}", f"{stock.weaker_if_added:.2g} %"
    page.row(
        "Stock",
        f"For 1:{parts}, {per_litre}; {show_volume(stock.litres, desk.units)} of it makes this feed.",
        f"One part of stock in {parts} parts of feed, as growers' charts mean it; if your injector means one "
        f"part to {parts} of water, the feed is {weaker} weaker. {ONE_TANK}",
        RATIO_SOURCE if desk.why else "",
    )


def _add_timing(page: Page, desk: Desk, lot: Lot, timing: Timing) -> None:
    opens = f" From about {spoken(timing.opens, desk.on)}." if timing.opens else ""
    answer = "yes." if timing.now else f"not now.{opens}"
    page.row(lot.code, f"{lot.plant_called}: {answer}", timing.why, timing.source if desk.why else "")


def _both(grams: float, units: Units) -> str:
    """A mass in the garden's own units, and in grams where those are others."""
    if units is Units.METRIC:
        return show_mass(grams, units)
    return f"{show_mass(grams, units)} ({show_mass(grams, Units.METRIC)})"


def _ppm(value: float) -> str:
    return f"{value:.0f} ppm" if value >= 9.95 else f"{value:.2g} ppm"


def _figures(value: float) -> float:
    """Six figures, which is more than any scale has."""
    return float(f"{value:.6g}")


def _timing_document(lot: Lot, timing: Timing) -> dict[str, Any]:
    opens = timing.opens.isoformat() if timing.opens else None
    return {"lot": lot.code, "now": timing.now, "from": opens, "why": timing.why, "source": timing.source}


def _document(
    made: Feed, nutrient: Nutrient, stock: Stock | None, lot: Lot | None, timing: Timing | None
) -> dict[str, Any]:
    meter = conductivity(made)
    grade = made.grade
    return {
        "grade": [grade.n, grade.p2o5, grade.k2o],
        "nutrient": nutrient.value,
        "ppm": {each.value: _figures(ppm) for each, ppm in made.ppm.items()},
        "dose_g": _figures(made.dose_g),
        "water_l": _figures(made.water_l),
        "g_per_l": _figures(made.g_per_l),
        "injector_parts": None if stock is None else _figures(stock.parts),
        "stock_g_per_l": None if stock is None else _figures(stock.g_per_l),
        "stock_l": None if stock is None else _figures(stock.litres),
        "ec_ms_per_cm": None if meter is None else [_figures(each) for each in meter],
        "for_young_plants": young_plants(made).value,
        "lot": None if lot is None or timing is None else _timing_document(lot, timing),
        "warnings": [advice.value for advice in _warnings(made, stock)],
        "cautions": [caution.text for caution in general_cautions(Task.FEED)],
    }
