"""What is to be started for the plants that are wanted by a day, as its window opens, until enough are."""

from collections.abc import Iterable, Iterator
from datetime import date

from attrs import frozen

from cuttings.dates import spoken
from cuttings.ledger.book import Book
from cuttings.ledger.goals import Goal
from cuttings.nudges.loss import between
from cuttings.nudges.model import Loss, Nudge
from cuttings.nudges.whereabouts import Whereabouts
from cuttings.plants.catalogue import Catalogue
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.plants.understood import plant_for, understand
from cuttings.rules.advice import Window
from cuttings.rules.caution import Task, handling
from cuttings.rules.taking import WHY
from cuttings.words import Method


@frozen
class Start:
    """How a method is started: the command that writes it down and the option that names the method there,
    the word for it, minutes for all and for each stem (from memory), what to bring, and what the work is to
    the rules of caution."""

    task: str
    option: str
    verb: str
    minutes: int
    a_stem: float
    tools: tuple[str, ...]
    cautioned: Task
    digs: bool = False


CUT = Start(
    "strike", "--wood", "Strike", 10, 2, ("secateurs", "pots and mix", "labels", "pencil"), Task.STRIKE
)
PEGGED = Start("layer", "--how", "Layer", 5, 5, ("trowel", "pegs", "labels", "pencil"), Task.LAYER)
SPLIT = Start(
    "divide", "--method", "Divide", 20, 4, ("fork", "spade", "labels", "pencil"), Task.DIVIDE, digs=True
)
LIFTED = Start("find", "--method", "Lift", 5, 3, ("trowel", "labels", "pencil"), Task.DIVIDE, digs=True)


def start_of(method: Method) -> Start:
    """How a method is started."""
    if method.is_cutting:
        return CUT
    if method.is_layer:
        return PEGGED
    return SPLIT if method.value.endswith("division") else LIFTED


def wished(book: Book, catalogue: Catalogue, where: Whereabouts, today: date) -> Iterator[Nudge]:
    """A nudge for each goal of which too few have been started, until it is too late for it."""
    for goal in book.goals.values():
        left = goal.start - started_for(goal, book)
        if left > 0 and goal.start_by >= today:
            yield _to_start(goal, left, catalogue, where, today)


def started_for(goal: Goal, book: Book) -> int:
    """How many of its plant by its method were started since the goal was written down."""
    return sum(
        lot.started
        for lot in book.lots.values()
        if lot.plant == goal.plant
        and lot.method is goal.method
        and lot.origin.on >= goal.on
        and lot.origin.id > goal.id
    )


def left_to_start(book: Book, name: str, method: Method, today: date) -> int:
    """How many of a plant are still to be started by a method for a goal that is not past."""
    goal = book.goals.get((name, method))
    return 0 if goal is None or goal.start_by < today else max(goal.start - started_for(goal, book), 0)


def _to_start(goal: Goal, left: int, catalogue: Catalogue, where: Whereabouts, today: date) -> Nudge:
    plant = plant_for(catalogue, goal.plant, goal.plant_type, goal.method)
    how = start_of(goal.method)
    site = where.sites.get(_site_in(goal.mother, where.sites))
    middle = goal.opens + (goal.start_by - goal.opens) / 2
    so_far = f" {goal.start - left} of {goal.start} are started." if left < goal.start else ""
    why = (
        f"{WHY.get(goal.method, 'It is the season for it.')} So many are needed for {goal.want} to be "
        f"alive by {spoken(goal.by, today)}, {goal.sure} times in 100.{so_far}"
    )
    return Nudge(
        id=":".join(("goal", goal.plant, goal.by.isoformat(), goal.method.value)),
        job=f"{job_of(goal, left)}: {goal.want} wanted by {spoken(goal.by, today)}",
        name=goal.spoken,
        window=Window(
            what=f"start {goal.method.spoken}s of {goal.plant}",
            opens=goal.opens,
            best=(goal.opens, middle),
            closes=goal.start_by,
            why=why,
            source=COMMON_PRACTICE,
        ),
        task=how.task,
        words=words_of(goal, catalogue),
        site=site.name if site is not None else "",
        area=site.area if site is not None else where.area_named(goal.mother),
        stems=left,
        minutes=round(how.minutes + how.a_stem * left),
        parts=left,
        loss=Loss(
            plants=goal.want * goal.sure / 100.0,
            late=between(middle, goal.start_by),
            by="its season passes, and the goal with it",
        ),
        tools=how.tools,
        cautions=handling(plant, goal.spoken, how.cautioned),
        digs=how.digs,
    )


def job_of(goal: Goal, left: int) -> str:
    """What is to be done, with ``{}`` for the plant: ``Strike 9 hardwood cuttings of {}``."""
    how, more = start_of(goal.method), "more " if left < goal.start else ""
    many = "" if left == 1 else "s"
    if how is PEGGED:
        return f"Layer {left} {more}stem{many} of {{}}, by {goal.method.spoken}"
    if how is SPLIT:
        return f"Divide {{}} into {left} {more}piece{many}"
    heat = ", with bottom heat" if goal.heat_c is not None else ""
    return f"{how.verb} {left} {more}{goal.method.spoken}{many} of {{}}{heat}"


def words_of(goal: Goal, catalogue: Catalogue) -> tuple[str, ...]:
    """What the command that writes the start down is told, but for how many there were: the plant by the
    keeper's own word for it, where that leads to the same one."""
    how = start_of(goal.method)
    kind = goal.method.value
    if how in (CUT, PEGGED):
        kind = kind.rpartition("-")[0]
    heat = ("--heat", f"{goal.heat_c:g}C") if goal.heat_c is not None else ()
    mother = ("--mother", goal.mother) if goal.mother else ()
    return (own_word(catalogue, goal.plant, goal.called), how.option, kind, *heat, *mother)


def own_word(catalogue: Catalogue, name: str, called: str) -> str:
    """What a keeper calls a plant, where that leads to the same one; else its name."""
    return called if called and understand(catalogue, called).name == name else name


def _site_in(mother: str, sites: Iterable[str]) -> str:
    return next((name for name in sites if name.casefold() in mother.casefold()), "")
