"""The interview at the potting bench: every question has a recommended answer and its reason."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from typing import Any, TypeVar

import click
from attrs import frozen

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawer import POT_FORMS, free_pots, pot_in, warn_if_short
from cuttings.commands.guiding import say_advice
from cuttings.commands.parsing import maybe, whole, words, yes_no
from cuttings.commands.questions import NOTE, how_many, taken, which_lot
from cuttings.commands.telling import (
    because,
    cautions_said,
    known_lot,
    lot_document,
    next_page,
    say_clean,
    stems,
)
from cuttings.dates import spoken
from cuttings.errors import Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.stages import shortage, spoken_counts
from cuttings.nudges.knowledge import Known
from cuttings.nudges.labelled import label_of
from cuttings.plants.model import COMMON_PRACTICE
from cuttings.rules.advice import Advice
from cuttings.rules.aftercare import (
    FIRST_FEED,
    Leaf,
    Stem,
    back_to_light,
    first_feed_days,
    hold_up,
    shade_days,
    trim,
    where_to_stand,
)
from cuttings.rules.caution import Task
from cuttings.rules.pots import Pot as PotSize
from cuttings.rules.pots import alike, counted, single
from cuttings.rules.potting import (
    AS_IT_STANDS,
    next_pot,
    ready_to_pot,
    ready_to_pot_on,
    recommend_depth,
    recommend_mix,
    recommend_pot,
    season_to_pot,
)
from cuttings.rules.rooting import Bench
from cuttings.rules.seasons import is_hardy
from cuttings.show.page import Page
from cuttings.units import parse_length, show_length, show_volume
from cuttings.words import Stage, Units

T = TypeVar("T")

PENCIL = Advice("", "Pencil on a label outlasts ink.", COMMON_PRACTICE)

LEAF = Question(
    "leaf",
    "How much leaf is there, for these roots?",
    Leaf,
    (
        Choice(Leaf.LITTLE, "hardly any, or bare"),
        Choice(Leaf.EVEN, "about as much as root"),
        Choice(Leaf.MUCH, "far more leaf than root"),
    ),
)
STEM = Question(
    "stem",
    "What is the stem like?",
    Stem,
    (
        Choice(Stem.FIRM, "firm, it stands by itself"),
        Choice(Stem.SOFT, "soft and green"),
        Choice(Stem.THIN, "thin, it leans or rocks"),
    ),
    default=Stem.FIRM,
)
ROOTS_GROW_DAYS = 21
"""After so long a measured root is measured anew; from memory."""

FEW_ROOTS_M = 0.05
"""Roots under two inches, in length and across, are few for a top of any size; from memory."""

FINGER_M = 0.013
"""Half an inch: what two people who set a stem at the same depth may differ by; from memory."""

SPREAD = "How wide are the roots across?"


@click.command(help="Pot rooted stems, with advice at every question.")
@click.argument("lot", required=False)
@click.option("--count", metavar="N", help="how many (all that have rooted)")
@click.option("--pot", metavar="POT", help=POT_FORMS)
@click.option("--mix", metavar="TEXT", help="what they are potted in")
@click.option("--depth", metavar="LEN", help="how deep they are set")
@click.option("--root-length", metavar="LEN", help="the longest root")
@click.option("--spread", metavar="LEN", help="how wide the roots are across")
@click.option("--shade", metavar="DAYS", help="days of shade")
@click.option("--label", metavar="TEXT", help="what the label says")
@click.option("--where", metavar="TEXT", help="where they stand")
@click.option("--note", metavar="TEXT", help="anything to remember")
@click.option("--again", is_flag=True, help="pot on stems that are in pots already")
@global_options
@with_desk
def pot(desk: Desk, again: bool, **given: Any) -> None:
    stage = Stage.POTTED if again else Stage.ROOTED
    which = which_lot(desk, "Which lot is to be potted?", stage)
    size = Question("pot", "Which pot?", pot_in(desk.book, desk.units), allowed=POT_FORMS)
    interview = desk.interview(given, [which, size])
    lot = interview.ask(which)
    interview.given(size)  # a pot that is none is told of before anything else
    if not lot.at(stage):
        hint = " With --again the potted ones are potted on." if lot.at(Stage.POTTED) else ""
        raise Refused(f"{shortage(lot.code, lot.stages, 1, stage)}{hint}")
    known = known_lot(desk, lot)
    count = interview.ask(how_many(lot, (stage,), "How many are potted?", lot.at(stage)))
    roots = _ask_roots(desk, interview, known, again=again)
    facts, advised = _ask_details(desk, interview, known, roots, size, count)
    book, entry = desk.write(
        e.Pot, lot=lot.code, moves=taken(lot, count, (stage,), Stage.POTTED), advised=advised, **facts
    )
    warn_if_short(desk, book, entry)
    _tell(desk, book.lots[lot.code], entry, count, asked=interview.asking)


@frozen
class Roots:
    """The roots as they are at the bench, in metres where they were measured; ``pot`` is the one they are
    potted on from."""

    length_m: float | None = None
    spread_m: float | None = None
    pot: PotSize | None = None


def _ask_roots(desk: Desk, interview: Interview, known: Known, *, again: bool) -> Roots:
    """What is seen of the roots, and what follows from it: is it ready at all, and what is to be cut."""
    if again:
        return _ask_filled(desk, interview, known)
    lot = known.lot
    longest = _measured(desk, "root-length", "How long is the longest root?")
    seen_m = _seen_lately(lot, desk.on)
    needless = seen_m is not None or lot.method.starts_rooted
    measured = interview.given(longest) if needless else interview.ask(longest)
    length = seen_m if measured is None else measured
    ready = ready_to_pot(length, lot.method, desk.units)
    begun = lot.started_on if isinstance(lot.origin, e.Layer) else None
    untimely = season_to_pot(lot.method, begun, desk.on, desk.climate, warm=known.bench is Bench.WARM)
    if interview.asking:
        interview.say(because(desk, ready))
        interview.say(untimely)
    elif not ready.value and length is not None:
        desk.warn(ready.why)
    spread = interview.ask(_measured(desk, "spread", SPREAD))
    if interview.asking:
        _ask_top(desk, interview, lot, [each for each in (length, spread) if each is not None])
    return Roots(measured, spread)


def _seen_lately(lot: Lot, on: date) -> float | None:
    """The longest root as it was at the last look, in metres, unless it has had time to grow since."""
    look = lot.roots_measured
    return None if look is None or (on - look.on).days > ROOTS_GROW_DAYS else look.root_length_m


def _ask_top(desk: Desk, interview: Interview, lot: Lot, roots_m: Sequence[float]) -> None:
    """What is seen of leaf and stem, and what is to be done about it; a division's leaves are cut anyway."""
    if lot.method.starts_rooted:
        leaf, stem = Leaf.EVEN, Stem.FIRM
    else:
        few = bool(roots_m) and max(roots_m) < FEW_ROOTS_M
        leaf = interview.ask(LEAF.offering(Leaf.MUCH if few else Leaf.EVEN))
        stem = interview.ask(STEM)
    say_advice(desk, interview, (trim(lot.method, leaf), hold_up(stem)))


def _ask_filled(desk: Desk, interview: Interview, known: Known) -> Roots:
    """Whether the roots fill the pot they are in, and whether a larger one is right."""
    spread = interview.given(_measured(desk, "spread", SPREAD))
    if interview.asking:
        prompt = "Do roots show at the holes, or hold the ball together?"
        filled = interview.ask(Question("filled", prompt, yes_no, default="yes", yes_no=True))
        hardy = is_hardy(known.plant, desk.climate)
        interview.say(because(desk, ready_to_pot_on(filled, desk.on, desk.climate, hardy)))
    return Roots(spread_m=spread, pot=_pot_they_are_in(desk, known.lot))


def _measured(desk: Desk, name: str, prompt: str) -> Question[float | None]:
    read = maybe(partial(parse_length, units=desk.units))
    return Question(name, f"{prompt} (Enter if not measured)", read, default="")


def _ask_details(
    desk: Desk, interview: Interview, known: Known, roots: Roots, size: Question[Any], count: int
) -> tuple[dict[str, Any], Mapping[str, str]]:
    """The facts of the entry, and what was advised wherever the keeper chose otherwise.

    Where nobody is asked, only what was given is written down: advice is not a fact.
    """
    lot, plant, units = known.lot, known.plant, desk.units
    hardy = is_hardy(plant, desk.climate)

    def told(
        name: str, prompt: str, parse: Callable[[str], T], reason: Advice[Any], default: str
    ) -> T | None:
        question = Question(name, prompt, parse, default=default, why=because(desk, reason))
        return interview.ask(question) if interview.asking else interview.given(question)

    pots = (
        recommend_pot(roots.spread_m, lot.method, plant, units, free_pots(desk.book, count))
        if roots.pot is None
        else next_pot(roots.pot, units)
    )
    chosen = interview.ask(size.offering(pots.value.name, because(desk, pots)) if interview.asking else size)
    mixes = recommend_mix(plant)
    mix = told("mix", "Which mix?", words, mixes, mixes.value)
    depths = recommend_depth(plant, lot.method, chosen) if roots.pot is None else AS_IT_STANDS
    usual = show_length(depths.value, units).replace(" ", "") if depths.value is not None else ""
    length = partial(_depth_in, chosen, units)
    depth = told("depth", "How deep? (a length, or Enter for as advised)", maybe(length), depths, usual)
    shades = shade_days(lot.method, desk.on, desk.climate, hardy)
    shade = told("shade", "How many days of shade?", whole(0, 90), shades, str(shades.value))
    label = told("label", "What does the label say?", words, PENCIL, label_of(lot).text)
    places = where_to_stand(shades.value if shade is None else shade, hardy)
    stand = Question(
        "where", "Where do they stand? (Enter to skip)", words, default=lot.where, why=because(desk, places)
    )
    where = interview.ask(stand)
    note = interview.ask(NOTE)
    facts = {
        "pot": chosen.name, "pot_volume_l": chosen.volume_l, "mix": mix or "", "depth_m": depth, "note": note,
        "root_spread_m": roots.spread_m, "root_length_m": roots.length_m, "where": where,
        "shade_days": shade, "label": label or "",
    }  # fmt: skip
    advised = {}
    if not alike(pots.value, chosen):
        advised["pot"] = _pot_words(pots.value, units)
    if mix not in (None, mixes.value):
        advised["mix"] = mixes.value
    if depth is not None and not _as_deep(depth, depths.value):
        advised["depth"] = show_length(depths.value, units) if depths.value else _in_words(depths.why)
    if shade not in (None, shades.value):
        advised["shade days"] = str(shades.value)
    return facts, advised


def _depth_in(pot: PotSize, units: Units, text: str) -> float:
    """A depth to set a stem at, in metres.

    Raises:
        ValueError: it is no length, or deeper than the pot.
    """
    depth = parse_length(text, units)
    if pot.depth_m is not None and depth > pot.depth_m:
        whole_pot = show_length(pot.depth_m, units)
        raise ValueError(f"'{text}' is deeper than a {single(pot.name)}, about {whole_pot}; say 2in or 5cm.")
    return depth


def _in_words(sentence: str) -> str:
    """A sentence as the end of another one."""
    return f"{sentence[:1].lower()}{sentence[1:]}".rstrip(".")


def _as_deep(depth_m: float, advised_m: float | None) -> bool:
    """Whether it is set as deep as advised, to what a finger can tell."""
    return advised_m is not None and abs(depth_m - advised_m) <= FINGER_M


def _pot_they_are_in(desk: Desk, lot: Lot) -> PotSize | None:
    """The pot the stems stand in, where its size is known."""
    pot = lot.latest(e.Pot)
    try:
        return None if pot is None else pot_in(desk.book, desk.units)(pot.pot)
    except ValueError:
        return None


def _pot_words(pot: PotSize, units: Units) -> str:
    """A pot by name, with its width where the name does not tell it."""
    if pot.diameter_m is None or pot.name[0].isdigit():
        return pot.name
    width, volume = show_length(pot.diameter_m, units), show_volume(pot.volume_l, units)
    return f"{pot.name}, about {width} across and {volume} of mix"


def _tell(desk: Desk, lot: Lot, entry: e.Pot, count: int, *, asked: bool) -> None:
    mix = f" of {entry.mix} mix" if entry.mix else ""
    what = f"{stems(count)} of {lot.code} {lot.plant_called}"
    sentence = f"{what} in {counted(count, entry.pot)}{mix}; {spoken_counts(lot.stages)}."
    page = Page().row(
        "Now", f"Water in, and shade for {entry.shade_days} days.", only_if=bool(entry.shade_days)
    )
    page.row("Now", "Water in.", only_if=not entry.shade_days)
    if asked:
        page.row("Then", back_to_light(desk.on, entry.shade_days or 0), only_if=bool(entry.shade_days))
        feed = first_feed_days(desk.on, desk.climate)
        due = spoken(desk.on + timedelta(days=feed.value), desk.on)
        page.row("Then", f"First feed about {due}, at {FIRST_FEED}.", because(desk, feed))
    for name, was in entry.advised.items():
        page.row("", f"The advice was: {name} {was}.")
    page.parts.extend(next_page(desk, lot).parts)
    page.warnings(cautions_said(desk, lot, entry, Task.POT))
    say_clean(desk, page, entry)
    desk.recorded(sentence, entry, page, **lot_document(lot))
