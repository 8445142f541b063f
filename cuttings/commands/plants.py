"""What is known of plants: looked up by name, or listed by what is wanted of them."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

from cuttings.ask import Question
from cuttings.climate.zones import parse_zone
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.identifying import UNSURE, by_key
from cuttings.commands.looks import look_options, looks_in, one_word
from cuttings.commands.naming import PLANT
from cuttings.commands.own_plants import add, amend
from cuttings.commands.parsing import one_of
from cuttings.commands.plant_document import document
from cuttings.commands.plant_sheet import called, sheet, way_words
from cuttings.dates import parse_month
from cuttings.errors import Misused, Refused, Unfound
from cuttings.plants.model import Plant, Way
from cuttings.plants.names import folded
from cuttings.plants.understood import Understood, understand
from cuttings.rules.choosing import CUTTINGS, DIVISIONS, LAYERS, Wanted, suits, ways_wanted
from cuttings.show.page import Page
from cuttings.units import parse_length
from cuttings.words import Drainage, Light, Method, Moisture, PlantType

T = TypeVar("T")

FAMILIES = {"division": DIVISIONS, "cutting": CUTTINGS, "layer": LAYERS}
FLAGS = frozenset({"--json", "--why", "--plain"})
WITH_VALUE = frozenset({"--ledger", "--on", "--who"})
"""The global options, which may stand before a word."""


class NameOrWord(click.Group):
    """A group whose words are few; anything else on the line is a plant's name or a wish."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        first = self._first_word(args)
        return super().parse_args(ctx, args if first in self.commands else ["look", *args])

    @staticmethod
    def _first_word(args: list[str]) -> str:
        """The first word that is no global option, nor the value of one."""
        words = iter(args)
        for word in words:
            if word in WITH_VALUE:
                next(words, None)
            elif word not in FLAGS and word.partition("=")[0] not in WITH_VALUE:
                return word
        return ""


@click.group(cls=NameOrWord, help="What is known of a plant; 'add' and 'amend' write down what you know.")
@global_options
def plants() -> None:
    pass


plants.add_command(add)
plants.add_command(amend)


def _wishes(command: Callable[..., T]) -> Callable[..., T]:
    """The options that narrow the plants down."""
    options = [
        click.option("--type", metavar="TYPE", help="|".join(PlantType)),
        click.option("--light", metavar="LIGHT", help="for that light: " + "|".join(Light)),
        click.option("--moisture", metavar="M", help="for ground that is " + "|".join(Moisture)),
        click.option("--drainage", metavar="D", help="for drainage that is " + "|".join(Drainage)),
        click.option("--zone", metavar="ZONE", help="hardy in that zone, such as 5b"),
        click.option("--up-to", metavar="LEN", help="that may stay no taller than this"),
        click.option("--deer", metavar="HOW", help="browsed by deer seldom|sometimes|often"),
        click.option("--juglone", metavar="HOW", help="near black walnut tolerant|sensitive"),
        click.option("--salt", metavar="HOW", help="of road salt or salt wind tolerant|some|sensitive"),
        click.option("--evergreen", is_flag=True, help="that keep their leaves"),
        click.option("--by", metavar="METHOD", help="increased by division|cutting|layer or one METHOD"),
        click.option("--when", metavar="MONTH|now", help="in that month here, or this week"),
        click.option("--hardwood-in", metavar="MONTH", help="to take hardwood cuttings of in that month"),
        click.option("--easy", is_flag=True, help="that increase easily"),
    ]  # fmt: skip
    command = look_options(command)
    for option in reversed(options):
        command = option(command)
    return command


@plants.command(
    name="look",
    hidden=True,
    help="A plant's sheet, by any name of it; at a terminal, ? finds it by what can be seen. Without a name, "
    "or with wishes, the plants that fit them. 'plants add' and 'plants amend' write down what you know.",
)
@click.argument("name", required=False)
@click.option("--ask", is_flag=True, help="ask for the name")
@_wishes
@global_options
@with_desk
def look(desk: Desk, name: str | None, ask: bool, **given: Any) -> None:
    if any(given.values()) or not (name or ask):
        _list(desk, _wanted(desk, given), name or "", any(given.values()))
        return
    found = _meant(desk, name)
    if found.remark:
        desk.remark(found.remark)
    assert found.plant is not None
    desk.answer(sheet(desk, found.plant), document(desk, found.name, found.plant))


def _meant(desk: Desk, name: str | None) -> Understood:
    """The plant that is named, on the line or at a prompt, or settled on with the key.

    Raises:
        Refused: nobody has entered it, or it could be several.
    """

    def known(text: str) -> Understood | None:
        if text.strip() == UNSURE:
            return None
        found = understand(desk.catalogue, text)
        if found.candidates:
            raise Unfound(found.could_be)
        if found.plant is None:
            raise Unfound(
                f"No plant called '{text}' is in the catalogue; 'cuttings plants' lists them, and 'cuttings "
                "plants add' writes one of your own down. It can be recorded all the same: the general rules "
                "for its kind then apply."
            )
        return found

    which = Question("plant", PLANT.prompt, known, argument=True, allowed=PLANT.allowed)
    found = desk.interview({"plant": name}, [which]).ask(which)
    if found is not None:
        return found
    settled = by_key(desk, desk.asker)
    if settled is None:
        raise Refused("No plant of the catalogue was settled on.")
    return understand(desk.catalogue, settled)


def _wanted(desk: Desk, given: dict[str, Any]) -> Wanted:
    """What the options ask for.

    Raises:
        Misused: one of them cannot be read.
    """

    def read(option: str, parse: Callable[[str], T]) -> T | None:
        text = given[option.replace("-", "_")]
        try:
            return parse(text) if text else None
        except ValueError as error:
            raise Misused(f"--{option}: {error}") from None

    if given["hardwood_in"] and (given["by"] or given["when"]):
        raise Misused("Give either --hardwood-in, or --by and --when.")
    zone = read("zone", parse_zone)
    month = read("hardwood-in", parse_month)
    when = read("when", _month_or_now)
    return Wanted(
        type=read("type", one_of(PlantType)),
        light=read("light", one_of(Light)),
        moisture=read("moisture", one_of(Moisture)),
        drainage=read("drainage", one_of(Drainage)),
        zone=int(zone.rstrip("ab")) if zone else None,
        tallest_m=read("up-to", lambda text: parse_length(text, desk.units)),
        deer=read("deer", one_word("seldom", "sometimes", "often")) or "",
        juglone=read("juglone", one_word("tolerant", "sensitive")) or "",
        salt=read("salt", one_word("tolerant", "some", "sensitive")) or "",
        evergreen=given["evergreen"],
        methods=frozenset({Method.HARDWOOD_CUTTING}) if month else read("by", _methods) or frozenset(),
        month=month or (None if when == NOW else when),
        this_week=when == NOW,
        easy=given["easy"],
        looks=looks_in(given),
    )


NOW = -1
"""Stands for this week where a month is asked for."""


def _month_or_now(text: str) -> int:
    return NOW if text.strip().casefold() in ("now", "week", "this week") else parse_month(text)


def _methods(text: str) -> frozenset[Method]:
    word = text.strip().casefold()
    return FAMILIES.get(word.removesuffix("s")) or frozenset({one_of(Method)(text)})


def _list(desk: Desk, wanted: Wanted, name: str, narrowed: bool) -> None:
    """The plants that are wanted, with the ways that are, by what people call them."""
    words = set(folded(name).split())
    offered = narrowed and not wanted.looks  # not where somebody wants to know what it is
    known = [
        (plant, ways_wanted(plant, wanted, desk.climate, desk.on))
        for plant in desk.catalogue
        if suits(plant, wanted) and words <= _all_words(plant) and not (plant.unwanted and offered)
    ]
    if wanted.asks_for_ways:
        known = [(plant, ways) for plant, ways in known if ways]
    known.sort(key=lambda each: called(each[0]).casefold())
    count = f"{len(known)} that fit" if narrowed else f"{len(known)} known"
    page = Page(margin_width=22).heading("Plants", count)
    for plant, ways in known:
        whole = " (any kind)" if plant.rank == "genus" else ""
        wild = "; invasive in some places" if any(c.kind == "invasive" for c in plant.cautions) else ""
        page.row(
            called(plant),
            f"{plant.name}{whole}{wild}",
            _ways_said(desk, ways) if wanted.asks_for_ways else "",
        )
    page.row("", "No plant that is known fits all of that.", only_if=not known)
    page.next_steps(
        "'cuttings plants NAME' shows one of them; 'cuttings plants --help' how to narrow them down."
    )
    desk.answer(page, {"plants": [_listed(plant, ways, wanted) for plant, ways in known]})


def _all_words(plant: Plant) -> set[str]:
    return {word for name in (plant.name, *plant.common, *plant.synonyms) for word in folded(name).split()}


def _ways_said(desk: Desk, ways: tuple[Way, ...]) -> str:
    return " ".join(way_words(desk, way, brief=True) for way in ways)


def _listed(plant: Plant, ways: tuple[Way, ...], wanted: Wanted) -> dict[str, Any]:
    listed: dict[str, Any] = {"name": plant.name, "common": list(plant.common)}
    if wanted.asks_for_ways:
        listed["methods"] = [way.method.value for way in ways]
    return listed
