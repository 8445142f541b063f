"""Where a lot could go: the sites ranked, with the reasons for and against, and spots held."""

from typing import Any

import click

from cuttings.ask import Choice, Interview, Question
from cuttings.commands.desk import Desk, global_options, with_desk
from cuttings.commands.parsing import lot_in, site_in
from cuttings.commands.placing import (
    Place,
    plants_growing,
    ranked,
    read_spot,
    spot_words,
    wanted_for,
    warn_of_site,
    warn_of_spot,
)
from cuttings.commands.questions import which_lot
from cuttings.commands.taping import NOWHERE, Told, spot_by_tape
from cuttings.errors import Misused, Refused
from cuttings.ledger import entries as e
from cuttings.ledger.lots import Lot
from cuttings.placement.match import Placed, Plan, RefusedSite, joint
from cuttings.placement.room import radius
from cuttings.placement.spacing import spacing_count
from cuttings.placement.spots import Spot
from cuttings.show.page import Page
from cuttings.words import LIVING, PLANTABLE

NO_HOLD = "none"


@click.command(help="Where a lot could go, best first; then hold a spot for it.")
@click.argument("lots", nargs=-1, metavar="[LOT]...")
@click.option("--all", "everything", is_flag=True, help="a joint plan for every lot that could be planted")
@click.option("--site", metavar="NAME", help="only that site")
@click.option("--hold", metavar="SPOT", help="keep that spot for the lot")
@click.option("--tape", metavar='"A=3.20m B=4.75m"', help="with --hold SITE: keep the place there")
@click.option("--side", metavar="SIDE", help="left|right of the line from the first point to the second")
@click.option("--release", metavar="SPOT", help="let a held spot go")
@global_options
@with_desk
def spot(desk: Desk, lots: tuple[str, ...], everything: bool, **given: Any) -> None:
    if given["release"]:
        _release(desk, given["release"])
        return
    if not desk.book.sites:
        raise Refused("There are no sites yet; 'cuttings sites add' describes the first one.")
    site = desk.interview(given, []).given(Question("site", "", site_in(desk.book)))
    chosen = _chosen(desk, lots, everything)
    if given["side"] and not given["tape"]:
        raise Misused("--side goes with --tape.")
    if given["hold"] or given["tape"]:
        if len(chosen) != 1:
            raise Misused("A spot is held for one lot; name just that lot with --hold.")
        named = Question("hold", "", lambda text: read_spot(desk, text))
        if given["tape"]:
            _hold(desk, chosen[0], *spot_by_tape(desk, given))
        else:
            _hold(desk, chosen[0], desk.interview(given, []).ask(named))
    elif len(chosen) == 1 and not everything:
        _one(desk, chosen[0], ranked(desk, chosen[0], site))
    else:
        sites = [site] if site is not None else list(desk.book.sites.values())
        wanted = [wanted_for(desk, lot, _to_place(lot)) for lot in chosen]
        plan = joint(
            wanted, sites, desk.book.holds.values(), desk.climate, desk.units, known=plants_growing(desk)
        )
        desk.answer(_joint_page(desk, chosen, plan), _document(plan))


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
    page = Page().heading(f"Where {lot.code} {lot.plant_called} could go", "best first; 1 is a perfect fit")
    for placed in plan.plan:
        _offer(page, desk, placed)
    for refused in plan.refused:
        _refusal(page, refused)
    page.row("", "No site will take it.", only_if=not plan.plan)
    offered = [placed for placed in plan.plan if placed.spot is not None]
    holds = [hold.spot for hold in desk.book.holds.values() if hold.lot == lot.code]
    for held in holds:
        page.row("Held", f"{held} is held for it.")
    if desk.asker is None or not offered or desk.as_json:
        first = f"'cuttings spot {lot.code} --hold {_id(offered[0])}' keeps the first." if offered else ""
        page.next_steps(first)
        desk.answer(page, _document(plan))
        return
    desk.show(page)
    choices = (
        *(Choice(_id(placed), spot_words(desk, placed)) for placed in offered),
        Choice(NO_HOLD, "no, thank you"),
    )
    answer = desk.asker.ask(Question("hold", "Hold a spot for it?", str, choices, default=NO_HOLD))
    if answer != NO_HOLD:
        _hold(desk, lot, read_spot(desk, answer))


def _id(placed: Placed) -> str:
    return placed.spot.id if placed.spot is not None else ""


def _offer(page: Page, desk: Desk, placed: Placed) -> None:
    against = [f"But: {reason}" for reason in placed.against]
    against.append(_patch(desk, placed))
    page.row(
        f"{placed.score:.2f}",
        f"{spot_words(desk, placed)}  {_id(placed)}".rstrip(),
        " ".join(placed.for_),
        *against,
    )


def _patch(desk: Desk, placed: Placed) -> str:
    """How many of its kind a rectangle of that size would hold with nothing else in it."""
    site = desk.book.sites[placed.site]
    if placed.spot is None or site.length_m is None or site.depth_m is None:
        return ""
    many = spacing_count(site.length_m, site.depth_m, 2 * placed.spot.radius_m)
    return f"With nothing else in it, {site.name} would hold {many} of them." if many > 1 else ""


def _refusal(page: Page, refused: RefusedSite) -> None:
    page.row("no", refused.site or "nowhere", " ".join(refused.because),
             f"It would fit {refused.would_fit_if}." if refused.would_fit_if else "")  # fmt: skip


def _joint_page(desk: Desk, lots: list[Lot], plan: Plan) -> Page:
    page = Page().heading("Where they could all go", f"{len(plan.plan)} places")
    for lot in lots:
        mine = [placed for placed in plan.plan if placed.lot == lot.code]
        page.heading(f"{lot.code} {lot.plant_called}", f"{len(mine)} of {_to_place(lot)} have a place")
        for placed in mine:
            page.row(f"{placed.score:.2f}", f"{spot_words(desk, placed)}  {_id(placed)}".rstrip())
        for refused in plan.refused:
            if refused.lot == lot.code:
                _refusal(page, refused)
    page.gap()
    share = f"{plan.total:.2f} of at most {plan.bound:.2f}"
    page.row("Fit", f"{share}: at most {plan.gap:.0%} short of the best there could be.")
    return page


def _hold(desk: Desk, lot: Lot, wanted: Spot, told: Told = NOWHERE) -> None:
    if not lot.living:
        raise Refused(f"{lot.code} holds no stems that a spot could be kept for.")
    other = desk.book.holds.get(wanted.id)
    if other is not None:
        raise Refused(f"{wanted.id} is held for {other.lot} already; --release lets it go.")
    site = desk.book.sites[wanted.site]
    warn_of_site(desk, lot, site)
    warn_of_spot(desk, lot, Place(site, (wanted.x, wanted.y)))
    radius_m = radius(wanted_for(desk, lot).plant)
    _, entry = desk.write(
        e.HoldSpot, lot=lot.code, site=wanted.site, spot=wanted.id, at=(wanted.x, wanted.y), radius_m=radius_m
    )
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


def _document(plan: Plan) -> dict[str, Any]:
    return {
        "plan": [
            {
                "lot": placed.lot,
                "site": placed.site,
                "x": placed.spot.x if placed.spot else None,
                "y": placed.spot.y if placed.spot else None,
                "radius": placed.spot.radius_m if placed.spot else None,
                "score": round(placed.score, 4),
                "for": list(placed.for_),
                "against": list(placed.against),
                "spot": placed.spot.id if placed.spot else None,
            }
            for placed in plan.plan
        ],
        "refused": [
            {
                "lot": refused.lot,
                "site": refused.site,
                "because": list(refused.because),
                "would_fit_if": refused.would_fit_if or None,
            }
            for refused in plan.refused
        ],
        "total": round(plan.total, 4),
        "bound": round(plan.bound, 4),
        "gap": round(plan.gap, 4),
    }
