"""The garden: where it lies, when frost comes, and its areas."""

from calendar import month_name
from collections.abc import Callable, Sequence
from datetime import date
from typing import Any, TypeVar

import click
from attrs import asdict

from cuttings.ask import Interview, Question
from cuttings.climate.climate import TROPICS_DEG
from cuttings.climate.frost import unwrapped
from cuttings.climate.zones import parse_zone
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import choices, filled, maybe, number, one_of, words
from cuttings.dates import MonthDay, day_of_year, parse_month_day
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.places import Garden
from cuttings.show.page import Page
from cuttings.units import parse_length, show_length
from cuttings.words import Units

T = TypeVar("T")
MonthDays = tuple[MonthDay, MonthDay, MonthDay]

NAME = Question("name", "What is the garden called?", filled, allowed="a name")
LAT = Question(
    "lat", "Latitude in degrees (south is negative)?", number(-90, 90, "a latitude"), allowed="degrees"
)
LON = Question(
    "lon", "Longitude in degrees (west is negative)?", number(-180, 180, "a longitude"), allowed="degrees"
)
UNITS = Question(
    "units",
    "Which units?",
    one_of(Units),
    choices(Units, us="feet, inches and Fahrenheit", metric="metres and Celsius"),
)


def _odds(*, spring: bool) -> Callable[[str], MonthDays]:
    def read(text: str) -> MonthDays:
        parts = [parse_month_day(part) for part in text.split(",")]
        if len(parts) != 3:
            raise ValueError("Give the three dates with odds of 10, 50 and 90 %, such as 05-28,05-15,05-02.")
        days = unwrapped((parts[0], parts[1], parts[2]))
        in_order = days[0] >= days[1] >= days[2] if spring else days[0] <= days[1] <= days[2]
        if in_order and days[0] != days[2]:
            return parts[0], parts[1], parts[2]
        order = "from the latest to the earliest" if spring else "from the earliest to the latest"
        meaning = "a frost still to come" if spring else "a frost already past"
        raise ValueError(f"The 10, 50 and 90 % dates ({meaning}) run {order}.")

    return read


@click.command(help="The garden: shown, or described once.")
@click.option("--name", metavar="TEXT")
@click.option("--lat", metavar="DEG", help="latitude, south negative")
@click.option("--lon", metavar="DEG", help="longitude, west negative")
@click.option("--elevation", metavar="LEN", help="height above the sea")
@click.option("--units", metavar="UNITS", help="|".join(Units))
@click.option("--zone", metavar="ZONE", help="hardiness zone, such as 5b")
@click.option("--last-frost", metavar="MM-DD", help="average last frost of spring")
@click.option("--first-frost", metavar="MM-DD", help="average first frost of autumn")
@click.option("--last-frost-odds", metavar="P10,P50,P90", help="dates with those odds of a later frost")
@click.option("--first-frost-odds", metavar="P10,P50,P90", help="dates with those odds of a frost already")
@click.option(
    "--risk", metavar="P", help="chance of a late frost at which tender plants go out, in percent (10)"
)
@click.option("--area", metavar="TEXT", multiple=True, help="a part of the garden; may be repeated")
@click.option("--change", is_flag=True, help="ask for everything again")
@global_options
@with_desk
def garden(desk: Desk, area: tuple[str, ...], change: bool, **given: Any) -> None:
    told = any(value is not None for value in given.values()) or area
    if desk.garden is not None and not told and not change:
        _show_garden(desk, desk.garden)
        return
    facts = _ask_garden(desk, given, area, change)

    areas = facts.pop("areas")
    _refuse_turned_seasons(facts)
    _, entry = desk.write(e.GardenFacts, garden=Garden(**facts), areas=areas)
    assert desk.garden is not None
    steps = Page().next_steps("'cuttings sites add' describes a place a plant can go.")
    desk.recorded(f"{desk.garden.name} is described.", entry, steps, **_garden_document(desk, desk.garden))


SPRING_DAYS, AUTUMN_DAYS = (335, 213), (196, 75)
"""Between which days of the northern year a last frost of spring lies (December to July), and a first one
of autumn (mid July to mid March); from memory."""


def _refuse_turned_seasons(facts: dict[str, Any]) -> None:
    """Frost dates from the other half of the earth are a slip of the latitude, or of the two dates."""
    lat = facts["lat"]
    if abs(lat) <= TROPICS_DEG:
        return
    for which, (first, last) in (("last", SPRING_DAYS), ("first", AUTUMN_DAYS)):
        odds = facts[f"{which}_frost_odds"]
        day = odds[1] if odds else facts[f"{which}_frost"]
        if day is None:
            continue
        northern = (day_of_year(day) - (182 if lat < 0 else 0)) % 365
        if not (northern >= first or northern <= last):
            side = "north" if lat > 0 else "south"
            raise Refused(
                f"A {which} frost about {month_day(day)} does not fit a garden {abs(lat):g}° {side}: check "
                "the sign of the latitude, and that last is spring's and first is autumn's."
            )


def _ask_garden(desk: Desk, given: dict[str, Any], area: Sequence[str], change: bool) -> dict[str, Any]:
    before = desk.garden
    if before is not None and not change:
        return _amended(desk, before, given, area)
    required: list[Question[Any]] = [NAME, LAT, LON, UNITS, _elevation(Units.US)]
    interview = desk.interview(given, required)
    old = _typed(before) if before else {}
    questions: list[Question[Any]] = [NAME, LAT, LON, UNITS]
    facts: dict[str, Any] = {q.name: interview.ask(_with_old(q, old)) for q in questions}
    facts["elevation_m"] = interview.ask(_with_old(_elevation(facts["units"]), old))
    facts["zone"] = interview.ask(_with_old(_ZONE, old)) or ""
    facts.update(_ask_frost(interview, before, old))
    facts["risk"] = interview.given(_RISK) or (before.risk if before else None)
    facts["areas"] = tuple(area) or _ask_areas(interview)
    return facts


def _with_old(question: Question[T], old: dict[str, str]) -> Question[T]:
    return question.offering(old[question.name]) if question.name in old else question


def _typed(garden: Garden) -> dict[str, str]:
    """A garden's facts as one would type them, to be offered again."""
    facts = {
        "name": garden.name,
        "lat": f"{garden.lat:g}",
        "lon": f"{garden.lon:g}",
        "units": garden.units.value,
    }
    if garden.elevation_m is not None:
        facts["elevation"] = f"{garden.elevation_m:g}m"
    if garden.zone:
        facts["zone"] = garden.zone
    for name, value in (("last-frost", garden.last_frost), ("first-frost", garden.first_frost)):
        if value:
            facts[name] = month_day(value)
    return facts


def _elevation(units: Units) -> Question[float | None]:
    def read(text: str) -> float:
        below = text.strip().startswith("-")
        metres = parse_length(text.strip().removeprefix("-"), units)
        return -metres if below else metres

    unit = "feet" if units is Units.US else "metres"
    return Question(
        "elevation",
        f"Height above the sea in {unit}? (Enter if not known)",
        maybe(read),
        default="",
        allowed="a length such as 1000ft or 330m",
    )


def percent(text: str) -> float:
    """Read a chance in percent (``10``, ``10%``), or below one as a share (``0.1``); the share.

    Raises:
        ValueError: it is no chance from 1 to 50 %.
    """
    try:
        number = float(text.strip().rstrip("%").replace(",", "."))
    except ValueError:
        number = 0.0
    share = number / 100 if number >= 1 or text.strip().endswith("%") else number
    if not 0.01 <= share <= 0.5:
        raise ValueError(f"'{text}' will not do; write a chance from 1 to 50, in percent.")
    return share


_RISK = Question("risk", "", percent, allowed="percent")
_ZONE = Question("zone", "Hardiness zone, such as 5b? (Enter if not known)", maybe(parse_zone), default="")


def _ask_frost(interview: Interview, before: Garden | None, old: dict[str, str]) -> dict[str, Any]:
    """An average, or at the prompt three dates with odds in its place, for each end of the season."""
    questions: Sequence[tuple[str, str, str, bool]] = (
        ("last", "Average last frost of spring, as MM-DD?", "05-15", True),
        ("first", "Average first frost of autumn, as MM-DD?", "09-30", False),
    )
    if interview.asking:
        interview.say("With a published table, give its 10, 50 and 90 % dates with commas between instead.")
    facts: dict[str, Any] = {}
    for which, prompt, example, spring in questions:
        odds = interview.given(Question(f"{which}-frost-odds", "", _odds(spring=spring)))
        known = getattr(before, f"{which}_frost_odds", None)
        question = Question(
            f"{which}-frost",
            f"{prompt} (such as {example}; Enter {'keeps the odds' if known else 'if not known'})",
            maybe(_average_or_odds(spring=spring)),
            default="",
        )
        answer = interview.given(question) if odds else interview.ask(_with_old(question, old))
        average, told = answer or (None, None)
        kept = known if average == getattr(before, f"{which}_frost", None) else None
        facts[f"{which}_frost"], facts[f"{which}_frost_odds"] = average, odds or told or kept
    return facts


def _average_or_odds(*, spring: bool) -> Callable[[str], tuple[MonthDay | None, MonthDays | None]]:
    """One date is an average; three with commas between are the dates with odds."""

    def read(text: str) -> tuple[MonthDay | None, MonthDays | None]:
        if "," in text:
            return None, _odds(spring=spring)(text)
        return parse_month_day(text), None

    return read


def _ask_areas(interview: Interview) -> tuple[str, ...]:
    question = Question(
        "areas", "Parts of the garden, with commas between? (Enter to add them later)", words, default=""
    )
    if not interview.asking:
        return ()
    return tuple(part.strip() for part in interview.ask(question).split(",") if part.strip())


def _amended(desk: Desk, before: Garden, given: dict[str, Any], area: Sequence[str]) -> dict[str, Any]:
    """The garden's facts with only the given ones changed."""
    interview = desk.interview(given, [])
    units = interview.given(UNITS) or before.units
    facts = asdict(before, recurse=False)
    changes: dict[str, Any] = {
        "name": interview.given(NAME),
        "lat": interview.given(LAT),
        "lon": interview.given(LON),
        "units": units,
        "elevation_m": interview.given(_elevation(units)),
        "zone": interview.given(_ZONE),
        "risk": interview.given(_RISK),
    }
    for which, spring in (("last", True), ("first", False)):
        average = interview.given(Question(f"{which}-frost", "", parse_month_day))
        odds = interview.given(Question(f"{which}-frost-odds", "", _odds(spring=spring)))
        changes[f"{which}_frost_odds"] = odds
        changes[f"{which}_frost"] = average
        if average and not odds:
            facts[f"{which}_frost_odds"] = None
    kept = {name: value for name, value in changes.items() if value is not None}
    return {**facts, **kept, "areas": tuple(area)}


def month_day(value: MonthDay) -> str:
    return f"{value[0]:02d}-{value[1]:02d}"


def _garden_document(desk: Desk, garden: Garden) -> dict[str, Any]:
    def odds(value: MonthDays | None) -> list[str] | None:
        return [month_day(each) for each in value] if value else None

    return {
        "name": garden.name,
        "lat": garden.lat,
        "lon": garden.lon,
        "elevation_m": garden.elevation_m,
        "units": garden.units.value,
        "zone": garden.zone or None,
        "last_frost": month_day(garden.last_frost) if garden.last_frost else None,
        "first_frost": month_day(garden.first_frost) if garden.first_frost else None,
        "last_frost_odds": odds(garden.last_frost_odds),
        "first_frost_odds": odds(garden.first_frost_odds),
        "risk": garden.risk,
        "areas": list(desk.book.areas),
    }


def _show_garden(desk: Desk, garden: Garden) -> None:
    page = Page().heading(garden.name)
    north = f"{abs(garden.lat):g}° {'N' if garden.lat >= 0 else 'S'}"
    east = f"{abs(garden.lon):g}° {'E' if garden.lon >= 0 else 'W'}"
    page.row("Lies at", f"{north}, {east}, {_height(garden)}")
    told = f"; you told {garden.zone}" if garden.zone not in ("", desk.climate.zone) else ""
    page.row("Zone", f"{desk.climate.zone}{told}" or "not known; 'cuttings garden --zone 5b' tells it")
    frost = desk.climate.frost
    if frost is None:
        page.row(
            "Frost", "dates not known; 'cuttings garden --last-frost MM-DD --first-frost MM-DD' tells them"
        )
    else:
        last, first = (
            [ask(desk.on.year, p) for p in (0.5, 0.1)] for ask in (frost.last_spring, frost.first_autumn)
        )
        page.row("Spring", _odds_said("of a frost after", *last))
        page.row("Autumn", _odds_said("of a frost by", *first))
        page.row("", "", f"From {frost.stated}.")
    page.row("Areas", ", ".join(desk.book.areas) or "none named yet")
    page.row("Sites", ", ".join(desk.book.sites) or "none yet")
    page.next_steps("'cuttings garden --change' asks for everything again; an option changes one thing.")
    desk.answer(page, _garden_document(desk, garden))


def _height(garden: Garden) -> str:
    if garden.elevation_m is None:
        return "height not known"
    height = show_length(abs(garden.elevation_m), garden.units)
    return f"{height} below the sea" if garden.elevation_m < 0 else f"{height} up"


def _odds_said(what: str, even: date | None, one_in_ten: date | None) -> str:
    """Two dates with their odds, as far as the cold comes so surely."""
    told = [
        f"{odds} {what} {_day(day)}"
        for odds, day in (("even odds", even), ("one in ten", one_in_ten))
        if day is not None
    ]
    return f"{', '.join(told)}." if told else "frost in fewer than one year in ten."


def _day(day: date) -> str:
    return f"{day.day} {month_name[day.month]}"
