"""What 'cuttings goal' shows: one way a block, with what is lost on the way, the room it takes, and its
mother."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from attrs import frozen

from cuttings.commands.desk import Desk
from cuttings.commands.drawer import free_pots
from cuttings.commands.telling import window_document
from cuttings.dates import spoken
from cuttings.nudges.goals import PEGGED, SPLIT, start_of
from cuttings.nudges.stock import Mother
from cuttings.plants.model import Plant
from cuttings.rules.advice import Advice
from cuttings.rules.bench_room import pot_room_m2, rooting_room_m2
from cuttings.rules.pots import Pot, several
from cuttings.rules.potting import recommend_pot
from cuttings.rules.rooting import BOTTOM_HEAT_C, Bench
from cuttings.show.page import Page
from cuttings.takes.goal import Aim, Short, WayTo
from cuttings.units import show_area, show_temperature
from cuttings.words import Method, Wood

NO_MOTHER = "No {} that you have grows on a site, so the material must come from elsewhere."
IN_CARE = "No {} stands in the ground, but {} in care and may give some."
COOL_TOPS = "keep the base at {} (bottom heat) and the tops cool, or they leaf out before they have roots."
WARM_COVER = "give bottom heat of {} under their cover."
"""What bottom heat asks for, without leaves and with them; common practice."""

HARD = "It is a way that often fails, even for old hands."
YOUNG = "It has stood for less than two years: take little of it."


@frozen
class Told:
    """One way as it is shown: with its mother, if the garden has one, the pot, and the room on the bench."""

    to: WayTo
    mother: Mother | None
    pot: Advice[Pot]
    pots: int
    own_pots: bool | None
    bench_m2: float
    piece: str
    evergreen: bool


def told(desk: Desk, plant: Plant, to: WayTo, mothers: Sequence[Mother]) -> Told:
    """A way with all that is shown of it. ``own_pots`` is whether the drawer has the pots; ``None`` without
    one."""
    method = to.way.method
    own = free_pots(desk.book, to.in_pots)
    pot = recommend_pot(None, method, plant, desk.units, own)
    return Told(
        to=to,
        mother=mothers[0] if mothers else None,
        pot=pot,
        pots=to.in_pots,
        own_pots=None if own is None else pot.value in own,
        bench_m2=max(rooting_room_m2(method, to.start), pot_room_m2(pot.value, to.in_pots)),
        piece=plant.division.pieces if plant.division else "",
        evergreen=plant.evergreen,
    )


def margin_of(method: Method) -> str:
    """What stands in the margin for a method: ``Hardwood``, ``Simple layer``."""
    word = method.spoken.removesuffix(" cutting")
    return word[:1].upper() + word[1:]


def add_way(page: Page, desk: Desk, each: Told, aim: Aim, *, brief: bool = False) -> None:
    """One way: what to start and when, what becomes of it and the room it takes; ``brief`` leaves out the
    room. ``--why`` tells the losses one by one and the last chance, too."""
    to = each.to
    page.row(
        margin_of(to.way.method),
        f"{_start(to)} {_between(to, desk.on)}; {_ready(to, desk.on)}.",
        _heat(desk, to, evergreen=each.evergreen),
        _alive(to, aim),
        _losses(to) if desk.why else "",
        "" if brief else _room(desk, each),
        _piece(each),
        HARD if to.way.difficulty == "hard" else "",
        _later(to, desk.on) if desk.why else "",
        f"{to.window.why} Source: {_sources(desk, to)}." if desk.why else "",
    )


def add_short(page: Page, short: Sequence[Short]) -> None:
    """The ways that do not do, with the best that can be had of them."""
    if not short:
        return
    page.heading("Not sure enough, or not by then")
    for each in short:
        best = ""
        if each.certainty:
            best = f"The best to be had: {each.start} started, for {_times(each.certainty)} in 100."
        page.row(margin_of(each.way.method), each.why, best)


def way_document(desk: Desk, plant: Plant, each: Told) -> dict[str, Any]:
    """A way as JSON."""
    to = each.to
    return {
        "plant": plant.name,
        "method": to.way.method.value,
        "start": to.start,
        "opens": to.opens.isoformat(),
        "start_by": to.start_by.isoformat(),
        "ready": [day.isoformat() for day in to.ready],
        "certainty": round(to.certainty, 4),
        "bench": to.bench.value,
        "heat_c": heat_of(to),
        "mother": each.mother.spoken if each.mother else None,
        "mother_young": each.mother.young if each.mother else None,
        "alive": list(to.alive),
        "losses": {
            "rooted": round(to.losses.rooted, 2),
            "potted": round(to.losses.potted, 2),
            "alive": round(to.losses.alive, 2),
        },
        "pots": each.pots,
        "pot": each.pot.value.name,
        "own_pots": each.own_pots,
        "bench_m2": round(each.bench_m2, 3),
        "own_lots": to.lots,
        "window": window_document(to.window),
        "later": None
        if to.later is None
        else {
            "start": to.later.start,
            "opens": to.later.opens.isoformat(),
            "start_by": to.later.start_by.isoformat(),
        },
        "why": to.window.why,
        "source": _sources(desk, to),
    }


def short_document(each: Short) -> dict[str, Any]:
    """A way that does not do, as JSON; ``start`` and ``certainty`` are the best that can be had of it."""
    return {
        "method": each.way.method.value,
        "why": each.why,
        "start": each.start or None,
        "certainty": round(each.certainty, 4),
    }


def offered(to: WayTo, today: date) -> str:
    """A way in a few words, to be chosen by."""
    return f"{margin_of(to.way.method)}: {_start(to).lower()} {_between(to, today)}"


def start_said(method: Method, number: int) -> str:
    how = start_of(method)
    if how is PEGGED:
        return f"Layer {number} stem{'s' * (number != 1)}"
    return f"Divide into {number} piece{'s' * (number != 1)}" if how is SPLIT else f"{how.verb} {number}"


def _start(to: WayTo) -> str:
    heat = " with bottom heat" if heat_of(to) is not None else ""
    return f"{start_said(to.way.method, to.start)}{heat}"


def heat_of(to: WayTo) -> float | None:
    """The bottom heat that a way asks for [°C]; ``None`` where it needs none."""
    if to.bench is not Bench.WARM:
        return None
    told = to.way.reference_temp_c
    return BOTTOM_HEAT_C if told is None else round(sum(told) / 2.0)


def _heat(desk: Desk, to: WayTo, *, evergreen: bool) -> str:
    heat_c = heat_of(to)
    if heat_c is None:
        return ""
    leafy = evergreen or Wood(to.way.method.removesuffix("-cutting")).is_leafy
    do = (WARM_COVER if leafy else COOL_TOPS).format(show_temperature(heat_c, desk.units))
    return f"Without heat too few root in time: {do}"


def _between(to: WayTo, today: date) -> str:
    if to.opens == to.start_by:
        return f"on {spoken(to.opens, today)}"
    if to.opens == today:
        return f"from now to {spoken(to.start_by, today)}"
    return f"between {_both(to.opens, to.start_by, today)}"


def _both(first: date, last: date, today: date, word: str = "and") -> str:
    """Two days, the year said once where it is the same, and the month too."""
    if (first.year, first.month) == (last.year, last.month) and first < last:
        return f"{first.day} {word} {spoken(last, today)}"
    early = f"{spoken(first, today)}" if first.year != last.year else spoken(first, first)
    return f"{early} {word} {spoken(last, today)}"


def _ready(to: WayTo, today: date) -> str:
    """From when to when they are ready, without the year where it is that of the start."""
    first, last = to.ready
    if first.year == last.year == to.start_by.year:
        today = first
    return f"ready on {spoken(first, today)}" if first == last else f"ready {_both(first, last, today, 'to')}"


def _times(chance: float) -> int:
    """A chance in a hundred, never rounded up."""
    return int(chance * 100.0 + 1e-6)


def _alive(to: WayTo, aim: Aim) -> str:
    """What becomes of them; how sure that is only where it is surer than it was asked to be."""
    few, many = to.alive
    root, live = round(to.losses.rooted), round(to.losses.alive)
    roots = "" if to.way.method.starts_rooted else f"{root} root in time, "
    span = f"{few}" if few == many else f"{few} to {many}"
    sure = _times(to.certainty)
    surer = f"; at least {aim.want}, {sure} times in 100" if sure > round(aim.sure * 100) + 1 else ""
    return f"About {roots}{live} live: {span}, nine times in ten{surer}."


def _losses(to: WayTo) -> str:
    root, pot, live = (round(each) for each in (to.losses.rooted, to.losses.potted, to.losses.alive))
    roots = "" if to.way.method.starts_rooted else f"about {root} root in time, "
    return (
        f"Of {to.start}, {roots}about {pot} come through potting and {live} are alive at planting: at least "
        f"as many as are wanted {_times(to.certainty)} times in 100."
    )


def _room(desk: Desk, each: Told) -> str:
    to, name = each.to, each.pot.value.name
    method = to.way.method
    wide = rooting_room_m2(method, to.start)
    pots = f"{each.pots} {several(name)}" if each.pots > 1 else f"1 pot ({name})"
    whose = {None: "", True: ", which you have free", False: "; your drawer has not so many free"}
    room = show_area(pot_room_m2(each.pot.value, each.pots), desk.units)
    also = "Straight into the ground, or " if method.starts_rooted else "Then "
    if wide:
        also = f"{show_area(wide, desk.units)} of bench, then "
    return f"{also}{pots} on {room}{whose[each.own_pots]}."


def mother_said(mother: Mother | None, name: str, in_care: int) -> str:
    """From which plant of the garden it is made, from stems in care, or that there are none of either."""
    if mother is None and in_care:
        return IN_CARE.format(name, "1 is" if in_care == 1 else f"{in_care} are")
    if mother is None:
        return NO_MOTHER.format(name)
    young = f" {YOUNG}" if mother.young else ""
    many = f" ({mother.count} plants)" if mother.count > 1 else ""
    return f"From your {mother.spoken}{many}.{young}"


def _piece(each: Told) -> str:
    if each.piece and start_of(each.to.way.method) is SPLIT:
        return f"Each piece is {each.piece}; see whether the clump gives so many."
    return ""


def _later(to: WayTo, today: date) -> str:
    if to.later is None:
        return ""
    when = _both(to.later.opens, to.later.start_by, today, "to")
    return f"The last chance after that is from {when}, with {to.later.start}."


def _sources(desk: Desk, to: WayTo) -> str:
    keys = (to.window.source, to.way.source_of("rooting_days"), to.way.source_of("take"))
    names = dict.fromkeys(desk.catalogue.reference(key) for key in keys if key)
    own = [f"{to.lots} of your own lots"] if to.lots else []
    return "; ".join([*names, *own])
