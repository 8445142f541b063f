"""The climate: shown, loaded from a station's daily record, and the signs of the season."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from attrs import evolve

from cuttings.ask import Choice, Question
from cuttings.climate.climate import Climate
from cuttings.climate.normals import Normals, to_bytes
from cuttings.commands.climate_view import climate_document, climate_page
from cuttings.commands.desk import DAYS_FILE, NORMALS_FILE, Desk, climate_of, global_options, with_desk
from cuttings.commands.garden import percent
from cuttings.commands.naming import PLANT, ask_plant
from cuttings.commands.parsing import filled, one_of
from cuttings.commands.questions import NOTE
from cuttings.commands.warmth import heat_document, heat_page, soil_document, soil_page
from cuttings.dates import spoken
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.places import Garden
from cuttings.ledger.store import Ledger
from cuttings.nudges.season import seen as as_seen
from cuttings.rules.degree_days import degree_days
from cuttings.rules.pace import Expectation, Seen, expectation
from cuttings.show.page import Page
from cuttings.units import parse_length, parse_temperature
from cuttings.words import Sign, Units

if TYPE_CHECKING:  # numpy is loaded only where a record is read
    from cuttings.climate.series import Series
    from cuttings.climate.station_report import Report

EARLIEST, LATEST = 1700, 2199


@click.group(
    invoke_without_command=True, help="The climate that every date rests on: shown, loaded, observed."
)
@click.option("--period", metavar="Y,Y", help="show the odds of those years of the record instead")
@click.option("--risk", metavar="P", help="show the safe date for that chance of a later frost, in percent")
@global_options
@click.pass_context
def climate(ctx: click.Context, period: str | None, risk: str | None) -> None:
    if ctx.invoked_subcommand is None:
        shown(period, risk)
    elif period or risk:
        given = "--period" if period else "--risk"
        raise Misused(
            f"{given} goes with 'cuttings climate' alone; 'cuttings climate load FILE --period Y,Y' keeps "
            "other years."
        )


@with_desk
def shown(desk: Desk, period: str | None, risk: str | None) -> None:
    """The climate as it stands, or for other years or another risk."""
    found = desk.climate
    if period is not None:
        found = _of_period(desk, _years(period))
    if risk is not None:
        found = evolve(found, risk=_risk(risk))
    desk.answer(climate_page(desk, found), climate_document(desk, found))


def _risk(text: str) -> float:
    try:
        return percent(text)
    except ValueError as error:
        raise Misused(f"--risk: {error}") from None


def _years(text: str) -> tuple[int, int]:
    try:
        first, last = (int(part) for part in text.split(","))
        if not EARLIEST <= first <= last <= LATEST:
            raise ValueError
    except ValueError:
        raise Misused(
            f"--period: '{text}' is not two years, the earlier one first; write them like 1991,2020."
        ) from None
    return first, last


def _of_period(desk: Desk, years: tuple[int, int]) -> Climate:
    """The climate of other years of the record that was loaded, at this season's own pace."""
    from cuttings.climate.condensing import condense

    series = _kept_series(desk)
    assert desk.garden is not None  # no record is loaded without one
    try:
        found = climate_of(desk.garden, condense(series, desk.garden.lat, years))
    except ValueError as error:
        raise Refused(str(error)) from None
    return evolve(found, pace=desk.climate.pace)


def _file(text: str) -> tuple[Path, bytes]:
    """A file by its path, as it is typed or dropped on the terminal, and what it holds."""
    try:
        path = Path(filled(text).strip("'\"")).expanduser()
        if path.is_dir():
            raise ValueError(f"{path} is a folder; name the file in it that holds the record.")
        if path.exists() and not path.is_file():  # a device, which may have no end
            raise ValueError(f"{path} is no file on a disk; name the one that holds the record.")
        return path, path.read_bytes()
    except (OSError, RuntimeError) as error:  # the second where there is no such ~user
        why = getattr(error, "strerror", None) or "nobody of that name has a home here"
        raise ValueError(f"'{text}' cannot be read ({why}); name the file with its folder.") from None


FILE = Question(
    "file",
    "Which file holds the station's daily record?",
    _file,
    argument=True,
    allowed="a weather station's daily record",
)


@climate.command(
    short_help="read a weather station's daily record",
    help="Read a weather station's daily record. The days are kept beside the ledger; the file is not needed "
    "again.",
)
@click.argument("file", required=False)
@click.option("--file-units", metavar="UNITS", help="us (°F, inches) or metric, where the file does not say")
@click.option("--period", metavar="Y,Y", help="the years the odds rest on (the newest thirty)")
@global_options
@with_desk
def load(desk: Desk, file_units: str | None, period: str | None, **given: Any) -> None:
    if desk.garden is None:
        raise Refused("Describe the garden first: 'cuttings garden' asks where it lies.")
    units = None
    if file_units is not None:
        try:
            units = one_of(Units)(file_units)
        except ValueError as error:
            raise Misused(f"--file-units: {error}") from None
    years = _years(period) if period is not None else None
    path, content = desk.interview(given, [FILE]).ask(FILE)
    _load(desk, path, content, units, years)


def read_record(
    content: bytes, garden: Garden, units: Units | None = None, years: tuple[int, int] | None = None
) -> tuple["Series", "Report", Normals]:
    """The days of a station file, what was found in it, and the normals of some of its years.

    Raises:
        ValueError: it is no such file, or too little is in it; the message is a sentence.
    """
    from cuttings.climate.condensing import condense
    from cuttings.climate.stationfile import read_station_file

    series, report = read_station_file(content, units, shown=garden.units)
    return series, report, condense(series, garden.lat, years)


def keep_record(ledger: Ledger, series: "Series", normals: Normals) -> None:
    """Keep the days and the normals beside a ledger."""
    ledger.keep_beside({DAYS_FILE: series.to_bytes(), NORMALS_FILE: to_bytes(normals)})


def _load(desk: Desk, path: Path, content: bytes, units: Units | None, years: tuple[int, int] | None) -> None:
    assert desk.garden is not None
    try:
        series, report, normals = read_record(content, desk.garden, units, years)
    except ValueError as error:
        raise Refused(f"{path.name}: {error}") from None
    keep_record(desk.ledger, series, normals)
    page = Page()
    where = f" of {report.station}" if report.station else ""
    page.row(
        "Kept",
        f"{report.whole_years} whole years{where}, {report.first.year} to {report.last.year}, "
        f"from {report.layout}; the odds rest on {normals.winters} winters, {normals.first_year} to "
        f"{normals.last_year}.",
        "The file itself is not needed again.",
        tone="accent",
    )
    for remark in report.remarks:
        page.row("", remark)
    page.next_steps("'cuttings climate' shows the odds of cold and the year's windows.")
    desk.answer(
        page,
        {
            "station": report.station or None,
            "layout": report.layout,
            "units": report.units,
            "days": report.days,
            "first": report.first.isoformat(),
            "last": report.last.isoformat(),
            "whole_years": report.whole_years,
            "flagged": report.flagged,
            "missing": report.missing,
            "implausible": report.implausible,
            "swapped": report.swapped,
            "duplicated": report.duplicated,
            "gaps": [[first.isoformat(), last.isoformat()] for first, last in report.gaps],
            "remarks": list(report.remarks),
            "years": normals.winters,
            "period": [normals.first_year, normals.last_year],
        },
    )


@climate.command(
    short_help="go by your own frost dates again",
    help="Go by the dates you typed again; the record is put among the backups.",
)
@global_options
@with_desk
def forget(desk: Desk) -> None:
    if desk.ledger.beside(NORMALS_FILE) is None:
        raise Refused("No record is loaded; the dates are those that 'cuttings garden' shows.")
    desk.ledger.keep_beside({NORMALS_FILE: None, DAYS_FILE: None})
    page = Page().row(
        "Put away", f"The record is in {desk.ledger.folder / 'backups'}; your own dates hold again."
    )
    desk.answer(page, {"station": None})


@climate.command(
    short_help="degree days by three methods", help="Degree days to a day and in a year, by three methods."
)
@click.option("--base", metavar="TEMP", default="50F", help="the temperature from which warmth counts (50F)")
@global_options
@with_desk
def heat(desk: Desk, base: str) -> None:
    try:
        base_c = parse_temperature(base, desk.units)
    except ValueError as error:
        raise Misused(f"--base: {error}") from None
    sums = degree_days(desk.climate, desk.on, base_c, _kept_series(desk) if desk.normals else None)
    desk.answer(
        heat_page(desk, desk.climate, base_c, sums), heat_document(desk.climate, desk.on, base_c, sums)
    )


@climate.command(
    short_help="the soil at any depth",
    help="How warm the soil is at a depth, and when it passes what matters.",
)
@click.option("--depth", metavar="LEN", default="4in", help="below the surface, such as 4in or 10cm")
@global_options
@with_desk
def soil(desk: Desk, depth: str) -> None:
    try:
        depth_m = parse_length(depth, desk.units)
        if depth_m > DEEPEST_M:
            raise ValueError(f"'{depth}' is deeper than any root goes; write it like 4in or 10cm.")
    except ValueError as error:
        raise Misused(f"--depth: {error}") from None
    desk.answer(soil_page(desk, desk.climate, depth_m), soil_document(desk.climate, desk.on, depth_m))


DEEPEST_M = 4.0
"""Below this the soil is as warm all the year (University of Washington VIC model: Soil thermal damping
depth)."""


def _kept_series(desk: Desk) -> "Series":
    """The days of the record that was loaded.

    Raises:
        Refused: they are not there, or damaged.
    """
    from cuttings.climate.series import Series

    kept = desk.ledger.beside(DAYS_FILE)
    if kept is None:
        raise Refused("There is no record to take years from; 'cuttings climate load FILE' reads one.")
    try:
        return Series.from_bytes(kept)
    except ValueError as error:
        raise Refused(str(error)) from None


SIGN = Question(
    "sign",
    "What have you seen?",
    one_of(Sign),
    (
        Choice("last-snow", "the last snow is gone"),
        Choice("soil-workable", "the soil can be dug"),
        Choice("first-bloom", "the first flower of a plant"),
    ),
    argument=True,
)


FAR_DAYS = 90
"""A sign further than this from its usual day tells of no spring, but of a mistaken day or name; from
memory."""


@climate.command(
    short_help="write down a sign of the season",
    help="Write down a sign of the season: the last snow, soil that can be dug, a first flower.",
)
@click.argument("sign", required=False)
@click.argument("plant", required=False)
@click.option("--note", metavar="TEXT", help="anything to remember")
@global_options
@with_desk
def seen(desk: Desk, **given: Any) -> None:
    told = desk.interview(given, []).given(SIGN)
    if told not in (None, Sign.FIRST_BLOOM) and given["plant"]:
        raise Misused(f"Only first-bloom goes with a plant; '{given['plant']}' is one word too many.")
    interview = desk.interview(given, [PLANT if told is Sign.FIRST_BLOOM else SIGN])
    sign = told or interview.ask(SIGN)
    named = ask_plant(desk, interview) if sign is Sign.FIRST_BLOOM else None
    note = interview.ask(NOTE)
    _refuse_if_far(desk, Seen(sign, desk.on, named.plant if named else None))
    before = desk.climate.pace
    _, entry = desk.write(
        e.SeasonSign,
        sign=sign,
        plant=named.name if named else "",
        called=named.called if named else "",
        note=note,
    )
    _tell_sign(desk, entry, moved=desk.climate.pace != before)


def _usual(desk: Desk, sign: Seen) -> Expectation | None:
    """When a sign is usual here, as far as anything tells."""
    return expectation(sign, desk.climate, [as_seen(each, desk.catalogue) for each in desk.book.signs])


def _refuse_if_far(desk: Desk, sign: Seen) -> None:
    """A sign in the wrong half of the year would move every window of the spring by months."""
    usual = _usual(desk, sign)
    if usual is not None and abs((sign.on - usual.on).days) > FAR_DAYS:
        raise Refused(
            f"{sign.words[:1].upper()}{sign.words[1:]} is usual about {spoken(usual.on, desk.on)}, so "
            f"{spoken(sign.on, desk.on)} tells nothing of a spring; --on gives the day it was seen."
        )


def _tell_sign(desk: Desk, entry: e.SeasonSign, *, moved: bool) -> None:
    told = as_seen(entry, desk.catalogue)
    expected = _usual(desk, told)
    pace = desk.climate.pace
    page = Page()
    if expected is None:
        page.row("", "Nothing tells when that is usual here; after two more years your own dates will.")
    else:
        page.row(
            "Usual",
            f"about {spoken(expected.on, desk.on)}, {expected.why}.",
            expected.source if desk.why else "",
        )
    if pace is not None and moved:
        page.row("Season", pace.said)
    desk.recorded(
        f"{told.words}, {spoken(entry.on, desk.on)}.",
        entry,
        page,
        sign=entry.sign.value,
        plant=entry.plant or None,
        usual=None if expected is None else expected.on.isoformat(),
        pace_days=None if pace is None else pace.days,
    )
