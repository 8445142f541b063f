"""Where lots could go: the sites ranked for one, or a joint plan for many; and spots held and let go."""

from time import monotonic
from typing import Any

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.drawings import write_drawing
from cuttings.commands.parsing import lot_in, number, site_in, whole
from cuttings.commands.placing import (
    Place,
    ranked,
    read_spot,
    setting_of,
    spot_words,
    wanted_for,
    warn_of_site,
    warn_of_spot,
)
from cuttings.commands.questions import which_lot
from cuttings.commands.spots_view import joint_page, one_page, plan_document, plans_svg
from cuttings.commands.taping import NOWHERE, Told, spot_by_tape
from cuttings.commands.terminal import Passing, no_chatter
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.ledger.places import Site
from cuttings.placement.match import Joint, Plan
from cuttings.placement.programme import State
from cuttings.placement.room import radius
from cuttings.placement.spots import Spot
from cuttings.words import LIVING, PLANTABLE

NO_HOLD = "none"

MOST_SPOTS = 3
"""How many positions on each site are offered to one lot."""

SECONDS = 30.0
"""How long a joint plan is worked on, unless the best is found sooner; time for a cup to be poured."""

ENOUGH = 1e-3
"""A joint plan this near the bound, as a share of it, is not worked on any more."""

GROUP = Question("group", "", whole(1, 99), allowed="1 to 99")
OVERLAP = Question("overlap", "", number(0, 50, "a percentage"))
WITHIN = Question("seconds", "", number(0, 3600, "a number of seconds"))


@click.command(help="Where a lot could go, best first; then hold a spot for it.")
@click.argument("lots", nargs=-1, metavar="[LOT]...")
@click.option("--all", "everything", is_flag=True, help="a joint plan for every lot that could be planted")
@click.option("--site", metavar="NAME", help="only that site")
@click.option("--group", metavar="N", help="plants of a lot stand together, so many in a group: 3 or 5")
@click.option("--overlap", metavar="PERCENT", help="the share of its width a plant may grow into another; 0")
@click.option("--seconds", metavar="N", help=f"work no longer on a joint plan; {SECONDS:g}")
@click.option("--svg", metavar="FILE", help="write the plans of the beds as a drawing")
@click.option("--hold", metavar="SPOT", help="keep that spot for the lot")
@click.option("--hold-all", is_flag=True, help="keep every spot of the joint plan")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="with --hold SITE: keep the place there")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@click.option("--release", metavar="SPOT", help="let a held spot go")
@global_options
@with_desk
def spot(desk: Desk, lots: tuple[str, ...], everything: bool, svg: str | None, **given: Any) -> None:
    if given["release"]:
        _release(desk, given["release"])
        return
    if not desk.book.sites:
        raise Refused("There are no sites yet; 'cuttings sites add' describes the first one.")
    told = desk.interview(given, [])
    site = told.given(Question("site", "", site_in(desk.book)))
    overlap = (told.given(OVERLAP) or 0.0) / 100.0
    chosen = _chosen(desk, lots, everything)
    if given["side"] and not given["tape"]:
        raise Misused("--side goes with --tape.")
    if given["hold"] or given["tape"]:
        if len(chosen) != 1:
            raise Misused("A spot is held for one lot; name just that lot with --hold.")
        if given["tape"]:
            _hold(desk, chosen[0], *spot_by_tape(desk, given))
        else:
            _hold(desk, chosen[0], told.ask(Question("hold", "", lambda text: read_spot(desk, text))))
    elif len(chosen) == 1 and not everything and told.given(GROUP) is None:
        count = min(max(_to_place(chosen[0]), 1), MOST_SPOTS)
        plan = ranked(desk, chosen[0], site, count=count, overlap=overlap)
        _draw(desk, svg, chosen, plan)
        _one(desk, chosen[0], plan)
    else:
        seconds = told.given(WITHIN)
        limit = SECONDS if seconds is None else seconds
        plan = _planned(desk, chosen, site, told.given(GROUP) or 1, overlap, limit)
        _draw(desk, svg, chosen, plan)
        _many(desk, chosen, plan, _hold_all(desk, plan) if given["hold_all"] else 0)


def _many(desk: Desk, lots: list[Lot], plan: Plan, held: int) -> None:
    """Show a joint plan, of which so many spots have just been held."""
    page = joint_page(desk, lots, {lot.code: _to_place(lot) for lot in lots}, plan)
    many = "1 spot is held." if held == 1 else f"{held} spots are held."
    page.row("Recorded", many, tone="accent", only_if=bool(held))
    if plan.plan:
        page.next_steps(
            "" if held else "'--hold-all' keeps these spots.",
            "'cuttings plant LOT --spot SPOT' when one goes in.",
        )
    desk.answer(page, plan_document(plan))


def _draw(desk: Desk, svg: str | None, lots: list[Lot], plan: Plan) -> None:
    if svg is not None:
        write_drawing(svg, plans_svg(desk, lots, plan))
        desk.remark(f"{svg} holds the plans of the beds.")


def _planned(
    desk: Desk, lots: list[Lot], site: Site | None, group: int, overlap: float, seconds: float
) -> Plan:
    """The best joint plan found in the time; Ctrl-C takes it as it stands."""
    setting = setting_of(desk, overlap)
    sites = [each for each in setting.garden if site is None or each.name == site.name]
    wanted = [wanted_for(desk, lot, _to_place(lot), group) for lot in lots]
    whole_plan = Joint(wanted, sites, list(desk.book.holds.values()), setting)
    began, last, passing = monotonic(), None, Passing()
    try:
        with no_chatter():
            for state in whole_plan.states():
                last = state
                passing.say(_so_far(state))
                if state.gap <= ENOUGH or monotonic() - began > seconds:
                    break
    except KeyboardInterrupt:
        if last is None:
            raise
        passing.done()
        desk.remark("Stopped; this is the best plan so far.")
    passing.done()
    assert last is not None
    return whole_plan.plan(last)


def _so_far(state: State) -> str:
    fit = f"fit {state.total:.1f} of at most {state.bound:.1f}, {state.gap:.1%} short"
    return f"{len(state.puts)} places, {fit}. Ctrl-C takes it as it is."


def _chosen(desk: Desk, codes: tuple[str, ...], everything: bool) -> list[Lot]:
    if everything:
        found = [lot for lot in desk.book.lots.values() if _to_place(lot)]
        if not found:
            raise Refused("No lot has stems that could be planted yet.")
        return found
    if codes:
        return [
            Interview({"lot": code}, [], None).ask(Question("lot", "", lot_in(desk.book))) for code in codes
        ]
    which = which_lot(desk, "For which lot?", *LIVING)
    return [desk.interview({}, [which]).ask(which)]


def _to_place(lot: Lot) -> int:
    return sum(lot.at(stage) for stage in PLANTABLE)


def _one(desk: Desk, lot: Lot, plan: Plan) -> None:
    page = one_page(desk, lot, plan)
    offered = [placed.spot for placed in plan.plan if placed.spot is not None]
    if desk.asker is None or not offered or desk.as_json:
        first = f"'cuttings spot {lot.code} --hold {offered[0].id}' keeps the first." if offered else ""
        page.next_steps(first)
        desk.answer(page, plan_document(plan))
        return
    desk.show(page)
    choices = (
        *(Choice(placed.spot.id, spot_words(desk, placed)) for placed in plan.plan if placed.spot),
        Choice(NO_HOLD, "no, thank you"),
    )
    answer = desk.asker.ask(Question("hold", "Hold a spot for it?", str, choices, default=NO_HOLD))
    if answer != NO_HOLD:
        _hold(desk, lot, read_spot(desk, answer))


def _hold_all(desk: Desk, plan: Plan) -> int:
    """Hold every spot of a plan that is not held yet; how many there were."""
    new = [
        _held(placed.lot, placed.spot, placed.spot.radius_m)
        for placed in plan.plan
        if placed.spot is not None and placed.spot.id not in desk.book.holds
    ]
    desk.write_all(e.HoldSpot, new)
    return len(new)


def _held(lot: str, spot: Spot, radius_m: float) -> dict[str, Any]:
    """What the entry of a held spot holds."""
    at = (spot.x, spot.y)
    return {"lot": lot, "site": spot.site, "spot": spot.id, "at": at, "radius_m": radius_m}


def _hold(desk: Desk, lot: Lot, wanted: Spot, told: Told = NOWHERE) -> None:
    if not lot.living:
        raise Refused(f"{lot.code} holds no stems that a spot could be kept for.")
    other = desk.book.holds.get(wanted.id)
    if other is not None:
        raise Refused(f"{wanted.id} is held for {other.lot} already; --release lets it go.")
    site = desk.book.sites[wanted.site]
    warn_of_site(desk, lot, site)
    warn_of_spot(desk, lot, Place(site, (wanted.x, wanted.y)))
    _, entry = desk.write(e.HoldSpot, **_held(lot.code, wanted, radius(wanted_for(desk, lot).plant)))
    steps = told.page.next_steps(f"'cuttings plant {lot.code} --spot {wanted.id}' when it goes in.")
    desk.recorded(
        f"{wanted.id} is held for {lot.code} {lot.plant_called}.",
        entry,
        steps,
        lot=lot.code,
        spot=wanted.id,
        by_tape=told.document,
    )


def _release(desk: Desk, spot_id: str) -> None:
    hold = desk.book.holds.get(spot_id)
    if hold is None:
        held = ", ".join(desk.book.holds) or "none"
        raise Refused(f"The spot '{spot_id}' is not held. Held spots: {held}.")
    _, entry = desk.write(e.ReleaseSpot, spot=spot_id)
    desk.recorded(f"{spot_id} is free again; it was held for {hold.lot}.", entry, lot=hold.lot, spot=spot_id)
