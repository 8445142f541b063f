"""What stands round a site and keeps the sun off: asked for, said, written down and struck out again."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import click
from attrs import evolve

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import choices, maybe, number, one_of, whole, words
from cuttings.commands.site_questions import ask_site, which_site
from cuttings.commands.sites import as_lit, site_document
from cuttings.commands.sun_words import hours_shown, light_shown, obstacle_sentence, told_wins
from cuttings.dates import MonthDay, parse_month_day
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.places import Obstacle, Site
from cuttings.placement.light import light_of_hours, season_hours, site_light
from cuttings.placement.skyline import ends_of_width, obstacle_between
from cuttings.show.page import Page
from cuttings.units import parse_length
from cuttings.words import ObstacleKind, Units

KIND = Question("kind", "What stands there?", one_of(ObstacleKind), choices(ObstacleKind))
_POINTS = ("n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw")
_WORDS = {"north": "n", "east": "e", "south": "s", "west": "w", "-": "", " ": ""}


def bearing(text: str) -> float:
    """Read a bearing: degrees clockwise from true north, or a compass point (``SE``, ``south-east``)."""
    word = text.casefold()
    for long, short in _WORDS.items():
        word = word.replace(long, short)
    return _POINTS.index(word) * 22.5 if word in _POINTS else number(0, 360, "a bearing")(text)


_DEGREES = "degrees clockwise from true north, or as SE"
FROM = Question("from", f"The bearing of its left end, in {_DEGREES}?", bearing, allowed="degrees")
TO = Question("to", "The bearing of its right end?", bearing, allowed="degrees")
MIDDLE = Question("bearing", f"The bearing of its middle, in {_DEGREES}?", bearing,
                  allowed="degrees from true north, or --from and --to")  # fmt: skip
ENDS, WIDE = "ends", "width"
WAY = Question(
    "way",
    "How do you know where it stands?",
    str,
    (Choice(ENDS, "by the bearings of its two ends"), Choice(WIDE, "by its middle and its width")),
)
CALLED = Question("called", "What do you call it? (Enter for nothing)", words, default="")
DENSITY = Question(
    "density",
    "What share of the sun does it keep off, 0 to 1?",
    number(0, 1, "a share"),
    default="1",
    why="1 keeps off all of it; a slatted fence or an open crown keeps off less.",
)

GROWS = (ObstacleKind.HEDGE, ObstacleKind.TREE)
LETS_THROUGH = (ObstacleKind.FENCE, *GROWS)

PLACING = ("from", "to", "bearing", "width")
DETAILS = ("kind", *PLACING, "distance", "height", "base", "leaf", "density", "called")


def obstacle_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options that describe an obstacle."""
    options = (
        click.option("--kind", metavar="KIND", help="|".join(ObstacleKind)),
        click.option("--from", metavar="BEARING", help="its left end: degrees from true north, or as SE"),
        click.option("--to", metavar="BEARING", help="its right end"),
        click.option("--bearing", metavar="BEARING", help="its middle, with --width"),
        click.option("--width", metavar="LEN"),
        click.option("--distance", metavar="LEN", help="from the middle of the site to its face"),
        click.option("--height", metavar="LEN", help="of its top over its foot"),
        click.option("--base", metavar="LEN", help="of its foot over the site's level"),
        click.option("--leaf", metavar="MM-DD,MM-DD", help="first and last day in leaf"),
        click.option("--density", metavar="0..1", help="the share of the sun it keeps off"),
        click.option("--called", metavar="TEXT", help="what you call it"),
    )
    for option in reversed(options):
        command = option(command)
    return command


def _length(name: str, prompt: str, units: Units) -> Question[float]:
    def read(text: str) -> float:
        metres = parse_length(text, units)
        if metres <= 0.0:
            raise ValueError(f"'{text}' must be more than nothing.")
        return metres

    unit = "feet" if units is Units.US else "metres"
    return Question(name, f"{prompt} in {unit}?", read, allowed="a length such as 6ft or 2m")


def _leaf(text: str) -> tuple[MonthDay, MonthDay]:
    first, comma, last = text.partition(",")
    if not comma:
        raise ValueError(f"'{text}' is not two days; write the first and the last in leaf like 05-10,10-20.")
    return parse_month_day(first), parse_month_day(last)


LEAF = Question(
    "leaf", "Its first and last day in leaf, such as 05-10,10-20? (Enter if it keeps its leaves)",
    maybe(_leaf), default="", allowed="MM-DD,MM-DD",
)  # fmt: skip


def _base(units: Units) -> Question[float | None]:
    return Question(
        "base",
        "How high does its foot, or a tree's lowest branches, stand over the site? (Enter if level with it)",
        maybe(lambda text: parse_length(text, units)),
        default="",
    )


def needed(given: Mapping[str, Any], units: Units) -> Sequence[Question[Any]]:
    """The questions that an obstacle cannot do without, in the way its options place it."""
    by_ends = given.get("from") is not None or given.get("to") is not None
    by_width = given.get("bearing") is not None or given.get("width") is not None
    if by_ends and by_width:
        raise Misused("Give either --from and --to, or --bearing and --width.")
    place: Sequence[Question[Any]] = (FROM, TO) if by_ends else (MIDDLE, _length("width", "Its width", units))
    return (KIND, *place, *_sizes(units))


def _sizes(units: Units) -> tuple[Question[float], Question[float]]:
    return (
        _length("distance", "How far is its face from the middle of the site,", units),
        _length("height", "How high is its top over its foot,", units),
    )


def ask_obstacle(desk: Desk, interview: Interview, given: Mapping[str, Any]) -> Obstacle:
    """An obstacle from the options, or from what is answered.

    Raises:
        Misused: no face stands like that.
    """
    units = desk.units
    kind = interview.ask(KIND)
    by_ends = given.get("from") is not None or given.get("to") is not None
    if interview.asking and all(given.get(name) is None for name in PLACING):
        by_ends = interview.ask(WAY) == ENDS
    if by_ends:
        start = interview.ask(FROM)
        place: tuple[float, float] = start, interview.ask(evolve(TO, parse=_end_of(kind, start)))
    else:
        place = interview.ask(MIDDLE), interview.ask(_length("width", "Its width", units))
    distance, height = (interview.ask(question) for question in _sizes(units))
    base = interview.ask(_base(units)) or 0.0
    leaf = interview.ask(LEAF) if kind in GROWS else interview.given(LEAF)
    density = interview.ask(DENSITY) if kind in LETS_THROUGH else interview.given(DENSITY)
    try:
        start, end = place if by_ends else ends_of_width(*place, distance)
        return obstacle_between(
            kind,
            start,
            end,
            distance_m=distance,
            height_m=height,
            base_m=base,
            leaf=leaf,
            density=1.0 if density is None else density,
            name=interview.ask(CALLED),
        )
    except ValueError as error:
        raise Misused(str(error)) from None


def _end_of(kind: ObstacleKind, start: float) -> Callable[[str], float]:
    """Reads the second bearing, and turns away one that no straight face runs to."""

    def read(text: str) -> float:
        end = bearing(text)
        obstacle_between(kind, start, end, distance_m=1.0, height_m=1.0)
        return end

    return read


@click.command(
    short_help="write down what keeps the sun off",
    help="Write down something that keeps the sun off a site, or that it is gone.",
)
@click.argument("name", required=False)
@obstacle_options
@click.option("--gone", metavar="N", help="the N-th one that 'sites show' lists has been taken away")
@global_options
@with_desk
def obstacle(desk: Desk, gone: str | None, **given: Any) -> None:
    if gone is not None:
        if any(given[name] is not None for name in DETAILS):
            raise Misused("Give --gone by itself: it names the obstacle by its number.")
        _gone(desk, given, gone)
        return
    interview = desk.interview(given, [which_site(desk.book), *needed(given, desk.units)])
    before = ask_site(desk, interview)
    new = ask_obstacle(desk, interview, given)
    _, entry = desk.write(e.ObstacleHere, site=before.name, obstacle=new)
    _answer(desk, before, entry, f"{before.name}: {obstacle_sentence(new, desk.units)}.")


def _gone(desk: Desk, given: Mapping[str, Any], text: str) -> None:
    site = ask_site(desk, desk.interview(given, [which_site(desk.book)]))
    if not site.obstacles:
        raise Refused(f"Nothing is written down that stands round {site.name}.")
    try:
        which = site.obstacles[whole(1, len(site.obstacles))(text) - 1]
    except ValueError as error:
        raise Misused(f"--gone: {error} 'cuttings sites show' numbers them.") from None
    _, entry = desk.write(e.ObstacleGone, site=site.name, obstacle=which.entry)
    _answer(desk, site, entry, f"Gone from {site.name}: {obstacle_sentence(which, desk.units)}.")


def _answer(desk: Desk, before: Site, entry: e.Entry, said: str) -> None:
    """What was recorded, and the site's sun before it and after."""
    site = desk.book.sites[before.name]
    hours = [_reckoned(desk, each) for each in (before, site)]
    page = Page()
    if hours[0] is not None and hours[1] is not None:
        page.row(
            "Sun",
            f"{hours_shown(hours[0])} a day before, {hours_shown(hours[1])} now, through the growing season: "
            f"{light_shown(light_of_hours(hours[1]))}.",
        )
    else:
        page.row("Sun", "It is not reckoned yet: 'cuttings garden' asks where the garden lies.")
    page.row("", told_wins(site), only_if=site_light(site) is not None)
    page.next_steps(f"'cuttings sites sun \"{site.name}\"' draws its skyline.")
    desk.recorded(
        said,
        entry,
        page,
        **site_document(desk.book, as_lit(desk, site)),
        season_hours_before=hours[0],
        season_hours=hours[1],
    )


def _reckoned(desk: Desk, site: Site) -> float | None:
    """The hours of sun a day in the growing season that what stands round it leaves."""
    garden = desk.garden
    return None if garden is None else season_hours(garden.lat, garden.lon, site.obstacles, desk.climate)
