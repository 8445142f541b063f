"""The climate as a page and as a document."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from attrs import frozen

from cuttings.climate.climate import ROOT_DEPTH_M, Climate
from cuttings.climate.daylength import day_length_hours
from cuttings.climate.frost import THRESHOLDS_F, Freezes, FrostDates
from cuttings.climate.normals import BLOOM_BASE_C
from cuttings.climate.soil import SOIL_LIMITS, SOIL_SOURCE
from cuttings.climate.zones import POT_ZONES_LESS
from cuttings.commands.desk import Desk
from cuttings.commands.telling import window_document
from cuttings.dates import spoken
from cuttings.plants.model import Plant
from cuttings.rules.advice import Window
from cuttings.rules.growth import hard_summer
from cuttings.rules.hardiness import ZONES
from cuttings.rules.seasons import ROOTS_GROW_C, frosts, frozen_ground
from cuttings.rules.taking import taken_at_rest
from cuttings.rules.transplant import planting_windows
from cuttings.rules.warmth import bloom_warmth, warmth
from cuttings.show.page import Page
from cuttings.show.plain import wrapped
from cuttings.show.year import Band, Bar, band_lines, bar_lines, month_line, odds_line, odds_table
from cuttings.units import celsius_to_fahrenheit, difference_shown, fahrenheit_to_celsius, show_temperature
from cuttings.words import Method, PlantType, Units

TENTHS = (10, 20, 30, 40, 50, 60, 70, 80, 90)

NORMALS_SOURCE = "NOAA: Freeze/Frost Data, Climatography of the United States No. 20 (the way of reckoning)"


@frozen
class Stretch:
    """A window of the year by its name, as dates."""

    name: str
    window: Window


SHRUB = Plant("a shrub", PlantType.SHRUB)
EVERGREEN = Plant("an evergreen", PlantType.SHRUB, evergreen=True)
PERENNIAL = Plant("a perennial", PlantType.PERENNIAL)
TENDER = Plant("a tender plant", PlantType.TENDER_PERENNIAL)


def stretches(climate: Climate, year: int) -> tuple[Stretch, ...]:
    """What the year is for: planting windows of each kind of plant, and hardwood."""
    found = [
        *(Stretch(_season("shrubs", each), each) for each in planting_windows(SHRUB, climate, year)),
        *(Stretch(_season("perennials", each), each) for each in planting_windows(PERENNIAL, climate, year)),
        *(Stretch(_season("evergreens", each), each) for each in planting_windows(EVERGREEN, climate, year)),
        *(Stretch("tender plants out", each) for each in planting_windows(TENDER, climate, year)),
        *(Stretch("take hardwood", each) for each in _hardwood(climate, year)),
    ]
    kept = {each.name: each for each in found}
    return tuple(kept.values())


def _season(kind: str, window: Window) -> str:
    spring = window.what.endswith("spring")
    return "plant in spring" if spring else f"autumn, {kind}"


def _hardwood(climate: Climate, year: int) -> tuple[Window, ...]:
    return taken_at_rest(SHRUB, Method.HARDWOOD_CUTTING, climate, year)


def climate_page(desk: Desk, climate: Climate) -> Page:
    """What the garden's dates rest on, the odds of cold, and the year drawn."""
    page = Page(margin_width=9).heading("Climate", desk.garden.name if desk.garden else "")
    _basis(page, desk, climate)
    _frost(page, desk, climate)
    _cold(page, desk, climate)
    _warmth(page, desk, climate)
    if climate.pace is not None:
        page.row("Season", climate.pace.said, tone="accent")
    frost = climate.frost
    if frost is not None:
        for side in ("spring", "autumn"):
            page.gap()
            page.drawing(*_table(frost, side, desk.units))
    page.gap()
    page.drawing(*_picture(climate, desk.on.year, desk.units))
    return page.next_steps(*_next(desk))


def _next(desk: Desk) -> tuple[str, ...]:
    if desk.garden is None:
        return ("'cuttings garden' describes the garden; until then it is an ordinary cold-winter one.",)
    sign = "'cuttings climate seen' writes down a sign of spring, and moves what growth brings with it."
    if desk.normals is not None:
        return (sign,)
    load = "'cuttings climate load FILE' reads the daily record of a weather station near you."
    if desk.climate.frost is None:
        return (load, "'cuttings garden --change' asks for your frost dates, if you have no such record.")
    return (load, sign)


def _basis(page: Page, desk: Desk, climate: Climate) -> None:
    frost = climate.frost
    if frost is None:
        page.row("From", "nothing yet: the dates are those of an ordinary cold-winter garden, from memory.")
        return
    halves = frost.at().half_widths()
    sure = ""
    if halves[0] is not None and halves[1] is not None:
        sure = (
            f"Nine times in ten the true even-odds date lies within {round(halves[0])} days of the one here "
            f"in spring, and within {round(halves[1])} in autumn."
        )
    limits = (
        "A station is not your garden: a hollow has frost earlier in autumn and later in spring."
        if climate.normals is not None
        else "Other thresholds than 32 °F are reckoned from these, and may be a week or two off."
    )
    page.row("From", f"{frost.stated}.", sure, limits, NORMALS_SOURCE if desk.why else "")


def _frost(page: Page, desk: Desk, climate: Climate) -> None:
    """When frost is over and when it is back, and the day tender plants wait for."""
    bounds = frosts(climate, desk.on.year)
    over, back, safe = (
        spoken(day, desk.on) for day in (bounds.last_spring, bounds.first_autumn, bounds.safe_spring)
    )
    risk = f"{climate.risk * 100:g}"
    kept = climate.risk == desk.climate.risk or desk.garden is None
    keeps = "" if kept else f"'cuttings garden --risk {risk}' keeps that risk."
    if bounds.frostless:
        page.row("Frost", "comes in fewer than half of the years.", keeps)
        return
    later = "" if climate.frost is None else f": frost comes later in {risk} years of 100"
    page.row(
        "Frost",
        f"is as likely as not over by {over}, and back by {back}.",
        f"Tender plants wait until {safe}{later}.",
        keeps,
    )


def _cold(page: Page, desk: Desk, climate: Climate) -> None:
    if climate.zone:
        coldest = climate.coldest_c
        mean = ""
        if coldest is not None:
            measured = climate.normals is not None and climate.normals.coldest_c is not None
            mean = (
                f"; the coldest night of a year is {show_temperature(coldest, desk.units)} in the mean"
                if measured
                else f", as you told it; its coldest nights are near {show_temperature(coldest, desk.units)}"
            )
        told = desk.garden.zone if desk.garden and desk.garden.zone not in ("", climate.zone) else ""
        differs = f"You told zone {told}; the record says {climate.zone}, and that is used." if told else ""
        page.row("Zone", f"{climate.zone}{mean}.", differs, _pots(climate), ZONES if desk.why else "")


def _pots(climate: Climate) -> str:
    number = climate.zone_number
    hardier = f" (to zone {max(number - POT_ZONES_LESS, 1)})" if number else ""
    return (
        "Roots in a pot are less hardy than the same plant's in the ground, for they meet the cold of the "
        f"air: leave out only what is two zones hardier{hardier}, or sink and group the pots. "
        "'cuttings plants NAME' tells the temperature that harms them, where it was measured."
    )


def _warmth(page: Page, desk: Desk, climate: Climate) -> None:
    year, units = desk.on.year, desk.units
    bounds = frosts(climate, year)
    soil = climate.soil
    rises, falls = soil.rises_through(ROOTS_GROW_C), soil.falls_through(ROOTS_GROW_C)
    roots = "all the year" if soil.mean_c > ROOTS_GROW_C else "hardly ever"
    if rises is not None and falls is not None:
        roots = (
            f"from {spoken(climate.spring_day(year, rises), desk.on)} "
            f"to {spoken(climate.autumn_day(year, falls), desk.on)}"
        )
    frozen = frozen_ground(climate, year)
    freezes = "does not freeze" if frozen is None else f"freezes about {spoken(bounds.freeze, desk.on)}"
    depth = "4 in" if units is Units.US else "10 cm"
    text = f"at {depth} it is above {show_temperature(ROOTS_GROW_C, units)} {roots}, and {freezes}."
    page.row("Soil", text, SOIL_LIMITS, SOIL_SOURCE if desk.why else "")
    sums = yearly_warmth(climate)
    base, total = show_temperature(BLOOM_BASE_C, units), difference_shown(sums["50"], units)
    light = day_length_hours(climate.lat, desk.on)
    hours, minutes = divmod(round(light * 60), 60)
    page.row(
        "Warmth",
        f"{total:,.0f} degree days above {base} in a year. {spoken(desk.on, desk.on)} has {hours} h "
        f"{minutes:02d} min of day.",
    )
    hard = hard_summer(climate, year)
    if hard is not None:
        stretch = f"{spoken(hard[0], desk.on)} to {spoken(hard[1], desk.on)}"
        text = f"heat or drought from {stretch}; plant before or after."
        page.row("Summer", text)


def yearly_warmth(climate: Climate) -> dict[str, float]:
    """A year's degree days [°C days]: above 41 °F by single sine, above 50 °F by the daily average."""
    return {"41": warmth(climate)[365], "50": bloom_warmth(climate)[365]}


def _threshold(threshold_f: int, units: Units) -> str:
    if units is Units.US:
        return f"{threshold_f} °F"
    return f"{fahrenheit_to_celsius(threshold_f):.1f} °C"


def _dates(frost: FrostDates, side: str, threshold_f: int) -> list[date | None]:
    ask = frost.last_spring if side == "spring" else frost.first_autumn
    return [ask(2001, tenth / 100, threshold_f) for tenth in TENTHS]


def _short(day: date | None) -> str:
    return "-" if day is None else f"{day.day} {day:%b}"


def _table(frost: FrostDates, side: str, units: Units) -> tuple[Any, ...]:
    head = "Last cold" if side == "spring" else "First cold"
    rows = [(_threshold(t, units), [_short(day) for day in _dates(frost, side, t)]) for t in THRESHOLDS_F]
    drawn = [(threshold.replace("°", ""), texts) for threshold, texts in rows]
    columns = [f"{tenth} %" for tenth in TENTHS]

    def draw(width: int) -> Sequence[str]:
        note = "chance of it later" if side == "spring" else "chance of it already"
        return [f"{head}, and the {note}", *odds_table("", drawn, columns, width)]

    said = "still to come after" if side == "spring" else "already come by"
    words = []
    for threshold, texts in rows:
        told = ", ".join(
            f"{text} ({column})" for text, column in zip(texts, columns, strict=True) if text != "-"
        )
        words.append(f"{threshold} {said}: {told or 'never so surely'}.")
    return draw, *words


def _picture(climate: Climate, year: int, units: Units) -> tuple[Any, ...]:
    bars = _bars(climate, year)
    chances = _chances(climate, year)
    band = _band(climate, units)

    def draw(width: int) -> Sequence[str]:
        lines = [month_line(width)]
        if band is not None:
            lines += band_lines(band, width)
        if climate.frost is not None:
            lines.append(odds_line("frost, tenths", chances, width))
        legend = _legend(band, climate.frost is not None, width)
        return [*lines, *(line for bar in bars for line in bar_lines(bar, width)), *legend]

    words = tuple(
        f"{each.name}: {spoken(each.window.opens)} to {spoken(each.window.closes)}, best "
        f"{spoken(each.window.best[0])} to {spoken(each.window.best[1])}."
        for each in stretches(climate, year)
    )
    return draw, *words


def _legend(band: Band | None, frost: bool, width: int) -> list[str]:
    told = []
    if band is not None:
        told.append("nights: = five in ten are colder, : eight in ten lie within, . freezing")
    told.append("jobs: - open, = at their best")
    if frost:
        told.append("frost: tens of a percent that it still comes, or has come")
    return ["", *wrapped("; ".join(told), width)]


def _band(climate: Climate, units: Units) -> Band | None:
    normals = climate.normals
    if normals is None:
        return None
    if units is Units.METRIC:
        return Band(normals.band_c, 0.0, "C")
    months = [tuple(celsius_to_fahrenheit(value) for value in month) for month in normals.band_c]
    return Band([(low, middle, high) for low, middle, high in months], 32.0, "F")


def _chances(climate: Climate, year: int) -> list[float | None]:
    """For each day of the year the chance that frost still comes before summer, or has come since."""
    if climate.frost is None:
        return []
    days = [date(year, 1, 1) + timedelta(days=number) for number in range(365)]
    midsummers = [climate.autumn_day(each, climate.air.peak_day) for each in (year - 1, year, year + 1)]
    midwinters = [climate.spring_day(each, climate.air.trough_day) for each in (year - 1, year, year + 1)]
    chances: list[float | None] = []
    for day in days:
        last_summer = max(each for each in midsummers if each <= day)
        last_winter = max(each for each in midwinters if each <= day)
        spring = last_winter > last_summer
        frost = climate.frost
        chances.append(frost.chance_of_later_frost(day) if spring else frost.chance_of_frost_already(day))
    return chances


def _bars(climate: Climate, year: int) -> list[Bar]:
    bars = []
    frozen = frozen_ground(climate, year)
    if frozen is not None:
        bars.append(Bar("ground frozen", _days(*frozen), _days(*frozen)))
    for each in stretches(climate, year):
        window = each.window
        bars.append(Bar(each.name, _days(window.opens, window.closes), _days(*window.best)))
    return bars


def _days(first: date, last: date) -> tuple[int, int]:
    return first.timetuple().tm_yday, last.timetuple().tm_yday


def climate_document(desk: Desk, climate: Climate) -> dict[str, Any]:
    """The climate for scripts; a probability that is never reached is ``null``."""
    frost, normals = climate.frost, climate.normals
    bounds = frosts(climate, desk.on.year)
    levels: tuple[Freezes, ...] = () if frost is None else frost.levels
    halves = {level.threshold_f: level.half_widths() for level in levels}
    return {
        "freeze": {side: _told(frost, side) for side in ("spring", "autumn")},
        "season_days": {
            str(threshold): {
                str(tenth): None if frost is None else frost.at(threshold).length_days(tenth / 100)
                for tenth in TENTHS
            }
            for threshold in THRESHOLDS_F
        },
        "share_of_years": {
            str(level.threshold_f): {
                "spring": round(level.spring.share, 4),
                "autumn": round(level.autumn.share, 4),
            }
            for level in levels
        },
        "sampling_days": {
            str(threshold): {"spring": _rounded(spring), "autumn": _rounded(autumn), "level": 0.9}
            for threshold, (spring, autumn) in halves.items()
        },
        "years": 0 if normals is None else normals.winters,
        "period": None if normals is None else [normals.first_year, normals.last_year],
        "station": None if normals is None else normals.station or None,
        "zone": climate.zone or None,
        "mean_annual_min_c": _rounded(None if normals is None else normals.coldest_c),
        "source": frost.stated if frost is not None else "an ordinary cold-winter garden, from memory",
        "risk": climate.risk,
        "last_frost": None if bounds.frostless else bounds.last_spring.isoformat(),
        "safe_spring": bounds.safe_spring.isoformat(),
        "first_frost": None if bounds.frostless else bounds.first_autumn.isoformat(),
        "soil": {
            "depth_m": ROOT_DEPTH_M,
            "mean_c": round(climate.soil.mean_c, 2),
            "amplitude_c": round(climate.soil.amplitude_c, 2),
            "warmest_day": round(climate.soil.peak_day),
            "workable": bounds.workable.isoformat(),
            "freezes": bounds.freeze.isoformat() if bounds.freezes else None,
            "source": SOIL_SOURCE,
        },
        "degree_days_c": {f"above_{name}_f": round(total) for name, total in yearly_warmth(climate).items()},
        "day_length_hours": round(day_length_hours(climate.lat, desk.on), 2),
        "windows": [
            {
                "what": each.name,
                **window_document(each.window),
                "why": each.window.why,
                "source": each.window.source,
            }
            for each in stretches(climate, desk.on.year)
        ],
        "pace": None
        if climate.pace is None
        else {
            "days": climate.pace.days,
            "degree_days_c": round(climate.pace.ahead, 1),
            "why": climate.pace.said,
        },
    }


def _told(frost: FrostDates | None, side: str) -> dict[str, dict[str, str | None]]:
    """The dates of one side by threshold and chance; all ``null`` where no frost dates are known."""
    told: dict[str, dict[str, str | None]] = {}
    for threshold in THRESHOLDS_F:
        dates = [None] * len(TENTHS) if frost is None else _dates(frost, side, threshold)
        odds = zip(TENTHS, dates, strict=True)
        told[str(threshold)] = {str(tenth): None if day is None else f"{day:%m-%d}" for tenth, day in odds}
    return told


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 2)
