"""What is known of a plant: how to make more of it, when, and what it needs."""

from calendar import month_abbr, month_name
from typing import Any

import click

from cuttings.climate.zones import parse_zone
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import one_of
from cuttings.commands.telling import spoiled, window_document
from cuttings.dates import margin, parse_month, spoken, spoken_span
from cuttings.errors import Misused, Refused
from cuttings.plants.catalogue import Catalogue, standard
from cuttings.plants.model import Division, Plant, Range, Way
from cuttings.plants.understood import understand
from cuttings.rules.increase import best_way
from cuttings.rules.windows import windows_of
from cuttings.show.page import Page
from cuttings.units import show_span, show_temperature
from cuttings.words import Light, Method, Units


@click.command(help="What is known of a plant; with no name, the plants that are known.")
@click.argument("name", required=False)
@click.option("--light", metavar="LIGHT", help="only plants for that light: " + "|".join(Light))
@click.option("--zone", metavar="ZONE", help="only plants hardy in that zone, such as 5b")
@click.option(
    "--hardwood-in", metavar="MONTH", help="only plants to take hardwood of in that month, such as nov or 11"
)
@global_options
@with_desk
def plants(desk: Desk, name: str | None, **given: Any) -> None:
    catalogue = standard()
    if name is None:
        _list(desk, catalogue, given)
        return
    found = understand(catalogue, name)
    if found.candidates:
        raise Refused(f"'{name}' could be {' or '.join(found.candidates)}; give the full name.")
    if found.plant is None:
        raise Refused(
            f"No plant called '{name}' is in the catalogue; 'cuttings plants' lists them. It can be recorded "
            "all the same, and the general rules for its kind then apply."
        )
    if found.remark:
        desk.remark(found.remark)
    desk.answer(_sheet(desk, catalogue, found.plant), document(desk, catalogue, found.name, found.plant))


def _list(desk: Desk, catalogue: Catalogue, given: dict[str, Any]) -> None:
    known = [plant for plant in catalogue if _fits(desk, plant, given)]
    count = f"{len(known)} that fit" if any(given.values()) else f"{len(known)} known"
    page = Page(margin_width=22).heading("Plants", count)
    for plant in sorted(known, key=_called):
        whole = " (any kind)" if plant.rank == "genus" else ""
        page.row(_called(plant), f"{plant.name}{whole}")
    page.next_steps("'cuttings plants NAME' shows one of them.")
    desk.answer(page, {"plants": [{"name": plant.name, "common": list(plant.common)} for plant in known]})


def _called(plant: Plant) -> str:
    return plant.common[0] if plant.common else plant.name


def _fits(desk: Desk, plant: Plant, given: dict[str, Any]) -> bool:
    interview_light = _read(given["light"], one_of(Light), "--light")
    zone = _read(given["zone"], parse_zone, "--zone")
    month = _read(given["hardwood_in"], parse_month, "--hardwood-in")
    if interview_light and interview_light not in plant.light:
        return False
    if zone and not (plant.zones and plant.zones[0] <= int(zone.rstrip("ab")) <= plant.zones[1]):
        return False
    if month:
        way = plant.way(Method.HARDWOOD_CUTTING)
        return way is not None and month in {desk.climate.month_here(each) for each in way.months}
    return True


def _read(text: str | None, parse: Any, option: str) -> Any:
    try:
        return parse(text) if text else None
    except ValueError as error:
        raise Misused(f"{option}: {error}") from None


def _sheet(desk: Desk, catalogue: Catalogue, plant: Plant) -> Page:
    units = desk.units
    page = Page().heading(plant.name, ", ".join(plant.common))
    page.row("Kind", f"{plant.type.replace('-', ' ')}{', evergreen' if plant.evergreen else ''}",
             _origin(desk, catalogue, plant, "type"))  # fmt: skip
    facts = (
        ("Zones", "zones", f"{plant.zones[0]} to {plant.zones[1]}" if plant.zones else ""),
        ("Height", "height_m", show_span(*plant.height_m, units) if plant.height_m else ""),
        ("Spread", "spread_m", show_span(*plant.spread_m, units) if plant.spread_m else ""),
        ("Light", "light", ", ".join(each.replace("-", " ") for each in plant.light)),
        ("Moisture", "moisture", ", ".join(plant.moisture)),
        ("Growth", "growth", plant.growth),
        ("Deer", "deer", f"browse it {plant.deer}" if plant.deer else ""),
        ("In a pot", "root_kill_c", _at(plant.root_kill_c, "its roots die near", units)),
        ("In a pot", "root_harm_c", _at(plant.root_harm_c, "its roots are harmed near", units)),
    )
    for label, field, text in facts:
        page.row(label, text, _origin(desk, catalogue, plant, field), only_if=bool(text))
    now = best_way(plant, desk.on, desk.climate)
    page.row(
        "Now", f"{now.value.method.spoken}: {now.why}" if now else "", only_if=now is not None, tone="accent"
    )
    page.heading("To make more of it, best first" if plant.ways else "No way to make more of it is known")
    for way in plant.ways:
        source = catalogue.reference(way.source) if desk.why else ""
        page.row(_months(desk, way.months), _way(desk, way), way.prepare, source)
    if plant.division:
        source = catalogue.reference(plant.division.source) if desk.why else ""
        text = _division(desk, plant.division)
        page.row(_months(desk, plant.division.months), text, plant.division.replant, source)
    _windows(page, desk, catalogue, plant)
    page.gap()
    page.warnings(caution.text for caution in plant.cautions)
    more = "" if desk.why else "--why shows the sources."
    page.next_steps(f"'cuttings find \"{plant.name}\"' writes down a find.", more)
    return page


def _windows(page: Page, desk: Desk, catalogue: Catalogue, plant: Plant) -> None:
    """When each thing is next done with it in this garden, and in how many years the weather spoils it."""
    page.heading("When, in this garden")
    for each in windows_of(plant, desk.climate, desk.on):
        what = each.what.replace(f" of {plant.name}", "").replace(f" {plant.name}", "")
        best = f"best {spoken_span(*each.best, desk.on)}"
        page.row(
            "now" if each.opens <= desk.on else margin(each.opens, desk.on),
            f"{what}, until {spoken(each.closes, desk.on)}; {best}.{spoiled(each)}",
            each.why if desk.why else "",
            catalogue.reference(each.source) if desk.why else "",
        )


def _at(degrees_c: float | None, what: str, units: Units) -> str:
    return "" if degrees_c is None else f"{what} {show_temperature(degrees_c, units)}"


def _origin(desk: Desk, catalogue: Catalogue, plant: Plant, field: str) -> str:
    """Where a value comes from: its level when it was inherited, and with ``--why`` its source."""
    level = plant.levels.get(field)
    said = f"what holds for the {level}" if level else ""
    return "; ".join(part for part in (said, _source(catalogue, plant, field) if desk.why else "") if part)


def _source(catalogue: Catalogue, plant: Plant, field: str) -> str:
    return catalogue.reference(plant.source_of(field))


def _months(desk: Desk, months: tuple[int, ...]) -> str:
    """Months of this garden in runs: ``Apr, Sep-Oct``."""
    here = sorted({desk.climate.month_here(month) for month in months})
    if len(here) == 12:
        return "all year"
    firsts = [month for month in here if (month - 2) % 12 + 1 not in here]
    return ", ".join(_run(first, here) for first in firsts)


_MONTH_NAMES = frozenset(month_name[1:])


def _season(desk: Desk, season: str, lead: str) -> str:
    """The season in words; left out in the southern hemisphere where the words name northern months."""
    northern = any(word.strip(",.;()") in _MONTH_NAMES for word in season.split())
    return "" if not season or (desk.climate.southern and northern) else f"{lead}{season}"


def _run(first: int, months: list[int]) -> str:
    last = first
    while last % 12 + 1 in months:
        last = last % 12 + 1
    return month_abbr[first] if first == last else f"{month_abbr[first]}-{month_abbr[last]}"


def _way(desk: Desk, way: Way) -> str:
    units = desk.units
    parts = [f"{way.method.spoken}{_season(desk, way.season, ': ')}"]
    if way.rooting_days:
        low, high = way.rooting_days
        at = f" at {_temperatures(way.reference_temp_c, units)}" if way.reference_temp_c else ""
        parts.append(f"{_time(low, high)}{at}")
    if way.length_m:
        parts.append(f"{show_span(*way.length_m, units)} long")
    if way.iba_ppm and way.iba_ppm[1]:
        parts.append(f"hormone {way.iba_ppm[0]} to {way.iba_ppm[1]} ppm")
    if way.take:
        parts.append(f"{_shares(way.take)} took in trials")
    return "; ".join(parts) + "."


def _time(low: int, high: int) -> str:
    return f"{round(low / 7)} to {round(high / 7)} weeks" if low >= 14 else f"{low} to {high} days"


def _shares(span: Range) -> str:
    low, high = (f"{each:.0%}" for each in span)
    return low if low == high else f"{low} to {high}"


def _temperatures(span: Range, units: Units) -> str:
    low, high = (show_temperature(each, units) for each in span)
    return low if low == high else f"{low} to {high}"


def _division(desk: Desk, division: Division) -> str:
    parts = [f"divide{_season(desk, division.season, ': ')}"]
    if division.every_years:
        parts.append(f"every {division.every_years[0]} to {division.every_years[1]} years")
    if division.pieces:
        parts.append(division.pieces)
    if division.resents:
        parts.append("resents it")
    return "; ".join(parts) + "."


def document(desk: Desk, catalogue: Catalogue, name: str, plant: Plant) -> dict[str, Any]:
    """The JSON shape of one plant."""

    def span(value: Any) -> list[Any] | None:
        return list(value) if value is not None else None

    keys = {plant.source, *plant.sources.values(), *(way.source for way in plant.ways)}
    keys |= {key for way in plant.ways for key in way.sources.values()}
    keys |= {plant.division.source} if plant.division else set()
    return {
        "name": name,
        "matched": plant.name,
        "level": plant.level,
        "common": list(plant.common),
        "synonyms": list(plant.synonyms),
        "type": plant.type.value,
        "zones": span(plant.zones),
        "height_m": span(plant.height_m),
        "spread_m": span(plant.spread_m),
        "light": [each.value for each in plant.light],
        "moisture": [each.value for each in plant.moisture],
        "methods": [
            {
                "method": way.method.value,
                "season": way.season,
                "months": list(way.months),
                "rooting_days": span(way.rooting_days),
                "reference_temp_c": span(way.reference_temp_c),
                "iba_ppm": span(way.iba_ppm),
                "length_m": span(way.length_m),
                "take": span(way.take),
                "source": catalogue.reference(way.source),
            }
            for way in plant.ways
        ],
        "division": None
        if plant.division is None
        else {
            "season": plant.division.season,
            "months": list(plant.division.months),
            "every_years": span(plant.division.every_years),
            "pieces": plant.division.pieces,
            "resents": plant.division.resents,
            "source": catalogue.reference(plant.division.source),
        },
        "windows": [
            {
                "what": each.what,
                **window_document(each),
                "why": each.why,
                "source": catalogue.reference(each.source),
            }
            for each in windows_of(plant, desk.climate, desk.on)
        ],
        "cautions": [
            {"kind": c.kind, "text": c.text, "source": catalogue.reference(c.source)} for c in plant.cautions
        ],
        "levels": dict(plant.levels),
        "sources": sorted(catalogue.reference(key) for key in keys),
    }
