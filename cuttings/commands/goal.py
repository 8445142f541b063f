"""Goals: how many of a plant to start, and when, so that enough are alive by a day; and what a place could
hold."""

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import Any

import click
from attrs import evolve

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.goal_view import (
    Told,
    add_short,
    add_way,
    heat_of,
    mother_said,
    offered,
    short_document,
    told,
    way_document,
)
from cuttings.commands.naming import PLANT, Named, ask_plant
from cuttings.commands.parsing import whole
from cuttings.dates import day_ahead, spoken
from cuttings.errors import Refused
from cuttings.ledger.goals import Goal
from cuttings.nudges.goals import start_of, words_of
from cuttings.nudges.stock import mother_plants
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import Plant
from cuttings.rules.caution import general_cautions, own_cautions
from cuttings.show.page import Page
from cuttings.takes.goal import Aim, Found, Goals, ordered
from cuttings.takes.held import OnTheWay, on_the_way
from cuttings.words import Method, listed

MOST_WANTED = 500
LEAST_SURE, MOST_SURE, USUALLY_SURE = 50, 99, 90
NO_WAY = "none"

WANT = Question("want", "How many do you want?", whole(1, MOST_WANTED), allowed=f"1 to {MOST_WANTED}")
SURE = Question(
    "sure",
    "How sure shall it be, in percent?",
    whole(LEAST_SURE, MOST_SURE),
    default=str(USUALLY_SURE),
    allowed=f"{LEAST_SURE} to {MOST_SURE}",
)


@click.command(
    help="Ways to have so many of PLANT by a day; or, with --site, what could be made for a place."
)
@click.argument("plant", required=False)
@click.option("--want", metavar="N", help="how many are to be alive by then")
@click.option("--by", metavar="DATE", help="the day by which they are to be ready to plant")
@click.option("--sure", metavar="PERCENT", help=f"how certain it shall be ({USUALLY_SURE})")
@click.option("--held", is_flag=True, help="count the stems of it that you have in care already")
@click.option("--keep", metavar="METHOD", help="put that way on the week's sheet when its window opens")
@click.option("--site", metavar="NAME", help="what would fit there, and what one could make for it")
@global_options
@with_desk
def goal(desk: Desk, **given: Any) -> None:
    if given["site"] is not None:
        from cuttings.commands.goal_site import for_site

        for_site(desk, given)
        return
    by = by_question(desk)
    interview = desk.interview(given, [PLANT, WANT, by])
    named = ask_plant(desk, interview)
    refuse_unwanted(named)
    want = interview.ask(WANT)
    day = interview.ask(evolve(by, parse=partial(_day_to_come, today=desk.on)) if interview.asking else by)
    sure = interview.ask(SURE)
    aim = Aim(want, day, sure / 100.0)
    goals = goals_of(desk, named.name, named.plant)
    if day <= desk.on:
        raise Refused(f"{spoken(day, desk.on)} is no day to come. {soonest_said(goals, aim, named.spoken)}")
    held = on_the_way(goals, day)
    if given["held"] and held.enough(want) >= aim.sure:
        _enough(desk, named, aim, held)
        return
    found = goals.ways(aim, held.numbers if given["held"] else (1.0,))
    if not found.ways and not any(each.certainty for each in found.short):
        raise Refused(_nothing_by_then(desk, goals, aim, found, named.spoken))
    mothers = mother_plants(desk.book_then, desk.catalogue, named.name, desk.on)
    ways = [told(desk, named.plant, each, mothers) for each in found.ways]
    page = _page(desk, named, aim, ways, found, held, counted=bool(given["held"]), goals=goals)
    document = {
        "plant": named.name,
        "called": named.spoken,
        "want": want,
        "by": day.isoformat(),
        "sure": sure,
        "held": {"stems": held.stems, "alive": round(held.expected, 2), "counted": bool(given["held"])},
        "ways": [way_document(desk, named.plant, each) for each in ways],
        "short": [short_document(each) for each in found.short],
    }
    _keep_one(desk, interview, named, aim, ways, page, document)


def by_question(desk: Desk) -> Question[date]:
    """The question for the day by which they are wanted; what is told may be past, and is refused later with
    the soonest that would do."""
    such = f"such as {desk.on.year + 1}-05-01 or +90d"
    return Question(
        "by",
        f"By which day shall they be ready to plant? ({such})",
        partial(_day, today=desk.on),
        allowed=f"a day to come, {such}",
    )


def _day(text: str, today: date) -> date:
    day = day_ahead(text, today)
    if day is None:
        raise ValueError(
            f"'{text}' is not a date to come; write it like {today.year + 1}-05-01, 15 september, friday, "
            "next week or +90d."
        )
    return day


def _day_to_come(text: str, today: date) -> date:
    day = _day(text, today)
    if day <= today:
        raise ValueError(
            f"{spoken(day, today)} is no day to come; write one like {today.year + 1}-05-01 or +90d."
        )
    return day


def goals_of(desk: Desk, name: str, plant: Plant) -> Goals:
    """What can be made of a plant in the garden as it stands."""
    lots = tuple(desk.book_then.lots.values())
    return Goals(name, plant, lots, desk.learned, desk.climate, desk.on)


def refuse_unwanted(named: Named) -> None:
    """Raises:
    Refused: nobody should make more of it, or nobody has written down how.
    """
    if named.plant.unwanted:
        raise Refused(f"{named.spoken} is unwanted: nobody makes more of it; 'cuttings plants' says why.")
    if not named.plant.ways:
        raise Refused(
            f"Nobody has written down how {named.spoken} is increased; 'cuttings plants amend' takes it."
        )
    if not ordered(named.plant):
        raise Refused(
            f"{named.spoken} is raised from seed, which cannot be ordered; 'cuttings find' takes a seedling."
        )


def soonest_said(goals: Goals, aim: Aim, name: str) -> str:
    """The soonest day that could do, as a sentence that says what to do."""
    soonest = goals.soonest(aim)
    if soonest is None:
        return f"No way makes {aim.want} {name} as surely as that; --sure asks for less, or --want for fewer."
    return f"The soonest for {aim.want} {name} is {spoken(soonest)}: --by {soonest.isoformat()}."


def _nothing_by_then(desk: Desk, goals: Goals, aim: Aim, found: Found, name: str) -> str:
    reasons = {each.why for each in found.short}
    why = reasons.pop() if len(reasons) == 1 else "Nothing begun now would be ready by then."
    return f"By {spoken(aim.by, desk.on)} is too soon. {why} {soonest_said(goals, aim, name)}"


def _enough(desk: Desk, named: Named, aim: Aim, held: OnTheWay) -> None:
    """What is in care already will do."""
    sure = int(held.enough(aim.want) * 100.0)
    page = _headed(desk, named, aim)
    page.row(
        "Held",
        f"You hold {held.stems} already, and they will do: at least {aim.want} are alive by then, "
        f"{sure} times in 100.",
    ).next_steps("'cuttings lots' shows them.")
    document = {
        "plant": named.name,
        "called": named.spoken,
        "want": aim.want,
        "by": aim.by.isoformat(),
        "sure": round(aim.sure * 100),
        "held": {"stems": held.stems, "alive": round(held.expected, 2), "counted": True},
        "ways": [],
        "short": [],
        "kept": None,
    }
    desk.answer(page, document)


def _headed(desk: Desk, named: Named, aim: Aim, order: str = "") -> Page:
    aside = f"{aim.want} by {spoken(aim.by, desk.on)}, {round(aim.sure * 100)} times in 100{order}"
    return Page().heading(named.spoken[:1].upper() + named.spoken[1:], aside)


def _page(
    desk: Desk,
    named: Named,
    aim: Aim,
    ways: Sequence[Told],
    found: Found,
    held: OnTheWay,
    *,
    counted: bool,
    goals: Goals,
) -> Page:
    page = _headed(desk, named, aim, "; fewest to start first" if len(ways) > 1 else "")
    if held.stems:
        about = f"of these about {held.expected:.0f} will be alive and fit to plant by then"
        use = "They count here." if counted else "They are not counted here; --held counts them."
        page.row("Held", f"You hold {held.stems} already on the way; {about}. {use}")
    if ways:
        page.row("Mother", mother_said(ways[0].mother, named.spoken, held.stems))
    for each in ways:
        page.gap()
        add_way(page, desk, each, aim)
    if not ways:
        page.row("", f"No way is as sure as that by then. {soonest_said(goals, aim, named.spoken)}")
    add_short(page, found.short)
    if ways:
        task = start_of(ways[0].to.way.method).cautioned
        own = own_cautions(named.plant, task)
        page.gap().warnings(each.text for each in (*own, *general_cautions(task)))
    return page


def _keep_one(
    desk: Desk,
    interview: Interview,
    named: Named,
    aim: Aim,
    ways: Sequence[Told],
    page: Page,
    document: dict[str, Any],
) -> None:
    """Show the answer, and write down the way that is chosen: by ``--keep``, or by whoever is asked."""
    chosen = interview.given(Question("keep", "", partial(_method_of, ways=ways)))
    if chosen is not None:
        _write(desk, named, aim, _chosen(ways, chosen), page, document)
        return
    if desk.asker is None or desk.as_json or not ways:
        _say_next(page, ways)
        desk.answer(page, {**document, "kept": None})
        return
    desk.show(page)
    choices = (Choice(NO_WAY, "none, thank you"), *(_choice(desk, each) for each in ways))
    question = Question("keep", "Which shall the week's sheet remind you of?", str, choices, default=NO_WAY)
    answer = desk.asker.ask(question)
    if answer == NO_WAY:
        desk.show(_say_next(Page(), ways))
        return
    _write(desk, named, aim, _chosen(ways, Method(answer)), Page(), document)


def _choice(desk: Desk, each: Told) -> Choice:
    return Choice(each.to.way.method.value, offered(each.to, desk.on))


def _method_of(text: str, ways: Sequence[Told]) -> Method:
    """The method that is meant: one that is offered, by its name, the word that stands before it on the page,
    or ``softwood`` as ``strike --wood`` has it; else any other by its name or that word."""
    word = "-".join(text.strip().casefold().replace("_", "-").split())
    offers = [each.to.way.method for each in ways]
    for methods in (offers, list(Method)):
        meant = [each for each in methods if word in (each.value, each.value.rpartition("-")[0])]
        if len(meant) == 1:
            return meant[0]
    kept = f"is none of: {', '.join(offers)}." if offers else "cannot be kept, for no way is sure enough."
    raise ValueError(f"'{text}' {kept}")


def _chosen(ways: Sequence[Told], method: Method) -> Told:
    found = next((each for each in ways if each.to.way.method is method), None)
    if found is None:
        names = [each.to.way.method.value for each in ways]
        may = f"--keep takes {listed(names)}." if names else "No way does, so none can be kept."
        raise Refused(f"{method.spoken.capitalize()} does not reach this goal. {may}")
    return found


def _write(desk: Desk, named: Named, aim: Aim, each: Told, page: Page, document: dict[str, Any]) -> None:
    to = each.to
    _, entry = desk.write(
        Goal,
        **named.facts,
        want=aim.want,
        by=aim.by,
        sure=round(aim.sure * 100),
        method=to.way.method,
        start=to.start,
        opens=to.opens,
        start_by=to.start_by,
        heat_c=heat_of(to),
        mother=each.mother.spoken if each.mother else "",
    )
    from_day = "now" if to.opens <= desk.on else spoken(to.opens, desk.on)
    if page.parts:
        page.gap()
    page.row(
        "Recorded",
        f"{aim.want} {named.spoken} by {spoken(aim.by, desk.on)}: start {to.start} by "
        f"{to.way.method.spoken}.",
        f"The week's sheet says so from {from_day} to {spoken(to.start_by, desk.on)}, until they are "
        "started.",
        tone="accent",
    )
    page.next_steps(
        f"'{command_of(entry, desk.catalogue)}' when you start.", "'cuttings undo' takes it back."
    )
    desk.answer(page, {**document, "kept": entry.id})


def command_of(entry: Goal, catalogue: Catalogue) -> str:
    """The command that writes the start down, as one types it."""
    how = start_of(entry.method)
    plant, option, kind, *_ = words_of(entry, catalogue)
    name = f'"{plant}"' if " " in plant else plant
    heat = "" if entry.heat_c is None else f" --heat {entry.heat_c:g}C"
    return f"cuttings {how.task} {name} {option} {kind}{heat}"


def _say_next(page: Page, ways: Sequence[Told]) -> Page:
    if not ways:
        return page.next_steps("A later --by, a smaller --want or a --sure below this gives more ways.")
    method = ways[0].to.way.method
    return page.next_steps(
        f"'--keep {method.value}' puts that way on the week's sheet when its window opens.",
        "'--why' tells the sources.",
    )
