"""The sheet of one plant: how to make more of it, when in this garden, what it needs, what to watch for."""

from calendar import month_abbr, month_name

from attrs import evolve

from cuttings.commands.desk import Desk
from cuttings.commands.plant_document import source_keys
from cuttings.commands.telling import spoiled, warning_of
from cuttings.dates import margin, spoken, spoken_span
from cuttings.plants.model import Division, Plant, Range, Way
from cuttings.plants.own import OWN_LEVEL
from cuttings.rules.choosing import easiest_first
from cuttings.rules.increase import best_way
from cuttings.rules.windows import windows_of
from cuttings.show.page import Page, Part, Row
from cuttings.units import about_span, in_units, show_temperature
from cuttings.words import Units


def called(plant: Plant) -> str:
    """What people call it."""
    return plant.common[0] if plant.common else plant.name


def sheet(desk: Desk, plant: Plant) -> Page:
    """Everything known of one plant; with ``--why`` every source."""
    page = Page().heading(plant.name, ", ".join(plant.common))
    page.row("Formerly", ", ".join(plant.synonyms), only_if=bool(plant.synonyms))
    _facts(page, desk, plant)
    if plant.unwanted:
        page.heading("Not to be increased, kept or planted")
    else:
        _ways(page, desk, plant)
        _needs(page, desk, plant)
        _windows(page, desk, plant)
    _dangers(page, desk, plant)
    if desk.why:
        _references(page, desk, plant)
    more = "" if desk.why else "--why shows the sources."
    page.next_steps(f"'cuttings find \"{plant.name}\"' writes down a find.", more)
    page.parts = [_in_units(part, desk.units) for part in page.parts]
    return page


def _in_units(part: Part, units: Units) -> Part:
    """A row with the metric lengths of the records' sentences in the garden's own units."""
    if not isinstance(part, Row):
        return part
    return evolve(
        part,
        text=in_units(part.text, units),
        reasons=tuple(in_units(reason, units) for reason in part.reasons),
    )


def _facts(page: Page, desk: Desk, plant: Plant) -> None:
    units = desk.units
    kind = f"{plant.type.replace('-', ' ')}{', evergreen' if plant.evergreen else ''}"
    height = about_span(*plant.height_m, units) if plant.height_m else ""
    spread = about_span(*plant.spread_m, units) if plant.spread_m else ""
    facts = (
        ("Kind", "type", kind),
        ("Zones", "zones", f"{plant.zones[0]} to {plant.zones[1]}" if plant.zones else ""),
        ("Height", "height_m", height),
        ("Spread", "spread_m", spread),
        ("Growth", "growth", plant.growth),
        ("Flowers", "bloom", _bloom(desk, plant)),
    )
    _rows(page, desk, plant, facts)


def _bloom(desk: Desk, plant: Plant) -> str:
    if plant.bloom is None:
        return ""
    wood = {
        "old": "on last year's wood: prune after bloom",
        "new": "on this year's growth",
        "both": "on last year's wood and this year's",
    }.get(plant.bloom.wood, "")
    return ", ".join(part for part in (months(desk, plant.bloom.months), wood) if part)


def _needs(page: Page, desk: Desk, plant: Plant) -> None:
    """What it needs in a pot, and where it is planted."""
    units = desk.units
    ph = f"{plant.ph[0]:g} to {plant.ph[1]:g}" if plant.ph else ""
    soil = about_span(*plant.planting_depth_m, units) if plant.planting_depth_m else ""
    over = f" ({soil} deep)" if soil and plant.planting_depth_m != (0.0, 0.0) else ""
    page.heading("What it needs")
    facts = (
        ("Light", "light", ", ".join(each.replace("-", " ") for each in plant.light)),
        ("Moisture", "moisture", ", ".join(plant.moisture)),
        ("Drainage", "drainage", ", ".join(plant.drainage)),
        ("Soil pH", "ph", ph),
        ("Spacing", "spacing_m", about_span(*plant.spacing_m, units) if plant.spacing_m else ""),
        ("Planted", "planting_depth", f"{plant.planting_depth}{over}" if plant.planting_depth else ""),
        ("Potted", "potting_depth", f"{plant.potting_depth}; {plant.mix} mix" if plant.potting_depth else ""),
        ("In a pot", "root_kill_c", _at(plant.root_kill_c, "its roots die near", units)),
        ("In a pot", "root_harm_c", _at(plant.root_harm_c, "its roots are harmed near", units)),
        (
            "Walnut",
            "juglone",
            {"tolerant": "stands its roots", "sensitive": "its roots poison it"}.get(plant.juglone, ""),
        ),
        ("Deer", "deer", f"browse it {plant.deer}" if plant.deer else ""),
        ("Salt", "salt", _SALT.get(plant.salt, "")),
        ("Spreads", "runs", "by runners, rhizomes or suckers, into its neighbours" if plant.runs else ""),
    )
    _rows(page, desk, plant, facts)


_SALT = {
    "tolerant": "stands road salt and salt wind",
    "some": "stands some road salt or salt wind",
    "sensitive": "road salt and salt wind harm it",
}


def _rows(page: Page, desk: Desk, plant: Plant, facts: tuple[tuple[str, str, str], ...]) -> None:
    for label, field, text in facts:
        page.row(label, text, _origin(desk, plant, field), only_if=bool(text))


def _ways(page: Page, desk: Desk, plant: Plant) -> None:
    page.heading("To make more of it, easiest first" if plant.ways else "No way to make more of it is known")
    now = best_way(plant, desk.on, desk.climate)
    if now is not None:
        page.row("Now", f"{now.value.method.spoken}: {now.why}", tone="accent")
    if "ways" in plant.levels:
        page.row("", "", _level(plant.levels["ways"]))
    for way in easiest_first(plant):
        page.row(months(desk, way.months), way_words(desk, way), way.prepare, _severing(desk, way),
                 _said(desk, way.source))  # fmt: skip
    if plant.division:
        division = plant.division
        page.row(months(desk, division.months), _division(desk, division), division.replant,
                 _said(desk, division.source))  # fmt: skip


def _severing(desk: Desk, way: Way) -> str:
    if not way.sever:
        return ""
    when = f" ({months(desk, way.sever_months)})" if way.sever_months else ""
    return f"Cut from its mother {way.sever}{when}."


def _windows(page: Page, desk: Desk, plant: Plant) -> None:
    """When each thing is next done with it in this garden, and in how many years the weather spoils it."""
    page.heading("When, in this garden")
    for each in windows_of(plant, desk.climate, desk.on):
        what = each.what.replace(f" of {plant.name}", "").replace(f" {plant.name}", "")
        best = f"best {spoken_span(*each.best, desk.on)}"
        page.row(
            "now" if each.opens <= desk.on else margin(each.opens, desk.on),
            f"{what}, until {spoken(each.closes, desk.on)}; {best}.{spoiled(each)}",
            each.why if desk.why else "",
            _said(desk, each.source),
        )


def _dangers(page: Page, desk: Desk, plant: Plant) -> None:
    if not (plant.cautions or plant.doubles):
        return
    page.heading("To watch for")
    for caution in plant.cautions:
        parts = f"Harmful: {', '.join(caution.parts)}." if caution.parts else ""
        page.row("Take care", caution.text, parts, _said(desk, caution.source), tone="warning")
    for double in plant.doubles:
        said = warning_of(double, called(plant))
        page.row("Look twice", said, double.if_double, _said(desk, double.source), tone="warning")


def _references(page: Page, desk: Desk, plant: Plant) -> None:
    """The published sources of the sheet, with their addresses."""
    keys = sorted(set(source_keys(plant)) & set(desk.catalogue.references))
    page.heading("Sources", "" if keys else "none that is published")
    for key in keys:
        reference = desk.catalogue.references[key]
        page.row("", str(reference), reference.url)


def _said(desk: Desk, source: str) -> str:
    """A source spelled out, where sources are wanted."""
    return desk.catalogue.reference(source) if desk.why else ""


def _at(degrees_c: float | None, what: str, units: Units) -> str:
    return "" if degrees_c is None else f"{what} {show_temperature(degrees_c, units)}"


def _origin(desk: Desk, plant: Plant, field: str) -> str:
    """Where a value comes from: its level when it was inherited, and with ``--why`` its source."""
    level = plant.levels.get(field)
    return "; ".join(part for part in (_level(level), _said(desk, plant.source_of(field))) if part)


def _level(level: str | None) -> str:
    if not level:
        return ""
    return "your own record" if level == OWN_LEVEL else f"what holds for the {level}"


_MONTH_NAMES = frozenset(month_name[1:])


def months(desk: Desk, northern: tuple[int, ...]) -> str:
    """Months of this garden in runs: ``Apr, Sep-Oct``."""
    here = sorted({desk.climate.month_here(month) for month in northern})
    if len(here) == 12:
        return "all year"
    firsts = [month for month in here if (month - 2) % 12 + 1 not in here]
    return ", ".join(_run(first, here) for first in firsts)


def _run(first: int, here: list[int]) -> str:
    last = first
    while last % 12 + 1 in here:
        last = last % 12 + 1
    return month_abbr[first] if first == last else f"{month_abbr[first]}-{month_abbr[last]}"


def _season(desk: Desk, season: str, lead: str) -> str:
    """The season in words; left out in the southern hemisphere where the words name northern months."""
    northern = any(word.strip(",.;()") in _MONTH_NAMES for word in season.split())
    return "" if not season or (desk.climate.southern and northern) else f"{lead}{season}"


def way_words(desk: Desk, way: Way, *, brief: bool = False) -> str:
    """A way of increase in a sentence, or in a ``brief`` one."""
    units = desk.units
    parts = [f"{way.method.spoken}{_season(desk, way.season, ': ')}"]
    if way.difficulty:
        parts.append(way.difficulty)
    if brief:
        return "; ".join(parts) + "."
    if way.kind:
        parts.append(way.kind)
    if way.rooting_days:
        low, high = way.rooting_days
        at = f" at {_temperatures(way.reference_temp_c, units)}" if way.reference_temp_c else ""
        parts.append(f"{_time(low, high)}{at}")
    if way.length_m:
        parts.append(f"{about_span(*way.length_m, units)} long")
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
    if division.per_piece:
        low, high = division.per_piece
        counted = division.counted_in.removesuffix("s") if high == 1 else division.counted_in
        parts.append(
            f"{low} {counted} to a piece" if low == high else f"{low} to {high} {counted} to a piece"
        )
    if division.replant_depth_m and division.replant_depth_m[1]:
        parts.append(f"{about_span(*division.replant_depth_m, desk.units)} deep")
    if division.resents:
        parts.append("resents it")
    return "; ".join(parts) + "."
