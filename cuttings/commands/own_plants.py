"""The keeper's own plants, and corrections to ours: kept in the ledger, they win over the catalogue."""

from calendar import month_abbr
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.naming import TYPE
from cuttings.commands.own_facts import PLANT_FACTS, WAY_FACTS, Fact
from cuttings.commands.parsing import filled, one_of
from cuttings.commands.plant_document import document
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.plants.checking import of_record
from cuttings.plants.model import Bloom, Caution, Plant
from cuttings.plants.names import cultivar_of
from cuttings.plants.own import own_record, rank_of
from cuttings.plants.understood import understand
from cuttings.show.page import Page
from cuttings.units import show_span
from cuttings.words import Method, PlantType, Units

T = TypeVar("T")

NAME = Question("name", "What is it called? (the botanical name, if you know it)", filled, argument=True,
                allowed="a name")  # fmt: skip


NOT_KNOWN = "not-known"


def _method(text: str) -> Method | None:
    return None if text in ("", NOT_KNOWN) else one_of(Method)(text)


METHOD = Question(
    "method",
    "How is it best increased?",
    _method,
    (Choice(NOT_KNOWN, "I do not know"), *(Choice(method.value, method.spoken) for method in Method)),
    default=NOT_KNOWN,
    allowed="|".join(Method),
)


def _fact_options(command: Callable[..., T]) -> Callable[..., T]:
    options = [click.option("--type", metavar="TYPE", help="|".join(PlantType))]
    options += [
        click.option(f"--{f.option}", metavar="TEXT", help=f"{f.prompt}: {f.allowed}") for f in PLANT_FACTS
    ]
    options.append(
        click.option("--method", metavar="METHOD", help="a way of increasing it; what follows is of it")
    )
    options += [
        click.option(f"--{f.option}", metavar="TEXT", help=f"{f.prompt}: {f.allowed}") for f in WAY_FACTS
    ]
    for option in reversed(options):
        command = option(command)
    return command


@click.command(help="Write down a plant that the catalogue does not have.")
@click.argument("name", required=False)
@_fact_options
@global_options
@with_desk
def add(desk: Desk, **given: Any) -> None:
    interview = desk.interview(given, [NAME, TYPE])
    name = " ".join(interview.ask(NAME).split())
    known = understand(desk.catalogue, name)
    if known.plant is not None and known.name.casefold() == known.plant.name.casefold() and not known.remark:
        raise Refused(f"{known.plant.name} is known already; 'cuttings plants amend' corrects it.")
    facts = {"type": interview.ask(TYPE).value, **_told(desk, interview)}
    _record(desk, name, facts)


@click.command(help="Correct what the catalogue says of a plant, or add what it leaves out.")
@click.argument("name", required=False)
@_fact_options
@global_options
@with_desk
def amend(desk: Desk, **given: Any) -> None:
    told = any(value for name, value in given.items() if name != "name")
    required: list[Question[Any]] = [NAME] if told else [NAME, _which_fact()]
    interview = desk.interview(given, required)
    found = understand(desk.catalogue, interview.ask(NAME))
    if found.candidates:
        raise Refused(found.could_be)
    if found.plant is None:
        raise Refused(f"No plant called '{found.name}' is known; 'cuttings plants add' writes it down.")
    if found.remark and not cultivar_of(found.name):
        desk.remark(found.remark)
    new = cultivar_of(found.name) and found.plant.rank != "cultivar"
    facts: dict[str, Any] = {"type": found.plant.type.value} if new else {}
    if interview.asking:
        facts.update(_asked_for(desk, interview, found.plant))
    else:
        facts.update(_told(desk, interview))
        if given["type"]:
            facts["type"] = interview.ask(TYPE).value
    _record(desk, found.name if new else found.plant.name, facts)


def _which_fact() -> Question[str]:
    choices = [Choice(f.option, f.prompt.lower()) for f in PLANT_FACTS]
    choices.append(Choice("method", "a way of increasing it"))
    allowed = "--zones, --light, --method and the others that '--help' lists"
    return Question("fact", "What do you know better?", str, tuple(choices), allowed=allowed)


def _asked_for(desk: Desk, interview: Interview, plant: Plant) -> dict[str, Any]:
    """One fact, or one way of increase, that the keeper wants to correct."""
    which = interview.ask(_which_fact())
    if which == "method":
        return _way_told(desk, interview)
    fact = next(fact for fact in PLANT_FACTS if fact.option == which)
    so_far = _shown(fact.field, getattr(plant, fact.field), desk.units)
    interview.say(f"So far: {so_far.rstrip('.')}.")
    value = interview.ask(fact.question(desk.units))
    if value is None:
        raise Refused("Nothing was changed.")
    return _as_recorded(desk, fact.field, value)


def _shown(field: str, value: Any, units: Units) -> str:
    """What the catalogue says so far, in words."""
    match value:
        case None | "" | ():
            return "nothing is known"
        case bool():
            return "yes" if value else "no"
        case Bloom():
            return ", ".join(month_abbr[month] for month in value.months)
        case (low, high) if field.endswith("_m"):
            return show_span(low, high, units)
        case tuple():
            return ", ".join(each.text if isinstance(each, Caution) else str(each) for each in value)
    return str(value)


def _told(desk: Desk, interview: Interview) -> dict[str, Any]:
    """The facts that the options give, or that are asked for one after another."""
    facts: dict[str, Any] = {}
    for fact in PLANT_FACTS:
        value = _answer(desk, interview, fact)
        if value not in (None, "", []):
            facts.update(_as_recorded(desk, fact.field, value))
    return {**facts, **_way_told(desk, interview)}


def _answer(desk: Desk, interview: Interview, fact: Fact) -> Any:
    question = fact.question(desk.units)
    return interview.ask(question) if fact.wanted else interview.given(question)


def _way_told(desk: Desk, interview: Interview) -> dict[str, Any]:
    method = interview.ask(METHOD)
    if method is None:
        stray = [fact.option for fact in WAY_FACTS if interview.given(fact.question(desk.units)) is not None]
        if stray:
            raise Misused(
                f"--{stray[0]} is of a way of increasing it; name it with --method ({METHOD.may_be})."
            )
        return {}
    way: dict[str, Any] = {"method": method.value}
    for fact in WAY_FACTS:
        value = _answer(desk, interview, fact)
        if value not in (None, "", []):
            way[fact.field] = _northern(desk, value) if fact.field == "months" else value
    return {"ways": [way]}


def _as_recorded(desk: Desk, field: str, value: Any) -> dict[str, Any]:
    """A fact as plant records have it."""
    match field:
        case "bloom":
            return {field: {"months": _northern(desk, value)}}
        case "cautions":
            return {field: [{"kind": "poison", "text": value}]}
        case _:
            return {field: value}


def _northern(desk: Desk, months: list[int]) -> list[int]:
    """Months of this garden as the records have them, which are those of a northern garden."""
    northern = {desk.climate.month_here(month): month for month in range(1, 13)}
    return [northern.get(month, month) for month in months]


def _record(desk: Desk, name: str, facts: Mapping[str, Any]) -> None:
    """Keep the facts, once they make a sound record.

    Raises:
        Misused: a value will not do; the sentence names the field.
    """
    if not facts:
        raise Misused("Say what is to be corrected, such as --zones 4-8; '--help' lists what can be told.")
    record = own_record(name, facts, desk.on)
    record.pop("levels")
    known = {**record, "name": "Own", "rank": rank_of(name), "type": facts.get("type", PlantType.SHRUB)}
    for field, wrong in of_record(known):
        raise Misused(f"{field}: {wrong}.")
    _, entry = desk.write(e.PlantFacts, plant=name, facts=dict(facts))
    plant = desk.catalogue.plant(name)
    page = Page().next_steps(f"'cuttings plants \"{name}\"' shows all that is known of it.")
    told = ", ".join(key.removesuffix("_m").replace("_", " ") for key in facts)
    desk.recorded(f"{name}: {told}. It wins over the catalogue.", entry, page, **document(desk, name, plant))
